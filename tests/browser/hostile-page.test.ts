/** Files made to mislead or overwhelm, dropped on the desk: each gives a sentence, and the page goes on as before. */
import type { Server } from 'node:http';
import { zipSync, strToU8 } from 'fflate';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { LARGEST_FILE } from '../../src/workbook/readers/limits.js';
import { asXlsx, drop, openDesk, pick, sheets, soon, told, type Desk } from './desk-walk.js';
import { textOf } from './panel-text.js';
import { started } from './started.js';

let server: Server;
let browser: Browser;
let desk: Desk;
let page: Page;
let book: Uint8Array;
let before: string[];

const NS = 'http://schemas.openxmlformats.org';
const RELATIONS = `${NS}/officeDocument/2006/relationships`;
const related = (type: string, target: string): string =>
  `<Relationships xmlns="${NS}/package/2006/relationships"><Relationship Id="rId1" Type="${RELATIONS}/${type}" Target="${target}"/></Relationships>`;
/** A workbook of one sheet whose part is given as it stands. */
const workbook = (sheet: string): Uint8Array =>
  zipSync({
    '_rels/.rels': strToU8(related('officeDocument', 'xl/workbook.xml')),
    'xl/workbook.xml': strToU8(
      `<workbook xmlns="${NS}/spreadsheetml/2006/main" xmlns:r="${RELATIONS}"><sheets><sheet name="Trees" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    ),
    'xl/_rels/workbook.xml.rels': strToU8(related('worksheet', 'worksheets/sheet1.xml')),
    'xl/worksheets/sheet1.xml': strToU8(sheet),
  });
const sheetOf = (rows: string, head = ''): string =>
  `${head}<worksheet xmlns="${NS}/spreadsheetml/2006/main"><sheetData>${rows}</sheetData></worksheet>`;
const encrypted = (): Uint8Array =>
  Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, ...[...'EncryptedPackage'].flatMap((c) => [c.charCodeAt(0), 0])]); // prettier-ignore

beforeAll(async () => {
  let url: string;
  ({ server, browser, url } = await started());
  desk = await openDesk(browser, url);
  ({ page } = desk);
  before = await sheets(page);
  book = await asXlsx('Trees', [['Tag', 'Species', 'Caliper (in)'], ['A-1', 'live oak', 2]]); // prettier-ignore
});
afterAll(async () => {
  await browser?.close();
  server?.close();
});

describe('a file that cannot be used is refused in a sentence, and what was open stays', () => {
  const CASES: [what: string, name: string, make: () => Uint8Array | string, says: RegExp][] = [
    ['a sheet of 40 MB packed into a few kB', 'bomb.xlsx', () => workbook(sheetOf('<row r="1"><c r="A1"><v>1</v></c></row>'.padEnd(40e6, ' '))), /"bomb\.xlsx".* unpacks to far more than a table holds/i],
    ['external entities', 'entities.xlsx', () => workbook(sheetOf('<row r="1"><c r="A1" t="inlineStr"><is><t>&secret;</t></is></c></row>', '<!DOCTYPE x [<!ENTITY secret SYSTEM "file:///etc/hostname">]>')), /"entities\.xlsx".* holds a document type/i],
    ['a picture named .xlsx', 'trees.xlsx', () => Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0, 0]), /"trees\.xlsx" is a picture; export the table as \.csv or \.xlsx/i],
    ['a web page named .csv', 'trees.csv', () => '<html><script>alert(1)</script></html>', /"trees\.csv" looks like a web page/i],
    ['half a workbook', 'half.xlsx', () => book.subarray(0, book.length / 2), /"half\.xlsx".* cut short or damaged/i],
    ['an encrypted workbook', 'secret.xlsx', encrypted, /"secret\.xlsx".* protected by a password/i],
    ['no bytes', 'empty.csv', () => '', /"empty\.csv".* no bytes at all/i],
    ['zero bytes inside', 'zeros.csv', () => Uint8Array.from([97, 44, 98, 10, 0, 44, 49]), /"zeros\.csv".* zero bytes/i],
    ['more rows than a sheet has', 'rows.csv', () => 'a\n'.repeat(1_048_600), /"rows\.csv".* has 1,048,\d+ rows; up to 1,048,576 are read/i],
  ]; // prettier-ignore

  it.each(CASES)('%s', async (_, name, make, says) => {
    await drop(page, { name, bytes: make() });
    await soon(() => told(page)).toMatch(says);
    expect(await sheets(page)).toEqual(before);
  });

  it('one beyond the size that is read is refused before it is read', async () => {
    await page.evaluate((bytes) => {
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File([new Uint8Array(bytes)], 'huge.csv'));
      document.dispatchEvent(new DragEvent('drop', { dataTransfer, cancelable: true }));
    }, LARGEST_FILE + 1);
    await soon(() => told(page)).toMatch(/^"huge\.csv" has 51 MB; up to 50 MB are read/);
  });
});

describe('a file that looks worse than it is', () => {
  it('with a million empty rows is read as its two rows', async () => {
    const empty = Array.from({ length: 1_000_000 }, (_, r) => `<row r="${r + 4}"/>`).join('');
    const text = (ref: string, said: string) => `<c r="${ref}" t="inlineStr"><is><t>${said}</t></is></c>`; // prettier-ignore
    const row = (r: number, id: string, size: string) => `<row r="${r}">${text(`A${r}`, id)}${text(`B${r}`, size)}</row>`; // prettier-ignore
    const bytes = workbook(
      sheetOf(row(1, 'Tag', 'Caliper (in)') + row(2, 'A-1', '2') + row(3, 'A-2', '3') + empty),
    );
    await drop(page, { name: 'long.xlsx', bytes });
    await soon(() => textOf(page.locator('#place'))).toContain('rows read 2 can be planned 2');
  });

  it('after all of them, an honest workbook opens with the button, and can be planned', async () => {
    await pick(page, { name: 'honest.xlsx', bytes: book }, () =>
      page.getByLabel('Open a file', { exact: true }).click(),
    );
    await soon(() => textOf(page.locator('#place'))).toContain('rows read 1 can be planned 1');
    expect(await page.getByRole('button', { name: '5 Build' }).innerText()).toContain(
      'not planned',
    );
    expect(desk.complaints).toEqual([]);
    expect(desk.foreign).toEqual([]);
  });
});
