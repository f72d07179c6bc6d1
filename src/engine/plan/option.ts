/** A way of watering one tree: its devices, the days they may be used, what they give and what they cost. */
import { within } from '../crew/shift.js';
import { windowsIn } from '../rules/rule-words.js';
import type { Device, Site, Watering } from './model.js';

/** The days a family may water, index 0 = first day of the season. */
export interface AllowedDays {
  open: Uint8Array;
  /** hours the rules give on a day as text */
  hours(index: number): string;
  /**
   * where a person does it: the part of them within the crew's day; left out: nobody has to come
   *
   * @param runsOn - minutes water runs on when the person has gone, which must end within the hours, too [min]
   */
  within?(index: number, runsOn?: number): string;
  /** open minutes of a day, within the crew's day where a person does it [min] */
  minutes(index: number): number;
  /** minutes the rules give, whoever comes and goes; left out: `minutes` [min] */
  lawful?(index: number): number;
  /** waterings allowed in the Monday-to-Sunday week of that day, Infinity without a limit */
  perWeek(index: number): number;
}

/** What drains or soaks by itself, when the crew has gone on. */
const BY_ITSELF: ReadonlySet<Device['family']> = new Set(['bag', 'pad']);

/**
 * Whether a watering planned for another day may be done on this one: the day is open, long enough, and its hours within the
 * crew's day hold those it was planned for, so that what fits in these fits there.
 */
export function takesOver(allowed: AllowedDays, index: number, watering: Watering): boolean {
  if (allowed.open[index] !== 1) return false;
  const lawful = BY_ITSELF.has(watering.family) ? allowed.lawful : undefined;
  const minutes = (lawful ?? allowed.minutes)(index);
  const takes = BY_ITSELF.has(watering.family) ? watering.minutes : lastsMinutes(watering);
  if (minutes < takes * SAME) return false;
  const there = allowed.within?.(index, watering.runsOn);
  if (there === undefined || watering.within === undefined) return true;
  return within(windowsIn(watering.within), windowsIn(there));
}

/** Part of a time that may be lost to rounding. */
const SAME = 1 - 1e-9;

/** A way of watering: a main device, a pad, or both. */
export interface Option {
  label: string;
  /** this tree's share of the drive to its site: a drive ÷ the trees there [min a visit] */
  driveMinutes: number;
  main?: {
    device: Device;
    /** bags joined on one stem, hoses coiled round one tree; 1 for everything else */
    joined: number;
    /** "full": always the whole bag; "enough": what the root zone lacks, at most what the device gives */
    fill: 'full' | 'enough';
    /** share of the usable water that may be gone before the next allowed day; 1 by default: as late as safe [-] */
    early?: number;
    /** least days between two waterings, where a week's waterings are limited; 1 by default [day] */
    gap?: number;
    allowed: AllowedDays;
  };
  pad?: { device: Device; allowed: AllowedDays };
  /** the truck that fills a bag where no tap is [device of family tanker] */
  truck?: Device;
}

export const devicesOf = (option: Option): Device[] =>
  [option.main?.device, option.pad?.device].filter((d) => d !== undefined);

export const familiesOf = (option: Option): Device['family'][] =>
  devicesOf(option).map((d) => d.family);

/** Flow of a hose, nozzle or pump [L/min]. */
export function flowOf(device: Device): number {
  if (device.family === 'soaker') return ((device.rate ?? 0) * (device.length ?? 0)) / 60;
  return device.flow ?? 0;
}

/** Minutes water runs, or a bag drains: t ∝ √h, so a part fill V drains in rated·√(V/full). */
export function runMinutes(device: Device, litres: number, joined = 1): number {
  if (device.family === 'bag') {
    const full = (device.volume ?? 0) * joined;
    return full > 0 ? (device.ratedHours ?? 0) * 60 * Math.sqrt(litres / full) : 0;
  }
  const flow = flowOf(device) * joined;
  return flow > 0 ? litres / flow : 0;
}

/** From the first opening of the valve to the last closing [min]. */
export const lastsMinutes = ({ minutes, cycles, pause }: Lasting): number =>
  minutes + Math.max(0, cycles - 1) * (pause ?? 0);

export type Lasting = Pick<Watering, 'minutes' | 'cycles' | 'pause'>;

/** No timer opens and shuts the hose and nothing at the tap shuts it: whoever opens it stays. */
export const staysWith = ({ family, automatic, shutsItself }: Device): boolean =>
  family === 'soaker' && !automatic && shutsItself !== true;

/** A person opens the hose and goes on; a wind-up timer or a metering valve shuts it. */
export const leftRunning = ({ family, automatic, shutsItself }: Device): boolean =>
  family === 'soaker' && !automatic && shutsItself === true;

/**
 * Crew minutes at one tree for one watering: handling, and pouring where a person or a truck's pump pours. Who stays with a
 * hose stays besides for as long as it lasts.
 *
 * @param truck - the truck whose pump fills a bag where no tap is
 */
export function minutesAtTree(device: Device, litres: number, truck?: Device): number {
  const pours =
    device.family === 'hand' || device.family === 'tanker'
      ? device
      : device.family === 'bag'
        ? truck
        : undefined;
  return device.visitMinutes + (pours ? runMinutes(pours, litres) : 0);
}

/** Litres a truck can pour before it must be filled again; the site's tank where the kit gives none. */
export const tankLoad = (truck: Device | undefined, site: Site): number =>
  (truck?.volume ?? site.tankVolume) * site.tankUsable;

/** Crew minutes of one watering, with its share of filling the truck where one brings the water [min]. */
export function labourMinutes(
  device: Device,
  litres: number,
  site: Site,
  truck: Device | undefined,
): number {
  const brings = device.family === 'tanker' ? device : truck;
  const refill = brings ? (litres / tankLoad(brings, site)) * site.tankRefillMinutes : 0;
  return minutesAtTree(device, litres, truck) + refill;
}

/** Kit for one tree and season: price ÷ seasons and set-up. A nozzle or a truck serves all trees. */
export function kitCost(option: Option, site: Site): number {
  let cost = 0;
  for (const device of devicesOf(option)) {
    if (device.family === 'hand' || device.family === 'tanker') continue;
    const joined = device === option.main?.device ? option.main.joined : 1;
    cost += (device.price * joined) / device.seasons;
    cost += (device.setupMinutes / 60) * site.wage * site.crewSize;
  }
  return cost;
}
