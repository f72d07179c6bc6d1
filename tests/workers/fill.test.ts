/** Blank cells filled for many rows: what the list suggests, what is written, what marks say, and how all is taken back. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.js';
import { readInventory } from '../../src/tables/inventory/index.js';
import { emptyDraft } from '../../src/taskpane/draft.js';
import type { CellEdit } from '../../src/workers/fill-types.js';
import { roomHere } from '../../src/workers/room-here.js';

const room = roomHere({} as never);
const draft = emptyDraft();
const names = { assumed: 'Assumed', size: 'Caliper' };
const LIST: Cell[][] = [
  ['Tag', 'Species', 'DBH (in)', 'Soil'],
  ['1', 'redbud', 2, 'loam'],
  ['2', 'redbud', 3, 'clay'],
  ['3', 'redbud', 4, null],
  ['4', 'elm', 9, 'loam'],
  ['5', 'redbud', null, 'loam'],
  ['6', 'elm', null, 'loam'],
  ['7', 'elm', '?', 'loam'],
];
const LACKING = [6, 7, 8];
const edited = (cells: readonly Cell[][], edits: readonly CellEdit[]): Cell[][] => {
  const made = cells.map((row) => [...row]);
  for (const { row, column, was, value } of edits) {
    expect(made[row]![column] ?? null).toEqual(was);
    while (made[row]!.length < column) made[row]!.push(null);
    made[row]![column] = value;
  }
  return made;
};
/** Cells without blanks at the end of rows. */
const bare = (cells: readonly Cell[][]): Cell[][] =>
  cells.map((row) => row.slice(0, row.findLastIndex((cell) => cell !== null) + 1));
const fill = (cells: Cell[][], value: string, rows: number[] = LACKING) =>
  room.fill({ trees: { cells }, draft, lack: 'size', rows, column: 2, value, free: 4, names });

describe('what a list suggests for its blank cells', () => {
  it('is the median of all that are measured, and of names with three or more', async () => {
    const [found] = await room.blanks({ trees: { cells: LIST }, draft, lack: 'size', rows: LACKING }); // prettier-ignore
    expect(found).toEqual({
      column: 2, header: 'DBH (in)', meaning: 'caliper', unit: 'in', rows: 2,
      known: { value: '3.5', of: 4 },
      kinds: [{ name: 'redbud', rows: 1, value: '3', of: 3 }],
    }); // prettier-ignore
  });

  it('leaves out values that were assumed themselves', async () => {
    const { edits } = await fill(LIST, '40');
    const cells = edited(LIST, edits).concat([['8', 'elm', null, null]]);
    const [found] = await room.blanks({ trees: { cells }, draft, lack: 'size', rows: [9] });
    expect(found?.known).toEqual({ value: '3.5', of: 4 });
  });

  it('is the commonest word of a column of words, for rows that are planned without it', async () => {
    const found = await room.blanks({ trees: { cells: LIST }, draft });
    expect(found.map(({ header, rows, known }) => [header, rows, known])).toEqual([['Soil', 1, { value: 'loam', of: 3 }]]); // prettier-ignore
  });

  it('is a new column where the list has no sizes at all, and nothing where it has no headers', async () => {
    const none = LIST.map((row) => row.filter((_, i) => i !== 2));
    const [added] = await room.blanks({
      trees: { cells: none },
      draft,
      lack: 'size',
      rows: [2, 3],
    });
    expect(added).toMatchObject({ meaning: 'caliper', unit: 'in', rows: 2 });
    const { edits } = await room.fill({ trees: { cells: none }, draft, lack: 'size', rows: [2, 3], column: undefined, value: '2', free: 3, names }); // prettier-ignore
    const filled = edited(none, edits);
    expect(filled[0]!.slice(3)).toEqual(['Caliper (in)', 'Assumed']);
    expect(filled[1]!.slice(3)).toEqual([2, 'Caliper (in) = 2']);
    const back = await room.takeBack({ trees: { cells: filled }, draft });
    expect(bare(edited(filled, back.edits))).toEqual(bare(none));
  });
});

describe('filling', () => {
  it('writes blank cells only, in the unit of the column, and marks each row', async () => {
    const { edits, rows } = await fill(LIST, '10 cm');
    expect(rows).toBe(2);
    const filled = edited(LIST, edits);
    expect(filled[0]![4]).toBe('Assumed');
    expect(filled[5]!.slice(2)).toEqual([3.94, 'loam', 'DBH (in) = 3.94']);
    expect(filled[7]).toEqual(LIST[7]);
    const { rows: read } = readInventory(filled);
    expect(read.map(({ tree }) => tree?.assumed)).toEqual([undefined, undefined, undefined, undefined, ['size'], ['size'], undefined]); // prettier-ignore
  });

  it('gives each species its own, and others that of all', async () => {
    const filled = edited(LIST, (await fill(LIST, '')).edits);
    expect([filled[5]![2], filled[6]![2]]).toEqual([3, 3.5]);
  });

  it('refuses what the reader would not take, in the reader’s words', async () => {
    await expect(fill(LIST, 'thick')).rejects.toThrow('DBH (in): "thick" is not a measure');
    await expect(fill(LIST, '900')).rejects.toThrow(/outside/);
    await expect(fill(LIST, ' ')).rejects.toThrow('nothing is typed to be used for these rows');
    await expect(fill(LIST, '3', [8])).rejects.toThrow('there is no blank cell to fill');
    await expect(room.fill({ trees: { cells: LIST.slice(1) }, draft, lack: 'size', rows: [5], column: 2, value: '3', free: 4, names })).rejects.toThrow('no row of headers'); // prettier-ignore
  });

  it('is no longer counted where somebody writes what was measured over it', async () => {
    const filled = edited(LIST, (await fill(LIST, '3')).edits);
    filled[5]![2] = 5;
    const { rows } = readInventory(filled);
    expect(rows[4]!.tree?.assumed).toBeUndefined();
    expect(rows[5]!.tree?.assumed).toEqual(['size']);
    const back = edited(filled, (await room.takeBack({ trees: { cells: filled }, draft })).edits);
    expect(back[5]![2]).toBe(5);
    expect(back[6]![2]).toBeNull();
  });

  it('and taking back leave any list as it was', async () => {
    const size = fc.option(fc.integer({ min: 1, max: 40 }), { nil: null });
    await fc.assert(
      fc.asyncProperty(fc.array(size, { minLength: 2, maxLength: 12 }), fc.integer({ min: 1, max: 30 }), async (sizes, value) => {
        const cells: Cell[][] = [LIST[0]!, ['0', 'elm', 7, 'loam'], ...sizes.map((s, i): Cell[] => [String(i + 1), 'elm', s, 'loam'])]; // prettier-ignore
        const blank = sizes.flatMap((s, i) => (s === null ? [i + 3] : []));
        fc.pre(blank.length > 0);
        const { edits } = await fill(cells, String(value), blank);
        const filled = edited(cells, edits);
        sizes.forEach((s, i) => expect(filled[i + 2]![2]).toBe(s ?? value));
        const back = await room.takeBack({ trees: { cells: filled }, draft });
        expect(bare(edited(filled, back.edits))).toEqual(bare(cells));
      }),
      { numRuns: 60 },
    ); // prettier-ignore
  });

  it('is marked in a text table as in a workbook: numbers are compared as numbers', () => {
    const { rows } = readInventory([['Tag', 'Species', 'DBH (in)', 'Supuesto'], ['1', 'elm', '2.50', 'DBH (in) = 2.5'], ['2', 'elm', '2.6', 'DBH (in) = 2.5']]); // prettier-ignore
    expect(rows.map(({ tree }) => tree?.assumed)).toEqual([['size'], undefined]);
  });
});
