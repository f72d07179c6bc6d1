/** Walking through the desk as a person does: by what is written on the page, with the mouse or the keyboard. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContextOptions, Page } from 'playwright-core';
import Papa from 'papaparse';
import { expect } from 'vitest';
import type { Cell } from '../../src/tables/cells.js';
import { SheetDraft } from '../../src/workbook/model.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';

/** Waits for what a busy machine may take long to show. */
export const soon = <T>(read: () => T) => expect.poll(read, { timeout: 150_000 });

export interface Desk {
  page: Page;
  /** errors of the page and its console */
  complaints: string[];
  /** addresses of other servers that were asked */
  foreign: string[];
  close(): Promise<void>;
}

/** Opens the desk in a browser window of its own; it begins with the sample planned. */
export async function openDesk(
  browser: Browser,
  url: string,
  options: BrowserContextOptions = {},
): Promise<Desk> {
  const viewport = { width: 1280, height: 900 };
  // the offline worker has tests of its own
  const given = { viewport, acceptDownloads: true, serviceWorkers: 'block' as const, ...options };
  const context = await browser.newContext(given);
  const page = await context.newPage();
  const complaints: string[] = [];
  const foreign: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('request', (request) => {
    const address = request.url();
    if (!address.startsWith(url) && !/^(data|blob):/.test(address)) foreign.push(address);
  });
  // from now on the browser asks here for files: told only as one is asked for, it may ask too early on a busy machine
  page.on('filechooser', () => undefined);
  await page.goto(`${url}desk.html`);
  await page.waitForFunction(() => window.soakbook !== undefined);
  await page.evaluate(() => window.soakbook.ready);
  return { page, complaints, foreign, close: () => context.close() };
}

/** The line that is read aloud. */
export const told = (page: Page): Promise<string> => page.locator('#told').innerText();
export const sheets = (page: Page): Promise<string[]> =>
  page.evaluate(() => window.soakbook.openSheets());
export const press = (page: Page, name: string | RegExp): Promise<void> =>
  page.getByRole('button', { name, exact: typeof name === 'string' }).click();

/** Starts the building and presses Cancel as soon as the first sheet is being written: sooner than a hand could. */
export async function buildAndCancel(page: Page): Promise<void> {
  const cancelled = page.evaluate(
    () =>
      new Promise<void>((resolve) => {
        const inside = document.querySelector('sb-panel')!.shadowRoot!;
        const line = inside.querySelector('#told')!;
        new MutationObserver((_, observer) => {
          if (!/^Writing sheet [3-9] of/.test(line.textContent ?? '')) return;
          observer.disconnect();
          const step = inside.querySelector('sb-build')!.shadowRoot!;
          const part = step.querySelector('sb-build-sheets')!.shadowRoot!;
          part.querySelector<HTMLElement>('#cancel-build')!.click();
          resolve();
        }).observe(line, { childList: true, characterData: true, subtree: true });
      }),
  );
  await press(page, 'Build the sheets');
  await cancelled;
}

export interface GivenFile {
  name: string;
  bytes: Uint8Array | string;
}

/** Picks a file behind the button at the top; `press` opens the choice. */
export async function pick(page: Page, { name, bytes }: GivenFile, open: () => Promise<void>) {
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), open()]);
  const buffer = typeof bytes === 'string' ? Buffer.from(bytes) : Buffer.from(bytes);
  await chooser.setFiles({ name, mimeType: 'application/octet-stream', buffer });
}

/** Lets a file go over the grid, as dragged from a folder. */
export async function drop(page: Page, { name, bytes }: GivenFile): Promise<void> {
  const base64 = Buffer.from(bytes).toString('base64');
  await page.evaluate(
    ([title, packed]) => {
      const raw = Uint8Array.from(atob(packed!), (c) => c.charCodeAt(0));
      const dataTransfer = new DataTransfer();
      dataTransfer.items.add(new File([raw], title!));
      const over = document.querySelector('#grid canvas') ?? document.querySelector('#grid')!;
      for (const type of ['dragover', 'drop'])
        over.dispatchEvent(
          new DragEvent(type, { dataTransfer, bubbles: true, cancelable: true, composed: true }),
        );
    },
    [name, base64] as const,
  );
}

/** Saves a file of the plan; `ask` presses its button. Gives where it lies, in `folder`. */
export async function save(page: Page, folder: string, ask: () => Promise<void>): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent('download', { timeout: 90_000 }), ask()]);
  const path = join(folder, download.suggestedFilename());
  await download.saveAs(path);
  return path;
}

/** What has the focus, through all elements: its tag, then its name. */
export const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    let at = document.activeElement;
    while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
    const labels = at instanceof HTMLInputElement || at instanceof HTMLSelectElement ? at.labels : null; // prettier-ignore
    const name = at?.getAttribute('aria-label') ?? labels?.[0]?.textContent ?? at?.textContent ?? ''; // prettier-ignore
    return `${at?.tagName.toLowerCase()} ${name.trim().replace(/\s+/g, ' ')}`;
  });

/** Presses Tab until what is wanted has the focus. @throws Error if it is not reached */
export async function tabTo(page: Page, wanted: RegExp, most = 150): Promise<void> {
  const passed: string[] = [];
  for (let i = 0; i < most; i++) {
    const at = await focused(page);
    if (wanted.test(at)) return;
    passed.push(at);
    await page.keyboard.press('Tab');
  }
  throw new Error(`${wanted} is not reached; passed: ${passed.slice(-60).join(' | ')}`);
}

export const asCsv = (cells: readonly (readonly Cell[])[]): string =>
  Papa.unparse(cells.map((row) => [...row]));

/** A workbook with one sheet, as an office's own program would save it. */
export function asXlsx(sheet: string, cells: readonly (readonly Cell[])[]): Promise<Uint8Array> {
  const draft = new SheetDraft(sheet, sheet);
  draft.text(cells.map((row) => row.map((value) => ({ value }))));
  const sheets = [draft.done()];
  return writeXlsx({ title: sheet, description: sheet, madeOn: 46000, paper: 'a4', names: {}, sheets }); // prettier-ignore
}

/** A folder for what is saved, gone afterwards. */
export function saveFolder(): { folder: string; clear: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'soakbook-flow-'));
  return { folder, clear: () => rmSync(folder, { recursive: true, force: true }) };
}
