/** A season plan from its tree plans: crew days and what somebody should look at are worked out when asked for. */
import { overloads } from '../crew/smooth-plan.js';
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
  const over = overloads(crew, site);
  if (over.length > 0) {
    const most = Math.max(...over.map((day) => day.hours));
    problems.push(
      `${over.length} crew ${over.length === 1 ? 'day needs' : 'days need'} more than ${site.crewHours} hours; the longest needs ${most.toFixed(1)}.`,
    );
  }
  return problems;
}
