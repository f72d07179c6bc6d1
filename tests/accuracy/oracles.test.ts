/**
 * Accuracy beyond what is printed: every function here is computed a second time with forty digits and in another
 * form than the engine's, on many argument sets in both unit systems. SHOW_ACCURACY=1 prints the worst of each.
 */
import { describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../src/functions/index.js';
import { ORACLES, SETS, setsOf } from './oracles.js';
import { big, Big, ENDS, integral, PI } from './precise.js';

describe.each(Object.entries(ORACLES))('%s', (id, oracle) => {
  it.each(['US', 'SI'] as const)(`agrees with the second computation, %s`, (units) => {
    const call = FUNCTIONS[id];
    if (!call) throw new Error(`${id} is no worksheet function`);
    const sets = setsOf(oracle, units);
    expect(sets.length).toBeGreaterThanOrEqual(100);
    let worst = { error: 0, place: '' };
    for (const { args, expected } of sets) {
      const shown = call(...args);
      const place = `${id}(${args.map(String).join(', ')}) shows ${String(shown)}, computed ${expected.toString()}`;
      expect(shown, place).toBeTypeOf('number');
      const error = expected.isZero()
        ? Math.abs(shown as number)
        : big(shown as number)
            .div(expected)
            .minus(1)
            .abs()
            .toNumber();
      if (!(error <= worst.error)) worst = { error, place };
    }
    if (process.env['SHOW_ACCURACY'])
      console.log(`${id} ${units}: ${SETS} sets, worst ${worst.error.toExponential(1)}`);
    expect(worst.error, worst.place).toBeLessThanOrEqual(oracle.tolerance);
  });
});

describe('the tools of the second computation', () => {
  it('integrate what is known: a circle by two rules, a root and its reciprocal at the end', () => {
    const quarter = integral((x) => big(1).div(x.times(x).plus(1)), big(0), big(1));
    expect(quarter.minus(PI.div(4)).abs().toNumber()).toBeLessThan(1e-30);
    const sum = (f: (x: Big) => Big): number =>
      ENDS.reduce((total, { x, w }) => total.plus(w.times(f(x))), big(0)).toNumber();
    expect(sum((x) => big(1).div(x.sqrt()))).toBeCloseTo(2, 14);
    expect(sum((x) => x.sqrt())).toBeCloseTo(2 / 3, 14);
  });

  it('the outlet factor is the mean loss over the outlets: exact for m = 2, within 0.6 % for m = 1.852', () => {
    const exact = (n: number, m: number): number =>
      Array.from({ length: n }, (_, i) => ((i + 1) / n) ** m).reduce((a, b) => a + b) / n;
    for (let n = 2; n <= 60; n++) {
      expect(FUNCTIONS['OUTLET_FACTOR']?.(n, 2)).toBeCloseTo(exact(n, 2), 12);
      const factor = FUNCTIONS['OUTLET_FACTOR']?.(n) as number;
      expect(Math.abs(factor / exact(n, 1.852) - 1)).toBeLessThan(0.006);
    }
  });
});
