/** A day's jobs as rounds of crews: stops in order, driving, refills, hours. */
import { tankLoads } from '../means/hand-and-tanker.js';
import type { Device, Site } from '../plan/model.js';
import type { RuleWindow } from '../rules/rule-types.js';
import { isPlace, type Place } from './place.js';
import { lateness, ordersInHours } from './by-the-clock.js';
import { BoundTour, legBetween, sums, type Shortage } from './round-hours.js';
import { shiftOf } from './shift.js';
import { evenRounds } from './split.js';
import {
  byAddress,
  legMetres,
  rememberOrders,
  type Placing,
  type Stop,
  type StopOrder,
} from './stop-order.js';

/** Straight-line speed from stop to stop where the site gives none [km/h]. Assumption: 33 km/h on streets 1.3 times as long. */
export const DRIVE_KMH = 25;

/** Work at one site. */
export interface Job {
  site: string;
  address: string;
  place?: Place | undefined;
  /** crew minutes there, without the drive [min] */
  minutes: number;
  /** water that comes on a truck [L] */
  trucked: number;
  /** open hours within the crew's day it has to be done in [min of the day]; left out: the whole of it */
  windows?: readonly RuleWindow[] | undefined;
}

/** What decides how long a day is. */
export interface Terms {
  crews: number;
  /** a crew's day [min] */
  crewMinutes: number;
  /** the same on the clock, up to midnight [min of the day] */
  shift: RuleWindow;
  /** the whole of it, as hours of a job */
  whole: readonly RuleWindow[];
  yard: Place | undefined;
  /** one leg, in minutes; undefined metres where an end is not known */
  legMinutes(metres: number | undefined): number;
  /** loads for a round's water */
  loads(litres: number): number;
  refillMinutes: number;
  orderOf(stops: readonly Stop[]): StopOrder;
}

/** Minutes above a crew's day that are rounding, not overload. */
const ROUNDING = 1e-6;

export function termsOf(site: Site, kit: readonly Device[]): Terms {
  const tank = kit.find((device) => device.family === 'tanker')?.volume ?? site.tankVolume;
  const { yardLatitude: latitude, yardLongitude: longitude } = site;
  const yard = isPlace(latitude, longitude)
    ? { latitude: latitude!, longitude: longitude! }
    : undefined;
  const shift = shiftOf(site);
  const metresAMinute = ((site.driveKmh ?? DRIVE_KMH) * 1000) / 60;
  return {
    crews: site.crews ?? 1,
    crewMinutes: site.crewHours * 60,
    shift,
    whole: [shift],
    yard,
    legMinutes: (metres) => (metres === undefined ? site.driveMinutes : metres / metresAMinute),
    loads: (litres) => tankLoads(litres, tank, site.tankUsable),
    refillMinutes: site.tankRefillMinutes,
    orderOf: rememberOrders(yard),
  };
}

export interface RoundStop<J extends Job> extends Stop {
  site: string;
  jobs: J[];
  placing: Placing;
  /** drive from the stop before, or from the yard [min] */
  legMinutes: number;
}

export interface Round<J extends Job> {
  stops: RoundStop<J>[];
  /** drive of the whole round, back to the yard included [min] */
  driveMinutes: number;
  loads: number;
  /** stops, driving, refills [min] */
  minutes: number;
  /** minutes above the crew's day, or above the open hours of what is bound to them: the larger; 0 when it fits [min] */
  over: number;
  /** the hours that are too short, where they are what is over */
  shortage?: Shortage | undefined;
  /** the amounts fit, but in no order tried here do all stops fall into their hours */
  order?: boolean;
}

export interface DayWork<J extends Job> {
  rounds: Round<J>[];
  /** minutes of the round that is most over, 0 when all fit [min] */
  over: number;
  note: string;
}

type Part<J extends Job> = Omit<RoundStop<J>, 'legMinutes'>;

/**
 * The rounds of a day: stops in order, cut into as few rounds as fit a crew's day, evenly filled. A site is shared by
 * two crews only where whole sites do not fit. Nothing is dropped: what does not fit makes a round too long.
 *
 * A round fits when its hours fit the crew's day, the work bound to open hours fits into what these leave of it (see
 * `claimsOf`), and its stops, worked one after another from the start of the day, fall into their hours. The driven order is
 * kept where it does that; else the first that does it of `ordersInHours`.
 *
 * @param jobs - of one day, at least one
 */
export function roundsOf<J extends Job>(jobs: readonly J[], terms: Terms): DayWork<J> {
  const stops = stopsOf(jobs);
  const { order, placing, note } = terms.orderOf(stops);
  const tour = order.map((i): Part<J> => ({ ...stops[i]!, placing: placing[i]! }));
  let parts = split(tour, terms);
  if (parts.longest > terms.crewMinutes + ROUNDING && terms.crews > 1) {
    const shared = split(tour.flatMap(singleJobs), terms);
    if (shared.longest < parts.longest - ROUNDING) parts = shared;
  }
  const rounds = parts.rounds.map((round) => drive(round, terms));
  const better = rounds.length > 1 ? rounds.map((round) => ownOrder(round, terms)) : rounds;
  const timed = better.map((round) => inHours(round, terms));
  return { rounds: timed, over: Math.max(...timed.map((round) => round.over)), note };
}

/** Jobs of one site are one stop, in the order of addresses, then of site names. */
function stopsOf<J extends Job>(jobs: readonly J[]): Omit<Part<J>, 'placing'>[] {
  const bySite = new Map<string, J[]>();
  for (const job of jobs) {
    const known = bySite.get(job.site);
    if (known) known.push(job);
    else bySite.set(job.site, [job]);
  }
  return [...bySite.entries()]
    .map(([site, own]) => ({ site, address: own[0]!.address, place: own[0]!.place, jobs: own }))
    .sort((a, b) => byAddress(a.address, b.address) || byAddress(a.site, b.site));
}

const singleJobs = <J extends Job>(stop: Part<J>): Part<J>[] =>
  stop.jobs.map((job) => ({ ...stop, jobs: [job] }));

function split<J extends Job>(
  tour: readonly Part<J>[],
  terms: Terms,
): { rounds: Part<J>[][]; longest: number } {
  const work = sums(tour, (part) => part.jobs.reduce((sum, job) => sum + job.minutes, 0));
  const water = sums(tour, (part) => part.jobs.reduce((sum, job) => sum + job.trucked, 0));
  const legs = sums(tour, (part, i) => (i === 0 ? 0 : legBetween(tour[i - 1]!, part, terms)));
  const home = tour.map((part) => terms.legMinutes(legMetres(terms.yard, part.place)));
  const hours = (from: number, to: number): number =>
    home[from]! +
    home[to - 1]! +
    (legs[to]! - legs[from + 1]!) +
    (work[to]! - work[from]!) +
    terms.loads(Math.max(0, water[to]! - water[from]!)) * terms.refillMinutes;
  const bound = new BoundTour(tour, terms);
  // what open hours lack counts like as much above a crew's day
  const cost = (from: number, to: number): number => {
    const short = bound.lacking(from, to);
    const lack = short ? terms.crewMinutes + short.need - short.open : 0;
    return Math.max(hours(from, to), lack);
  };
  const { ends, longest } = evenRounds(
    tour.length,
    terms.crews,
    terms.crewMinutes + ROUNDING,
    cost,
  );
  return {
    rounds: ends.map((end, k) => joined(tour.slice(k === 0 ? 0 : ends[k - 1]!, end))),
    longest,
  };
}

/** Neighbouring parts of one site become one stop again. */
function joined<J extends Job>(parts: readonly Part<J>[]): Part<J>[] {
  const out: Part<J>[] = [];
  for (const part of parts) {
    const last = out[out.length - 1];
    if (last?.site === part.site) last.jobs.push(...part.jobs);
    else out.push({ ...part, jobs: [...part.jobs] });
  }
  return out;
}

/** The round driven in this order; whether it fits is not asked yet. */
function drive<J extends Job>(parts: readonly Part<J>[], terms: Terms): Round<J> {
  let here = terms.yard;
  let [work, water, driven] = [0, 0, 0];
  const stops = parts.map((part): RoundStop<J> => {
    const legMinutes = terms.legMinutes(legMetres(here, part.place));
    here = part.place;
    driven += legMinutes;
    for (const job of part.jobs) {
      work += job.minutes;
      water += job.trucked;
    }
    return { ...part, legMinutes };
  });
  driven += terms.legMinutes(legMetres(here, terms.yard));
  const loads = terms.loads(water);
  return {
    stops,
    driveMinutes: driven,
    loads,
    minutes: work + driven + loads * terms.refillMinutes,
    over: 0,
  };
}

/** The round in the first order in which it fits the day and its hours, else in the one that is least over, with by how much. */
function inHours<J extends Job>(round: Round<J>, terms: Terms): Round<J> {
  const counted = (minutes: number): number => (minutes > ROUNDING ? minutes : 0);
  const above = ({ minutes }: Round<J>): number => minutes - terms.crewMinutes;
  const bound = new BoundTour(round.stops, terms);
  if (!bound.isBound) return { ...round, over: counted(above(round)) };
  const short = bound.lacking(0, round.stops.length);
  const lack = short ? short.need - short.open : 0;
  let best: Round<J> | undefined;
  for (const stops of ordersInHours(round.stops, terms)) {
    const driven = drive(stops, terms);
    const late = lateness(stops, terms);
    const over = counted(Math.max(above(driven), lack, late));
    if (best && over >= best.over) continue;
    const isShort = over > 0 && lack >= Math.max(above(driven), lack);
    best = {
      ...driven,
      over,
      ...(isShort ? { shortage: short } : over > 0 && late > above(driven) && { order: true }),
    };
    if (over === 0) break;
  }
  return best!;
}

/** A crew's part of the tour may have a shorter order of its own. */
function ownOrder<J extends Job>(round: Round<J>, terms: Terms): Round<J> {
  const { order } = terms.orderOf(round.stops);
  const other = drive(
    order.map((i) => round.stops[i]!),
    terms,
  );
  return other.minutes < round.minutes - ROUNDING ? other : round;
}
