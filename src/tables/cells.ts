/**
 * What a cell may hold when it reaches us, and how text, numbers and quantities are read out of it.
 * Words for "nothing" and unit words are tables, so that a new one is a new line.
 */
import { dayFromIso, isDay, type Day } from '../engine/dates.js';
import {
  L_PER_GALLON,
  M3_PER_CUBIC_YARD,
  M_PER_FOOT,
  MM_PER_INCH,
  MS_PER_MPH,
} from '../engine/units.js';

/** A cell as the readers and the host hand it over. A date is its serial number. */
export type Cell = string | number | boolean | null;

/** Cells with the places (key "row,column", both 0-based) whose number is shown as a date. */
export interface Grid {
  cells: Cell[][];
  dateCells?: Set<string>;
}

/** Words people write where nothing is known, lower case. */
const NOTHING: ReadonlySet<string> = new Set([
  '', '-', '--', '–', '—', '.', '?', 'n/a', 'na', '#n/a', 'nan', 'null', '<null>', '(null)', 'none',
  'nil', 'unknown', 'unk', 'not known', 'no data', 'tbd', 's/d', 's.d.', 'k.a.', 'k. a.', 'unbekannt',
  'inconnu', 'inconnue', 'desconocido', 'sconosciuto', 'n.d.', 'nd', 'undefined',
]); // prettier-ignore

/** White space that a single blank should stand for. */
const ODD_SPACE = /[^\S ]| {2}|\u200b|\ufeff/;
/** Longest word of NOTHING. */
const LONGEST_NOTHING = Math.max(...[...NOTHING].map((w) => w.length));

/** The cell as trimmed text; blank cells give ''. Inner runs of white space become one blank. */
export function text(cell: Cell | undefined): string {
  if (cell === null || cell === undefined) return '';
  if (typeof cell === 'number') return Number.isFinite(cell) ? String(cell) : '';
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  const t = cell.trim();
  return ODD_SPACE.test(t) ? t.replace(/[\s\u200b\ufeff]+/g, ' ').trim() : t;
}

/** True for a cell with nothing to see in it. */
export const isBlank = (cell: Cell | undefined): boolean =>
  cell === null || cell === undefined || (typeof cell === 'string' && text(cell) === '');

/** True for a blank cell or a word that says "not known" (n/a, <Null>, a dash …). */
export const isMissing = (cell: Cell | undefined): boolean => {
  if (typeof cell === 'number') return !Number.isFinite(cell);
  if (typeof cell === 'boolean') return false;
  const t = text(cell);
  return t.length <= LONGEST_NOTHING && NOTHING.has(t.toLowerCase());
};

/** The commonest spelling, which needs no second look. */
const PLAIN = /^-?\d+(?:\.\d+)?$/;
const finite = (n: number): number | undefined => (Number.isFinite(n) ? n : undefined);

/**
 * A plain number written any common way: `1234.5`, `1,234.5`, `1.234,5`, `12,5`, `1 234,5`.
 * A lone comma before exactly three digits is a thousands separator unless `decimalComma` says otherwise.
 * @returns the number, or undefined when the text is not one number
 */
export function plainNumber(cell: Cell | undefined, decimalComma = false): number | undefined {
  if (typeof cell === 'number') return Number.isFinite(cell) ? cell : undefined;
  if (typeof cell !== 'string') return undefined;
  if (!decimalComma && PLAIN.test(cell)) return finite(Number(cell));
  let s = text(cell).replace(/(\d)[ '’\u202f](?=\d{3}(\D|$))/g, '$1');
  if (!/^[+-]?(\d[\d.,]*|[.,]\d+)(e[+-]?\d+)?$/i.test(s)) return undefined;
  const dot = s.lastIndexOf('.');
  const comma = s.lastIndexOf(',');
  if (comma >= 0 && dot >= 0) {
    s = comma > dot ? s.replace(/\./g, '').replace(',', '.') : s.replace(/,/g, '');
  } else if (comma >= 0) {
    const thousands = /^[+-]?[1-9]\d{0,2}(,\d{3})+$/.test(s) && !decimalComma;
    s = thousands ? s.replace(/,/g, '') : s.replace(',', '.');
  } else if (decimalComma && /^[+-]?[1-9]\d{0,2}(\.\d{3})+$/.test(s)) {
    s = s.replace(/\./g, '');
  } else if (/^[+-]?\d{1,3}(\.\d{3}){2,}$/.test(s)) {
    s = s.replace(/\./g, '');
  }
  const n = Number(s);
  return Number.isFinite(n) ? n : undefined;
}

type Dimension =
  | 'length'
  | 'volume'
  | 'flow'
  | 'speed'
  | 'hose rate'
  | 'depth a day'
  | 'water price'
  | 'time'
  | 'share';

/** Unit words by dimension, each with the number of base units in one of it. */
const UNIT_TABLE: readonly (readonly [Dimension, number, readonly string[]])[] = [
  ['length', 1, ['m', 'meter', 'meters', 'metre', 'metres', 'mtr', 'metro', 'metros', 'metri', 'mètre', 'mètres']],
  ['length', 0.01, ['cm', 'centimeter', 'centimeters', 'centimetre', 'centimetres', 'cms']],
  ['length', 0.001, ['mm', 'millimeter', 'millimeters', 'millimetre', 'millimetres']],
  ['length', MM_PER_INCH / 1000, ['in', 'inch', 'inches', 'ins', '"', '”', '″', "''", 'zoll', 'pulgada', 'pulgadas', 'po']],
  ['length', M_PER_FOOT, ['ft', 'foot', 'feet', "'", '’', '′', 'pies']],
  ['length', 3 * M_PER_FOOT, ['yd', 'yard', 'yards']],
  ['volume', 1, ['l', 'liter', 'liters', 'litre', 'litres', 'ltr', 'litros', 'litri']],
  ['volume', L_PER_GALLON, ['gal', 'gals', 'gallon', 'gallons', 'us gal']],
  ['volume', 1000, ['m3', 'm³', 'kl']],
  ['flow', 1, ['l/min', 'lpm', 'litres per minute', 'liters per minute']],
  ['flow', L_PER_GALLON, ['gpm', 'gal/min', 'gallons per minute']],
  ['flow', 1 / 60, ['l/h', 'lph']],
  ['flow', L_PER_GALLON / 60, ['gph', 'gal/h']],
  ['hose rate', 1, ['l/h per m', 'l/h/m', 'l/(h m)', 'l/h m']],
  ['hose rate', L_PER_GALLON / (100 * M_PER_FOOT), ['gal/h per 100 ft', 'gph per 100 ft', 'gph/100 ft', 'gal/h/100 ft', 'gph/100ft']],
  ['hose rate', (60 * L_PER_GALLON) / (100 * M_PER_FOOT), ['gpm per 100 ft', 'gpm/100 ft', 'gpm/100ft']],
  ['depth a day', 1, ['mm/day', 'mm/d', 'mm per day', 'mm a day', 'mm day-1']],
  ['depth a day', MM_PER_INCH, ['in/day', 'in/d', 'in per day', 'inch/day', 'inches/day', 'in a day']],
  ['water price', 1, ['per m³', 'per m3', '/m³', '/m3']],
  ['water price', 1 / L_PER_GALLON, ['per 1000 gal', '/1000 gal', 'per kgal', '/kgal']],
  ['water price', 1000 / L_PER_GALLON, ['per gal', '/gal']],
  ['water price', 1 / M3_PER_CUBIC_YARD, ['per yd³', 'per yd3', '/yd³', '/yd3', 'per cubic yard']],
  ['time', 1, ['h', 'hr', 'hrs', 'hour', 'hours']],
  ['time', 1 / 60, ['min', 'mins', 'minute', 'minutes']],
  ['time', 24, ['d', 'day', 'days']],
  ['speed', 1, ['km/h', 'kmh', 'kph']],
  ['speed', MS_PER_MPH * 3.6, ['mph', 'miles/h']],
  ['share', 1, ['-', 'share', 'ratio', '']],
  ['share', 0.01, ['%', 'percent', 'pct']],
]; // prettier-ignore

const UNITS = new Map<string, { dimension: Dimension; factor: number }>(
  UNIT_TABLE.flatMap(([dimension, factor, words]) =>
    words.map((w) => [w, { dimension, factor }] as const),
  ),
);

/** A unit word in the spelling of the table: lower case, no brackets, no stray dots or commas. */
export function unitWord(word: string): string {
  const w = text(word)
    .toLowerCase()
    .replace(/[[\]()]/g, '')
    .replace(/\.$/, '')
    .replace(/1,000/, '1000');
  if (UNITS.has(w)) return w;
  // a currency before the slash: "$/m³", "eur/m³"
  return w.replace(/^[^\p{L}\s/]*(?=\/)|^[a-z]{3}(?=\/\d|\/m|\/kgal|\/gal)/u, '').trim();
}

/** True when the word names a unit we can convert. */
export const isUnit = (word: string): boolean => unitWord(word) !== '' && UNITS.has(unitWord(word));

/**
 * Converts between two unit words of the same dimension.
 * @returns undefined when either is unknown or they measure different things
 */
export function convert(value: number, from: string, to: string): number | undefined {
  const a = UNITS.get(unitWord(from));
  const b = UNITS.get(unitWord(to));
  if (!a || !b || a.dimension !== b.dimension) return undefined;
  return a.factor === b.factor ? value : (value * a.factor) / b.factor;
}

/** A number (plain, `2 1/2`, `3/4`, `1½`) and what follows it. */
const QUANTITY =
  /^(\d+\/\d+|[½¼¾⅓⅔⅛⅜⅝⅞]|[+-]?[.,]?\d[\d.,'’]*(?: \d{3}(?!\d))*(?:[ -]\d+\/\d+| ?[½¼¾⅓⅔⅛⅜⅝⅞])?)\s*([^\d\s].*)?$/u;

/** A number with the unit written beside it in the same cell, "" when none is: `12 in`, `5cm`, `1/2"`. */
export function quantity(
  cell: Cell | undefined,
  decimalComma = false,
): { value: number; unit: string } | undefined {
  const plain = plainNumber(cell, decimalComma);
  if (plain !== undefined) return { value: plain, unit: '' };
  if (typeof cell !== 'string') return undefined;
  const s = text(cell).replace(/^(about|approx\.?|ca\.?|circa|environ|~|≈)\s*/i, '');
  const m = QUANTITY.exec(s);
  if (!m) return undefined;
  const value = mixedNumber(m[1] ?? '', decimalComma);
  const unit = unitWord(m[2] ?? '');
  if (value === undefined || (unit !== '' && !UNITS.has(unit))) return undefined;
  return { value, unit };
}

const VULGAR: Readonly<Record<string, number>> = {
  '½': 1 / 2, '¼': 1 / 4, '¾': 3 / 4, '⅓': 1 / 3, '⅔': 2 / 3, '⅛': 1 / 8, '⅜': 3 / 8, '⅝': 5 / 8, '⅞': 7 / 8,
}; // prettier-ignore

/** `2 1/2`, `2-1/2`, `3/4`, `1½` or a plain number. */
export function mixedNumber(s: string, decimalComma = false): number | undefined {
  const t = text(s);
  const f = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/.exec(t);
  if (f) return Number(f[3]) === 0 ? undefined : Number(f[1] ?? 0) + Number(f[2]) / Number(f[3]);
  const v = /^(\d*) ?([½¼¾⅓⅔⅛⅜⅝⅞])$/u.exec(t);
  if (v) return Number(v[1] || 0) + (VULGAR[v[2] ?? ''] ?? 0);
  return plainNumber(t, decimalComma);
}

const YES: ReadonlySet<string> = new Set(['true', 'yes', 'y', '1', 'x', '✓', '✔', 'ja', 'j', 'oui', 'o', 'si', 'sí', 's', 'vero', 'wahr', 'vrai']); // prettier-ignore
const NO: ReadonlySet<string> = new Set(['false', 'no', 'n', '0', 'nein', 'non', 'falso', 'falsch', 'faux']); // prettier-ignore

/** Yes or no in five languages, a tick, TRUE/FALSE, 1/0. @returns undefined for anything else */
export function yesNo(cell: Cell | undefined): boolean | undefined {
  const t = text(cell).toLowerCase();
  return YES.has(t) ? true : NO.has(t) ? false : undefined;
}

/** A date cell of our own sheets: a serial or `yyyy-mm-dd`. @returns undefined when it is neither */
export function sheetDay(cell: Cell | undefined): Day | undefined {
  if (typeof cell === 'number') return isDay(Math.floor(cell)) ? Math.floor(cell) : undefined;
  const n = plainNumber(cell);
  if (n !== undefined) return n > 366 && isDay(Math.floor(n)) ? Math.floor(n) : undefined;
  try {
    return dayFromIso(text(cell).replace(/[T ].*$/, ''));
  } catch {
    return undefined;
  }
}

/** A label for comparison: lower case, no accents, words parted by one blank, nothing else. */
export function plainLabel(s: string): string {
  return s
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/ß/g, 'ss')
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}

/** "Volume (gal)" → name "Volume", unit "gal"; the last bracket is the unit. */
export function splitHeader(header: string): { name: string; unit: string } {
  const m = /^(.*?)\s*[([]([^()[\]]*)[)\]]\s*\.?$/.exec(text(header));
  return m ? { name: m[1] ?? '', unit: unitWord(m[2] ?? '') } : { name: text(header), unit: '' };
}

/** A long or strange cell, shortened so that it can be quoted in a sentence. */
export const quoted = (cell: Cell | undefined): string => {
  const t = text(cell);
  return `"${t.length > 40 ? `${t.slice(0, 37)}…` : t}"`;
};
