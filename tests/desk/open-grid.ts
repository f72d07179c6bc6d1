/** The desk's grid without a window, with our functions in it: what the desk does to a workbook can be tried in Node. */
import type { ICellData, IStyleData } from '@univerjs/presets';
import { loadEngine } from '../../src/desk/headless.js';
import { openBook, shownIn, type OpenBook, type Shown } from '../../src/desk/open-book.js';
import { executorsFor, Troubles } from '../../src/desk/registration.js';
import { WrittenModels } from '../../src/desk/written-models.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import described from '../../src/generated/functions.json' with { type: 'json' };

export interface OpenGrid {
  book: OpenBook;
  models: WrittenModels;
  troubles: Troubles;
  /** sheet name, 0-based row and column */
  cell(sheet: string, row: number, column: number): ICellData | undefined;
  shown(sheet: string, row: number, column: number): Shown;
  style(sheet: string, row: number, column: number): IStyleData;
  /** how many formulas the grid's index has that refer to cells of a sheet, by the grid's key */
  referring(sheetId: string): number;
  /** keys of the sheets that grid's index has a place for, empty or not */
  indexed(): string[];
  close(): void;
}

type BySheet = Map<string, Map<string, unknown>>;
/** The grid's index of what refers to what: single cells and ranges, by workbook and sheet. */
interface Index {
  _dependencyRTreeCache: { _oneCellCache: BySheet; _tree: BySheet };
}

type Cells = Record<number, Record<number, ICellData>>;

/** Opens a workbook with these sheets of a person's own. */
export function openGrid(own: Record<string, Cells>): OpenGrid {
  const { core, sheets: parts } = loadEngine();
  const { univer, univerAPI } = core.createUniver({
    locale: core.LocaleType.EN_US,
    locales: { [core.LocaleType.EN_US]: {} },
    presets: [parts.UniverSheetsNodeCorePreset()],
  });
  const injector = univer.__getInjector();
  const troubles = new Troubles();
  injector
    .get(parts.IFunctionService)
    .registerExecutors(...executorsFor(parts, described.functions, FUNCTIONS, troubles));
  const names = Object.keys(own);
  univerAPI.createWorkbook({
    id: 'desk',
    name: 'Desk',
    sheetOrder: names,
    sheets: Object.fromEntries(
      names.map((name) => [
        name,
        { id: name, name, rowCount: 60, columnCount: 20, cellData: own[name] ?? {} },
      ]),
    ),
  });
  const workbook = () => univerAPI.getWorkbook('desk')!;
  const links = injector.get(parts.IDependencyManagerService);
  const book = openBook(
    univerAPI,
    workbook,
    () => injector.get(parts.FormulaDataModel),
    () => links,
    troubles,
  );
  const models = new WrittenModels(book);
  univerAPI.addEvent(univerAPI.Event.CommandExecuted, ({ id, params }) =>
    models.noteCommand(id, params),
  );
  const cell: OpenGrid['cell'] = (sheet, row, column) =>
    workbook().getSheetByName(sheet)?.getSheet().getCellRaw(row, column) ?? undefined;
  return {
    book,
    models,
    troubles,
    cell,
    shown: (sheet, row, column) => shownIn(cell(sheet, row, column)),
    style: (sheet, row, column) =>
      workbook()
        .getWorkbook()
        .getStyles()
        .getStyleByCell(cell(sheet, row, column)) ?? {},
    referring: (sheetId) => {
      const range = { startRow: 0, endRow: 999, startColumn: 0, endColumn: 99 };
      links.openKdTree();
      const found = links.searchDependency([{ unitId: 'desk', sheetId, range }]);
      links.closeKdTree();
      return found.size;
    },
    indexed() {
      const { _oneCellCache: cells, _tree: ranges } = (links as unknown as Index)
        ._dependencyRTreeCache;
      return [...new Set([cells, ranges].flatMap((each) => [...(each.get('desk')?.keys() ?? [])]))];
    },
    close: () => univer.dispose(),
  };
}

/** Options of a writing that goes through. */
export const writing = (live: boolean) => ({
  live,
  onProgress: () => undefined,
  signal: { aborted: false },
});
