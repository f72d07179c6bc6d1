/** Laid-out sheets as the data of the desk's grid: plain objects, so that nothing of the grid is loaded here. */
import type { ICellData, IStyleData, IWorksheetData } from '@univerjs/presets';
import { FORMATS } from '../model.js';
import { FACE, INK } from './ink.js';
import type { Align, Dress, LaidCell, LaidSheet, Look, Upright } from './laid-out.js';
import { DIGIT_PIXELS } from './row-heights.js';

/** Numbers the grid uses for kinds of cells, sides, lines and switches. */
const TEXT = 1;
const NUMBER = 2;
const BOOLEAN = 3;
const SIDES: Record<Align, number> = { left: 1, center: 2, right: 3 };
const LINES: Record<NonNullable<Look['border']>, number> = { thin: 1, dotted: 3, medium: 8 };
const UPRIGHTS: Record<Upright, number> = { top: 1, middle: 2 };
const CLIP = 2;
const WRAP = 3;
const OVERFLOW = 1;
const YES = 1;
const NO = 0;

const PIXELS_PER_POINT = 96 / 72;
const COLUMN_PADDING = 5;
const INDENT_PIXELS = 9;
/** Height of a line of type over its size [-]. */
const LEADING = 1.45;
/** Room to go on typing below and beside what is written [rows, columns]. */
const SPARE = { rows: 50, columns: 6 };
const LEAST = { rows: 100, columns: 20 };

const rgb = (color: string): { rgb: string } => ({ rgb: `#${color}` });

function deskStyle({ look, format, align, indent, wrap }: Dress, upright: Upright): IStyleData {
  const line = look.border && { s: LINES[look.border], cl: rgb(INK.rule) };
  return {
    ff: FACE,
    fs: look.size,
    cl: rgb(look.color),
    bl: look.bold ? YES : NO,
    it: look.italic ? YES : NO,
    vt: UPRIGHTS[upright],
    // text in one column may run on over blank cells, as in the other programs
    tb: wrap ? WRAP : OVERFLOW,
    ...(align && { ht: SIDES[align] }),
    ...(indent > 0 && { pd: { l: indent * INDENT_PIXELS } }),
    ...(look.ground && { bg: rgb(look.ground) }),
    ...(line && {
      bd: look.frame ? { t: line, b: line } : { t: line, r: line, b: line, l: line },
    }),
    ...(format !== FORMATS.general && { n: { pattern: format } }),
  };
}

/** Styles are made once for each combination in use. */
function styleMaker(upright: Upright): (dress: Dress) => IStyleData {
  const made = new Map<Look, Map<string, IStyleData>>();
  return (dress) => {
    const ofLook = made.get(dress.look) ?? new Map<string, IStyleData>();
    made.set(dress.look, ofLook);
    const key = `${dress.format}|${dress.align}|${dress.indent}|${dress.wrap}`;
    const found = ofLook.get(key) ?? deskStyle(dress, upright);
    ofLook.set(key, found);
    return found;
  };
}

/** What a cell holds, in the grid's terms; nothing for a blank one. */
function held(cell: LaidCell, live: boolean): ICellData {
  const { value } = cell;
  const text = (live ? cell.live : undefined) ?? cell.formula;
  return {
    ...(text !== undefined && { f: `=${text}` }),
    ...(typeof value === 'string' && { v: value, t: TEXT }),
    ...(typeof value === 'number' && { v: value, t: NUMBER }),
    ...(typeof value === 'boolean' && { v: value ? 1 : 0, t: BOOLEAN }),
  };
}

/** A blank cell is written only where its ground or border shows. */
const shows = ({ value, formula, look }: LaidCell): boolean =>
  value !== null || formula !== undefined || look.ground !== undefined || look.border !== undefined;

type Cells = Record<number, Record<number, ICellData>>;

function cellData(sheet: LaidSheet, live: boolean): Cells {
  const style = styleMaker(sheet.upright);
  const cells: Cells = {};
  for (let row = 0; row < sheet.rows; row++) {
    const line: Record<number, ICellData> = {};
    for (let column = 0; column < sheet.columns; column++) {
      const cell = sheet.cells(row, column);
      if (cell && shows(cell)) line[column] = { ...held(cell, live), s: style(cell) };
    }
    cells[row] = line;
  }
  return cells;
}

/**
 * One sheet for the grid.
 *
 * @param sheet - as laid out
 * @param options - `id`: the grid's key of the sheet; `live`: our own functions where a cell has them
 */
export function deskSheetData(
  sheet: LaidSheet,
  { id, live }: { id: string; live: boolean },
): IWorksheetData {
  const { freeze } = sheet;
  const bodySize = sheet.bodySize;
  return {
    id,
    name: sheet.name,
    tabColor: '',
    hidden: NO,
    zoomRatio: 1,
    scrollTop: 0,
    scrollLeft: 0,
    mergeData: [],
    rightToLeft: NO,
    rowHeader: { width: 46 },
    columnHeader: { height: 20 },
    defaultColumnWidth: 80,
    cellData: cellData(sheet, live),
    rowCount: Math.max(sheet.rows + SPARE.rows, LEAST.rows),
    columnCount: Math.max(sheet.columns + SPARE.columns, LEAST.columns),
    defaultRowHeight: Math.ceil(bodySize * LEADING * PIXELS_PER_POINT) + 2,
    defaultStyle: {
      ff: FACE,
      fs: bodySize,
      cl: rgb(INK.bark),
      vt: UPRIGHTS[sheet.upright],
      tb: CLIP,
    },
    columnData: Object.fromEntries(
      sheet.widths.map((width, i) => [
        i,
        {
          w: Math.round(width * DIGIT_PIXELS) + COLUMN_PADDING,
          ...(sheet.hidden[i] && { hd: YES }),
        },
      ]),
    ),
    rowData: Object.fromEntries(
      [...sheet.heights].map(([row, points]) => [
        row,
        { h: Math.ceil(points * PIXELS_PER_POINT), ia: NO },
      ]),
    ),
    freeze: {
      startRow: freeze.rows > 0 ? freeze.rows : -1,
      startColumn: freeze.columns > 0 ? freeze.columns : -1,
      ySplit: freeze.rows,
      xSplit: freeze.columns,
    },
    showGridlines: NO,
  };
}
