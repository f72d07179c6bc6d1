/**
 * Crew sheets as pages: a page for each crew and day where it fits, for sunlight and wet hands. Black on
 * white, 12 pt and more, strong rules, cautions first, stops in driving order, a box and room for a reading
 * at every line. One language a page: both asked for, the English pages come first and the Spanish after them.
 */
import type { Content, ContentSection, TableCell } from 'pdfmake/interfaces.js';
import { isoDate, type Day } from '../../engine/dates.js';
import type { CrewStop, CrewTask, Site } from '../../engine/plan/model.js';
import { Problem } from '../../engine/problems.js';
import { CrewSpeech, spell } from '../crew-speech.js';
import { languagesOf, UNREAD_SENTENCES } from '../crew-words.js';
import { FieldCard } from '../field-card-words.js';
import type { Context } from '../sheets/context.js';
import { apartSentences, timerSentences } from '../timer-speech.js';
import { fixedWidths, PAPER_WIDTH, type Pages } from './pdf.js';
import { roundClock, type LateWork, type RoundClock } from './round-clock.js';
import { roundMinutes, type RoundMinutes } from './round-minutes.js';
import { crewRounds, placeOf, treesAt, windowsOf, type Round } from './rounds.js';
import { hoursText } from '../../engine/rules/rule-words.js';
import { short } from './text.js';
import { timerDays, type TimerDays } from './timers.js';

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
/** With more days without a crew than this, what is said of timers may break over pages, too. */
const APART = 4;

const MARGIN = 36; // [pt]
const RULE = 1.5; // [pt]
const BOX = 16; // [pt]
const WIDTHS = [BOX + 2, '*', 156, 92, 80] as const;
/** Paddings and lines of a column [pt]. */
const BESIDE = 8.5;

const paperOf = (ctx: Context): Pages['paper'] =>
  ctx.paper ?? (ctx.units === 'US' ? 'letter' : 'a4');

/** Hours with a dash people read. */
const dashed = (hours: string): string => hours.replaceAll('-', '–');

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

function cautions(round: Round, say: CrewSpeech): Content {
  const said = [...say.cautions(round.stops), ...say.onTheSpot(round.stops)];
  return {
    table: {
      widths: ['*'],
      body: [[{ ul: said, bold: true, lineHeight: 1.05, markerColor: 'black' }]],
    },
    layout: framed(2),
    margin: [0, 6, 0, 6],
  };
}

/** Hours open to all stops; where there are none, those of any, and that the stops say more. */
function hoursOf({ common, open }: Round, say: CrewSpeech): string {
  const hours = say.hours(hoursText(common.length > 0 ? common : open));
  return dashed(common.length > 0 ? hours : `${hours}, ${say.word('seeStops')}`);
}

/** The day's water and hours, four facts in a frame. */
function facts(ctx: Context, round: Round, say: CrewSpeech): Content {
  const fact = (label: string, value: string): TableCell => ({
    stack: [{ text: label }, { text: value, bold: true, fontSize: 14 }],
  });
  const loads =
    round.tankLoads > 0 ? `, ${say.count(round.tankLoads, 'tankLoad', 'tankLoads')}` : '';
  const law = say.lawByMeans(round.stops);
  const apart = round.common.length === 0 ? `▲ ${say.word('apart')}` : '';
  const warnings = [say.tooMuch(round), apart].filter(Boolean);
  return {
    stack: [
      {
        table: {
          widths: ['*', '*', '*', '*'],
          body: [
            [
              fact(say.word('waterFrom'), short(say.waters(round.waters), LONG.title)),
              fact(say.word('hours'), hoursOf(round, say)),
              fact(say.count(round.stops.length, 'stop', 'stops'), spell(round.hours)),
              fact(say.word('allTogether'), `${amount(ctx, round.litres)}${loads}`),
            ],
          ],
        },
        layout: { ...framed(2), vLineWidth: () => RULE },
      },
      ...(law === '' ? [] : [{ text: dashed(law), margin: [0, 4, 0, 0] } as Content]),
      ...warnings.map((text): Content => ({ text, bold: true, margin: [0, 4, 0, 0] })),
    ],
    margin: [0, 0, 0, 8],
  };
}

/** An empty square to tick. */
const box = (): TableCell => ({
  canvas: [{ type: 'rect', x: 0, y: 1, w: BOX, h: BOX, lineWidth: RULE }],
});

/** @param minutes - as the round's minutes add up, whole */
function line(ctx: Context, task: CrewTask, stop: CrewStop, minutes: number, say: CrewSpeech): TableCell[] {
  const { tree, watering, litres } = task;
  const many = tree.count > 1;
  const address = tree.address === stop.address ? '' : short(tree.address, LONG.place);
  const note = short(tree.note ?? '', LONG.note);
  const species = short(tree.species, LONG.tree);
  const under = [
    [address, many ? say.count(tree.count, 'tree', 'trees') : '', say.assumed(tree)].filter(Boolean).join(' · '),
    note === '' ? '' : `${say.word('note')}: ${note}`,
  ].filter(Boolean);
  return [
    box(),
    {
      stack: [
        {
          text: [
            { text: short(tree.id, LONG.tree) || `${say.word('row')} ${tree.row}`, bold: true },
            species === '' ? '' : `  ${species}`,
          ],
        },
        ...under,
      ],
    },
    {
      stack: [
        say.toDo(watering),
        short(watering.device, LONG.device),
        ...[say.run(watering)].filter(Boolean).map((text) => ({ text, bold: true })),
      ],
    },
    {
      stack: [
        { text: `${amount(ctx, litres / tree.count)}${many ? ` ${say.word('eachOne')}` : ''}`, bold: true, fontSize: 14 },
        ...(many ? [`${amount(ctx, litres)} ${say.word('inAll')}`] : []),
        spell(minutes / 60),
      ],
    },
    '',
  ];
} // prettier-ignore

/** A stop of a round, and its minutes as they are printed. */
interface Numbered {
  stop: CrewStop;
  number: number;
  /** drive there, whole [min] */
  leg: number;
  tasks: readonly number[];
  fillings: readonly number[];
  /** when work begins there, from the start of the day [min] */
  begins: number;
  late: readonly LateWork[];
}

/** What is not done at trees: no box and no number. */
const away = (what: string, where: string, minutes: number) => ({
  text: [
    { text: what, bold: true },
    `${where === '' ? '' : `  ·  ${where}`}  ·  ${spell(minutes / 60)}`,
  ],
});

/** The tank filled before a task: before the first one it is filled on the way to the stop. */
const fillingsBefore = ({ stop, number, fillings }: Numbered, task: number, say: CrewSpeech) =>
  (stop.fillings ?? []).flatMap(({ before, loads }, f) =>
    before === task
      ? [
          away(
            say.fill(loads, say.beforeTask(stop, task, number)),
            say.word('waterPoint'),
            fillings[f]!,
          ),
        ]
      : [],
  );

/** Above which work of a stop its hours end. */
const lateBefore = ({ late }: Numbered, task: number, say: CrewSpeech): string[] =>
  late.filter((each) => each.task === task).map((each) => say.lateFrom(each));

/** What stands above a stop: that its hours are over, and what is filled before it. */
const aboveStop = (stop: Numbered, say: CrewSpeech): Content[] => [
  ...lateBefore(stop, 0, say).map((text): Content => ({
    table: { widths: ['*'], body: [[{ text, bold: true }]] },
    layout: framed(2.5),
    margin: [0, 2, 0, 4],
  })),
  ...fillingsBefore(stop, 0, say).map((text): Content => ({ ...text, margin: [5, 2, 0, 2] })),
];

const STOP_LINES = {
  hLineWidth: (i: number) => (i === 0 ? 2.5 : i === 1 ? 1 : 0.75),
  vLineWidth: (i: number) => (i === 0 || i >= 4 ? 1 : 0),
  paddingLeft: () => 5,
  paddingRight: () => 3,
  paddingTop: () => 3,
  paddingBottom: () => 4,
};

/** What a stop is: the way there, its trees and water, and its hours where they are not those of the whole round. */
function stopFacts(ctx: Context, round: Round, { stop, leg }: Numbered, say: CrewSpeech): string {
  const own = hoursText(windowsOf([stop]).common) !== hoursText(round.common);
  return [
    leg > 0 ? `${say.word('drive')} ${spell(leg / 60)}` : '',
    say.count(treesAt(stop), 'tree', 'trees'),
    amount(ctx, stop.litres),
    own || round.common.length === 0
      ? `${say.word('allowed')} ${dashed(say.hoursByMeans([stop]))}`
      : '',
  ]
    .filter(Boolean)
    .join(' · ');
}

function stopTable(ctx: Context, round: Round, numbered: Numbered, say: CrewSpeech): Content {
  const { stop, number } = numbered;
  const [site, address] = placeOf(stop);
  const where = [address ? short(address, LONG.place) : '', stopFacts(ctx, round, numbered, say)];
  const head: TableCell = {
    colSpan: 4,
    stack: [
      {
        text: [
          { text: `${number}  ${short(site ?? say.word('noSite'), LONG.place)}`, bold: true, fontSize: 15 },
          `   ${say.about(numbered.begins)}`,
        ],
      },
      { text: where.filter(Boolean).join('  ·  ') },
    ],
  };
  const across = (text: { text: Content; bold?: boolean }): TableCell[] => [
    { colSpan: 5, ...text }, {}, {}, {}, {},
  ];
  const table: Content = {
    table: {
      widths: fixedWidths(WIDTHS, PAPER_WIDTH[paperOf(ctx)] - 2 * MARGIN, BESIDE),
      headerRows: 1,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      body: [
        [head, {}, {}, {}, { text: say.word('reading'), margin: [0, 18, 0, 0] }],
        ...stop.tasks.flatMap((task, t) => [
          ...(t > 0 ? lateBefore(numbered, t, say).map((text) => across({ text, bold: true })) : []),
          ...(t > 0 ? fillingsBefore(numbered, t, say).map(across) : []),
          line(ctx, task, stop, numbered.tasks[t]!, say),
        ]),
      ],
    },
    layout: STOP_LINES,
    unbreakable: stop.tasks.length <= TOGETHER,
    margin: [0, 0, 0, 4],
  };
  const before = aboveStop(numbered, say);
  return before.length === 0 ? table : { stack: [...before, table], unbreakable: stop.tasks.length <= TOGETHER };
} // prettier-ignore

/** Who did it and when, at the end of a round. */
const signed = ({ word }: CrewSpeech): Content => ({
  table: {
    widths: ['*', '*', '*', '*'],
    heights: 30,
    body: [[word('start'), word('end'), word('skipped'), word('name')]],
  },
  layout: { ...framed(2), vLineWidth: () => 1 },
  unbreakable: true,
  margin: [0, 4, 0, 0],
});

/** The way back, and beside it what the hours of the round are made of. */
function wayBack(minutes: RoundMinutes, times: RoundClock, say: CrewSpeech): Content {
  const { back } = minutes;
  const late = say.backLate(times);
  return {
    text: [
      ...(late === '' ? [] : [{ text: `${late} `, bold: true }]),
      ...(back > 0 ? [away(say.word('wayBack'), '', back), `  ·  ${say.at(times.back)}   `] : []),
      `(${say.parts(minutes)})`,
    ],
    margin: [5, 0, 0, 0],
  };
}

/** What timers water that day and until the next: none of the crew's work, and none of it forgotten. */
function timerBlock({ day, crew }: Round, { today, apart }: TimerDays, say: CrewSpeech): Content[] {
  const said = timerSentences(today.get(day), say);
  // once, not for every crew of the day
  const later = crew === 1 ? apartSentences(apart.get(day), say) : [];
  const text = [
    ...(said ? [{ text: `${said.title}. ${said.tell} `, bold: true }, said.lines.join('; ')] : []),
    ...(said && later.length > 0 ? ['\n'] : []),
    ...(later.length > 0 ? [{ text: `${say.word('byTimerApart')}: `, bold: true }, later.join('. ')] : []),
  ];
  if (text.length === 0) return [];
  return [
    {
      table: { widths: ['*'], body: [[{ text }]] },
      layout: framed(1),
      unbreakable: later.length <= APART,
      margin: [0, 3, 0, 0],
    },
  ];
} // prettier-ignore

function section(ctx: Context, round: Round, timers: TimerDays, say: CrewSpeech): ContentSection {
  const crew = say.whichCrew(round.crew, round.crews);
  const day = [say.fullDay(round.day), crew].filter(Boolean).join(' · ');
  const minutes = roundMinutes(round);
  const times = roundClock(round, ctx.plan.site);
  const tables = round.stops.map((stop, i) => {
    const { legs, tasks, fillings } = minutes;
    const printed = {
      leg: legs[i]!,
      tasks: tasks[i]!,
      fillings: fillings[i]!,
      begins: times.stops[i]!,
      late: times.late.filter((each) => each.stop === i),
    };
    return stopTable(ctx, round, { stop, number: i + 1, ...printed }, say);
  });
  const days = round.crew === 1 ? (timers.apart.get(round.day)?.length ?? 0) : 0;
  const together = (round.stops.at(-1)?.tasks.length ?? 0) <= TOGETHER && days <= APART;
  let first = Infinity;
  return {
    section: [
      {
        columns: [
          {
            text: [
              { text: day, bold: true },
              { text: `  ${say.start(ctx.plan.site)}`, fontSize: 16 },
            ],
            fontSize: 22,
            width: '*',
          },
          { text: say.word('estimates'), alignment: 'right', width: 'auto' },
        ],
      },
      cautions(round, say),
      facts(ctx, round, say),
      ...tables.slice(0, -1),
      // never a page with the signature alone
      {
        stack: [
          ...tables.slice(-1),
          wayBack(minutes, times, say),
          ...timerBlock(round, timers, say),
          signed(say),
        ],
        unbreakable: together,
      },
    ],
    header: (page: number) => {
      first = Math.min(first, page);
      return head(ctx, say, page > first ? `${day}, ${say.word('continued')}` : '');
    },
    // the page with the cautions has among them that local code decides; one that carries the day on has not
    footer: (page: number, pages: number) =>
      foot(ctx, say, page > first ? 'aid' : 'aidShort', page, pages),
    pageMargins: [MARGIN, 40, MARGIN, UNREAD_SENTENCES[say.language] ? 74 : 42],
  };
}

const head = (ctx: Context, say: CrewSpeech, right: string): Content => ({
  columns: [
    { text: `${say.word('title')} · ${short(ctx.plan.site.name, LONG.title)}` },
    { text: right, alignment: 'right', bold: true, width: 'auto' },
  ],
  margin: [MARGIN, 20, MARGIN, 0],
});

/** What the page is, its number, and on a translated one that nobody who speaks the language has read it. */
function foot(
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

/** The field card, a page of its own: for the back of the sheets, or for the truck. */
function cardSection(ctx: Context, say: CrewSpeech): ContentSection {
  const card = new FieldCard(say.language, ctx.units);
  const table = (heads: readonly string[], rows: readonly (readonly string[])[]): Content => ({
    table: {
      widths: ['*', '*', '*'],
      headerRows: 1,
      dontBreakRows: true,
      body: [
        heads.map((text) => ({ text, bold: true })),
        ...rows.map(([first, second, act]): TableCell[] => [
          { text: first! },
          { text: second! },
          { text: act!, bold: true, fontSize: 15 },
        ]),
      ],
    },
    layout: { ...framed(2), hLineWidth: () => 1, vLineWidth: () => 1, paddingTop: () => 6, paddingBottom: () => 6 },
    margin: [0, 8, 0, 8],
  });
  return {
    section: [
      { text: card.word('title'), bold: true, fontSize: 22 },
      { text: card.word('back') },
      table([card.word('leaves'), card.word('soil'), card.word('act')], card.rows()),
      table([card.word('probe'), card.word('depth'), card.word('act')], card.probes()),
      card.publishers(),
    ],
    header: () => head(ctx, say, ''),
    footer: (page: number, pages: number) => foot(ctx, say, 'aid', page, pages),
    pageMargins: [MARGIN, 40, MARGIN, UNREAD_SENTENCES[say.language] ? 74 : 42],
  };
} // prettier-ignore

/** @throws Problem if days, as yyyy-mm-dd, are not all in the season: the paper would look as if they had been planned */
export function checkInPlan(
  [from, to]: readonly [string, string],
  { seasonFrom, seasonTo }: Pick<Site, 'seasonFrom' | 'seasonTo'>,
): void {
  const [first, last] = [isoDate(seasonFrom), isoDate(seasonTo)];
  if (from < first || to > last)
    throw new Problem(
      `the days ${from} to ${to} are not all in the plan, which goes from ${first} to ${last}`,
    );
}

/**
 * The pages of the season's crew days, or of the days asked for, in the languages of the context.
 * @throws Problem if days are asked for that the plan does not have, there is no crew day to print, or more than MOST_LINES lines
 */
export function crewPages(ctx: Context, options: CrewPdfOptions = {}): Pages {
  const [from, to] = options.days ?? [-Infinity, Infinity];
  if (options.days) checkInPlan([isoDate(from), isoDate(to)], ctx.plan.site);
  const rounds = crewRounds(ctx.plan).filter(({ day }) => day >= from && day <= to);
  if (rounds.length === 0)
    throw new Problem(
      options.days
        ? `no crew goes out from ${isoDate(from)} to ${isoDate(to)}; the crew days stand on the sheet Calendar`
        : 'no crew goes out in this plan, so there are no crew sheets',
    );
  const speeches = languagesOf(ctx.crewLanguage).map((language) => new CrewSpeech(language));
  const once = rounds.reduce((sum, r) => sum + r.stops.reduce((n, s) => n + s.tasks.length, 0), 0);
  const all = once * speeches.length;
  if (all > MOST_LINES)
    throw new Problem(
      `the crew sheets have ${all} lines; a PDF file holds at most ${MOST_LINES}. Name fewer days, for instance a month`,
    );
  const timers = timerDays(ctx);
  return {
    paper: paperOf(ctx),
    title: `${speeches[0]!.word('titles')}, ${short(ctx.plan.site.name, LONG.title)}`,
    madeOn: ctx.madeOn,
    pageMargins: [MARGIN, 40, MARGIN, 42],
    content: speeches.flatMap((say) => [
      ...rounds.map((round) => section(ctx, round, timers, say)),
      cardSection(ctx, say),
    ]),
  };
}
