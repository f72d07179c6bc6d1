/** The days a crew works as seven days of the week, and an hour it ends at in place of the hours it has. */
import { WEEKDAYS } from '../../engine/dates.js';
import { Problem } from '../../engine/problems.js';
import { parseDays } from '../../engine/rules/rule-days.js';
import type { Cell } from '../../tables/cells.js';
import { hourOf, hourText } from '../../tables/hours.js';

/** 0 Sunday … 6 Saturday, in the order they are shown. */
export const FROM_MONDAY = [1, 2, 3, 4, 5, 6, 0] as const;
const ALL = FROM_MONDAY.length;
/** Days in a row from which on a span is shorter than the days. */
const SPAN = 3;
const MIDNIGHT = 24;
/** Least a crew works in a day [h], as the site takes it. */
const SHORTEST = 0.5;

/** Days of the week that words name; undefined where they say more than that ("odd days", "2 a week") or cannot be read. */
export function weekdaysOf(words: string): ReadonlySet<number> | undefined {
  try {
    const { weekdays, parity, every, perWeek } = parseDays(words);
    if (parity !== null || every !== null || perWeek !== null) return undefined;
    return new Set(FROM_MONDAY.filter((day) => weekdays & (1 << day)));
  } catch (error) {
    if (error instanceof Problem) return undefined;
    throw error;
  }
}

/** The same in words: `any`, `Mon-Fri`, `Mon Wed Fri`, `Mon-Wed Sat`. */
export function daysInWords(days: ReadonlySet<number>): string {
  if (days.size === ALL) return 'any';
  const runs: number[][] = [];
  FROM_MONDAY.forEach((day, i) => {
    if (!days.has(day)) return;
    if (i > 0 && days.has(FROM_MONDAY[i - 1]!)) runs.at(-1)!.push(day);
    else runs.push([day]);
  });
  const name = (day: number): string => WEEKDAYS[day]!;
  return runs
    .map((run) =>
      run.length >= SPAN ? `${name(run[0]!)}-${name(run.at(-1)!)}` : run.map(name).join(' '),
    )
    .join(' ');
}

export interface CrewEnd {
  /** `14:00` */
  at: string;
  /** on the day after; the plan takes work until midnight */
  nextDay: boolean;
}

/** When a crew ends. @param start - hour of the day [h] @param hours - it works [h] */
export function crewEnd(start: number, hours: number): CrewEnd {
  const end = start + hours;
  const nextDay = end > MIDNIGHT + 1e-6;
  return { at: hourText(nextDay ? end - MIDNIGHT : end), nextDay };
}

/**
 * Hours of a crew that ends at an hour as typed: 14, 14:00, 2 pm; 0:00 and 24:00 are midnight.
 *
 * @param start - hour of the day it starts at [h]
 * @returns the hours [h]; `wrong` for what is no hour, `before` for an end that leaves no half hour
 */
export function hoursUntil(start: number, typed: Cell): number | 'wrong' | 'before' {
  const isMidnight = /^24(?::00)?(?: ?h)?$/.test(String(typed).trim());
  const end = isMidnight ? MIDNIGHT : hourOf(typed);
  if (end === undefined) return 'wrong';
  const hours = Math.round(((end === 0 ? MIDNIGHT : end) - start) * 60) / 60;
  return hours < SHORTEST ? 'before' : hours;
}
