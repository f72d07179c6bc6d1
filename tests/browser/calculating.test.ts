/** Planning is asked for in the same moment as a cell is changed: the plan is one of what stands there by then, and stays. */
import type { Server } from 'node:http';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { TREES } from '../taskpane/panel-host.js';
import { asXlsx, openDesk, pick, press, soon, told } from './desk-walk.js';
import { textOf } from './panel-text.js';
import { started } from './started.js';

let server: Server;
let browser: Browser;
let url: string;

beforeAll(async () => {
  ({ server, browser, url } = await started());
}, 300_000);
afterAll(async () => {
  await browser?.close();
  server?.close();
});

/** Longer than the grid takes to tell the panel of a change [ms]. */
const LATER = 3000;

describe('a list that is changed and planned at once', () => {
  it('is planned with the change and with what its formulas give then', async () => {
    const desk = await openDesk(browser, url);
    const { page } = desk;
    const bytes = await asXlsx('Street', TREES);
    await pick(page, { name: 'street.xlsx', bytes }, () => press(page, 'Open a file'));
    await soon(() => page.evaluate(() => window.soakbook.openSheets())).toContain('Street');
    // the panel, too, has begun anew
    await soon(() => told(page)).toBe('');
    await page.locator('[data-place=build]').click();
    const summary = () => textOf(page.locator('sb-build-summary').first());
    const plannedAfter = async (change: () => Promise<unknown>): Promise<string> => {
      const changed = change();
      await press(page, 'Plan the season');
      await changed;
      await soon(() => told(page)).toMatch(/is planned\.$/);
      const planned = await summary();
      await page.waitForTimeout(LATER);
      expect(await told(page)).toMatch(/is planned\.$/);
      expect(await summary()).toBe(planned);
      return planned;
    };
    const as = await plannedAfter(() => Promise.resolve());
    const formula = await plannedAfter(() =>
      page.evaluate(() => window.soakbook.write('Street', 'C3', '=C2*4')),
    );
    expect(formula, 'the second tree is 8 in instead of 3').not.toBe(as);
    const follows = await plannedAfter(() =>
      page.evaluate(() => window.soakbook.write('Street', 'C2', 3)),
    );
    expect(follows, 'and 12 in, by its formula').not.toBe(formula);
    expect(desk.complaints).toEqual([]);
    await desk.close();
  }, 300_000);
});
