/** People's text on its way out of the workbook: what no reader of a file can hold is taken out or marked. */

/** C0 and C1 controls but tab, line feed and carriage return, and the two code points XML forbids. */
// eslint-disable-next-line no-control-regex
const CONTROLS = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufffe\uffff]/g;
/** Marks that turn the direction of the text after them: names could be made to read as others. */
const TURNS = /[\u200e\u200f\u061c\u202a-\u202e\u2066-\u2069]/g;
/** Half a pair, which no encoding can write. */
const LONE = /[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** Text any file can hold: no control characters, halves of pairs marked `\ufffd`. Line breaks and tabs stay. */
export const writable = (text: string): string =>
  text.replace(CONTROLS, '').replace(LONE, '\ufffd');

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
