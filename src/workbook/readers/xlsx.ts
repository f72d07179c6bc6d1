/** Workbooks (.xlsx) to cells. Dates become serial numbers, with a set of the places that were dates. */
import { readXlsx, type CellValue } from 'hucre/xlsx';
import { Problem } from '../../engine/problems.js';
import { isBlank, type Cell } from '../../tables/cells.js';

/** Largest workbook that is read [bytes]. */
export const LARGEST_WORKBOOK = 64 * 1024 * 1024;
const MS_PER_DAY = 86_400_000;
const UNIX_EPOCH_SERIAL = 25569;

export interface SheetCells {
  name: string;
  cells: Cell[][];
  /** "row,column", 0-based, of the cells shown as dates */
  dateCells: Set<string>;
}

/** What the library's error names mean to the person with the file. */
const TROUBLES: readonly (readonly [RegExp, string])[] = [
  [/encrypt|decrypt|password/i, 'the workbook is protected by a password; open it, save a copy without password, and use the copy'],
  [/zip|inflate|deflate|central directory|truncat|end of|signature|crc/i, 'the workbook is cut short or damaged; open it where it still opens and save it again as .xlsx'],
  [/./s, 'the file could not be read as a workbook; save it again as .xlsx or as .csv'],
]; // prettier-ignore

function serial(value: Date): number {
  const s = value.getTime() / MS_PER_DAY + UNIX_EPOCH_SERIAL;
  return Math.abs(s - Math.round(s)) < 1e-9 ? Math.round(s) : s;
}

/**
 * Every sheet of a workbook, as cells.
 * @throws Problem with a sentence when the bytes are too many, encrypted, cut short or not a workbook
 */
export async function readXlsxSheets(bytes: Uint8Array): Promise<SheetCells[]> {
  if (bytes.length > LARGEST_WORKBOOK)
    throw new Problem(
      `the workbook has ${Math.round(bytes.length / 1048576)} MB; up to ${LARGEST_WORKBOOK / 1048576} MB are read`,
    );
  let sheets: { name: string; rows: CellValue[][] }[];
  try {
    sheets = (await readXlsx(bytes)).sheets;
  } catch (error) {
    const said = error instanceof Error ? `${error.name} ${error.message}` : String(error);
    throw new Problem(TROUBLES.find(([pattern]) => pattern.test(said))?.[1] ?? said);
  }
  return sheets.map(({ name, rows }) => {
    const dateCells = new Set<string>();
    const cells = rows.map((row, r) =>
      Array.from(row, (value, c): Cell => {
        if (value instanceof Date) {
          if (Number.isNaN(value.getTime())) return null;
          dateCells.add(`${r},${c}`);
          return serial(value);
        }
        return value ?? null;
      }),
    );
    while (cells.length > 0 && (cells.at(-1) ?? []).every((c) => isBlank(c))) cells.pop();
    return { name, cells, dateCells };
  });
}
