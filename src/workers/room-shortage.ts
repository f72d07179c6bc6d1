/** When there is too little: who of the last plan is served, who is not and why, and what a little more would save. */
import { seasonCandidates, type SeasonLimits } from '../engine/contract/triage-season.js';
import {
  triage,
  triageBy,
  type Budget,
  type Triage,
  type TriageTree,
} from '../engine/contract/triage.js';
import { TRIAGE_ORDERS, type Standing } from '../engine/contract/triage-orders.js';
import { positive } from '../engine/checks.js';
import type { TreePlan } from '../engine/plan/model.js';
import type { Solve } from '../engine/plan/solve.js';
import { L_PER_GALLON, type Units } from '../engine/units.js';
import { isMissing, plainLabel, plainNumber, quoted, text, type Cell } from '../tables/cells.js';
import { FAIR_WORDS, POOR_WORDS } from '../tables/triage-trees.js';
import { Problem } from '../engine/problems.js';
import type { PlanJob } from '../workbook/plan-job.js';
import { shown, unitOf } from '../workbook/quantities.js';
import type { LeftOutRow, LimitKind, ShortageReport, ShortageWish } from './contract-types.js';

const MINUTES = 60;
/** "The next 1,000 gal or crew hour". */
const MORE: Readonly<Record<LimitKind, number>> = { week: 1000, season: 1000, hours: 1 };

/** One of the wish's units in the engine's [L, or min]. */
const inside = (limit: LimitKind, units: Units): number =>
  limit === 'hours' ? MINUTES : units === 'US' ? L_PER_GALLON : 1;

const limitsOf = ({ limit }: ShortageWish, amount: number): SeasonLimits =>
  limit === 'week'
    ? { weekLitres: amount }
    : limit === 'season'
      ? { seasonLitres: amount }
      : { weekMinutes: amount };

/** What a row of the sheet says in a column a person named. */
function standingOf(job: PlanJob, { value, condition }: ShortageWish): (tree: TreePlan) => Standing {
  const cells = new Map(job.reading.rows.map((row) => [row.row, row.cells]));
  const cellOf = (row: number, column: number | undefined): Cell =>
    column === undefined ? null : (cells.get(row)?.[column] ?? null);
  return ({ tree, chosen }) => {
    const said = cellOf(tree.row, value);
    const worth = isMissing(said) ? undefined : plainNumber(text(said));
    if (!isMissing(said) && !(worth !== undefined && worth >= 0))
      throw new Problem(`row ${tree.row} (${tree.id}): the value is ${quoted(said)}; accepted is a number of 0 or more`);
    const health = cellOf(tree.row, condition);
    const word = isMissing(health) ? '' : plainLabel(text(health));
    if (word !== '' && !POOR_WORDS.has(word) && !FAIR_WORDS.has(word))
      throw new Problem(`row ${tree.row} (${tree.id}): the condition is ${quoted(health)}; accepted is ${[...FAIR_WORDS, ...POOR_WORDS].join(', ')}`);
    return {
      planted: tree.planted,
      caliper: tree.caliper,
      value: worth,
      stressDays: chosen.stressDays,
      poor: word === '' ? undefined : POOR_WORDS.has(word),
    };
  };
} // prettier-ignore

function leftOut(result: Triage, job: PlanJob, units: Units): LeftOutRow[] {
  const plans = new Map(job.plan.trees.map((each) => [each.tree.row, each]));
  return result.rows
    .filter(({ served }) => !served)
    .map(({ tree, rank, why }): LeftOutRow => {
      const each = plans.get(tree.row)!;
      return {
        row: tree.row,
        id: tree.id,
        species: each.tree.species,
        trees: tree.count,
        rank,
        why,
        stressDays: tree.leftOut!.stressDays,
        leastKs: tree.leftOut!.leastKs,
        water: shown('volume', units, each.chosen.litres * tree.count),
      };
    })
    .sort((a, b) => a.rank - b.rank || a.row - b.row);
}

/** What all rows take of the budget they take most of. */
const neededBy = (trees: readonly TriageTree[], budgets: number): number =>
  Math.max(
    0,
    ...Array.from({ length: budgets }, (_, k) => trees.reduce((sum, { use }) => sum + use[k]!, 0)),
  );

/**
 * @param solve - an exact solver; without one several limits may leave the choice unproven, and `exact` says so
 * @throws Problem if the amount is not above 0, or a row lacks what the order goes by
 */
export async function shortageReport(
  wish: ShortageWish,
  job: PlanJob,
  units: Units,
  solve?: Solve,
): Promise<ShortageReport> {
  positive('the amount there is', wish.amount);
  const { plan, season } = job;
  const one = inside(wish.limit, units);
  const standing = standingOf(job, wish);
  const limits = limitsOf(wish, wish.amount * one);
  const { trees, budgets } = seasonCandidates(season, plan, limits, standing);
  const day = plan.site.seasonFrom;
  const chosen = async (there: readonly Budget[]): Promise<Triage> =>
    solve ? triageBy(trees, there, wish.order, day, solve) : triage(trees, there, wish.order, day);
  const result = await chosen(budgets);
  const more = MORE[wish.limit];
  // every week gets it: a row is served in all its weeks or not at all
  const richer = budgets.map((b) => ({ ...b, amount: b.amount + more * one }));
  const then = result.notServed > 0 ? await chosen(richer) : undefined;
  const { certainty } = TRIAGE_ORDERS[wish.order];
  return {
    wish,
    says: result.says,
    certainty,
    source: result.source,
    served: result.served,
    notServed: result.notServed,
    stressDays: result.stressDays,
    out: leftOut(result, job, units),
    needed: neededBy(trees, budgets.length) / one,
    unit: wish.limit === 'hours' ? 'h' : unitOf('volume', units),
    exact: result.selection.exact,
    ...(then && {
      next: {
        more,
        trees: then.served - result.served,
        stressDays: result.stressDays - then.stressDays,
      },
    }),
  };
}
