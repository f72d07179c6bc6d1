/** The Rules step of the panel beside the desk's grid. Common practice, no source. */
import { mkdirSync, readFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openOver } from './open-desk.js';
import { textOf } from './panel-text.js';
import { root, started } from './started.js';
import { civil, dayOf, weekday } from '../../src/engine/dates.js';
import { STARTER_TABLES } from '../../src/engine/rules/starter-tables.js';
import { readWorkbookSheets } from '../../src/workbook/readers/open.js';
import { SheetDraft } from '../../src/workbook/model.js';
import { setupFromSheets } from '../../src/workbook/setup.js';
import type { PanelShell } from '../../src/taskpane/panel-shell.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';

const out = join(root, 'out');
const PARITY = 'Two days a week by odd and even address';

let server: Server;
let browser: Browser;
let page: Page;
const complaints: string[] = [];
/** Waits for what a busy machine may take long to show. */
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 20_000 });
const rules = () => page.locator('sb-rules');
const select = () => page.getByLabel('Rules to start from');
const told = () => page.locator('#told');
const enter = (place: string) => page.locator(`[data-place=${place}]`).click();
/** Plans the season, and comes back to the rules. */
async function plan(): Promise<void> {
  await enter('build');
  await page.getByRole('button', { name: 'Plan the season' }).click();
}
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
  await enter('rules');
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

/** The hours of a kind as text: header cells, then a list of cells for each day. */
async function hours(kind: number): Promise<string[][]> {
  const rows = page
    .locator('#strip table.hours')
    .nth(kind)
    .locator('tr:not(:has([scope=rowgroup]))');
  return rows.evaluateAll((found) =>
    found.map((row) => [...row.children].map((cell) => (cell.textContent ?? '').trim())),
  );
}

describe('the Rules step of the panel', () => {
  it('reads the sheet Rules of the open workbook and says what it understood', async () => {
    await soon(() => textOf(rules())).toContain('In use: the sheet “Rules”, 5 rows');
    await page.locator('#rules-words summary').click();
    const words = await page.locator('#rules-words').innerText();
    expect(words).toContain(
      'Stage 2: all addresses may water by hand on Monday, Wednesday and Friday, before 09:00 or after 19:00',
    );
    expect(words).toContain('Row 10'); // row of the sheet: Stages stand above
  });

  it('offers the nine tables, each an example', async () => {
    const options = await select().locator('option').allTextContents();
    expect(options.slice(1).map((option) => option.trim())).toEqual(
      STARTER_TABLES.map(({ name }) => name),
    );
  });

  it('a chosen table is in use at once, with a strip for odd and one for even addresses', async () => {
    await select().selectOption(PARITY);
    await soon(() => textOf(rules())).toContain(`the example “${PARITY}”, 3 rows`);
    expect(await textOf(rules())).toContain('An example: replace it by your ordinance.');
    expect(await told().innerText()).toContain('has changed. Plan again'); // made under other rules
    expect(await page.locator('[data-place=build]').innerText()).toContain(
      'changed since: plan again',
    );
    expect(await page.locator('#strip table.hours').count()).toBe(2);
    const captions = await page.locator('#strip table.hours caption').allTextContents();
    for (const [k, caption] of captions.entries()) {
      const odd = Number(/as (\d+)/.exec(caption)![1]) % 2 === 1;
      const [head, ...days] = await hours(k);
      expect(head!.slice(1)).toEqual(['bag', 'pad', 'soaker hose', 'by hand', 'tanker']);
      expect(days).toHaveLength(42);
      days.forEach(([name, , , soaker], i) => {
        const day = dayOf(2027, 6, 14) + i;
        expect(name).toContain(` ${civil(day).date} `);
        const open = (odd ? [3, 6] : [4, 0]).includes(weekday(day));
        expect(soaker, `${caption} ${name}`).toBe(open ? '0–1019–24' : 'closed');
      });
    }
  });

  it('and its squares say the same day by day', async () => {
    for (const k of [0, 1]) {
      const wanted = (await hours(k)).slice(1).map(([, ...cells]) => cells.map((cell) => (/^(closed|banned|all day)$/.test(cell) ? cell : 'open'))); // prettier-ignore
      const weeks = await page.locator('#strip table.weeks').nth(k).locator('tbody').evaluateAll((bodies) =>
        bodies.flatMap((body) => {
          const means = [...body.querySelectorAll('tr')]
            .filter((row) => row.querySelector('th[scope=row]'))
            .map((row) => [...row.querySelectorAll('td .unseen')].map((cell) => cell.textContent ?? ''));
          return Array.from({ length: Number(body.dataset['weeks']) }, () => means);
        }),
      ); // prettier-ignore
      const days = weeks.flatMap((means) => means[0]!.map((_, d) => means.map((row) => row[d])));
      const plain = days.map((cells) =>
        cells.map((cell) => (cell === 'open all day' ? 'all day' : cell)),
      );
      expect(plain).toEqual(wanted);
    }
  });

  it('weeks that are alike are one, with their dates in words for everybody', async () => {
    const table = page.locator('#strip table.weeks').first();
    expect(await table.locator('tbody').count()).toBe(1);
    expect(await table.locator('[scope=rowgroup]').innerText()).toBe('6 weeks alike, Mon 14 Jun to Sun 25 Jul'); // prettier-ignore
    const days = await table.locator('th[scope=col] .unseen').allTextContents();
    expect(days).toHaveLength(7);
    expect(days[0]).toBe('Mon 14 Jun to Mon 19 Jul');
  });

  it('the plan made then follows it, and carries the table and its note', async () => {
    await plan();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.locator('#download').click(),
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

  it('fits 320 and 450 px without scrolling sideways or cutting words', async () => {
    await enter('rules');
    await page
      .locator('#strip details')
      .evaluateAll((all) => all.forEach((d) => d.setAttribute('open', '')));
    for (const width of [320, 450]) {
      await page.evaluate((w) => {
        document.getElementById('panel')!.style.setProperty('width', `${w}px`);
      }, width);
      await rules().screenshot({ path: join(out, `rules-${width}.png`) });
      const over = await page.evaluate(() => {
        const panel = document.getElementById('panel')!;
        const strip = document.querySelector('sb-panel')!.shadowRoot!.querySelector('sb-rules')!.shadowRoot!.querySelector('#strip')!;
        const cells = [...strip.shadowRoot!.querySelectorAll<HTMLElement>('th, td')];
        const cut = cells.filter((c) => c.clientWidth > 0 && c.scrollWidth > c.clientWidth + 1);
        return [panel.scrollWidth - panel.clientWidth, cut.length, panel.clientWidth];
      }); // prettier-ignore
      expect(over).toEqual([0, 0, expect.any(Number)]);
      expect(over[2]).toBeLessThanOrEqual(width);
    }
    await page.evaluate(() => document.getElementById('panel')!.style.removeProperty('width'));
  });

  it('a row of the sheet that cannot be read is named, and stops planning until it may be left out', async () => {
    await select().selectOption('');
    await soon(() => textOf(rules())).toContain('the sheet “Rules”, 5 rows');
    await write('B8', 'bagg');
    await soon(() => textOf(rules())).toContain('4 rows understood');
    const problem = await page.locator('#rules-problems').innerText();
    expect(problem).toMatch(
      /Not used: Rules: sheet "Rules", row 8, Means: .*accepted: any, or of bag/,
    );
    await plan();
    await soon(() => told().innerText()).toContain('1 place that cannot be read');
    expect(await page.locator('#download').count()).toBe(0);
    await enter('rules');
    await rules().screenshot({ path: join(out, 'rules-broken.png') });
    await page.getByLabel('Plan without what cannot be read').check();
    await plan();
    await page.locator('#download').waitFor();
  });

  it('a mended row withdraws that plan', async () => {
    await write('B8', 'any');
    await soon(() => page.locator('#download').count()).toBe(0);
    expect(await told().innerText()).toContain('has changed. Plan again');
    await enter('rules');
    await soon(() => textOf(rules())).toContain('5 rows understood');
    expect(await page.locator('#rules-problems').count()).toBe(0);
  });

  it('the trees stay in view, and the plan stays, while the sheet Rules is in front', async () => {
    await plan();
    await page.locator('#download').waitFor();
    await page.locator('[data-u-comp="slide-tab-item"]', { hasText: 'Rules' }).click();
    await page.waitForTimeout(1500); // longer than the grid takes to settle and announce a change
    expect(await page.locator('#sheet-line').innerText()).toContain('harbour-row-trees');
    expect(await page.locator('#download').count()).toBe(1);
    await page.screenshot({ path: join(out, 'rules-in-front.png') });
    await enter('trees');
    await page.getByRole('button', { name: 'Go to row 61' }).click();
    const seen = () =>
      page.evaluate(() => {
        const { chosen, front } = (document.querySelector('sb-panel') as PanelShell).session;
        return `${front} ${chosen?.address}`;
      });
    await soon(seen).toMatch(/^harbour-row-trees [A-Z]61$/);
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
    // rows of the sample's rules were changed above
    await openOver(page, 'mine.xlsx', () => open('mine.xlsx', 'application/octet-stream', Buffer.from(bytes))); // prettier-ignore
    await enter('rules');
    await soon(() => textOf(rules())).toContain('the sheet “Rules”, 1 row understood');
    await open('mine.csv', 'text/csv', Buffer.from('Id,Caliper (in)\nA-1,2\n'));
    await soon(() => textOf(rules())).toContain('In use: the built-in example');
    await plan();
    await page.locator('#download').waitFor();
    const problems = await page.evaluate(() =>
      (document.querySelector('sb-panel') as PanelShell).session.plan?.problems.join(' '),
    );
    expect(problems).toMatch(/built-in example for: .*rules/);
    expect(complaints).toEqual([]);
  });
});
