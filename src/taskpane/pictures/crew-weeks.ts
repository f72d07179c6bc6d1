/** Crew weeks: one square a day, filled by share of the hours, hours written in it; barred days crossed. */
import { link, rect, text } from '@observablehq/plot';
import { civil, isoDate, weekday, type Day } from '../../engine/dates.js';
import type { CrewSeries } from '../../workbook/series-types.js';
import { draw } from './axes.js';
import { figure, SAMPLE_HEIGHT, sampleBox, type KeyEntry } from './figure.js';
import { INKS, svgElement } from './inks.js';
import { hoursAndMinutes, type CrewTotals, type PictureWords } from './words.js';

/** Height of a week, and room for weekdays above and dates beside [px]. */
const ROW = 24;
const TOP = 20;
const LEFT = 54;
/** Between squares [px]. */
const GAP = 1.5;
/** Hours that are rounding, not work. */
const NOTHING = 1 / 120;

interface Square {
  day: Day;
  hours: number;
  barred: boolean;
  off: boolean;
  /** column, Monday 0, and row */
  x: number;
  y: number;
  /** of the day's hours, at most 1 */
  share: number;
  over: boolean;
}

function squaresOf({ days, limit }: CrewSeries): Square[] {
  const first = days[0]?.day ?? 0;
  const monday = first - ((weekday(first) + 6) % 7);
  return days.map(({ day, hours, barred, off }) => ({
    day,
    hours,
    barred,
    off,
    x: (day - monday) % 7,
    y: Math.floor((day - monday) / 7),
    share: Math.min(1, hours / limit),
    over: hours > limit * (1 + 1e-9),
  }));
}

function totalsOf(squares: readonly Square[], limit: number, words: PictureWords): CrewTotals {
  const out = squares.filter(({ hours }) => hours > 0);
  const most = out.reduce<Square | undefined>((a, b) => (b.hours > (a?.hours ?? 0) ? b : a), undefined); // prettier-ignore
  return {
    out: out.length,
    days: squares.length,
    limit: hoursAndMinutes(limit),
    hours: hoursAndMinutes(out.reduce((sum, { hours }) => sum + hours, 0)),
    most: most && { day: words.f.day(most.day), hours: hoursAndMinutes(most.hours) },
    over: squares.filter(({ over }) => over).length,
    barred: squares.filter(({ barred }) => barred).length,
    off: squares.filter(({ off }) => off).length,
  };
}

const sampleCross = (): SVGElement[] => [
  ...sampleBox('none', INKS.loam),
  svgElement('path', {
    d: `M3,0.5 L21,${SAMPLE_HEIGHT - 0.5} M21,0.5 L3,${SAMPLE_HEIGHT - 0.5}`,
    stroke: INKS.loam,
  }),
];
const sampleShare = (): SVGElement[] => [
  svgElement('rect', { x: 3, y: 6, width: 18, height: 6, fill: INKS.tint }),
  ...sampleBox('none', INKS.water),
];

/**
 * @param width - of the drawing [px]
 */
export function crewWeeksPicture(
  series: CrewSeries,
  words: PictureWords,
  width: number,
): HTMLElement {
  const { crew } = words;
  const squares = squaresOf(series);
  const totals = totalsOf(squares, series.limit, words);
  const weeks = (squares.at(-1)?.y ?? -1) + 1;
  const mondays = Array.from({ length: weeks }, (_, y) => {
    const start = squares.find((s) => s.y === y)!;
    return { y, day: start.day };
  });
  const whole = {
    x1: 'x',
    x2: (s: Square) => s.x + 1,
    y1: 'y',
    y2: (s: Square) => s.y + 1,
    inset: GAP / 2,
  } as const;
  const worked = squares.filter(({ hours }) => hours >= NOTHING);
  const label = (s: Square): string => `${s.over ? '▲ ' : ''}${hoursLabel(s.hours, words)}`;
  const drawing = draw({
    width,
    height: TOP + weeks * ROW + 2,
    marginLeft: LEFT,
    marginTop: TOP,
    marginRight: 2,
    marginBottom: 2,
    x: { domain: [0, 7], axis: null },
    y: { domain: [weeks, 0], axis: null },
    marks: [
      rect(squares.filter(({ off }) => !off), { ...whole, fill: 'none', stroke: INKS.rule }),
      rect(squares.filter(({ off }) => off), { ...whole, fill: 'none', stroke: INKS.rule, strokeDasharray: '2 2' }),
      rect(worked, { ...whole, y1: (s: Square) => s.y + 1 - s.share, fill: INKS.tint, insetTop: 0 }),
      rect(worked, { ...whole, fill: 'none', stroke: INKS.water }),
      rect(squares.filter(({ over }) => over), { ...whole, fill: 'none', stroke: INKS.clay, strokeWidth: 2 }),
      ...crosses(squares.filter(({ barred }) => barred)),
      text(worked, { x: (s: Square) => s.x + 0.5, y: (s: Square) => s.y + 0.5, text: label, fill: INKS.bark, stroke: INKS.paper, strokeWidth: 2.5, fontWeight: 600 }),
      text(crew.weekdays, { x: (_: string, i: number) => i + 0.5, frameAnchor: 'top', dy: -11, text: (name: string) => name, fill: INKS.bark }),
      text(mondays, { y: (m: { y: number }) => m.y + 0.5, frameAnchor: 'left', textAnchor: 'end', dx: -6, text: (m: { day: Day }) => dateLabel(m.day, words), fill: INKS.bark }),
    ],
  }); // prettier-ignore
  return figure({
    name: 'picture-crew',
    title: crew.title(totals),
    alt: crew.alt(totals),
    drawing,
    key: keyOf(totals, words),
    numbers: {
      words: words.numbers,
      table: {
        head: [words.day, crew.hours, crew.state],
        rows: () =>
          squares.map((s) => [
            isoDate(s.day),
            s.hours > 0 ? hoursLabel(s.hours, words) : '',
            [s.over && crew.over, s.barred && crew.barred, s.off && crew.off].filter(Boolean).join(', '), // prettier-ignore
          ]),
      },
    },
  });
}

/** A decimal or two, as short as a square: 4.5, 0.44. */
const hoursLabel = (hours: number, { coil }: PictureWords): string =>
  hours.toLocaleString(coil.locale, { maximumFractionDigits: hours < 0.95 ? 2 : 1 });

const dateLabel = (day: Day, { f }: PictureWords): string =>
  `${civil(day).date} ${f.month(civil(day).month)}`;

const crosses = (barred: readonly Square[]) =>
  [0, 1].map((down) =>
    link(barred, {
      x1: (s: Square) => s.x + 0.08,
      x2: (s: Square) => s.x + 0.92,
      y1: (s: Square) => s.y + (down ? 0.12 : 0.88),
      y2: (s: Square) => s.y + (down ? 0.88 : 0.12),
      stroke: INKS.loam,
      strokeWidth: 1.25,
    }),
  );

function keyOf(totals: CrewTotals, { crew }: PictureWords): KeyEntry[] {
  return [
    { sample: sampleShare(), words: crew.filled(totals.limit) },
    ...(totals.over > 0 ? [{ sample: sampleBox('none', INKS.clay), words: `▲ ${crew.over}` }] : []),
    ...(totals.barred > 0 ? [{ sample: sampleCross(), words: crew.barred }] : []),
    ...(totals.off > 0 ? [{ sample: sampleBox('none', INKS.loam, '2 2'), words: crew.off }] : []),
  ];
}
