/** How large a file may be. Beyond these a page would stand still or run out of memory; a sentence says so instead. */
import { Problem } from '../../engine/problems.js';

export const MB = 1024 * 1024;
/** Largest file [bytes]. */
export const LARGEST_FILE = 50 * MB;
/** Most that the parts of a workbook that are read may unpack to [bytes]. */
export const LARGEST_UNPACKED = 400 * MB;
/** Parts below this may unpack to anything: small sheets of like rows pack very well [bytes]. */
export const SMALL_PART = 8 * MB;
/** Times a larger part may grow when unpacked [-]; sheets grow 5 to 40 times. */
export const MOST_GROWTH = 200;
/** Most rows of a sheet, as spreadsheet programs have them. */
export const MOST_ROWS = 1_048_576;
export const MOST_COLUMNS = 16_384;
/** Most cells of a file with something in them. */
export const MOST_FILLED = 2_000_000;
/** Most cells of a file, counting blank ones between filled ones of a row. */
export const MOST_CELLS = 8_000_000;

export const count = (n: number): string => n.toLocaleString('en-US');
export const megabytes = (bytes: number): string => `${count(Math.ceil(bytes / MB))} MB`;

/** @throws Problem for a file beyond the size that is read */
export function checkSize(bytes: { readonly length: number }): void {
  if (bytes.length > LARGEST_FILE)
    throw new Problem(
      `the file has ${megabytes(bytes.length)}; up to ${megabytes(LARGEST_FILE)} are read, so split it or take out what is no table`,
    );
}

/** Counts cells while they are read, over all sheets of a file. */
export class CellCount {
  private filled = 0;
  private cells = 0;

  /**
   * @param sheet - its name, for the sentence
   * @param filled - cells of a row with something in them
   * @param width - cells of the row up to the last filled one
   * @throws Problem when there are too many
   */
  row(sheet: string, filled: number, width: number): void {
    this.filled += filled;
    this.cells += width;
    const where = sheet === '' ? 'the table' : `sheet "${sheet}"`;
    if (this.filled > MOST_FILLED)
      throw new Problem(
        `${where} goes beyond ${count(MOST_FILLED)} filled cells, the most that are read of a file; keep the columns that are needed, or split it`,
      );
    if (this.cells > MOST_CELLS)
      throw new Problem(
        `${where} is spread over more than ${count(MOST_CELLS)} cells, most of them blank; move its columns together`,
      );
  }
}
