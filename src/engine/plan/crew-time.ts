/**
 * What an hour of the crew is worth where hours are short: more than its wage, for the wage buys none on a full day. It
 * decides which means a tree gets; what a plan costs and is sold for stays what it is.
 */
import { Problem } from '../problems.js';
import type { MeansOutcome, Site } from './model.js';
import { kitCost, type Option } from './option.js';

/** An hour of the crew is worth its wage: what the site takes if nothing is said. */
export const CREW_TIME_WORTH = 1;

/**
 * What the crew's time costs in an outcome of separate visits: at the tree, its part of the drives and of the refills.
 *
 * labour = cost − kit − water
 *
 * @param outcome - of one tree and season, cost as the kernel counts it
 * @param sunk - kit paid for before, which the cost holds [money]
 * @returns [money]
 */
export function crewCost(
  { cost, litres }: Pick<MeansOutcome, 'cost' | 'litres'>,
  option: Option,
  site: Site,
  sunk = 0,
): number {
  return Math.max(0, cost - sunk - kitCost(option, site) - (litres / 1000) * site.waterPrice);
}

/**
 * The cost a means is chosen by: the crew's time counts `crewTimeWorth` times its wage.
 *
 * @returns [money]; the cost itself where an hour is worth its wage
 * @throws Problem if the worth is below 1
 */
export function weighedCost(
  outcome: Pick<MeansOutcome, 'cost' | 'litres'>,
  option: Option,
  site: Site,
  sunk = 0,
): number {
  const worth = site.crewTimeWorth ?? CREW_TIME_WORTH;
  if (worth === CREW_TIME_WORTH) return outcome.cost;
  if (!(worth > CREW_TIME_WORTH))
    throw new Problem(`an hour of the crew is worth ${worth} times its wage; a number from 1 is accepted`);
  return outcome.cost + (worth - 1) * crewCost(outcome, option, site, sunk);
} // prettier-ignore
