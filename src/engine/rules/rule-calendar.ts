/**
 * Open days and hours of a season for one kind of query, worked out day by day and shared by all trees
 * the rules do not tell apart.
 */
import { isoDate } from '../dates.js';
import type { Day } from '../dates.js';
import { Problem } from '../problems.js';
import { assumptions, noRuleText, obstacles } from './rule-answer.js';
import { addressMatches, lastDigit, topicMatches } from './rule-match.js';
import type { RuleQuery, RuleRow, RuleTable, RuleWindow } from './rule-types.js';
import { agencies, agencyDay, intersect } from './rule-windows.js';
import type { AgencyDay } from './rule-windows.js';
import { dayText, describeRow, hoursText } from './rule-words.js';
import { clockShift, realLength } from './rule-zone.js';

/** Arrays run from index 0 = `from`. */
export interface RuleCalendar {
  from: Day;
  to: Day;
  /** 1 if any minute of the day is open */
  open: Uint8Array;
  /** `00:00-10:00, 19:00-24:00`, `any`, or '' on a closed day */
  hours: string[];
  /** days of the Mon–Sun week around the day that may be used; 7 without a budget */
  perWeek: Int8Array;
  /** real minutes the day is open: 60 more or fewer where the clock changes inside a window [min] */
  minutes: Int16Array;
  /** most minutes on the day, -1 without a limit, whatever it counts over [min] */
  limit: Int16Array;
  /** the same limit by what it counts over, -1 without one: a tree, all trees of a zone, of a property [min] */
  limits: { day: Int16Array; zone: Int16Array; property: Int16Array };
  /** 1: of several windows the property may use only one */
  oneWindow: Uint8Array;
  /** what must be fitted or held on the day */
  needs: string[][];
  /** deciding row of the day, 0: no rule found */
  row: Int32Array;
  /** deciding sentence of the day; put into words when first read */
  readonly reasons: string[];
  /** open minutes of a day, ascending; empty outside from…to */
  windows(day: Day): readonly RuleWindow[];
}

/** Longest calendar worked out [days]. */
const LONGEST = 3660;

const lower = (text: string | undefined): string => (text ?? '').trim().toLowerCase();

/** What the rows of a table make of one kind of query, whatever its day. */
interface Fit {
  /** row by row: 0 silent, 1 speaks of other addresses, 2 speaks of this one */
  fits: string;
  /** planting dates matter up to this age [days]; -1: they do not matter */
  oldest: number;
  /** some row holds from an age on for ever */
  ageless: boolean;
  rain: boolean;
  needs: boolean;
  oneWindow: boolean;
  budget: boolean;
}

const fitted = new WeakMap<RuleTable, Map<string, Fit>>();

/** Rows see of an address only its last digit, side, group and class: one Fit serves all that share these. */
function fitOf(table: RuleTable, query: RuleQuery): Fit {
  const known = fitted.get(table) ?? new Map<string, Fit>();
  fitted.set(table, known);
  const { family, source, target, side, group, customerClass } = query;
  const digit = lastDigit(query.address) ?? '';
  const key = [family, source, target, digit, side, group, customerClass].join('\n');
  const found = known.get(key);
  if (found) return found;
  const fits = table.rows.map((row) =>
    !topicMatches(row, query) ? '0' : addressMatches(row, query) ? '2' : '1',
  );
  const speaking = table.rows.filter((_, i) => fits[i] !== '0');
  const ages = speaking.flatMap((row) => (row.age ? [row.age] : []));
  const fit: Fit = {
    fits: fits.join(''),
    oldest: Math.max(-1, ...ages.map((a) => (Number.isFinite(a.last) ? a.last : a.first))),
    ageless: ages.some((a) => !Number.isFinite(a.last)),
    rain: speaking.some((row) => row.rain !== null),
    needs: speaking.some((row) => row.needs.length > 0),
    oneWindow: speaking.some((row) => row.oneWindow),
    budget: speaking.some((row) => row.days.perWeek !== null),
  };
  known.set(key, fit);
  return fit;
}

/**
 * Queries with the same key get the same calendar: the key says, row by row, whether the row speaks of
 * the query and of its address; planting date, rain, what is fitted, the chosen window and days already
 * watered enter only where a row asks for them.
 * @param from first day of the calendar: planting dates too old for every row then count as one
 */
export function calendarKey(table: RuleTable, query: RuleQuery, from?: Day): string {
  const fit = fitOf(table, query);
  const { planted } = query;
  let age = '';
  if (planted !== undefined && fit.oldest >= 0) {
    const young = from === undefined || from - planted <= fit.oldest;
    age = young ? String(planted) : fit.ageless ? 'old' : '';
  }
  const rain = fit.rain
    ? (query.rain ?? []).map((r) => `${r.day}:${r.mm}:${r.minute ?? ''}`).join(',')
    : '';
  const needs = fit.needs && query.fitted ? `has ${query.fitted.map(lower).join(',')}` : '';
  const window = fit.oneWindow ? (query.window ?? '') : '';
  const watered = fit.budget ? (query.watered ?? []).join(',') : '';
  const key = [lower(query.family), fit.fits, age, rain];
  const more = [needs, window, watered, query.zone ?? ''];
  return [...key, ...(more.some((m) => m !== '') ? more : [])].join('|');
}

/** The agency that decides a day: the first closed one, else the first with a row. */
const deciding = (all: AgencyDay[]): AgencyDay | undefined =>
  all.find((a) => a.open.length === 0) ?? all.find((a) => a.row !== null) ?? all[0];

function reason(
  table: RuleTable,
  query: RuleQuery,
  day: Day,
  open: boolean,
  row: RuleRow | null,
): string {
  if (row === null)
    return open
      ? `Open: ${noRuleText(table, query, day)}`
      : `Closed on ${dayText(day)}: the agencies' hours do not overlap.`;
  const words = describeRow(row);
  const assumed = assumptions(row, day, query);
  const outside = row.verdict === 'ban' ? ' outside a ban' : '';
  if (open) return `Open on ${dayText(day)}${outside}: ${words}.${assumed}`;
  return addressMatches(row, query)
    ? `Closed on ${dayText(day)}: ${words}.${obstacles(row, day, query)}${assumed}`
    : `Closed on ${dayText(day)}: no row speaks of this address, group or class. ${words}.`;
}

function build(table: RuleTable, query: RuleQuery, from: Day, to: Day): RuleCalendar {
  const n = to - from + 1;
  const days: RuleWindow[][] = [];
  const rows: (RuleRow | null)[] = [];
  const alike = new Map<string, { windows: RuleWindow[]; hours: string }>();
  const needs = new Map<string, string[]>();
  let reasons: string[] | null = null;
  const calendar: RuleCalendar = {
    from,
    to,
    open: new Uint8Array(n),
    hours: [],
    perWeek: new Int8Array(n),
    minutes: new Int16Array(n),
    limit: new Int16Array(n),
    limits: {
      day: new Int16Array(n).fill(-1),
      zone: new Int16Array(n).fill(-1),
      property: new Int16Array(n).fill(-1),
    },
    oneWindow: new Uint8Array(n),
    needs: [],
    row: new Int32Array(n),
    get reasons() {
      reasons ??= rows.map((row, i) => reason(table, query, from + i, calendar.open[i] === 1, row));
      return reasons;
    },
    windows: (day) => days[day - from] ?? [],
  };
  for (let i = 0; i < n; i++) {
    const day = from + i;
    const all = agencies(table).map((rows) => agencyDay(table, rows, day, query));
    const windows = all.map((a) => a.open).reduce((a, b) => intersect(a, b));
    const open = windows.length > 0;
    const decides = deciding(all);
    const limit = Math.min(...all.map((a) => a.limit ?? Infinity));
    const overlapFails = !open && decides !== undefined && decides.open.length > 0;
    const row = overlapFails ? null : (decides?.row ?? null);
    rows.push(row);
    // days of equal windows share one list of them
    const text = hoursText(windows);
    const shape = alike.get(text) ?? { windows, hours: text };
    alike.set(text, shape);
    days.push(shape.windows);
    calendar.open[i] = open ? 1 : 0;
    calendar.hours.push(shape.hours);
    calendar.perWeek[i] = Math.min(...all.map((a) => a.perWeek));
    calendar.minutes[i] = realLength(windows, clockShift(query.zone, day));
    calendar.limit[i] = Number.isFinite(limit) ? limit : -1;
    for (const { limit: minutes, limitPer } of all) {
      if (minutes === null || limitPer === null) continue;
      const kind = calendar.limits[limitPer];
      const before = kind[i] ?? -1;
      kind[i] = before < 0 ? minutes : Math.min(before, minutes);
    }
    calendar.oneWindow[i] = windows.length > 1 && all.some((a) => a.oneWindow) ? 1 : 0;
    const wanted = [...new Set(all.flatMap((a) => a.needs))];
    const known = needs.get(wanted.join()) ?? wanted;
    needs.set(wanted.join(), known);
    calendar.needs.push(known);
    calendar.row[i] = row?.row ?? 0;
  }
  return calendar;
}

const built = new WeakMap<RuleTable, Map<string, RuleCalendar>>();

/**
 * Open days and hours from `from` to `to`, both included. Equal queries (see `calendarKey`) share one
 * calendar: treat it as read-only.
 * @throws Problem if the dates are reversed, not whole days, or more than 3660 days apart
 */
export function ruleCalendar(table: RuleTable, query: RuleQuery, from: Day, to: Day): RuleCalendar {
  if (!Number.isInteger(from) || !Number.isInteger(to))
    throw new Problem('a rule calendar runs from a whole day to a whole day');
  if (to < from)
    throw new Problem(`the calendar ends on ${isoDate(to)}, before it starts on ${isoDate(from)}`);
  if (to - from >= LONGEST) throw new Problem(`a rule calendar covers at most ${LONGEST} days`);
  const known = built.get(table) ?? new Map<string, RuleCalendar>();
  built.set(table, known);
  const key = `${from}|${to}|${calendarKey(table, query, from)}`;
  const found = known.get(key);
  if (found) return found;
  const calendar = build(table, query, from, to);
  known.set(key, calendar);
  return calendar;
}

/**
 * Calendars of many queries, in their order; queries the rules do not tell apart share one. A query costs a
 * look-up, a calendar is worked out once per kind of query.
 * @throws Problem as ruleCalendar
 */
export const ruleCalendars = (
  table: RuleTable,
  queries: readonly RuleQuery[],
  from: Day,
  to: Day,
): RuleCalendar[] => queries.map((query) => ruleCalendar(table, query, from, to));
