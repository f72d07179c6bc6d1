/**
 * A tree's way through the season with one means: what is behind it, and what is to be decided yet. Joint visits and
 * re-planning walk it again with the season's own kernel.
 */
import { isoDate, type Day } from '../dates.js';
import { EventList, type EventColumns } from './events.js';
import { SeasonRun, type OutcomeNumbers, type Replay } from './kernel.js';
import { meansNumbers } from './means-numbers.js';
import type { MeansOutcome, Tree, TreePlan, TreeState, Watering } from './model.js';
import type { Option } from './option.js';
import type { ReadyTree, TreePlanner, TreeTask } from './plan-trees.js';
import { beginSeason, type SeasonInput } from './tree-plans.js';
import { outcomeWords, wateringsOf } from './simulate.js';
import { treeDays, type TreeDays, type TreeSeason } from './tree-season.js';
import { lazyObject } from './views.js';

/** Sums of a run so far, as the kernel keeps them. */
export type Sums = Pick<
  SeasonRun,
  'litres' | 'waterings' | 'visits' | 'labour' | 'stressDays' | 'leastKs'
>;

/** Days of a tree that cannot be changed any more. */
export interface Past {
  sums: Sums;
  /** as they were really given, in the order of their days */
  waterings: Watering[];
  /** days of the season on which somebody came */
  cameOn: number[];
}

export interface Path {
  task: TreeTask;
  /** its daily series are the path's own */
  season: TreeSeason;
  option: Option;
  /** where the path begins, and with what stores */
  replay: Replay;
  past?: Past;
  /** kit paid for that is not used any more, for one tree */
  sunk?: number;
}

/** A path walked to the season's end. */
export interface Walked {
  path: Path;
  outcome: OutcomeNumbers;
  /** of the days ahead; `extra`: days watered because somebody came anyway */
  events: EventColumns;
  extra: ReadonlySet<number>;
  /** days on which it is watered early because of full crew days, each with the day it was planned for */
  early?: EarlyDays;
  /** days on which somebody came, past ones included */
  cameOn: number[];
  /** drive counted in the cost [min] */
  driveMinutes: number;
}

/** Days of the season, each with the later day its watering was planned for. */
export type EarlyDays = ReadonlyMap<number, number>;

/** Called after every day stepped: the day's index, and the run with its stores in the evening. */
export type OnDay = (tree: Tree, i: number, run: SeasonRun) => void;

/** A season with daily series of its own, which outlive the planner's next tree. */
export function ownSeason(season: TreeSeason): TreeSeason {
  const own = { ...season };
  for (const key of SERIES) own[key] = season[key].slice();
  return own;
}

const SERIES = Object.keys(treeDays(0)) as (keyof TreeDays)[];

/** The option with this label, as the plan's outcomes are named. */
export const optionNamed = ({ options }: ReadyTree, label: string): Option | undefined =>
  options.find((option) => option.label === label);

/**
 * The planner of a season, and what a tree of it bears of a drive to its site.
 *
 * @throws Problem as `planSeason`
 */
export function plannerOf(input: SeasonInput): {
  planner: TreePlanner;
  taskOf: (tree: TreePlan['tree']) => TreeTask;
} {
  const { planner, tasks, taskOf } = beginSeason(input);
  const drives = new Map(
    input.trees.map((tree, t) => [tree.site, tasks[taskOf[t]!]!.driveMinutes] as const),
  );
  return { planner, taskOf: (tree) => ({ tree, driveMinutes: drives.get(tree.site) ?? 0 }) };
}

/** A run at the beginning of a path, with the sums of its past. */
export function runOf(
  { season, option, replay, past }: Path,
  planner: TreePlanner,
  to?: EventList,
) {
  const means = meansNumbers(option, planner.setting.site, season);
  const run = new SeasonRun(season, means, planner.conditions, to, replay);
  return past ? Object.assign(run, past.sums) : run;
}

export const firstDay = ({ replay, season }: Path): number => replay.from ?? season.first;

/** Several paths side by side, days in their order; `decide` says whether to water which on a day. */
export class SideBySide {
  readonly runs: SeasonRun[];
  private readonly events: EventList[];
  private readonly cameOn: number[][];
  private readonly extra: Set<number>[];

  constructor(
    private readonly paths: readonly Path[],
    planner: TreePlanner,
    private readonly onDay?: OnDay,
  ) {
    this.events = paths.map(({ season }) => new EventList(season.days));
    this.runs = paths.map((path, k) => runOf(path, planner, this.events[k]!));
    this.cameOn = paths.map(({ past }) => [...(past?.cameOn ?? [])]);
    this.extra = paths.map(() => new Set());
  }

  /** Whether the path has begun on the day. */
  stands(k: number, i: number): boolean {
    return i >= firstDay(this.paths[k]!);
  }

  /**
   * Takes path `k` through day `i`.
   *
   * @param extra - it would not be watered today if nobody came anyway
   * @returns whether somebody came
   */
  step(k: number, i: number, waterNow: boolean, extra = false): boolean {
    const run = this.runs[k]!;
    const { visits, waterings } = run;
    run.step(i, waterNow);
    this.onDay?.(this.paths[k]!.task.tree, i, run);
    if (extra && run.waterings > waterings) this.extra[k]!.add(i);
    if (run.visits === visits) return false;
    this.cameOn[k]!.push(i);
    return true;
  }

  walked(): Walked[] {
    return this.paths.map((path, k) => ({
      path,
      outcome: withSunk(this.runs[k]!.outcome(), path.sunk),
      events: this.events[k]!.cut(),
      extra: this.extra[k]!,
      cameOn: this.cameOn[k]!,
      driveMinutes: this.runs[k]!.visits * path.option.driveMinutes,
    }));
  }
}

const withSunk = (outcome: OutcomeNumbers, sunk = 0): OutcomeNumbers =>
  sunk === 0 ? outcome : { ...outcome, cost: outcome.cost + sunk };

/** A path by itself: watered when it is due. */
export function walkAlone(path: Path, planner: TreePlanner, onDay?: OnDay): Walked {
  const alone = new SideBySide([path], planner, onDay);
  for (let i = firstDay(path); i < path.season.days; i++) alone.step(0, i, alone.runs[0]!.isDue(i));
  return alone.walked()[0]!;
}

/**
 * Waterings of a walked path, its past first. Its season is worked out again: that of many paths would fill the
 * memory while nobody reads their waterings.
 */
function wateringsAlong({ path, events, extra, early }: Kept, planner: TreePlanner): Watering[] {
  const { task, option, past } = path;
  const { season } = planner.ready(task);
  const { weather } = planner.setting;
  const ahead = wateringsOf(events, 0, events.day.length, season, option, weather);
  ahead.forEach((watering, e) => {
    if (extra.has(events.day[e]!) && watering.family === option.main?.device.family)
      watering.why = `Somebody is here today, and ${events.usedNow[e]!} % of the usable water is used: watered with the others.`;
    const planned = early?.get(events.day[e]!);
    if (planned === undefined || watering.family !== option.main?.device.family) return;
    watering.movedFrom = weather.from + planned;
    watering.why += ` ${whyEarly(planned - events.day[e]!, watering.movedFrom)}`;
  });
  return [...(past?.waterings ?? []), ...ahead];
}

/** Said of a watering that was put forward together with those that follow it. */
const whyEarly = (days: number, planned: Day): string =>
  `Put forward by ${days} ${days === 1 ? 'day' : 'days'} from ${isoDate(planned)}, when the crews had more work than hours; later waterings follow from this one.`;

/** What waterings are made from. */
type Kept = Pick<Walked, 'events' | 'extra' | 'early'> & {
  path: Pick<Path, 'task' | 'option' | 'past'>;
};

/** The outcome of a walked path in words. Its waterings are made when somebody reads them. */
export function outcomeAlong(
  { path: { task, option, past }, events, extra, early, outcome }: Walked,
  planner: TreePlanner,
): MeansOutcome {
  const of = { task, option, ...(past ? { past } : {}) };
  const kept: Kept = { path: of, events, extra, ...(early ? { early } : {}) };
  const made = lazyObject<Pick<MeansOutcome, 'plan'>>({
    plan: () => wateringsAlong(kept, planner),
  }) as MeansOutcome;
  return Object.assign(made, outcomeWords(option, outcome, planner.setting.site));
}

/** A tree's plan with another outcome of its chosen means. */
export function withChosen(
  old: TreePlan,
  chosen: MeansOutcome,
  state: TreeState,
  advice: () => string,
): TreePlan {
  const plan = lazyObject<Pick<TreePlan, 'facts' | 'options' | 'advice'>>({
    facts: () => old.facts,
    options: () => old.options.map((o) => (o.label === chosen.label && o.feasible ? chosen : o)),
    advice,
  }) as TreePlan;
  return Object.assign(plan, { tree: old.tree, chosen, state });
}

/** The days ahead of a fresh season: nothing is past. */
export function freshPath(planner: TreePlanner, task: TreeTask, label: string): Path | undefined {
  const ready = planner.ready(task);
  const option = optionNamed(ready, label);
  return option && { task, season: ownSeason(ready.season), option, replay: {} };
}
