/** Work that is bound to open hours: whether there are hours enough for it. */
import { intersect, union } from '../rules/rule-windows.js';
import type { RuleWindow } from '../rules/rule-types.js';
import { lengthOf, within } from './shift.js';

type Windows = readonly RuleWindow[];

/** Hours that some work may not leave. */
export interface Claim {
  /** within a crew's day [min of the day] */
  windows: Windows;
  /** which kinds of hours lie within them, by the index of the kind */
  binds: boolean[];
}

/** Most kinds of hours of one day that are told apart; more are joined, which is stricter. */
const MOST_KINDS = 8;

/**
 * Hours against which the work of a day is to be measured: every union of the kinds of hours its jobs have.
 *
 * Condition: for each of them, the work whose hours lie within it fits into it. For work that may be taken up and put down
 * again that is exactly what is needed and enough (Hall's condition of a transport problem: minutes of work against minutes
 * of the day), whether or not the kinds are nested; where they are, the unions are the kinds themselves.
 *
 * @param kinds - the hours of each job, within the crew's day; equal ones need not be given twice
 */
export function claimsOf(kinds: readonly Windows[]): Claim[] {
  const told = fewKinds(kinds);
  const unions = new Map<string, Windows>();
  for (const kind of new Map(told.map((windows) => [keyOf(windows), windows])).values())
    for (const made of [[], ...unions.values()]) {
      const both = union([...made, ...kind]);
      unions.set(keyOf(both), both);
    }
  return [...unions.values()].map((windows) => ({
    windows,
    binds: told.map((kind) => within(kind, windows)),
  }));
}

export const keyOf = (windows: Windows): string =>
  windows.map(({ start, end }) => `${start}-${end}`).join();

/**
 * The hours of each kind, at most MOST_KINDS unlike ones. Two that are joined keep only the hours they share, so that
 * nothing fits that would not fit if they were told apart.
 */
function fewKinds(kinds: readonly Windows[]): Windows[] {
  const told = [...kinds];
  const unlike = new Map(told.map((windows) => [keyOf(windows), windows]));
  while (unlike.size > MOST_KINDS) {
    const [a, b] = [...unlike].sort(([, x], [, y]) => lengthOf(y) - lengthOf(x));
    const shared = intersect(a![1], b![1]);
    for (const [key] of [a!, b!]) unlike.delete(key);
    unlike.set(keyOf(shared), shared);
    told.forEach((windows, k) => {
      if ([a![0], b![0]].includes(keyOf(windows))) told[k] = shared;
    });
  }
  return told;
}

/**
 * Minutes by which the work lacks open time, and where; 0 minutes when all of it fits.
 *
 * @param work - minutes of work of each kind of hours, in the order of `kinds`
 */
export function shortfall(
  kinds: readonly Windows[],
  work: readonly number[],
): { minutes: number; claim: Claim | undefined } {
  let worst: { minutes: number; claim: Claim | undefined } = { minutes: 0, claim: undefined };
  for (const claim of claimsOf(kinds)) {
    const bound = work.reduce((sum, minutes, k) => sum + (claim.binds[k] ? minutes : 0), 0);
    const minutes = bound - lengthOf(claim.windows);
    if (minutes > worst.minutes) worst = { minutes, claim };
  }
  return worst;
}
