/**
 * The model as sheets of the workbook that is open in the spreadsheet program. All sheets are made first, so that formulas
 * may point forward; then one batch fills each. What is there already is never touched. When it is stopped or refused,
 * everything that was written is taken away again.
 */
import { Problem } from '../../engine/problems.js';
import { addChart, addPicture, base64 } from './excel-charts.js';
import { formatTable, setBody, setFormats, setLooks, setSizes } from './excel-dress.js';
import { addConditions, addTables, addValidations, setPage, setPanes } from './excel-page.js';
import { addressOf } from './excel-runs.js';
import { handedOver } from './excel-text.js';
import { TAB, takeAway, type Written } from './excel-undo.js';
import { hostProblem } from './excel-words.js';
import { layOutAll, type LaidSheet } from './laid-out.js';
import { withFreeNames } from './rename.js';
import type { Picture, Rasterise, Scalar, WorkbookModel } from '../model.js';

export interface ExcelOptions {
  /** our own functions where a cell has them, else the spreadsheet's own */
  live: boolean;
  /** sheets written, of all, and the one at work */
  onProgress(done: number, total: number, sheet: string): void;
  signal: { readonly aborted: boolean };
  /** draws the pictures; without it they are left out, and a note says so */
  rasterise?: Rasterise;
}

export interface ExcelResult {
  /** the program's own key of each sheet, with the name it got */
  sheets: { key: string; name: string }[];
  /** names of the workbook that were defined */
  names: string[];
  /** what the program could not take, a sentence each */
  notes: string[];
}

/** Sets of the program's interface: the least, and what places pictures. */
const FLOOR = '1.9';
const PLACING = '1.10';
const has = (set: string): boolean => Office.context.requirements.isSetSupported('ExcelApi', set);

/** Most of the five megabytes a request may have that values take [bytes]. */
const BATCH_BYTES = 3_500_000;
/** Values handed over in one piece [bytes]. */
const PIECE_BYTES = 500_000;

const STOPPED = 'You stopped the build. The sheets written so far were taken away again.';

interface Work {
  context: Excel.RequestContext;
  options: ExcelOptions;
  notes: string[];
}

function goOn({ options }: Work): void {
  if (options.signal.aborted) throw new Problem(STOPPED);
}

/** The model with names that are free in this workbook. */
async function freed({ context }: Work, model: WorkbookModel): Promise<WorkbookModel> {
  const { worksheets, tables, names, protection } = context.workbook;
  worksheets.load('items/name');
  tables.load('items/name');
  names.load('items/name');
  protection.load('protected');
  await context.sync();
  if (protection.protected)
    throw new Problem('The structure of this workbook is protected, so it takes no new sheets. Take the protection off (Review, Protect Workbook), then build again.'); // prettier-ignore
  const all = (items: { name: string }[]): string[] => items.map((item) => item.name);
  return withFreeNames(model, {
    sheets: all(worksheets.items),
    tables: all(tables.items),
    names: all(names.items),
  });
}

/** Empty sheets behind those that are open, and the names that point into them. */
async function makeSheets({ context }: Work, model: WorkbookModel): Promise<Excel.Worksheet[]> {
  const made = model.sheets.map(({ name }) => {
    const sheet = context.workbook.worksheets.add(name);
    // at once, so that a sheet is known for ours wherever the program breaks off
    sheet.tabColor = TAB;
    sheet.load('id, name');
    return sheet;
  });
  for (const [name, at] of Object.entries(model.names)) context.workbook.names.add(name, `=${at}`);
  await context.sync();
  return made;
}

const bytesIn = (row: readonly Scalar[]): number =>
  row.reduce<number>((n, v) => n + (typeof v === 'string' ? 2 * v.length + 3 : 12), 0);

function rowOf(laid: LaidSheet, row: number, live: boolean): (Scalar | null)[] {
  return Array.from({ length: laid.columns }, (_, column) => {
    const cell = laid.cells(row, column);
    return cell === undefined ? null : handedOver(cell, live);
  });
}

/** Values and formulas in pieces of rows; a sheet too large for one request is sent in several. */
async function writeValues(work: Work, sheet: Excel.Worksheet, laid: LaidSheet): Promise<void> {
  const byPiece = setFormats(sheet, laid);
  let sent = 0;
  for (let from = 0; from < laid.rows;) {
    const rows: (Scalar | null)[][] = [];
    let bytes = 0;
    while (from + rows.length < laid.rows && bytes < PIECE_BYTES) {
      const row = rowOf(laid, from + rows.length, work.options.live);
      rows.push(row);
      bytes += bytesIn(row) + (byPiece ? 12 * row.length : 0);
    }
    const to = from + rows.length;
    const range = sheet.getRange(
      addressOf({ top: from, bottom: to - 1, left: 0, right: laid.columns - 1 }),
    );
    if (byPiece) range.numberFormat = formatTable(laid, from, to);
    range.formulas = rows;
    from = to;
    sent += bytes;
    if (sent > BATCH_BYTES && from < laid.rows) {
      await send(work);
      sent = 0;
    }
  }
}

/** Hands over what is waiting, and goes on only if nobody has stopped the build. */
async function send(work: Work): Promise<void> {
  await work.context.sync();
  goOn(work);
  work.context.workbook.application.suspendApiCalculationUntilNextSync();
  work.context.workbook.application.suspendScreenUpdatingUntilNextSync();
}

function addJumps(sheet: Excel.Worksheet, laid: LaidSheet): void {
  for (let row = 0; row < laid.rows; row++)
    for (let column = 0; column < laid.columns; column++) {
      const jump = laid.cells(row, column)?.jump;
      if (jump !== undefined) sheet.getCell(row, column).hyperlink = { documentReference: jump };
    }
}

interface Placed {
  picture: Picture;
  image: string;
  at: Excel.Range;
}

/** Draws the pictures of a sheet and asks where their cells are. */
async function preparePictures(
  work: Work,
  sheet: Excel.Worksheet,
  laid: LaidSheet,
): Promise<Placed[]> {
  const { rasterise } = work.options;
  if (laid.pictures.length === 0) return [];
  if (rasterise === undefined || !has(PLACING)) {
    const why = rasterise === undefined ? 'nothing here can draw them' : 'this version of the program cannot place them'; // prettier-ignore
    work.notes.push(`Pictures of the sheet “${laid.name}” were left out: ${why}. The saved workbook file has them.`); // prettier-ignore
    return [];
  }
  const images = await Promise.all(laid.pictures.map((p) => rasterise(p.svg, p.width * 2)));
  return laid.pictures.map((picture, i) => {
    const at = sheet.getCell(picture.at.row - 1, picture.at.column);
    at.load('left, top');
    return { picture, image: base64(images[i]!), at };
  });
}

/** Fills one sheet: one batch, and a second one where there are pictures. */
async function fill(work: Work, sheet: Excel.Worksheet, laid: LaidSheet): Promise<void> {
  const { context, notes } = work;
  context.workbook.application.suspendApiCalculationUntilNextSync();
  context.workbook.application.suspendScreenUpdatingUntilNextSync();
  setBody(sheet, laid);
  await writeValues(work, sheet, laid);
  addJumps(sheet, laid);
  addTables(sheet, laid);
  setLooks(sheet, laid, laid.bodySize);
  setSizes(sheet, laid);
  setPanes(sheet, laid);
  const left = addValidations(sheet, laid);
  if (left.length > 0)
    notes.push(`Lists to choose from at ${left.join(', ')} of the sheet “${laid.name}” were left out: they are too long for the program.`); // prettier-ignore
  addConditions(sheet, laid);
  setPage(sheet, laid);
  for (const chart of laid.charts) addChart(context, sheet, chart);
  const pictures = await preparePictures(work, sheet, laid);
  await context.sync();
  if (pictures.length === 0) return;
  for (const { picture, image, at } of pictures) addPicture(sheet, picture, image, at);
  await context.sync();
}

/** The reason why a build broke off, after what it wrote was taken away. */
async function undone(cause: Problem, written: Written | undefined): Promise<Problem> {
  if (written === undefined) return cause;
  try {
    await takeAway(written);
    return cause;
  } catch (error) {
    const names = written.sheets.map((name) => `“${name}”`).join(', ');
    return new Problem(`${cause.message} What was written could not be taken away again: ${hostProblem(error, 'deleting the sheets').message} Delete these sheets by hand if they are there: ${names}.`); // prettier-ignore
  }
}

/**
 * Writes a model's sheets behind those that are open.
 *
 * @throws Problem when stopped or refused; what was written before is taken away again
 */
export async function writeExcel(
  model: WorkbookModel,
  options: ExcelOptions,
): Promise<ExcelResult> {
  if (!has(FLOOR))
    throw new Problem(`This version of the spreadsheet program is too old to be written into (it lacks ExcelApi ${FLOOR}). Save the workbook as a file instead.`); // prettier-ignore
  let written: Written | undefined;
  let where = 'reading the names in use';
  try {
    return await Excel.run(async (context) => {
      const work: Work = { context, options, notes: [] };
      const own = await freed(work, model);
      goOn(work);
      written = { keys: [], sheets: own.sheets.map((s) => s.name), names: Object.keys(own.names) };
      where = 'adding the sheets';
      const sheets = await makeSheets(work, own);
      written = { ...written, keys: sheets.map((s) => s.id) };
      const laid = layOutAll(own);
      for (const [i, sheet] of laid.entries()) {
        goOn(work);
        options.onProgress(i, laid.length, sheet.name);
        where = `writing the sheet “${sheet.name}”`;
        await fill(work, sheets[i]!, sheet);
      }
      goOn(work);
      options.onProgress(laid.length, laid.length, '');
      if (laid.some((s) => s.charts.length > 0))
        work.notes.push('Charts have no alternative text here: the spreadsheet program offers add-ins no way to set it. The saved workbook file has it.'); // prettier-ignore
      return {
        sheets: sheets.map(({ id, name }) => ({ key: id, name })),
        names: Object.keys(own.names),
        notes: work.notes,
      };
    });
  } catch (error) {
    throw await undone(hostProblem(error, where), written);
  }
}
