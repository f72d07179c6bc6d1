/** The grid's workbook as what keeps it sees it, and a kept one as the grid takes it. */
import type { IWorkbookData } from '@univerjs/presets';
import type { FWorksheet } from '@univerjs/presets/preset-sheets-core';
import type { WorkbookModel } from '../workbook/model.js';
import type { BookFrame, CellData, KeptBook, KeptSheet } from './kept-form.js';
import type { OpenBook } from './open-book.js';
import type { WrittenModels } from './written-models.js';

/** What is kept of the open workbook, read from it piece by piece. */
export interface KeptSource {
  frame(): BookFrame;
  /** cells of a sheet by its key, as they stand in the grid: to be read, never changed; none where it is gone */
  cells(key: string): Readonly<CellData>;
  /** models its sheets were written from, by their ids */
  models(): ReadonlyMap<string, WorkbookModel>;
}

/** A person's edit, or a sheet written here; a result of a calculation is none, nor is what only shows things otherwise. */
export interface GridCommand {
  id: string;
  type?: number | undefined;
  params?: object | undefined;
  options?: { onlyLocal?: boolean } | undefined;
}

const MUTATION = 2;
const EDITS = /^(?:sheet\.mutation\.|formula\.mutation\.(?:set|remove)-defined-name$)/;
/** Heights of rows follow their text when they are first drawn. */
const OF_DRAWING = /-row-(?:is-)?auto-height$/;

/** The key of the sheet an edit is of, "" where it is of none or that is not told; undefined for what is no edit. */
export function editOf({ id, type, params, options }: GridCommand): string | undefined {
  if (type !== MUTATION || options?.onlyLocal === true) return undefined;
  if (!EDITS.test(id) || OF_DRAWING.test(id)) return undefined;
  return params && 'subUnitId' in params ? String(params.subUnitId) : '';
}

function keptSheet(sheet: FWorksheet, models: WrittenModels): KeptSheet {
  const { cellData: _cells, ...frame } = sheet.getSheet().getConfig();
  const [key, name] = [sheet.getSheetId(), sheet.getSheetName()];
  const written = models.from(key);
  // what is asynchronous later must not see later changes
  return { key, name, frame: structuredClone(frame), ...(written && { written }) };
}

/** @param settings - what the workbook keeps by key, as it is when asked */
export function keptSource(
  book: OpenBook,
  models: WrittenModels,
  settings: () => ReadonlyMap<string, string>,
): KeptSource {
  return {
    frame() {
      const workbook = book.workbook();
      return {
        title: workbook.getName(),
        front: workbook.getActiveSheet().getSheetId(),
        sheets: workbook.getSheets().map((sheet) => keptSheet(sheet, models)),
        styles: structuredClone(workbook.getWorkbook().getSnapshot().styles),
        names: workbook
          .getDefinedNames()
          .map((name) => [name.getName(), name.getFormulaOrRefString().replace(/^=/, '')]),
        settings: [...settings()],
      };
    },
    cells: (key) => book.workbook().getSheetBySheetId(key)?.getSheet().getConfig().cellData ?? {},
    models: () => models.models(),
  };
}

/** A kept workbook as the grid's data; sheets have the keys they had. */
export function keptData(id: string, kept: KeptBook): Partial<IWorkbookData> {
  const { title, sheets, styles, cells } = kept;
  return {
    id,
    name: title,
    styles,
    sheetOrder: sheets.map(({ key }) => key),
    sheets: Object.fromEntries(
      sheets.map(({ key, name, frame }) => [
        key,
        { ...frame, id: key, name, cellData: cells.get(key) ?? {} },
      ]),
    ),
  };
}
