/**
 * Reads the arguments of worksheet functions: cells as people fill them become engine values, or a sentence that
 * names the parameter, what it got and what it needs. Driven by the tables of limits.ts, so that a function only says
 * which limit a parameter keeps.
 *
 * What may arrive: numbers, text, TRUE/FALSE, null or undefined (omitted), "" or 0 (a blank cell, by host), one
 * cell as [[value]], an error as text or as the host's object, a formatted number as the host's object.
 */
import { isDay, dayFromIso, isoDate, type Day } from '../engine/dates.js';
import { plain } from '../engine/checks.js';
import { Problem } from '../engine/problems.js';
import type { Units } from '../engine/units.js';
import { UNIT_SYSTEMS } from './choices.js';
import { LIMITS, QUANTITIES, toEngine, type Limit, type LimitName } from './limits.js';
export { toCell, toEngine, type LimitName, type QuantityName } from './limits.js';

/** Errors a cell can hold, as text. */
const ERROR_TEXT = /^#[A-Z][A-Z0-9/_]*[!?]?$/i;
/** A number written as text; no thousands marks, which some countries write as decimal marks. */
const NUMBER_TEXT = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?\s*(%?)$/i;

/** A cell's content: one value out of [[value]] and out of the host's value objects. Blank is null. */
function contentOf(name: string, given: unknown): number | string | boolean | null {
  if (given === undefined || given === null) return null;
  if (typeof given === 'number' || typeof given === 'boolean') return given;
  if (typeof given === 'string') {
    const text = given.trim();
    if (ERROR_TEXT.test(text)) throw errorCell(name, text);
    return text === '' ? null : text;
  }
  if (Array.isArray(given)) {
    const cells = (given as unknown[]).flat();
    if (cells.length === 1) return contentOf(name, cells[0]);
    throw new Problem(`${name} must be one cell; got a range of ${cells.length}`);
  }
  if (typeof given === 'object') {
    if ('basicValue' in given) return contentOf(name, given.basicValue);
    if ('code' in given && typeof given.code === 'string') throw errorCell(name, given.code);
  }
  throw new Problem(`${name} holds something that is neither a number nor a text`);
}

const errorCell = (name: string, code: string): Problem =>
  new Problem(`${name} is a cell with the error ${code}; put that cell right first`);

const shown = (content: number | string | boolean | null): string => {
  if (content === null) return 'a blank cell';
  if (typeof content === 'number')
    return Number.isFinite(content) ? plain(content) : 'no finite number';
  return typeof content === 'boolean' ? String(content).toUpperCase() : `"${content}"`;
};

function need(limit: Limit, units: Units): string {
  const [low, high] = (units === 'SI' ? limit.SI : undefined) ?? limit.US;
  const label = QUANTITIES[limit.quantity][units].label;
  const unit = label === '' ? '' : ` ${label}`;
  const kind = limit.whole ? 'a whole number' : 'a number';
  return limit.above
    ? `${kind} above ${plain(low)}, at most ${plain(high)}${unit}`
    : `${kind} from ${plain(low)} to ${plain(high)}${unit}`;
}

const numberFrom = (content: number | string | boolean | null): number | undefined => {
  if (typeof content === 'number') return content;
  if (typeof content !== 'string') return undefined;
  const match = NUMBER_TEXT.exec(content);
  if (!match) return undefined;
  return match[3] === '%' ? Number(content.replace('%', '')) / 100 : Number(content);
};

function checked(
  name: string,
  content: number | string | boolean | null,
  limit: Limit,
  units: Units,
  asWritten = content,
): number {
  const [low, high] = (units === 'SI' ? limit.SI : undefined) ?? limit.US;
  const value = numberFrom(content);
  const fits =
    value !== undefined &&
    value <= high &&
    (limit.above ? value > low : value >= low) &&
    (!limit.whole || Number.isInteger(value));
  if (!fits) throw new Problem(`${name} must be ${need(limit, units)}; got ${shown(asWritten)}`);
  return toEngine(value, limit.quantity, units);
}

/**
 * A required number.
 *
 * @param name - the parameter, as the person sees it
 * @param given - the argument as it arrived
 * @param limitName - which limit it keeps
 * @param units - of the cell
 * @returns the value in the engine's unit
 * @throws Problem naming the parameter if it is blank, not a number, or outside its limits
 */
export function number(
  name: string,
  given: unknown,
  limitName: LimitName,
  units: Units = 'US',
): number {
  return checked(name, contentOf(name, given), LIMITS[limitName], units);
}

/**
 * An optional number: omitted, blank, or a 0 that is less likely meant than a blank, gives the fallback.
 *
 * @param fallback - in the engine's unit, or undefined for "not given"
 * @returns the value in the engine's unit
 * @throws Problem naming the parameter if it is not a number or outside its limits
 */
export function optionalNumber<T extends number | undefined>(
  name: string,
  given: unknown,
  limitName: LimitName,
  fallback: T,
  units: Units = 'US',
): number | T {
  const content = contentOf(name, given);
  const limit: Limit = LIMITS[limitName];
  if (content === null || (numberFrom(content) === 0 && !limit.zeroCounts)) return fallback;
  return checked(name, content, limit, units);
}

/**
 * A range of numbers, row by row, or one number. Blank cells at the end are left off; one in the middle is an
 * error, since nobody can tell a day without a reading from a day of nothing.
 *
 * @returns values in the engine's unit, at least one
 * @throws Problem naming the parameter and the cell
 */
export function numbers(
  name: string,
  given: unknown,
  limitName: LimitName,
  units: Units = 'US',
): number[] {
  const cells: unknown[] = Array.isArray(given) ? (given as unknown[]).flat() : [given];
  const contents = cells.map((cell, i) =>
    contentOf(cells.length === 1 ? name : `${name}, cell ${i + 1},`, cell),
  );
  while (contents.length > 1 && contents.at(-1) === null) contents.pop();
  return contents.map((content, i) =>
    checked(
      contents.length === 1 ? name : `${name}, cell ${i + 1},`,
      content,
      LIMITS[limitName],
      units,
    ),
  );
}

/**
 * One of several words, in any letter case, with hyphens or spaces. 0 is a blank cell.
 *
 * @param fallback - for an omitted or blank argument; without it the word is required
 * @returns the word as it is spelled in `choices`
 * @throws Problem naming the parameter and the choices
 */
export function word<T extends string>(
  name: string,
  given: unknown,
  choices: readonly T[],
  fallback?: T,
): T {
  const content = contentOf(name, given);
  const blank = content === null || content === 0;
  if (blank && fallback !== undefined) return fallback;
  const plainWord = (text: string): string => text.toLowerCase().replace(/[\s_-]+/g, ' ');
  const found =
    typeof content === 'string'
      ? choices.find((choice) => plainWord(choice) === plainWord(content))
      : undefined;
  if (found === undefined) {
    const list = choices.map((choice) => `"${choice}"`).join(', ');
    throw new Problem(`${name} must be one of ${list}; got ${shown(blank ? null : content)}`);
  }
  return found;
}

/** The unit system a call asks for; "US" when omitted. */
export const unitsOf = (given: unknown): Units => word('units', given, UNIT_SYSTEMS, 'US');

/**
 * A required date: a serial number, its time of day left off, or text yyyy-mm-dd.
 *
 * @returns whole day
 * @throws Problem naming the parameter
 */
export function date(name: string, given: unknown): Day {
  const content = contentOf(name, given);
  const bad = (): Problem =>
    new Problem(
      `${name} must be a date from 1900-03-01 to 9999-12-31, as a date cell or yyyy-mm-dd; got ${shown(content)}`,
    );
  if (typeof content === 'string' && content.includes('-') && numberFrom(content) === undefined) {
    try {
      return dayFromIso(content);
    } catch {
      throw bad();
    }
  }
  const day = Math.floor(numberFrom(content) ?? NaN);
  if (!isDay(day)) throw bad();
  return day;
}

/** A cell of a table: a number, a text, TRUE/FALSE, or null for blank. */
type TableCell = string | number | boolean | null;

/**
 * A required range, its cells as the readers of tables take them. Blanks become null; text is kept as written.
 *
 * @throws Problem naming the parameter if the range is blank or holds an error cell
 */
export function table(name: string, given: unknown): TableCell[][] {
  const cells = optionalTable(name, given);
  if (!cells) throw new Problem(`${name} is blank; it must be a range with its header row`);
  return cells;
}

/** As `table`, but undefined for an omitted or entirely blank range. */
export function optionalTable(name: string, given: unknown): TableCell[][] | undefined {
  if (given === undefined || given === null || given === '' || given === 0) return undefined;
  if (!Array.isArray(given))
    throw new Problem(`${name} must be a range; got ${shown(contentOf(name, given))}`);
  const rows = (given as unknown[]).map((row, r) => {
    const cells: unknown[] = Array.isArray(row) ? row : [row];
    return cells.map((cell, c): TableCell => {
      const content = contentOf(`${name}, row ${r + 1}, column ${c + 1},`, cell);
      if (typeof content === 'number' && !Number.isFinite(content)) return null;
      return typeof cell === 'string' && content !== null ? cell : content;
    });
  });
  return rows.every((row) => row.every((cell) => cell === null)) ? undefined : rows;
}

/**
 * A day as a cell holds it.
 *
 * @throws Problem if spreadsheets do not know the day
 */
export function dateCell(day: Day): number {
  if (!isDay(day)) throw new Problem(`the answer lies after ${isoDate(2_958_465)}`, 'none');
  return day;
}

/**
 * An optional date, as `date`; omitted, blank and 0 mean "not given".
 *
 * @throws Problem naming the parameter if it is something else than a date
 */
export function optionalDate(name: string, given: unknown): Day | undefined {
  const content = contentOf(name, given);
  return content === null || content === 0 ? undefined : date(name, content);
}

const MINUTES_PER_DAY = 1440;

/**
 * A required date with its time of day, to the minute: a serial number with a fraction, or text
 * yyyy-mm-dd, yyyy-mm-dd hh:mm or yyyy-mm-ddThh:mm.
 *
 * @returns whole day and minute of that day, 0…1439
 * @throws Problem naming the parameter
 */
export function moment(name: string, given: unknown): { day: Day; minute: number } {
  const content = contentOf(name, given);
  if (typeof content === 'string') {
    const written = /^(\d{4}-\d{2}-\d{2})(?:[T ]+(\d{1,2}):(\d{2}))?$/.exec(content);
    if (written) {
      const [hour, minute] = [Number(written[2] ?? 0), Number(written[3] ?? 0)];
      if (hour < 24 && minute < 60)
        return { day: date(name, written[1]), minute: hour * 60 + minute };
    } else if (numberFrom(content) !== undefined) return moment(name, numberFrom(content));
    throw new Problem(
      `${name} must be a date with a time, as a date cell or yyyy-mm-dd hh:mm; got ${shown(content)}`,
    );
  }
  const day = date(name, content);
  const minute = Math.round(((content as number) - day) * MINUTES_PER_DAY);
  return minute === MINUTES_PER_DAY ? { day: day + 1, minute: 0 } : { day, minute };
}

/**
 * Words as written, for an address: a number becomes its text, a blank cell "".
 *
 * @throws Problem naming the parameter if it is an error cell, a range or no finite number
 */
export function text(name: string, given: unknown): string {
  const content = contentOf(name, given);
  if (typeof content === 'number' && !Number.isFinite(content))
    throw new Problem(`${name} must be a text or a number; got ${shown(content)}`);
  return content === null ? '' : String(content);
}

/**
 * A container class: 15, "15" or "#15".
 *
 * @throws Problem naming the parameter if it is none of these, or outside 1 to 100
 */
export function containerClass(name: string, given: unknown): number {
  const content = contentOf(name, given);
  const bare = typeof content === 'string' ? content.replace(/^#\s*/, '') : content;
  return checked(name, bare, LIMITS.container, 'US', content);
}

/**
 * A hardiness zone: a whole number from 1 to 13, with or without its half, "9" or "9b".
 *
 * @throws Problem naming the parameter
 */
export function hardinessZone(name: string, given: unknown): number {
  const content = contentOf(name, given);
  const match = /^(\d{1,2})\s*[ab]?$/i.exec(String(content ?? ''));
  const zone = match ? Number(match[1]) : NaN;
  if (!(zone >= 1 && zone <= 13))
    throw new Problem(
      `${name} must be a hardiness zone from 1 to 13, such as 9 or 9b; got ${shown(content)}`,
    );
  return zone;
}
