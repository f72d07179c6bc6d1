/** Fewer trees served: how many crew hours at trees a week are tried, and the trees without those that are left out. */
import type { Grid } from '../tables/cells.js';
import type { PlanSummary } from '../workers/plan-room.js';

/**
 * Parts of the hours that fit in a week, to be tried one after the other: the week's sum does not see that a single day may be
 * too full. Our choice.
 */
const PARTS = [1, 0.85, 0.7, 0.55, 0.4];

/** Hours at trees a week, the most first [h]; none where it is not known what fits. */
export const fewerTimes = ({ over }: PlanSummary): number[] =>
  over?.weekHours === undefined
    ? []
    : PARTS.map((part) => Math.floor(over.weekHours! * part * 10) / 10).filter(
        (hours) => hours > 0,
      );

/** The table with rows left blank, so that all others keep their place. @param rows - 1-based, as the sheet counts them */
export function withoutRows(trees: Grid, rows: readonly number[]): Grid {
  const out = new Set(rows);
  return {
    ...trees,
    cells: trees.cells.map((row, i) => (out.has(i + 1) ? row.map(() => null) : row)),
  };
}
