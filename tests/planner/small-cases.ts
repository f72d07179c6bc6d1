/** Random small seasons with few allowed days, invented, the same every time. */
import { dayOf } from '../../src/engine/dates.js';
import { coiledArea } from '../../src/engine/means/soaker-hose.js';
import type { SeasonWeather, Site, Tree } from '../../src/engine/plan/model.js';
import { hoseLimits } from '../../src/engine/plan/hose-run.js';
import { flowOf, type AllowedDays, type Option } from '../../src/engine/plan/option.js';
import { treeSeason, type TreeSeason } from '../../src/engine/plan/tree-season.js';
import { TEXTURES } from '../../src/engine/soil/texture.js';
import { MM_PER_INCH } from '../../src/engine/units.js';
import { defaultSite } from '../../src/tables/site.js';
import { device } from '../engine/device.js';
import type { Place, Way } from './dry-ledger.js';

export const MOST_ALLOWED = 14;
export const FROM = dayOf(2027, 5, 31); // a Monday

/** Numbers in [0, 1), the same for the same seed (a 32-bit mixing generator). */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export type Kind = Way['kind'];
export const KINDS: readonly Kind[] = ['bag full', 'bag part', 'soaker', 'hand'];
export const CALENDARS = ['any day', 'every 2nd', 'two weekdays', 'weekly', 'scattered'] as const;

export interface SmallCase {
  name: string;
  kind: Kind;
  rainy: boolean;
  calendar: (typeof CALENDARS)[number];
  /** waterings allowed a week, Infinity without a limit */
  perWeek: number;
  tree: Tree;
  site: Site;
  weather: SeasonWeather;
  season: TreeSeason;
  option: Option;
  way: Way;
  place: Place;
  /** allowed days, at most MOST_ALLOWED */
  open: number[];
}

/** A case of its number; `rainy` every second one, a weekly limit every fifth. */
export function smallCase(number: number): SmallCase {
  const next = random(7919 * (number + 1));
  const between = (low: number, high: number): number => low + (high - low) * next();
  const one = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)]!;
  const rainy = number % 2 === 1;
  const kind = KINDS[Math.floor(number / 2) % KINDS.length]!;
  const calendar = one(CALENDARS);
  const perWeek = number % 5 === 4 ? one([1, 2, 3]) : Infinity;

  const isOpen = openBy(calendar, next);
  const open: number[] = [];
  const longest = calendar === 'any day' ? MOST_ALLOWED : 60;
  let days = 0;
  for (; days < longest; days++) {
    if (!isOpen(days)) continue;
    if (open.length === MOST_ALLOWED) break;
    open.push(days);
  }

  const caliper = between(0.75, 8);
  const site = defaultSite({
    zone: Math.floor(between(4, 12)),
    plantFactor: between(0.3, 0.9),
    siteFactor: between(0.6, 1.3),
    texture: one(TEXTURES),
    overflowToRing: one([0, 0.25, 0.5, 1]),
    joiningShare: one([0, 0.5, 1]),
  });
  const tree: Tree = {
    id: 'T', row: 2, species: 'invented', count: 1, site: 'S', address: '1 Invented Way',
    ...(next() < 0.2 ? { container: one([7, 15, 25, 45]) } : { caliper: caliper * MM_PER_INCH }),
    planted: FROM - Math.floor(next() < 0.5 ? between(0, 60) : between(0, 2000)),
  }; // prettier-ignore
  const et0 = between(2, 8.5);
  const rain = Float64Array.from({ length: days }, () =>
    rainy && next() < 0.2 ? between(1, 25) : 0,
  );
  const weather: SeasonWeather = {
    from: FROM,
    et0: Float64Array.from({ length: days }, () => et0 * between(0.6, 1.4)),
    rain,
    effectiveRain: rain,
    peakMonth: 7,
    peakEt0: et0,
  };
  const season = treeSeason(tree, site, weather);

  const minutes = one([20, 60, 240, 1440]);
  const allowed: AllowedDays = {
    open: Uint8Array.from({ length: days }, (_, i) => (open.includes(i) ? 1 : 0)),
    hours: () => 'any',
    minutes: () => minutes,
    perWeek: () => perWeek,
  };
  const bag = device({ name: 'bag', family: 'bag', volume: between(20, 120), ratedHours: 5 });
  const hose = device({
    name: 'hose', family: 'soaker', rate: between(2, 12), length: between(5, 30), automatic: true,
  }); // prettier-ignore
  const nozzle = device({ name: 'nozzle', family: 'hand', flow: between(5, 25) });
  const used = kind === 'soaker' ? hose : kind === 'hand' ? nozzle : bag;
  const joined = kind === 'hand' ? 1 : one([1, 1, 2]);
  return {
    name: `case ${number}: ${kind}, ${calendar}${rainy ? ', rain' : ''}`,
    kind, rainy, calendar, perWeek, tree, site, weather, season, open,
    option: {
      label: kind,
      driveMinutes: 0,
      main: { device: used, joined, fill: kind === 'bag full' ? 'full' : 'enough', allowed },
    },
    way: {
      kind,
      efficiency: site.efficiency[used.family],
      volume: (used.volume ?? 0) * joined,
      // what pauses leave of a hose's flow is the question set, not the answer
      flow: kind === 'soaker' ? hoseLimits(season, used, joined).flow : flowOf(used) * joined,
      minutes: () => minutes,
      reach: kind === 'soaker' ? coiledArea(used.length! * joined) : Infinity,
    },
    place: { rain, joiningShare: site.joiningShare, overflowToRing: site.overflowToRing },
  }; // prettier-ignore
}

function openBy(calendar: SmallCase['calendar'], next: () => number): (day: number) => boolean {
  const first = Math.floor(next() * 7);
  const second = (first + 2 + Math.floor(next() * 3)) % 7;
  switch (calendar) {
    case 'any day':
      return () => true;
    case 'every 2nd':
      return (day) => day % 2 === first % 2;
    case 'two weekdays':
      return (day) => day % 7 === first || day % 7 === second;
    case 'weekly':
      return (day) => day % 7 === first;
    case 'scattered':
      return () => next() < 0.35;
  }
}
