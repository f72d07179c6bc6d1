/**
 * Days as spreadsheet serial numbers (1900 system): whole days since 1899-12-30, without zone.
 * Serial 60 is 1900-02-29, a day that never was; serials below 61 are refused where a date is read.
 */
import { Problem } from './problems.js';

/** A whole day as a serial number [day]. */
export type Day = number;

/** Serial number of 1970-01-01. */
const UNIX_EPOCH_SERIAL = 25569;
const MS_PER_DAY = 86_400_000;
/** Serial of 9999-12-31, the last day spreadsheets know. */
const LAST_SERIAL = 2_958_465;

export const WEEKDAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'] as const;
export const MONTHS = [
  'Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec',
] as const; // prettier-ignore

/** Serial of a civil date; month 1…12. @throws Problem if there is no such day */
export function dayOf(year: number, month: number, date: number): Day {
  const stamp = Date.UTC(year, month - 1, date);
  const back = new Date(stamp);
  if (
    back.getUTCFullYear() !== year ||
    back.getUTCMonth() !== month - 1 ||
    back.getUTCDate() !== date
  )
    throw new Problem(`there is no day ${year}-${month}-${date}`);
  return stamp / MS_PER_DAY + UNIX_EPOCH_SERIAL;
}

/** Civil date of a serial; month 1…12. */
export function civil(day: Day): { year: number; month: number; date: number } {
  const d = new Date((Math.floor(day) - UNIX_EPOCH_SERIAL) * MS_PER_DAY);
  return { year: d.getUTCFullYear(), month: d.getUTCMonth() + 1, date: d.getUTCDate() };
}

/** True for a whole number that names a real day from 1900-03-01 to 9999-12-31. */
export const isDay = (n: number): boolean => Number.isInteger(n) && n >= 61 && n <= LAST_SERIAL;

/** `2027-05-01`. */
export function isoDate(day: Day): string {
  const { year, month, date } = civil(day);
  return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(date).padStart(2, '0')}`;
}

/** `Tue 1 Jun`: a day of the season in a sentence, where the year is known. */
export function dayName(day: Day): string {
  const { month, date } = civil(day);
  return `${WEEKDAYS[weekday(day)]!} ${date} ${MONTHS[month - 1]!}`;
}

/** Serial of `yyyy-mm-dd`. @throws Problem if the text is not such a date */
export function dayFromIso(text: string): Day {
  const m = /^(\d{4})-(\d{1,2})-(\d{1,2})$/.exec(text.trim());
  if (!m) throw new Problem(`"${text}" is not a date; write yyyy-mm-dd`);
  return dayOf(Number(m[1]), Number(m[2]), Number(m[3]));
}

/** 0 Sunday … 6 Saturday. */
export const weekday = (day: Day): number => (((Math.floor(day) - 1) % 7) + 7) % 7;

/** Day of the year J, 1…366 (FAO-56 Table 2.5). */
export const dayOfYear = (day: Day): number => Math.floor(day) - dayOf(civil(day).year, 1, 1) + 1;
