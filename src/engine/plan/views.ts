/** Plans of trees in the planner's words, made from columns when somebody reads them. */
import { Problem } from '../problems.js';
import { FAMILY_WORDS } from './choose-means.js';
import { NOT_PLANNED, PLANNED, outcomeAt, type PlanColumns } from './columns.js';
import type { DayRow } from './simulate.js';
import { outcomeWords, simulate, wateringsOf } from './simulate.js';
import type { Device, MeansOutcome, Tree, TreePlan, TreeState } from './model.js';
import type { TreePlanner, TreeTask } from './plan-trees.js';

/** Defines a property that is worked out when first read; it is listed and copied like any other. */
export function lazily<T extends object, K extends keyof T>(on: T, key: K, make: () => T[K]): void {
  const settle = (value: T[K]): T[K] => {
    Object.defineProperty(on, key, { value, enumerable: true, configurable: true, writable: true });
    return value;
  };
  Object.defineProperty(on, key, {
    enumerable: true,
    configurable: true,
    get: () => settle(make()),
    set: settle,
  });
}

/** An object whose properties are made when first read. */
export function lazyObject<T extends object>(makers: { [K in keyof T]: () => T[K] }): T {
  const made = {} as T;
  for (const key of Object.keys(makers) as (keyof T)[]) lazily(made, key, makers[key]);
  return made;
}

type Words = Pick<TreePlan, 'facts' | 'options' | 'chosen' | 'advice'>;

/** What became of a task, in words from the first reading on. Like trees share one. */
export class PlanView {
  private words: Words | undefined;

  constructor(
    private readonly planner: TreePlanner,
    private readonly task: TreeTask,
    private readonly columns: PlanColumns,
    /** its row of the columns */
    private readonly t: number,
  ) {}

  /** undefined: not planned */
  get state(): TreeState | undefined {
    const state = this.columns.state[this.t]!;
    if (state === NOT_PLANNED) return undefined;
    return state === PLANNED ? 'planned' : 'cannot be kept';
  }

  inWords(): Words {
    return (this.words ??= inWords(this.planner, this.task, this.columns, this.t));
  }

  /** @param tree - one of the like trees; the reason names its row */
  whyNotPlanned(tree: Tree): string {
    return whyNotPlanned(this.planner, { ...this.task, tree });
  }
}

/** Where a row's plan finds its words; hidden, so that copies of the plan are plain. */
const VIEW = Symbol('view');

/** Properties read from the view; one set for all plans, for there are many. */
const READ: PropertyDescriptorMap = Object.fromEntries(
  (['facts', 'options', 'chosen', 'advice'] as const).map((key) => [
    key,
    {
      enumerable: true,
      configurable: true,
      get(this: { [VIEW]: PlanView }) {
        return this[VIEW].inWords()[key];
      },
      set(value: unknown) {
        Object.defineProperty(this, key, { value, enumerable: true, writable: true });
      },
    },
  ]),
);

/** The plan of a row's tree. */
export function treePlan(tree: Tree, state: TreeState, view: PlanView): TreePlan {
  const plan = Object.defineProperty({ tree, state }, VIEW, { value: view });
  return Object.defineProperties(plan, READ) as TreePlan;
}

/** Every day of the chosen means. */
export function chosenDays(
  planner: TreePlanner,
  task: TreeTask,
  columns: PlanColumns,
  t: number,
  onDay: (row: DayRow) => void,
): void {
  if (columns.state[t] === NOT_PLANNED) return;
  const { season, options } = planner.ready(task);
  const { site, weather } = planner.setting;
  simulate(season, options[columns.chosen[t]!]!, site, weather, onDay);
}

function whyNotPlanned(planner: TreePlanner, task: TreeTask): string {
  try {
    planner.ready(task);
  } catch (error) {
    if (error instanceof Problem) return error.message;
    throw error;
  }
  throw new Error(`row ${task.tree.row} was not planned, and nothing says why`);
}

function inWords(planner: TreePlanner, task: TreeTask, columns: PlanColumns, t: number): Words {
  const { season, options, refused } = planner.ready(task);
  const { site, weather } = planner.setting;
  const first = columns.optionsFrom[t]!;
  // options ahead of need were tried only where the usual ones do not keep the tree
  const tried = options.slice(0, columns.optionsFrom[t + 1]! - first);
  const outcomes: MeansOutcome[] = tried.map((option, o) => ({
    ...outcomeWords(option, outcomeAt(columns.options, first + o), site),
    plan: [],
  }));
  const which = columns.chosen[t]!;
  const chosen = outcomes[which]!;
  // single waterings are there for the chosen means only
  lazily(chosen, 'plan', () => {
    const again = planner.ready(task);
    const [from, to] = [columns.eventsFrom[t]!, columns.eventsFrom[t + 1]!];
    return wateringsOf(columns.events, from, to, again.season, again.options[which]!, weather);
  });
  return {
    facts: season.facts,
    options: [...outcomes, ...refused.map((r) => notFeasible(r.device, r.reason))],
    chosen,
    advice:
      columns.state[t] === PLANNED
        ? ''
        : `Cannot be met under these rules: ${chosen.stressDays} stress days with ${chosen.label}.`,
  };
}

const notFeasible = (device: Device, reason: string): MeansOutcome => ({
  label: FAMILY_WORDS[device.family],
  families: [device.family],
  devices: [device.name],
  feasible: false,
  verdict: `not possible: ${reason}`,
  waterings: 0,
  litres: 0,
  visits: 0,
  stressDays: 0,
  leastKs: 1,
  cost: 0,
  plan: [],
});
