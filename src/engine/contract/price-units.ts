/**
 * One build-up of cost, shown in every unit that contracts pay by, and back: the same work has the same price whatever unit
 * it is written in.
 */
import { positive, within } from '../checks.js';
import { priceFor } from '../money/price.js';
import { Problem } from '../problems.js';
import { L_PER_GALLON } from '../units.js';

/** Cost of a season's service, and how much service it is. */
export interface BuildUp {
  trees: number;
  /** visits to a tree, all trees together */
  visits: number;
  litres: number; // [L]
  /** of whole crews [h] */
  crewHours: number;
  tankLoads: number;
  /** of the season: labour, travel, kit, everything but water [money] */
  work: number;
  /** water at the price of its source [money] */
  water: number;
  /** who pays the water bill */
  waterPaidBy: 'contractor' | 'client';
  /** share of the price that is left over the cost [-], 0 to below 1 */
  margin: number;
  /** least price of the whole job [money]; 0: none */
  minimum: number;
}

export const PRICE_UNITS = [
  'visit',
  'tree and season',
  'gallon',
  '1,000 gallons',
  'litre',
  'm³',
  'crew hour',
  'tank',
  'lump sum',
] as const;
export type PriceUnit = (typeof PRICE_UNITS)[number];

/** How many of a unit the build-up has. */
function quantityOf(build: BuildUp, unit: PriceUnit): number {
  switch (unit) {
    case 'visit':
      return build.visits;
    case 'tree and season':
      return build.trees;
    case 'gallon':
      return build.litres / L_PER_GALLON;
    case '1,000 gallons':
      return build.litres / L_PER_GALLON / 1000;
    case 'litre':
      return build.litres;
    case 'm³':
      return build.litres / 1000;
    case 'crew hour':
      return build.crewHours;
    case 'tank':
      return build.tankLoads;
    case 'lump sum':
      return 1;
  }
}

/** Price of the whole job [money]: cost ÷ (1 − margin), at least the minimum charge. @throws Problem outside the ranges */
export function jobPrice(build: BuildUp): number {
  const own = within('work', build.work, 0, 1e12);
  const water = build.waterPaidBy === 'contractor' ? within('water', build.water, 0, 1e12) : 0;
  return Math.max(within('minimum', build.minimum, 0, 1e12), priceFor(own + water, build.margin));
}

export interface PriceView {
  unit: PriceUnit;
  quantity: number;
  /** price of one [money], not rounded: rounding to cents is the sheet's */
  each: number;
  /** the minimum charge is what decides */
  minimum: boolean;
}

/**
 * The price in every unit the job has some of.
 *
 * @throws Problem if a cost, margin or minimum is out of range
 */
export function priceViews(build: BuildUp): PriceView[] {
  const total = jobPrice(build);
  const minimum = jobPrice({ ...build, minimum: 0 }) < build.minimum;
  return PRICE_UNITS.flatMap((unit) => {
    const quantity = quantityOf(build, unit);
    return quantity > 0 ? [{ unit, quantity, each: total / quantity, minimum }] : [];
  });
}

/**
 * Price of the whole job from the price of one unit.
 *
 * @param each - price of one [money], 0 or more
 * @throws Problem if the job has none of the unit
 */
export function totalFrom(build: BuildUp, unit: PriceUnit, each: number): number {
  const quantity = quantityOf(build, unit);
  if (!(quantity > 0)) throw new Problem(`this job has no ${unit}, so it cannot be priced by it`);
  return within('price', each, 0, 1e12) * quantity;
}

/** What a drought adds to the season. */
export interface Drought {
  /** visits to a tree more, all trees together */
  extraVisits: number;
  extraLitres: number; // [L]
  /** water above what the client pays for [L] */
  overage: number;
  /** price of water, and of overage [money per m³] */
  waterPrice: number;
  overPrice: number;
}

export interface DroughtScenario {
  name: 'contractor carries it' | 'client pays water' | 'client pays visits and water';
  says: string;
  /** what the client pays, and what of the cost the contractor is not paid [money] */
  client: number;
  contractor: number;
}

/**
 * A dry season by who bears it, side by side. Extra visits cost as much each as the season's own; the sums of client and
 * contractor cover the same cost and the same margin in all three.
 *
 * @throws Problem if a number is out of range, or the job has no visit to price extra ones by
 */
export function droughtScenarios(build: BuildUp, drought: Drought): DroughtScenario[] {
  positive('visits of the job', build.visits);
  const { extraVisits, extraLitres, overage, waterPrice, overPrice } = drought;
  for (const [name, value] of Object.entries(drought)) within(name, value as number, 0, 1e12);
  const base = jobPrice(build);
  const visitsCost = (build.work / build.visits) * extraVisits;
  const waterCost = (extraLitres / 1000) * waterPrice + (overage / 1000) * overPrice;
  const visitsPrice = priceFor(visitsCost, build.margin);
  return [
    {
      name: 'contractor carries it',
      says: 'Extra visits and water are in the price of the season, whatever the weather.',
      client: base,
      contractor: visitsCost + waterCost,
    },
    {
      name: 'client pays water',
      says: 'The client pays extra water and overage; extra visits are in the price.',
      client: base + waterCost,
      contractor: visitsCost,
    },
    {
      name: 'client pays visits and water',
      says: 'Extra visits are ordered and paid by the visit; the client pays their water and overage.',
      client: base + waterCost + visitsPrice,
      contractor: 0,
    },
  ];
}

/** A crew's day on its route. */
export interface RouteDay {
  hours: number; // [h]
  /** at a tree, and from one tree to the next [min] */
  minutesAtTree: number;
  minutesBetween: number;
  litresPerTree: number; // [L]
  /** what arrives on the trees of one filling [L] */
  tank: number;
  refillMinutes: number;
  /** from the yard and back [min] */
  yardMinutes: number;
}

/**
 * Trees a crew gets through in a day, refills included; the first load is brought from the yard.
 *
 * @returns trees, tank loads and gallons' worth of litres of that day
 * @throws Problem if a number is out of range or the day has no time for a tree
 * Source: definition; checked against a city's routes of 2011 (seen).
 */
export function treesInDay(route: RouteDay): { trees: number; loads: number; litres: number } {
  const { hours, minutesAtTree, minutesBetween, litresPerTree, tank, refillMinutes, yardMinutes } = route; // prettier-ignore
  positive('hours', hours, 'h');
  positive('minutes at a tree', minutesAtTree, 'min');
  positive('water for a tree', litresPerTree, 'L');
  positive('tank', tank, 'L');
  for (const [name, value] of Object.entries({ minutesBetween, refillMinutes, yardMinutes }))
    within(name, value, 0, 1440, 'min');
  const minutes = hours * 60 - yardMinutes;
  const needs = (trees: number): number =>
    trees * minutesAtTree + Math.max(0, trees - 1) * minutesBetween + Math.max(0, Math.ceil((trees * litresPerTree) / tank - 1e-9) - 1) * refillMinutes; // prettier-ignore
  let trees = 0;
  while (needs(trees + 1) <= minutes + 1e-9) trees++;
  if (trees === 0)
    throw new Problem('the day has no time for a single tree; give more hours or fewer minutes');
  const litres = trees * litresPerTree;
  return { trees, loads: Math.ceil(litres / tank - 1e-9), litres };
}
