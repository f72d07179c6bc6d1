/** Cells a form would write over that hold formulas: they are the person's work, so nothing is written. */
import { Problem } from '../engine/problems.js';
import { addressOf, type At } from './blank-cells.js';

const MOST_NAMED = 5;

/** @throws Problem that names the cells, if there are any */
export function formulasStay(sheet: string, cells: readonly At[]): void {
  if (cells.length === 0) return;
  const named = cells.slice(0, MOST_NAMED).map(addressOf).join(', ');
  throw new Problem(
    `Formulas stand in ${named}${cells.length > MOST_NAMED ? ' …' : ''} of the sheet “${sheet}”, so nothing was written. Put plain values there, then try again.`,
  );
}
