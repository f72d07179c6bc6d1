/** The spreadsheet program as the panel's host. One sync a call; untested in the real program so far. */
import type { Cell, Grid } from '../tables/cells.js';
import { withoutComputed, type ChosenCell, type Host } from './host.js';
import { letter } from '../workbook/model.js';

const SETTLE_MS = 400;
const DATE_FORMAT = /[yd]/i;
/** Quoted text and colours inside a number format are no date letters. */
const FORMAT_NOISE = /"[^"]*"|\[[^\]]*\]|\\./g;

/** A sheet from A1 on, dates marked, without columns our own functions fill; no name: the one in front. */
async function readSheet(name?: string): Promise<Grid> {
  return Excel.run(async (context) => {
    const { worksheets } = context.workbook;
    const sheet =
      name === undefined ? worksheets.getActiveWorksheet() : worksheets.getItemOrNullObject(name);
    const used = sheet.getUsedRangeOrNullObject(true);
    used.load('values, formulas, numberFormat, rowIndex, columnIndex');
    await context.sync();
    if (used.isNullObject) return { cells: [] };
    const { rowIndex, columnIndex } = used;
    const before = Array.from({ length: columnIndex }, () => null);
    const blankRows = Array.from({ length: rowIndex }, (): Cell[] => []);
    const values = used.values as Cell[][];
    const formulas = (used.formulas as unknown[][]).map((row) => row.map(String));
    const dateCells = new Set<string>();
    (used.numberFormat as unknown[][]).forEach((row, r) =>
      row.forEach((format, c) => {
        const plain = String(format).replace(FORMAT_NOISE, '');
        if (DATE_FORMAT.test(plain) && plain !== 'General') {
          dateCells.add(`${r + rowIndex},${c + columnIndex}`);
        }
      }),
    );
    const cells = withoutComputed(values, formulas).map((row) => [...before, ...row]);
    return { cells: [...blankRows, ...cells], dateCells };
  });
}

async function sheetNames(): Promise<{ all: string[]; active: string }> {
  return Excel.run(async (context) => {
    const { worksheets } = context.workbook;
    const active = worksheets.getActiveWorksheet();
    worksheets.load('items/name');
    active.load('name');
    await context.sync();
    return { all: worksheets.items.map(({ name }) => name), active: active.name };
  });
}

async function chosenCell(): Promise<ChosenCell> {
  return Excel.run(async (context) => {
    const cell = context.workbook.getActiveCell();
    cell.load('formulas, text, rowIndex, columnIndex');
    await context.sync();
    const formula = String((cell.formulas as unknown[][])[0]?.[0] ?? '');
    return {
      address: `${letter(cell.columnIndex)}${cell.rowIndex + 1}`,
      formula: formula.startsWith('=') ? formula : '',
      shown: cell.text[0]?.[0] ?? '',
      // The program shows a function's own sentence beside the cell itself.
      trouble: '',
    };
  });
}

/** Registers for the program's events; call once, after Office.onReady. */
export async function officeHost(): Promise<Host> {
  const changed: (() => void)[] = [];
  const chosen: ((cell: ChosenCell) => void)[] = [];
  let timer: ReturnType<typeof setTimeout> | undefined;
  const announce = (): Promise<void> => {
    clearTimeout(timer);
    timer = setTimeout(() => changed.forEach((listener) => listener()), SETTLE_MS);
    return Promise.resolve();
  };
  await Excel.run(async (context) => {
    const { worksheets } = context.workbook;
    worksheets.onChanged.add(announce);
    worksheets.onActivated.add(announce);
    worksheets.onSelectionChanged.add(async () => {
      const cell = await chosenCell();
      chosen.forEach((listener) => listener(cell));
    });
    await context.sync();
  });
  return {
    readActiveTable: () => readSheet(),
    readTable: (sheet) => readSheet(sheet),
    sheetName: async () => (await sheetNames()).active,
    openSheets: async () => (await sheetNames()).all,
    async showCell(row, column, name) {
      await Excel.run(async (context) => {
        const { worksheets } = context.workbook;
        const sheet =
          name === undefined ? worksheets.getActiveWorksheet() : worksheets.getItem(name);
        sheet.activate();
        sheet.getCell(row, column).select();
        await context.sync();
      });
    },
    async saveFile(name, bytes) {
      const link = document.createElement('a');
      link.href = URL.createObjectURL(new Blob([new Uint8Array(bytes).buffer]));
      link.download = name;
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
      return Promise.resolve();
    },
    onChange: (listener) => void changed.push(listener),
    onChoose: (listener) => void chosen.push(listener),
  };
}
