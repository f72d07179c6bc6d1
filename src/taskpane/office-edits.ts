/** Small edits the panel asks for in the spreadsheet program. */
import type { Cell } from '../tables/cells.js';
import { FORMATS, letter } from '../workbook/model.js';
import { asText } from '../workbook/writers/excel-text.js';
import { ask, piecesOf, readPieces, type PieceRead } from './office-cells.js';

const handed = (value: Cell): Cell => (typeof value === 'string' ? asText(value) : value);
/** Rows down to the last with anything in it: cells beside may reach further down. */
const filledRows = (values: readonly (readonly Cell[])[]): number =>
  values.findLastIndex((row) => row.some((value) => value !== '')) + 1;
const isDateHeader = (header: string | undefined): boolean =>
  /\b(?:date|day|fecha)\b/i.test(header ?? '');

/** Writes cells below the last filled row, making the sheet where there is none; gives the 1-based row. */
export const appendRow = (
  name: string,
  header: readonly string[],
  row: readonly Cell[],
): Promise<number> =>
  ask(`writing to the sheet “${name}”`, async (context) => {
    const { worksheets } = context.workbook;
    const columns = Math.max(header.length, row.length);
    const found = worksheets.getItemOrNullObject(name);
    const used = found.getRange(`A:${letter(columns - 1)}`).getUsedRangeOrNullObject(true);
    used.load('rowIndex, values');
    await context.sync();
    const sheet = found.isNullObject ? worksheets.add(name) : found;
    if (used.isNullObject) {
      const heads = sheet.getRangeByIndexes(0, 0, 1, header.length);
      heads.formulas = [header.map(asText)];
      heads.format.font.bold = true;
    }
    const at = used.isNullObject ? 1 : used.rowIndex + filledRows(used.values as Cell[][]);
    const cells = sheet.getRangeByIndexes(at, 0, 1, row.length);
    // null leaves a format as it is
    cells.numberFormat = [
      row.map((value, i) =>
        typeof value === 'number' && isDateHeader(header[i]) ? FORMATS.date : null,
      ),
    ];
    cells.formulas = [row.map(handed)];
    await context.sync();
    return at + 1;
  });

const OWN = /\bSOAK\.|_xldudf_SOAK_/i;
/** As files store our functions: dots turned to underscores. */
const STORED = /_xldudf_SOAK_/gi;
const BROKEN = new Set(['#NAME?', '#BUSY!']);

/** Columns of a piece with broken cells below each other, to be entered again. */
function enterAgain({ sheet, row, column, values, formulas, columns }: PieceRead): number {
  let count = 0;
  const brokenAt = (r: number, c: number): boolean =>
    BROKEN.has(String(values[r]?.[c])) && OWN.test(String(formulas[r]?.[c]));
  for (let c = 0; c < columns; c++)
    for (let r = 0; r < values.length; r++) {
      if (!brokenAt(r, c)) continue;
      let to = r;
      while (brokenAt(to + 1, c)) to++;
      const again = formulas
        .slice(r, to + 1)
        .map((line) => [String(line[c]).replace(STORED, 'SOAK.')]);
      sheet.getRangeByIndexes(row + r, column + c, again.length, 1).formulas = again;
      count += again.length;
      r = to;
    }
  return count;
}

/** Enters our own formulas again where they show a name error or wait for ever; gives how many. */
export const repair = (): Promise<number> =>
  ask('entering the formulas again', async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load('items/name');
    await context.sync();
    const pieces = await readPieces(context, await piecesOf(context, worksheets.items), false);
    const count = pieces.reduce((sum, piece) => sum + enterAgain(piece), 0);
    if (count > 0) await context.sync();
    return count;
  });
