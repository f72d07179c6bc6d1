/** Cells of the grid that no model wrote, dressed as the file writer wants them. */
import type { IStyleData, Nullable } from '@univerjs/presets';
import { FORMATS } from '../workbook/model.js';
import { INK } from '../workbook/writers/ink.js';
import type { Align, Dress, Look } from '../workbook/writers/laid-out.js';

const SIDES: Record<number, Align> = { 1: 'left', 2: 'center', 3: 'right' };
const MEDIUM_LINE = 8;
const DOTTED_LINE = 3;
const WRAP = 3;
const YES = 1;
/** The grid's own size of type [pt]. */
export const GRID_TYPE = 11;

/** Colour as six digits; the grid also writes `rgb(1,2,3)`. */
function digits(color: Nullable<string>): string | undefined {
  const hex = /^#?([0-9a-f]{6})$/i.exec(color ?? '')?.[1];
  if (hex !== undefined) return hex.toUpperCase();
  const parts = /^rgba?\((\d+),\s*(\d+),\s*(\d+)/.exec(color ?? '')?.slice(1, 4);
  return parts?.map((part) => Number(part).toString(16).padStart(2, '0').toUpperCase()).join('');
}

function border(style: IStyleData): Pick<Look, 'border' | 'frame'> {
  const { t, l, b, r } = style.bd ?? {};
  const side = t ?? b ?? l ?? r;
  if (!side) return { frame: false };
  const line = Number(side.s);
  const kind = line === MEDIUM_LINE ? 'medium' : line === DOTTED_LINE ? 'dotted' : 'thin';
  return { border: kind, frame: !l && !r };
}

/** The dress of a cell by its style in the grid; nothing where it has none. */
export function dressOf(given: Nullable<IStyleData>): Dress {
  const style = given ?? {};
  const ground = digits(style.bg?.rgb);
  const align = SIDES[style.ht ?? 0];
  return {
    look: {
      color: digits(style.cl?.rgb) ?? INK.bark,
      ...(ground !== undefined && { ground }),
      bold: style.bl === YES,
      italic: style.it === YES,
      size: style.fs ?? GRID_TYPE,
      ...border(style),
    },
    format: style.n?.pattern ?? FORMATS.general,
    ...(align && { align }),
    indent: (style.pd?.l ?? 0) > 2 && align === 'left' ? 1 : 0,
    wrap: style.tb === WRAP,
  };
}

/** Looks of one sheet: equal styles give the same object, so that the file writer makes each once. */
export function dresser(): (style: Nullable<IStyleData>) => Dress {
  const made = new Map<string, Dress>();
  return (style) => {
    const key = JSON.stringify(style ?? null);
    const found = made.get(key) ?? dressOf(style);
    made.set(key, found);
    return found;
  };
}
