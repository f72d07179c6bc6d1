/** What every sheet of the crew has on paper: frames, boxes to tick, the head, the foot and the place for a signature. */
import type { Content, ContentSection, TableCell } from 'pdfmake/interfaces.js';
import { isoDate } from '../../engine/dates.js';
import type { CrewSpeech } from '../crew-speech.js';
import { UNREAD_SENTENCES } from '../crew-words.js';
import type { Context } from '../sheets/context.js';
import type { Pages } from './pdf.js';
import { short } from './text.js';

/** Longest texts on paper [characters]; the rest stands in the workbook. */
export const LONG = { place: 90, tree: 70, device: 50, note: 110, title: 80 } as const;
/** A stop with more lines than this may break over pages. */
export const TOGETHER = 8;
export const MARGIN = 36; // [pt]
export const RULE = 1.5; // [pt]
export const BOX = 16; // [pt]
/** Paddings and lines of a column [pt]. */
export const BESIDE = 8.5;

export const paperOf = (ctx: Context): Pages['paper'] =>
  ctx.paper ?? (ctx.units === 'US' ? 'letter' : 'a4');

/** Hours with a dash people read. */
export const dashed = (hours: string): string => hours.replaceAll('-', '–');

/** Lines all round a table, as strong as `width`. */
export const framed = (width: number, padding = 5) => ({
  hLineWidth: (i: number, node: { table: { body: unknown[] } }) =>
    i === 0 || i === node.table.body.length ? width : 0,
  vLineWidth: (i: number, node: { table: { widths?: unknown } }) =>
    i === 0 || (Array.isArray(node.table.widths) && i === node.table.widths.length) ? width : 0,
  paddingLeft: () => padding,
  paddingRight: () => padding,
  paddingTop: () => 2,
  paddingBottom: () => 2,
});

/** An empty square to tick. */
export const box = (): TableCell => ({
  canvas: [{ type: 'rect', x: 0, y: 1, w: BOX, h: BOX, lineWidth: RULE }],
});

/** What to heed before the work, in the strongest frame of the page. */
export const heeded = (said: readonly string[]): Content => ({
  table: {
    widths: ['*'],
    body: [[{ ul: [...said], bold: true, lineHeight: 1.05, markerColor: 'black' }]],
  },
  layout: framed(2),
  margin: [0, 6, 0, 6],
});

/** Who did it and when, at the end of a round. */
export const signed = ({ word }: CrewSpeech): Content => ({
  table: {
    widths: ['*', '*', '*', '*'],
    heights: 30,
    body: [[word('start'), word('end'), word('skipped'), word('name')]],
  },
  layout: { ...framed(2), vLineWidth: () => 1 },
  unbreakable: true,
  margin: [0, 4, 0, 0],
});

/** Whose sheet it is, and what a page carries on. */
export const head = (ctx: Context, say: CrewSpeech, right: string): Content => ({
  columns: [
    { text: `${say.word('title')} · ${short(ctx.plan.site.name, LONG.title)}` },
    { text: right, alignment: 'right', bold: true, width: 'auto' },
  ],
  margin: [MARGIN, 20, MARGIN, 0],
});

/** What the page is, its number, and on a translated one that nobody who speaks the language has read it. */
export function foot(
  ctx: Context,
  say: CrewSpeech,
  aid: 'aid' | 'aidShort',
  page: number,
  pages: number,
): Content {
  const { word } = say;
  const made = `${word('made')} ${isoDate(ctx.madeOn)}`;
  const unread = UNREAD_SENTENCES[say.language];
  return {
    stack: [
      {
        columns: [
          { text: unread ? word(aid) : `${word(aid)} · ${made}`, width: '*' },
          {
            text: `${word('page')} ${page} ${word('of')} ${pages}`,
            alignment: 'right',
            width: 'auto',
          },
        ],
      },
      ...(unread ? [`${unread[0]} · ${made}`, unread[1]] : []),
    ],
    margin: [MARGIN, 14, MARGIN, 0],
  };
}

/** Head, foot and margins of a sheet whose first page has the cautions. @param title - names the sheet on the pages that carry it on */
export function aroundSheet(
  ctx: Context,
  say: CrewSpeech,
  title: string,
): Omit<ContentSection, 'section'> {
  let first = Infinity;
  return {
    header: (page: number) => {
      first = Math.min(first, page);
      return head(ctx, say, page > first ? `${title}, ${say.word('continued')}` : '');
    },
    // the page with the cautions has among them that local code decides; one that carries the sheet on has not
    footer: (page: number, pages: number) =>
      foot(ctx, say, page > first ? 'aid' : 'aidShort', page, pages),
    pageMargins: [MARGIN, 40, MARGIN, UNREAD_SENTENCES[say.language] ? 74 : 42],
  };
}
