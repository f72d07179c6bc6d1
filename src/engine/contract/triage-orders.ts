/** Who comes first when there is not enough: orders of published advice, which conflict, and two of an office's own. */
import { MM_PER_INCH } from '../units.js';
import { DAYS_PER_MONTH } from '../tree/establishment.js';
import type { Certainty, ReferenceTable } from '../reference-tables.js';
import type { Day } from '../dates.js';

/** What an order goes by; whatever is not known is undefined. */
export interface Standing {
  planted?: Day | undefined;
  caliper?: number | undefined; // [mm]
  /** a number of the office's own: money, benefit, points [any unit], above 0 */
  value?: number | undefined;
  /** days under stress it has had, or shows by its leaves [days] */
  stressDays?: number | undefined;
  /** the row says it is in poor health */
  poor?: boolean | undefined;
}

interface Rank {
  tier: number;
  worth: number;
}

interface Order {
  says: string;
  certainty: Certainty;
  source: string;
  /** what a row must say for the order to place it */
  needs: readonly (keyof Standing)[];
  rank: (tree: Standing, day: Day) => Rank;
}

/** "Planted in the last 2 to 3 years" [days]. */
const YOUNG_DAYS = 36 * DAYS_PER_MONTH;
/** Trunk from which an established tree is called large [mm]: 10 in. Assumption, the publications name no size. */
export const LARGE_TRUNK = 10 * MM_PER_INCH;

const isYoung = ({ planted }: Standing, day: Day): boolean =>
  planted !== undefined && day - planted <= YOUNG_DAYS;
const isLarge = (tree: Standing, day: Day): boolean =>
  !isYoung(tree, day) && (tree.caliper ?? 0) >= LARGE_TRUNK;
const isStressed = ({ stressDays }: Standing): boolean => (stressDays ?? 0) > 0;

/** Points of the office's score: a hundred at most. */
const scoreOf = (tree: Standing, day: Day): number =>
  1 + (isYoung(tree, day) ? 40 : 0) + (isLarge(tree, day) ? 30 : 0) + Math.min(30, (tree.stressDays ?? 0) * 3) - (tree.poor ? 1 : 0); // prettier-ignore

export const TRIAGE_ORDERS = {
  'new first': {
    says: 'trees planted in the last three years and trees visibly under stress first, then the rest; most trees of each',
    certainty: 'seen',
    source: 'Richardson, Texas, trees amidst water conservation, richardsontoday.com',
    needs: [],
    rank: (tree, day) => ({ tier: isYoung(tree, day) || isStressed(tree) ? 0 : 1, worth: 1 }),
  },
  'large first': {
    says: 'large established trees first, then those planted in the last three years, then the rest; of each those that cost most to replace, where a value is given',
    certainty: 'seen',
    source: 'Kansas State University, plant triage and watering, www.ksuhortnewsletter.org',
    needs: ['caliper'],
    rank: (tree, day) => ({
      tier: isLarge(tree, day) ? 0 : isYoung(tree, day) ? 1 : 2,
      worth: tree.value ?? 1,
    }),
  },
  'sound first': {
    says: 'trees in good health first; an old tree in poor health may be given up; most trees of each',
    certainty: 'seen',
    source: 'New Mexico State University, aces.nmsu.edu/ces/yard/2006/032506.html',
    needs: [],
    rank: (tree, day) => ({ tier: tree.poor && !isYoung(tree, day) ? 1 : 0, worth: 1 }),
  },
  value: {
    says: 'the greatest sum of value, such as shade, fruit, screening or the cost of replacing',
    certainty: 'secondary',
    source: 'Arizona, what to do about drought stress in trees, azdailysun.com',
    needs: ['value'],
    rank: (tree) => ({ tier: 0, worth: tree.value ?? 0 }),
  },
  stress: {
    says: 'trees that have had most days under stress first: the greatest sum of such days',
    certainty: 'common practice, no source',
    source: 'an order of the office',
    needs: ['stressDays'],
    rank: (tree) => ({ tier: isStressed(tree) ? 0 : 1, worth: tree.stressDays || 1 }),
  },
  score: {
    says: 'the greatest sum of points: 40 for planted in the last three years, 30 for large and established, 3 for each day under stress up to 30, 1 for being there and not in poor health',
    certainty: 'assumption',
    source: 'points of this model, to be replaced by a value of your own',
    needs: ['stressDays'],
    rank: (tree, day) => ({ tier: 0, worth: Math.max(0.5, scoreOf(tree, day)) }),
  },
} as const satisfies Record<string, Order>;
export type TriageOrder = keyof typeof TRIAGE_ORDERS;
export const TRIAGE_ORDER_NAMES = Object.keys(TRIAGE_ORDERS) as TriageOrder[];

/** What each column is called where it is lacking. */
const CALLED: Readonly<Record<keyof Standing, string>> = {
  planted: 'planting date', caliper: 'trunk size', value: 'value', stressDays: 'stress days', poor: 'condition',
}; // prettier-ignore

/**
 * Tier and worth of a tree by an order.
 *
 * @param day - the day it is asked for, to tell the age
 * @returns a sentence where the row lacks what the order goes by
 */
export function rankOf(order: TriageOrder, tree: Standing, day: Day): Rank | string {
  const { needs, rank }: Order = TRIAGE_ORDERS[order];
  const lacks = needs.find((key) => tree[key] === undefined);
  if (lacks) return `the order "${order}" goes by ${CALLED[lacks]}, which is blank`;
  const found = rank(tree, day);
  return found.worth > 0 ? found : `the order "${order}" needs a value above 0`;
}

export const TRIAGE_TABLES: readonly ReferenceTable[] = [
  {
    title: 'Orders of who is served first; they conflict',
    columns: ['Order', 'What it says'],
    rows: TRIAGE_ORDER_NAMES.map((order) => {
      const { says, certainty, source } = TRIAGE_ORDERS[order];
      return { cells: [order, says], certainty, source };
    }),
  },
];
