/**
 * Delimited text to cells: byte order mark, encoding, delimiter, quotes. Cells stay text, trimmed of nothing;
 * what a cell means is decided by the tables that read it.
 */
import Papa from 'papaparse';
import { Problem } from '../../engine/problems.js';
import type { Cell } from '../../tables/cells.js';

/** Largest text file that is read [bytes]. */
export const LARGEST_TEXT = 64 * 1024 * 1024;
/** Most cells of one table. */
export const MOST_CELLS = 8_000_000;

const DELIMITERS = [',', ';', '\t', '|'] as const;
const DELIMITER_NAMES: Readonly<Record<string, string>> = {
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  '|': 'bar',
};

export interface TextTable {
  cells: Cell[][];
  /** "UTF-8", "UTF-8 with BOM", "UTF-16", "Windows-1252" */
  encoding: string;
  /** comma, semicolon, tab or bar */
  delimiter: string;
  notes: string[];
}

function decode(bytes: Uint8Array): { content: string; encoding: string; notes: string[] } {
  const [a, b, c] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf)
    return { content: new TextDecoder('utf-8').decode(bytes.subarray(3)), encoding: 'UTF-8 with BOM', notes: [] }; // prettier-ignore
  if ((a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff)) {
    const order = a === 0xff ? 'utf-16le' : 'utf-16be';
    return {
      content: new TextDecoder(order).decode(bytes.subarray(2)),
      encoding: 'UTF-16',
      notes: [],
    };
  }
  if (bytes.includes(0))
    throw new Problem(
      'the file holds zero bytes, so it is not a text table; accepted are .csv, .tsv, .txt and .xlsx',
    );
  try {
    return {
      content: new TextDecoder('utf-8', { fatal: true }).decode(bytes),
      encoding: 'UTF-8',
      notes: [],
    };
  } catch {
    return {
      content: new TextDecoder('windows-1252').decode(bytes),
      encoding: 'Windows-1252',
      notes: ['The text is not UTF-8; it was read as Windows-1252. Look at names with accents.'],
    };
  }
}

/** The delimiter that splits the first lines into the most columns, most evenly. */
function sniff(content: string): string {
  const head = content.slice(0, 65_536);
  let best: { delimiter: string; score: number } = { delimiter: ',', score: 0 };
  for (const delimiter of DELIMITERS) {
    const rows = Papa.parse<string[]>(head, { delimiter, preview: 60 }).data;
    const widths = new Map<number, number>();
    for (const row of rows) widths.set(row.length, (widths.get(row.length) ?? 0) + 1);
    let score = 0;
    for (const [width, times] of widths)
      if (width > 1)
        score = Math.max(
          score,
          (times / rows.length) * (times / rows.length) * Math.min(width, 40),
        );
    if (score > best.score * 1.0001) best = { delimiter, score };
  }
  return best.delimiter;
}

/**
 * Reads a text table. @param bytes the whole file
 * @throws Problem for an empty file, one that is too large, or one that holds no text
 */
export function readCsv(bytes: Uint8Array): TextTable {
  if (bytes.length === 0) throw new Problem('the file is empty');
  if (bytes.length > LARGEST_TEXT)
    throw new Problem(
      `the file has ${Math.round(bytes.length / 1048576)} MB; up to ${LARGEST_TEXT / 1048576} MB are read, so split it`,
    );
  const { content, encoding, notes } = decode(bytes);
  if (content.trim() === '') throw new Problem('the file holds nothing but white space');
  const named = /^sep=(.)\r?\n/.exec(content);
  const delimiter = named?.[1] ?? sniff(content);
  const parsed = Papa.parse<string[]>(named ? content.slice(named[0].length) : content, {
    delimiter,
  });
  const cells: Cell[][] = parsed.data;
  const last = cells.at(-1);
  if (last && last.length === 1 && last[0] === '') cells.pop();
  if (cells.length === 0) throw new Problem('the file holds no table, only a quotation mark');
  let total = 0;
  for (const row of cells) total += row.length;
  if (total > MOST_CELLS)
    throw new Problem(`the table has ${total} cells; up to ${MOST_CELLS} are read, so split it`);
  const quotes = parsed.errors.filter((e) => e.type === 'Quotes');
  const first = quotes[0];
  if (first)
    notes.push(
      `A quotation mark is out of place near row ${(first.row ?? 0) + 1}; the cells from there may be shifted or joined.`,
    );
  return { cells, encoding, delimiter: DELIMITER_NAMES[delimiter] ?? `"${delimiter}"`, notes };
}
