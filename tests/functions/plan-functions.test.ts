/** PLAN_DATES, PLAN_DAYS and PLAN_MEANS: one tree at a time, in step with PLAN_TOTALS and with themselves. */
import { describe, expect, it } from 'vitest';
import { dayOf } from '../../src/engine/dates.js';
import { planSeason } from '../../src/engine/plan/season.js';
import type { DayRow } from '../../src/engine/plan/simulate.js';
import { Problem } from '../../src/engine/problems.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import { readSeason } from '../../src/functions/season-tables.js';
import { ANY_DAY, KIT, SITE, TREES, WEATHER } from './plan-tables.js';

type Row = (string | number)[];
const run = (id: string, ...ranges: unknown[]): Row[] => {
  const target = FUNCTIONS[id];
  if (!target) throw new Error(`no ${id}`);
  return target(...ranges) as Row[];
};
function problem(call: () => unknown): Problem {
  try {
    throw new Error(`no error but ${JSON.stringify(call())}`);
  } catch (error) {
    if (error instanceof Problem) return error;
    throw error;
  }
}
const num = (cell: unknown): number => {
  if (typeof cell !== 'number') throw new Error(`${String(cell)} is no number`);
  return cell;
};
const sum = (rows: Row[], column: number): number =>
  rows.reduce((total, row) => total + num(row[column]), 0);

const HEADER = TREES[0]!;
const tree = (planted: string, wanted = '', caliper = 2): Row[] => [
  HEADER,
  ['A1', 'Oak', caliper, 5, planted, wanted],
];
const OLD = '2015-03-15';
const NEW = '2027-05-15';
const DRY: Row[] = [WEATHER[0]!, [6, 0.28, 0, 0.5], [7, 0.3, 0, 0.5]];
const TWO_DAYS: Row[] = [
  ['Means', 'Days', 'Verdict'],
  ['any', 'Mon Thu', 'allow'],
];
const SHUT: Row[] = [
  ['Means', 'Days', 'Verdict'],
  ['any', 'any', 'ban'],
];
const WITH_PAD: Row[] = [...KIT, ['pad', 'pad', 3, '', '', '', '', 30, 3, 0]];

const PLANS: [string, Row[], Row[], Row[], Row[]][] = [
  ['an established tree with a hose', tree(OLD, 'soaker'), WEATHER, ANY_DAY, KIT],
  ['a new tree with a bag', tree(NEW, 'bag'), WEATHER, ANY_DAY, KIT],
  ['a new tree on two days a week', tree(NEW), WEATHER, TWO_DAYS, KIT],
  ['an established tree, any means, without rain', tree(OLD), DRY, TWO_DAYS, WITH_PAD],
  ['a thicker tree with joined bags', tree(OLD, 'bag', 4), DRY, ANY_DAY, KIT],
];

describe.each(PLANS)('%s', (_name, one, weather, rules, kit) => {
  const ranges = [one, SITE, weather, rules, kit];
  const [totals] = run('PLAN_TOTALS', ...ranges);
  const waterings = run('PLAN_DATES', ...ranges);
  const days = run('PLAN_DAYS', ...ranges);
  const means = run('PLAN_MEANS', ...ranges);

  it('PLAN_DATES has the waterings, gallons and first date of PLAN_TOTALS', () => {
    expect(waterings.length).toBeGreaterThan(3);
    expect(waterings).toHaveLength(num(totals![1]));
    expect(sum(waterings, 1)).toBeCloseTo(num(totals![2]), 9);
    expect(waterings[0]![0]).toBe(totals![4]);
    for (const [day, gallons, minutes] of waterings) {
      expect(num(day)).toBeGreaterThanOrEqual(dayOf(2027, 6, 1));
      expect(num(day)).toBeLessThanOrEqual(dayOf(2027, 7, 31));
      expect(num(gallons)).toBeGreaterThan(0);
      expect(num(minutes)).toBeGreaterThan(1);
    }
  });

  it('waters on allowed days only', () => {
    const open = run('RULE_DATES', '2027-06-01', '2027-07-31', 'bag', '', rules).flat();
    for (const [day] of waterings) expect(open).toContain(day);
  });

  it('PLAN_DAYS has every day, and waters on the dates of PLAN_DATES', () => {
    expect(days.map((row) => row[0])).toEqual(
      Array.from({ length: 61 }, (_, i) => dayOf(2027, 6, 1) + i),
    );
    const wet = days.filter((row) => num(row[4]) > 0).map((row) => [row[0], row[4]]);
    expect(wet).toEqual(waterings.map((row) => [row[0], row[1]]));
    expect(days.filter((row) => num(row[7]) < 1)).toHaveLength(num(totals![3]));
  });

  it('PLAN_MEANS marks the one PLAN_TOTALS takes, and no cheaper one keeps the tree', () => {
    const chosen = means.filter((row) => row[5] === 'chosen');
    expect(chosen).toHaveLength(1);
    const [label, count, gallons, stress, cost] = chosen[0]!;
    expect(String(totals![0]).split(', cannot be kept')[0]).toBe(label);
    expect([count, gallons, stress, cost]).toEqual([
      totals![1],
      totals![2],
      totals![3],
      totals![6],
    ]);
    for (const row of means.filter((each) => each[5] === 'keeps the tree')) {
      expect(row[3]).toBe(0);
      expect(stress).toBe(0);
      expect(num(row[4])).toBeGreaterThanOrEqual(num(cost) - 1e-9);
    }
    for (const row of means.filter((each) => each[5] === 'stress'))
      expect(num(row[3])).toBeGreaterThan(0);
  });

  it('the trace closes: in − out = change of the stores', () => {
    const { input } = readSeason('tree', one, [SITE, weather, rules, kit]);
    const rows: DayRow[] = [];
    const traced = planSeason({ ...input, onDay: (_, row) => rows.push(row) });
    expect(traced).toEqual(planSeason(input));
    expect(rows).toHaveLength(61);
    for (let i = 1; i < rows.length; i++) {
      const [before, now] = [rows[i - 1]!, rows[i]!];
      const into = now.rainIn + now.waterIn + now.padIn + now.joined;
      const change = now.ball + now.ring + now.pad - before.ball - before.ring - before.pad;
      expect(Math.abs(into - now.et - now.percolated - change)).toBeLessThan(1e-9);
    }
  });
});

describe('PLAN_DAYS closes its balance from its own columns', () => {
  /** US gallons of one inch on one square foot: 231 in³ a gallon. */
  const GALLONS_PER_INCH_FOOT = 144 / 231;
  const crown = (Math.PI / 4) * 5 ** 2;

  it.each([
    ['a hose, rain', tree(OLD, 'soaker'), WEATHER, KIT],
    ['a bag that gives more than the roots hold', tree(OLD, 'bag'), DRY, KIT],
    ['a pad alone', tree(OLD, 'pad'), DRY, WITH_PAD],
    ['the last of three means, taken', tree(OLD), DRY, KIT],
  ])('%s', (_name, one, weather, kit) => {
    const days = run('PLAN_DAYS', one, SITE, weather, ANY_DAY, kit);
    let lost = 0;
    for (let i = 1; i < days.length; i++) {
      const row = days[i]!.map(num);
      const before = days[i - 1]!.map(num);
      const rain = row[2]! * crown * GALLONS_PER_INCH_FOOT;
      const left = before[5]! + before[6]! + rain + row[4]! - row[7]! * row[3]! - row[8]!;
      expect(Math.abs(left - row[5]! - row[6]!)).toBeLessThan(1e-9);
      lost += row[8]!;
    }
    expect(lost).toBeGreaterThan(0);
  });
});

it('PLAN_MEANS goes by the stress days the site accepts', () => {
  const verdicts = (site: Row[]) =>
    run('PLAN_MEANS', tree(NEW), site, DRY, TWO_DAYS, KIT).map((row) => row[5]);
  expect(verdicts(SITE)).toContain('stress');
  const lenient = verdicts([...SITE, ['Stress accepted', 366, 'days']]);
  expect(lenient.filter((each) => each === 'chosen')).toHaveLength(1);
  expect(new Set(lenient)).toEqual(new Set(['chosen', 'keeps the tree']));
});

describe('against published equations', () => {
  const GALLONS_PER_LITRE = 1 / 3.785411784;

  it('demand is ET0 · plant factor · crown area: 1.71 gal a day at 0.28 in, 5 ft and 0.5 (WUCOLS form; 0.6234 gal per in·ft²)', () => {
    const [first] = run('PLAN_DAYS', tree(OLD), SITE, DRY, ANY_DAY, KIT);
    expect(num(first![3])).toBeCloseTo(0.28 * 0.5 * (Math.PI / 4) * 25 * 0.6234, 3);
  });

  it('an undisturbed dry-down follows FAO-56 Eq. 84 and 85, p adjusted as in its chapter 8', () => {
    const site = [...SITE, ['Depletion allowed, established tree', 0.5, '']];
    const days = run('PLAN_DAYS', tree(OLD, 'bag'), site, DRY, SHUT, KIT).map((row) =>
      row.map(num),
    );
    // loam holds 0.155; the whole store: a ball and, out to the crown of 5 ft, soil to the root depth
    const full = days[0]![5]! + days[0]![6]! + days[0]![3]!;
    let left = full;
    let stressed = 0;
    for (const row of days) {
      const p = 0.5 + 0.04 * (5 - row[1]! * 25.4 * 0.5);
      const ks = Math.min(1, left / ((1 - p) * full));
      expect(row[7]).toBeCloseTo(ks, 9);
      left -= ks * row[3]!;
      expect(row[5]! + row[6]!).toBeCloseTo(left, 9);
      if (ks < 1) stressed++;
    }
    expect(stressed).toBeGreaterThan(40);
    expect(stressed).toBeLessThan(61);
    expect(full).toBeLessThan((Math.PI / 4) * 1.524 ** 2 * 1000 * 0.155 * GALLONS_PER_LITRE);
  });

  it('an interval of the peak month as PLAN_TOTALS has it lies between the dates of PLAN_DATES', () => {
    const [totals] = run('PLAN_TOTALS', tree(OLD, 'soaker'), SITE, DRY, ANY_DAY, KIT);
    const july = run('PLAN_DATES', tree(OLD, 'soaker'), SITE, DRY, ANY_DAY, KIT)
      .map((row) => num(row[0]))
      .filter((day) => day >= dayOf(2027, 7, 5));
    for (let i = 1; i < july.length; i++)
      expect(july[i]! - july[i - 1]!).toBe(Math.floor(num(totals![5])));
  });
});

describe('a pad', () => {
  it('is soaked on rows of its own, and its water counts', () => {
    const ranges = [tree(OLD, 'pad'), SITE, DRY, ANY_DAY, WITH_PAD];
    const [totals] = run('PLAN_TOTALS', ...ranges);
    const soaks = run('PLAN_DATES', ...ranges);
    expect(totals![1]).toBe(0);
    expect(soaks.length).toBeGreaterThan(0);
    expect(sum(soaks, 1)).toBeCloseTo(num(totals![2]), 9);
    for (const [, , minutes] of soaks) expect(minutes).toBe(720);
  });
});

describe('what cannot be answered', () => {
  const good = [tree(OLD), SITE, DRY, ANY_DAY, KIT];
  const IDS = ['PLAN_DATES', 'PLAN_DAYS', 'PLAN_MEANS'];

  it.each(IDS)('%s takes one tree at a time', (id) => {
    const two = [...tree(OLD), ['A2', 'Elm', 3, 8, OLD, '']];
    const found = problem(() => run(id, two, ...good.slice(1)));
    expect(found.kind).toBe('value');
    expect(found.message).toBe('tree has 2 rows below its header; give one tree at a time');
    expect(problem(() => run(id, [HEADER], ...good.slice(1))).message).toMatch(/^tree has no row/);
    expect(problem(() => run(id, null, ...good.slice(1))).message).toMatch(/^tree is blank/);
  });

  it.each(IDS)('%s says why a tree cannot be planned, as "no answer"', (id) => {
    const cases: [Row[], RegExp][] = [
      [[HEADER, ['A1', 'Oak', '', '', OLD, '']], /^tree cannot be planned: .*size/],
      [tree('2027-12-01'), /^tree cannot be planned: planted after the season ends/],
      [tree(OLD, 'pad'), /^tree cannot be planned: no device of the kit.*bag: the row asks for/],
    ];
    for (const [one, sentence] of cases) {
      const found = problem(() => run(id, one, ...good.slice(1)));
      expect(found.message).toMatch(sentence);
      expect(found.kind).toBe('none');
    }
  });

  it.each(IDS)('%s names the broken row of every other table', (id) => {
    const broken: [number, Row[], RegExp][] = [
      [1, [...SITE, ['Wage', 'plenty']], /^site: .*plenty/],
      [2, WEATHER.slice(0, 2), /Jul/],
      [3, [...ANY_DAY, ['any', 'Blursday', 'allow']], /^rules: .*Blursday/],
      [4, [...KIT, ['mist', 'fog', 1]], /^kit: .*mist/],
    ];
    for (const [index, bad, sentence] of broken) {
      const ranges = good.map((range, i) => (i === index ? bad : range));
      const found = problem(() => run(id, ...ranges));
      expect(found.message).toMatch(sentence);
      expect(found.kind).toBe('value');
    }
  });

  it('PLAN_DATES: a tree under a ban gets no date, and the others show its stress', () => {
    const ranges = [tree(OLD, 'bag'), SITE, DRY, SHUT, KIT];
    const found = problem(() => run('PLAN_DATES', ...ranges));
    expect(found.kind).toBe('none');
    expect(found.message).toMatch(/^tree gets no watering this season\. Cannot be met under these/);
    const means = run('PLAN_MEANS', ...ranges);
    expect(means.map((row) => row[1])).toEqual([0, 0, '']);
    expect(num(means[0]![3])).toBeGreaterThan(40);
  });

  it('PLAN_DATES: a tree that rain keeps needs no date', () => {
    const wet = [WEATHER[0]!, [6, 0.1, 9, 1], [7, 0.1, 9, 1]];
    const found = problem(() => run('PLAN_DATES', tree(OLD, 'soaker'), SITE, wet, ANY_DAY, KIT));
    expect(found.kind).toBe('none');
    expect(found.message).toBe('tree needs no watering this season.');
  });

  it('PLAN_MEANS lists a refused device with its reason and blanks', () => {
    const means = run('PLAN_MEANS', tree(OLD, 'soaker'), SITE, DRY, ANY_DAY, KIT);
    const refused = means.find((row) => row[1] === '');
    expect(refused).toEqual(['bag (bag)', '', '', '', '', 'not possible: the row asks for soaker hose']); // prettier-ignore
  });
});

describe('a stage', () => {
  it('ends the waterings of a season', () => {
    const rules = [
      ['Stage', 'Means', 'Days', 'Verdict'],
      ['', 'any', 'any', 'allow'],
      ['2', 'any', 'any', 'ban'],
    ];
    const stages = [
      ['From', 'Stage'],
      ['2027-07-01', '2'],
    ];
    const dates = run('PLAN_DATES', tree(OLD), SITE, DRY, rules, KIT, stages);
    for (const [day] of dates) expect(num(day)).toBeLessThan(dayOf(2027, 7, 1));
    const free = run('PLAN_DATES', tree(OLD), SITE, DRY, rules, KIT);
    expect(free.length).toBeGreaterThan(dates.length);
  });
});
