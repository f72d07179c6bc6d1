/**
 * Rain that counts. A monthly formula must never meet a single storm, and the per-event rule must never
 * meet a monthly total: they answer different questions, so they are two functions with no common switch.
 */
import { within } from '../checks.js';
import { MM_PER_INCH } from '../units.js';

/** Usable soil storage the SCS table is entered with when nothing is known: 3 in [mm]. */
export const SCS_STORAGE = 3 * MM_PER_INCH;

/**
 * Effective rain of a month, USDA-SCS.
 *
 *   Pe = SF · (0.70917 P^0.82416 − 0.11556) · 10^(0.02426 ETc)      (2-84), inches
 *   SF = 0.531747 + 0.295164 D − 0.057697 D² + 0.003804 D³          (2-85), D in inches
 *
 * @param rain - rain of the month [mm], 0…3000
 * @param etc - crop water use of the month [mm], 0…1000
 * @param storage - usable soil storage D [mm], 0…190 (7.5 in)
 * @returns effective rain [mm], never below 0, never above `rain` or `etc`
 * @throws Problem outside those ranges
 * Source: USDA National Engineering Handbook part 623 chapter 2, Eq. 2-84 and 2-85; TR-21.
 */
export function monthlyEffectiveRain(rain: number, etc: number, storage = SCS_STORAGE): number {
  within('rain of the month', rain, 0, 3000, 'mm');
  within('water use of the month', etc, 0, 1000, 'mm');
  const d = within('soil storage', storage, 0, 7.5 * MM_PER_INCH, 'mm') / MM_PER_INCH;
  const storageFactor = 0.531747 + 0.295164 * d - 0.057697 * d ** 2 + 0.003804 * d ** 3;
  const inches =
    storageFactor *
    (0.70917 * (rain / MM_PER_INCH) ** 0.82416 - 0.11556) *
    10 ** (0.02426 * (etc / MM_PER_INCH));
  return Math.max(0, Math.min(inches * MM_PER_INCH, rain, etc));
}

/**
 * Effective rain of one day, the per-event rule: the first 0.1 in is lost, full credit to 1 in, two thirds of
 * the second inch, nothing above 2 in.
 *
 * @param rain - rain of the day [mm], 0…2000
 * @returns effective rain [mm], at most 39.8
 * @throws Problem outside that range
 * Source: Texas A&M AgriLife, TexasET, "Effective rainfall".
 */
export function dailyEffectiveRain(rain: number): number {
  within('rain of the day', rain, 0, 2000, 'mm');
  const inches = rain / MM_PER_INCH;
  const firstInch = Math.max(0, Math.min(inches, 1) - 0.1);
  const secondInch = Math.max(0, Math.min(inches, 2) - 1);
  return (firstInch + (2 / 3) * secondInch) * MM_PER_INCH;
}
