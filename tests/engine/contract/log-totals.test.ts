import { describe, expect, it } from 'vitest';
import {
  invoiceLines,
  productivity,
  serviceOfLog,
  treeTotals,
} from '../../../src/engine/contract/log-totals.js';
import { checkContract } from '../../../src/engine/contract/contract-check.js';
import type { LogRow } from '../../../src/engine/contract/visit-log.js';
import { dayFromIso } from '../../../src/engine/dates.js';
import { L_PER_GALLON } from '../../../src/engine/units.js';
import { readContract } from '../../../src/tables/contract.js';
import { readLogTrees, readTrucks, readVisitLog } from '../../../src/tables/visit-log.js';

const MONDAY = dayFromIso('2027-06-07');
const visit = (row: number, tree: string, day: number, gallons: number, more: Partial<LogRow> = {}): LogRow => ({
  row, tree, day, crew: '1', truck: '', applied: gallons * L_PER_GALLON, source: '', leaves: '', bag: '', condition: '',
  photo: '', skipped: '', approved: '', ...more,
}); // prettier-ignore

describe('visits and water by tree', () => {
  const planned = [0, 7, 14].map((d) => ({
    tree: 'A',
    day: MONDAY + d,
    litres: 20 * L_PER_GALLON,
  }));
  const rows = [
    visit(2, 'A', MONDAY + 1, 20),
    visit(3, 'a', MONDAY + 7, 0, { skipped: 'rain' }),
    visit(4, 'B', MONDAY, 15),
  ];
  it('answers a planned visit within a day, by water or a reason to skip; the rest is missed', () => {
    const [a, b] = treeTotals(rows, planned);
    expect(a).toMatchObject({ tree: 'A', made: 1, skipped: 1, missed: 1 });
    expect(a!.planned / L_PER_GALLON).toBeCloseTo(60, 9);
    expect(a!.applied / L_PER_GALLON).toBeCloseTo(20, 9);
    expect(b).toMatchObject({ tree: 'B', made: 1, missed: 0, planned: 0 });
  });
});

describe('what backs an invoice', () => {
  const { clauses } = readContract([
    ['Applies to', 'Least water (gal)', 'Water per'],
    ['caliper 2-3 in', 20, 'visit'],
    ['species Oak', 10, 'week'],
  ]);
  const trees = [
    { id: 'A', row: 2, count: 1, species: 'Oak', site: '', caliper: 60 },
    { id: 'B', row: 3, count: 1, species: 'Elm', site: '', caliper: 60 },
  ];
  const rows = [
    visit(2, 'A', MONDAY, 20, { arrived: 420, left: 426 }),
    visit(3, 'B', MONDAY, 15, { arrived: 430, left: 435 }),
    visit(4, 'A', MONDAY + 7, 0, { skipped: 'rain' }),
    visit(5, 'Z', MONDAY, 99),
  ];
  it('is the visits with water to the trees of a line, with their rows', () => {
    const [size, oak] = invoiceLines(rows, trees, clauses);
    expect(size).toMatchObject({ trees: 2, visits: 2, minutes: 11, rows: [2, 3] });
    expect(size!.litres / L_PER_GALLON).toBeCloseTo(35, 9);
    expect(oak).toMatchObject({ trees: 1, visits: 1, rows: [2] });
  });
  it('the log is judged like a plan', () => {
    const results = checkContract(
      serviceOfLog(rows, trees, { from: MONDAY, to: MONDAY + 6 }),
      clauses,
    );
    expect(results[0]).toMatchObject({ verdict: 'short' });
    expect(results[0]!.litres / L_PER_GALLON).toBeCloseTo(5, 9);
    expect(results[1]!.verdict).toBe('met');
  });
});

describe('productivity', () => {
  it('is trees, minutes at each and minutes between, over crew days', () => {
    const rows = [
      visit(2, 'A', MONDAY, 20, { arrived: 420, left: 426 }),
      visit(3, 'B', MONDAY, 20, { arrived: 430, left: 434 }),
      visit(4, 'C', MONDAY, 20, { arrived: 436, left: 441 }),
    ];
    const done = productivity(rows)!;
    expect(done).toMatchObject({ crewDays: 1, trees: 3, minutesAtTree: 5, minutesBetween: 3 });
    expect(done.hours).toBeCloseTo(21 / 60, 12);
    expect(productivity([visit(2, 'A', MONDAY, 20)])).toBeUndefined();
  });
});

describe('the Log sheet', () => {
  const head = ['Tree', 'Date', 'Arrived', 'Left', 'Applied (L)', 'How measured'];
  const read = (...cells: (string | number)[]) => readVisitLog([head, cells]);
  it('reads times as cells or as people write them, and says which units it is in', () => {
    const { rows, units } = read('A', MONDAY, 7.5 / 24, '1:05 pm', 80, 'metered');
    expect(units).toBe('SI');
    expect(rows[0]).toMatchObject({ arrived: 450, left: 785, applied: 80, measured: 'meter' });
  });
  it.each([
    [['', MONDAY], /^row 2: Tree is blank/],
    [['A', 'Monday'], /Date is "Monday"; accepted is a date cell/],
    [['A', MONDAY, '25:00'], /Arrived is "25:00"; accepted is a time such as 7:30/],
    [['A', MONDAY, 7], /Arrived is "7"; accepted is a time/],
    [['A', MONDAY, '', '', 'much'], /Applied \(L\) is "much"; accepted is a number from 0/],
    [['A', MONDAY, '', '', 5, 'by eye'], /How measured is "by eye"; accepted is meter, minutes, tank/],
  ])('%j is refused with a sentence', (cells, sentence) => {
    expect(read(...cells).problems[0]).toMatch(sentence);
  });
  it('lists of trees and trucks are read beside it', () => {
    const { trees } = readLogTrees([['Tree id', 'Status', 'Since'], ['A', 'Dead', '2027-05-01'], ['B', 'good', '']]);
    expect(trees).toEqual([
      { id: 'A', planted: undefined, gone: { word: 'dead', since: dayFromIso('2027-05-01') } },
      { id: 'B', planted: undefined },
    ]);
    const { trucks } = readTrucks([['Device', 'Family', 'Volume (gal)', 'Flow (gpm)'], ['bag', 'bag', 15, ''], ['T1', 'tanker', 500, 12]]);
    expect(trucks.map((t) => t.name)).toEqual(['T1']);
  });
}); // prettier-ignore
