/** Published rules of gallons by trunk size. They conflict; each is shown for what it is, none is a default. */
import { positive } from '../checks.js';
import type { Certainty } from '../reference-tables.js';
import { L_PER_GALLON, MM_PER_INCH } from '../units.js';

/** Gallons for each inch of trunk diameter at a watering, and how often the rule waters. */
interface RuleOfThumb {
  low: number;
  high: number;
  /** how often, as the rule says */
  often: string;
  certainty: Certainty;
  source: string;
}

export const RULES_OF_THUMB = {
  florida: {
    low: 2,
    high: 3,
    often:
      'to 2 in: daily 2 weeks, alternate days 2 months, then weekly; to 4 in: daily 1 month, alternate days ' +
      '3 months, then weekly; above: daily 6 weeks, alternate days 5 months, then weekly',
    certainty: 'seen',
    source: 'UF/IFAS, irrigation of newly planted trees',
  },
  minnesota: {
    low: 1,
    high: 1.5,
    often: 'daily in weeks 1 and 2, every 2 to 3 days in weeks 3 to 12, then weekly',
    certainty: 'seen',
    source: 'University of Minnesota Extension, watering newly planted trees and shrubs',
  },
  extension: {
    low: 1.5,
    high: 1.5,
    often: 'daily 2 weeks, alternate days 2 months, then weekly',
    certainty: 'seen',
    source: 'eXtension, trees for energy conservation',
  },
  colorado: {
    low: 10,
    high: 10,
    often: 'weekly, established trees without irrigation; larger ones less often',
    certainty: 'secondary',
    source: 'Colorado State Forest Service, as quoted by a city',
  },
} as const satisfies Record<string, RuleOfThumb>;
export type RuleName = keyof typeof RULES_OF_THUMB;
export const RULE_NAMES = Object.keys(RULES_OF_THUMB) as RuleName[];

/**
 * Water for one watering by a rule of thumb, in proportion to trunk diameter.
 *
 * @param caliper - trunk diameter [mm], above 0
 * @param rule - which rule
 * @returns least and most [L]; the same where the rule gives one number
 * @throws Problem if the caliper is not above 0
 * Source: the publication named in the rule's row.
 */
export function wateringByRule(caliper: number, rule: RuleName): { low: number; high: number } {
  const inches = positive('caliper', caliper, 'mm') / MM_PER_INCH;
  const { low, high } = RULES_OF_THUMB[rule];
  return { low: inches * low * L_PER_GALLON, high: inches * high * L_PER_GALLON };
}
