/** How long a store of water lasts under daily draws: one routine for root zones and gel pads. */
import { within } from './checks.js';
import type { Day } from './dates.js';
import { Problem } from './problems.js';

/** Days ahead that are searched with one draw for every day [days]. */
export const RUN_OUT_HORIZON = 400;

/**
 * The first day on which the summed draws reach an amount. The first draw is that of the day after `start`.
 *
 * @param start - day on which the store was full [day]
 * @param amount - to be drawn [any volume], above 0
 * @param draws - of each day after `start` [same unit per day], 0 or more; one value means every day
 * @param notReached - the sentence for the person if the draws do not reach the amount in that many days
 * @returns day
 * @throws Problem ("no answer") with that sentence; Problem if a draw is below 0 or there is none
 * Source: water balance, FAO-56 Eq. 85 with demand alone.
 */
export function dayDrawn(
  start: Day,
  amount: number,
  draws: readonly number[],
  notReached: (days: number) => string,
): Day {
  const [steady] = draws;
  if (steady === undefined) throw new Problem('draws must hold at least one number');
  const days = draws.length === 1 ? RUN_OUT_HORIZON : draws.length;
  // The last litre may be split into sums that miss it by rounding.
  const enough = amount * (1 - 1e-12);
  let drawn = 0;
  for (let i = 0; i < days; i++) {
    drawn += within('draw of a day', draws.length === 1 ? steady : (draws[i] ?? 0), 0, 1e9);
    if (drawn >= enough) return start + i + 1;
  }
  throw new Problem(notReached(days), 'none');
}
