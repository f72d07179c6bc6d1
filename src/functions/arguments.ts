/**
 * Reads the arguments of worksheet functions: cells as people fill them become engine values, or a sentence that
 * names the parameter, what it got and what it needs. Driven by two tables, quantities and limits, so that a
 * function only says which limit a parameter keeps.
 *
 * What may arrive: numbers, text, TRUE/FALSE, null or undefined (omitted), "" or 0 (a blank cell, by host), one
 * cell as [[value]], an error as text or as the host's object, a formatted number as the host's object.
 */
import { isDay, dayFromIso, isoDate, type Day } from '../engine/dates.js';
import { plain } from '../engine/checks.js';
import { Problem } from '../engine/problems.js';
import {
  KG_PER_POUND,
  KPA_PER_PSI,
  L_PER_GALLON,
  M_PER_FOOT,
  MM_PER_INCH,
  MS_PER_MPH,
  type Units,
} from '../engine/units.js';

interface Scale {
  label: string;
  /** engine = (cell − zero) · factor */
  factor: number;
  zero?: number;
}
type Quantity = Readonly<Record<Units, Scale>>;

const both = (label: string): Quantity => ({
  US: { label, factor: 1 },
  SI: { label, factor: 1 },
});
const quantity = (us: string, usFactor: number, si: string, siFactor = 1): Quantity => ({
  US: { label: us, factor: usFactor },
  SI: { label: si, factor: siFactor },
});

/** What cells hold under each unit system, and how it becomes the engine's unit. */
const QUANTITIES = {
  number: both(''),
  degrees: both('degrees'),
  hours: both('h'),
  energy: both('MJ/m²'),
  temperature: {
    US: { label: '°F', factor: 5 / 9, zero: 32 },
    SI: { label: '°C', factor: 1 },
  },
  wind: quantity('mph', MS_PER_MPH, 'm/s'),
  elevation: quantity('ft', M_PER_FOOT, 'm'),
  waterDepth: quantity('in', MM_PER_INCH, 'mm'),
  span: quantity('ft', M_PER_FOOT, 'm'),
  /** engine mm, cells in centimetres: bag depth, ball size */
  size: quantity('in', MM_PER_INCH, 'cm', 10),
  bore: quantity('in', MM_PER_INCH, 'mm'),
  /** engine m, cells in inches or centimetres: turns of a coil */
  spacing: quantity('in', MM_PER_INCH / 1000, 'cm', 0.01),
  volume: quantity('gal', L_PER_GALLON, 'L'),
  flow: quantity('gpm', L_PER_GALLON, 'L/min'),
  hoseRate: quantity('gal/h per 100 ft', L_PER_GALLON / (100 * M_PER_FOOT), 'L/h per m'),
  pressure: quantity('psi', KPA_PER_PSI, 'kPa'),
  weight: quantity('lb', KG_PER_POUND, 'kg'),
} satisfies Record<string, Quantity>;
export type QuantityName = keyof typeof QUANTITIES;

/** What a parameter accepts, in the unit of the cell. */
interface Limit {
  quantity: QuantityName;
  US: readonly [low: number, high: number];
  /** where the numbers differ from US */
  SI?: readonly [low: number, high: number];
  /** the low end itself is refused */
  above?: true;
  whole?: true;
  /** an optional 0 is a true zero here; elsewhere it is taken for a blank cell */
  zeroCounts?: true;
}

const LIMITS = {
  temperature: { quantity: 'temperature', US: [-76, 140], SI: [-60, 60] },
  dewPoint: { quantity: 'temperature', US: [-112, 140], SI: [-80, 60] },
  latitude: { quantity: 'degrees', US: [-90, 90] },
  wind: { quantity: 'wind', US: [0, 100], SI: [0, 45], above: true },
  solar: { quantity: 'energy', US: [0, 50], above: true },
  elevation: { quantity: 'elevation', US: [-1400, 19000], SI: [-430, 5800], zeroCounts: true },
  et0: { quantity: 'waterDepth', US: [0, 0.9], SI: [0, 23], above: true },
  canopy: { quantity: 'span', US: [0, 300], SI: [0, 90], above: true },
  plantFactor: { quantity: 'number', US: [0, 1.5], above: true },
  siteFactor: { quantity: 'number', US: [0.1, 3] },
  rootSize: { quantity: 'size', US: [0, 1200], SI: [0, 3000], above: true },
  available: { quantity: 'number', US: [0, 0.6], above: true },
  depletion: { quantity: 'number', US: [0, 1], above: true },
  anyVolume: { quantity: 'number', US: [0, 1e7], above: true },
  demand: { quantity: 'number', US: [0, 1e6], above: true },
  rainGain: { quantity: 'number', US: [0, 1e6], zeroCounts: true },
  bagVolume: { quantity: 'volume', US: [0, 10000], SI: [0, 40000], above: true },
  bagLeft: { quantity: 'volume', US: [0, 10000], SI: [0, 40000], zeroCounts: true },
  holes: { quantity: 'number', US: [1, 100], whole: true },
  hole: { quantity: 'bore', US: [0.004, 4], SI: [0.1, 100] },
  bagDepth: { quantity: 'size', US: [0.1, 240], SI: [0.25, 600] },
  discharge: { quantity: 'number', US: [0.1, 1] },
  hours: { quantity: 'hours', US: [0, 10000], above: true },
  shareLeft: { quantity: 'number', US: [0, 0.99], zeroCounts: true },
  weight: { quantity: 'weight', US: [0, 2000], SI: [0, 900], above: true },
  usable: { quantity: 'number', US: [0, 1], above: true },
  draw: { quantity: 'number', US: [0, 1e6], zeroCounts: true },
  reserve: { quantity: 'number', US: [0, 0.99], zeroCounts: true },
  hoseLength: { quantity: 'span', US: [0, 5000], SI: [0, 1500], above: true },
  hoseRate: { quantity: 'hoseRate', US: [0, 2000], SI: [0, 250], above: true },
  pressure: { quantity: 'pressure', US: [0, 150], SI: [0, 1000], zeroCounts: true },
  ratedPressure: { quantity: 'pressure', US: [0, 150], SI: [0, 1000], above: true },
  exponent: { quantity: 'number', US: [0, 2], above: true },
  flow: { quantity: 'number', US: [0, 1e6], above: true },
  coil: { quantity: 'span', US: [0, 300], SI: [0, 90], above: true },
  spacing: { quantity: 'spacing', US: [0.5, 120], SI: [1, 300] },
} satisfies Record<string, Limit>;
export type LimitName = keyof typeof LIMITS;

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
): number {
  const [low, high] = (units === 'SI' ? limit.SI : undefined) ?? limit.US;
  const value = numberFrom(content);
  const fits =
    value !== undefined &&
    value <= high &&
    (limit.above ? value > low : value >= low) &&
    (!limit.whole || Number.isInteger(value));
  if (!fits) throw new Problem(`${name} must be ${need(limit, units)}; got ${shown(content)}`);
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
export const unitsOf = (given: unknown): Units => word('units', given, ['US', 'SI'], 'US');

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

/** A cell's value in the engine's unit. */
export function toEngine(value: number, name: QuantityName, units: Units): number {
  const { factor, zero = 0 }: Scale = QUANTITIES[name][units];
  return (value - zero) * factor;
}

/** An engine value in the unit of the cell. */
export function toCell(value: number, name: QuantityName, units: Units): number {
  const { factor, zero = 0 }: Scale = QUANTITIES[name][units];
  return value / factor + zero;
}
