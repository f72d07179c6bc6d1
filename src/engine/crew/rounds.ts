/** A day's jobs as rounds of crews: stops in order, driving, refills, hours. */
import { tankLoads } from '../means/hand-and-tanker.js';
import type { Device, Site } from '../plan/model.js';
import { isPlace, type Place } from './place.js';
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
}

/** What decides how long a day is. */
export interface Terms {
  crews: number;
  /** a crew's day [min] */
  crewMinutes: number;
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
  const metresAMinute = ((site.driveKmh ?? DRIVE_KMH) * 1000) / 60;
  return {
    crews: site.crews ?? 1,
    crewMinutes: site.crewHours * 60,
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
}

export interface DayWork<J extends Job> {
  rounds: Round<J>[];
  /** minutes of the longest round above a crew's day, 0 when it fits [min] */
  over: number;
  note: string;
}

type Part<J extends Job> = Omit<RoundStop<J>, 'legMinutes'>;

/**
 * The rounds of a day: stops in order, cut into as few rounds as fit a crew's day, evenly filled. A site is shared by
 * two crews only where whole sites do not fit. Nothing is dropped: what does not fit makes a round too long.
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
  const longest = Math.max(...better.map((round) => round.minutes));
  const over = longest - terms.crewMinutes;
  return { rounds: better, over: over > ROUNDING ? over : 0, note };
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

/** Running sums: the sum over items from…to−1 is s[to] − s[from]. */
function sums<T>(items: readonly T[], value: (item: T, i: number) => number): Float64Array {
  const out = new Float64Array(items.length + 1);
  items.forEach((item, i) => (out[i + 1] = out[i]! + value(item, i)));
  return out;
}

/** Minutes of the leg between two parts of a tour; none within a site. */
const legBetween = (a: Part<Job>, b: Part<Job>, terms: Terms): number =>
  a.site === b.site ? 0 : terms.legMinutes(legMetres(a.place, b.place));

function split<J extends Job>(
  tour: readonly Part<J>[],
  terms: Terms,
): { rounds: Part<J>[][]; longest: number } {
  const work = sums(tour, (part) => part.jobs.reduce((sum, job) => sum + job.minutes, 0));
  const water = sums(tour, (part) => part.jobs.reduce((sum, job) => sum + job.trucked, 0));
  const legs = sums(tour, (part, i) => (i === 0 ? 0 : legBetween(tour[i - 1]!, part, terms)));
  const home = tour.map((part) => terms.legMinutes(legMetres(terms.yard, part.place)));
  const cost = (from: number, to: number): number =>
    home[from]! +
    home[to - 1]! +
    (legs[to]! - legs[from + 1]!) +
    (work[to]! - work[from]!) +
    terms.loads(Math.max(0, water[to]! - water[from]!)) * terms.refillMinutes;
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

/** The round driven in this order. */
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
  };
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
