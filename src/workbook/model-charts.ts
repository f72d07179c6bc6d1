/** Charts of the spreadsheet's own, and pictures, as data. */

/** Lines and bars of a chart: told apart without colour, too. */
export type ChartLook = 'line' | 'dashed' | 'dotted' | 'thick';

export interface ChartSeries {
  name: string;
  /** absolute ranges with their sheet */
  values: string;
  categories: string;
  look: ChartLook;
}

/** A chart of the spreadsheet's own, over cells it does not hide. */
export interface Chart {
  kind: 'line' | 'column';
  title: string;
  /** names of the axes, with units */
  x: string;
  y: string;
  /** categories are days */
  dates: boolean;
  series: ChartSeries[];
  /** cell of its upper left corner and the first beyond its lower right: 1-based row, 0-based column */
  from: { row: number; column: number };
  to: { row: number; column: number };
  /** for people who do not see it: what is shown, with the main numbers */
  alt: string;
}

/** A chart without its place on a sheet. */
export type ChartWords = Omit<Chart, 'from' | 'to'>;

/** A drawing laid over cells. Writers turn it into an image at twice its size. */
export interface Picture {
  /** unique within the workbook; also the image's name */
  name: string;
  /** a whole SVG document, with width and height; no script, no reference to anything outside it */
  svg: string;
  /** size on the sheet [px at 96 dpi] */
  width: number;
  height: number;
  /** cell of its upper left corner: 1-based row, 0-based column */
  at: { row: number; column: number };
  /** for people who do not see it: what is shown, with the main numbers */
  alt: string;
}

/** Turns an SVG document into a PNG image of that many pixels across. Handed in: browsers and Node have their own way. */
export type Rasterise = (svg: string, pixelsWide: number) => Promise<Uint8Array>;
