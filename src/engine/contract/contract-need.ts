/** What a contract prescribes beside what its trees can use: more is shown as such, in water and money. */
import type { SeasonPlan, TreePlan } from '../plan/model.js';
import { bindsOn, goesByAge, speaksOf, type Clause } from './clauses.js';

export interface ContractNeed {
  tree: TreePlan;
  /** least water the contract asks for over the season, one tree [L] */
  contract: number;
  /** what the planner gives it, one tree [L] */
  plan: number;
  /** more than the tree can use, like trees counted [L] */
  surplus: number;
  /** the surplus at the site's price of water [money] */
  cost: number;
}

const DAYS_IN = { week: 7, month: 365.25 / 12 } as const;

/** Least water a contract asks for on a day: the greater of what it asks a week or month, and visits times their water. */
function litresOn(clauses: readonly Clause[], day: number, planted: number | undefined): number {
  let visits = 0; // a day
  let each = 0; // [L]
  let steady = 0; // [L/day]
  for (const clause of clauses) {
    if (!bindsOn(clause, day, planted)) continue;
    const { least, visits: often } = clause;
    if (often) visits = Math.max(visits, often.count / DAYS_IN[often.per]);
    if (least?.per === 'visit') each = Math.max(each, least.litres);
    else if (least) steady = Math.max(steady, least.litres / DAYS_IN[least.per]);
  }
  return Math.max(steady, visits * each);
}

/**
 * The contract's least water for every planned tree beside the plan's own. Rain to skip for is not looked at: this is what
 * a dry season would ask.
 *
 * @returns in the order of the plan's trees; a tree no clause speaks of has 0 L of contract
 */
export function contractAgainstNeed(plan: SeasonPlan, clauses: readonly Clause[]): ContractNeed[] {
  const { seasonFrom, seasonTo, waterPrice } = plan.site;
  return plan.trees.map((each) => {
    const { tree, chosen } = each;
    const own = clauses.filter(
      (clause) =>
        speaksOf(clause, tree) === true && !(goesByAge(clause) && tree.planted === undefined),
    );
    let contract = 0;
    if (own.length > 0)
      for (let day = seasonFrom; day <= seasonTo; day++)
        contract += litresOn(own, day, tree.planted);
    const surplus = Math.max(0, contract - chosen.litres) * tree.count;
    return {
      tree: each,
      contract,
      plan: chosen.litres,
      surplus,
      cost: (surplus / 1000) * waterPrice,
    };
  });
}
