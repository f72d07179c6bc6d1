/** A workbook somebody has worked on outlives a reload and a closed tab, and is forgotten when they say so. */
import { mkdirSync, readFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import { unzipSync } from 'fflate';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { TREES } from '../taskpane/panel-host.js';
import { asXlsx, focused, openDesk, pick, press, save, saveFolder, sheets, soon, tabTo, told, type Desk } from './desk-walk.js'; // prettier-ignore
import { noteComplaints, openOver } from './open-desk.js';
import { overhang, setWidth, violations, withAxe } from './panel-look.js';
import { textOf } from './panel-text.js';
import { root, started } from './started.js';

const out = join(root, 'out');
const { folder, clear } = saveFolder();
const MOMENT = '\\w{3} \\d+ \\w{3} \\d{4}, \\d\\d:\\d\\d';
const SAVE = 'Save: Download the open workbook';
let server: Server;
let browser: Browser;
let url: string;

beforeAll(async () => {
  mkdirSync(out, { recursive: true });
  ({ server, browser, url } = await started());
}, 300_000);
afterAll(async () => {
  await browser?.close();
  server?.close();
  clear();
});

const ready = async (page: Page): Promise<void> => {
  await page.waitForFunction(() => window.soakbook !== undefined);
  await page.evaluate(() => window.soakbook.ready);
};
const open = async (page: Page, name: string, cells = TREES, overWork = false): Promise<void> => {
  const bytes = await asXlsx('Street', cells);
  const give = () => pick(page, { name, bytes }, () => press(page, 'Open a file'));
  await (overWork ? openOver(page, name, give) : give());
  await soon(() => page.evaluate(() => window.soakbook.openSheets())).toContain('Street');
  // the panel, too, has begun anew
  await soon(() => told(page)).toBe('');
};
const line = (page: Page) => page.locator('#kept-found');
const foot = (page: Page) => textOf(page.locator('#kept-copy'));
const isKept = (page: Page) => soon(() => foot(page)).toMatch(new RegExp(`^A copy of this workbook is kept in this browser, as of ${MOMENT}\\.`)); // prettier-ignore
const write = (page: Page, sheet: string, address: string, value: string | number) =>
  page.evaluate(([s, a, v]) => window.soakbook.write(s, a, v), [sheet, address, value] as const);
const shown = (page: Page, sheet: string, address: string) =>
  page.evaluate(([s, a]) => window.soakbook.show(s, a), [sheet, address] as const);
const formula = (page: Page, sheet: string, address: string) =>
  page.evaluate(([s, a]) => window.soakbook.formula(s, a), [sheet, address] as const);
const writeTwice = async (page: Page, value: number): Promise<void> => {
  await write(page, 'Street', 'C2', value);
  // the time is in minutes: what is kept is read from the store itself
  await soon(() => keptText(page)).toContain(`"v":${value}`);
};
/** Everything that is kept in the browser, as one text. */
const keptText = (page: Page): Promise<string> =>
  page.evaluate(async () => {
    const asked = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error ?? new Error('store'));
      });
    const database = await asked(indexedDB.open('soakbook'));
    const transaction = database.transaction(['head', 'parts']);
    const [head, parts] = await Promise.all(
      ['head', 'parts'].map((name) => asked(transaction.objectStore(name).getAll())),
    );
    database.close();
    return head!.length === 0 && parts!.length === 0 ? '' : [JSON.stringify(head), ...parts!].join('\n');
  }); // prettier-ignore

/** Names of the parts of a saved workbook. */
const partsOf = async (path: string): Promise<string[]> =>
  Object.keys(unzipSync(new Uint8Array(readFileSync(path)))).toSorted();

/** Reloads as F5 does; gives whether the browser asked first. */
async function reloaded(page: Page): Promise<boolean> {
  let asked = false;
  page.once('dialog', (dialog) => {
    asked = dialog.type() === 'beforeunload';
    void dialog.accept();
  });
  await page.reload();
  await ready(page);
  page.removeAllListeners('dialog');
  return asked;
}
/** Browsers ask those only who have touched the page. */
const touch = (page: Page): Promise<void> => page.locator('#sheet-line').click();

describe('leaving the desk', () => {
  let desk: Desk;
  beforeAll(async () => {
    desk = await openDesk(browser, url);
  }, 120_000);
  afterAll(() => desk?.close());

  it('is not asked about with the sample as it came, looked at in another language', async () => {
    const { page } = desk;
    await touch(page);
    await page.locator('[data-place=site]').click();
    await page.locator('#language').selectOption('es');
    await page.locator('#language').selectOption('en');
    await page.mouse.click(300, 400);
    expect(await reloaded(page)).toBe(false);
    expect(await line(page).count()).toBe(0);
    expect(await keptText(page)).toBe('');
    expect(await foot(page)).toContain('A workbook you open or change is kept in this browser');
  }, 120_000);

  it('is asked about after a setting of the site, and the sample with it is then offered', async () => {
    const { page } = desk;
    await page.locator('[data-place=site]').click();
    const end = page.locator('sb-site-field[data-key=seasonTo] #value');
    await end.fill('2027-08-31');
    await end.press('Tab');
    await isKept(page);
    expect(await reloaded(page)).toBe(true);
    await soon(() => textOf(line(page))).toMatch(new RegExp(`^“harbour-row-trees.csv”, as of ${MOMENT}:$`)); // prettier-ignore
  }, 120_000);

  it('does not put the new sample in its place before that is answered, and says so', async () => {
    const { page } = desk;
    await write(page, 'Inputs', 'B2', 0.3);
    await soon(() => textOf(page.locator('#kept-waits'))).toBe('What you change on the sample is not kept until you open or forget this workbook.'); // prettier-ignore
    await page.waitForTimeout(2500);
    expect(await keptText(page)).toContain('2027-08-31');
    expect(await keptText(page)).not.toContain('"v":0.3}');
    await openOver(page, 'harbour-row-trees.csv', () => press(page, /^Open it again/));
    await soon(() => told(page)).toMatch(/^“harbour-row-trees.csv” is open again, as of/);
    await page.locator('[data-place=site]').click();
    const end = page.locator('sb-site-field[data-key=seasonTo] #value');
    expect(await end.inputValue()).toBe('2027-08-31');
    expect(desk.complaints).toEqual([]);
  }, 120_000);

  it('is asked about a changed file, and not after the open workbook was saved', async () => {
    const { page } = desk;
    // the sample with a setting of its own was never saved
    await open(page, 'street.xlsx', TREES, true);
    await isKept(page);
    await touch(page);
    expect(await reloaded(page), 'opened and left as it was').toBe(false);
    await press(page, /^Open it again/);
    await soon(() => told(page)).toMatch(/^“street.xlsx” is open again/);
    await writeTwice(page, 4.25);
    await page.locator('[data-place=build]').click();
    await press(page, 'Plan the season');
    await soon(() => told(page)).toMatch(/is planned\.$/);
    await save(page, folder, () => press(page, SAVE));
    await soon(() => told(page)).toMatch(/^Saved|saved/);
    expect(await reloaded(page), 'saved').toBe(false);
    await press(page, /^Open it again/);
    await soon(() => shown(page, 'Street', 'C2')).toBe(4.25);
    await writeTwice(page, 4.5);
    expect(await reloaded(page), 'changed again').toBe(true);
  }, 240_000);
});

describe('a kept workbook', () => {
  let desk: Desk;
  beforeAll(async () => {
    desk = await openDesk(browser, url);
  }, 120_000);
  afterAll(() => desk?.close());
  const set = () => desk.page.locator('.set').first();
  const standing = () => textOf(set().locator('[data-of]'));
  let before: string[];
  let saved: unknown;
  const summary = () => textOf(desk.page.locator('sb-build-summary').first());

  it('opens as it was: formulas, settings, plan, built sheets and what they are of', async () => {
    const { page } = desk;
    await open(page, 'street.xlsx');
    await page.locator('[data-place=trees]').click();
    await press(page, 'Show live figures beside the list');
    await soon(() => sheets(page)).toEqual(['Street', 'Inputs']);
    await soon(() => formula(page, 'Street', 'F2')).toContain('SOAK.ROOTZONE_VOLUME(');
    await write(page, 'Street', 'C3', '=C2*2');
    await write(page, 'Inputs', 'B2', 0.31);
    await page.locator('[data-place=site]').click();
    const end = page.locator('sb-site-field[data-key=seasonTo] #value');
    await end.fill('2027-08-31');
    await end.press('Tab');
    await page.locator('[data-place=build]').click();
    await press(page, 'Plan the season');
    await soon(() => told(page)).toMatch(/is planned\.$/);
    const planned = await summary();
    await press(page, 'Build the sheets');
    await soon(() => told(page)).toMatch(/^\d+ sheets written, from “/);
    before = await sheets(page);
    saved = [await formula(page, 'Street', 'C3'), await shown(page, 'Street', 'C3'), await formula(page, 'Street', 'F2'), await shown(page, 'Street', 'F2'), await shown(page, 'Inputs', 'B2')]; // prettier-ignore
    expect(saved).toContain('=C2*2');
    await soon(() => keptText(page)).toContain('"written-3"');
    expect(await reloaded(page)).toBe(true);
    await press(page, /^Open it again/);
    await soon(() => told(page)).toMatch(/^“street.xlsx” is open again/);
    await soon(() => focused(page)).toMatch(/^h2 /);
    expect(await line(page).count()).toBe(0);
    expect(await sheets(page)).toEqual(before);
    const now = async () => [await formula(page, 'Street', 'C3'), await shown(page, 'Street', 'C3'), await formula(page, 'Street', 'F2'), await shown(page, 'Street', 'F2'), await shown(page, 'Inputs', 'B2')]; // prettier-ignore
    await soon(now).toEqual(saved);
    await page.locator('[data-place=build]').click();
    await soon(standing).toBe('Of what the plan is made from, as it stands.');
    await press(page, 'Plan the season');
    await soon(() => told(page)).toMatch(/is planned\.$/);
    expect(await summary()).toBe(planned);
    expect(planned).not.toBe('');
    expect(await standing()).toBe('Of the plan as it stands.');
    expect(desk.complaints).toEqual([]);
  }, 300_000);

  it('calculates on: a changed cell reaches built sheets, which are then of an earlier plan', async () => {
    const { page } = desk;
    await write(page, 'Street', 'C2', 2.5);
    await soon(() => shown(page, 'Street', 'C3')).toBe(5);
    await page.locator('[data-place=build]').click();
    await soon(standing).toMatch(/^Of an earlier plan, made before a change of the trees/);
  }, 300_000);

  it('gives the same file after a reload, with lists, charts and names', async () => {
    const { page } = desk;
    await soon(() => keptText(page)).toContain('"v":2.5');
    await press(page, 'Plan the season');
    await soon(() => told(page)).toMatch(/is planned\.$/);
    const first = await save(page, folder, () => press(page, SAVE));
    const content = await partsOf(first);
    expect(content.some((name) => name.startsWith('xl/charts/'))).toBe(true);
    await reloaded(page);
    await press(page, /^Open it again/);
    await soon(() => told(page)).toMatch(/is open again/);
    await page.locator('[data-place=build]').click();
    await press(page, 'Plan the season');
    await soon(() => told(page)).toMatch(/is planned\.$/);
    const second = await save(page, folder, () => press(page, SAVE));
    expect(await partsOf(second)).toEqual(content);
  }, 300_000);

  it('has its built sheets taken away with everything that came with them', async () => {
    const { page } = desk;
    await page.locator('#undo-build').click();
    await soon(() => told(page)).toMatch(/^\d+ sheets taken away\.$/);
    expect(await sheets(page)).toEqual(['Street', 'Inputs']);
    await press(page, 'Build the sheets');
    await soon(() => told(page)).toMatch(/^\d+ sheets written, from “/);
    // a name that was left over would have got the new ones a number
    expect(await sheets(page)).toEqual(before);
    await soon(() => keptText(page)).toContain('model-');
    expect(desk.complaints).toEqual([]);
  }, 300_000);
});

describe('a page that is lost while sheets are written', () => {
  it('leaves the workbook as it was before them, and its trees where they were', async () => {
    const desk = await openDesk(browser, url);
    const { page } = desk;
    await open(page, 'street.xlsx');
    await writeTwice(page, 4.25);
    await page.locator('[data-place=build]').click();
    await press(page, 'Plan the season');
    await soon(() => told(page)).toMatch(/is planned\.$/);
    await write(page, 'Street', 'C2', 4.25);
    await press(page, 'Build the sheets');
    await soon(() => told(page)).toMatch(/^Writing sheet ([5-9]|\d\d) of/);
    // hidden pages are often the next to be closed: what is not kept is kept now
    await page.evaluate(() => window.dispatchEvent(new Event('pagehide')));
    await soon(() => told(page)).toMatch(/^Writing sheet ([7-9]|\d\d) of|written/);
    const context = page.context();
    await page.close();
    const again = await context.newPage();
    noteComplaints(again, desk.complaints);
    await again.goto(`${url}desk.html`);
    await ready(again);
    await press(again, /^Open it again/);
    await soon(() => told(again)).toMatch(/^“street.xlsx” is open again/);
    expect(await sheets(again)).toEqual(['Street']);
    expect(await shown(again, 'Street', 'C2')).toBe(4.25);
    await again.locator('[data-place=build]').click();
    await press(again, 'Plan the season');
    await soon(() => told(again)).toMatch(/is planned\.$/);
    expect(desk.complaints).toEqual([]);
    await desk.close();
  }, 300_000);
});

describe('what is offered at the next start', () => {
  let desk: Desk;
  beforeAll(async () => {
    desk = await openDesk(browser, url);
  }, 120_000);
  afterAll(() => desk?.close());

  it('is the workbook as of its last change, by name', async () => {
    const { page } = desk;
    await open(page, 'street.xlsx');
    await isKept(page);
    await reloaded(page);
    await soon(() => textOf(line(page))).toMatch(new RegExp(`^“street.xlsx”, as of ${MOMENT}:$`));
  }, 120_000);

  it.each([
    [1366, 'light', 'en'],
    [900, 'dark', 'es'],
    [1366, 'dark', 'en'],
    [900, 'light', 'es'],
  ] as const)('has nothing axe objects to and fits: %i px, %s, %s', async (width, colorScheme, language) => {
    const { page } = desk;
    await page.setViewportSize({ width, height: 800 });
    await page.emulateMedia({ colorScheme });
    await page.locator('#language').selectOption(language);
    await withAxe(page);
    await soon(() => textOf(line(page))).toMatch(language === 'en' ? /^“street.xlsx”, as of/ : /^«street.xlsx», del/);
    expect(await violations(page)).toEqual([]);
    await page.screenshot({ path: join(out, `kept-${width}-${colorScheme}-${language}.png`) });
    for (const narrow of [320, 450]) {
      await setWidth(page, narrow);
      expect(await overhang(page), `at ${narrow}`).toBeLessThanOrEqual(0);
    }
    await setWidth(page);
    await page.locator('#language').selectOption('en');
    await page.emulateMedia({ colorScheme: 'light' });
  }, 120_000); // prettier-ignore

  it('is the first thing in the panel by keyboard, and is read aloud', async () => {
    const { page } = desk;
    await page.setViewportSize({ width: 1280, height: 900 });
    expect(await line(page).locator('..').getAttribute('role')).toBe('status');
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.keyboard.press('F6');
    if (!/Open it again/.test(await focused(page))) await page.keyboard.press('F6');
    await tabTo(page, /^button Open it again: street.xlsx/, 3);
    await page.keyboard.press('Tab');
    expect(await focused(page)).toBe('button Forget it: street.xlsx');
  }, 120_000);

  it('is gone for good once it is forgotten', async () => {
    const { page } = desk;
    await page.keyboard.press('Enter');
    await soon(() => told(page)).toBe('“street.xlsx” is no longer kept in this browser.');
    expect(await line(page).count()).toBe(0);
    expect(await keptText(page)).toBe('');
    await soon(() => focused(page)).toMatch(/^h2 /);
    await reloaded(page);
    expect(await line(page).count()).toBe(0);
  }, 120_000);

  it('is the file that was opened last', async () => {
    const { page } = desk;
    await open(page, 'first.xlsx');
    await isKept(page);
    await open(page, 'second.xlsx', [TREES[0]!, ['B-9', 'live oak', 2, '9 Hawser Lane']]);
    await soon(() => keptText(page)).toContain('second.xlsx');
    await reloaded(page);
    await soon(() => textOf(line(page))).toContain('second.xlsx');
    expect(await keptText(page)).not.toContain('A-3');
    await press(page, /^Open it again/);
    await soon(() => told(page)).toMatch(/is open again/);
    await soon(() => shown(page, 'Street', 'A2')).toBe('B-9');
  }, 120_000);

  it('is nothing after the copy of the open workbook was forgotten; it is not kept again unless asked', async () => {
    const { page } = desk;
    await page.locator('#forget-copy').click();
    await soon(() => foot(page)).toBe('This workbook is not kept in this browser: save it before you leave.'); // prettier-ignore
    await soon(() => focused(page)).toBe('button Keep a copy');
    await write(page, 'Street', 'C2', 7);
    await page.waitForTimeout(2500);
    expect(await keptText(page)).toBe('');
    await page.keyboard.press('Enter');
    await isKept(page);
    expect(await keptText(page)).toContain('"v":7');
    expect(desk.complaints).toEqual([]);
  }, 120_000);
});

describe('two windows', () => {
  it('keep the workbook of the one that changed last, whole', async () => {
    const desk = await openDesk(browser, url);
    const { page: one } = desk;
    await open(one, 'one.xlsx');
    await isKept(one);
    const two = await one.context().newPage();
    noteComplaints(two, desk.complaints);
    await two.goto(`${url}desk.html`);
    await ready(two);
    await open(two, 'two.xlsx', [TREES[0]!, ['B-9', 'live oak', 2, '9 Hawser Lane']]);
    await soon(() => keptText(two)).toContain('two.xlsx');
    await writeTwice(one, 6.5);
    await writeTwice(two, 8.5);
    // both at once
    await Promise.all([write(one, 'Street', 'C2', 6.75), write(two, 'Street', 'C2', 8.75)]);
    await soon(() => keptText(one)).toMatch(/"v":(?:6|8)\.75/);
    await one.waitForTimeout(2500);
    await writeTwice(one, 7.25);
    const text = await keptText(one);
    expect(text).toContain('one.xlsx');
    expect(text).toContain('A-3');
    expect(text).not.toContain('B-9');
    await reloaded(two);
    await press(two, /^Open it again: one/);
    await soon(() => shown(two, 'Street', 'C2')).toBe(7.25);
    await soon(() => shown(two, 'Street', 'A4')).toBe('A-3');
    expect(desk.complaints).toEqual([]);
    await desk.close();
  }, 240_000);
});

describe('where the browser keeps nothing', () => {
  it.each([
    ['SecurityError', /^This browser keeps no copy of the workbook: it does not let/],
    ['QuotaExceededError', /^This browser has no room left for a copy/],
  ])(
    'a sentence says so once, and everything else goes on: %s',
    async (error, sentence) => {
      const context = await browser.newContext({ serviceWorkers: 'block' });
      const page = await context.newPage();
      const complaints: string[] = [];
      noteComplaints(page, complaints);
      await page.addInitScript((name) => {
        const refuse = (): never => {
          throw new DOMException('refused', name);
        };
        if (name === 'SecurityError') IDBFactory.prototype.open = refuse;
        else IDBObjectStore.prototype.put = refuse;
      }, error);
      await page.goto(`${url}desk.html`);
      await ready(page);
      expect(await page.locator('sb-kept-foot .trouble').count(), 'nothing to keep yet').toBe(0);
      await open(page, 'street.xlsx').catch(() => undefined);
      await soon(() => told(page)).toMatch(sentence);
      await page.locator('[data-place=build]').click();
      await press(page, 'Plan the season');
      await soon(() => told(page)).toMatch(/is planned\.$/);
      await write(page, 'Street', 'C2', 4.25);
      await page.waitForTimeout(2500);
      expect(await told(page), 'said once').not.toMatch(sentence);
      expect(await textOf(page.locator('sb-kept-foot .trouble'))).toMatch(sentence);
      await touch(page);
      expect(await reloaded(page), 'still asked').toBe(true);
      expect(complaints).toEqual([]);
      await context.close();
    },
    240_000,
  );

  it('what is kept but cut off is not opened, with a reason', async () => {
    const desk = await openDesk(browser, url);
    const { page } = desk;
    await open(page, 'street.xlsx');
    await isKept(page);
    await page.evaluate(
      () =>
        new Promise<void>((resolve) => {
          indexedDB.open('soakbook').onsuccess = ({ target }) => {
            const database = (target as IDBOpenDBRequest).result;
            const transaction = database.transaction('parts', 'readwrite');
            transaction.objectStore('parts').put('{"0":{', 'sheet-1/0');
            transaction.oncomplete = () => {
              database.close();
              resolve();
            };
          };
        }),
    );
    await reloaded(page);
    await press(page, /^Open it again/);
    await soon(() => told(page)).toBe('The kept copy of "street.xlsx" cannot be opened: a part of it is cut off; forget it and open the file itself'); // prettier-ignore
    expect(await sheets(page)).toContain('Inputs');
    await press(page, /^Forget it/);
    await soon(() => line(page).count()).toBe(0);
    expect(desk.complaints).toEqual([]);
    await desk.close();
  }, 120_000);
});
