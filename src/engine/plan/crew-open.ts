/**
 * What the rules leave of the crew's hours on its work days, by means: what a crew's day is worth, before anything is
 * planned. Means and trees with the same answer are one line; where all the crew's hours are open there is nothing to say.
 */
import { inShift, lengthOf, shiftOf, type Shift } from '../crew/shift.js';
import { weekday, type Day } from '../dates.js';
import { calendarKey, ruleCalendar } from '../rules/rule-calendar.js';
import type { RuleTable } from '../rules/rule-table.js';
import { hoursText } from '../rules/rule-words.js';
import { queryOf, workDayMask } from './calendars.js';
import { FAMILIES, type Device, type Family, type Site, type Tree } from './model.js';

/** Days of a line with the same hours. */
export interface OpenPart {
  /** 0 Sunday … 6 Saturday, in order from Monday; undefined where weekdays do not tell the days */
  weekdays?: number[];
  /** work days of the season it holds on */
  days: number;
  /** open within the crew's day, as `06:00-10:00, 12:00-14:00`; '' none */
  hours: string;
  /** of several windows only one may be used */
  oneOf: boolean;
  /** [min] */
  minutes: number;
  /** where none is open: the hours the rules give outside the crew's day, '' none at all */
  outside: string;
}

/** A stretch of the season in which every week has the same hours. */
export interface OpenSpell {
  from: Day;
  to: Day;
  /** most hours first */
  parts: OpenPart[];
}

export interface CrewOpenLine {
  means: Family[];
  /** trees it holds for, and the address of one; undefined: all that can have the means */
  some?: { trees: number; example: string };
  /** several where rules begin or end in the season; one with parts by number of days where weekdays do not tell */
  spells: OpenSpell[];
}

export interface CrewOpen {
  /** length of the crew's day, up to midnight [min] */
  minutes: number;
  pastMidnight: boolean;
  lines: CrewOpenLine[];
  /** lines that are not shown: too many kinds of trees */
  more: number;
}

/** What is looked at of a tree. */
export type OpenTree = Pick<
  Tree,
  'address' | 'planted' | 'tap' | 'source' | 'count' | 'meansWanted'
>;

/** Lines said; more are counted. Our choice. */
export const MOST_OPEN_LINES = 6;
/** Stretches of a season that are told apart, beyond which days are counted. Our choice. */
const MOST_SPELLS = 3;
const WEEK = 7;
const FROM_MONDAY = [1, 2, 3, 4, 5, 6, 0];

/** One work day as the rules leave it. */
interface OpenDay extends Pick<OpenPart, 'hours' | 'oneOf' | 'minutes'> {
  day: Day;
  outside: string;
}

/** Means of the kit for which a person comes. */
const peopled = (kit: readonly Device[]): Family[] =>
  FAMILIES.filter((family) => kit.some((d) => d.family === family && !d.automatic));

/** A hose needs a tap, and a row may name its means. */
const canHave = ({ tap, meansWanted }: OpenTree, family: Family): boolean =>
  !(tap === false && (family === 'hand' || family === 'soaker')) &&
  (meansWanted?.includes(family) ?? true);

interface Kind {
  tree: OpenTree;
  trees: number;
  families: Family[];
}

/** Trees that the rules do not tell apart by any of the means. */
function kindsOf(table: RuleTable, trees: readonly OpenTree[], families: Family[], from: Day): Kind[] {
  const kinds = new Map<string, Kind>();
  for (const tree of trees) {
    const own = families.filter((family) => canHave(tree, family));
    const key = own.map((f) => `${f} ${calendarKey(table, queryOf(tree, f), from)}`).join('\n');
    const kind = kinds.get(key);
    if (kind) kind.trees += tree.count;
    else kinds.set(key, { tree, trees: tree.count, families: own });
  }
  return [...kinds.values()].sort((a, b) => b.trees - a.trees);
} // prettier-ignore

function workDaysOf(
  table: RuleTable,
  { seasonFrom, seasonTo, workDays }: Site,
  shift: Shift,
  { tree }: Kind,
  family: Family,
): OpenDay[] {
  const mask = workDayMask(workDays);
  const calendar = ruleCalendar(table, queryOf(tree, family), seasonFrom, seasonTo);
  const days: OpenDay[] = [];
  for (let day = seasonFrom; day <= seasonTo; day++) {
    if (((mask >> weekday(day)) & 1) === 0) continue;
    const lawful = calendar.windows(day);
    const windows = inShift(lawful, shift);
    const oneOf = windows.length > 1 && calendar.oneWindow[day - seasonFrom] === 1;
    const minutes = oneOf ? Math.max(...windows.map((w) => lengthOf([w]))) : lengthOf(windows);
    const outside = minutes === 0 ? hoursText(lawful) : '';
    days.push({ day, hours: minutes === 0 ? '' : hoursText(windows), oneOf, minutes, outside });
  }
  return days;
}

const same = (a: OpenDay, b: OpenDay): boolean =>
  a.hours === b.hours && a.oneOf === b.oneOf && a.outside === b.outside;

/**
 * Runs of days in which a weekday always has the same hours; days are in order. A change shows only on a weekday that it
 * changes: where a stage begins in the week before, the run begins with the stage.
 */
function runsOf(days: readonly OpenDay[], stages: readonly Day[]): OpenDay[][] {
  const runs: OpenDay[][] = [];
  let week = new Map<number, OpenDay>();
  for (const one of days) {
    const known = week.get(weekday(one.day));
    const last = runs.at(-1);
    if (last === undefined) runs.push([]);
    else if (known && !same(known, one)) {
      const begun = stages.find((day) => day > one.day - WEEK && day <= one.day) ?? one.day;
      const moved = last.filter(({ day }) => day >= begun);
      last.splice(last.length - moved.length, moved.length);
      runs.push(moved);
      week = new Map(moved.map((each) => [weekday(each.day), each]));
    }
    week.set(weekday(one.day), one);
    runs.at(-1)!.push(one);
  }
  return runs.filter((run) => run.length > 0);
}

function spellOf(days: readonly OpenDay[], byWeekday: boolean): OpenSpell {
  const parts = new Map<string, OpenPart & { on: Set<number> }>();
  for (const { day, hours, oneOf, minutes, outside } of days) {
    const key = `${hours}|${oneOf}|${outside}`;
    const part = parts.get(key) ?? { days: 0, hours, oneOf, minutes, outside, on: new Set() };
    part.days++;
    part.on.add(weekday(day));
    parts.set(key, part);
  }
  const sorted = [...parts.values()].sort((a, b) => b.minutes - a.minutes || b.days - a.days);
  return {
    from: days[0]!.day,
    to: days.at(-1)!.day,
    parts: sorted.map(({ on, ...part }) => ({
      ...part,
      ...(byWeekday && { weekdays: FROM_MONDAY.filter((day) => on.has(day)) }),
    })),
  };
}

/** A season's work days in as few stretches as tell them; by number of days where rules follow dates. */
function spellsOf(days: readonly OpenDay[], stages: readonly Day[]): OpenSpell[] {
  const runs = runsOf(days, stages);
  const tell = runs.length <= MOST_SPELLS && runs.slice(1, -1).every((run) => run.at(-1)!.day - run[0]!.day >= WEEK); // prettier-ignore
  return tell ? runs.map((run) => spellOf(run, true)) : [spellOf(days, false)];
}

/**
 * What the rules leave of the crew's hours.
 *
 * @param site - its season, work days and the crew's hours
 * @throws Problem if the site's work days cannot be read
 */
export function crewOpen(
  table: RuleTable,
  trees: readonly OpenTree[],
  kit: readonly Device[],
  site: Site,
): CrewOpen {
  const shift = shiftOf(site);
  const minutes = shift.end - shift.start;
  const families = peopled(kit);
  const stages = table.stages.map(({ from }) => from);
  const kinds = kindsOf(table, trees, families, site.seasonFrom);
  const lines = new Map<string, CrewOpenLine & { trees: number }>();
  for (const family of families) {
    const answers = new Map<string, { spells: OpenSpell[]; kinds: number[] }>();
    kinds.forEach((kind, k) => {
      if (!kind.families.includes(family)) return;
      const days = workDaysOf(table, site, shift, kind, family);
      if (days.length === 0) return;
      const spells = spellsOf(days, stages);
      const key = JSON.stringify(spells);
      const answer = answers.get(key) ?? { spells, kinds: [] };
      answer.kinds.push(k);
      answers.set(key, answer);
    });
    for (const [key, { spells, kinds: which }] of answers) {
      if (spells.every(({ parts }) => parts.every((part) => part.minutes === minutes))) continue;
      const of = which.map((k) => kinds[k]!);
      const count = of.reduce((sum, kind) => sum + kind.trees, 0);
      const some = answers.size > 1 && { some: { trees: count, example: of[0]!.tree.address } };
      const id = `${key}|${some ? which.join() : ''}`;
      const line = lines.get(id);
      if (line) line.means.push(family);
      else lines.set(id, { means: [family], ...some, spells, trees: count });
    }
  }
  const all = [...lines.values()].sort((a, b) => b.trees - a.trees);
  return {
    minutes,
    pastMidnight: shift.pastMidnight,
    lines: all.slice(0, MOST_OPEN_LINES).map(({ trees: _, ...line }) => line),
    more: Math.max(0, all.length - MOST_OPEN_LINES),
  };
}
