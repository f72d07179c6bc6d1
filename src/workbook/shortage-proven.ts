/** Who is served with what there is, proven by an exact solver where the own search is cut: with limits of every week. */
import { moreOfEach, seasonCandidates } from '../engine/contract/triage-season.js';
import { nextSavingBy, triageBy, type NextSaving } from '../engine/contract/triage.js';
import type { SeasonPlan } from '../engine/plan/model.js';
import type { SeasonInput } from '../engine/plan/season.js';
import type { Solve } from '../engine/plan/solve.js';
import { L_PER_GALLON, type Units } from '../engine/units.js';
import type { Shortage } from '../tables/shortage.js';
import type { ShortageAnswer } from './service-papers.js';

/**
 * As `shortageOf`, never worse; `result.selection.exact` tells whether a better choice is ruled out.
 *
 * @param solve - an exact solver of whole-number problems
 * @throws Problem as `triage`
 */
export async function shortageOfBy(
  short: Shortage,
  plan: SeasonPlan,
  season: SeasonInput,
  units: Units,
  solve: Solve,
): Promise<ShortageAnswer> {
  const { trees, budgets } = seasonCandidates(season, plan, short.limits, ({ chosen }) => ({
    stressDays: chosen.stressDays,
  }));
  const day = plan.site.seasonFrom;
  const result = await triageBy(trees, budgets, short.order, day, solve);
  const thousand = units === 'US' ? 1000 * L_PER_GALLON : 1000;
  const next: NextSaving[] = [];
  for (const { which, more } of moreOfEach(budgets, result.selection.left, thousand))
    next.push(await nextSavingBy(result, budgets, day, which, more, solve));
  return { ...short, result, next };
}
