/**
 * Crew sheets as pages: a page for each crew and day where it fits, for sunlight and wet hands. Black on
 * white, 12 pt and more, strong rules, cautions first, stops in driving order, a box and room for a reading
 * at every line.
 */
import type { Content, ContentSection, TableCell } from 'pdfmake/interfaces.js';
import { isoDate, type Day } from '../../engine/dates.js';
import type { CrewStop, CrewTask, Family } from '../../engine/plan/model.js';
import { Problem } from '../../engine/problems.js';
import type { Context } from '../sheets/context.js';
import { spell } from '../sheets/crew.js';
import { CAUTIONS } from '../words.js';
import { fixedWidths, PAPER_WIDTH, type Pages } from './pdf.js';
import {
  crewRounds,
  longDay,
  placeOf,
  spokenHours,
  treesAt,
  windowsOf,
  type Round,
} from './rounds.js';
import { short } from './text.js'; // prettier-ignore

export interface CrewPdfOptions {
  /** first and last day to print; default all */
  days?: [Day, Day];
}

/** Lines of one file: above, a program that opens it takes minutes, and nobody prints it at once. */
export const MOST_LINES = 20_000;
/** Longest texts on paper [characters]; the rest stands in the workbook. */
const LONG = { place: 90, tree: 70, device: 50, note: 110, title: 80 } as const;
/** A stop with more lines than this may break over pages. */
const TOGETHER = 8;

const MARGIN = 36; // [pt]
const RULE = 1.5; // [pt]
const BOX = 16; // [pt]
const WIDTHS = [BOX + 2, '*', 156, 92, 80] as const;
/** Paddings and lines of a column [pt]. */
const BESIDE = 8.5;

const paperOf = (ctx: Context): Pages['paper'] =>
  ctx.paper ?? (ctx.units === 'US' ? 'letter' : 'a4');

const TO_DO: Readonly<Record<Family, string>> = {
  bag: 'Check bag and stem, fill',
  pad: 'Lift pad, soak it, lay it back',
  soaker: 'Open the soaker hose',
  hand: 'Water slowly by hand',
  tanker: 'Water slowly from the truck',
};

/** What to do on the spot, said once a page for the families that are on it. */
const ON_THE_SPOT: Readonly<Partial<Record<Family, string>>> = {
  bag: 'Bag still holds water: do not fill it, write FULL in Reading and tell the office.',
  soaker: 'Hose does not weep along its length: shut it, write BLOCKED in Reading.',
};

const plural = (n: number, word: string): string =>
  `${n.toLocaleString('en-US')} ${word}${n === 1 ? '' : 's'}`;

/** Whole above 10, one decimal below. */
function amount(ctx: Context, litres: number): string {
  const value = ctx.show('volume', litres);
  const digits = value >= 10 ? 0 : 1;
  return `${value.toLocaleString('en-US', { maximumFractionDigits: digits, minimumFractionDigits: digits })} ${ctx.unit('volume')}`;
}

/** Lines all round a table, as strong as `width`. */
const framed = (width: number, padding = 5) => ({
  hLineWidth: (i: number, node: { table: { body: unknown[] } }) =>
    i === 0 || i === node.table.body.length ? width : 0,
  vLineWidth: (i: number, node: { table: { widths?: unknown } }) =>
    i === 0 || (Array.isArray(node.table.widths) && i === node.table.widths.length) ? width : 0,
  paddingLeft: () => padding,
  paddingRight: () => padding,
  paddingTop: () => 2,
  paddingBottom: () => 2,
});

function cautions(round: Round): Content {
  const families = new Set(round.stops.flatMap((s) => s.tasks.map((t) => t.watering.family)));
  const spots = [...families].flatMap((family) => ON_THE_SPOT[family] ?? []);
  const said = [...CAUTIONS.map((c) => c.short), ...spots];
  return {
    table: {
      widths: ['*'],
      body: [[{ ul: said, bold: true, lineHeight: 1.05, markerColor: 'black' }]],
    },
    layout: framed(2),
    margin: [0, 6, 0, 6],
  };
}

/** The day's water and hours, four facts in a frame. */
function facts(ctx: Context, round: Round): Content {
  const { common, open } = round;
  const hours = common.length > 0 ? spokenHours(common) : `${spokenHours(open)}, see stops`;
  const fact = (label: string, value: string): TableCell => ({
    stack: [{ text: label }, { text: value, bold: true, fontSize: 14 }],
  });
  const warnings = [
    ...(round.overload ? ['▲ More hours than the crew has: tell the office before you start.'] : []),
    ...(common.length === 0 ? ['▲ No hour is open to all stops: each stop names its own.'] : []),
  ];
  return {
    stack: [
      {
        table: {
          widths: ['*', '*', '*', '*'],
          body: [
            [
              fact('Water from', short(round.waters.join(', '), LONG.title)),
              fact('Hours allowed', hours.replaceAll('-', '–')),
              fact(plural(round.stops.length, 'stop'), spell(round.hours)),
              fact('In all', `${amount(ctx, round.litres)}${round.tankLoads > 0 ? `, ${plural(round.tankLoads, 'tank load')}` : ''}`),
            ],
          ],
        },
        layout: { ...framed(2), vLineWidth: () => RULE },
      },
      ...warnings.map((text): Content => ({ text, bold: true, margin: [0, 4, 0, 0] })),
    ],
    margin: [0, 0, 0, 8],
  };
} // prettier-ignore

/** An empty square to tick. */
const box = (): TableCell => ({
  canvas: [{ type: 'rect', x: 0, y: 1, w: BOX, h: BOX, lineWidth: RULE }],
});

function line(ctx: Context, task: CrewTask, stop: CrewStop): TableCell[] {
  const { tree, watering, litres, minutes } = task;
  const many = tree.count > 1;
  const address = tree.address === stop.address ? '' : short(tree.address, LONG.place);
  const note = short(tree.note ?? '', LONG.note);
  const species = short(tree.species, LONG.tree);
  const under = [
    [address, many ? plural(tree.count, 'tree') : ''].filter(Boolean).join(' · '),
    note === '' ? '' : `Note: ${note}`,
  ].filter(Boolean);
  return [
    box(),
    {
      stack: [
        {
          text: [
            { text: short(tree.id, LONG.tree) || `row ${tree.row}`, bold: true },
            species === '' ? '' : `  ${species}`,
          ],
        },
        ...under,
      ],
    },
    { stack: [TO_DO[watering.family], short(watering.device, LONG.device)] },
    {
      stack: [
        { text: `${amount(ctx, litres / tree.count)}${many ? ' each' : ''}`, bold: true, fontSize: 14 },
        ...(many ? [`${amount(ctx, litres)} in all`] : []),
        spell(minutes / 60),
      ],
    },
    '',
  ];
} // prettier-ignore

const STOP_LINES = {
  hLineWidth: (i: number) => (i === 0 ? 2.5 : i === 1 ? 1 : 0.75),
  vLineWidth: (i: number) => (i === 0 || i >= 4 ? 1 : 0),
  paddingLeft: () => 5,
  paddingRight: () => 3,
  paddingTop: () => 3,
  paddingBottom: () => 4,
};

function stopTable(ctx: Context, round: Round, stop: CrewStop, number: number): Content {
  const [site, address] = placeOf(stop);
  const drive =
    (stop.legMinutes ?? 0) > 0 ? [`drive ${spell(Math.round(stop.legMinutes!) / 60)}`] : [];
  const own = spokenHours(windowsOf([stop]).open);
  const hours = own === spokenHours(round.common) ? [] : [`allowed ${own.replaceAll('-', '–')}`];
  const facts = [...drive, plural(treesAt(stop), 'tree'), amount(ctx, stop.litres), ...hours];
  const where = [address ? short(address, LONG.place) : '', facts.join(' · ')].filter(Boolean);
  const head: TableCell = {
    colSpan: 4,
    stack: [
      { text: `${number}  ${short(site ?? 'no site named', LONG.place)}`, bold: true, fontSize: 15 },
      { text: where.join('  ·  ') },
    ],
  };
  return {
    table: {
      widths: fixedWidths(WIDTHS, PAPER_WIDTH[paperOf(ctx)] - 2 * MARGIN, BESIDE),
      headerRows: 1,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      body: [
        [head, {}, {}, {}, { text: 'Reading', margin: [0, 18, 0, 0] }],
        ...stop.tasks.map((task) => line(ctx, task, stop)),
      ],
    },
    layout: STOP_LINES,
    unbreakable: stop.tasks.length <= TOGETHER,
    margin: [0, 0, 0, 4],
  };
} // prettier-ignore

/** Who did it and when, at the end of a round. */
const signed = (): Content => ({
  table: {
    widths: ['*', '*', '*', '*'],
    heights: 30,
    body: [['Start', 'End', 'Trees skipped', 'Name']],
  },
  layout: { ...framed(2), vLineWidth: () => 1 },
  unbreakable: true,
  margin: [0, 4, 0, 0],
});

function section(ctx: Context, round: Round): ContentSection {
  const crew = round.crews > 1 ? ` · crew ${round.crew} of ${round.crews}` : '';
  const day = `${longDay(round.day)}${crew}`;
  const tables = round.stops.map((stop, i) => stopTable(ctx, round, stop, i + 1));
  const together = (round.stops.at(-1)?.tasks.length ?? 0) <= TOGETHER;
  let first = Infinity;
  return {
    section: [
      {
        columns: [
          { text: day, bold: true, fontSize: 22, width: '*' },
          { text: isoDate(round.day), fontSize: 14, width: 'auto', margin: [0, 8, 0, 0] },
        ],
      },
      cautions(round),
      facts(ctx, round),
      ...tables.slice(0, -1),
      // never a page with the signature alone
      { stack: [...tables.slice(-1), signed()], unbreakable: together },
    ],
    header: (page: number) => {
      first = Math.min(first, page);
      return head(ctx, page > first ? `${day}, continued` : '');
    },
  };
}

const head = (ctx: Context, right: string): Content => ({
  columns: [
    { text: `Crew sheet · ${short(ctx.plan.site.name, LONG.title)}` },
    { text: right, alignment: 'right', bold: true, width: 'auto' },
  ],
  margin: [MARGIN, 20, MARGIN, 0],
});

/**
 * The pages of the season's crew days, or of the days asked for.
 * @throws Problem if there is no crew day to print, or more than MOST_LINES lines
 */
export function crewPages(ctx: Context, options: CrewPdfOptions = {}): Pages {
  const [from, to] = options.days ?? [-Infinity, Infinity];
  const rounds = crewRounds(ctx.plan).filter(({ day }) => day >= from && day <= to);
  if (rounds.length === 0)
    throw new Problem(
      options.days
        ? `no crew goes out from ${isoDate(from)} to ${isoDate(to)}; the crew days stand on the sheet Calendar`
        : 'no crew goes out in this plan, so there are no crew sheets',
    );
  const all = rounds.reduce((sum, r) => sum + r.stops.reduce((n, s) => n + s.tasks.length, 0), 0);
  if (all > MOST_LINES)
    throw new Problem(
      `the crew sheets have ${all} lines; a PDF file holds at most ${MOST_LINES}. Name fewer days, for instance a month`,
    );
  return {
    paper: paperOf(ctx),
    title: `Crew sheets, ${short(ctx.plan.site.name, LONG.title)}`,
    madeOn: ctx.madeOn,
    pageMargins: [MARGIN, 40, MARGIN, 42],
    content: rounds.map((round) => section(ctx, round)),
    footer: (page: number, pages: number) => ({
      columns: [
        { text: `A planning aid: local code and licensed practice decide · made ${isoDate(ctx.madeOn)}` },
        { text: `Page ${page} of ${pages}`, alignment: 'right', width: 'auto' },
      ],
      margin: [MARGIN, 14, MARGIN, 0],
    }),
  };
} // prettier-ignore
