/**
 * A workbook as data: sheets, tables, text, formulas, styles, print set-up. Built once, rendered by
 * writers that know nothing of trees or water.
 *
 * Every text is data. Only `formula` is ever a formula, and only builders set it.
 */
import type { Day } from '../engine/dates.js';
import { Problem } from '../engine/problems.js';
import type { Chart, ChartWords, Picture } from './model-charts.js';

export type {
  Chart,
  ChartLook,
  ChartSeries,
  ChartWords,
  Picture,
  Rasterise,
} from './model-charts.js';

export type Scalar = string | number | boolean | null;

/** What a cell is for; the legend on the About sheet names each of these. */
export const STYLES = {
  text: 'words and numbers as read',
  input: 'input: you may change it',
  calculation: 'calculation: worked out from inputs',
  result: 'result: what to act on',
  header: 'column header',
  title: 'sheet title',
  heading: 'heading',
  note: 'explanation',
  caution: 'caution: can hurt people or trees',
  look: 'look here: something to check',
  fine: 'fine: nothing to do',
  field: 'to be filled in by hand',
  frame: 'caution on paper, without colour',
} as const;
export type Style = keyof typeof STYLES;

/** Number formats by what the number is. */
export const FORMATS = {
  general: 'General',
  text: '@',
  /** a number that is whole, without separators */
  plain: '0',
  whole: '#,##0',
  one: '#,##0.0',
  two: '#,##0.00',
  three: '0.000',
  share: '0%',
  date: 'yyyy-mm-dd',
  /** a time of day as a share of it */
  time: 'hh:mm',
} as const;
export type Format = keyof typeof FORMATS;

export interface RichCell {
  /** what the cell shows; for a formula, the result the engine gives */
  value: Scalar;
  /** the spreadsheet's own functions, without the leading equals sign */
  formula?: string;
  /**
   * the same by our own functions, `SOAK.INTERVAL(…)`, without the leading equals sign: written instead of `formula`
   * only through a host that has them
   */
  live?: string;
  style?: Style;
  format?: Format;
  /** a place in this workbook to jump to, e.g. `Trees!A1` */
  jump?: string;
}
export type ModelCell = Scalar | RichCell;

export interface Column {
  key: string;
  /** with its unit: "Demand (gal/day)" */
  header: string;
  /** in characters of the body type */
  width: number;
  style: Style;
  format: Format;
  align: 'left' | 'center' | 'right';
  wrap: boolean;
}

export interface TextBlock {
  kind: 'text';
  /** 1-based row of the first line */
  top: number;
  lines: RichCell[][];
}

export interface TableBlock {
  kind: 'table';
  name: string;
  /** 1-based row of the header */
  top: number;
  columns: Column[];
  rows: ModelCell[][];
}

export interface Validation {
  range: string;
  /** the words themselves; empty where `source` names the cells that hold them */
  values: string[];
  /** a range or a name of this workbook whose cells are the list */
  source?: string;
  message: string;
}

/** What a printed page says above and below, where it differs from the workbook's own words. */
export interface PageWords {
  header: string;
  footer: string;
  /** "Page" and "of" */
  page: string;
  of: string;
}

/** A style for cells where a formula is true; `range` and `formula` as in a spreadsheet. */
export interface Condition {
  range: string;
  formula: string;
  style: Style;
}

export interface Print {
  orientation: 'portrait' | 'landscape';
  /** pages side by side; 0: natural size, manual breaks rule */
  pagesWide: number;
  /** 1-based rows repeated on every page, first to last */
  titleRows?: [number, number];
  /** letters of columns repeated on every page, first to last */
  titleColumns?: [string, string];
  /** 1-based rows after which a new page starts */
  breaks: number[];
}

export interface Sheet {
  name: string;
  title: string;
  blocks: (TextBlock | TableBlock)[];
  freeze: { rows: number; columns: number };
  /** body type [pt] */
  fontSize: number;
  print: Print;
  validations: Validation[];
  conditions: Condition[];
  charts: Chart[];
  pictures: Picture[];
  /** letters of columns hidden from view and print */
  hidden: string[];
  pageWords?: PageWords;
}

export interface WorkbookModel {
  title: string;
  description: string;
  /** the day it is made on; no clock is read */
  madeOn: Day;
  paper: 'letter' | 'a4';
  sheets: Sheet[];
  /** name to absolute reference, e.g. `Weather!$C$5` */
  names: Record<string, string>;
}

/** A, B … Z, AA … for a 0-based column. */
export function letter(index: number): string {
  let name = '';
  for (let n = index + 1; n > 0; n = Math.floor((n - 1) / 26))
    name = String.fromCharCode(65 + ((n - 1) % 26)) + name;
  return name;
}

/** Most rows a sheet can hold. */
export const SHEET_ROWS = 1_048_576;

/** True for text a spreadsheet might take for a formula when typed, pasted or opened as CSV. */
export const looksLikeFormula = (text: string): boolean => /^[\s]*[=+\-@]|^[\t\r]/.test(text);

/** A format that shows a number as given when it is short, and to three decimals when it is not. */
export const tidy = (value: number): Format =>
  Math.abs(value - Math.round(value)) < 1e-6
    ? 'plain'
    : Math.abs(value) >= 0.001 && String(value).length > 8
      ? 'three'
      : 'general';

export const cell = (
  value: Scalar,
  style?: Style,
  more: Omit<RichCell, 'value' | 'style'> = {},
): RichCell => (style === undefined ? { value, ...more } : { value, style, ...more });

export const formula = (text: string, value: Scalar, more: Partial<RichCell> = {}): RichCell => ({
  value,
  formula: text,
  ...more,
});

/** Column settings that differ from a plain left-aligned text column. */
export type ColumnSpec = Pick<Column, 'key' | 'header' | 'width'> & Partial<Column>;

/** The settings of a column and nothing else a builder keeps beside them: models are handed between threads. */
const column = (spec: ColumnSpec): Column => {
  const format = spec.format ?? 'general';
  const numeric = format !== 'general' && format !== 'text';
  const { key, header, width, style = 'text', wrap = false } = spec;
  return {
    key,
    header,
    width,
    style,
    format,
    align: spec.align ?? (numeric ? 'right' : 'left'),
    wrap,
  };
};

/** A sheet's name as formulas write it. */
export const sheetReference = (name: string): string =>
  /^[A-Za-z_]\w*$/.test(name) ? name : `'${name.replaceAll("'", "''")}'`;

/** Where a table stands, so that formulas elsewhere can point at its cells. */
export class TablePlace {
  constructor(
    private readonly sheet: string,
    private readonly columns: Column[],
    readonly headerRow: number,
    readonly count: number,
  ) {}

  /** 1-based sheet row of data row `i`, from 0 */
  row(i: number): number {
    return this.headerRow + 1 + i;
  }

  letter(key: string): string {
    const at = this.columns.findIndex((c) => c.key === key);
    if (at < 0) throw new Problem(`there is no column "${key}" on the sheet ${this.sheet}`);
    return letter(at);
  }

  /** `$D7`: for formulas in the same sheet */
  here(key: string, i: number): string {
    return `$${this.letter(key)}${this.row(i)}`;
  }

  /** `Trees!$D$7` */
  cell(key: string, i: number): string {
    return `${sheetReference(this.sheet)}!$${this.letter(key)}$${this.row(i)}`;
  }

  /** `Trees!$D$6:$D$65`, the data rows */
  range(key: string): string {
    const at = `$${this.letter(key)}$`;
    return `${sheetReference(this.sheet)}!${at}${this.row(0)}:${at}${this.row(Math.max(this.count, 1) - 1)}`;
  }

  /** `D6:H65` without sheet, for validations and conditions */
  area(from: string, to = from): string {
    return `${this.letter(from)}${this.row(0)}:${this.letter(to)}${this.row(Math.max(this.count, 1) - 1)}`;
  }
}

/** Lays blocks one below the other and remembers where each stands. */
export class SheetDraft {
  private readonly sheet: Sheet;
  private next = 1;

  constructor(name: string, title: string, print: Partial<Print> = {}, fontSize = 10) {
    this.sheet = {
      name,
      title,
      blocks: [],
      freeze: { rows: 0, columns: 0 },
      fontSize,
      print: { orientation: 'landscape', pagesWide: 1, breaks: [], ...print },
      validations: [],
      conditions: [],
      charts: [],
      pictures: [],
      hidden: [],
    };
  }

  get name(): string {
    return this.sheet.name;
  }

  /** The row the next block will start on. */
  get row(): number {
    return this.next;
  }

  /** Lines of cells; a plain text is a line of one cell. Returns the 1-based row of the first. */
  text(lines: (RichCell | RichCell[])[]): number {
    const top = this.next;
    this.sheet.blocks.push({
      kind: 'text',
      top,
      lines: lines.map((line) => (Array.isArray(line) ? line : [line])),
    });
    this.next += lines.length;
    return top;
  }

  skip(rows = 1): this {
    this.next += rows;
    return this;
  }

  /**
   * Reserve a table of `count` rows, then fill it: the callback gets the place of the table, so a row
   * can point at its own cells.
   */
  table(
    name: string,
    columns: ColumnSpec[],
    count: number,
    fill: (i: number, place: TablePlace) => ModelCell[],
  ): TablePlace {
    const top = this.next;
    if (top + count > SHEET_ROWS)
      throw new Problem(`${name} needs ${count} rows; a sheet holds ${SHEET_ROWS}`);
    const full = columns.map(column);
    const place = new TablePlace(this.sheet.name, full, top, count);
    const rows: ModelCell[][] = [];
    for (let i = 0; i < count; i++) {
      const row = fill(i, place);
      if (row.length !== full.length)
        throw new Problem(
          `${name}: row ${i + 1} has ${row.length} cells for ${full.length} columns`,
        );
      rows.push(row);
    }
    // A table needs one row below its header to be a table anywhere.
    if (count === 0) rows.push(full.map(() => null));
    this.sheet.blocks.push({ kind: 'table', name, top, columns: full, rows });
    this.next += rows.length + 1;
    return place;
  }

  freeze(rows: number, columns = 0): this {
    this.sheet.freeze = { rows, columns };
    return this;
  }

  repeat(from: number, to: number, columns?: [string, string]): this {
    this.sheet.print.titleRows = [from, to];
    if (columns) this.sheet.print.titleColumns = columns;
    return this;
  }

  get breaks(): number {
    return this.sheet.print.breaks.length;
  }

  breakAfter(row: number): this {
    this.sheet.print.breaks.push(row);
    return this;
  }

  validate(range: string, values: string[], message: string): this {
    this.sheet.validations.push({ range, values, message });
    return this;
  }

  /** A list whose words stand in cells. */
  validateFrom(range: string, source: string, message: string): this {
    this.sheet.validations.push({ range, values: [], source, message });
    return this;
  }

  /** A chart below what stands already, `rows` high and `columns` wide. */
  chart(chart: ChartWords, rows: number, columns: number): this {
    const from = { row: this.next, column: 0 };
    this.next += rows;
    return this.chartAt(chart, { from, to: { row: this.next, column: columns } });
  }

  /** A chart over rows left free for it. */
  chartAt(chart: ChartWords, at: Pick<Chart, 'from' | 'to'>): this {
    this.sheet.charts.push({ ...chart, ...at });
    return this;
  }

  /** A picture over rows left free for it. */
  picture(picture: Picture): this {
    this.sheet.pictures.push(picture);
    return this;
  }

  pageWords(words: PageWords): this {
    this.sheet.pageWords = words;
    return this;
  }

  when(range: string, text: string, style: Style): this {
    this.sheet.conditions.push({ range, formula: text, style });
    return this;
  }

  hide(...letters: string[]): this {
    this.sheet.hidden.push(...letters);
    return this;
  }

  done(): Sheet {
    return this.sheet;
  }
}

/** Split a sentence into lines of at most `width` characters, so that it needs no merged cells. */
export function lines(text: string, width: number): string[] {
  const out: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/)) {
    if (line !== '' && line.length + 1 + word.length > width) {
      out.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  if (line !== '') out.push(line);
  return out;
}

/** Header texts made unique, as tables demand: "Note", "Note 2". Case does not tell two apart. */
export function uniqueHeaders(headers: string[]): string[] {
  const seen = new Set<string>();
  return headers.map((raw) => {
    const base = raw.replace(/\s+/g, ' ').trim() || 'Column';
    let name = base;
    for (let n = 2; seen.has(name.toLowerCase()); n++) name = `${base} ${n}`;
    seen.add(name.toLowerCase());
    return name;
  });
}

export const tablesOf = (sheet: Sheet): TableBlock[] =>
  sheet.blocks.filter((block): block is TableBlock => block.kind === 'table');

export const rich = (value: ModelCell): RichCell =>
  value !== null && typeof value === 'object' ? value : { value };
