/** Dates of a rules table: one day, or a day that returns every year. */
import { civil, dayFromIso, dayOf, isDay, weekday } from '../dates.js';
import type { Day } from '../dates.js';
import { Problem } from '../problems.js';
import { weekdayOf } from './rule-days.js';
import type { RuleCell, RuleRow, YearDay } from './rule-types.js';

export const DATE_FORMS =
  'yyyy-mm-dd or a date cell; every year, as text: Nov 1, 05-01, May, first Sun Oct, before first Sun Apr';

/** A date with a year. @throws Problem if there is no such day */
export function fullDate(text: string, cell: RuleCell): Day {
  const day = typeof cell === 'number' ? Math.floor(cell) : dayFromIso(text);
  if (!isDay(day)) throw new Problem(`"${text}" is not a date`);
  return day;
}

const NTH: Record<string, number> = {
  first: 1, second: 2, third: 3, fourth: 4, last: -1, '1st': 1, '2nd': 2, '3rd': 3, '4th': 4,
}; // prettier-ignore
const LONG_MONTHS =
  'january february march april may june july august september october november december'.split(
    ' ',
  );

/** 1…12 of `sep`, `sept` or `september`; 0 if it is no month. */
const monthOf = (text: string): number =>
  text.length < 3 ? 0 : LONG_MONTHS.findIndex((name) => name.startsWith(text)) + 1;

/** A leap year, so that 29 February may be written. */
const longest = (month: number): number => civil(dayOf(2028, month + 1, 1) - 1).date;
const lastDate = (month: number): number => (month === 12 ? 31 : longest(month));

function monthDay(month: number, date: number, text: string): YearDay {
  if (month < 1 || month > 12 || date < 1 || date > lastDate(month))
    throw new Problem(`no year has a day ${text}`);
  return { month, date, nth: 0, weekday: 0, before: false };
}

/**
 * A date without a year, or null if the text is of another form.
 * @param end a bare month means its last day, else its first
 * @throws Problem if no year has the day
 */
export function yearDay(text: string, end: boolean): YearDay | null {
  const t = text.toLowerCase().replace(/\./g, '');
  if (t.startsWith('before ')) {
    const day = yearDay(t.slice(7), false);
    return day && { ...day, before: true };
  }
  const nth = /^([a-z\d]+) ([a-z]+) (?:in |of )?([a-z]+)$/.exec(t);
  const turn = NTH[nth?.[1] ?? ''];
  if (nth && turn !== undefined) {
    const month = monthOf(nth[3] ?? '');
    if (month === 0) throw new Problem(`"${nth[3] ?? ''}" is not a month`);
    return { month, date: null, nth: turn, weekday: weekdayOf(nth[2] ?? ''), before: false };
  }
  const numbers = /^(\d{1,2})-(\d{1,2})$/.exec(t);
  if (numbers) return monthDay(Number(numbers[1]), Number(numbers[2]), text);
  const words = /^(?:(\d{1,2}) )?([a-z]+)(?: (\d{1,2}))?$/.exec(t);
  const month = monthOf(words?.[2] ?? '');
  if (!words || month === 0 || (words[1] && words[3])) return null;
  return monthDay(month, Number(words[1] ?? words[3] ?? (end ? lastDate(month) : 1)), text);
}

/** The From or To of a row. */
export function dateCell(text: string, cell: RuleCell, end: boolean): Partial<RuleRow> {
  const yearly = typeof cell === 'number' ? null : yearDay(text, end);
  if (yearly) return end ? { yearlyTo: yearly } : { yearlyFrom: yearly };
  const day = fullDate(text, cell);
  return end ? { to: day } : { from: day };
}

const known = new WeakMap<YearDay, Map<number, Day>>();

/** The day a yearly date falls on in a year. */
export function dayIn(yearly: YearDay, year: number): Day {
  const years = known.get(yearly) ?? new Map<number, Day>();
  known.set(yearly, years);
  let day = years.get(year);
  if (day === undefined) years.set(year, (day = reckon(yearly, year)));
  return day;
}

function reckon({ month, date, nth, weekday: wanted, before }: YearDay, year: number): Day {
  const first = dayOf(year, month, 1);
  const last = month === 12 ? dayOf(year, 12, 31) : dayOf(year, month + 1, 1) - 1;
  let day: Day;
  if (date !== null) day = Math.min(first + date - 1, last);
  else if (nth > 0) day = first + ((wanted - weekday(first) + 7) % 7) + (nth - 1) * 7;
  else day = last - ((weekday(last) - wanted + 7) % 7);
  return before ? day - 1 : day;
}

/** The day lies in the season of a row; a row without one always does. A season may cross New Year. */
export function inSeason(row: RuleRow, day: Day): boolean {
  if (row.yearlyFrom === null || row.yearlyTo === null) return true;
  const { year } = civil(day);
  const from = dayIn(row.yearlyFrom, year);
  const to = dayIn(row.yearlyTo, year);
  return from <= to ? day >= from && day <= to : day >= from || day <= to;
}

/** Day the season that a day belongs to, or the last one before it, began. */
export function seasonStart(from: YearDay, day: Day): Day {
  const { year } = civil(day);
  const start = dayIn(from, year);
  return start <= day ? start : dayIn(from, year - 1);
}
