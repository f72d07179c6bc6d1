/** A workbook as the stand-in keeps it, with the rules of the spreadsheet program for names. */
import { addressOf, areaOf, overlap, type Area } from './areas.js';
import { invalid, OfficeError } from './errors.js';
import { Grid } from './grid.js';
import { entered, type Value } from './typed.js';

export type Handler = (args: unknown) => unknown;

export class EventList {
  readonly handlers: Handler[] = [];
}

export interface TableState {
  id: string;
  name: string;
  sheet: SheetState;
  area: Area;
  style: string;
  showBandedRows: boolean;
  showFilterButton: boolean;
}

export interface NameState {
  name: string;
  formula: string;
  comment: string;
  visible: boolean;
}

export interface RangeState {
  sheet: SheetState;
  areas: Area[];
}

export interface SeriesState {
  name: string;
  chartType: string;
  values: string;
  categories: string;
  color: string;
  lineStyle: string;
  weight: number;
  markerStyle: string;
  smooth: boolean;
  gapWidth: number;
}

export interface TextState {
  text: string;
  visible: boolean;
  size: number;
  color: string;
  name: string;
  bold: boolean;
}

export interface AxisState {
  title: TextState;
  font: TextState;
  numberFormat: string;
  categoryType: string;
  tickLabelSpacing: unknown;
  textOrientation: unknown;
  gridlines: { visible: boolean };
}

export interface ChartState {
  name: string;
  sheet: SheetState;
  chartType: string;
  title: TextState;
  legend: { visible: boolean; position: string };
  category: AxisState;
  value: AxisState;
  series: SeriesState[];
  position: [string, string];
}

export interface ShapeState {
  id: string;
  name: string;
  sheet: SheetState;
  image: string;
  altTextTitle: string;
  altTextDescription: string;
  left: number;
  top: number;
  width: number;
  height: number;
  lockAspectRatio: boolean;
  placement: string;
}

export interface ValidationState {
  areas: Area[];
  rule: unknown;
  prompt: unknown;
  errorAlert: unknown;
  ignoreBlanks: boolean;
}

export interface ConditionState {
  areas: Area[];
  formula: string;
  color: string;
  bold: boolean;
}

export interface PageState {
  orientation: string;
  paperSize: string;
  zoom: unknown;
  margins: unknown;
  titleRows: string;
  titleColumns: string;
  printArea: string;
  headers: Record<string, string>;
}

let serial = 0;
const nextId = (): string => `{${String(++serial).padStart(8, '0')}-0000-4000-8000-000000000000}`;

const words = (): TextState => ({
  text: '',
  visible: true,
  size: 10,
  color: '',
  name: '',
  bold: false,
});
export const axis = (): AxisState => ({
  title: { ...words(), visible: false },
  font: words(),
  numberFormat: 'General',
  categoryType: 'Automatic',
  tickLabelSpacing: 1,
  textOrientation: 0,
  gridlines: { visible: true },
});
export const chartWords = words;

export class SheetState {
  readonly id = nextId();
  readonly grid = new Grid();
  visibility = 'Visible';
  showGridlines = true;
  tabColor = '';
  readonly charts: ChartState[] = [];
  readonly shapes: ShapeState[] = [];
  readonly validations: ValidationState[] = [];
  readonly conditions: ConditionState[] = [];
  frozen: { rows: number; columns: number } = { rows: 0, columns: 0 };
  readonly breaks: { horizontal: string[]; vertical: string[] } = { horizontal: [], vertical: [] };
  readonly page: PageState = {
    orientation: 'Portrait',
    paperSize: 'Letter',
    zoom: { scale: 100 },
    margins: {},
    titleRows: '',
    titleColumns: '',
    printArea: '',
    headers: {},
  };

  constructor(
    readonly book: Book,
    public name: string,
  ) {}

  /** Writes one value, as the host would read it. */
  enter(row: number, column: number, raw: unknown): void {
    const entry = entered(raw, this.grid.format(row, column), (formula) =>
      this.book.calculate(formula, this, row, column),
    );
    if (entry) this.grid.put(row, column, entry);
  }
}

/** Longest formula [characters]. */
const LONGEST_FORMULA = 8192;
const TABLE_NAME = /^[\p{L}_\\][\p{L}\p{N}_.\\]*$/u;
const CELL_LIKE = /^(?:[A-Za-z]{1,3}[1-9]\d{0,6}|R\d*C\d*|[RC])$/i;
const OWN_FUNCTION = /\bSOAK\.|_xldudf_/i;

export interface BookOptions {
  /** our functions are not there: their cells show #NAME? */
  addInMissing: boolean;
  /** what a formula shows */
  compute: (formula: string, at: { sheet: string; row: number; column: number }) => Value;
}

export class Book {
  readonly sheets: SheetState[] = [];
  readonly tables: TableState[] = [];
  readonly names: NameState[] = [];
  readonly settings = new Map<string, unknown>();
  structureProtected = false;
  active!: SheetState;
  selection: Area = areaOf('A1');
  /** blocks selected beside the first, with Ctrl held */
  alsoSelected: Area[] = [];
  readonly events = {
    changed: new EventList(),
    activated: new EventList(),
    selection: new EventList(),
    added: new EventList(),
    deleted: new EventList(),
  };
  readonly happened: { list: EventList; args: Record<string, unknown> }[] = [];

  constructor(readonly options: BookOptions) {}

  sheet(nameOrId: string): SheetState | undefined {
    const wanted = nameOrId.toLowerCase();
    return this.sheets.find((s) => s.name.toLowerCase() === wanted || s.id === nameOrId);
  }

  checkSheetName(name: string, but?: SheetState): void {
    if (
      name === '' ||
      name.length > 31 ||
      /[\\/?*:[\]]/.test(name) ||
      /^'|'$/.test(name) ||
      /^history$/i.test(name)
    )
      throw invalid(`The sheet name "${name}" is not valid`);
    if (this.sheets.some((s) => s !== but && s.name.toLowerCase() === name.toLowerCase()))
      throw new OfficeError('ItemAlreadyExists', `A sheet "${name}" already exists`);
  }

  checkStructure(): void {
    if (this.structureProtected)
      throw new OfficeError('AccessDenied', 'The structure of the workbook is protected');
  }

  addSheet(name?: string): SheetState {
    this.checkStructure();
    let own = name ?? '';
    if (name === undefined) for (let n = 1; own === '' || this.sheet(own); n++) own = `Sheet${n}`;
    this.checkSheetName(own);
    const sheet = new SheetState(this, own);
    this.sheets.push(sheet);
    this.active ??= sheet;
    this.happened.push({ list: this.events.added, args: { worksheetId: sheet.id } });
    return sheet;
  }

  /** Formulas and names follow, as in the program. */
  renameSheet(sheet: SheetState, name: string): void {
    this.checkStructure();
    this.checkSheetName(name, sheet);
    const old = referencePattern(sheet.name);
    const now = `'${name.replaceAll("'", "''")}'!`;
    for (const own of this.names) own.formula = own.formula.replace(old, () => now);
    for (const { grid } of this.sheets)
      for (const { row, column, entry } of grid.filled())
        if (entry.formula !== undefined)
          grid.put(row, column, { ...entry, formula: entry.formula.replace(old, () => now) });
    sheet.name = name;
  }

  deleteSheet(sheet: SheetState): void {
    this.checkStructure();
    const others = this.sheets.filter((s) => s !== sheet && s.visibility === 'Visible');
    if (others.length === 0)
      throw new OfficeError('GeneralException', 'A workbook must hold one visible sheet');
    this.sheets.splice(this.sheets.indexOf(sheet), 1);
    for (let i = this.tables.length - 1; i >= 0; i--)
      if (this.tables[i]!.sheet === sheet) this.tables.splice(i, 1);
    const dead = referencePattern(sheet.name);
    for (const name of this.names) name.formula = name.formula.replace(dead, '#REF!');
    if (this.active === sheet) this.active = others[0]!;
    this.happened.push({ list: this.events.deleted, args: { worksheetId: sheet.id } });
  }

  /** Tables and defined names live in one room. */
  checkName(name: string, what: 'table' | 'name', but?: TableState): void {
    if (!TABLE_NAME.test(name) || CELL_LIKE.test(name) || name.length > 255)
      throw invalid(`The ${what} name "${name}" is not valid`);
    const same = (other: { name: string }): boolean =>
      other !== but && other.name.toLowerCase() === name.toLowerCase();
    if (this.tables.some(same) || this.names.some(same))
      throw new OfficeError('ItemAlreadyExists', `The name "${name}" already exists`);
  }

  addTable(sheet: SheetState, area: Area, hasHeaders: boolean): TableState {
    if (area.rows < 2) throw invalid('A table needs a row below its header');
    if (this.tables.some((t) => t.sheet === sheet && overlap(t.area, area)))
      throw invalid(`A table at ${addressOf(area)} would overlap another one`);
    if (hasHeaders) {
      const headers = Array.from({ length: area.columns }, (_, c) =>
        sheet.grid.at(area.top, area.left + c),
      );
      headers.forEach((entry, i) => {
        if (typeof entry?.value !== 'string' || entry.formula !== undefined)
          throw invalid(
            `The header of column ${i + 1} of the table at ${addressOf(area)} is no text`,
          );
      });
      const seen = headers.map((h) => String(h!.value).toLowerCase());
      const twice = seen.find((h, i) => seen.indexOf(h) !== i);
      if (twice !== undefined) throw invalid(`The header "${twice}" is there twice`);
    }
    let n = 1;
    while (this.tables.some((t) => t.name === `Table${n}`)) n++;
    const table: TableState = {
      id: nextId(),
      name: `Table${n}`,
      sheet,
      area,
      style: 'TableStyleMedium2',
      showBandedRows: true,
      showFilterButton: true,
    };
    this.tables.push(table);
    return table;
  }

  addName(name: string, formula: string, comment: string): NameState {
    this.checkName(name, 'name');
    if (!formula.startsWith('='))
      throw invalid('The reference of a name starts with an equals sign');
    this.checkReferences(formula);
    const made = { name, formula, comment, visible: true };
    this.names.push(made);
    return made;
  }

  /** A formula that names a sheet which is not there is refused: the program would ask for a file. */
  checkReferences(formula: string): void {
    const plain = formula.replace(/"(?:[^"]|"")*"/g, '""');
    for (const [, quoted, bare] of plain.matchAll(
      /'((?:[^']|'')+)'!|(?<![\]\w.#])([\p{L}_][\p{L}\p{N}_.]*)!/gu,
    )) {
      const name = quoted?.replaceAll("''", "'") ?? bare!;
      if (!name.includes(']') && this.sheet(name) === undefined)
        throw invalid(
          `The formula ${formula.slice(0, 80)} names a sheet "${name}" that is not there`,
        );
    }
  }

  calculate(formula: string, sheet: SheetState, row: number, column: number): Value {
    if (formula.length > LONGEST_FORMULA)
      throw new OfficeError('FormulaLengthExceedsLimit', 'The formula is too long');
    this.checkReferences(formula);
    if (this.options.addInMissing && OWN_FUNCTION.test(formula)) return '#NAME?';
    return this.options.compute(formula, { sheet: sheet.name, row, column });
  }
}

const referencePattern = (sheet: string): RegExp => {
  const plain = sheet.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  return new RegExp(`'${plain.replaceAll("'", "''")}'!|(?<![\\w'])${plain}!`, 'gi');
};
