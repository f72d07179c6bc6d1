/** Who is served when water, crew time or kit does not suffice; who is not, and what that means for each tree. */
import { positive, within } from '../checks.js';
import type { Day } from '../dates.js';
import { Problem } from '../problems.js';
import type { Solve } from '../plan/solve.js';
import { selectBy } from './selection-proven.js';
import { select, type Candidate, type Selection } from './selection.js';
import { rankOf, TRIAGE_ORDERS, type Standing, type TriageOrder } from './triage-orders.js';

/** What being left out does to a tree. */
export interface LeftOut {
  /** days under stress [days] */
  stressDays: number;
  /** least stress coefficient Ks, 1 without stress [-] */
  leastKs: number;
}

/** A row of trees that is served whole or not at all. */
export interface TriageTree extends Standing {
  id: string;
  row: number;
  /** like trees on the row */
  count: number;
  /** what all trees of the row take of each budget, in the order of the budgets */
  use: readonly number[];
  /** undefined: not known */
  leftOut?: LeftOut | undefined;
}

export interface Budget {
  /** what it is, such as "water in the week of 2027-07-05" or "crew minutes" */
  name: string;
  /** [L], [min] or pieces, as the uses */
  amount: number;
}

export interface TriageRow {
  tree: TriageTree;
  served: boolean;
  /** place in the order, from 1; equal ones share it */
  rank: number;
  /** why it is not served, "" where it is */
  why: string;
}

export interface Triage {
  order: TriageOrder;
  says: string;
  source: string;
  /** in the order of the trees given */
  rows: TriageRow[];
  selection: Selection;
  /** trees served and not, like ones counted */
  served: number;
  notServed: number;
  /** days under stress of those not served, like ones counted; rows that do not know theirs are in `unknown` */
  stressDays: number;
  unknown: number;
}

/**
 * Chooses who is served. An order of tiers lets the first tier have all it can use before the next one gets anything;
 * inside a tier the greatest worth that fits is taken, not simply the first ones that fit.
 *
 * @param day - the day it is asked for, to tell who is newly planted
 * @throws Problem naming the row that lacks what the order goes by, or takes a negative amount
 */
export function triage(
  trees: readonly TriageTree[],
  budgets: readonly Budget[],
  order: TriageOrder,
  day: Day,
): Triage {
  const candidates = candidatesOf(trees, budgets, order, day);
  return triageOf(trees, budgets, order, candidates, select(candidates, amounts(budgets)));
}

/**
 * The same choice, proven by an exact solver where the own search has to be cut: with several budgets.
 *
 * @param solve - an exact solver of whole-number problems
 * @throws Problem as `triage`
 */
export async function triageBy(
  trees: readonly TriageTree[],
  budgets: readonly Budget[],
  order: TriageOrder,
  day: Day,
  solve: Solve,
): Promise<Triage> {
  const candidates = candidatesOf(trees, budgets, order, day);
  const selection = await selectBy(candidates, amounts(budgets), solve);
  return triageOf(trees, budgets, order, candidates, selection);
}

const amounts = (budgets: readonly Budget[]): number[] => budgets.map((b) => b.amount);

function candidatesOf(
  trees: readonly TriageTree[],
  budgets: readonly Budget[],
  order: TriageOrder,
  day: Day,
): Candidate[] {
  budgets.forEach(({ name, amount }) => within(name, amount, 0, 1e12));
  return trees.map((tree): Candidate => {
    const rank = rankOf(order, tree, day);
    if (typeof rank === 'string') throw new Problem(`row ${tree.row} (${tree.id}): ${rank}`);
    // worth counts trees, so a row of ten alike is worth ten
    return { ...rank, worth: rank.worth * tree.count, use: tree.use };
  });
}

/** A selection in words and counts. */
function triageOf(
  trees: readonly TriageTree[],
  budgets: readonly Budget[],
  order: TriageOrder,
  candidates: readonly Candidate[],
  selection: Selection,
): Triage {
  const ranks = ranksOf(candidates, trees);
  const rows = trees.map((tree, i): TriageRow => {
    const served = selection.served[i]!;
    const why = served ? '' : whyNot(tree, budgets, selection);
    return { tree, served, rank: ranks[i]!, why };
  });
  const out = rows.filter((r) => !r.served);
  const trunks = (list: readonly TriageRow[]): number => list.reduce((s, r) => s + r.tree.count, 0);
  const { says, source } = TRIAGE_ORDERS[order];
  return {
    order, says, source, rows, selection,
    served: trunks(rows) - trunks(out),
    notServed: trunks(out),
    stressDays: out.reduce((s, { tree }) => s + (tree.leftOut?.stressDays ?? 0) * tree.count, 0),
    unknown: out.filter((r) => r.tree.leftOut === undefined).length,
  }; // prettier-ignore
}

/** Place by tier, then by worth of one tree. */
function ranksOf(candidates: readonly Candidate[], trees: readonly TriageTree[]): number[] {
  const key = (i: number): readonly [number, number] => [
    candidates[i]!.tier,
    -candidates[i]!.worth / trees[i]!.count,
  ];
  const sorted = candidates.map((_, i) => i).sort((a, b) => key(a)[0] - key(b)[0] || key(a)[1] - key(b)[1]); // prettier-ignore
  const ranks: number[] = [];
  sorted.forEach((index, at) => {
    const before = sorted[at - 1];
    const ties = before !== undefined && key(before)[0] === key(index)[0] && key(before)[1] === key(index)[1]; // prettier-ignore
    ranks[index] = ties ? ranks[before]! : at + 1;
  });
  return ranks;
}

function whyNot(tree: TriageTree, budgets: readonly Budget[], { left }: Selection): string {
  const alone = budgets.find((b, k) => tree.use[k]! > b.amount);
  if (alone) return `it takes more than all there is: ${alone.name}`;
  const short = budgets.find((_, k) => tree.use[k]! > left[k]!);
  return short
    ? `not enough is left: ${short.name}`
    : 'it would take the place of others that count for more';
}

export interface NextSaving {
  budget: string;
  more: number;
  /** trees more that are served */
  trees: number;
  /** days under stress saved, like trees counted; negative where others are served instead */
  stressDays: number;
}

/**
 * What a little more of one budget would save: the choice is made again with it.
 *
 * @param which - index of the budget
 * @param more - what is added [the unit of the budget], such as the litres of 1,000 gal, or 60 minutes
 * @throws Problem as `triage`
 */
export function nextSaving(
  trees: readonly TriageTree[],
  budgets: readonly Budget[],
  order: TriageOrder,
  day: Day,
  which: number,
  more: number,
): NextSaving {
  const richer = withMore(budgets, which, more);
  const now = triage(trees, budgets, order, day);
  return savingOf(now, triage(trees, richer, order, day), budgets[which]?.name ?? '', more);
}

/**
 * The same by an exact solver.
 *
 * @param now - the choice without what is added, as `triageBy` made it of the same trees and budgets
 * @throws Problem as `triage`
 */
export async function nextSavingBy(
  now: Triage,
  budgets: readonly Budget[],
  day: Day,
  which: number,
  more: number,
  solve: Solve,
): Promise<NextSaving> {
  const trees = now.rows.map((row) => row.tree);
  const then = await triageBy(trees, withMore(budgets, which, more), now.order, day, solve);
  return savingOf(now, then, budgets[which]?.name ?? '', more);
}

function withMore(budgets: readonly Budget[], which: number, more: number): Budget[] {
  positive('what is added', more);
  return budgets.map((b, k) => (k === which ? { ...b, amount: b.amount + more } : b));
}

const savingOf = (now: Triage, then: Triage, budget: string, more: number): NextSaving => ({
  budget,
  more,
  trees: then.served - now.served,
  stressDays: now.stressDays - then.stressDays,
});

/**
 * What leaving a tree without water does, from how long its usable water lasts: past that, Ks·D draws down what is left, so
 * Ks falls as exp(−p·t/((1 − p)·lasts)).
 *
 * @param days - without water [days], 0 or more
 * @param lasts - days the usable water lasts [days], above 0
 * @param depletion - allowable depletion p [-], above 0, below 1
 * @throws Problem outside those ranges
 * Source: FAO-56 Eq. 84 and 85 with demand alone, integrated.
 */
export function leftOutFor(days: number, lasts: number, depletion: number): LeftOut {
  within('days', days, 0, 3660);
  positive('days it lasts', lasts);
  positive('depletion', depletion);
  within('depletion', depletion, 0, 0.99);
  const beyond = Math.max(0, days - lasts);
  return {
    stressDays: Math.ceil(beyond - 1e-9),
    leastKs: Math.exp((-depletion * beyond) / ((1 - depletion) * lasts)),
  };
}
