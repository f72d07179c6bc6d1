/** Opening a file where a person's own work would be gone: asked once, by name, and only then. */
import type { Server } from 'node:http';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { drop, focused, saveFolder, sheets, told } from './desk-walk.js';
import { openedDesk } from './open-desk.js';
import { violationsIn, withAxe } from './panel-look.js';

const soon = <T>(read: () => T) => expect.poll(read, { timeout: 15_000 });
const { folder, clear } = saveFolder();
let server: Server;
let browser: Browser;
let page: Page;
const complaints: string[] = [];
const list = (tag: string): string => `Tag,Species,Caliper (in)\n${tag}-1,live oak,2\n${tag}-2,redbud,3\n`; // prettier-ignore
const give = (name: string): Promise<void> =>
  page.locator('#open-file').setInputFiles({ name: `${name}.csv`, mimeType: 'text/csv', buffer: Buffer.from(list(name)) }); // prettier-ignore
const question = () => page.getByRole('dialog');
const edit = (sheet: string, value: number) =>
  page.evaluate(([s, v]) => window.soakbook.write(s, 'C2', v), [sheet, value] as const);

beforeAll(async () => {
  ({ server, browser, page } = await openedDesk(complaints));
  await withAxe(page);
}, 120_000);
afterAll(async () => {
  expect(complaints).toEqual([]);
  await browser?.close();
  server?.close();
  clear();
});

describe('opening a file', () => {
  it('asks nothing over the sample, nor over a file nobody has changed', async () => {
    await give('First');
    await soon(() => sheets(page)).toEqual(['First']);
    await give('Second');
    await soon(() => sheets(page)).toEqual(['Second']);
    expect(await question().count()).toBe(0);
  });

  it('asks over changes that are not saved, names them, and stays at Escape with the focus back', async () => {
    await edit('Second', 7);
    await page.locator('#open-file').focus();
    await give('Third');
    await question().waitFor();
    expect(await question().innerText()).toContain('“Second.csv” is open, with changes that are not saved as a file.'); // prettier-ignore
    expect(await question().getAttribute('aria-labelledby')).toBe('title');
    expect(await focused(page)).toBe('button Save first, then open');
    expect(await violationsIn(page, 'sb-replace-question')).toEqual([]);
    await page.screenshot({ path: 'out/replace.png' });
    await page.keyboard.press('Tab');
    expect(await focused(page)).toBe('button Open anyway');
    await page.keyboard.press('Escape');
    await soon(() => question().count()).toBe(0);
    expect(await sheets(page)).toEqual(['Second']);
    expect(await focused(page)).toBe('input Open a file');
    expect(await told(page)).toBe('“Third.csv” was not opened; everything is as it was.');
  });

  it('asks the same of a file that is dropped, in the panel’s language', async () => {
    await page.locator('#language').selectOption('es');
    await drop(page, { name: 'Third.csv', bytes: list('Third') });
    await question().waitFor();
    expect(await question().innerText()).toContain(
      'con cambios que no se han guardado en un archivo',
    );
    await page.getByRole('button', { name: 'Quedarse' }).click();
    await page.locator('#language').selectOption('en');
    expect(await sheets(page)).toEqual(['Second']);
  });

  it('saves first where that is the answer, and then opens', async () => {
    await give('Third');
    await question().waitFor();
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Save first, then open' }).click()]); // prettier-ignore
    await download.saveAs(`${folder}/saved.xlsx`);
    expect(download.suggestedFilename()).toBe('workbook.xlsx');
    await soon(() => sheets(page)).toEqual(['Third']);
  });

  it('opens anyway where that is the answer', async () => {
    await edit('Third', 5);
    await give('Fourth');
    await question().waitFor();
    await page.getByRole('button', { name: 'Open anyway' }).click();
    await soon(() => sheets(page)).toEqual(['Fourth']);
    expect(await question().count()).toBe(0);
  });
});
