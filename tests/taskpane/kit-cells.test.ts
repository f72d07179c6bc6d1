/** The kit changed in place: a cell at a time, in the units of the panel, by tables of any shape. Common practice, no source. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Units } from '../../src/engine/units.js';
import {
  columnOf,
  DECIDING,
  shownCell,
  storedCell,
  unitShown,
  withCell,
} from '../../src/taskpane/kit/kit-cells.js';
import { KINDS, withNew } from '../../src/taskpane/kit/new-device.js';
import { forgetRemoved, putBack, remember, removedOf } from '../../src/taskpane/kit/removed.js';
import { devicesOf, withoutDevice, type KitKey } from '../../src/taskpane/kit-table.js';
import type { Session } from '../../src/taskpane/session.js';
import type { Cell } from '../../src/tables/cells.js';
import { KIT_COLUMNS, kitHeader, kitRows, readKit } from '../../src/tables/kit.js';
import { exampleKit } from '../../src/workbook/example-kit.js';

const TABLE: Cell[][] = [
  ['Our kit', null],
  ['Note', 'Device', 'Family', 'Volume (L)', 'In stock', 'Shelf'],
  ['mine', 'bag A', 'bag', 57, 4, 'top'],
  ['old', 'truck', 'tanker', 1136, 1, 'yard'],
];
const cell: fc.Arbitrary<Cell> = fc.oneof(
  fc.double({ min: 0.1, max: 1e4, noNaN: true }),
  fc.string(),
  fc.constant(null),
);
const units = fc.constantFrom<Units>('US', 'SI');
const numbers = KIT_COLUMNS.filter(({ kind }) => kind === 'number').map(({ key }) => key);
/** A table with columns of its own among those of the kit, in any order and either system of units. */
const tables = fc
  .record({
    columns: fc.shuffledSubarray(numbers, { minLength: 1 }),
    system: units,
    own: fc.array(fc.tuple(cell, cell), { minLength: 2, maxLength: 2 }),
    values: fc.array(cell, { minLength: 2 * numbers.length, maxLength: 2 * numbers.length }),
  })
  .map(({ columns, system, own, values }): Cell[][] => {
    const row = (name: string, family: string, r: 0 | 1): Cell[] => [
      own[0]![r]!,
      name,
      family,
      ...columns.map((_, i) => values[2 * i + r]!),
      own[1]![r]!,
    ];
    const headers = columns.map((key) => kitHeader(columnOf(key), system));
    return [['Depot', 'Device', 'Family', ...headers, 'Shelf'], row('A', 'bag', 0), row('B', 'tanker', 1)]; // prettier-ignore
  });

describe('one number of a device', () => {
  it('is the only cell that changes, whatever the table is like', () => {
    fc.assert(
      fc.property(tables, fc.constantFrom(...numbers), cell, units, fc.constantFrom(1, 2), (table, key, value, system, at) => {
        const before = structuredClone(table);
        const made = withCell(table, at, key, value, system);
        expect(table).toEqual(before);
        const place = made[0]!.findIndex((h) => h === kitHeader(columnOf(key), 'US') || h === kitHeader(columnOf(key), 'SI'));
        if (place < 0) {
          expect([made, value]).toEqual([before, null]);
          return;
        }
        expect(made[at]![place] ?? null).toEqual(value);
        made.forEach((row, r) =>
          row.forEach((c, i) => {
            if (r === at && i === place) return;
            const isNewColumn = i >= before[0]!.length;
            if (!isNewColumn) expect(c).toEqual(before[r]![i]);
            else if (r > 0) expect(c).toBe(null);
          }),
        );
      }),
    ); // prettier-ignore
  });

  it('is shown in the units of the panel and comes back as the cell it was', () => {
    fc.assert(
      fc.property(tables, fc.constantFrom<KitKey>('volume', 'length', 'flow', 'rate'), fc.integer({ min: 1, max: 5000 }), units, (table, key, typed, system) => {
        const column = columnOf(key);
        const stored = storedCell(table, column, typed, system);
        expect(Number(shownCell(table, column, stored, system)) / typed).toBeCloseTo(1, 8);
        expect(unitShown(table, column, system)).toBe(system === 'US' ? column.unitUS : column.unitSI);
      }),
    ); // prettier-ignore
  });

  it('goes into a sheet of a person’s own in that sheet’s unit, a unit typed with it stays', () => {
    const volume = columnOf('volume');
    const stored = storedCell(TABLE, volume, 20, 'US');
    const made = withCell(TABLE, 2, 'volume', stored, 'US');
    expect(made[2]).toEqual(['mine', 'bag A', 'bag', 75.70823568, 4, 'top']);
    expect(readKit(made).kit[0]?.volume).toBeCloseTo(75.708, 3);
    const typed = storedCell(TABLE, volume, '20 gal', 'SI');
    expect(readKit(withCell(TABLE, 2, 'volume', typed, 'SI')).kit[0]?.volume).toBeCloseTo(75.708, 3); // prettier-ignore
  });
});

describe('a device that is added', () => {
  it.each(KINDS)('of the kind %s can be planned with, and has the example’s numbers', (kind) => {
    for (const system of ['US', 'SI'] as const)
      for (const table of [TABLE, kitRows([], system)]) {
        const { kit, at, name } = withNew(table, kind, system, 'en');
        const { kit: read, problems } = readKit(kit);
        expect(problems.filter((said) => said.includes(`row ${at + 1}`))).toEqual([]);
        const device = read.find((d) => d.name === name)!;
        const example = exampleKit(system).find((d) => d.family === device.family)!;
        expect(device.stock).toBe(0);
        for (const key of ['volume', 'rate', 'length', 'flow', 'price', 'visitMinutes'] as const)
          if (example[key] !== undefined) expect(device[key]).toBeCloseTo(example[key], 6);
        expect(device.automatic).toBe(kind === 'timed');
      }
  });

  it('says what it is, in either language, and is unlike the others', () => {
    const once = withNew(kitRows([], 'US'), 'bag', 'US', 'en');
    expect([once.name, withNew(once.kit, 'bag', 'US', 'en').name]).toEqual(['15 gal bag', '15 gal bag (2)']); // prettier-ignore
    expect(withNew(once.kit, 'timed', 'US', 'es').name).toBe('manguera porosa de 40 ft con temporizador'); // prettier-ignore
    expect(withNew(once.kit, 'hand', 'US', 'en').name).toBe('hand hose');
  });
});

describe('a device that was removed', () => {
  const session = (plan?: object) => ({ opened: 1, plan }) as unknown as Session;

  it('comes back where it stood, with what was changed meanwhile and its own columns', () => {
    const s = session();
    remember(s, TABLE, 2, 'bag A');
    const left = withCell(withoutDevice(TABLE, 2), 2, 'stock', 3, 'US');
    const [removed] = removedOf(s, left);
    const back = putBack(s, left, removed!);
    expect(back[2]).toEqual(TABLE[2]);
    expect(back[3]).toEqual(['old', 'truck', 'tanker', 1136, 3, 'yard']);
    expect(removedOf(s, back)).toEqual([]);
  });

  it('can no longer come back after the next plan, into another table, or when it is forgotten', () => {
    const plan = { planned: 1 };
    const s = session(plan);
    remember(s, TABLE, 2, 'bag A');
    expect(removedOf(s, kitRows([], 'US'))).toEqual([]);
    expect(removedOf(s, TABLE)).toHaveLength(1);
    (s as { plan: unknown }).plan = undefined;
    expect(removedOf(s, TABLE)).toHaveLength(1);
    (s as { plan: unknown }).plan = { planned: 2 };
    expect(removedOf(s, TABLE)).toEqual([]);
    remember(s, TABLE, 3, 'truck');
    forgetRemoved(s);
    expect(removedOf(s, TABLE)).toEqual([]);
  });
});

it('what decides about a device is among the columns asked of its family', () => {
  for (const { family } of exampleKit('US')) {
    const [row] = devicesOf(kitRows(exampleKit('US').filter((d) => d.family === family), 'US')); // prettier-ignore
    for (const key of DECIDING[family]) expect(row?.cells[key], `${family}, ${key}`).not.toBe(undefined); // prettier-ignore
  }
});
