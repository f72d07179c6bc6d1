/** Establishment and warranty: when a term began, which days count, when it is over, what is due. */
import { positive, within } from '../checks.js';
import { Problem } from '../problems.js';
import { isoDate, type Day } from '../dates.js';
import { monthsAfter } from './clauses.js';

/**
 * The day a warranty or establishment term is over: some months after it began, and as many days later as were not
 * credited. A replacement starts the term again.
 *
 * @param planted - day of planting
 * @param months - of the term, a whole number from 1 to 600
 * @param uncredited - days of inadequate work since the start, which do not count, 0 or more
 * @param restart - day of the replacement, from which the whole term runs again
 * @throws Problem outside those ranges, or if the restart lies before planting
 * Source: definition; restart on replacement as in a city rule of Eugene, Oregon (seen), uncredited days as in a state's
 * standard specifications (seen in a mirror).
 */
export function warrantyEnd(
  planted: Day,
  months: number,
  uncredited = 0,
  restart: Day | undefined = undefined,
): Day {
  within('months', months, 1, 600);
  within('uncredited', uncredited, 0, 3660, 'days');
  if (restart !== undefined && restart < planted)
    throw new Problem(
      `restart must be on or after ${isoDate(planted)}, when the tree was planted; got ${isoDate(restart)}`,
    );
  return monthsAfter(restart ?? planted, months) + uncredited;
}

/** What a tree's clock is made from. */
export interface ClockInput {
  planted: Day;
  /** of the term */
  months: number;
  /** stretches of inadequate work, both ends included, which do not count */
  uncredited?: readonly { from: Day; to: Day }[];
  /** days on which it was replaced */
  replaced?: readonly Day[];
  /** inspections after so many months of the term */
  inspections?: readonly number[];
  /** inspections that were made */
  inspected?: readonly Day[];
}

export interface Clock {
  start: Day;
  end: Day;
  restarts: number;
  /** days that count, up to the day asked about [days] */
  credited: number;
  /** days since the start that do not [days] */
  uncredited: number;
  /** days still to serve [days] */
  left: number;
  over: boolean;
  /** inspections by their day, and whether one was made from the month before it to the month after */
  inspections: { due: Day; state: 'made' | 'due' | 'coming' }[];
}

/** Days an inspection may come early or late [days]. */
const INSPECTION_GRACE = 30;

/** Days of stretches from `from` on up to `to`, overlapping ones counted once. */
function daysIn(stretches: readonly { from: Day; to: Day }[], from: Day, to: Day): number {
  let days = 0;
  let reached = from - 1;
  for (const stretch of [...stretches].sort((a, b) => a.from - b.from)) {
    const first = Math.max(stretch.from, reached + 1);
    const last = Math.min(stretch.to, to);
    if (last < first) continue;
    days += last - first + 1;
    reached = last;
  }
  return days;
}

/**
 * A tree's clock on a day.
 *
 * @param asOf - the day asked about
 * @throws Problem as `warrantyEnd`, or if a stretch ends before it begins
 */
export function clockOf(input: ClockInput, asOf: Day): Clock {
  const {
    planted,
    months,
    uncredited = [],
    replaced = [],
    inspections = [],
    inspected = [],
  } = input;
  const wrong = uncredited.find(({ from, to }) => to < from);
  if (wrong)
    throw new Problem(`days not credited run from ${isoDate(wrong.from)} to ${isoDate(wrong.to)}; the end must come after`); // prettier-ignore
  const restarts = replaced.filter((day) => day <= asOf);
  const start = Math.max(planted, ...restarts);
  const lost = daysIn(uncredited, start, asOf);
  const end = warrantyEnd(planted, months, lost, restarts.length > 0 ? start : undefined);
  const gone = Math.max(0, Math.min(asOf, end) - start);
  const credited = Math.max(0, gone - lost);
  return {
    start,
    end,
    restarts: restarts.length,
    credited,
    uncredited: lost,
    left: Math.max(0, end - Math.max(asOf, start)),
    over: asOf >= end,
    inspections: inspections.map((month) => {
      const due = monthsAfter(start, month);
      const made = inspected.some((day) => Math.abs(day - due) <= INSPECTION_GRACE);
      return { due, state: made ? 'made' : asOf >= due ? 'due' : 'coming' };
    }),
  };
}

/** Share of the canopy died back from which a contract may call a tree dead [-]: a 2009 specification (seen). */
export const DEAD_SHARE = 0.25;

/**
 * Dead by the contract's definition: the leader has died, or so much of the canopy has died back.
 *
 * @param diedBack - share of the canopy [-], 0 to 1
 * @param leaderDead - the leader has died
 * @param share - the contract's own share [-], above 0, at most 1
 * @throws Problem outside those ranges
 * Source: a specification of 2009; a trade association found no standard, so the share is the contract's to set.
 */
export function deadBy(diedBack: number, leaderDead: boolean, share: number = DEAD_SHARE): boolean {
  within('share died back', diedBack, 0, 1);
  positive('share', share);
  return leaderDead || diedBack >= within('share', share, 0, 1) - 1e-9;
}
