/** Sizes of nursery stock: root balls by caliper, ball depth, container classes. Data in tables, with provenance. */
import { L_PER_GALLON, MM_PER_INCH, M_PER_FOOT } from '../units.js';
import { Problem } from '../problems.js';
import type { Certainty } from '../reference-tables.js';

/**
 * Least root-ball diameter by caliper, shade trees [in, in].
 * Source: ANSI Z60.1-2014 section 1 (from memory; a municipal copy of a simplified chart agrees within 1 in).
 */
export const BALL_BY_CALIPER: readonly (readonly [caliper: number, ball: number])[] = [
  [0.5, 12], [0.75, 14], [1, 16], [1.25, 18], [1.5, 20], [1.75, 22], [2, 24], [2.5, 28],
  [3, 32], [3.5, 38], [4, 42], [4.5, 48], [5, 54],
]; // prettier-ignore

/** A nursery container class, its true volume [US gal] and where that comes from. */
interface Container {
  class: number;
  gallons: number;
  certainty: Certainty;
  source: string;
}

const container = (
  name: number,
  gallons: number,
  certainty: Certainty,
  source: string,
): Container => ({ class: name, gallons, certainty, source });

const MEASURED = 'HortScience 39(3):591 (2004), measured volume';
const RANGE = 'ANSI Z60.1-2014, middle of the range of cubic inches';

/** True volume of container classes. */
export const CONTAINERS: readonly Container[] = [
  container(1, 0.98, 'seen', MEASURED),
  container(2, 1.98, 'seen', MEASURED),
  container(3, 2.97, 'memory', RANGE),
  container(5, 3.84, 'secondary', 'nursery glossary'),
  container(7, 5.79, 'seen', MEASURED),
  container(10, 10.2, 'memory', RANGE),
  container(15, 13.4, 'seen', MEASURED),
  container(20, 20.9, 'memory', RANGE),
  container(25, 27.6, 'seen', MEASURED),
  container(45, 45, 'memory', `${RANGE}; low confidence`),
  container(65, 65, 'memory', `${RANGE}; low confidence`),
  container(100, 100, 'memory', `${RANGE}; low confidence`),
];
const CONTAINER_GALLONS = CONTAINERS.map((each) => [each.class, each.gallons] as const);

/** Usual caliper of stock in a container class [class, in]. From memory, regional. */
export const CONTAINER_CALIPER: readonly (readonly [container: number, caliper: number])[] = [
  [1, 0.3], [5, 0.6], [7, 0.8], [15, 1.25], [30, 1.75], [45, 2.25], [65, 2.75], [100, 3.75],
]; // prettier-ignore

/** Ball depth as a share of its diameter: up to 20 in, up to 30 in, above. UF/IFAS ball-depth page, seen. */
export const DEPTH_SHARES: readonly (readonly [below: number, share: number])[] = [
  [20, 0.75],
  [30 + 1e-9, 0.66],
  [Infinity, 0.6],
];

/** Height of a container as a share of its diameter [-]: assumption of this model. */
export const CONTAINER_HEIGHT_SHARE = 0.9;

/** Straight-line reading between the rows of a table, held at its ends. */
export function interpolate(table: readonly (readonly [number, number])[], x: number): number {
  const first = table[0];
  const last = table.at(-1);
  if (!first || !last) throw new Problem('an empty table cannot be read');
  if (x <= first[0]) return first[1];
  for (let i = 1; i < table.length; i++) {
    const [x0, y0] = table[i - 1]!;
    const [x1, y1] = table[i]!;
    if (x <= x1) return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
  }
  return last[1];
}

/**
 * Least root-ball diameter for a caliper, read between the rows of the table and held at its ends
 * (12 in below 1/2 in, 54 in above 5 in: a standing tree has no larger ball that matters here).
 *
 * @param caliper - trunk diameter [mm]
 * @returns ball diameter [mm]
 */
export const ballDiameter = (caliper: number): number =>
  interpolate(BALL_BY_CALIPER, caliper / MM_PER_INCH) * MM_PER_INCH;

/**
 * Least ball depth for a ball diameter.
 *
 * @param diameter - of the ball [mm]
 * @returns depth [mm]
 */
export function ballDepth(diameter: number): number {
  const inches = diameter / MM_PER_INCH;
  for (const [below, share] of DEPTH_SHARES) if (inches < below) return diameter * share;
  throw new Problem(`a ball diameter must be a number; got ${diameter}`);
}

/** True volume of a nursery container class, read between the rows of the table [L]. A #5 is not 5 gallons. */
export function containerVolume(container: number): number {
  if (!(container > 0) || container > 1000)
    throw new Problem(`container class must be a number from 1 to 1000; got ${container}`);
  const [largest] = CONTAINER_GALLONS.at(-1)!;
  const gallons =
    container > largest || container < 1 ? container : interpolate(CONTAINER_GALLONS, container);
  return gallons * L_PER_GALLON;
}

/** Diameter and depth [mm] of a cylinder with a container's volume [L] and usual proportions. */
export function containerBall(volume: number): { diameter: number; depth: number } {
  // V = pi/4 d² (s d), 1 L = 1e6 mm³
  const diameter = Math.cbrt((volume * 1e6 * 4) / (Math.PI * CONTAINER_HEIGHT_SHARE));
  return { diameter, depth: diameter * CONTAINER_HEIGHT_SHARE };
}

/** Usual caliper of stock in a container class [mm]; from memory, so always flagged as estimated. */
export const containerCaliper = (container: number): number =>
  interpolate(CONTAINER_CALIPER, container) * MM_PER_INCH;

/**
 * Canopy diameter estimated from the trunk, an assumption of this model, always flagged:
 * d[ft] = 1 + 2 cal[in] up to 4 in, 4 + 1.25 cal above, held at 100 ft.
 *
 * @param caliper - trunk diameter [mm]
 * @returns canopy diameter [m]
 */
export function canopyFromCaliper(caliper: number): number {
  const inches = caliper / MM_PER_INCH;
  const feet = inches <= 4 ? 1 + 2 * inches : 4 + 1.25 * inches;
  return Math.min(feet, 100) * M_PER_FOOT;
}

/** The same relation read backwards [m → mm], for a row that gives a canopy and no trunk. */
export function caliperFromCanopy(canopy: number): number {
  const feet = canopy / M_PER_FOOT;
  const inches = feet <= 9 ? (feet - 1) / 2 : (feet - 4) / 1.25;
  return Math.max(inches, 0.25) * MM_PER_INCH;
}
