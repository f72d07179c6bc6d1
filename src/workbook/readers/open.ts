/** Opens a table file by its bytes, whatever its name says: text tables and .xlsx workbooks. */
import { Problem } from '../../engine/problems.js';
import { isBlank, type Cell } from '../../tables/cells.js';
import { settingsOf } from '../settings.js';
import { readCsv, type TextTable } from './csv.js';
import { checkSize } from './limits.js';
import type { SheetCells, WorkbookCells } from './xlsx.js';

export interface TableFile {
  sheet: string;
  cells: Cell[][];
  /** "row,column", 0-based, of cells shown as dates; only workbooks have them */
  dateCells?: Set<string>;
  encoding?: string;
  delimiter?: string;
  notes: string[];
}

const starts = (bytes: Uint8Array, ...head: number[]): boolean =>
  head.every((b, i) => bytes[i] === b);
const isZip = (bytes: Uint8Array): boolean => starts(bytes, 0x50, 0x4b);
const isCompound = (bytes: Uint8Array): boolean => starts(bytes, 0xd0, 0xcf, 0x11, 0xe0);

/** Bytes that open a file of another kind, and what to say about it. */
const WRONG_KINDS: readonly (readonly [readonly number[], string])[] = [
  [[0x25, 0x50, 0x44, 0x46], 'is a PDF; export the table as .csv or .xlsx'],
  [[0x89, 0x50, 0x4e, 0x47], 'is a picture; export the table as .csv or .xlsx'],
  [[0xff, 0xd8, 0xff], 'is a picture; export the table as .csv or .xlsx'],
  [[0x1f, 0x8b], 'is compressed; unpack it first'],
  [[0x52, 0x61, 0x72, 0x21], 'is compressed; unpack it first'],
  [[0x7b], 'looks like JSON, not like a table; export it as .csv or .xlsx'],
  [[0x3c], 'looks like a web page or XML, not like a table; export it as .csv or .xlsx'],
];

/** The UTF-16 name of the stream that only encrypted workbooks have, looked for in a compound file. */
function isEncrypted(bytes: Uint8Array): boolean {
  const name = [...'EncryptedPackage'].flatMap((c) => [c.charCodeAt(0), 0]);
  outer: for (let i = 0; i + name.length <= bytes.length; i++) {
    for (let k = 0; k < name.length; k++) if (bytes[i + k] !== name[k]) continue outer;
    return true;
  }
  return false;
}

const filled = (cells: Cell[][]): number =>
  cells.filter((row) => row.some((c) => !isBlank(c))).length;

function checkKind(name: string, bytes: Uint8Array): void {
  if (bytes.length === 0) throw new Problem(`"${name}" is empty; it has no bytes at all`);
  if (isCompound(bytes))
    throw new Problem(
      isEncrypted(bytes)
        ? `"${name}" is protected by a password; open it, save a copy without password, and use the copy`
        : `"${name}" is a workbook of the old .xls kind; open it and save it as .xlsx or .csv`,
    );
  const text = withoutMark(bytes);
  for (const [head, sentence] of WRONG_KINDS)
    if (starts(text, ...head)) throw new Problem(`"${name}" ${sentence}`);
  try {
    checkSize(bytes);
  } catch (error) {
    throw about(name, error);
  }
}

const WHITE = new Set([0x20, 0x09, 0x0a, 0x0d]);

/** The bytes after a byte order mark and white space. */
function withoutMark(bytes: Uint8Array): Uint8Array {
  let at = starts(bytes, 0xef, 0xbb, 0xbf) ? 3 : 0;
  while (WHITE.has(bytes[at] ?? 0)) at++;
  return bytes.subarray(at);
}

const about = (name: string, error: unknown): Problem =>
  new Problem(
    `"${name}" cannot be read: ${error instanceof Error ? error.message : String(error)}`,
  );

async function bookOf(name: string, bytes: Uint8Array): Promise<WorkbookCells> {
  // the reader of workbooks is loaded with the first one
  const { readXlsxBook, OtherKind } = await import('./xlsx.js');
  try {
    return readXlsxBook(bytes);
  } catch (error) {
    throw error instanceof OtherKind
      ? new Problem(`"${name}" ${error.message}`)
      : about(name, error);
  }
}

/** A text table; its name may say otherwise, which a note tells. */
function textTable(name: string, bytes: Uint8Array): TextTable {
  try {
    const table = readCsv(bytes);
    const misnamed = /\.(xls[xmb]?|ods)$/i.test(name)
      ? [`"${name}" is named like a workbook but holds plain text; it is read as a text table.`]
      : [];
    return { ...table, notes: [...misnamed, ...table.notes] };
  } catch (error) {
    throw about(name, error);
  }
}

const misnamedBook = (name: string): string[] =>
  /\.(csv|tsv|txt|xlsb?|ods)$/i.test(name)
    ? [
        `"${name}" is named like another kind of file but holds an .xlsx workbook; it is read as one.`,
      ]
    : [];

/**
 * Reads a file into one table. Of a workbook with several sheets the one with the most filled rows is taken, and
 * a note says which. The kind is told from the bytes, not from the name.
 * @throws Problem with a sentence naming the file when it is empty, encrypted, cut short or of another kind
 */
export async function readTableFile(name: string, bytes: Uint8Array): Promise<TableFile> {
  checkKind(name, bytes);
  if (!isZip(bytes)) return { sheet: '', ...textTable(name, bytes) };
  const { sheets } = await bookOf(name, bytes);
  const sized = sheets.map((s) => ({ sheet: s, rows: filled(s.cells) }));
  const best = sized.reduce<(typeof sized)[number] | undefined>(
    (a, b) => (a === undefined || b.rows > a.rows ? b : a),
    undefined,
  );
  if (!best || best.rows === 0) throw new Problem(`"${name}" has no sheet with anything on it`);
  const others = sized.filter((s) => s !== best && s.rows > 0);
  const notes =
    others.length === 0
      ? []
      : [
          `Sheet "${best.sheet.name}" is read, it has the most rows (${best.rows}); also in the file: ${others
            .map((o) => `"${o.sheet.name}" (${o.rows})`)
            .join(', ')}.`,
        ];
  return {
    sheet: best.sheet.name,
    cells: best.sheet.cells,
    dateCells: best.sheet.dateCells,
    notes: [...misnamedBook(name), ...notes],
  };
}

/**
 * Every sheet of a workbook, in order, for reading Site, Kit, Rules and Weather.
 * @throws Problem when the bytes are not a readable .xlsx workbook
 */
export async function readWorkbookSheets(bytes: Uint8Array): Promise<SheetCells[]> {
  checkKind('The workbook', bytes);
  if (!isZip(bytes)) throw new Problem('this is not an .xlsx workbook; its sheets cannot be read');
  return (await bookOf('The workbook', bytes)).sheets;
}

export interface ReadFile {
  /** sheets with cells, in order; a text table is one, named like its file */
  sheets: SheetCells[];
  /** settings of ours, by key */
  settings: Record<string, string>;
  /** what to know about how it was read, a sentence each */
  notes: string[];
}

/**
 * Reads every sheet of a file, whatever its name says.
 * @throws Problem with a sentence naming the file when it is empty, encrypted, cut short or of another kind
 */
export async function readFile(name: string, bytes: Uint8Array): Promise<ReadFile> {
  checkKind(name, bytes);
  if (!isZip(bytes)) {
    const { cells, notes } = textTable(name, bytes);
    const title = name.replace(/^.*[/\\]/, '').replace(/\.[a-z]+$/i, '');
    return { sheets: [{ name: title, cells, dateCells: new Set() }], settings: {}, notes };
  }
  const { sheets, settings } = await bookOf(name, bytes);
  if (sheets.every(({ cells }) => filled(cells) === 0))
    throw new Problem(`"${name}" has no sheet with anything on it`);
  return { sheets, settings: settingsOf(settings), notes: misnamedBook(name) };
}
