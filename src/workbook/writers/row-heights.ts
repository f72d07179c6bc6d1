/** Heights of rows with big or wrapped text: programs that draw without measuring would cut them. */
import type { Column, ModelCell, Sheet } from '../model.js';
import { rich } from '../model.js';
import { bigger, lookOf, spans } from './looks.js';
import { linesOfText, widestWord } from './type-width.js';

/** Rows above which text is not wrapped: nobody reads so many lines, and measuring them takes long. */
export const MEASURED_ROWS = 20_000;

/** Column widths count digits of this width, besides padding [px]. */
export const DIGIT_PIXELS = 7;
/** What the narrowest of the programs keeps free of a column, and what an indent takes of it [px]. */
const PADDING_PIXELS = 5;
const INDENT_PIXELS = 10;
/** Height of a line of type over its size [-]. */
const LEADING = 1.32;
/** Paper for wet hands: rows to tick or to write in are at least this high where the type is big [pt]. */
const CREW_ROW = 26;
/** A single word may widen a column up to this [characters]; a longer one is broken. */
const WIDEST_WORD = 30;

/** Text that stands in its column and no other is indented where it begins at the left. */
const besideText = ({ align }: Pick<Column, 'align'>): number =>
  PADDING_PIXELS + (align === 'left' ? INDENT_PIXELS : 0);

/** Width at which no word of a column's header is broken [characters of the body type]. */
export const headerNeeds = (column: Pick<Column, 'header' | 'align'>, fontSize: number): number =>
  Math.min(
    WIDEST_WORD,
    Math.ceil((widestWord(column.header, fontSize, true) + besideText(column)) / DIGIT_PIXELS),
  );

/** Lines the text of a cell takes in its column. */
function linesIn(value: ModelCell, column: Column, width: number, header: boolean, fontSize: number): number {
  if (!column.wrap && !header) return 1;
  const { value: text, style = column.style } = rich(value);
  if (typeof text !== 'string' || spans(style)) return 1;
  const bold = header || lookOf(style, fontSize).bold;
  return linesOfText(text, width * DIGIT_PIXELS - besideText(column), fontSize, bold);
} // prettier-ignore

/**
 * 0-based row to its height [pt], for the rows that are not as high as the body type asks.
 *
 * @param widths - of the columns [characters of the body type]
 */
export function rowHeights(sheet: Sheet, widths: readonly number[]): Map<number, number> {
  const out = new Map<number, number>();
  const { fontSize } = sheet;
  const set = (row: number, type: number, count: number, least: number): void => {
    const height = Math.max(least, Math.ceil(type * LEADING * count + 2));
    if (count > 1 || height > fontSize * LEADING + 2) out.set(row - 1, height);
  };
  for (const block of sheet.blocks) {
    if (block.kind === 'text') {
      block.lines.forEach((line, i) => {
        const more = Math.max(0, ...line.map((c) => bigger(c.style ?? 'text')));
        if (more > 0) set(block.top + i, fontSize + more, 1, 0);
      });
      continue;
    }
    const most = (row: readonly ModelCell[], header: boolean): number =>
      block.columns.reduce(
        (n, c, i) => Math.max(n, linesIn(row[i] ?? null, c, widths[i]!, header, fontSize)),
        1,
      );
    const headers = block.columns.map((c) => c.header);
    set(block.top, fontSize, most(headers, true), 0);
    if (block.rows.length > MEASURED_ROWS) continue;
    const styles = (row: readonly ModelCell[]) =>
      block.columns.map((column, i) => rich(row[i] ?? null).style ?? column.style ?? 'text');
    block.rows.forEach((row, i) => {
      const used = styles(row);
      const least = fontSize >= 12 && used.includes('field') ? CREW_ROW : 0;
      const type = fontSize + Math.max(...used.map(bigger));
      set(block.top + 1 + i, type, most(row, false), least);
    });
  }
  return out;
}
