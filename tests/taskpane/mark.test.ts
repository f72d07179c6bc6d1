import { describe, expect, it } from 'vitest';
import { coilPath, MARK } from '../../src/taskpane/mark.js';

describe('the mark', () => {
  it.each(['full', 'small'] as const)('the %s coil grows by its spacing each turn', (size) => {
    const { coil } = MARK[size];
    const numbers =
      coilPath(coil)
        .match(/-?\d+(\.\d+)?/g)
        ?.map(Number) ?? [];
    const radius = (x = NaN, y = NaN): number => Math.hypot(x - coil.centre, y - coil.centre);
    expect(radius(numbers[0], numbers[1])).toBeCloseTo(coil.inner, 1);
    const end = coil.inner + coil.spacing * coil.turns;
    expect(radius(numbers.at(-2), numbers.at(-1))).toBeCloseTo(end, 1);
    expect(end + MARK[size].stroke / 2).toBeLessThanOrEqual(32);
  });
});
