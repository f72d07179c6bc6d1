/** Rows to look at, gathered by what is said of them, and their numbers in spans short enough to choose from. */
import type { Lack } from '../workers/fill-types.js';
import type { LookRow } from '../workers/plan-room.js';

/** A row as its group has it. */
export interface SaidRow {
  /** 1-based row of the sheet */
  row: number;
  /** 0-based column to look at */
  column: number;
  id: string;
}

export interface LookGroup {
  /** the same for what is said in the same way */
  key: string;
  /** what is said, of the first row where rows differ */
  sentence: string;
  unusable: boolean;
  /** in the order of the sheet, each row once */
  rows: SaidRow[];
  /** sentences of the rows differ in what their cells hold */
  differ: boolean;
  /** what its rows lack, where that can be filled in for all of them */
  lacks?: Lack;
}

/** What a sentence repeats from the cells of its row. */
const FROM_CELLS = /"[^"]*"|\d+(?:\.\d+)?/g;

/**
 * One group a sentence: those of rows that cannot be planned first, then those of most rows, then in the order of the sheet.
 *
 * @param looseCells - sentences that differ only in a quoted cell or a number count as the same
 */
export function lookGroups(rows: readonly LookRow[], looseCells: boolean): LookGroup[] {
  const groups = new Map<string, LookGroup>();
  for (const { row, id, unusable, reasons } of rows)
    for (const { sentence, column = 0, lacks } of reasons) {
      const alike = looseCells ? sentence.replace(FROM_CELLS, '#') : sentence;
      const key = `${unusable}\n${column}\n${alike}`;
      const group = groups.get(key);
      if (group === undefined) {
        const rows = [{ row, column, id }];
        groups.set(key, { key, sentence, unusable, rows, differ: false, ...(lacks && { lacks }) });
        continue;
      }
      if (group.sentence !== sentence) group.differ = true;
      if (group.rows.at(-1)?.row !== row) group.rows.push({ row, column, id });
    }
  return [...groups.values()].sort(
    (a, b) =>
      Number(b.unusable) - Number(a.unusable) ||
      b.rows.length - a.rows.length ||
      a.rows[0]!.row - b.rows[0]!.row,
  );
}

/** Some rows under one button: a single row, rows one below the other, or a stretch of the sheet with rows between. */
export interface Span {
  from: number;
  to: number;
  rows: readonly SaidRow[];
}

/** So few rows are shown each by itself. */
const FEW = 6;
/** A run of fewer rows is not worth a button that opens it. */
const SHORTEST_RUN = 3;
/** Most buttons side by side: more are not looked through, and slow the page. */
const MOST = 100;

const spanOf = (rows: readonly SaidRow[]): Span => ({
  from: rows[0]!.row,
  to: rows.at(-1)!.row,
  rows,
});
const singly = (rows: readonly SaidRow[]): Span[] => rows.map((row) => spanOf([row]));

/** No row of the sheet between the first and the last is missing. */
export const isWhole = ({ from, to, rows }: Span): boolean => to - from + 1 === rows.length;

/** Rows one below the other together, the others singly. */
function runs(rows: readonly SaidRow[]): Span[] {
  const found: Span[] = [];
  let start = 0;
  for (let i = 1; i <= rows.length; i++) {
    if (i < rows.length && rows[i]!.row === rows[i - 1]!.row + 1) continue;
    const run = rows.slice(start, i);
    found.push(...(run.length < SHORTEST_RUN ? singly(run) : [spanOf(run)]));
    start = i;
  }
  return found;
}

/** Not more than can be looked through: neighbours go together into longer spans. */
function bounded(spans: Span[]): Span[] {
  if (spans.length <= MOST) return spans;
  const size = Math.max(MOST, Math.ceil(spans.length / MOST));
  const found: Span[] = [];
  for (let i = 0; i < spans.length; i += size)
    found.push(spanOf(spans.slice(i, i + size).flatMap(({ rows }) => rows)));
  return found;
}

/** The spans a group's rows are shown as. */
export const spansOf = (rows: readonly SaidRow[]): Span[] =>
  rows.length <= FEW ? singly(rows) : bounded(runs(rows));

/** What a span opens into. */
export const within = (span: Span): Span[] =>
  bounded(isWhole(span) ? singly(span.rows) : runs(span.rows));
