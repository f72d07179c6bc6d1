/**
 * Pressure and flow along a porous hose with a closed end: every metre gives q = q0 (P/P0)^x, and the water still in
 * the hose loses pressure by Hazen–Williams, dP/ds = K Q^m. Outflow falls from the inlet to the end.
 *
 * In shares of inlet pressure (p), of length (y, from the closed end) and of the flow without friction (u):
 *   du/dy = p^x, dp/dy = Λ u^m, u(0) = 0, p(1) = 1, Λ = loss at full flow without outlets ÷ inlet pressure.
 * Dividing the two gives a first integral, Λ u^(m+1)/(m+1) = (p^(1+x) − E)/(1+x) with E = p(0)^(1+x), and so the
 * length in closed form: with n = m + 1, α = x/(1+x), I(E) = ₂F₁(1, α; 1 + 1/n; 1 − E)
 *   1 = u(1) I(E),  Λ = n/(1+x) · (1 − E) I(E)^n.
 * Λ falls steadily as E grows, so one root finding in E solves the hose and none is needed for the longest run.
 * Where m x < 1, I(0) is finite: beyond the Λ it gives, the hose runs dry before its end.
 */
import { positive, within } from '../checks.js';
import { Problem } from '../problems.js';
import { FLOW_EXPONENT, frictionHead, pressureOfHead } from './pipe-flow.js';

export interface PorousHose {
  /** of the hose [m], above 0 */
  length: number;
  /** output of a short piece at `pressure` [L/h per m], above 0 */
  rate: number;
  /** at the inlet, and at which `rate` was measured [kPa], above 0 */
  pressure: number;
  /** inside diameter [mm], above 0 */
  bore: number;
  /** x, how output follows pressure [-], above 0, at most 2; about 1 for porous hose */
  exponent: number;
  /** Hazen–Williams coefficient [-], 60…160 */
  c: number;
}

export interface PorousHoseState {
  /** water taken at the inlet [L/min] */
  inletFlow: number;
  /** pressure at the closed end [kPa]; 0 where the end runs dry */
  endPressure: number;
  /** outflow of the last piece ÷ outflow of the first [-], 0…1 */
  evenness: number;
  /** low-quarter uniformity: mean outflow of the quarter that gets least ÷ mean outflow [-], 0…1 */
  lowQuarter: number;
}

const n = FLOW_EXPONENT + 1;
const BETA = 1 / n;
/** The two series meet where each gains a factor of 0.8 a term. */
const SERIES_BORDER = 0.2;
/** −ln E beyond which the end is taken as dry: its pressure is then below the least number a computer holds. */
const DRY = 1e8;
const BISECTIONS = 90;
/** Terms of the series in ¼ that reach the last figure a computer holds. */
const ABOVE_TERMS = 30;

/**
 * Flow, pressure and evenness of a porous hose that lies level and is closed at its end.
 *
 * @param hose - length, measured rate with its pressure, bore, exponent, roughness
 * @returns inlet flow, end pressure, outflow ratio, low-quarter uniformity; relative error below 1e-9, except that
 *   with an exponent under 0.5 the evenness is as steep near the length that runs dry as nature has it
 * @throws Problem if a value is outside its range
 * Source: Hazen–Williams with q = k·P^x (Wu and Gitlin 1974); closed form derived above, checked against marching.
 * Holds for turbulent flow; near the closed end the flow is slow and the formula only approximate, but little is lost there.
 */
export function porousHose(hose: PorousHose): PorousHoseState {
  checkHose(hose);
  positive('hose length', hose.length, 'm');
  const { length, rate, pressure, exponent } = hose;
  const logLoss = logLossOfMetre(hose) + n * Math.log(length);
  const depth = depthOfLoss(logLoss, exponent);
  // Below a thousandth the series of I is the better conditioned of two equal expressions of the inlet flow.
  const flowShare =
    logLoss < Math.log(1e-3)
      ? Math.exp(-logI(depth, exponent))
      : Math.exp((Math.log((-Math.expm1(-depth) * n) / (1 + exponent)) - logLoss) / n);
  return {
    inletFlow: ((rate * length) / 60) * flowShare,
    endPressure: depth >= DRY ? 0 : pressure * Math.exp(-depth / (1 + exponent)),
    evenness: depth >= DRY ? 0 : Math.exp((-depth * exponent) / (1 + exponent)),
    lowQuarter: 4 * flowOfLastPart(0.25, depth, flowShare, exponent),
  };
}

/**
 * Longest hose that gives its end at least a share of what it gives its start.
 *
 * @param hose - as for `porousHose`, without its length
 * @param evenness - outflow ratio asked, above 0, below 1 [-]
 * @returns length [m], explicit in the evenness; relative error below 1e-9
 * @throws Problem if a value is outside its range
 * Source: as `porousHose`.
 */
export function longestEven(hose: Omit<PorousHose, 'length'>, evenness: number): number {
  checkHose(hose);
  if (!(evenness > 0 && evenness < 1))
    throw new Problem(`evenness must be above 0 and below 1; got ${String(evenness)}`);
  // A hose of equal outflow stays even up to the length that runs dry, which DRY gives to the last figure.
  const depth = Math.min(DRY, (-Math.log(evenness) * (1 + hose.exponent)) / hose.exponent);
  return Math.exp((logLossOf(depth, hose.exponent) - logLossOfMetre(hose)) / n);
}

function checkHose({ rate, pressure, bore, exponent, c }: Omit<PorousHose, 'length'>): void {
  positive('hose rate', rate, 'L/h per m');
  positive('pressure', pressure, 'kPa');
  positive('bore', bore, 'mm');
  within('exponent', positive('exponent', exponent), 0, 2);
  within('roughness coefficient C', c, 60, 160);
}

/** ln Λ of a hose of 1 m; Λ goes with length^n. As a logarithm, since a tiny rate to the power 1.852 is lost. */
function logLossOfMetre({ rate, pressure, bore, c }: Omit<PorousHose, 'length'>): number {
  const atOneLitre = pressureOfHead(frictionHead(1, 1, bore, c));
  return Math.log(atOneLitre) + FLOW_EXPONENT * Math.log(rate / 60) - Math.log(pressure);
}

/** ln Λ for E = e^−depth, Λ = n/(1+x) (1 − E) I^n. Rises with depth. */
const logLossOf = (depth: number, x: number): number =>
  Math.log((-Math.expm1(-depth) * n) / (1 + x)) + n * logI(depth, x);

/** The depth −ln E that goes with ln Λ, by bisection in its logarithm; `DRY` where there is none. */
function depthOfLoss(logLoss: number, x: number): number {
  if (logLoss >= logLossOf(DRY, x)) return DRY;
  const logDepth = bisect(
    (log) => logLossOf(Math.exp(log), x),
    logLoss,
    Math.log(1e-300),
    Math.log(DRY),
  );
  return Math.exp(logDepth);
}

/** Where a rising function reaches a value, between two ends. */
function bisect(rising: (at: number) => number, value: number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let i = 0; i < BISECTIONS; i++) {
    const middle = (low + high) / 2;
    if (rising(middle) < value) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * ln I for E = e^−depth, I = ∫₀¹ (E + (1 − E) r^n)^−α dr = ₂F₁(1, α; 1+β; 1−E).
 * For small E the integral is split at s = r^n = 4E/(1 − E): below it a series by Pfaff's transformation, above it
 * the binomial series, so that both gain a constant factor a term whatever E is.
 */
function logI(depth: number, x: number): number {
  const alpha = x / (1 + x);
  if (Math.exp(-depth) >= SERIES_BORDER) return Math.log(series(alpha, -Math.expm1(-depth)));
  const logRest = Math.log1p(-Math.exp(-depth)); // ln(1 − E)
  const logSplit = Math.log(4) - depth - logRest; // ln of the split, 0 or less
  // ∫ below: split^β (E)^−α ₂F₁(α, β; 1+β; −4) = split^β (5E)^−α ₂F₁(1, α; 1+β; 4/5)
  const logBelow = BETA * logSplit + alpha * (depth - Math.log(5)) + Math.log(series(alpha, 0.8));
  // ∫ above: β (1−E)^−α Σ binom(−α, k) (E/(1−E))^k ∫ s^(β−α−k−1) ds from the split to 1, over e^logScale
  const logScale = Math.max(0, (BETA - alpha) * logSplit);
  let above = 0;
  let binomial = 1;
  for (let k = 0; k < ABOVE_TERMS; k++) {
    const logFactor = k * (logSplit - Math.log(4)) - logScale;
    above += binomial * powerIntegral(BETA - alpha - k, logSplit, logFactor);
    binomial *= (-alpha - k) / (k + 1);
  }
  const logAbove = Math.log(BETA * above) - alpha * logRest + logScale;
  const most = Math.max(logBelow, logAbove);
  return most + Math.log(Math.exp(logBelow - most) + Math.exp(logAbove - most));
}

/** e^logFactor · ∫ s^(d−1) ds from e^logSplit to 1; near d = 0 without losing figures. */
function powerIntegral(d: number, logSplit: number, logFactor: number): number {
  const change = d * logSplit;
  if (Math.abs(change) < 1e-12) return -Math.exp(logFactor) * logSplit;
  if (Math.abs(change) < 1) return (-Math.exp(logFactor) * Math.expm1(change)) / d;
  return (Math.exp(logFactor) - Math.exp(logFactor + change)) / d;
}

/** ₂F₁(1, α; 1+β; z) for z from 0 to 0.8: Σ (α)ₖ/(1+β)ₖ z^k, all terms above 0. */
function series(alpha: number, z: number): number {
  let sum = 1;
  let term = 1;
  for (let k = 0; term > sum * 1e-17; k++) {
    term *= ((alpha + k) / (1 + BETA + k)) * z;
    sum += term;
  }
  return sum;
}

/**
 * Flow that passes into the last part of the hose, as a share of the inlet flow.
 *
 * @param part - share of the length at the closed end, above 0, below 1
 * The last part is a hose of its own with the same end: y = u(1)·r·F^−α·I(E/F), F = E + (1 − E) r^n, r its share of
 * the inlet flow; solved for r by bisection.
 */
function flowOfLastPart(part: number, depth: number, flowShare: number, x: number): number {
  if (depth >= DRY) return flowOfDryEnd(part, flowShare, x);
  const alpha = x / (1 + x);
  const logRest = Math.log(-Math.expm1(-depth));
  const logPart = (logR: number): number => {
    const inflow = logRest + n * logR;
    const most = Math.max(-depth, inflow);
    const logF = most + Math.log(Math.exp(-depth - most) + Math.exp(inflow - most));
    return Math.log(flowShare) + logR - alpha * logF + logI(Math.max(0, depth + logF), x);
  };
  return Math.exp(bisect(logPart, Math.log(part), -Math.max(50, 2 * depth), 0));
}

/** The same where the end is dry: p = (share of the wet part)^((1+m)/(1−mx)), in closed form. */
function flowOfDryEnd(part: number, flowShare: number, x: number): number {
  const reach = 1 - (n * x) / (1 + x); // 1 − nα
  if (reach <= 0) return 0;
  const wet = flowShare / reach;
  const wetPart = part - (1 - wet);
  return wetPart <= 0 ? 0 : (wetPart / wet) ** (1 / reach);
}
