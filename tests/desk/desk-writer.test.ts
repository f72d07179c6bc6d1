/** A model in the desk's grid: written beside what is open, taken away again, and saved as a file. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readXlsx } from 'hucre/xlsx';
import { blankCells, cellValues, insertFormula } from '../../src/desk/insert-formula.js';
import { appendRow, repair } from '../../src/desk/sheet-edits.js';
import { wholeWorkbook } from '../../src/desk/whole-workbook.js';
import { cell, SheetDraft, type WorkbookModel } from '../../src/workbook/model.js';
import { both } from '../../src/workbook/native-twins.js';
import { readFile } from '../../src/workbook/readers/open.js';
import type { Receipt } from '../../src/taskpane/host.js';
import { openGrid, writing, type OpenGrid } from './open-grid.js';

const SLOW = 120_000;
const TODAY = 46_500;

/** Two sheets that point at each other, forward and back, under names a person's workbook may have. */
function invented(): WorkbookModel {
  const trees = new SheetDraft('Trees', 'Trees');
  trees.text([cell('Trees', 'title')]);
  trees.table('Trees', [
    { key: 'id', header: 'Tree', width: 12 },
    { key: 'planted', header: 'Planted', width: 12, format: 'date' },
    { key: 'demand', header: 'Demand (gal/day)', width: 12, style: 'calculation', format: 'one' },
  ], 2, (i) => [
    i === 0 ? '=T1' : 'T2',
    46_000 + i,
    { value: null, ...both('US', (call) => call('TREE_DEMAND', ['Weather!$B$2', `${10 + i}`])) },
  ]); // prettier-ignore
  trees.validate('A3:A4', ['T1', 'T2'], 'A tree').hide('B').freeze(2, 1);
  const weather = new SheetDraft('Weather', 'Weather');
  weather.table('Weather', [
    { key: 'what', header: 'What', width: 12 },
    { key: 'value', header: 'Value', width: 12, style: 'input' },
  ], 2, (i) => i === 0 ? ['ET0 (in/day)', 0.25] : ['Trees', { value: null, formula: 'COUNTA(Trees!$A$3:$A$4)' }]); // prettier-ignore
  return {
    title: 'Invented',
    description: 'Invented',
    madeOn: TODAY,
    paper: 'letter',
    sheets: [trees.done(), weather.done()],
    names: { Peak: 'Weather!$B$2' },
  };
}

const sheets = (grid: OpenGrid): string[] =>
  grid.book.workbook().getSheets().map((sheet) => sheet.getSheetName()); // prettier-ignore

describe('a model written into the open workbook', () => {
  let grid: OpenGrid;
  let receipt: Receipt;
  beforeAll(async () => {
    grid = openGrid({
      Trees: {
        0: { 0: { v: 'Tag', t: 1 }, 1: { v: 'Demand', t: 1 } },
        1: { 0: { v: '=mine', t: 1 }, 1: { f: '=SOAK.TREE_DEMAND(0.25,12)' }, 2: { f: '=SUM(D2,1)' }, 3: { v: TODAY, t: 2, s: { n: { pattern: 'yyyy-mm-dd' } } } },
      },
    }); // prettier-ignore
    receipt = await grid.models.write(invented(), writing(true));
  }, SLOW);
  afterAll(() => grid.close());

  it('a sheet name in use gets a number, and formulas follow it', () => {
    expect(receipt.sheets.map((s) => s.name)).toEqual(['Trees 2', 'Weather']);
    expect(sheets(grid)).toEqual(['Trees', 'Trees 2', 'Weather']);
    expect(grid.cell('Weather', 2, 1)?.f).toBe("=COUNTA('Trees 2'!$A$3:$A$4)");
    expect(grid.shown('Weather', 2, 1)).toBe(2);
  });

  it('live formulas are calculated by our own functions, forward references too', () => {
    expect(grid.cell('Trees 2', 2, 2)?.f).toBe('=SOAK.TREE_DEMAND(Weather!$B$2,10)');
    const [first, second] = [2, 3].map((row) => grid.shown('Trees 2', row, 2) as number);
    expect(first).toBeGreaterThan(0);
    expect(second! / first!).toBeCloseTo(1.21, 9);
  });

  it('text that looks like a formula is text, dates are dates, hidden columns hidden', () => {
    expect(grid.cell('Trees 2', 2, 0)).toMatchObject({ v: '=T1', t: 1 });
    expect(grid.cell('Trees 2', 2, 0)?.f).toBeUndefined();
    expect(grid.style('Trees 2', 2, 0).n?.pattern).toBe('@');
    expect(grid.style('Trees 2', 2, 1).n?.pattern).toBe('yyyy-mm-dd');
    const { columnData, freeze } = grid.book.workbook().getSheetByName('Trees 2')!.getSheet().getConfig(); // prettier-ignore
    expect(columnData[1]?.hd).toBe(1);
    expect(freeze).toMatchObject({ xSplit: 1, ySplit: 2 });
  });

  it('the sheet that was in front stays there', () => {
    expect(grid.book.workbook().getActiveSheet().getSheetName()).toBe('Trees');
  });

  it('a saved file holds twins and values, never our own formulas, and says so', async () => {
    const { bytes, note } = await wholeWorkbook(grid.book, grid.models, { settings: { draft: '{"a":1}' }, today: TODAY }); // prettier-ignore
    expect(note).toContain('2 cells with SOAK functions hold the spreadsheet');
    expect(note).toContain('1 cell with SOAK functions hold the values they showed');
    const file = await readXlsx(bytes, { readStyles: true });
    expect(file.sheets.map((s) => s.name)).toEqual(['Trees', 'Trees 2', 'Weather']);
    const formulas = file.sheets.flatMap((s) => [...(s.cells?.values() ?? [])].flatMap((c) => c.formula ?? [])); // prettier-ignore
    expect(formulas.filter((f) => f.includes('SOAK'))).toEqual([]);
    const own = file.sheets[0]!;
    expect(own.rows[1]?.[0]).toBe('=mine');
    expect(own.rows[1]?.[1]).toBe(grid.shown('Trees', 1, 1));
    expect(own.cells?.get('1,2')?.formula).toBe('SUM(D2,1)');
    expect(own.rows[1]?.[3]).toBeInstanceOf(Date);
    const written = file.sheets[1]!;
    expect(written.cells?.get('2,2')?.formula).toContain('PI()/4');
    expect(written.cells?.get('2,2')?.formulaResult).toBe(grid.shown('Trees 2', 2, 2));
    expect(written.tables?.map((t) => t.name)).toEqual(['Trees']);
    expect(written.dataValidations).toHaveLength(1);
    expect((await readFile('saved.xlsx', bytes)).settings).toEqual({ draft: '{"a":1}' });
  });

  it('a sheet whose rows were moved is saved as it stands, without its table', async () => {
    grid.book.workbook().getSheetByName('Trees 2')!.insertRowsBefore(0, 1);
    const { bytes } = await wholeWorkbook(grid.book, grid.models, { settings: {}, today: TODAY });
    const moved = (await readXlsx(bytes)).sheets[1]!;
    expect(moved.rows[3]?.[0]).toBe('=T1');
    expect(moved.tables ?? []).toEqual([]);
  });

  it('a formula goes into a blank cell only', async () => {
    const place = { sheetId: 'Trees', row: 8, column: 3 };
    expect(await insertFormula(grid.book, '=SOAK.TREE_DEMAND(0.25,12)', place)).toMatchObject({
      address: 'D9',
      error: '',
    });
    expect(grid.shown('Trees', 8, 3)).toBe(grid.shown('Trees', 1, 1));
    await expect(insertFormula(grid.book, '=1', place)).rejects.toThrow('D9 is not blank');
    await expect(insertFormula(grid.book, '=1', undefined)).rejects.toThrow('no cell is chosen');
  });

  it('a formula that shows an error is taken back, and the cell is as it was', async () => {
    const place = { sheetId: 'Trees', row: 10, column: 3 };
    const wish = { format: '0.0' };
    expect(await insertFormula(grid.book, '=SOAK.TREE_DEMAND(9,12)', place, wish)).toMatchObject({
      address: 'D11',
      error: '#VALUE!',
    });
    expect(grid.shown('Trees', 10, 3)).toBe(null);
    expect(grid.cell('Trees', 10, 3)?.f ?? '').toBe('');
    expect(cellValues(grid.book, 'D9:D11', 'Trees')).toEqual([[grid.shown('Trees', 8, 3)], [null], [null]]); // prettier-ignore
    expect(blankCells(grid.book, { rows: 1, columns: 1 }, 'Trees', 'D9')[0]).toBe('D10');
  });

  it('rows are added below a list, which is made where there is none', async () => {
    const header = ['Date', 'Tree', 'Water (gal)'];
    expect(await appendRow(grid.book, 'Log', header, [TODAY, '=T1', 12])).toBe(2);
    expect(await appendRow(grid.book, 'Log', header, [TODAY + 1, 'T2', null])).toBe(3);
    expect([0, 1, 2].map((row) => grid.shown('Log', row, 1))).toEqual(['Tree', '=T1', 'T2']);
    expect(grid.cell('Log', 1, 1)?.f).toBeUndefined();
    expect(grid.style('Log', 1, 0).n?.pattern).toBe('yyyy-mm-dd');
    expect(await repair(grid.book)).toBe(0);
  });

  it('taking a receipt away leaves the rest', () => {
    grid.models.remove(receipt);
    expect(sheets(grid)).toEqual(['Trees', 'Log']);
    expect(grid.book.workbook().getDefinedNames()).toEqual([]);
  });

  it('written again in its place, names and places are the old ones; what points there from other sheets follows', async () => {
    const own = grid.book.workbook().getSheetByName('Trees')!;
    const first = await grid.models.write(invented(), writing(false));
    const applied = grid.book.calculated();
    own.getRange(12, 0).setValue({ f: '=Weather!B2*4' });
    await applied;
    expect(grid.shown('Trees', 12, 0)).toBe(1);
    const model = invented();
    const [, weather] = model.sheets;
    const table = weather!.blocks[0]!;
    if (table.kind === 'table') table.rows[0] = ['ET0 (in/day)', 0.5];
    const second = await grid.models.replace(first, model, writing(true));
    expect(second.sheets.map((s) => s.name)).toEqual(['Trees 2', 'Weather']);
    expect(sheets(grid)).toEqual(['Trees', 'Log', 'Trees 2', 'Weather']);
    expect(second.names).toEqual(['Peak']);
    expect(grid.cell('Trees 2', 2, 2)?.f).toContain('SOAK.');
    expect(grid.shown('Weather', 1, 1)).toBe(0.5);
    expect(grid.shown('Trees', 12, 0)).toBe(2);
    grid.models.remove(second);
  });

  it('a stop while it is written in the place of another leaves that as it was, with what was typed into it', async () => {
    const first = await grid.models.write(invented(), writing(true));
    const typed = grid.book.calculated();
    grid.book.workbook().getSheetByName('Weather')!.getRange(1, 1).setValue(0.5);
    await typed;
    const seen = () => [sheets(grid), [2, 3].flatMap((row) => [0, 1, 2].map((c) => [grid.cell('Trees 2', row, c)?.f, grid.shown('Trees 2', row, c)])), grid.book.workbook().getDefinedNames().map((n) => n.getName())];
    const before = seen();
    grid.book.workbook().setActiveSheet(grid.book.workbook().getSheetByName('Weather')!);
    const signal = { aborted: false };
    const stopped = grid.models.replace(first, invented(), {
      live: true,
      signal,
      onProgress: (done) => void (signal.aborted = done === 1),
    });
    await expect(stopped).rejects.toThrow('writing was stopped');
    expect(seen()).toEqual(before);
    expect(grid.book.workbook().getActiveSheet().getSheetName()).toBe('Weather');
    // and its formulas are still formulas
    const again = grid.book.calculated();
    grid.book.workbook().getSheetByName('Weather')!.getRange(1, 1).setValue(0.25);
    await again;
    expect(grid.shown('Trees 2', 2, 2)).toBeCloseTo((before[1] as [string, number][])[2]![1] / 2, 9);
    const { bytes } = await wholeWorkbook(grid.book, grid.models, { settings: {}, today: TODAY });
    expect((await readXlsx(bytes)).sheets.find((s) => s.name === 'Trees 2')!.tables).toHaveLength(1);
    grid.models.remove(first);
    expect(sheets(grid)).toEqual(['Trees', 'Log']);
  }); // prettier-ignore

  it('a stop takes away what was written', async () => {
    const signal = { aborted: false };
    const seen: number[] = [];
    const stopped = grid.models.write(invented(), {
      live: false,
      signal,
      onProgress: (done) => {
        seen.push(done);
        signal.aborted = done === 1;
      },
    });
    await expect(stopped).rejects.toThrow('writing was stopped');
    expect(seen).toEqual([0, 1]);
    expect(sheets(grid)).toEqual(['Trees', 'Log']);
  });
});

it('nothing of a receipt that was taken away stays in the grid’s index of what refers to what', async () => {
  const grid = openGrid({ Trees: { 0: { 0: { v: 'Tag', t: 1 } } } });
  const receipt = await grid.models.write(invented(), writing(true));
  const referring = () => receipt.sheets.map(({ key }) => grid.referring(key));
  expect(referring()).toEqual([1, 2]);
  grid.models.remove(receipt);
  expect(referring()).toEqual([0, 0]);
  grid.close();
}, SLOW); // prettier-ignore

/** A sheet without a formula, and one that looks at it: at a cell, at a range, and wrongly by one of our functions. */
function lookedAt(): WorkbookModel {
  const { sheets: _two, ...rest } = invented();
  const site = new SheetDraft('Site', 'Site');
  site.table('Site', [{ key: 'value', header: 'Value', width: 12, style: 'input' }], 2, (i) => [i]);
  const sums = new SheetDraft('Sums', 'Sums');
  const sum = (formula: string) => ({ value: null, formula });
  const formulas = ['Site!$A$2+1', 'SUM(Site!$A$2:$A$3)', 'SOAK.TREE_DEMAND(0.25,-Site!$A$3)'];
  sums.table('Sums', [{ key: 'sum', header: 'Sum', width: 12 }], 3, (i) => [sum(formulas[i]!)]);
  return { ...rest, sheets: [site.done(), sums.done()], names: {} };
}

it('sheets written and taken away ten times leave no place in the index, no sentence and no model', async () => {
  const grid = openGrid({ Trees: { 0: { 0: { f: '=1+1' } }, 1: { 0: { f: '=A1*2' } } } });
  await grid.book.calculated();
  for (let i = 0; i < 10; i++) {
    const receipt = await grid.models.write(lookedAt(), writing(false));
    const [site, sums] = receipt.sheets.map(({ key }) => key);
    expect(grid.shown('Sums', 1, 0)).toBe(1);
    expect(grid.shown('Sums', 3, 0)).toBe('#VALUE!');
    const shown = { code: '#VALUE!', formula: grid.cell('Sums', 3, 0)!.f! };
    expect(grid.troubles.of(sums!, 3, 0, shown)?.message).toContain('canopy');
    expect(grid.indexed()).toContain(site);
    grid.models.remove(receipt);
    expect(grid.troubles.of(sums!, 3, 0, shown)).toBeUndefined();
    expect(grid.indexed()).toEqual(['Trees']);
    expect(grid.models.models().size).toBe(0);
  }
  grid.close();
}, SLOW); // prettier-ignore

it('a person’s formula that looks at a sheet without formulas follows the sheet that takes its place', async () => {
  const grid = openGrid({ Trees: { 0: { 0: { f: '=1+1' } } } });
  const first = await grid.models.write(lookedAt(), writing(false));
  const entered = grid.book.calculated();
  grid.book.workbook().getSheetByName('Trees')!.getRange('B1').setValue({ f: '=Site!A3+1' });
  await entered;
  expect(grid.shown('Trees', 0, 1)).toBe(2);
  await grid.models.replace(first, lookedAt(), writing(false));
  const changed = grid.book.calculated();
  grid.book.workbook().getSheetByName('Site')!.getRange('A3').setValue(7);
  await changed;
  expect(grid.shown('Trees', 0, 1)).toBe(8);
  grid.close();
}, SLOW); // prettier-ignore
