/** The contract's least visits kept in a plan that was made without it: law first, contract second, tree third. */
import { checkContract, serviceOf } from '../engine/contract/contract-check.js';
import { owedTo, withContract } from '../engine/contract/contract-plan.js';
import type { Clause } from '../engine/contract/clauses.js';
import { assemblePlan } from '../engine/plan/assemble.js';
import type { Family, SeasonPlan, TreePlan } from '../engine/plan/model.js';
import type { Owed } from '../engine/plan/owed-visits.js';
import type { Replanned } from '../engine/plan/replan.js';
import type { SeasonInput } from '../engine/plan/season.js';
import type { Day } from '../engine/dates.js';

export interface KeptPlan {
  plan: SeasonPlan;
  /** rows of trees whose visits were too few and are more now */
  rows: number;
}

/**
 * Only rows that have fewer visits than the contract asks for are walked again, so that joined visits of the others stay.
 *
 * @param input - the one the plan was made from
 * @throws Problem as `withContract`
 */
export function keptContract(
  input: SeasonInput,
  plan: SeasonPlan,
  clauses: readonly Clause[],
): KeptPlan {
  const better = new Map<number, TreePlan>();
  for (const [family, places] of shortRows(plan, clauses)) {
    // visits by a means that a clause does not count would be water for nothing
    const counted = clauses.filter((clause) => counts(clause, family));
    const own = assemblePlan(input, places.map((t) => plan.trees[t]!), plan.notPlanned); // prettier-ignore
    const { plan: kept, changed } = withContract(input, own, counted);
    for (const i of changed)
      if (kept.trees[i]!.chosen.waterings > own.trees[i]!.chosen.waterings)
        better.set(places[i]!, kept.trees[i]!);
  }
  if (better.size === 0) return { plan, rows: 0 };
  const trees = plan.trees.map((tree, t) => better.get(t) ?? tree);
  return { plan: assemblePlan(input, trees, plan.notPlanned), rows: better.size };
}

/**
 * The same for the days ahead of a season planned again. Visits really made count; what lacks behind today is past.
 *
 * @param today - the first day that is not past
 */
export function keptAhead({ plan, withVisits }: Replanned, clauses: readonly Clause[], today: Day): KeptPlan {
  const { seasonFrom, seasonTo } = plan.site;
  const owed = new Map<number, Owed[]>();
  for (const [family, places] of shortRows(plan, clauses, today)) {
    const counted = clauses.filter((clause) => counts(clause, family));
    for (const t of places) owed.set(t, owedTo(plan.trees[t]!.tree, counted, seasonFrom, seasonTo));
  }
  if (owed.size === 0) return { plan, rows: 0 };
  const kept = withVisits(owed);
  const rows = kept.trees.filter((tree, t) => tree !== plan.trees[t]).length;
  return { plan: rows > 0 ? kept : plan, rows };
} // prettier-ignore

const counts = ({ means }: Clause, family: Family): boolean =>
  means === null || means.includes(family);

/** Rows with fewer visits, today or later, than a clause asks for that counts their means, by that means. */
function shortRows(
  plan: SeasonPlan,
  clauses: readonly Clause[],
  today: Day = plan.site.seasonFrom,
): Map<Family, number[]> {
  const rows = new Map<Family, Set<number>>();
  for (const { clause, shortfalls } of checkContract(serviceOf(plan), clauses))
    for (const { what, tree, to } of shortfalls) {
      const family = plan.trees[tree]?.chosen.plan.find((w) => w.day >= today)?.family;
      if (what !== 'visits' || to < today || family === undefined || !counts(clause, family))
        continue;
      rows.set(family, (rows.get(family) ?? new Set()).add(tree));
    }
  return new Map([...rows].map(([family, set]) => [family, [...set].sort((a, b) => a - b)]));
}
