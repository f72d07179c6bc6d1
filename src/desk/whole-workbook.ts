/** The open workbook as a file: sheets of a model with all the model gave, others as the grid shows them. */
import type { FWorksheet } from '@univerjs/presets/preset-sheets-core';
import type { Day } from '../engine/dates.js';
import type { Rasterise } from '../workbook/model.js';
import type { Settings } from '../workbook/settings.js';
import { writeLaidOut } from '../workbook/writers/file.js';
import { UPRIGHT, type LaidSheet } from '../workbook/writers/laid-out.js';
import { pageSet } from '../workbook/writers/page.js';
import { DIGIT_PIXELS } from '../workbook/writers/row-heights.js';
import { GRID_TYPE } from './grid-looks.js';
import type { OpenBook } from './open-book.js';
import { replacedSentence, savedCells, type Replaced, type SavedCells } from './saved-cells.js';
import type { WrittenModels, WrittenSheet } from './written-models.js';

export interface SaveOptions {
  settings: Settings;
  /** the day the file is made */
  today: Day;
  rasterise?: Rasterise;
}

export interface SavedBook {
  bytes: Uint8Array;
  /** what became of formulas and drawings that a file cannot hold; "" when nothing was lost */
  note: string;
}

const COLUMN_PADDING = 5;
const POINTS_PER_PIXEL = 72 / 96;
const YES = 1;

function ownSheet(
  sheet: FWorksheet,
  { rows, columns, cells }: SavedCells,
  title: string,
): LaidSheet {
  const name = sheet.getSheetName();
  const { columnData, rowData, defaultColumnWidth, freeze } = sheet.getSheet().getConfig();
  const each = Array.from({ length: Math.max(1, columns) }, (_, i) => i);
  const heights = new Map<number, number>();
  for (let row = 0; row < rows; row++) {
    const height = rowData[row]?.h;
    if (height !== undefined) heights.set(row, Math.round(height * POINTS_PER_PIXEL));
  }
  const print = { orientation: 'landscape', pagesWide: 1, breaks: [] } as const;
  return {
    name,
    title: name,
    rows,
    columns: each.length,
    cells,
    bodySize: GRID_TYPE,
    upright: UPRIGHT,
    widths: each.map((i) =>
      Math.max(1, ((columnData[i]?.w ?? defaultColumnWidth) - COLUMN_PADDING) / DIGIT_PIXELS),
    ),
    hidden: each.map((i) => columnData[i]?.hd === YES),
    heights,
    tables: [],
    main: undefined,
    validations: [],
    conditions: [],
    freeze: { rows: Math.max(0, freeze.ySplit), columns: Math.max(0, freeze.xSplit) },
    page: pageSet({ title: name, print: { ...print, breaks: [] } }, { title, paper: 'letter' }),
    breaks: [],
    charts: [],
    pictures: [],
  };
}

const SHEET_OF = /(?:'((?:[^']|'')+)'|([\p{L}_][\p{L}\p{N}_.]*))!/gu;
/** Names of the sheets a formula or reference looks at. */
const sheetsIn = (text: string): string[] =>
  [...text.replace(/"[^"]*"/g, '').matchAll(SHEET_OF)].map(
    ([, quoted, plain]) => quoted?.replaceAll("''", "'") ?? plain ?? '',
  );

/** A sheet as its model had it, with the cells of now; drawings and lists stay where what they look at still stands. */
function modelSheet(
  { laid }: WrittenSheet,
  now: SavedCells,
  stands: (reference: string) => boolean,
): LaidSheet {
  const headed = laid.tables.filter((table) =>
    table.columns.every((c, i) => now.cells(table.top - 1, i)?.value === c.header),
  );
  return {
    ...laid,
    rows: Math.max(laid.rows, now.rows),
    columns: Math.max(laid.columns, now.columns),
    cells: (row, column) => {
      const cell = now.cells(row, column) ?? laid.cells(row, column);
      // what the person has emptied is blank, in the dress of its place
      if (!cell || now.cells(row, column)) return withJump(cell, stands);
      const { formula: _formula, live: _live, jump: _jump, ...dress } = cell;
      return { ...dress, value: null };
    },
    tables: headed,
    main: undefined,
    validations: laid.validations.filter(({ source }) => source === undefined || stands(source)),
    conditions: laid.conditions.filter(({ formula }) => stands(formula)),
    charts: laid.charts.filter(({ series }) =>
      series.every(({ values, categories }) => stands(values) && stands(categories)),
    ),
  };
}

function withJump(
  cell: ReturnType<SavedCells['cells']>,
  stands: (reference: string) => boolean,
): ReturnType<SavedCells['cells']> {
  if (cell?.jump === undefined || stands(cell.jump)) return cell;
  const { jump: _jump, ...rest } = cell;
  return rest;
}

/** Drawings and lists of a sheet. */
const drawn = (sheet: LaidSheet | undefined): number =>
  sheet ? sheet.charts.length + sheet.pictures.length + sheet.validations.length : 0;

/** Every sheet of the open workbook. */
export async function wholeWorkbook(
  book: OpenBook,
  models: WrittenModels,
  { settings, today, rasterise }: SaveOptions,
): Promise<SavedBook> {
  const workbook = book.workbook();
  const title = workbook.getName();
  const sheets = workbook.getSheets();
  const count: Replaced = { twins: 0, values: 0, spills: 0 };
  const kept = (sheet: FWorksheet): WrittenSheet | undefined => {
    const written = models.sheet(sheet.getSheetId());
    return written && !written.reshaped ? written : undefined;
  };
  const changed = new Set(
    sheets.filter((s) => models.sheet(s.getSheetId()) && !kept(s)).map((s) => s.getSheetName()),
  );
  const there = new Set(sheets.map((s) => s.getSheetName()).filter((name) => !changed.has(name)));
  const names = Object.fromEntries(
    workbook
      .getDefinedNames()
      .map((name) => [name.getName(), name.getFormulaOrRefString().replace(/^=/, '')] as const)
      .filter(([, range]) => !range.includes('#REF!')),
  );
  const stands = (reference: string): boolean =>
    sheetsIn(reference).every((name) => there.has(name)) &&
    (!/^[\p{L}_][\p{L}\p{N}_.]*$/u.test(reference) || reference in names);
  let lost = 0;
  const laid = sheets.map((sheet): LaidSheet => {
    const written = kept(sheet);
    const spills = book.spills(sheet.getSheetId());
    const cells = savedCells(sheet, written?.laid.cells ?? (() => undefined), spills, count);
    if (!written) {
      lost += drawn(models.sheet(sheet.getSheetId())?.laid);
      return ownSheet(sheet, cells, title);
    }
    const saved = { ...modelSheet(written, cells, stands), name: sheet.getSheetName() };
    lost += drawn(written.laid) - drawn(saved);
    return saved;
  });
  const notes = [
    replacedSentence(count),
    lost > 0
      ? `${lost} ${lost === 1 ? 'drawing or list was' : 'drawings and lists were'} left out: rows, columns or names they stand on have changed.`
      : '',
  ].filter((part) => part !== '');
  const bytes = await writeLaidOut(
    laid,
    { title, description: notes.join(' '), madeOn: today, names },
    { settings, ...(rasterise && { rasterise }) },
  );
  return { bytes, note: notes.join(' ') };
}
