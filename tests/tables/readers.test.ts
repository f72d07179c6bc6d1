/** Files as bytes: encodings, delimiters, workbooks, and files that are something else. */
import { writeXlsx } from 'hucre/xlsx';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayOf } from '../../src/engine/dates.js';
import { Problem } from '../../src/engine/problems.js';
import { readInventory } from '../../src/tables/inventory/index.js';
import { readTableFile, readWorkbookSheets } from '../../src/workbook/readers/open.js';

const utf8 = (s: string): Uint8Array => new TextEncoder().encode(s);
const latin1 = (s: string): Uint8Array => Uint8Array.from(s, (c) => c.charCodeAt(0));

describe('text tables', () => {
  it('a byte order mark does not stick to the first header', async () => {
    const t = await readTableFile('a.csv', utf8('\ufeffTree ID,DBH\r\n1,3\r\n'));
    expect(t.cells).toEqual([['Tree ID', 'DBH'], ['1', '3']]); // prettier-ignore
    expect(t).toMatchObject({ encoding: 'UTF-8 with BOM', delimiter: 'comma' });
  });
  it('Windows-1252 is found out and noted', async () => {
    const t = await readTableFile(
      'a.csv',
      latin1('Nr;Straße;Umfang\n1;Märchenweg;62,8\n2;Sagenstraße;94,2\n'),
    );
    expect(t.cells[1]).toEqual(['1', 'Märchenweg', '62,8']);
    expect(t).toMatchObject({ encoding: 'Windows-1252', delimiter: 'semicolon' });
    expect(t.notes.join(' ')).toMatch(/Windows-1252/);
    const tree = readInventory(t.cells).rows[0]?.tree;
    expect(tree?.caliper).toBeCloseTo(628 / Math.PI, 6);
    expect(tree?.address).toBe('Märchenweg');
  });
  it.each([
    ['a;b;c\n1,5;2;x\n2,5;3;y\n', 'semicolon', 3],
    ['a\tb\n1,5\t2\n', 'tab', 2],
    ['a|b\n1|2\n', 'bar', 2],
    ['sep=;\na;b\n1;2\n', 'semicolon', 2],
    ['a,b\n"x; y; z",2\n"p; q; r",3\n', 'comma', 2],
  ])('%j is parted by %s', async (s, delimiter, width) => {
    const t = await readTableFile('a.txt', utf8(s));
    expect(t.delimiter).toBe(delimiter);
    expect(t.cells[0]?.length).toBe(width);
  });
  it('quoted cells keep commas, quotes and line ends', async () => {
    const t = await readTableFile('a.csv', utf8('a,b\n"x, ""y""\nz",2\n'));
    expect(t.cells[1]).toEqual(['x, "y"\nz', '2']);
  });
  it('UTF-16 is read', async () => {
    const s = 'Tree ID\tDBH\n1\t3\n';
    const bytes = Uint8Array.from([0xff, 0xfe, ...[...s].flatMap((c) => [c.charCodeAt(0), 0])]);
    expect((await readTableFile('a.txt', bytes)).cells[1]).toEqual(['1', '3']);
  });
  it('a text table named like a workbook is read, and said so', async () => {
    const bytes = new TextEncoder().encode('Tree ID,DBH (in)\nT1,2\n');
    const table = await readTableFile('trees.xlsx', bytes);
    expect(table.cells.length).toBe(2);
    expect(table.notes.join(' ')).toMatch(/named like a workbook but holds plain text/);
    expect((await readTableFile('trees.csv', bytes)).notes).toEqual([]);
  });
  it('a quote out of place is noted', async () => {
    const t = await readTableFile('a.csv', utf8('a,b\n"x,1\ny,2\n'));
    expect(t.notes.join(' ')).toMatch(/quotation mark/);
  });
});

describe('workbooks', () => {
  const planted = new Date(Date.UTC(2021, 3, 16));
  const book = (): Promise<Uint8Array> =>
    writeXlsx({
      sheets: [
        { name: 'Readme', rows: [['Invented for a test']] },
        { name: 'Trees', rows: [['Tree ID', 'DBH (in)', 'Planted'], [1, 3, planted], [2, 4, planted]] },
      ],
    }); // prettier-ignore
  it('takes the sheet with the most rows, dates as serials with a hint', async () => {
    const t = await readTableFile('b.xlsx', await book());
    expect(t.sheet).toBe('Trees');
    expect(t.notes.join(' ')).toMatch(/"Readme" \(1\)/);
    expect(t.cells[1]?.[2]).toBe(dayOf(2021, 4, 16));
    expect([...(t.dateCells ?? [])]).toEqual(['1,2', '2,2']);
    const r = readInventory(t.cells, { ...(t.dateCells ? { dateCells: t.dateCells } : {}) });
    expect(r.rows[1]?.tree?.planted).toBe(dayOf(2021, 4, 16));
  });
  it('gives all sheets by name', async () => {
    expect((await readWorkbookSheets(await book())).map((s) => s.name)).toEqual([
      'Readme',
      'Trees',
    ]);
  });
  it('is told from its bytes, whatever the name', async () => {
    expect((await readTableFile('b.csv', await book())).sheet).toBe('Trees');
  });
  it('cut short', async () => {
    const bytes = await book();
    await expect(readTableFile('b.xlsx', bytes.subarray(0, bytes.length / 2))).rejects.toThrow(/cut short or damaged/); // prettier-ignore
  });
  it('behind a password', async () => {
    const bytes = await writeXlsx({ sheets: [{ name: 'T', rows: [['a']] }], encryption: { password: 'fable', spinCount: 1000 } }); // prettier-ignore
    await expect(readTableFile('b.xlsx', bytes)).rejects.toThrow(/protected by a password/);
  });
  it('with nothing on it', async () => {
    const bytes = await writeXlsx({ sheets: [{ name: 'T', rows: [] }] });
    await expect(readTableFile('b.xlsx', bytes)).rejects.toThrow(/no sheet with anything/);
  });
});

describe('other files', () => {
  it.each<[string, Uint8Array, RegExp]>([
    ['empty', new Uint8Array(), /is empty/],
    ['white', utf8(' \n \n'), /white space/],
    ['pdf', utf8('%PDF-1.7'), /PDF/],
    [
      'old workbook',
      Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, 0, 0]),
      /old \.xls/,
    ],
    ['zero bytes', Uint8Array.from([97, 44, 98, 10, 0, 44, 49]), /zero bytes/],
    ['json', utf8('{"a":1}'), /JSON/],
    ['page', utf8('<html></html>'), /web page/],
    ['picture', Uint8Array.from([0x89, 0x50, 0x4e, 0x47]), /picture/],
  ])('%s is refused in a sentence that names the file', async (_, bytes, why) => {
    await expect(readTableFile('thing.csv', bytes)).rejects.toThrow(why);
    await expect(readTableFile('thing.csv', bytes)).rejects.toThrow(/thing\.csv/);
  });
  it('any bytes give a table or a Problem, never another error', async () => {
    const heads = [
      [],
      [0x50, 0x4b, 3, 4],
      [0xef, 0xbb, 0xbf],
      [0xff, 0xfe],
      [0xd0, 0xcf, 0x11, 0xe0],
    ];
    await fc.assert(
      fc.asyncProperty(fc.constantFrom(...heads), fc.uint8Array({ maxLength: 300 }), async (head, tail) => {
        try {
          const t = await readTableFile('x', Uint8Array.from([...head, ...tail]));
          expect(t.cells.length).toBeGreaterThan(0);
          readInventory(t.cells);
        } catch (error) {
          expect(error).toBeInstanceOf(Problem);
        }
      }),
      { numRuns: 400 },
    ); // prettier-ignore
  });
});
