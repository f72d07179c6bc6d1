/** The panel in the spreadsheet program's page, over a strict stand-in for its library. */
import { mkdirSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import described from '../../src/generated/functions.json' with { type: 'json' };
import { officeScript, type FakePage, type Start } from '../office/page-host.js';
import { textOf } from './panel-text.js';
import { noteComplaints } from './open-desk.js';
import { root, started } from './started.js';

const TREES = [
  ['Tag', 'Species', 'Caliper (in)', 'Demand'],
  ['A-1', 'live oak', 2, 1.5],
  ['A-2', 'live oak', 'none', ''],
];
const START: Start = {
  sheets: [
    {
      name: 'Street trees',
      values: TREES,
      formulas: TREES.map((row, r) => row.map((_, c) => (r === 1 && c === 3 ? '=SOAK.TREE_DEMAND(0.25,5)' : ''))),
    },
    { name: 'Rules', values: [['Means', 'Days', 'Verdict'], ['any', 'not Sun', 'allow']] },
  ],
}; // prettier-ignore

let server: Server;
let browser: Browser;
let page: Page;
const complaints: string[] = [];
/** Waits for what a busy machine may take long to show. */
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 20_000 });
const enter = (place: string) => page.locator(`[data-place=${place}]`).click();
const host = <T>(ask: (fake: FakePage['fakeHost']) => T): Promise<T> =>
  page.evaluate(`(${ask.toString()})(globalThis.fakeHost)`);

beforeAll(async () => {
  let url: string;
  ({ server, browser, url } = await started());
  page = await browser.newPage({ viewport: { width: 350, height: 800 } });
  noteComplaints(page, complaints);
  const body = await officeScript(START);
  await page.route('https://**/*', (route) =>
    route.request().url().endsWith('/office.js')
      ? route.fulfill({ contentType: 'text/javascript', body })
      : route.abort(),
  );
  await page.goto(`${url}taskpane.html`);
  await page
    .locator('#place .numbers')
    .waitFor({ timeout: 30_000 })
    .catch(async () => {
      const text = await page.locator('body').innerText();
      throw new Error(`The panel did not come up: ${text} ${complaints.join(' ')}`);
    });
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

describe('the panel in the spreadsheet program’s page', () => {
  it('ties every function of functions.json to the host once', async () => {
    const associated = await host((fake) => fake.associated);
    expect([...associated].sort()).toEqual(described.functions.map(({ id }) => id).sort());
  });

  it('reads the sheet without the columns our functions fill', async () => {
    expect(await page.locator('#sheet-line').innerText()).toContain('Street trees');
    expect(await textOf(page.locator('#place'))).toMatch(/rows read\s+2\s+can be planned\s+1/);
    const headers = await page.locator('#columns .header').allInnerTexts();
    expect(headers).toEqual(['Tag', 'Species', 'Caliper (in)']);
  });

  it('offers no file to open: the program has its own way', async () => {
    expect(await page.locator('#open-file').count()).toBe(0);
  });

  it('reads the sheet Rules of the workbook by its name', async () => {
    await enter('rules');
    expect(await page.locator('#in-use').innerText()).toBe(
      'In use: the sheet “Rules”, 1 row understood.',
    );
    await page.locator('#rules-words summary').click();
    const words = await page.locator('#rules-words li').allInnerTexts();
    expect(words.map((line) => line.replace(/\s+/g, ' '))).toEqual([
      'Row 2 All addresses may water by any means on any day but Sunday.',
    ]);
  });

  it('a row to look at leads to its cell, and the sheet can be planned', async () => {
    await enter('trees');
    await page.getByRole('button', { name: 'Go to row 3, A-2' }).click();
    await soon(() => host((fake) => fake.chosen())).toMatch(/^Street trees!C?A?3$/);
    await enter('build');
    await page.getByRole('button', { name: 'Plan the season' }).click();
    await page.locator('#download').waitFor();
    expect(await page.locator('#result').innerText()).toMatch(/trees planned\s+1/);
  });

  it('keeps what is corrected in the workbook’s own settings, and reads it under that', async () => {
    await enter('trees');
    await page.getByLabel('Unit of “Caliper (in)”').selectOption('cm');
    await soon(() => textOf(page.locator('#place'))).toContain('1 correction of yours');
    const kept = await host((fake) => JSON.stringify([...fake.book.settings]));
    expect(kept).toContain('caliper cm');
    expect(await page.locator('#told').innerText()).toContain('has changed. Plan again');
  });

  it('reads the sheet again when a person types into it', async () => {
    await host((fake) => fake.type('Street trees', 'C3', 5));
    await soon(() => textOf(page.locator('#place'))).toMatch(/can be planned\s+2/);
  });

  it('fits a narrow pane without scrolling sideways, and complains about nothing', async () => {
    mkdirSync(join(root, 'out'), { recursive: true });
    await page.screenshot({ path: join(root, 'out', 'taskpane.png'), fullPage: true });
    const wide = await page.evaluate(
      () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
    );
    expect(wide).toBe(0);
    expect(complaints).toEqual([]);
  });

  it('a corner whose file does not come says so, and comes when it is chosen again', async () => {
    await page.route('**/chunks/*', (route) => route.abort());
    await enter('contract');
    await soon(() => page.locator('#told').innerText()).toBe(
      'A part of the panel could not be fetched. See that its server answers, then choose it again.',
    );
    expect(await page.locator('#place').innerText()).toBe('Contract');
    await page.unroute('**/chunks/*');
    await enter('trees');
    await enter('contract');
    await page.locator('#part-shortage').waitFor();
    await soon(() =>
      page.evaluate(() => {
        let at: Element | null = document.activeElement;
        while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
        return at?.textContent;
      }),
    ).toBe('Contract');
  });
});
