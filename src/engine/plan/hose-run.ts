/** How long a porous hose coiled round a tree runs for a volume, pauses included, and who is there while it does. */
import { coiledArea, cyclesAndSoak, FILM_STORAGE } from '../means/soaker-hose.js';
import type { Device } from './model.js';
import { flowOf, leftRunning, runMinutes } from './option.js';
import type { TreeSeason } from './tree-season.js';

/** What of a tree decides how fast its ground takes water. */
export type HoseGround = Pick<TreeSeason, 'ballArea' | 'ringArea' | 'facts' | 'first'>;

/** Runs of one watering. */
export interface Runs {
  cycles: number;
  /** between two runs, in which the water that stands on the ground sinks in [min] */
  pause: number;
}

/** Application rate over the ground that coils cover [mm/h]; 1 L on 1 m² is 1 mm. */
export function rateOn(ground: HoseGround, device: Device, joined: number, day: number): number {
  const roots = ground.ballArea + ground.ringArea[day]!;
  const area = Math.min(roots, coiledArea((device.length ?? 0) * joined));
  return (flowOf(device) * joined * 60) / area;
}

/** Runs and pauses that keep a volume from running off; one run without pause for everything but a porous hose. */
export function runsOf(
  ground: HoseGround,
  device: Device,
  joined: number,
  litres: number,
  day: number,
): Runs {
  const minutes = runMinutes(device, litres, joined);
  if (device.family !== 'soaker' || !(minutes > 0)) return { cycles: 1, pause: 0 };
  const rate = rateOn(ground, device, joined, day);
  const { cycles, offMinutes } = cyclesAndSoak(minutes, rate, ground.facts.intake, FILM_STORAGE);
  return { cycles, pause: offMinutes };
}

/** A time left to run is counted in steps of this, so that few kinds of hours arise [min]. */
export const RUN_STEP = 15;

/** Minutes water runs on after the person has gone, rounded up; 0 where nobody goes before it is shut [min]. */
export const runsOn = (device: Device, minutes: number): number =>
  leftRunning(device) ? Math.ceil(minutes / RUN_STEP - 1e-9) * RUN_STEP : 0;

/** Flow and volume of a hose as the season may count on them, the same on every day. */
export interface HoseLimits {
  /** volume ÷ time with its pauses, at least [L/min] */
  flow: number;
  /** most that may be given in one watering by what the ground takes [L] */
  most: number;
}

/**
 * Limits that hold on any day. With r minutes of run, c = ⌈r/on⌉ runs and pauses of on·(rate − intake)/intake a watering
 * lasts r + (c − 1)·pause ≤ r·rate/intake, so it brings at least flow·intake/rate a minute. The ground is taken as on the
 * first day, when the roots, and the coils laid over them, cover least. What shuts itself is opened once, so it can give
 * one run only.
 */
export function hoseLimits(ground: HoseGround, device: Device, joined: number): HoseLimits {
  const flow = flowOf(device) * joined;
  const rate = rateOn(ground, device, joined, ground.first);
  const { intake } = ground.facts;
  if (!(rate > intake)) return { flow, most: Infinity };
  const longest = (FILM_STORAGE / (rate - intake)) * 60;
  return {
    flow: (flow * intake) / rate,
    most: leftRunning(device) ? flow * longest : Infinity,
  };
}
