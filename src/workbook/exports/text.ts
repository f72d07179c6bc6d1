/** People's text on its way out of the workbook: one line of it, and short, for calendars and paper. */

import { writable } from '../writable.js';

export { writable };

/** Marks that turn the direction of the text after them: names could be made to read as others. */
const TURNS = /[\u200e\u200f\u061c\u202a-\u202e\u2066-\u2069]/g;
/** One line of text for a calendar or paper: without marks of direction, blanks and breaks as one blank. */
export const oneLine = (text: string): string =>
  writable(text).replace(TURNS, '').replace(/\s+/g, ' ').trim();

/**
 * One line of at most `most` characters; a longer one ends in …
 * @param most - characters, whole pairs counted as one
 */
export function short(text: string, most: number): string {
  const line = oneLine(text);
  if (line.length <= most) return line;
  const letters = [...line.slice(0, 2 * most + 2)];
  return letters.length <= most
    ? line
    : `${letters
        .slice(0, most - 1)
        .join('')
        .trimEnd()}…`;
}
