/**
 * A gel pad: hydrogel under mulch that is soaked, gives its water back slowly and must be soaked again. It is a
 * small store: it delays the next watering, it does not add water.
 */
import { positive, within } from '../checks.js';
import type { Day } from '../dates.js';
import { Problem } from '../problems.js';
import { dayDrawn } from '../run-out.js';

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

/** Time in which a dry pad takes up half of what it can [h], an assumption: gel charges in 1 to 24 h by grain size. */
export const PAD_HALF_TIME = 2;

/**
 * Water a dry pad has taken up after soaking, C (1 − 2^(−t/th)).
 *
 * @param volume - usable capacity C [L], above 0
 * @param hours - soaked [h], 0 or more
 * @param halfTime - th [h], above 0
 * @returns water [L]
 * @throws Problem outside those ranges
 * Source: first-order uptake, an assumption of this model.
 */
export function padCharge(volume: number, hours: number, halfTime = PAD_HALF_TIME): number {
  positive('volume', volume, 'L');
  within('hours', hours, 0, 1e5, 'h');
  positive('half time', halfTime, 'h');
  return volume * (1 - 2 ** (-hours / halfTime));
}

/**
 * Days until a full pad has fallen to its reserve at a steady draw, V (1 − reserve)/draw.
 *
 * @param volume - usable water V [any volume], above 0
 * @param draw - water drawn a day [same unit], above 0
 * @param reserve - share of the volume that must stay [-], 0 to below 1
 * @returns time [days], not rounded
 * @throws Problem outside those ranges
 * Source: water balance of the pad.
 */
export function padDays(volume: number, draw: number, reserve: number): number {
  positive('volume', volume);
  positive('draw', draw);
  checkReserve(reserve);
  return (volume * (1 - reserve)) / draw;
}

function checkReserve(reserve: number): void {
  if (!(reserve >= 0 && reserve < 1)) throw new Problem('reserve must be from 0 to below 1');
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
  return dayDrawn(
    charged,
    volume * (1 - reserve),
    draws,
    (days) => `the pad does not fall to its reserve within ${days} days`,
  );
}
