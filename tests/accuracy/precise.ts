/**
 * Tools of the independent computations: forty decimal digits, units from their definitions, quadrature, and
 * numbers that look random and are the same on every run.
 */
import { Decimal } from 'decimal.js';

export const Big = Decimal.clone({ precision: 40 });
export type Big = Decimal;
export const big = (value: Decimal.Value): Big => new Big(value);
export const PI = Big.acos(-1);
export const HALF = big('0.5');

export type Units = 'US' | 'SI';

/** One US unit in SI units, from the definitions and nothing else. */
const INCH = big('0.0254'); // [m], 1959
const FOOT = INCH.times(12);
const GALLON = INCH.times(10).pow(3).times(231); // 231 cubic inches, [L]
const POUND = big('0.45359237'); // [kg]
export const GRAVITY = big('9.80665'); // [m/s²]
const MILE = FOOT.times(5280);

/** One US cell unit in the SI cell unit of the same quantity; temperature is the one that is no factor. */
export const US_UNIT = {
  depth: INCH.times(1000), // in, mm
  size: INCH.times(100), // in, cm
  span: FOOT, // ft, m
  volume: GALLON, // gal, L
  flow: GALLON, // gpm, L/min
  pressure: POUND.times(GRAVITY).div(INCH.pow(2)).div(1000), // psi, kPa
  weight: POUND, // lb, kg
  speed: MILE.div(3600), // mph, m/s
  hoseRate: GALLON.div(FOOT.times(100)), // gal/h per 100 ft, L/h per m
  heap: FOOT.times(3).pow(3), // cubic yards, m³
} as const satisfies Record<string, Big>;
export type UnitName = keyof typeof US_UNIT;

/** A cell's number in the SI cell unit. */
export const toSi = (cell: number, unit: UnitName, units: Units): Big =>
  units === 'US' ? big(cell).times(US_UNIT[unit]) : big(cell);

/** An SI number in the cell's unit. */
export const fromSi = (value: Big, unit: UnitName, units: Units): Big =>
  units === 'US' ? value.div(US_UNIT[unit]) : value;

/** [°C] from a cell, through the absolute scales: 0 °F is 459.67 °R, 1 K is 1.8 °R. */
export const celsius = (cell: number, units: Units): Big =>
  units === 'US' ? big(cell).plus('459.67').div('1.8').minus('273.15') : big(cell);

/** Numbers from 0 to 1, the same on every run (mulberry32). */
export function sequence(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Draws arguments in the unit of the cell. */
export class Draw {
  constructor(
    private readonly next: () => number,
    readonly units: Units,
  ) {}

  /** a pure number */
  number = (low: number, high: number): number => low + (high - low) * this.next();
  whole = (low: number, high: number): number => Math.floor(this.number(low, high + 1));
  /** a cell whose SI value lies between the limits */
  cell = (unit: UnitName, low: number, high: number): number =>
    fromSi(big(this.number(low, high)), unit, this.units).toNumber();
  temperature = (low: number, high: number): number => {
    const value = this.number(low, high);
    return this.units === 'US' ? value * 1.8 + 32 : value;
  };
  /** three times of four the value, else left out */
  maybe = <T>(value: () => T): T | undefined => (this.next() < 0.75 ? value() : undefined);
  /** a date from 2000 to 2060 */
  date = (): number => this.whole(36526, 58440);
}

/** Nodes and weights of Gauss–Legendre quadrature on −1…1, by Newton on the Legendre polynomial. */
function legendre(n: number): { x: Big; w: Big }[] {
  return Array.from({ length: n }, (_, i) => {
    let x = big(Math.cos((Math.PI * (i + 0.75)) / (n + 0.5)));
    let slope = big(1);
    for (let round = 0; round < 7; round++) {
      let [before, now] = [big(1), x];
      for (let k = 2; k <= n; k++)
        [before, now] = [
          now,
          x
            .times(now)
            .times(2 * k - 1)
            .minus(before.times(k - 1))
            .div(k),
        ];
      slope = x.times(now).minus(before).times(n).div(x.times(x).minus(1));
      x = x.minus(now.div(slope));
    }
    return { x, w: big(2).div(big(1).minus(x.times(x)).times(slope).times(slope)) };
  });
}
const GAUSS = legendre(24);

/** ∫ f over a…b by Gauss–Legendre with 24 points; the caller cuts the range where f is not smooth enough. */
export function integral(f: (x: Big) => Big, a: Big, b: Big): Big {
  const half = b.minus(a).times(HALF);
  const middle = a.plus(b).times(HALF);
  return GAUSS.reduce(
    (sum, { x, w }) => sum.plus(w.times(f(middle.plus(half.times(x))))),
    big(0),
  ).times(half);
}

/** Nodes of double-exponential quadrature on 0…1, which bears a root or its reciprocal at either end. */
export const ENDS: readonly { x: Big; w: Big }[] = Array.from({ length: 137 }, (_, k) => {
  const step = big(1).div(16);
  const t = step.times(k - 68);
  const x = big(1).div(big(1).plus(Big.exp(PI.times(Big.sinh(t)).neg())));
  const rest = big(1).div(big(1).plus(Big.exp(PI.times(Big.sinh(t)))));
  return { x, w: step.times(PI).times(Big.cosh(t)).times(x).times(rest) };
});

/** Where f changes sign between low and high, to `digits` digits of the range, by halving. */
export function bisect(f: (x: Big) => Big, low: Big, high: Big, digits = 20): Big {
  const rising = f(high).gt(f(low));
  let [a, b] = [low, high];
  for (let i = 0; i < digits * 3.4; i++) {
    const middle = a.plus(b).times(HALF);
    if (f(middle).gt(0) === rising) b = middle;
    else a = middle;
  }
  return a.plus(b).times(HALF);
}

/** A function computed twice: what one call is given, and what it must show. */
export interface Oracle {
  /** in which form it is computed here, and by which publication */
  source: string;
  /** relative */
  tolerance: number;
  /** draws one call; undefined where the draw is of no use and shall be repeated */
  draw(draw: Draw): { args: unknown[]; expected: Big } | undefined;
}
export type Oracles = Readonly<Record<string, Oracle>>;
