/** The season by weeks: demand as a line, watering and rain as bars on each other, stages as named lines. */
import { line, rect, ruleX, ruleY, text } from '@observablehq/plot';
import { isoDate } from '../../engine/dates.js';
import type { SeasonSeries } from '../../workbook/series-types.js';
import { amountAxis, dateOf, draw, leftMargin, monthAxis } from './axes.js';
import { figure, sampleBox, sampleLine } from './figure.js';
import { hatch, INKS } from './inks.js';
import type { PictureWords, SeasonTotals } from './words.js';

const HEIGHT = 220;
const MARGIN = { right: 10, bottom: 32 };
/** Height of a line of stage names, and width of one of their letters [px]. */
const NAME_LINE = 14;
const LETTER = 6.6;

type Week = SeasonSeries['weeks'][number];

function totalsOf({ weeks }: SeasonSeries, { f }: PictureWords): SeasonTotals {
  const sum = (pick: (week: Week) => number): string =>
    f.amount(weeks.reduce((total, week) => total + pick(week), 0));
  const most = weeks.reduce<Week | undefined>(
    (best, week) => (week.watering > (best?.watering ?? 0) ? week : best),
    undefined,
  );
  return {
    demand: sum((w) => w.demand),
    watering: sum((w) => w.watering),
    rain: sum((w) => w.rain),
    weeks: weeks.length,
    most: most && { from: f.day(most.from), amount: f.amount(most.watering) },
  };
}

interface StageName {
  at: Date;
  name: string;
  /** line of names it stands on, from the drawing upwards */
  level: number;
  before: boolean;
}

/** Names beside their lines, each on the first line of names where it is free. */
function stageNames(series: SeasonSeries, words: PictureWords, from: number, to: number, width: number): StageName[] {
  const ends: number[] = [];
  return series.stages.map(({ day, name }) => {
    const said = name === '' ? words.season.noStage : name;
    const length = said.length * LETTER + 8;
    const x = ((day - from) / (to - from)) * width;
    const before = x + length > width && x >= length;
    const start = before ? x - length : x;
    let level = ends.findIndex((end) => end <= start);
    if (level < 0) level = ends.length;
    ends[level] = start + length;
    return { at: dateOf(day), name: said, level, before };
  });
} // prettier-ignore

/**
 * @param width - of the drawing [px]
 */
export function seasonPicture(
  series: SeasonSeries,
  words: PictureWords,
  width: number,
): HTMLElement {
  const { weeks, unit } = series;
  const { f, season } = words;
  const totals = totalsOf(series, words);
  const [from, to] = [weeks[0]?.from ?? 0, (weeks.at(-1)?.to ?? 0) + 1];
  const most = Math.max(1, ...weeks.map((w) => Math.max(w.demand, w.watering + w.rain)));
  const marginLeft = leftMargin(most, f);
  const room = width - marginLeft - MARGIN.right;
  const names = stageNames(series, words, from, to, room);
  const marginTop = 22 + NAME_LINE * Math.max(0, ...names.map(({ level }) => level + 1));
  const rain = hatch({ ink: INKS.water, angle: 45, apart: 4, wide: 1.4, ground: INKS.paper });
  const week = { x1: (w: Week) => dateOf(w.from), x2: (w: Week) => dateOf(w.to + 1) };
  const bar = { ...week, insetLeft: 0.75, insetRight: 0.75, stroke: INKS.water, strokeWidth: 0.75 };
  const middle = {
    x: (w: Week) => dateOf((w.from + w.to + 1) / 2),
    y: 'demand',
    strokeLinejoin: 'round',
  } as const;
  const namesOf = (before: boolean) =>
    ([...new Set(names.map(({ level }) => level))].map((level) =>
      text(
        names.filter((n) => n.level === level && n.before === before),
        { x: 'at', text: 'name', frameAnchor: 'top', textAnchor: before ? 'end' : 'start', dx: before ? -3 : 3, dy: -8 - NAME_LINE * level, fontWeight: 600, fill: INKS.bark },
      ),
    )); // prettier-ignore
  const drawing = draw(
    {
      width,
      height: HEIGHT + marginTop,
      marginLeft,
      marginTop,
      marginRight: MARGIN.right,
      marginBottom: MARGIN.bottom,
      x: { type: 'utc', domain: [dateOf(from), dateOf(to)] },
      y: { domain: [0, most * 1.03] },
      marks: [
        ruleY([0], { stroke: INKS.bark }),
        rect(weeks, { ...bar, y1: 0, y2: 'watering', fill: INKS.water }),
        rect(weeks, { ...bar, y1: 'watering', y2: (w: Week) => w.watering + w.rain, fill: rain.fill }),
        ...names.map(({ at, level }) =>
          ruleX([at], { stroke: INKS.bark, strokeWidth: 1.25, strokeDasharray: '2 3', insetTop: -10 - NAME_LINE * level }),
        ),
        line(weeks, { ...middle, stroke: INKS.paper, strokeWidth: 6 }),
        line(weeks, { ...middle, stroke: INKS.bark, strokeWidth: 2.5 }),
        ...namesOf(false),
        ...namesOf(true),
        monthAxis(from, to, room, season.weeks, f),
        amountAxis(words.perWeek(unit), f),
      ],
    },
    [rain.node],
  ); // prettier-ignore
  const stages = series.stages
    .map(({ day, name }) => season.stage(name === '' ? season.noStage : name, f.day(day)))
    .join(', ');
  return figure({
    name: 'picture-season',
    title: season.title(totals, unit),
    alt: season.alt(totals, unit, stages),
    drawing,
    key: [
      { sample: sampleLine(INKS.bark, 2.5), words: season.demand },
      { sample: sampleBox(INKS.water, INKS.water), words: season.watering },
      { sample: sampleBox(rain.fill, INKS.water), words: season.rain },
    ],
    numbers: { words: words.numbers, table: tableOf(series, words) },
  });
}

const tableOf = ({ weeks, unit }: SeasonSeries, { f, season, weekFrom }: PictureWords) => ({
  head: [
    weekFrom,
    `${season.demand} (${unit})`,
    `${season.watering} (${unit})`,
    `${season.rain} (${unit})`,
    season.waterings,
    season.hours,
  ],
  rows: () =>
    weeks.map((w) => [
      isoDate(w.from),
      f.amount(w.demand),
      f.amount(w.watering),
      f.amount(w.rain),
      f.whole(w.waterings),
      f.amount(w.crewHours),
    ]),
});
