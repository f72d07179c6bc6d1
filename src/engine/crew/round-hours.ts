/** What of a round's work is bound to which open hours, and whether they are long enough for it. */
import type { RuleWindow } from '../rules/rule-types.js';
import { claimsOf, keyOf, type Claim } from './bound-work.js';
import { legMetres } from './stop-order.js';
import type { Job, Terms } from './rounds.js';
import type { Place } from './place.js';
import { lengthOf } from './shift.js';

/** A stop as far as the clock needs it. */
export interface TimedStop {
  site: string;
  place?: Place | undefined;
  jobs: readonly Job[];
}

/** Hours that are too short for the work bound to them. */
export interface Shortage {
  windows: Windows;
  /** time left of them, and work bound to them with its driving and refills [min] */
  open: number;
  need: number;
}

export type Windows = readonly RuleWindow[];

export const hoursOf = (job: Job, terms: Terms): Windows => job.windows ?? terms.whole;

/** The unlike hours of jobs, and the place of each among them. */
export interface Kinds {
  list: Windows[];
  of(job: Job): number;
}

export function kindsOf(stops: readonly TimedStop[], terms: Terms): Kinds {
  const list: Windows[] = [];
  const byKey = new Map<string, number>();
  // jobs share the lists of their hours, so that most are found without reading them
  const known = new Map<Windows, number>();
  const add = (windows: Windows): number => {
    const key = keyOf(windows);
    const at = byKey.get(key) ?? list.push(windows) - 1;
    byKey.set(key, at);
    known.set(windows, at);
    return at;
  };
  const of = (job: Job): number => {
    const windows = hoursOf(job, terms);
    return known.get(windows) ?? add(windows);
  };
  for (const stop of stops) for (const job of stop.jobs) of(job);
  return { list, of };
}

/** Minutes of the leg between two stops; none within a site. */
export const legBetween = (a: TimedStop, b: TimedStop, terms: Terms): number =>
  a.site === b.site ? 0 : terms.legMinutes(legMetres(a.place, b.place));

/** Running sums: the sum over items from…to−1 is s[to] − s[from]. */
export function sums<T>(items: readonly T[], value: (item: T, i: number) => number): Float64Array {
  const out = new Float64Array(items.length + 1);
  items.forEach((item, i) => (out[i + 1] = out[i]! + value(item, i)));
  return out;
}

/** Minutes of hours, which do not overlap, from one minute of the day to another: asked for every cut of a tour. */
function openBetween(windows: Windows, from: number, to: number): number {
  let minutes = 0;
  for (const { start, end } of windows)
    minutes += Math.max(0, Math.min(end, to) - Math.max(start, from));
  return minutes;
}

/** What is bound to one claim along a tour, so that any part of the tour is a few differences. */
interface Bound {
  claim: Claim;
  work: Float64Array;
  water: Float64Array;
  /** drive from the stop before that is bound, too */
  legs: Float64Array;
  /** first bound stop at or after a place of the tour, and last one before it */
  next: Int32Array;
  last: Int32Array;
}

/**
 * Work of a tour that may not be done at any hour of the crew's day. What is bound: minutes at the stop, driving between
 * bound stops, refills but the first. What takes from the hours: the way out with the first filling of the tank where they
 * begin with the crew's day, and the way home where they end with it. Driving and filling besides can be done when nothing
 * may be watered.
 */
export class BoundTour {
  private readonly bounds: Bound[];
  private readonly home: number[];

  constructor(
    stops: readonly TimedStop[],
    private readonly terms: Terms,
  ) {
    const kinds = kindsOf(stops, terms);
    // hours as long as a crew's day say nothing new
    const tight = claimsOf(kinds.list).filter(
      ({ windows }) => lengthOf(windows) < terms.crewMinutes,
    );
    this.bounds = tight.map((claim) => boundBy(claim, kinds, stops, terms));
    this.home =
      this.bounds.length === 0
        ? []
        : stops.map(({ place }) => terms.legMinutes(legMetres(terms.yard, place)));
  }

  /** Some work has shorter hours than the crew. */
  get isBound(): boolean {
    return this.bounds.length > 0;
  }

  /** The hours that lack most for the stops from…to−1; undefined where all fits in the amounts. */
  lacking(from: number, to: number): Shortage | undefined {
    let worst: Shortage | undefined;
    for (const bound of this.bounds) {
      const [first, last] = [bound.next[from]!, bound.last[to]!];
      if (first >= to) continue;
      const water = Math.max(0, bound.water[to]! - bound.water[from]!);
      const { shift, refillMinutes } = this.terms;
      const loads = this.terms.loads(water);
      const out = this.home[first]! + (loads > 0 ? refillMinutes : 0);
      const { windows } = bound.claim;
      const open = openBetween(windows, shift.start + out, shift.end - this.home[last]!);
      const need =
        bound.work[to]! -
        bound.work[from]! +
        (bound.legs[to]! - bound.legs[first + 1]!) +
        Math.max(0, loads - 1) * refillMinutes;
      if (need - open > (worst ? worst.need - worst.open : 0)) worst = { windows, open, need };
    }
    return worst;
  }
}

function boundBy(claim: Claim, kinds: Kinds, stops: readonly TimedStop[], terms: Terms): Bound {
  const own = stops.map((stop) => stop.jobs.filter((job) => claim.binds[kinds.of(job)]));
  const next = new Int32Array(stops.length + 1).fill(stops.length);
  for (let i = stops.length - 1; i >= 0; i--) next[i] = own[i]!.length > 0 ? i : next[i + 1]!;
  const last = new Int32Array(stops.length + 1).fill(-1);
  for (let i = 0; i < stops.length; i++) last[i + 1] = own[i]!.length > 0 ? i : last[i]!;
  const add = (pick: (job: Job) => number) =>
    sums(own, (jobsThere) => jobsThere.reduce((sum, job) => sum + pick(job), 0));
  return {
    claim,
    work: add((job) => job.minutes),
    water: add((job) => job.trucked),
    legs: sums(stops, (stop, i) =>
      own[i]!.length > 0 && last[i]! >= 0 ? legBetween(stops[last[i]!]!, stop, terms) : 0,
    ),
    next,
    last,
  };
}
