/**
 * What a newcomer types into the panel before planning, with the keyboard as people do: days straight through, numbers while
 * something else is being read. Common practice, no source.
 */
import { mkdirSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PanelShell } from '../../src/taskpane/panel-shell.js';
import { overhang, setWidth, violations, withAxe } from './panel-look.js';
import { openedDesk } from './open-desk.js';
import { root } from './started.js';

const out = join(root, 'out');
let server: Server;
let browser: Browser;
let page: Page;
const complaints: string[] = [];
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 20_000 });
const enter = (place: string) => page.locator(`[data-place=${place}]`).click();
const site = (key: string) => page.locator(`sb-site-field[data-key=${key}]`);
const state = <T>(read: (panel: PanelShell) => T): Promise<T> =>
  page.evaluate(`(${read.toString()})(document.querySelector('sb-panel'))`);
const told = () => page.locator('#told').innerText();
/** Types a day straight through, from its first part. */
async function typeDay(selector: string, digits: string): Promise<void> {
  await page.locator(selector).blur();
  await page.locator(selector).focus();
  await page.keyboard.type(digits, { delay: 40 });
}

beforeAll(async () => {
  mkdirSync(out, { recursive: true });
  ({ server, browser, page } = await openedDesk(complaints));
  await withAxe(page);
});
afterAll(async () => {
  await browser?.close();
  server?.close();
});

describe('a day that is typed straight through', () => {
  const FROM = 'sb-site-field[data-key=seasonFrom] input';
  const TO = 'sb-site-field[data-key=seasonTo] input';
  const season = () => state(({ session }) => [session.draft.site.seasonFrom, session.draft.site.seasonTo]); // prettier-ignore

  it('keeps all its digits, also right after another change', async () => {
    await enter('site');
    await typeDay(FROM, '05032027');
    await typeDay(TO, '10152027');
    // readings of both changes end while nothing more is typed
    await page.waitForTimeout(300);
    expect(await page.locator(TO).inputValue()).toBe('2027-10-15');
    await page.locator(TO).blur();
    await soon(season).toEqual(['2027-05-03', '2027-10-15']);
  });

  it('is neither taken nor written over by readings that end while it is typed', async () => {
    await typeDay(TO, '0820');
    await state(({ session }) => session.refresh());
    await page.keyboard.type('20', { delay: 40 });
    await state(({ session }) => session.refresh());
    await page.keyboard.type('27', { delay: 40 });
    expect(await season()).toEqual(['2027-05-03', '2027-10-15']);
    expect(await page.locator(TO).inputValue()).toBe('2027-08-20');
    await page.keyboard.press('Enter');
    await soon(season).toEqual(['2027-05-03', '2027-08-20']);
  });

  it('stays a day field where the season would end before it starts, and says so', async () => {
    await typeDay(TO, '04022027');
    await page.locator(TO).blur();
    await soon(() => site('seasonTo').locator('#trouble').innerText()).toContain('before it starts'); // prettier-ignore
    expect(await page.locator(TO).getAttribute('type')).toBe('date');
    await typeDay(TO, '10152027');
    await page.locator(TO).blur();
    await soon(() => site('seasonTo').locator('#trouble').count()).toBe(0);
  });

  it('of a year that makes no sense is refused in a sentence', async () => {
    await typeDay(TO, '101527');
    await page.locator(TO).blur();
    await soon(() => site('seasonTo').locator('#trouble').innerText()).toMatch(/0027-10-15.*accepted is a date from 1990-01-01 to 2100-12-31/); // prettier-ignore
    await page.locator(TO).fill('2027-10-15');
    await soon(() => site('seasonTo').locator('#trouble').count()).toBe(0);
  });

  it('that is left before it is whole is not taken, and that is said', async () => {
    await page.locator(TO).focus();
    await page.keyboard.press('Delete');
    await page.locator(TO).blur();
    await soon(() => site('seasonTo').getByRole('alert').innerText()).toContain('no whole day');
    expect(await season()).toEqual(['2027-05-03', '2027-10-15']);
    await soon(() => page.locator(TO).inputValue()).toBe('2027-10-15');
  });
});

describe('other fields that are typed in', () => {
  it('a number stays while a reading ends', async () => {
    const zone = site('zone').locator('input');
    await zone.fill('');
    await zone.press('1');
    await state(({ session }) => session.refresh());
    await zone.press('0');
    expect(await zone.inputValue()).toBe('10');
    await zone.press('Tab');
    await soon(() => state(({ session }) => session.draft.site.zone)).toBe(10);
  });

  it('a month of the weather stays while the months are read anew', async () => {
    await page.locator('#et0-4').fill('0.3');
    await site('latitude').locator('input').fill('-33');
    await site('latitude').locator('input').blur();
    await soon(() => state(({ session }) => session.draft.site.latitude)).toBe(-33);
    expect(await page.locator('#et0-4').inputValue()).toBe('0.3');
  });

  it('a device stays the same device when the units change under its form', async () => {
    const value = (key: string) => page.locator(`sb-device-form #${key}`).inputValue();
    const unit = (key: string) => page.locator('sb-device-form .line', { has: page.locator(`#${key}`) }).locator('.unit').innerText(); // prettier-ignore
    await enter('kit');
    // the example kit is written in the units of the panel
    await page.locator('#kit-example').click();
    await page.getByRole('button', { name: 'More of example bag' }).click();
    await page.locator('sb-device-form #volume').fill('100');
    await page.locator('sb-device-form #price').fill('80');
    expect(await unit('volume')).toBe('gal');
    await page.locator('#units').selectOption('SI');
    await soon(() => unit('volume')).toBe('L');
    expect([await value('volume'), await value('price')]).toEqual(['378.541', '80']);
    // a field that comes back is in the new units too
    await page.locator('sb-device-form #family').selectOption('hand');
    await soon(() => page.locator('sb-device-form #volume').count()).toBe(0);
    await page.locator('sb-device-form #family').selectOption('bag');
    await soon(() => value('volume')).toBe('56.7812');
    await page.locator('#units').selectOption('US');
    await soon(() => value('volume')).toBe('15');
    await page.locator('sb-device-form #cancel').click();
  });

  it('a device keeps its numbers by name when its family changes', async () => {
    await enter('kit');
    await page.locator('#add-bag').click();
    await page.locator('sb-device-line').last().locator('#more').click();
    await page.locator('sb-device-form #volume').fill('15');
    await page.locator('sb-device-form #family').selectOption('hand');
    await soon(() => page.locator('sb-device-form #volume').count()).toBe(0);
    expect(await page.locator('sb-device-form #flow').inputValue()).toBe('');
    await page.locator('#cancel').click();
  });
});

describe('before anything fails', () => {
  it('the rules say what can stand in each column, with an example', async () => {
    await enter('rules');
    const columns = page.locator('#columns');
    expect(await columns.getAttribute('open')).toBe(null);
    await columns.locator('summary').click();
    expect(await columns.locator('dt').count()).toBe(22);
    expect(await columns.locator('dt', { hasText: 'Hours' }).innerText()).toContain('before 9 am or after 7 pm'); // prettier-ignore
  });

  it.each(['en', 'es'])('Trees, Site, Rules and Kit fit 350 and 450 px and have nothing axe objects to: %s', async (language) => {
    await page.locator('#language').selectOption(language);
    for (const step of ['trees', 'site', 'rules', 'kit']) {
      await enter(step);
      if (step === 'rules' && language === 'es') await page.locator('#columns summary').click();
      for (const width of [350, 450]) {
        await setWidth(page, width);
        await expect.poll(() => overhang(page), { message: `${step} at ${width}` }).toBeLessThanOrEqual(0);
        await page.locator('#panel').screenshot({ path: join(out, `inputs-${step}-${width}-${language}.png`) });
      }
      expect(await violations(page), step).toEqual([]);
    }
    await setWidth(page, undefined);
    await page.locator('#language').selectOption('en');
  }, 120_000); // prettier-ignore
});

describe('the days of the files', () => {
  it('are typed straight through, and refused outside the plan', async () => {
    await enter('site');
    await page.locator('sb-site-field[data-key=seasonTo] input').fill('2027-09-30');
    await site('latitude').locator('input').fill('33.4');
    await site('latitude').locator('input').blur();
    await enter('build');
    await page.locator('#plan').click();
    await expect.poll(() => page.locator('#from').count(), { timeout: 120_000 }).toBe(1);
    await typeDay('#from', '07012027');
    await page.locator('#from').blur();
    await page.waitForTimeout(100);
    expect(await page.locator('#from').inputValue()).toBe('2027-07-01');
    await typeDay('#from', '07012026');
    await page.locator('#from').blur();
    await soon(() => page.locator('#wrong-days').innerText()).toContain('Take days within it');
    await page.locator('#save-crew-pdf').click();
    await soon(told).toContain('are not all in the plan');
    // they are asked for still when it is planned again
    await typeDay('#from', '07012027');
    await enter('site');
    await page.locator('sb-site-field[data-key=seasonTo] input').fill('2027-09-15');
    await page.locator('sb-site-field[data-key=seasonTo] input').blur();
    await enter('build');
    await page.locator('#plan').click();
    await expect.poll(() => page.locator('#to').count().then(async (n) => (n === 1 ? page.locator('#to').inputValue() : '')), { timeout: 120_000 }).toBe('2027-09-15'); // prettier-ignore
    expect(await page.locator('#from').inputValue()).toBe('2027-07-01');
  }, 240_000);
});

it('the page complains about nothing', () => {
  expect(complaints).toEqual([]);
});
