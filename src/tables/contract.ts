/** The Contract sheet: one row a clause, what it asks for, of whom, and when. */
import type { Clause, ClauseEnd, Who } from '../engine/contract/clauses.js';
import { Problem } from '../engine/problems.js';
import { yearDay } from '../engine/rules/rule-dates.js';
import { MEANS_WORDS } from '../engine/rules/rule-types.js';
import { DAYS_PER_MONTH } from '../engine/tree/establishment.js';
import { convert, plainLabel, sheetDay, type Cell } from './cells.js';
import { readPlainTable, type PlainColumn, type PlainRow } from './plain-table.js';

const volume = ['gal', 'L'] as const;

/** Columns of the Contract sheet in order. */
export const CONTRACT_COLUMNS = {
  who: { name: 'Applies to', also: ['for', 'trees'], needed: true },
  from: { name: 'From' },
  to: { name: 'To' },
  least: { name: 'Least water', also: ['least gallons'], unit: volume },
  leastPer: { name: 'Water per', also: ['gallons per'] },
  visits: { name: 'Least visits', also: ['visits'] },
  visitsPer: { name: 'Visits per' },
  most: { name: 'Most water', also: ['most gallons', 'water cap'], unit: volume },
  mostPer: { name: 'Most per', also: ['cap per'] },
  overPrice: { name: 'Over costs', also: ['overage'], unit: ['per 1000 gal', 'per m³'] },
  rain: { name: 'Skip if rain', also: ['rain'], unit: ['in', 'mm'] },
  rainDays: { name: 'Within days', also: ['rain days'] },
  means: { name: 'Means' },
  until: { name: 'Until' },
  source: { name: 'Source' },
} as const satisfies Record<string, PlainColumn>;
type Key = keyof typeof CONTRACT_COLUMNS;
type Row = PlainRow<Key>;

const SIZE =
  /^(caliper|dbh|trunk|height)? ?(over|above|from|under|below|up to)? ?(\d+(?:\.\d+)?)(?: ?(?:-|–|to) ?(\d+(?:\.\d+)?))? ?([a-z"']+)( and over| or more)?$/;
const SAID_WHO =
  'all, caliper 2-3 in, caliper over 4 in, height 5-8 ft, species with its name, or site with its name';

function whoOf(row: Row): Who {
  const written = row.words('who');
  const words = written.toLowerCase();
  if (words === '' || words === 'all' || words === 'all trees') return { kind: 'all' };
  const named = /^(species|site):? (.+)$/i.exec(written);
  if (named) return { kind: named[1]!.toLowerCase() as 'species' | 'site', name: named[2]! };
  const size = SIZE.exec(words);
  if (!size) return row.refuse('who', SAID_WHO);
  const [, what, word = '', first, second, unit = '', over] = size;
  const feet = convert(1, unit, 'm');
  if (feet === undefined) return row.refuse('who', SAID_WHO);
  const tall = what === 'height' || (what === undefined && (unit === 'ft' || unit === 'm'));
  const inside = (n: string): number => convert(Number(n), unit, tall ? 'm' : 'mm')!;
  const a = inside(first!);
  const kind = tall ? 'height' : 'caliper';
  if (second !== undefined) {
    if (!(inside(second) > a)) return row.refuse('who', `${SAID_WHO}, the smaller size first`);
    return { kind, low: a, high: inside(second) };
  }
  if (['under', 'below', 'up to'].includes(word)) return { kind, low: 0, high: a };
  if (word === '' && over === undefined) return row.refuse('who', SAID_WHO);
  return { kind, low: a, high: Infinity };
}

const SAID_END =
  'a date, a day of every year such as Apr 15, or week 3, day 15, month 4 after planting';
const UNIT_DAYS: Readonly<Record<string, number>> = { day: 1, week: 7, month: DAYS_PER_MONTH };

function endOf(row: Row, key: 'from' | 'to'): ClauseEnd | null {
  if (!row.has(key)) return null;
  const day = sheetDay(row.cell(key));
  if (day !== undefined) return { kind: 'day', day };
  const words = row.words(key).toLowerCase();
  const age = /^(day|week|month) (\d{1,4})(?: after planting)?$/.exec(words);
  if (age && Number(age[2]) > 0) {
    // the third week begins after two of them; the eighth ends with its last day
    const whole = key === 'from' ? Number(age[2]) - 1 : Number(age[2]);
    const days = Math.round(whole * UNIT_DAYS[age[1]!]!) - (key === 'from' ? 0 : 1);
    return { kind: 'age', days };
  }
  try {
    const on = yearDay(words, key === 'to');
    if (on) return { kind: 'yearly', on };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
  }
  return row.refuse(key, SAID_END);
}

function untilOf(row: Row): Clause['until'] {
  if (!row.has('until')) return null;
  const day = sheetDay(row.cell('until'));
  if (day !== undefined) return { day };
  const span = /^(\d{1,3}) (month|year)s?(?: after planting)?$/.exec(
    row.words('until').toLowerCase(),
  );
  if (!span || Number(span[1]) === 0)
    return row.refuse('until', 'a date, or months or years after planting, such as 36 months');
  return { months: Number(span[1]) * (span[2] === 'year' ? 12 : 1) };
}

function meansOf(row: Row): string[] | null {
  if (!row.has('means') || plainLabel(row.words('means')) === 'any') return null;
  const words = row.words('means').toLowerCase().split(/[,;]/).map((w) => w.trim()); // prettier-ignore
  const known: readonly string[] = MEANS_WORDS;
  return words.every((w) => known.includes(w))
    ? words
    : row.refuse('means', `any, or words of ${MEANS_WORDS.join(', ')} with commas between`);
}

/** An amount with what it is counted over. Both, or neither. */
function amount<P extends string>(
  row: Row,
  key: Key,
  perKey: Key,
  pers: readonly P[],
): { value: number; per: P } | null {
  const value = row.number(key);
  const per = row.word(perKey, pers);
  if (value === undefined || value === 0) {
    if (per !== undefined) row.refuse(key, `a number above 0, since ${CONTRACT_COLUMNS[perKey].name} is ${per}`); // prettier-ignore
    return null;
  }
  return { value, per: per ?? row.refuse(perKey, pers.join(', ')) };
}

function clauseOf(row: Row): Clause {
  const least = amount(row, 'least', 'leastPer', ['visit', 'week', 'month']);
  const visits = amount(row, 'visits', 'visitsPer', ['week', 'month']);
  const most = amount(row, 'most', 'mostPer', ['week', 'month', 'season']);
  const overPrice = row.number('overPrice');
  if (!least && !visits && !most)
    throw new Problem('it asks for nothing; fill Least water, Least visits or Most water');
  if (visits && !Number.isInteger(visits.value)) row.refuse('visits', 'a whole number of visits');
  if (overPrice !== undefined && !most)
    throw new Problem('Over costs needs Most water, above which it holds');
  const [from, to] = [endOf(row, 'from'), endOf(row, 'to')];
  if ((from?.kind === 'yearly') !== (to?.kind === 'yearly'))
    throw new Problem('From and To must both be days of every year, or neither');
  if (from?.kind === 'day' && to?.kind === 'day' && to.day < from.day)
    throw new Problem('To lies before From');
  const mm = row.number('rain');
  const days = row.number('rainDays', 60);
  if ((mm === undefined) !== (days === undefined))
    throw new Problem('Skip if rain needs Within days, and the other way round');
  if (mm !== undefined && (mm === 0 || !(days! >= 1) || !Number.isInteger(days)))
    throw new Problem('Skip if rain must be above 0 and Within days a whole number from 1');
  return {
    row: row.at, who: whoOf(row), from, to,
    least: least && { litres: least.value, per: least.per },
    visits: visits && { count: visits.value, per: visits.per },
    most: most && { litres: most.value, per: most.per, price: overPrice ?? null },
    skip: mm === undefined ? null : { mm, days: days! },
    means: meansOf(row), until: untilOf(row), source: row.words('source'),
  }; // prettier-ignore
}

/**
 * Reads the Contract sheet.
 *
 * @returns the clauses that can be used, and a sentence for each row that cannot
 */
export function readContract(cells: readonly (readonly Cell[])[]): {
  clauses: Clause[];
  headerRow: number;
  problems: string[];
} {
  const { rows, headerRow, problems } = readPlainTable(cells, CONTRACT_COLUMNS, clauseOf);
  return { clauses: rows, headerRow, problems };
}
