/** The kit edited row by row. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import {
  columnsFor,
  devicesOf,
  unitIn,
  withDevice,
  withoutDevice,
} from '../../src/taskpane/kit-table.js';
import { KIT_COLUMNS, readKit } from '../../src/tables/kit.js';

const TABLE = [
  ['Note', 'Device', 'Family', 'Volume (L)'],
  ['mine', 'bag A', 'bag', 57],
  [null, 'what', 'balloon', null],
];

describe('a kit table', () => {
  it('lists every row, also one that cannot be planned with', () => {
    expect(devicesOf(TABLE)).toEqual([
      { at: 1, cells: { name: 'bag A', family: 'bag', volume: 57 }, family: 'bag' },
      { at: 2, cells: { name: 'what', family: 'balloon' }, family: undefined },
    ]);
  });

  it('keeps its own columns and units, and gets a column it lacks', () => {
    const made = withDevice(TABLE, 1, { name: 'bag B', family: 'bag', volume: 60, holes: 4 }, 'US');
    expect(made[0]).toEqual(['Note', 'Device', 'Family', 'Volume (L)', 'Holes']);
    expect(made[1]).toEqual(['mine', 'bag B', 'bag', 60, 4]);
    expect(TABLE[1]).toEqual(['mine', 'bag A', 'bag', 57]);
    const volume = KIT_COLUMNS.find(({ key }) => key === 'volume')!;
    expect([unitIn(made, volume, 'US'), unitIn([['Device', 'Family']], volume, 'SI')]).toEqual([
      'L',
      'L',
    ]);
  });

  it('a new device can be planned with as soon as its family’s fields are filled', () => {
    const cells = { name: 'hose', family: 'hand', flow: 5, stock: 2 };
    const { kit } = readKit(withDevice(TABLE, undefined, cells, 'US'));
    expect(kit.map(({ name }) => name)).toEqual(['bag A', 'hose']);
    expect(kit[1]?.flow).toBeCloseTo(18.927, 3);
    expect(kit[1]?.stock).toBe(2);
  });

  it('an answer about buying more goes with a family that has none', () => {
    const cells = { name: 'bag A', family: 'bag', volume: 57 };
    const none = withDevice(TABLE, 1, { ...cells, buy: null }, 'US');
    expect(none[0]).not.toContain('Buy more (yes/no)');
    const own = withDevice(TABLE, 1, { ...cells, buy: 'no' }, 'US');
    expect(devicesOf(own)[0]?.cells.buy).toBe('no');
    expect(readKit(own).kit[0]?.buy).toBe(false);
    const hand = withDevice(own, 1, { name: 'hose', family: 'hand', flow: 5 }, 'US');
    expect(devicesOf(hand)[0]?.cells.buy).toBe(undefined);
  });

  it('a removed device is gone, and no other', () => {
    expect(devicesOf(withoutDevice(TABLE, 1)).map(({ cells }) => cells.name)).toEqual(['what']);
  });

  it('asks each family for what it needs', () => {
    const asked = (family: 'bag' | 'soaker' | 'hand') => columnsFor(family).map(({ key }) => key);
    expect(asked('bag')).toContain('holes');
    expect(asked('soaker')).toEqual(expect.arrayContaining(['rate', 'length']));
    expect(asked('hand')).not.toContain('volume');
    expect(asked('bag')).toContain('buy');
    expect(asked('hand')).not.toContain('buy');
  });
});
