/** Contract, log, meters, clocks and limits read back from the sheets of a workbook like ours. */
import { isBlank, plainLabel, splitHeader, text, type Cell } from '../tables/cells.js';
import { BAG_COLUMNS, CLOCK_COLUMNS } from '../tables/clocks.js';
import { CONTRACT_COLUMNS } from '../tables/contract.js';
import { METER_COLUMNS } from '../tables/meters.js';
import type { PlainColumn } from '../tables/plain-table.js';
import { LOG_COLUMNS } from '../tables/visit-log.js';
import type { GivenPapers } from './service-papers.js';

type Columns = Readonly<Record<string, PlainColumn>>;

const LIMIT_COLUMNS = { name: { name: 'Limit' }, value: { name: 'Value' }, unit: { name: 'Unit' } };

/** Where each paper stands: its sheet, its columns, and the column without which a row is none. */
const PLACES: readonly (readonly [keyof GivenPapers, sheet: string, Columns, row: string])[] = [
  ['contract', 'Contract', CONTRACT_COLUMNS, ''],
  ['visits', 'Log', LOG_COLUMNS, ''],
  ['meters', 'Meters', METER_COLUMNS, ''],
  ['clocks', 'Clocks', CLOCK_COLUMNS, 'Tree'],
  ['bags', 'Clocks', BAG_COLUMNS, 'Bag'],
  ['shortage', 'Shortage', LIMIT_COLUMNS, 'Limit'],
];

interface OwnTable {
  /** row of the header, from 0 */
  top: number;
  /** header first; blank rows between rows stay, those at the end do not */
  rows: Cell[][];
}

/**
 * The table of some columns on a sheet, without the columns beside them, for those are worked out anew. It ends where a
 * heading follows a blank row.
 */
function ownTable(cells: readonly Cell[][], columns: Columns, first: string): OwnTable | undefined {
  const names = new Set(
    Object.values(columns).flatMap(({ name, also = [] }) => [plainLabel(name), ...also]),
  );
  const label = (c: Cell | undefined): string => plainLabel(splitHeader(text(c)).name);
  const least = Math.min(3, Object.keys(columns).length);
  const top = cells.findIndex(
    (line) =>
      line.filter((c) => names.has(label(c))).length >= least &&
      (first === '' || line.some((c) => label(c) === plainLabel(first))),
  );
  if (top < 0) return undefined;
  const header = cells[top]!;
  const taken = new Set<string>();
  const kept = header.flatMap((c, i) => {
    const name = label(c);
    if (!names.has(name) || taken.has(name)) return [];
    taken.add(name);
    return [i];
  });
  const rows: Cell[][] = [kept.map((i) => header[i] ?? null)];
  let end = 1;
  for (const line of cells.slice(top + 1)) {
    const own = kept.map((i) => line[i] ?? null);
    const filled = own.filter((c) => !isBlank(c)).length;
    const afterBlank = rows.length > end;
    if (filled === 1 && !isBlank(line[0]) && afterBlank) break;
    rows.push(own);
    if (filled > 0) end = rows.length;
  }
  return { top, rows: rows.slice(0, end) };
}

type Sheets = readonly { name: string; cells: Cell[][] }[];

const found = (sheets: Sheets, sheetName: string, columns: Columns, first: string): OwnTable | undefined => {
  const cells = sheets.find((s) => plainLabel(s.name) === plainLabel(sheetName))?.cells;
  return cells && ownTable(cells, columns, first);
}; // prettier-ignore

/** Papers among the sheets; a table without rows is none, but a log without visits stays a log. */
export function papersFromSheets(sheets: Sheets): GivenPapers {
  const given: GivenPapers = {};
  for (const [paper, sheetName, columns, first] of PLACES) {
    const table = found(sheets, sheetName, columns, first);
    if (table && (table.rows.length > 1 || paper === 'visits')) given[paper] = table.rows;
  }
  return given;
}

/** A paper's table in the rows it stands in on its sheet, so that row numbers are those a person sees. */
export function paperInPlace(sheets: Sheets, paper: keyof GivenPapers): Cell[][] | undefined {
  const [, sheetName, columns, first] = PLACES.find(([name]) => name === paper)!;
  const table = found(sheets, sheetName, columns, first);
  return table && [...Array.from({ length: table.top }, (): Cell[] => []), ...table.rows];
}

/** The lines of a sheet down to the end of a paper's table, with all their columns. */
export function paperLines(sheets: Sheets, paper: keyof GivenPapers): Cell[][] | undefined {
  const [, sheetName, columns, first] = PLACES.find(([name]) => name === paper)!;
  const cells = sheets.find((s) => plainLabel(s.name) === plainLabel(sheetName))?.cells;
  const table = cells && ownTable(cells, columns, first);
  return table && cells.slice(0, table.top + table.rows.length);
}
