/** A formula into a cell of the spreadsheet program: where it may go, what it shows there, and back again where that is an error. */
import { Problem } from '../engine/problems.js';
import type { Cell } from '../tables/cells.js';
import { FORMATS } from '../workbook/model.js';
import { addressOf, blankNear, NEAR, placeOf, SHEET_SIZE, type Size } from './blank-cells.js';
import { ERROR_VALUE, MOST_CELLS, WAITING_VALUE, type Inserted, type InsertWish } from './host.js';
import { ask, sheetNamed } from './office-cells.js';

/** The program works functions of add-ins out after it has taken the formula: so often it is looked again [ms]. */
const LOOK_AGAIN = 150;
const LOOKS = 30;

const pause = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

async function cellFor(
  context: Excel.RequestContext,
  at: InsertWish['at'],
): Promise<{ cell: Excel.Range; sheet: string; address: string; before: string; format: string }> {
  const sheet = await sheetNamed(context, at?.sheet);
  const cell = at ? sheet.getRange(at.address) : context.workbook.getActiveCell();
  cell.load('formulas, numberFormat, rowIndex, columnIndex');
  await context.sync();
  return {
    cell,
    sheet: sheet.name,
    address: addressOf({ row: cell.rowIndex, column: cell.columnIndex }),
    before: String((cell.formulas as unknown[][])[0]?.[0] ?? ''),
    format: String((cell.numberFormat as unknown[][])[0]?.[0] ?? FORMATS.general),
  };
}

/** What the cell shows when the program has worked it out, "" if it takes too long. */
async function shownBy(
  context: Excel.RequestContext,
  cell: Excel.Range,
  looks = LOOKS,
): Promise<{ value: string; text: string }> {
  cell.load('values, text');
  await context.sync();
  const value = String((cell.values as unknown[][])[0]?.[0] ?? '');
  if (!WAITING_VALUE.test(value)) return { value, text: cell.text[0]?.[0] ?? '' };
  if (looks <= 1) return { value: '', text: '' };
  await pause(LOOK_AGAIN);
  return shownBy(context, cell, looks - 1);
}

/** Puts a formula into a blank cell; one that shows an error is taken back. */
export const insertFormula = (
  formula: string,
  { at, format = FORMATS.general, over }: InsertWish = {},
): Promise<Inserted> =>
  ask('writing the formula', async (context) => {
    const { cell, sheet, address, before, format: formatBefore } = await cellFor(context, at);
    if (before !== '' && before !== over)
      throw new Problem(`${address} is not blank; choose a blank cell for the formula`);
    // in a cell formatted as text a formula would stay text
    cell.numberFormat = [[format]];
    cell.formulas = [[formula]];
    const { value, text } = await shownBy(context, cell);
    const error = ERROR_VALUE.test(value) ? value : '';
    if (error !== '') {
      cell.formulas = [[before]];
      cell.numberFormat = [[formatBefore]];
      await context.sync();
    }
    // the program shows the function's own sentence beside the cell, and hands it to nobody
    return { sheet, address, shown: error === '' ? text : '', error, trouble: '' };
  });

/** Values of a cell or a block of cells, blank ones null. */
export const cellValues = (range: string, name?: string): Promise<Cell[][]> =>
  ask('reading cells', async (context) => {
    const sheet = await sheetNamed(context, name);
    const block = sheet.getRange(range);
    block.load('cellCount');
    await context.sync();
    if (block.cellCount > MOST_CELLS)
      throw new Problem(`${range} has more than ${MOST_CELLS} cells, too many to try it here`);
    block.load('values');
    await context.sync();
    return (block.values as Cell[][]).map((row) => row.map((cell) => (cell === '' ? null : cell)));
  });

/** A cell two columns right of everything on a sheet, in its first row; the first cell of an empty one. */
async function besideAll(context: Excel.RequestContext, sheet: Excel.Worksheet): Promise<string[]> {
  const used = sheet.getRange().getUsedRangeOrNullObject(true);
  used.load('columnIndex, columnCount');
  await context.sync();
  const column = used.isNullObject ? 0 : used.columnIndex + used.columnCount + 1;
  return column < SHEET_SIZE.columns ? [addressOf({ row: 0, column })] : [];
}

/** Blank cells near a cell, or beside everything on a sheet. */
export const blankCells = (size: Size, name: string, address?: string): Promise<string[]> =>
  ask('looking for a blank cell', async (context) => {
    const sheet = await sheetNamed(context, name);
    if (address === undefined) return besideAll(context, sheet);
    const { row, column } = placeOf(address);
    const rows = Math.min(NEAR.rows + size.rows, SHEET_SIZE.rows - row);
    const columns = Math.min(NEAR.columns + size.columns, SHEET_SIZE.columns - column);
    const down = sheet.getRangeByIndexes(row, column, rows, Math.min(size.columns, columns));
    const right = sheet.getRangeByIndexes(row, column, Math.min(size.rows, rows), columns);
    for (const strip of [down, right]) strip.load('formulas');
    await context.sync();
    const strips = [down, right].map((strip) => strip.formulas as unknown[][]);
    return blankNear({ row, column }, size, (r, c) =>
      strips.some((cells) => String(cells[r - row]?.[c - column] ?? '') !== ''),
    );
  });
