/** What a person should look at in a table whose rows can all be read. */
import { contradictions } from './rule-overlap.js';
import { readRules, reporter } from './rule-parse.js';
import { unreachable, withoutNumber } from './rule-reach.js';
import type { RuleCell, RuleTable } from './rule-types.js';

/** Most contradictions listed one by one. */
const MOST = 200;

/** Rows that count but cannot do what they say, and gaps of the table as a whole. */
function notices(table: RuleTable): void {
  const report = reporter('Rules', table.problems);
  const { found, more } = contradictions(table.rows, MOST);
  const all = [...unreachable(table), ...found].sort((a, b) => a.row - b.row);
  for (const { row, column, read, accepted, why } of all)
    report(row, column, read, accepted, why, 'notice');
  if (more)
    report(1, 'Verdict', more, 'a shorter table', 'not all pairs of rows were compared', 'notice');
  const left = withoutNumber(table);
  if (left.length > 0)
    report(
      1,
      'Address',
      'no row with none',
      'a row with none',
      `an address without a number is closed where only numbered addresses are allowed (${left.join(', ')})`,
      'notice',
    );
}

/**
 * Reads a rules range (header in row 1) and, if given, a Stages range with the columns From and Stage, and
 * looks for rows that contradict one another, can never match or leave somebody out. Never throws.
 * @param rows cells of the rules table; header names as in RULE_COLUMNS, in any order and case
 * @param stages cells of the Stages table
 */
export function parseRules(rows: RuleCell[][], stages?: RuleCell[][]): RuleTable {
  const table = readRules(rows, stages);
  if (table.rows.length > 0) notices(table);
  return table;
}
