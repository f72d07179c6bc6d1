/** The panel's Rules section beside the desk's grid. Common practice, no source. */
import { mkdirSync, readFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { root, started } from './started.js';
import { civil, dayOf, weekday } from '../../src/engine/dates.js';
import { STARTER_TABLES } from '../../src/engine/rules/starter-tables.js';
import { readWorkbookSheets } from '../../src/workbook/readers/open.js';
import { SheetDraft } from '../../src/workbook/model.js';
import { setupFromSheets } from '../../src/workbook/setup.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';

const out = join(root, 'out');
const PARITY = 'Two days a week by odd and even address';

let server: Server;
let browser: Browser;
let page: Page;
const complaints: string[] = [];
const rules = () => page.locator('#rules');
const select = () => page.getByLabel('Rules: start from an example');
const write = (address: string, value: string): Promise<void> =>
  page.evaluate(([a, v]) => window.soakbook.write('Rules', a, v), [address, value] as const);

beforeAll(async () => {
  mkdirSync(out, { recursive: true });
  let url: string;
  ({ server, browser, url } = await started());
  page = await browser.newPage({ viewport: { width: 1280, height: 900 }, acceptDownloads: true });
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  // A day in the season of the sample, from where the clock runs on: six weeks begin on it.
  await page.clock.install({ time: new Date(2027, 5, 14, 9) });
  await page.goto(`${url}desk.html`);
  await page.waitForFunction(() => window.soakbook !== undefined);
  await page.evaluate(() => window.soakbook.ready);
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

/** The strip of a kind as text: header cells, then a list of cells for each day. */
async function strip(kind: number): Promise<string[][]> {
  const rows = page.locator('#strip table.strip').nth(kind).locator('tr:not(.stage)');
  return rows.evaluateAll((found) =>
    found.map((row) => [...row.children].map((cell) => (cell.textContent ?? '').trim())),
  );
}

describe('the Rules section of the panel', () => {
  it('reads the sheet Rules of the open workbook and says what it understood', async () => {
    await expect.poll(() => rules().innerText()).toContain('In use: the sheet “Rules”, 5 rows');
    await page.locator('#rules-words summary').click();
    const words = await page.locator('#rules-words').innerText();
    expect(words).toContain(
      'Stage 2: all addresses may water by hand on Monday, Wednesday and Friday, before 09:00 or after 19:00',
    );
    expect(words).toContain('Row 10'); // row of the sheet: Stages stand above
  });

  it('offers the nine tables, each an example', async () => {
    const options = await select().locator('option').allInnerTexts();
    expect(options.slice(1)).toEqual(STARTER_TABLES.map(({ name }) => name));
  });

  it('a chosen table is in use at once, with a strip for odd and one for even addresses', async () => {
    await select().selectOption(PARITY);
    await expect.poll(() => rules().innerText()).toContain(`the example “${PARITY}”, 3 rows`);
    expect(await rules().innerText()).toContain('Example: replace by your ordinance.');
    expect(await page.locator('#download').count()).toBe(0); // the plan under other rules is withdrawn
    expect(await page.locator('#plan').innerText()).toContain('Other rules are chosen.');
    await page.locator('#strip > summary').click();
    expect(await page.locator('#strip table.strip').count()).toBe(2);
    const captions = await page.locator('#strip caption').allTextContents();
    for (const [k, caption] of captions.entries()) {
      const odd = Number(/as (\d+)/.exec(caption)![1]) % 2 === 1;
      const [head, ...days] = await strip(k);
      expect(head!.slice(1)).toEqual(['bag', 'pad', 'soaker', 'hand', 'tanker']);
      expect(days).toHaveLength(42);
      days.forEach(([name, , , soaker], i) => {
        const day = dayOf(2027, 6, 14) + i;
        expect(name).toContain(` ${civil(day).date} `);
        const open = (odd ? [3, 6] : [4, 0]).includes(weekday(day));
        expect(soaker, `${caption} ${name}`).toBe(open ? '0–1019–24' : 'closed');
      });
    }
  });

  it('the plan made then follows it, and carries the table and its note', async () => {
    await page.getByRole('button', { name: 'Plan this sheet' }).click();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Download the plan (.xlsx)' }).click(),
    ]);
    const sheets = await readWorkbookSheets(new Uint8Array(readFileSync(await download.path())));
    const given = setupFromSheets(sheets).setup.rules!;
    const plain = (rows: unknown[][]) => rows.map((r) => r.map((c) => (c === '' ? null : c)));
    const starter = STARTER_TABLES.find(({ name }) => name === PARITY)!;
    expect(plain(given)).toEqual(plain(starter.rows));
    const text = JSON.stringify(sheets.find(({ name }) => name === 'Rules')!.cells);
    expect(text).toContain('These rules are an example: replace by your ordinance.');
    const about = JSON.stringify(sheets.find(({ name }) => name === 'About')!.cells);
    expect(about).toContain(`The rules are the example “${PARITY}”`);
  });

  it('fits 320 and 450 px without scrolling sideways', async () => {
    for (const width of [320, 450]) {
      await page.setViewportSize({ width: 1280, height: 900 });
      await page.addStyleTag({ content: `#panel { width: ${width}px !important; min-width: 0 !important; max-width: none !important; flex: none !important; }` }); // prettier-ignore
      await page.setViewportSize({ width: 1280, height: 2400 });
      await rules().screenshot({ path: join(out, `rules-${width}.png`) });
      const over = await page.evaluate(() => {
        const panel = document.getElementById('panel')!;
        const cells = [...document.querySelectorAll<HTMLElement>('.strip th, .strip td')];
        const cut = cells.filter((c) => c.clientWidth > 0 && c.scrollWidth > c.clientWidth + 1);
        return [panel.scrollWidth - panel.clientWidth, cut.length, panel.clientWidth];
      });
      expect(over).toEqual([0, 0, expect.any(Number)]);
      expect(over[2]).toBeLessThanOrEqual(width);
    }
    await page.setViewportSize({ width: 1280, height: 900 });
  });

  it('a row of the sheet that cannot be read is named, and stops planning until it may be left out', async () => {
    await select().selectOption('');
    await expect.poll(() => rules().innerText()).toContain('the sheet “Rules”, 5 rows');
    await write('B8', 'bagg');
    await expect.poll(() => rules().innerText()).toContain('4 rows understood');
    const problem = await page.locator('#rules-problems').innerText();
    expect(problem).toMatch(
      /Not used\s+Rules: sheet "Rules", row 8, Means: .*accepted: any, or of bag/,
    );
    await page.getByRole('button', { name: 'Plan this sheet' }).click();
    await expect.poll(() => page.locator('#plan').innerText()).toContain('1 place that cannot be read'); // prettier-ignore
    expect(await page.locator('#download').count()).toBe(0);
    await rules().screenshot({ path: join(out, 'rules-broken.png') });
    await page.getByLabel('Plan without what cannot be read').check();
    await page.getByRole('button', { name: 'Plan this sheet' }).click();
    await page.locator('#download').waitFor();
  });

  it('a mended row withdraws that plan', async () => {
    await write('B8', 'any');
    await expect.poll(() => rules().innerText()).toContain('5 rows understood');
    expect(await page.locator('#rules-problems').count()).toBe(0);
    expect(await page.locator('#download').count()).toBe(0);
    expect(await page.locator('#plan').innerText()).toContain('The rules have changed.');
  });

  it('the trees stay in view, and the plan stays, while the sheet Rules is in front', async () => {
    await page.getByRole('button', { name: 'Plan this sheet' }).click();
    await page.locator('#download').waitFor();
    const trees = await page.locator('#trees').innerText();
    await page.locator('[data-u-comp="slide-tab-item"]', { hasText: 'Rules' }).click();
    await page.waitForTimeout(1500); // longer than the grid takes to settle and announce a change
    expect(await page.locator('.panel-head').innerText()).toContain('harbour-row-trees');
    expect(await page.locator('#trees').innerText()).toBe(trees);
    expect(await page.locator('#download').count()).toBe(1);
    await page.screenshot({ path: join(out, 'rules-in-front.png') });
    await page.getByRole('button', { name: 'Row 61' }).click();
    await expect.poll(() => page.locator('#cell').innerText()).toContain('HR-060');
  });

  it('a workbook that is opened brings its own Rules sheet; a table without one has the example', async () => {
    const draft = (name: string, rows: (string | number)[][]) => {
      const made = new SheetDraft(name, name);
      made.text(rows.map((row) => row.map((value) => ({ value }))));
      return made.done();
    };
    const trees = [['Id', 'Caliper (in)', 'Address'], ...[1, 2, 3, 4].map((n) => [`A-${n}`, 2, `${n} Hawser Lane`])]; // prettier-ignore
    const bytes = await writeXlsx({
      title: 't', description: 't', madeOn: 46000, paper: 'a4', names: {},
      sheets: [draft('Trees', trees), draft('Rules', [['Means', 'Days', 'Verdict'], ['any', 'Mon', 'allow']])],
    }); // prettier-ignore
    const open = (name: string, mimeType: string, buffer: Buffer) =>
      page.setInputFiles('#open-file', { name, mimeType, buffer });
    await open('mine.xlsx', 'application/octet-stream', Buffer.from(bytes));
    await expect.poll(() => rules().innerText()).toContain('the sheet “Rules”, 1 row understood');
    await open('mine.csv', 'text/csv', Buffer.from('Id,Caliper (in)\nA-1,2\n'));
    await expect.poll(() => rules().innerText()).toContain('In use: the built-in example');
    await page.getByRole('button', { name: 'Plan this sheet' }).click();
    await page.locator('#download').waitFor();
    expect(await page.locator('#result').innerText()).toMatch(/built-in example for: .*rules/);
    expect(complaints).toEqual([]);
  });
});
