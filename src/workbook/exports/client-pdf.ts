/** The client's copy as pages: the season, the price, what it stands on, what we ask of you. */
import type { Content, TableCell } from 'pdfmake/interfaces.js';
import { isoDate } from '../../engine/dates.js';
import { asked, caution, comparisonWords, terms } from '../estimate-words.js';
import { FORMATS, rich, tablesOf, type Column, type ModelCell, type TableBlock } from '../model.js';
import type { Context } from '../sheets/context.js';
import { cautionsOf } from '../words.js';
import {
  clientEstimate,
  clientEstimateSheet,
  clientOpening,
  nameOf,
  plainReason,
  rowName,
} from './client-copy.js';
import { atAGlance, months, shortOfWater, visits, type Month } from './client-words.js';
import { seasonDrawing, seasonSentence } from './season-chart.js';
import { seasonSeries } from '../series.js';
import { fixedWidths, PAPER_WIDTH, type Pages } from './pdf.js';
import { short } from './text.js'; // prettier-ignore

const MARGIN = 48; // [pt]
const INK = '#3b2f2a';
const RULE = '#6b4f3a';
/** Paddings of a column [pt]. */
const BESIDE = 10;
/** The chart of the season [pt]. */
const CHART_HEIGHT = 170;
/** Longest text of a cell on paper [characters]. */
const LONG = 240;

const heading = (text: string): Content => ({
  text, bold: true, fontSize: 13, margin: [0, 11, 0, 3], headlineLevel: 1,
}); // prettier-ignore

/** A model cell as it reads, with the decimals of its format. */
function shown(value: ModelCell, column: Column): string {
  const { value: held, format = column.format } = rich(value);
  if (typeof held !== 'number') return held === null ? '' : short(String(held), LONG);
  if (format === 'date') return isoDate(held);
  const digits = { whole: 0, plain: 0, one: 1, two: 2, three: 3 }[format as string] ?? 2;
  const least = format === 'two' ? 2 : 0;
  return held.toLocaleString('en-US', {
    maximumFractionDigits: digits,
    minimumFractionDigits: least,
    useGrouping: FORMATS[format].includes(','),
  });
}

const LINES = {
  hLineWidth: (i: number, node: { table: { body: unknown[] } }) =>
    i === 0 ? 0 : i === 1 || i === node.table.body.length ? 1.2 : 0.4,
  vLineWidth: () => 0,
  hLineColor: () => RULE,
  paddingLeft: (i: number) => (i === 0 ? 0 : 6),
  paddingRight: () => 4,
  paddingTop: () => 2.5,
  paddingBottom: () => 2,
};

type Align = 'left' | 'right';

function grid(
  heads: readonly (readonly [text: string, align?: Align])[],
  rows: readonly (readonly string[])[],
  widths: readonly (number | '*')[],
  room: number,
  total?: readonly string[],
): Content {
  const line = (cells: readonly string[], bold: boolean): TableCell[] =>
    cells.map((text, i) => ({ text, bold, alignment: heads[i]![1] ?? 'left' }));
  return {
    table: {
      headerRows: 1,
      dontBreakRows: true,
      keepWithHeaderRows: 1,
      widths: fixedWidths(widths, room, BESIDE),
      body: [
        line(heads.map(([text]) => text), true),
        ...rows.map((cells) => line(cells, false)),
        ...(total ? [line(total, true)] : []),
      ],
    },
    layout: LINES,
  };
} // prettier-ignore

/** A table of the workbook; numbers to the right as there. */
function fromTable(block: TableBlock, widths: readonly (number | '*')[], room: number, total?: string[]): Content {
  const heads = block.columns.map((c) => [c.header, c.align === 'right' ? 'right' : 'left'] as const);
  const rows = block.rows.map((row) => block.columns.map((c, i) => shown(row[i] ?? null, c)));
  return grid(heads, rows, widths, room, total);
} // prettier-ignore

/** Water by month as bars with their numbers, readable without colour. */
function bars(ctx: Context, all: readonly Month[], room: number): Content {
  const most = Math.max(...all.map((m) => m.litres), 1);
  const longest = room - 76 - 190;
  const row = (m: Month): TableCell[] => [
    { text: m.name },
    {
      canvas: [{ type: 'rect', x: 0, y: 3, w: Math.max(0.5, (longest * m.litres) / most), h: 9, color: INK }],
    },
    {
      text: `${Math.round(ctx.show('volume', m.litres)).toLocaleString('en-US')} ${ctx.unit('volume')} · ${m.crewDays} crew days`,
      alignment: 'right',
    },
  ];
  return {
    table: { widths: [76, longest, '*'], body: all.map(row), dontBreakRows: true },
    layout: 'noBorders',
  };
} // prettier-ignore

/** The season by weeks: what the trees need against rain and watering. */
function season(ctx: Context, room: number): Content[] {
  const series = seasonSeries(ctx);
  return [
    {
      stack: [
        heading('The season by weeks'),
        { svg: seasonDrawing(series, room, CHART_HEIGHT), font: 'Sans' } as Content,
        { text: seasonSentence(series), margin: [0, 4, 0, 0] },
      ],
      unbreakable: true,
    },
  ];
}

const list = (texts: readonly string[]): Content => ({
  ul: texts.map((text) => ({ text, margin: [0, 0, 0, 3] })),
});

function toDo(ctx: Context, room: number): Content[] {
  const { plan } = ctx;
  const dry = shortOfWater(plan);
  const places = visits(plan).map((v) => [
    short([v.site, v.address].filter(Boolean).join(', '), 90),
    short(v.waters, 40),
    String(v.days),
    `${isoDate(v.first)} to ${isoDate(v.last)}`,
    v.hours.replaceAll('-', '–'),
  ]);
  return [
    { ...(heading('What we ask of you') as object), pageBreak: 'before', fontSize: 18 } as Content,
    list(asked(ctx)),
    { text: caution(ctx), bold: true, margin: [0, 4, 0, 0] },
    ...(places.length > 0
      ? [
          heading('Where the crew comes and what water it uses'),
          grid(
            [['Site'], ['Water from'], ['Days', 'right'], ['First and last day'], ['Hours allowed']],
            places,
            ['*', 62, 28, 128, 128],
            room,
          ),
        ]
      : []),
    ...(dry.length > 0
      ? [
          heading('Short of water on some days even with this plan'),
          grid([['Tree'], ['What would help']], dry.map((t) => [short(nameOf(t.tree), 80), short(t.advice, LONG)]), [150, '*'], room),
        ]
      : []),
    ...(plan.notPlanned.length > 0
      ? [
          heading('Not planned and not in the price'),
          grid([['Row of the inventory'], ['Why']], plan.notPlanned.map((r) => [short(rowName(r), 60), short(plainReason(r.reason), LONG)]), [150, '*'], room),
        ]
      : []),
    heading('What can hurt'),
    list(cautionsOf(ctx.plan)),
  ];
} // prettier-ignore

const clientTable = (ctx: Context, name: string): TableBlock =>
  tablesOf(clientEstimateSheet(ctx)).find((table) => table.name === name)!;

/** The plan's water against published rules. */
function water(ctx: Context, room: number): Content[] {
  const [own] = clientEstimate(ctx).againstRules;
  const rules = clientTable(ctx, 'AgainstRules');
  return [
    { ...(heading('Water against published rules') as object), pageBreak: 'before' } as Content,
    ...(own ? [{ text: comparisonWords(ctx, own), margin: [0, 0, 0, 6] } as Content] : []),
    ...(rules.rows.length > 0
      ? [
          { text: 'Published rules conflict, so all stand here; each is counted on the trees and days it speaks of, at its least.', margin: [0, 0, 0, 4] } as Content,
          { ...(fromTable(rules, ['*', 50, 56, 74, 62], room) as object), fontSize: 9 } as Content,
        ]
      : []),
  ];
} // prettier-ignore

function price(ctx: Context, room: number): Content[] {
  const est = clientEstimate(ctx);
  const lines = clientTable(ctx, 'Estimate');
  const money = est.price.toLocaleString('en-US', { minimumFractionDigits: 2, maximumFractionDigits: 2 });
  const said = terms(ctx).map((text) => short(text, 2 * LONG));
  const accepted: Content = {
    margin: [0, 8, 0, 0],
    table: { widths: ['*', '*', '*'], heights: 28, body: [['Accepted: name', 'Date', 'Signature']] },
  };
  return [
    { ...(heading('Price') as object), fontSize: 18 } as Content,
    fromTable(lines, ['*', 60, 70, 90], room, ['Total', '', '', money]),
    heading('What this price stands on'),
    list(said.slice(0, -1)),
    // never a page with the signature alone
    { stack: [list(said.slice(-1)), accepted], unbreakable: true },
  ];
} // prettier-ignore

/** Pages of the client's copy. */
export function clientPages(ctx: Context): Pages {
  const paper = ctx.paper ?? (ctx.units === 'US' ? 'letter' : 'a4');
  const room = PAPER_WIDTH[paper] - 2 * MARGIN;
  const facts = atAGlance(ctx).map(([what, value, note]) => [
    what,
    typeof value === 'number' ? value.toLocaleString('en-US') : value,
    note.replace('named on To do', 'named below'),
  ]);
  return {
    paper,
    title: short(ctx.title, 120),
    madeOn: ctx.madeOn,
    pageMargins: [MARGIN, 46, MARGIN, 44],
    defaultStyle: { fontSize: 10, color: INK, lineHeight: 1.1 },
    content: [
      { text: short(ctx.title, 120), bold: true, fontSize: 20, margin: [0, 0, 0, 6] },
      { text: clientOpening(ctx), fontSize: 11 },
      heading('The season at a glance'),
      grid([['What'], ['Number', 'right'], ['Meaning']], facts, [190, 150, '*'], room),
      ...season(ctx, room),
      heading('Water month by month'),
      bars(ctx, months(ctx.plan), room),
      ...water(ctx, room),
      ...price(ctx, room),
      ...toDo(ctx, room),
    ],
    header: {
      text: short(ctx.title, 90),
      margin: [MARGIN, 22, MARGIN, 0],
    },
    footer: (page: number, pages: number) => ({
      columns: [
        { text: 'A planning aid: local code and licensed practice decide' },
        { text: `Page ${page} of ${pages}`, alignment: 'right', width: 'auto' },
      ],
      margin: [MARGIN, 16, MARGIN, 0],
    }),
  };
}
