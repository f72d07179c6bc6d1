/**
 * Delimited text to cells: byte order mark, encoding, delimiter, quotes. Cells stay text, trimmed of nothing;
 * what a cell means is decided by the tables that read it.
 */
import Papa from 'papaparse';
import { Problem } from '../../engine/problems.js';
import { isBlank, type Cell } from '../../tables/cells.js';
import { CellCount, checkSize, count, MOST_CELLS, MOST_ROWS } from './limits.js';

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

/** UTF-16 that does not say so: of Western text every other byte is zero, and no other is. */
function unmarkedUtf16(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | undefined {
  const head = bytes.subarray(0, 2000);
  let [even, odd] = [0, 0];
  head.forEach((byte, i) => {
    if (byte !== 0) return;
    if (i % 2 === 0) even++;
    else odd++;
  });
  const most = head.length * 0.4;
  if (odd > most && even === 0) return 'utf-16le';
  return even > most && odd === 0 ? 'utf-16be' : undefined;
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
  const unmarked = unmarkedUtf16(bytes);
  if (unmarked)
    return {
      content: new TextDecoder(unmarked).decode(bytes),
      encoding: 'UTF-16',
      notes: ['The text is UTF-16 without the mark that says so. Look at names with accents.'],
    };
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

/** Line ends and delimiters outnumber rows and cells only where they are quoted. */
function checkCounts(content: string, delimiter: string): void {
  let [rows, cells] = [1, 1];
  const separator = delimiter.charCodeAt(0);
  for (let i = 0; i < content.length; i++) {
    const code = content.charCodeAt(i);
    if (code === 10) rows++;
    if (code === separator || code === 10) cells++;
  }
  if (rows > MOST_ROWS)
    throw new Problem(
      `the table has ${count(rows)} rows; up to ${count(MOST_ROWS)} are read, so split it`,
    );
  if (cells > MOST_CELLS)
    throw new Problem(
      `the table has about ${count(cells)} cells; up to ${count(MOST_CELLS)} are read, so keep the columns that are needed, or split it`,
    );
}

const NOT_BLANK = /[^\s,;|]/;

/** The text up to its last line with anything on it: a million blank lines below a table are no rows. */
function withoutBlankEnd(content: string): string {
  let end = content.length;
  while (end > 0 && !NOT_BLANK.test(content[end - 1]!)) end--;
  const lineEnd = content.indexOf('\n', end);
  return lineEnd < 0 ? content : content.slice(0, lineEnd + 1);
}

/**
 * Reads a text table. @param bytes the whole file
 * @throws Problem for an empty file, one that is too large, or one that holds no text
 */
export function readCsv(bytes: Uint8Array): TextTable {
  if (bytes.length === 0) throw new Problem('the file is empty');
  checkSize(bytes);
  const decoded = decode(bytes);
  const { encoding, notes } = decoded;
  if (decoded.content.trim() === '') throw new Problem('the file holds nothing but white space');
  const content = withoutBlankEnd(decoded.content);
  const named = /^sep=(.)\r?\n/.exec(content);
  const delimiter = named?.[1] ?? sniff(content);
  checkCounts(content, delimiter);
  const parsed = Papa.parse<string[]>(named ? content.slice(named[0].length) : content, {
    delimiter,
  });
  const cells: Cell[][] = parsed.data;
  const last = cells.at(-1);
  if (last && last.length === 1 && last[0] === '') cells.pop();
  if (cells.length === 0) throw new Problem('the file holds no table, only a quotation mark');
  const counted = new CellCount();
  for (const row of cells) {
    let filled = 0;
    for (const cell of row) if (!isBlank(cell)) filled++;
    counted.row('', filled, row.length);
  }
  const quotes = parsed.errors.filter((e) => e.type === 'Quotes');
  const first = quotes[0];
  if (first)
    notes.push(
      `A quotation mark is out of place near row ${(first.row ?? 0) + 1}; the cells from there may be shifted or joined.`,
    );
  return { cells, encoding, delimiter: DELIMITER_NAMES[delimiter] ?? `"${delimiter}"`, notes };
}
