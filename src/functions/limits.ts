/**
 * What cells hold and what parameters accept: two tables that drive the argument checker. A new parameter is a row
 * here, never a check of its own.
 */
import {
  KG_PER_POUND,
  KPA_PER_PSI,
  L_PER_GALLON,
  M3_PER_CUBIC_YARD,
  M_PER_FOOT,
  MM_PER_INCH,
  MS_PER_MPH,
  type Units,
} from '../engine/units.js';

interface Scale {
  label: string;
  /** engine = (cell − zero) · factor */
  factor: number;
  zero?: number;
}
type Quantity = Readonly<Record<Units, Scale>>;

const both = (label: string): Quantity => ({
  US: { label, factor: 1 },
  SI: { label, factor: 1 },
});
const quantity = (us: string, usFactor: number, si: string, siFactor = 1): Quantity => ({
  US: { label: us, factor: usFactor },
  SI: { label: si, factor: siFactor },
});

/** What cells hold under each unit system, and how it becomes the engine's unit. */
export const QUANTITIES = {
  number: both(''),
  degrees: both('degrees'),
  hours: both('h'),
  minutes: both('min'),
  seconds: both('s'),
  energy: both('MJ/m²'),
  temperature: {
    US: { label: '°F', factor: 5 / 9, zero: 32 },
    SI: { label: '°C', factor: 1 },
  },
  wind: quantity('mph', MS_PER_MPH, 'm/s'),
  elevation: quantity('ft', M_PER_FOOT, 'm'),
  waterDepth: quantity('in', MM_PER_INCH, 'mm'),
  span: quantity('ft', M_PER_FOOT, 'm'),
  /** engine mm, cells in centimetres: bag depth, ball size */
  size: quantity('in', MM_PER_INCH, 'cm', 10),
  bore: quantity('in', MM_PER_INCH, 'mm'),
  /** engine m, cells in inches or centimetres: turns of a coil */
  spacing: quantity('in', MM_PER_INCH / 1000, 'cm', 0.01),
  volume: quantity('gal', L_PER_GALLON, 'L'),
  flow: quantity('gpm', L_PER_GALLON, 'L/min'),
  hoseRate: quantity('gal/h per 100 ft', L_PER_GALLON / (100 * M_PER_FOOT), 'L/h per m'),
  pressure: quantity('psi', KPA_PER_PSI, 'kPa'),
  weight: quantity('lb', KG_PER_POUND, 'kg'),
  /** engine mm/h */
  intake: quantity('in/h', MM_PER_INCH, 'mm/h'),
  /** engine m³ */
  heap: quantity('cubic yards', M3_PER_CUBIC_YARD, 'm³'),
} satisfies Record<string, Quantity>;
export type QuantityName = keyof typeof QUANTITIES;

/** What a parameter accepts, in the unit of the cell. */
export interface Limit {
  quantity: QuantityName;
  US: readonly [low: number, high: number];
  /** where the numbers differ from US */
  SI?: readonly [low: number, high: number];
  /** the low end itself is refused */
  above?: true;
  whole?: true;
  /** an optional 0 is a true zero here; elsewhere it is taken for a blank cell */
  zeroCounts?: true;
}

export const LIMITS = {
  temperature: { quantity: 'temperature', US: [-76, 140], SI: [-60, 60] },
  dewPoint: { quantity: 'temperature', US: [-112, 140], SI: [-80, 60] },
  latitude: { quantity: 'degrees', US: [-90, 90] },
  wind: { quantity: 'wind', US: [0, 100], SI: [0, 45], above: true },
  solar: { quantity: 'energy', US: [0, 50], above: true },
  elevation: { quantity: 'elevation', US: [-1400, 19000], SI: [-430, 5800], zeroCounts: true },
  et0: { quantity: 'waterDepth', US: [0, 0.9], SI: [0, 23], above: true },
  canopy: { quantity: 'span', US: [0, 300], SI: [0, 90], above: true },
  plantFactor: { quantity: 'number', US: [0, 1.5], above: true },
  siteFactor: { quantity: 'number', US: [0.1, 3] },
  rootSize: { quantity: 'size', US: [0, 1200], SI: [0, 3000], above: true },
  available: { quantity: 'number', US: [0, 0.6], above: true },
  depletion: { quantity: 'number', US: [0, 1], above: true },
  anyVolume: { quantity: 'number', US: [0, 1e7], above: true },
  demand: { quantity: 'number', US: [0, 1e6], above: true },
  rainGain: { quantity: 'number', US: [0, 1e6], zeroCounts: true },
  bagVolume: { quantity: 'volume', US: [0, 10000], SI: [0, 40000], above: true },
  bagLeft: { quantity: 'volume', US: [0, 10000], SI: [0, 40000], zeroCounts: true },
  holes: { quantity: 'number', US: [1, 100], whole: true },
  hole: { quantity: 'bore', US: [0.004, 4], SI: [0.1, 100] },
  bagDepth: { quantity: 'size', US: [0.1, 240], SI: [0.25, 600] },
  discharge: { quantity: 'number', US: [0.1, 1] },
  hours: { quantity: 'hours', US: [0, 10000], above: true },
  shareLeft: { quantity: 'number', US: [0, 0.99], zeroCounts: true },
  weight: { quantity: 'weight', US: [0, 2000], SI: [0, 900], above: true },
  usable: { quantity: 'number', US: [0, 1], above: true },
  draw: { quantity: 'number', US: [0, 1e6], zeroCounts: true },
  reserve: { quantity: 'number', US: [0, 0.99], zeroCounts: true },
  hoseLength: { quantity: 'span', US: [0, 5000], SI: [0, 1500], above: true },
  hoseRate: { quantity: 'hoseRate', US: [0, 2000], SI: [0, 250], above: true },
  pressure: { quantity: 'pressure', US: [0, 150], SI: [0, 1000], zeroCounts: true },
  ratedPressure: { quantity: 'pressure', US: [0, 150], SI: [0, 1000], above: true },
  exponent: { quantity: 'number', US: [0, 2], above: true },
  flow: { quantity: 'number', US: [0, 1e6], above: true },
  coil: { quantity: 'span', US: [0, 300], SI: [0, 90], above: true },
  spacing: { quantity: 'spacing', US: [0.5, 120], SI: [1, 300] },
  monthRain: { quantity: 'waterDepth', US: [0, 118], SI: [0, 3000], zeroCounts: true },
  monthDemand: { quantity: 'waterDepth', US: [0, 39], SI: [0, 1000], zeroCounts: true },
  soilStorage: { quantity: 'waterDepth', US: [0, 7.5], SI: [0, 190], above: true },
  dayRain: { quantity: 'waterDepth', US: [0, 78], SI: [0, 2000], zeroCounts: true },
  dayDemand: { quantity: 'waterDepth', US: [0, 1.18], SI: [0, 30], zeroCounts: true },
  /** the printed rows of the root-ball table */
  ballCaliper: { quantity: 'size', US: [0.5, 5], SI: [1.27, 12.7] },
  caliper: { quantity: 'size', US: [0, 120], SI: [0, 300], above: true },
  ballSize: { quantity: 'size', US: [0, 120], SI: [0, 300], above: true },
  container: { quantity: 'number', US: [1, 100] },
  months: { quantity: 'number', US: [0, 1200], zeroCounts: true },
  monthsNeeded: { quantity: 'number', US: [0, 1200], above: true },
  reach: { quantity: 'number', US: [0.1, 5] },
  baseDepletion: { quantity: 'number', US: [0, 1], above: true },
  depleted: { quantity: 'number', US: [0, 1e7], zeroCounts: true },
  stressDepletion: { quantity: 'number', US: [0, 0.95], above: true },
  mulchDepth: { quantity: 'size', US: [0, 24], SI: [0, 60], above: true },
  mulchRing: { quantity: 'span', US: [0, 300], SI: [0, 90], above: true },
  elapsed: { quantity: 'hours', US: [0, 10000], zeroCounts: true },
  halfTime: { quantity: 'hours', US: [0, 1000], above: true },
  steadyDraw: { quantity: 'number', US: [0, 1e6], above: true },
  seconds: { quantity: 'seconds', US: [0, 86400], above: true },
  pipeFlow: { quantity: 'flow', US: [0, 10000], SI: [0, 40000], above: true },
  pipeLength: { quantity: 'span', US: [0, 30000], SI: [0, 10000], above: true },
  pipeBore: { quantity: 'bore', US: [0.1, 24], SI: [2.5, 610] },
  roughness: { quantity: 'number', US: [60, 160] },
  outlets: { quantity: 'number', US: [0, 100000], whole: true, zeroCounts: true },
  someOutlets: { quantity: 'number', US: [1, 100000], whole: true },
  flowExponent: { quantity: 'number', US: [1, 2] },
  /** pressure at the inlet of a hose whose output was measured there */
  hosePressure: { quantity: 'pressure', US: [0, 150], SI: [0, 1000], above: true },
  evenness: { quantity: 'number', US: [0.01, 0.999] },
  coilHose: { quantity: 'span', US: [0, 30000], SI: [0, 10000], above: true },
  runMinutes: { quantity: 'minutes', US: [0, 10000], above: true },
  intakeRate: { quantity: 'intake', US: [0, 200], SI: [0, 5000], above: true },
  filmStorage: { quantity: 'waterDepth', US: [0, 4], SI: [0, 100], above: true },
  someVolume: { quantity: 'number', US: [0, 1e9], zeroCounts: true },
  tank: { quantity: 'number', US: [0, 1e6], above: true },
  setup: { quantity: 'minutes', US: [0, 600], zeroCounts: true },
  tierTop: { quantity: 'number', US: [0, 1e12], above: true },
  tierPrice: { quantity: 'number', US: [0, 1e6], zeroCounts: true },
  money: { quantity: 'number', US: [0, 1e9], zeroCounts: true },
  margin: { quantity: 'number', US: [0, 0.95], zeroCounts: true },
  /** where heat is a question; a blank cell, which some hosts hand over as 0, must not read as a cool day */
  airTemperature: { quantity: 'temperature', US: [40, 140], SI: [5, 60] },
  humidity: { quantity: 'number', US: [0, 1], above: true },
  /** where a class of a contract's size table begins */
  sizeFrom: { quantity: 'size', US: [0, 120], SI: [0, 300], zeroCounts: true },
  contractWater: { quantity: 'volume', US: [0, 10000], SI: [0, 40000], above: true },
  deficitDays: { quantity: 'number', US: [1, 366], whole: true },
  budget: { quantity: 'number', US: [0, 1e9], above: true },
  reading: { quantity: 'number', US: [0, 1e9], zeroCounts: true },
  termMonths: { quantity: 'number', US: [1, 600], whole: true },
  uncredited: { quantity: 'number', US: [0, 3660], whole: true, zeroCounts: true },
  concentration: { quantity: 'number', US: [0, 1e5], zeroCounts: true },
} satisfies Record<string, Limit>;
export type LimitName = keyof typeof LIMITS;

/** A cell's value in the engine's unit. */
export function toEngine(value: number, name: QuantityName, units: Units): number {
  const { factor, zero = 0 }: Scale = QUANTITIES[name][units];
  return (value - zero) * factor;
}

/** An engine value in the unit of the cell. */
export function toCell(value: number, name: QuantityName, units: Units): number {
  const { factor, zero = 0 }: Scale = QUANTITIES[name][units];
  return value / factor + zero;
}
