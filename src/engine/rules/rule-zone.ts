/**
 * Days of 23 and 25 hours. A window is civil clock time: minutes the clock skips do not exist, and both
 * passes of an hour that comes twice are inside a window that names it. Runs and rain lock-outs last real
 * minutes. A moment in a skipped hour means the next minute that exists; a moment in a repeated hour means
 * its second pass, the stricter reading, as less of the window is left.
 */
import type { Day } from '../dates.js';
import { Problem } from '../problems.js';
import { DAY_MINUTES } from './rule-types.js';
import type { RuleWindow } from './rule-types.js';

/** Minutes of a civil day [start, end) that the clock skips or shows twice. */
export interface ClockShift extends RuleWindow {
  kind: 'skipped' | 'repeated';
}

const UNIX_EPOCH_SERIAL = 25569;

/** Formatters by zone name, and the shifts found so far. */
const zones = new Map<
  string,
  { format: Intl.DateTimeFormat; shifts: Map<Day, ClockShift | null> }
>();

/**
 * A time zone, made once.
 * @param zone IANA name
 * @throws Problem if there is no such zone here
 */
function zoneOf(zone: string) {
  const known = zones.get(zone);
  if (known) return known;
  try {
    const format = new Intl.DateTimeFormat('en-US', {
      timeZone: zone, calendar: 'gregory', numberingSystem: 'latn', hourCycle: 'h23',
      year: 'numeric', month: 'numeric', day: 'numeric', hour: 'numeric', minute: 'numeric',
    }); // prettier-ignore
    const made = { format, shifts: new Map<Day, ClockShift | null>() };
    zones.set(zone, made);
    return made;
  } catch {
    throw new Problem(
      `"${zone}" is not a time zone; write an IANA name such as Australia/Sydney, or leave it blank`,
    );
  }
}

/** Local civil time minus universal time [min]. @param at minutes since 1970-01-01T00:00Z */
function offset(format: Intl.DateTimeFormat, at: number): number {
  const parts: Record<string, number> = {};
  for (const { type, value } of format.formatToParts(at * 60_000)) parts[type] = Number(value);
  const { year = 0, month = 1, day = 1, hour = 0, minute = 0 } = parts;
  return Date.UTC(year, month - 1, day, hour, minute) / 60_000 - at;
}

/** Local days differ from universal ones by at most this [min]. */
const REACH = 16 * 60;

function findShift(format: Intl.DateTimeFormat, day: Day): ClockShift | null {
  const midnight = (day - UNIX_EPOCH_SERIAL) * DAY_MINUTES;
  let low = midnight - REACH;
  let high = midnight + DAY_MINUTES + REACH;
  const before = offset(format, low);
  const after = offset(format, high);
  if (before === after) return null;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (offset(format, middle) === before) low = middle;
    else high = middle;
  }
  const at = high - midnight;
  const start = Math.max(0, at + Math.min(before, after));
  const end = Math.min(DAY_MINUTES, at + Math.max(before, after));
  return start < end ? { kind: after > before ? 'skipped' : 'repeated', start, end } : null;
}

/**
 * The hour a day loses or has twice, or null for a day of 24 hours or without a zone.
 * @throws Problem if there is no such zone
 */
export function clockShift(zone: string | undefined, day: Day): ClockShift | null {
  if (zone === undefined || zone === '') return null;
  const { format, shifts } = zoneOf(zone);
  const known = shifts.get(day);
  if (known !== undefined) return known;
  const found = findShift(format, day);
  shifts.set(day, found);
  return found;
}

/** Windows of a day without edges in minutes that do not exist. */
export function onClock(windows: RuleWindow[], shift: ClockShift | null): RuleWindow[] {
  if (shift?.kind !== 'skipped') return windows;
  const moved = windows
    .map(({ start, end }) => ({
      start: start >= shift.start && start < shift.end ? shift.end : start,
      end: end > shift.start && end <= shift.end ? shift.start : end,
    }))
    .filter((w) => w.end > w.start);
  const out: RuleWindow[] = [];
  for (const w of moved) {
    const last = out[out.length - 1];
    if (last?.end === shift.start && w.start === shift.end) last.end = w.end;
    else out.push(w);
  }
  return out;
}

/** Real minutes of ascending windows of a day. */
export function realLength(windows: readonly RuleWindow[], shift: ClockShift | null): number {
  let sum = 0;
  for (const { start, end } of windows) {
    sum += end - start;
    if (shift === null) continue;
    const both = Math.max(0, Math.min(end, shift.end) - Math.max(start, shift.start));
    sum += shift.kind === 'skipped' ? -both : both;
  }
  return sum;
}

/** The moment itself, or the next minute that exists. */
export function existing<M extends { day: Day; minute: number }>(
  moment: M,
  zone: string | undefined,
): { day: Day; minute: number } {
  const { day, minute } = moment;
  const shift = clockShift(zone, day);
  if (shift?.kind !== 'skipped' || minute < shift.start || minute >= shift.end) return moment;
  return shift.end < DAY_MINUTES
    ? { day, minute: shift.end }
    : existing({ day: day + 1, minute: 0 }, zone);
}

/** Real minutes from one civil moment to a later one. */
export function realMinutes(
  a: { day: Day; minute: number },
  b: { day: Day; minute: number },
  zone: string | undefined,
): number {
  const from = a.minute;
  const to = (b.day - a.day) * DAY_MINUTES + b.minute;
  let sum = to - from;
  for (let day = a.day; day <= b.day; day++) {
    const shift = clockShift(zone, day);
    if (shift === null) continue;
    const start = (day - a.day) * DAY_MINUTES + shift.start;
    const end = (day - a.day) * DAY_MINUTES + shift.end;
    if (shift.kind === 'skipped') sum -= Math.max(0, Math.min(to, end) - Math.max(from, start));
    else if (from < start && to >= end) sum += end - start;
  }
  return sum;
}

/**
 * Minute, counted from 00:00 of `day`, that the clock shows a real while after one of its minutes.
 * @param minutes real while [min]
 */
export function clockAfter(
  day: Day,
  minute: number,
  minutes: number,
  zone: string | undefined,
): number {
  let end = minute + minutes;
  if (zone === undefined) return end;
  for (let d = Math.floor(minute / DAY_MINUTES); d * DAY_MINUTES <= end; d++) {
    const shift = clockShift(zone, day + d);
    if (shift === null) continue;
    const start = d * DAY_MINUTES + shift.start;
    const length = shift.end - shift.start;
    if (shift.kind === 'skipped' && start >= minute && start < end) end += length;
    if (shift.kind === 'repeated' && start > minute && end >= start + length) end -= length;
  }
  return end;
}
