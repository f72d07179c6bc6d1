/** Water through a meter, from its readings. */
import { plain, within } from '../checks.js';
import { Problem } from '../problems.js';
import { L_PER_GALLON, M_PER_FOOT } from '../units.js';

/** What a meter's numbers stand for. */
export const METER_UNITS = ['gal', '100 ft3', 'm3'] as const;
export type MeterUnit = (typeof METER_UNITS)[number];

/** Litres in one of a meter's units, from the definitions of gallon and foot. */
export const METER_LITRES: Readonly<Record<MeterUnit, number>> = {
  gal: L_PER_GALLON,
  '100 ft3': 100 * (10 * M_PER_FOOT) ** 3,
  m3: 1000,
};

/** Of a meter's whole range what one period may use after it has passed its highest number [-]. */
const ROLLED = 0.5;

/**
 * Units that passed a meter between two readings. A lower end reading means the meter has passed its highest number and
 * begun again: a meter has as many digits as its first reading shows. That is believed only where less than half its range was
 * used; else a reading is more likely wrong.
 *
 * @param begin - reading at the start [units of the meter], 0 or more
 * @param end - reading at the end [the same]
 * @param digits - digits before the point that the meter has, where they are known
 * @returns units used [the same], and whether the meter began again
 * @throws Problem outside those ranges; `none` where a reading must be wrong
 * Source: definition.
 */
export function unitsUsed(
  begin: number,
  end: number,
  digits?: number,
): { used: number; rolled: boolean } {
  within('begin', begin, 0, 1e12);
  within('end', end, 0, 1e12);
  if (end >= begin) return { used: end - begin, rolled: false };
  const range = 10 ** (digits ?? String(Math.floor(begin)).length);
  const used = range - begin + end;
  if (!(begin < range) || used >= ROLLED * range)
    throw new Problem(
      `end ${plain(end)} is below begin ${plain(begin)}, and a meter that has begun again would have used ${plain(used)} of its ${plain(range)}: a reading is more likely wrong`,
      'none',
    );
  return { used, rolled: true };
}

/** Water between two readings [L]. @throws Problem as `unitsUsed` */
export const meterLitres = (begin: number, end: number, unit: MeterUnit, digits?: number): number =>
  unitsUsed(begin, end, digits).used * METER_LITRES[unit];
