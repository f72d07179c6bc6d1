/** Weeks whose work is more than their crew days hold, after all that could be moved was moved. */
import { dayName, type Day } from '../dates.js';
import type { CrewDay } from '../plan/model.js';

export interface LackingWeek {
  /** its Monday */
  monday: Day;
  /** by which its rounds are too long, all together [h] */
  hours: number;
}

/** Day 2 of the spreadsheet calendar is a Monday. */
const mondayOf = (day: Day): Day => day - ((day - 2) % 7);

/** Weeks with rounds that are too long, in their order, each with the hours that lack. */
export function lackingWeeks(days: readonly CrewDay[]): LackingWeek[] {
  const weeks = new Map<Day, number>();
  for (const { day, rounds = [], overload } of days) {
    if (!overload) continue;
    const monday = mondayOf(day);
    const over = rounds.reduce((sum, round) => sum + (round.over ?? 0), 0);
    weeks.set(monday, (weeks.get(monday) ?? 0) + over);
  }
  return [...weeks].sort(([a], [b]) => a - b).map(([monday, hours]) => ({ monday, hours }));
}

/** Which week lacks how many hours, in a sentence; "" where none does. */
export function lackingText(days: readonly CrewDay[]): string {
  const weeks = lackingWeeks(days);
  const [first] = weeks;
  if (!first) return '';
  const most = weeks.reduce((a, b) => (b.hours > a.hours ? b : a), first);
  const much = `the week of ${dayName(most.monday)}: ${most.hours.toFixed(1)} more than its crew days hold`;
  if (weeks.length === 1) return `Hours lack in ${much}.`;
  const all = weeks.reduce((sum, { hours }) => sum + hours, 0);
  return `Hours lack in ${weeks.length} weeks, ${all.toFixed(1)} in all; most in ${much}.`;
}
