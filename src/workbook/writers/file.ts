/**
 * Laid-out sheets as an .xlsx file. The only module, with `charts.ts`, that knows the file library, so the library can be
 * changed here. A file holds values and the spreadsheet's own functions, never add-in formulas.
 */
import { writeXlsx as writeBytes } from 'hucre/xlsx';
import type { CellStyle, ColumnDef, WriteSheet } from 'hucre/xlsx';
import { civil } from '../../engine/dates.js';
import { Problem } from '../../engine/problems.js';
import {
  FORMATS,
  letter,
  sheetReference,
  type Picture,
  type Rasterise,
  type Scalar,
} from '../model.js';
import type { WorkbookModel } from '../model.js';
import { propertiesOf, type Settings } from '../settings.js';
import { writable } from '../writable.js';
import { renderChart } from './charts.js';
import { exactPictures } from './exact-pictures.js';
import { FACE, INK } from './ink.js';
import { fit, isPlain, layOutAll, type Dress, type LaidCell, type LaidSheet, type LaidTable, type Look, type Upright } from './laid-out.js'; // prettier-ignore

export interface FileOptions {
  /** leave cached results out, so that the program that opens the file must calculate; default false */
  uncached?: boolean;
  /** makes images of pictures; wanted where the workbook has any */
  rasterise?: Rasterise;
  /** false: leave pictures out; default true */
  pictures?: boolean;
  /** texts kept in the file for us, by key */
  settings?: Settings;
}

/** What a file says of the whole workbook. */
export type FileBook = Pick<WorkbookModel, 'title' | 'description' | 'madeOn' | 'names'>;

type FileCell = NonNullable<WriteSheet['cells']> extends Map<string, infer C> ? C : never;
type FileImage = NonNullable<WriteSheet['images']>[number];

const UPRIGHTS = { top: 'top', middle: 'center' } as const;

function fileStyle({ look, format, align, indent, wrap }: Dress, upright: Upright): CellStyle {
  const side = look.border && { style: look.border, color: { rgb: INK.rule } };
  return {
    font: {
      name: FACE,
      size: look.size,
      color: { rgb: look.color },
      bold: look.bold,
      italic: look.italic,
    },
    alignment: {
      vertical: UPRIGHTS[upright],
      wrapText: wrap,
      ...(align && { horizontal: align }),
      ...(indent > 0 && { indent }),
    },
    ...(look.ground && {
      fill: { type: 'pattern', pattern: 'solid', fgColor: { rgb: look.ground } },
    }),
    ...(side && {
      border: look.frame
        ? { top: side, bottom: side }
        : { top: side, right: side, bottom: side, left: side },
    }),
    ...(format !== FORMATS.general && { numFmt: format }),
  };
}

/** Styles are made once for each combination in use. */
function styleMaker(upright: Upright): (dress: Dress) => CellStyle {
  const made = new Map<Look, Map<string, CellStyle>>();
  return (dress) => {
    const ofLook = made.get(dress.look) ?? new Map<string, CellStyle>();
    made.set(dress.look, ofLook);
    const key = `${dress.format}|${dress.align}|${dress.indent}|${dress.wrap}`;
    const found = ofLook.get(key) ?? fileStyle(dress, upright);
    ofLook.set(key, found);
    return found;
  };
}

/** @throws Problem for a formula that only works where the add-in is installed */
export function refuseAddIn(text: string, where: string): void {
  if (/\bSOAK\s*\.|_xldudf/i.test(text.replace(/"[^"]*"/g, '')))
    throw new Problem(`${where}: a file may not carry an add-in formula`);
}

function fileCell(cell: LaidCell, where: string, style: CellStyle, uncached: boolean): FileCell {
  const out: FileCell = { value: cell.value, style };
  if (cell.formula !== undefined) {
    refuseAddIn(cell.formula, where);
    out.formula = cell.formula;
    out.value = null;
    if (!uncached) out.formulaResult = cell.value;
  }
  if (cell.jump) out.hyperlink = { target: '', location: cell.jump };
  return out;
}

/** Tables so small that blank cells are drawn as well, to show where to type. */
const DRAWN_BLANKS = 3000;

/** Most cells of a big table are plain and take their column's style; only the others are named. */
function plainValue(main: LaidTable | undefined, row: number, column: number): Scalar | undefined {
  const own = main?.columns[column];
  const value = main?.values[row - main.top]?.[column];
  if (!main || !own || value === undefined || !isPlain(value)) return undefined;
  const blankToDraw = value === null && own.style !== 'text' && main.rows < DRAWN_BLANKS;
  return blankToDraw ? undefined : fit(value);
}

function fileCells(
  sheet: LaidSheet,
  style: (dress: Dress) => CellStyle,
  uncached: boolean,
): Required<Pick<WriteSheet, 'rows' | 'cells'>> {
  const rows: Scalar[][] = [];
  const cells = new Map<string, FileCell>();
  for (let row = 0; row < sheet.rows; row++) {
    const line: Scalar[] = [];
    for (let column = 0; column < sheet.columns; column++) {
      const plain = plainValue(sheet.main, row, column);
      if (plain !== undefined) {
        line[column] = plain;
        continue;
      }
      const cell = sheet.cells(row, column);
      if (!cell) continue;
      while (line.length < column) line.push(null);
      line[column] = cell.formula === undefined ? cell.value : null;
      const where = `${sheet.name}!${letter(column)}${row + 1}`;
      cells.set(`${row},${column}`, fileCell(cell, where, style(cell), uncached));
    }
    rows.push(line);
  }
  return { rows, cells };
}

/** Pictures are made into images of twice their size, for paper. */
const SHARPER = 2;

async function images(sheet: LaidSheet, options: FileOptions): Promise<FileImage[]> {
  if (sheet.pictures.length === 0 || options.pictures === false) return [];
  const { rasterise } = options;
  if (!rasterise)
    throw new Problem(
      `the sheet ${sheet.name} has ${sheet.pictures.length} pictures and nothing to make images with; hand a rasteriser to the file writer, or leave pictures out`,
    );
  const image = async (picture: Picture): Promise<FileImage> => ({
    data: await rasterise(picture.svg, Math.round(picture.width * SHARPER)),
    type: 'png',
    anchor: { from: { row: picture.at.row - 1, col: picture.at.column } },
    width: picture.width,
    height: picture.height,
    altText: writable(picture.alt),
    title: writable(picture.name),
  });
  return Promise.all(sheet.pictures.map(image));
}

function pageSetup(sheet: LaidSheet): Pick<WriteSheet, 'pageSetup' | 'headerFooter'> {
  const { paper, orientation, margins, pagesWide, header, footer } = sheet.page;
  return {
    pageSetup: {
      paperSize: paper,
      orientation,
      margins,
      ...(pagesWide > 0 && { fitToPage: true, fitToWidth: pagesWide, fitToHeight: 0 }),
    },
    headerFooter: {
      oddHeader: `&L${header.left}&R${header.right}`,
      oddFooter: `&L${footer.left}&R${footer.right}`,
    },
  };
}

/** Rows and columns repeated on every page, as a name: the library leaves out the quotes a sheet's name may want. */
function printTitles({ name, page }: LaidSheet): { name: string; range: string; scope: string }[] {
  const { titleRows, titleColumns } = page;
  const areas = [...(titleColumns ? [titleColumns] : []), ...(titleRows ? [titleRows] : [])];
  if (areas.length === 0) return [];
  const range = areas.map(([from, to]) => `${sheetReference(name)}!$${from}:$${to}`).join(',');
  return [{ name: '_xlnm.Print_Titles', range, scope: name }];
}

async function renderSheet(sheet: LaidSheet, options: FileOptions): Promise<WriteSheet> {
  const style = styleMaker(sheet.upright);
  const columns = sheet.widths.map((width, i): ColumnDef => {
    const own = sheet.main?.columns[i];
    return { width, hidden: sheet.hidden[i] ?? false, ...(own && { style: style(own.dress) }) };
  });
  const pictures = await images(sheet, options);
  return {
    name: sheet.name,
    columns,
    ...fileCells(sheet, style, options.uncached ?? false),
    rowDefs: new Map([...sheet.heights].map(([row, height]) => [row, { height }])),
    tables: sheet.tables.map((t) => ({
      name: t.name,
      range: `A${t.top}:${letter(t.columns.length - 1)}${t.top + t.rows}`,
      columns: t.columns.map((c) => ({ name: c.header })),
      style: 'TableStyleLight1',
      showRowStripes: false,
      showAutoFilter: t.filter,
    })),
    dataValidations: sheet.validations.map((v) => ({
      type: 'list',
      range: v.range,
      ...(v.source === undefined ? { values: v.values } : { formula1: v.source }),
      allowBlank: true,
      showInputMessage: true,
      inputMessage: v.message,
      showErrorMessage: true,
      errorStyle: 'warning',
      errorMessage: v.message,
    })),
    conditionalRules: sheet.conditions.map(({ range, formula, look }, i) => ({
      type: 'expression',
      priority: i + 1,
      range,
      formula,
      style: { font: { color: { rgb: look.color }, bold: look.bold } },
    })),
    ...(sheet.charts.length > 0 && { charts: sheet.charts.map(renderChart) }),
    ...(pictures.length > 0 && { images: pictures }),
    ...((sheet.freeze.rows || sheet.freeze.columns) && { freezePane: sheet.freeze }),
    view: { showGridLines: false },
    rowBreaks: sheet.breaks.map((row) => row - 1),
    ...pageSetup(sheet),
    a11y: { summary: sheet.title },
  };
}

/** Laid-out sheets as the bytes of an .xlsx file. */
export async function writeLaidOut(
  sheets: readonly LaidSheet[],
  book: FileBook,
  options: FileOptions = {},
): Promise<Uint8Array> {
  const { year, month, date } = civil(book.madeOn);
  const made = new Date(Date.UTC(year, month - 1, date));
  const rendered: WriteSheet[] = [];
  for (const sheet of sheets) rendered.push(await renderSheet(sheet, options));
  const bytes = await writeBytes({
    sheets: rendered,
    namedRanges: [
      ...Object.entries(book.names).map(([name, range]) => ({ name, range })),
      ...sheets.flatMap(printTitles),
    ],
    properties: {
      title: writable(book.title),
      description: writable(book.description),
      creator: 'soakbook',
      created: made,
      modified: made,
      ...(options.settings && { custom: propertiesOf(options.settings) }),
    },
    defaultFont: { name: FACE, size: 10 },
  });
  return rendered.some((sheet) => sheet.images) ? exactPictures(bytes) : bytes;
}

/** The workbook as the bytes of an .xlsx file. */
export const writeXlsx = async (
  model: WorkbookModel,
  options: FileOptions = {},
): Promise<Uint8Array> => writeLaidOut(layOutAll(model), model, options);
