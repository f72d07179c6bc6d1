/** Small edits the panel asks for: a row below a list, formulas entered again. */
import type { ICellData } from '@univerjs/presets';
import type { FWorksheet } from '@univerjs/presets/preset-sheets-core';
import { isBlank, type Cell } from '../tables/cells.js';
import { FORMATS, looksLikeFormula } from '../workbook/model.js';
import { eachCell, formulaIn, isOwnFormula, shownIn, type OpenBook } from './open-book.js';

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
