/** A way of watering one tree, and the place it stands in, as the numbers the daily kernel reads. */
import { coiledArea } from '../means/soaker-hose.js';
import { hoseLimits } from './hose-run.js';
import type { SeasonWeather, Site } from './model.js';
import { flowOf, kitCost, staysWith, tankLoad, type AllowedDays, type Option } from './option.js';
import type { TreeSeason } from './tree-season.js';

/** Allowed days as columns, index 0 = first day of the season. */
export interface DayColumns {
  /** 1: allowed */
  open: Uint8Array;
  /** next allowed day after each, or the season's length */
  next: Uint16Array;
  /** open minutes [min] */
  minutes: Float64Array;
  /** waterings allowed in the week of the day, Infinity without a limit */
  perWeek: Float64Array;
  /** some day of the season has such a limit below seven */
  limited: boolean;
}

const known = new WeakMap<AllowedDays, DayColumns>();

/** Columns of a calendar, made once for each. */
export function dayColumns(allowed: AllowedDays): DayColumns {
  const found = known.get(allowed);
  if (found) return found;
  const { open } = allowed;
  const days = open.length;
  const next = new Uint16Array(days);
  for (let i = days - 1, coming = days; i >= 0; i--) {
    next[i] = coming;
    if (open[i] === 1) coming = i;
  }
  const minutes = Float64Array.from(open, (_, i) => allowed.minutes(i));
  const perWeek = Float64Array.from(open, (_, i) => allowed.perWeek(i));
  const made = { open, next, minutes, perWeek, limited: perWeek.some((most) => most < 7) };
  known.set(allowed, made);
  return made;
}

/** Site and weather, the same for all trees. */
export interface Conditions {
  /** rain that counts [mm/day] */
  rain: Float64Array;
  /** Monday-to-Sunday week of each day, counted from the calendar's start */
  weekOf: Float64Array;
  /** share of a pad's capacity left after so many days [-] */
  padLeft: Float64Array;
  padRelease: number;
  padReserve: number;
  padCover: number;
  wage: number;
  crewSize: number;
  waterPrice: number;
}

export function conditionsOf(site: Site, weather: SeasonWeather): Conditions {
  const days = weather.effectiveRain;
  return {
    rain: weather.effectiveRain,
    // serial 2 is a Monday: weeks begin where (serial − 2) is a multiple of 7
    weekOf: days.map((_, i) => Math.floor((weather.from + i - 2) / 7)),
    padLeft: days.map((_, i) => (1 - site.padDecay) ** (i / 365)),
    padRelease: site.padRelease,
    padReserve: site.padReserve,
    padCover: site.padCover,
    wage: site.wage,
    crewSize: site.crewSize,
    waterPrice: site.waterPrice,
  };
}

export interface MeansNumbers {
  /** something besides a pad waters */
  main: boolean;
  days: DayColumns;
  /** a bag: its water enters the ball */
  ballOnly: boolean;
  /** always the whole bag */
  full: boolean;
  /** share of the usable water that may be gone before the next allowed day [-] */
  early: number;
  /** least days between two waterings [day] */
  gap: number;
  automatic: boolean;
  efficiency: number;
  /** most a watering can give: by volume, or by what the ground takes at once [L], and by flow with its pauses [L/min] */
  most: number;
  flow: number;
  /** area a coil covers beyond the ball, Infinity where all can be reached [m²] */
  beyondBall: number;
  /** crew at the tree [min]; where somebody pours or stays, the flow [L/min]; where a truck brings it, litres and minutes a load */
  visitMinutes: number;
  pourFlow: number;
  tankLoad: number;
  refillMinutes: number;
  /** this tree's share of the drive [min a visit] */
  driveMinutes: number;
  /** usable water of a new pad, 0 without one [L] */
  padCapacity: number;
  padDays: DayColumns;
  padVisitMinutes: number;
  kitCost: number;
}

const NEVER: DayColumns = {
  open: new Uint8Array(0),
  next: new Uint16Array(0),
  minutes: new Float64Array(0),
  perWeek: new Float64Array(0),
  limited: false,
};

/** What of a tree its means depend on. */
export type MeansGround = Pick<TreeSeason, 'ballArea' | 'ringArea' | 'facts' | 'first'>;

/** Positive flow, else Infinity: pouring takes no time where nobody pours. */
const orNoTime = (flow: number): number => (flow > 0 ? flow : Infinity);

/** @param tree - the tree that is watered */
export function meansNumbers(option: Option, site: Site, tree: MeansGround): MeansNumbers {
  const { main, pad, truck } = option;
  const device = main?.device;
  const joined = main?.joined ?? 1;
  const family = device?.family;
  const pours =
    family === 'bag' ? truck : family === 'hand' || family === 'tanker' ? device : undefined;
  const brings = family === 'tanker' ? device : truck;
  const hose = device && family === 'soaker' ? hoseLimits(tree, device, joined) : undefined;
  return {
    main: main !== undefined,
    days: main ? dayColumns(main.allowed) : NEVER,
    ballOnly: family === 'bag',
    full: main?.fill === 'full' && family === 'bag',
    early: main?.early ?? 1,
    gap: main?.gap ?? 1,
    automatic: device?.automatic ?? false,
    efficiency: family ? site.efficiency[family] : 1,
    most: hose?.most ?? (family === 'bag' ? (device?.volume ?? 0) * joined : Infinity),
    flow: hose?.flow ?? (device ? flowOf(device) * joined : 0),
    beyondBall:
      family === 'soaker' ? coiledArea((device?.length ?? 0) * joined) - tree.ballArea : Infinity,
    visitMinutes: device?.visitMinutes ?? 0,
    pourFlow: orNoTime(hose && staysWith(device!) ? hose.flow : pours ? flowOf(pours) : 0),
    tankLoad: brings ? tankLoad(brings, site) : Infinity,
    refillMinutes: brings ? site.tankRefillMinutes : 0,
    driveMinutes: option.driveMinutes,
    padCapacity: pad?.device.volume ?? 0,
    padDays: pad ? dayColumns(pad.allowed) : NEVER,
    padVisitMinutes: pad?.device.visitMinutes ?? 0,
    kitCost: kitCost(option, site),
  };
}
