/** Crew: pages to print, a new page each crew day, for sunlight and wet hands. */
import { civil, weekday, isoDate, type Day } from '../../engine/dates.js';
import type { CrewDay, CrewStop, CrewTask, Family } from '../../engine/plan/model.js';
import {
  cell,
  lines,
  SheetDraft,
  type ColumnSpec,
  type ModelCell,
  type TablePlace,
} from '../model.js';
import {
  CREW_CAUTIONS,
  CREW_WORDS,
  FAMILY_NAMES,
  MONTH_WORDS,
  TO_DO,
  UNREAD,
  WATERS,
  WEEKDAY_WORDS,
  type CrewWord,
  type Language,
} from '../crew-words.js';
import type { Context } from './context.js';
import type { Built } from './inputs.js';

/** More page breaks than this no spreadsheet program keeps. */
const MOST_BREAKS = 1000;
const BOX = '☐';

/** `4 h 40 min` */
export function spell(hours: number): string {
  const minutes = Math.round(hours * 60);
  const [h, min] = [Math.floor(minutes / 60), minutes % 60];
  return h === 0 ? `${min} min` : min === 0 ? `${h} h` : `${h} h ${min} min`;
}

/** What a sheet says, in its language. */
class Speech {
  constructor(readonly language: Language) {}

  word = (key: CrewWord): string => CREW_WORDS[key][this.language];

  shortDay(day: Day): string {
    const { month, date } = civil(day);
    return `${date} ${MONTH_WORDS[month - 1]![this.language]}`;
  }

  longDay(day: Day): string {
    return `${WEEKDAY_WORDS[weekday(day)]![this.language]} ${this.shortDay(day)} (${isoDate(day)})`;
  }

  count(n: number, single: CrewWord, several: CrewWord): string {
    return `${n.toLocaleString('en-US')} ${this.word(n === 1 ? single : several)}`;
  }

  /** Where the water of a task comes from, in a word. */
  waterOf(task: CrewTask): string {
    const { watering, tree } = task;
    const source =
      watering.family === 'tanker' || tree.tap === false ? 'truck tank' : (tree.source ?? 'tap');
    return WATERS[source][this.language];
  }

  hours(hours: string): string {
    return hours === 'any' ? this.word('anyHour') : hours;
  }
}

function dayLine(ctx: Context, day: CrewDay, say: Speech): string {
  const parts = [
    say.longDay(day.day),
    say.count(day.stops.length, 'stop', 'stops'),
    `${Math.round(ctx.show('volume', day.litres)).toLocaleString('en-US')} ${ctx.unit('volume')}`,
    spell(day.hours),
    ...(day.tankLoads > 0 ? [say.count(day.tankLoads, 'tankLoad', 'tankLoads')] : []),
  ];
  return `${parts.join(' · ')}${day.overload ? ` · ▲ ${say.word('overload')}` : ''}`;
}

/** Sources of water of the day, and the hours each means may run; once where all have the same. */
function sourceLine(day: CrewDay, say: Speech): string {
  const tasks = day.stops.flatMap((s) => s.tasks);
  const waters = new Set(tasks.map((task) => say.waterOf(task)));
  const families = new Map<string, Set<Family>>();
  for (const { watering } of tasks) {
    const hours = say.hours(watering.hours);
    families.set(hours, (families.get(hours) ?? new Set()).add(watering.family));
  }
  const all = [...families].map(([hours, which]) =>
    families.size === 1
      ? hours
      : `${[...which].map((family) => FAMILY_NAMES[family][say.language]).join(', ')} ${hours}`,
  );
  return `${say.word('water')}: ${[...waters].join(', ')} · ${say.word('hours')}: ${all.join('; ')}`;
}

interface Line {
  day: Day;
  task?: CrewTask;
  stop?: CrewStop;
  number: number;
  heading?: string;
  overload?: boolean;
  /** last line of its day */
  last: boolean;
  joined?: { rows: number; trees: number; litres: number; minutes: number };
}

/** Tasks with the same device, of a stop or of a whole day, as one, when there are too many for a sheet. */
function joinTasks(day: Day, stops: readonly CrewStop[], number: number, say: Speech): Line[] {
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

function crewLines(ctx: Context, say: Speech): Line[] {
  const out: Line[] = [];
  for (const day of ctx.plan.crewDays) {
    const about = { day: day.day, overload: day.overload, number: 0, last: false };
    out.push({ ...about, heading: dayLine(ctx, day, say) });
    for (const heading of lines(sourceLine(day, say), LINE))
      out.push({ ...about, overload: false, heading });
    if (ctx.joined === 'by day') out.push(...joinTasks(day.day, day.stops, 1, say));
    else
      day.stops.forEach((stop, s) => {
        if (ctx.joined === 'by site') out.push(...joinTasks(day.day, [stop], s + 1, say));
        else
          for (const task of stop.tasks)
            out.push({ day: day.day, task, stop, number: s + 1, last: false });
      });
    out[out.length - 1]!.last = true;
  }
  return out;
}

/** Characters of a line that runs over the whole width. */
const LINE = 120;

/** @param language - one a sheet; the sheet and its table are named by it */
export function crewSheet(
  ctx: Context,
  language: Language = 'en',
): Built<{ place: TablePlace; days: number }> {
  const say = new Speech(language);
  const { word } = say;
  const all = crewLines(ctx, say);
  const gal = ctx.unit('volume');
  const draft = new SheetDraft(word('sheetName'), word('title'), { pagesWide: 0 }, 12);
  const used = new Set(
    ctx.plan.crewDays.flatMap((day) =>
      day.stops.flatMap((stop) => stop.tasks.map((task) => task.watering.family)),
    ),
  );
  const advice = [
    ...(used.has('bag') ? [word('stillFull')] : []),
    ...(used.has('hand') || used.has('tanker') ? [word('basin')] : []),
  ];
  const cautions = [
    ...lines(CREW_CAUTIONS.map((c) => c[language]).join('  ·  '), LINE),
    ...lines(advice.join('  ·  '), LINE),
  ];
  draft.text([
    cell(`${word('title')} · ${ctx.plan.site.name}`, 'title'),
    ...cautions.map((text) => [
      cell(text, 'frame'),
      ...Array.from({ length: 8 }, () => cell(null, 'frame')),
    ]),
  ]);
  const columns: ColumnSpec[] = [
    { key: 'box', header: word('done'), width: 7, align: 'center' },
    { key: 'stop', header: word('dayStop'), width: 12, align: 'center' },
    { key: 'where', header: word('where'), width: 24, wrap: true },
    { key: 'trees', header: word('treesHeader'), width: 21, wrap: true },
    { key: 'what', header: word('whatToDo'), width: 26, wrap: true },
    { key: 'each', header: `${word('each')} (${gal})`, width: 8, format: 'one' },
    { key: 'volume', header: `${word('all')} (${gal})`, width: 8, format: 'one' },
    { key: 'minutes', header: word('crewMinutes'), width: 7, format: 'whole' },
    { key: 'reading', header: word('reading'), width: 13, style: 'field' },
  ];
  const place = draft.table(word('sheetName'), columns, all.length, (i): ModelCell[] => {
    const line = all[i]!;
    if (line.heading !== undefined) {
      const style = line.overload ? 'look' : 'heading';
      const first = cell(line.heading, style);
      return [first, ...columns.slice(1).map(() => cell(null, 'heading'))];
    }
    const { tree, watering, litres, minutes } = line.task!;
    const j = line.joined;
    const count = j?.trees ?? tree.count;
    const own = j && j.rows > 1 ? line.stop!.address : tree.address || line.stop!.address;
    const address = own === line.stop!.site ? '' : own;
    return [
      BOX,
      // with its day, so that a page that carries a day on still says which
      `${say.shortDay(line.day)} · ${line.number}`,
      [line.stop!.site, address].filter(Boolean).join(' · '),
      j && j.rows > 1
        ? `${say.count(j.trees, 'tree', 'trees')}, ${say.count(j.rows, 'row', 'rows')}`
        : [tree.id, tree.species, ...(count > 1 ? [say.count(count, 'tree', 'trees')] : [])]
            .filter(Boolean)
            .join(' · '),
      `${TO_DO[watering.family][language]} (${watering.device})`,
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
