/** The kit edited cell by cell and row by row: what is not named stays as it is, in the table's own units. */
import type { Family } from '../../engine/plan/model.js';
import type { Units } from '../../engine/units.js';
import { convert, type Cell } from '../../tables/cells.js';
import { KIT_COLUMNS, kitHeader, type KitColumn } from '../../tables/kit.js';
import { headerAt, named, unitIn, type DeviceCells, type KitKey } from '../kit-table.js';

/** Digits of a converted cell that are kept: 15 gallons there and back are 15. */
const CELL_DIGITS = 10;
const tidy = (value: number): number => Number(value.toPrecision(CELL_DIGITS));

/** A cell without the last digits of a conversion. */
export const tidied = (cell: Cell): Cell => (typeof cell === 'number' ? tidy(cell) : cell);

/** What decides about a device and stands in the list, by family; the rest of its columns is behind "More". */
export const DECIDING: Readonly<Record<Family, readonly KitKey[]>> = {
  bag: ['stock', 'volume', 'ratedHours', 'price'],
  pad: ['stock', 'volume', 'price'],
  soaker: ['stock', 'length', 'price'],
  hand: ['stock', 'flow', 'price'],
  tanker: ['stock', 'volume', 'price'],
};

/** The measure a device is told from others by. */
export const SIZE_OF: Readonly<Record<Family, KitKey>> = {
  bag: 'volume',
  pad: 'volume',
  soaker: 'length',
  hand: 'flow',
  tanker: 'volume',
};

export function columnOf(key: KitKey): KitColumn {
  const column = KIT_COLUMNS.find((c) => c.key === key);
  if (!column) throw new RangeError(`no column ${key} of the kit`);
  return column;
}

/** The unit a column is shown in: the chosen system's, or the table's own where that one cannot be converted. */
export function unitShown(rows: readonly Cell[][], column: KitColumn, units: Units): string {
  const chosen = units === 'US' ? column.unitUS : column.unitSI;
  const own = unitIn(rows, column, units);
  return own === chosen || convert(1, own, chosen) === undefined ? own : chosen;
}

function changed(cell: Cell, from: string, to: string): Cell {
  if (typeof cell !== 'number' || from === to) return cell;
  return tidy(convert(cell, from, to) ?? cell);
}

/** A cell as it is shown; a text stays as it was written. */
export const shownCell = (rows: readonly Cell[][], column: KitColumn, cell: Cell, units: Units): Cell =>
  changed(cell, unitIn(rows, column, units), unitShown(rows, column, units)); // prettier-ignore

/** What was typed in the shown unit as the table has it; a text, "20 L", stays as it was typed. */
export const storedCell = (rows: readonly Cell[][], column: KitColumn, typed: Cell, units: Units): Cell =>
  changed(typed, unitShown(rows, column, units), unitIn(rows, column, units)); // prettier-ignore

/** The table with one cell of a row replaced. A column the table lacks is added, with its unit. */
export function withCell(
  rows: readonly Cell[][],
  at: number,
  key: KitKey,
  value: Cell,
  units: Units,
): Cell[][] {
  const made = rows.map((row) => [...row]);
  const column = columnOf(key);
  const header = (made[headerAt(made)] ??= []);
  let place = header.findIndex((h) => named(h, column));
  if (place < 0 && value === null) return made;
  if (place < 0) place = header.push(kitHeader(column, units)) - 1;
  const row = (made[at] ??= []);
  while (row.length < place) row.push(null);
  row[place] = value;
  return made;
}

/** The same for several cells. @param cells - by column; what is not named stays */
export const withCells = (
  rows: readonly Cell[][],
  at: number,
  cells: DeviceCells,
  units: Units,
): Cell[][] =>
  Object.entries(cells).reduce<Cell[][]>(
    (table, [key, value]) => withCell(table, at, key as KitKey, value ?? null, units),
    rows.map((row) => [...row]),
  );
