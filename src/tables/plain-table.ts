/**
 * Tables with one row a thing and named columns: header found by name, units from its bracket, cells read by what their
 * column holds, and a sentence for each that cannot be used. Contract, Log, Meters and lists of trees are read so.
 */
import { Problem } from '../engine/problems.js';
import {
  convert,
  isBlank,
  isMissing,
  plainLabel,
  quantity,
  quoted,
  sheetDay,
  splitHeader,
  text,
  type Cell,
} from './cells.js';

export interface PlainColumn {
  /** header as on our own sheet, without its unit */
  name: string;
  /** other headers, as `plainLabel` gives them */
  also?: readonly string[];
  /** of a number: unit where the header names none, and unit inside; '' for none */
  unit?: readonly [written: string, inside: string];
  /** the table cannot be read without it */
  needed?: true;
}
export type PlainColumns = Readonly<Record<string, PlainColumn>>;

/** Rows from the top among which a header is looked for. */
const HEADER_WITHIN = 30;

interface Found {
  at: number;
  header: string;
  /** as the header's bracket has it, else '' */
  unit: string;
}

/** A row's cells by column, read as asked for. What cannot be read is a Problem that names column and cell. */
export class PlainRow<K extends string> {
  constructor(
    /** row in the table, from 1 */
    readonly at: number,
    private readonly cells: readonly Cell[],
    private readonly columns: PlainColumns,
    private readonly found: ReadonlyMap<K, Found>,
  ) {}

  cell(key: K): Cell {
    const at = this.found.get(key)?.at;
    return at === undefined ? null : (this.cells[at] ?? null);
  }

  has(key: K): boolean {
    return !isMissing(this.cell(key));
  }

  words(key: K): string {
    return this.has(key) ? text(this.cell(key)) : '';
  }

  /** @throws Problem: what the cell holds and what is accepted */
  refuse(key: K, accepted: string): never {
    const name = this.found.get(key)?.header ?? this.columns[key]!.name;
    const cell = this.cell(key);
    throw new Problem(
      isMissing(cell)
        ? `${name} is blank; accepted is ${accepted}`
        : `${name} is ${quoted(cell)}; accepted is ${accepted}`,
    );
  }

  /** A number of 0 or more in the column's inner unit; undefined for a blank cell. */
  number(key: K, most = 1e9): number | undefined {
    if (!this.has(key)) return undefined;
    const [written, inside] = this.columns[key]!.unit ?? ['', ''];
    const unit = this.found.get(key)!.unit || written;
    const accepted = `a number from 0 to ${most}${inside === '' ? '' : `, in ${unit}`}`;
    const read = quantity(this.cell(key));
    if (!read || (read.unit !== '' && inside === '')) return this.refuse(key, accepted);
    const value = inside === '' ? read.value : convert(read.value, read.unit || unit, inside);
    return value === undefined || value < 0 || read.value > most
      ? this.refuse(key, accepted)
      : value;
  }

  /** A day; undefined for a blank cell. */
  day(key: K): number | undefined {
    if (!this.has(key)) return undefined;
    return sheetDay(this.cell(key)) ?? this.refuse(key, 'a date cell, or yyyy-mm-dd');
  }

  /** One of some words in any letter case; undefined for a blank cell. */
  word<T extends string>(
    key: K,
    words: readonly T[],
    also: Readonly<Record<string, T>> = {},
  ): T | undefined {
    if (!this.has(key)) return undefined;
    const label = plainLabel(this.words(key));
    return (
      words.find((w) => plainLabel(w) === label) ??
      also[label] ??
      this.refuse(key, words.join(', '))
    );
  }
}

export interface PlainReading<T> {
  rows: T[];
  /** 1-based; 0 when no header was found */
  headerRow: number;
  /** rows and headers that were refused, a sentence each, beginning with "row n" where it is a row */
  problems: string[];
  /** columns that were found, with the unit their header names, "" for none */
  units: ReadonlyMap<string, string>;
}

/** Columns of a header line by key, or undefined if a needed one is lacking. */
function headerOf<K extends string>(
  line: readonly Cell[],
  columns: Readonly<Record<K, PlainColumn>>,
): Map<K, Found> | undefined {
  const labels = line.map((c) => plainLabel(splitHeader(text(c)).name));
  const found = new Map<K, Found>();
  const taken = new Set<number>();
  for (const [key, { name, also = [] }] of Object.entries(columns) as [K, PlainColumn][]) {
    const at = [plainLabel(name), ...also].map((n) => labels.indexOf(n)).find((c) => c >= 0 && !taken.has(c)); // prettier-ignore
    if (at === undefined) continue;
    taken.add(at);
    found.set(key, { at, header: text(line[at]), unit: splitHeader(text(line[at])).unit });
  }
  const lacks = (Object.entries(columns) as [K, PlainColumn][]).some(([key, c]) => c.needed && !found.has(key)); // prettier-ignore
  return lacks || found.size === 0 ? undefined : found;
}

/** A header as we would write it, in words. */
const accepted = (columns: PlainColumns): string =>
  Object.values(columns)
    .map(({ name, unit }) => (unit && unit[0] !== '' ? `${name} (${unit[0]})` : name))
    .join(', ');

/**
 * Reads a table.
 *
 * @param take - makes a thing of a row; a Problem refuses the row
 * @returns never throws for what cells hold
 */
export function readPlainTable<K extends string, T>(
  cells: readonly (readonly Cell[])[],
  columns: Readonly<Record<K, PlainColumn>>,
  take: (row: PlainRow<K>) => T,
): PlainReading<T> {
  const reading: PlainReading<T> = { rows: [], headerRow: 0, problems: [], units: new Map() };
  const top = cells.slice(0, HEADER_WITHIN).findIndex((line) => headerOf(line, columns) !== undefined); // prettier-ignore
  if (top < 0) {
    const needed = (Object.values(columns) as PlainColumn[]).filter((c) => c.needed).map((c) => c.name); // prettier-ignore
    reading.problems.push(
      `no header row with ${needed.join(' and ')} was found; accepted are ${accepted(columns)}`,
    );
    return reading;
  }
  reading.headerRow = top + 1;
  const found = headerOf(cells[top]!, columns)!;
  reading.units = new Map([...found].map(([key, { unit }]) => [key, unit]));
  for (const [key, { header, unit }] of found) {
    const inside = columns[key].unit?.[1] ?? '';
    if (unit !== '' && inside !== '' && convert(1, unit, inside) === undefined)
      reading.problems.push(
        `${quoted(header)} is in a unit that does not measure it; accepted is ${columns[key].unit![0]} or ${inside}`,
      );
  }
  if (reading.problems.length > 0) return reading;
  cells.slice(top + 1).forEach((line, i) => {
    if (line.every((c) => isBlank(c))) return;
    const number = top + 2 + i;
    try {
      reading.rows.push(take(new PlainRow(number, line, columns, found)));
    } catch (error) {
      if (!(error instanceof Problem)) throw error;
      reading.problems.push(`row ${number}: ${error.message}`);
    }
  });
  return reading;
}
