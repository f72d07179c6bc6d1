/** What the panel needs of the program it sits in: the desk's grid or the spreadsheet program. */
import { isBlank, type Cell, type Grid } from '../tables/cells.js';
import type { WorkbookModel } from '../workbook/model.js';
import type { Keeper } from './keeper.js';

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

/** The cells a person has selected. */
export interface SelectedCells {
  /** name of their sheet */
  sheet: string;
  /** without the sheet: "B3" for one cell, "A1:H60", "A:H" for whole columns, "3:7" for whole rows */
  range: string;
}

/** Said by both hosts where the selection is no block of cells. */
export const NOT_ONE_BLOCK =
  'what is selected is not one block of cells; select one block, the headers and the trees below them';

/** Sheets a build has written, to be taken away again: those and no others. */
export interface Receipt {
  /** the program's own key of each sheet, with the name it got; a name in use was given a number */
  sheets: { key: string; name: string }[];
  /** names of the workbook that the build defined */
  names: string[];
  /** what the program could not take, a sentence each */
  notes?: string[];
}

export interface WriteOptions {
  /** write our own functions where a cell has them, else the spreadsheet's own */
  live: boolean;
  /** sheets written, of all, and the one at work */
  onProgress(done: number, total: number, sheet: string): void;
  signal: { readonly aborted: boolean };
}

export interface Host {
  /** "office": the spreadsheet program; "desk": our own page */
  readonly kind: 'office' | 'desk';
  /** name of the sheet in front */
  sheetName(): Promise<string>;
  /** names of all sheets, in order */
  openSheets(): Promise<string[]>;
  /** every sheet with its key, as receipts have it */
  sheetKeys(): Promise<{ key: string; name: string }[]>;
  /** the sheet in front from its first cell, without columns our own functions fill */
  readActiveTable(): Promise<Grid>;
  /** a sheet by its name, from its first cell; empty when there is no such sheet */
  readTable(sheet: string): Promise<Grid>;
  /** brings a cell into view and chooses it; row and column from 0; no sheet: the one in front */
  showCell(row: number, column: number, sheet?: string): Promise<void>;
  /** hands a file to the person */
  saveFile(name: string, bytes: Uint8Array): Promise<void>;
  /** opens a .csv or .xlsx file in front; undefined where the program has its own way */
  openFile?: (name: string, bytes: Uint8Array) => Promise<void>;
  /** the open workbook as an .xlsx file; undefined where the program has its own way */
  wholeWorkbook?: () => Promise<Uint8Array>;
  /** keeps the open workbook in the browser; undefined where the program looks after its workbooks itself */
  keeper?: Keeper;
  /** calls back when cells of the sheet in front change, or another sheet comes to the front */
  onChange(listener: () => void): void;
  /** the cells that are selected now. @throws Problem where they are not one block of cells */
  selectedCells(): Promise<SelectedCells>;
  /** calls back with the cell that is chosen now, if one is, and with each one chosen later */
  onChoose(listener: (cell: ChosenCell) => void): void;
  /**
   * Writes a workbook's sheets behind those that are open. Nothing that exists is touched: a sheet name in use gets a
   * number, and formulas follow it.
   *
   * @throws Problem when stopped or refused; whatever was written before is taken away again
   */
  writeModel(model: WorkbookModel, options: WriteOptions): Promise<Receipt>;
  /** takes away the sheets of a receipt that are still there */
  removeSheets(receipt: Receipt): Promise<void>;
  /**
   * Writes a workbook's sheets in place of those of a receipt, under their names.
   *
   * @throws Problem when stopped or refused; the sheets of the receipt are then as they were, and nothing else is there
   */
  replaceSheets(old: Receipt, model: WorkbookModel, options: WriteOptions): Promise<Receipt>;
  /** a text kept in the workbook itself, "" when there is none */
  readSetting(key: string): Promise<string>;
  writeSetting(key: string, value: string): Promise<void>;
  /** puts a formula, with its equals sign, into the chosen cell if that is blank; gives its address. @throws Problem if it is not blank */
  insertFormula(formula: string): Promise<string>;
  /** writes cells below the last filled row of a sheet's columns A…; makes the sheet with that header where there is none; gives the 1-based row */
  appendRow(sheet: string, header: readonly string[], row: readonly Cell[]): Promise<number>;
  /** enters our own formulas again where they show a name error; gives how many */
  repair(): Promise<number>;
}

const OWN_FORMULA = /\bSOAK\./i;

/**
 * The table without columns that our own functions fill, so that results are never read as
 * measurements. A column counts as filled by them when at least half of its filled cells are. Rows and
 * the places of the other columns stay.
 */
export function withoutComputed(
  cells: Cell[][],
  formulas: readonly (readonly string[])[],
): Cell[][] {
  const own = new Map<number, number>();
  const filled = new Map<number, number>();
  const count = (counts: Map<number, number>, column: number): void =>
    void counts.set(column, (counts.get(column) ?? 0) + 1);
  cells.forEach((row, r) =>
    row.forEach((cell, column) => {
      const isOwn = OWN_FORMULA.test(formulas[r]?.[column] ?? '');
      if (isOwn) count(own, column);
      if (isOwn || !isBlank(cell)) count(filled, column);
    }),
  );
  const isComputed = (column: number): boolean =>
    2 * (own.get(column) ?? 0) >= Math.max(1, filled.get(column) ?? 0);
  return cells.map((row) => {
    const kept = row.map((cell, column) => (isComputed(column) ? null : cell));
    while (kept.length > 0 && kept.at(-1) === null) kept.pop();
    return kept;
  });
}
