/** From what a job costs to what it is sold for. */
import { within } from '../checks.js';
import { Problem } from '../problems.js';

/**
 * Selling price that leaves a given share of itself over the cost.
 *
 * @param cost - [money], 0 or more
 * @param margin - share of the price, not of the cost [-], 0 or more, below 1
 * @returns price [same money], cost/(1 − margin)
 * @throws Problem outside those ranges
 * Source: definition of gross margin in bookkeeping.
 */
export function priceFor(cost: number, margin: number): number {
  within('margin', margin, 0, 1);
  if (margin === 1) throw new Problem('margin must be below 1: no price is all margin');
  return within('cost', cost, 0, 1e12) / (1 - margin);
}
