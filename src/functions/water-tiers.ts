/** Reads a range of water prices: two columns, up to and price, with or without a header row. */
import type { Tier } from '../engine/money/tiers.js';
import { Problem } from '../engine/problems.js';
import { number, table } from './arguments.js';

type Row = ReturnType<typeof table>[number];
const COLUMNS = 2;

const blank = (cell: unknown): boolean =>
  cell === null || (typeof cell === 'string' && cell.trim() === '');
/** Blank cells of a range are 0 in some hosts, and neither is a tier that ends at 0. */
const noLimit = (cell: unknown): boolean => blank(cell) || cell === 0;

/** A head is words: it has a letter and does not begin as a number or an amount does. */
const isHead = (cell: unknown): boolean =>
  typeof cell === 'string' && /\p{L}/u.test(cell) && !/^[^\p{L}\d/]*\d/u.test(cell);

/**
 * The tiers of a range. Rows are counted from the top of the range, its header included.
 *
 * @param name - the parameter, as the person sees it
 * @param given - the range as it arrived
 * @returns tiers in the order of the rows, at least one
 * @throws Problem naming the parameter and the row that cannot be used
 */
export function readTiers(name: string, given: unknown): Tier[] {
  const rows = table(name, given);
  const other = rows.find((row) => row.length !== COLUMNS);
  if (other)
    throw new Problem(
      `${name} must have two columns, up to and price of 1,000; got ${other.length} column${other.length === 1 ? '' : 's'}`,
    );
  const first = rows[0]?.every(isHead) ? 1 : 0;
  let end = rows.length;
  while (end > first && rows[end - 1]!.every(noLimit)) end--;
  if (end === first) throw new Problem(`${name} has no row with a price`);
  return rows
    .slice(first, end)
    .map((row, i) => readTier(name, row, first + i + 1, first + i + 1 === end));
}

function readTier(name: string, [upTo, price]: Row, row: number, last: boolean): Tier {
  if (noLimit(upTo) && !last)
    throw new Problem(
      `${name}, row ${row}: "up to" must be a number above 0; got a blank cell, which only the last row may have`,
    );
  return {
    upTo: noLimit(upTo) ? Infinity : number(`${name}, row ${row}, up to,`, upTo, 'tierTop'),
    price: number(`${name}, row ${row}, price,`, price, 'tierPrice'),
    row,
  };
}
