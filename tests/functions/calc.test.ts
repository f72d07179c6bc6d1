import { execFile } from 'node:child_process';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { describe, expect, it } from 'vitest';
import { calculate, type Outcome } from '../../src/desk/headless.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import described from '../../src/generated/functions.json' with { type: 'json' };

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const run = promisify(execFile);
const functions = { metadata: described.functions, implementations: FUNCTIONS };

/** The function itself, called without any grid. */
const call = (id: string, ...args: unknown[]): unknown => {
  const implementation = FUNCTIONS[id] as ((...args: unknown[]) => unknown) | undefined;
  if (implementation === undefined) throw new Error(`There is no ${id}.`);
  return implementation(...args);
};
const valueOf = (outcome: Outcome | undefined): unknown =>
  outcome !== undefined && 'value' in outcome ? outcome.value : outcome;
const ROUNDING = 1e-15;

interface Run {
  code: number;
  out: string;
  err: string;
}
async function calc(...args: string[]): Promise<Run> {
  const tsx = join(root, 'node_modules', 'tsx', 'dist', 'cli.mjs');
  try {
    const done = await run(process.execPath, [tsx, join(root, 'src/cli/calc.ts'), ...args]);
    return { code: 0, out: done.stdout, err: done.stderr };
  } catch (error) {
    const { code, stdout, stderr } = error as { code: number; stdout: string; stderr: string };
    return { code, out: stdout, err: stderr };
  }
}

describe('worksheet functions in the grid’s engine', () => {
  it('every function of functions.json is known to the engine', async () => {
    const formulas = described.functions.map(({ id }) => `=SOAK.${id}()`);
    const outcomes = await calculate(formulas, functions);
    const unknown = outcomes.filter((o) => 'error' in o && o.error.code === '#NAME?');
    expect(unknown).toEqual([]);
    expect(outcomes).toHaveLength(described.functions.length);
  });

  it('a cell holds what the function gives, to the last digit', async () => {
    const outcomes = await calculate(
      [
        '=SOAK.BAG_HOURS(15,4,0.055,24)',
        '=soak.bag_hours(15,4,0.055,24)',
        '=SOAK.TREE_DEMAND(0.28,12)+1',
        '=SOAK.BAG_HOURS(15,4,0.055,24,,5)',
      ],
      functions,
    );
    const hours = call('BAG_HOURS', 15, 4, 0.055, 24) as number;
    const expected = [
      hours,
      hours,
      (call('TREE_DEMAND', 0.28, 12) as number) + 1,
      call('BAG_HOURS', 15, 4, 0.055, 24, null, 5) as number,
    ];
    outcomes.forEach((outcome, i) => {
      const want = expected[i] ?? NaN;
      expect(Math.abs((valueOf(outcome) as number) / want - 1)).toBeLessThanOrEqual(ROUNDING);
    });
  });

  it('an omitted middle argument takes its default; a blank cell where a value is needed does not', async () => {
    const [omitted, stated, blank] = await calculate(
      [
        '=SOAK.BAG_HOURS(15,4,0.055,24,,5)',
        '=SOAK.BAG_HOURS(15,4,0.055,24,0.62,5)',
        '=SOAK.BAG_HOURS(A1,4,0.055,24)',
      ],
      functions,
    );
    expect(valueOf(omitted)).toBe(valueOf(stated));
    expect(blank).toMatchObject({ error: { code: '#VALUE!' } });
    expect((blank as { error: { message: string } }).error.message).toMatch(/^volume must be/);
  });

  it('a bad argument shows #VALUE! with the function’s own sentence', async () => {
    const [bad] = await calculate(['=SOAK.BAG_HOURS(15,0,0.055,24)'], functions);
    expect(bad).toEqual({
      formula: '=SOAK.BAG_HOURS(15,0,0.055,24)',
      error: { code: '#VALUE!', message: 'holes must be a whole number from 1 to 100; got 0' },
    });
  });

  it('a question without an answer shows #N/A', async () => {
    const [none] = await calculate(['=SOAK.INTERVAL(30,2,5)'], functions);
    expect(none).toMatchObject({ error: { code: '#N/A' } });
  });

  it('functions nest in the spreadsheet’s own functions and read cells', async () => {
    const given = { 0: { 0: 15, 1: 4 } };
    const [nested] = await calculate(
      ['=IFERROR(SOAK.BAG_HOURS(A1,B1,0.055,24)/SOAK.BAG_HOURS(A1,1,0.055,24),"bad")'],
      functions,
      given,
    );
    expect(valueOf(nested)).toBeCloseTo(0.25, 10);
  });
});

describe('npm run calc', () => {
  it('prints a line for each formula, errors included, and exits with 0', async () => {
    const { code, out } = await calc('=SOAK.WATER_UNKNOWN(1)', '=1+1', 'SOAK.BAG_HOURS(15,0,1,24)');
    expect(code).toBe(0);
    expect(out.trimEnd().split('\n')).toEqual([
      '#NAME?  no function or name is spelt like this',
      '2',
      '#VALUE!  holes must be a whole number from 1 to 100; got 0',
    ]);
  });

  it('--json prints one object a line, tables as arrays of rows', async () => {
    const { code, out } = await calc('--json', '=SEQUENCE(2,2)', '=TRUE', '=1/0');
    expect(code).toBe(0);
    expect(
      out
        .trimEnd()
        .split('\n')
        .map((line) => JSON.parse(line) as unknown),
    ).toEqual([
      {
        formula: '=SEQUENCE(2,2)',
        value: [
          [1, 2],
          [3, 4],
        ],
      },
      { formula: '=TRUE', value: true },
      { formula: '=1/0', error: { code: '#DIV/0!', message: 'something is divided by zero' } },
    ]);
  });

  it('exits with 2 and says how to use it when there is no formula or an unknown option', async () => {
    const none = await calc();
    expect(none.code).toBe(2);
    expect(none.err).toContain('There is no formula.');
    const odd = await calc('--jsn', '=1');
    expect(odd.code).toBe(2);
    expect(odd.err).toContain('There is no option --jsn.');
    expect(odd.out).toBe('');
  });
});
