/** Numbers and days as people read them, in the chosen language. */
import { dayFromIso, type Day } from '../../engine/dates.js';
import { plainNumber } from '../../tables/cells.js';

export type Language = 'en' | 'es';

const UNIX_EPOCH = 25_569;
const DAY_MS = 86_400_000;

export interface Formats {
  language: Language;
  /** whole above 10, one decimal below: as many digits as a decision needs */
  amount(value: number): string;
  whole(value: number): string;
  /** up to six significant digits, as typed into a field */
  plain(value: number): string;
  /** `Tue 7 Jul` */
  day(day: Day | string): string;
  /** `Jul` */
  month(month: number): string;
}

const LOCALES: Readonly<Record<Language, string>> = { en: 'en-US', es: 'es-US' };
const GROUPED_FROM = 10;
const DIGITS = 6;

const dateOf = (day: Day): Date => new Date((day - UNIX_EPOCH) * DAY_MS);
const upperFirst = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function made(language: Language): Formats {
  const locale = LOCALES[language];
  const number = (options: Intl.NumberFormatOptions) => new Intl.NumberFormat(locale, options);
  const whole = number({ maximumFractionDigits: 0 });
  const tenths = number({ maximumFractionDigits: 1 });
  const typed = number({ maximumSignificantDigits: DIGITS, useGrouping: false });
  const utc = (options: Intl.DateTimeFormatOptions) =>
    new Intl.DateTimeFormat(locale, { ...options, timeZone: 'UTC' });
  const weekday = utc({ weekday: 'short' });
  const month = utc({ month: 'short' });
  const date = utc({ day: 'numeric' });
  return {
    language,
    amount: (value) =>
      (Math.abs(value) >= GROUPED_FROM || Number.isInteger(value) ? whole : tenths).format(value),
    whole: (value) => whole.format(value),
    plain: (value) => typed.format(value),
    day(given) {
      const at = dateOf(typeof given === 'string' ? dayFromIso(given) : given);
      return `${upperFirst(weekday.format(at))} ${date.format(at)} ${upperFirst(month.format(at))}`;
    },
    month: (index) => upperFirst(month.format(new Date(Date.UTC(2001, index - 1, 1)))),
  };
}

const kept = new Map<Language, Formats>();

/** The formats of a language. */
export function formats(language: Language): Formats {
  const known = kept.get(language) ?? made(language);
  kept.set(language, known);
  return known;
}

/** `2026-11-26T05:40` as `Thu 26 Nov 2026, 05:40`. */
export function moment(f: Formats, at: string): string {
  const [day = '', time = ''] = at.split('T');
  return `${f.day(day)} ${day.slice(0, 4)}, ${time}`;
}

/**
 * A typed value as the planner reads it: a number where it is one, with decimal point or comma, else the text as it stands,
 * for the planner to judge. Blank is null.
 */
export function typedValue(typed: string): string | number | null {
  const trimmed = typed.trim();
  return trimmed === '' ? null : (plainNumber(trimmed) ?? trimmed);
}
