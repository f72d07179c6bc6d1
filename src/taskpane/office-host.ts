/** The spreadsheet program as the panel's host. Untested in the real program so far: a strict stand-in plays its part. */
import { Problem } from '../engine/problems.js';
import type { Rasterise } from '../workbook/model.js';
import { takeAway } from '../workbook/writers/excel-undo.js';
import { hostProblem } from '../workbook/writers/excel-words.js';
import { writeExcel } from '../workbook/writers/excel.js';
import type { ChosenCell, Host, Receipt } from './host.js';
import { ask, sheetNamed } from './office-cells.js';
import { appendRow, changeCells, editCells, repair } from './office-edits.js';
import { blankCells, cellValues, insertFormula } from './office-insert.js';
import { chosenCell, readSheet, selectedCells, sheetKeys, sheetNames } from './office-read.js';
import { inPlace } from './office-in-place.js';
import { readSetting, writeSetting } from './office-settings.js';

const SETTLE_MS = 400;
/** Time for a web view to fetch a file from the page before its address goes [ms]. */
const FETCH_MS = 10_000;
/** Programs whose panels do nothing at a link to a file; seen in reports of other add-ins' makers. */
const NO_DOWNLOADS: ReadonlySet<string> = new Set(['Mac', 'iOS']);

const showCell = (row: number, column: number, name?: string): Promise<void> =>
  ask('showing the cell', async (context) => {
    const sheet = await sheetNamed(context, name);
    sheet.activate();
    sheet.getCell(row, column).select();
    await context.sync();
  });

/** @throws Problem where the program is known to block it: the link would do nothing, and say nothing */
async function saveFile(name: string, bytes: Uint8Array): Promise<void> {
  if (NO_DOWNLOADS.has(String(Office.context.platform)))
    throw new Problem(`The spreadsheet program on this device lets no panel save files, so ${name} was not saved. Build the sheets here and print or save from the program, or open the workbook in a browser.`); // prettier-ignore
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([new Uint8Array(bytes).buffer]));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), FETCH_MS);
  return Promise.resolve();
}

async function removeSheets({ sheets, names }: Receipt): Promise<void> {
  try {
    await takeAway({ keys: sheets.map((s) => s.key), sheets: [], names });
  } catch (error) {
    throw hostProblem(error, 'taking the sheets away');
  }
}

/** Listeners of the panel, told of what happens in the program. */
class Listeners {
  readonly changed: (() => void)[] = [];
  readonly chosen: ((cell: ChosenCell) => void)[] = [];
  private timer: ReturnType<typeof setTimeout> | undefined;
  private writing = 0;

  /** Changes that follow each other closely are told once; our own, when they are done. */
  announce = (): Promise<void> => {
    clearTimeout(this.timer);
    if (this.writing === 0)
      this.timer = setTimeout(() => this.changed.forEach((listener) => listener()), SETTLE_MS);
    return Promise.resolve();
  };

  /** Nothing is told while the program answers nobody: somebody is typing, or no cell is chosen. */
  tellChosen = async (to = this.chosen): Promise<void> => {
    if (to.length === 0 || this.writing > 0) return;
    try {
      const cell = await chosenCell();
      to.forEach((listener) => listener(cell));
    } catch (error) {
      if (!(error instanceof Problem)) throw error;
    }
  };

  /** Runs something that writes. */
  during = async <T>(work: () => Promise<T>): Promise<T> => {
    this.writing++;
    try {
      return await work();
    } finally {
      this.writing--;
      void this.announce();
    }
  };

  async register(): Promise<void> {
    await ask('asking to be told of changes', async (context) => {
      const { worksheets } = context.workbook;
      worksheets.onChanged.add(this.announce);
      worksheets.onActivated.add(this.announce);
      worksheets.onAdded.add(this.announce);
      worksheets.onDeleted.add(this.announce);
      worksheets.onSelectionChanged.add(() => this.tellChosen());
      await context.sync();
    });
  }
}

/** One after the other: two writers of settings must not cross. */
function inTurn(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const own = last.then(work, work);
    last = own.catch(() => undefined);
    return own;
  };
}

/**
 * Registers for the program's events; call once, after Office.onReady.
 *
 * @param rasterise - draws pictures for the sheets; without it they are left out and a note says so
 */
export async function officeHost(rasterise?: Rasterise): Promise<Host> {
  const listeners = new Listeners();
  const { during } = listeners;
  const turn = inTurn();
  await listeners.register();
  return {
    kind: 'office',
    sheetName: async () => (await sheetNames()).active,
    openSheets: async () => (await sheetNames()).all,
    sheetKeys,
    readActiveTable: () => readSheet(),
    readTable: (sheet) => readSheet(sheet),
    showCell,
    saveFile,
    onChange: (listener) => void listeners.changed.push(listener),
    selectedCells,
    onChoose(listener) {
      listeners.chosen.push(listener);
      void listeners.tellChosen([listener]);
    },
    writeModel: (model, options) =>
      during(() => writeExcel(model, { ...options, ...(rasterise && { rasterise }) })),
    removeSheets: (receipt) => during(() => removeSheets(receipt)),
    replaceSheets: (old, model, options) =>
      during(() =>
        inPlace(
          old,
          () => writeExcel(model, { ...options, ...(rasterise && { rasterise }) }),
          removeSheets,
        ),
      ),
    readSetting: (key) => turn(() => readSetting(key)),
    writeSetting: (key, value) => turn(() => writeSetting(key, value)),
    async insertFormula(formula, wish) {
      const inserted = await during(() => insertFormula(formula, wish));
      void listeners.tellChosen();
      return inserted;
    },
    cellValues,
    blankCells,
    appendRow: (sheet, header, row) => during(() => appendRow(sheet, header, row)),
    editCells: (sheet, edits) => during(() => editCells(sheet, edits)),
    changeCells: (sheet, changes) => during(() => changeCells(sheet, changes)),
    repair: () => during(repair),
  };
}
