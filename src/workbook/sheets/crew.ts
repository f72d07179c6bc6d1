/** Crew: pages to print, a new page each crew day, for sunlight and wet hands. */
import { civil, MONTHS, WEEKDAYS, weekday, isoDate, type Day } from '../../engine/dates.js';
import type { CrewDay, CrewStop, CrewTask, Family } from '../../engine/plan/model.js';
import {
  cell,
  lines,
  SheetDraft,
  type ColumnSpec,
  type ModelCell,
  type TablePlace,
} from '../model.js';
import { CAUTIONS } from '../words.js';
import type { Context } from './context.js';
import type { Built } from './inputs.js';

const TO_DO: Readonly<Record<Family, string>> = {
  bag: 'Check bag and stem, fill',
  pad: 'Lift pad, soak it, lay it back',
  soaker: 'Open the soaker hose',
  hand: 'Water slowly by hand',
  tanker: 'Water slowly from the truck',
};

/** More page breaks than this no spreadsheet program keeps. */
const MOST_BREAKS = 1000;
const BOX = '☐';

/** `4 h 40 min` */
export function spell(hours: number): string {
  const minutes = Math.round(hours * 60);
  const [h, min] = [Math.floor(minutes / 60), minutes % 60];
  return h === 0 ? `${min} min` : min === 0 ? `${h} h` : `${h} h ${min} min`;
}

const longDay = (day: Day): string => {
  const { month, date } = civil(day);
  return `${WEEKDAYS[weekday(day)]} ${date} ${MONTHS[month - 1]} (${isoDate(day)})`;
};

const shortDay = (day: Day): string => {
  const { month, date } = civil(day);
  return `${date} ${MONTHS[month - 1]}`;
};

const plural = (n: number, word: string): string =>
  `${n.toLocaleString('en-US')} ${word}${n === 1 ? '' : 's'}`;

/** Where the water of a task comes from, in a word. */
const waterOf = (task: CrewTask): string =>
  task.watering.family === 'tanker' || task.tree.tap === false
    ? 'truck tank'
    : (task.tree.source ?? 'tap');

function dayLine(ctx: Context, day: CrewDay): string {
  const waters = new Set(day.stops.flatMap((s) => s.tasks.map(waterOf)));
  const parts = [
    longDay(day.day),
    plural(day.stops.length, 'stop'),
    `${Math.round(ctx.show('volume', day.litres)).toLocaleString('en-US')} ${ctx.unit('volume')}`,
    spell(day.hours),
    ...(day.tankLoads > 0 ? [plural(day.tankLoads, 'tank load')] : []),
    `water: ${[...waters].join(', ')}`,
  ];
  return `${parts.join(' · ')}${day.overload ? ' · ▲ MORE HOURS THAN THE CREW HAS' : ''}`;
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
function joinTasks(day: Day, stops: readonly CrewStop[], number: number): Line[] {
  const groups = new Map<string, Line>();
  const tasks = stops.flatMap((stop) => stop.tasks.map((task) => ({ stop, task })));
  for (const { stop, task } of tasks) {
    const key = task.watering.device;
    const line = groups.get(key) ?? {
      day,
      task,
      stop: stops.length === 1 ? stop : { ...stop, site: `${stops.length} sites`, address: '' },
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

function crewLines(ctx: Context): Line[] {
  const out: Line[] = [];
  for (const day of ctx.plan.crewDays) {
    out.push({
      day: day.day,
      heading: dayLine(ctx, day),
      overload: day.overload,
      number: 0,
      last: false,
    });
    if (ctx.joined === 'by day') out.push(...joinTasks(day.day, day.stops, 1));
    else
      day.stops.forEach((stop, s) => {
        if (ctx.joined === 'by site') out.push(...joinTasks(day.day, [stop], s + 1));
        else
          for (const task of stop.tasks)
            out.push({ day: day.day, task, stop, number: s + 1, last: false });
      });
    out[out.length - 1]!.last = true;
  }
  return out;
}

export function crewSheet(ctx: Context): Built<{ place: TablePlace; days: number }> {
  const all = crewLines(ctx);
  const gal = ctx.unit('volume');
  const draft = new SheetDraft('Crew', 'Crew sheet', { pagesWide: 0 }, 12);
  const cautions = lines(CAUTIONS.map((c) => c.short).join('  ·  '), 100);
  draft.text([
    cell(`Crew sheet · ${ctx.plan.site.name}`, 'title'),
    ...cautions.map((text) => [
      cell(text, 'frame'),
      ...Array.from({ length: 8 }, () => cell(null, 'frame')),
    ]),
  ]);
  const columns: ColumnSpec[] = [
    { key: 'box', header: 'Done', width: 7, align: 'center' },
    { key: 'stop', header: 'Day · stop', width: 12, align: 'center' },
    { key: 'where', header: 'Site and address', width: 25, wrap: true },
    { key: 'trees', header: 'Trees', width: 22, wrap: true },
    { key: 'what', header: 'What to do', width: 24, wrap: true },
    { key: 'each', header: `Each (${gal})`, width: 8, format: 'one' },
    { key: 'volume', header: `All (${gal})`, width: 8, format: 'one' },
    { key: 'minutes', header: 'Crew (min)', width: 7, format: 'whole' },
    { key: 'reading', header: 'Reading', width: 13, style: 'field' },
  ];
  const place = draft.table('Crew', columns, all.length, (i): ModelCell[] => {
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
      `${shortDay(line.day)} · ${line.number}`,
      [line.stop!.site, address].filter(Boolean).join(' · '),
      j && j.rows > 1
        ? `${plural(j.trees, 'tree')}, ${plural(j.rows, 'row')}`
        : [tree.id, tree.species, ...(count > 1 ? [`${count} trees`] : [])]
            .filter(Boolean)
            .join(' · '),
      `${TO_DO[watering.family]} (${watering.device})`,
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
  return { sheet: draft.done(), refs: { place, days: ctx.plan.crewDays.length } };
}
