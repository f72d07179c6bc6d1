/** Calls and draws of the tests of sense. */
import fc from 'fast-check';
import { expect } from 'vitest';
import { FUNCTIONS } from '../../src/functions/index.js';

export const call = (id: string, ...args: unknown[]): unknown => {
  const found = FUNCTIONS[id];
  if (!found) throw new Error(`${id} is no worksheet function`);
  return found(...args);
};
export const number = (id: string, ...args: unknown[]): number => {
  const shown = call(id, ...args);
  expect(shown, id).toBeTypeOf('number');
  return shown as number;
};
export const cells = (id: string, ...args: unknown[]): unknown[] =>
  (call(id, ...args) as unknown[][]).flat();

export const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.double({ min, max, noNaN: true, noDefaultInfinity: true });
/** Two different numbers, the smaller first. */
export const pair = (min: number, max: number): fc.Arbitrary<[number, number]> =>
  fc
    .tuple(between(min, max), between(min, max))
    .filter(([a, b]) => Math.abs(a - b) > (max - min) * 1e-6)
    .map(([a, b]) => (a < b ? [a, b] : [b, a]));
export const date = fc.integer({ min: 36526, max: 58440 });
export const SLACK = 1e-9;

type Values<T extends fc.Arbitrary<unknown>[]> = {
  [K in keyof T]: T[K] extends fc.Arbitrary<infer V> ? V : never;
};
/** Holds for all draws; the same draws on every run. */
export const always = <T extends fc.Arbitrary<unknown>[]>(
  arbitraries: [...T],
  check: (...values: Values<T>) => void,
): void =>
  fc.assert(
    fc.property(fc.tuple(...arbitraries), (values) => check(...(values as Values<T>))),
    { numRuns: 300, seed: 17 },
  );
