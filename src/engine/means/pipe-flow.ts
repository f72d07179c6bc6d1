/** Friction in hoses and pipes by Hazen–Williams, and the allowance for outlets along the way. */
import { positive, within } from '../checks.js';
import { Problem } from '../problems.js';
import { GRAVITY, L_PER_GALLON, MM_PER_INCH } from '../units.js';

/** Exponent of flow in the Hazen–Williams formula [-]. */
export const FLOW_EXPONENT = 1.852;

/**
 * Friction head, hf = 0.2083 (100/C)^1.852 q^1.852/d^4.8655 per 100 of length, q in gpm, d in inches.
 *
 * @param flow - [L/min], 0 or more
 * @param length - [m], above 0
 * @param bore - inside diameter [mm], above 0
 * @param c - Hazen–Williams coefficient [-], 60…160; 140 for a smooth hose, about 130 for old rubber
 * @returns head [m of water]
 * @throws Problem outside those ranges
 * Source: Hazen–Williams, US form. Holds for water near 15 °C in turbulent flow.
 */
export function frictionHead(flow: number, length: number, bore: number, c = 140): number {
  checkPipe(flow, length, bore, c);
  const gpm = flow / L_PER_GALLON;
  const per100 =
    (0.2083 * (100 / c) ** FLOW_EXPONENT * gpm ** FLOW_EXPONENT) / (bore / MM_PER_INCH) ** 4.8655;
  return (per100 * length) / 100;
}

/**
 * Friction head, the SI form as printed: hf = 10.67 L Q^1.852/(C^1.852 d^4.87), Q in m³/s, d in m. For
 * cross-checking only: its exponent of the bore is rounded otherwise than the US form's, so it reads 0.7 % lower
 * on garden hose and 1.5 % lower at 3 in, and the worked examples follow the US form.
 *
 * @param flow - [L/min]; length [m]; bore [mm]; c as in `frictionHead`
 * @returns head [m of water]
 * @throws Problem outside the ranges of `frictionHead`
 * Source: Hazen–Williams, SI form.
 */
export function frictionHeadSi(flow: number, length: number, bore: number, c = 140): number {
  checkPipe(flow, length, bore, c);
  const q = flow / 60_000;
  return (10.67 * length * q ** FLOW_EXPONENT) / (c ** FLOW_EXPONENT * (bore / 1000) ** 4.87);
}

/** Pressure of a head of water [kPa from m]; density 1 kg/L. */
export const pressureOfHead = (head: number): number => head * GRAVITY;

function checkPipe(flow: number, length: number, bore: number, c: number): void {
  within('flow', flow, 0, 1e6, 'L/min');
  positive('length', length, 'm');
  positive('bore', bore, 'mm');
  within('roughness coefficient C', c, 60, 160);
}

/**
 * Christiansen's factor: friction in a line with equal outlets as a share of friction without them,
 *   F = 1/(m + 1) + 1/(2N) + √(m − 1)/(6N²), not above 1.
 *
 * @param outlets - N, a whole number from 1; the first sits one full spacing from the inlet
 * @param m - exponent of flow [-], 1…2
 * @returns factor [-]; the formula gives 1.005 for one outlet, which is capped to 1
 * @throws Problem outside those ranges
 * Source: Christiansen (1942).
 */
export function outletFactor(outlets: number, m = FLOW_EXPONENT): number {
  if (!Number.isInteger(outlets) || outlets < 1)
    throw new Problem(`outlets must be a whole number from 1; got ${String(outlets)}`);
  within('flow exponent', m, 1, 2);
  return Math.min(1, 1 / (m + 1) + 1 / (2 * outlets) + Math.sqrt(m - 1) / (6 * outlets ** 2));
}
