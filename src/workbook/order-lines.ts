/** A drought order as lines of a form, each one row of the rules table, and back. Holds the reader of rules: for parts that are loaded late. */
import { isoDate, WEEKDAYS } from '../engine/dates.js';
import { Problem } from '../engine/problems.js';
import { minuteOf } from '../engine/rules/rule-hours.js';
import { readRules, RULE_COLUMNS, sayTheSame } from '../engine/rules/rule-parse.js';
import {
  ALL_WEEKDAYS,
  DAY_MINUTES,
  type DayRule,
  type RuleRow,
  type Verdict,
} from '../engine/rules/rule-types.js';
import { clock } from '../engine/rules/rule-words.js';
import { isBlank, text, type Cell } from '../tables/cells.js';

/** Means in the order the form shows them: what lies and runs, what a person holds, what is filled. */
export const ORDER_MEANS = ['soaker', 'drip', 'sprinkler', 'hand', 'bucket', 'bag', 'tanker', 'pad'] as const; // prettier-ignore
export type OrderMeans = (typeof ORDER_MEANS)[number];

/** Columns with fields of their own; the cells of all others stand in the form as they are. */
export const FRONT = ['Means', 'Address', 'Days', 'Hours', 'Verdict'] as const;
export const NAMES: readonly string[] = RULE_COLUMNS.map(({ name }) => name);
export const MORE: readonly string[] = NAMES.filter(
  (n) => !(FRONT as readonly string[]).includes(n),
);
/** Columns every new table has. */
const ALWAYS: ReadonlySet<string> = new Set(['Means', 'Days', 'Hours', 'Verdict']);

/** Cells of a row by the name of their column. */
export type RowCells = Readonly<Record<string, Cell>>;

/** `within`: the hours given; `outside`: all but them; `words`: as the cell says it. */
export type Span = 'outside' | 'within' | 'words';

export interface OrderLine {
  /** tells lines apart while they are edited */
  key: number;
  /** row of the table it was read from, the header being 0, with its cells as they stand there */
  origin?: { row: number; cells: RowCells };
  /** null: all means */
  means: readonly string[] | null;
  verdict: Verdict;
  /** in the words of the table, "" for everybody */
  address: string;
  /** bit mask of the days of the week chosen, bit 0 Sunday; 0: none chosen, any day */
  weekdays: number;
  /** `none`: no day, unless another line opens it */
  dates: 'any' | 'odd' | 'even' | 'none';
  /** as typed, "" for no condition */
  perWeek: string;
  every: string;
  span: Span;
  /** hours of one or two windows as typed; a closed span has one */
  from: string;
  to: string;
  from2: string;
  to2: string;
  words: string;
  /** cells of the other columns */
  more: RowCells;
}

/** A row the form cannot show: it stays as it is. */
export interface KeptRow {
  /** row of the table, the header being 0 */
  row: number;
  cells: readonly Cell[];
  /** why, in the reader's words */
  sentences: string[];
}

/** A field that cannot be used as it stands. */
export type LineTrouble = { field: string } & (
  | { kind: 'noMeans' | 'half' | 'perWeek' | 'every' }
  | { kind: 'time'; typed: string }
  | { kind: 'ends'; from: string; to: string; overnight: boolean }
  /** a sentence of the reader */
  | { kind: 'reader'; sentence: string }
);

export const newLine = (key: number): OrderLine => ({
  ...{ key, means: [], verdict: 'allow', address: '', weekdays: 0, dates: 'any', perWeek: '', every: '' },
  ...{ span: 'outside', from: '', to: '', from2: '', to2: '', words: '', more: {} },
}); // prettier-ignore

type Days = Pick<OrderLine, 'weekdays' | 'dates' | 'perWeek' | 'every'>;
type Hours = Pick<OrderLine, 'span' | 'from' | 'to' | 'from2' | 'to2' | 'words'>;

function daysOf({ weekdays, parity, every, perWeek }: DayRule): Days {
  return {
    weekdays: weekdays === ALL_WEEKDAYS ? 0 : weekdays,
    dates: weekdays === 0 ? 'none' : (parity ?? 'any'),
    perWeek: perWeek === null ? '' : String(perWeek),
    every: every === null ? '' : String(every),
  };
}

function hoursOf({ hours, oneWindow }: RuleRow, cell: Cell): Hours {
  const plain: Hours = { span: 'outside', from: '', to: '', from2: '', to2: '', words: '' };
  if (hours === null) return plain;
  const [first, second] = hours;
  if (!first || oneWindow || hours.length > 2)
    return { ...plain, span: 'words', words: text(cell) };
  const [from, to] = [clock(first.start), clock(first.end)];
  if (!second) return { ...plain, span: 'within', from, to };
  if (first.start === 0 && second.end === DAY_MINUTES && first.end < second.start)
    return { ...plain, from: to, to: clock(second.start) };
  const more = { from2: clock(second.start), to2: clock(second.end) };
  return { ...plain, span: 'within', from, to, ...more };
}

/** A cell as it stands in a field: days of the calendar as yyyy-mm-dd. */
export const typedCell = (name: string, cell: Cell | undefined): string =>
  typeof cell === 'number' && (name === 'From' || name === 'To') ? isoDate(Math.floor(cell)) : text(cell); // prettier-ignore

/** The reader's sentence without the place on the sheet, which the form shows by standing there. */
const atField = (sentence: string): string =>
  sentence.replace(/^Rules row \d+, /, 'the field ').replace(/ The row is left out\.$/, '');

/** The position of each column of a header, by its name; the first where one is there twice. */
export function columnsOf(header: readonly Cell[]): Map<string, number> {
  const at = new Map<string, number>();
  header.forEach((cell, i) => {
    const name = NAMES.find((n) => n.toLowerCase() === text(cell).trim().toLowerCase());
    if (name !== undefined && !at.has(name)) at.set(name, i);
  });
  return at;
}

function lineOf(key: number, row: number, read: RuleRow, cells: RowCells): OrderLine {
  const address = text(cells['Address']);
  return {
    ...{ key, origin: { row, cells }, means: read.means, verdict: read.verdict },
    address: address.toLowerCase() === 'any' ? '' : address,
    ...daysOf(read.days),
    ...hoursOf(read, cells['Hours'] ?? null),
    more: Object.fromEntries(
      MORE.flatMap((n) => (isBlank(cells[n]) ? [] : [[n, cells[n] ?? null]])),
    ),
  };
}

/**
 * The lines of a table, and the rows no line can say.
 *
 * @param rows - header first; blank rows are no lines
 * @param firstKey - keys of the lines count from it
 */
export function linesOf(rows: readonly Cell[][], firstKey = 0): { lines: OrderLine[]; kept: KeptRow[] } {
  const header = rows[0] ?? [];
  const at = columnsOf(header);
  const lines: OrderLine[] = [];
  const kept: KeptRow[] = [];
  rows.forEach((row, i) => {
    if (i === 0 || row.every((cell) => isBlank(cell))) return;
    const { rows: read, problems } = readRules([[...header], [...row]]);
    const cells = Object.fromEntries([...at].map(([name, c]) => [name, row[c] ?? null]));
    if (read[0]) lines.push(lineOf(firstKey + lines.length, i, read[0], cells));
    else {
      const own = problems.filter((p) => p.row === 2);
      kept.push({ row: i, cells: row, sentences: own.map(({ sentence }) => atField(sentence)) });
    }
  });
  return { lines, kept };
} // prettier-ignore

const ORDINALS: Readonly<Record<string, string>> = { 2: '2nd', 3: '3rd', 22: '22nd', 23: '23rd', 21: '21st', 31: '31st' }; // prettier-ignore
/** The week is written from Monday. */
export const WEEK = [1, 2, 3, 4, 5, 6, 0] as const;

function daysCell({ weekdays, dates, perWeek, every }: OrderLine): string {
  if (dates === 'none') return 'none';
  const named = WEEK.filter((d) => (weekdays >> d) & 1).map((d) => WEEKDAYS[d] ?? '');
  const parts = named.length === WEEK.length || named.length === 0 ? [] : [named.join(' ')];
  if (dates !== 'any') parts.push(`${dates} dates`);
  if (every !== '') parts.push(`every ${ORDINALS[every] ?? `${every}th`} day`);
  if (perWeek !== '') parts.push(`${perWeek} per week`);
  return parts.join(', ');
}

const timeOf = (typed: string): number | undefined => {
  try {
    return minuteOf(typed.trim().toLowerCase());
  } catch (error) {
    if (error instanceof Problem) return undefined;
    throw error;
  }
};
/** Midnight at the end of a span is the end of the day. */
const endOf = (typed: string): number | undefined => {
  const minute = timeOf(typed);
  return minute === 0 ? DAY_MINUTES : minute;
};
const spanText = (from: string, to: string): string =>
  `${clock(timeOf(from) ?? 0)}-${clock(endOf(to) ?? DAY_MINUTES)}`;

function hoursCell({ span, from, to, from2, to2, words }: OrderLine): string {
  if (span === 'words') return words.trim();
  if (from === '' && to === '') return '';
  if (span === 'outside') return `not ${spanText(from, to)}`;
  return [spanText(from, to), ...(from2 === '' && to2 === '' ? [] : [spanText(from2, to2)])].join(', ');
} // prettier-ignore

const EXAMPLE = /^example\b/i;

/**
 * The cells of a line's row by column. A cell of the row it was read from that says the same stays as it was written; a
 * row that says something else is no example any more.
 */
export function cellsOf(line: OrderLine): RowCells {
  const made: Record<string, Cell> = {
    Means: line.means === null ? 'any' : line.means.join(', '),
    Address: line.address.trim(),
    Days: daysCell(line),
    Hours: hoursCell(line),
    Verdict: line.verdict,
    ...line.more,
  };
  const before = line.origin?.cells;
  if (!before) return made;
  let changed = false;
  const cells: Record<string, Cell> = {};
  for (const name of new Set([...Object.keys(before), ...Object.keys(made)])) {
    const [was, now] = [before[name] ?? null, made[name] ?? null];
    const same = sayTheSame(name, was, now);
    changed ||= !same;
    cells[name] = same ? was : now;
  }
  if (changed && EXAMPLE.test(text(cells['Note']))) cells['Note'] = null;
  return cells;
}

/** Two hours of a span: both or neither, each a time, the end after the beginning where it must be. */
function spanTroubles(from: string, to: string, suffix: string, overnight: boolean): LineTrouble[] {
  const [a, b] = [from.trim(), to.trim()];
  const [begin, end] = [`from${suffix}`, `to${suffix}`];
  if (a === '' && b === '') return [];
  const wrong = [[begin, a], [end, b]].filter(([, typed]) => typed !== '' && timeOf(typed ?? '') === undefined); // prettier-ignore
  if (wrong.length > 0)
    return wrong.map(([at = '', typed = '']) => ({ field: at, kind: 'time', typed }));
  if (a === '' || b === '') return [{ field: a === '' ? begin : end, kind: 'half' }];
  const [start, stop] = [timeOf(a) ?? 0, endOf(b) ?? 0];
  // "from 8 to 6" means six in the evening; whoever means the next morning writes 18:00 to 06:00
  const bare = [a, b].some((typed) => /^\d{1,2}$/.test(typed));
  if (stop > start || (overnight && stop < start && !bare)) return [];
  return [{ field: end, kind: 'ends', from: clock(start), to: clock(stop), overnight }];
}

const isWhole = (typed: string, least: number, most: number): boolean =>
  /^\d{1,2}$/.test(typed) && Number(typed) >= least && Number(typed) <= most;

/** What keeps a line from being used, each at its field. */
export function troublesOf(line: OrderLine): LineTrouble[] {
  const own: LineTrouble[] = [];
  const { span, means, perWeek, every, verdict } = line;
  if (means?.length === 0) own.push({ field: 'means', kind: 'noMeans' });
  if (perWeek !== '' && !isWhole(perWeek, 1, 7)) own.push({ field: 'perWeek', kind: 'perWeek' });
  if (every !== '' && !isWhole(every, 2, 31)) own.push({ field: 'every', kind: 'every' });
  if (span !== 'words') own.push(...spanTroubles(line.from, line.to, '', span === 'within'));
  if (span === 'within') own.push(...spanTroubles(line.from2, line.to2, '2', true));
  if (span === 'within' && line.from === '' && line.to === '' && line.from2 + line.to2 !== '')
    own.push({ field: 'from', kind: 'half' });
  if (own.length > 0) return own;
  const cells = cellsOf(line);
  const { problems } = readRules([[...NAMES], NAMES.map((name) => cells[name] ?? null)]);
  const broken = problems.filter(({ kind }) => kind === 'broken');
  return broken.map(({ column, sentence }) => {
    const field = column === 'Days' ? 'days' : column === 'Hours' ? 'words' : column === 'Address' ? 'address' : column; // prettier-ignore
    const place = field === 'days' && verdict !== 'allow' && perWeek !== '' ? 'perWeek' : field;
    return { field: place, kind: 'reader', sentence: atField(sentence) };
  });
}

/** Means of a line that no other line names. */
export const theOthers = (lines: readonly OrderLine[], of: OrderLine): OrderMeans[] =>
  ORDER_MEANS.filter((m) => !lines.some((l) => l !== of && l.means?.includes(m)));

/** A row that names hand counts filling as watering by hand, so it speaks of what is filled, too. */
const FILLED = ['bag', 'tanker'];
const spokenOf = ({ means, more }: OrderLine): readonly string[] =>
  means?.includes('hand') && text(more['Filling']).toLowerCase() === 'hand' ? [...means, ...FILLED] : (means ?? []); // prettier-ignore

/** Means that no line opens or bans by its name: the rules leave them open, but for bans of all means. */
export function unnamedMeans(lines: readonly OrderLine[]): OrderMeans[] {
  if (lines.some(({ means, verdict }) => means === null && verdict !== 'ban')) return [];
  const named = new Set(lines.flatMap(spokenOf));
  return ORDER_MEANS.filter((m) => !named.has(m));
}

/** Nothing was entered in a line yet. */
export const isUntouched = (line: OrderLine): boolean =>
  line.origin === undefined && JSON.stringify(line) === JSON.stringify(newLine(line.key));

const BOTH_ENDS =
  /^(?:from |between |de |entre )?(\S.*?)(?: ?[-–—] ?| (?:to|until|till|and|a|hasta|y) )(\S.*)$/i;
/** Both ends of a span typed into its first field, as "10 am to 6 pm"; undefined for one time alone. */
export function endsTyped(typed: string): { from: string; to: string } | undefined {
  const [, from, to] = BOTH_ENDS.exec(typed.trim()) ?? [];
  return from === undefined || to === undefined ? undefined : { from, to };
}

/** Columns the lines need that a header lacks, in the order of the table. */
export function columnsNeeded(header: readonly Cell[], rows: readonly RowCells[]): string[] {
  const there = columnsOf(header);
  return NAMES.filter(
    (n) =>
      !there.has(n) &&
      ((header.length === 0 && ALWAYS.has(n)) || rows.some((cells) => !isBlank(cells[n]))),
  );
}

/** A table and where each line stands in it. */
export interface Placed {
  rows: Cell[][];
  /** row of the table by key of the line, the header being 1 */
  at: Map<number, number>;
}

/**
 * The table of an order that stands on no sheet yet.
 *
 * @param header - of the table the form was filled from; [] for a new one
 */
export function tableOf(header: readonly Cell[], lines: readonly OrderLine[], kept: readonly KeptRow[] = []): Placed {
  const made = lines.map((line) => ({ line, cells: cellsOf(line) }));
  const wanted = columnsNeeded(header, made.map(({ cells }) => cells));
  // a new table has its columns in the order of the table
  const all: Cell[] = [...header, ...wanted];
  const columns = columnsOf(all);
  const body = made.map(({ line, cells }) => {
    const row = all.map((): Cell => null);
    for (const [name, c] of columns) row[c] = cells[name] ?? null;
    return { key: line.key, row, order: line.origin?.row ?? Infinity };
  });
  const rest = kept.map(({ row, cells }) => ({ key: undefined, row: [...cells], order: row }));
  const sorted = [...body, ...rest].sort((a, b) => (a.order === b.order ? 0 : a.order - b.order));
  const at = new Map<number, number>();
  sorted.forEach(({ key }, i) => key !== undefined && at.set(key, i + 2));
  return { rows: [all, ...sorted.map(({ row }) => row)], at };
} // prettier-ignore
