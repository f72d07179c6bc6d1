/** How far salts in reclaimed or well water restrict its use on plants. */
import { within } from '../checks.js';
import type { Certainty } from '../reference-tables.js';

export const SALINITY_MEASURES = ['ec', 'tds', 'sar', 'chloride', 'boron'] as const;
/** What was measured in the water. */
export type SalinityMeasure = (typeof SALINITY_MEASURES)[number];
export type SalinityClass = 'none' | 'slight to moderate' | 'severe';

export interface SalinityRow {
  label: string;
  /** unit of both limits, "" for a pure number */
  unit: string;
  /** below it: none */
  low: number;
  /** above it: severe */
  high: number;
  certainty: Certainty;
  source: string;
}

const FAO29 =
  'FAO Irrigation and Drainage Paper 29 rev. 1 (1985) Table 1, limits in a published extract';
const row = (label: string, unit: string, low: number, high: number, note = ''): SalinityRow => ({
  label,
  unit,
  low,
  high,
  certainty: 'secondary',
  source: `${FAO29}${note}`,
});

/** Degree of restriction on use, surface watering. The third class is printed "severe" in two copies, "high" in one. */
export const SALINITY_LIMITS: Readonly<Record<SalinityMeasure, SalinityRow>> = {
  ec: row('electrical conductivity of the water', 'dS/m', 0.7, 3),
  tds: row('total dissolved solids', 'mg/L', 450, 2000),
  sar: row('sodium adsorption ratio, harm by sodium', '', 3, 9),
  chloride: row('chloride', 'meq/L', 4, 10, '; copies that print mg/L have the unit wrong'),
  boron: row('boron', 'mg/L', 0.7, 3),
};

/**
 * Class of restriction on use.
 *
 * @param value - [dS/m | mg/L | no unit | meq/L | mg/L, by what], 0 or more
 * @param what - the measure
 * @returns "none" below the lower limit, "severe" above the upper one; the limits themselves are "slight to moderate"
 * @throws Problem if the value is negative or not finite
 * Source: FAO-29 Table 1.
 */
export function salinityClass(value: number, what: SalinityMeasure): SalinityClass {
  const { low, high, unit } = SALINITY_LIMITS[what];
  within(what, value, 0, 1e6, unit);
  if (value < low) return 'none';
  return value > high ? 'severe' : 'slight to moderate';
}
