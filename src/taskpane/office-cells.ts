/** Cells of the open workbook, read in pieces that fit one answer of the spreadsheet program. */
import { Problem } from '../engine/problems.js';
import { hostError, hostProblem } from '../workbook/writers/excel-words.js';

/** A stretch of whole rows of a sheet's used cells; 0-based. */
export interface Piece {
  sheet: Excel.Worksheet;
  row: number;
  column: number;
  rows: number;
  columns: number;
}

export interface PieceRead extends Piece {
  values: unknown[][];
  formulas: unknown[][];
  /** number format codes; empty where they were not asked for */
  formats: unknown[][];
}

/** Cells read at once: three things of each, a hundred characters long, stay below the five megabytes of an answer. */
export const CELLS_AT_ONCE = 15_000;

/** A run of the program's library; what it refuses becomes a sentence. @param where - "reading the sheet" */
export async function ask<T>(
  where: string,
  work: (context: Excel.RequestContext) => Promise<T>,
): Promise<T> {
  try {
    return await Excel.run(work);
  } catch (error) {
    throw hostProblem(error, where);
  }
}

/** Used cells of sheets, cut into pieces. One sync. */
export async function piecesOf(
  context: Excel.RequestContext,
  sheets: readonly Excel.Worksheet[],
): Promise<Piece[]> {
  const used = sheets.map((sheet) => {
    const range = sheet.getUsedRangeOrNullObject(true);
    range.load('rowIndex, columnIndex, rowCount, columnCount');
    return { sheet, range };
  });
  await context.sync();
  return used.flatMap(({ sheet, range }) => {
    if (range.isNullObject) return [];
    const { rowIndex, columnIndex: column, rowCount, columnCount: columns } = range;
    const each = Math.max(1, Math.floor(CELLS_AT_ONCE / columns));
    return Array.from({ length: Math.ceil(rowCount / each) }, (_, i): Piece => {
      const row = rowIndex + i * each;
      return { sheet, row, column, rows: Math.min(each, rowIndex + rowCount - row), columns };
    });
  });
}

/** Pieces put together so that each lot fits one answer. */
function lots(pieces: readonly Piece[]): Piece[][] {
  const out: Piece[][] = [];
  let cells = Infinity;
  for (const piece of pieces) {
    const own = piece.rows * piece.columns;
    if (cells + own > CELLS_AT_ONCE) {
      out.push([]);
      cells = 0;
    }
    out.at(-1)!.push(piece);
    cells += own;
  }
  return out;
}

async function readLot(
  context: Excel.RequestContext,
  pieces: readonly Piece[],
  formats: boolean,
): Promise<PieceRead[]> {
  const asked = pieces.map((piece) => {
    const { sheet, row, column, rows, columns } = piece;
    const range = sheet.getRangeByIndexes(row, column, rows, columns);
    range.load('values, formulas');
    if (formats) range.load('numberFormat');
    return { piece, range };
  });
  await context.sync();
  return asked.map(({ piece, range }) => ({
    ...piece,
    values: range.values as unknown[][],
    formulas: range.formulas as unknown[][],
    formats: formats ? (range.numberFormat as unknown[][]) : [],
  }));
}

const halves = (piece: Piece): Piece[] => {
  const first = Math.ceil(piece.rows / 2);
  return [
    { ...piece, rows: first },
    { ...piece, row: piece.row + first, rows: piece.rows - first },
  ].filter((p) => p.rows > 0);
};

/** As `readLot`; where long texts make an answer too large, in halves. */
async function readFitting(
  context: Excel.RequestContext,
  lot: readonly Piece[],
  formats: boolean,
): Promise<PieceRead[]> {
  try {
    return await readLot(context, lot, formats);
  } catch (error) {
    const smaller = lot.length > 1 || lot[0]!.rows > 1;
    if (hostError(error)?.code !== 'ResponsePayloadSizeLimitExceeded' || !smaller) throw error;
    return readPieces(context, lot.flatMap(halves), formats, 1);
  }
}

/** Reads pieces, one sync a lot. The number of syncs follows the number of cells, not of sheets or rows. */
export async function readPieces(
  context: Excel.RequestContext,
  pieces: readonly Piece[],
  formats: boolean,
  most = Infinity,
): Promise<PieceRead[]> {
  const all = most === 1 ? pieces.map((piece) => [piece]) : lots(pieces);
  const out: PieceRead[] = [];
  for (const lot of all) out.push(...(await readFitting(context, lot, formats)));
  return out;
}

/** The sheet of that name, without one the sheet in front. @throws Problem if it is gone */
export async function sheetNamed(
  context: Excel.RequestContext,
  name: string | undefined,
): Promise<Excel.Worksheet> {
  const { worksheets } = context.workbook;
  const sheet =
    name === undefined ? worksheets.getActiveWorksheet() : worksheets.getItemOrNullObject(name);
  sheet.load('name');
  await context.sync();
  if (sheet.isNullObject) throw new Problem(`There is no sheet “${name}” any more.`);
  return sheet;
}
