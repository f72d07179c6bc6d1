/** One tree, one way of watering it, one season, in the planner's words: outcome, waterings with their reasons, days. */
import { isoDate } from '../dates.js';
import { coiledArea, cyclesAndSoak } from '../means/soaker-hose.js';
import { MM_PER_INCH } from '../units.js';
import { EventList, GIVEN, GIVEN_SOAK, SOAK, type EventColumns } from './events.js';
import { SeasonRun, type OutcomeNumbers, type Replay } from './kernel.js';
import { conditionsOf, meansNumbers } from './means-numbers.js';
import type { Device, MeansOutcome, SeasonWeather, Site, Watering } from './model.js';
import { devicesOf, familiesOf, flowOf, runMinutes, type Option } from './option.js';
import type { TreeSeason } from './tree-season.js';

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

/** Common practice, no source: a pad is left to soak overnight [min]. */
const PAD_SOAK_MINUTES = 12 * 60;
/** Water the surface holds before it runs off [mm]: a quarter inch, assumption. */
const SURFACE_STORAGE = 0.25 * MM_PER_INCH;

/**
 * Simulates a season by the kernel and puts it into words.
 *
 * @param onDay - called with every day, for views and tests
 * @param replay - a season under way: what was really given, stores as they were found
 */
export function simulate(
  season: TreeSeason,
  option: Option,
  site: Site,
  weather: SeasonWeather,
  onDay?: (row: DayRow) => void,
  replay?: Replay,
): MeansOutcome {
  const means = meansNumbers(option, site, season.ballArea);
  const events = new EventList(season.days);
  const run = new SeasonRun(season, means, conditionsOf(site, weather), events, replay);
  const begin = replay?.from ?? season.first;
  for (let i = begin; i < season.days; i++) {
    run.step(i, run.isDue(i));
    if (onDay) onDay(dayRow(run, season, i, weather.effectiveRain[i]!, i === begin));
  }
  return {
    ...outcomeWords(option, run.outcome(), site),
    plan: wateringsOf(events.columns, 0, events.length, season, option, weather),
  };
}

function dayRow(
  run: SeasonRun,
  season: TreeSeason,
  index: number,
  rain: number,
  begins: boolean,
): DayRow {
  const { padIn, stores } = run;
  const { et, percolated, ks, depletion, ball, ring, pad } = stores;
  const rainToBall = rain * run.ballInRain;
  const rainToRing = rain * (season.ringArea[index]! + run.covered);
  return {
    index,
    demand: season.demand[index]!,
    rainIn: rainToBall + rainToRing,
    waterIn: stores.toBall - rainToBall + (stores.toRing - rainToRing),
    padIn,
    joined: begins ? 0 : season.joined[index]!,
    et,
    percolated,
    ks,
    depletion,
    ball,
    ring,
    pad,
  };
}

/** An outcome of a feasible means, all but its single waterings. */
export const outcomeWords = (
  option: Option,
  numbers: OutcomeNumbers,
  site: Site,
): Omit<MeansOutcome, 'plan'> => ({
  label: option.label,
  families: familiesOf(option),
  devices: devicesOf(option).map((d) => d.name),
  feasible: true,
  verdict: verdict(numbers.stressDays, numbers.leastKs, site.toleratedStress),
  ...numbers,
});

function verdict(stressDays: number, leastKs: number, tolerated: number): string {
  if (stressDays === 0) return 'keeps the tree without stress';
  const days = `${stressDays} stress ${stressDays === 1 ? 'day' : 'days'}`;
  return `${days}${stressDays <= tolerated ? ', which is accepted' : ''}; at worst ${Math.round(leastKs * 100)} % of demand met`;
}

/** Rows `from` up to `to` of the columns as waterings of a tree. */
export function wateringsOf(
  { day, kind, litres, ...used }: EventColumns,
  from: number,
  to: number,
  season: TreeSeason,
  option: Option,
  weather: SeasonWeather,
): Watering[] {
  const waterings: Watering[] = [];
  for (let e = from; e < to; e++) {
    const index = day[e]!;
    const what = kind[e]!;
    const soaked = what === SOAK || what === GIVEN_SOAK;
    const { device, allowed, joined } = soaked ? { ...option.pad!, joined: 1 } : option.main!;
    const next = used.next[e]!;
    const coming = next < season.days ? isoDate(weather.from + next) : '';
    waterings.push({
      day: weather.from + index,
      family: device.family,
      device: device.name,
      litres: litres[e]!,
      minutes: soaked ? PAD_SOAK_MINUTES : runMinutes(device, litres[e]!, joined),
      cycles: cyclesOf(season, device, joined, litres[e]!, index),
      hours: allowed.hours(index),
      // what was really given is done, whatever the hours
      ...(allowed.within &&
        what !== GIVEN &&
        what !== GIVEN_SOAK && { within: allowed.within(index) }),
      why:
        what === GIVEN || what === GIVEN_SOAK
          ? 'As it was really given.'
          : soaked
            ? 'The pad would fall to its reserve before the next allowed day: lift it and soak it.'
            : whyNow(used.usedNow[e]!, used.usedThen[e]!, coming),
    });
  }
  return waterings;
}

/** Shares in percent; `next`: the next allowed day, "" for none. */
function whyNow(usedNow: number, usedThen: number, next: string): string {
  const when = next === '' ? 'the end of the season' : `the next allowed day, ${next}`;
  return `${usedNow} % of the usable water is used; without watering ${usedThen} % before ${when}.`;
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
