/** A season plan cut down to what there is: every row of trees with what it takes week by week, and its days without. */
import type { SeasonPlan, TreePlan } from '../plan/model.js';
import { SeasonRun } from '../plan/kernel.js';
import { conditionsOf, meansNumbers } from '../plan/means-numbers.js';
import { plannerOf } from '../plan/path.js';
import type { SeasonInput } from '../plan/season.js';
import { lastsMinutes, staysWith } from '../plan/option.js';
import { isoDate, weekday } from '../dates.js';
import { positive } from '../checks.js';
import type { Budget, LeftOut, TriageTree } from './triage.js';
import type { Standing } from './triage-orders.js';

/** What there is; a limit left out does not bind. */
export interface SeasonLimits {
  /** water a Mon–Sun week [L] */
  weekLitres?: number | undefined;
  /** water of the season [L] */
  seasonLitres?: number | undefined;
  /** minutes at trees a week, all crews [min] */
  weekMinutes?: number | undefined;
}

/**
 * Rows of a plan as candidates, with the budgets their uses stand for.
 *
 * @param input - the one the plan was made from: trees are walked once more through it without any water
 * @param standing - value, stress and condition of a row, where the office knows them
 * @throws Problem if a limit is not above 0, or as the planner
 */
export function seasonCandidates(
  input: SeasonInput,
  plan: SeasonPlan,
  limits: SeasonLimits,
  standing: (tree: TreePlan) => Standing = () => ({}),
): { trees: TriageTree[]; budgets: Budget[] } {
  for (const [name, amount] of Object.entries(limits))
    if (amount !== undefined) positive(name, amount as number);
  const { seasonFrom, seasonTo } = plan.site;
  const monday = seasonFrom - ((weekday(seasonFrom) + 6) % 7);
  const weeks = Math.floor((seasonTo - monday) / 7) + 1;
  const budgets: Budget[] = [];
  const weekly = (amount: number | undefined, what: string): void => {
    if (amount !== undefined)
      for (let w = 0; w < weeks; w++)
        budgets.push({ name: `${what} in the week of ${isoDate(monday + 7 * w)}`, amount });
  };
  weekly(limits.weekLitres, 'water');
  weekly(limits.weekMinutes, 'crew minutes');
  if (limits.seasonLitres !== undefined)
    budgets.push({ name: 'water of the season', amount: limits.seasonLitres });

  const out = withoutWater(input);
  const minutesOf = visitMinutes(input);
  const trees = plan.trees.map((each): TriageTree => {
    const litres = new Array<number>(weeks).fill(0);
    const minutes = new Array<number>(weeks).fill(0);
    for (const watering of each.chosen.plan) {
      const w = Math.floor((watering.day - monday) / 7);
      litres[w]! += watering.litres * each.tree.count;
      minutes[w]! += minutesOf(watering.device, lastsMinutes(watering)) * each.tree.count;
    }
    const season = litres.reduce((a, b) => a + b, 0);
    return {
      id: each.tree.id,
      row: each.tree.row,
      count: each.tree.count,
      planted: each.tree.planted,
      caliper: each.tree.caliper,
      ...standing(each),
      use: [
        ...(limits.weekLitres === undefined ? [] : litres),
        ...(limits.weekMinutes === undefined ? [] : minutes),
        ...(limits.seasonLitres === undefined ? [] : [season]),
      ],
      leftOut: out(each),
    };
  });
  return { trees, budgets };
}

/** An hour of a crew of one [min]. */
const HOUR = 60;

/**
 * What to ask a little more of: of each kind of limit the budget with the least share left, for that one is worth more first.
 *
 * @param budgets - as `seasonCandidates` names them
 * @param left - what the choice leaves of each [L, min]
 * @param litres - how much more water [L]
 */
export function moreOfEach(
  budgets: readonly Budget[],
  left: readonly number[],
  litres: number,
): { which: number; more: number }[] {
  const kinds: [string, number][] = [
    ['water in the week', litres],
    ['crew minutes', HOUR],
    ['water of the season', litres],
  ];
  return kinds.flatMap(([kind, more]) => {
    const [tightest] = budgets
      .map(({ name, amount }, which) => ({ name, which, share: left[which]! / amount }))
      .filter(({ name }) => name.startsWith(kind))
      .sort((a, b) => a.share - b.share);
    return tightest ? [{ which: tightest.which, more }] : [];
  });
}

/** Minutes a person stands at a tree for a watering: all of it by hand or from a truck, else the minutes of a visit. */
function visitMinutes({ kit }: SeasonInput): (device: string, runs: number) => number {
  const byName = new Map(kit.map((device) => [device.name, device]));
  return (name, runs) => {
    const device = byName.get(name);
    if (!device || device.automatic) return 0;
    const stands = device.family === 'hand' || device.family === 'tanker';
    return device.visitMinutes + (stands || staysWith(device) ? runs : 0);
  };
}

/** Days under stress and least Ks of trees that get rain alone, by the season's own kernel. */
function withoutWater(input: SeasonInput): (tree: TreePlan) => LeftOut {
  const { planner, taskOf } = plannerOf(input);
  const conditions = conditionsOf(input.site, input.weather);
  return ({ tree }) => {
    const { season, options } = planner.ready(taskOf(tree));
    // nothing is brought: a pad that is never soaked is none
    const means = { ...meansNumbers(options[0]!, input.site, season), padCapacity: 0 };
    const run = new SeasonRun(season, means, conditions);
    for (let i = season.first; i < season.days; i++) run.step(i, false);
    const { stressDays, leastKs } = run.outcome();
    return { stressDays, leastKs };
  };
}
