import { spawn, type ChildProcess } from 'node:child_process';
import { mkdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readXlsx } from 'hucre/xlsx';
import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isStale } from '../../scripts/build.mjs';
import { findBrowser } from '../../scripts/find-browser.mjs';
import { canopyFromCaliper } from '../../src/engine/tree/stock-sizes.js';
import { M_PER_FOOT, MM_PER_INCH } from '../../src/engine/units.js';
import { FUNCTIONS } from '../../src/functions/index.js';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const out = join(root, 'out');
const SHEET = 'harbour-row-trees';
const INPUTS = 'Inputs';

let server: ChildProcess;
let browser: Browser;
let page: Page;
const complaints: string[] = [];
const foreign: string[] = [];

function node(args: string[]): Promise<void> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, args, { cwd: root, stdio: 'inherit' });
    child.on('exit', (code) => (code === 0 ? resolve() : reject(new Error(`${args[0]}: ${code}`))));
  });
}

/** Starts the server as `npm start` does and waits for the address it prints. */
function startServer(): Promise<string> {
  server = spawn(process.execPath, ['scripts/serve.mjs', '--port', '0', '--no-open'], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  return new Promise((resolve, reject) => {
    let text = '';
    server.stdout?.on('data', (chunk: Buffer) => {
      text += chunk.toString();
      const url = /http:\/\/127\.0\.0\.1:\d+\//.exec(text)?.[0];
      if (url !== undefined) resolve(url);
    });
    server.on('exit', (code) => reject(new Error(`The server stopped with ${String(code)}.`)));
  });
}

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
  if (isStale(root)) await node(['scripts/build.mjs']);
  mkdirSync(out, { recursive: true });
  const executablePath = findBrowser();
  if (executablePath === undefined) throw new Error('No browser: run npm test, it looks for one.');
  const url = await startServer();
  browser = await chromium.launch({
    executablePath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });
  page = await browser.newPage({ viewport: { width: 1280, height: 800 }, acceptDownloads: true });
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => {
    const address = request.url();
    if (!address.startsWith(url) && !/^(data|blob):/.test(address)) foreign.push(address);
  });
  await page.goto(url);
  await page.waitForFunction(() => window.soakbook !== undefined);
  await page.evaluate(() => window.soakbook.ready);
});

afterAll(async () => {
  await browser?.close();
  server?.removeAllListeners('exit');
  server?.kill();
});

describe('the desk', () => {
  it('opens with the sample planned, and keeps that plan while nothing changes', async () => {
    const result = page.locator('#result');
    await result.locator('#download').waitFor();
    expect(await result.innerText()).toMatch(/trees planned\s+[1-9]/);
    expect(await result.innerText()).toMatch(
      /Visits of \d+ sites are joined: \d+ drives instead of \d+\./,
    );
    await page.waitForTimeout(1500); // longer than the grid takes to settle and announce a change
    expect(await result.locator('#download').count()).toBe(1);
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

  it('says which rows it can plan and which to look at', async () => {
    const trees = page.locator('#trees');
    await expect.poll(() => trees.innerText()).toMatch(/rows read\s+60/);
    expect(await trees.innerText()).toMatch(/can be planned\s+59/);
    expect(await trees.locator('.rows').innerText()).toContain('HR-060');
    expect(await page.locator('#columns tbody tr').count()).toBe(15);
  });

  it('plans the open sheet and gives the plan as a workbook that opens', async () => {
    const result = page.locator('#result');
    await page.getByRole('button', { name: 'Plan this sheet' }).click();
    await result.locator('#download').waitFor();
    const text = await result.innerText();
    expect(text).toMatch(/trees planned\s+\d+/);
    expect(text).toMatch(/cannot be kept/);
    expect(text).toMatch(/water in the season\s+[\d,]+\s*gal/);
    await page.locator('#plan').scrollIntoViewIfNeeded();
    await page.screenshot({ path: join(out, 'desk-planned.png') });

    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Download the plan (.xlsx)' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('harbour-row-trees-plan.xlsx');
    const bytes = readFileSync(await download.path());
    expect(bytes.subarray(0, 4).toString('latin1')).toBe('PK\u0003\u0004');
    const workbook = await readXlsx(new Uint8Array(bytes));
    const names = workbook.sheets.map((sheet) => sheet.name);
    expect(names).toEqual(expect.arrayContaining(['About', 'Trees', 'Plan', 'Crew', 'Checks']));
  });

  it('a change of the sheet withdraws the plan that no longer fits', async () => {
    expect(await page.locator('#download').count()).toBe(1);
    const species = await columnOf('Species');
    await write(SHEET, `${species}2`, 'live oak');
    await expect.poll(() => page.locator('#download').count()).toBe(0);
    expect(await page.getByRole('status').first().innerText()).toContain('has changed');
  });

  it('opens a person’s own table; markup in its cells stays text', async () => {
    const table =
      'Tree ID,Species,Caliper (in)\nA-1,<img src=x onerror=alert(1)>,2\nA-2,oak,none\n';
    await page.setInputFiles('#open-file', {
      name: 'mine.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from(table),
    });
    await expect.poll(() => page.locator('.panel-head').innerText()).toContain('mine');
    await expect.poll(() => page.locator('#trees').innerText()).toMatch(/rows read\s+2/);
    expect(await page.locator('#panel img').count()).toBe(0);
    expect(await show('mine', 'B2')).toBe('<img src=x onerror=alert(1)>');
  });

  it('says in a sentence why a file cannot be opened', async () => {
    await page.setInputFiles('#open-file', {
      name: 'picture.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from([0x89, 0x50, 0x4e, 0x47, 0, 0]),
    });
    await expect
      .poll(() => page.getByRole('status').first().innerText())
      .toContain('is a picture; export the table as .csv or .xlsx');
  });

  it('asks nobody but its own server and complains about nothing', () => {
    expect(foreign).toEqual([]);
    expect(complaints).toEqual([]);
  });
});
