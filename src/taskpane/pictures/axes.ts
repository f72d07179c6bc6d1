/** Days and axes as the pictures share them. */
import { axisX, axisY, plot, type Markish, type PlotOptions } from '@observablehq/plot';
import { civil, dayOf, type Day } from '../../engine/dates.js';
import type { Formats } from '../parts/format.js';
import { INKS, svgElement } from './inks.js';

const UNIX_EPOCH = 25_569;
const DAY_MS = 86_400_000;

export const dateOf = (day: Day): Date => new Date((day - UNIX_EPOCH) * DAY_MS);
const dayOfDate = (date: Date): Day => date.getTime() / DAY_MS + UNIX_EPOCH;

/** Days a month's name needs before the drawing ends. */
const NAME_DAYS = 9;

/** First days of the months before a day, thinned so that their names do not touch. */
export function monthStarts(from: Day, to: Day, most: number): Day[] {
  const starts: Day[] = [];
  let { year, month } = civil(from);
  for (let day = dayOf(year, month, 1); day <= to - NAME_DAYS;) {
    if (day >= from) starts.push(day);
    [year, month] = month === 12 ? [year + 1, 1] : [year, month + 1];
    day = dayOf(year, month, 1);
  }
  const step = Math.max(1, Math.ceil(starts.length / Math.max(1, most)));
  return starts.filter((_, i) => i % step === 0);
}

/** Width a month's name takes [px]. */
const MONTH_WIDTH = 34;

/** Months along the bottom, with the name of the axis. */
export const monthAxis = (from: Day, to: Day, width: number, label: string, f: Formats): Markish =>
  axisX(monthStarts(from, to, Math.floor(width / MONTH_WIDTH)).map(dateOf), {
    tickFormat: (date: Date) => f.month(civil(dayOfDate(date)).month),
    textAnchor: 'start',
    tickPadding: 3,
    dx: 2,
    label,
    labelAnchor: 'right',
    labelArrow: 'none',
    color: INKS.bark,
  });

export const amountAxis = (label: string, f: Formats): Markish =>
  axisY({
    ticks: 5,
    tickFormat: (value: number) => f.amount(value),
    label,
    labelAnchor: 'top',
    labelArrow: 'none',
    color: INKS.bark,
  });

/** Room for the longest number on the left [px]. */
export const leftMargin = (most: number, f: Formats): number => 16 + 6.5 * f.amount(most).length;

/** The drawing, without the library's own style element: the page's policy refuses it, and its rules stand in styles.ts. */
export function draw(options: PlotOptions, definitions: readonly SVGElement[] = []): SVGElement {
  const drawing = plot({ ...options, className: 'picture-plot', figure: false } as PlotOptions);
  if (!(drawing instanceof SVGElement)) throw new TypeError('the drawing is no SVG element');
  drawing.querySelector('style')?.remove();
  // groups without a role may bear no label; what the whole shows is said by the figure
  for (const group of drawing.querySelectorAll('[aria-label]')) {
    group.setAttribute('data-mark', group.getAttribute('aria-label')!);
    group.removeAttribute('aria-label');
  }
  if (definitions.length > 0) drawing.prepend(svgElement('defs', {}, ...definitions));
  return drawing;
}
