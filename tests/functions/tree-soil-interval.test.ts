/** What the functions about trees, soil and intervals refuse, and in which words. */
import { describe, expect, it } from 'vitest';
import { Problem } from '../../src/engine/problems.js';
import { REFERENCE_TABLES } from '../../src/engine/reference-tables.js';
import { FUNCTIONS } from '../../src/functions/index.js';

const run = (id: string, inputs: unknown[]): unknown => FUNCTIONS[id]!(...inputs);

function problem(id: string, inputs: unknown[]): Problem {
  try {
    run(id, inputs);
  } catch (error) {
    if (error instanceof Problem) return error;
    throw error;
  }
  throw new Error(`${id} gave an answer`);
}

describe('sentences, word for word', () => {
  it.each([
    ['BALL_DIAMETER', [6], 'caliper must be a number from 0.5 to 5 in; got 6'],
    ['BALL_DIAMETER', [1, 'SI'], 'caliper must be a number from 1.27 to 12.7 cm; got 1'],
    ['CONTAINER_VOLUME', ['#200'], 'class must be a number from 1 to 100; got "#200"'],
    ['ROOT_MONTHS', [3, 14], 'zone must be a hardiness zone from 1 to 13, such as 9 or 9b; got 14'],
    ['STRESS', [120, 100, 0.5], 'depleted must not be above total'],
    [
      'MULCH_VOLUME',
      [1, 3],
      'outer_diameter must be above clear_diameter, which is 1 ft if not given',
    ],
    [
      'MULCH_VOLUME',
      [4, 3, 5],
      'outer_diameter must be above clear_diameter, which is 1 ft if not given',
    ],
    [
      'RULE_OF_THUMB',
      [3, 'texas'],
      'rule must be one of "florida", "minnesota", "extension", "colorado"; got "texas"',
    ],
    [
      'NEXT_DATE',
      ['2027-06-01', 3, [[1, null, 1]]],
      'demands, cell 2, must be a number from 0 to 1000000; got a blank cell',
    ],
  ])('%s %j', (id, inputs, expected) => {
    const { message, kind } = problem(id, inputs);
    expect(message).toBe(expected);
    expect(kind).toBe('value');
  });
});

describe('water that does not run out', () => {
  it.each([
    [[[0.5, 0.5]], 'the usable water lasts longer than the 2 days looked at'],
    [0, 'the usable water lasts longer than the 400 days looked at'],
    [0.001, 'the usable water lasts longer than the 400 days looked at'],
  ])('NEXT_DATE with %j has no answer', (demands, expected) => {
    const { message, kind } = problem('NEXT_DATE', ['2027-06-01', 3, demands]);
    expect(message).toBe(expected);
    expect(kind).toBe('none');
  });

  it('runs out on the day the last drop is used, whatever the rounding of its parts', () => {
    expect(run('NEXT_DATE', [46000, 1, [Array<number>(12).fill(0.1)]])).toBe(46010);
    expect(run('NEXT_DATE', [46000, 400, 1])).toBe(46400);
  });
});

describe('US and SI give the same thing', () => {
  const GALLON = 3.785411784;
  it.each([
    ['RAIN_MONTH', [3, 6], [76.2, 152.4, null, 'SI'], 25.4],
    ['RAIN_DAY', [1.5], [38.1, 'SI'], 25.4],
    ['BALL_DIAMETER', [2.2], [5.588, 'SI'], 2.54],
    ['BALL_DEPTH', [30], [76.2, 'SI'], 2.54],
    ['CONTAINER_VOLUME', [30], [30, 'SI'], GALLON],
    ['ROOT_MONTHS', [3, 8], [7.62, 8, 'SI'], 1],
    ['ROOT_SPREAD', [24, 12, 3, 9], [60.96, 3.6576, 3, 9, null, 'SI'], 0.3048],
    ['SOIL_INTAKE', ['sandy loam'], ['sandy loam', 'SI'], 25.4],
    ['DEPLETION', [0.5, 0.3], [0.5, 7.62, 'SI'], 1],
    ['MULCH_VOLUME', [8, 3], [2.4384, 7.62, null, 'SI'], 0.764554857984],
  ])('%s', (id, us, si, factor) => {
    expect(run(id, si)).toBeCloseTo((run(id, us) as number) * factor, 9);
  });
});

describe('the tables behind the functions', () => {
  const all = Object.entries(REFERENCE_TABLES).flatMap(([id, tables]) =>
    tables.map((table) => [`${id}: ${table.title}`, table] as const),
  );
  it.each(all)('%s: every row fills its columns and says where it comes from', (_, table) => {
    expect(table.rows.length).toBeGreaterThan(0);
    for (const row of table.rows) {
      expect(row.cells).toHaveLength(table.columns.length);
      expect(row.source.length).toBeGreaterThan(5);
    }
  });

  it('are there for every function of these families that reads one', () => {
    for (const id of [
      'PLANT_FACTOR',
      'BALL_DIAMETER',
      'BALL_DEPTH',
      'CONTAINER_VOLUME',
      'ROOT_MONTHS',
      'SOIL_WATER',
      'SOIL_INTAKE',
      'RULE_OF_THUMB',
    ])
      expect(Object.keys(REFERENCE_TABLES)).toContain(id);
  });

  it('show what the functions answer', () => {
    const inGallons = REFERENCE_TABLES['CONTAINER_VOLUME']![0]!.rows;
    for (const { cells } of inGallons)
      expect(run('CONTAINER_VOLUME', [cells[0]])).toBeCloseTo(cells[1] as number, 9);
    for (const { cells } of REFERENCE_TABLES['BALL_DIAMETER']![0]!.rows)
      expect(run('BALL_DIAMETER', [cells[0]])).toBeCloseTo(cells[1] as number, 9);
    for (const { cells } of REFERENCE_TABLES['SOIL_INTAKE']![0]!.rows)
      expect(run('SOIL_INTAKE', [cells[0], 'SI'])).toBeCloseTo(cells[1] as number, 9);
    for (const { cells } of REFERENCE_TABLES['RULE_OF_THUMB']![0]!.rows)
      expect(run('RULE_OF_THUMB', [1, cells[0]])).toEqual([
        [expect.closeTo(cells[1] as number, 9), expect.closeTo(cells[2] as number, 9)],
      ]);
  });
});
