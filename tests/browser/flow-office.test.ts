/**
 * The same way inside the spreadsheet program's page, over the strict stand-in for its library: it throws where something
 * is read that was not loaded, and counts every exchange. The invented sample is the open workbook.
 */
import { readFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { draftFromSiteFile, draftText } from '../../src/taskpane/draft.js';
import { readTableFile } from '../../src/workbook/readers/open.js';
import { officeScript, type FakePage } from '../office/page-host.js';
import { buildAndCancel, press, soon, told } from './desk-walk.js';
import { textOf } from './panel-text.js';
import { root, started } from './started.js';

const SAMPLE = join(root, 'sample-workbooks');
/** Most exchanges with the program for each sheet that is written or taken away. */
const SYNCS_A_SHEET = 3;

let server: Server;
let browser: Browser;
let page: Page;
const complaints: string[] = [];
const host = <T>(ask: (fake: FakePage['fakeHost']) => T): Promise<T> =>
  page.evaluate(`(${ask.toString()})(globalThis.fakeHost)`);
const sheets = () => host((fake) => fake.sheets());
const syncs = () => host((fake) => fake.syncs);

beforeAll(async () => {
  let url: string;
  ({ server, browser, url } = await started());
  const name = 'harbour-row-trees.csv';
  const { cells } = await readTableFile(name, readFileSync(join(SAMPLE, name)));
  const site: unknown = JSON.parse(readFileSync(join(SAMPLE, 'site.json'), 'utf8'));
  const { rules = [], stages = [], ...draft } = draftFromSiteFile(site, 'US');
  const body = await officeScript({
    sheets: [
      { name: 'Harbour row', values: cells },
      { name: 'Rules', values: [['Stages'], ...stages, [], ['Rules'], ...rules] },
    ],
    settings: { draft: draftText(draft) },
  });
  const context = await browser.newContext({
    viewport: { width: 400, height: 900 },
    acceptDownloads: true,
  });
  page = await context.newPage();
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.route('https://**/*', (route) =>
    route.request().url().endsWith('/office.js')
      ? route.fulfill({ contentType: 'text/javascript', body })
      : route.abort(),
  );
  await page.goto(`${url}taskpane.html`);
  await page.getByRole('heading', { level: 2, name: 'Trees' }).waitFor();
});
afterAll(async () => {
  await browser?.close();
  server?.close();
});

describe('the sample, open in the spreadsheet program', () => {
  let before: string[];

  it('is read with few exchanges', async () => {
    await soon(() => textOf(page.locator('#place'))).toContain('rows read 60 can be planned 59');
    expect(await syncs()).toBeLessThan(40);
  });

  it('is read in part where cells are selected; one cell, several blocks, another sheet are refused in a sentence', async () => {
    const use = () => press(page, 'Use the selected cells');
    await host((fake) => fake.choose('A1:O11'));
    await use();
    await soon(() => told(page)).toBe('Only A1:O11 is read.');
    expect(await page.getByLabel('Only these cells').inputValue()).toBe('A1:O11');
    await soon(() => textOf(page.locator('#place'))).toContain('rows read 10 ');
    await host((fake) => fake.choose('C4'));
    await use();
    await soon(() => told(page)).toMatch(/^Only the cell C4 is selected\. Select the headers/);
    await host((fake) => fake.choose('A1:C4,E1:F4'));
    await use();
    await soon(() => told(page)).toMatch(/^What is selected is not one block of cells; select one block/);
    await host((fake) => {
      fake.activate('Rules');
      fake.choose('A1:B9');
    });
    await use();
    await soon(() => told(page)).toMatch(/^A1:B9 is selected on “Rules”; the trees are read from “Harbour row”\./);
    await host((fake) => {
      fake.activate('Harbour row');
      fake.choose('A:O');
    });
    await use();
    await soon(() => textOf(page.locator('#place'))).toContain('rows read 60 can be planned 59');
  }); // prettier-ignore

  it('is walked through to its plan', async () => {
    for (const step of ['Site', 'Rules', 'Kit', 'Build']) {
      await press(page, `Next: ${step}`);
      await page.getByRole('heading', { level: 2, name: step }).waitFor();
    }
    await press(page, 'Plan the season');
    await soon(() => told(page)).toMatch(
      /^Season .*(is planned|planned, but \d+ days? do(es)? not fit)\.$/,
    );
    expect(await page.locator('#result').innerText()).toMatch(/trees planned\s+67/);
  });

  it('stays as it was when building is cancelled', async () => {
    before = await sheets();
    await buildAndCancel(page);
    await soon(() => told(page)).toBe('Building was stopped. The sheets are as they were before.');
    expect(await sheets()).toEqual(before);
  });

  it('gets every sheet of the plan, in at most three exchanges each', async () => {
    const started = await syncs();
    await press(page, 'Build the sheets');
    await soon(() => told(page)).toMatch(/^\d+ sheets written, from “/);
    const made = (await sheets()).slice(before.length);
    const used = (await syncs()) - started;
    expect(made).toEqual(expect.arrayContaining(['Trees', 'Plan', 'Calendar', 'Crew', 'Checks']));
    expect(made).toContain('Rules 2');
    expect(used / made.length).toBeLessThanOrEqual(SYNCS_A_SHEET);
    const trees = await host((fake) => fake.values('Trees'));
    const top = trees.findIndex((row) => row.includes('Row'));
    const at = trees[top]!.indexOf('Row');
    const rows = trees.slice(top + 1).filter((row) => typeof row[at] === 'number');
    expect(rows).toHaveLength(60);
  });

  it('loses them again with Undo build, and nothing else', async () => {
    await press(page, /^Undo build/);
    await soon(() => told(page)).toMatch(/^\d+ sheets taken away\.$/);
    expect(await sheets()).toEqual(before);
  });

  it('was never asked for what had not been loaded', async () => {
    expect(complaints).toEqual([]);
  });
});
