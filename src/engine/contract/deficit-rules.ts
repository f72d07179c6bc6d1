/**
 * Published rules for keeping standing trees through drought on little water. They differ 28-fold for one tree, so the
 * rule and its source stay with every number, and none is a default.
 */
import { positive, within } from '../checks.js';
import { DAYS_PER_MONTH } from '../tree/establishment.js';
import type { Certainty, ReferenceTable } from '../reference-tables.js';
import { L_PER_GALLON, MM_PER_INCH, M_PER_FOOT } from '../units.js';

interface DeficitRule {
  /** gallons for each inch of trunk at one watering */
  gallons: readonly [low: number, high: number];
  /** days from one watering to the next: fewest waterings first */
  days: readonly [longest: number, shortest: number];
  says: string;
  certainty: Certainty;
  source: string;
}

export const DEFICIT_RULES = {
  kansas: {
    gallons: [2, 2],
    days: [28, 14],
    says: '2 gal an inch every 2 to 4 weeks',
    certainty: 'secondary',
    source: 'Kansas Forest Service, as a newspaper quotes it',
  },
  texas: {
    gallons: [1, 2],
    days: [7, 7],
    says: '1 to 2 gal an inch a week, to keep a tree alive',
    certainty: 'seen',
    source: 'Richardson, Texas, trees amidst water conservation, richardsontoday.com',
  },
  california: {
    gallons: [10, 10],
    days: [DAYS_PER_MONTH, DAYS_PER_MONTH],
    says: '10 gal an inch a month',
    certainty: 'seen',
    source: 'watering trees during drought, Petaluma, California, releafpetaluma.org',
  },
  colorado: {
    gallons: [10, 10],
    days: [7, 7],
    says: '10 gal an inch a week; larger trees less often',
    certainty: 'secondary',
    source: 'Colorado State Forest Service, as a city quotes it, greeleygov.com',
  },
  georgia: {
    gallons: [2, 2],
    days: [1, 1],
    says: '2 gal an inch a day, to survive',
    certainty: 'seen',
    source: 'questions and answers on drought and oaks, Georgia, walterreeves.com',
  },
} as const satisfies Record<string, DeficitRule>;
export type DeficitRuleName = keyof typeof DEFICIT_RULES;
export const DEFICIT_RULE_NAMES = Object.keys(DEFICIT_RULES) as DeficitRuleName[];

/** Waterings that fall into some days when the first one is on the first day. */
const wateringsIn = (days: number, interval: number): number => Math.ceil(days / interval - 1e-9);

/**
 * Water for one standing tree over some days by a published deficit rule.
 *
 * @param diameter - trunk diameter [mm], above 0
 * @param days - whole waterings are counted, the first on the first day; 1 to 366
 * @returns least and most [L]; the same where the rule gives one number
 * @throws Problem outside those ranges
 * Source: the publication named in the rule's row.
 */
export function deficitLitres(
  diameter: number,
  rule: DeficitRuleName,
  days: number,
): { low: number; high: number } {
  const inches = positive('diameter', diameter, 'mm') / MM_PER_INCH;
  within('days', days, 1, 366, 'days');
  const { gallons, days: intervals } = DEFICIT_RULES[rule];
  const over = (k: 0 | 1): number =>
    inches * gallons[k] * wateringsIn(days, intervals[k]) * L_PER_GALLON;
  return { low: over(0), high: over(1) };
}

/** How far beyond the dripline water still goes [m]: "a few feet" in the publication, read as 3 ft. */
const BEYOND_DRIPLINE = 3 * M_PER_FOOT;

/**
 * The ring deficit water is laid on: from a third of the way between trunk and dripline to a little beyond the dripline.
 *
 * @param canopy - canopy diameter [m], above 0
 * @returns inner and outer diameter [m] and the area between them [m²]
 * @throws Problem if the canopy is not above 0
 * Source: Master Gardener Association of San Diego County (seen); "a few feet" read as 3 ft (assumption).
 */
export function deficitRing(canopy: number): { inner: number; outer: number; area: number } {
  const inner = positive('canopy', canopy, 'm') / 3;
  const outer = canopy + 2 * BEYOND_DRIPLINE;
  return { inner, outer, area: (Math.PI / 4) * (outer ** 2 - inner ** 2) };
}

/** One published rule beside what the model reckons for the same tree and days. */
export interface DeficitReading {
  rule: DeficitRuleName;
  low: number; // [L]
  high: number; // [L]
  /** depth on the ring at one watering [mm] */
  depth: readonly [low: number, high: number];
  /** water by the rule as a share of the model's [-]; undefined where the model asks for none */
  share: readonly [low: number, high: number] | undefined;
  says: string;
  certainty: Certainty;
  source: string;
}

/**
 * All published rules for one tree, beside the model's own water over the same days.
 *
 * @param diameter - trunk [mm]
 * @param canopy - diameter [m]
 * @param modelLitres - what the planner gives the tree in those days [L], 0 or more
 * @throws Problem outside the ranges of the rules and the ring
 */
export function deficitReadings(
  diameter: number,
  canopy: number,
  days: number,
  modelLitres: number,
): DeficitReading[] {
  const { area } = deficitRing(canopy);
  within('water by the model', modelLitres, 0, 1e9, 'L');
  const inches = diameter / MM_PER_INCH;
  return DEFICIT_RULE_NAMES.map((rule) => {
    const { gallons, says, certainty, source } = DEFICIT_RULES[rule];
    const { low, high } = deficitLitres(diameter, rule, days);
    const deep = (k: 0 | 1): number => (inches * gallons[k] * L_PER_GALLON) / area;
    return {
      rule, low, high, depth: [deep(0), deep(1)] as const, says, certainty, source,
      share: modelLitres > 0 ? ([low / modelLitres, high / modelLitres] as const) : undefined,
    }; // prettier-ignore
  });
}

export const DEFICIT_TABLES: readonly ReferenceTable[] = [
  {
    title: 'Deficit rules for standing trees in drought',
    columns: ['Rule', 'Low (gal per inch)', 'High (gal per inch)', 'What it says'],
    rows: DEFICIT_RULE_NAMES.map((rule) => {
      const { gallons, says, certainty, source } = DEFICIT_RULES[rule];
      return { cells: [rule, gallons[0], gallons[1], says], certainty, source };
    }),
  },
];
