/**
 * Crew sheets as pages: a page for each crew and day where it fits, for sunlight and wet hands. Black on
 * white, 12 pt and more, strong rules, cautions first, stops in driving order, a box and room for a reading
 * at every line. One language a page: both asked for, the English pages come first and the Spanish after them.
 */
import type { Content, ContentSection, TableCell } from 'pdfmake/interfaces.js';
import { dayFromIso, dayName, isoDate, type Day } from '../../engine/dates.js';
import type { CrewStop, CrewTask, Site } from '../../engine/plan/model.js';
import { Problem } from '../../engine/problems.js';
import { CrewSpeech, spell } from '../crew-speech.js';
import { languagesOf, UNREAD_SENTENCES } from '../crew-words.js';
import { FieldCard } from '../field-card-words.js';
import type { Context } from '../sheets/context.js';
import { apartSentences, isCut, timerSentences } from '../timer-speech.js';
import {
  aroundSheet,
  BESIDE,
  BOX,
  box,
  dashed,
  foot,
  framed,
  head,
  heeded,
  LONG,
  MARGIN,
  paperOf,
  RULE,
  signed,
  TOGETHER,
} from './crew-paper.js';
import { fixedWidths, PAPER_WIDTH, type Pages } from './pdf.js';
import { roundClock, type LateWork, type RoundClock } from './round-clock.js';
import { roundMinutes, type RoundMinutes } from './round-minutes.js';
import { crewRounds, longDay, placeOf, treesAt, windowsOf, type Round } from './rounds.js';
import { hoursText } from '../../engine/rules/rule-words.js';
import { short } from './text.js';
import { timerLines, timerSection } from './timer-pages.js';
import { timerDays, timerRuns, type RunDays, type TimerDays } from './timers.js';

export interface CrewPdfOptions {
  /** first and last day to print; default all */
  days?: [Day, Day];
}

/** Lines of one file: above, a program that opens it takes minutes, and nobody prints it at once. */
export const MOST_LINES = 20_000;
/** With more days without a crew than this, what is said of timers may break over pages, too. */
const APART = 4;

const WIDTHS = [BOX + 2, '*', 156, 92, 80] as const;

/** Whole above 10, one decimal below. */
function amount(ctx: Context, litres: number): string {
  const value = ctx.show('volume', litres);
  const digits = value >= 10 ? 0 : 1;
  return `${value.toLocaleString('en-US', { maximumFractionDigits: digits, minimumFractionDigits: digits })} ${ctx.unit('volume')}`;
}

const cautions = ({ stops }: Round, say: CrewSpeech): Content =>
  heeded([...say.cautions(stops), ...say.onTheSpot(stops)]);

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
    ...aroundSheet(ctx, say, day),
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

/** First day that has a number in a workbook. */
const FIRST_DAY = '1900-03-01';

/** `Tue 8 Jun 2027` of yyyy-mm-dd; a year that is still being typed, as 0027, is before all days and stands as it is. */
const inWords = (iso: string): string => (iso < FIRST_DAY ? iso : longDay(dayFromIso(iso)));

/** @throws Problem if days, as yyyy-mm-dd, are not all in the season: the paper would look as if they had been planned */
export function checkInPlan(
  [from, to]: readonly [string, string],
  { seasonFrom, seasonTo }: Pick<Site, 'seasonFrom' | 'seasonTo'>,
): void {
  if (from < isoDate(seasonFrom) || to > isoDate(seasonTo))
    throw new Problem(
      `the days ${inWords(from)} to ${inWords(to)} are not all in the plan, which goes from ${longDay(seasonFrom)} to ${longDay(seasonTo)}`,
    );
}

/** That neither a crew nor a timer has anything to do. @param days - as asked for; undefined: all */
function nothingOn(days: CrewPdfOptions['days']): Problem {
  const nobody = 'no crew goes out and no timer waters';
  if (!days) return new Problem(`${nobody} in this plan, so there are no crew sheets`);
  const [from, to] = days.map(dayName);
  const when = from === to ? `on ${from}` : `from ${from} to ${to}`;
  return new Problem(`${nobody} ${when}; the days of the plan stand on the sheet Calendar`);
}

/** @throws Problem if that is more than a file holds */
function checkLines(lines: number): void {
  if (lines > MOST_LINES)
    throw new Problem(
      `the crew sheets have ${lines} lines; a PDF file holds at most ${MOST_LINES}. Name fewer days, for instance a month`,
    );
}

/** Days on which timers water that no crew's page of the file says, or not with all places. */
function unsaidDays(rounds: readonly Round[], { today, apart }: TimerDays): (day: Day) => boolean {
  const paged = new Set(rounds.map(({ day }) => day));
  const beside = [...paged].flatMap((day) => apart.get(day) ?? []);
  const said = new Set(beside.flatMap(({ day, places }) => (isCut(places, false) ? [] : day)));
  return (day) => (paged.has(day) ? isCut(today.get(day) ?? [], true) : !said.has(day));
}

/**
 * What timers water on days asked for that crews' pages do not say, as a sheet of its own; nothing where the file would not hold it
 * beside the crews' lines, which name the most of it.
 */
function unsaidRuns(ctx: Context, rounds: readonly Round[], timers: TimerDays, asked: readonly [Day, Day], room: number): RunDays[] {
  const isUnsaid = unsaidDays(rounds, timers);
  const all = timerRuns(ctx, asked).flatMap(({ days, runs }) => {
    const own = days.filter(isUnsaid);
    return own.length === 0 ? [] : [{ days: own, runs }];
  });
  return rounds.length > 0 && timerLines(all) > room ? [] : all;
} // prettier-ignore

/**
 * The pages of the season's crew days, or of the days asked for, in the languages of the context. What timers water on days without
 * a crew, or at more places than a crew's page names, is a sheet of its own.
 * @throws Problem if days are asked for that the plan does not have, neither crew nor timer waters then, or more than MOST_LINES lines
 */
export function crewPages(ctx: Context, options: CrewPdfOptions = {}): Pages {
  const { seasonFrom, seasonTo } = ctx.plan.site;
  const [from, to] = options.days ?? [seasonFrom, seasonTo];
  checkInPlan([isoDate(from), isoDate(to)], ctx.plan.site);
  const rounds = crewRounds(ctx.plan).filter(({ day }) => day >= from && day <= to);
  const timers = timerDays(ctx);
  const speeches = languagesOf(ctx.crewLanguage).map((language) => new CrewSpeech(language));
  const once = rounds.reduce((sum, r) => sum + r.stops.reduce((n, s) => n + s.tasks.length, 0), 0);
  const runs = unsaidRuns(ctx, rounds, timers, [from, to], MOST_LINES / speeches.length - once);
  if (rounds.length === 0 && runs.length === 0) throw nothingOn(options.days);
  checkLines((once + timerLines(runs)) * speeches.length);
  return {
    paper: paperOf(ctx),
    title: `${speeches[0]!.word('titles')}, ${short(ctx.plan.site.name, LONG.title)}`,
    madeOn: ctx.madeOn,
    pageMargins: [MARGIN, 40, MARGIN, 42],
    content: speeches.flatMap((say) => [
      ...rounds.map((round) => section(ctx, round, timers, say)),
      ...(runs.length > 0 ? [timerSection(ctx, runs, [from, to], say)] : []),
      cardSection(ctx, say),
    ]),
  };
}
