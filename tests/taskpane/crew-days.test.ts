/** Work days marked one by one, an end in place of hours, hoses in numbers of trees. Common practice, no source. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hosesPerTree } from '../../src/engine/plan/hoses-per-tree.js';
import { joinedFor } from '../../src/engine/plan/choose-means.js';
import type { Device, Tree } from '../../src/engine/plan/model.js';
import { parseDays } from '../../src/engine/rules/rule-days.js';
import { hosesFor, smallTreesServed, treesServed } from '../../src/taskpane/kit/trees-served.js';
import { crewEnd, daysInWords, hoursUntil, weekdaysOf } from '../../src/taskpane/kit/work-days.js';

describe('the days a crew works', () => {
  it('come back as marked, by the rules’ own reader, for every set of days', () => {
    for (let mask = 1; mask < 128; mask++) {
      const days = new Set([0, 1, 2, 3, 4, 5, 6].filter((day) => mask & (1 << day)));
      const words = daysInWords(days);
      expect(parseDays(words), words).toEqual({ weekdays: mask, parity: null, every: null, perWeek: null }); // prettier-ignore
      expect(weekdaysOf(words), words).toEqual(days);
    }
  });
  it('are said briefly', () => {
    const said = ([...days]: number[]) => daysInWords(new Set(days));
    expect([said([1, 2, 3, 4, 5]), said([1, 3, 5]), said([0, 1, 2, 3, 4, 5, 6]), said([0, 6, 1, 2, 3]), said([6, 0])])
      .toEqual(['Mon-Fri', 'Mon Wed Fri', 'any', 'Mon-Wed Sat Sun', 'Sat Sun']); // prettier-ignore
  });
  it('that are more than days of the week, or no days, cannot be marked', () => {
    for (const words of ['odd days', '2 a week', 'every 3rd day', 'whenever', 'Mon Funday'])
      expect(weekdaysOf(words), words).toBe(undefined);
  });
});

describe('the hour a crew ends', () => {
  it('is start and hours, on the next day after midnight', () => {
    expect([crewEnd(6, 8), crewEnd(5.5, 7.25), crewEnd(16, 8), crewEnd(20, 8)]).toEqual([
      { at: '14:00', nextDay: false },
      { at: '12:45', nextDay: false },
      { at: '24:00', nextDay: false },
      { at: '04:00', nextDay: true },
    ]);
  });
  it('gives the hours as people write it', () => {
    const typed = ['14', '14:00', '2 pm', '2:00 PM', '14 h', '24:00', '0:00', '12 am', '7:20'];
    expect(typed.map((end) => hoursUntil(6, end))).toEqual([8, 8, 8, 8, 8, 18, 18, 18, 80 / 60]);
  });
  it('is refused where it is no hour, or before the crew has begun', () => {
    expect(['dusk', '25', ''].map((end) => hoursUntil(6, end))).toEqual([
      'wrong',
      'wrong',
      'wrong',
    ]);
    expect(['2', '6:00', '6:20', '5 am'].map((end) => hoursUntil(6, end))).toEqual(Array(4).fill('before')); // prettier-ignore
  });
  it('comes back from the hours it gives', () => {
    const minutes = fc.integer({ min: 30, max: 1439 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1409 }), minutes, (start, end) => {
        fc.pre(end - start >= 30);
        const hours = hoursUntil(start / 60, `${Math.floor(end / 60)}:${String(end % 60).padStart(2, '0')}`);
        if (typeof hours !== 'number') throw new Error('an hour within the day');
        expect(crewEnd(start / 60, hours).at).toBe(`${String(Math.floor(end / 60)).padStart(2, '0')}:${String(end % 60).padStart(2, '0')}`);
      }),
    ); // prettier-ignore
  });
});

describe('hoses for trees', () => {
  const hose: Device = { name: 'hose', family: 'soaker', rate: 8, length: 15, price: 0, seasons: 1, stock: 0, setupMinutes: 0, visitMinutes: 0, automatic: false }; // prettier-ignore
  const tree = (more: Partial<Tree>): Tree => ({ id: 'T', row: 2, species: '', count: 1, site: '', address: '', ...more }); // prettier-ignore

  it('are those the planner gives each tree; none for trees that can have none', () => {
    const wide = Math.PI * 9;
    const count = hosesPerTree(
      [
        tree({ caliper: 50, canopy: 1, ballDiameter: 600 }),
        tree({ caliper: 150, canopy: 6, count: 3 }),
        tree({ caliper: 150, canopy: 6, tap: false }),
        tree({ caliper: 150, canopy: 6, meansWanted: ['bag'] }),
        tree({}),
      ],
      hose,
      { reach: 1 },
    );
    const each = joinedFor(hose, 150, wide);
    expect(each).toBeGreaterThan(1);
    expect(count).toEqual({
      trees: 4,
      hoses: 1 + 3 * each,
      most: each,
      each: [
        [1, 1],
        [each, 3],
      ],
    });
    expect(hosesPerTree([tree({ caliper: 50 })], { ...hose, length: undefined }, { reach: 1 }).trees).toBe(0); // prettier-ignore
  });

  it('for a number of trees serve that number, whatever a tree takes', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 5000 }), fc.integer({ min: 1, max: 5000 }), fc.integer({ min: 0, max: 400 }), (trees, more, served) => {
        const list = { trees, hoses: Math.min(6 * trees, trees + more), each: [] };
        expect(treesServed(hosesFor(served, list), list)).toBe(served);
        if (served > 0) expect(treesServed(hosesFor(served, list) - 1, list)).toBeLessThan(served);
      }),
    ); // prettier-ignore
  });

  it('serve more trees where the smaller ones get them', () => {
    const each = [[1, 20], [6, 10]] as const;
    const list = { trees: 30, hoses: 80, each };
    expect(hosesFor(12, list)).toBe(32);
    expect(smallTreesServed(32, list)).toBe(22);
    expect([0, 5, 20, 25, 26, 80, 500].map((stock) => smallTreesServed(stock, list))).toEqual([0, 5, 20, 20, 21, 30, 30]);
  }); // prettier-ignore
});
