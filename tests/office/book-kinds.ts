/** The workbook, its sheets, names, settings and events, as the host offers them. */
import {
  type Book,
  type EventList,
  type Handler,
  type NameState,
  type RangeState,
} from './book.js';
import { invalid, OfficeError } from './errors.js';
import { answers, anything, callback, does, flag, gives, givesOrNull, kind, may, must, nav, readOnly, text, type AnyKind } from './members.js'; // prettier-ignore
import { rangeKind } from './range-kinds.js';
import { fullAddress, isRangeOrText } from './ranges.js';
import { sheetKind, tablesKind } from './sheet-kinds.js';

const registrationKind = kind<Handler>('EventHandlerResult', {});
const eventKind = kind<EventList>('EventHandlers', {
  methods: {
    add: gives(1, () => registrationKind, [must(callback)], (list: EventList, handler: Handler) => {
      list.handlers.push(handler);
      return handler;
    }),
  },
}); // prettier-ignore

const nameKind: AnyKind = kind<{ book: Book; name: NameState }>('NamedItem', {
  props: {
    name: readOnly(1, ({ name }) => name.name),
    formula: {
      since: 7,
      get: ({ name }) => name.formula,
      put: ({ book, name }, value: string) => {
        book.checkReferences(value);
        name.formula = value;
      },
      check: text,
    },
    comment: { since: 4, get: ({ name }) => name.comment, put: ({ name }, v) => void (name.comment = v), check: text },
    visible: { since: 1, get: ({ name }) => name.visible, put: ({ name }, v) => void (name.visible = v), check: flag },
  },
  methods: {
    delete: does(4, [], ({ book, name }: { book: Book; name: NameState }) => void book.names.splice(book.names.indexOf(name), 1)),
  },
}); // prettier-ignore
const nameOf = (book: Book, wanted: string) => {
  const name = book.names.find((n) => n.name.toLowerCase() === wanted.toLowerCase());
  return name && { book, name };
};
const namesKind: AnyKind = kind<Book>('NamedItemCollection', {
  methods: {
    add: gives(4, () => nameKind, [must(text), must(isRangeOrText), may(text)], (book: Book, name: string, at: RangeState | string, comment = '') => ({
      book,
      name: book.addName(name, typeof at === 'string' ? at : `=${fullAddress(at)}`, comment),
    })),
    getItem: gives(1, () => nameKind, [must(text)], nameOf),
    getItemOrNullObject: givesOrNull(4, () => nameKind, [must(text)], nameOf),
  },
  items: { kind: () => nameKind, of: (book) => book.names.map((name) => ({ book, name })) },
}); // prettier-ignore

interface SettingState {
  book: Book;
  key: string;
}
/** Longest text of one setting that is safe in every version of the program [characters]. */
const LONGEST_SETTING = 32_767;
const settingKind: AnyKind = kind<SettingState>('Setting', {
  props: {
    key: readOnly(4, ({ key }) => key),
    value: { since: 4, get: ({ book, key }) => book.settings.get(key), put: ({ book, key }, value) => void book.settings.set(key, value), check: anything },
  },
  methods: { delete: does(4, [], ({ book, key }: SettingState) => void book.settings.delete(key)) },
}); // prettier-ignore
const settingsKind: AnyKind = kind<Book>('SettingCollection', {
  methods: {
    add: gives(4, () => settingKind, [must(text), must(anything)], (book: Book, key: string, value: unknown) => {
      if (key === '' || key.length > 255) throw invalid('The key of a setting has 1 to 255 characters');
      if (typeof value === 'string' && value.length > LONGEST_SETTING) throw invalid('The value of a setting is too long');
      book.settings.set(key, value);
      return { book, key };
    }),
    getItem: gives(4, () => settingKind, [must(text)], (book: Book, key: string) => (book.settings.has(key) ? { book, key } : null)),
    getItemOrNullObject: givesOrNull(4, () => settingKind, [must(text)], (book: Book, key: string) => (book.settings.has(key) ? { book, key } : null)),
  },
  items: { kind: () => settingKind, of: (book) => [...book.settings.keys()].map((key) => ({ book, key })) },
}); // prettier-ignore

const sheetsKind: AnyKind = kind<Book>('WorksheetCollection', {
  navs: {
    onChanged: nav<Book>(9, () => eventKind, (b) => b.events.changed),
    onActivated: nav<Book>(7, () => eventKind, (b) => b.events.activated),
    onSelectionChanged: nav<Book>(9, () => eventKind, (b) => b.events.selection),
    onAdded: nav<Book>(7, () => eventKind, (b) => b.events.added),
    onDeleted: nav<Book>(7, () => eventKind, (b) => b.events.deleted),
  },
  methods: {
    add: gives(1, sheetKind, [may(text)], (b: Book, name?: string) => b.addSheet(name)),
    getActiveWorksheet: gives(1, sheetKind, [], (b: Book) => b.active),
    getItem: gives(1, sheetKind, [must(text)], (b: Book, key: string) => b.sheet(key)),
    getItemOrNullObject: givesOrNull(4, sheetKind, [must(text)], (b: Book, key: string) => b.sheet(key)),
    getCount: answers(4, [may(flag)], (b: Book) => b.sheets.length),
  },
  items: { kind: sheetKind, of: (b) => b.sheets },
}); // prettier-ignore

const applicationKind = kind<Book>('Application', {
  methods: {
    suspendApiCalculationUntilNextSync: does(6, [], () => undefined),
    suspendScreenUpdatingUntilNextSync: does(9, [], () => undefined),
  },
});
const protectionKind = kind<Book>('WorkbookProtection', {
  props: { protected: readOnly(7, (b) => b.structureProtected) },
});

export const workbookKind: AnyKind = kind<Book>('Workbook', {
  navs: {
    worksheets: nav<Book>(1, () => sheetsKind, (b) => b),
    tables: nav<Book>(1, () => tablesKind, (b) => ({ book: b })),
    names: nav<Book>(1, () => namesKind, (b) => b),
    settings: nav<Book>(4, () => settingsKind, (b) => b),
    application: nav<Book>(1, () => applicationKind, (b) => b),
    protection: nav<Book>(7, () => protectionKind, (b) => b),
  },
  methods: {
    getActiveCell: gives(7, () => rangeKind, [], (b: Book) => ({
      sheet: b.active,
      areas: [{ top: b.selection.top, left: b.selection.left, rows: 1, columns: 1 }],
    })),
    getSelectedRange: gives(1, () => rangeKind, [], (b: Book) => {
      if (b.alsoSelected.length > 0) throw new OfficeError('InvalidSelection', 'The current selection is invalid for this operation.');
      return { sheet: b.active, areas: [b.selection] };
    }),
  },
}); // prettier-ignore
