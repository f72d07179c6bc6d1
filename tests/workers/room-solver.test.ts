/** The plan room with an exact solver, and with one that cannot be loaded. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Solve } from '../../src/engine/plan/solve.js';
import { highsSolver } from '../../src/workbook/highs.js';
import type { ShortageWish } from '../../src/workers/contract-types.js';
import type { PlanRoom } from '../../src/workers/plan-room.js';
import { roomHere } from '../../src/workers/room-here.js';
import { roomSolver } from '../../src/workers/room-solver.js';
import { INVENTORY } from '../workbook/job.js';

const never = async (): Promise<never> => {
  throw new Error('this test asks for no file');
};
const WISH: ShortageWish = { limit: 'week', amount: 800, order: 'sound first' };

async function planned(solve?: Solve): Promise<PlanRoom> {
  const room = roomHere({ fonts: never, rasterise: never, ...(solve && { solve }) });
  const { sheets, front } = await room.open('street.csv', readFileSync(INVENTORY));
  const draft = { units: 'US', crewLanguage: 'en', corrections: {}, site: {}, starter: '' } as const;
  await room.plan({ trees: sheets[front]!, source: 'street', sheets: [], draft, today: '2027-03-15' });
  return room;
} // prettier-ignore

describe('a limit of every week', () => {
  it('is proven with a solver, and serves no fewer than the own search', async () => {
    const [own, proven] = await Promise.all([planned(), planned(highsSolver())]);
    const [unproven, report] = [await own.shortage(WISH), await proven.shortage(WISH)];
    expect([unproven.exact, report.exact]).toEqual([false, true]);
    expect(report.served).toBeGreaterThanOrEqual(unproven.served);
    expect(report.served + report.notServed).toBe(unproven.served + unproven.notServed);
  }, 120_000);

  it('is answered as without a solver where it cannot be loaded, and says it is not proven', async () => {
    const solve = roomSolver('no-such-folder/highs.wasm');
    const answer = await solve({ cost: [1], most: [1], rows: [] });
    expect(answer).toMatchObject({ x: undefined, proven: false });
    expect(answer.status).toMatch(/^it did not start: /);
    const [own, lacking] = await Promise.all([planned(), planned(solve)]);
    const report = await lacking.shortage(WISH);
    expect(report).toEqual(await own.shortage(WISH));
    expect(report.exact).toBe(false);
  }, 120_000);
});
