import { afterAll, describe, expect, it } from 'vitest';
import type { SeasonPlan, Tree } from '../../src/engine/plan/model.js';
import { BATCH, planSeason, type SeasonInput } from '../../src/engine/plan/season.js';
import { Problem } from '../../src/engine/problems.js';
import { nodePool } from '../../src/workers/node-pool.js';
import { planAnswers, type Answer, type Ask } from '../../src/workers/plan-worker.js';
import { PlanPool, type WorkerLine } from '../../src/workers/pool.js';
import { benchSeason, benchTrees, FROM } from '../bench/inventory.js';

/** More than two batches, some trees alike, some that cannot be planned. */
const trees: Tree[] = [
  ...benchTrees(2 * BATCH + 40),
  ...benchTrees(30).map((tree) => ({ ...tree, id: `again ${tree.id}` })),
  { ...benchTrees(1)[0]!, id: 'pad only', meansWanted: ['pad'] },
  { ...benchTrees(1)[0]!, id: 'no size', caliper: undefined, canopy: undefined },
  { ...benchTrees(1)[0]!, id: 'too late', planted: FROM + 400 },
];
const input = (more: Partial<SeasonInput> = {}): SeasonInput => ({
  ...benchSeason(),
  trees,
  notPlanned: [{ row: 9999, id: 'x', reason: 'unreadable' }],
  ...more,
});
/** Everything there is to read of a plan, read: compared as one text, for there is a lot of it. */
const whole = (plan: SeasonPlan): string => JSON.stringify(plan);
const here = whole(planSeason(input()));

/** A worker in this thread whose messages are copied as a real one's are, and late by chance. */
function line(delay: () => number): WorkerLine {
  let told: (answer: Answer) => void = () => undefined;
  const answers = planAnswers((answer, handedOver) => {
    const sent = structuredClone(answer, { transfer: handedOver });
    setTimeout(() => told(sent), delay());
  });
  return {
    post: (ask: Ask) => void setTimeout(() => answers(structuredClone(ask)), 0),
    listen: (onAnswer) => void (told = onAnswer),
    end: () => undefined,
  };
}

describe('the same inventory gives the same plan', () => {
  const pools = [1, 2].map((threads) => nodePool(threads));
  afterAll(() => pools.forEach((pool) => pool.end()));

  it('has what the comparison needs: waterings, trees lost, rows not planned', () => {
    const plan = planSeason(input());
    expect(plan.trees.some((t) => t.chosen.plan.length > 10)).toBe(true);
    expect(new Set(plan.trees.map((t) => t.state)).size).toBe(2);
    expect(plan.notPlanned.map((n) => n.id)).toEqual(['x', 'no size', 'too late']);
  });
  it.each([1, 2])('with %i threads of Node', async (threads) => {
    expect(whole(await pools[threads - 1]!.plan(input())) === here).toBe(true);
  });
  it('twice in the same threads, with another kit between', async () => {
    const pool = pools[1]!;
    const kit = benchSeason().kit.filter((device) => device.family === 'bag');
    const [first, other, again] = await Promise.all([
      pool.plan(input()),
      pool.plan(input({ kit })),
      pool.plan(input()),
    ]);
    expect(whole(first) === here).toBe(true);
    expect(whole(other) === whole(planSeason(input({ kit })))).toBe(true);
    expect(whole(again) === here).toBe(true);
  });
  it('when batches come back in another order', async () => {
    const pool = new PlanPool([line(() => 60), line(() => 0), line(() => 20)]);
    expect(whole(await pool.plan(input())) === here).toBe(true);
  });
});

describe('progress and stopping', () => {
  it('counts every tree once, like ones too', async () => {
    const seen: number[] = [];
    const note = (done: number, total: number): void => {
      expect(total).toBe(trees.length);
      seen.push(done);
    };
    await new PlanPool([line(() => 0)]).plan(input({ onProgress: note }));
    const inOneThread: number[] = [];
    planSeason(input({ onProgress: (done) => inOneThread.push(done) }));
    for (const counts of [seen, inOneThread]) {
      expect(counts.length).toBeGreaterThan(2);
      expect(counts).toEqual([...counts].sort((a, b) => a - b));
      expect(counts.at(-1)).toBe(trees.length);
    }
  });
  it('stops between two batches, and plans again afterwards', async () => {
    const pool = new PlanPool([line(() => 0)]);
    const signal = { aborted: false };
    let reports = 0;
    const onProgress = (): void => {
      reports++;
      signal.aborted = true;
    };
    await expect(pool.plan(input({ signal, onProgress }))).rejects.toThrow(/planning was stopped/);
    expect(reports).toBe(1);
    expect(whole(await pool.plan(input())) === here).toBe(true);
    const once = { aborted: true };
    expect(() => planSeason(input({ signal: once }))).toThrow(/planning was stopped/);
  });
  it('a problem in the input comes back as the same sentence', async () => {
    const site = { ...benchSeason().site, workDays: 'Funday' };
    const pool = new PlanPool([line(() => 0)]);
    await expect(pool.plan(input({ site }))).rejects.toThrow(Problem);
    await expect(pool.plan(input({ kit: [] }))).rejects.toThrow(/list at least one device/);
  });
  it('what goes wrong in a worker is not taken for a problem of the input', () => {
    const answers: Answer[] = [];
    planAnswers((answer) => answers.push(answer))({ kind: 'batch', job: 1, batch: 0, tasks: [] });
    expect(answers).toEqual([
      {
        kind: 'failed',
        job: 1,
        sentence: expect.stringMatching(/before the setting/),
        problem: false,
      },
    ]);
  });
});
