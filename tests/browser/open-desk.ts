/** The desk open in a browser with its sample, as most tests of the panel begin. */
import type { Server } from 'node:http';
import type { Browser, Page } from 'playwright-core';
import { started } from './started.js';

export interface OpenedDesk {
  server: Server;
  browser: Browser;
  page: Page;
}

/**
 * @param complaints - takes what the page complains of, errors of its own and those it prints
 * @returns once the grid has worked out its formulas
 */
export async function openedDesk(complaints: string[]): Promise<OpenedDesk> {
  const { server, browser, url } = await started();
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  noteComplaints(page, complaints);
  await page.goto(`${url}desk.html`);
  await page.waitForFunction(() => window.soakbook !== undefined);
  await page.evaluate(() => window.soakbook.ready);
  return { server, browser, page };
}

/** Opens a file in place of work that is not saved, as a person does who is asked about it and lets it go. */
export async function openOver(
  page: Page,
  next: string,
  give: () => Promise<unknown>,
): Promise<void> {
  await give();
  await page.getByRole('dialog', { name: `Open “${next}”?` }).waitFor({ timeout: 60_000 });
  await page.getByRole('button', { name: 'Open anyway' }).click();
}

/** Errors a page throws or prints. */
export function noteComplaints(page: Page, complaints: string[]): void {
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
}
