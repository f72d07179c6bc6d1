/** Worksheet functions that ask a rules table whether, why and when watering is allowed. */
import { isoDate } from '../engine/dates.js';
import { Problem } from '../engine/problems.js';
import { topicMatches } from '../engine/rules/rule-match.js';
import {
  allowed,
  type RainDay,
  type RuleQuery,
  type RuleTable,
} from '../engine/rules/rule-table.js';
import { MEANS_WORDS } from '../engine/rules/rule-types.js';
import { openWindows } from '../engine/rules/rule-windows.js';
import type { Units } from '../engine/units.js';
import { convert, splitHeader } from '../tables/cells.js';
import { answer } from './answer.js';
import {
  date,
  dateCell,
  moment,
  number,
  optionalDate,
  optionalTable,
  text,
  word,
} from './arguments.js';
import { rulesOf } from './season-tables.js';

/** Most dates RULE_DATES looks through [days]. */
const MOST_DAYS = 1100;
const MINUTES_PER_DAY = 1440;

/**
 * TRUE if watering is allowed at a moment.
 * @customfunction RULE_OPEN
 * @param when - moment asked about, a date with its time of day; a whole date is midnight
 * @param means - what waters, a word of the rules table such as "bag", no unit
 * @param address - address of the tree, no unit: its first whole number counts; blank for one without a number
 * @param rules - Rules table, a range with its header row, or an array constant
 * @param planted - day the tree was planted, a date; default: not known, rules for new plantings do not speak
 * @param rain - rain of late, a range of date and inches, or mm if its header row says so; a date with a time is when the rain ended, a whole date counts to its end; default: none
 * @param stages - Stages table, a range with its header row; default: none, only rules without a stage speak
 * @returns TRUE or FALSE
 * @equation a ban that holds forbids, else a free row that holds allows, else some allow row must hold; a means no row speaks of is unrestricted; every agency must allow
 * @range local time of the site, to the minute; a tree on mains water, a tanker on its own
 * @throws #VALUE! naming the parameter, or the row of the table and what is accepted there
 * @source your rules table; how rows combine is the design of this table, after published ordinances
 */
export function ruleOpen(
  when: unknown,
  means: unknown,
  address: unknown,
  rules: unknown[][],
  planted?: unknown,
  rain?: unknown[][],
  stages?: unknown[][],
): boolean {
  return answer(() => {
    const at = moment('when', when);
    const { law, query } = asked(means, address, rules, planted, rain, stages);
    return allowed(law, at, query).open;
  });
}

/**
 * Whether watering is allowed at a moment, and the row of the rules that decides it, in a sentence.
 * @customfunction RULE_WHY
 * @param when - moment asked about, a date with its time of day; a whole date is midnight
 * @param means - what waters, a word of the rules table such as "bag", no unit
 * @param address - address of the tree, no unit: its first whole number counts; blank for one without a number
 * @param rules - Rules table, a range with its header row, or an array constant
 * @param planted - day the tree was planted, a date; default: not known, rules for new plantings do not speak
 * @param rain - rain of late, a range of date and inches, or mm if its header row says so; a date with a time is when the rain ended, a whole date counts to its end; default: none
 * @param stages - Stages table, a range with its header row; default: none, only rules without a stage speak
 * @returns a sentence that begins with Open or Closed
 * @equation as RULE_OPEN; the row named is the first ban, free row or allow row that decides
 * @range local time of the site, to the minute; a tree on mains water, a tanker on its own
 * @throws #VALUE! naming the parameter, or the row of the table and what is accepted there
 * @source your rules table; how rows combine is the design of this table, after published ordinances
 */
export function ruleWhy(
  when: unknown,
  means: unknown,
  address: unknown,
  rules: unknown[][],
  planted?: unknown,
  rain?: unknown[][],
  stages?: unknown[][],
): string {
  return answer(() => {
    const at = moment('when', when);
    const { law, query } = asked(means, address, rules, planted, rain, stages);
    const { reason, row } = allowed(law, at, query);
    // where no rule is found, the reason itself speaks of the silent rows
    return row === null ? reason : reason + silentRows(law, query);
  });
}

/**
 * Next moment watering may start, from a given moment on.
 * @customfunction RULE_NEXT
 * @param after - moment to look from, a date with its time of day; a whole date is midnight
 * @param means - what waters, a word of the rules table such as "bag", no unit
 * @param address - address of the tree, no unit: its first whole number counts; blank for one without a number
 * @param rules - Rules table, a range with its header row, or an array constant
 * @param planted - day the tree was planted, a date; default: not known, rules for new plantings do not speak
 * @param rain - rain of late, a range of date and inches, or mm if its header row says so; a date with a time is when the rain ended, a whole date counts to its end; default: none
 * @param stages - Stages table, a range with its header row; default: none, only rules without a stage speak
 * @returns after itself if that is open, else when it opens next, a date with its time of day
 * @equation the first minute from after on for which RULE_OPEN is TRUE
 * @range 400 days ahead; local time of the site, to the minute
 * @throws #VALUE! naming the parameter, or the row of the table and what is accepted there; #N/A if nothing opens within 400 days
 * @source your rules table; how rows combine is the design of this table, after published ordinances
 */
export function ruleNext(
  after: unknown,
  means: unknown,
  address: unknown,
  rules: unknown[][],
  planted?: unknown,
  rain?: unknown[][],
  stages?: unknown[][],
): number {
  return answer(() => {
    const at = moment('after', after);
    const { law, query } = asked(means, address, rules, planted, rain, stages);
    const now = allowed(law, at, query);
    const next = now.open ? at : now.until;
    if (!next)
      throw new Problem(
        `after ${isoDate(at.day)} nothing opens within 400 days. ${now.reason}${silentRows(law, query)}`,
        'none',
      );
    return dateCell(next.day) + next.minute / MINUTES_PER_DAY;
  });
}

/**
 * All dates on which watering is allowed at some time of the day.
 * @customfunction RULE_DATES
 * @param from - first day, a date
 * @param to - last day, a date, at most 1,100 days in all
 * @param means - what waters, a word of the rules table such as "bag", no unit
 * @param address - address of the tree, no unit: its first whole number counts; blank for one without a number
 * @param rules - Rules table, a range with its header row, or an array constant
 * @param planted - day the tree was planted, a date; default: not known, rules for new plantings do not speak
 * @param rain - rain of late, a range of date and inches, or mm if its header row says so; a date with a time is when the rain ended, a whole date counts to its end; default: none
 * @param stages - Stages table, a range with its header row; default: none, only rules without a stage speak
 * @returns the dates, one below the other
 * @equation every day with a minute for which RULE_OPEN is TRUE; a window that crosses midnight opens both of its days
 * @range 1 to 1,100 days
 * @throws #VALUE! naming the parameter, or the row of the table and what is accepted there; #N/A if no date is open
 * @source your rules table; how rows combine is the design of this table, after published ordinances
 */
export function ruleDates(
  from: unknown,
  to: unknown,
  means: unknown,
  address: unknown,
  rules: unknown[][],
  planted?: unknown,
  rain?: unknown[][],
  stages?: unknown[][],
): unknown[][] {
  return answer(() => {
    const [first, last] = [date('from', from), date('to', to)];
    if (last < first)
      throw new Problem(`to must not be before from; got ${isoDate(last)} and ${isoDate(first)}`);
    if (last - first >= MOST_DAYS)
      throw new Problem(`to must be within 1,100 days of from; got ${last - first + 1} days`);
    const { law, query } = asked(means, address, rules, planted, rain, stages);
    const dates: number[][] = [];
    for (let day = first; day <= last; day++)
      if (openWindows(law, day, query).length > 0) dates.push([day]);
    if (dates.length === 0) {
      const { reason } = allowed(law, { day: first, minute: 0 }, query);
      throw new Problem(
        `from ${isoDate(first)} to ${isoDate(last)} no date is open. ${reason}${silentRows(law, query)}`,
        'none',
      );
    }
    return dates;
  });
}

/** The arguments all four share, as the rules engine takes them. */
function asked(
  means: unknown,
  address: unknown,
  rules: unknown,
  planted: unknown,
  rain: unknown,
  stages: unknown,
): { law: RuleTable; query: RuleQuery } {
  const family = word('means', means, MEANS_WORDS);
  const house = text('address', address);
  const query: RuleQuery = {
    family,
    address: house === '0' ? '' : house, // a blank cell, as some hosts hand it over
    source: family === 'tanker' ? 'tanker' : 'mains',
    target: 'tree',
    planted: optionalDate('planted', planted),
    rain: rainDays(rain),
  };
  return { law: lawOf(rules, stages), query };
}

/** The tables read last: many cells ask the same ones, and reading takes longer than answering. */
let known: { cells: string; law: RuleTable } | undefined;

function lawOf(rules: unknown, stages: unknown): RuleTable {
  const cells = JSON.stringify([rules, stages]);
  if (known?.cells !== cells) known = { cells, law: rulesOf(rules, stages) };
  return known.law;
}

/** Rows of date and depth, below a header or without one; blank rows are passed over. */
export function rainDays(given: unknown): RainDay[] | undefined {
  const rows = optionalTable('rain', given);
  if (!rows) return undefined;
  const top = rows[0]?.[0];
  const headed = typeof top === 'string' && !/\d/.test(top);
  const units = headed ? depthUnits(String(rows[0]?.[1] ?? '')) : 'US';
  return rows.flatMap((row, i) => {
    if ((headed && i === 0) || row.every((cell) => cell === null)) return [];
    const name = `rain, row ${i + 1},`;
    const { day, minute } = moment(name, row[0]);
    const mm = number(name, row[1], 'dayRain', units);
    return [minute === 0 ? { day, mm } : { day, mm, minute }];
  });
}

function depthUnits(header: string): Units {
  const { unit } = splitHeader(header);
  if (unit === '' || convert(1, unit, 'in') === 1) return 'US';
  if (convert(1, unit, 'mm') === 1) return 'SI';
  throw new Problem(`rain is read in inches or mm; its header says "${header}"`);
}

/** Said where rows of a stage would speak of this means, but no Stages table puts a stage in force. */
function silentRows(law: RuleTable, query: RuleQuery): string {
  if (law.stages.length > 0) return '';
  const staged = law.rows.filter((row) => row.stage !== null && topicMatches(row, query));
  if (staged.length === 0) return '';
  const list = staged.map(({ row }) => row).join(', ');
  return ` Rows with a stage (${list}) stay silent: no stages say which one is in force.`;
}
