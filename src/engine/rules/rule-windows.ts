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
  needsHold,
  stageAt,
  topicMatches,
  windowsOf,
} from './rule-match.js';
import { DAY_MINUTES } from './rule-types.js';
import type { RuleQuery, RuleRow, RuleTable, RuleWindow } from './rule-types.js';
import { clockShift, onClock } from './rule-zone.js';
import type { ClockShift } from './rule-zone.js';

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

function hourParts(row: RuleRow, day: Day, query: RuleQuery): RuleWindow[] {
  const windows = windowsOf(row, query);
  if (windows === null) return dayHolds(row, day, query) ? WHOLE : [];
  const evening = row.midnight === 'start' ? day : day + 1;
  const parts: RuleWindow[] = [];
  for (const { start, end } of windows) {
    if (start <= end) {
      if (dayHolds(row, day, query)) parts.push({ start, end });
      continue;
    }
    if (dayHolds(row, evening, query)) parts.push({ start, end: DAY_MINUTES });
    if (dayHolds(row, evening - 1, query)) parts.push({ start: 0, end });
  }
  return union(parts);
}

function lockParts(row: RuleRow, day: Day, query: RuleQuery): RuleWindow[] {
  const lock = row.rain;
  if (lock === null) return [];
  return union(
    (query.rain ?? [])
      .filter((rain) => countsAsRain(rain, lock.mm))
      .map((rain) => lockOf(rain, lock.hours, day, query.zone))
      .map(({ start, end }) => ({ start: Math.max(0, start), end: Math.min(DAY_MINUTES, end) })),
  );
}

/** Minutes of the day at which the row's days, hours, needs and rain hold. */
export function rowParts(row: RuleRow, day: Day, query: RuleQuery): RuleWindow[] {
  if (!needsHold(row, query)) return [];
  const parts = hourParts(row, day, query);
  if (row.rain === null || parts.length === 0) return parts;
  const locks = lockParts(row, day, query);
  return row.verdict === 'ban' ? intersect(parts, locks) : subtract(parts, locks);
}

/** A row and the minutes of a day at which it holds. */
interface Parts {
  row: RuleRow;
  parts: RuleWindow[];
}

const isWhole = (parts: readonly RuleWindow[]): boolean => subtract(WHOLE, parts).length === 0;

/** How a day stands with one agency. */
export interface AgencyDay {
  open: RuleWindow[];
  /** the row that decides the day, or null: no rule found */
  row: RuleRow | null;
  /** days of the week that may be used, 7 without a budget */
  perWeek: number;
  /** most minutes, or null */
  limit: number | null;
  /** what the limit counts over: the minutes of one tree, of all taps of a zone, or of the property */
  limitPer: 'day' | 'property' | 'zone' | null;
  /** any one of the windows, but only one; false once the query says which */
  oneWindow: boolean;
  /** what the deciding row needs, and `no timer` where a ban forbids one */
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

/** The most generous limit of several rows: the first without one, else the one of most minutes. */
export function widestLimit(rows: readonly RuleRow[]): RuleRow['limit'] {
  let widest: RuleRow['limit'] = null;
  for (const { limit } of rows) {
    if (limit === null) return null;
    if (widest === null || limit.minutes > widest.minutes) widest = limit;
  }
  return widest;
}

const CLOSED = { open: [], perWeek: 7, limit: null, limitPer: null, oneWindow: false, needs: [] };

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
  const shift = clockShift(query.zone, day);
  const parts = mine.map((row) => ({ row, parts: rowParts(row, day, query) }));
  const bans = parts.filter(({ row }) => row.verdict === 'ban');
  const cut = union(bans.flatMap((b) => b.parts));
  const permits = spoken.filter((row) => row.verdict !== 'ban');
  if (permits.length === 0) {
    const open = onClock(subtract(WHOLE, cut), shift);
    const ban = bans.find((b) => b.parts.length > 0) ?? bans[0];
    const row = ban?.row ?? null;
    return { ...CLOSED, open, row, needs: forbidden(mine, query) };
  }
  const held = parts.filter((p) => p.row.verdict !== 'ban' && p.parts.length > 0);
  const opening = held
    .map((p) => ({ row: p.row, parts: onClock(subtract(p.parts, cut), shift) }))
    .filter((p) => p.parts.length > 0)
    .sort((a, b) => Number(b.row.verdict === 'free') - Number(a.row.verdict === 'free'));
  const first = opening[0];
  if (!first) {
    // a ban of some hours closes a day only if another row would have opened it
    const decides = (b: Parts) => (held.length > 0 ? b.parts.length > 0 : isWhole(b.parts));
    const ban = bans.find(decides);
    const row = ban?.row ?? mine.find((r) => r.verdict !== 'ban') ?? permits[0] ?? null;
    return { ...CLOSED, row };
  }
  const limit = widestLimit(opening.map(({ row }) => row));
  return {
    open: onClock(union(opening.flatMap((p) => p.parts)), shift),
    row: first.row,
    perWeek: Math.max(...opening.map(({ row }) => row.days.perWeek ?? 7)),
    limit: limit?.minutes ?? null,
    limitPer: limit?.per ?? null,
    oneWindow: query.window === undefined && opening.every(({ row }) => row.oneWindow),
    needs: [...first.row.needs, ...forbidden(mine, query)],
  };
}

/** What bans forbid to use, as `no timer`, where the query does not say what is fitted. */
function forbidden(mine: readonly RuleRow[], query: RuleQuery): string[] {
  if (query.fitted !== undefined) return [];
  return mine
    .filter((row) => row.verdict === 'ban')
    .flatMap((row) => row.needs.map((n) => `no ${n}`));
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
  shiftOf: (day: Day) => ClockShift | null = () => null,
): { day: Day; minute: number } | undefined {
  for (let i = 0; i <= HORIZON; i++) {
    const shift = shiftOf(day + i);
    const skipped = shift?.kind === 'skipped' ? shift : null;
    // minutes that exist run from `at` to `last`
    const at = i === 0 ? minute : skipped?.start === 0 ? skipped.end : 0;
    const last = skipped?.end === DAY_MINUTES ? skipped.start : DAY_MINUTES;
    if (at >= last) continue;
    const windows = windowsOf(day + i);
    if (!open) {
      const next = windows.find((w) => w.end > at);
      if (next) return { day: day + i, minute: Math.max(at, next.start) };
      continue;
    }
    const within = windows.find((w) => w.start <= at && w.end > at);
    if (!within) return { day: day + i, minute: at };
    if (within.end < last) return { day: day + i, minute: within.end };
  }
  return undefined;
}
