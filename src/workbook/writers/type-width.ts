/**
 * How wide a text is in the type of a workbook, so that columns hold their headers and rows their lines. Advance widths of
 * Helvetica, which Arial and its stand-ins share. Source: Adobe's font metrics for the standard fonts; seen.
 */

/** Widths of the signs from the blank to the tilde [1/1000 of the size]. */
const REGULAR: readonly number[] = [
  278, 278, 355, 556, 556, 889, 667, 222, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
  556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
  611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
  667, 611, 278, 278, 278, 469, 556, 222, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500,
  222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
]; // prettier-ignore
const BOLD: readonly number[] = [
  278, 333, 474, 556, 556, 889, 722, 278, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
  556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611, 975, 722, 722, 722, 722, 667,
  611, 778, 722, 278, 556, 722, 611, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
  667, 611, 333, 278, 333, 584, 556, 278, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556,
  278, 889, 611, 611, 611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
]; // prettier-ignore
const FIRST_SIGN = 32;
/** Signs beyond these that are not about as wide as a digit [1/1000 of the size]. */
const OTHERS: Readonly<Record<string, number>> = {
  '·': 278, '…': 1000, '—': 1000, '÷': 584, '×': 584, '²': 333, '³': 333, '°': 400, '¿': 611, '¡': 333, í: 278, '▲': 770, '✓': 840,
}; // prettier-ignore
const DIGIT = 556;
/** From here on signs fill a square: East Asian scripts, and all that takes two code units. */
const SQUARE_FROM = 0x2e80;
const SQUARE = 1000;
const PIXELS_PER_POINT = 96 / 72;
/** Sums of widths may differ by so much [px]. */
const ROUNDING = 1e-6;

function widthOf(sign: string, widths: readonly number[]): number {
  const code = sign.charCodeAt(0);
  const known = widths[code - FIRST_SIGN] ?? OTHERS[sign];
  if (known !== undefined) return known;
  if (code >= SQUARE_FROM) return SQUARE;
  // a letter with its accent is as wide as the letter
  return widths[sign.normalize('NFD').charCodeAt(0) - FIRST_SIGN] ?? DIGIT;
}

/**
 * Width of a text on one line [px].
 *
 * @param size - of the type [pt]
 */
export function textWidth(text: string, size: number, bold: boolean): number {
  const widths = bold ? BOLD : REGULAR;
  let sum = 0;
  for (const sign of text) sum += widthOf(sign, widths);
  return (sum / 1000) * size * PIXELS_PER_POINT;
}

/** Lines a text takes where there is room for so much [px]; a word wider than that is broken. */
export function linesOfText(text: string, given: number, size: number, bold: boolean): number {
  const room = given + ROUNDING;
  const blank = textWidth(' ', size, bold);
  let count = 0;
  for (const paragraph of text.split('\n')) {
    count++;
    let used = 0;
    for (const word of paragraph.split(/\s+/)) {
      const width = textWidth(word, size, bold);
      if (used > 0 && used + blank + width > room) {
        count++;
        used = 0;
      }
      used += (used > 0 ? blank : 0) + width;
      if (used > room) {
        const broken = Math.ceil(used / room) - 1;
        count += broken;
        used -= broken * room;
      }
    }
  }
  return count;
}

/** A text in lines that fit, each of whole words; a word wider than the room has a line of its own. @param room - [px] */
export function fittingLines(text: string, room: number, size: number, bold: boolean): string[] {
  const out: string[] = [];
  for (const word of text.split(/\s+/).filter((each) => each !== '')) {
    const longer = out.length === 0 ? word : `${out.at(-1)!} ${word}`;
    if (out.length > 0 && textWidth(longer, size, bold) <= room) out[out.length - 1] = longer;
    else out.push(word);
  }
  return out;
}

/** The longest word of a text [px]: what a column must hold so that none is broken. */
export const widestWord = (text: string, size: number, bold: boolean): number =>
  Math.max(...text.split(/\s+/).map((word) => textWidth(word, size, bold)));
