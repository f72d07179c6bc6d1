/** What water costs where the price goes by blocks of volume. */
import { plain, within } from '../checks.js';
import { Problem } from '../problems.js';

export interface Tier {
  /** upper end of the block [any volume unit], Infinity for no limit */
  upTo: number;
  /** price of 1,000 volume units inside the block [money] */
  price: number;
  /** row of the person's table, counted from 1 */
  row: number;
}

/**
 * Cost of a volume: each block's share of it at that block's price.
 *
 * @param volume - [the unit of upTo], 0 or more
 * @param tiers - from the lowest block up, at least one
 * @returns cost [money], Σ volume in the block/1,000 · price
 * @throws Problem naming the row if the blocks do not ascend, a price is below 0, or the volume lies beyond the last
 * Source: definition of block rates as water utilities print them.
 */
export function tierCost(volume: number, tiers: readonly Tier[]): number {
  within('volume', volume, 0, 1e12);
  let cost = 0;
  let below = 0;
  for (const { upTo, price, row } of tiers) {
    if (!(upTo > below))
      throw new Problem(
        `tiers, row ${row}: "up to" must be above ${plain(below)}, where the tier before it ends; got ${plain(upTo)}`,
      );
    within(`tiers, row ${row}, price,`, price, 0, 1e6);
    cost += (Math.max(0, Math.min(volume, upTo) - below) / 1000) * price;
    below = upTo;
  }
  const last = tiers.at(-1);
  if (!last) throw new Problem('tiers has no row with a price');
  if (volume > last.upTo)
    throw new Problem(
      `tiers, row ${last.row}: the last tier ends at ${plain(last.upTo)} and volume is ${plain(volume)}; leave its "up to" blank if there is no limit, or add a row`,
    );
  return cost;
}
