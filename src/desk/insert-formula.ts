/** A formula into a cell of the grid: where it may go, what it shows there, and back again where that is an error. */
import type { ICellData, Nullable } from '@univerjs/presets';
import type { FWorksheet } from '@univerjs/presets/preset-sheets-core';
import { Problem } from '../engine/problems.js';
import { isBlank, type Cell } from '../tables/cells.js';
import { addressOf, blankNear, placeOf, SHEET_SIZE, type Size } from '../taskpane/blank-cells.js';
import { ERROR_VALUE, MOST_CELLS, type Inserted, type InsertWish } from '../taskpane/host.js';
import { cornersOf } from '../taskpane/sheets-read.js';
import { FORMATS } from '../workbook/model.js';
import { eachCell, formulaIn, shownIn, type OpenBook } from './open-book.js';
import { makeRoom, type Place } from './sheet-edits.js';

/** The sentence behind an error of a cell, "" where there is none. */
export type TroubleIn = (
  sheet: FWorksheet,
  row: number,
  column: number,
  cell: ICellData | null,
) => string;

function sheetNamed(book: OpenBook, name: string): FWorksheet {
  const sheet = book.workbook().getSheetByName(name);
  if (sheet === null) throw new Problem(`There is no sheet “${name}” any more.`);
  return sheet;
}

function placeFor(
  book: OpenBook,
  at: InsertWish['at'],
  chosen: Place | undefined,
): { sheet: FWorksheet; row: number; column: number } {
  if (at) return { sheet: sheetNamed(book, at.sheet), ...placeOf(at.address) };
  const sheet = chosen && book.workbook().getSheetBySheetId(chosen.sheetId);
  if (!chosen || !sheet)
    throw new Problem('no cell is chosen; click the blank cell the formula is to go into');
  return { sheet, row: chosen.row, column: chosen.column };
}

const isFilled = (sheet: FWorksheet, row: number, column: number): boolean =>
  formulaIn(sheet, row, column) !== '' ||
  !isBlank(shownIn(sheet.getSheet().getCellRaw(row, column)));

/**
 * Puts a formula into a blank cell; one that shows an error is taken back.
 *
 * @param formula - with its equals sign
 * @param chosen - the chosen cell, undefined when none was chosen yet
 * @throws Problem if no cell is chosen or it is not blank
 */
export async function insertFormula(
  book: OpenBook,
  formula: string,
  chosen: Place | undefined,
  { at, format = FORMATS.general, over }: InsertWish = {},
  troubleIn: TroubleIn = () => '',
): Promise<Inserted> {
  const { sheet, row, column } = placeFor(book, at, chosen);
  const address = addressOf({ row, column });
  const before = formulaIn(sheet, row, column);
  if (isFilled(sheet, row, column) && (before === '' || before !== over))
    throw new Problem(`${address} is not blank; choose a blank cell for the formula`);
  makeRoom(sheet, row, column);
  const range = sheet.getRange(row, column);
  const formatBefore = range.getNumberFormats()[0]?.[0] ?? '';
  const applied = book.calculated();
  range.setValue({ f: formula, s: { n: { pattern: format } } });
  await applied;
  const cell = sheet.getSheet().getCellRaw(row, column);
  const shown = String(shownIn(cell) ?? '');
  const named = { sheet: sheet.getSheetName(), address };
  if (!ERROR_VALUE.test(shown))
    return { ...named, shown: range.getDisplayValue(), error: '', trouble: '' };
  const trouble = troubleIn(sheet, row, column, cell ?? null);
  const pattern = formatBefore === '' ? FORMATS.general : formatBefore;
  range.setValue({ f: before === '' ? null : before, v: null, t: null, s: { n: { pattern } } });
  return { ...named, shown: '', error: shown, trouble };
}

/** Values of a cell or a block of cells, blank ones null. */
export function cellValues(book: OpenBook, range: string, name?: string): Cell[][] {
  const workbook = book.workbook();
  const sheet = name === undefined ? workbook.getActiveSheet() : sheetNamed(book, name);
  const block = cornersOf(range.includes(':') ? range : `${range}:${range}`);
  if (!block) throw new Problem(`"${range}" is not a range of cells; accepted is A1:H60`);
  const [rows, columns] = [block.bottom - block.top + 1, block.right - block.left + 1];
  if (rows * columns > MOST_CELLS)
    throw new Problem(`${range} has more than ${MOST_CELLS} cells, too many to try it here`);
  const inner = sheet.getSheet();
  const spills = book.spills(sheet.getSheetId());
  const cellAt = (row: number, column: number): Nullable<ICellData> =>
    row < sheet.getMaxRows() && column < sheet.getMaxColumns()
      ? (spills.map(({ cells }) => cells.get(`${row},${column}`)).find((spilled) => spilled) ??
        inner.getCellRaw(row, column))
      : null;
  return Array.from({ length: rows }, (_, r) =>
    Array.from({ length: columns }, (_cell, c) => {
      const shown = shownIn(cellAt(block.top + r, block.left + c));
      return isBlank(shown) ? null : shown;
    }),
  );
}

/** Blank cells near a cell, or one two columns right of everything on a sheet. */
export function blankCells(book: OpenBook, size: Size, name: string, address?: string): string[] {
  const sheet = sheetNamed(book, name);
  if (address !== undefined)
    return blankNear(placeOf(address), size, (row, column) => isFilled(sheet, row, column));
  let last = -2;
  eachCell(sheet, (row, column) => {
    if (isFilled(sheet, row, column)) last = Math.max(last, column);
  });
  return last + 2 < SHEET_SIZE.columns ? [addressOf({ row: 0, column: last + 2 })] : [];
}
