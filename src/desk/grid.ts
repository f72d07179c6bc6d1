/** The grid of the desk, as the panel's host. */
import type { ICellData, IWorkbookData } from '@univerjs/presets';
import type { FRange, FWorksheet } from '@univerjs/presets/preset-sheets-core';

import { dayOf } from '../engine/dates.js';
import type { ChosenCell, Host } from '../taskpane/host.js';
import { letter, type Rasterise } from '../workbook/model.js';
import type { KeptBook } from './kept-form.js';
import { editOf, keptData, keptSource, type GridCommand, type KeptSource } from './kept-grid.js';
import { formulaIn, LONGEST_CALCULATION_MS, openBook, shownIn } from './open-book.js';
import { workbookData, type DeskSheet } from './open-data.js';
import type { FunctionMetadata, Implementation } from './registration.js';
import { descriptionsFor, executorsFor, Troubles } from './registration.js';
import { selectedCells } from './selected-cells.js';
import { appendRow, changeCells, editCells, repair, type Place } from './sheet-edits.js';
import { blankCells, cellValues, insertFormula } from './insert-formula.js';
import { readSheet } from './sheet-cells.js';
import { underWay } from './under-way.js';
import type { GridLibrary } from './vendor.js';
import { wholeWorkbook } from './whole-workbook.js';
import { WrittenModels } from './written-models.js';

export type { DeskSheet } from './open-data.js';

/** Rows, columns and sheets that come, go or change places. */
const MOVES_CELLS =
  /^sheet\.mutation\.(?:(?:insert|remove|move|reorder|delete)-|set-worksheet-name$)/;
const SETTLE_MS = 250;
const COLUMNS_BEFORE = 3;
/** Formulas are worked out when a workbook opens, also those that come with a result. */
const ALL_FORMULAS = 0;

export interface FunctionSet {
  metadata: readonly FunctionMetadata[];
  implementations: Readonly<Record<string, Implementation>>;
}

export interface DeskGrid extends Host {
  wholeWorkbook(): Promise<Uint8Array>;
  /**
   * Shows a workbook in place of the one that is open. Its formulas are worked out meanwhile: `calculated` waits for them.
   *
   * @param settings - what the workbook keeps by key, read and written by the grid from now on
   */
  open(title: string, sheets: readonly DeskSheet[], settings: Map<string, string>): void;
  /** Takes up a kept workbook, with its formulas, in place of the one that is open. */
  takeUp(kept: KeptBook, settings: Map<string, string>): void;
  /** the open workbook for what keeps it */
  readonly source: KeptSource;
  /** calls back after every edit, with the key of its sheet, "" where it is of none */
  onEdit(listener: (sheet: string) => void): void;
  /** resolves when the formulas of the workbook opened last show their results */
  calculated(): Promise<void>;
  /** what a cell of a sheet shows, from the grid's own model; "H2" */
  show(sheet: string, address: string): string | number | boolean | null;
  formula(sheet: string, address: string): string;
  trouble(sheet: string, address: string): string;
  write(sheet: string, address: string, value: string | number): Promise<void>;
  /** what the last file made of the open workbook holds in place of formulas and drawings; "" when all is there */
  fileNote(): string;
}

/** Today by the clock of the person's machine. */
function today() {
  const now = new Date();
  return dayOf(now.getFullYear(), now.getMonth() + 1, now.getDate());
}

/** The library names the steps of a long calculation but has no words for them: without these its keys stand on the screen. */
const PROGRESS = {
  analyzing: 'Looking through formulas',
  calculating: 'Calculating',
  'array-analysis': 'Looking through array formulas',
  'array-calculation': 'Calculating array formulas',
  done: 'Done',
};

/** The library's words with those it lacks. */
function withProgress(words: GridLibrary['english']): GridLibrary['english'] {
  const all = words as unknown as Record<string, object>;
  const formula = { ...all['sheets-formula'], progress: PROGRESS };
  return { ...all, 'sheets-formula': formula } as unknown as GridLibrary['english'];
}

/**
 * @param parts - the grid's library
 * @param container - element the grid fills
 * @param functions - our worksheet functions, to be known to the grid
 * @param rasterise - makes images of pictures when the workbook is saved
 */
export function createGrid(
  parts: GridLibrary,
  container: HTMLElement,
  functions: FunctionSet,
  rasterise?: Rasterise,
): DeskGrid {
  const english = parts.LocaleType.EN_US;
  const { univer, univerAPI } = parts.createUniver({
    locale: english,
    locales: { [english]: withProgress(parts.english) },
    presets: [
      parts.UniverSheetsCorePreset({
        container,
        toolbar: false,
        sheets: { disableForceStringMark: true, disableForceStringAlert: true },
        disableTextFormatMark: true,
        disableTextFormatAlert: true,
        formula: {
          description: descriptionsFor(functions.metadata),
          initialFormulaComputing: ALL_FORMULAS,
        },
      }),
    ],
  });
  const troubles = new Troubles();
  univer
    .__getInjector()
    .get(parts.IFunctionService)
    .registerExecutors(
      ...executorsFor(parts, functions.metadata, functions.implementations, troubles),
    );

  let opened = 0;
  let unit = '';
  const changed: (() => void)[] = [];
  const edited: ((sheet: string) => void)[] = [];
  const chosen: ((cell: ChosenCell) => void)[] = [];
  let lastChosen: ChosenCell | undefined;
  let chosenPlace: Place | undefined;

  const workbook = () => {
    const book = univerAPI.getWorkbook(unit);
    if (book === null) throw new Error('No workbook is open.');
    return book;
  };
  const sheetNamed = (name: string) => {
    const sheet = workbook().getSheetByName(name);
    if (sheet === null) throw new Error(`There is no sheet "${name}".`);
    return sheet;
  };
  /** The cell as stored; what the grid hands out otherwise is the text it shows. */
  const stored = (range: FRange): ICellData | null =>
    range.getCellDatas()[0]?.[0] ?? range.getCellData();
  const troubleIn = (sheet: FWorksheet, row: number, column: number, cell: ICellData | null) => {
    const code = String(cell?.v ?? '');
    const formula = formulaIn(sheet, row, column);
    return troubles.of(sheet.getSheetId(), row, column, { code, formula })?.message ?? '';
  };
  const injector = univer.__getInjector();
  const book = openBook(
    univerAPI,
    workbook,
    () => injector.get(parts.FormulaDataModel),
    () => injector.get(parts.IDependencyManagerService),
    troubles,
  );
  const written = new WrittenModels(book);
  let settings = new Map<string, string>();
  let results: Promise<void> = Promise.resolve();
  let note = '';
  const calculation = underWay(univerAPI, book);
  univerAPI.addEvent(univerAPI.Event.CommandExecuted, (command: GridCommand) => {
    written.noteCommand(command.id, command.params);
    const sheet = editOf(command);
    // the grid tells of cells whose values change, not of rows that go
    if (sheet !== undefined && MOVES_CELLS.test(command.id)) announceChange();
    if (sheet === undefined) return;
    calculation.cellChanged();
    edited.forEach((listener) => listener(sheet));
  });

  let timer: ReturnType<typeof setTimeout> | undefined;
  const announceChange = (): void => {
    clearTimeout(timer);
    timer = setTimeout(() => changed.forEach((listener) => listener()), SETTLE_MS);
  };
  univerAPI.addEvent(univerAPI.Event.SheetValueChanged, announceChange);
  univerAPI.addEvent(univerAPI.Event.ActiveSheetChanged, announceChange);
  const choose = (sheet: FWorksheet, row: number, column: number): void => {
    const range = sheet.getRange(row, column);
    const cell = stored(range);
    const report: ChosenCell = {
      sheet: sheet.getSheetName(),
      address: `${letter(column)}${row + 1}`,
      formula: formulaIn(sheet, row, column),
      shown: range.getDisplayValue(),
      trouble: troubleIn(sheet, row, column, cell),
    };
    lastChosen = report;
    chosenPlace = { sheetId: sheet.getSheetId(), row, column };
    chosen.forEach((listener) => listener(report));
  };
  univerAPI.addEvent(univerAPI.Event.SelectionChanged, ({ worksheet, selections }) => {
    const at = selections[0];
    if (at !== undefined) choose(worksheet, at.startRow, at.startColumn);
  });

  /** Puts a workbook in place of the one that is open, under a key of its own. */
  const begin = (
    data: (id: string) => Partial<IWorkbookData>,
    kept: Map<string, string>,
  ): string => {
    if (unit !== '') univerAPI.disposeUnit(unit);
    opened += 1;
    written.forgetAll();
    troubles.forget();
    settings = kept;
    chosenPlace = undefined;
    unit = `desk-${opened}`;
    univerAPI.createWorkbook(data(unit));
    results = book.calculated(LONGEST_CALCULATION_MS);
    calculation.opened(results);
    return unit;
  };

  return {
    kind: 'desk',
    open(title, sheets, kept) {
      const own = begin((id) => workbookData(id, title, sheets), kept);
      const first = sheets[0];
      if (first !== undefined && first.firstColumn > 0) {
        const sheet = workbook().getActiveSheet();
        const [row, column] = [first.headerRow + 1, first.firstColumn];
        // only a sheet that has been drawn can be moved
        results = results.then(() => {
          // somebody may have opened another workbook or chosen a cell meanwhile
          if (unit !== own || (chosenPlace && chosenPlace.row + chosenPlace.column > 0)) return;
          sheet.getRange(row, column).activate();
          sheet.scrollToCell(0, Math.max(first.frozenColumns, column - COLUMNS_BEFORE));
          choose(sheet, row, column);
        });
      }
      results.catch(() => undefined);
    },
    takeUp(kept, settingsOfIt) {
      begin((id) => keptData(id, kept), settingsOfIt);
      results.catch(() => undefined);
      written.takeUp(kept);
      for (const [name, range] of kept.names) workbook().insertDefinedName(name, range);
      if (workbook().getSheetBySheetId(kept.front)) workbook().setActiveSheet(kept.front);
    },
    source: keptSource(book, written, () => settings),
    onEdit: (listener) => void edited.push(listener),
    calculated: () => results,
    calculating: () => calculation.calculating(),
    async sheetName() {
      return workbook().getActiveSheet().getSheetName();
    },
    async openSheets() {
      return workbook()
        .getSheets()
        .map((sheet) => sheet.getSheetName());
    },
    readActiveTable: async () => readSheet(workbook().getActiveSheet()),
    async readTable(name) {
      const sheet = workbook().getSheetByName(name);
      return sheet === null ? { cells: [] } : readSheet(sheet);
    },
    async showCell(row, column, name) {
      const book = workbook();
      if (name !== undefined && name !== book.getActiveSheet().getSheetName())
        book.setActiveSheet(sheetNamed(name));
      const sheet = book.getActiveSheet();
      sheet.scrollToCell(Math.max(0, row - 3), Math.max(0, column - 2));
      sheet.getRange(row, column).activate();
    },
    async saveFile(name, bytes) {
      const link = document.createElement('a');
      const copy = new Uint8Array(bytes);
      link.href = URL.createObjectURL(new Blob([copy.buffer]));
      link.download = name;
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
    },
    onChange: (listener) => void changed.push(listener),
    selectedCells: async () => selectedCells(workbook().getActiveSheet()),
    onChoose(listener) {
      chosen.push(listener);
      if (lastChosen !== undefined) listener(lastChosen);
    },
    writeModel: (model, options) => written.write(model, options),
    removeSheets: async (receipt) => written.remove(receipt),
    replaceSheets: (old, model, options) => written.replace(old, model, options),
    sheetKeys: async () =>
      workbook()
        .getSheets()
        .map((sheet) => ({ key: sheet.getSheetId(), name: sheet.getSheetName() })),
    readSetting: async (key) => settings.get(key) ?? '',
    writeSetting: async (key, value) => void settings.set(key, value),
    async insertFormula(formula, wish) {
      const inserted = await insertFormula(book, formula, chosenPlace, wish, troubleIn);
      const sheet = chosenPlace && workbook().getSheetBySheetId(chosenPlace.sheetId);
      if (chosenPlace && sheet) choose(sheet, chosenPlace.row, chosenPlace.column);
      return inserted;
    },
    cellValues: async (range, sheet) => cellValues(book, range, sheet),
    blankCells: async (size, sheet, address) => blankCells(book, size, sheet, address),
    appendRow: (sheet, header, row) => appendRow(book, sheet, header, row),
    editCells: (sheet, edits) => editCells(book, sheetNamed(sheet), edits),
    changeCells: (sheet, changes) => changeCells(book, sheet, changes),
    repair: () => repair(book),
    async wholeWorkbook() {
      await results;
      const saved = await wholeWorkbook(book, written, {
        settings: Object.fromEntries(settings),
        today: today(),
        ...(rasterise && { rasterise }),
      });
      note = saved.note;
      return saved.bytes;
    },
    fileNote: () => note,
    show: (sheet, address) => shownIn(stored(sheetNamed(sheet).getRange(address))),
    formula(sheet, address) {
      const found = sheetNamed(sheet);
      const range = found.getRange(address);
      return formulaIn(found, range.getRow(), range.getColumn());
    },
    trouble(sheet, address) {
      const found = sheetNamed(sheet);
      const range = found.getRange(address);
      return troubleIn(found, range.getRow(), range.getColumn(), stored(range));
    },
    async write(sheet, address, value) {
      const range = sheetNamed(sheet).getRange(address);
      const applied = book.calculated();
      if (typeof value === 'string' && value.startsWith('=')) range.setValue({ f: value });
      else range.setValue(value);
      await applied;
    },
  };
}
