/**
 * A slow-release bag: a vessel that empties through small holes in its floor. A punched hole in film is neither
 * sharp nor a tube, so a timed drain overrides the formula: from it come the effective hole and the open holes.
 */
import { positive, within } from '../checks.js';
import { Problem } from '../problems.js';
import { GRAVITY } from '../units.js';

/** Discharge coefficient of a sharp-edged hole [-] (Encyclopaedia Britannica 11th ed., Hydraulics §17). */
export const SHARP_EDGE = 0.62;

export interface Vessel {
  /** water at the start [L] */
  volume: number;
  /** depth of that water above the holes [mm] */
  head: number;
}

export interface Holes {
  /** open holes, a whole number from 1 */
  count: number;
  /** of each hole [mm] */
  diameter: number;
  /** discharge coefficient [-], 0.62 for a sharp edge */
  discharge?: number | undefined;
}

const SECONDS_PER_HOUR = 3600;
/** Water, to the figures that matter on a stem or a truck. */
const KG_PER_LITRE = 1;

/** n · Cd · a · √(2g), the flow through the holes under one metre of head [m³/s per √m]. */
function flowFactor(holes: Holes): number {
  const count = positive('holes', holes.count);
  if (!Number.isInteger(count)) throw new Problem(`holes must be a whole number; got ${count}`);
  const area = (Math.PI / 4) * (positive('hole diameter', holes.diameter, 'mm') / 1000) ** 2;
  return count * coefficient(holes.discharge) * area * Math.sqrt(2 * GRAVITY);
}

function coefficient(discharge = SHARP_EDGE): number {
  positive('discharge coefficient', discharge);
  return within('discharge coefficient', discharge, 0, 1);
}

/**
 * Time for a straight-walled vessel to drain through equal holes in its floor. Torricelli with a discharge
 * coefficient, integrated from the full head to the head left:
 *   t = 2A/(n Cd a √(2g)) · (√h1 − √h2)
 *
 * @param vessel - water and its depth at the start
 * @param holes - open holes
 * @param left - water still inside at the end [L], 0 or more, below the volume
 * @returns time [h]
 * @throws Problem if a value is not positive, or `left` is not below the volume
 * Source: any hydraulics text; Encyclopaedia Britannica 11th ed. (1911), Hydraulics §17 for Cd.
 */
export function drainTime(vessel: Vessel, holes: Holes, left = 0): number {
  const volume = positive('volume', vessel.volume, 'L');
  const head = positive('water depth', vessel.head, 'mm') / 1000;
  if (!(left >= 0 && left < volume))
    throw new Problem(`the water left must be from 0 to below the volume; got ${String(left)} L`);
  const area = volume / 1000 / head;
  const headLeft = (head * left) / volume;
  return (
    ((2 * area) / flowFactor(holes)) * ((Math.sqrt(head) - Math.sqrt(headLeft)) / SECONDS_PER_HOUR)
  );
}

/**
 * Water left in a straight-walled vessel after a time, V(t) = V0 (1 − t/T)², T the full drain time.
 *
 * @param vessel - water and its depth at the start
 * @param holes - open holes
 * @param hours - time since the start [h], 0 or more
 * @returns water [L], 0 once the bag is empty
 * @throws Problem if a value is not positive or the time is negative
 * Source: `drainTime` solved for the head.
 */
export function volumeLeft(vessel: Vessel, holes: Holes, hours: number): number {
  within('hours', hours, 0, 1e6, 'h');
  return vessel.volume * Math.max(0, 1 - hours / drainTime(vessel, holes)) ** 2;
}

/**
 * Effective hole diameter that a timed full drain implies, `drainTime` solved for a.
 *
 * @param vessel - water and its depth at the start
 * @param count - holes, all open
 * @param hours - measured time of the full drain [h], above 0
 * @param discharge - discharge coefficient it shall go with [-]
 * @returns diameter [mm]
 * @throws Problem if a value is not positive
 * Source: `drainTime`.
 */
export function holeDiameter(
  vessel: Vessel,
  count: number,
  hours: number,
  discharge = SHARP_EDGE,
): number {
  positive('hours', hours, 'h');
  // Time goes with 1/d², so one drain through holes of 1 mm gives the scale.
  return Math.sqrt(drainTime(vessel, { count, diameter: 1, discharge }) / hours);
}

/**
 * Holes still open, from a timing: drain time goes with 1/n, and a straight-walled bag falls from share s1 to
 * s2 in the part √s1 − √s2 of its full time. So n = n0 · T0 (√s1 − √s2)/t.
 *
 * @param count - holes when all are open, a whole number from 1
 * @param ratedHours - full drain time with all open [h], above 0
 * @param hours - time measured now [h], above 0
 * @param after - share of a full bag left at the end [-], 0…1
 * @param before - share of a full bag at the start [-], above `after`, at most 1
 * @returns open holes [-], not rounded; more than `count` means the bag runs faster than rated
 * @throws Problem if a value is not positive or the level did not fall
 * Source: `drainTime`.
 */
export function openHoles(
  count: number,
  ratedHours: number,
  hours: number,
  after = 0,
  before = 1,
): number {
  positive('holes', count);
  positive('rated hours', ratedHours, 'h');
  positive('hours', hours, 'h');
  within('share left', after, 0, 1);
  within('share at the start', before, 0, 1);
  if (after >= before) throw new Problem('the share left must be below the share at the start');
  return (count * ratedHours * (Math.sqrt(before) - Math.sqrt(after))) / hours;
}

/** Weight of a volume of water [kg from L]: 1 kg a litre; at 25 °C it is 0.3 % less. */
export const waterWeight = (litres: number): number => litres * KG_PER_LITRE;

export interface Frustum {
  bottomRadius: number; // [mm]
  topRadius: number; // at the water level [mm]
  height: number; // of the water [mm]
}

/**
 * Volume of a cone frustum, V = π h/3 · (rb² + rb rt + rt²).
 *
 * @returns volume [L]
 * @throws Problem if the bottom radius or height is not positive
 * Source: geometry.
 */
export function frustumVolume({ bottomRadius, topRadius, height }: Frustum): number {
  positive('bottom radius', bottomRadius, 'mm');
  within('top radius', topRadius, 0, 1e5, 'mm');
  positive('height', height, 'mm');
  const squares = bottomRadius ** 2 + bottomRadius * topRadius + topRadius ** 2;
  return ((Math.PI * height) / 3) * squares * 1e-6;
}

/**
 * Time for a cone frustum to drain through holes in its floor. With r(h) = rb + k h, k = (rt − rb)/H:
 *   t = π/(n Cd a √(2g)) · [2 rb² √h + (4/3) rb k h^1.5 + (2/5) k² h^2.5], from the level left to H.
 *
 * @param frustum - shape of the water; a bag that narrows upward has topRadius below bottomRadius
 * @param holes - open holes
 * @param levelLeft - depth of the water left [mm], 0 or more, below the height
 * @returns time [h]
 * @throws Problem if a value is not positive or the level left is not below the height
 * Source: Torricelli integrated in closed form; checked against numerical integration.
 */
export function frustumDrainTime(frustum: Frustum, holes: Holes, levelLeft = 0): number {
  const rb = positive('bottom radius', frustum.bottomRadius, 'mm') / 1000;
  const rt = within('top radius', frustum.topRadius, 0, 1e5, 'mm') / 1000;
  const full = positive('height', frustum.height, 'mm') / 1000;
  const k = (rt - rb) / full;
  if (!(levelLeft >= 0 && levelLeft < frustum.height))
    throw new Problem('the level left must be from 0 to below the height');
  const antiderivative = (h: number): number =>
    2 * rb ** 2 * Math.sqrt(h) + (4 / 3) * rb * k * h ** 1.5 + (2 / 5) * k ** 2 * h ** 2.5;
  const seconds =
    (Math.PI / flowFactor(holes)) * (antiderivative(full) - antiderivative(levelLeft / 1000));
  return seconds / SECONDS_PER_HOUR;
}
