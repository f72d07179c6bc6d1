/** One tree, one way of watering it, one season, day by day. */
import { rootsReach, stepDay, type Stores } from '../soil/water-balance.js';
import { coiledArea, cyclesAndSoak } from '../means/soaker-hose.js';
import { isoDate } from '../dates.js';
import { MM_PER_INCH } from '../units.js';
import type { TreeSeason } from './tree-season.js';
import type { Device, MeansOutcome, SeasonWeather, Site, Watering } from './model.js';

/** The days a family may water, index 0 = first day of the season. */
export interface AllowedDays {
  open: Uint8Array;
  /** open hours of a day as text */
  hours(index: number): string;
  /** open minutes of a day [min] */
  minutes(index: number): number;
  /** waterings allowed in the Monday-to-Sunday week of that day, Infinity without a limit */
  perWeek(index: number): number;
}

/** A way of watering: a main device, a pad, or both. */
export interface Option {
  label: string;
  main?: {
    device: Device;
    /** bags joined on one stem, hoses coiled round one tree; 1 for everything else */
    joined: number;
    /** "full": always the whole bag; "enough": what the root zone lacks, at most what the device gives */
    fill: 'full' | 'enough';
    allowed: AllowedDays;
  };
  pad?: { device: Device; allowed: AllowedDays };
  /** the truck that fills a bag where no tap is [device of family tanker] */
  truck?: Device;
}

/** One day of a season, for the day-by-day views and the tests. Litres. */
export interface DayRow {
  index: number;
  demand: number;
  rainIn: number;
  waterIn: number;
  padIn: number;
  joined: number;
  et: number;
  percolated: number;
  ks: number;
  depletion: number;
  ball: number;
  ring: number;
  pad: number;
}

/** Smaller amounts are not worth opening a valve for [L]. */
const LEAST_WATERING = 0.5;
/** Common practice, no source: a pad is left to soak overnight [min]. */
const PAD_SOAK_MINUTES = 12 * 60;
/** Water the surface holds before it runs off [mm]: a quarter inch, assumption. */
const SURFACE_STORAGE = 0.25 * MM_PER_INCH;
/** Days between checks of an automatic hose [day]. */
const CHECK_EVERY = 30;
/** Rounding that does not count as stress [-]. */
const HAIR = 1e-9;

/**
 * Simulates a season. The rule: on a day that is allowed, project both stores without rain to the next
 * allowed day; if the usable water would be passed before it, water now. As late as safe.
 *
 * @param onDay - called with every day, for views and tests
 */
export function simulate(
  season: TreeSeason,
  option: Option,
  site: Site,
  weather: SeasonWeather,
  onDay?: (row: DayRow) => void,
): MeansOutcome {
  const { first, days } = season;
  const plan: Watering[] = [];
  const start: Stores = {
    ball: season.ballTaw,
    ring: first < days ? season.ringTaw[first]! : 0,
    pad: option.pad ? capacityOfPad(option.pad.device, site, 0) : 0,
  };
  const stores = start;
  const projected: Stores = { ball: 0, ring: 0, pad: 0 };
  const weekUse = new WeekUse(weather.from);
  let stressDays = 0;
  let leastKs = 1;
  let litres = 0;
  let waterings = 0;
  let visits = 0;
  let labour = 0;
  const covered = option.pad ? season.ballArea * site.padCover : 0;

  for (let i = first; i < days; i++) {
    const ringTaw = season.ringTaw[i]!;
    const joined =
      i > first ? rootsReach(stores, season.ringTaw[i - 1]!, ringTaw, site.joiningShare) : 0;
    const padCapacity = option.pad ? capacityOfPad(option.pad.device, site, i - first) : 0;
    const padBefore = stores.pad;
    stores.pad = Math.min(stores.pad, padCapacity);
    const padWorn = padBefore - stores.pad;

    let toBall = 0;
    let toRing = 0;
    let applied = 0;
    let visited = false;
    const main = option.main;
    if (main?.allowed.open[i] && weekUse.left(i, main.allowed.perWeek(i)) > 0) {
      const next = nextAllowed(main.allowed, i, days, weekUse);
      const reach = project(season, site, stores, projected, padCapacity, i, next);
      if (reach.runsDry) {
        const amount = amountToApply(season, option, site, stores, i);
        if (amount.litres >= LEAST_WATERING) {
          applied = amount.litres;
          toBall += amount.toBall;
          toRing += amount.toRing;
          litres += applied;
          waterings++;
          weekUse.add(i);
          if (!main.device.automatic) {
            visited = true;
            labour += labourMinutes(option, applied, site);
          }
          plan.push({
            day: weather.from + i,
            family: main.device.family,
            device: main.device.name,
            litres: applied,
            minutes: runMinutes(main.device, applied, main.joined),
            cycles: cyclesOf(season, main.device, main.joined, applied, i),
            hours: main.allowed.hours(i),
            why: whyNow(
              reach.usedNow,
              reach.usedBefore,
              next < days ? weather.from + next : undefined,
            ),
          });
        }
      }
    }
    let padIn = 0;
    if (option.pad?.allowed.open[i] && stores.pad < padCapacity) {
      const next = nextAllowed(option.pad.allowed, i, days);
      const lack = Math.max(0, season.ballTaw - stores.ball - toBall) / season.ballTaw;
      const leftThen = stores.pad - padCapacity * site.padRelease * lack * (next - i);
      if (leftThen <= site.padReserve * padCapacity) {
        padIn = padCapacity - stores.pad;
        stores.pad = padCapacity;
        litres += padIn;
        visited = true;
        labour += option.pad.device.visitMinutes;
        plan.push({
          day: weather.from + i,
          family: 'pad',
          device: option.pad.device.name,
          litres: padIn,
          minutes: PAD_SOAK_MINUTES,
          cycles: 1,
          hours: option.pad.allowed.hours(i),
          why: 'The pad would fall to its reserve before the next allowed day: lift it and soak it.',
        });
      }
    }
    if (visited) visits++;

    const rain = weather.effectiveRain[i]!;
    const rainBall = rain * (season.ballArea - covered);
    const rainRing = rain * (season.ringArea[i]! + covered);
    const day = stepDay(stores, {
      ballTaw: season.ballTaw,
      ringTaw,
      p: season.p[i]!,
      demand: season.demand[i]!,
      toBall: toBall + rainBall,
      toRing: toRing + rainRing,
      padGives: padCapacity * site.padRelease,
      overflowToRing: site.overflowToRing,
    });
    if (day.ks < 1 - HAIR) stressDays++;
    leastKs = Math.min(leastKs, day.ks);
    onDay?.({
      index: i,
      demand: season.demand[i]!,
      rainIn: rainBall + rainRing,
      waterIn: toBall + toRing,
      padIn: padIn - padWorn,
      joined,
      et: day.et,
      percolated: day.percolated,
      ks: day.ks,
      depletion: day.depletion,
      ball: stores.ball,
      ring: stores.ring,
      pad: stores.pad,
    });
  }

  if (option.main?.device.automatic) {
    const checks = Math.ceil((days - first) / CHECK_EVERY);
    visits += checks;
    labour += checks * option.main.device.visitMinutes;
  }
  return {
    label: option.label,
    families: familiesOf(option),
    devices: devicesOf(option).map((d) => d.name),
    feasible: true,
    verdict: verdict(stressDays, leastKs, site.toleratedStress),
    waterings,
    litres,
    visits,
    stressDays,
    leastKs,
    cost:
      kitCost(option, site) +
      (labour / 60) * site.wage * site.crewSize +
      (litres / 1000) * site.waterPrice,
    plan,
  };
}

const devicesOf = (option: Option): Device[] =>
  [option.main?.device, option.pad?.device].filter((d) => d !== undefined);

const familiesOf = (option: Option): Device['family'][] => devicesOf(option).map((d) => d.family);

function verdict(stressDays: number, leastKs: number, tolerated: number): string {
  if (stressDays === 0) return 'keeps the tree without stress';
  const days = `${stressDays} stress ${stressDays === 1 ? 'day' : 'days'}`;
  return `${days}${stressDays <= tolerated ? ', which is accepted' : ''}; at worst ${Math.round(leastKs * 100)} % of demand met`;
}

function whyNow(usedNow: number, usedBefore: number, next: number | undefined): string {
  const percent = (share: number): string => `${Math.round(share * 100)} %`;
  const when =
    next === undefined ? 'the end of the season' : `the next allowed day, ${isoDate(next)}`;
  return `${percent(usedNow)} of the usable water is used; without watering ${percent(usedBefore)} before ${when}.`;
}

/** Waterings used in each Monday-to-Sunday week. */
class WeekUse {
  private week = -1;
  private used = 0;

  constructor(private readonly from: number) {}

  /** Serial 2 is a Monday, so weeks begin where (serial − 2) is a multiple of 7. */
  weekOf(index: number): number {
    return Math.floor((this.from + index - 2) / 7);
  }

  left(index: number, limit: number): number {
    return limit - (this.weekOf(index) === this.week ? this.used : 0);
  }

  add(index: number): void {
    const week = this.weekOf(index);
    this.used = week === this.week ? this.used + 1 : 1;
    this.week = week;
  }
}

/** Next index after `i` on which watering is allowed, or `days`. */
function nextAllowed(allowed: AllowedDays, i: number, days: number, use?: WeekUse): number {
  for (let j = i + 1; j < days; j++)
    if (allowed.open[j] && (!use || use.left(j, allowed.perWeek(j)) > 0)) return j;
  return days;
}

/**
 * Walks both stores from day `i` up to day `next` without rain or watering.
 * Says whether the usable water is passed before `next`, and the share of it used today and at the end.
 */
function project(
  season: TreeSeason,
  site: Site,
  from: Stores,
  scratch: Stores,
  padCapacity: number,
  i: number,
  next: number,
): { runsDry: boolean; usedNow: number; usedBefore: number } {
  scratch.ball = from.ball;
  scratch.ring = from.ring;
  scratch.pad = from.pad;
  let runsDry = false;
  let usedNow = 0;
  let used = 0;
  for (let t = i; t < next; t++) {
    const ringTaw = season.ringTaw[t]!;
    if (t > i) rootsReach(scratch, season.ringTaw[t - 1]!, ringTaw, site.joiningShare);
    const day = stepDay(scratch, {
      ballTaw: season.ballTaw,
      ringTaw,
      p: season.p[t]!,
      demand: season.demand[t]!,
      toBall: 0,
      toRing: 0,
      padGives: padCapacity * site.padRelease,
      overflowToRing: site.overflowToRing,
    });
    const usable = season.p[t]! * (season.ballTaw + ringTaw);
    if (t === i) usedNow = day.depletion / usable;
    used = (day.depletion + day.et) / usable;
    if (used > 1 + HAIR) {
      runsDry = true;
      break;
    }
  }
  return { runsDry, usedNow, usedBefore: used };
}

/** What the reachable store lacks ÷ efficiency, within the limits of the means. Litres. */
function amountToApply(
  season: TreeSeason,
  option: Option,
  site: Site,
  stores: Stores,
  i: number,
): { litres: number; toBall: number; toRing: number } {
  const { device, joined, fill, allowed } = option.main!;
  const efficiency = site.efficiency[device.family];
  const lackBall = Math.max(0, season.ballTaw - stores.ball);
  const lackRing = Math.max(0, season.ringTaw[i]! - stores.ring);
  if (device.family === 'bag') {
    const most = (device.volume ?? 0) * joined;
    // a bag wets the ball alone; the ring gets a share of what the ball cannot hold
    const throughBall = site.overflowToRing > 0 ? lackRing / site.overflowToRing : 0;
    const litres = fill === 'full' ? most : Math.min(most, (lackBall + throughBall) / efficiency);
    return { litres, toBall: litres * efficiency, toRing: 0 };
  }
  const flow = flowOf(device) * joined;
  const inReach = lackRing * ringInReach(season, device, joined, i);
  const lack = lackBall + inReach;
  const litres = Math.min(lack / efficiency, flow * allowed.minutes(i));
  // assumption: laid evenly over both, water moves sideways to the part that lacks it before it drains
  const ballShare = lack > 0 ? lackBall / lack : 0;
  return {
    litres,
    toBall: litres * efficiency * ballShare,
    toRing: litres * efficiency * (1 - ballShare),
  };
}

/** Share of the ring a means can wet: all of it by hand, what the coil covers by hose [-]. */
function ringInReach(season: TreeSeason, device: Device, joined: number, i: number): number {
  const ring = season.ringArea[i]!;
  if (device.family !== 'soaker' || ring <= 0) return 1;
  const beyondBall = coiledArea((device.length ?? 0) * joined) - season.ballArea;
  return Math.min(1, Math.max(0, beyondBall / ring));
}

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

/** Cycles that keep a soaker hose from running off the soil it covers [-]. */
function cyclesOf(
  season: TreeSeason,
  device: Device,
  joined: number,
  litres: number,
  i: number,
): number {
  if (device.family !== 'soaker') return 1;
  const rootArea = season.ballArea + season.ringArea[i]!;
  const area = Math.min(rootArea, coiledArea((device.length ?? 0) * joined));
  const rate = (flowOf(device) * joined * 60) / area; // mm/h: 1 L on 1 m² is 1 mm
  return cyclesAndSoak(
    runMinutes(device, litres, joined),
    rate,
    season.facts.intake,
    SURFACE_STORAGE,
  ).cycles;
}

/** Crew minutes of one watering, with the flow and the refilling of a truck where one is used [min]. */
export function labourMinutes(option: Option, litres: number, site: Site): number {
  const { device } = option.main!;
  const pours =
    device.family === 'hand' || device.family === 'tanker' ? runMinutes(device, litres) : 0;
  const truck = device.family === 'tanker' ? device : option.truck;
  const fromTruck = device.family === 'bag' && truck ? runMinutes(truck, litres) : 0;
  const tank = truck ? (truck.volume ?? site.tankVolume) * site.tankUsable : 0;
  const refill = truck ? (litres / tank) * site.tankRefillMinutes : 0;
  return device.visitMinutes + pours + fromTruck + refill;
}

/** Kit for one tree and season: price ÷ seasons and set-up. A nozzle or a truck serves all trees. */
function kitCost(option: Option, site: Site): number {
  let cost = 0;
  for (const device of devicesOf(option)) {
    if (device.family === 'hand' || device.family === 'tanker') continue;
    const joined = device === option.main?.device ? option.main.joined : 1;
    cost += (device.price * joined) / device.seasons;
    cost += (device.setupMinutes / 60) * site.wage * site.crewSize;
  }
  return cost;
}

/** Usable capacity of a pad after some days of use: decays by a share each year [L]. */
const capacityOfPad = (pad: Device, site: Site, daysInUse: number): number =>
  (pad.volume ?? 0) * (1 - site.padDecay) ** (daysInUse / 365);
