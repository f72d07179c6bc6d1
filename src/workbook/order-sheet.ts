/** A drought order on a Rules sheet that is there: which cells change, and no others. */
import { readRules } from '../engine/rules/rule-parse.js';
import { ruleSentence } from '../engine/rules/rule-sentences.js';
import { isBlank, text, type Cell } from '../tables/cells.js';
import { cellsOf, columnsNeeded, columnsOf, tableOf, type KeptRow, type OrderLine, type RowCells } from './order-lines.js'; // prettier-ignore
import { findRules, isUnderstood, type FoundTable, type NamedCells } from './rules-found.js';

/** A cell that gets another value; row and column from 0, null is blank. */
export interface CellChange {
  row: number;
  column: number;
  value: Cell;
}

/** A Rules sheet and the table on it; without one the sheet is blank. */
export interface OrderSheet {
  name: string;
  cells: readonly Cell[][];
  rules: FoundTable | undefined;
  /** row of the sheet below which nothing may be written, from 0 */
  below: number;
  /** 0-based column of the sentences of our own sheet */
  understood: number | undefined;
  /** last column that belongs to the table */
  last: number;
}

/** `rows`: no free row below the rules; `column`: none beside them for a column that is needed. */
export type Refusal = { kind: 'rows' } | { kind: 'column'; column: string };

export interface OrderChanges {
  changes: CellChange[];
  /** row of the sheet by key of the line, from 1 */
  at: Map<number, number>;
  refused?: Refusal;
}

/**
 * The Rules sheet among those that may hold rules.
 * @returns undefined where there is none; 'other' for a sheet of that name that is no table of rules
 */
export function orderSheet(sheets: readonly NamedCells[], isRules: (name: string) => boolean): OrderSheet | 'other' | undefined {
  const sheet = sheets.find(({ name }) => isRules(name));
  if (!sheet) return undefined;
  const { name, cells } = sheet;
  if (cells.every((row) => row.every((cell) => isBlank(cell))))
    return { name, cells, rules: undefined, below: Infinity, understood: undefined, last: -1 };
  const found = findRules(sheets);
  if (found?.rules.sheet !== name || !columnsOf(found.rules.rows[0] ?? []).has('Verdict')) return 'other';
  const { rules, stages } = found;
  const header = cells[rules.headerRow - 1] ?? [];
  const beyond = header.findIndex((cell, c) => c >= rules.column && isUnderstood(cell));
  const understood = beyond < 0 ? undefined : beyond;
  const under = stages?.sheet === name && stages.headerRow > rules.headerRow;
  // the heading over the stages and a blank row stay
  const below = under ? stages.headerRow - 3 : Infinity;
  return { name, cells, rules, below, understood, last: Math.max(...rules.columns, beyond) };
} // prettier-ignore

const sameCell = (one: Cell | undefined, other: Cell | undefined): boolean =>
  (one ?? null) === (other ?? null) || (isBlank(one) && isBlank(other));

/** Cells of a sheet while its changes are put together. */
class Changing {
  private readonly now = new Map<string, CellChange>();
  constructor(private readonly cells: readonly Cell[][]) {}

  private before(row: number, column: number): Cell {
    return this.cells[row]?.[column] ?? null;
  }
  private get(row: number, column: number): Cell {
    const changed = this.now.get(`${row},${column}`);
    return changed ? changed.value : this.before(row, column);
  }
  /** @returns whether the cell holds something else now */
  set(row: number, column: number, value: Cell): boolean {
    if (sameCell(this.get(row, column), value)) return false;
    this.now.set(`${row},${column}`, { row, column, value: value === '' ? null : value });
    return true;
  }
  isFree(row: number, from: number, to: number): boolean {
    for (let c = from; c <= to; c++) if (!isBlank(this.get(row, c))) return false;
    return true;
  }
  get changes(): CellChange[] {
    const all = [...this.now.values()];
    return all.filter(({ row, column, value }) => !sameCell(this.before(row, column), value));
  }
}

/** The sentence our own sheet has beside a row. */
function sentenceOf(cells: RowCells, tableRow: number): string {
  const names = Object.keys(cells);
  const [read] = readRules([names, names.map((name) => cells[name] ?? null)]).rows;
  return read ? `Row ${tableRow}: ${ruleSentence(read)}` : '';
}

/** Columns the table lacks go beside it, where that is blank and touches nothing else. */
function withColumns(
  sheet: OrderSheet & { rules: FoundTable },
  changing: Changing,
  needed: readonly string[],
): Refusal | Map<string, number> {
  const { rules, cells, last } = sheet;
  const head = rules.headerRow - 1;
  const places = new Map([...columnsOf(rules.rows[0] ?? [])].map(([name, c]) => [name, rules.columns[c] ?? 0])); // prettier-ignore
  for (const [i, column] of needed.entries()) {
    const c = last + 1 + i;
    const clear = [c, c + 1].every((at) => isBlank(cells[head]?.[at]));
    const filled = cells.some((row, r) => r >= head && r < head + rules.rows.length && !isBlank(row[c])); // prettier-ignore
    if (!clear || filled) return { kind: 'column', column };
    changing.set(head, c, column);
    places.set(column, c);
  }
  return places;
}

/** The first rows free for lines that are new. */
function freeRow(sheet: OrderSheet, changing: Changing, taken: Set<number>, last: number): number | undefined {
  const { rules, below, cells } = sheet;
  const first = rules?.headerRow ?? 1;
  for (let row = first; row <= Math.min(below, cells.length + taken.size); row++)
    if (!taken.has(row) && changing.isFree(row, rules?.column ?? 0, last)) return row;
  return undefined;
} // prettier-ignore

/**
 * What the lines change on a sheet: cells whose line says something else, rows of lines that were taken out, new lines in
 * free rows. Rows in `kept`, other columns and cells that say the same stay.
 *
 * @param replace - the lines were not read from this sheet: all its rows make way
 */
export function changesOf(
  sheet: OrderSheet,
  lines: readonly OrderLine[],
  kept: readonly KeptRow[],
  replace: boolean,
): OrderChanges {
  const changing = new Changing(sheet.cells);
  const at = new Map<number, number>();
  const { rules, last, understood } = sheet;
  if (!rules) {
    const table = tableOf([], lines);
    table.rows.forEach((row, r) => row.forEach((cell, c) => changing.set(r, c, cell)));
    return { changes: changing.changes, at: table.at };
  }
  const made = lines.map((line) => ({ line, cells: cellsOf(line) }));
  const needed = columnsNeeded(rules.rows[0] ?? [], made.map(({ cells }) => cells)); // prettier-ignore
  const places = withColumns({ ...sheet, rules }, changing, needed);
  if (!(places instanceof Map)) return { changes: [], at, refused: places };
  const head = rules.headerRow - 1;
  const staying = new Set<number>();
  if (!replace) {
    kept.forEach(({ row }) => staying.add(head + row));
    lines.forEach(({ origin }) => origin && staying.add(head + origin.row));
  }
  const end = last + needed.length;
  for (let row = head + 1; row < head + rules.rows.length; row++)
    if (!staying.has(row)) for (let c = rules.column; c <= end; c++) changing.set(row, c, null);
  for (const { line, cells } of made) {
    const own = !replace && line.origin ? head + line.origin.row : undefined;
    const row = own ?? freeRow(sheet, changing, staying, end);
    if (row === undefined) return { changes: [], at, refused: { kind: 'rows' } };
    staying.add(row);
    at.set(line.key, row + 1);
    const written = [...places].map(([name, c]) => changing.set(row, c, cells[name] ?? null));
    if (understood !== undefined && written.includes(true))
      changing.set(row, understood, sentenceOf(cells, row - head + 1));
  }
  return { changes: changing.changes, at };
}

/** The cells of a sheet after changes. */
export function changed(cells: readonly Cell[][], changes: readonly CellChange[]): Cell[][] {
  const out = cells.map((row) => [...row]);
  for (const { row, column, value } of changes) {
    while (out.length <= row) out.push([]);
    const line = out[row] ?? [];
    while (line.length <= column) line.push(null);
    line[column] = value;
  }
  return out;
}

/** The rows of a table that hold anything, with its header, to be put aside. */
export const filledRows = (table: FoundTable): Cell[][] =>
  table.rows.filter((row, i) => i === 0 || row.some((cell) => text(cell) !== ''));
