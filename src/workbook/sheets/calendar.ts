/** Calendar: a grid a month to hang up, and the days behind it. */
import { civil, MONTHS, weekday, WEEKDAYS } from '../../engine/dates.js';
import { calendarDays, type CalendarDay } from '../calendar-days.js';
import { cell, formula, SheetDraft, type ModelCell, type TablePlace } from '../model.js';
import type { Context } from './context.js';
import type { Built } from './inputs.js';

/** Monday first, as weeks of a budget are counted. */
const WEEK = [1, 2, 3, 4, 5, 6, 0] as const;
type Line = 'date' | 'rules' | 'crew h' | 'volume';
/** Lines of a week; the rules of its days have one where any day of the season has something to say. */
const LINES: readonly Line[] = ['date', 'crew h', 'volume'];
const LINES_WITH_RULES: readonly Line[] = ['date', 'rules', 'crew h', 'volume'];
/** Months on one printed page, without and with the line of rules. */
const MONTHS_A_PAGE = 3;
const MONTHS_A_PAGE_WITH_RULES = 2;
/** Width of a square: "✕ soaker" and "12,345" fit [characters]. */
const SQUARE = 11;
/** Above this many rows of Plan the days carry values: adding them up anew would take minutes. */
const MOST_SUMMED = 20_000;

interface Month {
  title: string;
  year: number;
  month: number;
  /** Monday to Sunday; undefined outside month or season */
  weeks: (CalendarDay | undefined)[][];
}

function monthsOf(days: readonly CalendarDay[]): Month[] {
  const months: Month[] = [];
  for (const day of days) {
    const { year, month } = civil(day.day);
    let last = months.at(-1);
    if (last?.month !== month || last.year !== year)
      months.push((last = { title: `${MONTHS[month - 1]} ${year}`, year, month, weeks: [] }));
    const column = (WEEK as readonly number[]).indexOf(weekday(day.day));
    if (column === 0 || last.weeks.length === 0) last.weeks.push(Array.from({ length: 7 }));
    last.weeks.at(-1)![column] = day;
  }
  return months;
}

/** `✕ hand`, `✕ all`, `~ bag`, `off`: what a square has room for. */
export function dayMark({ barred, closed, partly, crewOff }: CalendarDay): string {
  if (barred) return '✕ all';
  const few = ([one, ...others]: string[]): string =>
    others.length === 0 ? one! : `${others.length + 1} means`;
  if (closed.length > 0) return `✕ ${few(closed)}`;
  if (partly.length > 0) return `~ ${few(partly)}`;
  return crewOff ? 'off' : '';
}

/** The whole of it, for the list of days. */
function notAllowed({ barred, closed, partly, crewOff }: CalendarDay): string {
  return [
    ...(barred ? ['no watering'] : closed.length > 0 ? [`no ${closed.join(', ')}`] : []),
    ...(partly.length > 0 ? [`by address: ${partly.join(', ')}`] : []),
    ...(crewOff ? ['crew off'] : []),
  ].join('; ');
}

/** Stages are read without the word, so that "Stage 2" and "2" are one. */
export const stageWords = (stage: string): string =>
  stage === '' || /^stage/i.test(stage) ? stage : `Stage ${stage}`;

/** `Stage 1 from 1 Jun, Stage 2 from 14 Jun`; '' without stages. */
function stagesOf(month: Month): string {
  const days = month.weeks.flat().filter((d) => d !== undefined);
  const runs: { stage: string; from: number }[] = [];
  for (const { day, stage } of days)
    if (runs.at(-1)?.stage !== stage) runs.push({ stage, from: civil(day).date });
  return runs
    .filter(({ stage }) => stage !== '')
    .map(({ stage, from }, i) => {
      const name = stageWords(stage);
      return runs.length === 1 && i === 0 ? name : `${name} from ${from} ${MONTHS[month.month - 1]}`;
    })
    .join(', ');
} // prettier-ignore

export interface CalendarRefs {
  days: TablePlace;
  /** sums of the season, of the engine [h], [L] */
  hours: number;
  litres: number;
}

export function calendarSheet(
  ctx: Context,
  plan: { place: TablePlace; rows: number },
): Built<CalendarRefs> {
  const gal = ctx.unit('volume');
  const days = calendarDays(ctx, (device) => ctx.automatic(device));
  const months = monthsOf(days);
  const ruled = days.some((day) => dayMark(day) !== '');
  const weekLines = ruled ? LINES_WITH_RULES : LINES;
  const monthsAPage = ruled ? MONTHS_A_PAGE_WITH_RULES : MONTHS_A_PAGE;
  const draft = new SheetDraft('Calendar', 'Calendar', { orientation: 'portrait' });
  draft.text([
    cell('Calendar', 'title'),
    cell(`Each square: date,${ruled ? ' what is not allowed,' : ''} crew hours of the day, ${gal} of the day. The list of days stands below.`, 'note'),
    ...(ruled
      ? [
          cell('✕ means that no tree may be watered with on that day; ~ only some addresses may; off: no work day of the crew.', 'note'),
          cell('Where it is more than one means, the list of days names them. Framed hours: more than the crew has.', 'note'),
        ]
      : [cell('Framed hours: more than the crew has.', 'note')]),
  ]); // prettier-ignore
  draft.skip();
  // The grids come first on paper and point at the days below: their rows are known beforehand.
  const rowsOf = (m: Month): number => 1 + 1 + m.weeks.length * weekLines.length + 1;
  const listTop = draft.row + months.reduce((sum, m) => sum + rowsOf(m), 0) + 1;
  const first = ctx.plan.site.seasonFrom;
  const at = (column: string, day: CalendarDay): string =>
    `$${column}$${listTop + 1 + day.day - first}`;
  const HOURS = 'G';
  const WATER = 'J';

  months.forEach((month, m) => {
    const stages = stagesOf(month);
    draft.text([cell(`${month.title}${stages ? ` · ${stages}` : ''}`, 'heading')]);
    draft.table(
      `Month_${month.year}_${String(month.month).padStart(2, '0')}`,
      [
        { key: 'what', header: 'Week', width: 12, style: 'note' },
        ...WEEK.map((w) => ({
          key: WEEKDAYS[w]!,
          header: WEEKDAYS[w]!,
          width: SQUARE,
          // with a style a date keeps to its square
          style: 'text' as const,
          align: 'right' as const,
        })),
        { key: 'week', header: 'All week', width: SQUARE, style: 'result', align: 'right' },
      ],
      month.weeks.length * weekLines.length,
      (i, place): ModelCell[] => {
        const week = month.weeks[Math.floor(i / weekLines.length)]!;
        const line = weekLines[i % weekLines.length]!;
        if (line === 'date')
          return [
            cell(line, 'heading'),
            ...week.map((d) => cell(d ? civil(d.day).date : null, 'heading', { format: 'whole' })),
            cell(null, 'heading'),
          ];
        if (line === 'rules') return [line, ...week.map((d) => (d && dayMark(d)) || null), null];
        const hours = line === 'crew h';
        const value = (d: CalendarDay): number =>
          hours ? d.atTrees + d.driving + d.refills : ctx.show('volume', d.byCrew + d.byTimer);
        const format = hours ? 'one' : 'whole';
        const row = place.row(i);
        return [
          hours ? line : gal,
          ...week.map((d): ModelCell => {
            if (!d) return null;
            const from = at(hours ? HOURS : WATER, d);
            const style = hours && d.overload ? 'look' : hours ? 'text' : 'calculation';
            return formula(`IF(${from}=0,"",${from})`, value(d) === 0 ? '' : value(d), {
              style,
              format,
            });
          }),
          formula(
            `SUM($B${row}:$H${row})`,
            week.reduce((sum, d) => sum + (d ? value(d) : 0), 0),
            { format },
          ),
        ];
      },
    );
    draft.skip();
    if ((m + 1) % monthsAPage === 0 || m === months.length - 1) draft.breakAfter(draft.row - 1);
  });

  draft.text([cell('Day by day', 'heading')]);
  const date = (i: number, list: TablePlace): string => list.here('date', i);
  const summed = plan.rows <= MOST_SUMMED;
  const ofPlan = (by: string, i: number, list: TablePlace): string =>
    `SUMIFS(${plan.place.range('volume')},${plan.place.range('date')},${date(i, list)},${plan.place.range('by')},"${by}")`;
  const list = draft.table(
    'Days',
    [
      { key: 'date', header: 'Date', width: 12, style: 'result', format: 'date' },
      { key: 'stage', header: 'Stage', width: 11 },
      { key: 'stops', header: 'Stops', width: 11, style: 'calculation', format: 'whole' },
      { key: 'atTrees', header: 'At trees (h)', width: 11, style: 'calculation', format: 'two' },
      { key: 'driving', header: 'Driving (h)', width: 11, style: 'calculation', format: 'two' },
      { key: 'refills', header: 'Refills (h)', width: 11, style: 'calculation', format: 'two' },
      { key: 'hours', header: 'Crew (h)', width: 11, style: 'result', format: 'two' },
      { key: 'byCrew', header: `By crew (${gal})`, width: 11, style: 'calculation', format: 'whole' },
      { key: 'byTimer', header: `By timer (${gal})`, width: 11, style: 'calculation', format: 'whole' },
      { key: 'volume', header: `All (${gal})`, width: 11, style: 'result', format: 'whole' },
      { key: 'closed', header: 'Not allowed', width: 24, wrap: true, style: 'note' },
    ],
    days.length,
    (i, place): ModelCell[] => {
      const d = days[i]!;
      const [crew, timer] = [ctx.show('volume', d.byCrew), ctx.show('volume', d.byTimer)];
      const here = (key: string): string => place.here(key, i);
      return [
        d.day,
        stageWords(d.stage),
        d.stops,
        d.atTrees,
        d.driving,
        d.refills,
        formula(`${here('atTrees')}+${here('driving')}+${here('refills')}`, d.atTrees + d.driving + d.refills),
        summed ? formula(ofPlan('crew', i, place), crew) : crew,
        summed ? formula(ofPlan('timer', i, place), timer) : timer,
        formula(`${here('byCrew')}+${here('byTimer')}`, crew + timer),
        notAllowed(d),
      ];
    },
  ); // prettier-ignore
  if (list.headerRow !== listTop || list.letter('hours') !== HOURS || list.letter('volume') !== WATER)
    throw new RangeError('the days of Calendar are not where its grids look for them'); // prettier-ignore
  draft.repeat(list.headerRow, list.headerRow);
  const sum = (pick: (d: CalendarDay) => number): number =>
    days.reduce((total, d) => total + pick(d), 0);
  return {
    sheet: draft.done(),
    refs: {
      days: list,
      hours: sum((d) => d.atTrees + d.driving + d.refills),
      litres: sum((d) => d.byCrew + d.byTimer),
    },
  };
}
