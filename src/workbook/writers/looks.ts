/** What a style looks like: decided here for the file, the desk and the spreadsheet program alike. */
import { FORMATS, type Column, type Format, type Style } from '../model.js';
import { INK } from './ink.js';

/** Colours as six hexadecimal digits without a sign before them. */
export interface Look {
  color: string;
  ground?: string;
  bold: boolean;
  italic: boolean;
  /** size of the type [pt] */
  size: number;
  border?: 'thin' | 'medium' | 'dotted';
  /** the border is drawn above and below only */
  frame: boolean;
}

export type Align = 'left' | 'center' | 'right';
/** Where text stands in the height of its row. */
export type Upright = 'top' | 'middle';

/**
 * Text keeps as far from the line above as from the one below: at the top it would touch that line, and the ground and
 * border of the header would cut the first row of a table.
 */
export const UPRIGHT: Upright = 'middle';

/** All that a cell looks like, apart from what it holds. */
export interface Dress {
  look: Look;
  /** number format code; General where there is none */
  format: string;
  align?: Align;
  /** steps of indent from the left edge */
  indent: number;
  wrap: boolean;
}

type StyleLook = Partial<Omit<Look, 'size' | 'frame'>> & {
  color: string;
  /** added to the sheet's body size [pt] */
  bigger?: number;
};

/** Each style differs in more than colour: weight, slant or border as well. */
const LOOKS: Record<Style, StyleLook> = {
  text: { color: INK.bark },
  input: { color: INK.ochre, ground: INK.straw, border: 'dotted' },
  calculation: { color: INK.loam, italic: true },
  result: { color: INK.water, bold: true },
  header: { color: INK.paper, ground: INK.water, bold: true, border: 'thin' },
  title: { color: INK.water, bold: true, bigger: 6 },
  heading: { color: INK.bark, ground: INK.sand, bold: true, bigger: 1 },
  note: { color: INK.loam },
  caution: { color: INK.clay, bold: true },
  look: { color: INK.clay, bold: true, ground: INK.paper, border: 'thin' },
  fine: { color: INK.leaf },
  field: { color: INK.bark, border: 'medium' },
  frame: { color: INK.bark, bold: true, border: 'medium' },
};

/** Styles whose text is not held in by the width of its column. */
const SPANNING: ReadonlySet<Style> = new Set(['title', 'heading', 'caution', 'frame']);
export const spans = (style: Style): boolean => SPANNING.has(style);

/** How much bigger than the body the type of a style is [pt]. */
export const bigger = (style: Style): number => LOOKS[style].bigger ?? 0;

/** The look of a style on a sheet whose body type has that size [pt]. */
export function lookOf(style: Style, bodySize: number): Look {
  const { bigger: more = 0, color, ground, bold = false, italic = false, border } = LOOKS[style];
  return {
    color,
    ...(ground !== undefined && { ground }),
    bold,
    italic,
    size: bodySize + more,
    ...(border !== undefined && { border }),
    frame: style === 'frame',
  };
}

/** What is known of a cell before it is dressed; a cell of a table has its column's settings, one of free text none. */
export type Base = Partial<Pick<Column, 'style' | 'format' | 'align' | 'wrap'>>;

/**
 * Dresses the cells of one sheet. Each combination in use is made once, so that the same dress is the same object and
 * writers can keep what they make of it.
 */
export function dressmaker(bodySize: number) {
  const made = new Map<string, Dress>();
  return (style: Style, format: Format, align?: Align, wrap = false): Dress => {
    const key = `${style}|${format}|${align ?? ''}|${wrap}`;
    let found = made.get(key);
    if (!found) {
      found = {
        look: lookOf(style, bodySize),
        format: FORMATS[format],
        ...(align && { align }),
        indent: align === 'left' && !spans(style) ? 1 : 0,
        wrap,
      };
      made.set(key, found);
    }
    return found;
  };
}
