/** Devices that stay in the yard: every tree is accounted for, with the reason. Invented trees. */
import { describe, expect, it } from 'vitest';
import { idleStock } from '../../src/engine/plan/idle-stock.js';
import { planSeason } from '../../src/engine/plan/season.js';
import { ANY_DAY, BAG, HOSE, site, tree, weather } from './invented-season.js';

const TREES = [
  tree('young', { count: 3 }),
  tree('thick', { caliper: 400 }),
  tree('asked', { meansWanted: ['soaker'] }),
];

function idleWith(bags: number, tolerated = 0) {
  const kit = [
    { ...BAG, stock: bags, price: 500 },
    { ...HOSE, stock: 0, price: 1 },
  ];
  const input = { trees: TREES, site: site({ toleratedStress: tolerated }), weather: weather(), rules: ANY_DAY, kit };
  const plan = planSeason(input);
  expect(plan.trees.every(({ chosen }) => !chosen.devices.includes(BAG.name))).toBe(true);
  return { plan, idle: idleStock(plan.trees, kit, tolerated) };
} // prettier-ignore

describe('devices in stock that no tree has', () => {
  it('are named with what they would do to every tree', () => {
    const { idle, plan } = idleWith(30);
    expect(idle.map(({ device, stock }) => [device, stock])).toEqual([[BAG.name, 30]]);
    const [{ stressed, dearer, refused }] = idle as [(typeof idle)[number]];
    expect(refused).toEqual([
      { trees: 1, why: 'not possible: the row asks for soaker hose' },
      { trees: 1, why: 'not possible: the stem is too thick for bags' },
    ]);
    expect(stressed.trees + dearer).toBe(3);
    const young = plan.trees.find(({ tree: { id } }) => id === 'young')!;
    const best = Math.min(
      ...young.options.filter((o) => o.feasible && o.devices.includes(BAG.name)).map((o) => o.stressDays),
    );
    expect(dearer).toBe(best === 0 ? 3 : 0);
    // with as many days accepted as the bag leaves, it is only the cost that speaks against it
    expect(idleWith(30, best).idle[0]).toMatchObject({ dearer: 3, stressed: { trees: 0 } });
    if (best > 0) expect(stressed).toEqual({ trees: 3, least: best, most: best });
  }); // prettier-ignore

  it('are none where nothing is in stock, or what is there is used', () => {
    expect(idleWith(0).idle).toEqual([]);
    const kit = [{ ...BAG, stock: 9, price: 1 }];
    const plan = planSeason({ trees: [tree('young')], site: site({ toleratedStress: 365 }), weather: weather(), rules: ANY_DAY, kit }); // prettier-ignore
    expect(plan.trees[0]!.chosen.devices).toEqual([BAG.name]);
    expect(idleStock(plan.trees, kit, 365)).toEqual([]);
  });
});
