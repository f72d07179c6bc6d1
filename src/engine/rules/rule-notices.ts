/** What a person should look at in a table whose rows can all be read. */
import { contradictions } from './rule-overlap.js';
import { lastDigit } from './rule-match.js';
import { readRules, reporter } from './rule-parse.js';
import { unreachable, withoutNumber } from './rule-reach.js';
import { MEANS_WORDS } from './rule-types.js';
import type { RuleCell, RuleTable } from './rule-types.js';

/** Most contradictions listed one by one. */
const MOST = 200;

/** Rows that count but cannot do what they say, one by one. */
function notices(table: RuleTable): void {
  const report = reporter('Rules', table.problems);
  const { found, more } = contradictions(table.rows, MOST);
  const all = [...unreachable(table), ...found].sort((a, b) => a.row - b.row);
  for (const { row, column, read, accepted, why } of all)
    report(row, column, read, accepted, why, 'notice');
  if (more)
    report(1, 'Verdict', more, 'a shorter table', 'not all pairs of rows were compared', 'notice');
}

/**
 * Trees that the rules never open because they have no house number; undefined where there are none.
 *
 * @param trees - `count`: like trees in one place
 * @param headerRow - row of the sheet the table's header stands on, so that rows are named as they are seen
 */
export function numberNotice(
  table: RuleTable,
  trees: readonly { address: string; count: number }[],
  headerRow = 1,
): string | undefined {
  const count = trees.reduce((sum, t) => sum + (lastDigit(t.address) === null ? t.count : 0), 0);
  if (count === 0) return undefined;
  const { means, rows } = withoutNumber(table);
  if (rows.length === 0) return undefined;
  const [who, them] = count === 1 ? ['1 tree has', 'it'] : [`${count} trees have`, 'them'];
  const where = `${rows.length === 1 ? 'row' : 'rows'} ${rows.map((row) => row + headerRow - 1).join(', ')}`;
  const what = means.length === MEANS_WORDS.length ? 'any means' : means.join(', ');
  return `${who} no house number; the rules open ${what} by house number only (${where}), so never for ${them}. Add a row with Address = none, or write house numbers.`;
}

/**
 * Reads a rules range (header in row 1) and, if given, a Stages range with the columns From and Stage, and
 * looks for rows that contradict one another or can never match. Never throws.
 * @param rows cells of the rules table; header names as in RULE_COLUMNS, in any order and case
 * @param stages cells of the Stages table
 */
export function parseRules(rows: RuleCell[][], stages?: RuleCell[][]): RuleTable {
  const table = readRules(rows, stages);
  if (table.rows.length > 0) notices(table);
  return table;
}
