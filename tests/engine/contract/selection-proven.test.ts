/** The selection by an exact solver, against exhaustive search, against the own search, and with solvers that go wrong. */
import { describe, expect, it } from 'vitest';
import { provenFrom, selectBy } from '../../../src/engine/contract/selection-proven.js';
import { select, type Candidate, type Selection } from '../../../src/engine/contract/selection.js';
import {
  nextSavingBy,
  triage,
  triageBy,
  type TriageTree,
} from '../../../src/engine/contract/triage.js';
import { dayFromIso } from '../../../src/engine/dates.js';
import type { Solve } from '../../../src/engine/plan/solve.js';
import { highsSolver } from '../../../src/workbook/highs.js';
import { sequence } from '../../accuracy/precise.js';
import { exhaustive } from './exhaustive.js';

const highs = highsSolver();
const SLOW = 120_000;

/** Nobody is served and nothing is proven: all is left to the solver. */
const nobody = (candidates: readonly Candidate[], budgets: readonly number[]): Selection => ({
  served: candidates.map(() => false),
  worth: [...new Set(candidates.map((c) => c.tier))]
    .sort((a, b) => a - b)
    .map((tier) => ({ tier, sum: 0, possible: Infinity, cut: true })),
  left: [...budgets],
  exact: false,
});

const usedOf = (candidates: readonly Candidate[], { served }: Selection, k: number): number =>
  candidates.reduce((sum, { use }, i) => sum + (served[i] ? use[k]! : 0), 0);
const worthOf = (candidates: readonly Candidate[], { served }: Selection, tier: number): number =>
  candidates.reduce((sum, c, i) => sum + (served[i] && c.tier === tier ? c.worth : 0), 0);

/** Below 0: the first has more worth in the first tier in which they differ. */
function compare(a: Selection, b: Selection): number {
  const k = a.worth.findIndex((w, i) => Math.abs(w.sum - b.worth[i]!.sum) > 1e-7);
  return k < 0 ? 0 : b.worth[k]!.sum - a.worth[k]!.sum;
}

/** A season of rows of trees: 30 weeks with most water in the middle, each row its own amount, interval and planting. */
function season(rows: number, seed: number): { candidates: Candidate[]; budgets: number[] } {
  const next = sequence(seed);
  const whole = (n: number): number => Math.floor(next() * n);
  const candidates = Array.from({ length: rows }, (): Candidate => {
    const count = next() < 0.4 ? 1 : 1 + whole(6);
    const litres = 20 + 10 * whole(30);
    const every = 1 + whole(3);
    const [first, last] = [whole(8), 29 - whole(8)];
    const use = Array.from({ length: 30 }, (_, w) => {
      if (w < first || w > last) return 0;
      const visits = (Math.sin((Math.PI * (w + 1)) / 31) * 3) / every + next() - 0.5;
      return Math.max(0, Math.round(visits)) * litres * count;
    });
    return { tier: next() < 0.35 ? 0 : 1, worth: count, use };
  });
  const weeks = candidates[0]!.use.map((_, w) => candidates.reduce((s, c) => s + c.use[w]!, 0));
  const half = Math.max(...weeks) / 2;
  return { candidates, budgets: weeks.map(() => half) };
}

/** A case whose own search is cut in its first tier, in uses of whole numbers. */
function hard(): { candidates: Candidate[]; budgets: number[] } {
  const next = sequence(62);
  const candidates = Array.from({ length: 50 }, (): Candidate => ({
    tier: next() < 0.5 ? 0 : 1,
    worth: 1 + Math.floor(next() * 40),
    use: Array.from({ length: 6 }, () => 1 + Math.floor(next() * 900)),
  }));
  const sums = candidates[0]!.use.map((_, k) => candidates.reduce((s, c) => s + c.use[k]!, 0));
  return { candidates, budgets: sums.map((sum) => Math.floor(sum / 4)) };
}

describe('the solver', () => {
  it('equals exhaustive search on 120 random cases of up to 14 rows, 5 budgets, 3 tiers', async () => {
    const next = sequence(2027);
    const whole = (n: number): number => Math.floor(next() * n);
    for (let run = 0; run < 120; run++) {
      const budgetsNumber = 2 + whole(4);
      const tiers = 1 + whole(3);
      const fine = next() < 0.5;
      const candidates = Array.from({ length: 3 + whole(12) }, (): Candidate => ({
        tier: whole(tiers),
        worth: next() < 0.3 ? 1 : fine ? 0.1 + next() * 9 : 1 + whole(6),
        use: Array.from({ length: budgetsNumber }, () => (fine ? next() * 20 : whole(20))),
      }));
      const budgets = candidates[0]!.use.map((_, k) => {
        const all = candidates.reduce((sum, c) => sum + c.use[k]!, 0) * next();
        return fine ? all : Math.floor(all);
      });
      const found = await provenFrom(nobody(candidates, budgets), candidates, budgets, highs);
      expect(found.exact).toBe(true);
      const expected = exhaustive(candidates, budgets);
      found.worth.forEach(({ tier, sum, possible }, k) => {
        expect(sum, `run ${run}, tier ${tier}`).toBeCloseTo(expected[k]!, 7);
        expect(possible).toBe(sum);
        expect(worthOf(candidates, found, tier)).toBe(sum);
      });
      budgets.forEach((budget, k) =>
        expect(usedOf(candidates, found, k)).toBeLessThanOrEqual(budget + 1e-7),
      );
      expect(compare(await selectBy(candidates, budgets, highs), found)).toBe(0);
    }
  }, SLOW); // prettier-ignore

  it('proves 60 to 300 rows of trees under 30 weekly limits, and is never worse than the own search', async () => {
    let better = 0;
    for (const [rows, seed] of [[60, 6001], [60, 6002], [120, 12001], [200, 20000], [300, 30000], [300, 30001]] as const) {
      const { candidates, budgets } = season(rows, seed);
      const own = select(candidates, budgets);
      const found = await selectBy(candidates, budgets, highs);
      expect(own.exact, `${rows} rows, ${seed}`).toBe(false);
      expect(found.exact, `${rows} rows, ${seed}`).toBe(true);
      expect(compare(found, own)).toBeLessThanOrEqual(0);
      if (compare(found, own) < 0) better++;
      found.worth.forEach(({ tier, sum }) => expect(worthOf(candidates, found, tier)).toBe(sum));
      budgets.forEach((budget, k) => {
        expect(usedOf(candidates, found, k)).toBeLessThanOrEqual(budget);
        expect(found.left[k]).toBeCloseTo(budget - usedOf(candidates, found, k), 6);
      });
    }
    expect(better).toBeGreaterThan(0);
  }, SLOW); // prettier-ignore

  it('does not take for fitting what passes a budget by less than the solver minds', async () => {
    // uses are whole thousandths: a budget a hair below one is the same as one half a thousandth below
    const { candidates: whole, budgets } = hard();
    const candidates = whole.map((c) => ({ ...c, use: c.use.map((u) => u / 1000) }));
    const best = await selectBy(whole, budgets, highs);
    const used = budgets.map((_, k) => usedOf(candidates, best, k));
    const hair = used.map((u) => u - 3e-7);
    const half = used.map((u) => u - 5e-4);
    const byHair = await provenFrom(nobody(candidates, hair), candidates, hair, highs);
    const byHalf = await provenFrom(nobody(candidates, half), candidates, half, highs);
    expect([best.exact, byHair.exact, byHalf.exact]).toEqual([true, true, true]);
    expect(compare(byHair, byHalf)).toBe(0);
    expect(compare(best, byHair)).toBeLessThan(0);
    hair.forEach((b, k) => expect(usedOf(candidates, byHair, k)).toBeLessThanOrEqual(b + 1e-8));
  }, SLOW); // prettier-ignore
});

describe('a solver that goes wrong', () => {
  const everybody: Solve = async ({ cost }) => ({
    x: cost.map(() => 1),
    bound: cost.reduce((a, b) => a + b, 0),
    proven: true,
    status: 'optimal',
  });

  it('and serves everybody is not believed: nobody is served beyond the budgets, nothing is proven', async () => {
    const { candidates, budgets } = hard();
    const own = select(candidates, budgets);
    const found = await selectBy(candidates, budgets, everybody);
    expect([own.exact, found.exact]).toEqual([false, false]);
    expect(found.served).toEqual(own.served);
    for (const { sum, possible } of found.worth) expect(possible).toBeGreaterThanOrEqual(sum);
  });

  it('and serves everybody at first is asked again, and the best is still found and proven', async () => {
    const { candidates, budgets } = hard();
    let asked = 0;
    const late: Solve = (model) => (asked++ < 3 ? everybody(model) : highs(model));
    const found = await selectBy(candidates, budgets, late);
    expect(asked).toBeGreaterThan(3);
    expect(found.exact).toBe(true);
    expect(compare(found, await selectBy(candidates, budgets, highs))).toBe(0);
  });

  it('and stops without an answer leaves the own search’s, not proven, with a limit that holds', async () => {
    const { candidates, budgets } = hard();
    const silent: Solve = async () => ({ x: undefined, bound: NaN, proven: false, status: 'time limit' }); // prettier-ignore
    const found = await selectBy(candidates, budgets, silent);
    const best = await selectBy(candidates, budgets, highs);
    expect(found.exact).toBe(false);
    expect(found.served).toEqual(select(candidates, budgets).served);
    expect(found.worth[0]!.possible).toBeGreaterThanOrEqual(best.worth[0]!.sum - 1e-9);
  });

  it('and stops with half an answer: the better of both is kept, tiers after it are served from what is left', async () => {
    const { candidates, budgets } = hard();
    const tired: Solve = async (model) => ({ ...(await highs(model)), proven: false });
    const start = nobody(candidates, budgets);
    const found = await provenFrom(start, candidates, budgets, tired);
    const best = await selectBy(candidates, budgets, highs);
    expect(found.exact).toBe(false);
    expect(compare(found, best)).toBe(0);
    budgets.forEach((b, k) => expect(usedOf(candidates, found, k)).toBeLessThanOrEqual(b));
  });
});

describe('a triage with limits of every week', () => {
  const DAY = dayFromIso('2027-07-01');
  const { candidates, budgets: amounts } = season(120, 12001);
  const trees = candidates.map(({ tier, worth, use }, i): TriageTree => ({
    id: `T${i}`, row: i + 2, count: worth, use, stressDays: tier === 0 ? 3 : 0, leftOut: { stressDays: 5 + (i % 7), leastKs: 0.4 },
  })); // prettier-ignore
  const budgets = amounts.map((amount, w) => ({ name: `week ${w + 1}`, amount }));

  it('is proven, serves the first tier no less, and says of everybody left out why', async () => {
    const own = triage(trees, budgets, 'new first', DAY);
    const found = await triageBy(trees, budgets, 'new first', DAY, highs);
    expect(own.selection.exact).toBe(false);
    expect(found.selection.exact).toBe(true);
    expect(compare(found.selection, own.selection)).toBeLessThanOrEqual(0);
    expect(found.served + found.notServed).toBe(trees.reduce((sum, t) => sum + t.count, 0));
    // worth is counted in trees: the best there is serves them all and no other that would still fit
    for (const { served, why, tree } of found.rows) {
      expect(why === '').toBe(served);
      if (!served) expect(tree.use.some((u, k) => u > found.selection.left[k]! + 1e-9)).toBe(true);
    }
  }, SLOW); // prettier-ignore

  it('a little more of a week never serves fewer trees where both choices are proven and count trees alone', async () => {
    const alike = trees.map((tree) => ({ ...tree, stressDays: 0 }));
    const now = await triageBy(alike, budgets, 'new first', DAY, highs);
    const tight = now.selection.left.indexOf(Math.min(...now.selection.left));
    const saving = await nextSavingBy(now, budgets, DAY, tight, 4000, highs);
    const richer = budgets.map((b, k) => (k === tight ? { ...b, amount: b.amount + 4000 } : b));
    const then = await triageBy(alike, richer, 'new first', DAY, highs);
    expect(saving).toEqual({
      budget: budgets[tight]!.name,
      more: 4000,
      trees: then.served - now.served,
      stressDays: now.stressDays - then.stressDays,
    });
    expect(saving.trees).toBeGreaterThanOrEqual(0);
    await expect(nextSavingBy(now, budgets, DAY, tight, 0, highs)).rejects.toThrow('what is added must be above 0'); // prettier-ignore
  }, SLOW); // prettier-ignore
});
