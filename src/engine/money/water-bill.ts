/** What the season's water costs, month by month, as a utility bills it. */
import { civil } from '../dates.js';
import type { SeasonPlan, Site } from '../plan/model.js';
import { tierCost, type Tier } from './tiers.js';

export interface WaterMonth {
  year: number;
  /** 1…12 */
  month: number;
  litres: number;
  /** litres in each block, from the cheapest up [L] */
  blocks: number[];
  cost: number; // [money]
}

const L_PER_M3 = 1000;

/** The site's blocks of a month [L, money a m³]; one without an end where it gives none. */
export function waterTiers(site: Site): Tier[] {
  const { block1UpTo, block1Price, block2UpTo, block2Price, block3Price, waterPrice } = site;
  if (block1UpTo <= 0) return [{ upTo: Infinity, price: waterPrice, row: 1 }];
  const first = { upTo: block1UpTo * L_PER_M3, price: block1Price, row: 1 };
  if (block2UpTo <= 0) return [first, { upTo: Infinity, price: block2Price, row: 2 }];
  return [
    first,
    { upTo: block2UpTo * L_PER_M3, price: block2Price, row: 2 },
    { upTo: Infinity, price: block3Price, row: 3 },
  ];
}

/**
 * Water of the plan by calendar month, each month in blocks of its own. All water is priced, whatever its source, as in
 * the choice of means.
 *
 * @throws Problem if block 2 does not end above block 1
 * Source: definition of block rates as water utilities print them.
 */
export function waterBill(plan: SeasonPlan): WaterMonth[] {
  const tiers = waterTiers(plan.site);
  const perDay = new Float64Array(plan.site.seasonTo - plan.site.seasonFrom + 1);
  for (const { tree, chosen } of plan.trees)
    for (const w of chosen.plan) perDay[w.day - plan.site.seasonFrom]! += w.litres * tree.count;
  const months = new Map<number, WaterMonth>();
  perDay.forEach((litres, i) => {
    const { year, month } = civil(plan.site.seasonFrom + i);
    const key = year * 12 + month;
    const sum = months.get(key) ?? { year, month, litres: 0, blocks: [], cost: 0 };
    sum.litres += litres;
    months.set(key, sum);
  });
  return [...months.values()].map((m) => ({
    ...m,
    blocks: tiers.map(({ upTo }, i) =>
      Math.max(0, Math.min(m.litres, upTo) - (tiers[i - 1]?.upTo ?? 0)),
    ),
    cost: tierCost(m.litres, tiers),
  }));
}
