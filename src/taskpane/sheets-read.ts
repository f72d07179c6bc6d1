/** Which cells of the open workbook the panel reads: the inventory, a part of it, and the sheets with rules. */
import { Problem } from '../engine/problems.js';
import { plainLabel, text, type Cell, type Grid } from '../tables/cells.js';
import { papersFromSheets } from '../workbook/papers-sheets.js';
import type { NamedCells } from '../workbook/rules-reading.js';
import type { GivenPapers } from '../workbook/service-papers.js';
import type { Host } from './host.js';

const RULE_SHEETS: ReadonlySet<string> = new Set(['rules', 'stages']);
const PAPER_SHEETS: ReadonlySet<string> = new Set(['contract', 'log', 'meters', 'clocks', 'shortage']); // prettier-ignore
/** Sheets that hold no inventory, by the names our own workbooks give them. */
const OTHER_SHEETS: ReadonlySet<string> = new Set([
  ...RULE_SHEETS, 'about', 'site', 'kit', 'weather', 'inputs', 'plan', 'calendar', 'crew', 'crew days', 'checks', 'charts',
  'materials', 'means', 'estimate', 'sources', 'what if', 'balance', 'rule days', 'field log', 'field checks',
  ...PAPER_SHEETS, 'service', 'price views', 'not served',
]); // prettier-ignore

/** A sheet that holds rules, by its name. */
export const isRulesSheet = (name: string): boolean => RULE_SHEETS.has(plainLabel(name));
/** Where a name was in use, a sheet got a number: "Rules 2". */
const NUMBER = / \d+$/;
/** A sheet that is looked at while the trees stand on another one. */
export const isOtherSheet = (name: string): boolean =>
  OTHER_SHEETS.has(plainLabel(name).replace(NUMBER, ''));

/** The sheets of the workbook that may hold rules. */
export async function readRuleSheets(host: Host, names: readonly string[]): Promise<NamedCells[]> {
  const wanted = names.filter(isRulesSheet);
  return Promise.all(
    wanted.map(async (name) => ({ name, cells: (await host.readTable(name)).cells })),
  );
}

/** The sheets of a service's papers: contract, limits, log, meters, clocks. */
export async function readPaperSheets(host: Host, names: readonly string[]): Promise<GivenPapers> {
  const wanted = names.filter((name) => PAPER_SHEETS.has(plainLabel(name)));
  const sheets = await Promise.all(
    wanted.map(async (name) => ({ name, cells: (await host.readTable(name)).cells })),
  );
  return papersFromSheets(sheets);
}

const CORNERS = /^\$?([A-Z]{1,3})\$?(\d{1,7}):\$?([A-Z]{1,3})\$?(\d{1,7})$/i;
const COLUMNS = /^\$?([A-Z]{1,3}):\$?([A-Z]{1,3})$/i;
const ROWS = /^\$?(\d{1,7}):\$?(\d{1,7})$/;

const columnOf = (letters: string): number =>
  [...letters.toUpperCase()].reduce((n, letter) => n * 26 + letter.charCodeAt(0) - 64, 0) - 1;

interface Corners {
  top: number;
  bottom: number;
  left: number;
  right: number;
}

/** Rows and columns of a range as 0-based pairs; of whole columns and rows the other pair is without end. */
function pairsOf(range: string): { rows: number[]; columns: number[] } | undefined {
  const all = [0, Infinity];
  const [, from = '', to = ''] = COLUMNS.exec(range) ?? [];
  if (from !== '') return { rows: all, columns: [columnOf(from), columnOf(to)] };
  const [, first = '', last = ''] = ROWS.exec(range) ?? [];
  if (first !== '') return { rows: [Number(first) - 1, Number(last) - 1], columns: all };
  const found = CORNERS.exec(range);
  if (!found) return undefined;
  const [, a = '', r1 = '', b = '', r2 = ''] = found;
  return { rows: [Number(r1) - 1, Number(r2) - 1], columns: [columnOf(a), columnOf(b)] };
}

/** "A1:H60", "A:H" or "1:60" as 0-based corners, whichever was written first; undefined if it is not a range. */
export function cornersOf(range: string): Corners | undefined {
  const pairs = pairsOf(range.trim());
  if (!pairs) return undefined;
  const { rows, columns } = pairs;
  if (Math.min(...rows) < 0) return undefined;
  return {
    top: Math.min(...rows),
    bottom: Math.max(...rows),
    left: Math.min(...columns),
    right: Math.max(...columns),
  };
}

/**
 * The cells of a range, everything else blank, so that rows and columns keep their places; "" is the whole sheet.
 *
 * @throws Problem if the range is not one
 */
export function onlyRange(grid: Grid, range: string): Grid {
  if (range.trim() === '') return grid;
  const corners = cornersOf(range);
  if (!corners) throw new Problem(`"${range}" is not a range of cells; accepted is A1:H60`);
  const { top, bottom, left, right } = corners;
  const cells = grid.cells
    .slice(0, bottom + 1)
    .map((row, r): Cell[] =>
      r < top ? [] : row.slice(0, right + 1).map((cell, c) => (c < left ? null : cell)),
    );
  return { ...grid, cells };
}

const FNV_OFFSET = 0x811c9dc5;
const FNV_PRIME = 0x01000193;

/** A short key of a row of headers: the same headers in the same order have the same key, however they are spaced or cased. */
export function headersKey(headers: readonly Cell[]): string {
  const plain = headers.map((header) => plainLabel(text(header)));
  while (plain.at(-1) === '') plain.pop();
  let hash = FNV_OFFSET;
  for (const sign of plain.join('\n')) {
    hash ^= sign.codePointAt(0) ?? 0;
    hash = Math.imul(hash, FNV_PRIME) >>> 0;
  }
  return hash.toString(16).padStart(8, '0');
}
