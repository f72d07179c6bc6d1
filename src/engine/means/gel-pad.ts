/**
 * A gel pad: hydrogel under mulch that is soaked, gives its water back slowly and must be soaked again. It is a
 * small store: it delays the next watering, it does not add water.
 */
import { positive, within } from '../checks.js';
import type { Day } from '../dates.js';
import { Problem } from '../problems.js';

/** Days ahead that are searched before the answer is "not in sight" [days]. */
export const RECHARGE_HORIZON = 400;

/**
 * Usable water of a pad from two weighings, (saturated − dry) · usable share; 1 kg of water is 1 L.
 *
 * @param saturated - weight after soaking in the water it will get [kg]
 * @param dry - weight before [kg], above 0, below `saturated`
 * @param usable - share that roots can draw [-], above 0, at most 1
 * @returns water [L]
 * @throws Problem outside those ranges
 * Source: definition; gel takes up a tenth to a half in hard or salty water, so it is weighed, never computed.
 */
export function padVolume(saturated: number, dry: number, usable: number): number {
  positive('dry weight', dry, 'kg');
  positive('usable share', usable);
  within('usable share', usable, 0, 1);
  if (!(saturated > dry && saturated < Infinity))
    throw new Problem('the saturated weight must be above the dry weight');
  return (saturated - dry) * usable;
}

/**
 * Water a dry pad has taken up after soaking, C (1 − 2^(−t/th)).
 *
 * @param volume - usable capacity C [L], above 0
 * @param hours - soaked [h], 0 or more
 * @param halfTime - th [h], above 0; 2 by assumption
 * @returns water [L]
 * @throws Problem outside those ranges
 * Source: first-order uptake, an assumption of this model.
 */
export function padCharge(volume: number, hours: number, halfTime = 2): number {
  positive('volume', volume, 'L');
  within('hours', hours, 0, 1e5, 'h');
  positive('half time', halfTime, 'h');
  return volume * (1 - 2 ** (-hours / halfTime));
}

/**
 * Day a pad must be soaked again: the first day on which its store has fallen to the reserve. The pad is full at
 * the end of the day it was charged; the first draw is the day after.
 *
 * @param charged - day of the last soaking [day]
 * @param volume - usable water [any volume], above 0
 * @param draws - water drawn on each day after [same unit per day], 0 or more; one value means every day
 * @param reserve - share of the volume that must stay [-], 0 to below 1
 * @returns day
 * @throws Problem ("no answer") if the draws given, or 400 days, do not reach the reserve
 * Source: water balance of the pad.
 */
export function rechargeDate(
  charged: Day,
  volume: number,
  draws: readonly number[],
  reserve: number,
): Day {
  positive('volume', volume);
  if (!(reserve >= 0 && reserve < 1)) throw new Problem('reserve must be from 0 to below 1');
  const [steady] = draws;
  if (steady === undefined) throw new Problem('draws must hold at least one number');
  const days = draws.length === 1 ? RECHARGE_HORIZON : draws.length;
  let drawn = 0;
  // The last litre may be split into sums that miss it by rounding.
  const usable = volume * (1 - reserve) * (1 - 1e-12);
  for (let i = 0; i < days; i++) {
    drawn += within('draw of a day', draws.length === 1 ? steady : (draws[i] ?? 0), 0, 1e9);
    if (drawn >= usable) return charged + i + 1;
  }
  throw new Problem(`the pad does not fall to its reserve within ${days} days`, 'none');
}
