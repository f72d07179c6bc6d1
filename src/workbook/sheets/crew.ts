/** Crew: pages to print, a new page each crew and day, for sunlight and wet hands. */
import type { Day } from '../../engine/dates.js';
import type { CrewStop, CrewTask, TankFilling } from '../../engine/plan/model.js';
import {
  cell,
  lines,
  SheetDraft,
  type ColumnSpec,
  type ModelCell,
  type RichCell,
  type TablePlace,
} from '../model.js';
import { CrewSpeech, spell } from '../crew-speech.js';
import { UNREAD, type Language } from '../crew-words.js';
import { FieldCard } from '../field-card-words.js';
import { crewRounds, type Round } from '../exports/rounds.js';
import type { Context } from './context.js';
import type { Built } from './inputs.js';

export { spell };

/** More page breaks than this no spreadsheet program keeps. */
const MOST_BREAKS = 1000;
/** Characters of a line that runs over the whole width. */
const LINE = 120;

function roundLine(ctx: Context, round: Round, say: CrewSpeech): string {
  const parts = [
    say.datedDay(round.day),
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
  filling?: Omit<TankFilling, 'before'>;
  number: number;
  heading?: string;
  /** the heading is a warning: it stands in a frame */
  warns?: boolean;
  /** last line of its round */
  last: boolean;
  joined?: { rows: number; trees: number; litres: number; minutes: number };
}

/** Tasks with the same device, of a stop or of a whole day, as one, when there are too many for a sheet. */
function joinTasks(day: Day, stops: readonly CrewStop[], number: number, say: CrewSpeech): Line[] {
  const groups = new Map<string, Line>();
  const tasks = stops.flatMap((stop) => stop.tasks.map((task) => ({ stop, task })));
  for (const { stop, task } of tasks) {
    const key = task.watering.device;
    const line = groups.get(key) ?? {
      day,
      task,
      stop:
        stops.length === 1
          ? stop
          : { ...stop, site: say.count(stops.length, 'sites', 'sites'), address: '' },
      number,
      last: false,
      joined: { rows: 0, trees: 0, litres: 0, minutes: 0 },
    };
    line.joined!.rows += 1;
    line.joined!.trees += task.tree.count;
    line.joined!.litres += task.litres;
    line.joined!.minutes += task.minutes;
    groups.set(key, line);
  }
  return [...groups.values()];
}

/** The tank filled as often as several times together; nothing for none. */
function joinFillings(day: Day, stops: readonly CrewStop[]): Line[] {
  const all = stops.flatMap(({ fillings = [] }) => fillings);
  if (all.length === 0) return [];
  const add = (pick: (filling: TankFilling) => number): number =>
    all.reduce((sum, filling) => sum + pick(filling), 0);
  const filling = { loads: add(({ loads }) => loads), minutes: add(({ minutes }) => minutes) };
  return [{ day, filling, number: 0, last: false }];
}

/** Tasks of a stop, each after the fillings of the tank it waits for. */
const stopLines = (day: Day, stop: CrewStop, number: number): Line[] =>
  stop.tasks.flatMap((task, t): Line[] => [
    ...(stop.fillings ?? [])
      .filter(({ before }) => before === t)
      .map((filling): Line => ({ day, filling, number: 0, last: false })),
    { day, task, stop, number, last: false },
  ]);

function crewLines(ctx: Context, rounds: readonly Round[], say: CrewSpeech): Line[] {
  const out: Line[] = [];
  for (const round of rounds) {
    const { day, stops } = round;
    const about = { day, number: 0, last: false };
    out.push({ ...about, heading: roundLine(ctx, round, say) });
    const warning = say.tooMuch(round);
    if (warning !== '') out.push({ ...about, heading: warning, warns: true });
    const hours = [sourceLine(round, say), say.lawByMeans(stops)].filter((text) => text !== '');
    for (const heading of hours.flatMap((text) => lines(text, LINE)))
      out.push({ ...about, heading });
    if (ctx.joined === 'by day')
      out.push(...joinFillings(day, stops), ...joinTasks(day, stops, 1, say));
    else
      stops.forEach((stop, s) => {
        if (ctx.joined === 'by site')
          out.push(...joinFillings(day, [stop]), ...joinTasks(day, [stop], s + 1, say));
        else out.push(...stopLines(day, stop, s + 1));
      });
    out[out.length - 1]!.last = true;
  }
  return out;
}

/** Sentences in lines: each starts a line unless it fits whole beside the one before. */
function packed(sentences: readonly string[]): string[] {
  const out: string[] = [];
  for (const sentence of sentences) {
    const beside = `${out.at(-1) ?? ''}  ·  ${sentence}`;
    if (out.length > 0 && beside.length <= LINE) out[out.length - 1] = beside;
    else out.push(...lines(sentence, LINE));
  }
  return out;
}

/** The field card, below the last round on a page of its own: leaves, soil and act in the columns of place, trees, what to do. */
function cardLines(ctx: Context, language: Language): RichCell[][] {
  const card = new FieldCard(language, ctx.units);
  const across = (text: string): RichCell[] => [
    cell(text, 'heading'),
    ...Array.from({ length: 8 }, () => cell(null, 'heading')),
  ];
  // the first text has two columns to run over
  const line = ([first, second, act]: readonly string[], style: 'text' | 'header'): RichCell[] => [
    cell(null),
    cell(first!, style),
    cell(null, style),
    cell(second!, style),
    cell(act!, style),
  ];
  return [
    across(`${card.word('title')} · ${card.word('back')}`),
    line([card.word('leaves'), card.word('soil'), card.word('act')], 'header'),
    ...card.rows().map((row) => line(row, 'text')),
    [cell(null)],
    line([card.word('probe'), card.word('depth'), card.word('act')], 'header'),
    ...card.probes().map((row) => line(row, 'text')),
    ...card.sources().map((text) => [cell(text, 'note')]),
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
  const all = crewLines(ctx, rounds, say);
  const gal = ctx.unit('volume');
  const draft = new SheetDraft(word('sheetName'), word('title'), { pagesWide: 0 }, 12);
  const stops = rounds.flatMap((round) => round.stops);
  const cautions = packed([...say.cautions(stops), ...say.onTheSpot(stops)]);
  draft.text([
    cell(`${word('title')} · ${ctx.plan.site.name}`, 'title'),
    ...cautions.map((text) => [
      cell(text, 'frame'),
      ...Array.from({ length: 8 }, () => cell(null, 'frame')),
    ]),
  ]);
  const columns: ColumnSpec[] = [
    { key: 'box', header: word('done'), width: 8, style: 'field', align: 'center' },
    { key: 'stop', header: word('dayStop'), width: 12, align: 'center' },
    { key: 'where', header: word('where'), width: 23, wrap: true },
    { key: 'trees', header: word('treesHeader'), width: 21, wrap: true },
    { key: 'what', header: word('whatToDo'), width: 26, wrap: true },
    { key: 'each', header: `${word('each')} (${gal})`, width: 8, format: 'one' },
    { key: 'volume', header: `${word('all')} (${gal})`, width: 8, format: 'one' },
    { key: 'minutes', header: word('crewMinutes'), width: 7, format: 'whole', align: 'center' },
    { key: 'reading', header: word('reading'), width: 13, style: 'field' },
  ];
  const place = draft.table(word('sheetName'), columns, all.length, (i): ModelCell[] => {
    const line = all[i]!;
    if (line.heading !== undefined) {
      const style = line.warns ? 'frame' : 'heading';
      return [cell(line.heading, style), ...columns.slice(1).map(() => cell(null, style))];
    }
    if (line.filling) {
      const { loads, minutes } = line.filling;
      // no box and no gallons: it is no stop at trees, and what is summed or logged is theirs
      const blank = cell(null, 'text');
      return [
        blank,
        say.shortDay(line.day),
        word('waterPoint'),
        null,
        say.fill(loads),
        null,
        null,
        minutes,
        blank,
      ];
    }
    const { tree, watering, litres, minutes } = line.task!;
    const j = line.joined;
    const count = j?.trees ?? tree.count;
    const own = j && j.rows > 1 ? line.stop!.address : tree.address || line.stop!.address;
    const address = own === line.stop!.site ? '' : own;
    return [
      cell(null, 'field'),
      // with its day, so that a page that carries a day on still says which
      `${say.shortDay(line.day)} · ${line.number}`,
      [line.stop!.site, address].filter(Boolean).join(' · '),
      j && j.rows > 1
        ? `${say.count(j.trees, 'tree', 'trees')}, ${say.count(j.rows, 'row', 'rows')}`
        : [tree.id, tree.species, ...(count > 1 ? [say.count(count, 'tree', 'trees')] : [])]
            .filter(Boolean)
            .join(' · '),
      j && j.rows > 1
        ? `${say.toDo({ ...watering, joined: 1 })} (${watering.device})`
        : [`${say.toDo(watering)} (${watering.device})`, say.run(watering)]
            .filter(Boolean)
            .join(': '),
      ctx.show('volume', (j?.litres ?? litres) / count),
      ctx.show('volume', j?.litres ?? litres),
      j?.minutes ?? minutes,
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
  if (unread !== undefined) {
    draft.text(lines(unread, LINE).map((text) => cell(text, 'note')));
    draft.pageWords({
      header: word('aid'),
      footer: unread,
      page: word('page'),
      of: word('of'),
    });
  }
  return { sheet: draft.done(), refs: { place, days: ctx.plan.crewDays.length } };
}
