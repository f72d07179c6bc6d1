/** One tree, one way of watering it, one season, in the planner's words: outcome, waterings with their reasons, days. */
import { isoDate } from '../dates.js';
import { runsOf, runsOn } from './hose-run.js';
import { EventList, GIVEN, GIVEN_SOAK, SOAK, type EventColumns } from './events.js';
import { SeasonRun, type OutcomeNumbers, type Replay } from './kernel.js';
import { conditionsOf, meansNumbers } from './means-numbers.js';
import type { MeansOutcome, SeasonWeather, Site, Watering } from './model.js';
import { devicesOf, familiesOf, lastsMinutes, runMinutes, type Option } from './option.js';
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
  const means = meansNumbers(option, site, season);
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
    const given = what === GIVEN || what === GIVEN_SOAK;
    const minutes = soaked ? PAD_SOAK_MINUTES : runMinutes(device, litres[e]!, joined);
    const { cycles, pause } = runsOf(season, device, joined, litres[e]!, index);
    const left = runsOn(device, lastsMinutes({ minutes, cycles, pause }));
    waterings.push({
      day: weather.from + index,
      family: device.family,
      device: device.name,
      litres: litres[e]!,
      minutes,
      cycles,
      ...(pause > 0 && { pause }),
      ...(joined > 1 && { joined }),
      ...(left > 0 && { runsOn: left }),
      hours: allowed.hours(index),
      // what was really given is done, whatever the hours
      ...(allowed.within && !given && { within: allowed.within(index, left) }),
      why: given
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
