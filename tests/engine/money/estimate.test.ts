/** Estimates worked out on paper, and what must hold of every estimate. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { estimate, toCents } from '../../../src/engine/money/estimate.js';
import { priceFor } from '../../../src/engine/money/price.js';
import { planSeason } from '../../../src/engine/plan/season.js';
import type { Device, Tree } from '../../../src/engine/plan/model.js';
import { parseRules } from '../../../src/engine/rules/rule-table.js';
import { defaultSite } from '../../../src/tables/site.js';
import { device } from '../device.js';
import { BAG, FROM, madePlan, madeTree, TO } from './made-plan.js';

const sum = (numbers: number[]): number => numbers.reduce((a, b) => a + b, 0);
const priced = (kind: string, e: ReturnType<typeof estimate>): number =>
  sum(e.lines.filter((l) => l.kind === kind).map((l) => l.price));

describe('a small estimate, worked by hand', () => {
  // kit 2 bags · 30/3 = 20; set-up 2 · 6 min = 0.2 h; two days of 0.5 h at trees, 0.3 h driving, 0.2 h refill, at 60 an
  // hour; 200 L at 2 a m³. 20 + 12 + 60 + 36 + 24 + 0.40 = 152.40; ÷ 0.75 = 203.20
  const e = estimate(madePlan(), [BAG]);
  it.each([
    ['kit', 2, 20, 26.67],
    ['set-up', 0.2, 12, 16],
    ['watering', 1, 60, 80],
    ['driving', 0.6, 36, 48],
    ['refills', 0.4, 24, 32],
    ['water', 0.2, 0.4, 0.53],
  ])('%s: %d at a cost of %d is sold for %d', (kind, quantity, cost, price) => {
    const line = e.lines.find((l) => l.kind === kind)!;
    expect(line.quantity).toBeCloseTo(quantity, 12);
    expect(line.cost).toBeCloseTo(cost, 12);
    expect(line.price).toBe(price);
  });
  it('totals: no other line, 152.40 of cost, 203.20 of price', () => {
    expect(e.lines).toHaveLength(6);
    expect(e.cost).toBeCloseTo(152.4, 12);
    expect(e.price).toBe(203.2);
  });
  it('one bag is in stock, so one is to buy, to be paid now; the season bears a third of both', () => {
    expect(e.materials).toMatchObject([{ needed: 2, toBuy: 1, buyNow: 30, seasonShare: 20 }]);
  });
});

describe('lines and margin', () => {
  it('lines add up to the total, and each leaves the margin within half a cent', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.95, noNaN: true }),
        fc.double({ min: 0.01, max: 500, noNaN: true }),
        fc.double({ min: 0.01, max: 50, noNaN: true }),
        (margin, wage, waterPrice) => {
          const e = estimate(madePlan({ margin, wage, waterPrice }), [BAG]);
          expect(e.price).toBe(toCents(sum(e.lines.map((l) => l.price))));
          for (const l of e.lines) {
            expect(Number.isInteger(Number((l.price * 100).toFixed(6)))).toBe(true);
            expect(Math.abs(l.price * (1 - margin) - l.cost)).toBeLessThanOrEqual(
              0.005 * (1 - margin) + 1e-9,
            );
          }
        },
      ),
    );
  });
  it('margin to price and back, margin to mark-up and back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1e5, noNaN: true }),
        fc.double({ min: 0, max: 0.95, noNaN: true }),
        (cost, margin) => {
          const price = priceFor(cost, margin);
          expect(1 - cost / price).toBeCloseTo(margin, 10);
          const markUp = margin / (1 - margin);
          expect(cost * (1 + markUp)).toBeCloseTo(price, 6);
          expect(markUp / (1 + markUp)).toBeCloseTo(margin, 10);
        },
      ),
    );
  });
  it('rounds halves up, whatever binary makes of them', () => {
    expect([1.005, 2.675, 1.115, 0.285, 10.075].map(toCents)).toEqual([
      1.01, 2.68, 1.12, 0.29, 10.08,
    ]);
  });
  it('refuses a margin of all the price', () => {
    expect(() => estimate(madePlan({ margin: 1 }), [BAG])).toThrow('margin must be below 1');
  });
});

describe('kit', () => {
  it('joins two bags on a stem above three inches', () => {
    const [m] = estimate(madePlan({}, [madeTree({ caliper: 90 })]), [BAG]).materials;
    expect(m).toMatchObject({ trees: 2, needed: 4, toBuy: 3 });
  });
  it('needs one truck for all bags without a tap, and none for a tree that is never watered', () => {
    const truck = device({ name: 'truck', family: 'tanker', flow: 60, price: 900, seasons: 9 });
    const dry = madeTree({ id: 'b', tap: false });
    const e = estimate(madePlan({}, [dry, madeTree()]), [BAG, truck]);
    expect(e.materials.map((m) => [m.device.name, m.trees, m.needed])).toEqual([
      ['bag', 4, 4],
      ['truck', 2, 1],
    ]);
    expect(priced('kit', e)).toBeCloseTo(priceFor(40, 0.25) + priceFor(100, 0.25), 1);
    const idle = madeTree();
    idle.chosen = { ...idle.chosen, plan: [], litres: 0 };
    expect(estimate(madePlan({}, [idle]), [BAG]).materials).toEqual([]);
  });
  it('bills checks of hoses on timers: minutes at each tree, one drive a site and check', () => {
    const hose = device({ name: 'hose', family: 'soaker', rate: 8, length: 20, automatic: true, visitMinutes: 10 }); // prettier-ignore
    const t = madeTree();
    t.chosen = { ...t.chosen, families: ['soaker'], devices: ['hose'], visits: 6 };
    const e = estimate({ ...madePlan({ driveMinutes: 15 }, [t]), crewDays: [] }, [hose]);
    // 2 trees · 6 checks · 10 min + 6 drives · 15 min = 210 min
    expect(e.hours).toEqual({ watering: 0, driving: 0, refills: 0, hoseChecks: 3.5 });
  });
});

describe('water and mulch', () => {
  it('bills each month in blocks of its own', () => {
    // April and May get 100 L each: 60 L at 1, 20 L at 10, 20 L at 100 a m³
    const blocks = { block1UpTo: 0.06, block1Price: 1, block2UpTo: 0.08, block2Price: 10, block3Price: 100 };
    const e = estimate(madePlan(blocks), [BAG]);
    expect(e.water.map((m) => m.litres)).toEqual([100, 100, 0, 0, 0, 0]);
    expect(e.water[0]!.blocks.map((b) => Number(b.toFixed(9)))).toEqual([60, 20, 20]);
    const line = e.lines.find((l) => l.kind === 'water')!;
    expect(line.cost).toBeCloseTo(2 * (0.06 + 0.2 + 2), 12);
    const two = estimate(madePlan({ ...blocks, block2UpTo: 0 }), [BAG]);
    expect(two.lines.find((l) => l.kind === 'water')!.cost).toBeCloseTo(2 * (0.06 + 0.4), 12);
  }); // prettier-ignore
  it('lays mulch from the bark to the ring, less what is there', () => {
    // ring 1 m, bark kept free to 0.05 + 2 · 0.075 = 0.2 m: π/4 · (1 − 0.04) · 0.1 = 0.0754 m³ a tree
    const site = { mulchDepth: 100, mulchRing: 3, mulchPrice: 80 };
    const e = estimate(madePlan(site), [BAG]);
    expect(e.mulch).toEqual([{ site: 'Yard', trees: 2, volume: expect.closeTo(0.1508, 4) }]);
    expect(e.lines.at(-1)).toMatchObject({ kind: 'mulch', cost: expect.closeTo(12.064, 3) });
    const half = estimate(madePlan(site, [madeTree({ mulchDepth: 50 })]), [BAG]).mulch[0]!;
    expect(half.volume).toBeCloseTo(e.mulch[0]!.volume / 2, 12);
    expect(estimate(madePlan(site, [madeTree({ mulchDepth: 100 })]), [BAG]).mulch).toEqual([]);
    expect(estimate(madePlan(), [BAG]).mulch).toEqual([]);
  });
});

describe('twice the price of water', () => {
  const kit: Device[] = [
    device({ name: 'bag', family: 'bag', volume: 57, holes: 4, ratedHours: 5 }),
    device({ name: 'hose', family: 'soaker', rate: 8, length: 15, automatic: true, price: 900 }),
    device({ name: 'pad', family: 'pad', volume: 11 }),
    device({ name: 'hand', family: 'hand', flow: 20 }),
    device({ name: 'truck', family: 'tanker', volume: 1900, flow: 60 }),
  ];
  const rules = parseRules([
    ['Means', 'Days', 'Verdict'],
    ['any', 'any', 'allow'],
  ]);
  const days = 92;
  const weather = {
    from: FROM,
    et0: new Float64Array(days).fill(6),
    rain: new Float64Array(days),
    effectiveRain: new Float64Array(days),
    peakMonth: 5,
    peakEt0: 6,
  };
  const saplings = fc.array(
    fc.record({
      caliper: fc.integer({ min: 25, max: 250 }),
      age: fc.integer({ min: 0, max: 2000 }),
      tap: fc.boolean(),
      site: fc.constantFrom('A', 'B'),
    }),
    { minLength: 1, maxLength: 5 },
  );
  it('never raises the gallons of a season', () => {
    let fewer = 0;
    fc.assert(
      fc.property(
        saplings,
        fc.double({ min: -1, max: 4, noNaN: true }),
        fc.constantFrom(0, 20),
        (rows, power, toleratedStress) => {
          const waterPrice = 10 ** power;
          const trees = rows.map(({ caliper, age, tap, site }, row): Tree => ({
          id: String(row), row: row + 2, species: '', count: 1, caliper, planted: FROM - age, tap, site, address: `${row} Way`,
        })); // prettier-ignore
          const litres = (price: number): number => {
          const site = defaultSite({ seasonFrom: FROM, seasonTo: FROM + days - 1, waterPrice: price, toleratedStress });
          const plan = planSeason({ trees, site, weather, rules, kit });
          return sum(plan.trees.map((t) => t.chosen.litres));
        }; // prettier-ignore
          const [once, twice] = [litres(waterPrice), litres(2 * waterPrice)];
          if (twice < once - 1) fewer += 1;
          expect(twice).toBeLessThanOrEqual(once * (1 + 1e-9));
        },
      ),
      { numRuns: 60, seed: 7 },
    );
    // the property says something only where the price does change choices
    expect(fewer).toBeGreaterThan(0);
  });
  it('doubles the line of water where the plan stays the same', () => {
    const [one, two] = [2, 4].map((waterPrice) => estimate(madePlan({ waterPrice }), [BAG]));
    expect(two!.cost - one!.cost).toBeCloseTo(0.4, 12);
    expect(TO).toBeGreaterThan(FROM);
  });
});
