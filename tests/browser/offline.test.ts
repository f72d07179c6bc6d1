/** The desk without its server: opened again, planned, saved; and what happens when the server has another version. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writeOfflineList } from '../../scripts/offline-list.mjs';
import { serve } from '../../scripts/serve.mjs';
import { outdated } from '../../src/desk/offline-list.js';
import { readWorkbookSheets } from '../../src/workbook/readers/open.js';
import { textOf } from './panel-text.js';
import { root, started } from './started.js';

let browser: Browser;
let folder: string;
let server: Server | undefined;
let url: string;
let context: BrowserContext | undefined;
let page: Page;
/** Waits for what a busy machine may take long to show. */
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 30_000 });

const stop = (which = server): Promise<void> =>
  new Promise((resolve) => {
    if (!which?.listening) return resolve();
    which.close(() => resolve());
    which.closeAllConnections();
  });
const up = async (): Promise<void> => {
  await page.waitForFunction(() => window.soakbook !== undefined);
  await page.evaluate(() => window.soakbook.ready);
};
/** Opens the desk, and waits for the word whether its files are kept. */
async function visit(): Promise<boolean> {
  await page.goto(`${url}desk.html`);
  await up();
  return page.evaluate(() => window.soakbook.offline);
}
/** Everything the browser keeps of the desk. */
const caches = (): Promise<string[]> => page.evaluate(() => globalThis.caches.keys());
const background = (): Promise<string> =>
  page.evaluate(() => getComputedStyle(document.body).getPropertyValue('--of-version').trim());
/** Changes a file that is served, and the list of files with it or not. */
function change(version: string, listToo: boolean): void {
  const css = join(folder, 'desk.css');
  const before = readFileSync(css, 'utf8').replace(/\nbody \{ --of-version.*/, '');
  writeFileSync(css, `${before}\nbody { --of-version: ${version}; }\n`);
  if (listToo) writeOfflineList(folder);
}

/** A browser that has never seen the desk, and the desk served as version one. */
async function fresh(): Promise<void> {
  await context?.close();
  await stop();
  change('one', true);
  ({ server, url } = await serve(folder, 0));
  context = await browser.newContext({ acceptDownloads: true });
  page = await context.newPage();
}

beforeAll(async () => {
  const first = await started();
  browser = first.browser;
  await stop(first.server);
  folder = mkdtempSync(join(tmpdir(), 'soakbook-desk-'));
  cpSync(join(root, 'dist'), folder, { recursive: true });
  await fresh();
});

afterAll(async () => {
  await browser?.close();
  await stop();
  if (folder !== undefined) rmSync(folder, { recursive: true, force: true });
});

describe('the desk, once served', () => {
  it('keeps its own files and none of the spreadsheet program’s panel', async () => {
    expect(await visit()).toBe(true);
    const kept = await page.evaluate(async () => {
      const [name = ''] = await globalThis.caches.keys();
      const requests = await (await globalThis.caches.open(name)).keys();
      return requests.map((request) => new URL(request.url).pathname);
    });
    expect(kept).toEqual(expect.arrayContaining(['/desk.html', '/vendor/fonts/DejaVuSansCondensed.ttf']));
    expect(kept.filter((path) => /taskpane|functions|manifest/.test(path))).toEqual([]);
    await stop();
    const other = await context!.newPage();
    await expect(other.goto(`${url}taskpane.html`)).rejects.toThrow('ERR_CONNECTION_REFUSED');
    await other.close();
  }); // prettier-ignore

  it('opens again without its server, plans, saves a workbook and crew sheets on paper', async () => {
    await page.goto(`${url}desk.html`);
    await up();
    await page.locator('[data-place=build]').click();
    await page.getByRole('button', { name: 'Plan the season' }).click();
    await soon(() => page.locator('#told').innerText()).toContain('is planned');
    const save = async (label: string) => {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: label }).click(),
      ]);
      return readFileSync(await download.path());
    };
    const sheets = await readWorkbookSheets(new Uint8Array(await save('Save: Workbook (.xlsx)')));
    expect(sheets.map(({ name }) => name)).toEqual(expect.arrayContaining(['Plan', 'Checks']));
    const paper = await save('Save: Crew sheets on paper (.pdf)');
    expect(paper.subarray(0, 5).toString()).toBe('%PDF-');
    expect(await textOf(page.locator('#season'))).not.toContain('went wrong');
  });

  it('keeps nothing of a version whose files do not belong together', async () => {
    await fresh();
    change('half of two', false);
    expect(await visit()).toBe(false);
    expect(await caches()).toEqual([]);
    await stop();
    await expect(page.reload()).rejects.toThrow('ERR_CONNECTION_REFUSED');
  });

  it('stays with its version while the server’s next is half there, then shows and keeps that', async () => {
    await fresh();
    expect(await visit()).toBe(true);
    const [older] = await caches();
    change('half of two', false);
    await page.reload();
    await up();
    expect(await background()).toBe('one');
    change('two', true);
    await page.reload();
    await soon(() => background().catch(() => '')).toBe('two');
    await up();
    expect(await page.evaluate(() => window.soakbook.offline)).toBe(true);
    expect(await caches()).toHaveLength(2);
    await stop();
    await page.reload();
    await up();
    expect(await background()).toBe('two');
    expect(await caches()).toContain(older);
  });
});

describe('what is kept of earlier versions', () => {
  it('is the one before, which an open page may still use', () => {
    const names = ['other', 'soakbook-desk-a', 'soakbook-desk-b', 'soakbook-desk-c'];
    expect(outdated(names, 'c')).toEqual(['soakbook-desk-a']);
    expect(outdated(names.slice(0, 2), 'a')).toEqual([]);
  });
});
