/** Sheets of the open workbook as the panel reads them, and the chosen cell. */
import { Problem } from '../engine/problems.js';
import type { Cell, Grid } from '../tables/cells.js';
import { letter } from '../workbook/model.js';
import { hostError } from '../workbook/writers/excel-words.js';
import { NOT_ONE_BLOCK, withoutComputed, type ChosenCell, type SelectedCells } from './host.js';
import { ask, piecesOf, readPieces } from './office-cells.js';

const DATE_FORMAT = /[yd]/i;
/** Quoted text and colours inside a number format are no date letters. */
const FORMAT_NOISE = /"[^"]*"|\[[^\]]*\]|\\./g;
const isDate = (format: unknown): boolean => {
  const plain = String(format).replace(FORMAT_NOISE, '');
  return DATE_FORMAT.test(plain) && plain !== 'General';
};

/** A sheet from A1 on, dates marked, without columns our own functions fill; no name: the one in front. */
export const readSheet = (name?: string): Promise<Grid> =>
  ask('reading the sheet', async (context) => {
    const { worksheets } = context.workbook;
    const sheet =
      name === undefined ? worksheets.getActiveWorksheet() : worksheets.getItemOrNullObject(name);
    const pieces = await readPieces(context, await piecesOf(context, [sheet]), true);
    const [first] = pieces;
    if (first === undefined) return { cells: [] };
    const values = pieces.flatMap((p) => p.values as Cell[][]);
    const formulas = pieces.flatMap((p) => p.formulas.map((row) => row.map(String)));
    const dateCells = new Set<string>();
    for (const { formats, row, column } of pieces)
      formats.forEach((line, r) =>
        line.forEach((format, c) => {
          if (isDate(format)) dateCells.add(`${row + r},${column + c}`);
        }),
      );
    const before = Array.from({ length: first.column }, () => null);
    const blankRows = Array.from({ length: first.row }, (): Cell[] => []);
    const cells = withoutComputed(values, formulas).map((row) => [...before, ...row]);
    return { cells: [...blankRows, ...cells], dateCells };
  });

export const sheetNames = (): Promise<{ all: string[]; active: string }> =>
  ask('reading the names of the sheets', async (context) => {
    const { worksheets } = context.workbook;
    const active = worksheets.getActiveWorksheet();
    worksheets.load('items/name');
    active.load('name');
    await context.sync();
    return { all: worksheets.items.map(({ name }) => name), active: active.name };
  });

export const sheetKeys = (): Promise<{ key: string; name: string }[]> =>
  ask('reading the names of the sheets', async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load('items/id, items/name');
    await context.sync();
    return worksheets.items.map(({ id: key, name }) => ({ key, name }));
  });

export const chosenCell = (): Promise<ChosenCell> =>
  ask('reading the chosen cell', async (context) => {
    const cell = context.workbook.getActiveCell();
    const sheet = context.workbook.worksheets.getActiveWorksheet();
    cell.load('formulas, text, rowIndex, columnIndex');
    sheet.load('name');
    await context.sync();
    const formula = String((cell.formulas as unknown[][])[0]?.[0] ?? '');
    return {
      sheet: sheet.name,
      address: `${letter(cell.columnIndex)}${cell.rowIndex + 1}`,
      formula: formula.startsWith('=') ? formula : '',
      shown: cell.text[0]?.[0] ?? '',
      // The program shows a function's own sentence beside the cell itself.
      trouble: '',
    };
  });

/** Several blocks, a chart or a picture: the program has no single range to give. */
const NO_ONE_RANGE = 'InvalidSelection';

/** @throws Problem where the selection is not one block of cells */
export const selectedCells = (): Promise<SelectedCells> =>
  ask('reading the selection', async (context) => {
    const range = context.workbook.getSelectedRange();
    const sheet = context.workbook.worksheets.getActiveWorksheet();
    range.load('address');
    sheet.load('name');
    try {
      await context.sync();
    } catch (error) {
      if (hostError(error)?.code === NO_ONE_RANGE) throw new Problem(NOT_ONE_BLOCK);
      throw error;
    }
    // 'Street trees'!A1:H60
    return { sheet: sheet.name, range: range.address.slice(range.address.lastIndexOf('!') + 1) };
  });
