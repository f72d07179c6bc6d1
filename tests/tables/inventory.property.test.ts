/** Whatever a sheet holds: nothing throws, and rows in = trees + listed rows. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isBlank, type Cell } from '../../src/tables/cells.js';
import { readInventory } from '../../src/tables/inventory/index.js';

const HEADERS = ['Tree ID', 'Species', 'DBH (in)', 'Girth', 'Size', 'Planted', 'Year Planted', 'Count', 'Canopy', 'Status', 'Street', 'Lat', 'Lon', 'Geopoint', 'Diameter - 1981', 'Diameter - 1990', '#', '']; // prettier-ignore
const MESS = ['2-2.5', '3x2', '2 1/2"', 'Clump', '0', '15 gal.', '#7', 'Seedling', 'Spring 84', '30/02/2020', '10/12/1998', '1900', 'Dead', 'Blank', 'Total', 'fin', 'n/a', '<Null>', '12,5', '1.234,5', '(45.1, 9.2)', 'Fabula ficta', '=1+1', '\u0000', '💧', '9'.repeat(400), '1e309', '__proto__', 'constructor']; // prettier-ignore

const cell: fc.Arbitrary<Cell> = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom(...MESS) },
  { weight: 2, arbitrary: fc.double() },
  { weight: 2, arbitrary: fc.integer({ min: -5, max: 50_000 }) },
  { weight: 1, arbitrary: fc.string() },
  { weight: 1, arbitrary: fc.boolean() },
  { weight: 2, arbitrary: fc.constant(null) },
);
const grid = fc.array(fc.array(cell, { maxLength: 9 }), { maxLength: 14 });
const headed = fc
  .tuple(fc.array(fc.constantFrom(...HEADERS), { minLength: 1, maxLength: 9 }), grid)
  .map(([header, rows]): Cell[][] => [header, ...rows]);

describe('any grid', () => {
  it('is accounted for row by row', () => {
    fc.assert(
      fc.property(
        fc.oneof(grid, headed),
        fc.constantFrom('US', 'SI', undefined),
        (cells, units) => {
          const r = readInventory(cells, { seasonFrom: 46_478, ...(units ? { units } : {}) });
          const below = cells
            .map((row, i) => ({ row: i + 1, blank: row.every((c) => isBlank(c)) }))
            .filter((x) => x.row > r.headerRow && !x.blank);
          expect(r.rows.map((x) => x.row)).toEqual(below.map((x) => x.row));
          const ids = new Set<string>();
          for (const x of r.rows) {
            expect((x.tree === undefined) !== (x.unusable === undefined)).toBe(true);
            if (!x.tree) continue;
            expect(ids.has(x.tree.id)).toBe(false);
            ids.add(x.tree.id);
            expect(x.tree.row).toBe(x.row);
            expect(Number.isInteger(x.tree.count) && x.tree.count >= 1 && x.tree.count <= 100_000).toBe(true); // prettier-ignore
            for (const key of [
              'caliper',
              'container',
              'ballDiameter',
              'canopy',
              'height',
              'planted',
            ] as const) {
              const v = x.tree[key];
              expect(v === undefined || (Number.isFinite(v) && v > 0), `${key} ${v}`).toBe(true);
            }
          }
        },
      ),
      { numRuns: 1500 },
    );
  });
});
