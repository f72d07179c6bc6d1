/** A season plan from its tree plans: crew days and what somebody should look at are worked out when asked for. */
import { crewDays } from './crew-days.js';
import type { SeasonPlan, Site, TreePlan } from './model.js';
import type { SeasonInput } from './season.js';
import { lazyObject } from './views.js';

export function assemblePlan(
  { site, weather, kit }: Pick<SeasonInput, 'site' | 'weather' | 'kit'>,
  trees: TreePlan[],
  notPlanned: SeasonPlan['notPlanned'],
): SeasonPlan {
  const plan = lazyObject<Pick<SeasonPlan, 'crewDays' | 'problems'>>({
    crewDays: () => crewDays(trees, site, kit),
    problems: () => problemsOf(trees, plan.crewDays, site),
  }) as SeasonPlan;
  return Object.assign(plan, { site, weather, trees, notPlanned });
}

function problemsOf(trees: TreePlan[], crew: SeasonPlan['crewDays'], site: Site): string[] {
  const problems: string[] = [];
  const lost = trees.filter((t) => t.state === 'cannot be kept');
  if (lost.length > 0)
    problems.push(
      `${lost.length} ${lost.length === 1 ? 'row' : 'rows'} cannot be kept without stress under these rules; see the advice on each.`,
    );
  const over = crew.filter((d) => d.overload);
  if (over.length > 0)
    problems.push(
      `${over.length} crew days need more than ${site.crewHours} hours; the longest needs ${Math.max(...over.map((d) => d.hours)).toFixed(1)}.`,
    );
  return problems;
}
