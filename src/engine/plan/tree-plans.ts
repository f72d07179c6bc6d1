/**
 * Plans of trees: every one simulated with every feasible means under the rules, the best one taken.
 *
 * Like trees are planned once. What is left to plan is cut into batches: one after another here, or handed to
 * workers; batches do not know of each other, so the plan is the same whoever plans them.
 */
import { Problem } from '../problems.js';
import type { PlanColumns } from './columns.js';
import type { Device, Family, SeasonPlan, SeasonWeather, Site, Tree, TreePlan } from './model.js';
import { TreePlanner, type SeasonSetting, type TreeTask } from './plan-trees.js';
import type { DayRow } from './simulate.js';
import { chosenDays, PlanView, treePlan } from './views.js';
import type { RuleTable } from '../rules/rule-table.js';

export interface SeasonInput {
  trees: Tree[];
  /** rows that could not be read as trees; passed through so that counts agree */
  notPlanned?: { row: number; id: string; reason: string }[];
  site: Site;
  weather: SeasonWeather;
  rules: RuleTable;
  kit: Device[];
  onProgress?: (done: number, total: number) => void;
  /** stops the planning where it is true between two batches */
  signal?: { readonly aborted: boolean };
  /** every day of the chosen means; of like trees, which are planned once, the first one's */
  onDay?: (tree: Tree, day: DayRow) => void;
}

/** Trees of a batch, between two progress reports. */
export const BATCH = 250;

/** Said when somebody stops a planning. */
export const STOPPED = 'the planning was stopped';

/** A season ready to be planned. */
export interface SeasonJob {
  setting: SeasonSetting;
  /** of like trees the first one */
  tasks: TreeTask[];
  /** task of each tree */
  taskOf: Uint32Array;
  /** trees of each task */
  alike: Uint32Array;
  planner: TreePlanner;
  input: SeasonInput;
}

/** What became of each row. */
export type TreePlans = Pick<SeasonPlan, 'site' | 'weather' | 'trees' | 'notPlanned'>;

/**
 * Plans every tree, without the crew's days. Deterministic: the same input gives the same plans.
 *
 * @throws Problem if there is no kit, the weather does not cover the season, or it was stopped
 */
export function planTrees(input: SeasonInput): TreePlans {
  const job = beginSeason(input);
  return finishTrees(job, [...batchesOf(job)]);
}

/** Plans the batches one after another in this thread. */
export function* batchesOf(job: SeasonJob): Generator<PlanColumns> {
  const { signal, onProgress, trees } = job.input;
  let done = 0;
  for (let b = 0; b < batchCount(job); b++) {
    if (signal?.aborted) throw new Problem(STOPPED);
    const columns = job.planner.plan(batchOf(job, b));
    done += treesOf(job, b);
    onProgress?.(done, trees.length);
    yield columns;
  }
}

/**
 * Checks the input and finds like trees.
 *
 * @throws Problem if there is no kit or the weather does not cover the season
 */
export function beginSeason(input: SeasonInput): SeasonJob {
  const { site, weather, kit, rules } = input;
  if (kit.length === 0)
    throw new Problem('the kit is empty: list at least one device to water with');
  const days = site.seasonTo - site.seasonFrom + 1;
  if (weather.from !== site.seasonFrom || weather.et0.length !== days)
    throw new Problem(`the weather covers ${weather.et0.length} days, the season has ${days}`);
  const setting = { site, weather, rules, kit };
  const planner = new TreePlanner(setting);
  const families = [...new Set(kit.map((d) => d.family))];
  const drives = driveShares(input.trees, site);
  const like = new Map<string, number>();
  const tasks: TreeTask[] = [];
  const alike: number[] = [];
  const taskOf = Uint32Array.from(input.trees, (tree) => {
    const driveMinutes = drives.get(tree.site)!;
    const key = likeness(tree, families, planner, driveMinutes);
    const known = like.get(key);
    if (known !== undefined) {
      alike[known]!++;
      return known;
    }
    like.set(key, tasks.length);
    alike.push(1);
    return tasks.push({ tree, driveMinutes }) - 1;
  });
  return { setting, tasks, taskOf, alike: Uint32Array.from(alike), planner, input };
}

export const batchCount = ({ tasks }: SeasonJob): number => Math.ceil(tasks.length / BATCH);

export const batchOf = ({ tasks }: SeasonJob, batch: number): TreeTask[] =>
  tasks.slice(batch * BATCH, (batch + 1) * BATCH);

/** Trees a batch stands for, like ones counted. */
export const treesOf = ({ alike }: SeasonJob, batch: number): number =>
  alike.subarray(batch * BATCH, (batch + 1) * BATCH).reduce((sum, count) => sum + count, 0);

/** The plans from the columns of all batches, in their order. */
export function finishTrees(job: SeasonJob, batches: readonly PlanColumns[]): TreePlans {
  const { input, planner, tasks, taskOf } = job;
  const { site, weather, onDay } = input;
  const views = tasks.map(
    (task, t) => new PlanView(planner, task, batches[Math.floor(t / BATCH)]!, t % BATCH),
  );
  if (onDay)
    for (const [t, task] of tasks.entries())
      chosenDays(planner, task, batches[Math.floor(t / BATCH)]!, t % BATCH, (row) => {
        onDay(task.tree, row);
      });
  const trees: TreePlan[] = [];
  const notPlanned = [...(input.notPlanned ?? [])];
  input.trees.forEach((tree, i) => {
    const view = views[taskOf[i]!]!;
    if (view.state) trees.push(treePlan(tree, view.state, view));
    else notPlanned.push({ row: tree.row, id: tree.id, reason: view.whyNotPlanned(tree) });
  });
  return { site, weather, trees, notPlanned };
}

/** A visit drives once for all trees of its site: minutes of that drive each tree bears [min]. */
function driveShares(trees: Tree[], site: Site): Map<string, number> {
  const standing = new Map<string, number>();
  for (const tree of trees) standing.set(tree.site, (standing.get(tree.site) ?? 0) + tree.count);
  return new Map([...standing].map(([name, count]) => [name, site.driveMinutes / count]));
}

/** Trees with the same likeness have the same plan: everything about them that the planner reads. */
function likeness(
  tree: Tree,
  families: readonly Family[],
  { calendars }: TreePlanner,
  driveMinutes: number,
): string {
  return JSON.stringify([
    tree.caliper,
    tree.container,
    tree.ballDiameter,
    tree.ballDepth,
    tree.planted,
    tree.canopy,
    tree.plantFactor,
    tree.texture,
    tree.tap,
    tree.meansWanted,
    tree.assumed,
    driveMinutes,
    families.map((f) => calendars.key(tree, f)),
  ]);
}
