/** Numbers and days as people read them, in the chosen language. */
import { upperFirst } from '../../engine/first-letter.js';
import { dayFromIso, type Day } from '../../engine/dates.js';
import { mixedNumber, plainNumber } from '../../tables/cells.js';

export type Language = 'en' | 'es';

const UNIX_EPOCH = 25_569;
const DAY_MS = 86_400_000;

export interface Formats {
  language: Language;
  /** whole above 10, one decimal below: as many digits as a decision needs */
  amount(value: number): string;
  whole(value: number): string;
  /** an answer: three significant digits, whole from a hundred on */
  figure(value: number): string;
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
const SIGNIFICANT = 3;
const MOST_DECIMALS = 4;

/** Decimals that leave three significant digits, at most four decimals. */
export function decimalsFor(value: number): number {
  if (Number.isInteger(value)) return 0;
  const before = Math.floor(Math.log10(Math.abs(value))) + 1;
  return Math.min(MOST_DECIMALS, Math.max(0, SIGNIFICANT - before));
}

const dateOf = (day: Day): Date => new Date((day - UNIX_EPOCH) * DAY_MS);

function made(language: Language): Formats {
  const locale = LOCALES[language];
  const number = (options: Intl.NumberFormatOptions) => new Intl.NumberFormat(locale, options);
  const whole = number({ maximumFractionDigits: 0 });
  const tenths = number({ maximumFractionDigits: 1 });
  const typed = number({ maximumSignificantDigits: DIGITS, useGrouping: false });
  const figures = Array.from({ length: MOST_DECIMALS + 1 }, (_, maximumFractionDigits) =>
    number({ maximumFractionDigits }),
  );
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
    figure: (value) => figures[decimalsFor(value)]!.format(value),
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
 * A typed value as the planner reads it: a number where it is one, with decimal point or comma or as a fraction of inches
 * is written (`1/16`, `1 1/2`, `¾`), else the text as it stands, for the planner to judge. Blank is null.
 */
export function typedValue(typed: string): string | number | null {
  const trimmed = typed.trim();
  return trimmed === '' ? null : (mixedNumber(trimmed) ?? trimmed);
}

/** A fraction with the number it was read as, `1/16 = 0.0625`; "" for what needs no reading. */
export function understood(typed: string, { plain }: Pick<Formats, 'plain'>): string {
  const trimmed = typed.trim();
  const value = typedValue(trimmed);
  if (typeof value !== 'number' || plainNumber(trimmed) !== undefined) return '';
  return `${trimmed} = ${plain(value)}`;
}
