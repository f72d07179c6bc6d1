/** A season within the stock: one means for every row so that no device is used beyond what there is. */
import { assemblePlan } from './assemble.js';
import { weighedCost } from './crew-time.js';
import type { MeansOutcome, SeasonPlan, TreePlan } from './model.js';
import { freshPath, outcomeAlong, plannerOf, walkAlone, withChosen } from './path.js';
import type { SeasonInput } from './season.js';
import type { Solve } from './solve.js';
import type { StockGroup } from './stock-aims.js';
import {
  chooseWithinStock,
  shareOut,
  STOCK_IS_ENOUGH,
  stockAtHand,
  stockIsEnough,
  stockLimits,
  usesOf,
} from './stock.js';
import { Problem } from '../problems.js';

export interface StockedSeason {
  plan: SeasonPlan;
  /** rows that got another means than the one best for them alone */
  changed: number;
  /** how good the answer is, in a sentence; "" where everything that lacks may be bought */
  note: string;
  /** nothing had to give way, and the note says so */
  enough: boolean;
}

/**
 * Chooses the means again so that the stock suffices of every device that may not be bought. A row keeps one means for
 * all its trees. A row for which nothing is left is listed as not planned.
 *
 * @param input - the one the plan was made from
 * @param solve - an exact solver; without one the answer is greedy and the note says so
 * @throws Problem if a stock is not a whole number
 */
export async function withinStock(
  input: SeasonInput,
  plan: SeasonPlan,
  solve: Solve | undefined,
): Promise<StockedSeason> {
  const { site, kit } = input;
  const stock = stockLimits(kit, site);
  if (stock.size === 0) return { plan, changed: 0, note: '', enough: true };
  const { planner, taskOf } = plannerOf(input);
  const alike = new Map<string, { group: StockGroup; rows: number[]; choices: MeansOutcome[][] }>();
  plan.trees.forEach(({ tree, options }, row) => {
    const feasible = options.filter((option) => option.feasible);
    const all = new Map(
      planner.ready(taskOf(tree)).options.map((option) => [option.label, option]),
    );
    const group: StockGroup = {
      count: 1,
      options: feasible.map((option) => ({
        stressDays: option.stressDays * tree.count,
        cost: weighedCost(option, all.get(option.label)!, site) * tree.count,
        litres: option.litres * tree.count,
        visits: option.visits,
        uses: new Map(
          [...usesOf(all.get(option.label)!)].map(([name, each]) => [name, each * tree.count]),
        ),
      })),
    };
    const key = JSON.stringify(group.options.map((o) => [o.stressDays, o.cost, [...o.uses]]));
    const known = alike.get(key);
    if (known) {
      known.group = { ...known.group, count: known.group.count + 1 };
      known.rows.push(row);
      known.choices.push(feasible);
    } else alike.set(key, { group, rows: [row], choices: [feasible] });
  });
  const groups = [...alike.values()];
  const answer = await chooseWithinStock(
    groups.map(({ group }) => group),
    stock,
    site.toleratedStress,
    solve,
  );

  const trees: (TreePlan | undefined)[] = [...plan.trees];
  const notPlanned = [...plan.notPlanned];
  let changed = 0;
  groups.forEach(({ rows, choices }, g) => {
    const shares = shareOut(
      rows.map(() => 1),
      answer.takes[g]!,
    );
    rows.forEach((row, k) => {
      const old = plan.trees[row]!;
      const option = shares[k]![0]!.option;
      const outcome = option === undefined ? undefined : choices[k]![option]!;
      if (!outcome) {
        trees[row] = undefined;
        notPlanned.push({
          row: old.tree.row,
          id: old.tree.id,
          reason: `no device is left in stock for it; alone it would have ${old.chosen.label}`,
        });
      } else if (outcome.label !== old.chosen.label) {
        changed++;
        trees[row] = chosenAgain(old, outcome);
      }
    });
  });
  const changedPlan = assemblePlan(
    input,
    trees.filter((tree) => tree !== undefined),
    notPlanned,
  );
  const short = plan.trees.length - changedPlan.trees.length;
  // where all are limited, the note need not name them
  const named = stock.size < stockAtHand(kit).size ? [...stock.keys()] : [];
  const said = noteOf(changed, short, answer.note, named);
  return { plan: changedPlan, changed, ...said };

  function chosenAgain(old: TreePlan, outcome: MeansOutcome): TreePlan {
    const path = freshPath(planner, taskOf(old.tree), outcome.label);
    if (!path)
      throw new Problem(`row ${old.tree.row}: ${outcome.label} is no means of this season`);
    const chosen = outcomeAlong(walkAlone(path, planner), planner);
    const kept = chosen.stressDays <= site.toleratedStress;
    return withChosen(old, chosen, kept ? 'planned' : 'cannot be kept', () =>
      kept
        ? ''
        : `${chosen.stressDays} stress days with ${chosen.label}, because the stock is short; ${old.chosen.label} would leave ${old.chosen.stressDays}.`,
    );
  }
}

/** @param named - the limited devices, where others may be bought */
function noteOf(
  changed: number,
  short: number,
  how: string,
  named: readonly string[],
): Pick<StockedSeason, 'note' | 'enough'> {
  if (changed === 0 && short === 0) {
    const enough = how === STOCK_IS_ENOUGH;
    return { note: enough && named.length > 0 ? stockIsEnough(named) : how, enough };
  }
  const rows = (count: number): string => `${count} ${count === 1 ? 'row' : 'rows'}`;
  const left = short > 0 ? `, ${rows(short)} without any` : '';
  const of = named.length > 0 ? ` for ${named.join(', ')}` : '';
  const note = `Stock only${of}: ${rows(changed)} got another means than the best one alone${left}. ${how}`;
  return { note, enough: false };
}
