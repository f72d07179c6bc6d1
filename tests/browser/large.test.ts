/** 5,000 rows on the desk, opened, planned and saved: the page answers meanwhile, and every row is in the file. */
import { mkdirSync, writeFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { letter } from '../../src/workbook/model.js';
import { benchTable } from '../bench/workbook.js';
import { skipWithout } from '../workbook/programs.js';
import {
  asCsv,
  openDesk,
  pick,
  press,
  save,
  saveFolder,
  soon,
  told,
  type Desk,
} from './desk-walk.js';
import { textOf } from './panel-text.js';
import { savedPlan } from './saved-files.js';
import { root, started } from './started.js';

// the grid works out 20,000 live cells once they are asked for
vi.setConfig({ testTimeout: 240_000 });

const ROWS = 5000;
/** 0-based first column beside the table, where the live ones begin. */
const LIVE_FROM = benchTable(1)[0]!.length;
/**
 * Longest time the page may draw nothing [ms]. Without workers reading, planning and writing took it tens of seconds;
 * two seconds leave room for a busy machine.
 */
const LONGEST_GAP = 2000;
/** The grid finds out in one piece which of 20,000 formulas follow from which: 1.5 s with two other tests at work [ms]. */
const LONGEST_OPENING_GAP = 4000;
/** The grid works 20,000 formulas out in one go, 1.7 s on a quiet machine; a freeze is what this is to find. */
const LONGEST_LIVE_GAP = 10_000;

const { folder, clear } = saveFolder();
let server: Server;
let browser: Browser;
let desk: Desk;

interface Watched {
  gaps: { mark(): number };
}
/** Counts the time between frames from now on; `mark` gives the longest and begins anew [ms]. */
const watchFrames = (): Promise<void> =>
  desk.page.evaluate(() => {
    let last = performance.now();
    let longest = 0;
    const frame = (now: number): void => {
      longest = Math.max(longest, now - last);
      last = now;
      requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
    (window as unknown as Watched).gaps = {
      mark: () => {
        const found = longest;
        longest = 0;
        return found;
      },
    };
  });
const longestGap = (): Promise<number> =>
  desk.page.evaluate(() => (window as unknown as Watched).gaps.mark());

beforeAll(async () => {
  let url: string;
  ({ server, browser, url } = await started());
  desk = await openDesk(browser, url);
  await watchFrames();
});
afterAll(async () => {
  await browser?.close();
  server?.close();
  clear();
});

describe('5,000 rows', () => {
  const gaps: Record<string, number> = {};

  it('open, and the panel has read them while the page goes on drawing', async () => {
    const { page } = desk;
    await longestGap();
    const bytes = asCsv(benchTable(ROWS));
    await pick(page, { name: 'five thousand.csv', bytes }, () =>
      page.getByLabel('Open a file', { exact: true }).click(),
    );
    await soon(() => textOf(page.locator('#place'))).toContain('rows read 5,000 can be planned 5,000'); // prettier-ignore
    gaps['opening'] = await longestGap();
    expect(gaps['opening']).toBeLessThan(LONGEST_OPENING_GAP);
  });

  it('get live figures where they are asked for, worked out by the grid', async () => {
    const { page } = desk;
    await press(page, 'Show live figures beside the list');
    // the last row's last live cell is the last to be worked out
    const [sheet, last] = ['five thousand', `${letter(LIVE_FROM + 3)}${ROWS + 1}`];
    await soon(() => desk.page.evaluate(([s, a]) => window.soakbook.show(s!, a!), [sheet, last])).toBeGreaterThan(0); // prettier-ignore
    gaps['live figures'] = await longestGap();
    expect(gaps['live figures']).toBeLessThan(LONGEST_LIVE_GAP);
  });

  it('are planned while the page goes on drawing', async () => {
    const { page } = desk;
    await press(page, /^5 Build/);
    await page.getByRole('button', { name: 'Plan the season' }).waitFor();
    await page.waitForTimeout(500);
    await longestGap();
    await press(page, 'Plan the season');
    await soon(() => told(page)).toMatch(
      /^Season .*(is planned|planned, but \d+ days? do(es)? not fit)\.$/,
    );
    gaps['planning'] = await longestGap();
    expect(gaps['planning']).toBeLessThan(LONGEST_GAP);
  });

  it.skipIf(skipWithout('openpyxl'))('are all in the saved workbook, written while the page goes on drawing', async () => {
    const { page } = desk;
    await page.waitForTimeout(500);
    await longestGap();
    const path = await save(page, folder, () => press(page, 'Save: Workbook (.xlsx)'));
    gaps['saving'] = await longestGap();
    expect(gaps['saving']).toBeLessThan(LONGEST_GAP);
    const book = savedPlan(path);
    expect(book.trees).toBe(ROWS);
    expect(book.differences.filter((gap) => gap !== 0)).toEqual([]);
  }); // prettier-ignore

  it('nothing was complained about; the longest gaps are noted', () => {
    expect(desk.complaints).toEqual([]);
    mkdirSync(join(root, 'out'), { recursive: true });
    writeFileSync(join(root, 'out', 'frame-gaps.json'), JSON.stringify(gaps));
  });
});
