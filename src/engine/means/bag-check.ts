/** What a timed drain says about a bag: sound, clogged, or to be replaced. */
import { plain, within } from '../checks.js';
import { Problem } from '../problems.js';
import { openHoles } from './bag.js';

/** Published: a bag that is not empty within two days is faulty [h]. */
export const FAULTY_AFTER_HOURS = 48;
/** Assumption: a bag that drains as if it had a quarter more holes is torn or leaks [-]. */
export const LEAKING_FROM = 1.25;
/** Assumption: fewer than four fifths of the holes open is worth a flush [-]; less is within the error of a timing. */
export const CLOGGED_BELOW = 0.8;
/** A timing exactly on a border must not fall beyond it through rounding. */
export const ROUNDING = 1e-9;

export interface BagVerdict {
  verdict: 'ok' | 'flush' | 'replace';
  /** why, with the numbers */
  reason: string;
  /** time a full bag takes now [h] */
  fullHours: number;
  /** holes open now [-], not rounded */
  open: number;
}

/**
 * Verdict on a bag from a timing that began full. Full drain time T = hours/(1 − √left), open holes n = n0·T0/T:
 * T above two days: replace; n above 1.25 n0: replace; n below 0.8 n0: flush; else ok.
 *
 * @param count - holes when all are open, a whole number from 1
 * @param ratedHours - full drain time with all open [h], above 0
 * @param hours - time measured now [h], above 0
 * @param left - share of a full bag left at the end [-], 0 to below 1
 * @throws Problem outside those ranges
 * Source: Torricelli (`openHoles`); two days from the tree-bag guidance of a London borough council; shares assumed.
 */
export function bagVerdict(count: number, ratedHours: number, hours: number, left = 0): BagVerdict {
  within('share left', left, 0, 1);
  if (left >= 1) throw new Problem('the share left must be below 1');
  const open = openHoles(count, ratedHours, hours, left);
  const fullHours = hours / (1 - Math.sqrt(left));
  const times = `a full bag takes ${short(fullHours)} h, rated ${short(ratedHours)} h`;
  const state = (verdict: BagVerdict['verdict'], reason: string): BagVerdict => ({
    verdict,
    reason,
    fullHours,
    open,
  });
  if (fullHours > FAULTY_AFTER_HOURS * (1 + ROUNDING))
    return state('replace', `${times}; one not empty within ${FAULTY_AFTER_HOURS} h is faulty`);
  if (open > LEAKING_FROM * count * (1 + ROUNDING))
    return state(
      'replace',
      `${times}, as if ${short(open)} holes were open instead of ${count}; torn or leaking`,
    );
  if (open < CLOGGED_BELOW * count * (1 - ROUNDING))
    return state('flush', `${times}; ${openText(open, count)}`);
  return state('ok', `${times}; ${openText(open, count)}`);
}

function openText(open: number, count: number): string {
  if (open >= count) return count === 1 ? 'the hole is open' : `all ${count} holes seem open`;
  return count === 1
    ? `the hole seems ${short(100 * open)} % open`
    : `about ${short(open)} of ${count} holes seem open`;
}

/** Three figures; a stopwatch at a tree gives no more. */
const short = (value: number): string => plain(Number(value.toPrecision(3)));
