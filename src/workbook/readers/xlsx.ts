/**
 * Workbooks (.xlsx) to cells. Dates become serial numbers, with a set of the places that were dates. Rows and cells that
 * hold nothing cost nothing, however many the file names.
 */
import { Problem } from '../../engine/problems.js';
import type { Cell } from '../../tables/cells.js';
import { readBook, unescaped, type Book } from './book-parts.js';
import { CellCount, checkSize, count, MOST_COLUMNS, MOST_ROWS } from './limits.js';
import { attribute, walk, type Attributes, type Handler } from './xml.js';
import { Container, damaged } from './zip.js';

export { OtherKind } from './book-parts.js';

export interface SheetCells {
  name: string;
  cells: Cell[][];
  /** "row,column", 0-based, of the cells shown as dates */
  dateCells: Set<string>;
}

export interface WorkbookCells {
  sheets: SheetCells[];
  /** texts of the file's custom properties, by name */
  settings: Record<string, string>;
}

/** Days between the two ways of counting. */
const FROM_1904 = 1462;
const MS_PER_DAY = 86_400_000;
const UNIX_EPOCH_SERIAL = 25569;
/** Stands for every row without cells; frozen, for they share it. */
const NO_CELLS = Object.freeze<Cell[]>([]) as Cell[];

/** 0-based column and row of "BC12"; row -1 where there is none. */
function placeOf(ref: string): { column: number; row: number } {
  let column = 0;
  let at = 0;
  for (; at < ref.length; at++) {
    const code = ref.charCodeAt(at) & ~32;
    if (code < 65 || code > 90) break;
    column = column * 26 + code - 64;
  }
  return { column: column - 1, row: at < ref.length ? Number(ref.slice(at)) - 1 : -1 };
}

/** A time of ISO 8601 as a serial, as strict workbooks write dates. */
function serialOf(iso: string): number | undefined {
  const ms = Date.parse(/[zZ]|[+-]\d\d:?\d\d$/.test(iso) ? iso : `${iso}${iso.includes('T') ? 'Z' : 'T00:00Z'}`); // prettier-ignore
  return Number.isNaN(ms) ? undefined : ms / MS_PER_DAY + UNIX_EPOCH_SERIAL;
}

/** Whole days that lost a few bits on the way. */
const tidy = (serial: number): number =>
  Math.abs(serial - Math.round(serial)) < 1e-9 ? Math.round(serial) : serial;

/** Takes the cells of one sheet out of its part. */
class SheetHandler implements Handler {
  readonly cells: Cell[][] = [];
  readonly dateCells = new Set<string>();
  private row = -1;
  private column = -1;
  private values: Cell[] = [];
  private filled = 0;
  private type = '';
  private style = 0;
  private said = '';
  private taking = false;
  private inline = false;
  private aside = false;

  constructor(
    private readonly name: string,
    private readonly book: Book,
    private readonly counted: CellCount,
  ) {}

  open(tag: string, attributes: Attributes): void {
    switch (tag) {
      case 'row': {
        const r = attribute(attributes, 'r');
        this.row = r === undefined ? this.row + 1 : Number(r) - 1;
        this.checkRow();
        this.values = [];
        this.filled = 0;
        this.column = -1;
        return;
      }
      case 'c': {
        const ref = attribute(attributes, 'r');
        const place = ref === undefined ? undefined : placeOf(ref);
        this.column = place?.column ?? this.column + 1;
        if (!(this.column >= 0 && this.column < MOST_COLUMNS))
          throw new Problem(
            `sheet "${this.name}" names a column beyond ${count(MOST_COLUMNS)}, more than a sheet has; save the workbook again as .xlsx`,
          );
        this.type = attribute(attributes, 't') ?? 'n';
        this.style = Number(attribute(attributes, 's') ?? 0);
        this.said = '';
        return;
      }
      case 'is':
        this.inline = true;
        return;
      case 'rPh':
        this.aside = true;
        return;
      case 'v':
        this.taking = true;
        return;
      case 't':
        this.taking = this.inline && !this.aside;
    }
  }

  text(text: string): void {
    if (this.taking) this.said += text;
  }

  close(tag: string): void {
    switch (tag) {
      case 'v':
      case 't':
        this.taking = false;
        return;
      case 'is':
        this.inline = false;
        return;
      case 'rPh':
        this.aside = false;
        return;
      case 'c':
        return this.put(this.valueOf());
      case 'row':
        return this.endRow();
    }
  }

  private checkRow(): void {
    if (!(Number.isInteger(this.row) && this.row >= 0 && this.row < MOST_ROWS))
      throw new Problem(
        `sheet "${this.name}" names a row beyond ${count(MOST_ROWS)}, more than a sheet has; save the workbook again as .xlsx`,
      );
  }

  private valueOf(): Cell {
    const { said, type } = this;
    switch (type) {
      case 's':
        return this.book.strings[Number(said)] ?? null;
      case 'str':
      case 'inlineStr':
        return said === '' ? null : unescaped(said);
      case 'b':
        return said === '' ? null : said === '1' || said.toLowerCase() === 'true';
      case 'e':
        return said === '' ? null : said;
      case 'd':
        return this.date(serialOf(said));
    }
    if (said === '') return null;
    const value = Number(said);
    if (!Number.isFinite(value)) return said;
    return this.book.dates[this.style] === true
      ? this.date(value + (this.book.from1904 ? FROM_1904 : 0))
      : value;
  }

  private date(serial: number | undefined): Cell {
    if (serial === undefined) return this.said === '' ? null : this.said;
    this.dateCells.add(`${this.row},${this.column}`);
    return tidy(serial);
  }

  private put(value: Cell): void {
    if (value === null || value === '') return;
    // cells between two filled ones are blank, not holes
    while (this.values.length < this.column) this.values.push(null);
    this.values[this.column] = value;
    this.filled += 1;
  }

  private endRow(): void {
    if (this.values.length === 0) return;
    this.counted.row(this.name, this.filled, this.values.length);
    while (this.cells.length < this.row) this.cells.push(NO_CELLS);
    this.cells[this.row] = this.values;
  }
}

/**
 * Every sheet of a workbook, as cells, with the texts among its properties.
 * @throws Problem with a sentence when the bytes are too many, encrypted, cut short or not a workbook
 */
export function readXlsxBook(bytes: Uint8Array): WorkbookCells {
  checkSize(bytes);
  const container = new Container(bytes);
  const book = readBook(container);
  const counted = new CellCount();
  const sheets = book.sheets.map(({ name, part }): SheetCells => {
    const xml = container.part(part);
    if (!xml) throw damaged(`${part} is not in it`);
    const handler = new SheetHandler(name, book, counted);
    walk(part, xml, handler);
    return { name, cells: handler.cells, dateCells: handler.dateCells };
  });
  return { sheets, settings: book.settings };
}

/** The sheets alone. @throws Problem as `readXlsxBook` */
export const readXlsxSheets = (bytes: Uint8Array): SheetCells[] => readXlsxBook(bytes).sheets;
