/** The Clocks sheet: one row a tree with what starts and stops its term, and the register of bags that are out. */
import { BAG_STATES, type BagRow } from '../engine/contract/bag-register.js';
import type { Day } from '../engine/dates.js';
import { Problem } from '../engine/problems.js';
import type { Cell } from './cells.js';
import { readPlainTable, type PlainColumn } from './plain-table.js';

/** What has become of a tree; blank is alive. */
export const TREE_STATES = ['alive', 'dead', 'removed'] as const;
export type TreeState = (typeof TREE_STATES)[number];

/** Columns of the clocks that somebody fills in, in order. */
export const CLOCK_COLUMNS = {
  tree: { name: 'Tree', also: ['tree id', 'id'], needed: true },
  planted: { name: 'Planted' },
  months: { name: 'Term' },
  uncredited: { name: 'Days not credited' },
  replaced: { name: 'Replaced on', also: ['replaced'] },
  inspected: { name: 'Inspected on', also: ['inspected'] },
  diedBack: { name: 'Died back' },
  leader: { name: 'Leader dead' },
  status: { name: 'Status' },
  since: { name: 'Since' },
} as const satisfies Record<string, PlainColumn>;

/** What the office knows of one tree's term; whatever the row does not say is undefined. */
export interface ClockRow {
  row: number;
  tree: string;
  planted?: Day | undefined;
  months?: number | undefined;
  /** days of inadequate work since the start [days] */
  uncredited?: number | undefined;
  replaced?: Day | undefined;
  inspected?: Day | undefined;
  /** share of the canopy [-] */
  diedBack?: number | undefined;
  leaderDead: boolean;
  status: TreeState;
  since?: Day | undefined;
}

/** Reads the clocks. @returns never throws for what cells hold */
export function readClocks(cells: readonly (readonly Cell[])[]): {
  clocks: ClockRow[];
  problems: string[];
} {
  const { rows, problems } = readPlainTable(cells, CLOCK_COLUMNS, (row): ClockRow => {
    const months = row.number('months', 600);
    if (months !== undefined && (months < 1 || !Number.isInteger(months)))
      row.refuse('months', 'a whole number from 1 to 600');
    return {
      row: row.at,
      tree: row.words('tree') || row.refuse('tree', 'the id of a tree'),
      planted: row.day('planted'),
      months,
      uncredited: row.number('uncredited', 3660),
      replaced: row.day('replaced'),
      inspected: row.day('inspected'),
      diedBack: row.number('diedBack', 1),
      leaderDead: row.word('leader', ['no', 'yes']) === 'yes',
      status: row.word('status', TREE_STATES) ?? 'alive',
      since: row.day('since'),
    };
  });
  return { clocks: rows, problems };
}

/** Columns of the register of bags, in order. */
export const BAG_COLUMNS = {
  bag: { name: 'Bag', also: ['bag number'], needed: true },
  tree: { name: 'On tree', also: ['tree'], needed: true },
  fitted: { name: 'Fitted', needed: true },
  moved: { name: 'Last moved', also: ['moved'] },
  filled: { name: 'Last filled', also: ['filled'] },
  fullOn: { name: 'Seen full on', also: ['full on'] },
  state: { name: 'Bag state', also: ['state'] },
  off: { name: 'Taken off', also: ['off'] },
} as const satisfies Record<string, PlainColumn>;

/** Reads the register of bags. @returns never throws for what cells hold */
export function readBags(cells: readonly (readonly Cell[])[]): {
  bags: BagRow[];
  problems: string[];
} {
  const { rows, problems } = readPlainTable(cells, BAG_COLUMNS, (row): BagRow => {
    const fitted = row.day('fitted') ?? row.refuse('fitted', 'a date cell, or yyyy-mm-dd');
    const [filled, fullOn] = [row.day('filled'), row.day('fullOn')];
    if (filled !== undefined && filled < fitted)
      throw new Problem('Last filled lies before Fitted');
    return {
      row: row.at,
      bag: row.words('bag') || row.refuse('bag', 'the number of a bag'),
      tree: row.words('tree') || row.refuse('tree', 'the id of a tree'),
      fitted,
      moved: row.day('moved'),
      filled,
      fullOn,
      state: row.word('state', BAG_STATES) ?? 'ok',
      off: row.day('off'),
    };
  });
  return { bags: rows, problems };
}
