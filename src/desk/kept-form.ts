/**
 * The form in which the desk keeps the open workbook in the browser: a head, and texts of which none is long, so that making
 * one never holds up whoever types. Unlike a file it has the formulas of the grid, and the models sheets were written from.
 */
import type { ICellData, IWorkbookData, IWorksheetData } from '@univerjs/presets';
import { Problem } from '../engine/problems.js';
import type { Sheet, WorkbookModel } from '../workbook/model.js';
import { count, MOST_FILLED } from '../workbook/readers/limits.js';

/** Counts up when a kept workbook of before could no longer be read. */
const FORM = 1;
/** Most cells that are kept: what is read of a file, and as much written beside it. */
const MOST_KEPT = 2 * MOST_FILLED;
/** Cells of one text: some milliseconds' work. */
const CELLS_A_PIECE = 4000;

export type CellData = Record<number, Record<number, ICellData>>;

/** Which sheet of which model a sheet of the grid was written from. */
export interface WrittenFrom {
  model: string;
  index: number;
  /** rows or columns were put in or taken out since */
  reshaped: boolean;
}

/** A sheet of the grid but for its cells. */
export interface KeptSheet {
  key: string;
  name: string;
  frame: Partial<IWorksheetData>;
  written?: WrittenFrom;
}

/** What the grid says of its workbook, but for cells and models. */
export interface BookFrame {
  title: string;
  /** key of the sheet in front */
  front: string;
  sheets: KeptSheet[];
  styles: IWorkbookData['styles'];
  names: [name: string, range: string][];
  settings: [key: string, text: string][];
}

/** A workbook as the grid takes it up again. */
export interface KeptBook extends BookFrame {
  cells: Map<string, CellData>;
  models: Map<string, WorkbookModel>;
}

/** What is kept beside the texts. */
export interface KeptHead {
  form: number;
  /** of this writing and no other: another page's is told by it */
  stamp: string;
  /** what the person calls it: name of the file */
  name: string;
  /** when, by the person's own clock: yyyy-mm-ddThh:mm */
  at: string;
  /** differs from what was saved last */
  unsaved: boolean;
  frame: BookFrame;
  /** how many texts there are, by the key of the sheet or model */
  pieces: Record<string, number>;
}

export const partKey = (of: string, piece: number): string => `${of}/${piece}`;
export const modelKey = (id: string): string => `model ${id}`;

/** The cells of a sheet as texts, one at a time. */
export function* cellPieces(cells: Readonly<CellData>): Generator<string> {
  let piece: CellData = {};
  let held = 0;
  for (const [row, line] of Object.entries(cells)) {
    const filled = Object.keys(line).length;
    if (filled === 0) continue;
    piece[Number(row)] = line;
    held += filled;
    if (held < CELLS_A_PIECE) continue;
    yield JSON.stringify(piece);
    [piece, held] = [{}, 0];
  }
  if (held > 0) yield JSON.stringify(piece);
}

/** A model as texts: what is no sheet, then a sheet each. */
export function* modelPieces({ sheets, ...rest }: WorkbookModel): Generator<string> {
  yield JSON.stringify(rest);
  for (const sheet of sheets) yield JSON.stringify(sheet);
}

/** True while the cells of all sheets are few enough. */
export function isWithinLimits(sheets: Iterable<Readonly<CellData>>): boolean {
  let filled = 0;
  for (const cells of sheets) {
    for (const line of Object.values(cells)) filled += Object.keys(line).length;
    if (filled > MOST_KEPT) return false;
  }
  return true;
}

export function headOf(given: Omit<KeptHead, 'form'>): KeptHead {
  return { form: FORM, ...given };
}

const isNamed = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isText = (value: unknown): value is string => typeof value === 'string';

/** A head as it was kept; undefined where none is, or none of this program's form. */
export function headFrom(value: unknown): KeptHead | undefined {
  if (!isNamed(value) || value['form'] !== FORM) return undefined;
  const { stamp, name, at, frame, pieces } = value;
  const isWhole = [stamp, name, at].every(isText) && isNamed(frame) && isNamed(pieces);
  return isWhole ? (value as unknown as KeptHead) : undefined;
}

const broken = (name: string, what: string): Problem =>
  new Problem(
    `the kept copy of "${name}" cannot be opened: ${what}. Forget it, and open the file itself`,
  );

/**
 * The workbook out of what was kept.
 *
 * @param parts - the texts by their keys
 * @throws Problem if something of it is missing or is not what was kept
 */
export function bookFrom(
  { name, frame, pieces }: KeptHead,
  parts: ReadonlyMap<string, unknown>,
): KeptBook {
  const read = (of: string): unknown[] =>
    Array.from({ length: pieces[of] ?? 0 }, (_, i) => {
      const text = parts.get(partKey(of, i));
      if (!isText(text)) throw broken(name, 'a part of it is missing');
      try {
        return JSON.parse(text) as unknown;
      } catch {
        throw broken(name, 'a part of it is cut off');
      }
    });
  if (![frame.sheets, frame.names, frame.settings].every((list) => Array.isArray(list)))
    throw broken(name, 'it is not what this program keeps');
  if (frame.sheets.length === 0) throw broken(name, 'it has no sheets');
  const names = new Set(frame.sheets.map((sheet) => sheet.name));
  if (names.size < frame.sheets.length) throw broken(name, 'two of its sheets have one name');
  const cells = new Map(
    frame.sheets.map(({ key }) => [key, Object.assign({}, ...read(key)) as CellData]),
  );
  if (!isWithinLimits(cells.values()))
    throw broken(name, `it has more than ${count(MOST_KEPT)} filled cells`);
  const models = new Map<string, WorkbookModel>();
  for (const { written } of frame.sheets) {
    if (!written || models.has(written.model)) continue;
    const [rest, ...sheets] = read(modelKey(written.model));
    if (!isNamed(rest)) throw broken(name, 'a part of it is missing');
    const model = { ...(rest as unknown as WorkbookModel), sheets: sheets as Sheet[] };
    models.set(written.model, model);
  }
  return { ...frame, cells, models };
}
