/** One build-up in every unit and back, droughts by who pays, and published productivity inside the model's range. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  droughtScenarios,
  jobPrice,
  PRICE_UNITS,
  priceViews,
  totalFrom,
  treesInDay,
  type BuildUp,
} from '../../../src/engine/contract/price-units.js';
import { L_PER_GALLON } from '../../../src/engine/units.js';

const JOB: BuildUp = {
  trees: 100, visits: 2000, litres: 40_000 * L_PER_GALLON, crewHours: 160, tankLoads: 90, work: 9000, water: 220,
  waterPaidBy: 'contractor', margin: 0.25, minimum: 0,
}; // prettier-ignore
const each = (unit: string): number => priceViews(JOB).find((v) => v.unit === unit)!.each;

describe('a job worked by hand', () => {
  it('of 9,220 at a quarter of margin sells for 12,293.33', () => {
    expect(jobPrice(JOB)).toBeCloseTo(12_293.333, 3);
    expect(each('visit')).toBeCloseTo(6.14667, 5);
    expect(each('tree and season')).toBeCloseTo(122.93333, 5);
    expect(each('1,000 gallons')).toBeCloseTo(307.33333, 5);
    expect(each('crew hour')).toBeCloseTo(76.83333, 5);
    expect(each('tank')).toBeCloseTo(136.59259, 5);
    expect(each('lump sum')).toBe(jobPrice(JOB));
  });
  it('has no water in it where the client pays the bill, and never costs less than its minimum', () => {
    expect(jobPrice({ ...JOB, waterPaidBy: 'client' })).toBeCloseTo(12_000, 9);
    expect(jobPrice({ ...JOB, minimum: 15_000 })).toBe(15_000);
    expect(priceViews({ ...JOB, minimum: 15_000 })[0]!.minimum).toBe(true);
  });
  it('cannot be priced by a unit it has none of', () => {
    expect(() => totalFrom({ ...JOB, tankLoads: 0 }, 'tank', 10)).toThrow('this job has no tank');
    expect(priceViews({ ...JOB, tankLoads: 0 }).map((v) => v.unit)).not.toContain('tank');
  });
});

it('converting a price to any unit and back gives the same total', () => {
  const some = fc.double({ min: 0.5, max: 1e6, noNaN: true });
  fc.assert(
    fc.property(some, some, some, some, some, some, fc.double({ min: 0, max: 0.9, noNaN: true }), (trees, visits, litres, crewHours, tankLoads, work, margin) => {
      const job = { ...JOB, trees, visits, litres, crewHours, tankLoads, work, margin };
      const total = jobPrice(job);
      expect(priceViews(job)).toHaveLength(PRICE_UNITS.length);
      for (const view of priceViews(job)) {
        expect(Math.abs(totalFrom(job, view.unit, view.each) / total - 1)).toBeLessThan(1e-12);
        expect(view.each * view.quantity).toBeCloseTo(total, 6);
      }
    }),
    { numRuns: 200, seed: 5 },
  ); // prettier-ignore
});

describe('a dry season by who bears it', () => {
  const drought = {
    extraVisits: 400,
    extraLitres: 30_000,
    overage: 10_000,
    waterPrice: 1.5,
    overPrice: 3,
  };
  const [all, water, none] = droughtScenarios(JOB, drought);
  it('costs the client the season alone, with water, or with visits as well', () => {
    expect(all!.client).toBe(jobPrice(JOB));
    expect(water!.client).toBeCloseTo(jobPrice(JOB) + 45 + 30, 9);
    // 400 visits of 4.50 at a quarter of margin are 2,400
    expect(none!.client).toBeCloseTo(jobPrice(JOB) + 75 + 2400, 9);
  });
  it('leaves the contractor with what nobody pays', () => {
    expect([all!.contractor, water!.contractor, none!.contractor]).toEqual([1875, 1800, 0]);
  });
});

describe('a crew day against a city that published its routes in 2011', () => {
  // 1,865 trees a week, three two-person crews, four days: 155 a crew day; 3,000-gallon trucks
  const published = 1865 / (3 * 4);
  const route = {
    hours: 8, minutesAtTree: 2, minutesBetween: 1, litresPerTree: 17.5 * L_PER_GALLON, tank: 3000 * L_PER_GALLON,
    refillMinutes: 20, yardMinutes: 15,
  }; // prettier-ignore
  it('155 trees lie between a slow and a quick crew of the stated inputs', () => {
    expect(published).toBeCloseTo(155.4, 1);
    const quick = treesInDay({ ...route, minutesAtTree: 1.8, minutesBetween: 0.8 }).trees;
    const slow = treesInDay({
      ...route,
      minutesAtTree: 2.3,
      minutesBetween: 1.2,
      yardMinutes: 30,
    }).trees;
    expect(slow).toBeLessThan(published);
    expect(quick).toBeGreaterThan(published);
    expect(treesInDay(route).trees).toBe(155);
  });
  it('one load of 3,000 gallons does the route at 17.5 gallons a tree; at 20 it ends after 150', () => {
    expect(treesInDay(route).loads).toBe(1);
    expect(treesInDay({ ...route, litresPerTree: 20 * L_PER_GALLON })).toMatchObject({ trees: 150, loads: 1 }); // prettier-ignore
    expect(treesInDay({ ...route, litresPerTree: 30 * L_PER_GALLON }).loads).toBe(2);
  });
  it('9.5 minutes a tree, as an audit found, make 18 trees in 171 minutes', () => {
    expect(treesInDay({ ...route, hours: 171 / 60, minutesAtTree: 9.5, minutesBetween: 0, yardMinutes: 0 }).trees).toBe(18); // prettier-ignore
  });
  it('a day without time for a tree is said, not shown as none', () => {
    expect(() => treesInDay({ ...route, hours: 0.2, yardMinutes: 15 })).toThrow(
      'no time for a single tree',
    );
  });
});
