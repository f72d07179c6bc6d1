/**
 * The functions that plan, against seasons worked out by hand from published values (plan-seasons.ts): the dates, the water
 * and the interval follow from one division.
 */
import { describe, expect, it } from 'vitest';
import { dayFromIso } from '../../src/engine/dates.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import { byHand, DAYS, SEASONS, type Season } from './plan-seasons.js';

type Row = (string | number)[];
const [FROM, TO] = ['2027-06-01', '2027-07-31'];

const ask = (id: string, s: Season): Row[] => {
  const call = FUNCTIONS[id];
  if (!call) throw new Error(`${id} is no worksheet function`);
  return call(
    [
      ['Tree ID', 'Species', 'Caliper (in)', 'Canopy diameter (ft)', 'Planted', 'Means wanted'],
      ['A1', 'Oak', s.caliper, s.canopy, '2010-03-15', 'soaker'],
    ],
    [
      ['Name', 'Value', 'Unit'],
      ['Latitude', 33, 'deg'],
      ['Soil texture', s.texture, ''],
      ['Season from', FROM, ''],
      ['Season to', TO, ''],
      // the division by hand knows no crew's day, which ends before a hose on clay has had all its pauses
      ['Crew starts at', '0:00', ''],
      ['Crew hours a day', 24, 'h'],
    ],
    [
      ['Month', 'ET0 (in/day)', 'Rain (in)', 'Share counted'],
      [6, s.et0, 0, 0.5],
      [7, s.et0, 0, 0.5],
    ],
    [
      ['Means', 'Days', 'Verdict'],
      ['any', 'any', 'allow'],
    ],
    [
      ['Device', 'Family', 'Rate (gal/h per 100 ft)', 'Length (ft)', 'Price', 'Seasons', 'Stock'],
      ['hose', 'soaker', s.rate, s.length, 30, 4, 0],
    ],
  ) as Row[];
};
const near = (shown: unknown, expected: number): void => {
  expect(shown).toBeTypeOf('number');
  expect(Math.abs((shown as number) / expected - 1)).toBeLessThan(1e-9);
};

describe.each(SEASONS.map((s) => [`${s.caliper} in on ${s.texture}, ET0 ${s.et0}`, s] as const))(
  '%s',
  (_, season) => {
    const hand = byHand(season);
    const gallons = hand.waterings.reduce((sum, each) => sum + each.gallons, 0);
    const start = dayFromIso(FROM);

    it('PLAN_DATES', () => {
      const rows = ask('PLAN_DATES', season);
      expect(rows.map(([date]) => (date as number) - start)).toEqual(
        hand.waterings.map((each) => each.day),
      );
      rows.forEach(([, gallonsShown, minutes], i) => {
        near(gallonsShown, hand.waterings[i]?.gallons ?? NaN);
        near(minutes, hand.waterings[i]?.minutes ?? NaN);
      });
    });

    it('PLAN_DAYS', () => {
      const rows = ask('PLAN_DAYS', season);
      expect(rows).toHaveLength(DAYS);
      rows.forEach(([date, et0, rain, demand, , ball, ring, ks], i) => {
        expect(date).toBe(start + i);
        near(et0, season.et0);
        expect(rain).toBe(0);
        near(demand, hand.demand);
        const last = Math.max(0, ...hand.waterings.map((w) => w.day).filter((day) => day <= i));
        near((ball as number) + (ring as number), hand.total - (i - last + 1) * hand.demand);
        expect(ks).toBe(1);
      });
    });

    it('PLAN_MEANS', () => {
      const [label, waterings, shown, stress, , verdict] = ask('PLAN_MEANS', season)[0] ?? [];
      expect(label).toContain('hose');
      expect(waterings).toBe(hand.waterings.length);
      near(shown, gallons);
      expect(stress).toBe(0);
      expect(verdict).toBe('chosen');
    });

    it('PLAN_TOTALS', () => {
      const [, waterings, shown, stress, first, interval] = ask('PLAN_TOTALS', season)[0] ?? [];
      expect(waterings).toBe(hand.waterings.length);
      expect(hand.waterings.length).toBeGreaterThan(2);
      near(shown, gallons);
      expect(stress).toBe(0);
      expect(first).toBe(start + (hand.waterings[0]?.day ?? NaN));
      near(interval, hand.lasts);
    });
  },
);
