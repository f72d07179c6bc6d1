/**
 * Does a row speak of a query, and does it hold at a moment? Read row by row and minute by minute; the
 * calendar answers the same question with whole days (rule-windows.ts), and the tests compare the two.
 *
 * Stage, From/To and planting age belong to the date on the clock. Weekday, date parity and "every nth
 * day" belong to the date that owns the window (setting Midnight).
 */
import { civil, dayOfYear, weekday } from '../dates.js';
import type { Day } from '../dates.js';
import { DAY_MINUTES } from './rule-types.js';
import type { AddressRule, RainDay, RuleQuery, RuleRow, RuleTable } from './rule-types.js';

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
    case 'group':
      return lower(query.group) === rule.name;
    case 'class':
      return lower(query.customerClass) === rule.name;
  }
}

/** The row speaks of this address, group or customer class. */
export const addressMatches = (row: RuleRow, query: RuleQuery): boolean =>
  row.address === null ||
  row.address.some((parts) => parts.every((rule) => oneAddress(rule, query) !== rule.not));

/** Stage, dates and planting age of the row hold on the day. */
export function inForce(row: RuleRow, day: Day, stage: string | null, query: RuleQuery): boolean {
  if (row.stage !== null && row.stage !== stage) return false;
  if ((row.from !== null && day < row.from) || (row.to !== null && day > row.to)) return false;
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
  const count = row.from === null ? dayOfYear(day) - 1 : day - row.from;
  return ((count % n) + n) % n === 0;
}

/** The row's Days hold on a date that owns a window. */
export const dayHolds = (row: RuleRow, day: Day): boolean =>
  ((row.days.weekdays >> weekday(day)) & 1) === 1 && parityHolds(row, day) && everyHolds(row, day);

/**
 * Minutes from 00:00 of `day` [from, to) closed by one day of rain. A rain with a known end locks from
 * that end on; without one the whole day of rain is closed and the hours count from its midnight.
 */
export function lockOf(rain: RainDay, hours: number, day: Day): { start: number; end: number } {
  const offset = (rain.day - day) * DAY_MINUTES;
  return {
    start: offset + (rain.minute ?? 0),
    end: offset + (rain.minute ?? DAY_MINUTES) + hours * 60,
  };
}

/** Rain deep enough for the row's lock-out. */
export const countsAsRain = (rain: RainDay, mm: number): boolean => rain.mm > 0 && rain.mm >= mm;

function lockedAt(row: RuleRow, day: Day, minute: number, query: RuleQuery): boolean {
  const lock = row.rain;
  if (lock === null) return false;
  return (query.rain ?? []).some((rain) => {
    if (!countsAsRain(rain, lock.mm)) return false;
    const { start, end } = lockOf(rain, lock.hours, day);
    return minute >= start && minute < end;
  });
}

function hoursHold(row: RuleRow, day: Day, minute: number): boolean {
  if (row.hours === null) return dayHolds(row, day);
  return row.hours.some(({ start, end }) => {
    if (start <= end) return minute >= start && minute < end && dayHolds(row, day);
    if (minute >= start) return dayHolds(row, row.midnight === 'start' ? day : day + 1);
    if (minute < end) return dayHolds(row, row.midnight === 'start' ? day - 1 : day);
    return false;
  });
}

/**
 * Days, hours and rain of the row hold at a moment. Rain closes an `allow` or `free` row during the
 * lock-out; on a `ban` row it is the condition of the ban.
 */
export function holdsAt(row: RuleRow, day: Day, minute: number, query: RuleQuery): boolean {
  if (!hoursHold(row, day, minute)) return false;
  if (row.rain === null) return true;
  return lockedAt(row, day, minute, query) === (row.verdict === 'ban');
}
