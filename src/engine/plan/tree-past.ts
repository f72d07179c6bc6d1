/** The days of a tree that are past, walked with what was really given. */
import { EventList, GIVEN_SOAK } from './events.js';
import { SeasonRun, type Replay } from './kernel.js';
import { meansNumbers } from './means-numbers.js';
import type { Device } from './model.js';
import type { AllowedDays, Option } from './option.js';
import type { OnDay, Past, Sums } from './path.js';
import type { TreePlanner, TreeTask } from './plan-trees.js';
import type { TreeNews } from './replan-rows.js';
import { wateringsOf } from './simulate.js';
import type { TreeSeason } from './tree-season.js';

/** What the past leaves behind. */
export interface Lived {
  past: Past;
  /** where the days ahead begin */
  replay: Replay;
  /** waterings in the week of today */
  usedInWeek: number;
}

/** Part of a past walked with one device. */
interface Stretch {
  option: Option;
  run: SeasonRun;
  events: EventList;
}

/**
 * Walks a tree from its first day to the evening before today. Where a watering came through another device than the
 * option's, its days are walked with that device.
 *
 * @param option - the means the tree had, with its devices as they were
 * @param today - index of the first day that is not past
 */
export function livePast(
  planner: TreePlanner,
  task: TreeTask,
  season: TreeSeason,
  option: Option,
  news: TreeNews,
  today: number,
  onDay?: OnDay,
): Lived {
  const given = new Float64Array(season.days);
  const padGiven = new Float64Array(season.days);
  for (const [i, { litres }] of news.given) given[i] = litres;
  for (const [i, { litres }] of news.soaked) padGiven[i] = litres;
  const past: Past = { sums: NOTHING, waterings: [], cameOn: [] };
  let now: Stretch | undefined;
  const close = (): void => {
    if (!now) return;
    past.sums = sumsOf(now.run);
    past.waterings.push(...wordsOf(now, season, planner));
  };
  for (let i = season.first; i < today; i++) {
    const wanted = withDevice(option, news.given.get(i)?.device, planner, task);
    if (!now || differs(now.option, wanted, news.given.has(i)) || news.padLevels.has(i)) {
      const replay = {
        ...standing(season, i, now?.run, news.padLevels.get(i)),
        today,
        given,
        padGiven,
      };
      close();
      const events = new EventList(32);
      const means = meansNumbers(wanted, planner.setting.site, season);
      const run = new SeasonRun(season, means, planner.conditions, events, replay);
      now = { option: wanted, run: Object.assign(run, past.sums), events };
    }
    const { run, events } = now;
    const { visits } = run;
    run.step(i, false);
    onDay?.(task.tree, i, run);
    if (run.visits > visits) past.cameOn.push(i);
    asGiven(run, events, padGiven[i]!);
  }
  const last = now?.run;
  close();
  const begin = Math.max(today, season.first);
  const { weekOf } = planner.conditions;
  return {
    past,
    replay: { ...standing(season, begin, last, news.padLevels.get(begin)), today },
    usedInWeek: [...news.given.keys()].filter((i) => weekOf[i] === weekOf[begin]).length,
  };
}

const NOTHING: Sums = {
  litres: 0, waterings: 0, visits: 0, labour: 0, stressDays: 0, leastKs: 1,
}; // prettier-ignore

const sumsOf = ({ litres, waterings, visits, labour, stressDays, leastKs }: SeasonRun): Sums => ({
  litres, waterings, visits, labour, stressDays, leastKs,
}); // prettier-ignore

/** Stores on the morning of a day: those of the evening before, or full ones; a weighed pad as it was found. */
function standing(
  season: TreeSeason,
  i: number,
  before: SeasonRun | undefined,
  padLevel: number | undefined,
): Replay {
  if (!before && padLevel === undefined) return {};
  if (i >= season.days) return { from: i };
  const { ball, ring, pad } = before?.stores ?? {
    ball: season.ballTaw,
    ring: season.ringTaw[i]!,
    pad: 0,
  };
  const joined = before ? season.joined[i]! : 0;
  return { from: i, start: { ball, ring: ring + joined, pad: padLevel ?? pad } };
}

/** The option with another main device on it, one of it. */
function withDevice(
  option: Option,
  device: Device | undefined,
  { calendars }: TreePlanner,
  { tree }: TreeTask,
): Option {
  if (!device || device.name === option.main?.device.name) return option;
  const allowed = calendars.allowed(tree, device);
  return { ...option, main: { device, joined: 1, fill: 'enough', allowed } };
}

/** Days without a watering go with any device. */
const differs = (now: Option, wanted: Option, watered: boolean): boolean =>
  watered && now.main?.device.name !== wanted.main?.device.name;

/** A pad takes what it can hold; what was poured is on record all the same. */
function asGiven(run: SeasonRun, { columns, length }: EventList, poured: number): void {
  const e = length - 1;
  if (poured === 0 || columns.kind[e] !== GIVEN_SOAK) return;
  run.litres += poured - columns.litres[e]!;
  columns.litres[e] = poured;
}

function wordsOf({ option, events }: Stretch, season: TreeSeason, planner: TreePlanner) {
  return wateringsOf(events.columns, 0, events.length, season, option, planner.setting.weather);
}

/** The option with what is left of the week's share on the days of this week. */
export function withWeekUsed(
  option: Option,
  used: number,
  today: number,
  weekOf: ArrayLike<number>,
): Option {
  const { main } = option;
  if (!main || used === 0) return option;
  const { allowed } = main;
  const left: AllowedDays = {
    ...allowed,
    perWeek: (i) => {
      const most = allowed.perWeek(i);
      return most < 7 && weekOf[i] === weekOf[today] ? most - used : most;
    },
  };
  return { ...option, main: { ...main, allowed: left } };
}

/** The option with its devices as they were measured. */
export function asMeasured(option: Option, measured: ReadonlyMap<string, Partial<Device>>): Option {
  const { main, pad } = option;
  const fix = (device: Device): Device => ({ ...device, ...measured.get(device.name) });
  return {
    ...option,
    ...(main ? { main: { ...main, device: fix(main.device) } } : {}),
    ...(pad ? { pad: { ...pad, device: fix(pad.device) } } : {}),
  };
}
