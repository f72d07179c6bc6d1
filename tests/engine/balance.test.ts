import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  joining,
  newBalance,
  stepDay,
  stress,
  type Ground,
} from '../../src/engine/soil/water-balance.js';
import { usableWater } from '../../src/engine/soil/root-zone.js';

/** A ground whose days are all alike. */
const ground = (more: Partial<Ground>, days: number, p: number, demand: number): Ground => ({
  ballTaw: 0,
  ringTaw: new Float64Array(days),
  p: new Float64Array(days).fill(p),
  demand: new Float64Array(days).fill(demand),
  overflowToRing: 0.5,
  ...more,
});

/** One store of 1 m² ground, so that litres read as millimetres. */
const oneStore = (taw: number, p: number, demand: number, days: number): Ground =>
  ground({ ballTaw: taw }, days, p, demand);

describe('FAO-56 Example 36, readily available water (p. 166, seen)', () => {
  // soil: field capacity − wilting point [mm/m]; crop: root depth [m], p; printed TAW / RAW [mm]
  const soils = { 'loamy sand': 0.09, silt: 0.17, 'silty clay': 0.12 };
  const printed = {
    onion: { depth: 0.4, p: 0.3, 'loamy sand': [36, 11], silt: [68, 20], 'silty clay': [48, 14] },
    tomato: { depth: 0.8, p: 0.4, 'loamy sand': [72, 29], silt: [136, 54], 'silty clay': [96, 38] },
  } as const;
  for (const [crop, row] of Object.entries(printed))
    for (const [soil, available] of Object.entries(soils))
      it(`${crop} on ${soil}`, () => {
        const [taw, raw] = row[soil as keyof typeof soils];
        const litres = row.depth * 1000; // of soil under 1 m²
        expect(usableWater(litres, available, 1)).toBeCloseTo(taw, 1);
        expect(Math.abs(usableWater(litres, available, row.p) - raw)).toBeLessThanOrEqual(0.6);
      });
});

it('FAO-56 Example 37, days 1–5 of stress (p. 168, seen), through the season’s own step', () => {
  const stores = newBalance(160 - 55, 0, 0);
  const soil = oneStore(160, 0.4, 6, 5);
  const ks: number[] = [];
  const depletion: number[] = [];
  for (let day = 0; day < 5; day++) {
    stepDay(stores, soil, day);
    ks.push(stores.ks);
    depletion.push(160 - stores.ball);
  }
  [1, 1, 0.97, 0.91, 0.85].forEach((printed, i) => expect(ks[i]).toBeCloseTo(printed, 2));
  [61.0, 67.0, 72.8, 78.3, 83.4].forEach((printed, i) =>
    expect(Math.abs(depletion[i]! - printed)).toBeLessThanOrEqual(0.1),
  );
});

it('FAO-56 Example 38, day 1: 40 mm early in the day on a depletion of 23 (p. 172, seen)', () => {
  const stores = newBalance(39 - 23, 0, 0);
  stores.toBall = 40;
  stepDay(stores, oneStore(39, 0.6, 5.5, 1), 0);
  expect(stores.percolated).toBeCloseTo(17, 9);
  expect(Math.abs(39 - stores.ball - 5)).toBeLessThanOrEqual(0.51);
});

it('stress begins where the usable water ends', () => {
  expect(stress(50, 100, 0.5)).toBe(1);
  expect(stress(75, 100, 0.5)).toBeCloseTo(0.5, 12);
  expect(stress(100, 100, 0.5)).toBe(0);
});

const share = fc.double({ min: 0, max: 1, noNaN: true });
const amount = fc.double({ min: 0, max: 500, noNaN: true });

it('the balance closes to 1e-9 for 1,000 random trees and seasons', () => {
  fc.assert(
    fc.property(
      fc.record({
        ballTaw: fc.double({ min: 1, max: 300, noNaN: true }),
        growth: fc.array(fc.double({ min: 0, max: 5, noNaN: true }), {
          minLength: 60,
          maxLength: 60,
        }),
        demand: fc.array(amount, { minLength: 60, maxLength: 60 }),
        water: fc.array(fc.oneof(fc.constant(0), amount), { minLength: 60, maxLength: 60 }),
        p: fc.double({ min: 0.1, max: 0.8, noNaN: true }),
        phi: share,
        joining: share,
        pad: fc.double({ min: 0, max: 50, noNaN: true }),
      }),
      (tree) => {
        const stores = newBalance(tree.ballTaw / 2, 0, tree.pad);
        const before = stores.ball + stores.ring + stores.pad;
        const days = tree.demand.length;
        const soil = ground({ ballTaw: tree.ballTaw }, days, tree.p, 0);
        soil.overflowToRing = tree.phi;
        const joiningShare = tree.joining;
        soil.demand.set(tree.demand);
        tree.growth.forEach((grown, i) => {
          soil.ringTaw[i] = (soil.ringTaw[i - 1] ?? 0) + grown;
        });
        stores.padGives = tree.pad / 7;
        let into = 0;
        let out = 0;
        tree.demand.forEach((demand, i) => {
          const joined = i > 0 ? joining(soil.ringTaw, i, joiningShare) : 0;
          stores.ring += joined;
          stores.toBall = tree.water[i]!;
          stores.toRing = tree.water[i]! / 2;
          into += joined + stores.toBall + stores.toRing;
          stepDay(stores, soil, i);
          out += stores.et + stores.percolated;
          expect(stores.ball).toBeGreaterThanOrEqual(0);
          expect(stores.ring).toBeGreaterThanOrEqual(0);
          expect(stores.pad).toBeGreaterThanOrEqual(0);
          expect(stores.ball).toBeLessThanOrEqual(tree.ballTaw);
          expect(stores.et).toBeLessThanOrEqual(demand + 1e-9);
        });
        const change = stores.ball + stores.ring + stores.pad - before;
        expect(Math.abs(into - out - change)).toBeLessThanOrEqual(1e-9 * Math.max(1, into));
      },
    ),
    { numRuns: 1000 },
  );
});
