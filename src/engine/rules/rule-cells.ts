/** Readers of single cells of the rules table; each throws a Problem that says what is wrong. */
import { Problem } from '../problems.js';
import { DAY_MINUTES } from './rule-types.js';
import type { AddressRule, RuleCell, RuleRow } from './rule-types.js';

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

/** Reads every part of a cell. @throws Problem that names all parts that cannot be read, not the first alone */
export function each<T>(parts: readonly string[], read: (part: string) => T): T[] {
  const good: T[] = [];
  const wrong = new Set<string>();
  for (const part of parts)
    try {
      good.push(read(part));
    } catch (error) {
      if (!(error instanceof Problem)) throw error;
      wrong.add(error.message);
    }
  if (wrong.size > 0) throw new Problem([...wrong].join('; '));
  return good;
}

/** One of a list of words. */
export function word<T extends string>(text: string, words: readonly T[]): T {
  const found = words.find((w) => w === text.toLowerCase());
  if (found === undefined) throw new Problem(`"${text}" is not one of the words`);
  return found;
}

/** Several of a list of words; null for `any`. */
export function wordList(text: string, words: readonly string[]): string[] | null {
  if (text.toLowerCase() === 'any') return null;
  return [...new Set(each(list(text), (part) => word(part, words)))];
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
export function address(text: string): AddressRule[][] | null {
  const said = text.toLowerCase();
  if (said === 'any') return null;
  const parts = said.split(/;| or /).map((one) => one.split(' and ').map((part) => part.trim()));
  const read = each(parts.flat(), oneAddress);
  return parts.map(({ length }) => read.splice(0, length));
}

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
