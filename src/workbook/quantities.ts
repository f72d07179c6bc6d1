/** Units a workbook shows, by what is measured. Everything behind is SI; a number is divided once. */
import {
  L_PER_GALLON,
  M3_PER_CUBIC_YARD,
  M_PER_FOOT,
  MM_PER_INCH,
  type Units,
} from '../engine/units.js';

interface Shown {
  unit: string;
  /** engine units in one of these [-] */
  factor: number;
}

/** Engine unit named after each quantity. */
export const QUANTITIES = {
  /** [mm] */
  trunk: { US: { unit: 'in', factor: MM_PER_INCH }, SI: { unit: 'cm', factor: 10 } },
  /** [mm] */
  ball: { US: { unit: 'in', factor: MM_PER_INCH }, SI: { unit: 'cm', factor: 10 } },
  /** [m], shown in the unit of `ball` so that both enter one formula */
  ring: { US: { unit: 'in', factor: MM_PER_INCH / 1000 }, SI: { unit: 'cm', factor: 0.01 } },
  /** [m] */
  canopy: { US: { unit: 'ft', factor: M_PER_FOOT }, SI: { unit: 'm', factor: 1 } },
  /** [mm] of water */
  depth: { US: { unit: 'in', factor: MM_PER_INCH }, SI: { unit: 'mm', factor: 1 } },
  /** [L] */
  volume: { US: { unit: 'gal', factor: L_PER_GALLON }, SI: { unit: 'L', factor: 1 } },
  /** [m³] of loose stuff */
  bulk: { US: { unit: 'yd³', factor: M3_PER_CUBIC_YARD }, SI: { unit: 'm³', factor: 1 } },
} as const satisfies Record<string, Record<Units, Shown>>;
export type Quantity = keyof typeof QUANTITIES;

export const unitOf = (quantity: Quantity, units: Units): string =>
  QUANTITIES[quantity][units].unit;

/** An engine value in the unit shown. */
export const shown = (quantity: Quantity, units: Units, value: number): number =>
  value / QUANTITIES[quantity][units].factor;
