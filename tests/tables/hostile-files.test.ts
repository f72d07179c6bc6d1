/** Files made to mislead, to overwhelm, or cut short: each gives a sentence that names the file, none costs memory. */
import { deflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { Problem } from '../../src/engine/problems.js';
import { LARGEST_FILE, MOST_FILLED, MOST_ROWS } from '../../src/workbook/readers/limits.js';
import { readFile } from '../../src/workbook/readers/open.js';

const utf8 = (s: string): Uint8Array => new TextEncoder().encode(s);

const utf16 = (s: string, mark: boolean): Uint8Array =>
  Buffer.from(`${mark ? '\ufeff' : ''}${s}`, 'utf16le');

interface Part {
  name: string;
  body: Uint8Array;
  /** what the directory says it unpacks to, where that is a lie [bytes] */
  says?: number;
  flags?: number;
  method?: number;
  crc?: number;
  /** bytes that are left out at the end of what is packed */
  cut?: number;
}

function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let k = 0; k < 8; k++) crc = (crc & 1) === 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

const numbers = (...fields: [value: number, bytes: number][]): number[] =>
  fields.flatMap(([value, bytes]) =>
    Array.from({ length: bytes }, (_, i) => Math.floor(value / 256 ** i) % 256),
  );

/** A ZIP container, its fields as told. */
function zip(parts: readonly Part[]): Uint8Array {
  const out: Uint8Array[] = [];
  const directory: Uint8Array[] = [];
  let at = 0;
  for (const {
    name,
    body,
    says = body.length,
    flags = 0,
    method = 8,
    crc = crc32(body),
    cut = 0,
  } of parts) {
    const whole = method === 8 ? deflateRawSync(body) : body;
    const packed = whole.subarray(0, whole.length - cut);
    const title = utf8(name);
    const fields: [number, number][] = [[20, 2], [flags, 2], [method, 2], [0, 4], [crc, 4], [packed.length, 4], [says, 4], [title.length, 2]]; // prettier-ignore
    const local = Uint8Array.from(numbers([0x04034b50, 4], ...fields, [0, 2]));
    directory.push(Uint8Array.from(numbers([0x02014b50, 4], [20, 2], ...fields, [0, 2], [0, 2], [0, 2], [0, 2], [0, 4], [at, 4])), title); // prettier-ignore
    out.push(local, title, packed);
    at += local.length + title.length + packed.length;
  }
  const length = directory.reduce((sum, d) => sum + d.length, 0);
  const end = numbers([0x06054b50, 4], [0, 4], [parts.length, 2], [parts.length, 2], [length, 4], [at, 4], [0, 2]); // prettier-ignore
  return Buffer.concat([...out, ...directory, Uint8Array.from(end)]);
}

const NS = 'http://schemas.openxmlformats.org';
const RELATIONS = `${NS}/officeDocument/2006/relationships`;
const relations = (...targets: [type: string, target: string][]): string =>
  `<Relationships xmlns="${NS}/package/2006/relationships">${targets
    .map(([type, target], i) => `<Relationship Id="rId${i + 1}" Type="${RELATIONS}/${type}" Target="${target}"/>`)
    .join('')}</Relationships>`; // prettier-ignore

interface BookOf {
  /** inside sheetData */
  rows: string;
  strings?: string;
  sheetHead?: string;
  sheet?: Partial<Part>;
}

/** Parts of a workbook of one sheet. */
const parts = ({ rows, strings, sheetHead = '', sheet = {} }: BookOf): Part[] => [
  { name: '_rels/.rels', body: utf8(relations(['officeDocument', 'xl/workbook.xml'])) },
  {
    name: 'xl/workbook.xml',
    body: utf8(`<workbook xmlns="${NS}/spreadsheetml/2006/main" xmlns:r="${RELATIONS}"><sheets><sheet name="Trees" sheetId="1" r:id="rId1"/></sheets></workbook>`), // prettier-ignore
  },
  {
    name: 'xl/_rels/workbook.xml.rels',
    body: utf8(relations(['worksheet', 'worksheets/sheet1.xml'], ['sharedStrings', 'sharedStrings.xml'])), // prettier-ignore
  },
  ...(strings === undefined ? [] : [{ name: 'xl/sharedStrings.xml', body: utf8(strings) }]),
  {
    name: 'xl/worksheets/sheet1.xml',
    body: utf8(`${sheetHead}<worksheet xmlns="${NS}/spreadsheetml/2006/main"><sheetData>${rows}</sheetData></worksheet>`), // prettier-ignore
    ...sheet,
  },
];
const book = (of: BookOf): Uint8Array => zip(parts(of));
const text = (ref: string, said: string): string =>
  `<c r="${ref}" t="inlineStr"><is><t>${said}</t></is></c>`;
const GOOD = `<row r="1">${text('A1', 'Tree id')}${text('B1', 'DBH')}</row><row r="2">${text('A2', 'T1')}<c r="B2"><v>3</v></c></row>`;

/** The sentence a file gives. */
async function sentence(name: string, bytes: Uint8Array): Promise<string> {
  try {
    await readFile(name, bytes);
  } catch (error) {
    expect(error).toBeInstanceOf(Problem);
    expect((error as Problem).message).toContain(`"${name}"`);
    return (error as Problem).message;
  }
  return 'read without a word';
}

describe('the workbook of these tests', () => {
  it('is read as it stands', async () => {
    const { sheets, notes } = await readFile('a.xlsx', book({ rows: GOOD }));
    expect(sheets.map(({ cells }) => cells)).toEqual([[['Tree id', 'DBH'], ['T1', 3]]]); // prettier-ignore
    expect(notes).toEqual([]);
  });
  it('is told from its bytes, and a wrong ending is said', async () => {
    expect((await readFile('a.csv', book({ rows: GOOD }))).notes.join(' ')).toMatch(/named like another kind of file but holds an \.xlsx workbook/); // prettier-ignore
    expect((await readFile('a.xlsx', utf8('a,b\n1,2\n'))).notes.join(' ')).toMatch(/named like a workbook but holds plain text/); // prettier-ignore
  });
});

const MB = 1024 * 1024;
const zeros = new Uint8Array(16 * MB);
const doctype = '<!DOCTYPE worksheet [<!ENTITY secret SYSTEM "file:///etc/hostname">]>';
const laughs = `<!DOCTYPE s [<!ENTITY a "ha">${'bcdefghij'.split('').map((n, i) => `<!ENTITY ${n} "${`&${'abcdefghi'[i]};`.repeat(10)}">`).join('')}]>`; // prettier-ignore
const compound = (name: string): Uint8Array =>
  Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, ...[...name].flatMap((c) => [c.charCodeAt(0), 0])]); // prettier-ignore
const first = (name: string): Uint8Array => book({ rows: GOOD, sheet: { name } });

describe('workbooks that are refused', () => {
  it.each<[string, () => Uint8Array, RegExp]>([
    ['packs 16 MB of nothing into a few bytes', () => book({ rows: '', sheet: { body: zeros, crc: 0 } }), /unpacks to far more than a table holds/],
    ['says a small size and unpacks to a large one', () => book({ rows: '', sheet: { body: zeros, crc: 0, says: 5000 } }), /unpacks to far more than a table holds/],
    ['says more than it unpacks to', () => book({ rows: GOOD, sheet: { says: 4 * MB } }), /cut short or damaged/],
    ['says it unpacks to gigabytes', () => book({ rows: GOOD, sheet: { says: 4e9 } }), /unpacks to far more/],
    ['has a wrong check sum', () => book({ rows: GOOD, sheet: { crc: 1 } }), /cut short or damaged/],
    ['is packed in an unknown way', () => book({ rows: GOOD, sheet: { method: 99 } }), /packed in a way that is not read/],
    ['has a part behind a password', () => book({ rows: GOOD, sheet: { flags: 1 } }), /protected by a password; .*save a copy without password/],
    ['names a file of the machine', () => book({ rows: GOOD, sheetHead: doctype }), /holds a document type/],
    ['grows its entities', () => book({ rows: GOOD, strings: `${laughs}<sst><si><t>&j;</t></si></sst>` }), /holds a document type/],
    ['lacks the end of a packed part', () => book({ rows: GOOD, sheet: { cut: 9 } }), /cut short or damaged \(xl\/worksheets\/sheet1\.xml cannot be unpacked\)/],
    ['puts a hundred thousand elements into each other', () => book({ rows: '<g>'.repeat(100_000) }), /sheet1\.xml, line 1, character \d+: more than 256 elements within each other/],
    ['gives an element twenty thousand attributes', () => book({ rows: `<row${Array.from({ length: 20_000 }, (_, i) => ` a${i}=""`).join('')}/>` }), /sheet1\.xml, line 1, character \d+: more than 1000 attributes/],
    ['closes another element than it opened', () => book({ rows: '<row r="1">\n<c></row></c>' }), /sheet1\.xml, line 2, character 9: unexpected close tag\)/],
    ['holds a character no XML holds', () => book({ rows: `<row r="1">${text('A1', 'a\u0001')}</row>` }), /sheet1\.xml, line 1, character \d+: disallowed character\)/],
    ['lacks its sheet', () => zip(parts({ rows: GOOD }).slice(0, -1)), /cut short or damaged/],
    ['ends within a cell', () => book({ rows: '', sheet: { body: utf8('<worksheet><sheetData><row r="1"><c r="A1"><v>1') } }), /cut short or damaged/],
    ['is cut in half', () => { const b = book({ rows: GOOD }); return b.subarray(0, b.length / 2); }, /cut short or damaged/],
    ['lacks its first half', () => { const b = book({ rows: GOOD }); return Buffer.concat([b.subarray(0, 4), b.subarray(b.length / 2)]); }, /cut short or damaged/],
    ['holds bytes that are no text', () => book({ rows: '', sheet: { body: Uint8Array.from([0x3c, 0xff, 0xff]) } }), /cut short or damaged/],
    ['names row 2,000,000', () => book({ rows: `<row r="2000000">${text('A2000000', 'x')}</row>` }), /row beyond 1,048,576/],
    ['names column ZZZZ', () => book({ rows: `<row r="1">${text('ZZZZ1', 'x')}</row>` }), /column beyond 16,384/],
    ['is spread to the last column on every row', () => book({ rows: Array.from({ length: 500 }, (_, r) => `<row r="${r + 1}">${text(`XFD${r + 1}`, 'x')}</row>`).join('') }), /spread over more than 8,000,000 cells, most of them blank/],
    ['has nothing on it', () => book({ rows: '<row r="1"/>' }), /no sheet with anything on it/],
    ['is an old workbook', () => compound('Workbook'), /old \.xls kind; open it and save it as \.xlsx/],
    ['is encrypted', () => compound('EncryptedPackage'), /protected by a password/],
    ['is a binary workbook', () => zip([{ name: '_rels/.rels', body: utf8(relations(['officeDocument', 'xl/workbook.bin'])) }, { name: 'xl/workbook.bin', body: utf8('x') }]), /\.xlsb kind; open it and save it as \.xlsx/],
    ['is an OpenDocument sheet', () => zip([{ name: 'mimetype', body: utf8('application/vnd.oasis.opendocument.spreadsheet'), method: 0 }, { name: 'content.xml', body: utf8('<x/>') }]), /OpenDocument sheet \(\.ods\); open it and save it as \.xlsx/],
    ['is a text document', () => zip([{ name: '_rels/.rels', body: utf8(relations(['officeDocument', 'word/document.xml'])) }, { name: 'word/document.xml', body: utf8('<x/>') }]), /is a text document/],
    ['is an archive of other files', () => zip([{ name: 'photo.jpg', body: utf8('x') }]), /ZIP archive without a workbook/],
    ['is an empty archive', () => zip([]), /ZIP archive without a workbook|cut short/],
  ])('one that %s', async (_, make, why) => {
    expect(await sentence('thing.xlsx', make())).toMatch(why);
  }); // prettier-ignore

  it('one with more than two million filled cells', async () => {
    const cells = 'ABCDEFGHIJ'.split('').map((c) => `<c r="${c}0"><v>1</v></c>`).join(''); // prettier-ignore
    const rows = Array.from({ length: MOST_FILLED / 10 + 1 }, (_, r) => `<row r="${r + 1}">${cells.replace(/0"/g, `${r + 1}"`)}</row>`).join(''); // prettier-ignore
    expect(await sentence('wide.xlsx', book({ rows }))).toMatch(/beyond 2,000,000 filled cells/);
  });

  it('first bytes of a workbook and then anything', async () => {
    expect(await sentence('x.xlsx', first('xl/worksheets/other.xml'))).toMatch(
      /cut short or damaged/,
    );
  });
});

describe('workbooks that look worse than they are', () => {
  it('a million empty rows, some of them formatted, cost next to nothing', async () => {
    const empty = Array.from({ length: MOST_ROWS - 2 }, (_, r) =>
      r % 2 === 0 ? `<row r="${r + 3}"/>` : `<row r="${r + 3}"><c r="A${r + 3}" s="1"/></row>`,
    ).join('');
    const bytes = book({ rows: GOOD + empty });
    const { sheets } = await readFile('long.xlsx', bytes);
    expect(sheets[0]!.cells.length).toBe(2);
  });
  it('a cell on the very last row leaves the rows between without cells of their own', async () => {
    const rows = `${GOOD}<row r="${MOST_ROWS}">${text(`A${MOST_ROWS}`, 'end')}</row>`;
    const { cells } = (await readFile('far.xlsx', book({ rows }))).sheets[0]!;
    expect(cells.length).toBe(MOST_ROWS);
    expect(cells.at(-1)).toEqual(['end']);
    expect(cells[5]).toBe(cells[500_000]);
  });
  it('texts that look like markup, like formulas and like escapes stay what they are', async () => {
    const said = '&lt;b&gt; &amp;amp; =1+1 _x000D_ &#x1F333; &unknown;';
    const { cells } = (await readFile('a.xlsx', book({ rows: `<row r="1">${text('A1', said)}</row>` }))).sheets[0]!; // prettier-ignore
    expect(cells[0]).toEqual(['<b> &amp; =1+1 \r 🌳 &unknown;']);
  });
  it('texts in UTF-16, in CDATA and across the pieces they are read in stay whole', async () => {
    const long = '树é🌳'.repeat(40_000);
    const rows = `<row r="1">${text('A1', long)}${text('B1', '<![CDATA[a<b]]> &amp; c')}</row>`;
    const all = parts({ rows });
    const wide = all.map((part) => ({
      ...part,
      body: utf16(new TextDecoder().decode(part.body), true),
    }));
    for (const bytes of [zip(all), zip(wide)])
      expect((await readFile('a.xlsx', bytes)).sheets[0]!.cells).toEqual([[long, 'a<b & c']]);
  });
  it('cells and rows without their place follow one another', async () => {
    const rows = '<row><c><v>1</v></c><c/><c t="b"><v>1</v></c></row><row><c t="e"><v>#N/A</v></c></row>'; // prettier-ignore
    const { cells } = (await readFile('a.xlsx', book({ rows }))).sheets[0]!;
    expect(cells).toEqual([[1, null, true], ['#N/A']]); // prettier-ignore
  });
  it('a property named like one of every object does no harm', async () => {
    const custom = `<Properties><property name="__proto__"><vt:lpwstr>x</vt:lpwstr></property><property name="Soakbook a 1"><vt:lpwstr>b</vt:lpwstr></property></Properties>`; // prettier-ignore
    const all = parts({ rows: GOOD });
    all[0]!.body = utf8(relations(['officeDocument', 'xl/workbook.xml'], ['custom-properties', 'docProps/custom.xml'])); // prettier-ignore
    const { settings } = await readFile('a.xlsx', zip([...all, { name: 'docProps/custom.xml', body: utf8(custom) }])); // prettier-ignore
    expect(settings).toEqual({ a: 'b' });
    expect(Object.getPrototypeOf(settings)).toBe(Object.prototype);
  });
});

describe('text tables', () => {
  it.each<[string, () => Uint8Array, RegExp]>([
    ['is larger than 50 MB', () => new Uint8Array(LARGEST_FILE + 1).fill(44), /has 51 MB; up to 50 MB are read/],
    ['has more rows than a sheet', () => utf8('1,2\n'.repeat(MOST_ROWS + 5)), /has 1,048,58\d rows; up to 1,048,576 are read/],
    ['is almost nothing but commas', () => utf8(`${`${','.repeat(999)}x\n`.repeat(9000)}`), /about 9,0\d\d,\d\d\d cells; up to 8,000,000/],
    ['has more than two million filled cells', () => utf8(`${'1,'.repeat(9)}1\n`.repeat(MOST_FILLED / 10 + 1)), /beyond 2,000,000 filled cells/],
    ['has no bytes', () => new Uint8Array(), /no bytes at all/],
    ['is white space', () => utf8(' \n\t\n'), /nothing but white space/],
    ['is a page with a mark before it', () => utf8('\ufeff\n <html><table>'), /web page or XML/],
    ['is JSON', () => utf8('{"trees":[]}'), /looks like JSON/],
    ['is a PDF', () => utf8('%PDF-1.7'), /is a PDF/],
    ['holds zero bytes', () => Uint8Array.from([97, 44, 98, 10, 0, 44, 49]), /zero bytes/],
  ])('one that %s is refused', async (_, make, why) => {
    expect(await sentence('thing.csv', make())).toMatch(why);
  }); // prettier-ignore

  it('a million blank lines below a table are no rows', async () => {
    const bytes = utf8(`a,b\n1,2\n${',\n'.repeat(1_200_000)}`);
    const { sheets } = await readFile('long.csv', bytes);
    expect(sheets[0]!.cells).toEqual([['a', 'b'], ['1', '2']]); // prettier-ignore
    expect(sheets[0]!.name).toBe('long');
  });
  it.each([true, false])('UTF-16 is read, its mark there: %s', async (mark) => {
    const { sheets, notes } = await readFile('a.txt', utf16('Tree id\tDBH\nT1\t3\n', mark));
    expect(sheets[0]!.cells[1]).toEqual(['T1', '3']);
    expect(notes.join(' ')).toMatch(mark ? /^$/ : /without the mark/);
  });
});
