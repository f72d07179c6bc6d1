/** Watering by a person with a hose, from a tap or from a truck tank. */
import { positive, within } from '../checks.js';

/**
 * Flow from a bucket and a stopwatch.
 *
 * @param volume - of the bucket [L], above 0
 * @param seconds - to fill it [s], above 0
 * @returns flow [L/min]
 * @throws Problem if a value is not positive
 * Source: definition.
 */
export const bucketFlow = (volume: number, seconds: number): number =>
  (positive('volume', volume, 'L') * 60) / positive('seconds', seconds, 's');

/**
 * Tank loads for a volume, ⌈V/(usable · tank)⌉: a truck tank is never filled to the brim nor pumped dry.
 *
 * @param volume - water to bring [L], 0 or more
 * @param tank - size of the tank [same unit], above 0
 * @param usable - share of the tank that arrives on the trees [-], above 0, at most 1
 * @returns loads, a whole number; 0 for no water
 * @throws Problem outside those ranges
 * Source: nine tenths of the tank as in the tanker shuttle formula of fire services.
 */
export function tankLoads(volume: number, tank: number, usable = 0.9): number {
  within('volume', volume, 0, 1e9);
  positive('tank', tank);
  positive('usable share', usable);
  // A volume of exactly n loads must not become n + 1 through rounding.
  return Math.ceil(volume / (within('usable share', usable, 0, 1) * tank) - 1e-9) + 0;
}

/**
 * Minutes at a stop: set-up and filling.
 *
 * @param volume - water to give [L], 0 or more
 * @param flow - [L/min], above 0
 * @param setup - to park, roll out and pack up [min], 0 or more
 * @returns time [min]
 * @throws Problem outside those ranges
 * Source: definition.
 */
export const stopMinutes = (volume: number, flow: number, setup: number): number =>
  within('set-up', setup, 0, 600, 'min') +
  within('volume', volume, 0, 1e9, 'L') / positive('flow', flow, 'L/min');
