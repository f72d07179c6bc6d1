/**
 * The log of a season: waterings given, rain that fell, bags timed, pads weighed, flows measured, stages declared. Each is
 * a table with a header row; units stand in the header in brackets, in any case. A row that cannot be read becomes a
 * sentence with the table, the row, what was read and what is accepted.
 */
import type { Day } from '../engine/dates.js';
import type {
  BagTiming,
  FlowReading,
  GivenRow,
  PadReading,
  RainRow,
} from '../engine/plan/replan-rows.js';
import { padVolume } from '../engine/means/gel-pad.js';
import { Problem } from '../engine/problems.js';
import { stageName } from '../engine/rules/rule-cells.js';
import type { Units } from '../engine/units.js';
import { isBlank, isMissing, plainLabel, quoted, text, type Cell } from './cells.js';
import { dateOrder } from './inventory/dates.js';
import {
  acceptedHeader,
  LOG_TABLES,
  matchHeader,
  readField,
  type Column,
  type LogKind,
} from './season-log-columns.js';

/** A sheet of a workbook, or a text table with its file's name. */
export interface LogTable {
  name: string;
  cells: Cell[][];
  /** "row,column", 0-based, of cells shown as dates */
  dateCells?: Set<string>;
}

export interface LogStage {
  row: number;
  from: Day;
  /** as the rules name it */
  stage: string;
  /** as it stood in the table */
  written: string;
}

export interface SeasonLog {
  given: GivenRow[];
  /** undefined: the log has no table of rain */
  rain?: RainRow[];
  bags: BagTiming[];
  pads: PadReading[];
  flows: FlowReading[];
  stages: LogStage[];
  /** rows with anything in them, below the headers */
  rows: number;
  /** rows or tables that were refused, a sentence each */
  problems: string[];
  /** what was not read or was assumed, a sentence each */
  notes: string[];
}

/** Rows from the top among which a header is looked for. */
const HEADER_WITHIN = 30;
/** Share of a pad's water that roots can draw, where the row gives none [-]: as the sheet Field checks takes it. */
const PAD_USABLE = 0.9;

/**
 * Reads a season log. Tables are known by their name (Waterings, Rain, Bag timings, Pad weights, Flows, Stages); a log
 * of one table may have any name and is known by its headers.
 *
 * @param units - settles dates like 3/4/2027 where no other cell of the column does
 * @throws Problem if there is no table of a season log in it
 */
export function readSeasonLog(tables: readonly LogTable[], units: Units = 'US'): SeasonLog {
  const log: SeasonLog = {
    given: [], bags: [], pads: [], flows: [], stages: [], rows: 0, problems: [], notes: [],
  }; // prettier-ignore
  const filled = tables.filter(({ cells }) => cells.some((row) => row.some((c) => !isBlank(c))));
  let known = 0;
  for (const table of filled) {
    const alone = filled.length === 1 || IS_FILE.test(table.name);
    const kind = kindByName(table.name) ?? (alone ? kindByHeader(table) : undefined);
    if (kind === undefined) {
      log.notes.push(`Season log: ${quoted(table.name)} is none of ${TABLE_NAMES}; it is not read.`); // prettier-ignore
      continue;
    }
    known++;
    readTable(table, kind, units, log);
  }
  if (known === 0)
    throw new Problem(
      `no table of a season log was found; accepted are ${TABLE_NAMES}, each with a row of headers, for example ${acceptedHeader('Waterings')}`,
    );
  // a table of which nothing could be read is no drought
  if (log.rain?.length === 0 && log.problems.some((p) => p.startsWith('Rain'))) delete log.rain;
  return log;
}

const KINDS = Object.keys(LOG_TABLES) as LogKind[];
const TABLE_NAMES = KINDS.join(', ');

const IS_FILE = /\.[a-z]{3,4}$/i;

/** The kind a sheet is named after. A file's name may say more, as long as it names one kind only. */
function kindByName(name: string): LogKind | undefined {
  const label = ` ${plainLabel(name.replace(IS_FILE, ''))} `;
  const isFile = IS_FILE.test(name);
  const named = KINDS.filter((kind) =>
    LOG_TABLES[kind].names.some((n) => label === ` ${n} ` || (isFile && label.includes(` ${n} `))),
  );
  return named.length === 1 ? named[0] : undefined;
}

/** The kind whose columns are all there and take up most of the header. */
function kindByHeader(table: LogTable): LogKind | undefined {
  const found = KINDS.map((kind) => ({ kind, match: headerOf(table, kind) })).filter(
    ({ match }) => match !== undefined,
  );
  found.sort((a, b) => b.match!.columns.size - a.match!.columns.size);
  return found[0]?.kind;
}

interface Header {
  row: number;
  columns: ReadonlyMap<string, Column>;
}

function headerOf({ cells }: LogTable, kind: LogKind): Header | undefined {
  for (const [row, line] of cells.slice(0, HEADER_WITHIN).entries()) {
    const columns = matchHeader(line, kind);
    if (LOG_TABLES[kind].needs.every((any) => any.some((key) => columns.has(key))))
      return { row, columns };
  }
  return undefined;
}

/** A row's fields by name, read as asked for; what cannot be read refuses the row. */
class Row {
  constructor(
    readonly number: number,
    private readonly cells: readonly Cell[],
    private readonly columns: ReadonlyMap<string, Column>,
    private readonly dates: { order: ReturnType<typeof dateOrder>['order']; isDate: boolean },
  ) {}

  has(key: string): boolean {
    const at = this.columns.get(key)?.at;
    return at !== undefined && !isMissing(this.cells[at] ?? null);
  }

  words(key: string): string {
    return this.has(key) ? text(this.cells[this.columns.get(key)!.at]) : '';
  }

  /** @throws Problem saying what was read and what is accepted */
  measure(key: string): number {
    const column = this.columns.get(key);
    if (!column) throw new Problem(`there is no column for the ${key}`);
    return readField(column, this.cells[column.at] ?? null, this.dates);
  }

  maybe(key: string): number | undefined {
    return this.has(key) ? this.measure(key) : undefined;
  }

  /** The tree by its id, its row in the inventory, or both. */
  tree(): { row: number; tree: string; treeRow?: number } {
    const tree = this.words('tree');
    const treeRow = this.maybe('row');
    if (tree === '' && treeRow === undefined)
      throw new Problem('it names no tree; accepted is its id, its row in the inventory, or both');
    return { row: this.number, tree, ...(treeRow !== undefined && { treeRow }) };
  }
}

const TAKE: Readonly<Record<LogKind, (row: Row, log: SeasonLog) => void>> = {
  Waterings: (row, log) => {
    const device = row.words('device');
    log.given.push({
      ...row.tree(),
      day: row.measure('date'),
      litres: row.measure('water'),
      ...(device !== '' && { device }),
    });
  },
  Rain: (row, log) => {
    log.rain?.push({ row: row.number, day: row.measure('date'), mm: row.measure('rain') });
  },
  'Bag timings': (row, log) => {
    const before = row.maybe('before');
    const left = row.maybe('left');
    log.bags.push({
      ...row.tree(),
      hours: row.measure('hours'),
      ...(before !== undefined && { before }),
      ...(left !== undefined && { left }),
    });
  },
  'Pad weights': (row, log) => {
    const day = row.maybe('date');
    log.pads.push({ ...row.tree(), litres: padLitres(row), ...(day !== undefined && { day }) });
  },
  Flows: (row, log) => {
    const device = row.words('device');
    if (device === '') throw new Problem('it names no device; accepted is a name of the kit');
    const named = row.has('tree') || row.has('row');
    log.flows.push({
      ...(named ? row.tree() : {}),
      row: row.number,
      device,
      flow: row.measure('flow'),
    });
  },
  Stages: (row, log) => {
    const written = row.words('stage');
    if (written === '') throw new Problem('it names no stage; accepted is a stage of the rules');
    const from = row.measure('date');
    const twice = log.stages.find((other) => other.from === from);
    if (twice) throw new Problem(`row ${twice.row} starts a stage on that day already`);
    log.stages.push({ row: row.number, from, stage: stageName(written), written });
  },
};

/** Usable water in a pad: as given, or its weight now above its dry weight times the share roots can draw. */
function padLitres(row: Row): number {
  if (row.has('water')) return row.measure('water');
  if (!row.has('now') || !row.has('dry'))
    throw new Problem(
      'it gives no water; accepted is the usable water left, or the weights now and dry',
    );
  const now = row.measure('now');
  const dry = row.measure('dry');
  const saturated = row.maybe('saturated');
  if (now < dry || (saturated !== undefined && saturated < now))
    throw new Problem(
      `the weights are ${kg(now)} now, ${kg(dry)} dry${saturated === undefined ? '' : `, ${kg(saturated)} soaked`}; now must lie between dry and soaked`,
    );
  const usable = row.maybe('usable') ?? PAD_USABLE;
  return now === dry ? 0 : padVolume(now, dry, usable);
}

const kg = (weight: number): string => `${Number(weight.toFixed(2))} kg`;

function readTable(table: LogTable, kind: LogKind, units: Units, log: SeasonLog): void {
  const { cells, dateCells } = table;
  if (kind === 'Rain') log.rain ??= [];
  const header = headerOf(table, kind);
  const isFilled = (row: readonly Cell[]): boolean => row.some((c) => !isBlank(c));
  if (!header) {
    const rows = cells.filter(isFilled).length;
    log.rows += rows;
    log.problems.push(
      `${kind}: no row of headers was found; accepted is ${acceptedHeader(kind)}. None of its ${rows} rows is used.`,
    );
    return;
  }
  const { row: top, columns } = header;
  const dateAt = columns.get('date')?.at;
  const dates = dateAt === undefined ? [] : cells.slice(top + 1).map((row) => row[dateAt] ?? null);
  const { order, decided } = dateOrder(dates, units === 'US');
  if (decided === 'units' || decided === 'mixed')
    log.notes.push(`${kind}: dates like 3/4/2027 are read ${order}; write 2027-03-04 where that is wrong.`); // prettier-ignore
  const read = new Set([...columns.values()].map(({ at }) => at));
  const unread = (cells[top] ?? []).filter((c, at) => !isBlank(c) && !read.has(at));
  if (unread.length > 0)
    log.notes.push(`${kind}: not read: ${unread.map((c) => quoted(c)).join(', ')}.`);
  cells.slice(top + 1).forEach((line, i) => {
    if (!isFilled(line)) return;
    log.rows++;
    const r = top + 1 + i;
    const isDate = dateAt !== undefined && dateCells?.has(`${r},${dateAt}`) === true;
    try {
      TAKE[kind](new Row(r + 1, line, columns, { order, isDate }), log);
    } catch (error) {
      if (!(error instanceof Problem)) throw error;
      log.problems.push(`${kind}, row ${r + 1}: ${error.message}. The row is not used.`);
    }
  });
}
