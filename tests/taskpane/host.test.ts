import { describe, expect, it } from 'vitest';
import { withoutComputed } from '../../src/taskpane/host.js';

describe('reading a sheet that our own functions write into', () => {
  it('leaves out columns they fill, and keeps every other column in its place', () => {
    const cells = [
      ['Tag', 'Demand (gal/day)', 'Caliper (in)', 'Interval (days)'],
      ['A-1', 3.9, 2, 7.4],
      ['A-2', '#VALUE!', 3, ''],
    ];
    const formulas = [
      ['', '', '', ''],
      ['', '=SOAK.TREE_DEMAND(0.25,8)', '', '=IF(C2="","",soak.INTERVAL(9,B2))'],
      ['', '=SOAK.TREE_DEMAND(0.25,"x")', '', '=IF(C3="","",soak.INTERVAL(9,B3))'],
    ];
    expect(withoutComputed(cells, formulas)).toEqual([
      ['Tag', null, 'Caliper (in)'],
      ['A-1', null, 2],
      ['A-2', null, 3],
    ]);
  });

  it('one formula among typed measurements does not lose the column', () => {
    const cells = [['Canopy (ft)'], [8], [9], [10], [11]];
    const formulas = [[''], ['=SOAK.COIL_DIAMETER(50,3,6)'], [''], [''], ['']];
    expect(withoutComputed(cells, formulas)).toEqual(cells);
  });

  it('the spreadsheet’s own formulas are measurements like any other', () => {
    const cells = [['Canopy (ft)'], [8], [9]];
    expect(withoutComputed(cells, [[''], ['=2*4'], ['=2*4.5']])).toEqual(cells);
  });
});
