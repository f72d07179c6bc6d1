/** How long a planted tree takes to establish, and how far its roots have reached meanwhile. */
import { MM_PER_INCH } from '../units.js';
import { Problem } from '../problems.js';

/** Mean length of a month [day]. */
export const DAYS_PER_MONTH = 365.25 / 12;

/**
 * Months to establish for each inch of trunk diameter, by hardiness zone (lowest zone of each band).
 * Source: UF/IFAS, Gilman, establishment-period page (seen): 3 months in zones 9–11, 6 in 7–8, a year
 * or more in 2–6. Zones 12–13 read as 9–11 and zone 1 as 2–6.
 */
export const MONTHS_PER_INCH: readonly (readonly [fromZone: number, months: number])[] = [
  [9, 3],
  [7, 6],
  [1, 12],
];

/**
 * @param caliper - trunk diameter [mm]
 * @param zone - hardiness zone, 1…13 [-]
 * @returns months until the roots have reached the surrounding soil [month]
 * @throws Problem if the zone is not 1…13
 */
export function monthsToEstablish(caliper: number, zone: number): number {
  const band = MONTHS_PER_INCH.find(([from]) => Math.floor(zone) >= from);
  if (!band || zone >= 14) throw new Problem(`zone must be from 1 to 13; got ${zone}`);
  return (caliper / MM_PER_INCH) * band[1];
}

/**
 * Outer diameter of the irrigated root zone while roots spread:
 *   Dr(m) = Db + (De − Db)·min(1, m/M), never below Db.
 *
 * @param ball - ball diameter Db [m]
 * @param established - diameter when established De: reach × canopy [m]
 * @param months - since planting m [month]
 * @param needed - months to establish M [month]
 * @returns diameter [m]
 */
export function rootSpread(
  ball: number,
  established: number,
  months: number,
  needed: number,
): number {
  if (established <= ball) return ball;
  const share = needed > 0 ? Math.min(1, Math.max(0, months) / needed) : 1;
  return ball + (established - ball) * share;
}
