/** Crew: pages to print, a new page each crew and day, for sunlight and wet hands. */
import { isoDate, type Day } from '../../engine/dates.js';
import type { CrewStop, CrewTask } from '../../engine/plan/model.js';
import {
  cell,
  SheetDraft,
  type ColumnSpec,
  type ModelCell,
  type RichCell,
  type Style,
  type TablePlace,
} from '../model.js';
import { CrewSpeech, spell } from '../crew-speech.js';
import { UNREAD, type CrewWord, type Language } from '../crew-words.js';
import { FieldCard } from '../field-card-words.js';
import { roundClock, type RoundClock } from '../exports/round-clock.js';
import { roundMinutes, type RoundMinutes } from '../exports/round-minutes.js';
import { crewRounds, type Round } from '../exports/rounds.js';
import { byHours, timerDays, timerRuns, type TimerDays, type TimerRun } from '../exports/timers.js';
import { upperFirst } from '../../engine/first-letter.js';
import {
  apartSentences,
  daySpans,
  runSentences,
  runsFacts,
  timerSentences,
} from '../timer-speech.js';
import { lookOf } from '../writers/looks.js';
import { DIGIT_PIXELS } from '../writers/row-heights.js';
import { fittingLines, textWidth } from '../writers/type-width.js';
import type { Context } from './context.js';
import type { Built } from './inputs.js';

export { spell };

/** More page breaks than this no spreadsheet program keeps. */
const MOST_BREAKS = 1000;
/** Body type [pt]. */
const TYPE = 12;
/** Widths of the columns [characters of the body type]; together they fill a landscape page. */
const WIDTHS = { box: 8, stop: 12, time: 8, where: 22, trees: 19, what: 25, each: 7, volume: 7, minutes: 7, reading: 11 } as const; // prettier-ignore
/** Room of a line that runs over the whole width: beyond it, a page of its own would hold the rest [px]. */
const ROOM = 0.98 * DIGIT_PIXELS * Object.values(WIDTHS).reduce((a: number, b) => a + b, 0);

/** A text in lines that run over the whole width, in the type of their style. */
function across(text: string, style: Style): string[] {
  const { size, bold } = lookOf(style, TYPE);
  return fittingLines(text, ROOM, size, bold);
}

function roundLine(ctx: Context, round: Round, say: CrewSpeech): string {
  const parts = [
    say.fullDay(round.day),
    say.whichCrew(round.crew, round.crews),
    say.start(ctx.plan.site),
    say.count(round.stops.length, 'stop', 'stops'),
    `${Math.round(ctx.show('volume', round.litres)).toLocaleString('en-US')} ${ctx.unit('volume')}`,
    spell(round.hours),
    round.tankLoads > 0 ? say.count(round.tankLoads, 'tankLoad', 'tankLoads') : '',
  ].filter(Boolean);
  return parts.join(' · ');
}

/** Sources of water of the day, and the hours of each means within the crew's day. */
const sourceLine = ({ waters, stops }: Round, say: CrewSpeech): string =>
  `${say.word('water')}: ${say.waters(waters)} · ${say.word('hours')}: ${say.hoursByMeans(stops)}`;

interface Line {
  day: Day;
  task?: CrewTask;
  stop?: CrewStop;
  /** what is set on a timer, where no crew goes out at all */
  run?: TimerRun;
  /** what is done away from the trees */
  away?: { where: string; when: string; what: string };
  /** of its stop; of what is set on a timer: days that are set alike */
  number: number;
  /** when it begins, as it is printed; at the first line of a stop, and at the yard */
  time?: string;
  /** of the crew, whole [min] */
  minutes?: number;
  /** a text over the whole width */
  over?: string;
  /** what it is: of the day's head, a warning in a frame, or words to read */
  style?: 'heading' | 'frame' | 'note';
  /** last line of its round */
  last: boolean;
  joined?: { rows: number; trees: number; litres: number };
}

/** A stop on its way to lines: its turn, its minutes as they are printed. */
interface Numbered {
  stop: CrewStop;
  number: number;
  tasks: readonly number[];
  fillings: readonly number[];
  time: string;
  /** above which task its hours end, in words */
  late: readonly { task: number; says: string }[];
}

const sum = (all: readonly number[]): number => all.reduce((a, b) => a + b, 0);

/** Tasks with the same device, of a stop or of a whole day, as one, when there are too many for a sheet. */
function joinTasks(day: Day, stops: readonly Numbered[], say: CrewSpeech): Line[] {
  const groups = new Map<string, Line>();
  const number = stops.length === 1 ? stops[0]!.number : 1;
  const tasks = stops.flatMap(({ stop, tasks: minutes }) =>
    stop.tasks.map((task, t) => ({ stop, task, minutes: minutes[t]! })),
  );
  for (const { stop, task, minutes } of tasks) {
    const key = task.watering.device;
    const line = groups.get(key) ?? {
      day,
      task,
      stop:
        stops.length === 1
          ? stop
          : { ...stop, site: say.count(stops.length, 'sites', 'sites'), address: '' },
      number,
      minutes: 0,
      last: false,
      joined: { rows: 0, trees: 0, litres: 0 },
    };
    line.joined!.rows += 1;
    line.joined!.trees += task.tree.count;
    line.joined!.litres += task.litres;
    line.minutes! += minutes;
    groups.set(key, line);
  }
  return [...groups.values()];
}

/** The tank is filled: no stop, so without a number. */
const fillingLine = (
  day: Day,
  loads: number,
  minutes: number,
  when: string,
  say: CrewSpeech,
): Line => ({
  day,
  away: { where: say.word('waterPoint'), when, what: say.fill(loads) },
  number: 0,
  minutes,
  last: false,
});

/** The tank filled as often as several times together; nothing for none. */
function joinFillings(day: Day, stops: readonly Numbered[], when: string, say: CrewSpeech): Line[] {
  const loads = sum(stops.flatMap(({ stop }) => (stop.fillings ?? []).map((each) => each.loads)));
  const minutes = sum(stops.flatMap(({ fillings }) => fillings));
  return loads === 0 ? [] : [fillingLine(day, loads, minutes, when, say)];
}

/** A text over the whole width, in as many lines as it takes. */
const overLines = (day: Day, text: string, style: 'heading' | 'frame' | 'note'): Line[] =>
  across(text, style).map((over) => ({ day, number: 0, last: false, over, style }));

/** That what follows no longer falls into its hours. */
const lateLines = (day: Day, { late }: Numbered, task?: number): Line[] =>
  late
    .filter((each) => task === undefined || each.task === task)
    .flatMap(({ says }) => overLines(day, says, 'frame'));

/** Tasks of a stop, each after the fillings of the tank it waits for. */
function stopLines(day: Day, numbered: Numbered, say: CrewSpeech): Line[] {
  const { stop, number, tasks, fillings, time } = numbered;
  const filled = (stop.fillings ?? []).map((filling, f) => ({ ...filling, minutes: fillings[f]! }));
  return stop.tasks.flatMap((task, t): Line[] => [
    ...lateLines(day, numbered, t),
    ...filled
      .filter(({ before }) => before === t)
      .map(({ loads, minutes }) =>
        fillingLine(day, loads, minutes, say.beforeTask(stop, t, number), say),
      ),
    { day, task, stop, number, minutes: tasks[t]!, last: false, ...(t === 0 && { time }) },
  ]);
}

/** What of a round's hours is driven: nothing else would make its lines add up to them. */
function driveLines(
  day: Day,
  { legs, back }: RoundMinutes,
  times: RoundClock,
  say: CrewSpeech,
): Line[] {
  const line = (word: CrewWord, minutes: number, time?: string): Line[] =>
    minutes > 0
      ? [
          {
            day,
            away: { where: '', when: '', what: say.word(word) },
            number: 0,
            minutes,
            last: false,
            ...(time !== undefined && { time }),
          },
        ]
      : [];
  return [
    ...line('driveOut', sum(legs)),
    ...overLines(day, say.backLate(times), 'frame'),
    ...line('wayBack', back, say.at(times.back)),
  ];
}

/** Trees that run by timers on the day of a round, and until the next; the latter once, not for every crew. */
function timerLines({ day, crew }: Round, { today, apart }: TimerDays, say: CrewSpeech): Line[] {
  const said = timerSentences(today.get(day), say);
  const later = crew === 1 ? apartSentences(apart.get(day), say) : [];
  return [
    ...(said ? overLines(day, `${said.title}.`, 'heading') : []),
    ...(said ? overLines(day, [said.tell, ...said.lines].join(' '), 'note') : []),
    ...(later.length > 0 ? overLines(day, `${say.word('byTimerApart')}.`, 'heading') : []),
    ...later.flatMap((text) => overLines(day, text, 'note')),
  ];
}

/** Lines of a round's work in the order it is done, joined where a sheet could not hold them. */
function workLines(
  ctx: Context,
  round: Round,
  minutes: RoundMinutes,
  times: RoundClock,
  say: CrewSpeech,
): Line[] {
  const { day } = round;
  const stops = round.stops.map((stop, s): Numbered => ({
    stop,
    number: s + 1,
    tasks: minutes.tasks[s]!,
    fillings: minutes.fillings[s]!,
    time: say.at(times.stops[s]!),
    late: times.late
      .filter((each) => each.stop === s)
      .map((each) => ({ task: each.task, says: say.lateFrom(each) })),
  }));
  if (ctx.joined === 'by day')
    return [
      ...joinFillings(day, stops, say.word('duringRound'), say),
      ...joinTasks(day, stops, say),
    ];
  return stops.flatMap((stop) =>
    ctx.joined === 'by site'
      ? [
          // of joined lines none can be told to be the first that is late: the stop is
          ...lateLines(day, stop),
          ...joinFillings(day, [stop], say.beforeStop(stop.number), say),
          ...joinTasks(day, [stop], say).map((line, i) =>
            i === 0 ? { ...line, time: stop.time } : line,
          ),
        ]
      : stopLines(day, stop, say),
  );
}

function crewLines(ctx: Context, rounds: readonly Round[], say: CrewSpeech): Line[] {
  const out: Line[] = [];
  const timers = timerDays(ctx);
  for (const round of rounds) {
    const { day, stops } = round;
    const minutes = roundMinutes(round);
    const times = roundClock(round, ctx.plan.site);
    const law = [sourceLine(round, say), say.lawByMeans(stops)].filter(Boolean).join(' · ');
    out.push(
      ...overLines(day, roundLine(ctx, round, say), 'heading'),
      ...overLines(day, say.tooMuch(round), 'frame'),
      ...overLines(day, law, 'heading'),
      ...workLines(ctx, round, minutes, times, say),
      ...driveLines(day, minutes, times, say),
      ...timerLines(round, timers, say),
    );
    out[out.length - 1]!.last = true;
  }
  return out;
}

/**
 * What timers water, where no crew goes out in the whole season: else the sheet would be blank, and nobody would set them. No
 * litres: what is summed here is the crew's.
 */
function aloneLines(ctx: Context, say: CrewSpeech): Line[] {
  const { seasonFrom, seasonTo } = ctx.plan.site;
  // more than a sheet holds: the same days in sentences, with the number of sites that are not named
  if (ctx.joined !== 'no') {
    const { today } = timerDays(ctx);
    const days = [...today].map(([day, places]) => ({ day, places })).sort((a, b) => a.day - b.day);
    return apartSentences(days, say).flatMap((text) => overLines(days[0]!.day, text, 'note'));
  }
  return timerRuns(ctx, [seasonFrom, seasonTo]).flatMap(({ days, runs }): Line[] => {
    const [day] = days as [Day];
    const when = `${say.word('timerSheet')} · ${daySpans(days, say).join(', ')}`;
    const lines = byHours(runs).flatMap((own): Line[] => [
      ...overLines(day, `${when} · ${runsFacts(own, say)}`, 'heading'),
      ...own.map((run): Line => ({ day, run, number: days.length, last: false })),
    ]);
    lines.at(-1)!.last = true;
    return lines;
  });
}

/** Cells of what is set on a timer. @param days - that are set alike: the first is named, all stand in the head */
function runCells(day: Day, days: number, run: TimerRun, say: CrewSpeech): ModelCell[] {
  const { site, address, ids, counts, note, start, runs, turns } = runSentences(run, say);
  const begins = upperFirst(`${say.word('timersStart')} ${start}`);
  return [
    cell(null, 'field'),
    days > 1 ? `${say.shortDay(day)} +${days - 1}` : say.shortDay(day),
    null,
    [site, address].filter(Boolean).join(' · '),
    [ids, ...counts, note].filter(Boolean).join(' · ') || say.count(1, 'tree', 'trees'),
    // the column is narrow: turns and pauses say how long it takes in all
    `${begins}; ${say.word('runs')} ${turns || runs}`,
    null,
    null,
    null,
    cell(null, 'field'),
  ];
}

/** Sentences in lines: each starts a line unless it fits whole beside the one before. */
function packed(sentences: readonly string[]): string[] {
  const { size, bold } = lookOf('frame', TYPE);
  const out: string[] = [];
  for (const sentence of sentences) {
    const beside = `${out.at(-1) ?? ''}  ·  ${sentence}`;
    if (out.length > 0 && textWidth(beside, size, bold) <= ROOM) out[out.length - 1] = beside;
    else out.push(...across(sentence, 'frame'));
  }
  return out;
}

/** The field card, below the last round on a page of its own: leaves, soil and act in the columns of place, trees, what to do. */
function cardLines(ctx: Context, language: Language): RichCell[][] {
  const card = new FieldCard(language, ctx.units);
  const title = (text: string): RichCell[] => [
    cell(text, 'heading'),
    ...Array.from({ length: 9 }, () => cell(null, 'heading')),
  ];
  // the first text has three columns to run over
  const line = ([first, second, act]: readonly string[], style: 'text' | 'header'): RichCell[] => [
    cell(null),
    cell(first!, style),
    cell(null, style),
    cell(null, style),
    cell(second!, style),
    cell(act!, style),
  ];
  return [
    title(`${card.word('title')} · ${card.word('back')}`),
    line([card.word('leaves'), card.word('soil'), card.word('act')], 'header'),
    ...card.rows().map((row) => line(row, 'text')),
    [cell(null)],
    line([card.word('probe'), card.word('depth'), card.word('act')], 'header'),
    ...card.probes().map((row) => line(row, 'text')),
    [cell(card.publishers(), 'note')],
  ];
}

/** @param language - one a sheet; the sheet and its table are named by it */
export function crewSheet(
  ctx: Context,
  language: Language = 'en',
): Built<{ place: TablePlace; days: number }> {
  const say = new CrewSpeech(language);
  const { word } = say;
  const rounds = crewRounds(ctx.plan);
  const alone = rounds.length === 0 ? aloneLines(ctx, say) : [];
  const all = [...crewLines(ctx, rounds, say), ...alone];
  const gal = ctx.unit('volume');
  const draft = new SheetDraft(word('sheetName'), word('title'), { pagesWide: 0 }, TYPE);
  const stops = rounds.flatMap((round) => round.stops);
  const cautions = packed([
    ...(alone.length > 0 ? [word('timerSet'), word('timerLook')] : []),
    ...say.cautions(stops),
    ...say.onTheSpot(stops),
  ]);
  draft.text([
    cell(`${word('title')} · ${ctx.plan.site.name}`, 'title'),
    ...cautions.map((text) => [
      cell(text, 'frame'),
      ...Array.from({ length: 9 }, () => cell(null, 'frame')),
    ]),
  ]);
  const columns: ColumnSpec[] = [
    { key: 'box', header: word('done'), width: WIDTHS.box, style: 'field', align: 'center' },
    { key: 'stop', header: word('dayStop'), width: WIDTHS.stop, align: 'center' },
    { key: 'time', header: word('time'), width: WIDTHS.time, align: 'center' },
    { key: 'where', header: word('where'), width: WIDTHS.where, wrap: true },
    { key: 'trees', header: word('treesHeader'), width: WIDTHS.trees, wrap: true },
    { key: 'what', header: word('whatToDo'), width: WIDTHS.what, wrap: true },
    { key: 'each', header: `${word('each')} (${gal})`, width: WIDTHS.each, format: 'one' },
    { key: 'volume', header: `${word('all')} (${gal})`, width: WIDTHS.volume, format: 'one' },
    {
      key: 'minutes',
      header: word('crewMinutes'),
      width: WIDTHS.minutes,
      format: 'whole',
      align: 'center',
    },
    { key: 'reading', header: word('reading'), width: WIDTHS.reading, style: 'field' },
  ];
  const place = draft.table(word('sheetName'), columns, all.length, (i): ModelCell[] => {
    const line = all[i]!;
    if (line.over !== undefined) {
      const { over, style = 'note' } = line;
      return [cell(over, style), ...columns.slice(1).map(() => cell(null, style))];
    }
    if (line.run) return runCells(line.day, line.number, line.run, say);
    if (line.away) {
      // no box and no gallons: it is no stop at trees, and what is summed or logged is theirs
      const blank = cell(null, 'text');
      const { where, when, what } = line.away;
      return [
        blank,
        say.shortDay(line.day),
        line.time ?? null,
        where || null,
        when || null,
        what,
        null,
        null,
        line.minutes!,
        blank,
      ];
    }
    const { tree, watering, litres } = line.task!;
    const j = line.joined;
    const count = j?.trees ?? tree.count;
    const own = j && j.rows > 1 ? line.stop!.address : tree.address || line.stop!.address;
    const address = own === line.stop!.site ? '' : own;
    return [
      cell(null, 'field'),
      // with its day, so that a page that carries a day on still says which
      `${say.shortDay(line.day)} · ${line.number}`,
      line.time ?? null,
      [line.stop!.site, address].filter(Boolean).join(' · '),
      j && j.rows > 1
        ? `${say.count(j.trees, 'tree', 'trees')}, ${say.count(j.rows, 'row', 'rows')}`
        : [
            tree.id,
            tree.species,
            say.assumed(tree),
            ...(count > 1 ? [say.count(count, 'tree', 'trees')] : []),
          ]
            .filter(Boolean)
            .join(' · '),
      j && j.rows > 1
        ? `${say.toDo({ ...watering, joined: 1 })} (${watering.device})`
        : [`${say.toDo(watering)} (${watering.device})`, say.run(watering)]
            .filter(Boolean)
            .join(': '),
      ctx.show('volume', (j?.litres ?? litres) / count),
      ctx.show('volume', j?.litres ?? litres),
      line.minutes!,
      cell(null, 'field'),
    ];
  });
  all.forEach((line, i) => {
    const breaks = draft.breaks;
    if (line.last && i < all.length - 1 && breaks < MOST_BREAKS) draft.breakAfter(place.row(i));
  });
  draft.freeze(place.headerRow).repeat(1, place.headerRow);
  if (all.length > 0) draft.breakAfter(place.row(all.length - 1));
  draft.text(cardLines(ctx, language));
  const unread = UNREAD[language];
  if (unread !== undefined) draft.text(across(unread, 'note').map((text) => cell(text, 'note')));
  // that local code decides stands among the cautions, which every page repeats: not a second time in its margin
  draft.pageWords({
    header: ctx.plan.site.name,
    footer: unread ?? `${word('aidShort')} · ${word('made')} ${isoDate(ctx.madeOn)}`,
    page: word('page'),
    of: word('of'),
  });
  return { sheet: draft.done(), refs: { place, days: ctx.plan.crewDays.length } };
}
