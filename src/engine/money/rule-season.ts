/** What a published rule of thumb would give a tree over a season: the rule's amount on the rule's own days. */
import type { Day } from '../dates.js';
import { DAYS_PER_MONTH } from '../tree/establishment.js';
import { wateringByRule, type RuleName } from '../tree/rules-of-thumb.js';
import { MM_PER_INCH } from '../units.js';

/** A stretch of a schedule. Where a rule says "every 2 to 3 days", the least water is every 3, the most every 2. */
interface Phase {
  /** length [day] */
  days: number;
  /** days between waterings, for the least and for the most water [day] */
  every: { low: number; high: number };
}

interface Schedule {
  /** trees the rule speaks of: new ones until established, or every standing tree */
  covers: 'until established' | 'every tree';
  /** by trunk diameter, thin first */
  bands: { upTo: number; phases: Phase[] }[];
}

const each = (days: number, every: number, most = every): Phase => ({
  days: Math.round(days),
  every: { low: every, high: most },
});
const MONTH = DAYS_PER_MONTH;
const WEEKLY = each(1e6, 7);
const TWO_WEEKS = 14;

/** When each rule waters. Sources: the rows of RULES_OF_THUMB. */
const SCHEDULES: Readonly<Record<RuleName, Schedule>> = {
  florida: {
    covers: 'until established',
    bands: [
      { upTo: 2 * MM_PER_INCH, phases: [each(TWO_WEEKS, 1), each(2 * MONTH, 2), WEEKLY] },
      { upTo: 4 * MM_PER_INCH, phases: [each(MONTH, 1), each(3 * MONTH, 2), WEEKLY] },
      { upTo: Infinity, phases: [each(42, 1), each(5 * MONTH, 2), WEEKLY] },
    ],
  },
  minnesota: {
    covers: 'until established',
    bands: [{ upTo: Infinity, phases: [each(TWO_WEEKS, 1), each(70, 3, 2), WEEKLY] }],
  },
  extension: {
    covers: 'until established',
    bands: [{ upTo: Infinity, phases: [each(TWO_WEEKS, 1), each(2 * MONTH, 2), WEEKLY] }],
  },
  colorado: { covers: 'every tree', bands: [{ upTo: Infinity, phases: [WEEKLY] }] },
};

/** Waterings of a schedule between two ages, both inclusive, the first day of age 0 being watered. */
function wateringsBetween(
  phases: readonly Phase[],
  pick: 'low' | 'high',
  first: number,
  last: number,
): number {
  let count = 0;
  let start = 0;
  for (const { days, every } of phases) {
    const step = every[pick];
    const from = Math.max(0, Math.ceil((first - start) / step));
    const to = Math.floor((Math.min(last, start + days - 1) - start) / step);
    count += Math.max(0, to - from + 1);
    start += days;
  }
  return count;
}

/** A tree as a rule of thumb sees it. */
export interface RuleTree {
  /** trunk diameter [mm], above 0 */
  caliper: number;
  /** undefined: standing since nobody knows when, established */
  planted?: Day | undefined;
  /** months from planting until established [month] */
  monthsToEstablish: number;
}

export interface RuleSeason {
  /** days of the season the rule speaks of, inclusive */
  from: Day;
  to: Day;
  waterings: { low: number; high: number };
  /** for one tree and season, least and most [L] */
  low: number;
  high: number;
}

/**
 * Water a rule of thumb gives one tree over the days of a season it speaks of.
 *
 * A rule for new trees counts from planting and falls silent when the tree is established; a weekly rule for every tree
 * counts from the later of planting and the season's first day.
 *
 * @param seasonFrom - first day of the season
 * @param seasonTo - last day, inclusive
 * @returns undefined where the rule does not speak of the tree on any day of the season
 * @throws Problem if the caliper is not above 0
 * Source: the publication named in the rule's row of RULES_OF_THUMB.
 */
export function ruleSeason(
  rule: RuleName,
  tree: RuleTree,
  seasonFrom: Day,
  seasonTo: Day,
): RuleSeason | undefined {
  const { covers, bands } = SCHEDULES[rule];
  const { caliper, planted, monthsToEstablish } = tree;
  const onNew = covers === 'until established';
  if (onNew && planted === undefined) return undefined;
  const from = Math.max(seasonFrom, planted ?? seasonFrom);
  const lastNew = (planted ?? 0) + Math.ceil(monthsToEstablish * DAYS_PER_MONTH) - 1;
  const to = onNew ? Math.min(seasonTo, lastNew) : seasonTo;
  if (to < from) return undefined;
  const { phases } = bands.find(({ upTo }) => caliper <= upTo + 1e-9)!;
  const start = onNew ? planted! : from;
  const count = (pick: 'low' | 'high'): number =>
    wateringsBetween(phases, pick, from - start, to - start);
  const waterings = { low: count('low'), high: count('high') };
  const one = wateringByRule(caliper, rule);
  return { from, to, waterings, low: waterings.low * one.low, high: waterings.high * one.high };
}
