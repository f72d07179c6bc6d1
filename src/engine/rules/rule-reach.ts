/** Rows that can never match, and addresses that no row speaks of. */
import type { Day } from '../dates.js';
import { dayIn } from './rule-dates.js';
import { addressMatches, dayHolds, topicMatches } from './rule-match.js';
import { MEANS_WORDS } from './rule-types.js';
import type { AddressRule, RuleQuery, RuleRow, RuleTable } from './rule-types.js';
import { addressesText, datesText, daysText } from './rule-words.js';

/** Something odd about a row, ready to be reported. */
export interface Finding {
  row: number;
  column: string;
  read: string;
  accepted: string;
  why: string;
}

const names = (rows: readonly RuleRow[], kind: 'group' | 'class'): string[] => {
  const rules = rows.flatMap((row) => row.address?.flat() ?? []);
  return ['', ...new Set(rules.flatMap((rule) => (rule.kind === kind ? [rule.name] : [])))];
};

const DIGITS = ['', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9'];

/** One query for every kind of address that the rows can tell apart. */
export function addressKinds(rows: readonly RuleRow[]): RuleQuery[] {
  const rules = rows.flatMap((row) => row.address?.flat() ?? []);
  const sides = rules.some((rule) => rule.kind === 'side') ? ['', 'n', 'e', 's', 'w'] : [''];
  const numbers = rules.some(byNumber) ? DIGITS : [''];
  const out: RuleQuery[] = [];
  for (const address of numbers)
    for (const side of sides)
      for (const group of names(rows, 'group'))
        for (const customerClass of names(rows, 'class'))
          out.push({ family: '', address, side, group, customerClass });
  return out;
}

const byNumber = ({ kind }: AddressRule): boolean =>
  kind === 'odd' || kind === 'even' || kind === 'digits' || kind === 'none';

/** Years after which dates and weekdays come round again. */
const ROUND = 28;

/** Spans of days in which a row with both its ends is in force: its dates, or its seasons of 28 years. */
function spans({ from, to, yearlyFrom, yearlyTo }: RuleRow): { first: Day; last: Day }[] {
  if (from !== null && to !== null) return [{ first: from, last: to }];
  if (yearlyFrom === null || yearlyTo === null) return [];
  return Array.from({ length: ROUND }, (_, i) => {
    const first = dayIn(yearlyFrom, 2027 + i);
    const last = dayIn(yearlyTo, 2027 + i);
    return { first, last: first <= last ? last : dayIn(yearlyTo, 2028 + i) };
  });
}

/** Most days of a span looked at: enough for every combination of weekday, date and turn to come up. */
const MOST_DAYS = 10_227;

/** The days of the row come up at least once while it is in force. */
function someDay(row: RuleRow): boolean {
  for (const { first, last } of spans(row))
    for (let day = first; day <= Math.min(last, first + MOST_DAYS); day++)
      if (dayHolds(row, day)) return true;
  return false;
}

/** First and last day of each time a stage is in force. */
function stageSpans(table: RuleTable, stage: string): { first: Day; last: Day }[] {
  return table.stages.flatMap((entry, i) =>
    entry.stage === stage
      ? [{ first: entry.from, last: (table.stages[i + 1]?.from ?? Infinity) - 1 }]
      : [],
  );
}

function stageFinding(row: RuleRow, table: RuleTable): Omit<Finding, 'row'> | null {
  if (row.stage === null) return null;
  const spans = stageSpans(table, row.stage);
  if (spans.length === 0)
    return {
      column: 'Stage',
      read: row.stage,
      accepted: table.stages.map((s) => s.stage).join(', ') || 'a Stages table',
      why: 'the Stages table never puts it in force',
    };
  const meets = spans.some(
    ({ first, last }) => first <= (row.to ?? Infinity) && last >= (row.from ?? -Infinity),
  );
  if (meets) return null;
  return {
    column: 'From',
    read: datesText(row),
    accepted: `dates in which stage ${row.stage} is in force`,
    why: `the row can never match: stage ${row.stage} is not in force on any of these dates`,
  };
}

function dayFinding(row: RuleRow): Omit<Finding, 'row'> | null {
  // an allow on no day is meant: it closes what no other row opens
  if (row.days.weekdays === 0) return null;
  const bounded = (row.from !== null && row.to !== null) || row.yearlyFrom !== null;
  if (!bounded || someDay(row)) return null;
  return {
    column: 'Days',
    read: daysText(row.days),
    accepted: 'days that come between From and To',
    why: `the row can never match: no such day comes from ${datesText(row)}`,
  };
}

function addressFinding(row: RuleRow): Omit<Finding, 'row'> | null {
  if (row.address === null) return null;
  if (addressKinds([row]).some((kind) => addressMatches(row, kind))) return null;
  return {
    column: 'Address',
    read: addressesText(row.address),
    accepted: 'parts that one address can fit together',
    why: 'the row can never match: no address fits all of this',
  };
}

/** Rows that can never match, each with the first reason found. */
export function unreachable(table: RuleTable): Finding[] {
  const checked = new Map<string, Omit<Finding, 'row'> | null>();
  return table.rows.flatMap((row) => {
    const { stage, from, to, yearlyFrom, yearlyTo, days, day31, address } = row;
    const key = JSON.stringify([stage, from, to, yearlyFrom, yearlyTo, days, day31, address]);
    let found = checked.get(key);
    if (found === undefined) {
      found = addressFinding(row) ?? stageFinding(row, table) ?? dayFinding(row);
      checked.set(key, found);
    }
    return found ? [{ row: row.row, ...found }] : [];
  });
}

/**
 * Means that rows open by house number while none of them opens an address without a number, in some stage
 * and for some source, and these rows. Rows for young plantings alone do not count.
 */
export function withoutNumber(table: RuleTable): { means: string[]; rows: number[] } {
  const closed = new Set<number>();
  const permits = table.rows.filter((row) => row.verdict !== 'ban' && row.age === null);
  const stages = new Set(permits.map((row) => row.stage));
  const sources = new Set(['mains', ...permits.flatMap((row) => row.source ?? [])]);
  const closes = (family: string, stage: string | null, source: string): boolean => {
    const query: RuleQuery = { family, source, address: '', target: 'new planting' };
    const rows = permits.filter(
      (row) => (row.stage === null || row.stage === stage) && topicMatches(row, query),
    );
    const numbered = rows.filter((row) => row.address?.some((parts) => parts.some(byNumber)));
    if (numbered.length === 0 || rows.some(opensNone)) return false;
    for (const { row } of numbered) closed.add(row);
    return true;
  };
  const means = MEANS_WORDS.filter((family) =>
    [...stages].some((stage) => [...sources].some((source) => closes(family, stage, source))),
  );
  return { means, rows: [...closed].sort((a, b) => a - b) };
}

/** Some part of the row speaks of addresses without a number; one for a group or class alone does not. */
const opensNone = (row: RuleRow): boolean =>
  row.address === null ||
  row.address.some((parts) =>
    parts.every((rule) => rule.kind === 'side' || (rule.kind === 'none') !== rule.not),
  );
