/**
 * A season plan that keeps a contract's least visits: law first, contract second, tree third. On the days the rules leave,
 * visits are spread over each week or month the contract names; each gives the tree what it can take.
 */
import { adviserOf } from '../plan/advice.js';
import { assemblePlan } from '../plan/assemble.js';
import type { SeasonPlan, TreePlan } from '../plan/model.js';
import { walkOwing, type Owed } from '../plan/owed-visits.js';
import { freshPath, outcomeAlong, plannerOf, withChosen } from '../plan/path.js';
import type { SeasonInput } from '../plan/season.js';
import { Problem } from '../problems.js';
import { goesByAge, speaksOf, windowsOf, type Clause } from './clauses.js';

/** What clauses ask of one tree, window by window. Those that go by age say nothing of a tree whose age is not known. */
export function owedTo(
  tree: TreePlan['tree'],
  clauses: readonly Clause[],
  from: number,
  to: number,
): Owed[] {
  return clauses
    .filter((c) => c.visits && speaksOf(c, tree) === true)
    .filter((c) => !(goesByAge(c) && tree.planted === undefined))
    .flatMap((clause) =>
      windowsOf(clause, clause.visits!.per, from, to, tree.planted).map((w) => ({
        from: w.from - from,
        to: w.to - from,
        visits: clause.visits!.count,
      })),
    );
}

export interface ContractedPlan {
  plan: SeasonPlan;
  /** rows with other waterings than before, by index of the plan's trees */
  changed: number[];
}

/**
 * The plan again with the contract's least visits kept wherever the rules leave days for them. Trees keep the means chosen
 * for them; a tree whose soil is full takes nothing, and its visit is left out. Least gallons are not poured beyond what
 * the root zone holds: `checkContract` tells what lacks, `contractAgainstNeed` what would be wasted.
 *
 * @param input - the one the plan was made from
 * @throws Problem as `planSeason`
 */
export function withContract(
  input: SeasonInput,
  plan: SeasonPlan,
  clauses: readonly Clause[],
): ContractedPlan {
  const { planner, taskOf } = plannerOf(input);
  const { seasonFrom, seasonTo, toleratedStress } = plan.site;
  const changed: number[] = [];
  const trees = plan.trees.map((old, t) => {
    const owed = owedTo(old.tree, clauses, seasonFrom, seasonTo);
    if (owed.length === 0) return old;
    const path = freshPath(planner, taskOf(old.tree), old.chosen.label);
    if (!path)
      throw new Problem(
        `row ${old.tree.row}: ${old.chosen.label} is no means of this season; plan the season again before the contract is kept`,
      );
    // a pad by itself is soaked when it runs low, whoever comes
    if (!path.option.main) return old;
    const chosen = outcomeAlong(walkOwing(path, planner, owed), planner);
    if (chosen.waterings === old.chosen.waterings) return old;
    changed.push(t);
    const state = chosen.stressDays <= toleratedStress ? 'planned' : 'cannot be kept';
    const { label: means, stressDays, cost } = chosen;
    const advice = (): string =>
      state === 'planned'
        ? ''
        : adviserOf(planner.setting).advise(path.task, { means, stressDays, cost }).text;
    return withChosen(old, chosen, state, advice);
  });
  return { plan: assemblePlan(input, trees, plan.notPlanned), changed };
}
