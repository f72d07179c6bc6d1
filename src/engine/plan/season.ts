/** The season plan: a plan for every tree, and the crew's days made of them. */
import { adviserOf, type Adviser } from './advice.js';
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
import { lazily } from './views.js';

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

/** The season from the columns of all batches, in their order; trees that cannot be kept get advice when it is read. */
export function finishSeason(job: SeasonJob, batches: readonly PlanColumns[]): SeasonPlan {
  const { trees, notPlanned } = finishTrees(job, batches);
  let adviser: Adviser | undefined;
  const drives = new Map(
    job.input.trees.map(
      (tree, at) => [tree.site, job.tasks[job.taskOf[at]!]!.driveMinutes] as const,
    ),
  );
  for (const plan of trees)
    if (plan.state === 'cannot be kept')
      lazily(plan, 'advice', () => {
        const { label, stressDays, cost } = plan.chosen;
        const task = { tree: plan.tree, driveMinutes: drives.get(plan.tree.site)! };
        adviser ??= adviserOf(job.setting);
        return adviser.advise(task, { means: label, stressDays, cost }).text;
      });
  return assemblePlan(job.setting, trees, notPlanned);
}
