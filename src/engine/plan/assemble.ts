/** A season plan from its tree plans: crew days and what somebody should look at are worked out when asked for. */
import { shiftOf } from '../crew/shift.js';
import { lackingText } from '../crew/lacking-weeks.js';
import { overloads } from '../crew/smooth-plan.js';
import { clock } from '../rules/rule-words.js';
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
  const long = over.filter(({ kind }) => kind === 'day');
  if (long.length > 0) {
    const most = Math.max(...long.map((day) => day.hours));
    problems.push(
      `${long.length} crew ${long.length === 1 ? 'day needs' : 'days need'} more than ${site.crewHours} hours; the longest needs ${most.toFixed(1)}.`,
    );
  }
  const closed = over.filter(({ kind }) => kind !== 'day');
  const worst = closed.reduce((a, b) => (b.over > (a?.over ?? 0) ? b : a), closed[0]);
  if (worst)
    problems.push(
      `${closed.length} crew ${closed.length === 1 ? 'day has' : 'days have'} more work than the open hours within the crew's day hold. ${worst.sentence}`,
    );
  const lacking = lackingText(crew);
  if (lacking !== '') problems.push(lacking);
  const { start, pastMidnight } = shiftOf(site);
  if (pastMidnight && crew.length > 0)
    problems.push(
      `The crew's day goes from ${clock(start)} past midnight; only its hours up to 24:00 are planned with.`,
    );
  return problems;
}
