import { mkdirSync, readFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import { readXlsx } from 'hucre/xlsx';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { canopyFromCaliper } from '../../src/engine/tree/stock-sizes.js';
import { M_PER_FOOT, MM_PER_INCH } from '../../src/engine/units.js';
import type { PanelShell } from '../../src/taskpane/panel-shell.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import { openOver } from './open-desk.js';
import { textOf } from './panel-text.js';
import { root, started } from './started.js';

const out = join(root, 'out');
const SHEET = 'harbour-row-trees';
const INPUTS = 'Inputs';

let server: Server;
let browser: Browser;
let page: Page;
const complaints: string[] = [];
/** Waits for what a busy machine may take long to show. */
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 20_000 });
const foreign: string[] = [];

const show = (sheet: string, address: string): Promise<string | number | boolean | null> =>
  page.evaluate(([s, a]) => window.soakbook.show(s, a), [sheet, address] as const);
const formula = (sheet: string, address: string): Promise<string> =>
  page.evaluate(([s, a]) => window.soakbook.formula(s, a), [sheet, address] as const);
const write = (sheet: string, address: string, value: string | number): Promise<void> =>
  page.evaluate(([s, a, v]) => window.soakbook.write(s, a, v), [sheet, address, value] as const);
const call = (id: string, ...args: unknown[]): number => {
  const implementation = FUNCTIONS[id] as ((...args: unknown[]) => unknown) | undefined;
  if (implementation === undefined) throw new Error(`There is no ${id}.`);
  return implementation(...args) as number;
};

const enter = (place: string) => page.locator(`[data-place=${place}]`).click();
const told = () => page.locator('#told');
const openFile = (name: string, mimeType: string, bytes: Buffer | string) =>
  page.setInputFiles('#open-file', { name, mimeType, buffer: Buffer.from(bytes) });

/** Letter of the column with this header. */
async function columnOf(header: string): Promise<string> {
  for (let i = 0; i < 26; i++) {
    const letter = String.fromCharCode(65 + i);
    if ((await show(SHEET, `${letter}1`)) === header) return letter;
  }
  throw new Error(`There is no column "${header}".`);
}

async function input(name: string): Promise<number> {
  for (let row = 2; row < 30; row++) {
    if ((await show(INPUTS, `A${row}`)) === name) return Number(await show(INPUTS, `B${row}`));
  }
  throw new Error(`There is no input "${name}".`);
}

beforeAll(async () => {
  mkdirSync(out, { recursive: true });
  let url: string;
  ({ server, browser, url } = await started());
  page = await browser.newPage({ viewport: { width: 1280, height: 800 }, acceptDownloads: true });
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => {
    const address = request.url();
    if (!address.startsWith(url) && !/^(data|blob):/.test(address)) foreign.push(address);
  });
  await page.goto(`${url}desk.html`);
  await page.waitForFunction(() => window.soakbook !== undefined);
  await page.evaluate(() => window.soakbook.ready);
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

describe('the desk', () => {
  it('opens with the sample planned, and keeps that plan while nothing changes', async () => {
    await soon(() => told().innerText()).toMatch(/^Season Thu 1 Apr to Thu 30 Sep/);
    await enter('build');
    const result = page.locator('#result');
    expect(await result.innerText()).toMatch(/trees planned\s+67/);
    await page.waitForTimeout(1500); // longer than the grid takes to settle and announce a change
    expect(await page.locator('#download').count()).toBe(1);
    const remarks = await page.evaluate(() =>
      (document.querySelector('sb-panel') as PanelShell).session.plan?.remarks.join(' '),
    );
    expect(remarks).toMatch(/Visits of \d+ sites are joined: \d+ drives instead of \d+\./);
    await page.screenshot({ path: join(out, 'desk-open.png') });
  });

  it('opens with the sample, and its live cells hold what the functions give', async () => {
    const [canopy, trunk, soil, demand, usable, interval] = await Promise.all(
      [
        'Canopy (ft)',
        'Caliper (in)',
        'Soil',
        'Demand by Inputs (gal/day)',
        'Usable when established (gal)',
        'Interval when established (days)',
      ].map(columnOf),
    );
    const et0 = await input('Reference ET, hottest month');
    const factor = await input('Plant factor');
    const depth = await input('Root zone depth');
    const share = await input('Share used before watering');
    let compared = 0;
    for (let row = 2; row <= 61; row++) {
      const measured = await show(SHEET, `${canopy}${row}`);
      const inches = await show(SHEET, `${trunk}${row}`);
      if (typeof measured !== 'number' && typeof inches !== 'number') continue;
      const feet =
        typeof measured === 'number'
          ? measured
          : canopyFromCaliper(Number(inches) * MM_PER_INCH) / M_PER_FOOT;
      const texture = (await show(SHEET, `${soil}${row}`)) ?? 'loam';
      const wantedDemand = call('TREE_DEMAND', et0, feet, factor);
      const water = call('SOIL_WATER', texture);
      const wantedUsable = call('ROOTZONE_VOLUME', 12 * feet, depth, water, share);
      expect(await show(SHEET, `${demand}${row}`)).toBeCloseTo(wantedDemand, 9);
      expect(await show(SHEET, `${usable}${row}`)).toBeCloseTo(wantedUsable, 9);
      expect(await show(SHEET, `${interval}${row}`)).toBeCloseTo(
        call('INTERVAL', wantedUsable, wantedDemand),
        9,
      );
      expect(await formula(SHEET, `${demand}${row}`)).toContain('SOAK.TREE_DEMAND');
      compared += 1;
    }
    expect(compared).toBeGreaterThan(40);
  });

  it('recalculates when an input changes', async () => {
    const demand = await columnOf('Demand by Inputs (gal/day)');
    const before = Number(await show(SHEET, `${demand}12`));
    const et0 = await input('Reference ET, hottest month');
    await write(INPUTS, 'B2', et0 * 2);
    expect(await show(SHEET, `${demand}12`)).toBeCloseTo(before * 2, 9);
    await write(INPUTS, 'B2', et0);
    expect(await show(SHEET, `${demand}12`)).toBeCloseTo(before, 9);
  });

  it('shows an error’s own sentence in the panel when its cell is chosen', async () => {
    await write(SHEET, 'X3', '=SOAK.BAG_HOURS(15,0,0.055,24)');
    expect(await show(SHEET, 'X3')).toBe('#VALUE!');
    const sentence = 'holes must be a whole number from 1 to 100; got 0';
    expect(await page.evaluate((s) => window.soakbook.trouble(s, 'X3'), SHEET)).toBe(sentence);
    expect(await page.evaluate((s) => window.soakbook.trouble(s, 'X4'), SHEET)).toBe('');
    await write(SHEET, 'X3', '');
  });

  it('explains a chosen cell that holds one of our functions', async () => {
    const cell = page.locator('sb-chosen-cell');
    expect(await textOf(cell)).toMatch(/^Chosen cell\s+P2 shows [\d.]+\s+=IF\(/);
  });

  it('says which rows it can plan and which to look at', async () => {
    await enter('trees');
    const trees = page.locator('#place');
    await soon(() => textOf(trees)).toMatch(/rows read\s+60/);
    expect(await textOf(trees)).toMatch(/can be planned\s+59/);
    expect(await textOf(page.locator('#look'))).toContain('HR-060');
    expect(await page.locator('#columns li').count()).toBe(15);
  });

  it('a row to look at leads to its cell', async () => {
    await page.getByRole('button', { name: 'Go to row 61, HR-060' }).click();
    await soon(() => page.locator('#sheet-line').innerText()).toContain(SHEET);
    expect(await page.locator('#sheet-line').innerText()).toContain(
      'an example, all of it invented',
    );
    // P holds our function: the cell that was chosen is no longer explained
    await soon(() => textOf(page.locator('sb-chosen-cell'))).toBe('');
  });

  it('plans the open sheet and gives the plan as a workbook that opens', async () => {
    await enter('build');
    await page.getByRole('button', { name: 'Plan the season' }).click();
    await page.locator('#download').waitFor();
    const text = await page.locator('#result').innerText();
    expect(text).toMatch(/cannot be kept\s+\d/);
    expect(text).toMatch(/water in the season\s+[\d,]+\s*gal/);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.locator('#download').click(),
    ]);
    expect(download.suggestedFilename()).toBe('harbour-row-trees-plan.xlsx');
    const bytes = readFileSync(await download.path());
    const workbook = await readXlsx(new Uint8Array(bytes));
    const names = workbook.sheets.map((sheet) => sheet.name);
    expect(names).toEqual(expect.arrayContaining(['About', 'Trees', 'Plan', 'Crew', 'Checks']));
    await soon(() => told().innerText()).toContain('harbour-row-trees-plan.xlsx');
  });

  it('a change of the sheet withdraws the plan that no longer fits', async () => {
    expect(await page.locator('#download').count()).toBe(1);
    const species = await columnOf('Species');
    await write(SHEET, `${species}2`, 'live oak');
    await soon(() => page.locator('#download').count()).toBe(0);
    expect(await told().innerText()).toContain('has changed');
  });

  it('opens a person’s own table; markup in its cells stays text', async () => {
    const table =
      'Tree ID,Species,Caliper (in)\nA-1,<img src=x onerror=alert(1)>,2\nA-2,oak,none\n';
    // species and X3 of the sample were changed above
    await openOver(page, 'mine.csv', () => openFile('mine.csv', 'text/csv', table));
    await soon(() => page.locator('#sheet-line').innerText()).toBe('Sheet “mine”');
    await enter('trees');
    await soon(() => textOf(page.locator('#place'))).toMatch(/rows read\s+2/);
    expect(await page.locator('#panel img').count()).toBe(0);
    expect(await textOf(page.locator('#columns'))).toContain('<img src=x');
    expect(await show('mine', 'B2')).toBe('<img src=x onerror=alert(1)>');
  });

  it('plans that table without the sample’s site', async () => {
    expect(await page.locator('[data-place=site]').innerText()).toContain('all by default');
    expect(await page.locator('[data-place=kit]').innerText()).toContain('example kit');
  });

  it('a sheet without rows shows what one should look like', async () => {
    await openFile('empty.csv', 'text/csv', 'Tree ID,Species\n');
    const lesson = page.locator('#teach');
    await lesson.waitFor();
    expect(await lesson.locator('thead th').allInnerTexts()).toEqual(['Tree id', 'Species', 'Caliper (in)']); // prettier-ignore
    await enter('build');
    expect(await textOf(page.locator('#place'))).toContain('no row that can be planned');
  });

  it('says in a sentence why a file cannot be opened', async () => {
    await openFile('picture.csv', 'text/csv', Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0]));
    await soon(() => told().innerText()).toContain(
      'is a picture; export the table as .csv or .xlsx',
    );
  });

  it('asks nobody but its own server and complains about nothing', () => {
    expect(foreign).toEqual([]);
    expect(complaints).toEqual([]);
  });
});
