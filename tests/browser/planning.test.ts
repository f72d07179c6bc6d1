/** A long planning on the desk: in a worker, with progress, and to be stopped. Common practice, no source. */
import type { Server } from 'node:http';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openedDesk } from './open-desk.js';

const ROWS = 1500;
/** Trees no two of which are alike; invented. */
const TABLE = [
  'Tree id,Species,DBH (in),Canopy (ft),Address',
  ...Array.from({ length: ROWS }, (_, i) => `T${i},Oak,${2 + i / 500},${8 + i / 200},Invented Way`),
].join('\n');

let server: Server;
let browser: Browser;
let page: Page;
const complaints: string[] = [];
const status = () => page.locator('#told').innerText();
const planButton = () => page.getByRole('button', { name: 'Plan the season' });

beforeAll(async () => {
  ({ server, browser, page } = await openedDesk(complaints));
  const buffer = Buffer.from(TABLE);
  await page
    .locator('#open-file')
    .setInputFiles({ name: 'many.csv', mimeType: 'text/csv', buffer });
  await page.locator('#place').getByText('1,500').first().waitFor({ timeout: 180_000 });
  await page.locator('[data-place=build]').click();
}, 300_000);

afterAll(async () => {
  await browser?.close();
  server?.close();
});

describe('a long planning', () => {
  it('runs in one worker, kept from plan to plan', () => {
    expect(page.workers().map((worker) => worker.url().replace(/.*\//, ''))).toEqual([
      'plan-room.js',
    ]);
  });
  it('says how far it is, and stops when it is told to', async () => {
    const seen = page.evaluate(
      () =>
        new Promise<string>((resolve) => {
          const inside = document.querySelector('sb-panel')!.shadowRoot!;
          const line = inside.querySelector('#told')!;
          new MutationObserver((_, observer) => {
            if (!/ of /.test(line.textContent ?? '')) return;
            observer.disconnect();
            resolve(line.textContent ?? '');
            inside
              .querySelector('#place')!
              .shadowRoot!.querySelector<HTMLElement>('#stop')!
              .click();
          }).observe(line, { childList: true, characterData: true, subtree: true });
        }),
    );
    await planButton().click();
    expect(await seen).toMatch(/^Planning … [\d,]+ of 1,500 rows\.$/);
    await expect.poll(status, { timeout: 20_000 }).toBe('The planning was stopped');
    expect(await page.locator('#download').count()).toBe(0);
    expect(await page.locator('#stop').count()).toBe(0);
  });
  it('then plans it as if nothing had been', async () => {
    expect(await planButton().getAttribute('aria-disabled')).toBe(null);
    await planButton().click();
    const over = /^Season .* is planned\.$|^Season .*: planned, but|wrong/;
    await expect.poll(status, { timeout: 100_000 }).toMatch(over);
    expect(await page.locator('#download').count(), await status()).toBe(1);
    expect(await page.locator('#result').innerText()).toMatch(/trees planned\s+[\d,]+/);
    expect(page.workers()).toHaveLength(1);
    expect(complaints).toEqual([]);
  });
});
