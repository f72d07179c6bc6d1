/** Live columns beside an inventory: one formula a column, shared by its rows, and read alike before and in the grid. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readDeskSheet, readSheet } from '../../src/desk/sheet-cells.js';
import { formulaIn } from '../../src/desk/open-book.js';
import { deskSheets, plainSheet } from '../../src/desk/sheets.js';
import { canopyFromCaliper } from '../../src/engine/tree/stock-sizes.js';
import { M_PER_FOOT, MM_PER_INCH } from '../../src/engine/units.js';
import type { Cell } from '../../src/tables/cells.js';
import type { MatchedColumn } from '../../src/workers/plan-room.js';
import { openGrid, type OpenGrid } from './open-grid.js';

const SLOW = 120_000;
const ROWS = 12;
const DEMAND = 4;
const PLANTED = 46_000;
/** Rows of the table [0-based] without canopy, with neither size, and with a word for a canopy. */
const [NO_CANOPY, NEITHER, WRONG] = [3, 5, 7];

const matched = (column: number, meaning: string, unit = ''): MatchedColumn => ({
  column, header: meaning, meaning, unit, units: [], samples: [], doubt: '', ask: false,
}); // prettier-ignore
const columns = [matched(1, 'canopy', 'ft'), matched(2, 'caliper', 'in')];

function inventory(): { cells: Cell[][]; dateCells: Set<string> } {
  const cells: Cell[][] = [['Tree', 'Canopy (ft)', 'Caliper (in)', 'Planted']];
  for (let row = 1; row <= ROWS; row++) cells.push([`T${row}`, 10 + row, 2, PLANTED + row]);
  cells[NO_CANOPY]![1] = null;
  cells[NEITHER] = [`T${NEITHER}`, null, null, PLANTED];
  cells[WRONG]![1] = 'wide';
  return { cells, dateCells: new Set(cells.slice(1).map((_, i) => `${i + 1},3`)) };
}

const sheets = deskSheets('trees', inventory(), columns, 0);
const [trees, inputs] = sheets;
const rules = plainSheet('Rules', { cells: [[], ['Stages'], [null, 'Stage', 1], [true, '12', 'x']] }); // prettier-ignore

describe('live columns', () => {
  let grid: OpenGrid;
  const sheet = () => grid.book.workbook().getSheetByName('trees')!;
  const shown = (row: number, column = DEMAND) => grid.shown('trees', row, column);
  const text = (row: number, column = DEMAND) => formulaIn(sheet(), row, column);
  const after = async (change: () => void): Promise<void> => {
    const applied = grid.book.calculated();
    change();
    await applied;
  };
  /** Gallons a day of a canopy of so many feet, against the row with a canopy of 11 ft. */
  const against = (feet: number): number => (feet / 11) ** 2;

  beforeAll(async () => {
    grid = openGrid({ trees: trees!.cells, Inputs: inputs!.cells, Rules: rules.cells });
    await grid.book.calculated();
  }, SLOW);
  afterAll(() => grid.close());

  it('are read from the grid as from the sheets that go into it', () => {
    for (const given of [...sheets, rules]) {
      const there = readSheet(grid.book.workbook().getSheetByName(given.name)!);
      expect(there).toEqual(readDeskSheet(given));
    }
    const { cells, dateCells } = readSheet(sheet());
    expect(cells[1]).toEqual(['T1', 11, 2, PLANTED + 1]);
    expect(cells).toHaveLength(ROWS + 1);
    expect(dateCells?.has('1,3')).toBe(true);
    expect(readDeskSheet(rules).cells).toEqual([[], ['Stages'], [null, 'Stage', 1], [true, 12, 'x']]); // prettier-ignore
  });

  it('give every row its own result by one shared formula', () => {
    const base = shown(1) as number;
    expect(base).toBeGreaterThan(0);
    for (const row of [2, 6, ROWS])
      expect((shown(row) as number) / base).toBeCloseTo(against(10 + row), 9);
    const estimate = canopyFromCaliper(2 * MM_PER_INCH) / M_PER_FOOT;
    expect((shown(NO_CANOPY) as number) / base).toBeCloseTo(against(estimate), 9);
    expect(text(6)).toMatch(/\bB7\b.*\bC7\b/);
    expect(text(6)).toContain('Inputs!$B$2');
  });

  it('show nothing where there is nothing, and an error where a cell is wrong', () => {
    expect(shown(NEITHER)).toBe('');
    expect(shown(WRONG)).toBe('#VALUE!');
    expect(shown(WRONG, DEMAND + 2)).toBe('#VALUE!');
  });

  it('follow an input in all rows, and a cell in its own row', async () => {
    const before = [1, 2, ROWS].map((row) => shown(row) as number);
    const rate = grid.shown('Inputs', 1, 1) as number;
    await after(() => grid.book.workbook().getSheetByName('Inputs')!.getRange('B2').setValue(2 * rate)); // prettier-ignore
    [1, 2, ROWS].forEach((row, i) => expect((shown(row) as number) / before[i]!).toBeCloseTo(2, 9));
    const [first, second] = [shown(1), shown(2) as number];
    await after(() => sheet().getRange('B3').setValue(24));
    expect((shown(2) as number) / second).toBeCloseTo(4, 9);
    expect(shown(1)).toBe(first);
    await after(() => sheet().getRange(WRONG, 1).setValue(11));
    expect(shown(WRONG)).toBe(first);
  });

  it('stay in the other rows when the first row’s formula is replaced', async () => {
    const [third, last] = [shown(3), shown(ROWS)];
    await after(() => sheet().getRange(1, DEMAND).setValue({ f: '=1+1' }));
    expect(shown(1)).toBe(2);
    expect(text(2)).toContain('SOAK.TREE_DEMAND');
    expect([shown(3), shown(ROWS)]).toEqual([third, last]);
    const before = shown(ROWS) as number;
    await after(() => sheet().getRange(ROWS, 1).setValue(44));
    expect((shown(ROWS) as number) / before).toBeCloseTo(4, 9);
  });

  it('stay right when rows are put in and taken out above them', async () => {
    const last = shown(ROWS) as number;
    await after(() => sheet().insertRowsBefore(4, 2));
    expect(shown(ROWS + 2)).toBe(last);
    await after(() =>
      sheet()
        .getRange(ROWS + 2, 1)
        .setValue(22),
    );
    expect(last / (shown(ROWS + 2) as number)).toBeCloseTo(4, 9);
    await after(() => sheet().deleteRows(1, 2));
    await after(() => sheet().getRange(ROWS, 1).setValue(44));
    expect(shown(ROWS)).toBe(last);
  });
});
