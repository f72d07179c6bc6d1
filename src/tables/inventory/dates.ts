/**
 * Planting dates as people write them. A season stands for its middle month's first day (spring 1 April, summer
 * 1 July, fall 1 October, winter 1 January), a month for its 15th, a year for 1 July.
 */
import { civil, dayOf, isDay, isoDate, type Day } from '../../engine/dates.js';
import { isMissing, plainLabel, quoted, text, type Cell } from '../cells.js';

export type DateOrder = 'day first' | 'month first';

export interface ReadDate {
  day?: Day;
  note?: string;
}

/** Earliest day a spreadsheet date can name. */
const FIRST_DAY = 61;
const MONTH_WORDS = new Map<string, number>(
  [
    'jan january januar janvier janv enero ene gennaio gen janner jaenner',
    'feb february februar fevrier fevr fev febrero febbraio',
    'mar march maerz marz mars marzo mrz',
    'apr april avril avr abril abr aprile',
    'may mai mayo maggio mag',
    'jun june juni juin junio giugno giu',
    'jul july juli juillet juil julio luglio lug',
    'aug august aout agosto ago',
    'sep sept september septembre septiembre set settembre setiembre',
    'oct october oktober okt octobre octubre ottobre ott',
    'nov november novembre noviembre',
    'dec december dezember dez decembre diciembre dic dicembre',
  ].flatMap((words, i) => words.split(' ').map((w) => [w, i + 1] as const)),
);
const SEASONS: Readonly<Record<string, number>> = {
  spring: 4, fruhjahr: 4, fruehjahr: 4, fruhling: 4, printemps: 4, primavera: 4, summer: 7, sommer: 7, ete: 7, verano: 7, estate: 7,
  fall: 10, autumn: 10, herbst: 10, automne: 10, otono: 10, autunno: 10, winter: 1, hiver: 1, invierno: 1, inverno: 1,
}; // prettier-ignore
const NUMERIC = /^(\d{1,2})([/.-])(\d{1,2})\2(\d{4}|\d{2})(?:[ T,]+\d{1,2}[:.]\d{2}.*)?$/;

/** Which of the first two numbers is the day, from all cells of a column. */
export function dateOrder(
  cells: readonly Cell[],
  unitsUS: boolean,
): { order: DateOrder; decided: 'cells' | 'mixed' | 'units' | 'none' } {
  let dayFirst = 0;
  let monthFirst = 0;
  let open = 0;
  for (const cell of cells) {
    const m = typeof cell === 'string' ? NUMERIC.exec(text(cell)) : null;
    if (!m) continue;
    const a = Number(m[1]);
    const b = Number(m[3]);
    if (m[2] === '.' || (a > 12 && b <= 12)) dayFirst++;
    else if (b > 12 && a <= 12) monthFirst++;
    else if (a !== b) open++;
  }
  const fallback: DateOrder = unitsUS ? 'month first' : 'day first';
  if (dayFirst > 0 && monthFirst > 0)
    return { order: dayFirst > 5 * monthFirst ? 'day first' : monthFirst > 5 * dayFirst ? 'month first' : fallback, decided: 'mixed' }; // prettier-ignore
  if (dayFirst > 0) return { order: 'day first', decided: 'cells' };
  if (monthFirst > 0) return { order: 'month first', decided: 'cells' };
  return { order: fallback, decided: open > 0 ? 'units' : 'none' };
}

/** Two-digit years: up to one past `pivotYear` in its century, else the century before. */
function fullYear(y: string, pivotYear: number): number {
  const n = Number(y);
  if (y.length !== 2) return n;
  const century = Math.floor(pivotYear / 100) * 100;
  return century + n <= pivotYear + 1 ? century + n : century - 100 + n;
}

function made(year: number, month: number, date: number, cell: Cell, note?: string): ReadDate {
  if (year === 1899 || (year === 1900 && month === 1 && date <= 1) || (year === 1970 && month === 1 && date === 1))
    return { note: `${quoted(cell)} is the zero of a date counter, not a planting date; left out` };
  if (year < 1000 || year > 2200) return { note: `${quoted(cell)} is not a year of planting; left out` };
  try {
    if (year < 1900 || (year === 1900 && month < 3)) {
      return { day: FIRST_DAY, note: `${quoted(cell)} is before spreadsheet dates begin; ${isoDate(FIRST_DAY)} stands for it` };
    }
    const day = dayOf(year, month, date);
    return note === undefined ? { day } : { day, note };
  } catch {
    return { note: `${quoted(cell)} names a day that does not exist; left out` };
  }
} // prettier-ignore

const yearOnly = (year: number, cell: Cell): ReadDate =>
  year === 1900
    ? { note: `${quoted(cell)} is the zero of a date counter, not a planting year; left out` }
    : made(year, 7, 1, cell, 'only the year of planting is known; 1 July is used');

function fromNumber(n: number, cell: Cell, isDate: boolean): ReadDate {
  if (n === 0) return {};
  const whole = Math.floor(n);
  if (isDate || (whole >= 12000 && whole <= 90000)) {
    if (!isDay(whole)) return { note: `${quoted(cell)} is the zero of a date counter, not a planting date; left out` }; // prettier-ignore
    const { year, month, date } = civil(whole);
    return made(year, month, date, cell);
  }
  if (whole === n && n >= 1400 && n <= 2200) return yearOnly(n, cell);
  if (whole === n && n >= 14000101 && n <= 22001231)
    return made(Math.floor(n / 10000), Math.floor(n / 100) % 100, n % 100, cell);
  if (whole === n && n >= 140001 && n <= 220012)
    return made(Math.floor(n / 100), n % 100, 15, cell, 'only the month of planting is known; the 15th is used');
  if (n > 0 && n < 3) return { note: `${quoted(cell)} is the zero of a date counter, not a planting date; left out` };
  return { note: `${quoted(cell)} is not a date; accepted are yyyy-mm-dd, a year, or a date cell` };
} // prettier-ignore

/** Reads one planting date. A blank cell gives nothing; what cannot be read gives a note. */
export function readDate(
  cell: Cell,
  how: { order: DateOrder; pivotYear: number; isDate?: boolean },
): ReadDate {
  if (isMissing(cell) || typeof cell === 'boolean') return {};
  if (typeof cell === 'number') return fromNumber(cell, cell, how.isDate === true);
  const s = text(cell).replace(/\s*\([^)]*\)$/, '');
  if (/^\d+(\.0*)?$/.test(s)) return fromNumber(Number(s), cell, false);
  const iso = /^(\d{4})([-/.])(\d{1,2})(?:\2(\d{1,2}))?(?:[T ].*)?$/.exec(s);
  if (iso) {
    const y = Number(iso[1]);
    const m = Number(iso[3]);
    return iso[4] === undefined
      ? made(y, m, 15, cell, 'only the month of planting is known; the 15th is used')
      : made(y, m, Number(iso[4]), cell);
  }
  const numeric = NUMERIC.exec(s);
  if (numeric) {
    const a = Number(numeric[1]);
    const b = Number(numeric[3]);
    const dayFirst = a > 12 || (b <= 12 && (how.order === 'day first' || numeric[2] === '.'));
    return made(
      fullYear(numeric[4] ?? '', how.pivotYear),
      dayFirst ? b : a,
      dayFirst ? a : b,
      cell,
    );
  }
  return fromWords(s, cell, how.pivotYear);
}

function fromWords(s: string, cell: Cell, pivot: number): ReadDate {
  const parts = plainLabel(s).split(' ').filter((p) => !/^(de|of|the|del|den|le|um|am|st|nd|rd|th)$/.test(p)).map((p) => p.replace(/^(\d+)(st|nd|rd|th)$/, '$1')); // prettier-ignore
  if (parts.length === 0 || parts.length > 4) return notDate(cell);
  const monthAt = parts.findIndex((p) => MONTH_WORDS.has(p));
  const month = MONTH_WORDS.get(parts[monthAt] ?? '');
  const numbers = parts.filter((p) => /^\d{1,4}$/.test(p));
  const season = parts.map((p) => SEASONS[p]).find((x) => x !== undefined);
  if (numbers.length + 1 !== parts.length) return notDate(cell);
  if (month !== undefined) {
    const [a, b] = numbers;
    if (a !== undefined && b !== undefined) {
      const yearFirst = a.length === 4;
      return made(fullYear(yearFirst ? a : b, pivot), month, Number(yearFirst ? b : a), cell);
    }
    if (a !== undefined && (a.length === 4 || a.length === 2))
      return made(fullYear(a, pivot), month, 15, cell, 'only the month of planting is known; the 15th is used');
  }
  const year = numbers[0];
  if (season !== undefined && numbers.length === 1 && year !== undefined && (year.length === 2 || year.length === 4))
    return made(fullYear(year, pivot), season, 1, cell, `${quoted(cell)} is a season; its middle is used`);
  return notDate(cell);
} // prettier-ignore

const notDate = (cell: Cell): ReadDate => ({
  note: `${quoted(cell)} is not a date; accepted are yyyy-mm-dd, a year, or a date cell`,
});
