/** Bans and permits of one agency that contradict one another, wholly or in part. */
import { dayFromIso } from '../dates.js';
import { inSeason } from './rule-dates.js';
import { addressMatches } from './rule-match.js';
import { addressKinds } from './rule-reach.js';
import type { Finding } from './rule-reach.js';
import { ALL_WEEKDAYS, DAY_MINUTES } from './rule-types.js';
import type { RuleRow, RuleWindow } from './rule-types.js';
import { intersect, union } from './rule-windows.js';
import { addressesText, ageText, datesText, daysText, hoursText } from './rule-words.js';

/**
 * How the condition of a ban stands to that of another row: they never meet; the ban has all of the row;
 * the row leaves the condition blank and the ban makes an exception from it; both name it and share a part.
 */
type Relation = 'apart' | 'covers' | 'excepts' | 'crosses';

const same = (a: unknown, b: unknown): boolean =>
  a === b || JSON.stringify(a) === JSON.stringify(b);

/** Relation of two lists of words; null is every word. */
function words(ban: readonly string[] | null, row: readonly string[] | null): Relation {
  if (ban === null) return 'covers';
  if (row === null) return 'excepts';
  const shared = row.filter((w) => ban.includes(w)).length;
  return shared === 0 ? 'apart' : shared === row.length ? 'covers' : 'crosses';
}

const one = (word: string | null): string[] | null => (word === null ? null : [word]);

/** Relation counted over a sample that both conditions are tried on. */
function tried<T>(sample: readonly T[], ban: (x: T) => boolean, row: (x: T) => boolean): Relation {
  const mine = sample.filter(row);
  const shared = mine.filter(ban).length;
  return shared === 0 ? 'apart' : shared === mine.length ? 'covers' : 'crosses';
}

const means = (row: RuleRow): string[] | null =>
  row.means !== null && row.filling === 'hand' && row.means.includes('hand')
    ? [...row.means, 'bag', 'tanker']
    : row.means;

/** What a row says in the columns whose comparison is dear, as a key. */
const keys = new WeakMap<RuleRow, { address: string; dates: string }>();

function keysOf(row: RuleRow): { address: string; dates: string } {
  let known = keys.get(row);
  if (!known) {
    const { from, to, yearlyFrom, yearlyTo } = row;
    known = {
      address: JSON.stringify(row.address),
      dates: JSON.stringify([from, to, yearlyFrom, yearlyTo]),
    };
    keys.set(row, known);
  }
  return known;
}

/** A comparison done once for each pair of cells. */
function once(
  column: 'address' | 'dates',
  compare: (ban: RuleRow, row: RuleRow) => Relation,
): (ban: RuleRow, row: RuleRow, seen: Map<string, Relation>) => Relation {
  return (ban, row, seen) => {
    const key = `${keysOf(ban)[column]}\n${keysOf(row)[column]}`;
    let relation = seen.get(key);
    if (relation === undefined) seen.set(key, (relation = compare(ban, row)));
    return relation;
  };
}

function address(ban: RuleRow, row: RuleRow): Relation {
  if (ban.address === null || same(ban.address, row.address)) return 'covers';
  if (row.address === null) return 'excepts';
  const matches = (r: RuleRow) => (kind: Parameters<typeof addressMatches>[1]) =>
    addressMatches(r, kind);
  return tried(addressKinds([ban, row]), matches(ban), matches(row));
}

const TWO_YEARS = Array.from({ length: 731 }, (_, i) => dayFromIso('2027-01-01') + i);

function dates(ban: RuleRow, row: RuleRow): Relation {
  const all = (r: RuleRow) => r.from === null && r.to === null && r.yearlyFrom === null;
  if (all(ban)) return 'covers';
  if (all(row)) return 'excepts';
  const [from, to] = [row.from ?? -Infinity, row.to ?? Infinity];
  const [first, last] = [ban.from ?? -Infinity, ban.to ?? Infinity];
  if (ban.yearlyFrom === null && row.yearlyFrom === null) {
    if (first > to || last < from) return 'apart';
    return first <= from && last >= to ? 'covers' : 'crosses';
  }
  const start = Number.isFinite(from) ? from : Number.isFinite(first) ? first : null;
  const sample = start === null ? TWO_YEARS : TWO_YEARS.map((_, i) => start + i);
  const holds = (r: RuleRow) => (day: number) =>
    (r.from === null || day >= r.from) && (r.to === null || day <= r.to) && inSeason(r, day);
  return tried(sample, holds(ban), holds(row));
}

function age(ban: RuleRow, row: RuleRow): Relation {
  if (ban.age === null) return 'covers';
  if (row.age === null) return 'excepts';
  if (ban.age.first > row.age.last || ban.age.last < row.age.first) return 'apart';
  return ban.age.first <= row.age.first && ban.age.last >= row.age.last ? 'covers' : 'crosses';
}

function days({ days: ban, day31 }: RuleRow, { days: row, day31: other }: RuleRow): Relation {
  const any = (d: typeof ban) =>
    d.weekdays === ALL_WEEKDAYS && d.parity === null && d.every === null;
  if ((ban.weekdays & row.weekdays) === 0) return 'apart';
  if (any(ban)) return 'covers';
  if (any(row)) return 'excepts';
  if (ban.parity && row.parity && ban.parity !== row.parity && day31 !== 'all' && other !== 'all')
    return 'apart';
  const wide = (row.weekdays & ~ban.weekdays) === 0;
  const rest = same([ban.parity, ban.every, day31], [row.parity, row.every, other]);
  return wide && (rest || (ban.parity === null && ban.every === null)) ? 'covers' : 'crosses';
}

const minutes = (windows: readonly RuleWindow[]): RuleWindow[] =>
  union(
    windows.flatMap(({ start, end }) =>
      start < end
        ? [{ start, end }]
        : [
            { start, end: DAY_MINUTES },
            { start: 0, end },
          ],
    ),
  );

function hours(ban: RuleRow, row: RuleRow): Relation {
  if (ban.hours === null) return 'covers';
  if (row.hours === null) return 'excepts';
  const mine = minutes(row.hours);
  const shared = intersect(mine, minutes(ban.hours));
  return shared.length === 0 ? 'apart' : same(shared, mine) ? 'covers' : 'crosses';
}

/** Columns compared, the cheap ones first, and what a row says in each. */
const COLUMNS: [
  string,
  (ban: RuleRow, row: RuleRow, seen: Map<string, Relation>) => Relation,
  (row: RuleRow) => string,
][] = [
  ['Stage', (b, r) => words(one(b.stage), one(r.stage)), (r) => r.stage ?? ''],
  ['Means', (b, r) => words(means(b), means(r)), (r) => r.means?.join(', ') ?? 'any'],
  ['Source', (b, r) => words(b.source, r.source), (r) => r.source?.join(', ') ?? 'any'],
  [
    'Target',
    (b, r) => (b.target !== 'new planting' || r.target === b.target ? 'covers' : 'excepts'),
    (r) => r.target ?? 'any',
  ],
  ['Days', days, (r) => daysText(r.days)],
  ['Hours', hours, (r) => hoursText(r.hours ?? [])],
  ['New planting', age, (r) => (r.age ? ageText(r.age) : '')],
  ['From', once('dates', dates), datesText],
  ['Address', once('address', address), (r) => (r.address ? addressesText(r.address) : 'any')],
];

const EXCEPTIONS = ['Days', 'Hours'];

/** 'all', the column in which a part is shared, or null: no contradiction. */
function conflict(
  ban: RuleRow,
  row: RuleRow,
  seen: Map<string, Relation>,
): 'all' | (typeof COLUMNS)[number] | null {
  let crossing: (typeof COLUMNS)[number] | null = null;
  let all = true;
  for (const column of COLUMNS) {
    const relation = column[1](ban, row, seen);
    if (relation === 'apart') return null;
    // hours or days cut out of a row that names none are an exception, whatever else the two share
    if (relation === 'excepts' && EXCEPTIONS.includes(column[0])) return null;
    if (relation === 'crosses') crossing ??= column;
    if (relation !== 'covers') all = false;
  }
  return all ? 'all' : crossing;
}

const isPlainBan = (row: RuleRow): boolean =>
  row.verdict === 'ban' && row.rain === null && row.needs.length === 0;

/** The first of all rows that say the same. */
function distinct(rows: readonly RuleRow[]): RuleRow[] {
  const first = new Map<string, RuleRow>();
  for (const row of rows) {
    const key = JSON.stringify({ ...row, row: 0, note: '', assumed: [] });
    if (!first.has(key)) first.set(key, row);
  }
  return [...first.values()];
}

/** Most pairs of rows compared. */
const MOST_PAIRS = 100_000;

/**
 * Rows that allow or free what a ban of the same agency takes away. A ban that only makes an exception
 * (of hours, say, from a row that names none) is no contradiction; one after rain, or of something fitted,
 * is a condition of its own.
 * @param most contradictions listed
 * @returns more: what was not looked at, '' if everything was
 */
export function contradictions(
  rows: readonly RuleRow[],
  most: number,
): { found: Finding[]; more: string } {
  const bans = distinct(rows.filter(isPlainBan));
  const found: Finding[] = [];
  const seen = new Map<string, Relation>();
  let pairs = 0;
  for (const row of rows) {
    if (row.verdict === 'ban') continue;
    let part: Finding | null = null;
    for (const ban of bans) {
      if (ban.agency.toLowerCase() !== row.agency.toLowerCase()) continue;
      if (++pairs > MOST_PAIRS || found.length >= most)
        return { found, more: `${rows.length} rows, compared to row ${row.row}` };
      const conflicts = conflict(ban, row, seen);
      if (conflicts === 'all') {
        const why = `contradicts row ${ban.row}: its ban always wins`;
        part = {
          row: row.row,
          column: 'Verdict',
          read: row.verdict,
          accepted: 'ban, or a narrower ban',
          why,
        };
        break;
      }
      if (conflicts === null || part !== null) continue;
      const [column, , say] = conflicts;
      const why = `contradicts row ${ban.row} in part: where both hold, its ban of ${say(ban)} wins`;
      part = {
        row: row.row,
        column,
        read: say(row),
        accepted: `what row ${ban.row} leaves open`,
        why,
      };
    }
    if (part) found.push(part);
  }
  return { found, more: '' };
}
