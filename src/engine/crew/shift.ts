/** The part of a day in which a crew works, and what it leaves of the hours the rules give. */
import type { Site } from '../plan/model.js';
import { DAY_MINUTES, type RuleWindow } from '../rules/rule-types.js';
import { intersect } from '../rules/rule-windows.js';

/** Hour at which crews start where the site gives none [h]. Common practice, no source: early, before the heat. */
export const CREW_START = 6;

/** A crew's day on the clock [min of the day]. */
export interface Shift extends RuleWindow {
  /** it would go on after midnight; what lies there is not planned for */
  pastMidnight: boolean;
}

/**
 * A crew's day, to the minute. It ends at midnight at the latest: the hours of the next date have rules of their own (its
 * parity, its share of the week), so what a night crew does after midnight belongs to that date and is not counted.
 */
export function shiftOf({ crewStart = CREW_START, crewHours }: ShiftHours): Shift {
  const start = Math.round(crewStart * 60);
  const end = Math.ceil(start + crewHours * 60 - 1e-9);
  return { start, end: Math.min(end, DAY_MINUTES), pastMidnight: end > DAY_MINUTES };
}

export type ShiftHours = Pick<Site, 'crewStart' | 'crewHours'>;

/** The part of the open hours within a crew's day. */
export const inShift = (windows: readonly RuleWindow[], { start, end }: RuleWindow): RuleWindow[] =>
  intersect(windows, [{ start, end }]);

/** Minutes of several windows together [min]. */
export const lengthOf = (windows: readonly RuleWindow[]): number =>
  windows.reduce((sum, { start, end }) => sum + end - start, 0);

/** True when the second list holds all of the first. */
export const within = (inner: readonly RuleWindow[], outer: readonly RuleWindow[]): boolean =>
  lengthOf(intersect(inner, outer)) >= lengthOf(inner);

/**
 * The start, nearest to the one there is, at which a day of `minutes` covers a window, or lies in it where the window is
 * longer [min of the day].
 */
export function startFor(window: RuleWindow, minutes: number, now: number): number {
  const a = window.start;
  const b = window.end - minutes;
  return Math.max(0, Math.min(Math.max(now, Math.min(a, b)), Math.max(a, b)));
}
