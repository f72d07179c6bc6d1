/**
 * A sheet of the model laid out: what every cell holds and looks like, decided once for the writers, which only
 * translate it into the terms of a file, of the desk's grid or of the spreadsheet program.
 */
import type {
  Chart,
  Column,
  ModelCell,
  Picture,
  RichCell,
  Scalar,
  Sheet,
  Style,
  TableBlock,
  TextBlock,
  Validation,
  WorkbookModel,
} from '../model.js';
import { letter, looksLikeFormula, rich, tablesOf } from '../model.js';
import { writableModel } from '../writable.js';
import {
  dressmaker,
  lookOf,
  spans,
  UPRIGHT,
  type Align,
  type Base,
  type Dress,
  type Look,
  type Upright,
} from './looks.js';
import { pageSet, type Page } from './page.js';
import { headerNeeds, MEASURED_ROWS, rowHeights } from './row-heights.js';

export { UPRIGHT } from './looks.js';
export type { Align, Dress, Look, Upright } from './looks.js';
export type { Page } from './page.js';

/** A cell as every writer writes it. Text that a program could take for a formula has the format '@' and stays text. */
export interface LaidCell extends Dress {
  /** what the cell shows; for a formula, the result the engine gives */
  value: Scalar;
  /** the spreadsheet's own functions, without the equals sign */
  formula?: string;
  /** our own functions, without the equals sign: never in a file */
  live?: string;
  /** a place in this workbook, e.g. `Trees!A1` */
  jump?: string;
}

export interface LaidColumn {
  header: string;
  style: Style;
  /** how the plain cells of the column are dressed */
  dress: Dress;
}

export interface LaidTable {
  name: string;
  /** 1-based row of the header; the table begins in the first column */
  top: number;
  columns: LaidColumn[];
  /** rows below the header */
  rows: number;
  filter: boolean;
  /** the rows as the model has them, for writers that write plain cells by column */
  values: readonly (readonly ModelCell[])[];
}

export interface LaidCondition {
  range: string;
  formula: string;
  /** only colour and weight of the type are to be set */
  look: Look;
}

export interface LaidSheet {
  name: string;
  title: string;
  rows: number;
  columns: number;
  /** 0-based; undefined where the model has nothing */
  cells: (row: number, column: number) => LaidCell | undefined;
  /** size of the body type [pt] */
  bodySize: number;
  /** where text stands in every row, blank ones included */
  upright: Upright;
  /** in characters of the body type, for each of `columns` */
  widths: number[];
  /** for each of `columns` */
  hidden: boolean[];
  /** 0-based row to its height [pt], where it differs from that of the body type */
  heights: Map<number, number>;
  tables: LaidTable[];
  /** the longest table: a writer may set its columns' dress for whole columns */
  main: LaidTable | undefined;
  validations: Validation[];
  conditions: LaidCondition[];
  freeze: { rows: number; columns: number };
  page: Page;
  /** 1-based rows after which a new page starts */
  breaks: number[];
  charts: Chart[];
  pictures: Picture[];
}

/** Longest text a cell can hold; the end of a longer one is cut and marked [characters]. */
const LONGEST_TEXT = 32_767;
export const fit = (value: Scalar): Scalar =>
  typeof value === 'string' && value.length > LONGEST_TEXT
    ? `${value.slice(0, LONGEST_TEXT - 1)}…`
    : value;

/** Width of a column no table says one for [characters]. */
const PLAIN_WIDTH = 12;
/** Tables longer than this have a filter in their header [rows]. */
const UNFILTERED_ROWS = 20;

/** A value that needs nothing but its column's dress. */
export const isPlain = (value: ModelCell): value is Scalar =>
  value === null ||
  (typeof value !== 'object' && !(typeof value === 'string' && looksLikeFormula(value)));

type Dressing = ReturnType<typeof dressmaker>;

/** A cell in its dress; `column` is 0-based. */
function laidCell(value: RichCell, column: number, base: Base, dress: Dressing): LaidCell {
  const text = typeof value.value === 'string' ? value.value : '';
  const format =
    value.formula === undefined && looksLikeFormula(text)
      ? 'text'
      : (value.format ?? base.format ?? 'general');
  const style = value.style ?? base.style ?? 'text';
  // A heading runs over the cells to its right; one in the middle of a table keeps to its column.
  const alone = column === 0 || base.style === undefined;
  // so do a question before a list, and words before a column to write in
  const leads =
    column === 0 &&
    ((style === 'look' && base.style === 'text') || (style === 'note' && base.style === 'field'));
  const runs = (spans(style) && alone) || leads;
  const align: Align | undefined = runs ? 'left' : base.align;
  return {
    value: fit(value.value),
    ...(value.formula !== undefined && { formula: value.formula }),
    ...(value.live !== undefined && { live: value.live }),
    ...(value.jump !== undefined && { jump: value.jump }),
    ...dress(style, format, align, runs ? false : (base.wrap ?? false)),
  };
}

const headerCell = ({ header, align }: Column, column: number, dress: Dressing): LaidCell =>
  laidCell({ value: header, style: 'header' }, column, { align, wrap: true }, dress);

/** Settings of a column for its cells: long tables are not wrapped. */
const bodyBase = (block: TableBlock, column: Column): Base =>
  block.rows.length > MEASURED_ROWS ? { ...column, wrap: false } : column;

function laidTable(block: TableBlock, dress: Dressing): LaidTable {
  return {
    name: block.name,
    top: block.top,
    columns: block.columns.map((c) => {
      const { style, format, align, wrap } = { ...c, ...bodyBase(block, c) };
      return { header: c.header, style, dress: dress(style, format, align, wrap) };
    }),
    rows: block.rows.length,
    filter: block.rows.length > UNFILTERED_ROWS,
    values: block.rows,
  };
}

const lastRow = (block: TextBlock | TableBlock): number =>
  block.kind === 'text' ? block.top + block.lines.length - 1 : block.top + block.rows.length;

/** Finds the cell at a place; blocks stand in order, one below the other. */
function cellFinder(sheet: Sheet, dress: Dressing): LaidSheet['cells'] {
  let block: TextBlock | TableBlock | undefined;
  const holds = (b: TextBlock | TableBlock | undefined, at: number): boolean =>
    b !== undefined && b.top <= at && at <= lastRow(b);
  return (row, column) => {
    const at = row + 1;
    // Writers go row by row, so the block of the last cell is asked first.
    if (!holds(block, at)) block = sheet.blocks.find((b) => holds(b, at));
    if (block === undefined) return undefined;
    if (block.kind === 'text') {
      const found = block.lines[at - block.top]?.[column];
      return found && laidCell(found, column, {}, dress);
    }
    const own = block.columns[column];
    if (own === undefined) return undefined;
    if (at === block.top) return headerCell(own, column, dress);
    const value = block.rows[at - block.top - 1]?.[column] ?? null;
    return laidCell(rich(value), column, bodyBase(block, own), dress);
  };
}

/** One sheet of a model; its texts must be writable (see `layOutAll`). */
export function layOut(sheet: Sheet, model: WorkbookModel): LaidSheet {
  const dress = dressmaker(sheet.fontSize);
  const blocks = tablesOf(sheet);
  const tables = blocks.map((block) => laidTable(block, dress));
  const main = [...tables].sort((a, b) => b.rows - a.rows)[0];
  const texts = sheet.blocks.filter((b): b is TextBlock => b.kind === 'text');
  const across = Math.max(
    1,
    ...blocks.map((b) => b.columns.length),
    ...texts.flatMap((b) => b.lines.map((line) => line.length)),
  );
  const columns = Array.from({ length: across }, (_, i) => i);
  const widthOf = (column: Column): number =>
    Math.max(column.width, headerNeeds(column, sheet.fontSize));
  const widths = columns.map((i) => {
    const own = blocks.flatMap((block) => block.columns.slice(i, i + 1));
    return Math.max(0, ...own.map(widthOf)) || PLAIN_WIDTH;
  });
  return {
    name: sheet.name,
    title: sheet.title,
    rows: Math.max(0, ...sheet.blocks.map(lastRow)),
    columns: across,
    cells: cellFinder(sheet, dress),
    bodySize: sheet.fontSize,
    upright: UPRIGHT,
    widths,
    hidden: columns.map((i) => sheet.hidden.includes(letter(i))),
    heights: rowHeights(sheet, widths),
    tables,
    main,
    validations: sheet.validations,
    conditions: sheet.conditions.map(({ range, formula, style }) => ({
      range,
      formula,
      look: lookOf(style, sheet.fontSize),
    })),
    freeze: sheet.freeze,
    page: pageSet(sheet, model),
    breaks: sheet.print.breaks,
    charts: sheet.charts,
    pictures: sheet.pictures,
  };
}

/** Every sheet of a model, in texts that a file can hold. */
export function layOutAll(given: WorkbookModel): LaidSheet[] {
  const model = writableModel(given);
  return model.sheets.map((sheet) => layOut(sheet, model));
}
