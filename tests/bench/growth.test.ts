/** The line by which the memory of many builds is judged. */
import { describe, expect, it } from 'vitest';
import { growth, leastRise } from './growth.js';

describe('a row of measurements', () => {
  it('on a line rises by the line’s slope, without doubt', () => {
    const { perStep, error } = growth([41.4, 41.5, 41.6, 41.7]);
    expect(perStep).toBeCloseTo(0.1, 9);
    expect(error).toBeCloseTo(0, 9);
  });

  it('has the error of the textbook’s formula: 1, 3, 2, 5, 4 rise by 0.8 ± 0.3464', () => {
    // sum of squares off the line 3.6, of places 10: √(3.6 ÷ 3 ÷ 10)
    const { perStep, error } = growth([1, 3, 2, 5, 4]);
    expect(perStep).toBeCloseTo(0.8, 9);
    expect(error).toBeCloseTo(Math.sqrt(0.12), 9);
  });

  it('that only jumps about may as well not rise, one that climbs through its jumps does', () => {
    expect(leastRise(growth([41.4, 41.9, 41.2, 41.8, 41.3, 41.6]))).toBeLessThan(0);
    expect(leastRise(growth([41.4, 41.6, 41.7, 41.9, 41.9, 42.1]))).toBeGreaterThan(0);
  });

  it('needs three measurements', () => {
    expect(() => growth([1, 2])).toThrow('a rise and its error need three measurements, not 2');
  });
});
