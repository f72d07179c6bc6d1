/** What is handed to the spreadsheet program for a cell, so that it holds what the model says: data stays data there. */
import type { LaidCell } from './laid-out.js';
import type { Scalar } from '../model.js';

/** TRUE and FALSE in the languages of the program, which would be read as such. From memory. */
const TRUTHS = new Set([
  'true', 'false', 'wahr', 'falsch', 'vrai', 'faux', 'verdadero', 'falso', 'vero', 'verdadeiro', 'waar', 'onwaar',
  'sant', 'falskt', 'sand', 'falsk', 'usann', 'tosi', 'epätosi', 'prawda', 'fałsz', 'pravda', 'nepravda', 'doğru', 'yanlış',
]); // prettier-ignore
/** Begins with a letter and has no digit: no number, date, time, share, formula or error in any language. */
const WORDS = /^\p{L}[^\p{N}]*$/u;

/**
 * The program reads what is written into a cell as if somebody typed it: "1-2" would become a date, "007" a number. An
 * apostrophe in front keeps it as it is and is not part of the text.
 */
export function asText(text: string): string {
  if (text === '') return text;
  return WORDS.test(text) && !TRUTHS.has(text.toLowerCase()) ? text : `'${text}`;
}

/** Functions newer than the file format have a prefix in files, and none in the program. */
const FILE_PREFIX = /_xlfn\.(?:_xlws\.)?/g;

/** @param live - our own functions where the cell has them */
export function handedOver(cell: LaidCell, live: boolean): Scalar {
  const formula = (live ? cell.live : undefined) ?? cell.formula;
  if (formula !== undefined) return `=${formula.replace(FILE_PREFIX, '')}`;
  return typeof cell.value === 'string' ? asText(cell.value) : cell.value;
}

/** The number format to set before the value is written: under '@' numbers and formulas would become text. */
export function formatBefore(cell: LaidCell): string {
  if (cell.format !== '@') return cell.format;
  const text = cell.formula === undefined && cell.live === undefined;
  return text && (typeof cell.value === 'string' || cell.value === null) ? '@' : 'General';
}
