/**
 * Reads trees from a range headed as the workbook's Trees sheet is, for the functions that plan from cells. Inventories
 * that others made go through `inventory/`, which knows many more headers; a formula in a cell has nobody to ask.
 */
import { convert, isBlank, plainLabel, quoted, text, type Cell } from './cells.js';
import { MEASURES, type ColumnUse, type InventoryRow } from './inventory/columns.js';
import { dateOrder, type DateOrder } from './inventory/dates.js';
import { buildRows } from './inventory/rows.js';
import { OWN_HEADERS, type Meaning } from './inventory/vocabulary.js';

export interface TreesReading {
  /** 1-based; 0 when every cell is blank */
  headerRow: number;
  /** every non-blank row below the header, as a tree or with the reason it is none */
  rows: InventoryRow[];
  /** why the headers cannot be used */
  problems: string[];
}

const MEANING = new Map(
  Object.entries(OWN_HEADERS).map(([header, meaning]) => [plainLabel(header), meaning]),
);
/** Two-digit years are read around it; the sheet itself writes four digits. */
const PIVOT_YEAR = 2030;

/**
 * @param cells - the range, header row first; blank rows may stand anywhere
 * @returns trees and reasons; never throws for what cells hold
 */
export function readTrees(cells: Cell[][]): TreesReading {
  const at = cells.findIndex((row) => row.some((cell) => !isBlank(cell)));
  if (at < 0) return { headerRow: 0, rows: [], problems: [] };
  const headers = (cells[at] ?? []).map((cell) => text(cell));
  const problems: string[] = [];
  const uses: ColumnUse[] = [];
  headers.forEach((header, column) => {
    const [, name = header, unit = ''] = /^(.*?)\s*\(([^()]*)\)$/.exec(header) ?? [];
    const meaning = MEANING.get(plainLabel(name));
    // computed columns and notes of one's own may stand between
    if (meaning === undefined) return;
    const twin = uses.find((use) => use.meaning === meaning);
    if (twin) problems.push(`${quoted(header)} and ${quoted(twin.header)} say the same; keep one`);
    const said = unitOf(header, meaning, unit, problems);
    uses.push({
      column,
      header,
      meaning,
      unit: said,
      confidence: 'exact',
      why: '',
      samples: [],
      factor: 1,
      rank: 0,
      year: undefined,
      language: undefined,
      named: unit,
      decimalComma: false,
      pair: false,
      forced: true,
    });
  });
  if (uses.length === 0)
    problems.push(
      `no column is headed as on the Trees sheet; accepted are ${Object.keys(OWN_HEADERS).join(', ')}, sizes with their unit, as in Caliper (in)`,
    );
  if (problems.length > 0) return { headerRow: at + 1, rows: [], problems };

  const data = cells
    .map((row, r) => ({ row: r + 1, cells: row }))
    .slice(at + 1)
    .filter((row) => row.cells.some((cell) => !isBlank(cell)));
  const rows = buildRows({
    headers,
    data,
    unitsRow: undefined,
    uses,
    orders: ordersOf(uses, data),
    pivotYear: PIVOT_YEAR,
    seasonFrom: undefined,
    dateCells: undefined,
    notes: [],
  });
  return { headerRow: at + 1, rows, problems };
}

/** The unit of a measure: as its header names it, else the US one. */
function unitOf(header: string, meaning: Meaning, unit: string, problems: string[]): string {
  const measure = MEASURES[meaning];
  if (!measure) return '';
  if (unit === '') return measure.US;
  if (convert(1, unit, measure.to) === undefined)
    problems.push(
      `${quoted(header)} is in a unit not known for it; accepted are ${measure.US} and ${measure.SI}`,
    );
  return unit;
}

const ordersOf = (
  uses: readonly ColumnUse[],
  data: readonly { cells: Cell[] }[],
): ReadonlyMap<number, DateOrder> =>
  new Map(
    uses
      .filter((use) => use.meaning === 'planted')
      .map(({ column }) => {
        const written = data.map((row) => row.cells[column] ?? null);
        return [column, dateOrder(written, true).order];
      }),
  );
