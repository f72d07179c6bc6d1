/** Waterings as a contract sees them: the Plan sheet's columns, or a list of one's own, with sizes from the Trees sheet. */
import type { ContractTree } from '../engine/contract/clauses.js';
import type { Service } from '../engine/contract/contract-check.js';
import { plainName } from '../engine/contract/visit-log.js';
import { Problem } from '../engine/problems.js';
import type { Cell } from './cells.js';
import { familyOf } from './kit.js';
import { readPlainTable, type PlainColumn, type PlainRow } from './plain-table.js';

const COLUMNS = {
  tree: { name: 'Tree', also: ['tree id', 'id'], needed: true },
  date: { name: 'Date', also: ['day'], needed: true },
  water: { name: 'Each', also: ['water', 'gallons', 'applied', 'applied gal', 'volume'], unit: ['gal', 'L'], needed: true },
  count: { name: 'Trees', also: ['count'] },
  species: { name: 'Species' },
  site: { name: 'Site' },
  means: { name: 'Means' },
  caliper: { name: 'Caliper', also: ['caliper or dbh', 'dbh', 'trunk'], unit: ['in', 'mm'] },
  height: { name: 'Height', unit: ['ft', 'm'] },
  planted: { name: 'Planted' },
} as const satisfies Record<string, PlainColumn>; // prettier-ignore

type Row = PlainRow<keyof typeof COLUMNS>;

interface Line {
  tree: ContractTree;
  day: number;
  litres: number;
  means: string;
}

/** The family a means names, be it a word or the name of a device that holds one; "" where it names none. */
const meansOf = (name: string): string =>
  familyOf(name) ??
  name
    .split(/[^\p{L}]+/u)
    .map((word) => familyOf(word))
    .find((family) => family !== undefined) ??
  '';

type TreeKey = 'tree' | 'count' | 'species' | 'site' | 'caliper' | 'height' | 'planted';

const treeOf = <K extends string>(row: PlainRow<K | TreeKey>): ContractTree => ({
  id: row.words('tree') || row.refuse('tree', 'the id of a tree'),
  row: row.at,
  count: row.number('count') ?? 1,
  species: row.words('species'),
  site: row.words('site'),
  caliper: row.number('caliper'),
  height: row.number('height'),
  planted: row.day('planted'),
});

const lineOf = (row: Row): Line => ({
  tree: treeOf<keyof typeof COLUMNS>(row),
  day: row.day('date') ?? row.refuse('date', 'a date cell, or yyyy-mm-dd'),
  litres: row.number('water') ?? row.refuse('water', 'a number of 0 or more'),
  means: meansOf(row.words('means')),
});

/**
 * @param plan - waterings with a header row
 * @param trees - the Trees sheet, whose sizes and dates go before those of the plan's own columns; a tree in it that is never
 *   watered is judged, too
 * @param days - first and last day; default: of the waterings
 * @returns the service, and the unit volumes are written in
 * @throws Problem naming the table and its row, if something in it cannot be used
 */
export function readService(
  plan: readonly (readonly Cell[])[],
  trees?: readonly (readonly Cell[])[],
  days: { from?: number | undefined; to?: number | undefined } = {},
): { service: Service; units: 'US' | 'SI' } {
  const reading = readPlainTable(plan, COLUMNS, lineOf);
  const [trouble] = reading.problems;
  if (trouble !== undefined) throw new Problem(`plan: ${trouble}`);
  if (reading.rows.length === 0) throw new Problem('plan has no row below its header');
  const known = trees === undefined ? [] : contractTrees(trees);
  const all: ContractTree[] = [...known];
  const place = new Map(all.map((tree, i) => [plainName(tree.id), i]));
  const visits = reading.rows.map(({ tree, day, litres, means }) => {
    const key = plainName(tree.id);
    if (!place.has(key)) {
      if (trees !== undefined)
        throw new Problem(`plan, row ${tree.row}: ${tree.id} is not among the trees given`);
      place.set(key, all.push(tree) - 1);
    }
    return { tree: place.get(key)!, day, litres, means };
  });
  const on = visits.map((v) => v.day);
  const from = days.from ?? Math.min(...on);
  const to = days.to ?? Math.max(...on);
  if (to < from) throw new Problem('from lies after to');
  const unit = reading.units.get('water') ?? '';
  return {
    service: { from, to, trees: all, visits },
    units: unit === '' || unit.startsWith('gal') ? 'US' : 'SI',
  };
}

/** Of a list of trees; gone ones and ones without a size are in a contract, too. */
const { date: _date, water: _water, means: _means, ...TREE_COLUMNS } = COLUMNS;

/**
 * The Trees sheet as a contract sees it.
 *
 * @throws Problem if its headers or a row cannot be used
 */
export function contractTrees(cells: readonly (readonly Cell[])[]): ContractTree[] {
  const { rows, problems } = readPlainTable(cells, TREE_COLUMNS, (row) => treeOf(row));
  if (problems[0] !== undefined) throw new Problem(`trees: ${problems[0]}`);
  return rows;
}
