/**
 * What a contract or a city prescribes, clause by clause: to whom a clause speaks, when, and what it asks for. A clause
 * is a minimum for each tree, or a cap on what all its trees get together.
 */
import { civil, dayOf, isoDate, WEEKDAYS, weekday, type Day } from '../dates.js';
import { dayIn } from '../rules/rule-dates.js';
import type { YearDay } from '../rules/rule-types.js';

/** Trees a clause speaks of. Sizes hold from `low` up to below `high`, so that classes side by side do not overlap. */
export type Who =
  | { kind: 'all' }
  | { kind: 'caliper'; low: number; high: number } // [mm]
  | { kind: 'height'; low: number; high: number } // [m]
  | { kind: 'species' | 'site'; name: string };

/** Where a clause begins or ends: a day, a day of every year, or an age [whole days since planting, 0 the day itself]. */
export type ClauseEnd =
  { kind: 'day'; day: Day } | { kind: 'yearly'; on: YearDay } | { kind: 'age'; days: number };

export type Per = 'visit' | 'week' | 'month' | 'season';

export interface Clause {
  /** row in the person's table, the header being row 1 */
  row: number;
  who: Who;
  from: ClauseEnd | null;
  to: ClauseEnd | null;
  /** least water for one tree [L] */
  least: { litres: number; per: 'visit' | 'week' | 'month' } | null;
  /** least visits to each tree */
  visits: { count: number; per: 'week' | 'month' } | null;
  /** most water for all trees of the clause together [L]; what lies above costs `price` [money per m³] */
  most: { litres: number; per: 'week' | 'month' | 'season'; price: number | null } | null;
  /** a span of `days` days with at least `mm` of rain stands for a visit */
  skip: { mm: number; days: number } | null;
  /** families that count as a visit; null: all */
  means: readonly string[] | null;
  /** end of the duty: months after planting, or a day */
  until: { months: number } | { day: Day } | null;
  source: string;
}

/** What a contract can know of a tree; whatever is not known is undefined. */
export interface ContractTree {
  id: string;
  row: number;
  /** like trees on the row */
  count: number;
  species: string;
  site: string;
  caliper?: number | undefined; // [mm]
  height?: number | undefined; // [m]
  planted?: Day | undefined;
}

const same = (a: string, b: string): boolean =>
  a.trim().toLowerCase().replace(/\s+/g, ' ') === b.trim().toLowerCase().replace(/\s+/g, ' ');

/** Does a clause speak of a tree? The sentence: what the tree's row lacks to tell. */
export function speaksOf({ who }: Clause, tree: ContractTree): boolean | string {
  switch (who.kind) {
    case 'all':
      return true;
    case 'species':
      return same(who.name, tree.species);
    case 'site':
      return same(who.name, tree.site);
    case 'caliper':
    case 'height': {
      const size = tree[who.kind];
      if (size === undefined) return `${who.kind} is not known`;
      // a size converted from inches must not fall out of its own class by a hair
      const hair = 1 + 1e-12;
      return who.low <= size * hair && size * hair < who.high;
    }
  }
}

/** The clause goes by the age of a tree somewhere. */
export const goesByAge = ({ from, to, until }: Clause): boolean =>
  from?.kind === 'age' || to?.kind === 'age' || (until !== null && 'months' in until);

/** The same day of a month some months later; a month too short for it gives its last day. */
export function monthsAfter(day: Day, months: number): Day {
  const { year, month, date } = civil(day);
  const count = year * 12 + (month - 1) + months;
  const first = dayOf(Math.floor(count / 12), (count % 12) + 1, 1);
  const next = dayOf(Math.floor((count + 1) / 12), ((count + 1) % 12) + 1, 1);
  return first + Math.min(date, next - first) - 1;
}

/** A clause binds on a day. @param planted - of the tree; needed only where `goesByAge` */
export function bindsOn(clause: Clause, day: Day, planted: Day | undefined): boolean {
  const { from, to, until } = clause;
  if (planted !== undefined && day < planted) return false;
  if (until) {
    if (
      'day' in until
        ? day > until.day
        : planted === undefined || day >= monthsAfter(planted, until.months)
    )
      return false;
  }
  if (from?.kind === 'yearly' && to?.kind === 'yearly') {
    const { year } = civil(day);
    const [first, last] = [dayIn(from.on, year), dayIn(to.on, year)];
    return first <= last ? day >= first && day <= last : day >= first || day <= last;
  }
  const at = (end: ClauseEnd): Day =>
    end.kind === 'day'
      ? end.day
      : end.kind === 'age'
        ? (planted ?? NaN) + end.days
        : dayIn(end.on, civil(day).year);
  return (from === null || day >= at(from)) && (to === null || day <= at(to));
}

/** A stretch of days a clause is judged over, both ends included. */
export interface Window {
  from: Day;
  to: Day;
}

/** The first day of the Mon–Sun week of a day. */
const monday = (day: Day): Day => day - ((weekday(day) + 6) % 7);
const monthStart = (day: Day): Day => dayOf(civil(day).year, civil(day).month, 1);

/** Start of the week or month a day lies in. Weeks of a clause that goes by age are counted from planting. */
function startOf(day: Day, per: 'week' | 'month', weeksFrom: Day | undefined): Day {
  if (per === 'month') return monthStart(day);
  return weeksFrom === undefined ? monday(day) : day - ((day - weeksFrom) % 7);
}

const nextStart = (start: Day, per: 'week' | 'month'): Day =>
  per === 'week' ? start + 7 : monthStart(start + 31);

/**
 * Whole weeks or months between two days on all days of which a clause binds. A part of a week is not judged: nobody can
 * say how many of three visits belong into two days.
 *
 * @param planted - of the tree, where the clause goes by age
 * @param weeks - Mon-Sun: calendar weeks also for a clause that goes by age, as rules count them
 */
export function windowsOf(
  clause: Clause,
  per: 'week' | 'month',
  from: Day,
  to: Day,
  planted: Day | undefined,
  weeks: 'own' | 'Mon-Sun' = 'own',
): Window[] {
  const byAge = clause.from?.kind === 'age' || clause.to?.kind === 'age';
  const weeksFrom = byAge && weeks === 'own' ? planted : undefined;
  const windows: Window[] = [];
  const begin = weeksFrom === undefined ? from : Math.max(from, weeksFrom);
  if (begin > to) return windows;
  for (let start = startOf(begin, per, weeksFrom); start <= to;) {
    const end = nextStart(start, per) - 1;
    let whole = start >= begin && end <= to;
    for (let day = start; whole && day <= end; day++) whole = bindsOn(clause, day, planted);
    if (whole) windows.push({ from: start, to: end });
    start = end + 1;
  }
  return windows;
}

const endWords = (end: ClauseEnd): string => {
  if (end.kind === 'day') return isoDate(end.day);
  if (end.kind === 'age') return `day ${end.days + 1} after planting`;
  const { month, date, nth, weekday: day, before } = end.on;
  const name = new Intl.DateTimeFormat('en', { month: 'long', timeZone: 'UTC' }).format(
    Date.UTC(2027, month - 1, 1),
  );
  const nthWord = nth < 0 ? 'last' : (['first', 'second', 'third', 'fourth'][nth - 1] ?? '');
  return `${before ? 'the day before ' : ''}${date === null ? `${nthWord} ${WEEKDAYS[day]!} of ${name}` : `${name} ${date}`}`;
};

/** When a clause binds, in words; "" for always. */
export function whenWords({ from, to }: Clause): string {
  const parts = [from && `from ${endWords(from)}`, to && `to ${endWords(to)}`];
  return parts.filter((part) => part !== null).join(' ');
}
