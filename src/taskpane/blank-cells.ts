/** Blank cells near a cell: where a formula may go when the chosen cell is taken. */
import { letter } from '../workbook/model.js';

/** Cells a result takes. */
export interface Size {
  rows: number;
  columns: number;
}

/** 0-based. */
export interface At {
  row: number;
  column: number;
}

/** How far it is looked down and to the right. */
export const NEAR: Size = { rows: 60, columns: 30 };
/** Of any spreadsheet. */
export const SHEET_SIZE: Size = { rows: 1_048_576, columns: 16_384 };

export const addressOf = ({ row, column }: At): string => `${letter(column)}${row + 1}`;

/** "B3" as a place. @throws Error if it is no address of one cell */
export function placeOf(address: string): At {
  const found = /^([A-Z]{1,3})(\d{1,7})$/.exec(address);
  if (!found) throw new Error(`"${address}" is not the address of a cell`);
  const column = [...found[1]!].reduce((n, sign) => n * 26 + sign.charCodeAt(0) - 64, 0) - 1;
  return { row: Number(found[2]) - 1, column };
}

type IsFilled = (row: number, column: number) => boolean;

function isFree(at: At, { rows, columns }: Size, filled: IsFilled): boolean {
  if (at.row + rows > SHEET_SIZE.rows || at.column + columns > SHEET_SIZE.columns) return false;
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++) if (filled(at.row + r, at.column + c)) return false;
  return true;
}

/**
 * The next blank cell below and the next to the right of a cell, with room for a result.
 *
 * @param filled - asked for cells as far away as `NEAR`, and `size` beyond
 */
export function blankNear(at: At, size: Size, filled: IsFilled): string[] {
  const found = (steps: number, step: (n: number) => At): string[] => {
    for (let n = 1; n <= steps; n++) if (isFree(step(n), size, filled)) return [addressOf(step(n))];
    return [];
  };
  const { row, column } = at;
  return [
    ...found(NEAR.rows, (n) => ({ row: row + n, column })),
    ...found(NEAR.columns, (n) => ({ row, column: column + n })),
  ];
}
