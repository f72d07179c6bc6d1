/**
 * A porous hose coiled round a tree. Output differs fourfold between hoses, so a measured rate is required and
 * there is no default for it anywhere.
 */
import { positive, within } from '../checks.js';
import { Problem } from '../problems.js';

/**
 * Inlet flow of a porous hose, Q = q L (P/P0)^x: every metre gives the measured rate, scaled to the pressure.
 * Friction along the hose is left out; it is small where the hose is short and gives little.
 *
 * @param length - [m], above 0
 * @param rate - measured output at the rated pressure [L/h per m], above 0
 * @param now.pressure - pressure at the inlet [kPa], 0 or more; without `now` the rated output is given
 * @param now.rated - pressure at which the rate was measured [kPa], above 0
 * @param now.exponent - x [-], about 1 for porous hose, 0…2
 * @returns flow [L/min]
 * @throws Problem outside those ranges
 * Source: emitter characteristic curve q = k·P^x (Wu and Gitlin 1974).
 */
export function porousHoseFlow(
  length: number,
  rate: number,
  now?: { pressure: number; rated: number; exponent?: number | undefined },
): number {
  positive('hose length', length, 'm');
  positive('hose rate', rate, 'L/h per m');
  const ratedFlow = (rate * length) / 60;
  if (!now) return ratedFlow;
  const { pressure, rated, exponent = 1 } = now;
  within('pressure', pressure, 0, 1500, 'kPa');
  positive('rated pressure', rated, 'kPa');
  within('exponent', exponent, 0, 2);
  return pressure === 0 ? 0 : ratedFlow * (pressure / rated) ** exponent;
}

/**
 * Time a hose must run.
 *
 * @param volume - water the soil shall keep [L], above 0
 * @param flow - [L/min], above 0
 * @param efficiency - share that reaches the root zone [-], above 0, at most 1
 * @returns time [min]
 * @throws Problem outside those ranges
 * Source: definition.
 */
export function runMinutes(volume: number, flow: number, efficiency: number): number {
  positive('volume', volume);
  positive('flow', flow);
  positive('efficiency', efficiency);
  return volume / (flow * within('efficiency', efficiency, 0, 1));
}

/**
 * Length of an Archimedean spiral r = r1 + sθ/2π, exact: with b = s/2π
 *   L = 1/(2b) · [r √(r² + b²) + b² asinh(r/b)], from r1 to r2.
 *
 * @param inner - diameter of the first turn [m], 0 or more
 * @param outer - diameter of the last turn [m], above `inner`
 * @param spacing - between turns [m], above 0
 * @returns hose length [m]
 * @throws Problem outside those ranges
 * Source: geometry.
 */
export function coilLength(inner: number, outer: number, spacing: number): number {
  within('inner diameter', inner, 0, 1000, 'm');
  if (!(outer > inner)) throw new Problem('the outer diameter must be above the inner diameter');
  const b = positive('spacing', spacing, 'm') / (2 * Math.PI);
  return spiralArc(outer / 2, b) - spiralArc(inner / 2, b);
}

/** Arc of the spiral r = bθ from its centre to radius r. */
const spiralArc = (r: number, b: number): number =>
  (r * Math.hypot(r, b) + b ** 2 * Math.asinh(r / b)) / (2 * b);

/**
 * Outer diameter a hose covers when it is laid as that spiral: `coilLength` solved for its outer end by Newton's
 * method. The arc is convex in r and r1² + 2bL is never below r2², so the steps come down on the root from above
 * and cannot leave the bracket.
 *
 * @param length - of hose [m], above 0
 * @param inner - diameter of the first turn [m], 0 or more
 * @param spacing - between turns [m], above 0
 * @returns diameter [m], relative error below 1e-12
 * @throws Problem outside those ranges
 * Source: geometry.
 */
export function coilDiameter(length: number, inner: number, spacing: number): number {
  positive('hose length', length, 'm');
  within('inner diameter', inner, 0, 1000, 'm');
  const b = positive('spacing', spacing, 'm') / (2 * Math.PI);
  const first = inner / 2;
  const arc = spiralArc(first, b) + length;
  let outer = Math.sqrt(first ** 2 + 2 * b * length);
  for (let i = 0; i < 100; i++) {
    const next = outer - ((spiralArc(outer, b) - arc) * b) / Math.hypot(outer, b);
    if (!(next < outer)) break; // from above: no step down is left but rounding
    outer = Math.max(first, next);
  }
  return 2 * outer;
}

/** Water the ground holds on its surface without running off [mm]: a quarter inch, assumption. */
export const FILM_STORAGE = 6.35;

/** Distance between the turns of a coil [m]: one foot, assumption; water moves about half of it to each side. */
export const COIL_SPACING = 0.3048;

/**
 * Ground a coil wets: every metre of hose serves a strip as wide as the spacing of the turns.
 *
 * @param length - of hose [m], 0 or more
 * @returns area [m²]
 */
export const coiledArea = (length: number): number => length * COIL_SPACING;

export interface Cycles {
  cycles: number;
  onMinutes: number; // each [min]
  offMinutes: number; // between two [min]
}

/**
 * Cycle and soak: on as long as the surface can store what the soil cannot yet take, off until that film is gone,
 * so on ≤ storage/(rate − intake), off = (rate − intake) · on/intake, and the on-times add up to the run.
 *
 * @param minutes - run needed [min], above 0
 * @param rate - application rate over the wetted area [mm/h], above 0
 * @param intake - basic intake rate of the soil [mm/h], above 0
 * @param storage - water the surface holds without running off [mm], above 0
 * @returns one cycle without pause where the soil takes the water as it comes
 * @throws Problem if a value is not positive
 * Source: water balance of the surface film; practice of a Southern Nevada utility (three runs of four minutes).
 */
export function cyclesAndSoak(
  minutes: number,
  rate: number,
  intake: number,
  storage: number,
): Cycles {
  positive('minutes', minutes, 'min');
  positive('rate', rate, 'mm/h');
  positive('intake', intake, 'mm/h');
  positive('surface storage', storage, 'mm');
  const excess = rate - intake;
  if (excess <= 0) return { cycles: 1, onMinutes: minutes, offMinutes: 0 };
  const longest = (storage / excess) * 60;
  // A run of exactly one longest cycle must not become two through rounding.
  const cycles = Math.max(1, Math.ceil(minutes / longest - 1e-9));
  const onMinutes = minutes / cycles;
  return { cycles, onMinutes, offMinutes: cycles === 1 ? 0 : (excess * onMinutes) / intake };
}
