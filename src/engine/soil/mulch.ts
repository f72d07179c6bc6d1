/** Mulch over a root zone. */
import { positive, within } from '../checks.js';
import { Problem } from '../problems.js';

/**
 * Mulch for a ring round a stem that is kept free, V = π/4 · (D² − d²) · depth.
 *
 * @param outer - diameter of the mulched circle D [m], above 0
 * @param depth - of the mulch [mm], above 0
 * @param clear - diameter kept free round the stem d [m], 0 or more, below `outer`
 * @returns loose mulch [m³]
 * @throws Problem outside those ranges
 * Source: geometry.
 */
export function mulchVolume(outer: number, depth: number, clear: number): number {
  positive('outer diameter', outer, 'm');
  positive('depth', depth, 'mm');
  within('clear diameter', clear, 0, outer, 'm');
  if (clear === outer) throw new Problem('the outer diameter must be above the clear diameter');
  return ((Math.PI / 4) * (outer ** 2 - clear ** 2) * depth) / 1000;
}
