/** What the cells of a sheet look like, through the spreadsheet program: one operation for many cells. */
import { addressOf, batches, gather, stretches, type Rectangle } from './excel-runs.js';
import { formatBefore } from './excel-text.js';
import { FACE, INK } from './ink.js';
import type { LaidCell, LaidSheet } from './laid-out.js';
import { DIGIT_PIXELS } from './row-heights.js';
import { letter } from '../model.js';

/** Pixels beside the digits of a column, and points in a pixel. */
const COLUMN_PADDING = 5;
const POINTS_PER_PIXEL = 72 / 96;

/** Stretches of one format above which a whole table of formats is handed over instead. */
const MOST_FORMAT_RUNS = 300;

const UPRIGHTS = { top: 'Top', middle: 'Center' } as const;

/** Colour of type, size and so on of the whole sheet; single looks come on top. */
export function setBody(
  sheet: Excel.Worksheet,
  { bodySize, upright }: Pick<LaidSheet, 'bodySize' | 'upright'>,
): void {
  const { format } = sheet.getRange();
  format.font.name = FACE;
  format.font.size = bodySize;
  format.font.color = `#${INK.bark}`;
  format.verticalAlignment = UPRIGHTS[upright];
  sheet.showGridlines = false;
}

/**
 * Number formats, before the values: only under '@' does text that looks like a formula stay text.
 *
 * @returns true when there are so many that each piece of values needs its own table of formats
 */
export function setFormats(sheet: Excel.Worksheet, laid: LaidSheet): boolean {
  const runs = gather(laid.rows, laid.columns, (row, column) => {
    const cell = laid.cells(row, column);
    const format = cell ? formatBefore(cell) : 'General';
    return format === 'General' ? '' : format;
  });
  const count = [...runs.values()].reduce((n, areas) => n + areas.length, 0);
  if (count > MOST_FORMAT_RUNS) return true;
  for (const [format, areas] of runs)
    for (const area of areas)
      // one text for every cell of the range, which the types do not know
      sheet.getRange(addressOf(area)).numberFormat = format as unknown as string[][];
  return false;
}

/** Number formats of some rows as a table. */
export function formatTable(laid: LaidSheet, from: number, to: number): string[][] {
  return Array.from({ length: to - from }, (_, r) =>
    Array.from({ length: laid.columns }, (__, c) => {
      const cell = laid.cells(from + r, c);
      return cell ? formatBefore(cell) : 'General';
    }),
  );
}

type Side = 'EdgeTop' | 'EdgeBottom' | 'EdgeLeft' | 'EdgeRight' | 'InsideHorizontal' | 'InsideVertical'; // prettier-ignore
const EDGES: readonly Side[] = ['EdgeTop', 'EdgeBottom', 'EdgeLeft', 'EdgeRight'];
const LEVEL: readonly Side[] = ['EdgeTop', 'EdgeBottom'];

/** Lines round every cell of the areas; a frame has them above and below only. */
function setBorder(format: Excel.RangeFormat, { look }: LaidCell, areas: Rectangle[]): void {
  if (look.border === undefined) return;
  const tall = areas.some((a) => a.bottom > a.top);
  const wide = areas.some((a) => a.right > a.left);
  const sides = [
    ...(look.frame ? LEVEL : EDGES),
    ...(tall ? (['InsideHorizontal'] as const) : []),
    ...(wide && !look.frame ? (['InsideVertical'] as const) : []),
  ];
  for (const side of sides) {
    const border = format.borders.getItem(side);
    border.style = look.border === 'dotted' ? 'Dot' : 'Continuous';
    border.weight = look.border === 'medium' ? 'Medium' : 'Thin';
    border.color = `#${INK.rule}`;
  }
}

const ALIGNMENTS = { left: 'Left', center: 'Center', right: 'Right' } as const;

/** Everything of a cell's dress but its number format; what the whole sheet has already is not said again. */
function setDress(format: Excel.RangeFormat, cell: LaidCell, bodySize: number): void {
  const { look, align, indent, wrap } = cell;
  const { font } = format;
  // links bring a colour and a line of their own
  if (look.color !== INK.bark || cell.jump !== undefined) font.color = `#${look.color}`;
  if (look.bold) font.bold = true;
  if (look.italic) font.italic = true;
  if (look.size !== bodySize) font.size = look.size;
  if (look.ground !== undefined) format.fill.color = `#${look.ground}`;
  if (align) format.horizontalAlignment = ALIGNMENTS[align];
  if (indent > 0) format.indentLevel = indent;
  if (wrap) format.wrapText = true;
  if (cell.jump !== undefined) font.underline = 'None';
}

/** Areas by dress, each with a cell that wears it. */
export function setLooks(sheet: Excel.Worksheet, laid: LaidSheet, bodySize: number): void {
  const samples = new Map<string, LaidCell>();
  const looks = new Map<LaidCell['look'], number>();
  const keyAt = (row: number, column: number): string => {
    const cell = laid.cells(row, column);
    if (cell === undefined) return '';
    let look = looks.get(cell.look);
    if (look === undefined) looks.set(cell.look, (look = looks.size));
    const key = `${look}|${cell.align ?? ''}|${cell.indent}|${cell.wrap}|${cell.jump !== undefined}`;
    if (!samples.has(key)) samples.set(key, cell);
    return key;
  };
  for (const [key, areas] of gather(laid.rows, laid.columns, keyAt)) {
    const cell = samples.get(key)!;
    for (const addresses of batches(areas.map(addressOf))) {
      const { format } = sheet.getRanges(addresses);
      setDress(format, cell, bodySize);
      setBorder(format, cell, areas);
    }
  }
}

/** Widths of columns from characters, hidden columns, heights of rows. */
export function setSizes(sheet: Excel.Worksheet, laid: LaidSheet): void {
  for (const [from, to, width] of stretches(laid.widths))
    sheet.getRange(`${letter(from)}:${letter(to)}`).format.columnWidth =
      (width * DIGIT_PIXELS + COLUMN_PADDING) * POINTS_PER_PIXEL;
  for (const [from, to, hidden] of stretches(laid.hidden))
    if (hidden) sheet.getRange(`${letter(from)}:${letter(to)}`).columnHidden = true;
  const byHeight = new Map<number, string[]>();
  const heights = Array.from({ length: laid.rows }, (_, row) => laid.heights.get(row));
  for (const [from, to, height] of stretches(heights))
    if (height !== undefined)
      byHeight.set(height, [...(byHeight.get(height) ?? []), `${from + 1}:${to + 1}`]);
  for (const [height, rows] of byHeight)
    for (const addresses of batches(rows)) sheet.getRanges(addresses).format.rowHeight = height;
}
