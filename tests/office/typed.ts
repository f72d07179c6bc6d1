/** What the spreadsheet program makes of a value that is written into a cell: text that reads like anything else becomes that. */
export type Value = string | number | boolean;

export interface Entry {
  value: Value;
  /** with its equals sign */
  formula?: string;
}

const MONTH = '(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*';
const DATES = [
  /^\d{4}-\d{1,2}-\d{1,2}$/,
  /^\d{1,2}[-/]\d{1,2}(?:[-/]\d{2,4})?$/,
  new RegExp(`^\\d{1,2}[- ]?${MONTH}(?:[- ,]+\\d{2,4})?$`, 'i'),
  new RegExp(`^${MONTH}[- ]?\\d{1,4}(?:, ?\\d{4})?$`, 'i'),
];
const TIME = /^(\d{1,2}):(\d{2})(?::(\d{2}))?(?: ?(am|pm))?$/i;
const NUMBER = /^[+-]?[$€£]?(?:\d{1,3}(?:,\d{3})+|\d+)?(?:\.\d*)?(?:e[+-]?\d+)?%?$/i;
const FRACTION = /^([+-]?\d+) (\d+)\/(\d+)$/;
const ERRORS = /^#(?:N\/A|VALUE!|REF!|NAME\?|DIV\/0!|NUM!|NULL!)$/;
/** 1899-12-30, the day before the first of the 1900 system after its leap that never was */
const EPOCH = Date.UTC(1899, 11, 30);

/** A text as typed: number, share, date, time, TRUE, error; undefined for words. */
export function readAs(raw: string): Value | undefined {
  const t = raw.trim();
  if (/^(true|false)$/i.test(t)) return t.toLowerCase() === 'true';
  if (ERRORS.test(t)) return t;
  if (/\d/.test(t) && NUMBER.test(t)) {
    const number = Number(t.replace(/[$€£,%]/g, ''));
    if (Number.isFinite(number)) return t.endsWith('%') ? number / 100 : number;
  }
  const fraction = FRACTION.exec(t);
  if (fraction) return Number(fraction[1]) + Number(fraction[2]) / Number(fraction[3]);
  const time = TIME.exec(t);
  if (time) return (Number(time[1]) + Number(time[2]) / 60) / 24;
  if (DATES.some((date) => date.test(t))) {
    const at = Date.parse(/^\d{4}-/.test(t) ? `${t}T00:00Z` : `${t} UTC`);
    return Number.isNaN(at) ? 45_000 : Math.round((at - EPOCH) / 86_400_000);
  }
  return undefined;
}

/**
 * A value written into a cell of a number format.
 * @returns undefined for null, which leaves the cell alone
 */
export function entered(
  raw: unknown,
  format: string,
  compute: (formula: string) => Value,
): Entry | undefined {
  if (raw === null || raw === undefined) return undefined;
  if (typeof raw === 'number' || typeof raw === 'boolean')
    return { value: format === '@' ? String(raw) : raw };
  const text = String(raw);
  if (text.startsWith("'")) return { value: text.slice(1) };
  if (format === '@') return { value: text };
  if (/^=./s.test(text)) return { value: compute(text), formula: text };
  const read = readAs(text);
  if (read !== undefined) return { value: read };
  if (/^[+\-@].*[\p{L}\d(]/su.test(text))
    return { value: compute(`=${text}`), formula: `=${text}` };
  return { value: text };
}
