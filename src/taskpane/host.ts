/** What the panel needs of the program it sits in: the desk's grid or the spreadsheet program. */
import { isBlank, type Cell, type Grid } from '../tables/cells.js';
import type { WorkbookModel } from '../workbook/model.js';
import type { CellChange } from '../workbook/order-sheet.js';
import type { CellEdit } from '../workers/fill-types.js';
import type { Keeper } from './keeper.js';
import type { Size } from './blank-cells.js';

/** The cell a person has chosen, and why it shows an error if it does. */
export interface ChosenCell {
  /** name of its sheet */
  sheet: string;
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

/** Where a formula goes, and how it is shown. */
export interface InsertWish {
  /** left out: the chosen cell */
  at?: { sheet: string; address: string };
  /** a number format; left out: the program's general one */
  format?: string;
  /** a formula that may stand there and is then replaced */
  over?: string;
}

/** What a cell shows once a formula is in it. */
export interface Inserted {
  sheet: string;
  address: string;
  /** the value, as the cell shows it; "" while the program still works on it */
  shown: string;
  /** "#VALUE!" where it is an error: the formula was taken back then, and the cell is as it was; else "" */
  error: string;
  /** the sentence behind the error, where the program hands it over, else "" */
  trouble: string;
}

/** A cell to be written; with a formula it shows what that gives. */
export interface HostEdit extends CellEdit {
  /** with its equals sign */
  formula?: string;
  /** formulas with the same word here are one formula, filled down */
  filled?: string;
  /** a number format */
  format?: string;
}

/** Errors a cell may show, and what a program shows while a function is on its way. */
export const ERROR_VALUE = /^#(?:NAME\?|DIV\/0!|REF!|NUM!|N\/A|VALUE!|SPILL!|NULL!|CALC!|FIELD!|BLOCKED!|CONNECT!|UNKNOWN!|CYCLE!|ERROR!)$/; // prettier-ignore
export const WAITING_VALUE = /^#(?:BUSY!|GETTING_DATA)$/;

/** Most cells of one argument that the panel reads to work out an answer. */
export const MOST_CELLS = 20_000;

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
  /** the first workbook is an invented example, which no person has opened */
  readonly beginsWithSample?: boolean;
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
  /** opens a .csv or .xlsx file in front, false where the person would rather stay; undefined where the program has its own way */
  openFile?: (name: string, bytes: Uint8Array) => Promise<boolean>;
  /** the open workbook as an .xlsx file; undefined where the program has its own way */
  wholeWorkbook?: () => Promise<Uint8Array>;
  /** keeps the open workbook in the browser; undefined where the program looks after its workbooks itself */
  keeper?: Keeper;
  /**
   * Resolves when formulas show their results; undefined when none is being worked out, or where the program does not hand
   * out a workbook before.
   */
  calculating?: () => Promise<void> | undefined;
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
  /**
   * Puts a formula, with its equals sign, into a blank cell and reads what it shows. One that shows an error is taken back.
   *
   * @throws Problem if no cell is chosen or the cell is not blank
   */
  insertFormula(formula: string, wish?: InsertWish): Promise<Inserted>;
  /** values of a cell or block of cells, "D5" or "A1:C9", blank ones null; no sheet: the one in front. @throws Problem if there is no such sheet, or it is too much */
  cellValues(range: string, sheet?: string): Promise<Cell[][]>;
  /** the next blank cells below and to the right of a cell, with room for a result; without a cell one beside everything on the sheet */
  blankCells(size: Size, sheet: string, address?: string): Promise<string[]>;
  /** writes cells below the last filled row of a sheet's columns A…; makes the sheet with that header where there is none; gives the 1-based row */
  appendRow(sheet: string, header: readonly string[], row: readonly Cell[]): Promise<number>;
  /**
   * Writes cells of a sheet that still hold what they are thought to hold, and leaves the others; a formula counts as
   * something held, but for one of our own functions where `was` is what it shows.
   *
   * @returns how many were written
   */
  editCells(sheet: string, edits: readonly HostEdit[]): Promise<number>;
  /**
   * Gives cells of a sheet other values, null for blank, and leaves everything else on it.
   *
   * @throws Problem if there is no such sheet, or one of the cells holds a formula; nothing is written then
   */
  changeCells(sheet: string, changes: readonly CellChange[]): Promise<void>;
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
