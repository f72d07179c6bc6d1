/**
 * What a call costs: the function itself, and the same call as the grid makes it, with its value objects in and out.
 * 100,000 calls each; compare ratios within one run, machines are noisy. Run by `npm run bench`.
 */
import { createRequire } from 'node:module';
import { bench, describe } from 'vitest';
import { executorsFor, Troubles, type FormulaEngine } from '../../src/desk/registration.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import metadata from '../../src/generated/functions.json' with { type: 'json' };

const engine = createRequire(import.meta.url)(
  '@univerjs/presets/preset-sheets-node-core',
) as FormulaEngine;
const executors = new Map(
  executorsFor(engine, metadata.functions, FUNCTIONS, new Troubles()).map((each) => [
    String(each.name),
    each,
  ]),
);

/** Calls an estimator fills columns with, from the cheapest to the one that solves a pressure profile. */
const CALLS: Record<string, (number | string)[]> = {
  PRICE: [100, 0.3],
  TREE_DEMAND: [0.28, 12],
  BAG_HOURS: [15, 4, 0.055, 24],
  ET0: [104, 78, 33.4, 46569, 45, 5, 28, 1100],
  SOIL_WATER: ['loam'],
};
const HUNDRED_THOUSAND = { iterations: 100_000, time: 0, warmupIterations: 2_000, warmupTime: 0 };

for (const [id, args] of Object.entries(CALLS)) {
  const direct = FUNCTIONS[id]!;
  const executor = executors.get(`SOAK.${id}`)!;
  const values = args.map((value) =>
    typeof value === 'number'
      ? engine.NumberValueObject.create(value)
      : engine.StringValueObject.create(value),
  );
  describe(id, () => {
    bench('the function', () => void direct(...args), HUNDRED_THOUSAND);
    bench('through registration', () => void executor.calculate(...values), HUNDRED_THOUSAND);
  });
}

describe('HOSE_EVENNESS', () => {
  const args = [100, 90, 10, 0.5];
  const solve = FUNCTIONS['HOSE_EVENNESS'];
  if (solve)
    bench('the function', () => void solve(...args), { ...HUNDRED_THOUSAND, iterations: 2_000 });
});
