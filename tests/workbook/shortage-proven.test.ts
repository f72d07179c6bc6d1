/** The sample with less water each week: who is served is proven, by the solver where the own search is cut. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { TriageOrder } from '../../src/engine/contract/triage-orders.js';
import { seasonCandidates } from '../../src/engine/contract/triage-season.js';
import { highsSolver } from '../../src/workbook/highs.js';
import type { PlanJob } from '../../src/workbook/plan-job.js';
import { shortageOf, type ShortageAnswer } from '../../src/workbook/service-papers.js';
import { shortageOfBy } from '../../src/workbook/shortage-proven.js';
import { sampleJob } from './job.js';

const SLOW = 120_000;
const solve = highsSolver();

let job: PlanJob;
/** What the busiest week takes [L]. */
let peak: number;
beforeAll(async () => {
  job = await sampleJob({ contract: [], visits: [], meters: [], clocks: [], bags: [], shortage: [] }); // prettier-ignore
  const { trees, budgets } = seasonCandidates(job.season, job.plan, { weekLitres: 1 });
  peak = Math.max(...budgets.map((_, k) => trees.reduce((sum, t) => sum + t.use[k]!, 0)));
}, SLOW);

const both = async (order: TriageOrder, share: number): Promise<[ShortageAnswer, ShortageAnswer]> => {
  const short = { order, limits: { weekLitres: share * peak } };
  const own = shortageOf(short, job.plan, job.season, 'US');
  return [own, await shortageOfBy(short, job.plan, job.season, 'US', solve)];
}; // prettier-ignore

const sums = ({ result }: ShortageAnswer): number[] => result.selection.worth.map((w) => w.sum);

describe('with less water each week', () => {
  it.each(['new first', 'large first', 'sound first', 'stress', 'score'] as const)(
    'half of the busiest one: proven, and no worse than the own search, by the order "%s"',
    async (order) => {
      const [own, proven] = await both(order, 0.5);
      expect(proven.result.selection.exact).toBe(true);
      const first = sums(proven).findIndex((sum, k) => Math.abs(sum - sums(own)[k]!) > 1e-7);
      if (first >= 0) expect(sums(proven)[first]).toBeGreaterThan(sums(own)[first]!);
      expect(proven.next.map((n) => n.budget)).toHaveLength(1);
      expect(proven.next[0]!.budget).toMatch(/^water in the week of 2027-/);
      // counted again from the plan, week by week
      const used = new Map<number, number>();
      for (const { served, tree } of proven.result.rows)
        if (served)
          tree.use.forEach((litres, week) => used.set(week, (used.get(week) ?? 0) + litres));
      expect(Math.max(...used.values())).toBeLessThanOrEqual(0.5 * peak + 1e-6);
    },
    SLOW,
  );

  it('a quarter of it: the own search is cut, the solver proves that no choice serves more', async () => {
    const [own, proven] = await both('sound first', 0.25);
    expect(own.result.selection.exact).toBe(false);
    expect(proven.result.selection.exact).toBe(true);
    expect(proven.result.served).toBeGreaterThanOrEqual(own.result.served);
    expect(proven.next[0]!.trees).toBeGreaterThanOrEqual(0);
  }, SLOW); // prettier-ignore
});
