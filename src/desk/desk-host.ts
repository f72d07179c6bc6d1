/**
 * The desk as the panel's host while its grid is still on its way: what the first workbook holds is read from what is
 * about to go into the grid, and whatever needs the grid waits for it.
 */
import type { Host } from '../taskpane/host.js';
import type { DeskGrid } from './grid.js';
import type { DeskSheet } from './open-data.js';
import { readDeskSheet } from './sheet-cells.js';

/** A workbook that is about to go into the grid, its sheet with the trees first and in front. */
export interface ComingBook {
  title: string;
  sheets: readonly DeskSheet[];
  /** what the workbook keeps, by key; the grid goes on with the same map */
  settings: Map<string, string>;
}

type DeskHost = Omit<Host, 'openFile'>;

/**
 * @param first - the workbook the desk begins with
 * @param coming - the grid, with that workbook open in it
 */
export function deskHost(first: Promise<ComingBook>, coming: Promise<DeskGrid>): DeskHost {
  let there: DeskGrid | undefined;
  const whenThere = (work: (grid: DeskGrid) => void): void =>
    // a grid that does not come is said by whoever started it
    void coming.then(work, () => undefined);
  whenThere((grid) => (there = grid));
  const title = async (): Promise<string> => (await first).sheets[0]?.name ?? '';
  const table = async (name: string) => {
    const sheet = (await first).sheets.find((each) => each.name === name);
    return sheet ? readDeskSheet(sheet) : { cells: [] };
  };
  return {
    kind: 'desk',
    beginsWithSample: true,
    sheetName: () => there?.sheetName() ?? title(),
    openSheets: async () => there?.openSheets() ?? (await first).sheets.map(({ name }) => name),
    readActiveTable: async () => there?.readActiveTable() ?? table(await title()),
    readTable: (name) => there?.readTable(name) ?? table(name),
    readSetting: async (key) => there?.readSetting(key) ?? (await first).settings.get(key) ?? '',
    async writeSetting(key, value) {
      if (there) return there.writeSetting(key, value);
      (await first).settings.set(key, value);
    },
    calculating: () => there?.calculating?.(),
    onChange: (listener) => whenThere((grid) => grid.onChange(listener)),
    onChoose: (listener) => whenThere((grid) => grid.onChoose(listener)),
    showCell: async (...place) => (await coming).showCell(...place),
    saveFile: async (name, bytes) => (await coming).saveFile(name, bytes),
    wholeWorkbook: async () => (await coming).wholeWorkbook(),
    writeModel: async (model, options) => (await coming).writeModel(model, options),
    removeSheets: async (receipt) => (await coming).removeSheets(receipt),
    replaceSheets: async (...asked) => (await coming).replaceSheets(...asked),
    sheetKeys: async () => (await coming).sheetKeys(),
    selectedCells: async () => (await coming).selectedCells(),
    insertFormula: async (...asked) => (await coming).insertFormula(...asked),
    cellValues: async (...asked) => (await coming).cellValues(...asked),
    blankCells: async (...asked) => (await coming).blankCells(...asked),
    appendRow: async (...asked) => (await coming).appendRow(...asked),
    editCells: async (...asked) => (await coming).editCells(...asked),
    changeCells: async (...asked) => (await coming).changeCells(...asked),
    repair: async () => (await coming).repair(),
  };
}
