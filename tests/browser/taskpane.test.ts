import { mkdirSync } from 'node:fs';
import type { Server } from 'node:http';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findBrowser } from '../../scripts/find-browser.mjs';
import { serve } from '../../scripts/serve.mjs';
import described from '../../src/generated/functions.json' with { type: 'json' };

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

/**
 * A small stand-in for the host's library: one sheet, cells as below. Reading a property that was not
 * loaded and synced throws, as in the host. It cannot show that the real program agrees.
 */
const HOST = `
const values = [['Tag', 'Species', 'Caliper (in)', 'Demand'], ['A-1', 'live oak', 2, 1.5], ['A-2', 'live oak', 'none', '']];
const formulas = values.map((row) => [...row]);
formulas[1][3] = '=SOAK.TREE_DEMAND(0.25,5)';
const numberFormat = values.map((row) => row.map(() => 'General'));
const RULE_ROWS = [['Means', 'Days', 'Verdict'], ['any', 'not Sun', 'allow']];
const RULE_SHEET = { name: 'Rules', values: RULE_ROWS, formulas: RULE_ROWS, numberFormat: RULE_ROWS.map((row) => row.map(() => 'General')), rowIndex: 0, columnIndex: 0, isNullObject: false };
const FULL = { name: 'Street trees', values, formulas, numberFormat, rowIndex: 0, columnIndex: 0, isNullObject: false };
globalThis.associated = [];
globalThis.selected = [];
globalThis.CustomFunctions = { associate: (id) => associated.push(id) };
globalThis.Office = { onReady: () => Promise.resolve({}) };
function proxy(extra = {}) {
  const wanted = new Set(), ready = new Set();
  const target = { load: (names) => names.split(/,\\s*/).forEach((name) => wanted.add(name)), synced: () => [...wanted, 'isNullObject'].forEach((n) => ready.add(n)), ...extra };
  return new Proxy(target, { get(t, key) {
    if (key in t) return t[key];
    if (typeof key === 'symbol' || key === 'then') return undefined;
    if (!ready.has(key)) throw new Error('The property ' + key + ' is not available: load it and sync first.');
    return (extra.of ?? FULL)[key];
  } });
}
const event = { add: () => {} };
globalThis.Excel = { run: async (work) => {
  const made = [];
  const make = (extra) => { const p = proxy(extra); made.push(p); return p; };
  const sheet = make({ getUsedRangeOrNullObject: () => make(), getCell: (r, c) => ({ select: () => selected.push([r, c]) }), activate: () => {} });
  const worksheets = make({ getActiveWorksheet: () => sheet, getItem: () => sheet, items: [{ name: 'Street trees' }, { name: 'Rules' }], getItemOrNullObject: (name) => make({ getUsedRangeOrNullObject: () => make({ of: name === 'Rules' ? RULE_SHEET : { isNullObject: true } }) }), onChanged: event, onActivated: event, onSelectionChanged: event });
  return work({ workbook: { worksheets }, sync: async () => made.forEach((p) => p.synced()) });
} };
`;

let server: Server;
let browser: Browser;
let page: Page;
const complaints: string[] = [];

beforeAll(async () => {
  const started = await serve(join(root, 'dist'), 0);
  server = started.server;
  const executablePath = findBrowser();
  if (executablePath === undefined) throw new Error('No browser: run npm test, it looks for one.');
  browser = await chromium.launch({
    executablePath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });
  page = await browser.newPage({ viewport: { width: 350, height: 800 } });
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.route('https://**/*', (route) =>
    route.request().url().endsWith('/office.js')
      ? route.fulfill({ contentType: 'text/javascript', body: HOST })
      : route.abort(),
  );
  await page.goto(`${started.url}taskpane.html`);
  await page
    .locator('#trees .numbers')
    .waitFor({ timeout: 15_000 })
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
    const associated = await page.evaluate(
      () => (globalThis as unknown as { associated: string[] }).associated,
    );
    expect(associated.sort()).toEqual(described.functions.map(({ id }) => id).sort());
  });

  it('reads the sheet without the columns our functions fill', async () => {
    expect(await page.locator('.panel-head').innerText()).toContain('Street trees');
    expect(await page.locator('#trees').innerText()).toMatch(/rows read\s+2\s+can be planned\s+1/);
    const headers = await page.locator('#columns tbody tr td:first-child').allInnerTexts();
    expect(headers).toEqual(['Tag', 'Species', 'Caliper (in)']);
  });

  it('reads the sheet Rules of the workbook by its name', async () => {
    const text = await page.locator('#rules').innerText();
    expect(text).toContain('In use: the sheet “Rules”, 1 row understood.');
    expect(await page.locator('#rules-words li').allTextContents()).toEqual([
      'Row 2All addresses may water by any means on any day but Sunday.',
    ]);
  });

  it('a row to look at leads to its cell, and the sheet can be planned', async () => {
    await page.getByRole('button', { name: 'Row 3' }).first().click();
    const selected = await page.evaluate(
      () => (globalThis as unknown as { selected: number[][] }).selected,
    );
    expect(selected).toEqual([[2, 0]]);
    await page.getByRole('button', { name: 'Plan this sheet' }).click();
    await page.locator('#download').waitFor();
    expect(await page.locator('#result').innerText()).toMatch(/trees planned\s+1/);
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
});
