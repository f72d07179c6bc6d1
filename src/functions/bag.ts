/** Worksheet functions about slow-release bags. */
import { Problem } from '../engine/problems.js';
import {
  drainTime,
  holeDiameter,
  openHoles,
  SHARP_EDGE,
  volumeLeft,
  waterWeight as weightOfWater,
} from '../engine/means/bag.js';
import { bagVerdict as verdictOnBag } from '../engine/means/bag-check.js';
import { answer } from './answer.js';
import { number, optionalNumber, toCell, unitsOf } from './arguments.js';

/**
 * Hours a bag takes to drain, until a given volume is left.
 * @customfunction BAG_HOURS
 * @param volume - water in the bag, gal | L
 * @param holes - open holes, a whole number, no unit
 * @param hole - diameter of each hole, in | mm
 * @param depth - depth of that water above the holes, in | cm
 * @param discharge - discharge coefficient, no unit; default 0.62, a sharp edge
 * @param left - water still inside at the end, gal | L; default 0
 * @param units - "US" or "SI", no unit; default "US"
 * @returns time, hours
 * @equation t = 2A/(n Cd a √(2g)) · (√h1 − √h2)
 * @range straight walls; holes 1 to 100, hole 0.1 to 100 mm, discharge 0.1 to 1
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Torricelli with a discharge coefficient; Encyclopaedia Britannica 11th ed. (1911), Hydraulics §17
 */
export function bagHours(
  volume: unknown,
  holes: unknown,
  hole: unknown,
  depth: unknown,
  discharge?: unknown,
  left?: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const litres = number('volume', volume, 'bagVolume', system);
    const bagHoles = {
      count: number('holes', holes, 'holes'),
      diameter: number('hole', hole, 'hole', system),
      discharge: optionalNumber('discharge', discharge, 'discharge', SHARP_EDGE),
    };
    const head = number('depth', depth, 'bagDepth', system);
    const rest = optionalNumber('left', left, 'bagLeft', 0, system);
    if (rest >= litres) throw new Problem('left must be below volume');
    return drainTime({ volume: litres, head }, bagHoles, rest);
  });
}

/**
 * Water left in a bag after a time, gal | L.
 * @customfunction BAG_LEFT
 * @param volume - water in the bag at the start, gal | L
 * @param hours - time since then, hours; 0 is a true zero
 * @param holes - open holes, a whole number, no unit
 * @param hole - diameter of each hole, in | mm
 * @param depth - depth of the water above the holes at the start, in | cm
 * @param discharge - discharge coefficient, no unit; default 0.62, a sharp edge
 * @param units - "US" or "SI", no unit; default "US"
 * @returns water left, gal | L; 0 once the bag is empty
 * @equation V = V0 (1 − t/T)², T the full drain time of BAG_HOURS
 * @range straight walls; hours 0 to 10,000, holes 1 to 100, hole 0.1 to 100 mm, discharge 0.1 to 1
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Torricelli with a discharge coefficient; Encyclopaedia Britannica 11th ed. (1911), Hydraulics §17
 */
export function bagLeft(
  volume: unknown,
  hours: unknown,
  holes: unknown,
  hole: unknown,
  depth: unknown,
  discharge?: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const litres = number('volume', volume, 'bagVolume', system);
    const time = number('hours', hours, 'elapsed');
    const bagHoles = {
      count: number('holes', holes, 'holes'),
      diameter: number('hole', hole, 'hole', system),
      discharge: optionalNumber('discharge', discharge, 'discharge', SHARP_EDGE),
    };
    const head = number('depth', depth, 'bagDepth', system);
    return toCell(volumeLeft({ volume: litres, head }, bagHoles, time), 'volume', system);
  });
}

/**
 * Diameter of the holes that a timed full drain implies, in | mm.
 * @customfunction BAG_HOLE
 * @param volume - water in the full bag, gal | L
 * @param holes - holes, all open, a whole number, no unit
 * @param hours - measured time until empty, hours
 * @param depth - depth of the water above the holes when full, in | cm
 * @param discharge - discharge coefficient it shall go with, no unit; default 0.62, a sharp edge
 * @param units - "US" or "SI", no unit; default "US"
 * @returns effective hole diameter, in | mm
 * @equation a = 2A √h/(n Cd √(2g) t), d = √(4a/π)
 * @range straight walls; holes 1 to 100, hours to 10,000, discharge 0.1 to 1
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Torricelli with a discharge coefficient; Encyclopaedia Britannica 11th ed. (1911), Hydraulics §17
 */
export function bagHole(
  volume: unknown,
  holes: unknown,
  hours: unknown,
  depth: unknown,
  discharge?: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const diameter = holeDiameter(
      {
        volume: number('volume', volume, 'bagVolume', system),
        head: number('depth', depth, 'bagDepth', system),
      },
      number('holes', holes, 'holes'),
      number('hours', hours, 'hours'),
      optionalNumber('discharge', discharge, 'discharge', SHARP_EDGE),
    );
    return toCell(diameter, 'bore', system);
  });
}

/**
 * Holes of a bag that are still open, from a timing.
 * @customfunction BAG_OPEN_HOLES
 * @param holes - holes when all are open, a whole number, no unit
 * @param rated_hours - time of a full drain with all holes open, hours
 * @param hours - time measured now from a full bag, hours
 * @param left - share of the bag still full at the end of the timing, no unit, 0 to 0.99; default 0
 * @returns open holes, not rounded; more than holes means a leak
 * @equation n = holes · rated_hours · (1 − √left)/hours
 * @range straight walls; holes 1 to 100, hours to 10,000
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Torricelli: drain time goes with one over the number of holes
 */
export function bagOpenHoles(
  holes: unknown,
  rated_hours: unknown,
  hours: unknown,
  left?: unknown,
): number {
  return answer(() =>
    openHoles(
      number('holes', holes, 'holes'),
      number('rated_hours', rated_hours, 'hours'),
      number('hours', hours, 'hours'),
      optionalNumber('left', left, 'shareLeft', 0),
    ),
  );
}

/**
 * What to do with a bag after timing it: "ok", "flush" or "replace", with the reason.
 * @customfunction BAG_VERDICT
 * @param holes - holes when all are open, a whole number, no unit
 * @param rated_hours - time of a full drain with all holes open, hours
 * @param hours - time measured now from a full bag, hours
 * @param left - share of the bag still full at the end of the timing, no unit, 0 to 0.99; default 0
 * @returns the verdict, a colon and the reason with its numbers
 * @equation T = hours/(1 − √left), n = holes · rated_hours/T; T over 48 h or n over 1.25 holes: replace; n under 0.8 holes: flush
 * @range straight walls; holes 1 to 100, hours to 10,000; the two shares are assumptions
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source a bag not empty within two days is faulty: guidance of a London borough council; Torricelli for the open holes
 */
export function bagVerdict(
  holes: unknown,
  rated_hours: unknown,
  hours: unknown,
  left?: unknown,
): string {
  return answer(() => {
    const { verdict, reason } = verdictOnBag(
      number('holes', holes, 'holes'),
      number('rated_hours', rated_hours, 'hours'),
      number('hours', hours, 'hours'),
      optionalNumber('left', left, 'shareLeft', 0),
    );
    return `${verdict}: ${reason}`;
  });
}

/**
 * Weight of water: what a stem, a cart or a truck has to bear.
 * @customfunction WATER_WEIGHT
 * @param volume - water, gal | L
 * @param units - "US" or "SI", no unit; default "US"
 * @returns weight, lb | kg
 * @equation 1 kg a litre, 8.345 lb a gallon
 * @range to 40,000 L; fresh water, 0.3 % heavier than at 25 °C
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source density of water at 4 °C
 */
export function waterWeight(volume: unknown, units?: unknown): number {
  return answer(() => {
    const system = unitsOf(units);
    return toCell(weightOfWater(number('volume', volume, 'bagVolume', system)), 'weight', system);
  });
}
