import { describe, expect, it } from 'vitest';
import { evenRounds } from '../../../src/engine/crew/split.js';
import { randomStream, whole } from './random.js';

/** The shortest longest round over every way to cut `items` into at most `most` rounds. */
function best(
  items: number,
  most: number,
  cost: (from: number, to: number) => number,
  from = 0,
): number {
  if (from === items) return 0;
  if (most === 0) return Infinity;
  let least = Infinity;
  for (let to = from + 1; to <= items; to++)
    least = Math.min(least, Math.max(cost(from, to), best(items, most - 1, cost, to)));
  return least;
}

/** Rounds of stops along a street, with the way from the yard and home. */
function street(random: () => number, items: number): (from: number, to: number) => number {
  const minutes = Array.from({ length: items }, () => 5 + random() * 60);
  const home = Array.from({ length: items }, () => 10 + random() * 3);
  return (from, to) =>
    home[from]! + home[to - 1]! + minutes.slice(from, to).reduce((a, b) => a + b, 0);
}

describe('rounds', () => {
  it('are as even as the best of all cuts, in 300 random streets', () => {
    const random = randomStream(11);
    for (let k = 0; k < 300; k++) {
      const items = whole(random, 1, 9);
      const most = whole(random, 1, 4);
      const cost = street(random, items);
      // a limit nobody can keep: all crews are used
      const { ends, longest } = evenRounds(items, most, 0, cost);
      expect(longest).toBeCloseTo(best(items, most, cost), 9);
      expect(ends.length).toBeLessThanOrEqual(most);
      expect(ends[ends.length - 1]).toBe(items);
      const rounds = ends.map((end, i) => cost(i === 0 ? 0 : ends[i - 1]!, end));
      expect(Math.max(...rounds)).toBeCloseTo(longest, 9);
    }
  });
  it('are found as well by halving where there are many stops', () => {
    const random = randomStream(12);
    const items = 320;
    const minutes = Array.from({ length: items + 1 }, () => 5 + random() * 20);
    const before = minutes.map((_, i) => minutes.slice(0, i).reduce((a, b) => a + b, 0));
    const cost = (from: number, to: number): number => 30 + before[to]! - before[from]!;
    const { longest } = evenRounds(items, 3, 0, cost);
    let least = Infinity;
    for (let a = 1; a < items; a++)
      for (let b = a; b < items; b++)
        least = Math.min(least, Math.max(cost(0, a), cost(a, b), cost(b, items)));
    expect(longest).toBeCloseTo(least, 6);
  });
  it('are the fewest that fit', () => {
    const cost = (from: number, to: number): number => 20 + 60 * (to - from);
    expect(evenRounds(6, 4, 480, cost).ends).toEqual([6]);
    expect(evenRounds(6, 4, 300, cost).ends).toEqual([3, 6]);
    expect(evenRounds(6, 4, 100, cost).longest).toBe(140);
  });
});
