/**
 * Does a row speak of a query, and does it hold at a moment? Read row by row and minute by minute; the
 * calendar answers the same question with whole days (rule-windows.ts), and the tests compare the two.
 *
 * Stage, From/To and planting age belong to the date on the clock. Weekday, date parity and "every nth
 * day" and the weekly budget belong to the date that owns the window (setting Midnight).
 */
import { civil, dayOfYear, weekday } from '../dates.js';
import type { Day } from '../dates.js';
import { sidesOf } from './rule-cells.js';
import { inSeason, seasonStart } from './rule-dates.js';
import { DAY_MINUTES } from './rule-types.js';
import type {
  AddressRule,
  RainDay,
  RuleQuery,
  RuleRow,
  RuleTable,
  RuleWindow,
} from './rule-types.js';
import { clockAfter } from './rule-zone.js';

const lower = (text: string | undefined): string => (text ?? '').trim().toLowerCase();

/** Stage in force on a day, or null: before the first entry, or no Stages table. */
export function stageAt(table: RuleTable, day: Day): string | null {
  let stage: string | null = null;
  for (const entry of table.stages) {
    if (entry.from > day) break;
    stage = entry.stage;
  }
  return stage;
}

/** Last digit of the first whole number in an address, or null: no number. */
export function lastDigit(address: string): number | null {
  const number = /\d+/.exec(address);
  return number ? Number(number[0].slice(-1)) : null;
}

/** The families that count as hand watering when filling does (setting Filling). */
const FILLED = ['bag', 'tanker'];

/** The row's Means covers a family. */
function meansMatches(row: RuleRow, family: string): boolean {
  if (row.means === null || row.means.includes(family)) return true;
  return row.filling === 'hand' && FILLED.includes(family) && row.means.includes('hand');
}

function targetMatches(row: RuleRow, query: RuleQuery): boolean {
  if (row.target !== 'new planting') return true;
  return row.age !== null || query.target === 'new planting';
}

/** Means, source and target of the row fit the query; what day it is does not matter. */
export function topicMatches(row: RuleRow, query: RuleQuery): boolean {
  return (
    meansMatches(row, lower(query.family)) &&
    (row.source === null || row.source.includes(lower(query.source) || 'mains')) &&
    targetMatches(row, query)
  );
}

function oneAddress(rule: AddressRule, query: RuleQuery): boolean {
  const digit = lastDigit(query.address);
  switch (rule.kind) {
    case 'none':
      return digit === null;
    case 'odd':
      return digit !== null && digit % 2 === 1;
    case 'even':
      return digit !== null && digit % 2 === 0;
    case 'digits':
      return digit !== null && ((rule.digits >> digit) & 1) === 1;
    case 'side': {
      const side = lower(query.side);
      return side !== '' && [...sidesOf(side)].some((letter) => rule.sides.includes(letter));
    }
    case 'group':
      return lower(query.group) === rule.name;
    case 'class':
      return lower(query.customerClass) === rule.name;
  }
}

/** The row speaks of this address, side of the street, group or customer class. */
export const addressMatches = (row: RuleRow, query: RuleQuery): boolean =>
  row.address === null ||
  row.address.some((parts) => parts.every((rule) => oneAddress(rule, query) !== rule.not));

/** Stage, dates, season and planting age of the row hold on the day. */
export function inForce(row: RuleRow, day: Day, stage: string | null, query: RuleQuery): boolean {
  if (row.stage !== null && row.stage !== stage) return false;
  if ((row.from !== null && day < row.from) || (row.to !== null && day > row.to)) return false;
  if (!inSeason(row, day)) return false;
  if (row.age === null) return true;
  if (query.planted === undefined) return false;
  const age = day - query.planted + row.dayOne;
  return age >= row.age.first && age <= row.age.last;
}

/** The 31st and 29 February, after which date parity repeats. */
export function isOddTail(day: Day): boolean {
  const { month, date } = civil(day);
  return date === 31 || (month === 2 && date === 29);
}

function parityHolds(row: RuleRow, day: Day): boolean {
  if (row.days.parity === null) return true;
  if (row.day31 !== 'by parity' && isOddTail(day)) return row.day31 === 'all';
  return (civil(day).date % 2 === 1) === (row.days.parity === 'odd');
}

function everyHolds(row: RuleRow, day: Day): boolean {
  const n = row.days.every;
  if (n === null) return true;
  const { from, yearlyFrom } = row;
  let count = dayOfYear(day) - 1;
  if (from !== null) count = day - from;
  else if (yearlyFrom !== null) count = day - seasonStart(yearlyFrom, day);
  return ((count % n) + n) % n === 0;
}

/** Days of the Monday-to-Sunday week around a day that were watered, the day itself left out. */
export function usedInWeek(day: Day, watered: readonly Day[]): number {
  const monday = day - ((weekday(day) + 6) % 7);
  const days = watered.map(Math.floor).filter((d) => d >= monday && d < monday + 7 && d !== day);
  return new Set(days).size;
}

/** The weekly budget of the row leaves this day; without days already watered it always does. */
export const budgetHolds = (row: RuleRow, day: Day, query?: RuleQuery): boolean =>
  row.days.perWeek === null ||
  query?.watered === undefined ||
  usedInWeek(day, query.watered) < row.days.perWeek;

/** The row's Days hold on a date that owns a window. */
export const dayHolds = (row: RuleRow, day: Day, query?: RuleQuery): boolean =>
  ((row.days.weekdays >> weekday(day)) & 1) === 1 &&
  parityHolds(row, day) &&
  everyHolds(row, day) &&
  budgetHolds(row, day, query);

/** What the row needs and the query says is not fitted. */
export function unfitted(row: RuleRow, query: RuleQuery): string[] {
  const fitted = query.fitted?.map(lower);
  return fitted === undefined ? [] : row.needs.filter((need) => !fitted.includes(need));
}

/**
 * Needs of the row hold: on an allow or free row nothing is missing; a ban of something holds only where
 * all of it is said to be fitted.
 */
export const needsHold = (row: RuleRow, query: RuleQuery): boolean =>
  unfitted(row, query).length === 0 &&
  (row.verdict !== 'ban' || row.needs.length === 0 || query.fitted !== undefined);

/** Windows of the row, or only the one the property has chosen; null for any hour. */
export function windowsOf(row: RuleRow, query: RuleQuery): readonly RuleWindow[] | null {
  if (!row.oneWindow || query.window === undefined || row.hours === null) return row.hours;
  const chosen = row.hours[query.window - 1];
  return chosen ? [chosen] : [];
}

/**
 * Minutes from 00:00 of `day` [from, to) closed by one day of rain. A rain with a known end locks from
 * that end on; without one the whole day of rain is closed and the hours count from its midnight. Hours of
 * a lock-out are real ones, where the query names a time zone.
 */
export function lockOf(rain: RainDay, hours: number, day: Day, zone?: string): RuleWindow {
  const offset = (rain.day - day) * DAY_MINUTES;
  const ended = rain.minute ?? DAY_MINUTES;
  return {
    start: offset + (rain.minute ?? 0),
    end: offset + clockAfter(rain.day, ended, hours * 60, zone),
  };
}

/** Rain deep enough for the row's lock-out. */
export const countsAsRain = (rain: RainDay, mm: number): boolean => rain.mm > 0 && rain.mm >= mm;

function lockedAt(row: RuleRow, day: Day, minute: number, query: RuleQuery): boolean {
  const lock = row.rain;
  if (lock === null) return false;
  return (query.rain ?? []).some((rain) => {
    if (!countsAsRain(rain, lock.mm)) return false;
    const { start, end } = lockOf(rain, lock.hours, day, query.zone);
    return minute >= start && minute < end;
  });
}

function hoursHold(row: RuleRow, day: Day, minute: number, query: RuleQuery): boolean {
  const windows = windowsOf(row, query);
  if (windows === null) return dayHolds(row, day, query);
  const evening = row.midnight === 'start' ? day : day + 1;
  return windows.some(({ start, end }) => {
    if (start <= end) return minute >= start && minute < end && dayHolds(row, day, query);
    if (minute >= start) return dayHolds(row, evening, query);
    return minute < end && dayHolds(row, evening - 1, query);
  });
}

/**
 * Days, hours, needs and rain of the row hold at a moment. Rain closes an `allow` or `free` row during the
 * lock-out; on a `ban` row it is the condition of the ban.
 */
export function holdsAt(row: RuleRow, day: Day, minute: number, query: RuleQuery): boolean {
  if (!needsHold(row, query) || !hoursHold(row, day, minute, query)) return false;
  if (row.rain === null) return true;
  return lockedAt(row, day, minute, query) === (row.verdict === 'ban');
}
