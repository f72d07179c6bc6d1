/**
 * Pages described as data to the bytes of a PDF file. The only module that knows the PDF library, which is
 * loaded when the first file is made; fonts come from the caller, so nothing is fetched and no file is read.
 */
import type { TDocumentDefinitions } from 'pdfmake/interfaces.js';
import type { Day } from '../../engine/dates.js';
import { civil } from '../../engine/dates.js';
import { unpartedIn } from './unparted.js';

/** TrueType files as bytes. */
export interface Fonts {
  regular: Uint8Array;
  bold: Uint8Array;
}

/** Where the fonts of the files stand in the package `dejavu-fonts-ttf`. */
export const FONT_FILES: Readonly<Record<keyof Fonts, string>> = {
  regular: 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf',
  bold: 'dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf',
};

export interface Pages extends Omit<TDocumentDefinitions, 'info' | 'pageSize'> {
  paper: 'letter' | 'a4';
  title: string;
  /** the day of making, the date inside the file: no clock is read */
  madeOn: Day;
}

/** Width of the paper [pt]. */
export const PAPER_WIDTH = { letter: 612, a4: 595.28 } as const;

/**
 * Widths of a table's columns with every `*` made a number: a star would grow with a long word, and push the
 * columns after it off the page.
 * @param room - from margin to margin [pt]
 * @param beside - paddings and lines of one column [pt]
 */
export function fixedWidths(
  widths: readonly (number | '*')[],
  room: number,
  beside: number,
): number[] {
  const taken = widths.reduce<number>((sum, w) => sum + (w === '*' ? 0 : w), 0);
  const stars = widths.filter((w) => w === '*').length;
  return widths.map((w) => (w === '*' ? (room - taken - widths.length * beside) / stars : w));
}

/** What the library offers besides its published types. */
interface Library {
  virtualfs: { writeFileSync(name: string, bytes: Uint8Array): void };
  setFonts(fonts: Record<string, Record<string, string>>): void;
  setUrlAccessPolicy?(allowed: () => boolean): void;
  setLocalAccessPolicy?(allowed: () => boolean): void;
  createPdf(definition: TDocumentDefinitions): { getBuffer(): Promise<Uint8Array> };
}

async function library(fonts: Fonts): Promise<Library> {
  const module = (await import('pdfmake')) as unknown as { default: Library };
  const made = module.default;
  // the library keeps files by name, and counts an address or a local path as one it may open
  made.setUrlAccessPolicy?.(() => false);
  made.setLocalAccessPolicy?.(() => false);
  // kept under the names inside the files: words in a drawing are looked up among the fonts already loaded, by that name
  const normal = 'DejaVuSansCondensed';
  const bold = 'DejaVuSansCondensed-Bold';
  made.virtualfs.writeFileSync(normal, fonts.regular);
  made.virtualfs.writeFileSync(bold, fonts.bold);
  made.setFonts({ Sans: { normal, bold, italics: normal, bolditalics: bold } });
  return made;
}

/** The file's bytes; the same pages give the same bytes. */
export async function makePdf(pages: Pages, fonts: Fonts): Promise<Uint8Array> {
  const { paper, title, madeOn, ...definition } = pages;
  const { year, month, date } = civil(madeOn);
  const made = new Date(Date.UTC(year, month - 1, date));
  const pdf = (await library(fonts)).createPdf({
    ...definition,
    content: unpartedIn(definition.content),
    pageSize: paper === 'letter' ? 'LETTER' : 'A4',
    defaultStyle: { font: 'Sans', fontSize: 12, ...definition.defaultStyle },
    info: { title, creator: 'soakbook', producer: 'soakbook', creationDate: made, modDate: made },
  });
  return pdf.getBuffer();
}
