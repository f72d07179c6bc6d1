/** Marks of the example's numbers: they stay with their row, whatever else is done to the table. Invented kits. */
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.js';
import { marksByName, marksOf, withMarks, withoutMarks } from '../../src/tables/kit-example.js';
import { readKit } from '../../src/tables/kit.js';
import { withoutDevice } from '../../src/taskpane/kit-table.js';
import { withCell } from '../../src/taskpane/kit/kit-cells.js';

const KIT: Cell[][] = [
  ['My kit'],
  ['Device', 'Family', 'Volume (gal)', 'Price'],
  ['our bag', 'bag', 20, 28],
  ['our pad', 'pad', 3, 22],
];

describe('marks of numbers that are the example’s', () => {
  const marked = withMarks(KIT, 1, 3, ['price', 'volume']);

  it('are read as they were written, by row and by name; blank is unlike none', () => {
    expect(marksOf(marked, 3)).toEqual(['volume', 'price']);
    expect(marksOf(marked, 2)).toBe(undefined);
    expect(marksOf(withMarks(marked, 1, 2, []), 2)).toEqual([]);
    expect([...marksByName(marked)]).toEqual([['our pad', ['volume', 'price']]]);
    expect(marksOf(KIT, 3)).toBe(undefined);
    expect(marksByName(KIT).size).toBe(0);
  });

  it('go with their row, and leave every other cell as it was', () => {
    expect(marksOf(withoutDevice(marked, 2), 2)).toEqual(['volume', 'price']);
    expect(marksOf(withCell(marked, 3, 'seasons', 4, 'US'), 3)).toEqual(['volume', 'price']);
    expect(marked.map((row, r) => row.slice(0, KIT[r]!.length))).toEqual(KIT);
    expect(readKit(marked)).toEqual(readKit(KIT));
    expect(readKit(withoutMarks(marked))).toEqual(readKit(KIT));
    expect(withoutMarks(marked).flat()).not.toContain('volume, price');
    expect(withoutMarks(KIT)).toEqual(KIT);
  });
});
