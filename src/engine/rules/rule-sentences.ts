/** A rules table read back: each row as a sentence that names every condition of the row. */
import { civil } from '../dates.js';
import type { Day } from '../dates.js';
import { ALL_WEEKDAYS, DAY_MINUTES } from './rule-types.js';
import type {
  AddressRule,
  DayRule,
  RuleRow,
  RuleTable,
  RuleWindow,
  YearDay,
} from './rule-types.js';
import { clock } from './rule-words.js';

const LONG_DAYS = 'Sunday Monday Tuesday Wednesday Thursday Friday Saturday'.split(' ');
const LONG_MONTHS =
  'January February March April May June July August September October November December'.split(
    ' ',
  );
const SIDES: Record<string, string> = { n: 'north', e: 'east', s: 'south', w: 'west' };

/** `a`, `a or b`, `a, b or c`. */
function listed(words: readonly string[], joint: 'and' | 'or'): string {
  const last = words[words.length - 1] ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} ${joint} ${last}`;
}

function trait(rule: AddressRule): string {
  switch (rule.kind) {
    case 'odd':
    case 'even':
      return rule.kind;
    case 'none':
      return 'without a number';
    case 'digits': {
      const digits = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9].filter((d) => (rule.digits >> d) & 1);
      return `ending in ${listed(digits.map(String), 'or')}`;
    }
    case 'side': {
      const sides = [...rule.sides].map((side) => SIDES[side] ?? side);
      return `on the ${listed(sides, 'or')} side of the street`;
    }
    case 'group':
      return `in group ${rule.name.toUpperCase()}`;
    case 'class':
      return `of class ${rule.name}`;
  }
}

const isParity = (rule: AddressRule): boolean =>
  !rule.not && (rule.kind === 'odd' || rule.kind === 'even');

/** `even addresses not of class commercial`. */
function addresses(parts: readonly AddressRule[]): string {
  const before = parts.filter(isParity).map(trait);
  const after = parts
    .filter((rule) => !isParity(rule))
    .map((rule) => (rule.not ? `not ${trait(rule)}` : trait(rule)));
  // `without a number on the north side` is one thing
  const rest = after.join(' and ').replace('without a number and on', 'without a number on');
  return [...before, 'addresses', rest].filter((word) => word !== '').join(' ');
}

/** The row forbids, or is an allow on no day, which closes what no other row opens. */
const isShut = (row: RuleRow): boolean => row.verdict === 'ban' || row.days.weekdays === 0;

const who = (row: RuleRow): string =>
  row.address === null
    ? isShut(row)
      ? 'nobody'
      : 'all addresses'
    : listed(row.address.map(addresses), 'or');

/** What a row says of means, source and target: `new plantings by hand or bucket with well water`. */
function what(row: RuleRow): string {
  const parts: string[] = [];
  if (row.age !== null || row.target === 'new planting') parts.push('new plantings');
  else if (row.target !== null) parts.push('trees');
  parts.push(row.means === null ? 'by any means' : `by ${listed(row.means, 'or')}`);
  if (row.source) parts.push(`with ${listed(row.source, 'or')} water`);
  return parts.join(' ');
}

const ORDINALS: Record<number, string> = { 2: '2nd', 3: '3rd', 21: '21st', 22: '22nd', 23: '23rd', 31: '31st' }; // prettier-ignore

function turns(row: RuleRow, n: number): string {
  const start = row.from !== null || row.yearlyFrom !== null ? 'that date' : '1 January';
  return `every ${ORDINALS[n] ?? `${n}th`} day counted from ${start}`;
}

function weekdays(days: DayRule): string {
  // the week is read out from Monday
  const [on, off] = [true, false].map((wanted) =>
    [1, 2, 3, 4, 5, 6, 0]
      .filter((d) => (((days.weekdays >> d) & 1) === 1) === wanted)
      .map((d) => LONG_DAYS[d] ?? ''),
  );
  return (off ?? []).length <= 2
    ? `on any day but ${listed(off ?? [], 'and')}`
    : `on ${listed(on ?? [], 'and')}`;
}

function daysPart(row: RuleRow): string {
  const { days } = row;
  if (days.weekdays === 0) return 'on any day, unless another row opens it';
  const parts: string[] = [];
  if (days.weekdays !== ALL_WEEKDAYS) parts.push(weekdays(days));
  if (days.parity !== null) parts.push(`on ${days.parity} dates`);
  if (days.every !== null) parts.push(turns(row, days.every));
  if (days.perWeek !== null)
    parts.push(`on at most ${days.perWeek} ${days.perWeek === 1 ? 'day' : 'days'} a week`);
  if (days.parity !== null && row.day31 !== 'by parity')
    parts.push(`${row.day31 === 'all' ? 'and' : 'but not'} on the 31st and on 29 February`);
  return parts.join(', ');
}

function windowPart({ start, end }: RuleWindow): string {
  if (start === 0 && end === DAY_MINUTES) return 'at any hour';
  if (start === 0) return `before ${clock(end)}`;
  if (end === DAY_MINUTES) return `after ${clock(start)}`;
  return `from ${clock(start)} to ${clock(end)}${end < start ? ' the next day' : ''}`;
}

function hoursPart(row: RuleRow): string {
  if (row.hours === null) return row.verdict === 'free' ? 'at any time' : '';
  const windows = listed(row.hours.map(windowPart), 'or');
  const crossing = row.hours.some((w) => w.end < w.start);
  const limited = row.days.weekdays !== ALL_WEEKDAYS || row.days.parity !== null || row.days.every !== null; // prettier-ignore
  const owner = crossing && limited ? ` (the day on which the window ${row.midnight}s counts)` : '';
  const one = row.oneWindow ? ', in one of these windows only, chosen once' : '';
  return windows + owner + one;
}

function longDate(day: Day): string {
  const { year, month, date } = civil(day);
  return `${date} ${LONG_MONTHS[month - 1] ?? ''} ${year}`;
}

const NTH: Record<number, string> = { 1: 'first', 2: 'second', 3: 'third', 4: 'fourth', [-1]: 'last' }; // prettier-ignore

function yearly({ month, date, nth, weekday, before }: YearDay): string {
  const name = LONG_MONTHS[month - 1] ?? '';
  if (month === 2 && date === 29 && !before) return 'the end of February';
  const day =
    date === null
      ? `the ${NTH[nth] ?? ''} ${LONG_DAYS[weekday] ?? ''} of ${name}`
      : `${date} ${name}`;
  return before ? `the day before ${day}` : day;
}

function datesPart(row: RuleRow): string {
  if (row.yearlyFrom && row.yearlyTo)
    return `from ${yearly(row.yearlyFrom)} to ${yearly(row.yearlyTo)} of every year`;
  const from = row.from === null ? '' : `from ${longDate(row.from)}`;
  const to = row.to === null ? '' : `${from === '' ? 'until' : 'to'} ${longDate(row.to)}`;
  return [from, to].filter((part) => part !== '').join(' ');
}

function agePart(row: RuleRow): string {
  if (row.age === null) return '';
  const { first, last } = row.age;
  const span = last === first ? `on day ${first}` : `on days ${first} to ${last}`;
  const days = Number.isFinite(last) ? span : `from day ${first} on`;
  return `${days} after planting (planting day is day ${row.dayOne})`;
}

function limitPart(row: RuleRow): string {
  if (row.limit === null) return '';
  const { minutes, per } = row.limit;
  return `for at most ${minutes} min a day${per === 'day' ? '' : ` per ${per}`}`;
}

function rainPart(row: RuleRow): string {
  if (row.rain === null) return '';
  const { mm, hours } = row.rain;
  const number = (n: number) => String(Number(n.toFixed(2)));
  const depth =
    mm === 0 ? 'any rain' : `${number(mm)} mm (${number(mm / 25.4)} in) of rain or more`;
  return `${row.verdict === 'ban' ? 'for' : 'but not for'} ${number(hours)} h after ${depth}`;
}

const NEEDS: Record<string, string> = {
  nozzle: 'a nozzle that shuts off',
  timer: 'a timer',
  'pressure reducer': 'a pressure reducer',
  'moisture sensor': 'a moisture sensor',
  'rain sensor': 'a rain sensor',
  'one device': 'one device at a time',
  'one tap': 'one tap at a time',
  attended: 'somebody in attendance',
  'half new': 'at least half of the zone newly planted',
  permit: 'a permit',
  signage: 'signage',
  receipt: 'the receipt kept',
};

const needsPart = (row: RuleRow): string =>
  row.needs.length === 0
    ? ''
    : `with ${listed(
        row.needs.map((need) => NEEDS[need] ?? need),
        'and',
      )}`;

function settingsPart(row: RuleRow): string {
  const said: string[] = [];
  if (row.finish === 'may run over') said.push('a run may end outside the hours');
  if (row.drain === 'inside') said.push('a bag must have drained inside the hours');
  if (row.filling === 'hand') said.push('filling a bag or a tank counts as watering by hand');
  return said.length === 0 ? '' : `; ${said.join('; ')}`;
}

/**
 * A row as a sentence, e.g. `Even addresses may water by soaker on Tuesday and Saturday, before 10:00 or
 * after 19:00, from 1 May 2027.` Stage and agency stand in front, the note behind.
 */
export function ruleSentence(row: RuleRow): string {
  const verb = !isShut(row) || who(row) === 'nobody' ? 'may water' : 'may not water';
  const head = [row.agency, row.stage === null ? '' : `stage ${row.stage}`].filter((p) => p !== '');
  const subject = `${who(row)} ${verb} ${what(row)}`;
  const [first, ...rest] = [
    agePart(row), daysPart(row), hoursPart(row), datesPart(row), limitPart(row), rainPart(row), needsPart(row),
  ].filter((part) => part !== ''); // prettier-ignore
  const text = [first === undefined ? subject : `${subject} ${first}`, ...rest].join(', ');
  const prefix = head.length === 0 ? '' : `${head.join(', ')}: `;
  const whole = prefix + text + settingsPart(row);
  const note = row.note === '' ? '' : ` (${row.note})`;
  return `${whole.charAt(0).toUpperCase()}${whole.slice(1)}${note}.`;
}

/** Every row of a table as a sentence, in the order of the table. */
export const describeTable = (table: RuleTable): { row: number; sentence: string }[] =>
  table.rows.map((row) => ({ row: row.row, sentence: ruleSentence(row) }));
