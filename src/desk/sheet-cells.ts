/** Cells of the desk's sheets as the panel reads them, the same from the grid and from what is about to go into it. */
import type { ICellData, IStyleData, Nullable } from '@univerjs/presets';
import type { FWorksheet } from '@univerjs/presets/preset-sheets-core';
import type { Cell, Grid } from '../tables/cells.js';
import { withoutComputed } from '../taskpane/host.js';
import { eachCell, formulaIn, shownIn } from './open-book.js';
import type { DeskSheet } from './open-data.js';

interface ReadCell {
  /** 0-based */
  row: number;
  column: number;
  shown: Cell;
  /** "" when the cell holds a plain value */
  formula: string;
  isDate: boolean;
}

const isDatePattern = (pattern: string | undefined): boolean => /[yd]/i.test(pattern ?? '');

/** From the sheet's first cell, without columns that our own functions fill. */
function gridOf(read: readonly ReadCell[]): Grid {
  const [rows, columns] = read.reduce(
    ([most, widest], { row, column }) => [Math.max(most, row + 1), Math.max(widest, column + 1)],
    [0, 0],
  );
  const cells = Array.from({ length: rows }, () => new Array<Cell>(columns).fill(null));
  const formulas: string[][] = Array.from({ length: rows }, () => []);
  const dateCells = new Set<string>();
  for (const { row, column, shown, formula, isDate } of read) {
    const line = cells[row];
    if (line) line[column] = shown;
    if (formula !== '') (formulas[row] ??= [])[column] = formula;
    if (isDate) dateCells.add(`${row},${column}`);
  }
  return { cells: withoutComputed(cells, formulas), dateCells };
}

/** Whether cells of a style show a day, looked up once for each style. */
function dateStyles(sheet: FWorksheet): (style: ICellData['s']) => boolean | undefined {
  const styles = sheet.getWorkbook().getStyles();
  const known = new Map<string, boolean | undefined>();
  const look = (style: Nullable<IStyleData>): boolean | undefined =>
    style?.n ? isDatePattern(style.n.pattern) : undefined;
  return (style) => {
    if (typeof style !== 'string') return look(style);
    if (!known.has(style)) known.set(style, look(styles.get(style)));
    return known.get(style);
  };
}

/** A sheet of the grid. */
export function readSheet(sheet: FWorksheet): Grid {
  const inner = sheet.getSheet();
  const isDateStyle = dateStyles(sheet);
  // cells that share a formula call the same functions: one text stands for all
  const shared = new Map<string, string>();
  const read: ReadCell[] = [];
  eachCell(sheet, (row, column, cell) => {
    const formula = cell.f ?? shared.get(cell.si ?? '') ?? formulaIn(sheet, row, column);
    if (cell.si) shared.set(cell.si, formula);
    const shown = shownIn(cell);
    if (shown === null && formula === '') return;
    // a cell without a number format of its own has that of its column or row
    const isDate =
      isDateStyle(cell.s) ??
      isDateStyle(inner.getColumnStyle(column)) ??
      isDateStyle(inner.getRowStyle(row)) ??
      false;
    read.push({ row, column, shown, formula, isDate });
  });
  return gridOf(read);
}

/** A sheet that is to go into the grid, as it will be read there. */
export function readDeskSheet({ cells }: DeskSheet): Grid {
  const shared = new Map<string, string>();
  const read = Object.entries(cells).flatMap(([row, line]) =>
    Object.entries(line).flatMap(([column, cell]): ReadCell[] => {
      if (cell.si && cell.f) shared.set(cell.si, cell.f);
      const formula = cell.f ?? shared.get(cell.si ?? '') ?? '';
      const shown = shownIn(cell);
      if (shown === null && formula === '') return [];
      const style = typeof cell.s === 'object' ? cell.s : undefined;
      const isDate = isDatePattern(style?.n?.pattern);
      return [{ row: Number(row), column: Number(column), shown, formula, isDate }];
    }),
  );
  return gridOf(read);
}
