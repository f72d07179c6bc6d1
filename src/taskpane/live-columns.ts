/** Puts live figures beside the list of the open workbook, and takes them away again. */
import { dayFromIso } from '../engine/dates.js';
import { isBlank, text, type Cell } from '../tables/cells.js';
import { letter, SheetDraft, type WorkbookModel } from '../workbook/model.js';
import { placeOf } from './blank-cells.js';
import { MOST_CELLS, type HostEdit } from './host.js';
import { INPUT_HEADERS, INPUT_LINES, INPUTS_SHEET, LIVE_HEADERS, liveColumns } from './live-figures.js'; // prettier-ignore
import { today, type Session } from './session.js';

/** Name of the sheet of inputs that was added. */
const SETTING = 'live';
const WIDTHS = [34, 14, 10, 70];

/** Where live figures stand: 0-based column of the first; "" where their sheet of inputs is gone. */
export interface LivePlace {
  column: number;
  inputs: string;
}

function inputsModel(madeOn: string): WorkbookModel {
  const draft = new SheetDraft(INPUTS_SHEET, INPUTS_SHEET);
  draft.table(
    INPUTS_SHEET,
    INPUT_HEADERS.map((header, i) => ({ key: header, header, width: WIDTHS[i]!, ...(header === 'Value' && { style: 'input' as const }) })),
    INPUT_LINES.length,
    (i) => {
      const { name, value, unit, note } = INPUT_LINES[i]!;
      return [name, value, unit, note];
    },
  );
  return {
    title: INPUTS_SHEET,
    description: 'Inputs of the live figures beside a list',
    madeOn: dayFromIso(madeOn),
    paper: 'letter',
    sheets: [draft.done()],
    names: {},
  };
} // prettier-ignore

/** A sheet with our inputs in their places, whatever values they have by now. */
const isInputs = (cells: readonly Cell[][]): boolean =>
  INPUT_LINES.every(({ name }, i) => text(cells[i + 1]?.[0]) === name);

async function inputsOf({ host, sheets }: Session): Promise<string> {
  const named = [await host.readSetting(SETTING), INPUTS_SHEET];
  for (const name of named)
    if (sheets.includes(name) && isInputs((await host.readTable(name)).cells)) return name;
  return '';
}

/** The first column of the sheet in which, and right of which, nothing stands. */
export async function freeColumn({ host, sheet }: Session): Promise<number> {
  // the program's own answer leaves a column between
  const [beside = 'B1'] = await host.blankCells({ rows: 1, columns: 1 }, sheet);
  return placeOf(beside).column - 1;
}

/** Where they stand beside the list that is read, undefined where they do not. */
export async function livePlace(session: Session): Promise<LivePlace | undefined> {
  const { host, sheet, reading } = session;
  const end = await freeColumn(session);
  if (!reading || end <= 0) return undefined;
  const row = reading.headerRow + 1;
  const [headers = []] = await host.cellValues(`A${row}:${letter(end - 1)}${row}`, sheet);
  const column = headers.findIndex((_, at) =>
    LIVE_HEADERS.every((header, i) => text(headers[at + i]) === header),
  );
  return column < 0 ? undefined : { column, inputs: await inputsOf(session) };
}

/** 0-based rows of the list below its headers, those with nothing in them left out. */
function listRows({ reading, trees }: Session): number[] {
  const top = reading?.headerRow ?? 0;
  return trees.cells.flatMap((row, r) =>
    r > top && row.some((cell) => !isBlank(cell)) ? [r] : [],
  );
}

/** Adds columns and sheet; gives the sheet's name. */
export async function showLive(session: Session): Promise<string> {
  const { host, sheet, reading } = session;
  let name = '';
  await session.whileWriting(async () => {
    const first = await freeColumn(session);
    const receipt = await host.writeModel(inputsModel(today()), {
      live: true,
      onProgress: () => undefined,
      signal: { aborted: false },
    });
    try {
      name = receipt.sheets[0]!.name;
      const row = reading?.headerRow ?? 0;
      const figures = liveColumns(reading?.columns ?? [], first, name);
      const heads = figures.map(({ header }, i): HostEdit => ({ row, column: first + i, was: null, value: header, head: true })); // prettier-ignore
      const cells = listRows(session).flatMap((r) =>
        figures.map(({ formula, pattern }, i): HostEdit => ({
          ...{ row: r, column: first + i, was: null, value: null },
          ...{ formula: formula(r + 1), format: pattern, filled: `live-${i + 1}` },
        })),
      );
      await host.writeSetting(SETTING, name);
      await host.editCells(sheet, [...heads, ...cells]);
    } catch (error) {
      await host.removeSheets(receipt);
      throw error;
    }
  });
  return name;
}

/** Takes columns and sheet away; says whether the sheet was found. */
export async function takeLiveAway(session: Session, { column, inputs }: LivePlace): Promise<boolean> {
  const { host, sheet, reading, trees } = session;
  const width = LIVE_HEADERS.length;
  const top = reading?.headerRow ?? 0;
  const most = Math.floor(MOST_CELLS / width);
  await session.whileWriting(async () => {
    const edits: HostEdit[] = [];
    for (let from = top; from < trees.cells.length; from += most) {
      const to = Math.min(trees.cells.length, from + most);
      const range = `${letter(column)}${from + 1}:${letter(column + width - 1)}${to}`;
      const values = await host.cellValues(range, sheet);
      values.forEach((line, r) =>
        line.forEach((was, c) =>
          // blank to look at, a formula may still stand there
          edits.push({ row: from + r, column: column + c, was: was ?? '', value: null, head: true }),
        ),
      );
    }
    await host.editCells(sheet, edits);
    const key = (await host.sheetKeys()).find(({ name }) => name === inputs);
    if (key) await host.removeSheets({ sheets: [key], names: [] });
    await host.writeSetting(SETTING, '');
  });
  return inputs !== '';
} // prettier-ignore
