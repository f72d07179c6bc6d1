/** Bags that are out: fitted, last moved, leaking, stuck, off before winter. */
import { isoDate, type Day } from '../dates.js';

export const BAG_STATES = ['ok', 'leaking', 'stuck', 'torn', 'gone'] as const;
export type BagState = (typeof BAG_STATES)[number];

/** One bag on one tree. */
export interface BagRow {
  row: number;
  bag: string;
  tree: string;
  fitted: Day;
  /** last lifted and put back round the trunk; undefined: not since it was fitted */
  moved?: Day | undefined;
  /** last filled */
  filled?: Day | undefined;
  /** seen still full on that day */
  fullOn?: Day | undefined;
  state: BagState;
  off?: Day | undefined;
}

/** When a bag wants looking at; days of the office's own. */
export interface BagCare {
  /** days after which it is lifted, so that no bark stays wet [days] */
  moveDays: number;
  /** days after which a bag that is still full is reported [days] */
  fullDays: number;
  /** day by which all are off */
  offBy?: Day | undefined;
}

/**
 * Two days until a full bag is reported: a London borough's advice (seen). A month until it is lifted: common practice, no
 * source.
 */
export const BAG_CARE: BagCare = { moveDays: 30, fullDays: 2 };

export interface BagQuestion {
  row: number;
  kind: 'leaking' | 'stuck' | 'still full' | 'move' | 'off' | 'dates';
  sentence: string;
}

/** What to do about bags on a day, in the order of the rows. */
export function bagQuestions(
  bags: readonly BagRow[],
  asOf: Day,
  care: BagCare = BAG_CARE,
): BagQuestion[] {
  return bags.flatMap((bag) => {
    const found: BagQuestion[] = [];
    const say = (kind: BagQuestion['kind'], sentence: string): void => {
      found.push({ row: bag.row, kind, sentence });
    };
    const { fitted, moved, filled, fullOn, off, state, tree } = bag;
    if (off !== undefined && off < fitted)
      say('dates', `It came off ${tree} on ${isoDate(off)}, before it was fitted. Which day is right?`); // prettier-ignore
    if (off !== undefined && off <= asOf) return found;
    if (fitted > asOf || state === 'gone') return found;
    if (state === 'leaking' || state === 'torn')
      say('leaking', `It is ${state}: tape it or change it.`);
    if (state === 'stuck')
      say('stuck', 'It does not empty: flush it, or open a hole that a fold blocks.');
    if (filled !== undefined && fullOn !== undefined && fullOn - filled >= care.fullDays)
      say('still full', `Filled on ${isoDate(filled)}, it was still full on ${isoDate(fullOn)}: the holes are blocked.`); // prettier-ignore
    if (asOf - (moved ?? fitted) >= care.moveDays)
      say('move', `It has not been lifted since ${isoDate(moved ?? fitted)}: look at the bark and move it.`); // prettier-ignore
    if (care.offBy !== undefined && asOf >= care.offBy)
      say('off', `Take it off: rodents nest under bags in winter and strip the bark.`);
    return found;
  });
}
