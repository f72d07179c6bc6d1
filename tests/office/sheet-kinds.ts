/** Sheets with their tables, panes, printed pages, charts and pictures, as the host offers them. */
import { areaOf } from './areas.js';
import type { Book, PageState, RangeState, ShapeState, SheetState, TableState } from './book.js';
import { chartsKind } from './chart-kinds.js';
import { invalid } from './errors.js';
import { does, flag, gives, givesOrNull, kept, kind, may, must, nav, number, oneOf, readOnly, shape, text, type AnyKind, type Check } from './members.js'; // prettier-ignore
import { areasKind, rangeKind } from './range-kinds.js';
import { isRangeOrText, rangeOf, usedOf, whole } from './ranges.js';

const asRange = (sheet: SheetState, given: RangeState | string): RangeState =>
  typeof given === 'string' ? rangeOf(sheet, given) : given;
const index: Check = (value) =>
  number(value) ?? (Number.isInteger(value) && (value as number) >= 0 ? undefined : 'a whole number from 0 is expected'); // prettier-ignore
/** Longest address of several areas [characters]. */
const LONGEST_ADDRESS = 8192;

const tableKind: AnyKind = kind<TableState>('Table', {
  props: {
    id: readOnly(1, (t) => t.id),
    name: {
      since: 1,
      get: (t) => t.name,
      put: (t, name: string) => {
        t.sheet.book.checkName(name, 'table', t);
        t.name = name;
      },
      check: text,
    },
    style: kept<TableState>(1, 'style', text),
    showBandedRows: kept<TableState>(3, 'showBandedRows', flag),
    showFilterButton: kept<TableState>(3, 'showFilterButton', flag),
  },
  navs: { worksheet: nav<TableState>(2, () => sheetKind(), (t) => t.sheet) },
  methods: {
    delete: does(1, [], (t: TableState) => {
      const { tables } = t.sheet.book;
      tables.splice(tables.indexOf(t), 1);
    }),
    getRange: gives(1, () => rangeKind, [], (t: TableState) => ({ sheet: t.sheet, areas: [t.area] })),
  },
}); // prettier-ignore

interface TablePool {
  book: Book;
  sheet?: SheetState;
}
const own = ({ book, sheet }: TablePool): TableState[] =>
  book.tables.filter((t) => sheet === undefined || t.sheet === sheet);
export const tablesKind: AnyKind = kind<TablePool>('TableCollection', {
  props: { count: readOnly(1, (pool) => own(pool).length) },
  methods: {
    add: gives(1, () => tableKind, [must(isRangeOrText), must(flag)], ({ book, sheet }: TablePool, at: RangeState | string, headers: boolean) => {
      const range = asRange(sheet ?? book.active, at);
      return book.addTable(range.sheet, range.areas[0]!, headers);
    }),
    getItem: gives(1, () => tableKind, [must(text)], (pool: TablePool, key: string) => own(pool).find((t) => t.name.toLowerCase() === key.toLowerCase() || t.id === key)),
    getItemOrNullObject: givesOrNull(4, () => tableKind, [must(text)], (pool: TablePool, key: string) => own(pool).find((t) => t.name.toLowerCase() === key.toLowerCase() || t.id === key)),
  },
  items: { kind: () => tableKind, of: own },
}); // prettier-ignore

const freezeKind = kind<SheetState>('WorksheetFreezePanes', {
  methods: {
    freezeRows: does(7, [may(number)], (s: SheetState, rows: number) => void (s.frozen = { rows, columns: 0 })),
    freezeColumns: does(7, [may(number)], (s: SheetState, columns: number) => void (s.frozen = { rows: 0, columns })),
    freezeAt: does(7, [must(isRangeOrText)], (s: SheetState, at: RangeState | string) => {
      const { top, left, rows, columns } = asRange(s, at).areas[0]!;
      s.frozen = { rows: top + rows, columns: left + columns };
    }),
    unfreeze: does(7, [], (s: SheetState) => void (s.frozen = { rows: 0, columns: 0 })),
  },
}); // prettier-ignore

const header = (key: string) => ({
  since: 9,
  get: (p: PageState) => p.headers[key] ?? '',
  put: (p: PageState, value: string) => {
    if (value.length > 255) throw invalid('A header or footer holds at most 255 characters');
    p.headers[key] = value;
  },
  check: text,
});
const headerKind = kind<PageState>('HeaderFooter', {
  props: Object.fromEntries(
    ['leftHeader', 'centerHeader', 'rightHeader', 'leftFooter', 'centerFooter', 'rightFooter'].map(
      (key) => [key, header(key)],
    ),
  ),
});
const headersKind = kind<PageState>('HeaderFooterGroup', {
  navs: { defaultForAllPages: nav<PageState>(9, () => headerKind, (p) => p) },
}); // prettier-ignore

const entire = (what: 'rows' | 'columns', range: RangeState): string => {
  const { rows, columns, top, left } = range.areas[0]!;
  if (what === 'rows' ? columns < 16_384 : rows < 1_048_576)
    throw invalid(`Titles on every page are whole ${what}`);
  return JSON.stringify(what === 'rows' ? [top, rows] : [left, columns]);
};
interface Paged {
  sheet: SheetState;
}
const page = ({ sheet }: Paged): PageState => sheet.page;
const inches = shape({ top: number, bottom: number, left: number, right: number, header: number, footer: number }); // prettier-ignore
const pageProp = (key: 'orientation' | 'paperSize' | 'zoom', check: Check) => ({
  since: 9,
  get: (p: Paged) => page(p)[key],
  put: (p: Paged, value: never) => void (page(p)[key] = value),
  check,
});
const pageKind = kind<Paged>('PageLayout', {
  props: {
    orientation: pageProp('orientation', oneOf('Portrait', 'Landscape')),
    paperSize: pageProp('paperSize', oneOf('Letter', 'Legal', 'A3', 'A4', 'A5')),
    zoom: pageProp('zoom', shape({ scale: number, horizontalFitToPages: number, verticalFitToPages: number })), // prettier-ignore
  },
  navs: { headersFooters: nav<Paged>(9, () => headersKind, page) },
  methods: {
    setPrintMargins: does(9, [must(oneOf('Points', 'Inches', 'Centimeters')), must(inches)], (p: Paged, unit: string, margins: object) => void (page(p).margins = { unit, ...margins })),
    setPrintTitleRows: does(9, [must(isRangeOrText)], (p: Paged, at: RangeState | string) => void (page(p).titleRows = entire('rows', asRange(p.sheet, at)))),
    setPrintTitleColumns: does(9, [must(isRangeOrText)], (p: Paged, at: RangeState | string) => void (page(p).titleColumns = entire('columns', asRange(p.sheet, at)))),
    setPrintArea: does(9, [must(isRangeOrText)], (p: Paged, at: RangeState | string) => void (page(p).printArea = JSON.stringify(asRange(p.sheet, at).areas[0]))),
  },
}); // prettier-ignore

const breakKind = kind<string>('PageBreak', {});
const breaksKind = (which: 'horizontal' | 'vertical') =>
  kind<SheetState>('PageBreakCollection', {
    methods: {
      add: gives(9, () => breakKind, [must(isRangeOrText)], (s: SheetState, at: RangeState | string) => {
        const { top, left } = asRange(s, at).areas[0]!;
        if ((which === 'horizontal' ? top : left) === 0) throw invalid('A page cannot break before the first cell');
        s.breaks[which].push(String(which === 'horizontal' ? top : left));
        return String(top);
      }),
    },
  }); // prettier-ignore
const horizontal = breaksKind('horizontal');
const vertical = breaksKind('vertical');

const shapeKind: AnyKind = kind<ShapeState>('Shape', {
  props: {
    id: readOnly(9, (s) => s.id),
    name: kept<ShapeState>(9, 'name', text),
    altTextTitle: kept<ShapeState>(9, 'altTextTitle', text),
    altTextDescription: kept<ShapeState>(9, 'altTextDescription', text),
    left: kept<ShapeState>(9, 'left', number),
    top: kept<ShapeState>(9, 'top', number),
    width: kept<ShapeState>(9, 'width', number),
    height: kept<ShapeState>(9, 'height', number),
    lockAspectRatio: kept<ShapeState>(9, 'lockAspectRatio', flag),
    placement: kept<ShapeState>(10, 'placement', oneOf('TwoCell', 'OneCell', 'Absolute')),
  },
  methods: {
    delete: does(9, [], (s: ShapeState) => void s.sheet.shapes.splice(s.sheet.shapes.indexOf(s), 1)),
  },
}); // prettier-ignore
/** How the base64 text of a PNG or JPEG image begins. */
const IMAGE = /^(?:iVBORw0KGgo|\/9j\/)[A-Za-z0-9+/]+=*$/;
const shapesKind = kind<SheetState>('ShapeCollection', {
  methods: {
    addImage: gives(9, () => shapeKind, [must(text)], (sheet: SheetState, image: string): ShapeState => {
      if (!IMAGE.test(image)) throw invalid('The image is no PNG or JPEG in base64');
      const n = sheet.shapes.length + 1;
      const made: ShapeState = { id: `shape-${sheet.id}-${n}`, name: `Picture ${n}`, sheet, image, altTextTitle: '', altTextDescription: '', left: 0, top: 0, width: 100, height: 100, lockAspectRatio: true, placement: 'TwoCell' };
      sheet.shapes.push(made);
      return made;
    }),
  },
  items: { kind: () => shapeKind, of: (s) => s.shapes },
}); // prettier-ignore

const sheet: AnyKind = kind<SheetState>('Worksheet', {
  props: {
    id: readOnly(1, (s) => s.id),
    name: {
      since: 1,
      get: (s) => s.name,
      put: (s, name: string) => s.book.renameSheet(s, name),
      check: text,
    },
    position: readOnly(1, (s) => s.book.sheets.indexOf(s)),
    visibility: kept<SheetState>(1, 'visibility', oneOf('Visible', 'Hidden', 'VeryHidden')),
    showGridlines: kept<SheetState>(8, 'showGridlines', flag),
    tabColor: kept<SheetState>(7, 'tabColor', text),
  },
  navs: {
    tables: nav<SheetState>(1, () => tablesKind, (s): TablePool => ({ book: s.book, sheet: s })),
    charts: nav<SheetState>(1, () => chartsKind, (s) => s),
    shapes: nav<SheetState>(9, () => shapesKind, (s) => s),
    freezePanes: nav<SheetState>(7, () => freezeKind, (s) => s),
    pageLayout: nav<SheetState>(9, () => pageKind, (s): Paged => ({ sheet: s })),
    horizontalPageBreaks: nav<SheetState>(9, () => horizontal, (s) => s),
    verticalPageBreaks: nav<SheetState>(9, () => vertical, (s) => s),
  },
  methods: {
    activate: does(1, [], (s: SheetState) => {
      s.book.active = s;
      s.book.happened.push({ list: s.book.events.activated, args: { worksheetId: s.id } });
    }),
    delete: does(1, [], (s: SheetState) => s.book.deleteSheet(s)),
    getRange: gives(1, () => rangeKind, [may(text)], (s: SheetState, address?: string) => address === undefined ? whole(s) : rangeOf(s, address)),
    getRanges: gives(9, () => areasKind, [may(text)], (s: SheetState, address = '') => {
      if (address.length > LONGEST_ADDRESS) throw invalid('The address is too long');
      return { sheet: s, areas: address.split(',').map((a) => areaOf(a.trim())) };
    }),
    getCell: gives(1, () => rangeKind, [must(index), must(index)], (s: SheetState, row: number, column: number) => ({ sheet: s, areas: [{ top: row, left: column, rows: 1, columns: 1 }] })),
    getRangeByIndexes: gives(7, () => rangeKind, [must(index), must(index), must(index), must(index)], (s: SheetState, top: number, left: number, rows: number, columns: number) => {
      if (rows < 1 || columns < 1) throw invalid('A range holds one cell at least');
      return { sheet: s, areas: [{ top, left, rows, columns }] };
    }),
    getUsedRange: gives(1, () => rangeKind, [may(flag)], (s: SheetState) => usedOf(s) ?? rangeOf(s, 'A1')),
    getUsedRangeOrNullObject: givesOrNull(4, () => rangeKind, [may(flag)], usedOf),
  },
}); // prettier-ignore
export function sheetKind(): AnyKind {
  return sheet;
}
