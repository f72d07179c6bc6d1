/**
 * The best selection, proven where the own search had to be cut: whole-number models for an exact solver, one a tier, each
 * keeping what the tiers before it reached. Whatever the solver says is counted again here against the budgets.
 */
import type { Row, Solve } from '../plan/solve.js';
import { select, type Candidate, type Selection } from './selection.js';

/** What is taken for rounding, of a sum or of 1 [-]: as the own search. */
const HAIR = 1e-9;
/** A solver lets rows be passed by a millionth; choices that use this are ruled out one by one, so often. */
const MOST_TRIES = 10;

const slack = (amount: number): number => HAIR * Math.max(1, Math.abs(amount));

/** What a tier's model came to. */
interface TierAnswer {
  /** who is served of this tier and those before; undefined: the solver has no answer that holds */
  served: boolean[] | undefined;
  /** no more worth than this is possible in the tier [the candidates' unit] */
  limit: number;
  proven: boolean;
}

class Proof {
  /** least worth of each tier that is settled */
  private readonly reached = new Map<number, number>();

  constructor(
    private readonly all: readonly Candidate[],
    private readonly budgets: readonly number[],
    private readonly solve: Solve,
  ) {}

  worthOf(tier: number, served: readonly boolean[]): number {
    return this.all.reduce((sum, c, i) => sum + (c.tier === tier && served[i] ? c.worth : 0), 0);
  }

  usedOf(k: number, served: readonly boolean[]): number {
    return this.all.reduce((sum, { use }, i) => sum + (served[i] ? use[k]! : 0), 0);
  }

  settle(tier: number, worth: number): void {
    this.reached.set(tier, worth);
  }

  /** The most of a tier's worth with no tier before it losing any. */
  async tier(tier: number): Promise<TierAnswer> {
    const columns = this.all.flatMap((c, i) => (c.tier <= tier ? [i] : []));
    const unit = this.largest(tier);
    const model = {
      cost: columns.map((i) => (this.all[i]!.tier === tier ? -this.all[i]!.worth / unit : 0)),
      most: columns.map((i) => (this.fitsAlone(this.all[i]!) ? 1 : 0)),
      rows: [...this.budgetRows(columns), ...this.reachedRows(columns)],
    };
    let limit = this.all.reduce((sum, c) => sum + (c.tier === tier ? c.worth : 0), 0);
    for (let tried = 0; tried < MOST_TRIES; tried++) {
      const { x, bound, proven } = await this.solve(model);
      if (!x) break;
      limit = Math.min(limit, -bound * unit);
      const served = this.all.map(() => false);
      columns.forEach((i, column) => (served[i] = x[column]! > 0.5));
      const ruledOut = this.fault(columns, served);
      if (!ruledOut) return { served, limit, proven };
      model.rows.push(ruledOut);
    }
    return { served: undefined, limit, proven: false };
  }

  private largest(tier: number): number {
    return Math.max(...this.all.filter((c) => c.tier === tier).map((c) => c.worth));
  }

  private fitsAlone({ use }: Candidate): boolean {
    return use.every((u, k) => u <= this.budgets[k]! + slack(this.budgets[k]!));
  }

  /** Only budgets that all of the columns together could pass. */
  private budgetRows(columns: readonly number[]): Row[] {
    return this.budgets.flatMap((budget, k): Row[] => {
      const users = columns.flatMap((i, column) => (this.all[i]!.use[k]! > 0 ? [{ i, column }] : [])); // prettier-ignore
      const values = users.map(({ i }) => this.all[i]!.use[k]!);
      if (values.reduce((a, b) => a + b, 0) <= budget) return [];
      return [{ columns: users.map((u) => u.column), values, low: -Infinity, high: budget + slack(budget) }]; // prettier-ignore
    });
  }

  private reachedRows(columns: readonly number[]): Row[] {
    return [...this.reached].map(([tier, worth]): Row => {
      const unit = this.largest(tier);
      const own = columns.flatMap((i, column) => (this.all[i]!.tier === tier ? [{ i, column }] : [])); // prettier-ignore
      return {
        columns: own.map((o) => o.column),
        values: own.map(({ i }) => this.all[i]!.worth / unit),
        low: (worth - slack(worth)) / unit,
        high: Infinity,
      };
    });
  }

  /** A row that no good choice breaks and this one does, where it passes a budget or takes from a tier before. */
  private fault(columns: readonly number[], served: readonly boolean[]): Row | undefined {
    const passed = this.budgets.findIndex((b, k) => this.usedOf(k, served) > b + slack(b));
    if (passed >= 0) {
      // these together do not fit: one of them has to go
      const own = columns.flatMap((i, column) => (served[i] && this.all[i]!.use[passed]! > 0 ? [column] : [])); // prettier-ignore
      return { columns: own, values: own.map(() => 1), low: -Infinity, high: own.length - 1 };
    }
    for (const [tier, worth] of this.reached)
      if (this.worthOf(tier, served) < worth - slack(worth)) {
        // these of the tier are not worth enough: another of it has to come
        const others = columns.flatMap((i, column) => (!served[i] && this.all[i]!.tier === tier ? [column] : [])); // prettier-ignore
        return { columns: others, values: others.map(() => 1), low: 1, high: Infinity };
      }
    return undefined;
  }
}

/** The tiers after one, chosen by the own search from what is left. */
function completed(
  candidates: readonly Candidate[],
  budgets: readonly number[],
  proof: Proof,
  tier: number,
  upTo: readonly boolean[],
): boolean[] {
  const served = candidates.map((c, i) => c.tier <= tier && upTo[i]!);
  const later = candidates.flatMap((c, i) => (c.tier > tier ? [i] : []));
  const left = budgets.map((b, k) => Math.max(0, b - proof.usedOf(k, served)));
  const rest = later.map((i) => candidates[i]!);
  const found = select(rest, left);
  later.forEach((i, at) => (served[i] = found.served[at]!));
  return served;
}

/**
 * Serves the best selection within the budgets, by the own search where that proves it, else by an exact solver.
 *
 * @param budgets - what there is of each thing [the unit of the candidates' uses]
 * @param solve - an exact solver of whole-number problems
 * @returns who is served, never worse than `select`; `exact` only where every tier is proven, to a millionth of the largest
 *   worth in it; else `possible` is a proven limit of the tier, given what the tiers before it got
 * @throws Problem as `select`
 */
export async function selectBy(
  candidates: readonly Candidate[],
  budgets: readonly number[],
  solve: Solve,
): Promise<Selection> {
  const own = select(candidates, budgets);
  return own.exact ? own : provenFrom(own, candidates, budgets, solve);
}

/**
 * The best selection, from one that may not be: tiers it has not proven are given to the solver.
 *
 * @param own - a selection of these candidates within these budgets
 */
export async function provenFrom(
  own: Selection,
  candidates: readonly Candidate[],
  budgets: readonly number[],
  solve: Solve,
): Promise<Selection> {
  const proof = new Proof(candidates, budgets, solve);
  let best = own.served;
  const worth: Selection['worth'] = [];
  let cutBefore = false;
  for (const { tier, sum, possible, cut } of own.worth) {
    // what is possible was worked out from all that the tiers before could leave only while none of them was cut
    if (!cutBefore && possible <= sum + slack(sum)) {
      cutBefore = cut;
      proof.settle(tier, sum);
      worth.push({ tier, sum, possible, cut: false });
      continue;
    }
    cutBefore = true;
    const found = await proof.tier(tier);
    const now = proof.worthOf(tier, best);
    if (found.served && proof.worthOf(tier, found.served) > now + slack(now))
      best = completed(candidates, budgets, proof, tier, found.served);
    const reached = proof.worthOf(tier, best);
    proof.settle(tier, reached);
    worth.push({
      tier,
      sum: reached,
      possible: found.proven ? reached : Math.max(reached, found.limit),
      cut: !found.proven,
    });
  }
  return {
    served: best,
    worth,
    left: budgets.map((b, k) => Math.max(0, b - proof.usedOf(k, best))),
    exact: worth.every((w) => !w.cut),
  };
}
