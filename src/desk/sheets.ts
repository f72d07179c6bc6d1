/** The sheets the desk opens: the inventory, of the sample with live columns beside it, and the inputs those use. */
import type { ICellData } from '@univerjs/presets';
import { isBlank, type Cell, type Grid } from '../tables/cells.js';
import { INPUT_HEADERS, INPUT_LINES, INPUTS_SHEET, liveColumns } from '../taskpane/live-figures.js'; // prettier-ignore
import type { MatchedColumn } from '../workers/plan-room.js';
import { widestWord } from '../workbook/writers/type-width.js';
import { GRID_TYPE } from './grid-looks.js';
import type { DeskSheet } from './open-data.js';

const INK = {
  bark: '#3b2f2a',
  water: '#0b5c8f',
  mist: '#e6eef3',
  straw: '#fff4cf',
  ochre: '#8a5a00',
  sand: '#f6efe2',
  paper: '#ffffff',
};
const TEXT_CELL = 1;
const NUMBER_CELL = 2;
const ALIGN_RIGHT = 3;
const WRAP = 3;
const HEADER = { bl: 1, bg: { rgb: INK.mist }, cl: { rgb: INK.bark }, tb: WRAP, vt: 2 };
const LIVE_HEADER = { ...HEADER, bg: { rgb: INK.water }, cl: { rgb: INK.paper } };
const live = (pattern: string) => ({ cl: { rgb: INK.water }, ht: ALIGN_RIGHT, n: { pattern } });
const CHARACTER_PX = 7.5;
const PADDING_PX = 18;
/** A browser without the grid's face takes one that may be this much wider [-]. */
const OTHER_FACE = 1.25;
/** Widths of the inventory's columns [px]; a single word of a header may take more. */
const OWN_WIDTHS = { least: 56, most: 170, word: 280 };

/** Text that is exactly a number is shown as one; anything else stays as it came. */
function gridCell(cell: Cell, isDate: boolean): ICellData | undefined {
  if (cell === null || cell === '') return undefined;
  if (typeof cell === 'number') {
    return isDate
      ? { v: cell, t: NUMBER_CELL, s: { n: { pattern: 'yyyy-mm-dd' } } }
      : { v: cell, t: NUMBER_CELL };
  }
  if (typeof cell === 'boolean') return { v: cell ? 1 : 0, t: 3 };
  const number = Number(cell);
  return String(number) === cell ? { v: number, t: NUMBER_CELL } : { v: cell, t: TEXT_CELL };
}

/** Characters a cell takes in the grid: a date is a number that is shown as yyyy-mm-dd. */
const lengthShown = (cell: Cell | undefined, isDate = false): number =>
  isDate && typeof cell === 'number' ? 'yyyy-mm-dd'.length : String(cell ?? '').length;

/**
 * The inventory as a grid sheet, its live columns to the right, and the Inputs sheet.
 *
 * @param columns - those the live columns may use; none: the inventory alone
 */
export function deskSheets(
  name: string,
  { cells, dateCells }: Grid,
  columns: readonly MatchedColumn[],
  headerRow: number,
): DeskSheet[] {
  const width = Math.max(...cells.map((row) => row.length));
  const data: Record<number, Record<number, ICellData>> = {};
  cells.forEach((row, r) => {
    const line: Record<number, ICellData> = {};
    row.forEach((value, c) => {
      const made = gridCell(value, dateCells?.has(`${r},${c}`) ?? false);
      if (made !== undefined) line[c] = r === headerRow ? { ...made, s: HEADER } : made;
    });
    data[r] = line;
  });
  const made = addLive(data, cells, columns, headerRow, width);
  const widths = Array.from({ length: width + made }, (_, c) => {
    if (c >= width) return 128;
    const longest = Math.max(...cells.slice(0, 200).map((row, r) => lengthShown(row[c], dateCells?.has(`${r},${c}`)))); // prettier-ignore
    const word = widestWord(String(cells[headerRow]?.[c] ?? ''), GRID_TYPE, true);
    const header = word * OTHER_FACE + PADDING_PX;
    const content = Math.min(OWN_WIDTHS.most, longest * CHARACTER_PX + PADDING_PX);
    return Math.ceil(Math.max(OWN_WIDTHS.least, Math.min(OWN_WIDTHS.word, header), content));
  });
  const sheet: DeskSheet = {
    name,
    cells: data,
    rows: cells.length,
    columns: width + made,
    widths,
    frozenRows: headerRow + 1,
    frozenColumns: 1,
    headerRow,
    firstColumn: made === 0 ? 0 : width,
  };
  return made === 0 ? [sheet] : [sheet, inputsSheet()];
}

/** Writes the live columns into `data`; returns how many: none without canopies and trunks. */
function addLive(
  data: Record<number, Record<number, ICellData>>,
  cells: readonly (readonly Cell[])[],
  columns: readonly MatchedColumn[],
  headerRow: number,
  width: number,
): number {
  const figures = liveColumns(columns, width);
  if (figures.length === 0) return 0;
  const put = (row: number, i: number, cell: ICellData): void => {
    data[row] = { ...data[row], [width + i]: cell };
  };
  figures.forEach(({ header }, i) =>
    put(headerRow, i, { v: header, t: TEXT_CELL, s: LIVE_HEADER }),
  );
  let isFirst = true;
  for (let r = headerRow + 1; r < cells.length; r++) {
    if ((cells[r] ?? []).every((cell) => isBlank(cell))) continue;
    figures.forEach((column, i) => {
      // as if filled down: the grid reads a shared formula once, not once a row
      const shared = { si: `live-${i + 1}`, s: live(column.pattern) };
      put(r, i, isFirst ? { f: column.formula(r + 1), ...shared } : shared);
    });
    isFirst = false;
  }
  return figures.length;
}

function inputsSheet(): DeskSheet {
  const text = (v: string, s: ICellData['s'] = null): ICellData => ({ v, t: TEXT_CELL, s });
  const straw = { bg: { rgb: INK.straw }, cl: { rgb: INK.ochre } };
  const cells: Record<number, Record<number, ICellData>> = {
    0: Object.fromEntries(INPUT_HEADERS.map((header, c) => [c, text(header, HEADER)])),
  };
  INPUT_LINES.forEach(({ name, value, unit, note }, i) => {
    cells[i + 1] = {
      0: text(name),
      1: typeof value === 'number' ? { v: value, t: NUMBER_CELL, s: straw } : text(value, straw),
      2: text(unit),
      3: text(note, { cl: { rgb: '#6b4f3a' } }),
    };
  });
  return {
    name: INPUTS_SHEET,
    cells,
    rows: INPUT_LINES.length + 1,
    columns: 4,
    widths: [250, 110, 70, 520],
    frozenRows: 1,
    frozenColumns: 0,
    headerRow: 0,
    firstColumn: 0,
  };
}

const RULE_WIDTHS = { least: 80, most: 240 };

/** A sheet of the workbook as it came, such as Rules: no live columns. */
export function plainSheet(name: string, { cells, dateCells }: Grid): DeskSheet {
  const width = Math.max(1, ...cells.map((row) => row.length));
  const data = Object.fromEntries(
    cells.map((row, r) => [
      r,
      Object.fromEntries(
        row.flatMap((value, c) => {
          const made = gridCell(value, dateCells?.has(`${r},${c}`) ?? false);
          return made === undefined ? [] : [[c, made] as const];
        }),
      ),
    ]),
  );
  const widths = Array.from({ length: width }, (_, c) => {
    const longest = Math.max(0, ...cells.map((row, r) => lengthShown(row[c], dateCells?.has(`${r},${c}`)))); // prettier-ignore
    return Math.round(
      Math.min(RULE_WIDTHS.most, Math.max(RULE_WIDTHS.least, longest * CHARACTER_PX + PADDING_PX)),
    );
  });
  return {
    name,
    cells: data,
    rows: cells.length,
    columns: width,
    widths,
    frozenRows: 0,
    frozenColumns: 0,
    headerRow: -1,
    firstColumn: 0,
  };
}
