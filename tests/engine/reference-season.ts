/**
 * A season the plain way: objects, one per day, and sentences as it goes. Slow and easy to read; the kernel of the
 * engine must give the same numbers, days and words. It computes its own step and its own decision; sizes, devices
 * and prices are the engine's.
 */
import { isoDate } from '../../src/engine/dates.js';
import { coiledArea, cyclesAndSoak } from '../../src/engine/means/soaker-hose.js';
import type {
  Device,
  MeansOutcome,
  SeasonWeather,
  Site,
  Watering,
} from '../../src/engine/plan/model.js';
import {
  devicesOf,
  familiesOf,
  flowOf,
  kitCost,
  labourMinutes,
  runMinutes,
  type AllowedDays,
  type Option,
} from '../../src/engine/plan/option.js';
import type { DayRow } from '../../src/engine/plan/simulate.js';
import type { TreeSeason } from '../../src/engine/plan/tree-season.js';
import { MM_PER_INCH } from '../../src/engine/units.js';

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
export function referenceSeason(
  season: TreeSeason,
  option: Option,
  site: Site,
  weather: SeasonWeather,
  onDay?: (row: DayRow) => void,
): MeansOutcome {
  const run = new SeasonRun(season, option, site, weather);
  for (let i = season.first; i < season.days; i++) {
    const row = run.day(i);
    onDay?.(row);
  }
  return run.outcome();
}

/** A season under way: the stores as they are today, and what has been given and spent so far. */
class SeasonRun {
  private readonly stores: Stores;
  private readonly projected: Stores = { ball: 0, ring: 0, pad: 0 };
  private readonly week: WeekUse;
  private readonly plan: Watering[] = [];
  private readonly done = {
    litres: 0,
    waterings: 0,
    visits: 0,
    labour: 0, // [min]
    stressDays: 0,
    leastKs: 1,
  };

  constructor(
    private readonly season: TreeSeason,
    private readonly option: Option,
    private readonly site: Site,
    private readonly weather: SeasonWeather,
  ) {
    this.week = new WeekUse(weather.from);
    this.stores = {
      ball: season.ballTaw,
      ring: season.first < season.days ? season.ringTaw[season.first]! : 0,
      pad: this.padCapacity(season.first),
    };
  }

  day(i: number): DayRow {
    const { season, site, stores, done } = this;
    const ringTaw = season.ringTaw[i]!;
    const joined =
      i > season.first ? rootsReach(stores, season.ringTaw[i - 1]!, ringTaw, site.joiningShare) : 0;
    const padCapacity = this.padCapacity(i);
    const padWorn = Math.max(0, stores.pad - padCapacity);
    stores.pad -= padWorn;
    const water = this.waterIfDue(i, padCapacity);
    const pad = this.rechargeIfDue(i, padCapacity, water.toBall);
    if (water.visit || pad.visit) {
      done.visits++;
      done.labour += this.option.driveMinutes;
    }
    const rain = this.rainOf(i);
    const day = stepDay(stores, {
      ballTaw: season.ballTaw,
      ringTaw,
      p: season.p[i]!,
      demand: season.demand[i]!,
      toBall: water.toBall + rain.toBall,
      toRing: water.toRing + rain.toRing,
      padGives: padCapacity * site.padRelease,
      overflowToRing: site.overflowToRing,
    });
    if (day.ks < 1 - HAIR) done.stressDays++;
    done.leastKs = Math.min(done.leastKs, day.ks);
    return {
      index: i,
      demand: season.demand[i]!,
      rainIn: rain.toBall + rain.toRing,
      waterIn: water.toBall + water.toRing,
      padIn: pad.litres - padWorn,
      joined,
      ...day,
      ...stores,
    };
  }

  outcome(): MeansOutcome {
    const { option, site, done } = this;
    if (option.main?.device.automatic) {
      const checks = Math.ceil((this.season.days - this.season.first) / CHECK_EVERY);
      done.visits += checks;
      done.labour += checks * (option.main.device.visitMinutes + option.driveMinutes);
    }
    return {
      label: option.label,
      families: familiesOf(option),
      devices: devicesOf(option).map((d) => d.name),
      feasible: true,
      verdict: verdict(done.stressDays, done.leastKs, site.toleratedStress),
      waterings: done.waterings,
      litres: done.litres,
      visits: done.visits,
      stressDays: done.stressDays,
      leastKs: done.leastKs,
      cost:
        kitCost(option, site) +
        (done.labour / 60) * site.wage * site.crewSize +
        (done.litres / 1000) * site.waterPrice,
      plan: this.plan,
    };
  }

  /** Waters today if today is allowed and the usable water would not last to the next allowed day. */
  private waterIfDue(i: number, padCapacity: number): Given {
    const { season, option, site, stores, weather } = this;
    const { main } = option;
    if (!main?.allowed.open[i] || this.week.left(i, main.allowed.perWeek(i)) <= 0) return NOTHING;
    const next = nextAllowed(main.allowed, i, season.days, this.week);
    const reach = project(season, site, stores, this.projected, padCapacity, i, next);
    if (!reach.runsDry) return NOTHING;
    const amount = amountToApply(season, option, site, stores, i);
    if (amount.litres < LEAST_WATERING) return NOTHING;
    const { device, joined } = main;
    this.week.add(i);
    this.done.waterings++;
    this.done.litres += amount.litres;
    if (!device.automatic)
      this.done.labour +=
        labourMinutes(device, amount.litres, site, option.truck) +
        standing(season, device, joined, amount.litres);
    this.plan.push({
      day: weather.from + i,
      family: device.family,
      device: device.name,
      litres: amount.litres,
      minutes: runMinutes(device, amount.litres, joined),
      ...cyclesOf(season, device, joined, amount.litres, i),
      ...(joined > 1 && { joined }),
      hours: main.allowed.hours(i),
      why: whyNow(reach, next < season.days ? weather.from + next : undefined),
    });
    return { ...amount, visit: !device.automatic };
  }

  /** Lifts the pad and soaks it if it would fall to its reserve before the next day that allows it. */
  private rechargeIfDue(i: number, capacity: number, toBall: number): Given {
    const { season, site, stores } = this;
    const { pad } = this.option;
    if (!pad?.allowed.open[i] || stores.pad >= capacity) return NOTHING;
    const next = nextAllowed(pad.allowed, i, season.days);
    const lack = Math.max(0, season.ballTaw - stores.ball - toBall) / season.ballTaw;
    const leftThen = stores.pad - capacity * site.padRelease * lack * (next - i);
    if (leftThen > site.padReserve * capacity) return NOTHING;
    const litres = capacity - stores.pad;
    stores.pad = capacity;
    this.done.litres += litres;
    this.done.labour += pad.device.visitMinutes;
    this.plan.push({
      day: this.weather.from + i,
      family: 'pad',
      device: pad.device.name,
      litres,
      minutes: PAD_SOAK_MINUTES,
      cycles: 1,
      hours: pad.allowed.hours(i),
      why: 'The pad would fall to its reserve before the next allowed day: lift it and soak it.',
    });
    return { ...NOTHING, litres, visit: true };
  }

  /** Rain that counts; a pad covers part of the ball and sheds its rain to the ring [L]. */
  private rainOf(i: number): { toBall: number; toRing: number } {
    const { season, site } = this;
    const covered = this.option.pad ? season.ballArea * site.padCover : 0;
    const rain = this.weather.effectiveRain[i]!;
    return {
      toBall: rain * (season.ballArea - covered),
      toRing: rain * (season.ringArea[i]! + covered),
    };
  }

  /** Usable capacity of the pad on a day: decays by a share each year [L]. */
  private padCapacity(i: number): number {
    const { pad } = this.option;
    if (!pad) return 0;
    const years = (i - this.season.first) / 365;
    return (pad.device.volume ?? 0) * (1 - this.site.padDecay) ** years;
  }
}

/** Water given on a day: litres applied, what of it reaches each store, and whether a person came. */
interface Given {
  litres: number;
  toBall: number;
  toRing: number;
  visit: boolean;
}

const NOTHING: Given = { litres: 0, toBall: 0, toRing: 0, visit: false };

function verdict(stressDays: number, leastKs: number, tolerated: number): string {
  if (stressDays === 0) return 'keeps the tree without stress';
  const days = `${stressDays} stress ${stressDays === 1 ? 'day' : 'days'}`;
  return `${days}${stressDays <= tolerated ? ', which is accepted' : ''}; at worst ${Math.round(leastKs * 100)} % of demand met`;
}

function whyNow(reach: Reach, next: number | undefined): string {
  const percent = (share: number): string => `${Math.round(share * 100)} %`;
  const when =
    next === undefined ? 'the end of the season' : `the next allowed day, ${isoDate(next)}`;
  return `${percent(reach.usedNow)} of the usable water is used; without watering ${percent(reach.usedBefore)} before ${when}.`;
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

/** Whether the usable water is passed before the next allowed day; shares of it used today and then. */
interface Reach {
  runsDry: boolean;
  usedNow: number;
  usedBefore: number;
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
): Reach {
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
  const litres = Math.min(
    lack / efficiency,
    flow * slowedByGround(season, device, joined) * allowed.minutes(i),
    atOnce(season, device, joined),
  );
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

/** Rate over the ground of the first day [mm/h], when the roots reach least. */
function firstRate(season: TreeSeason, device: Device, joined: number): number {
  const roots = season.ballArea + season.ringArea[season.first]!;
  return (flowOf(device) * joined * 60) / Math.min(roots, coiledArea(device.length! * joined));
}

/** Share of a hose's flow that pauses leave at least [-]: on the long run no more than the ground takes. */
function slowedByGround(season: TreeSeason, device: Device, joined: number): number {
  if (device.family !== 'soaker') return 1;
  return Math.min(1, season.facts.intake / firstRate(season, device, joined));
}

/** Minutes somebody stays with a hose that no timer and nothing at the tap shuts, at most [min]. */
function standing(season: TreeSeason, device: Device, joined: number, litres: number): number {
  if (device.family !== 'soaker' || device.automatic || device.shutsItself) return 0;
  return litres / (flowOf(device) * joined * slowedByGround(season, device, joined));
}

/** Most in one run without standing water beyond what the ground holds, where a hose is opened once [L]. */
function atOnce(season: TreeSeason, device: Device, joined: number): number {
  if (device.family !== 'soaker' || device.automatic || !device.shutsItself) return Infinity;
  const excess = firstRate(season, device, joined) - season.facts.intake; // mm/h
  return excess > 0 ? (flowOf(device) * joined * 60 * SURFACE_STORAGE) / excess : Infinity;
}

/** Cycles that keep a soaker hose from running off the soil it covers [-]. */
function cyclesOf(
  season: TreeSeason,
  device: Device,
  joined: number,
  litres: number,
  i: number,
): { cycles: number; pause?: number } {
  if (device.family !== 'soaker') return { cycles: 1 };
  const rootArea = season.ballArea + season.ringArea[i]!;
  const area = Math.min(rootArea, coiledArea((device.length ?? 0) * joined));
  const rate = (flowOf(device) * joined * 60) / area; // mm/h: 1 L on 1 m² is 1 mm
  const { cycles, offMinutes } = cyclesAndSoak(
    runMinutes(device, litres, joined),
    rate,
    season.facts.intake,
    SURFACE_STORAGE,
  );
  return { cycles, ...(cycles > 1 && { pause: offMinutes }) };
}

/** Water a tree can draw on. Mutable: a season is many steps on one of these. */
interface Stores {
  /** available water held in ball, ring, pad [L] */
  ball: number;
  ring: number;
  pad: number;
}

/** One day's conditions. */
interface Day {
  /** total available water of each store today [L] */
  ballTaw: number;
  ringTaw: number;
  /** allowable depletion p [-] */
  p: number;
  /** demand D without stress [L/day] */
  demand: number;
  /** water reaching each store from rain and watering, after losses [L] */
  toBall: number;
  toRing: number;
  /** most the pad can give today when the ball is empty: capacity × release rate [L] */
  padGives: number;
  /** share φ of the ball's overflow that the ring catches [-] */
  overflowToRing: number;
}

interface DayResult {
  /** depletion of both stores together, before ET [L] */
  depletion: number;
  /** stress coefficient, 1 without stress [-] (FAO-56 Eq. 84) */
  ks: number;
  /** actual evapotranspiration [L] */
  et: number;
  /** water lost below the roots [L] */
  percolated: number;
}

/** FAO-56 Eq. 84. */
function stress(depletion: number, taw: number, p: number): number {
  if (taw <= 0) return 0;
  return Math.min(1, Math.max(0, (taw - depletion) / ((1 - p) * taw)));
}

/** New soil joins the ring holding a share of its available water [L added]. */
function rootsReach(stores: Stores, tawBefore: number, tawNow: number, share: number): number {
  const joined = Math.max(0, tawNow - tawBefore) * share;
  stores.ring += joined;
  return joined;
}

/** Moves the stores through one day and says what happened. Changes `stores`. */
function stepDay(stores: Stores, day: Day): DayResult {
  let ball = stores.ball + day.toBall;
  let ring = stores.ring + day.toRing;
  if (stores.pad > 0 && ball < day.ballTaw) {
    const lack = day.ballTaw - ball;
    const given = Math.min(stores.pad, (day.padGives * lack) / day.ballTaw, lack);
    ball += given;
    stores.pad -= given;
  }
  let percolated = 0;
  if (ball > day.ballTaw) {
    const over = ball - day.ballTaw;
    ball = day.ballTaw;
    const caught = day.ringTaw > 0 ? over * day.overflowToRing : 0;
    ring += caught;
    percolated += over - caught;
  }
  if (ring > day.ringTaw) {
    percolated += ring - day.ringTaw;
    ring = day.ringTaw;
  }
  const taw = day.ballTaw + day.ringTaw;
  const held = ball + ring;
  const depletion = taw - held;
  const ks = stress(depletion, taw, day.p);
  const et = Math.min(ks * day.demand, held);
  const kept = held > 0 ? (held - et) / held : 0;
  stores.ball = ball * kept;
  stores.ring = ring * kept;
  return { depletion, ks, et, percolated };
}
