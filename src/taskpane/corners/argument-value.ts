/** What was typed for an argument: how it was understood, what it is in a formula, and what the function is handed. */
import type { Units } from '../../engine/units.js';
import { NO_UNIT, partsOf, type ParameterParts } from '../../functions/parameter-words.js';
import { convert, plainNumber, quantity, type Cell } from '../../tables/cells.js';
import type { Given } from '../../workers/room-function.js';
import type { FunctionParameter } from './function-data.js';

/** What a parameter takes. Days and words are never read as numbers: 1/16 is a day to somebody, 12 1/2 a house. */
export type Taken = 'number' | 'date' | 'words' | 'range';

const WORDS: ReadonlySet<string> = new Set(['address', 'class', 'class_', 'zone']);
const DATES: ReadonlySet<string> = new Set(['a date', 'a date with its time of day', 'una fecha', 'una fecha con su hora']); // prettier-ignore

export function takenBy(parameter: FunctionParameter): Taken {
  if (parameter.dimensionality === 'matrix') return 'range';
  if (parameter.customEnumId !== undefined || WORDS.has(parameter.name)) return 'words';
  return DATES.has(partsOf(parameter).us) ? 'date' : 'number';
}

/** What a parameter is, in its language, and its unit in one system, "" where it has none. */
export function saidOf(
  parameter: FunctionParameter,
  units: Units,
): Pick<ParameterParts, 'what' | 'default'> & { unit: string } {
  const { what, default: otherwise, us, si } = partsOf(parameter);
  const unit = units === 'US' ? us : si;
  return { what, default: otherwise, unit: unit === NO_UNIT ? '' : unit };
}

/** A number; a text, list or formula as written; TRUE or FALSE; a cell or range; a function's call; a table's column. */
const NUMBER = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?%?$/i;
const TEXT = /^"((?:[^"]|"")*)"$/;
const LIST = /^\{.*\}$/s;
const YES_NO = /^(?:true|false)$/i;
const CELLS =
  /^(?:('(?:[^']|'')+'|[\w.]+)!)?(\$?[a-z]{1,3}\$?\d{1,7}(?::\$?[a-z]{1,3}\$?\d{1,7})?)$/i;
const FORMULAS: readonly RegExp[] = [/^["{]/, /^[a-z][\w.]*\(.*\)$/i, /^\w+\[.+\]$/];
const VERBATIM: readonly RegExp[] = [NUMBER, YES_NO, CELLS, ...FORMULAS];

/**
 * A number written as a fraction, with a decimal comma, or with a unit beside it.
 *
 * @param unit - the argument's; another unit of the same kind is converted
 * @returns undefined where it is no number, or in a unit of another kind
 */
function numberIn(typed: string, unit: string): number | undefined {
  const read = quantity(typed);
  if (!read) return undefined;
  return read.unit === '' ? read.value : convert(read.value, read.unit, unit);
}

const DIGITS = 15;
const asTyped = (value: number): string => String(Number(value.toPrecision(DIGITS)));

export interface Argued {
  /** as it stands in the formula, "" for nothing */
  formula: string;
  /** the number that was read out of a fraction or a quantity */
  read?: number;
}

/**
 * What a person typed as it stands in a formula: fractions and quantities as their number, words and dates in quotes; after
 * "=" everything stays.
 */
export function argued(typed: string, taken: Taken, unit = ''): Argued {
  const trimmed = typed.trim();
  if (trimmed.startsWith('=')) return { formula: trimmed.slice(1).trim() };
  if (trimmed === '' || VERBATIM.some((form) => form.test(trimmed))) return { formula: trimmed };
  const read = taken === 'number' || taken === 'range' ? numberIn(trimmed, unit) : undefined;
  if (read !== undefined) return { formula: asTyped(read), read };
  return { formula: `"${trimmed.replaceAll('"', '""')}"` };
}

/** Cells an argument points at. */
export interface Pointed {
  sheet?: string;
  range: string;
}

/** What a part of a formula means without the program: a value, cells to be read, or what only the program can work out. */
export type Meant = Given | { kind: 'pointed'; at: Pointed } | { kind: 'formula' };

const unquoted = (text: string): string => text.slice(1, -1).replaceAll('""', '"');

function scalarIn(text: string): string | number | boolean | undefined {
  if (NUMBER.test(text)) {
    const number = Number(text.replace('%', ''));
    return text.endsWith('%') ? number / 100 : number;
  }
  if (YES_NO.test(text)) return text.toLowerCase() === 'true';
  return TEXT.test(text) ? unquoted(text) : undefined;
}

/** Cells of a list such as {"a",1;"b",2}, undefined where one of them is neither number, text nor TRUE or FALSE. */
function listIn(text: string): Cell[][] | undefined {
  const cell = /\s*("(?:[^"]|"")*"|[^,;"]*)\s*([,;]|$)/y;
  const inner = text.slice(1, -1);
  const rows: Cell[][] = [[]];
  while (cell.lastIndex < inner.length) {
    const found = cell.exec(inner);
    const value = found && scalarIn(found[1]!.trim());
    if (!found || value === undefined) return undefined;
    rows.at(-1)!.push(value);
    if (found[2] === ';') rows.push([]);
    if (found[2] === '') break;
  }
  return rows;
}

/** @param formula - an argument as it stands in a formula */
export function meantBy(formula: string): Meant {
  if (formula === '') return { kind: 'omitted' };
  const value = scalarIn(formula);
  if (value !== undefined) return { kind: 'value', value };
  const list = LIST.test(formula) ? listIn(formula) : undefined;
  if (list) return { kind: 'value', value: list };
  const cells = CELLS.exec(formula);
  if (!cells) return { kind: 'formula' };
  const [, sheet, range = ''] = cells;
  const name = sheet?.startsWith("'") ? sheet.slice(1, -1).replaceAll("''", "'") : sheet;
  return {
    kind: 'pointed',
    at: {
      range: range.replaceAll('$', '').toUpperCase(),
      ...(name !== undefined && { sheet: name }),
    },
  };
}

/** A text of a worked example without its quotes, where it is still the same argument without them. */
export function plainlyTyped(example: string): string {
  if (!TEXT.test(example)) return example;
  const inner = unquoted(example);
  const reads = VERBATIM.some((form) => form.test(inner)) || plainNumber(inner) !== undefined;
  return inner === '' || reads || /["={]/.test(inner) ? example : inner;
}
