import { copyFileSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import type { Server } from 'node:http';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { helpData, writeHelp } from '../../scripts/build-help.js';
import { findBrowser } from '../../scripts/find-browser.mjs';
import { serve } from '../../scripts/serve.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const data = helpData();
const { functions } = data;
const FILES = [
  ...functions.map(({ id }) => `${id}.html`),
  'index.html',
  'conventions.html',
  'checks.html',
];

let folder: string;
let server: Server;
let browser: Browser;
let page: Page;
let base: string;
const complaints: string[] = [];

/** The pages as the build lays them out, in a folder of their own. */
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'soakbook-help-'));
  mkdirSync(join(folder, 'help'));
  writeHelp(join(folder, 'help'));
  copyFileSync(join(root, 'src', 'taskpane', 'panel.css'), join(folder, 'panel.css'));
  copyFileSync(join(root, 'assets', 'mark.svg'), join(folder, 'mark.svg'));
  const started = await serve(folder, 0);
  server = started.server;
  base = `${started.url}help/`;
  const executablePath = findBrowser();
  if (executablePath === undefined) throw new Error('No browser: run npm test, it looks for one.');
  browser = await chromium.launch({
    executablePath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });
  page = await browser.newPage({ viewport: { width: 900, height: 800 } });
  page.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => {
    if (!request.url().startsWith(started.url)) complaints.push(`asks ${request.url()}`);
  });
});

afterAll(async () => {
  await browser?.close();
  server?.close();
  if (folder !== undefined) rmSync(folder, { recursive: true, force: true });
});

const listed = (): Promise<string[]> => page.locator('[data-search]:visible > a').allInnerTexts();

/** Ids of the functions whose declaration, notes or sources hold words that begin so, straight from the data. */
function naming(query: string): string[] {
  const words = query.toLowerCase().split(' ');
  return functions
    .filter((fn) => {
      const { notes, enums, cases } = data;
      const lists = enums.filter(({ id }) => fn.parameters.some((p) => p.customEnumId === id));
      const sources = cases.filter((each) => each.function === fn.id).map((each) => each.source);
      const all = JSON.stringify([fn, notes[fn.id], lists, sources]).toLowerCase();
      return words.every((word) => new RegExp(`(?<![\\p{L}\\p{N}])${word}`, 'u').test(all));
    })
    .map(({ id }) => id)
    .sort();
}

describe('the list of functions', () => {
  it('filters by name, parameter and source, and says how many are left', async () => {
    await page.goto(`${base}index.html`);
    expect(await listed()).toHaveLength(functions.length);
    const queries = [
      'bag_ho',
      '=SOAK.BAG_HO',
      'dewpoint',
      'torricelli BRITANNICA timed',
      'wilting',
      'rain',
    ];
    for (const query of queries) {
      await page.getByLabel('Find a function').fill(query);
      const wanted = naming(query.replace('=SOAK.', ''));
      expect(wanted.length).toBeGreaterThan(0);
      expect(wanted.length).toBeLessThan(functions.length / 2);
      expect((await listed()).sort()).toEqual(wanted);
      expect(await page.getByRole('status').innerText()).toBe(
        `${wanted.length} of ${functions.length} functions`,
      );
    }
    await page.getByLabel('Find a function').fill('zebra crossing');
    expect(await listed()).toEqual([]);
    expect(await page.getByRole('status').innerText()).toContain('No function fits');
    expect(await page.locator('.family:visible').count()).toBe(0);
  });

  it('works with the keyboard alone', async () => {
    await page.goto(`${base}index.html`);
    const focused = (): Promise<string | undefined> =>
      page.evaluate(() => document.activeElement?.id ?? undefined);
    for (let i = 0; i < 10 && (await focused()) !== 'query'; i++) await page.keyboard.press('Tab');
    expect(await focused()).toBe('query');
    const ring = await page.locator('#query').evaluate((e) => getComputedStyle(e).outlineWidth);
    expect(parseFloat(ring)).toBeGreaterThanOrEqual(2);
    await page.keyboard.type('coil_len');
    expect(await listed()).toContain('COIL_LENGTH');
    expect((await listed()).length).toBeLessThan(functions.length);
    await page.keyboard.press('Escape');
    expect(await listed()).toHaveLength(functions.length);
    await page.keyboard.type('coil_len');
    await page.keyboard.press('Enter');
    await page.waitForURL(/COIL_LENGTH\.html$/);
    await page.keyboard.press('Tab');
    expect(await page.locator(':focus').innerText()).toBe('To the text');
    await page.keyboard.press('Enter');
    expect(await focused()).toBe('content');
  });

  it('is whole without scripts, and shows no search that cannot work', async () => {
    const plain = await browser.newContext({ javaScriptEnabled: false });
    const quiet = await plain.newPage();
    await quiet.goto(`${base}index.html`);
    expect(await quiet.locator('[data-search] > a').count()).toBe(functions.length);
    expect(await quiet.getByLabel('Find a function').isVisible()).toBe(false);
    await plain.close();
  });
});

describe('reading', () => {
  const overflow = (): Promise<number> =>
    page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);

  it('fits 320 px and 900 px without scrolling sideways, also with text at 200 %', async () => {
    await page.setViewportSize({ width: 320, height: 640 });
    for (const file of FILES) {
      await page.goto(base + file);
      await page.evaluate(() => document.querySelector('details')?.setAttribute('open', ''));
      expect(await overflow(), file).toBeLessThanOrEqual(0);
    }
    await page.setViewportSize({ width: 900, height: 640 });
    for (const file of FILES) {
      await page.goto(base + file);
      expect(await overflow(), `${file} at 900 px`).toBeLessThanOrEqual(0);
    }
    await page.setViewportSize({ width: 640, height: 640 });
    for (const file of FILES) {
      await page.goto(base + file);
      await page.evaluate(() => document.documentElement.style.setProperty('font-size', '200%'));
      expect(await overflow(), `${file} at 200 %`).toBeLessThanOrEqual(0);
    }
  });

  it.each(['light', 'dark'] as const)('has readable contrast in %s', async (colorScheme) => {
    await page.emulateMedia({ colorScheme });
    await page.goto(`${base}BAG_HOURS.html`);
    for (const part of ['.lead', '.quiet', '.formula code', '.facts dt', 'thead th', '.related a'])
      expect(await contrast(part), part).toBeGreaterThanOrEqual(4.5);
    await page.emulateMedia({ colorScheme: null });
  });

  it('prints black on white, without the navigation, on a few sheets', async () => {
    await page.setViewportSize({ width: 900, height: 800 });
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    await page.goto(`${base}BAG_HOURS.html`);
    expect(await page.locator('.top nav').isVisible()).toBe(false);
    const [ink, ground] = await page.evaluate(() => {
      const style = getComputedStyle(document.body);
      return [style.color, style.backgroundColor];
    });
    expect([ink, ground]).toEqual(['rgb(0, 0, 0)', 'rgb(255, 255, 255)']);
    await page.emulateMedia({ media: null, colorScheme: null });
    for (const file of FILES) {
      await page.goto(base + file);
      const pdf = (await page.pdf({ format: 'Letter' })).toString('latin1');
      const sheets = pdf.match(/\/Type\s*\/Page\b/g)?.length ?? 0;
      expect(sheets, file).toBeGreaterThanOrEqual(1);
      expect(sheets, file).toBeLessThanOrEqual(10);
    }
  });

  it('asks nobody but its own server and complains about nothing', () => {
    expect(complaints).toEqual([]);
  });
});

describe('the way to the pages', () => {
  it('is a link in the panel, reached with the keyboard, that opens beside the sheet', async () => {
    const built = await serve(join(root, 'dist'), 0);
    try {
      const desk = await browser.newPage();
      await desk.goto(`${built.url}desk.html`);
      const link = desk.getByRole('link', { name: 'Function help' });
      await link.waitFor();
      await link.focus();
      const [opened] = await Promise.all([
        desk.context().waitForEvent('page'),
        desk.keyboard.press('Enter'),
      ]);
      await opened.waitForLoadState();
      expect(opened.url()).toBe(`${built.url}help/index.html`);
      expect(await opened.locator('h1').innerText()).toBe('All functions');
      await desk.context().close();
    } finally {
      built.server.close();
    }
  });
});

/** WCAG contrast of a part's text on the nearest ground that is painted. */
function contrast(selector: string): Promise<number> {
  return page
    .locator(selector)
    .first()
    .evaluate((element) => {
      const light = (colour: string): number => {
        const parts = (colour.match(/[\d.]+/g) ?? []).slice(0, 3).map((part) => {
          const share = Number(part) / 255;
          return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
        });
        return 0.2126 * parts[0]! + 0.7152 * parts[1]! + 0.0722 * parts[2]!;
      };
      let ground = 'rgb(255, 255, 255)';
      for (let at: Element | null = element; at !== null; at = at.parentElement) {
        const painted = getComputedStyle(at).backgroundColor;
        if (painted === 'rgba(0, 0, 0, 0)') continue;
        ground = painted;
        break;
      }
      const [one, two] = [light(getComputedStyle(element).color), light(ground)];
      return (Math.max(one, two) + 0.05) / (Math.min(one, two) + 0.05);
    });
}
