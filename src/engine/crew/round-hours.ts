/** A crew's round against the clock: what of its work is bound to which hours, and whether an order of stops keeps them. */
import { intersect } from '../rules/rule-windows.js';
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

type Windows = readonly RuleWindow[];

const hoursOf = (job: Job, terms: Terms): Windows => job.windows ?? terms.whole;

/** The unlike hours of jobs, and the place of each among them. */
interface Kinds {
  list: Windows[];
  of(job: Job): number;
}

function kindsOf(stops: readonly TimedStop[], terms: Terms): Kinds {
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
      const open = lengthOf(
        intersect(bound.claim.windows, [
          { start: shift.start + out, end: shift.end - this.home[last]! },
        ]),
      );
      const need =
        bound.work[to]! -
        bound.work[from]! +
        (bound.legs[to]! - bound.legs[first + 1]!) +
        Math.max(0, loads - 1) * refillMinutes;
      if (need - open > (worst ? worst.need - worst.open : 0))
        worst = { windows: bound.claim.windows, open, need };
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

/**
 * Minutes by which a round, worked in this order from the start of the crew's day, keeps neither its hours nor the end of
 * the day: work done when it is not allowed, and the return after the day is over. 0 when it all works.
 */
export function lateness(stops: readonly TimedStop[], terms: Terms): number {
  const { shift, crewMinutes, refillMinutes } = terms;
  let [now, late, water, filled] = [shift.start, 0, 0, 0];
  let before: TimedStop | undefined;
  for (const stop of stops) {
    now += before
      ? legBetween(before, stop, terms)
      : terms.legMinutes(legMetres(terms.yard, stop.place));
    before = stop;
    for (const job of stop.jobs) {
      water += job.trucked;
      const loads = terms.loads(water);
      now += (loads - filled) * refillMinutes;
      filled = loads;
      const done = workFrom(now, job.minutes, hoursOf(job, terms));
      late += done.over;
      now = done.end;
    }
  }
  if (before) now += terms.legMinutes(legMetres(before.place, terms.yard));
  return late + Math.max(0, now - shift.start - crewMinutes);
}

/** Work begun at the first open minute; it waits where the hours have a gap. What they cannot hold is done after them. */
function workFrom(now: number, minutes: number, windows: Windows): { end: number; over: number } {
  let left = minutes;
  let end = now;
  for (const window of windows) {
    if (window.end <= end || left <= 0) continue;
    const start = Math.max(end, window.start);
    const done = Math.min(left, window.end - start);
    left -= done;
    end = start + done;
  }
  return { end: end + left, over: left };
}

/**
 * Orders in which the stops may be worked: as they are driven; those with the hours that end first ahead, the driven order
 * kept among equal ones; by the clock, always the stop that is open now and closes first. A site with two kinds of hours may
 * be visited twice.
 */
export function ordersInHours<S extends TimedStop>(stops: readonly S[], terms: Terms): S[][] {
  const kinds = kindsOf(stops, terms);
  const single = stops.flatMap((stop) =>
    [...new Set(stop.jobs.map(kinds.of))].map((kind) => ({
      ...stop,
      jobs: stop.jobs.filter((job) => kinds.of(job) === kind),
    })),
  );
  const groups = kinds.list.map((windows, kind) => ({
    windows,
    stops: single.filter(({ jobs }) => kinds.of(jobs[0]!) === kind),
  }));
  const early = [...groups].sort(
    (a, b) => closes(a.windows) - closes(b.windows) || lengthOf(a.windows) - lengthOf(b.windows),
  );
  return [[...stops], early.flatMap((group) => group.stops), byTheClock(early, terms)];
}

/** Stops with the same hours, in the driven order. */
interface Group<S extends TimedStop> {
  windows: Windows;
  stops: readonly S[];
}

const closes = (windows: Windows): number => windows.at(-1)?.end ?? 0;

/** First open minute from `now` on; Infinity where none is left. */
const opens = (windows: Windows, now: number): number =>
  windows.reduce((first, { start, end }) => (end > now ? Math.min(first, Math.max(start, now)) : first), Infinity); // prettier-ignore

const minutesAt = (stop: TimedStop): number => stop.jobs.reduce((sum, job) => sum + job.minutes, 0);

/**
 * Stop after stop the next one of some group: the one with the least wait, of equal ones the one that closes first, unless
 * it would leave another group too little of its hours.
 */
function byTheClock<S extends TimedStop>(groups: readonly Group<S>[], terms: Terms): S[] {
  const left = groups.map(({ windows, stops }) => ({ windows, stops: [...stops] }));
  const order: S[] = [];
  let now = terms.shift.start;
  const legTo = (stop: S, from: S | undefined): number =>
    from ? legBetween(from, stop, terms) : terms.legMinutes(legMetres(terms.yard, stop.place));
  const last = (): S | undefined => order[order.length - 1];
  for (;;) {
    const choices = left.flatMap((group) => {
      const [stop] = group.stops;
      if (!stop) return [];
      const arrives = now + legTo(stop, last());
      const { end } = workFrom(arrives, minutesAt(stop), group.windows);
      return [{ group, stop, arrives, end, wait: opens(group.windows, arrives) - arrives }];
    });
    if (choices.length === 0) return order;
    const load = (group: Group<S>): number =>
      group.stops.reduce(
        (sum, stop, i) => sum + minutesAt(stop) + (i > 0 ? legTo(stop, group.stops[i - 1]) : 0),
        0,
      );
    const ruins = (first: (typeof choices)[number]): boolean =>
      choices.some(({ group, stop, arrives }) => {
        if (group === first.group) return false;
        const minutes = load(group);
        const after = workFrom(first.end + legTo(stop, first.stop), minutes, group.windows).over;
        return after > workFrom(arrives, minutes, group.windows).over + 1e-9;
      });
    // groups stand by when they close, which a stable sort keeps
    const next = [...choices].sort((a, b) => a.wait - b.wait).find((c) => !ruins(c)) ?? choices[0]!;
    next.group.stops.shift();
    order.push(next.stop);
    now = next.end;
  }
}
