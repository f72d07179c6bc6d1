/** Heights of rows with big or wrapped text: programs that draw without measuring would cut them. */
import type { Column, ModelCell, Sheet } from '../model.js';
import { lines, rich } from '../model.js';
import { bigger, spans } from './looks.js';

/** Rows above which text is not wrapped: nobody reads so many lines, and measuring them takes long. */
export const MEASURED_ROWS = 20_000;

/** Mean width of a letter over the size of the type [-]. */
const LETTER = 0.475;
const BOLD_LETTER = 0.54;
const PIXELS_PER_POINT = 96 / 72;
/** Column widths count digits of this width, besides padding and indent [px]. */
export const DIGIT_PIXELS = 7;
const PADDING_PIXELS = 9;
/** Height of a line of type over its size [-]. */
const LEADING = 1.32;
/** Paper for wet hands: rows at least this high where the type is big [pt]. */
const CREW_ROW = 26;

/** Lines the text of a cell takes in its column. */
function linesIn(value: ModelCell, column: Column, bold: boolean, fontSize: number): number {
  const content = rich(value);
  if (!column.wrap && !bold) return 1;
  if (typeof content.value !== 'string' || (content.style && spans(content.style))) return 1;
  const letter = (bold ? BOLD_LETTER : LETTER) * fontSize * PIXELS_PER_POINT;
  const room = Math.max(3, (column.width * DIGIT_PIXELS - PADDING_PIXELS) / letter);
  return Math.max(1, lines(content.value, room).length);
}

/** 0-based row to its height [pt], for the rows that are not as high as the body type asks. */
export function rowHeights(sheet: Sheet): Map<number, number> {
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
    const most = (row: readonly ModelCell[], bold: boolean): number =>
      block.columns.reduce((n, c, i) => Math.max(n, linesIn(row[i] ?? null, c, bold, fontSize)), 1);
    const headers = block.columns.map((c) => c.header);
    set(block.top, fontSize, most(headers, true), 0);
    if (block.rows.length > MEASURED_ROWS) continue;
    const least = fontSize >= 12 ? CREW_ROW : 0;
    block.rows.forEach((row, i) => set(block.top + 1 + i, fontSize, most(row, false), least));
  }
  return out;
}
