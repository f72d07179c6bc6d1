import { describe, expect, it } from 'vitest';
import { BAG_CARE, bagQuestions, type BagRow } from '../../../src/engine/contract/bag-register.js';
import { clockOf, deadBy, warrantyEnd } from '../../../src/engine/contract/clocks.js';
import { dayFromIso, isoDate } from '../../../src/engine/dates.js';

const d = dayFromIso;
const PLANTED = d('2027-03-15');

describe('a term', () => {
  it('is over on the same day of the month, or the last day of a shorter one', () => {
    expect(isoDate(warrantyEnd(PLANTED, 24))).toBe('2029-03-15');
    expect(isoDate(warrantyEnd(d('2027-08-31'), 6))).toBe('2028-02-29');
  });
  it('is longer by the days that do not count, and runs again after a replacement', () => {
    expect(isoDate(warrantyEnd(PLANTED, 12, 20))).toBe('2028-04-04');
    expect(isoDate(warrantyEnd(PLANTED, 36, 0, d('2028-05-01')))).toBe('2031-05-01');
    expect(() => warrantyEnd(PLANTED, 12, 0, PLANTED - 1)).toThrow(
      'restart must be on or after 2027-03-15',
    );
  });
});

describe('a clock on a day', () => {
  const input = {
    planted: PLANTED,
    months: 12,
    uncredited: [
      { from: d('2027-07-01'), to: d('2027-07-10') },
      { from: d('2027-07-08'), to: d('2027-07-12') },
    ],
    inspections: [3, 6, 9, 12],
    inspected: [d('2027-06-20')],
  };
  it('counts days not credited once, though they overlap', () => {
    const clock = clockOf(input, d('2027-08-01'));
    expect(clock.uncredited).toBe(12);
    expect(isoDate(clock.end)).toBe('2028-03-27');
    expect(clock.credited).toBe(d('2027-08-01') - PLANTED - 12);
    expect(clock.over).toBe(false);
  });
  it('knows which inspections were made, are due, and are coming', () => {
    expect(clockOf(input, d('2027-10-01')).inspections.map((i) => i.state)).toEqual(['made', 'due', 'coming', 'coming']); // prettier-ignore
  });
  it('starts again with the last replacement, and forgets what was not credited before', () => {
    const clock = clockOf({ ...input, replaced: [d('2027-11-01')] }, d('2027-12-01'));
    expect(clock).toMatchObject({
      start: d('2027-11-01'),
      restarts: 1,
      uncredited: 0,
      credited: 30,
    });
    expect(isoDate(clock.end)).toBe('2028-11-01');
  });
});

describe('dead by the contract', () => {
  it('is a dead leader, or a quarter of the canopy died back', () => {
    expect(deadBy(0.25, false)).toBe(true);
    expect(deadBy(0.24, false)).toBe(false);
    expect(deadBy(0, true)).toBe(true);
    expect(deadBy(0.4, false, 0.5)).toBe(false);
  });
});

describe('the bag register', () => {
  const bag = (more: Partial<BagRow>): BagRow => ({
    row: 2, bag: 'B1', tree: 'T1', fitted: d('2027-05-01'), moved: d('2027-05-20'), state: 'ok', ...more,
  }); // prettier-ignore
  const kinds = (more: Partial<BagRow>, on: string, care = BAG_CARE): string[] =>
    bagQuestions([bag(more)], d(on), care).map((q) => q.kind);
  it('asks about a leak, a bag still full after two days, one not moved for a month', () => {
    expect(kinds({}, '2027-06-01')).toEqual([]);
    expect(kinds({ state: 'leaking' }, '2027-06-01')).toEqual(['leaking']);
    expect(kinds({ filled: d('2027-05-28'), fullOn: d('2027-05-30') }, '2027-06-01')).toEqual(['still full']); // prettier-ignore
    expect(kinds({ moved: undefined }, '2027-06-01')).toEqual(['move']);
  });
  it('wants bags off before winter, and asks nothing about one that is', () => {
    const care = { ...BAG_CARE, offBy: d('2027-11-01') };
    expect(kinds({ moved: d('2027-10-25') }, '2027-11-02', care)).toEqual(['off']);
    expect(kinds({ moved: d('2027-10-25'), off: d('2027-10-30') }, '2027-11-02', care)).toEqual([]);
  });
});
