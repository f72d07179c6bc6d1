/** Every function of the catalogue typed into a cell of the grid, its tables standing in cells beside it. */
import { describe, expect, it } from 'vitest';
import { calculate, type Given } from '../../src/desk/headless.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import metadata from '../../src/generated/functions.json' with { type: 'json' };
import { ENTRIES, goodCall } from '../functions/catalogue.js';

type CellValue = string | number | boolean;
const given: Given = {};
let nextRow = 0;

const letters = (column: number): string =>
  column < 26 ? String.fromCharCode(65 + column) : `A${letters(column - 26)}`;

/** Puts rows into free cells and says where they stand; a blank stays a blank cell. */
function place(rows: CellValue[][]): string {
  const first = nextRow;
  rows.forEach((row, r) => {
    given[first + r] = Object.fromEntries(
      row.map((value, c) => [c, value] as const).filter(([, value]) => value !== ''),
    );
  });
  nextRow += rows.length + 1;
  const width = Math.max(...rows.map((row) => row.length));
  return `A${first + 1}:${letters(width - 1)}${first + rows.length}`;
}

const written = (value: unknown): string => {
  if (Array.isArray(value)) return place(value as CellValue[][]);
  return typeof value === 'string' ? `"${value}"` : String(value);
};
const ids = Object.keys(ENTRIES);
const formulas = ids.map((id) => `=SOAK.${id}(${goodCall(id).map(written).join(',')})`);
const outcomes = await calculate(
  formulas,
  { metadata: metadata.functions, implementations: FUNCTIONS },
  given,
);

const flat = (value: unknown): unknown[] => (Array.isArray(value) ? value.flat() : [value]);

describe('in a cell of the grid', () => {
  it.each(ids.map((id, i) => [id, i] as const))('%s shows what the function gives', (id, i) => {
    const outcome = outcomes[i]!;
    if ('error' in outcome) throw new Error(`${outcome.formula}: ${outcome.error.message}`);
    const direct = flat(FUNCTIONS[id]!(...goodCall(id)));
    const shown = flat(outcome.value);
    expect(shown).toHaveLength(direct.length);
    direct.forEach((value, k) => {
      if (typeof value === 'number') expect(shown[k]).toBeCloseTo(value, 9);
      else expect(shown[k]).toBe(value);
    });
  });
});
