/** Sheets built from a plan that is made again otherwise: said on the desk, also after the workbook was saved and opened again. */
import { mkdirSync, readFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { TREES } from '../taskpane/panel-host.js';
import { asXlsx, focused, openDesk, pick, press, save, saveFolder, sheets, soon, told, type Desk } from './desk-walk.js'; // prettier-ignore
import { overhang, setWidth, violations, withAxe } from './panel-look.js';
import { textOf } from './panel-text.js';
import { root, started } from './started.js';

const out = join(root, 'out');
const { folder, clear } = saveFolder();
let server: Server;
let browser: Browser;
let desk: Desk;

beforeAll(async () => {
  mkdirSync(out, { recursive: true });
  let url: string;
  ({ server, browser, url } = await started());
  desk = await openDesk(browser, url);
}, 300_000);
afterAll(async () => {
  await browser?.close();
  server?.close();
  clear();
});

const page = () => desk.page;
const set = () => page().locator('.set').first();
const standing = () => textOf(set().locator('[data-of]'));
const buildLine = () => textOf(page().locator('[data-place=build] .line'));
const open = (name: string, bytes: Uint8Array) =>
  pick(page(), { name, bytes }, () => press(page(), 'Open a file'));
const to = (place: string) => page().locator(`[data-place=${place}]`).click();

describe('sheets built on the desk', () => {
  let before: string[];
  let built: string[];

  it('are of the plan as it stands when they are written; the way back has the focus', async () => {
    await open('street.xlsx', await asXlsx('Street', TREES));
    await soon(() => textOf(page().locator('#place'))).toContain('can be planned 2');
    await to('build');
    await press(page(), 'Plan the season');
    await soon(() => told(page())).toMatch(/is planned\.$/);
    await page().locator('#native').check();
    await page().locator('#with-log').check();
    before = await sheets(page());
    await press(page(), 'Build the sheets');
    await soon(() => told(page())).toMatch(/^\d+ sheets written, from “/);
    built = await sheets(page());
    expect(await standing()).toBe('Of the plan as it stands.');
    expect(await focused(page())).toMatch(/^button Undo build\. Takes away \d+ sheets: /);
    expect(await buildLine()).toMatch(/planned/);
    expect(await buildLine()).not.toContain('earlier');
  }, 300_000);

  it('are of an earlier plan when the season’s end is changed: said aloud, in the list of steps, and beside them', async () => {
    await to('site');
    const end = page().locator('sb-site-field[data-key=seasonTo] #value');
    await end.fill('2027-08-31');
    await end.press('Tab');
    await soon(() => told(page())).toBe('Something the plan is made from has changed. Plan again to see the effect. Sheets in this workbook are of the plan before: Build lists them.');
    expect(await buildLine()).toContain('changed since: plan again; sheets of an earlier plan');
    await to('build');
    expect(await standing()).toBe('Of an earlier plan, made before a change of the site (Season to).');
  }, 120_000); // prettier-ignore

  it.each([
    ['en', 'light'],
    ['es', 'dark'],
  ] as const)('are listed without anything axe objects to, within 320 and 450 px: %s, %s', async (language, colorScheme) => {
    await withAxe(page());
    await page().emulateMedia({ colorScheme });
    await page().locator('#language').selectOption(language);
    if (language === 'es')
      await soon(standing).toBe('De un plan anterior, hechas antes de un cambio en el sitio (Temporada hasta).');
    for (const width of [320, 450]) {
      await setWidth(page(), width);
      expect(await overhang(page()), `at ${width}`).toBeLessThanOrEqual(0);
      await page().locator('#built').scrollIntoViewIfNeeded();
      await page().locator('#panel').screenshot({ path: join(out, `built-${width}-${colorScheme}-${language}.png`) });
    }
    expect(await violations(page())).toEqual([]);
    await page().locator('#language').selectOption('en');
    await page().emulateMedia({ colorScheme: 'light' });
  }, 120_000); // prettier-ignore

  it('are known again in the workbook that was saved, and a sheet of a person’s own is not taken for one', async () => {
    await press(page(), 'Plan the season');
    await soon(() => told(page())).toMatch(/is planned\.$/);
    const path = await save(page(), folder, () => press(page(), 'Save: Download the open workbook'));
    await open('workbook.xlsx', readFileSync(path));
    // the sheets of before have the same names: only the panel tells that it has begun anew
    await soon(() => told(page())).toBe('');
    await soon(() => sheets(page())).toEqual(expect.arrayContaining(['Street', 'Plan', 'Log']));
    await to('build');
    await soon(standing).toBe('Of an earlier plan, made before a change of the site (Season to).');
    await soon(buildLine).toContain('sheets of an earlier plan');
    const names = await set().locator('details p').textContent();
    expect(names).toContain('Plan, Calendar');
    expect(names).not.toContain('Street');
  }, 300_000); // prettier-ignore

  it('are built again in their place, and taken away then', async () => {
    await page().locator('#build-again').click();
    await soon(() => told(page())).toMatch(/^\d+ sheets built again in place of the old, from “About” on\.$/);
    expect((await sheets(page())).toSorted()).toEqual(built.toSorted());
    expect(await standing()).toBe('Of the plan as it stands.');
    expect(await page().locator('.set').count()).toBe(1);
    expect(await focused(page())).toMatch(/^button Build again in its place/);
    await page().locator('#undo-build').click();
    await soon(() => told(page())).toMatch(/^\d+ sheets taken away\.$/);
    expect((await sheets(page())).toSorted()).toEqual(before.toSorted());
    expect(await page().locator('#built').count()).toBe(0);
    expect(await focused(page())).toMatch(/^button Build the sheets/);
  }, 300_000); // prettier-ignore

  it('make the page complain about nothing', () => {
    expect(desk.complaints).toEqual([]);
  });
});
