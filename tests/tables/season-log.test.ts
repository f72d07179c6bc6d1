import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayOf } from '../../src/engine/dates.js';
import type { Cell } from '../../src/tables/cells.js';
import { readSeasonLog, type LogTable } from '../../src/tables/season-log.js';

const table = (name: string, ...cells: Cell[][]): LogTable => ({ name, cells });
const DAY = dayOf(2027, 6, 3);

/**
 * Units: a US gallon is 231 cubic inches, an inch 25.4 mm, a pound 0.45359237 kg, all by definition (NIST Handbook 44,
 * appendix C; from memory).
 */
const GALLON = (231 * 2.54 ** 3) / 1000;
const INCH = 25.4;
const POUND = 0.45359237;

describe('good rows', () => {
  const log = readSeasonLog([
    table('WATERINGS', ['Invented'], [null], ['tree ID', 'ROW', 'Date', 'Water (GAL)', 'means'], ['A1', null, '2027-06-03', 10, 'bag'], [null, 7, DAY, '12 L', ''], ['A2', 8, '6/14/2027', '1,000.5', null]),
    table('Rain', ['Date', 'Rain (in)'], [DAY, 0.5], ['June 4, 2027', '3 mm']),
    table('bag timings', ['Tree', 'Hours', 'Left'], ['A1', 9, 0.25], ['A2', '90 min', '40%']),
    table('Pad weights', ['Tree', 'Date', 'Usable (L)', 'Saturated (lb)', 'Dry (lb)', 'Now (lb)'], ['A1', DAY, 4, null, null, null], ['A2', null, null, 26, 2, '12'], ['A3', null, null, null, 2, '7 kg']),
    table('Flows', ['Device', 'Flow (gpm)', 'Tree'], ['hand hose', 5, null], ['hand hose', '20 l/min', 'A1']),
    table('Stages', ['From', 'Stage'], ['2027-06-20', 'Stage 3'], [DAY, 'B']),
  ]); // prettier-ignore
  it('are read in the units inside, whatever the case and the units of the header', () => {
    expect(log.problems).toEqual([]);
    expect(log.given).toEqual([
      { row: 4, tree: 'A1', day: DAY, litres: expect.closeTo(10 * GALLON, 9), device: 'bag' },
      { row: 5, tree: '', treeRow: 7, day: DAY, litres: 12 },
      { row: 6, tree: 'A2', treeRow: 8, day: dayOf(2027, 6, 14), litres: expect.closeTo(1000.5 * GALLON, 7) }, // prettier-ignore
    ]);
    expect(log.rain).toEqual([
      { row: 2, day: DAY, mm: 0.5 * INCH },
      { row: 3, day: DAY + 1, mm: 3 },
    ]);
    expect(log.bags).toEqual([
      { row: 2, tree: 'A1', hours: 9, left: 0.25 },
      { row: 3, tree: 'A2', hours: 1.5, left: expect.closeTo(0.4, 12) },
    ]);
    expect(log.flows).toEqual([
      { row: 2, device: 'hand hose', flow: expect.closeTo(5 * GALLON, 9) },
      { row: 3, tree: 'A1', device: 'hand hose', flow: 20 },
    ]);
    expect(log.stages).toEqual([
      { row: 2, from: dayOf(2027, 6, 20), stage: '3', written: 'Stage 3' },
      { row: 3, from: DAY, stage: 'b', written: 'B' },
    ]);
    expect(log.rows).toBe(14);
  });
  it('a pad holds the water of its weight above dry, nine tenths of it usable where nothing else is said', () => {
    // 1 kg of water is 1 L; the share is the default of PAD_VOLUME, an assumption
    expect(log.pads).toEqual([
      { row: 2, tree: 'A1', litres: 4, day: DAY },
      { row: 3, tree: 'A2', litres: expect.closeTo(10 * POUND * 0.9, 9) },
      { row: 4, tree: 'A3', litres: expect.closeTo((7 - 2 * POUND) * 0.9, 9) },
    ]);
  });
  it('headers that are nothing but the unit are enough', () => {
    const one = readSeasonLog([table('w.csv', ['Tree', 'Date', 'Gallons'], ['A', DAY, 3])]);
    expect(one.given[0]!.litres).toBeCloseTo(3 * GALLON, 9);
    const other = readSeasonLog([table('r.csv', ['Date', 'mm'], [DAY, 3])]);
    expect(other.rain).toEqual([{ row: 2, day: DAY, mm: 3 }]);
    const hose = readSeasonLog([table('f.csv', ['Device', 'L/min'], ['h', 3])]);
    expect(hose.flows).toEqual([{ row: 2, device: 'h', flow: 3 }]);
  });
  it('the Plan sheet itself, as a text table, is a log: Each is read, All is not', () => {
    const log = readSeasonLog([
      table('plan.csv', ['Date', 'Day', 'Site', 'Tree', 'Trees', 'Means', 'Each (gal)', 'All (gal)'], ['2027-06-03', 'Thu', 'Yard', 'A1', 3, 'bag', 15, 45]),
    ]); // prettier-ignore
    expect(log.given).toEqual([
      { row: 2, tree: 'A1', day: DAY, litres: expect.closeTo(15 * GALLON, 9), device: 'bag' },
    ]);
    expect(log.notes.join()).toMatch(/not read: "Day", "Site", "Trees", "All \(gal\)"/);
  });
});

describe('which table it is', () => {
  it('of several sheets only those with a known name are read, and the others are said', () => {
    const plan = table('Plan', ['Tree', 'Date', 'Each (gal)'], ['A1', DAY, 5]);
    const log = readSeasonLog([plan, table('Rain', ['Date', 'Rain (mm)'], [DAY, 4])]);
    expect(log.given).toEqual([]);
    expect(log.rain).toHaveLength(1);
    expect(log.notes).toEqual([
      'Season log: "Plan" is none of Waterings, Rain, Bag timings, Pad weights, Flows, Stages; it is not read.',
    ]);
  });
  it('a text table is known by its name, or else by its headers', () => {
    const header = ['Tree', 'Date', 'Water (L)'];
    expect(readSeasonLog([table('x.csv', header, ['A', DAY, 2])]).given).toHaveLength(1);
    const pads = readSeasonLog([table('june pad weights.csv', header, ['A', DAY, 2])]);
    expect([pads.given.length, pads.pads.length]).toEqual([0, 1]);
  });
  it('nothing that is a log is refused with what is accepted', () => {
    expect(() => readSeasonLog([table('x.csv', ['Species'], ['oak'])])).toThrow(
      /no table of a season log was found; accepted are Waterings, .*"Tree or Row, Date, Water \(gal\)"/,
    );
    expect(() => readSeasonLog([])).toThrow(/no table of a season log/);
  });
  it('no table of rain, one of dry days and one nothing could be read of are told apart', () => {
    const w = table('Waterings', ['Tree', 'Date', 'Litres'], ['A', DAY, 2]);
    expect(readSeasonLog([w]).rain).toBeUndefined();
    expect(readSeasonLog([w, table('Rain', ['Date', 'mm'])]).rain).toEqual([]);
    expect(readSeasonLog([w, table('Rain', ['Date', 'mm'], [DAY, 'wet'])]).rain).toBeUndefined();
  });
});

describe('bad rows', () => {
  const refused = (name: string, header: Cell[], row: Cell[]): string =>
    readSeasonLog([table(name, header, row)]).problems.join(' | ');
  const W = ['Tree', 'Date', 'Water (gal)'];
  const cases: [string, Cell[], Cell[], string | RegExp][] = [
    ['Waterings', W, ['A', 'soon', 3], 'Waterings, row 2: Date is "soon", which is no day; accepted is a date cell, or a day like 2027-07-01. The row is not used.'],
    ['Waterings', W, ['A', '2027-06-31', 3], /Date is "2027-06-31", which is no day/],
    ['Waterings', W, ['A', 'June 2027', 3], /Date is "June 2027", which is no day/],
    ['Waterings', W, ['A', null, 3], /Date is blank; accepted is a date cell/],
    ['Waterings', W, ['A', DAY, null], 'Waterings, row 2: Water (gal) is blank; accepted is a number in gal or L. The row is not used.'],
    ['Waterings', W, ['A', DAY, 'a lot'], /Water \(gal\) is "a lot", which is no number; accepted is a number in gal or L/],
    ['Waterings', W, ['A', DAY, -3], /is "-3", which is out of range/],
    ['Waterings', W, ['A', DAY, '3 ft'], /is "3 ft", in a unit that does not fit/],
    ['Waterings', W, [null, DAY, 3], /row 2: it names no tree; accepted is its id, its row in the inventory, or both/],
    ['Waterings', ['Row', 'Date', 'Litres'], ['A', DAY, 3], /Row is "A", which is no row of the inventory; accepted is a whole number from 1/],
    ['Waterings', ['Tree', 'Date', 'Water'], ['A', DAY, 3], /Water is "3" without a unit; accepted is a header that names it in brackets, gal or L/],
    ['Waterings', ['Tree', 'Date', 'Water (buckets)'], ['A', DAY, 3], /its unit "buckets" does not measure this; accepted is a number in gal or L/],
    ['Waterings', ['Tree', 'Water (gal)'], ['A', 3], 'Waterings: no row of headers was found; accepted is "Tree or Row, Date, Water (gal)". None of its 2 rows is used.'],
    ['Rain', ['Date', 'Rain (ft)'], [DAY, 3], /does not measure this; accepted is a number in in or mm/],
    ['Bag timings', ['Tree', 'Hours', 'Left'], ['A', 5, 40], /Left is "40", which is out of range; accepted is a share from 0 to 1, or %/],
    ['Pad weights', ['Tree', 'Dry (lb)', 'Now (lb)'], ['A', 9, 4], /the weights are 1.81 kg now, 4.08 kg dry; now must lie between dry and soaked/],
    ['Pad weights', ['Tree', 'Dry (lb)', 'Now (lb)'], ['A', null, 4], /it gives no water; accepted is the usable water left, or the weights now and dry/],
    ['Flows', ['Device', 'Flow (gpm)'], [null, 4], /it names no device/],
    ['Stages', ['From', 'Stage'], [DAY, null], /it names no stage/],
  ]; // prettier-ignore
  it.each(cases)('%s %j %j', (name, header, row, sentence) => {
    if (typeof sentence === 'string') expect(refused(name, header, row)).toBe(sentence);
    else expect(refused(name, header, row)).toMatch(sentence);
  });
  it('two stages on one day: the second is refused', () => {
    const { stages, problems } = readSeasonLog([
      table('Stages', ['From', 'Stage'], [DAY, '1'], ['2027-06-03', '2']),
    ]);
    expect(stages.map((s) => s.stage)).toEqual(['1']);
    expect(problems).toEqual([
      'Stages, row 3: row 2 starts a stage on that day already. The row is not used.',
    ]);
  });
  it('days that could be read two ways are said', () => {
    const rows = (units: 'US' | 'SI') =>
      readSeasonLog([table('Rain', ['Date', 'mm'], ['3/4/2027', 1])], units);
    expect(rows('US').rain![0]!.day).toBe(dayOf(2027, 3, 4));
    expect(rows('SI').rain![0]!.day).toBe(dayOf(2027, 4, 3));
    expect(rows('US').notes.join()).toMatch(/Rain: dates like 3\/4\/2027 are read month first/);
  });
});

describe('nothing is lost', () => {
  const anyCell = fc.oneof(
    fc.constantFrom<Cell[]>(
      'A1',
      '2027-06-03',
      DAY,
      5,
      '5 gal',
      '',
      null,
      'n/a',
      true,
      '40%',
      -1,
      0,
    ),
    fc.string({ maxLength: 8 }),
    fc.double(),
  ) as fc.Arbitrary<Cell>;
  const headers: [string, Cell[]][] = [
    ['Waterings', ['Tree', 'Date', 'Water (gal)', 'Row']],
    ['Rain', ['Date', 'Rain (in)']],
    ['Bag timings', ['Tree', 'Hours', 'Left', 'Row']],
    ['Pad weights', ['Tree', 'Date', 'Usable (L)', 'Dry (kg)', 'Now (kg)']],
    ['Flows', ['Device', 'Flow (gpm)', 'Tree']],
    ['Stages', ['From', 'Stage']],
  ];
  it('every row that holds anything is read or refused with its number, whatever stands in it', () => {
    let read = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...headers),
        fc.array(fc.array(anyCell, { minLength: 5, maxLength: 5 }), { maxLength: 6 }),
        ([name, header], rows) => {
          const log = readSeasonLog([table(name, header, ...rows)]);
          const { given, bags, pads, flows, stages, problems } = log;
          const used = [given, log.rain ?? [], bags, pads, flows, stages].flat().map((r) => r.row);
          const refusedRows = problems.map((p) => Number(/, row (\d+): /.exec(p)![1]));
          expect(used.length + refusedRows.length).toBe(log.rows);
          expect(new Set([...used, ...refusedRows]).size).toBe(log.rows);
          for (const p of problems) expect(p).toMatch(/; |already|names no|gives no/);
          for (const value of [
            ...given.map((r) => r.litres),
            ...bags.map((r) => r.hours),
            ...pads.map((r) => r.litres),
            ...flows.map((r) => r.flow),
          ])
            expect(value).toBeGreaterThanOrEqual(0);
          read += used.length;
        },
      ),
      { numRuns: 400 },
    );
    expect(read).toBeGreaterThan(20);
  });
});
