/** What is measured of the panel: its size, how soon it is of use, how soon it follows a slider, what it keeps in memory. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser, CDPSession, Page } from 'playwright-core';
import type { PanelShell } from '../../src/taskpane/panel-shell.js';
import { asCsv } from '../browser/desk-walk.js';
import { root } from '../browser/started.js';
import { benchTable } from './workbook.js';

/** What the spreadsheet program loads for the panel, without parts that load when they are asked for [bytes, gzip]. */
export function panelSize(): { panel: number; later: Record<string, number> } {
  const zipped = (path: string) => gzipSync(readFileSync(path), { level: 9 }).length;
  const dist = join(root, 'dist');
  const chunks = join(dist, 'chunks');
  const later = readdirSync(chunks)
    .filter((name) => name.endsWith('.js'))
    .map((name) => [name, zipped(join(chunks, name))] as const);
  return { panel: zipped(join(dist, 'taskpane.js')), later: Object.fromEntries(later) };
}

export interface FirstScreen {
  /** from the address to a panel that shows what the sheet holds [ms] */
  trees: number;
  /** … to the season planned [ms] */
  planned: number;
  /** … to the grid's formulas worked out as well [ms] */
  ready: number;
}

/** Opens the desk in a window of its own: nothing is in its cache. */
export async function openDesk(browser: Browser, url: string): Promise<{ page: Page; screen: FirstScreen }> {
  const context = await browser.newContext({ serviceWorkers: 'block' });
  const page = await context.newPage();
  // tsx keeps the names of functions by a helper, which functions sent to a page then miss
  await page.addInitScript('globalThis.__name = (f) => f');
  const start = performance.now();
  await page.goto(`${url}desk.html`, { waitUntil: 'commit' });
  await page.locator('#place .numbers').waitFor();
  const trees = performance.now() - start;
  await page.locator('#told', { hasText: /^Season .* is planned\.$/ }).waitFor();
  const planned = performance.now() - start;
  await page.waitForFunction(() => window.soakbook !== undefined);
  await page.evaluate(() => window.soakbook.ready);
  return { page, screen: { trees, planned, ready: performance.now() - start } };
} // prettier-ignore

/** Opens an invented inventory of `rows` rows and plans it. */
export async function openRows(page: Page, rows: number): Promise<void> {
  const buffer = Buffer.from(asCsv(benchTable(rows)));
  await page.locator('#open-file').setInputFiles({ name: 'rows.csv', mimeType: 'text/csv', buffer });
  // the sample, which is open before, may have as many rows
  await page.waitForFunction(
    (count) => {
      const { session } = document.querySelector('sb-panel') as PanelShell;
      return session.sheet === 'rows' && session.reading?.rows === count;
    },
    rows,
    { timeout: 120_000 },
  );
  await page.evaluate(() => (document.querySelector('sb-panel') as PanelShell).session.makePlan());
} // prettier-ignore

/** Shows the season and the values that can be tried. */
export async function openTrial(page: Page): Promise<void> {
  await page.locator('[data-place=build]').click();
  await page.locator('#season figure').waitFor({ timeout: 60_000 });
  await page.locator('details[data-part=trial] > summary').click();
  await page.locator('#depletionNew').waitFor();
}

/** From a moved slider to the season's picture drawn again, both seen in the page [ms]. */
export const redraw = (page: Page, value: number): Promise<number> =>
  page.evaluate((to) => {
    const step = document
      .querySelector('sb-panel')!
      .shadowRoot!.querySelector('sb-build')!.shadowRoot!;
    const slider = step
      .querySelector('sb-trial')!
      .shadowRoot!.querySelector<HTMLInputElement>('#depletionNew')!;
    const drawing = () => step.querySelector('#season')!.shadowRoot!.querySelector('figure svg');
    const before = drawing();
    const start = performance.now();
    slider.value = String(to);
    slider.dispatchEvent(new Event('input', { bubbles: true }));
    return new Promise<number>((resolve, reject) => {
      const look = (now: number): void => {
        const at = drawing();
        if (at && at !== before) resolve(performance.now() - start);
        else if (now - start > 120_000) reject(new Error('the picture was not drawn again'));
        else requestAnimationFrame(look);
      };
      requestAnimationFrame(look);
    });
  }, value);

/** JavaScript memory of the page after everything unused is let go [MB]. */
export async function heap(session: CDPSession): Promise<number> {
  await session.send('HeapProfiler.enable');
  for (let i = 0; i < 3; i++) await session.send('HeapProfiler.collectGarbage');
  const { metrics } = await session.send('Performance.getMetrics');
  const used = metrics.find(({ name }) => name === 'JSHeapUsedSize');
  if (!used) throw new Error('the browser does not say how much memory it uses');
  return used.value / 2 ** 20;
}

/** Plans, writes all sheets and takes them away again. */
export async function buildAndUndo(page: Page): Promise<void> {
  await page.evaluate(() => (document.querySelector('sb-panel') as PanelShell).session.makePlan());
  // taking sheets away may still be under way
  await page.locator('#build-sheets:not([aria-disabled])').click();
  await page.locator('#undo-build').waitFor({ timeout: 120_000 });
  await page.locator('#undo-build').click();
  await page.locator('#undo-build').waitFor({ state: 'detached', timeout: 60_000 });
}
