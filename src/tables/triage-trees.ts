/** The table of who might be served: what each row of trees needs, and what an order may go by. */
import { leftOutFor, type TriageTree } from '../engine/contract/triage.js';
import { Problem } from '../engine/problems.js';
import type { Units } from '../engine/units.js';
import { plainLabel, type Cell } from './cells.js';
import { readPlainTable, type PlainColumn, type PlainRow } from './plain-table.js';

const COLUMNS = {
  tree: { name: 'Tree', also: ['tree id', 'id'], needed: true },
  water: { name: 'Water', also: ['needs', 'gallons', 'each'], unit: ['gal', 'L'], needed: true },
  count: { name: 'Trees', also: ['count'] },
  planted: { name: 'Planted' },
  caliper: { name: 'Caliper', also: ['caliper or dbh', 'dbh', 'trunk'], unit: ['in', 'mm'] },
  value: { name: 'Value' },
  stress: { name: 'Stress days' },
  condition: { name: 'Condition', also: ['health'] },
  lasts: { name: 'Days it lasts', also: ['lasts', 'interval'] },
  depletion: { name: 'Depletion' },
} as const satisfies Record<string, PlainColumn>;

type Row = PlainRow<keyof typeof COLUMNS>;

export const POOR_WORDS: ReadonlySet<string> = new Set('poor|very poor|critical|dying|declining|bad|sick'.split('|')); // prettier-ignore
export const FAIR_WORDS: ReadonlySet<string> = new Set('good|fair|excellent|very good|sound|healthy|ok'.split('|')); // prettier-ignore
/** Allowable depletion of a standing tree where the row gives none [-], FAO-56 Table 22 for trees. */
const DEPLETION = 0.5;

function treeOf(row: Row, days: number): TriageTree {
  const count = row.number('count') ?? 1;
  if (!(count >= 1) || !Number.isInteger(count)) row.refuse('count', 'a whole number from 1');
  const water = row.number('water') ?? row.refuse('water', 'a number of 0 or more');
  const condition = plainLabel(row.words('condition'));
  if (condition !== '' && !POOR_WORDS.has(condition) && !FAIR_WORDS.has(condition))
    row.refuse('condition', [...FAIR_WORDS, ...POOR_WORDS].join(', '));
  const lasts = row.number('lasts', 3660);
  const depletion = row.number('depletion', 0.95) || DEPLETION;
  return {
    id: row.words('tree') || row.refuse('tree', 'the id of a tree'),
    row: row.at,
    count,
    planted: row.day('planted'),
    caliper: row.number('caliper'),
    value: row.number('value'),
    stressDays: row.number('stress', 3660),
    poor: condition === '' ? undefined : POOR_WORDS.has(condition),
    use: [water * count],
    leftOut: lasts ? leftOutFor(days, lasts, depletion) : undefined,
  };
}

/**
 * @param cells - with a header row
 * @param days - the budget is for [days]
 * @returns rows in their order, with the header's place so that an answer can stand beside them, and the unit system of the
 *   water
 * @throws Problem naming the row and column that cannot be used
 */
export function readTriageTrees(
  cells: readonly (readonly Cell[])[],
  days: number,
): { trees: TriageTree[]; headerRow: number; units: Units } {
  const { rows, headerRow, problems, units } = readPlainTable(cells, COLUMNS, (row) => treeOf(row, days)); // prettier-ignore
  const [trouble] = problems;
  if (trouble !== undefined) throw new Problem(`trees: ${trouble}`);
  if (rows.length === 0) throw new Problem('trees has no row below its header');
  const unit = units.get('water') ?? '';
  return { trees: rows, headerRow, units: unit === '' || unit.startsWith('gal') ? 'US' : 'SI' };
}
