/** Rows, hours and moments in words, for crew sheets, refusals and reasons. */
import { isoDate, MONTHS, WEEKDAYS, weekday } from '../dates.js';
import type { Day } from '../dates.js';
import { Problem } from '../problems.js';
import { ALL_WEEKDAYS, DAY_MINUTES } from './rule-types.js';
import type { AddressRule, DayRule, RuleRow, RuleWindow, YearDay } from './rule-types.js';

const two = (n: number): string => String(n).padStart(2, '0');

/** Minute of the day as `07:30`; 1440 is `24:00`. */
export const clock = (minute: number): string =>
  `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;

/** `00:00-10:00, 19:00-24:00`; `any` for the whole day, '' for no window. */
export function hoursText(windows: readonly RuleWindow[]): string {
  const first = windows[0];
  if (windows.length === 1 && first?.start === 0 && first.end === DAY_MINUTES) return 'any';
  return windows.map(({ start, end }) => `${clock(start)}-${clock(end)}`).join(', ');
}

/**
 * Open minutes of a day from their text: `any`, or `00:00-10:00, 19:00-24:00`.
 * @throws Problem if the text is neither
 */
export function windowsIn(text: string): RuleWindow[] {
  if (text === 'any') return [{ start: 0, end: DAY_MINUTES }];
  return text
    .split(', ')
    .filter((part) => part !== '')
    .map((part) => {
      const [, h1, m1, h2, m2] = /^(\d\d):(\d\d)-(\d\d):(\d\d)$/.exec(part) ?? [];
      if (h1 === undefined)
        throw new Problem(`"${text}" is not a list of hours; write "any" or "00:00-10:00"`);
      return { start: Number(h1) * 60 + Number(m1), end: Number(h2) * 60 + Number(m2) };
    });
}

/** `Tue 2026-07-07`. */
export const dayText = (day: Day): string => `${WEEKDAYS[weekday(day)] ?? ''} ${isoDate(day)}`;

const ORDINALS: Record<number, string> = { 2: '2nd', 3: '3rd' };

/** The Days of a row in words; `any day` without a condition. */
export function daysText(days: DayRule): string {
  if (days.weekdays === 0) return 'no day';
  const parts: string[] = [];
  if (days.weekdays !== ALL_WEEKDAYS)
    // the week is read out from Monday
    parts.push(
      [1, 2, 3, 4, 5, 6, 0]
        .filter((d) => (days.weekdays >> d) & 1)
        .map((d) => WEEKDAYS[d] ?? '')
        .join(' '),
    );
  if (days.parity !== null) parts.push(`${days.parity} dates`);
  if (days.every !== null) parts.push(`every ${ORDINALS[days.every] ?? `${days.every}th`} day`);
  if (days.perWeek !== null)
    parts.push(`${days.perWeek} ${days.perWeek === 1 ? 'day' : 'days'} a week`);
  return parts.length === 0 ? 'any day' : parts.join(', ');
}

function addressText(rule: AddressRule): string {
  return rule.not ? `not ${plainAddress(rule)}` : plainAddress(rule);
}

function plainAddress(rule: AddressRule): string {
  switch (rule.kind) {
    case 'none':
      return 'addresses without a number';
    case 'odd':
    case 'even':
      return `${rule.kind} addresses`;
    case 'digits': {
      const digits = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9].filter((d) => (rule.digits >> d) & 1);
      return `addresses ending in ${digits.join(', ')}`;
    }
    case 'side':
      return `addresses on the ${[...rule.sides].map((s) => SIDES[s] ?? s).join(' or ')} side`;
    case 'group':
    case 'class':
      return `${rule.kind} ${rule.name}`;
  }
}

const SIDES: Record<string, string> = { n: 'north', e: 'east', s: 'south', w: 'west' };

/** `odd addresses and not class shop or addresses without a number`. */
export const addressesText = (address: readonly AddressRule[][]): string =>
  address.map((parts) => parts.map(addressText).join(' and ')).join(' or ');

const TURNS: Record<number, string> = {
  1: 'first',
  2: 'second',
  3: 'third',
  4: 'fourth',
  [-1]: 'last',
};

/** `1 Nov`, `the first Sun of Oct`, `the day before the first Sun of Apr`. */
function yearDayText({ month, date, nth, weekday: wanted, before }: YearDay): string {
  const name = MONTHS[month - 1] ?? '';
  const day =
    date === null
      ? `the ${TURNS[nth] ?? ''} ${WEEKDAYS[wanted] ?? ''} of ${name}`
      : `${date} ${name}`;
  return before ? `the day before ${day}` : day;
}

/** From and To of a row in words; '' without both. */
export function datesText(row: RuleRow): string {
  if (row.yearlyFrom && row.yearlyTo)
    return `${yearDayText(row.yearlyFrom)} to ${yearDayText(row.yearlyTo)} of every year`;
  if (row.from !== null && row.to !== null) return `${isoDate(row.from)} to ${isoDate(row.to)}`;
  if (row.from !== null) return `from ${isoDate(row.from)}`;
  return row.to === null ? '' : `until ${isoDate(row.to)}`;
}

/** `1-30`, `61 and later`, `0`. */
export const ageText = ({ first, last }: { first: number; last: number }): string =>
  Number.isFinite(last)
    ? first === last
      ? String(first)
      : `${first}-${last}`
    : `${first} and later`;

const VERBS: Record<RuleRow['verdict'], string> = {
  allow: 'allows',
  ban: 'bans',
  free: 'frees',
};

function conditions(row: RuleRow): string[] {
  const out: string[] = [];
  if (row.source) out.push(`water from ${row.source.join(', ')}`);
  const dates = datesText(row);
  if (dates !== '') out.push(dates);
  if (row.limit) out.push(`at most ${row.limit.minutes} min per ${row.limit.per}`);
  if (row.rain) {
    const depth = row.rain.mm === 0 ? 'rain' : `${Number(row.rain.mm.toFixed(1))} mm of rain`;
    out.push(`${row.verdict === 'ban' ? 'for' : 'not for'} ${row.rain.hours} h after ${depth}`);
  }
  if (row.needs.length > 0)
    out.push(`${row.verdict === 'ban' ? 'with' : 'needs'} ${row.needs.join(', ')}`);
  return out;
}

const written = new WeakMap<RuleRow, string>();

/**
 * A row in words, e.g. `Row 2 allows bag for odd addresses: Wed Sat, 00:00-10:00 (section 3)`.
 * Never empty, never throws.
 */
export function describeRow(row: RuleRow): string {
  const known = written.get(row);
  if (known !== undefined) return known;
  const agency = row.agency === '' ? '' : ` of ${row.agency}`;
  const stage = row.stage === null ? '' : ` (stage ${row.stage})`;
  const means = row.means?.join(', ') ?? 'all watering';
  const target =
    row.target === null ? '' : ` of ${row.target === 'tree' ? 'trees' : 'new plantings'}`;
  const who = row.address ? ` for ${addressesText(row.address)}` : '';
  const age = row.age ? ` on days ${ageText(row.age)} after planting` : '';
  const hours =
    row.hours === null ? 'any hour' : `${row.oneWindow ? 'one of ' : ''}${hoursText(row.hours)}`;
  // an allow on no day is meant: it closes what no other row opens
  const shut = row.verdict === 'allow' && row.days.weekdays === 0;
  const days = shut ? 'unless another row opens it' : daysText(row.days);
  const when = [days, hours, ...conditions(row)].join('; ');
  const verb = shut ? 'closes' : VERBS[row.verdict];
  const note = row.note === '' ? '' : ` (${row.note})`;
  const text = `Row ${row.row}${agency}${stage} ${verb} ${means}${target}${who}${age}: ${when}${note}`;
  written.set(row, text);
  return text;
}
