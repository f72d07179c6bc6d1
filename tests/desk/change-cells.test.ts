/** Cells a form changes on a sheet of the desk's grid: these and no others, and none that hold a formula. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { changeCells } from '../../src/desk/sheet-edits.js';
import { openGrid, type OpenGrid } from './open-grid.js';

const SLOW = 60_000;

describe('cells a form changes', () => {
  let grid: OpenGrid;
  const bold = { s: { bl: 1 } };
  beforeAll(async () => {
    grid = openGrid({
      Rules: {
        0: { 0: { v: 'Means', ...bold }, 1: { v: 'Verdict' } },
        1: { 0: { v: 'hose', ...bold }, 1: { f: '="al"&"low"' } },
        2: { 0: { v: 'bag' }, 1: { v: 'allow' } },
      },
    });
    await grid.book.calculated();
  }, SLOW);
  afterAll(() => grid.close());
  const rows = () => [0, 1, 2, 3].map((r) => [0, 1].map((c) => grid.shown('Rules', r, c) ?? null));

  it('get their values and keep their look; a text that looks like a formula stays a text', async () => {
    await changeCells(grid.book, 'Rules', [
      { row: 1, column: 0, value: 'soaker' },
      { row: 2, column: 0, value: null },
      { row: 2, column: 1, value: null },
      { row: 3, column: 0, value: '=1+1' },
    ]);
    expect(rows().map((row) => row[0] || null)).toEqual(['Means', 'soaker', null, '=1+1']);
    expect(grid.style('Rules', 1, 0).bl).toBe(1);
    expect(grid.cell('Rules', 3, 0)?.f ?? null).toBeNull();
  });

  it('are all left where one of them holds a formula', async () => {
    const before = rows();
    const changes = [
      { row: 1, column: 0, value: 'drip' },
      { row: 1, column: 1, value: 'ban' },
    ];
    await expect(changeCells(grid.book, 'Rules', changes)).rejects.toThrow(
      'Formulas stand in B2 of the sheet “Rules”, so nothing was written. Put plain values there, then try again.',
    );
    expect(rows()).toEqual(before);
    expect(grid.cell('Rules', 1, 1)?.f).toBe('="al"&"low"');
  });

  it('are refused on a sheet that is gone', async () => {
    await expect(changeCells(grid.book, 'Nowhere', [])).rejects.toThrow('There is no sheet “Nowhere” any more.'); // prettier-ignore
  });
});
