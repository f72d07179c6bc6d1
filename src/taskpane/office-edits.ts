/** Small edits the panel asks for in the spreadsheet program. */
import { isBlank, text, type Cell } from '../tables/cells.js';
import { FORMATS, letter } from '../workbook/model.js';
import { asText } from '../workbook/writers/excel-text.js';
import type { CellChange } from '../workbook/order-sheet.js';
import { formulasStay } from './formulas-stay.js';
import type { HostEdit } from './host.js';
import {
  ask,
  CELLS_AT_ONCE,
  piecesOf,
  readPieces,
  sheetNamed,
  type PieceRead,
} from './office-cells.js';

const handed = (value: Cell): Cell => (typeof value === 'string' ? asText(value) : value);
/** Rows down to the last with anything in it: cells beside may reach further down. */
const filledRows = (values: readonly (readonly Cell[])[]): number =>
  values.findLastIndex((row) => row.some((value) => value !== '')) + 1;
const isDateHeader = (header: string | undefined): boolean =>
  /\b(?:date|day|fecha)\b/i.test(header ?? '');

/** Writes cells below the last filled row, making the sheet where there is none; gives the 1-based row. */
export const appendRow = (
  name: string,
  header: readonly string[],
  row: readonly Cell[],
): Promise<number> =>
  ask(`writing to the sheet “${name}”`, async (context) => {
    const { worksheets } = context.workbook;
    const columns = Math.max(header.length, row.length);
    const found = worksheets.getItemOrNullObject(name);
    const used = found.getRange(`A:${letter(columns - 1)}`).getUsedRangeOrNullObject(true);
    used.load('rowIndex, values');
    await context.sync();
    const sheet = found.isNullObject ? worksheets.add(name) : found;
    if (used.isNullObject) {
      const heads = sheet.getRangeByIndexes(0, 0, 1, header.length);
      heads.formulas = [header.map(asText)];
      heads.format.font.bold = true;
    }
    const at = used.isNullObject ? 1 : used.rowIndex + filledRows(used.values as Cell[][]);
    const cells = sheet.getRangeByIndexes(at, 0, 1, row.length);
    // null leaves a format as it is
    cells.numberFormat = [
      row.map((value, i) =>
        typeof value === 'number' && isDateHeader(header[i]) ? FORMATS.date : null,
      ),
    ];
    cells.formulas = [row.map(handed)];
    await context.sync();
    return at + 1;
  });

/** A text that begins with an equals sign is shown as it stands; a formula shows what it gives. */
const isFormula = (formula: unknown, shown: unknown): boolean =>
  String(formula).startsWith('=') && formula !== shown;

/** Gives single cells other values; what stands around them stays. @throws Problem if one of them holds a formula */
export const changeCells = (name: string, changes: readonly CellChange[]): Promise<void> =>
  ask(`writing to the sheet “${name}”`, async (context) => {
    const sheet = await sheetNamed(context, name);
    const cells = changes.map((change) => {
      const range = sheet.getRangeByIndexes(change.row, change.column, 1, 1);
      range.load('formulas, values');
      return { change, range };
    });
    await context.sync();
    const held = cells.filter(({ range }) =>
      isFormula(range.formulas[0]?.[0], range.values[0]?.[0]),
    );
    formulasStay(name, held.map(({ change }) => change)); // prettier-ignore
    for (const { change, range } of cells)
      range.formulas = [[change.value === null ? '' : handed(change.value)]];
    await context.sync();
  });

const OWN = /\bSOAK\.|_xldudf_SOAK_/i;
/** As files store our functions: dots turned to underscores. */
const STORED = /_xldudf_SOAK_/gi;
const BROKEN = new Set(['#NAME?', '#BUSY!']);

/** Columns of a piece with broken cells below each other, to be entered again. */
function enterAgain({ sheet, row, column, values, formulas, columns }: PieceRead): number {
  let count = 0;
  const brokenAt = (r: number, c: number): boolean =>
    BROKEN.has(String(values[r]?.[c])) && OWN.test(String(formulas[r]?.[c]));
  for (let c = 0; c < columns; c++)
    for (let r = 0; r < values.length; r++) {
      if (!brokenAt(r, c)) continue;
      let to = r;
      while (brokenAt(to + 1, c)) to++;
      const again = formulas
        .slice(r, to + 1)
        .map((line) => [String(line[c]).replace(STORED, 'SOAK.')]);
      sheet.getRangeByIndexes(row + r, column + c, again.length, 1).formulas = again;
      count += again.length;
      r = to;
    }
  return count;
}

/** Enters our own formulas again where they show a name error or wait for ever; gives how many. */
export const repair = (): Promise<number> =>
  ask('entering the formulas again', async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load('items/name');
    await context.sync();
    const pieces = await readPieces(context, await piecesOf(context, worksheets.items), false);
    const count = pieces.reduce((sum, piece) => sum + enterAgain(piece), 0);
    if (count > 0) await context.sync();
    return count;
  });

/** Edits of one column below each other. */
function runsOf(edits: readonly HostEdit[]): HostEdit[][] {
  const sorted = [...edits].sort((a, b) => a.column - b.column || a.row - b.row);
  const runs: HostEdit[][] = [];
  for (const edit of sorted) {
    const run = runs.at(-1);
    const last = run?.at(-1);
    if (run && last?.column === edit.column && last.row + 1 === edit.row && last.head === edit.head)
      run.push(edit);
    else runs.push([edit]);
  }
  return runs;
}

/** The cell holds what an edit says: its value, or one of our own formulas where that is to go. */
function holds({ was }: HostEdit, formula: unknown): boolean {
  const held = String(formula ?? '');
  if (held.startsWith('=')) return was !== null && OWN.test(held);
  return isBlank(was) ? held === '' : text(held) === text(was);
}

/** Runs put together so that each lot fits one answer. */
function lotsOf(runs: readonly HostEdit[][]): HostEdit[][][] {
  const lots: HostEdit[][][] = [];
  let cells = Infinity;
  for (const run of runs)
    for (let i = 0; i < run.length; i += CELLS_AT_ONCE) {
      const part = run.slice(i, i + CELLS_AT_ONCE);
      if (cells + part.length > CELLS_AT_ONCE) {
        lots.push([]);
        cells = 0;
      }
      lots.at(-1)!.push(part);
      cells += part.length;
    }
  return lots;
}

/** Edits whose cells hold what they say. */
async function stillHeld(
  context: Excel.RequestContext,
  sheet: Excel.Worksheet,
  runs: readonly HostEdit[][],
): Promise<HostEdit[]> {
  const asked = runs.map((run) => {
    const range = sheet.getRangeByIndexes(run[0]!.row, run[0]!.column, run.length, 1);
    range.load('formulas');
    return { run, range };
  });
  await context.sync();
  return asked.flatMap(({ run, range }) => {
    const held = range.formulas as unknown[][];
    return run.filter((edit, i) => holds(edit, held[i]?.[0]));
  });
}

/** Writes cells that still hold what they are thought to hold; gives how many. */
export const editCells = (name: string, edits: readonly HostEdit[]): Promise<number> =>
  ask(`writing to the sheet “${name}”`, async (context) => {
    const sheet = await sheetNamed(context, name);
    const written: HostEdit[] = [];
    for (const lot of lotsOf(runsOf(edits)))
      written.push(...(await stillHeld(context, sheet, lot)));
    for (const run of runsOf(written)) {
      const [first] = run;
      const range = sheet.getRangeByIndexes(first!.row, first!.column, run.length, 1);
      if (run.some(({ format }) => format !== undefined))
        range.numberFormat = run.map(({ format }) => [format ?? null]);
      range.formulas = run.map(({ formula, value }) => [formula ?? (value === null ? '' : handed(value))]); // prettier-ignore
      if (first!.head) range.format.font.bold = first!.value !== null;
    }
    if (written.length > 0) await context.sync();
    return written.length;
  });
