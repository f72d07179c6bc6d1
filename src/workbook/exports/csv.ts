/**
 * The plan as CSV (RFC 4180): comma, double quotes, CRLF, one header line, ISO dates, numbers with a point.
 *
 * A text cell a spreadsheet program could take for a formula gets an apostrophe before it; numbers are left
 * alone. Source: OWASP ASVS 5.0, requirement 1.2.10 (single quote before = + - @ tab NUL); seen.
 */
import papa from 'papaparse';
import { isoDate, WEEKDAYS, weekday } from '../../engine/dates.js';
import type { Context } from '../sheets/context.js';
import { events } from '../sheets/plan.js';
import { writable } from './text.js';

/** Starts of text that some program takes for a formula: also after blanks, and in full-width letters. */
export const FORMULA_START = /^[\t\r\n]|^\s*[=+\-@\uff1d\uff0b\uff0d\uff20]/;

/** Enough digits for any use, without the noise of binary fractions. */
const number = (value: number): number => Number(value.toFixed(6));

export interface CsvOptions {
  /** a byte order mark first, by which some programs know UTF-8; default false */
  bom?: boolean;
}

/** One row a watering, never joined, in the units of `ctx`. */
export function planCsv(ctx: Context, options: CsvOptions = {}): string {
  const unit = ctx.unit('volume');
  const fields = [
    'Date', 'Day', 'Allowed hours', 'Within crew day', 'Site', 'Address', 'Tree', 'Species', 'Trees', 'Means', 'By',
    `Each (${unit})`, `All (${unit})`, 'Runs (min)', 'Cycles', 'Visit', 'Why this day',
  ]; // prettier-ignore
  const data = events({ ...ctx, joined: 'no' }).map((e) =>
    [
      isoDate(e.day),
      WEEKDAYS[weekday(e.day)]!,
      e.hours,
      e.within,
      e.site,
      e.address,
      e.tree,
      e.species,
      e.count,
      e.device,
      ctx.automatic(e.device) ? 'timer' : 'crew',
      number(ctx.show('volume', e.litres / e.count)),
      number(ctx.show('volume', e.litres)),
      number(e.minutes),
      e.cycles,
      e.visit,
      e.why,
    ].map((value) => (typeof value === 'string' ? writable(value) : value)),
  );
  const text = papa.unparse({ fields, data }, { newline: '\r\n', escapeFormulae: FORMULA_START });
  return `${options.bom ? '\ufeff' : ''}${text}\r\n`;
}
