/** PLAN_TOTALS, from ranges as they stand on the sheets. */
import { describe, expect, it } from 'vitest';
import { dayOf } from '../../src/engine/dates.js';
import { Problem } from '../../src/engine/problems.js';
import { FUNCTIONS } from '../../src/functions/index.js';

const FROM = dayOf(2027, 4, 15);
const TO = dayOf(2027, 9, 30);
type Row = (string | number)[];
const trees: Row[] = [
  ['Tree ID', 'Species', 'Caliper (in)', 'Canopy diameter (ft)', 'Planted', 'Means wanted'],
  ['A1', 'Oak', 2, 5, '2027-03-15', 'bag'],
  ['', '', '', '', '', ''],
  ['A2', 'Oak', 'two fists', '', '2027-03-15', ''],
  ['A3', 'Elm', 2, 5, '2015-03-15', 'soaker'],
  ['A4', 'Oak', 2, 5, '2027-03-15', 'soaker'],
];
const site: Row[] = [
  ['Name', 'Value', 'Unit'],
  ['Latitude', 33, 'deg'],
  ['Soil texture', 'loam', ''],
  ['Season from', '2027-04-15', ''],
  ['Season to', '2027-09-30', ''],
];
const weather: Row[] = [
  ['Month', 'ET0 (in/day)', 'Rain (in)', 'Share counted'],
  ...[4, 5, 6, 7, 8, 9].map((month) => [month, month === 7 ? 0.3 : 0.28, 0, 0.5]),
];
const anyDay: Row[] = [
  ['Means', 'Days', 'Verdict'],
  ['any', 'any', 'allow'],
];
const twoDays: Row[] = [
  ['Means', 'Days', 'Verdict'],
  ['any', 'Mon Thu', 'allow'],
];
const kit: Row[] = [
  ['Device', 'Family', 'Volume (gal)', 'Holes', 'Rated hours', 'Rate (gal/h per 100 ft)', 'Length (ft)', 'Price', 'Seasons', 'Stock'],
  ['bag', 'bag', 15, 4, 5, '', '', 25, 3, 0],
  ['hose', 'soaker', '', '', '', 60, 25, 30, 4, 0],
]; // prettier-ignore

const plan = (...ranges: unknown[]): (string | number)[][] => {
  const target = FUNCTIONS['PLAN_TOTALS'];
  if (!target) throw new Error('no PLAN_TOTALS');
  return target(...ranges) as (string | number)[][];
};
const free = plan(trees, site, weather, anyDay, kit);
const cell = (rows: (string | number)[][], row: number, column: number): number => {
  const value = rows[row]?.[column];
  if (typeof value !== 'number') throw new Error(`${String(value)} in row ${row} is no number`);
  return value;
};

describe('PLAN_TOTALS', () => {
  it('gives seven cells for every row below the header, in its order, blank rows kept', () => {
    expect(free).toHaveLength(5);
    for (const row of free) expect(row).toHaveLength(7);
    expect(free[1]).toEqual(['', '', '', '', '', '', '']);
  });

  it('names the means that the row asks for', () => {
    expect(free[0]?.[0]).toMatch(/^bag/);
    expect(free[3]?.[0]).toMatch(/^soaker/);
    expect(free[4]?.[0]).toMatch(/^soaker/);
  });

  it('says why a row is not planned, or plans it by what else is known', () => {
    const first = String(free[2]?.[0]);
    if (first.startsWith('not planned')) {
      expect(first.length).toBeGreaterThan(25);
      expect(free[2]?.slice(1)).toEqual(['', '', '', '', '', '']);
    } else expect(cell(free, 2, 1)).toBeGreaterThan(0);
  });

  it('gives first dates inside the season and intervals of days', () => {
    for (const row of [0, 3, 4]) {
      expect(cell(free, row, 4)).toBeGreaterThanOrEqual(FROM);
      expect(cell(free, row, 4)).toBeLessThanOrEqual(TO);
      expect(cell(free, row, 5)).toBeGreaterThan(0);
      expect(cell(free, row, 6)).toBeGreaterThan(0);
    }
    expect(cell(free, 3, 5)).toBeGreaterThan(cell(free, 4, 5));
  });

  it('keeps a new tree without stress when any day is allowed, and not on two days a week', () => {
    const bound = plan(trees, site, weather, twoDays, kit);
    expect(cell(free, 4, 3)).toBe(0);
    expect(cell(bound, 4, 3)).toBeGreaterThan(10);
    expect(String(bound[4]?.[0])).toContain('cannot be kept');
    expect(cell(bound, 4, 1)).toBeLessThan(cell(free, 4, 1));
  });

  it('a bag on a small ball brings well over the water a hose does', () => {
    expect(cell(free, 0, 2) / cell(free, 4, 2)).toBeGreaterThan(1.3);
  });

  it('takes blanks as the host gives them: text, null or 0 in place of stages', () => {
    for (const blank of [undefined, null, '', 0, [['']], [[null, null]]])
      expect(plan(trees, site, weather, anyDay, kit, blank)).toEqual(free);
  });

  it('lets a stage end the freedom', () => {
    const staged = [
      ['Stage', 'Means', 'Days', 'Verdict'],
      ['', 'any', 'any', 'allow'],
      ['2', 'any', 'any', 'ban'],
    ];
    const stages = [
      ['From', 'Stage'],
      [dayOf(2027, 7, 1), '2'],
    ];
    const cut = plan(trees, site, weather, staged, kit, stages);
    expect(cell(cut, 4, 3)).toBeGreaterThan(cell(free, 4, 3));
    expect(cell(cut, 4, 1)).toBeLessThan(cell(free, 4, 1));
  });

  it.each([
    ['trees', [null, site, weather, anyDay, kit], /^trees is blank/],
    ['trees', [trees.slice(0, 1), site, weather, anyDay, kit], /^trees has no row/],
    ['trees', ['A1', site, weather, anyDay, kit], /^trees must be a range/],
    [
      'trees',
      [[...trees, ['A5', '#REF!']], site, weather, anyDay, kit],
      /^trees, row 7, column 2,.*#REF!/,
    ],
    ['site', [trees, [...site, ['Wage', 'plenty']], weather, anyDay, kit], /^site: .*plenty/],
    ['weather', [trees, site, weather.slice(0, 3), anyDay, kit], /Jun/],
    ['weather', [trees, site, [['a', 'b']], anyDay, kit], /Weather/],
    ['rules', [trees, site, weather, [[null]], kit], /^rules is blank/],
    [
      'rules',
      [trees, site, weather, [...anyDay, ['any', 'Blursday', 'allow']], kit],
      /^rules: .*Blursday/,
    ],
    ['kit', [trees, site, weather, anyDay, [...kit, ['mist', 'fog', 1]]], /^kit: .*mist/],
    ['kit', [trees, site, weather, anyDay, kit.slice(0, 1)], /^kit: /],
  ])('says what is wrong with %s', (_name, ranges, sentence) => {
    let problem: unknown;
    try {
      plan(...ranges);
    } catch (error) {
      problem = error;
    }
    expect(problem).toBeInstanceOf(Problem);
    expect((problem as Problem).message).toMatch(sentence);
  });
});
