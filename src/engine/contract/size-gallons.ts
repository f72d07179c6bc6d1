/** A contract's size table: how much water a tree of a size gets at least. */
import { plain, positive } from '../checks.js';
import { Problem } from '../problems.js';

/** One class of trunk sizes; it ends where the next one begins, the last has no end. */
export interface SizeClass {
  /** trunk diameter the class begins at [mm] */
  from: number;
  litres: number;
  /** row of the person's table, counted from 1 */
  row: number;
}

/**
 * Least water for a trunk. A size on the edge of two classes takes the class that begins there, which asks for more.
 *
 * @param caliper - trunk diameter [mm], above 0
 * @param classes - from the smallest up, at least one
 * @returns litres for one tree
 * @throws Problem naming the row if the classes do not ascend; `none` if the trunk is smaller than the first class
 * Source: definition; the classes are the contract's.
 */
export function contractLitres(caliper: number, classes: readonly SizeClass[]): number {
  positive('caliper', caliper, 'mm');
  if (classes.length === 0) throw new Problem('table has no row with a size');
  classes.forEach(({ from, row }, i) => {
    if (i > 0 && !(from > classes[i - 1]!.from))
      throw new Problem(
        `table, row ${row}: the size must be above that of the row before it; sizes ascend down the table`,
      );
  });
  // a size converted from inches must not fall below its own class by a hair
  const within = classes.filter(({ from }) => from <= caliper * (1 + 1e-12));
  const found = within.at(-1);
  if (!found)
    throw new Problem(
      `the table begins at ${plain(classes[0]!.from)} mm of trunk and this one has ${plain(caliper)} mm, so the table says nothing about it`,
      'none',
    );
  return found.litres;
}
