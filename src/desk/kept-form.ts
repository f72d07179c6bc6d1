/**
 * The form in which the desk keeps the open workbook in the browser: a head, and texts of which none is long, so that making
 * one never holds up whoever types. Unlike a file it has the formulas of the grid, and the models sheets were written from.
 */
import type { ICellData, IWorkbookData, IWorksheetData } from '@univerjs/presets';
import { Problem } from '../engine/problems.js';
import type { ModelCell, Sheet, WorkbookModel } from '../workbook/model.js';
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

/** The first text of a model, one of a sheet without its rows, or rows of a table on the sheet before. */
type ModelPiece = { rest: object } | { sheet: Sheet } | { block: number; rows: ModelCell[][] };

/** A model as texts: what is no sheet, then each sheet and the rows of its tables. */
export function* modelPieces({ sheets, ...rest }: WorkbookModel): Generator<string> {
  const text = (piece: ModelPiece): string => JSON.stringify(piece);
  yield text({ rest });
  for (const sheet of sheets) {
    const blocks = sheet.blocks.map((b) => (b.kind === 'table' ? { ...b, rows: [] } : b));
    yield text({ sheet: { ...sheet, blocks } });
    for (const [block, table] of sheet.blocks.entries()) {
      if (table.kind !== 'table') continue;
      const step = Math.max(1, Math.floor(CELLS_A_PIECE / Math.max(1, table.columns.length)));
      for (let from = 0; from < table.rows.length; from += step)
        yield text({ block, rows: table.rows.slice(from, from + step) });
    }
  }
}

/** The model out of its texts; undefined where they are none. */
function modelFrom(pieces: readonly unknown[]): WorkbookModel | undefined {
  let rest: object | undefined;
  const sheets: Sheet[] = [];
  for (const piece of pieces as ModelPiece[]) {
    if ('rest' in piece) ({ rest } = piece);
    else if ('sheet' in piece) sheets.push(piece.sheet);
    else {
      const table = sheets.at(-1)?.blocks[piece.block];
      if (table?.kind !== 'table') return undefined;
      for (const row of piece.rows) table.rows.push(row);
    }
  }
  return rest && { ...(rest as Omit<WorkbookModel, 'sheets'>), sheets };
}

/** How many cells of a sheet hold something. */
export function filledIn(cells: Readonly<CellData>): number {
  let filled = 0;
  for (const line of Object.values(cells)) filled += Object.keys(line).length;
  return filled;
}

/** True while the cells of all sheets together are few enough. */
export function areFewEnough(filled: Iterable<number>): boolean {
  let sum = 0;
  for (const each of filled) sum += each;
  return sum <= MOST_KEPT;
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
    `the kept copy of "${name}" cannot be opened: ${what}; forget it and open the file itself`,
  );

/**
 * The workbook out of what was kept.
 *
 * @param parts - the texts by their keys
 * @throws Problem if something of it is missing or is not what was kept
 */
export function bookFrom(
  { name, frame, pieces: counts }: KeptHead,
  parts: ReadonlyMap<string, unknown>,
): KeptBook {
  const read = (of: string): unknown[] =>
    Array.from({ length: counts[of] ?? 0 }, (_, i) => {
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
  if (!areFewEnough([...cells.values()].map(filledIn)))
    throw broken(name, `it has more than ${count(MOST_KEPT)} filled cells`);
  const models = new Map<string, WorkbookModel>();
  for (const { written } of frame.sheets) {
    if (!written || models.has(written.model)) continue;
    const pieces = read(modelKey(written.model));
    const model = pieces.every(isNamed) ? modelFrom(pieces) : undefined;
    if (!model) throw broken(name, 'a part of it is missing');
    models.set(written.model, model);
  }
  return { ...frame, cells, models };
}
