/** Files that cannot be read, or are read with a remark; what the opening of a file says. */
import { crc32 } from 'node:zlib';
import { LARGEST_FILE, MOST_FILLED, MOST_ROWS } from '../../../src/workbook/readers/limits.js';
import { freshRoom, refusal } from './room.js';

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const bytes = (...numbers: number[]): Uint8Array => Uint8Array.from(numbers);

interface Part {
  name: string;
  text: string;
  /** what the container says of it, where that is not so */
  says?: Partial<Record<'flags' | 'method' | 'crc' | 'size', number>>;
}

/** A ZIP container of parts that are only stored. */
function zip(parts: readonly Part[]): Uint8Array {
  const [files, directory]: Buffer[][] = [[], []];
  let at = 0;
  for (const { name, text, says = {} } of parts) {
    const body = Buffer.from(text);
    const { flags = 0, method = 0, crc = crc32(body), size = body.length } = says;
    const head = Buffer.alloc(26);
    [20, flags, method].forEach((n, i) => head.writeUInt16LE(n, 2 * i));
    [crc, body.length, size].forEach((n, i) => head.writeUInt32LE(n, 10 + 4 * i));
    head.writeUInt16LE(name.length, 22);
    const place = Buffer.alloc(14);
    place.writeUInt32LE(at, 10);
    files!.push(Buffer.from('PK\x03\x04'), head, Buffer.from(name), body);
    directory!.push(Buffer.from('PK\x01\x02\x14\x00'), head, place, Buffer.from(name));
    at += 30 + name.length + body.length;
  }
  const end = Buffer.alloc(18);
  [8, 10].forEach((i) => end.writeUInt16LE(parts.length, i - 4));
  end.writeUInt32LE(Buffer.concat(directory!).length, 8);
  end.writeUInt32LE(at, 12);
  return Buffer.concat([...files!, ...directory!, Buffer.from('PK\x05\x06'), end]);
}

const NS = 'http://schemas.openxmlformats.org';
const related = (type: string, target: string): string =>
  `<Relationships xmlns="${NS}/package/2006/relationships"><Relationship Id="rId1" Type="${NS}/officeDocument/2006/relationships/${type}" Target="${target}"/></Relationships>`;
const book = (rows: string, more: Partial<Part> & { head?: string } = {}): Uint8Array =>
  zip([
    { name: '_rels/.rels', text: related('officeDocument', 'xl/workbook.xml') },
    { name: 'xl/workbook.xml', text: `<workbook xmlns="${NS}/spreadsheetml/2006/main" xmlns:r="${NS}/officeDocument/2006/relationships"><sheets><sheet name="Trees" sheetId="1" r:id="rId1"/></sheets></workbook>` },
    { name: 'xl/_rels/workbook.xml.rels', text: related('worksheet', 'worksheets/sheet1.xml') },
    { name: 'xl/worksheets/sheet1.xml', text: `${more.head ?? ''}<worksheet xmlns="${NS}/spreadsheetml/2006/main"><sheetData>${rows}</sheetData></worksheet>`, ...more },
  ]); // prettier-ignore
const cell = (ref: string): string => `<c r="${ref}"><v>1</v></c>`;
const GOOD = `<row r="1">${cell('A1')}</row>`;
const inside = (name: string, text = '<x/>'): Uint8Array =>
  zip([
    { name: '_rels/.rels', text: related('officeDocument', name) },
    { name, text },
  ]);

const OLE = [0xd0, 0xcf, 0x11, 0xe0];
const WIDE = Array.from({ length: 500 }, (_, r) => `<row r="${r + 1}">${cell(`XFD${r + 1}`)}</row>`).join(''); // prettier-ignore
const NOT_READ: readonly (readonly [string, () => Uint8Array])[] = [
  ['a.csv', () => bytes()],
  ['a.xls', () => bytes(...OLE, 1, 2)],
  ['a.xlsx', () => bytes(...OLE, ...[...'EncryptedPackage'].flatMap((c) => [c.charCodeAt(0), 0]))],
  ['a.pdf', () => utf8('%PDF-1.7')],
  ['a.png', () => bytes(0x89, 0x50, 0x4e, 0x47)],
  ['a.gz', () => bytes(0x1f, 0x8b, 8)],
  ['a.json', () => utf8('{"a": 1}')],
  ['a.html', () => utf8('<html></html>')],
  ['a.csv', () => utf8('   \n  ')],
  ['a.csv', () => utf8('"')],
  ['a.csv', () => bytes(97, 0, 0, 98, 0, 0, 0, 44)],
  ['a.csv', () => new Uint8Array(LARGEST_FILE + 1).fill(44)],
  ['a.csv', () => utf8('1,2\n'.repeat(MOST_ROWS + 5))],
  ['a.csv', () => utf8(`${`${','.repeat(999)}x\n`.repeat(9000)}`)],
  ['a.csv', () => utf8(`${'1,'.repeat(9)}1\n`.repeat(MOST_FILLED / 10 + 1))],
  ['a.xlsx', () => bytes(0x50, 0x4b, 3, 4, 9, 9)],
  ['a.xlsx', () => book(GOOD, { says: { crc: 1 } })],
  ['a.xlsx', () => book(GOOD, { says: { flags: 1 } })],
  ['a.xlsx', () => book(GOOD, { says: { method: 99 } })],
  ['a.xlsx', () => book(GOOD, { says: { size: 4e9 } })],
  ['a.xlsx', () => book(GOOD, { head: '<!DOCTYPE worksheet [<!ENTITY a "b">]>' })],
  ['a.xlsx', () => book('<row r="1"/>')],
  ['a.xlsx', () => book(`<row r="2000000">${cell('A2000000')}</row>`)],
  ['a.xlsx', () => book(`<row r="1">${cell('ZZZZ1')}</row>`)],
  ['a.xlsx', () => book(WIDE)],
  ['a.zip', () => zip([{ name: 'photo.jpg', text: 'x' }])],
  ['a.xlsb', () => inside('xl/workbook.bin')],
  ['a.docx', () => inside('word/document.xml')],
  ['a.pptx', () => inside('ppt/presentation.xml')],
  ['a.numbers', () => zip([{ name: 'Index/Document.iwa', text: 'x' }])],
  ['a.ods', () => zip([{ name: 'mimetype', text: 'application/vnd.oasis.opendocument.spreadsheet' }])],
]; // prettier-ignore
const READ: readonly (readonly [string, Uint8Array])[] = [
  ['a.xlsx', utf8('Tree,DBH\n1,2\n')],
  ['a.csv', book(GOOD)],
  ['a.csv', bytes(...utf8('Tree,Name\n1,'), 0xe9, 10)],
  ['a.csv', Buffer.from('Tree,Name\n1,elm\n2,ash\n', 'utf16le')],
  ['a.csv', utf8('Tree,Name\n1,"elm"x\n2,ash\n')],
];

export async function fileSentences(): Promise<string[]> {
  const room = freshRoom();
  const refused: string[] = [];
  for (const [name, make] of NOT_READ) refused.push(await refusal(() => room.open(name, make())));
  const opened = await Promise.all(READ.map(([name, body]) => room.open(name, body)));
  return [...refused, ...opened.flatMap(({ notes }) => notes)];
}
