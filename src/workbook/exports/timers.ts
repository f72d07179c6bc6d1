/** What runs by timers on a day, for a crew that would else take those trees for forgotten. */
import type { Day } from '../../engine/dates.js';
import { lastsMinutes } from '../../engine/plan/option.js';
import type { Tree, Watering } from '../../engine/plan/model.js';
import type { RuleWindow } from '../../engine/rules/rule-types.js';
import { windowsIn } from '../../engine/rules/rule-words.js';
import type { Context } from '../sheets/context.js';

/** Trees of one site that a timer waters on one day, within the same hours. */
export interface TimerPlace {
  site: string;
  /** hours the rules give, as the engine writes them: the plan sets no minute for a timer */
  hours: string;
  /** rows, in the order of the inventory */
  rows: Tree[];
  trees: number;
  /** shortest and longest run of a tree's hose, without pauses [min] */
  minutes: [number, number];
  /** longest run from its start to its end, pauses included [min] */
  lasts: number;
}

/**
 * Rows at one address whose hoses run alike on one day: what is set on a timer. Few rows each, so that no line of paper is
 * longer than a page.
 */
export interface TimerRun {
  site: string;
  address: string;
  /** the address has no other row in the list: it tells which tree is meant */
  told: boolean;
  /** what the list says of the rows, "" where it says nothing */
  note: string;
  /** as of a TimerPlace */
  hours: string;
  rows: Tree[];
  /** hoses at each tree; none where a timer opens something else */
  joined: number;
  /** as of a watering, whole and the sum of whole turns [min] */
  minutes: number;
  cycles: number;
  pause: number;
  /** from its start to its end, pauses included, the longer of what is planned and what is set: starts follow from it [min] */
  lasts: number;
}

/** Days on which the same runs are set, and these. */
export interface RunDays {
  days: Day[];
  runs: TimerRun[];
}

/** Places of a day on which no crew goes out. */
export interface TimerDay {
  day: Day;
  places: TimerPlace[];
}

/** What the pages say of timers, by the crew day on whose page it stands. */
export interface TimerDays {
  today: Map<Day, TimerPlace[]>;
  /** days after it without a crew; before the first crew day, those stand there too */
  apart: Map<Day, TimerDay[]>;
}

/** Rows of one run: more are another line. */
const MOST_ROWS = 20;
/** Clock times on paper are whole steps of this [min]. */
const STEP = 5;

/** What timers water on these days, tree by tree in the order of the inventory. */
function* byTimer(
  ctx: Context,
  has: (day: Day) => boolean,
): Generator<{ tree: Tree; watering: Watering }> {
  for (const { tree, chosen } of ctx.plan.trees) {
    if (!chosen.devices.some((name) => ctx.automatic(name))) continue;
    for (const watering of chosen.plan)
      if (has(watering.day) && ctx.automatic(watering.device)) yield { tree, watering };
  }
}

/** Places of each of these days, in the order of hours first met, then of the inventory. */
export function timersOn(ctx: Context, days: ReadonlySet<Day>): Map<Day, TimerPlace[]> {
  const found = new Map<Day, Map<string, TimerPlace>>();
  for (const { tree, watering } of byTimer(ctx, (day) => days.has(day))) {
    const { day, hours, minutes } = watering;
    const places = found.get(day) ?? new Map<string, TimerPlace>();
    found.set(day, places);
    const key = `${tree.site}\u0000${hours}`;
    const place = places.get(key) ?? { site: tree.site, hours, rows: [], trees: 0, minutes: [minutes, minutes], lasts: 0 }; // prettier-ignore
    places.set(key, place);
    if (place.rows.at(-1) !== tree) {
      place.rows.push(tree);
      place.trees += tree.count;
    }
    place.minutes = [Math.min(place.minutes[0], minutes), Math.max(place.minutes[1], minutes)];
    place.lasts = Math.max(place.lasts, lastsMinutes(watering));
  }
  return new Map([...found].map(([day, places]) => [day, [...places.values()]]));
}

const addressOf = ({ site, address }: Tree): string => `${site}\u0000${address}`;

/** A run of a tree alone. @param told - its address has no other row */
function runOf(tree: Tree, watering: Watering, told: boolean): TimerRun {
  const cycles = Math.max(1, watering.cycles);
  // a timer is set in whole minutes, turn by turn: what it comes to is the sum of what is set
  const minutes = cycles * Math.max(1, Math.round(watering.minutes / cycles));
  const pause = cycles > 1 ? Math.round(watering.pause ?? 0) : 0;
  // a millionth of a millionth more is no minute more
  const planned = Math.ceil(lastsMinutes(watering) - 1e-9);
  return {
    site: tree.site,
    address: tree.address === tree.site ? '' : tree.address,
    told,
    note: tree.note ?? '',
    hours: watering.hours,
    rows: [tree],
    joined: watering.family === 'soaker' ? (watering.joined ?? 1) : 0,
    minutes,
    cycles,
    pause,
    lasts: Math.max(planned, minutes + (cycles - 1) * pause),
  };
}

/** What must be the same for rows to stand in one line. */
const alike = ({ site, address, note, hours, joined, minutes, cycles, pause, lasts }: TimerRun): string =>
  JSON.stringify([site, address, note, hours, joined, minutes, cycles, pause, lasts]); // prettier-ignore

/** Trees of runs. */
export const treesIn = (runs: readonly TimerRun[]): number =>
  runs.reduce((sum, { rows }) => sum + rows.reduce((n, { count }) => n + count, 0), 0);

/** Hoses of runs, each with its timer or on one with its neighbours. */
export const hosesIn = (runs: readonly TimerRun[]): number =>
  runs.reduce((sum, run) => sum + treesIn([run]) * run.joined, 0);

/** Runs of these days, days with the same ones together; days in their order, runs in that of the inventory. */
export function timerRuns(ctx: Context, [from, to]: readonly [Day, Day]): RunDays[] {
  const rowsAt = new Map<string, number>();
  for (const { tree } of ctx.plan.trees)
    rowsAt.set(addressOf(tree), (rowsAt.get(addressOf(tree)) ?? 0) + 1);
  const found = new Map<Day, Map<string, TimerRun[]>>();
  for (const { tree, watering } of byTimer(ctx, (day) => day >= from && day <= to)) {
    const told = tree.address !== '' && rowsAt.get(addressOf(tree)) === 1;
    const run = runOf(tree, watering, told);
    const lines = found.get(watering.day) ?? new Map<string, TimerRun[]>();
    found.set(watering.day, lines);
    const same = lines.get(alike(run)) ?? [];
    lines.set(alike(run), same);
    const last = same.at(-1);
    if (!last || last.rows.length >= MOST_ROWS) same.push(run);
    else if (last.rows.at(-1) !== tree) last.rows.push(tree);
  }
  const together = new Map<string, RunDays>();
  for (const [day, lines] of [...found].sort(([a], [b]) => a - b)) {
    const runs = [...lines.values()].flat();
    const key = JSON.stringify(runs.map((run) => [alike(run), run.rows.map(({ row }) => row)]));
    const known = together.get(key);
    if (known) known.days.push(day);
    else together.set(key, { days: [day], runs });
  }
  return [...together.values()];
}

/** Runs by the hours the rules give. */
export function byHours(runs: readonly TimerRun[]): TimerRun[][] {
  const found = new Map<string, TimerRun[]>();
  for (const run of runs) found.set(run.hours, [...(found.get(run.hours) ?? []), run]);
  return [...found.values()];
}

/** Timers of every day of the season, each day on the page of the crew that is out then, or was last. */
export function timerDays(ctx: Context): TimerDays {
  const { crewDays, site } = ctx.plan;
  const out = crewDays.map(({ day }) => day);
  const season = Array.from({ length: site.seasonTo - site.seasonFrom + 1 }, (_, i) => site.seasonFrom + i); // prettier-ignore
  const all = timersOn(ctx, new Set(season));
  const crewed = new Set(out);
  const apart = new Map<Day, TimerDay[]>();
  let page = out[0];
  for (const day of season) {
    if (crewed.has(day)) page = day;
    const places = all.get(day);
    if (page === undefined || !places || crewed.has(day)) continue;
    apart.set(page, [...(apart.get(page) ?? []), { day, places }]);
  }
  return { today: all, apart };
}

/**
 * When a run may start so that it ends within its hours, to whole steps; nothing where no stretch of them is as long.
 * @param lasts - with its pauses [min]
 */
export function startsWithin(hours: string, lasts: number): RuleWindow[] {
  return windowsIn(hours)
    .filter(({ start, end }) => end - start >= lasts - 1e-9)
    .map(({ start, end }) => ({
      start,
      end: Math.max(start, Math.floor((end - lasts + 1e-9) / STEP) * STEP),
    }));
}

/** House number before or after the street: "13 Hawser Lane", "Hawser Lane 13". */
const NUMBER_FIRST = /^(\d\S*)\s+(.+)$/;
const NUMBER_LAST = /^(.+?)\s+(\d\S*)$/;

/** Addresses of one street with the street named once: `13, 17 Tarbarrel Row`; others as they are. */
export function joinedAddresses(addresses: readonly string[]): string[] {
  const streets = new Map<string, { numbers: string[]; say: (numbers: string) => string }>();
  for (const address of addresses) {
    const [first, last] = [NUMBER_FIRST.exec(address), NUMBER_LAST.exec(address)];
    const [number, street] = first ? [first[1]!, first[2]!] : last ? [last[2]!, last[1]!] : [];
    if (number === undefined) {
      streets.set(`as it is ${address}`, { numbers: [address], say: (all) => all });
      continue;
    }
    const key = `${first ? 'first' : 'last'} ${street}`;
    const known = streets.get(key) ?? {
      numbers: [],
      say: (all: string) => (first ? `${all} ${street}` : `${street} ${all}`),
    };
    streets.set(key, known);
    known.numbers.push(number);
  }
  return [...streets.values()].map(({ numbers, say }) => say(numbers.join(', ')));
}
