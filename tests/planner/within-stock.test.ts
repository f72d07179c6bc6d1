/** A short stock across a whole season: invented trees, devices counted by hand. */
import { describe, expect, it } from 'vitest';
import type { SeasonPlan } from '../../src/engine/plan/model.js';
import { planSeason, type SeasonInput } from '../../src/engine/plan/season.js';
import { withinStock } from '../../src/engine/plan/within-stock.js';
import { highsSolver } from '../../src/workbook/highs.js';
import {
  ANY_DAY,
  BAG,
  HOSE,
  inventedSeason,
  NOZZLE,
  site,
  tree,
  weather,
} from './invented-season.js';

const solve = highsSolver();
const input = (bags: number, hoses: number, more: Partial<SeasonInput> = {}): SeasonInput => ({
  trees: ['1', '2', '3', '4', '5', '6'].map((id) => tree(id, id === '6' ? { count: 2 } : {})),
  site: site({ stockOnly: 'yes' }),
  weather: weather(),
  rules: ANY_DAY,
  kit: [
    { ...BAG, stock: bags },
    { ...HOSE, stock: hoses },
  ],
  ...more,
});

/** Devices in use, counted from the words of the plan: "2 soaker hoses", "2 joined bags", "bag". */
function used(plan: SeasonPlan, name: string, word: string): number {
  return plan.trees.reduce((sum, { tree: { count }, chosen }) => {
    if (!chosen.devices.includes(name)) return sum;
    const joined = Number(new RegExp(`^(\\d+) (?:joined )?${word}s`).exec(chosen.label)?.[1] ?? 1);
    return sum + joined * count;
  }, 0);
}
const costOf = (plan: SeasonPlan): number =>
  plan.trees.reduce((sum, { tree: { count }, chosen }) => sum + chosen.cost * count, 0);

describe('a season within the stock', () => {
  it('is the plan itself where the stock is enough, or lacking devices are bought', async () => {
    const enough = input(99, 99);
    const plan = planSeason(enough);
    expect(await withinStock(enough, plan, solve)).toMatchObject({ changed: 0 });
    const buys = input(0, 0, { site: site() });
    const bought = planSeason(buys);
    expect((await withinStock(buys, bought, solve)).plan).toBe(bought);
  });

  it('never uses more than there is, and lists rows for which nothing is left', async () => {
    const short = input(2, 2);
    const plan = planSeason(short);
    const { plan: within, note } = await withinStock(short, plan, solve);
    expect(used(within, 'bag', 'bag')).toBeLessThanOrEqual(2);
    expect(used(within, 'hose', 'soaker hose')).toBeLessThanOrEqual(2);
    expect(within.trees.length + within.notPlanned.length).toBe(6);
    expect(within.notPlanned.length).toBeGreaterThan(0);
    for (const { reason } of within.notPlanned)
      expect(reason).toContain('no device is left in stock');
    expect(note).toMatch(/^Stock only: .* without any\. .*proven/s);
  });

  it('more stock never keeps fewer trees; where all are kept either way it never costs more', async () => {
    let keptBefore = -1;
    let costBefore = Infinity;
    for (const stock of [0, 2, 4, 8, 16, 40]) {
      const season = input(stock, stock, { kit: [{ ...BAG, stock }, { ...HOSE, stock }, NOZZLE] });
      const { plan } = await withinStock(season, planSeason(season), solve);
      const kept = plan.trees.filter(({ state }) => state === 'planned').length;
      expect(kept).toBeGreaterThanOrEqual(keptBefore);
      if (kept === keptBefore) expect(costOf(plan)).toBeLessThanOrEqual(costBefore + 1e-6);
      [keptBefore, costBefore] = [kept, costOf(plan)];
    }
  });

  it('plans the rows with their new means as that means alone would be planned', async () => {
    const season = input(0, 40, {
      kit: [
        { ...BAG, stock: 0 },
        { ...HOSE, stock: 40 },
      ],
    });
    const { plan } = await withinStock(season, planSeason(season), solve);
    const hoseOnly = planSeason({ ...season, kit: [HOSE] });
    plan.trees.forEach(({ chosen }, k) => {
      expect(chosen.plan.map(({ day, litres }) => [day, litres])).toEqual(
        hoseOnly.trees[k]!.chosen.plan.map(({ day, litres }) => [day, litres]),
      );
    });
  });

  it('limits the hoses alone where more bags may be bought, whoever says so', async () => {
    const kit = (bag?: boolean, hose?: boolean) => ({
      kit: [
        { ...BAG, stock: 0, buy: bag },
        { ...HOSE, stock: 2, buy: hose },
      ],
    });
    const season = input(0, 2, kit(true));
    const alone = planSeason(season);
    // the best means of every row alone: more hoses than there are
    expect(used(alone, 'hose', 'soaker hose')).toBe(7);
    const { plan, note, enough } = await withinStock(season, alone, solve);
    expect(used(plan, 'hose', 'soaker hose')).toBe(2);
    expect(used(plan, 'bag', 'bag')).toBeGreaterThanOrEqual(5);
    expect(plan.notPlanned).toEqual([]);
    expect([note, enough]).toEqual([
      'Stock only for hose: 4 rows got another means than the best one alone. The stock is short; no better use of it exists (proven).',
      false,
    ]);
    // the same where the site lets everything be bought and the hose says no
    const other = { ...input(0, 2, kit(undefined, false)), site: site({ stockOnly: 'no' }) };
    const again = await withinStock(other, planSeason(other), solve);
    expect(again.note).toBe(note);
    expect(again.plan.trees.map(({ chosen }) => chosen.label)).toEqual(
      plan.trees.map(({ chosen }) => chosen.label),
    );
  });

  it('names the device whose stock is enough, where others are bought', async () => {
    const season = input(1, 0, { kit: [{ ...BAG, stock: 1 }, { ...HOSE, stock: 0, buy: true }] }); // prettier-ignore
    const { plan, note, enough } = await withinStock(season, planSeason(season), solve);
    expect(used(plan, 'hose', 'soaker hose')).toBe(7);
    expect([note, enough]).toEqual([
      'Every tree has its first choice: the stock of bag is enough.',
      true,
    ]);
  });

  it('says that its answer is greedy when there is no solver', async () => {
    const short = input(2, 2);
    const { note } = await withinStock(short, planSeason(short), undefined);
    expect(note).not.toContain('(proven)');
  });
});

describe('invented seasons', () => {
  it.each([1, 2, 3, 4, 5, 6])('%i: every row is planned or listed once', async (seed) => {
    const season = inventedSeason(seed, 20);
    const kit = season.kit.map((device) => ({ ...device, stock: 3 }));
    const stocked = { ...season, kit, site: { ...season.site, stockOnly: 'yes' as const } };
    const plan = planSeason(stocked);
    const within = (await withinStock(stocked, plan, solve)).plan;
    const rows = [...within.trees.map((t) => t.tree.row), ...within.notPlanned.map((n) => n.row)];
    expect(rows.sort((a, b) => a - b)).toEqual(
      [...plan.trees.map((t) => t.tree.row), ...plan.notPlanned.map((n) => n.row)].sort((a, b) => a - b), // prettier-ignore
    );
    for (const { name, family } of kit)
      if (family === 'bag') expect(used(within, name, 'bag')).toBeLessThanOrEqual(3);
  });
});
