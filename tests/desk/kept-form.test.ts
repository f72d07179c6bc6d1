/** The form of a kept workbook: what goes in comes out, and what is broken is refused with a reason. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bookFrom, cellPieces, headFrom, headOf, areFewEnough, filledIn, modelKey, modelPieces, partKey, type BookFrame, type CellData } from '../../src/desk/kept-form.js'; // prettier-ignore
import { SheetDraft } from '../../src/workbook/model.js';

const table = (rows: number, columns: number): CellData =>
  Object.fromEntries(
    Array.from({ length: rows }, (_, r) => [
      r,
      Object.fromEntries(Array.from({ length: columns }, (_, c) => [c, { v: r * columns + c }])),
    ]),
  );
const draft = new SheetDraft('Log', 'Log');
draft.text([[{ value: 'Log', live: 'SOAK.INTERVAL(1,2)', formula: '1/2' }]]);
const log = draft.done();
const column = { key: 'a', header: 'A', width: 8, style: 'text', format: 'text', align: 'left', wrap: false }; // prettier-ignore
const rows = Array.from({ length: 9000 }, (_, r) => [r, { value: 'x', formula: 'A1' }]);
// more rows than one text takes
log.blocks.push({
  kind: 'table',
  name: 'Visits',
  top: 4,
  columns: [column, column],
  rows,
} as unknown as (typeof log.blocks)[number]);
const model = { title: 'Plan', description: '', madeOn: 46_000, paper: 'a4' as const, names: { Rate: 'Log!$A$1' }, sheets: [log, draft.done()] }; // prettier-ignore
const frame: BookFrame = {
  title: 'street',
  front: 'a',
  styles: {},
  names: [['Rate', 'Log!$A$1']],
  settings: [['draft', '{}']],
  sheets: [
    { key: 'a', name: 'Street', frame: { rowCount: 60 } },
    { key: 'b', name: 'Log', frame: {}, written: { model: 'm', index: 0, reshaped: true } },
  ],
};

/** A head with its texts, as the store gives them back. */
function kept(cells: Record<string, CellData>, of = frame) {
  const texts = new Map<string, string[]>([
    ...Object.entries(cells).map(([key, data]): [string, string[]] => [key, [...cellPieces(data)]]),
    [modelKey('m'), [...modelPieces(model)]],
  ]);
  const pieces = Object.fromEntries([...texts].map(([key, own]) => [key, own.length]));
  const head = headOf({ stamp: 's', name: 'street.xlsx', at: '2026-11-26T09:40', unsaved: true, frame: of, pieces }); // prettier-ignore
  const parts = new Map<string, unknown>(
    [...texts].flatMap(([key, own]) => own.map((text, i) => [partKey(key, i), text] as const)),
  );
  return { head, parts };
}

describe('a kept workbook', () => {
  it('comes back as it was: cells, formulas, models, names, settings', () => {
    const street: CellData = {
      0: { 0: { v: 'Tag', t: 1 } },
      5: { 2: { f: '=A1', si: 'x', v: 3 } },
    };
    const { head, parts } = kept({ a: street, b: {} });
    const read = headFrom(structuredClone(head));
    const book = bookFrom(read!, parts);
    expect(book.cells.get('a')).toEqual(street);
    expect(book.cells.get('b')).toEqual({});
    expect(book.models.get('m')).toEqual(model);
    expect(book).toMatchObject(frame);
  });

  it('comes back whole from any number of texts', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 900 }), fc.integer({ min: 1, max: 40 }), (rows, columns) => {
        const cells = table(rows, columns);
        const { head, parts } = kept({ a: cells, b: {} });
        expect(bookFrom(head, parts).cells.get('a')).toEqual(cells);
      }),
      { numRuns: 30 },
    ); // prettier-ignore
  });

  it('is cut into texts of a few milliseconds each', () => {
    const pieces = [...cellPieces(table(5000, 19))];
    expect(pieces.length).toBeGreaterThan(20);
    const most = Math.max(...pieces.map((p) => Object.values(JSON.parse(p) as CellData).length));
    expect(most * 19).toBeLessThan(4100);
  });

  it.each([
    ['a part of it is missing', (parts: Map<string, unknown>) => parts.delete('a/0')],
    ['a part of it is cut off', (parts: Map<string, unknown>) => parts.set('a/0', '{"0":{')],
    ['a part of it is missing', (parts: Map<string, unknown>) => parts.set('model m/0', 7)],
  ])('is refused where %s', (reason, spoil) => {
    const { head, parts } = kept({ a: table(2, 2), b: {} });
    spoil(parts);
    expect(() => bookFrom(head, parts)).toThrow(`the kept copy of "street.xlsx" cannot be opened: ${reason}`); // prettier-ignore
  });

  it('is refused without sheets, and with two sheets of one name', () => {
    const cells = { a: table(1, 1), b: {} };
    const none = kept(cells, { ...frame, sheets: [] });
    expect(() => bookFrom(none.head, none.parts)).toThrow('it has no sheets');
    const twice = kept(cells, { ...frame, sheets: frame.sheets.map((s) => ({ ...s, name: 'A' })) });
    expect(() => bookFrom(twice.head, twice.parts)).toThrow('two of its sheets have one name');
  });

  it('of another form, or of no form, is none', () => {
    const { head } = kept({ a: {}, b: {} });
    expect(headFrom(head)).toBe(head);
    for (const other of [undefined, null, 7, 'x', [], {}, { ...head, form: 0 }, { ...head, at: 3 }])
      expect(headFrom(other)).toBeUndefined();
  });

  it('has a limit to its cells, above what a file may hold', () => {
    expect(filledIn(table(50, 19))).toBe(950);
    expect(areFewEnough([2_000_000, 2_000_000])).toBe(true);
    expect(areFewEnough([2_000_000, 2_000_001])).toBe(false);
  });
});
