/** A printed page of a sheet: paper, margins, titles on every page, header and footer. */
import type { Sheet, WorkbookModel } from '../model.js';
import { FACE } from './ink.js';

export interface Page {
  paper: WorkbookModel['paper'];
  orientation: 'portrait' | 'landscape';
  /** [in] */
  margins: {
    top: number;
    bottom: number;
    left: number;
    right: number;
    header: number;
    footer: number;
  };
  /** pages side by side; 0: natural size, manual breaks rule */
  pagesWide: number;
  /** 1-based rows repeated on every page, first to last */
  titleRows?: [number, number];
  /** letters of columns repeated on every page, first to last */
  titleColumns?: [string, string];
  /** in the codes of spreadsheet programs: `&P` is the page, `&N` how many there are */
  header: { left: string; right: string };
  footer: { left: string; right: string };
}

const MARGINS = { top: 0.7, bottom: 0.7, left: 0.5, right: 0.5, header: 0.3, footer: 0.3 };
const TYPE = `&"${FACE}"&9`;
/** Longest texts of a header and of a footer [characters]. */
const LONGEST_HEADER = 90;
const LONGEST_FOOTER = 150;

/** In headers an ampersand starts a code, and a digit after a size would join it. */
const safe = (text: string, most: number): string => ` ${text.replace(/&/g, '&&').slice(0, most)}`;

/** The page of a sheet; `sheet.print` rules paper ways, the model what paper there is. */
export function pageSet(
  sheet: Pick<Sheet, 'title' | 'pageWords' | 'print'>,
  model: Pick<WorkbookModel, 'title' | 'paper'>,
): Page {
  const words = sheet.pageWords ?? {
    header: model.title,
    footer: 'A planning aid: local code and licensed practice decide',
    page: 'Page',
    of: 'of',
  };
  const { orientation, pagesWide, titleRows, titleColumns } = sheet.print;
  return {
    paper: model.paper,
    orientation,
    margins: MARGINS,
    pagesWide,
    ...(titleRows && { titleRows }),
    ...(titleColumns && { titleColumns }),
    header: {
      left: `${TYPE}${safe(words.header, LONGEST_HEADER)}`,
      right: `${TYPE}${safe(sheet.title, LONGEST_HEADER)}`,
    },
    footer: {
      left: `${TYPE}${safe(words.footer, LONGEST_FOOTER)}`,
      right: `${TYPE} ${words.page} &P ${words.of} &N`,
    },
  };
}
