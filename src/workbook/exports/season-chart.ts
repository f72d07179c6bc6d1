/**
 * The season by weeks as a drawing for paper: rain and watering as bars one on the other, demand as a line over them,
 * stages as named lines. Told apart without colour: bars by fill and outline, the line by its weight.
 */
import { civil, MONTHS } from '../../engine/dates.js';
import type { SeasonSeries } from '../series-types.js';
import { INK } from '../writers/ink.js';
import { writable } from '../writable.js';

const SIZE = 8.5; // [pt]
const EDGE = { left: 52, right: 6, top: 16, bottom: 30 } as const;
/** Room for a line of the key [pt]. */
const KEY = 16;
const FACE = 'Sans';
/** Mean width of a letter over the size of the type [-]. */
const LETTER = 0.55;
/** Longest name of a stage [characters]. */
const LONGEST_STAGE = 24;

const px = (n: number): string => String(Math.round(n * 100) / 100);
const whole = (n: number): string => Math.round(n).toLocaleString('en-US');
const escape = (text: string): string =>
  writable(text).replace(
    /[&<>"]/g,
    (c) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[c]!,
  );

const sum = (weeks: SeasonSeries['weeks'], key: 'demand' | 'rain' | 'watering'): number =>
  weeks.reduce((total, week) => total + week[key], 0);

/** What the season needs and what it gets, in a sentence; the numbers of the sheet Charts. */
export function seasonSentence({ weeks, unit }: SeasonSeries): string {
  const most = weeks.reduce((best, week) => (week.demand > best.demand ? week : best));
  const { month, date } = civil(most.from);
  return `The trees need ${whole(sum(weeks, 'demand'))} ${unit} in the season; ${whole(sum(weeks, 'rain'))} ${unit} of rain counts and ${whole(sum(weeks, 'watering'))} ${unit} is watered. They need most in the week from ${date} ${MONTHS[month - 1]}: ${whole(most.demand)} ${unit}.`;
}

/** Steps of the scale: 1, 2 or 5 times a power of ten, at most five of them. */
export function scaleSteps(most: number): number[] {
  if (!(most > 0)) return [0, 1];
  const rough = most / 5;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((n) => n * power).find((n) => n >= rough - 1e-9)!;
  const count = Math.ceil(most / step - 1e-9);
  return Array.from({ length: count + 1 }, (_, i) => i * step);
}

const text = (words: string, x: number, y: number, anchor: 'start' | 'middle' | 'end'): string =>
  `<text x="${px(x)}" y="${px(y)}" font-size="${SIZE}" text-anchor="${anchor}" fill="#${INK.bark}">${escape(words)}</text>`;

const RAIN = `fill="#FFFFFF" stroke="#${INK.bark}" stroke-width="0.8"`;
const WATERING = `fill="#${INK.water}" stroke="#${INK.water}" stroke-width="0.8"`;
const DEMAND = `fill="none" stroke="#${INK.bark}" stroke-width="2"`;
/** Under the line, so that it stands out from the bars it crosses. */
const HALO = 'fill="none" stroke="#FFFFFF" stroke-width="4.5"';
const STAGE = `stroke="#${INK.loam}" stroke-width="0.8" stroke-dasharray="3 2"`;

function key(y: number): string {
  const at = EDGE.left;
  return [
    `<path d="M${at} ${y - 3}h18" ${DEMAND}/>`,
    text('Demand', at + 23, y, 'start'),
    `<rect x="${at + 90}" y="${y - 7}" width="9" height="8" ${WATERING}/>`,
    text('Watering', at + 104, y, 'start'),
    `<rect x="${at + 180}" y="${y - 7}" width="9" height="8" ${RAIN}/>`,
    text('Rain that counts', at + 194, y, 'start'),
  ].join('');
}

/**
 * @param width - of the drawing [pt]
 * @param height - of the drawing [pt]
 * @returns an SVG document; names of stages in it are data, never markup
 */
export function seasonDrawing(series: SeasonSeries, width: number, height: number): string {
  const { weeks, unit, stages } = series;
  const most = Math.max(...weeks.map((w) => Math.max(w.demand, w.rain + w.watering)));
  const steps = scaleSteps(most);
  const [left, right] = [EDGE.left, width - EDGE.right];
  const [top, base] = [EDGE.top, height - EDGE.bottom];
  const across = (right - left) / weeks.length;
  const first = weeks[0]!.from;
  const x = (day: number): number => {
    const week = weeks.findIndex((w) => day <= w.to);
    const { from, to } = weeks[week < 0 ? weeks.length - 1 : week]!;
    return left + across * (Math.max(0, week) + (day - from) / (to - from + 1));
  };
  const y = (value: number): number => base - ((base - top) * value) / steps.at(-1)!;

  const scale = steps.map(
    (value) =>
      `<path d="M${left} ${px(y(value))}H${px(right)}" stroke="#${INK.rule}" stroke-width="0.4"/>${text(whole(value), left - 5, y(value) + 3, 'end')}`,
  );
  const bars = weeks.map((week, i) => {
    const at = left + across * (i + 0.15);
    const bar = (from: number, to: number, look: string): string =>
      to - from <= 0
        ? ''
        : `<rect x="${px(at)}" y="${px(y(to))}" width="${px(across * 0.7)}" height="${px(y(from) - y(to))}" ${look}/>`;
    return bar(0, week.watering, WATERING) + bar(week.watering, week.watering + week.rain, RAIN);
  });
  const points = weeks.map((w, i) => `${px(left + across * (i + 0.5))} ${px(y(w.demand))}`);
  let free = -Infinity;
  const named = stages.map(({ day, name }) => {
    const at = x(day);
    const words = name === '' ? 'no stage' : [...name].slice(0, LONGEST_STAGE).join('');
    const start = Math.max(at + 3, free);
    free = start + words.length * SIZE * LETTER + 4;
    const line = day > first ? `<path d="M${px(at)} ${top - 12}V${px(base)}" ${STAGE}/>` : '';
    return line + text(words, start, top - 6, 'start');
  });
  const months = weeks.flatMap((week) => {
    const { month, date } = civil(week.to);
    const begins = week.to - date + 1;
    if (begins < week.from) return [];
    const at = x(begins);
    return [
      `<path d="M${px(at)} ${px(base)}v4" stroke="#${INK.bark}" stroke-width="0.8"/>${text(MONTHS[month - 1]!, at + 2, base + 11, 'start')}`,
    ];
  });
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${px(width)}" height="${px(height)}" viewBox="0 0 ${px(width)} ${px(height)}" font-family="${FACE}">`,
    ...scale,
    ...bars,
    `<path d="M${points.join('L')}" ${HALO}/><path d="M${points.join('L')}" ${DEMAND}/>`,
    `<path d="M${left} ${px(base)}H${px(right)}" stroke="#${INK.bark}" stroke-width="1"/>`,
    ...months,
    ...named,
    text(`${unit} a week`, 0, top - 6, 'start'),
    key(height - KEY / 4),
    '</svg>',
  ].join('');
}
