/** A host in memory for tests of the session: sheets as cells, settings as a map. */
import type { Cell } from '../../src/tables/cells.js';
import type { Host, Receipt } from '../../src/taskpane/host.js';
import { changed } from '../../src/workbook/order-sheet.js';
import type { WorkbookModel } from '../../src/workbook/model.js';

export interface MemoryHost extends Host {
  tables: Map<string, Cell[][]>;
  settings: Map<string, string>;
  written: WorkbookModel[];
  /** selects cells, as a person does */
  select(sheet: string, range: string): void;
  /** brings a sheet to the front, as a person does */
  bring(sheet: string): void;
  /** tells the panel that cells have changed */
  announce(): void;
}

export function memoryHost(sheets: Record<string, Cell[][]>): MemoryHost {
  const tables = new Map(Object.entries(sheets));
  const settings = new Map<string, string>();
  const written: WorkbookModel[] = [];
  const listeners: (() => void)[] = [];
  let front = Object.keys(sheets)[0] ?? '';
  let selected = { sheet: front, range: 'A1' };
  const refuse = (): never => {
    throw new Error('this test does not ask for it');
  };
  return {
    kind: 'office',
    tables,
    settings,
    written,
    select(sheet, range) {
      selected = { sheet, range };
    },
    bring(sheet) {
      front = sheet;
    },
    announce: () => listeners.forEach((listener) => listener()),
    sheetName: async () => front,
    openSheets: async () => [...tables.keys()],
    readActiveTable: async () => ({ cells: tables.get(front) ?? [] }),
    readTable: async (sheet) => ({ cells: tables.get(sheet) ?? [] }),
    showCell: async () => undefined,
    saveFile: async () => undefined,
    onChange: (listener) => void listeners.push(listener),
    onChoose: () => undefined,
    selectedCells: async () => selected,
    writeModel: async (model): Promise<Receipt> => {
      written.push(model);
      return { sheets: model.sheets.map(({ name }) => ({ key: name, name })), names: [] };
    },
    removeSheets: async ({ sheets }) => sheets.forEach(({ name }) => tables.delete(name)),
    replaceSheets: async (_old, model): Promise<Receipt> => {
      written.push(model);
      return { sheets: model.sheets.map(({ name }) => ({ key: name, name })), names: [] };
    },
    sheetKeys: async () => [...tables.keys()].map((name) => ({ key: name, name })),
    readSetting: async (key) => settings.get(key) ?? '',
    writeSetting: async (key, value) => void settings.set(key, value),
    insertFormula: async () => refuse(),
    cellValues: async () => refuse(),
    blankCells: async () => refuse(),
    appendRow: async () => refuse(),
    editCells: async (sheet, edits) => {
      const rows = (tables.get(sheet) ?? []).map((row) => [...row]);
      const held = edits.filter((e) => (rows[e.row]?.[e.column] ?? null) === e.was);
      for (const { row, column, value } of held) {
        while ((rows[row] ??= []).length < column) rows[row].push(null);
        rows[row][column] = value;
      }
      tables.set(sheet, rows);
      return held.length;
    },
    changeCells: async (sheet, changes) =>
      void tables.set(sheet, changed(tables.get(sheet) ?? [], changes)),
    repair: async () => 0,
  };
}

/** Trees of an invented street. */
export const TREES: Cell[][] = [
  ['Tag', 'Species', 'Caliper (in)', 'Address'],
  ['A-1', 'live oak', 2, '1 Hawser Lane'],
  ['A-2', 'live oak', 3, '2 Hawser Lane'],
  ['A-3', 'desert willow', 'none', '3 Hawser Lane'],
];
