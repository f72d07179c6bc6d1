/** Reads the measures people write: trunks with several stems, ranges, classes, containers, coordinates. */
import { L_PER_GALLON } from '../../engine/units.js';
import {
  convert,
  isMissing,
  mixedNumber,
  plainNumber,
  quantity,
  quoted,
  text,
  unitWord,
  isUnit,
  type Cell,
} from '../cells.js';
import { MEASURE_UNITS, rangeIn, spelled } from '../said-units.js';

export interface Measured {
  value?: number;
  note?: string;
}

const LABEL_WORDS =
  /\b(d\.?b\.?h\.?|cal\.?|caliper|diam\.?|dia\.?|diameter|approx\.?|ca\.?|circa|tall|high|wide|spread)(?=\W|$)/gi;
const DATE_SHAPE = /^(0\d|\d{1,2})[/.](0\d|\d{1,2})[/.](\d{2}|\d{4})$/;
const RANGE = /^(.+?[\d"'a-z.]?)\s*(?:-|–|—|\bto\b|\bbis\b|\bà\b)\s*(\d.*)$/i;
const ABOVE =
  /^(?:>=?|≥|over|above|more than)\s*(\d.*)$|^(\d.*?)\s*(?:\+|and up|and over|or more|and above)$/i;
const BELOW = /^(?:<=?|≤|under|below|less than|up to)\s*(\d.*)$/i;
const FEET_INCHES = /^(\d+)\s*(?:'|′|’|ft\.?)\s*(\d+(?:\.\d+)?)\s*(?:"|″|”|''|in\.?)?$/i;

interface Reading {
  unit: string;
  to: 'mm' | 'm' | 'L/min';
  decimalComma?: boolean;
  /** several numbers in one cell are stems of one tree */
  stems?: boolean;
  /** a cell shown as a date in a workbook */
  isDate?: boolean;
  range: readonly [number, number];
}

const inUnit = (q: { value: number; unit: string }, unit: string, to: string): number | undefined =>
  convert(q.value, q.unit || unit, to);

/**
 * One measure. Ranges give their middle, several stems the root of the sum of squares, 0 means not measured.
 * @returns the value in `to`, or none with a note why
 */
export function readMeasure(cell: Cell, how: Reading): Measured {
  if (cell === null || isMissing(cell) || typeof cell === 'boolean') return {};
  if (how.isDate === true) return { note: `${quoted(cell)} is a date where a measure belongs; left out` };
  const found = rawMeasure(cell, how);
  if (found.value === undefined) return found;
  if (found.value === 0) return { note: `${quoted(cell)} is taken as not measured` };
  if (!(found.value >= how.range[0] && found.value <= how.range[1]))
    return { note: `${quoted(cell)} would be ${outside(found.value, how)}; left out` };
  return found;
} // prettier-ignore

/** A value and the range it is not in, in the unit of its column. */
function outside(value: number, { unit, to, range }: Reading): string {
  const shown = spelled(unit, MEASURE_UNITS[to]);
  const said = Number((convert(value, to, shown) ?? value).toPrecision(4));
  return `${said} ${shown}, outside ${rangeIn(range, to, shown)}`;
}

function rawMeasure(cell: string | number, how: Reading): Measured {
  const whole = text(cell);
  if (DATE_SHAPE.test(whole) && (how.stems !== true || /\b0\d|\d{4}$/.test(whole)))
    return {
      note: `${quoted(cell)} looks like a number that a spreadsheet turned into a date; left out`,
    };
  const improper = /^(\d+)\/(\d+)$/.exec(whole);
  const stemsFirst =
    how.stems === true && improper !== null && Number(improper[1]) > Number(improper[2]);
  const direct = stemsFirst ? undefined : quantity(cell, how.decimalComma);
  if (direct) {
    const v = inUnit(direct, how.unit, how.to);
    return v === undefined
      ? { note: `${quoted(cell)} has a unit that does not fit; left out` }
      : { value: v };
  }
  const s = whole.replace(LABEL_WORDS, ' ').replace(/\s+/g, ' ').trim();
  const feet = FEET_INCHES.exec(s);
  if (feet) {
    const v = convert(Number(feet[1]) + Number(feet[2]) / 12, 'ft', how.to);
    if (v !== undefined) return { value: v };
  }
  const again = stemsFirst ? undefined : quantity(s, how.decimalComma);
  if (again) {
    const v = inUnit(again, how.unit, how.to);
    if (v !== undefined) return { value: v };
  }
  if (how.stems === true) {
    const parts = s
      .split(/\s*(?:[x×+&;/]|,(?=\s)|\band\b|\bund\b|\by\b|\bet\b)\s*/i)
      .filter((p) => p !== '');
    const values = valuesOf(parts, how);
    if (values && values.length > 1 && values.length <= 40)
      return {
        value: Math.hypot(...values),
        note: `${quoted(cell)} is read as ${values.length} stems; one trunk of the same wood area is used`,
      };
  } else {
    // height x width: the first number is the one asked for
    const first = /^(.+?)\s*[x×]\s*\d/.exec(s)?.[1];
    if (first !== undefined) return rawMeasure(first, how);
  }
  const range = RANGE.exec(s);
  if (range) {
    const values = valuesOf([range[1] ?? '', range[2] ?? ''], how);
    const [a, b] = values ?? [];
    if (a !== undefined && b !== undefined)
      return { value: (a + b) / 2, note: `${quoted(cell)} is a range; its middle is used` };
  }
  const above = ABOVE.exec(s);
  const low = above ? valuesOf([above[1] ?? above[2] ?? ''], how)?.[0] : undefined;
  if (low !== undefined)
    return { value: low, note: `${quoted(cell)} has no upper end; its lower end is used` };
  const under = BELOW.exec(s);
  const high = under ? valuesOf([under[1] ?? ''], how)?.[0] : undefined;
  if (high !== undefined)
    return { value: high / 2, note: `${quoted(cell)} has no lower end; half of it is used` };
  return { note: `${quoted(cell)} is not a measure; left out` };
}

/** All parts as values, the unit of the last part standing for those without one. */
function valuesOf(parts: string[], how: Reading): number[] | undefined {
  const read = parts.map((p) => quantity(p, how.decimalComma));
  const shared = read.at(-1)?.unit || how.unit;
  const values: number[] = [];
  for (const q of read) {
    const v = q && inUnit(q, shared, how.to);
    if (v === undefined) return undefined;
    values.push(v);
  }
  return values.length > 0 ? values : undefined;
}

/** The unit most cells of a column write beside their number, '' when few do. */
export function unitInCells(cells: readonly Cell[]): string {
  const seen = new Map<string, number>();
  let filled = 0;
  for (const c of cells) {
    if (isMissing(c)) continue;
    filled++;
    const m = typeof c === 'string' ? /\d\s*([^\d\s.,/x×+-].*)$/.exec(text(c)) : null;
    const u = m ? unitWord(m[1] ?? '') : '';
    if (u !== '' && isUnit(u)) seen.set(u, (seen.get(u) ?? 0) + 1);
  }
  for (const [u, n] of seen) if (n > filled / 2) return u;
  return '';
}

/** Plain number of the cell as it stands, ignoring units and using the middle of ranges: for judging magnitudes. */
export function magnitude(cell: Cell, decimalComma: boolean): number | undefined {
  const n = plainNumber(cell, decimalComma);
  if (n !== undefined) return n;
  if (typeof cell !== 'string') return undefined;
  const first = /\d+(?:[.,]\d+)?/.exec(cell)?.[0];
  return first === undefined || DATE_SHAPE.test(text(cell))
    ? undefined
    : mixedNumber(first, decimalComma);
}

const SIZE_IN_TEXT =
  /(?:#|no\.?\s*)(\d+(?:\.\d+)?)|(\d+(?:\.\d+)?)\s*-?\s*(?:gal(?:lon)?s?\b\.?|g\b|#)|\bc\s?(\d+)\b|(\d+(?:\.\d+)?)\s*(l|lt|ltr|liters?|litres?)\b/gi;

/** True when the text speaks of nursery containers. */
export const speaksOfContainers = (cell: Cell): boolean =>
  typeof cell === 'string' &&
  /\d\s*-?\s*gal|#\s*\d|\bseedling|\bliner|\bwhip|\bbare ?root|\bB\s?&\s?B\b/i.test(cell);

/** Container class [-], 15 for "#15", "15 gal.", "15 gallon"; of several the smallest. */
export function readContainer(cell: Cell): Measured {
  if (isMissing(cell) || typeof cell === 'boolean') return {};
  const plain = plainNumber(cell);
  const sizes: number[] = plain === undefined ? [] : [plain];
  if (plain === undefined)
    for (const m of text(cell).matchAll(SIZE_IN_TEXT)) {
      const litres = m[3] ?? m[4];
      const n = litres === undefined ? Number(m[1] ?? m[2]) : Number(litres) / L_PER_GALLON;
      if (n > 0) sizes.push(litres === undefined ? n : Math.max(1, Math.round(n)));
    }
  const least = Math.min(...sizes);
  if (sizes.length === 0 || least === 0)
    return { note: plain === 0 ? '"0" is taken as no container' : `${quoted(cell)} is not a container class; accepted are 15, #15, 15 gal` };
  if (!(least >= 0.25 && least <= 1000))
    return { note: `container ${quoted(cell)} is outside 0.25 to 1000; left out` };
  return sizes.length > 1
    ? { value: least, note: `${quoted(cell)} names several containers; the smallest is planned for every tree of the row` }
    : { value: least };
} // prettier-ignore

/** Degrees from `-75.78`, `N39.1886`, `96.58 W`, `39 11.316`, `39°11'18.9"N`. @returns undefined when it is none */
export function readCoordinate(cell: Cell): number | undefined {
  if (typeof cell === 'number') return Number.isFinite(cell) ? cell : undefined;
  if (typeof cell !== 'string') return undefined;
  if (/^-?\d{1,3}(?:\.\d+)?$/.test(cell)) return Number(cell);
  const m = /^([NSEWO])?\s*([+-]?\d{1,3}(?:[.,]\d+)?)\s*°?(?:[\s:]*(\d{1,2}(?:\.\d+)?)\s*['′’]?)?(?:[\s:]*(\d{1,2}(?:\.\d+)?)\s*(?:"|″|”|'')?)?\s*([NSEWO])?$/i.exec(text(cell));
  if (!m) return undefined;
  const degrees = Number((m[2] ?? '').replace(',', '.'));
  const minutes = Number(m[3] ?? 0);
  const seconds = Number(m[4] ?? 0);
  if (minutes >= 60 || seconds >= 60) return undefined;
  const size = Math.abs(degrees) + minutes / 60 + seconds / 3600;
  const hemisphere = (m[1] ?? m[5] ?? '').toUpperCase();
  const negative = (m[2] ?? '').startsWith('-') || hemisphere === 'S' || hemisphere === 'W' || hemisphere === 'O';
  return negative ? -size : size;
} // prettier-ignore

/** "(48.85, 2.29)" or "48.85, 2.29" → latitude, longitude. */
export function readPair(cell: Cell): { latitude: number; longitude: number } | undefined {
  if (typeof cell !== 'string') return undefined;
  const m = /^[([]?\s*(-?\d{1,2}(?:\.\d+)?)\s*[,;]\s*(-?\d{1,3}(?:\.\d+)?)\s*[)\]]?$/.exec(
    text(cell),
  );
  if (!m) return undefined;
  const latitude = Number(m[1]);
  const longitude = Number(m[2]);
  return Math.abs(latitude) <= 90 && Math.abs(longitude) <= 180
    ? { latitude, longitude }
    : undefined;
}
