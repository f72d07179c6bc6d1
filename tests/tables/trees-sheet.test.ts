/** Trees as the plan functions read them from a range. */
import { describe, expect, it } from 'vitest';
import { readTrees } from '../../src/tables/trees-sheet.js';

const one = (...headers: string[]) => readTrees([headers, ['A1', 2, 5, '2020-03-01']]);
const tree = (headers: string[], row: (string | number)[]) =>
  readTrees([headers, row]).rows[0]?.tree;

describe('headers', () => {
  it('are those of the Trees sheet, in any letter case, sizes with their unit', () => {
    expect(
      one('Tree ID', 'caliper (in)', 'Canopy diameter (ft)', 'PLANTED').rows[0]?.tree,
    ).toMatchObject({
      id: 'A1',
      caliper: 50.8,
      canopy: 1.524,
    });
    expect(tree(['Tree id', 'Caliper (cm)', 'Canopy diameter (m)'], ['A1', 5, 2])).toMatchObject({
      caliper: 50,
      canopy: 2,
    });
  });

  it('may be the plain English names an inventory keeps on the Trees sheet', () => {
    expect(tree(['Tag', 'DBH (in)', 'Crown spread (ft)'], ['A1', 8, 20])).toMatchObject({
      id: 'A1',
      caliper: 203.2,
      canopy: 6.096,
    });
  });

  it('that come close to a size are an error, not left out', () => {
    for (const slip of ['Canopy diametre (ft)', 'Caliper size of stem (in)', 'Ball wideness (in)'])
      expect(one('Tree id', 'DBH (in)', slip, 'Planted').problems[0]).toContain(
        `"${slip}" begins like a size`,
      );
  });

  it('of computed and own columns may stand between', () => {
    const read = one('Tree id', 'DBH (in)', 'Canopy used (ft)', 'Demand, peak month (gal/day)');
    expect(read.problems).toEqual([]);
    expect(read.rows[0]?.tree?.canopy).toBeUndefined();
  });

  it('that say the same size twice, or a unit that fits no length, are an error', () => {
    expect(one('Tree id', 'DBH (in)', 'Caliper (in)', 'Note').problems[0]).toContain(
      'say the same',
    );
    expect(one('Tree id', 'DBH (gal)', 'Note', 'Site').problems[0]).toContain(
      'accepted are in and cm',
    );
    expect(one('alpha', 'beta', 'gamma', 'delta').problems[0]).toContain('no column is headed');
  });
});

describe('rows', () => {
  it('that are blank are left out, others are a tree or a reason', () => {
    const read = readTrees([
      [],
      ['Tree id', 'Caliper (in)'],
      ['A1', 2],
      ['', ''],
      ['A2', 'two fists'],
    ]);
    expect(read.headerRow).toBe(2);
    expect(read.rows.map((row) => [row.row, row.tree !== undefined])).toEqual([
      [3, true],
      [5, false],
    ]);
    expect(read.rows[1]?.unusable).toContain('two fists');
  });
});
