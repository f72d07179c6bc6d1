/**
 * Water left in one tree's ball and ring as two filled bands, with the water at which stress begins, waterings as drops on
 * the top edge, rain hanging from it, stress days hatched.
 */
import { area, dot, line, rect, ruleY, text, type SymbolImplementation } from '@observablehq/plot';
import { isoDate, type Day } from '../../engine/dates.js';
import type { WaterLeftSeries } from '../../workbook/series-types.js';
import { amountAxis, dateOf, draw, leftMargin, monthAxis } from './axes.js';
import { figure, SAMPLE_HEIGHT, SAMPLE_WIDTH, sampleBox, sampleLine } from './figure.js';
import { hatch, INKS, svgElement } from './inks.js';
import { weekdayOf, type PictureWords, type WaterTotals } from './words.js';

const HEIGHT = 230;
const MARGIN = { top: 34, right: 10, bottom: 32 };
/** Share of the stress days that must fall on one weekday before it is named. */
const STANDS_OUT = 0.4;

interface WaterDay {
  day: Day;
  ball: number;
  left: number;
  full: number;
  threshold: number;
  rain: number;
  stress: boolean;
}

const daysOf = (s: WaterLeftSeries): WaterDay[] =>
  s.ball.map((ball, i) => ({
    day: s.from + i,
    ball,
    left: ball + s.ring[i]!,
    full: s.full[i]!,
    threshold: s.threshold[i]!,
    rain: s.rain[i]!,
    stress: s.stress[i]!,
  }));

/** Weekday on which most stress days fall, where one stands out among at least five. */
function mostly(stressed: readonly WaterDay[]): number | undefined {
  if (stressed.length < 5) return undefined;
  const counts = Array.from({ length: 7 }, () => 0);
  for (const { day } of stressed) counts[weekdayOf(day)]! += 1;
  const most = Math.max(...counts);
  return most / stressed.length >= STANDS_OUT ? counts.indexOf(most) : undefined;
}

function totalsOf(series: WaterLeftSeries, days: readonly WaterDay[], words: PictureWords): WaterTotals {
  const { f, water } = words;
  const stressed = days.filter(({ stress }) => stress);
  const least = days.reduce((a, b) => (b.left - b.threshold < a.left - a.threshold ? b : a), days[0]!);
  const on = mostly(stressed);
  const sum = (values: readonly number[]): string => f.amount(values.reduce((a, b) => a + b, 0));
  return {
    id: series.id,
    days: days.length,
    stress: stressed.length,
    mostly: on === undefined ? undefined : water.weekdays[on],
    firstStress: stressed[0] ? f.day(stressed[0].day) : '',
    lastStress: stressed.length > 0 ? f.day(stressed.at(-1)!.day) : '',
    least: { amount: f.amount(least.left), day: f.day(least.day), threshold: f.amount(least.threshold) },
    full: f.amount(Math.max(...series.full)),
    waterings: series.waterings.length,
    given: sum(series.waterings.map(({ amount }) => amount)),
    rain: sum(series.rain),
  };
} // prettier-ignore

/** Stress days in a row as one: first day, and the day after the last. */
function runsOf(days: readonly WaterDay[]): { from: Day; to: Day }[] {
  const runs: { from: Day; to: Day }[] = [];
  for (const { day, stress } of days) {
    if (!stress) continue;
    const last = runs.at(-1);
    if (last?.to === day) last.to = day + 1;
    else runs.push({ from: day, to: day + 1 });
  }
  return runs;
}

/** A drop, point up, as a symbol of area `size`. */
const DROP: SymbolImplementation = {
  draw(context, size) {
    const r = Math.sqrt(size / Math.PI);
    context.moveTo(0, -2.2 * r);
    context.quadraticCurveTo(1.3 * r, -0.4 * r, r, 0.3 * r);
    context.arc(0, 0.3 * r, r, 0, Math.PI);
    context.quadraticCurveTo(-1.3 * r, -0.4 * r, 0, -2.2 * r);
    context.closePath();
  },
};
const sampleDrop = (): SVGElement[] => [
  svgElement('path', {
    d: 'M0,-6.6Q3.9,-1.2,3,0.9A3,3,0,1,1,-3,0.9Q-3.9,-1.2,0,-6.6Z',
    transform: `translate(${SAMPLE_WIDTH / 2} ${SAMPLE_HEIGHT / 2 + 1.5})`,
    fill: INKS.water,
  }),
];

/**
 * @param width - of the drawing [px]
 */
export function waterLeftPicture(
  series: WaterLeftSeries,
  words: PictureWords,
  width: number,
): HTMLElement {
  const { unit } = series;
  const { f, water } = words;
  const days = daysOf(series);
  const totals = totalsOf(series, days, words);
  const [from, to] = [series.from, series.from + days.length];
  // bars of rain hang from the top: room is left above what the stores can hold
  const top = Math.max(...series.full) * 1.12;
  const ring = hatch({ ink: INKS.water, angle: -45, apart: 5, wide: 1, ground: INKS.paper });
  const stress = hatch({ ink: INKS.clay, angle: 60, apart: 5, wide: 1.6 });
  const marginLeft = leftMargin(top, f);
  const evening = { x: (d: WaterDay) => dateOf(d.day + 1) };
  const last = days.at(-1);
  const drawing = draw(
    {
      width,
      height: HEIGHT,
      marginLeft,
      marginTop: MARGIN.top,
      marginRight: MARGIN.right,
      marginBottom: MARGIN.bottom,
      x: { type: 'utc', domain: [dateOf(from), dateOf(to)] },
      y: { domain: [0, top] },
      marks: [
        area(days, { x1: evening.x, y1: 0, y2: 'ball', fill: INKS.tint }),
        area(days, { x1: evening.x, y1: 'ball', y2: 'left', fill: ring.fill }),
        line(days, { ...evening, y: 'ball', stroke: INKS.water, strokeWidth: 1 }),
        line(days, { ...evening, y: 'left', stroke: INKS.water, strokeWidth: 1.5 }),
        line(days, { ...evening, y: 'full', stroke: INKS.loam, strokeWidth: 1, strokeDasharray: '1 3' }),
        rect(runsOf(days), { x1: (r: { from: Day }) => dateOf(r.from), x2: (r: { to: Day }) => dateOf(r.to), y1: 0, y2: top, fill: stress.fill, stroke: INKS.clay, strokeWidth: 0.75 }),
        rect(days.filter((d) => d.rain > 0), { x1: (d: WaterDay) => dateOf(d.day), x2: (d: WaterDay) => dateOf(d.day + 1), y1: top, y2: (d: WaterDay) => Math.max(0, top - d.rain), fill: INKS.bark }),
        ruleY([top], { stroke: INKS.rule }),
        ruleY([0], { stroke: INKS.bark }),
        line(days, { ...evening, y: 'threshold', stroke: INKS.paper, strokeWidth: 4 }),
        line(days, { ...evening, y: 'threshold', stroke: INKS.bark, strokeWidth: 1.75, strokeDasharray: '6 3' }),
        text(last ? [last] : [], { ...evening, y: 'threshold', text: () => water.threshold, textAnchor: 'end', dx: -4, dy: -8, fontWeight: 600, fill: INKS.bark, stroke: INKS.paper, strokeWidth: 4 }),
        dot(series.waterings, { x: (w: { day: Day }) => dateOf(w.day + 0.5), frameAnchor: 'top', dy: -5, r: 2.4, symbol: DROP, fill: INKS.water }),
        monthAxis(from, to, width - marginLeft - MARGIN.right, water.days, f),
        amountAxis(water.left(unit), f),
      ],
    },
    [ring.node, stress.node],
  ); // prettier-ignore
  return figure({
    name: 'picture-water',
    title: water.title(totals, unit),
    alt: water.alt(totals, unit),
    drawing,
    key: [
      { sample: sampleBox(ring.fill, INKS.water), words: water.ring },
      { sample: sampleBox(INKS.tint, INKS.water), words: water.ball },
      { sample: sampleLine(INKS.loam, 1.25, '1 3'), words: water.full },
      { sample: sampleLine(INKS.bark, 1.75, '6 3'), words: water.threshold },
      { sample: sampleDrop(), words: water.watering },
      { sample: sampleBox(INKS.bark, INKS.bark), words: water.rain },
      ...(totals.stress > 0 ? [{ sample: sampleBox(stress.fill, INKS.clay), words: water.stress }] : []),
    ],
    numbers: { words: words.numbers, table: tableOf(series, days, words) },
  }); // prettier-ignore
}

function tableOf(series: WaterLeftSeries, days: readonly WaterDay[], words: PictureWords) {
  const { f, water, day } = words;
  const given = new Map<Day, number>();
  for (const w of series.waterings) given.set(w.day, (given.get(w.day) ?? 0) + w.amount);
  const amounts = [water.ball, water.ring, water.threshold, water.rain, water.watering];
  return {
    head: [day, ...amounts.map((name) => `${name} (${series.unit})`), water.stress],
    rows: () =>
      days.map((d) => [
        isoDate(d.day),
        f.amount(d.ball),
        f.amount(d.left - d.ball),
        f.amount(d.threshold),
        d.rain > 0 ? f.amount(d.rain) : '',
        given.has(d.day) ? f.amount(given.get(d.day)!) : '',
        d.stress ? water.yes : '',
      ]),
  };
}
