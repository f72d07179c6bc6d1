/** What runs by timers on a day, for a crew that would else take those trees for forgotten. */
import type { Day } from '../../engine/dates.js';
import { lastsMinutes } from '../../engine/plan/option.js';
import type { Tree } from '../../engine/plan/model.js';
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

/** Clock times on paper are whole steps of this [min]. */
const STEP = 5;

/** Places of each of these days, in the order of hours first met, then of the inventory. */
export function timersOn(ctx: Context, days: ReadonlySet<Day>): Map<Day, TimerPlace[]> {
  const found = new Map<Day, Map<string, TimerPlace>>();
  for (const { tree, chosen } of ctx.plan.trees) {
    if (!chosen.devices.some((name) => ctx.automatic(name))) continue;
    for (const watering of chosen.plan) {
      const { day, device, hours, minutes } = watering;
      if (!days.has(day) || !ctx.automatic(device)) continue;
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
  }
  return new Map([...found].map(([day, places]) => [day, [...places.values()]]));
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
