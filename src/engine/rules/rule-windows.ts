/**
 * Open minutes of a whole day, by interval arithmetic. An interval is {start, end} in minutes of the
 * day, half open; lists are ascending and do not touch.
 */
import type { Day } from '../dates.js';
import {
  addressMatches,
  countsAsRain,
  dayHolds,
  inForce,
  lockOf,
  stageAt,
  topicMatches,
} from './rule-match.js';
import { DAY_MINUTES } from './rule-types.js';
import type { RuleQuery, RuleRow, RuleTable, RuleWindow } from './rule-types.js';

const WHOLE: RuleWindow[] = [{ start: 0, end: DAY_MINUTES }];

/** Ascending union of intervals in any order; empty ones are dropped. */
export function union(parts: readonly RuleWindow[]): RuleWindow[] {
  const out: RuleWindow[] = [];
  for (const part of parts.filter((p) => p.end > p.start).sort((a, b) => a.start - b.start)) {
    const last = out[out.length - 1];
    if (last && part.start <= last.end) last.end = Math.max(last.end, part.end);
    else out.push({ ...part });
  }
  return out;
}

/** `from` without `cut`; both ascending. */
export function subtract(from: readonly RuleWindow[], cut: readonly RuleWindow[]): RuleWindow[] {
  let left = from.map((p) => ({ ...p }));
  for (const c of cut)
    left = left
      .flatMap((p) => [
        { start: p.start, end: Math.min(p.end, c.start) },
        { start: Math.max(p.start, c.end), end: p.end },
      ])
      .filter((p) => p.end > p.start);
  return left;
}

/** What is in both lists. */
export const intersect = (a: readonly RuleWindow[], b: readonly RuleWindow[]): RuleWindow[] =>
  subtract(a, subtract(a, b));

function hourParts(row: RuleRow, day: Day): RuleWindow[] {
  if (row.hours === null) return dayHolds(row, day) ? WHOLE : [];
  const evening = row.midnight === 'start' ? day : day + 1;
  const parts: RuleWindow[] = [];
  for (const { start, end } of row.hours) {
    if (start <= end) {
      if (dayHolds(row, day)) parts.push({ start, end });
      continue;
    }
    if (dayHolds(row, evening)) parts.push({ start, end: DAY_MINUTES });
    if (dayHolds(row, evening - 1)) parts.push({ start: 0, end });
  }
  return union(parts);
}

function lockParts(row: RuleRow, day: Day, query: RuleQuery): RuleWindow[] {
  const lock = row.rain;
  if (lock === null) return [];
  return union(
    (query.rain ?? [])
      .filter((rain) => countsAsRain(rain, lock.mm))
      .map((rain) => lockOf(rain, lock.hours, day))
      .map(({ start, end }) => ({ start: Math.max(0, start), end: Math.min(DAY_MINUTES, end) })),
  );
}

/** Minutes of the day at which the row's days, hours and rain hold. */
export function rowParts(row: RuleRow, day: Day, query: RuleQuery): RuleWindow[] {
  const parts = hourParts(row, day);
  if (row.rain === null || parts.length === 0) return parts;
  const locks = lockParts(row, day, query);
  return row.verdict === 'ban' ? intersect(parts, locks) : subtract(parts, locks);
}

/** How a day stands with one agency. */
export interface AgencyDay {
  open: RuleWindow[];
  /** the row that decides the day, or null: no rule found */
  row: RuleRow | null;
  /** days of the week that may be used, 7 without a budget */
  perWeek: number;
  /** most minutes, or null */
  limit: number | null;
  oneWindow: boolean;
  needs: string[];
}

const grouped = new WeakMap<RuleTable, RuleRow[][]>();

/** The table's rows, one list per agency in order of appearance; one empty list for an empty table. */
export function agencies(table: RuleTable): RuleRow[][] {
  const known = grouped.get(table);
  if (known) return known;
  const byName = new Map<string, RuleRow[]>();
  for (const row of table.rows) {
    const key = row.agency.toLowerCase();
    const rows = byName.get(key);
    if (rows) rows.push(row);
    else byName.set(key, [row]);
  }
  const out = byName.size === 0 ? [[]] : [...byName.values()];
  grouped.set(table, out);
  return out;
}

/**
 * A day with one agency: bans cut, free and allow rows open, and a means that only rows for other
 * addresses speak of stays closed.
 */
export function agencyDay(
  table: RuleTable,
  rows: readonly RuleRow[],
  day: Day,
  query: RuleQuery,
): AgencyDay {
  const stage = stageAt(table, day);
  const spoken = rows.filter((row) => topicMatches(row, query) && inForce(row, day, stage, query));
  const mine = spoken.filter((row) => addressMatches(row, query));
  const parts = mine.map((row) => ({ row, parts: rowParts(row, day, query) }));
  const bans = parts.filter(({ row }) => row.verdict === 'ban');
  const cut = union(bans.flatMap((b) => b.parts));
  const permits = spoken.filter((row) => row.verdict !== 'ban');
  if (permits.length === 0) {
    const open = subtract(WHOLE, cut);
    const ban = bans.find((b) => b.parts.length > 0) ?? bans[0];
    const row = ban?.row ?? null;
    return { open, row, perWeek: 7, limit: null, oneWindow: false, needs: [] };
  }
  const opening = parts
    .filter(({ row }) => row.verdict !== 'ban')
    .map((p) => ({ row: p.row, parts: subtract(p.parts, cut) }))
    .filter((p) => p.parts.length > 0)
    .sort((a, b) => Number(b.row.verdict === 'free') - Number(a.row.verdict === 'free'));
  const first = opening[0];
  if (!first) {
    const ban = bans.find((b) => b.parts.length > 0);
    const row = ban?.row ?? mine.find((r) => r.verdict !== 'ban') ?? permits[0] ?? null;
    return { open: [], row, perWeek: 7, limit: null, oneWindow: false, needs: [] };
  }
  const limits = opening.map(({ row }) => row.limit?.minutes ?? Infinity);
  const limit = Math.max(...limits);
  return {
    open: union(opening.flatMap((p) => p.parts)),
    row: first.row,
    perWeek: Math.max(...opening.map(({ row }) => row.days.perWeek ?? 7)),
    limit: Number.isFinite(limit) ? limit : null,
    oneWindow: opening.every(({ row }) => row.oneWindow),
    needs: first.row.needs,
  };
}

/** Minutes of the day open with every agency. */
export function openWindows(table: RuleTable, day: Day, query: RuleQuery): RuleWindow[] {
  return agencies(table)
    .map((rows) => agencyDay(table, rows, day, query).open)
    .reduce((a, b) => intersect(a, b), WHOLE);
}

/** Days a change of the answer is looked for. */
const HORIZON = 400;

/**
 * When an open stretch ends, or a closed one opens.
 * @returns undefined if nothing changes within 400 days
 */
export function nextChange(
  windowsOf: (day: Day) => RuleWindow[],
  day: Day,
  minute: number,
  open: boolean,
): { day: Day; minute: number } | undefined {
  for (let i = 0; i <= HORIZON; i++) {
    const at = i === 0 ? minute : 0;
    const windows = windowsOf(day + i);
    if (!open) {
      const next = windows.find((w) => w.end > at);
      if (next) return { day: day + i, minute: Math.max(at, next.start) };
      continue;
    }
    const within = windows.find((w) => w.start <= at && w.end > at);
    if (!within) return { day: day + i, minute: 0 };
    if (within.end < DAY_MINUTES) return { day: day + i, minute: within.end };
  }
  return undefined;
}
