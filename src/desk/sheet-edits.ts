/** Small edits the panel asks for: a row below a list, formulas entered again. */
import type { ICellData } from '@univerjs/presets';
import type { FWorksheet } from '@univerjs/presets/preset-sheets-core';
import { Problem } from '../engine/problems.js';
import { isBlank, text, type Cell } from '../tables/cells.js';
import { formulasStay } from '../taskpane/formulas-stay.js';
import type { HostEdit } from '../taskpane/host.js';
import { FORMATS, looksLikeFormula } from '../workbook/model.js';
import type { CellChange } from '../workbook/order-sheet.js';
import { eachCell, formulaIn, isOwnFormula, shownIn, type OpenBook } from './open-book.js';

/** Rows and columns the sheet lacks for a cell. */
export function makeRoom(sheet: FWorksheet, row: number, column: number): void {
  const rows = row + 1 - sheet.getMaxRows();
  const columns = column + 1 - sheet.getMaxColumns();
  if (rows > 0) sheet.insertRowsAfter(sheet.getMaxRows() - 1, rows);
  if (columns > 0) sheet.insertColumnsAfter(sheet.getMaxColumns() - 1, columns);
}

export interface Place {
  sheetId: string;
  /** from 0 */
  row: number;
  column: number;
}

const TEXT_CELL = 1;
const NUMBER_CELL = 2;
const BOOLEAN_CELL = 3;
const BOLD = 1;

function cellData(value: Cell, date: boolean): ICellData {
  if (value === null) return {};
  if (typeof value === 'boolean') return { v: value ? 1 : 0, t: BOOLEAN_CELL };
  if (typeof value === 'number')
    return { v: value, t: NUMBER_CELL, ...(date && { s: { n: { pattern: FORMATS.date } } }) };
  const asText = looksLikeFormula(value) && { s: { n: { pattern: FORMATS.text } } };
  return { v: value, t: TEXT_CELL, ...asText };
}

/** 0-based row below the last one with anything in the first columns. */
function rowBelow(sheet: FWorksheet, columns: number): number {
  let last = -1;
  eachCell(sheet, (row, column, cell) => {
    if (column < columns && row > last && ((cell.f ?? cell.si) || !isBlank(shownIn(cell))))
      last = row;
  });
  return last + 1;
}

const isDateHeader = (header: string | undefined): boolean =>
  /\b(?:date|day|fecha)\b/i.test(header ?? '');

/** Writes cells below a sheet's last filled row, making the sheet where there is none; gives the 1-based row. */
export async function appendRow(
  book: OpenBook,
  name: string,
  header: readonly string[],
  values: readonly Cell[],
): Promise<number> {
  const workbook = book.workbook();
  const front = workbook.getActiveSheet().getSheetId();
  const found = workbook.getSheetByName(name);
  const sheet = found ?? workbook.insertSheet(name, { index: workbook.getSheets().length });
  const applied = book.calculated();
  if (found === null) {
    const heads = header.map((text): ICellData => ({ v: text, t: TEXT_CELL, s: { bl: BOLD } }));
    sheet.getRange(0, 0, 1, header.length).setValues([heads]);
    workbook.setActiveSheet(front);
  }
  const row = rowBelow(sheet, Math.max(header.length, values.length));
  const short = row + 1 - sheet.getMaxRows();
  if (short > 0) sheet.insertRowsAfter(sheet.getMaxRows() - 1, short);
  const cells = values.map((value, i) => cellData(value, isDateHeader(header[i])));
  sheet.getRange(row, 0, 1, values.length).setValues([cells]);
  await applied;
  return row + 1;
}

const BLANK: ICellData = { v: null, f: null, si: null, t: null, p: null };

/** The cell holds what an edit says: its value, or one of our own formulas where that is to go. */
function holds(sheet: FWorksheet, { row, column, was }: HostEdit): boolean {
  const formula = formulaIn(sheet, row, column);
  if (formula !== '') return was !== null && isOwnFormula(formula);
  const shown = shownIn(sheet.getSheet().getCellRaw(row, column));
  return isBlank(was) ? isBlank(shown) : text(shown) === text(was);
}

function editedCell(sheet: FWorksheet, edit: HostEdit, isFirst: boolean): ICellData {
  const { row, column, value, head, formula, filled, format } = edit;
  const style = format === undefined ? {} : { s: { n: { pattern: format } } };
  if (formula !== undefined)
    return { ...((isFirst || !filled) && { f: formula }), ...(filled && { si: filled }), ...style };
  if (value === null) return { ...BLANK, ...(head && { s: null }) };
  const beside = head && column > 0 ? sheet.getSheet().getCellRaw(row, column - 1)?.s : undefined;
  return { ...cellData(value, false), ...(head && { s: beside ?? { bl: BOLD } }), ...style };
}

/** Writes cells that still hold what they are thought to hold; one step to be undone. Gives how many. */
export async function editCells(
  book: OpenBook,
  sheet: FWorksheet,
  edits: readonly HostEdit[],
): Promise<number> {
  const written = edits.filter((edit) => holds(sheet, edit));
  if (written.length === 0) return 0;
  const [rows, columns] = [written.map(({ row }) => row), written.map(({ column }) => column)];
  const most = (all: readonly number[]): number => all.reduce((a, b) => Math.max(a, b));
  const least = (all: readonly number[]): number => all.reduce((a, b) => Math.min(a, b));
  const [endRow, endColumn] = [most(rows), most(columns)];
  makeRoom(sheet, endRow, endColumn);
  const value: Record<number, Record<number, ICellData>> = {};
  const filled = new Set<string>();
  for (const edit of written) {
    const { filled: word = '' } = edit;
    (value[edit.row] ??= {})[edit.column] = editedCell(sheet, edit, !filled.has(word));
    filled.add(word);
  }
  const applied = book.calculated();
  book.run('sheet.command.set-range-values', {
    unitId: book.workbook().getId(),
    subUnitId: sheet.getSheetId(),
    range: { startRow: least(rows), endRow, startColumn: least(columns), endColumn },
    value,
  });
  await applied;
  return written.length;
}

/** Gives single cells other values; what stands around them, and how they look, stays. @throws Problem if there is no such sheet, or one of them holds a formula */
export async function changeCells(
  book: OpenBook,
  name: string,
  changes: readonly CellChange[],
): Promise<void> {
  const sheet = book.workbook().getSheetByName(name);
  if (sheet === null) throw new Problem(`There is no sheet “${name}” any more.`);
  if (changes.length === 0) return;
  formulasStay(
    name,
    changes.filter(({ row, column }) => formulaIn(sheet, row, column) !== ''),
  );
  makeRoom(
    sheet,
    Math.max(...changes.map((c) => c.row)),
    Math.max(...changes.map((c) => c.column)),
  );
  const applied = book.calculated();
  for (const { row, column, value } of changes)
    sheet
      .getRange(row, column)
      .setValue({ v: null, t: null, f: null, si: null, ...cellData(value, false) });
  await applied;
}

/** Enters our own formulas again where they show that their name is not known; gives how many. */
export async function repair(book: OpenBook): Promise<number> {
  const unitId = book.workbook().getId();
  const broken: { subUnitId: string; cellValue: Record<number, Record<number, ICellData>> }[] = [];
  let count = 0;
  for (const sheet of book.workbook().getSheets()) {
    const cellValue: Record<number, Record<number, ICellData>> = {};
    eachCell(sheet, (row, column, cell) => {
      const formula = cell.v === '#NAME?' ? formulaIn(sheet, row, column) : '';
      if (!isOwnFormula(formula)) return;
      (cellValue[row] ??= {})[column] = { f: formula };
      count += 1;
    });
    broken.push({ subUnitId: sheet.getSheetId(), cellValue });
  }
  if (count === 0) return 0;
  const applied = book.calculated();
  for (const each of broken) book.run('sheet.mutation.set-range-values', { unitId, ...each });
  await applied;
  return count;
}
