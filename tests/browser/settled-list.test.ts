/**
 * From somebody's list to one that is settled: rows without a size filled in one go and taken back, live figures only where
 * they are asked for, and what is said when the list changes after it was planned.
 */
import { mkdirSync, readFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readFile } from '../../src/workbook/readers/open.js';
import type { PanelShell } from '../../src/taskpane/panel-shell.js';
import type { Cell } from '../../src/tables/cells.js';
import { press, save, saveFolder, sheets, told } from './desk-walk.js';
import { openedDesk } from './open-desk.js';
import { overhang, setWidth, violations, withAxe } from './panel-look.js';
import { root } from './started.js';

const ROWS = 110;
/** Rows of the list that have no size. */
const SIZELESS = 38;
const NAMES = ['live oak', 'desert willow', 'cedar elm', 'redbud'];
const HEADERS = ['Tag', 'Species', 'DBH (in)', 'Address', 'Remarks'];

/** An invented list of 110 rows below a title. */
function listCsv(): string {
  const lines = Array.from({ length: ROWS }, (_, i) => {
    // three of four sizes of a name are its own: the median is that
    const size = i < ROWS - SIZELESS ? String(2 + (i % NAMES.length) / 2) : '';
    return `P-${i + 1},${NAMES[i % NAMES.length]},${size},${i + 1} Hawser Lane,as found`;
  });
  return ['Street list spring,,,,', HEADERS.join(','), ...lines].join('\n');
}

const out = join(root, 'out');
const { folder, clear } = saveFolder();
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 20_000 });
let server: Server;
let browser: Browser;
let page: Page;
const complaints: string[] = [];

const cells = (sheet: string): Promise<Cell[][]> =>
  page.evaluate(async (name) => {
    const { session } = document.querySelector('sb-panel') as PanelShell;
    return (await session.host.readTable(name)).cells;
  }, sheet);
const reading = () =>
  page.evaluate(() => {
    const { session } = document.querySelector('sb-panel') as PanelShell;
    const { rows = 0, usable = 0, assumed = [] } = session.reading ?? {};
    return { sheet: session.sheet, rows, usable, assumed };
  });
const fill = () => page.locator('#look sb-fill-blanks').first();

async function openList(name: string, asked = false): Promise<void> {
  await page.locator('#open-file').setInputFiles({ name: `${name}.csv`, mimeType: 'text/csv', buffer: Buffer.from(listCsv()) }); // prettier-ignore
  // what was done with the list before is not saved
  const anyway = page.getByRole('button', { name: 'Open anyway' });
  if (asked) await anyway.click();
  await page.waitForFunction(
    (sheet) => (document.querySelector('sb-panel') as PanelShell).session.sheet === sheet,
    name,
    { timeout: 60_000 },
  );
}

/** By the grid's own menu, at the row's number. */
async function deleteRowAt(y: number): Promise<void> {
  const box = (await page.locator('#grid').boundingBox())!;
  await page.mouse.click(box.x + 20, box.y + y);
  await page.mouse.click(box.x + 20, box.y + y, { button: 'right' });
  await page.getByText('Delete Selected Row').click();
}

beforeAll(async () => {
  mkdirSync(out, { recursive: true });
  ({ server, browser, page } = await openedDesk(complaints));
  await withAxe(page);
  await page.locator('[data-place=trees]').click();
  await openList('Street list');
}, 300_000);

afterAll(async () => {
  expect(complaints).toEqual([]);
  await browser?.close();
  server?.close();
  clear();
});

describe('rows without a size', () => {
  it('are offered the median of the list and of each species, with the number it is from', async () => {
    expect(await reading()).toMatchObject({ rows: ROWS, usable: ROWS - SIZELESS, assumed: [] });
    await soon(() => fill().locator('#use').innerText()).toBe('Use for 38 rows');
    expect(await fill().locator('#value').inputValue()).toBe('2.75');
    expect(await fill().locator('#known').innerText()).toBe('2.75 in is the median of the 72 in this list.'); // prettier-ignore
    expect(await fill().locator('#kinds li').allInnerTexts()).toEqual([
      '10 rows of live oak: median of 18: 2 in',
      '10 rows of desert willow: median of 18: 2.5 in',
      '9 rows of cedar elm: median of 18: 3 in',
      '9 rows of redbud: median of 18: 3.5 in',
    ]);
  });

  it.each([
    ['en', 'light'],
    ['es', 'light'],
    ['en', 'dark'],
  ] as const)('are filled by a form that reads well: %s, %s', async (language, colorScheme) => {
    await page.emulateMedia({ colorScheme });
    await page.locator('#language').selectOption(language);
    // the planner's sentences come a moment after the panel's own words
    await soon(() => fill().locator('summary').innerText()).toMatch(language === 'es' ? /^Usar/ : /^Use/); // prettier-ignore
    await soon(() => overhang(page)).toBeLessThanOrEqual(0);
    for (const width of [320, 450]) {
      await setWidth(page, width);
      expect(await overhang(page)).toBeLessThanOrEqual(0);
      await fill().scrollIntoViewIfNeeded();
      await page.screenshot({ path: join(out, `fill-${width}-${colorScheme}-${language}.png`) });
    }
    expect(await violations(page)).toEqual([]);
    await page.emulateMedia({ colorScheme: 'light' });
    await page.locator('#language').selectOption('en');
    await setWidth(page);
  });

  it('refuse what the reader would not take, in a sentence, and nothing is written', async () => {
    const before = await cells('Street list');
    await fill().locator('#value').fill('thick');
    await fill().locator('#value').press('Enter');
    await soon(() => told(page)).toMatch(/^DBH \(in\): "thick" is not a measure/);
    expect(await cells('Street list')).toEqual(before);
  });

  it('take one click: blank cells are written and marked, nothing else of the list changes', async () => {
    const before = await cells('Street list');
    await fill().locator('#by-kind').click();
    await soon(() => reading()).toMatchObject({ usable: ROWS, assumed: [{ header: 'DBH (in)', what: 'size', rows: SIZELESS }] }); // prettier-ignore
    expect(await told(page)).toBe('DBH (in) is assumed for 38 rows and marked in the list. Under Trees you can take it out again.'); // prettier-ignore
    const after = await cells('Street list');
    expect(after[1]).toEqual([...HEADERS, 'Assumed']);
    const [first] = [2 + ROWS - SIZELESS];
    expect(after[first]).toEqual([
      'P-73',
      'live oak',
      2,
      '73 Hawser Lane',
      'as found',
      'DBH (in) = 2',
    ]);
    expect(after.map((row) => row.slice(0, 2))).toEqual(before.map((row) => row.slice(0, 2)));
    expect(after.slice(0, 1)).toEqual(before.slice(0, 1));
    expect(after.slice(2, first).map((row) => row.slice(0, 5))).toEqual(before.slice(2, first).map((row) => row.slice(0, 5))); // prettier-ignore
  });

  it('leave the focus where they can be taken back', async () => {
    const focused = await page.evaluate(() => {
      let at = document.activeElement;
      while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
      return at?.textContent?.trim();
    });
    expect(focused).toBe('Assumed values');
    await page.locator('#assumed').scrollIntoViewIfNeeded();
    await page.screenshot({ path: join(out, 'assumed.png') });
    expect(await violations(page)).toEqual([]);
  });

  it('stay marked in a saved file, and in the plan’s sheets', async () => {
    // hoses on timers would leave a crew nothing to do, and its sheet empty
    await page.locator('[data-place=kit]').click();
    await press(page, 'Remove example soaker on a timer');
    await soon(() => told(page)).toBe('example soaker on a timer is removed.');
    await page.locator('[data-place=build]').click();
    await page.getByRole('button', { name: 'Plan the season' }).click();
    await soon(() => told(page)).toMatch(/^Season .*planned/);
    await page.getByRole('button', { name: 'Build the sheets' }).click();
    await soon(async () => (await sheets(page)).includes('Trees')).toBe(true);
    await expect.poll(() => told(page), { timeout: 150_000 }).toMatch(/sheets written/);
    const path = await save(page, folder, () => press(page, 'Save: Download the open workbook'));
    const book = await readFile('saved.xlsx', new Uint8Array(readFileSync(path)));
    const list = book.sheets.find(({ name }) => name === 'Street list')!.cells;
    expect(list[1]).toEqual([...HEADERS, 'Assumed']);
    expect(list[74]).toEqual(['P-73', 'live oak', 2, '73 Hawser Lane', 'as found', 'DBH (in) = 2']);
    const trees = book.sheets
      .find(({ name }) => name === 'Trees')!
      .cells.map((row) => row.join('|'));
    expect(trees.filter((row) => row.includes('size assumed'))).toHaveLength(SIZELESS);
    const crew = book.sheets.find(({ name }) => name.startsWith('Crew'))!.cells.flat();
    expect(crew.some((cell) => /^P-73 · live oak · size assumed$/.test(String(cell)))).toBe(true);
    expect(crew.some((cell) => /^P-1 · live oak$/.test(String(cell)))).toBe(true);
  });

  it('are blank again after one more click, and the list is as it was', async () => {
    await page.locator('[data-place=trees]').click();
    await page.locator('#take-back').click();
    await soon(() => reading()).toMatchObject({ usable: ROWS - SIZELESS, assumed: [] });
    const after = await cells('Street list');
    expect(after[1]!.filter((cell) => cell !== null)).toEqual(HEADERS);
    expect(after[74]!.filter((cell) => cell !== null)).toEqual(['P-73', 'live oak', '73 Hawser Lane', 'as found']); // prettier-ignore
  });
});

describe('a list of one’s own', () => {
  it('has no columns or sheets of ours until they are asked for', async () => {
    await openList('Own list', true);
    expect(await sheets(page)).toEqual(['Own list']);
    expect((await cells('Own list'))[1]).toEqual(HEADERS);
  });

  it('gets live figures with one click, which names what it adds, and loses them with one', async () => {
    const before = await cells('Own list');
    const part = page.locator('sb-live-figures');
    await soon(() => part.locator('#show-live').count()).toBe(1);
    for (const named of [
      'Demand by Inputs (gal/day)',
      'Usable when established (gal)',
      'Interval when established (days)',
      'Bag runs (h)',
      '“Inputs”',
    ])
      // prettier-ignore
      expect(await part.locator('section').innerText()).toContain(named);
    await part.locator('section').scrollIntoViewIfNeeded();
    await page.screenshot({ path: join(out, 'live-offered.png') });
    await part.locator('#show-live').click();
    await soon(() => part.locator('#take-live').count()).toBe(1);
    expect(await sheets(page)).toEqual(['Own list', 'Inputs']);
    const shown = await page.evaluate(() => ['F2', 'F3', 'G3', 'I3', 'F112', 'F80'].map((at) => window.soakbook.show('Own list', at))); // prettier-ignore
    expect(shown).toEqual(['Demand by Inputs (gal/day)', expect.any(Number), expect.any(Number), expect.any(Number), '', '']); // prettier-ignore
    expect(await page.evaluate(() => window.soakbook.formula('Own list', 'F4'))).toContain('SOAK.TREE_DEMAND(Inputs!$B$2'); // prettier-ignore
    expect(await cells('Own list')).toEqual(before);
    await part.locator('#take-live').click();
    await soon(() => part.locator('#show-live').count()).toBe(1);
    expect(await sheets(page)).toEqual(['Own list']);
    const left = await page.evaluate(() => ['F2', 'F3', 'I60'].map((at) => window.soakbook.formula('Own list', at) || window.soakbook.show('Own list', at))); // prettier-ignore
    expect(left).toEqual([null, null, null]);
    expect(await cells('Own list')).toEqual(before);
  });
});

describe('a list that changes after it was planned', () => {
  it('says so where the plan is looked at, also when a row is deleted', async () => {
    await page.locator('[data-place=build]').click();
    await page.getByRole('button', { name: 'Plan the season' }).click();
    await soon(() => told(page)).toMatch(/^Season .*planned/);
    await deleteRowAt(200);
    await soon(async () => (await reading()).rows).toBe(ROWS - 1);
    const says = 'The list has changed since the season was planned: 110 rows then, 109 now. Plan again to see the effect.'; // prettier-ignore
    await soon(() => told(page)).toBe(says);
    expect(await page.locator('#outdated').innerText()).toContain(says);
    expect(await page.locator('[data-place=build]').innerText()).toContain('changed since: plan again'); // prettier-ignore
    await page.screenshot({ path: join(out, 'row-deleted.png') });
  });
});
