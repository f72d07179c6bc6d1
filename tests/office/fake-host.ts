/**
 * A strict stand-in for the spreadsheet program's library. It keeps a workbook with a real grid and behaves as the public
 * documentation says, where code could get it wrong: batches, loading, names, payloads, text that becomes a formula. It
 * calculates nothing: a formula shows what `compute` gives. It cannot show that the real program agrees.
 */
import { areaOf, letters } from './areas.js';
import { Book, type Handler, type SheetState } from './book.js';
import { workbookKind } from './book-kinds.js';
import { OfficeError } from './errors.js';
import { Context, type Terms } from './proxies.js';
import type { Value } from './typed.js';

export interface StartSheet {
  name: string;
  /** from A1 on; kept as they are, never read as typed */
  values: (string | number | boolean | null)[][];
  /** with equals signs, "" where the cell holds a plain value; `values` has the results */
  formulas?: string[][];
  numberFormat?: string[][];
}

export interface Start {
  sheets: StartSheet[];
  settings?: Record<string, string>;
  /** ExcelApi 1.x; default 18 */
  set?: number;
  addInMissing?: boolean;
}

export interface FakeOptions extends Start {
  /** what a formula shows; default "(calculated)" */
  compute?: (formula: string, at: { sheet: string; row: number; column: number }) => Value;
  /** most bytes of a request or an answer; default 5 MB */
  payload?: number;
}

/** One Excel.run: its syncs, in order. */
export interface Run {
  syncs: { bytes: number; operations: number; statements: readonly string[] }[];
}

/** A cell as a test reads it. */
export interface FakeCell {
  value: Value;
  formula: string;
  numberFormat: string;
  font: { name: string; size: number; color: string; bold: boolean; italic: boolean };
  fill: string;
  align: string;
  vertical: string;
  indent: number;
  wrap: boolean;
  border: Record<
    'top' | 'bottom' | 'left' | 'right',
    { style: string; weight: string; color: string }
  >;
  hyperlink: { documentReference: string } | null;
}

const FIVE_MB = 5 * 1024 * 1024;
const LATEST = 18;

export class FakeHost {
  readonly book: Book;
  readonly runs: Run[] = [];
  /** ids of functions tied to the host, in order */
  readonly associated: string[] = [];
  /** what the next syncs throw: codes of the host, first come first thrown */
  readonly failNext: string[] = [];
  /** the person is typing into a cell: nothing is taken */
  editing = false;
  /** as Office.context.platform says it when the host is installed */
  platform = 'OfficeOnline';
  set: number;
  private readonly payload: number;

  constructor(start: FakeOptions = { sheets: [] }) {
    this.set = start.set ?? LATEST;
    this.payload = start.payload ?? FIVE_MB;
    this.book = new Book({
      addInMissing: start.addInMissing ?? false,
      compute: start.compute ?? (() => '(calculated)'),
    });
    const sheets = start.sheets.length > 0 ? start.sheets : [{ name: 'Sheet1', values: [] }];
    for (const sheet of sheets) this.startSheet(sheet);
    for (const [key, value] of Object.entries(start.settings ?? {}))
      this.book.settings.set(key, value);
    this.book.happened.length = 0;
  }

  private startSheet({ name, values, formulas, numberFormat }: StartSheet): void {
    const { grid } = this.book.addSheet(name);
    values.forEach((row, r) =>
      row.forEach((value, c) => {
        const formula = formulas?.[r]?.[c] ?? '';
        if (value !== null) grid.put(r, c, formula === '' ? { value } : { value, formula });
        const format = numberFormat?.[r]?.[c];
        if (format !== undefined)
          grid.paint('numberFormat', { top: r, left: c, rows: 1, columns: 1 }, format);
      }),
    );
  }

  /** `Excel.run` */
  run = async <T>(work: (context: Context) => Promise<T>): Promise<T> => {
    const run: Run = { syncs: [] };
    this.runs.push(run);
    const terms: Terms = {
      set: this.set,
      payload: this.payload,
      onSync: (bytes, operations, statements) => run.syncs.push({ bytes, operations, statements }),
      beforeSync: () => this.refuse(),
      afterSync: () => this.tell(),
    };
    const context = new Context(terms, { kind: () => workbookKind, target: this.book });
    const result = await work(context);
    await context.sync();
    // the closing sync is the library's own: counted only if it had something to do
    if (run.syncs.at(-1)?.operations === 0) run.syncs.pop();
    return result;
  };

  private refuse(): void {
    if (this.editing)
      throw new OfficeError('InvalidOperationInCellEditMode', 'Excel is in cell-editing mode');
    const code = this.failNext.shift();
    if (code !== undefined) throw new OfficeError(code, `The host says ${code}`);
  }

  /** Events reach their handlers after the batch. */
  private tell(): void {
    const happened = this.book.happened.splice(0);
    setTimeout(() => {
      for (const { list, args } of happened)
        for (const handler of list.handlers) void handler(args);
    }, 0);
  }

  private own(sheet: string): SheetState {
    const found = this.book.sheet(sheet);
    if (!found) throw new Error(`no sheet ${sheet}; there are ${this.sheets().join(', ')}`);
    return found;
  }

  // What tests ask and do.

  sheets(): string[] {
    return this.book.sheets.map((s) => s.name);
  }

  /** The name of the sheet in front and the chosen cell, "Trees!B3". */
  chosen(): string {
    const { top, left } = this.book.selection;
    return `${this.book.active.name}!${letters(left)}${top + 1}`;
  }

  /** Values of a sheet from A1 to its last filled cell. */
  values(sheet: string): Value[][] {
    const { grid } = this.own(sheet);
    const used = grid.used();
    if (!used) return [];
    return grid.table(
      { top: 0, left: 0, rows: used.top + used.rows, columns: used.left + used.columns },
      (row, column) => grid.shown(row, column),
    );
  }

  /** A cell by its address, "B3". */
  cell(sheet: string, address: string): FakeCell {
    const { top, left } = areaOf(address);
    return this.cellAt(sheet, top, left);
  }

  cellAt(sheet: string, row: number, column: number): FakeCell {
    const { grid } = this.own(sheet);
    const entry = grid.at(row, column);
    const look = <T>(key: string, otherwise: T): T => grid.look(key, row, column, otherwise) as T;
    const edge = (side: string) => ({
      style: look(`border.${side}.style`, 'None'),
      weight: look(`border.${side}.weight`, 'Thin'),
      color: look(`border.${side}.color`, ''),
    });
    return {
      value: entry?.value ?? '',
      formula: entry?.formula ?? '',
      numberFormat: grid.format(row, column),
      font: {
        name: look('font.name', 'Calibri'),
        size: look('font.size', 11),
        color: look('font.color', '#000000'),
        bold: look('font.bold', false),
        italic: look('font.italic', false),
      },
      fill: look('fill.color', ''),
      align: look('align', 'General'),
      vertical: look('vertical', 'Bottom'),
      indent: look('indent', 0),
      wrap: look('wrap', false),
      border: {
        top: edge('top'),
        bottom: edge('bottom'),
        left: edge('left'),
        right: edge('right'),
      },
      hyperlink: look('hyperlink', null),
    };
  }

  setting(key: string): unknown {
    return this.book.settings.get(key);
  }

  /** A person types into a cell, as the program would read it. */
  type(sheet: string, address: string, value: string | number | boolean): void {
    const own = this.own(sheet);
    const { top, left } = areaOf(address);
    own.enter(top, left, value);
    this.fire('changed', { worksheetId: own.id, address, type: 'Changed' });
  }

  /** A person brings a sheet to the front. */
  activate(sheet: string): void {
    this.book.active = this.own(sheet);
    this.fire('activated', { worksheetId: this.book.active.id });
  }

  /** A person chooses a cell of the sheet in front, or a block, "A1:C3", or several, "A1:C3,E1:E9". */
  choose(address: string): void {
    const [first = '', ...others] = address.split(',');
    this.book.selection = areaOf(first);
    this.book.alsoSelected = others.map(areaOf);
    this.fire('selection', { worksheetId: this.book.active.id, address });
  }

  private fire(event: 'changed' | 'activated' | 'selection', args: object): void {
    const handlers: readonly Handler[] = this.book.events[event].handlers;
    for (const handler of handlers) void handler(args);
  }

  /** Syncs of all runs. */
  get syncs(): number {
    return this.runs.reduce((n, run) => n + run.syncs.length, 0);
  }

  /** Puts the library's globals in place; gives a function that takes them away again. */
  install(): () => void {
    const page = globalThis as Record<string, unknown>;
    const before = {
      Excel: page['Excel'],
      Office: page['Office'],
      CustomFunctions: page['CustomFunctions'],
    };
    page['Excel'] = strictly('Excel', { run: this.run });
    page['Office'] = strictly('Office', {
      onReady: () => Promise.resolve({ host: 'Excel', platform: 'OfficeOnline' }),
      context: strictly('Office.context', {
        requirements: strictly('Office.context.requirements', {
          isSetSupported: (name: string, version: string) => this.isSetSupported(name, version),
        }),
        platform: this.platform,
        displayLanguage: 'en-US',
        contentLanguage: 'en-US',
        // the program's theme; undefined where it has none to give
        officeTheme: undefined,
      }),
    });
    page['CustomFunctions'] = strictly('CustomFunctions', {
      associate: (id: string) => void this.associated.push(id),
    });
    return () => void Object.assign(page, before);
  }

  private isSetSupported(name: string, version: string): boolean {
    const minor = Number(/^1\.(\d+)$/.exec(version)?.[1] ?? NaN);
    if (Number.isNaN(minor)) throw new Error(`"${version}" is no version of a requirement set`);
    return name === 'ExcelApi' && minor <= this.set;
  }
}

/** An object on which unknown members throw. */
function strictly(name: string, members: Record<string, unknown>): object {
  return new Proxy(members, {
    get(own, key) {
      if (typeof key === 'symbol' || key === 'then') return undefined;
      if (!(key in own)) throw new OfficeError('UnknownMember', `${name} has no member ${key}, as far as this stand-in knows`); // prettier-ignore
      return own[key];
    },
  });
}
