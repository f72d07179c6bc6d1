/** Where a contract and the rules of the place fight: law goes first, so the contract cannot be met there. */
import { isoDate, type Day } from '../dates.js';
import { FAMILIES, type Family, type Tree } from '../plan/model.js';
import { queryOf } from '../plan/calendars.js';
import { calendarKey, ruleCalendar, type RuleCalendar } from '../rules/rule-calendar.js';
import type { RuleTable } from '../rules/rule-table.js';
import { goesByAge, speaksOf, windowsOf, type Clause, type Window } from './clauses.js';
import { several } from './say.js';

/** What the rules are asked of a tree, besides what the contract asks. */
export type LawfulTree = Pick<
  Tree,
  | 'id'
  | 'row'
  | 'count'
  | 'species'
  | 'site'
  | 'caliper'
  | 'height'
  | 'planted'
  | 'address'
  | 'tap'
  | 'source'
>;

export interface LawConflict extends Window {
  clause: Clause;
  /** first tree it is about, and how many rows of trees are alike in it */
  tree: string;
  rows: number;
  asked: number;
  /** visits the rules leave, by the family that has most */
  allowed: number;
  family: Family;
  /** weeks or months in which it is so */
  times: number;
  /** a sentence, such as "Contract row 3 asks for 3 visits a week; stage 2 allows 2 …" */
  sentence: string;
}

/** Visits that the rules leave in a window: open days, no more of each Mon–Sun week than its budget. */
function lawful(calendar: RuleCalendar, { from, to }: Window): number {
  let visits = 0;
  for (let day = from; day <= to;) {
    const sunday = day + ((7 - ((day + 6) % 7)) % 7);
    let open = 0;
    let budget = 7;
    for (const last = Math.min(sunday, to); day <= last; day++) {
      const i = day - calendar.from;
      open += calendar.open[i] ?? 0;
      budget = Math.min(budget, calendar.perWeek[i] ?? 7);
    }
    visits += Math.min(open, budget);
  }
  return visits;
}

/** The stage or row that speaks on the first day of a window. */
function speaker(rules: RuleTable, calendar: RuleCalendar, { from, to }: Window): string {
  for (let day = from; day <= to; day++) {
    const row = calendar.row[day - calendar.from] ?? 0;
    const rule = rules.rows.find((each) => each.row === row);
    if (rule?.stage) return `stage ${rule.stage}`;
    if (rule) return `row ${row} of the rules`;
  }
  return 'the rules';
}

/**
 * Clauses that ask for more visits than the rules allow by any means the clause accepts.
 *
 * @param from - first day looked at
 * @param to - last day looked at
 * @param families - means the crew has; default: all
 * @returns a conflict for each clause and each group of trees that the rules do not tell apart
 * @throws Problem as `ruleCalendar`
 */
export function contractAgainstRules(
  trees: readonly LawfulTree[],
  clauses: readonly Clause[],
  rules: RuleTable,
  from: Day,
  to: Day,
  families: readonly Family[] = FAMILIES,
): LawConflict[] {
  const found: LawConflict[] = [];
  for (const clause of clauses) {
    if (!clause.visits) continue;
    const groups = new Map<string, LawConflict>();
    for (const tree of trees) {
      if (speaksOf(clause, tree) !== true) continue;
      if (goesByAge(clause) && tree.planted === undefined) continue;
      const usable = families.filter((f) => clause.means === null || clause.means.includes(f));
      const age = goesByAge(clause) ? `|${tree.planted}` : '';
      const key = `${usable.map((f) => calendarKey(rules, queryOf(tree, f), from)).join('/')}${age}`;
      const known = groups.get(key);
      if (known) {
        known.rows++;
        continue;
      }
      const conflict = conflictOf(tree, clause, rules, usable, from, to);
      if (conflict) groups.set(key, conflict);
    }
    found.push(...groups.values());
  }
  return found.map((each) => ({ ...each, sentence: sentenceOf(each) }));
}

function conflictOf(
  tree: LawfulTree,
  clause: Clause,
  rules: RuleTable,
  families: readonly Family[],
  from: Day,
  to: Day,
): LawConflict | undefined {
  const { count: asked, per } = clause.visits!;
  const calendars = families.map((f) => ruleCalendar(rules, queryOf(tree, f), from, to));
  let first: LawConflict | undefined;
  for (const window of windowsOf(clause, per, from, to, tree.planted, 'Mon-Sun')) {
    const counts = calendars.map((calendar) => lawful(calendar, window));
    const allowed = Math.max(0, ...counts);
    if (allowed >= asked) continue;
    const best = Math.max(0, counts.indexOf(allowed));
    if (first) first.times++;
    else
      first = {
        ...window, clause, tree: tree.id, rows: 1, asked, allowed, family: families[best] ?? 'hand', times: 1,
        sentence: calendars[best] ? speaker(rules, calendars[best], window) : 'the rules',
      }; // prettier-ignore
  }
  return first;
}

function sentenceOf(conflict: LawConflict): string {
  const { clause, asked, allowed, family, from, times, tree, rows, sentence: who } = conflict;
  const per = clause.visits!.per;
  const others = rows > 1 ? ` and ${several(rows - 1, 'row')} like it` : '';
  const more = times > 1 ? ` and ${several(times - 1, per)} more` : '';
  return (
    `Contract row ${clause.row} asks for ${several(asked, 'visit')} a ${per}; ${who} allows ${allowed}` +
    ` (${family}, tree ${tree}${others}, the ${per} of ${isoDate(from)}${more}). The law goes first.`
  );
}
