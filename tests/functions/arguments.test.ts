/** What worksheet functions do with what cells really hold; every function by every argument is in matrix.test.ts. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Problem } from '../../src/engine/problems.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import { ENTRIES, goodCall } from './catalogue.js';

const run = (id: string, inputs: unknown[]): unknown => {
  const target = FUNCTIONS[id];
  if (!target) throw new Error(`no function ${id}`);
  return target(...inputs);
};
/** The sentence of the Problem a call ends in. */
function sentence(call: () => unknown): string {
  try {
    const result = call();
    return `no error but ${String(result)}`;
  } catch (error) {
    if (error instanceof Problem) return error.message;
    throw error;
  }
}
describe('an optional argument', () => {
  it('may be left off at the end', () => {
    expect(run('BAG_HOURS', [15, 4, 0.055, 24])).toBe(
      run('BAG_HOURS', [15, 4, 0.055, 24, 0.62, 0, 'US']),
    );
  });
});

describe('the same thing written otherwise', () => {
  it('a date is a serial, a serial with a time of day, or yyyy-mm-dd', () => {
    const plain = run('SUN_ENERGY', [33.4, 46569]);
    expect(run('SUN_ENERGY', [33.4, 46569.75])).toBe(plain);
    expect(run('SUN_ENERGY', [33.4, '46569'])).toBe(plain);
    expect(run('SUN_ENERGY', [33.4, '2027-07-01'])).toBe(plain);
  });

  it('a share may be written in per cent', () => {
    expect(run('PAD_VOLUME', [30, 5, '80%'])).toBe(run('PAD_VOLUME', [30, 5, 0.8]));
  });

  it('US and SI give the same thing', () => {
    const hours = run('BAG_HOURS', [15, 4, 0.055, 24]) as number;
    const si = [15 * 3.785411784, 4, 0.055 * 25.4, 24 * 2.54, null, null, 'si'];
    expect(run('BAG_HOURS', si)).toBeCloseTo(hours, 10);
    const feet = run('COIL_LENGTH', [2, 6, 12]) as number;
    expect(run('COIL_LENGTH', [0.6096, 1.8288, 30.48, 'SI'])).toBeCloseTo(feet * 0.3048, 10);
    const gpm = run('HOSE_FLOW', [100, 60]) as number;
    const ratePerMetre = (60 * 3.785411784) / 30.48;
    expect(run('HOSE_FLOW', [30.48, ratePerMetre, null, null, null, 'SI'])).toBeCloseTo(
      gpm * 3.785411784,
      10,
    );
  });
});

describe('sentences, word for word', () => {
  it.each([
    ['BAG_HOURS', [15, 0, 0.055, 24], 'holes must be a whole number from 1 to 100; got 0'],
    ['BAG_HOURS', [15, 2.5, 0.055, 24], 'holes must be a whole number from 1 to 100; got 2.5'],
    ['BAG_HOURS', [-3, 4, 0.055, 24], 'volume must be a number above 0, at most 10000 gal; got -3'],
    ['BAG_HOURS', [15, 4, 0.055, 24, null, 15], 'left must be below volume'],
    [
      'BAG_HOURS',
      [15, 4, 0.055, 24, null, null, 'metric'],
      'units must be one of "US", "SI"; got "metric"',
    ],
    [
      'BAG_HOURS',
      [15, 4, 'x', 24, null, null, 'SI'],
      'hole must be a number from 0.1 to 100 mm; got "x"',
    ],
    ['COIL_LENGTH', [6, 2, 12], 'outer must be above inner'],
    ['PAD_VOLUME', [5, 30], 'saturated must be above dry'],
    ['ET0_TEMP', [70, 90, 33, '2027-07-01'], 'tmin must not be above tmax'],
    ['ET0', [90, 70, 33, '2027-07-01', 95], 'dewpoint must not be above tmax'],
    ['HOSE_FLOW', [50, 60, 8], 'rated_pressure is needed when pressure is given; got a blank cell'],
    [
      'RECHARGE_DATE',
      ['2027-06-01', 3, [[1, null, 1]]],
      'draws, cell 2, must be a number from 0 to 1000000; got a blank cell',
    ],
    [
      'SUN_ENERGY',
      [33, 60],
      'date must be a date from 1900-03-01 to 9999-12-31, as a date cell or yyyy-mm-dd; got 60',
    ],
    [
      'SUN_ENERGY',
      [33, '2027-02-30'],
      'date must be a date from 1900-03-01 to 9999-12-31, as a date cell or yyyy-mm-dd; got "2027-02-30"',
    ],
  ])('%s %j', (id, inputs, expected) => {
    expect(sentence(() => run(id, inputs))).toBe(expected);
  });
});

describe('a question without an answer', () => {
  it.each([
    ['INTERVAL', [10, 2, 2]],
    ['RECHARGE_DATE', ['2027-06-01', 3, [[0, 0, 0.1]]]],
    ['RECHARGE_DATE', ['2027-06-01', 3, [[0.001]]]],
    ['SOIL_WATER', ['clay loam', 'wilting point']],
  ])('%s %j is "no answer", with a sentence', (id, inputs) => {
    let problem: unknown;
    try {
      run(id, inputs);
    } catch (error) {
      problem = error;
    }
    expect(problem).toBeInstanceOf(Problem);
    expect((problem as Problem).kind).toBe('none');
    expect((problem as Problem).message.length).toBeGreaterThan(20);
  });
});

describe('whatever cells hold', () => {
  const NUMBERS = Object.keys(ENTRIES).filter((id) => ENTRIES[id]?.gives === 'number');
  const cell = fc.oneof(
    fc.constantFrom<unknown>(
      null,
      undefined,
      '',
      0,
      -0,
      1,
      -1,
      true,
      false,
      'SI',
      'loam',
      '#N/A',
      [[]],
      [
        [1, 2],
        [3, 4],
      ],
      {},
    ),
    fc.double(),
    fc.double({ min: 0, max: 100 }),
    fc.integer({ min: -5, max: 60000 }),
    fc.string({ maxLength: 8 }),
  );
  it.each(NUMBERS)('%s gives a finite number from 0 up, or a sentence', (id) => {
    const good = goodCall(id);
    let answered = 0;
    fc.assert(
      fc.property(
        fc.tuple(
          ...good.map((value) =>
            fc.oneof({ weight: 2, arbitrary: fc.constant(value) }, { weight: 1, arbitrary: cell }),
          ),
        ),
        (inputs) => {
          try {
            const result = run(id, inputs);
            answered++;
            return typeof result === 'number' && Number.isFinite(result) && result >= 0;
          } catch (error) {
            return (
              error instanceof Problem &&
              /^[a-z].{10,}/.test(error.message) &&
              !/NaN|undefined/.test(error.message)
            );
          }
        },
      ),
      { numRuns: 600, seed: 7 },
    );
    expect(answered).toBeGreaterThan(5);
  });
});
