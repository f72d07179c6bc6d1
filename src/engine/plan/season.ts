/** The season plan: a plan for every tree, and the crew's days made of them. */
import { assemblePlan } from './assemble.js';
import type { PlanColumns } from './columns.js';
import type { SeasonPlan } from './model.js';
import {
  batchesOf,
  beginSeason,
  finishTrees,
  type SeasonInput,
  type SeasonJob,
} from './tree-plans.js';

export {
  BATCH,
  batchCount,
  batchOf,
  beginSeason,
  STOPPED,
  treesOf,
  type SeasonInput,
  type SeasonJob,
} from './tree-plans.js';

/**
 * Plans a season. Deterministic: the same input gives the same plan. Like trees are planned once.
 *
 * @throws Problem if there is no kit, the weather does not cover the season, or it was stopped
 */
export const planSeason = (input: SeasonInput): SeasonPlan => planHere(beginSeason(input));

/** Plans what `beginSeason` has prepared in this thread. */
export const planHere = (job: SeasonJob): SeasonPlan => finishSeason(job, [...batchesOf(job)]);

/** The season from the columns of all batches, in their order. */
export function finishSeason(job: SeasonJob, batches: readonly PlanColumns[]): SeasonPlan {
  const { trees, notPlanned } = finishTrees(job, batches);
  return assemblePlan(job.setting, trees, notPlanned);
}
