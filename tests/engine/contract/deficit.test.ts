import { describe, expect, it } from 'vitest';
import {
  DEFICIT_RULE_NAMES,
  DEFICIT_RULES,
  deficitLitres,
  deficitReadings,
  deficitRing,
} from '../../../src/engine/contract/deficit-rules.js';
import { L_PER_GALLON, M_PER_FOOT } from '../../../src/engine/units.js';

const TRUNK = 254; // 10 in
const gallons = (litres: number): number => Number((litres / L_PER_GALLON).toFixed(6));

describe('deficit rules', () => {
  it('show the published spread for a 10-inch tree over 28 days', () => {
    const spread = DEFICIT_RULE_NAMES.map((rule) => {
      const { low, high } = deficitLitres(TRUNK, rule, 28);
      return [rule, gallons(low), gallons(high)];
    });
    expect(spread).toEqual([
      ['kansas', 20, 40],
      ['texas', 40, 80],
      ['california', 100, 100],
      ['colorado', 400, 400],
      ['georgia', 560, 560],
    ]);
    expect(560 / 20).toBe(28);
  });

  it('count whole waterings, the first on the first day', () => {
    expect(gallons(deficitLitres(TRUNK, 'colorado', 1).low)).toBe(100);
    expect(gallons(deficitLitres(TRUNK, 'colorado', 8).low)).toBe(200);
    expect(gallons(deficitLitres(TRUNK, 'georgia', 9).low)).toBe(180);
  });

  it('name their source and how sure it is', () => {
    for (const rule of Object.values(DEFICIT_RULES)) {
      expect(rule.source.length).toBeGreaterThan(15);
      expect(['seen', 'secondary']).toContain(rule.certainty);
    }
  });

  it('refuse a trunk of nothing and a day of nothing', () => {
    expect(() => deficitLitres(0, 'texas', 28)).toThrow('diameter must be above 0');
    expect(() => deficitLitres(TRUNK, 'texas', 0)).toThrow('days must be from 1 to 366');
  });
});

describe('the ring deficit water is laid on', () => {
  it('runs from a third of the way out to 3 ft beyond a dripline of 30 ft', () => {
    const { inner, outer, area } = deficitRing(30 * M_PER_FOOT);
    expect(inner / M_PER_FOOT).toBeCloseTo(10, 9);
    expect(outer / M_PER_FOOT).toBeCloseTo(36, 9);
    expect(area / M_PER_FOOT ** 2).toBeCloseTo((Math.PI / 4) * (36 ** 2 - 10 ** 2), 6);
  });

  it('shows each rule beside the model, as a share of its water and a depth on the ring', () => {
    const model = 200 * L_PER_GALLON;
    const [kansas, , , colorado] = deficitReadings(TRUNK, 30 * M_PER_FOOT, 28, model);
    expect(kansas!.share![0]).toBeCloseTo(0.1, 9);
    expect(colorado!.share![0]).toBeCloseTo(2, 9);
    // 100 gal on 939.34 ft² is 0.1708 in, 4.34 mm
    expect(colorado!.depth[0]).toBeCloseTo(4.338, 2);
    expect(deficitReadings(TRUNK, 9, 28, 0)[0]!.share).toBeUndefined();
  });
});
