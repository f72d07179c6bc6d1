/** Size of a root zone and the water a tree may take from it before it suffers. */
import { positive, within } from '../checks.js';

/** Demand at which tabled depletion shares hold [mm/day] (FAO-56 Table 22). */
const TABLED_DEMAND = 5;

/**
 * Volume of an upright cylinder.
 *
 * @param diameterMm - diameter [mm], above 0
 * @param depthMm - depth [mm], above 0
 * @returns volume [L]
 * @throws Problem if a value is not positive
 * Source: geometry; 1 L = 10⁶ mm³.
 */
export function cylinderVolume(diameterMm: number, depthMm: number): number {
  positive('diameter', diameterMm, 'mm');
  positive('depth', depthMm, 'mm');
  return ((Math.PI / 4) * diameterMm ** 2 * depthMm) / 1e6;
}

/**
 * Readily available water of a soil volume, RAW = p · TAW (Eq. 83) with TAW = available share · volume (Eq. 82).
 *
 * @param volumeL - soil volume [L], 0 or more
 * @param available - available water, share of volume [-], 0…1
 * @param p - depletion allowed before stress [-], 0…1
 * @returns water [L]
 * @throws Problem outside those ranges
 * Source: FAO-56 Eq. 82, 83; one litre on one square metre is one millimetre.
 */
export function usableWater(volumeL: number, available: number, p: number): number {
  within('soil volume', volumeL, 0, 1e9, 'L');
  within('available water', available, 0, 1);
  within('depletion', p, 0, 1);
  return volumeL * available * p;
}

/**
 * Allowable depletion adjusted for demand, p = p(table) + 0.04 (5 − ETc), held to 0.1…0.8.
 *
 * @param base - tabled depletion share [-], 0…1
 * @param etcMmPerDay - demand of the day [mm/day], 0…30
 * @returns depletion share [-]
 * @throws Problem outside those ranges
 * Source: FAO-56 chapter 8, p. 162, and Table 22 footnote.
 */
export function adjustDepletion(base: number, etcMmPerDay: number): number {
  within('depletion', base, 0, 1);
  within('daily demand', etcMmPerDay, 0, 30, 'mm/day');
  return Math.min(0.8, Math.max(0.1, base + 0.04 * (TABLED_DEMAND - etcMmPerDay)));
}
