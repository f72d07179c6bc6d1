/** Readers of single cells of the rules table; each throws a Problem that says what is wrong. */
import { Problem } from '../problems.js';
import { DAY_MINUTES } from './rule-types.js';
import type { AddressRule, RuleCell, RuleRow, RuleWindow } from './rule-types.js';
import { clock } from './rule-words.js';

export const tidy = (cell: RuleCell | undefined): string =>
  cell === null || cell === undefined
    ? ''
    : String(cell)
        .replace(/[\u2010-\u2015\u2212]/g, '-')
        .replace(/\s+/g, ' ')
        .trim();

/** `Stage 2` and `2` are one stage. */
export const stageName = (text: string): string => text.toLowerCase().replace(/^stage /, '');

export const list = (text: string): string[] =>
  text
    .toLowerCase()
    .split(/[,;]/)
    .map((part) => part.trim());

/** One of a list of words. */
export function word<T extends string>(text: string, words: readonly T[]): T {
  const found = words.find((w) => w === text.toLowerCase());
  if (found === undefined) throw new Problem(`"${text}" is not one of the words`);
  return found;
}

/** Several of a list of words; null for `any`. */
export function wordList(text: string, words: readonly string[]): string[] | null {
  if (text.toLowerCase() === 'any') return null;
  return [...new Set(list(text).map((part) => word(part, words)))];
}

/** Minute of `7`, `07:30` or `24:00`. */
function minuteOf(text: string): number {
  const m = /^(\d{1,2})(?::(\d{2}))?$/.exec(text);
  if (!m) throw new Problem(`"${text}" is not a time`);
  const minute = Number(m[1]) * 60 + Number(m[2] ?? 0);
  if (Number(m[2] ?? 0) > 59 || minute > DAY_MINUTES) throw new Problem(`there is no ${text}`);
  return minute;
}

function windowOf(text: string): RuleWindow {
  const half = /^(before|after) (\S+)$/.exec(text);
  const span = /^(\S+?) ?(?:-|to) ?(\S+)$/.exec(text);
  const from = half ? (half[1] === 'before' ? '00:00' : half[2]) : span?.[1];
  const to = half ? (half[1] === 'before' ? half[2] : '24:00') : span?.[2];
  if (from === undefined || to === undefined) throw new Problem(`"${text}" is not a window`);
  const start = minuteOf(from);
  const end = minuteOf(to) || DAY_MINUTES;
  if (start === DAY_MINUTES) throw new Problem('a window starts before 24:00');
  if (start === end) throw new Problem(`the window ${text} has no length`);
  return { start, end };
}

/** What a window leaves of the day. */
function outside({ start, end }: RuleWindow): RuleWindow[] {
  if (end < start) return [{ start: end, end: start }];
  const parts = [
    { start: 0, end: start },
    { start: end, end: DAY_MINUTES },
  ].filter((w) => w.end > w.start);
  if (parts.length === 0) throw new Problem('that leaves no hour of the day');
  return parts;
}

export function hours(text: string, cell: RuleCell): Partial<RuleRow> {
  if (typeof cell === 'number' && cell >= 0 && cell < 1)
    throw new Problem(`${clock(Math.round(cell * DAY_MINUTES))} is one time, a window needs two`);
  const t = text.toLowerCase();
  if (t === 'any') return { hours: null };
  if (t.startsWith('not ')) return { hours: outside(windowOf(t.slice(4))) };
  const oneWindow = t.startsWith('one of ');
  const windows = list(oneWindow ? t.slice(7) : t).map(windowOf);
  if (oneWindow && windows.length < 2) throw new Problem('"one of" needs two windows or more');
  return { hours: windows, oneWindow };
}

function digits(text: string): number {
  let mask = 0;
  for (const part of text.split(/[, ]+/)) {
    const m = /^(\d)(?:-(\d))?$/.exec(part);
    const first = Number(m?.[1] ?? NaN);
    const last = Number(m?.[2] ?? first);
    if (!m || last < first) throw new Problem(`"${part}" is not a last digit or a span of them`);
    for (let d = first; d <= last; d++) mask |= 1 << d;
  }
  return mask;
}

/** `n`, `north`, `N/W` as letters of `nesw`. @throws Problem on another word */
export function sidesOf(text: string): string {
  const parts = text
    .toLowerCase()
    .split(/[ /,&]+/)
    .filter((part) => part !== '' && part !== 'and' && part !== 'side');
  const letters = parts.map((part) =>
    ['north', 'east', 'south', 'west'].find((name) => name === part || name[0] === part),
  );
  const wrong = letters.indexOf(undefined);
  if (wrong >= 0 || parts.length === 0)
    throw new Problem(`"${parts[wrong] ?? text}" is not a side of the street: N, E, S or W`);
  return [...new Set(letters.map((name) => name?.[0] ?? ''))].join('');
}

function oneAddress(text: string): AddressRule {
  const not = text.startsWith('not ');
  const plain = not ? text.slice(4).trim() : text;
  if (plain === 'odd' || plain === 'even' || plain === 'none') return { kind: plain, not };
  const ends = /^ends (.+)$/.exec(plain);
  if (ends) return { kind: 'digits', digits: digits((ends[1] ?? '').replace(/ ?- ?/g, '-')), not };
  const side = /^sides? (.+)$/.exec(plain);
  if (side) return { kind: 'side', sides: sidesOf(side[1] ?? ''), not };
  const named = /^(group|class) (.+)$/.exec(plain);
  if (named) return { kind: named[1] === 'group' ? 'group' : 'class', name: named[2] ?? '', not };
  throw new Problem(`"${text}" is not an address rule`);
}

/** `odd and not class commercial or none`: alternatives of parts that must all fit. */
export const address = (text: string): AddressRule[][] | null =>
  text.toLowerCase() === 'any'
    ? null
    : text
        .toLowerCase()
        .split(/;| or /)
        .map((one) => one.split(' and ').map((part) => oneAddress(part.trim())));

export function limit(text: string): RuleRow['limit'] {
  const m = /^(\d+)(?: ?min)?(?: (?:per )?(day|property|zone))?$/.exec(text.toLowerCase());
  const minutes = Number(m?.[1] ?? NaN);
  if (!m || minutes < 1 || minutes > DAY_MINUTES)
    throw new Problem(`"${text}" is not 1 to ${DAY_MINUTES} minutes`);
  const per = m[2];
  return { minutes, per: per === 'property' || per === 'zone' ? per : 'day' };
}

export function age(text: string, cell: RuleCell): RuleRow['age'] {
  if (typeof cell === 'number' && cell > 366)
    throw new Problem('the sheet turned it into a date, write it as text');
  const open = /^(\d+) ?(?:\+|and over)$/.exec(text.toLowerCase());
  if (open) return { first: Number(open[1]), last: Infinity };
  const m = /^(\d+)(?: ?(?:-|to) ?(\d+))?$/.exec(text);
  if (!m) throw new Problem(`"${text}" is not a span of days`);
  const first = Number(m[1]);
  const last = Number(m[2] ?? first);
  if (last < first) throw new Problem(`day ${last} comes before day ${first}`);
  return { first, last };
}

/** [mm] in one unit of depth. */
const DEPTH: Record<string, number> = { in: 25.4, mm: 1 };

export function rain(text: string): RuleRow['rain'] {
  const m = /^(\d+(?:[.,]\d+)?) ?h(?:ours?)? after (?:rain|(\d+(?:[.,]\d+)?) ?(in|mm))$/.exec(
    text.toLowerCase(),
  );
  if (!m) throw new Problem(`"${text}" is not a rain lock-out`);
  const number = (s: string | undefined): number => Number((s ?? '0').replace(',', '.'));
  const hoursLocked = number(m[1]);
  if (hoursLocked <= 0 || hoursLocked > 720) throw new Problem('a lock-out lasts up to 720 h');
  return { hours: hoursLocked, mm: number(m[2]) * (DEPTH[m[3] ?? 'mm'] ?? 1) };
}
