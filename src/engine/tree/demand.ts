/** Water a tree uses in a day. */
import { within } from '../checks.js';
import { L_PER_MM_M2 } from '../units.js';

/**
 * Plan area under a round canopy, A = π/4 · d².
 *
 * @param diameter - canopy diameter [m], 0…100
 * @returns area [m²]
 * @throws Problem outside that range
 * Source: geometry.
 */
export const canopyArea = (diameter: number): number =>
  (Math.PI / 4) * within('canopy diameter', diameter, 0, 100, 'm') ** 2;

/**
 * Water an established tree uses in a day, D = ET0 · PF · ks · A.
 *
 * @param et0 - reference ET [mm/day], 0…25
 * @param canopyM - canopy diameter [m], 0…100
 * @param pf - plant factor [-], 0…1.5
 * @param ks - site factor for reflected heat and wind [-], 0…3
 * @returns water [L/day]
 * @throws Problem outside those ranges
 * Source: ANSI/ASABE S623.1 (2017) and SLIDE rule 5; 1 mm on 1 m² is 1 L.
 */
export function dailyDemand(et0: number, canopyM: number, pf: number, ks = 1): number {
  within('ET0', et0, 0, 25, 'mm/day');
  within('plant factor', pf, 0, 1.5);
  within('site factor', ks, 0, 3);
  return et0 * pf * ks * canopyArea(canopyM) * L_PER_MM_M2;
}
