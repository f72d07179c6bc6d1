/** How long a planted tree takes to establish, and how far its roots have reached meanwhile. */
import { MM_PER_INCH } from '../units.js';
import { Problem } from '../problems.js';
import type { Certainty } from '../reference-tables.js';

/** Mean length of a month [day]. */
export const DAYS_PER_MONTH = 365.25 / 12;

/** Months to establish for each inch of trunk diameter, in a band of hardiness zones. */
interface EstablishmentBand {
  from: number;
  to: number;
  months: number;
  certainty: Certainty;
  source: string;
}

const band = (
  from: number,
  to: number,
  months: number,
  certainty: Certainty,
  source: string,
): EstablishmentBand => ({ from, to, months, certainty, source });

const GILMAN = 'UF/IFAS, Gilman, establishment period';

/** Warm zones first. Months of zones 1 to 6 are the least. */
export const ESTABLISHMENT: readonly EstablishmentBand[] = [
  band(12, 13, 3, 'assumption', 'as zones 9 to 11'),
  band(9, 11, 3, 'seen', GILMAN),
  band(7, 8, 6, 'seen', GILMAN),
  band(2, 6, 12, 'seen', `${GILMAN}: a year or more`),
  band(1, 1, 12, 'assumption', 'as zones 2 to 6'),
];

/**
 * @param caliper - trunk diameter [mm]
 * @param zone - hardiness zone, 1…13 [-]
 * @returns months until the roots have reached the surrounding soil [month]
 * @throws Problem if the zone is not 1…13
 * Source: UF/IFAS, Gilman, establishment period.
 */
export function monthsToEstablish(caliper: number, zone: number): number {
  const found = ESTABLISHMENT.find(({ from }) => Math.floor(zone) >= from);
  if (!found || zone >= 14) throw new Problem(`zone must be from 1 to 13; got ${zone}`);
  return (caliper / MM_PER_INCH) * found.months;
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
