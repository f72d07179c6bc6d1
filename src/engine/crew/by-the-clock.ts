/** A crew's round by the clock: whether an order of stops keeps their hours, and orders that may. */
import type { Terms } from './rounds.js';
import { hoursOf, kindsOf, legBetween, type TimedStop, type Windows } from './round-hours.js';
import { lengthOf } from './shift.js';
import { legMetres } from './stop-order.js';
import { Tank } from './tank.js';

/**
 * Minutes by which a round, worked in this order from the start of the crew's day, keeps neither its hours nor the end of
 * the day: work done when it is not allowed, and the return after the day is over. 0 when it all works.
 */
export function lateness(stops: readonly TimedStop[], terms: Terms): number {
  const { shift, crewMinutes, refillMinutes } = terms;
  let [now, late] = [shift.start, 0];
  const tank = new Tank(terms);
  let before: TimedStop | undefined;
  for (const stop of stops) {
    now += before
      ? legBetween(before, stop, terms)
      : terms.legMinutes(legMetres(terms.yard, stop.place));
    before = stop;
    for (const job of stop.jobs) {
      now += tank.before(job.trucked) * refillMinutes;
      const done = workFrom(now, job.minutes, hoursOf(job, terms));
      late += done.over;
      now = done.end;
    }
  }
  if (before) now += terms.legMinutes(legMetres(before.place, terms.yard));
  return late + Math.max(0, now - shift.start - crewMinutes);
}

/** Work begun at the first open minute [min of the day]; it waits where the hours have a gap. What they cannot hold is done after them. */
export function workFrom(
  now: number,
  minutes: number,
  windows: Windows,
): { end: number; over: number } {
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
