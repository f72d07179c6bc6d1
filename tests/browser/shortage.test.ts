/**
 * Who is served with a limit of every week, in a browser: proven by the solver in the page's worker, while the page itself
 * may run no such code; and what is said where the solver cannot be had. Limits are invented.
 */
import { createServer, type Server } from 'node:http';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { fileHandler } from '../../scripts/serve.mjs';
import { root, started } from './started.js';

const SOLVER = 'vendor/highs.wasm';
/** A limit [gal a week] and an order with which the own search is cut. */
const LIMIT = '800';
const ORDER = 'sound first';

let server: Server;
let browser: Browser;
let url: string;
let context: BrowserContext | undefined;
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 60_000 });

beforeAll(async () => {
  ({ server, browser, url } = await started());
});
afterEach(() => context?.close());
afterAll(async () => {
  await browser?.close();
  server?.close();
});

/** The desk with a plan, and what its pages and workers asked for. */
async function planned(at: string, more: object = {}): Promise<{ page: Page; asked: string[] }> {
  context = await browser.newContext(more);
  const asked: string[] = [];
  context.on('request', (request) => asked.push(new URL(request.url()).pathname.slice(1)));
  const page = await context.newPage();
  await page.goto(`${at}desk.html`);
  await page.waitForFunction(() => window.soakbook !== undefined);
  await page.evaluate(() => window.soakbook.ready);
  await page.locator('[data-place=contract]').click();
  await page.locator('#part-shortage').click();
  // the desk begins with the sample planned
  await page.locator('#limit').waitFor();
  return { page, asked };
}

async function choose(page: Page): Promise<void> {
  await page.locator('#limit').selectOption('week');
  await page.locator('#amount').fill(LIMIT);
  await page.locator('#order').selectOption(ORDER);
  await page.locator('#ask-shortage').click();
  await soon(() => page.locator('#told').innerText()).toMatch(/^\d+ trees served, \d+ not\.$/);
}

/** The built pages, some files with headers of another kind or none at all. */
async function served(change: (path: string) => Record<string, string> | undefined): Promise<{ at: string; stop: () => void }> {
  const plain = fileHandler(join(root, 'dist'));
  const own = createServer((request, response) => {
    const headers = change((request.url ?? '').slice(1));
    if (headers === undefined) response.writeHead(404).end();
    else {
      Object.entries(headers).forEach(([name, value]) => response.setHeader(name, value));
      plain(request, response);
    }
  });
  await new Promise<void>((resolve) => own.listen(0, '127.0.0.1', resolve));
  const address = own.address();
  if (address === null || typeof address === 'string') throw new Error('the server has no port');
  return {
    at: `http://127.0.0.1:${address.port}/`,
    stop: () => {
      own.close();
      own.closeAllConnections();
    },
  };
} // prettier-ignore

describe('who is served with so much water a week', () => {
  it('is proven by the solver, which is loaded when it is asked for and not before', async () => {
    const { page, asked } = await planned(url, { serviceWorkers: 'block' });
    expect(asked).not.toContain(SOLVER);
    await choose(page);
    expect(asked).toContain(SOLVER);
    expect(await page.locator('#cut').count()).toBe(0);
  }, 120_000);

  it('leaves the page as strict as it was: compiled code is refused there', async () => {
    const { page } = await planned(url, { serviceWorkers: 'block' });
    const refused = await page.evaluate(async (file) => {
      const policy = document.querySelector('meta[http-equiv=Content-Security-Policy]');
      try {
        await WebAssembly.compile(await (await fetch(file)).arrayBuffer());
        return ['compiled'];
      } catch (error) {
        return [(error as Error).name, policy?.getAttribute('content') ?? ''];
      }
    }, SOLVER);
    expect(refused[0]).toBe('CompileError');
    expect(refused[1]).not.toMatch(/unsafe-eval/);
  }, 120_000);

  it('is proven without the server as well, once the desk is kept', async () => {
    const { at, stop } = await served(() => ({}));
    try {
      const first = await planned(at);
      expect(await first.page.evaluate(() => window.soakbook.offline)).toBe(true);
      stop();
      await first.page.reload();
      await first.page.waitForFunction(() => window.soakbook !== undefined);
      await first.page.locator('[data-place=contract]').click();
      await first.page.locator('#part-shortage').click();
      await choose(first.page);
      expect(await first.page.locator('#cut').count()).toBe(0);
    } finally {
      stop();
    }
  }, 180_000);

  it.each([
    ['is not served', (path: string) => (path === SOLVER ? undefined : {})],
    [
      'is refused by a policy of the server',
      (path: string) =>
        path === 'plan-room.js' ? { 'Content-Security-Policy': "default-src 'self'" } : {},
    ],
  ])('is chosen by the own search, and said to be unproven, where the solver %s', async (_, change) => {
    const { at, stop } = await served(change);
    try {
      const { page } = await planned(at, { serviceWorkers: 'block' });
      await choose(page);
      expect(await page.locator('#cut').innerText()).toMatch(/not ruled out/);
    } finally {
      stop();
    }
  }, 180_000); // prettier-ignore
});
