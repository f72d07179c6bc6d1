/** The kit as a table of cells, edited a row at a time; columns the table has of its own stay as they are. */
import { servesAllTrees, type Family } from '../engine/plan/model.js';
import type { Units } from '../engine/units.js';
import { isBlank, plainLabel, splitHeader, text, type Cell } from '../tables/cells.js';
import { familyOf, KIT_COLUMNS, kitHeader, type KitColumn } from '../tables/kit.js';

export type KitKey = KitColumn['key'];
/** Cells of a device by column; what is missing is blank. */
export type DeviceCells = Partial<Record<KitKey, Cell>>;

const ALWAYS: readonly KitKey[] = ['name', 'family'];
const COSTS: readonly KitKey[] = [
  'price',
  'seasons',
  'stock',
  'buy',
  'setupMinutes',
  'visitMinutes',
  'automatic',
];
/** What is asked of a device, by its family. */
const SIZES: Readonly<Record<Family, readonly KitKey[]>> = {
  bag: ['volume', 'holes', 'ratedHours'],
  pad: ['volume'],
  soaker: ['rate', 'length'],
  hand: ['flow'],
  tanker: ['volume', 'flow'],
}; // prettier-ignore

/** Asked after all else, by the family. */
const LAST: Partial<Record<Family, readonly KitKey[]>> = { soaker: ['shutsItself'] };

/** Whether buying more is asked about: one nozzle or truck serves all trees, so its stock limits nothing. */
export const asksToBuy = (family: Family | undefined): boolean =>
  family !== undefined && !servesAllTrees(family);

/** The columns asked of a family, in the order of the form. */
export const columnsFor = (family: Family): KitColumn[] =>
  [...ALWAYS, ...SIZES[family], ...COSTS, ...(LAST[family] ?? [])]
    .filter((key) => key !== 'buy' || asksToBuy(family))
    .flatMap((key) => KIT_COLUMNS.filter((c) => c.key === key));

/** Whether a header cell names a column. */
export const named = (header: Cell | undefined, column: KitColumn): boolean => {
  const name = plainLabel(splitHeader(text(header)).name);
  return name === plainLabel(column.name) || name === plainLabel(column.key);
};

/** Where the header stands: the first row that names device and family. */
export function headerAt(rows: readonly Cell[][]): number {
  const [device, family] = ALWAYS.map((key) => KIT_COLUMNS.find((c) => c.key === key)!);
  const at = rows.findIndex((row) => [device, family].every((c) => row.some((h) => named(h, c!))));
  return Math.max(0, at);
}

export interface KitRow {
  /** 0-based row of the table */
  at: number;
  cells: DeviceCells;
  /** undefined where the word names none */
  family: Family | undefined;
}

/** The devices of a table, row by row, also those that cannot be planned with. */
export function devicesOf(rows: readonly Cell[][]): KitRow[] {
  const top = headerAt(rows);
  const header = rows[top] ?? [];
  return rows.flatMap((row, at) => {
    if (at <= top || row.every((cell) => isBlank(cell))) return [];
    const cells: DeviceCells = {};
    for (const column of KIT_COLUMNS) {
      const place = header.findIndex((h) => named(h, column));
      const cell = place < 0 ? null : (row[place] ?? null);
      if (!isBlank(cell)) cells[column.key] = cell;
    }
    return [{ at, cells, family: familyOf(text(cells.family)) }];
  });
}

/** The unit a column of the table is in, as its header says, else that of `units`. */
export function unitIn(rows: readonly Cell[][], column: KitColumn, units: Units): string {
  const header = (rows[headerAt(rows)] ?? []).find((h) => named(h, column));
  const said = header === undefined ? '' : (/\(([^()]*)\)\s*$/.exec(text(header))?.[1] ?? '');
  if (said !== '') return said;
  return header === undefined && units === 'SI' ? column.unitSI : column.unitUS;
}

/**
 * The table with a device in place of the row at `at`, or below the last row. A column the table lacks is added, with
 * its unit; cells of the family before that no longer apply become blank.
 */
export function withDevice(
  rows: readonly Cell[][],
  at: number | undefined,
  cells: DeviceCells,
  units: Units,
): Cell[][] {
  const made = rows.map((row) => [...row]);
  const top = headerAt(made);
  const header = (made[top] ??= []);
  const row: Cell[] = at === undefined ? [] : (made[at] ?? []);
  for (const column of KIT_COLUMNS) {
    const value = cells[column.key] ?? null;
    let place = header.findIndex((h) => named(h, column));
    if (place < 0 && value === null) continue;
    if (place < 0) place = header.push(kitHeader(column, units)) - 1;
    row[place] = value;
  }
  for (let i = 0; i < header.length; i++) row[i] ??= null;
  if (at === undefined) made.push(row);
  else made[at] = row;
  return made;
}

/** A row put back where it stood, as far as the table still reaches there. */
export const withRow = (rows: readonly Cell[][], at: number, row: readonly Cell[]): Cell[][] => {
  const made = rows.map((r) => [...r]);
  made.splice(at, 0, [...row]);
  return made;
};

export const withoutDevice = (rows: readonly Cell[][], at: number): Cell[][] =>
  rows.filter((_, i) => i !== at).map((row) => [...row]);
