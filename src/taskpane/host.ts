/** What the panel needs of the program it sits in: the desk's grid or the spreadsheet program. */
import type { Cell, Grid } from '../tables/cells.js';

/** The cell a person has chosen, and why it shows an error if it does. */
export interface ChosenCell {
  /** "H2" */
  address: string;
  /** with its equals sign, "" when the cell holds a plain value */
  formula: string;
  shown: string;
  /** the sentence behind an error code, "" when there is none */
  trouble: string;
}

export interface Host {
  /** name of the sheet in front */
  sheetName(): Promise<string>;
  /** names of all sheets, in order */
  openSheets(): Promise<string[]>;
  /** the sheet in front from its first cell, without columns our own functions fill */
  readActiveTable(): Promise<Grid>;
  /** brings a cell into view and chooses it; row and column from 0 */
  showCell(row: number, column: number): Promise<void>;
  /** hands a file to the person */
  saveFile(name: string, bytes: Uint8Array): Promise<void>;
  /** opens a .csv or .xlsx file in front; undefined where the program has its own way */
  openFile?: (name: string, bytes: Uint8Array) => Promise<void>;
  /** calls back when cells of the sheet in front change, or another sheet comes to the front */
  onChange(listener: () => void): void;
  /** calls back with each cell a person chooses */
  onChoose(listener: (cell: ChosenCell) => void): void;
}

const OWN_FORMULA = /\bSOAK\./i;

/**
 * The table without columns that our own functions fill, so that results are never read as
 * measurements. Rows and the order of the other columns stay, their places too.
 */
export function withoutComputed(
  cells: Cell[][],
  formulas: readonly (readonly string[])[],
): Cell[][] {
  const computed = new Set<number>();
  for (const row of formulas) {
    row.forEach((formula, column) => {
      if (OWN_FORMULA.test(formula)) computed.add(column);
    });
  }
  return cells.map((row) => {
    const kept = row.map((cell, column) => (computed.has(column) ? null : cell));
    while (kept.length > 0 && kept.at(-1) === null) kept.pop();
    return kept;
  });
}
