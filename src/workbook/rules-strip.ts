/**
 * Six weeks of open and closed days by means, for every kind of tree the rules tell apart: data for the sheet
 * "Rule days" and for the panel.
 */
import type { Day } from '../engine/dates.js';
import { queryOf } from '../engine/plan/calendars.js';
import { FAMILIES, type Device, type Family, type Tree } from '../engine/plan/model.js';
import { calendarKey, ruleCalendar, type RuleCalendar } from '../engine/rules/rule-calendar.js';
import type { RuleTable } from '../engine/rules/rule-table.js';
import { NO_ADDRESS } from '../tables/inventory/rows.js';

/** Length of the strip [days]. */
export const STRIP_DAYS = 42;
/** Kinds of trees shown; the others are counted. */
export const MOST_KINDS = 6;

export interface StripMeans {
  means: string;
  /** a day each: '' closed, 'any', or windows as `00:00-10:00, 19:00-24:00` */
  hours: string[];
  /** what hours alone do not say: budgets, limits, needs, no rule found */
  remarks: string[];
}

export interface StripKind {
  /** a tree of this kind: its address, and what else the rules may look at */
  example: string;
  /** trees of the kind, counting rows of several */
  trees: number;
  means: StripMeans[];
  /** a day each: means a ban closes, with the rows that do: `soaker (row 9)` */
  bans: string[];
}

export interface RuleStrip {
  from: Day;
  days: number;
  /** a day each, '' for no stage */
  stages: string[];
  kinds: StripKind[];
  /** kinds that are not shown, and their trees */
  more: { kinds: number; trees: number };
}

export type StripTree = Pick<Tree, 'address' | 'planted' | 'tap' | 'source' | 'count' | 'site'>;

/** Where six weeks begin: on the day of planning if it lies in the season, else with the season. */
export const stripStart = (madeOn: Day, season: { seasonFrom: Day; seasonTo: Day }): Day =>
  madeOn > season.seasonFrom && madeOn <= season.seasonTo ? madeOn : season.seasonFrom;

/** Means of the kit; without a kit, those the planner knows. */
const familiesOf = (kit: readonly Device[]): Family[] => {
  const own = FAMILIES.filter((family) => kit.some((device) => device.family === family));
  return own.length > 0 ? own : [...FAMILIES];
};

const stageOn = (table: RuleTable, day: Day): string =>
  table.stages.filter(({ from }) => from <= day).at(-1)?.stage ?? '';

/** Values of the days, each once, in order. */
const distinct = <T>(values: Iterable<T>): T[] => [...new Set(values)];

function remarksOf(calendar: RuleCalendar): string[] {
  const out: string[] = [];
  const open = [...calendar.open.keys()].filter((i) => calendar.open[i] === 1);
  const weeks = distinct(open.map((i) => calendar.perWeek[i] ?? 7)).filter((n) => n < 7);
  for (const n of weeks) out.push(`at most ${n} ${n === 1 ? 'day' : 'days'} a week`);
  for (const per of ['day', 'zone', 'property'] as const) {
    const limits = distinct(open.map((i) => calendar.limits[per][i] ?? -1)).filter((m) => m >= 0);
    for (const minutes of limits)
      out.push(`at most ${minutes} min a day${per === 'day' ? '' : ` per ${per}`}`);
  }
  if (open.some((i) => calendar.oneWindow[i] === 1)) out.push('one of the windows only');
  const needs = distinct(open.flatMap((i) => calendar.needs[i] ?? []));
  if (needs.length > 0) out.push(`needs ${needs.join(', ')}`);
  const silent = open.filter((i) => calendar.row[i] === 0).length;
  if (silent > 0)
    out.push(
      silent === calendar.open.length
        ? 'no rule speaks of it, so any hour counts as open'
        : `no rule speaks of it on ${silent} of ${calendar.open.length} days; they count as open`,
    );
  return out;
}

function bansOf(table: RuleTable, calendars: [string, RuleCalendar][], i: number): string {
  const said = calendars.flatMap(([means, calendar]) => {
    if (calendar.open[i] === 1) return [];
    const row = table.rows.find((r) => r.row === calendar.row[i]);
    return row?.verdict === 'ban' ? [`${means} (row ${row.row})`] : [];
  });
  return said.join(', ');
}

interface Group {
  tree: StripTree;
  trees: number;
}

/** What a tree of the kind looks like to the rules. */
function exampleOf({ address, site, tap, source }: StripTree): string {
  const where =
    address === ''
      ? `a tree without an address${site === '' || site === NO_ADDRESS ? '' : `, ${site}`}`
      : address;
  const water = source === undefined || source === 'mains' ? '' : `${source} water`;
  const parts = [where, tap === false ? 'no tap' : '', water];
  return parts.filter((part) => part !== '').join(', ');
}

/** Kinds by how many trees they have, most first. */
function groupsOf(
  table: RuleTable,
  trees: readonly StripTree[],
  families: Family[],
  from: Day,
): Group[] {
  const groups = new Map<string, Group>();
  for (const tree of trees) {
    const key = families.map((f) => calendarKey(table, queryOf(tree, f), from)).join('\u0000');
    const group = groups.get(key);
    if (group) group.trees += tree.count;
    else groups.set(key, { tree, trees: tree.count });
  }
  return [...groups.values()].sort((a, b) => b.trees - a.trees);
}

/** The strip for trees under a table. Without trees there is no kind to show. */
export function ruleStrip(
  table: RuleTable,
  trees: readonly StripTree[],
  kit: readonly Device[],
  from: Day,
): RuleStrip {
  const families = familiesOf(kit);
  const groups = groupsOf(table, trees, families, from);
  const indices = Array.from({ length: STRIP_DAYS }, (_, i) => i);
  const shown = groups.slice(0, MOST_KINDS);
  const rest = groups.slice(MOST_KINDS);
  return {
    from,
    days: STRIP_DAYS,
    stages: indices.map((i) => stageOn(table, from + i)),
    kinds: shown.map(({ tree, trees: count }) => {
      const calendars = families.map((family): [Family, RuleCalendar] => [
        family,
        ruleCalendar(table, queryOf(tree, family), from, from + STRIP_DAYS - 1),
      ]);
      return {
        example: exampleOf(tree),
        trees: count,
        means: calendars.map(([means, calendar]) => ({
          means,
          hours: [...calendar.hours],
          remarks: remarksOf(calendar),
        })),
        bans: indices.map((i) => bansOf(table, calendars, i)),
      };
    }),
    more: { kinds: rest.length, trees: rest.reduce((sum, g) => sum + g.trees, 0) },
  };
}
