/** Build on the desk: the season before anything is written, values tried, sheets written and taken back, files. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import type { Server } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readXlsxSheets } from '../../src/workbook/readers/xlsx.js';
import { overhang, setWidth, violations, withAxe } from './panel-look.js';
import { textOf } from './panel-text.js';
import { openedDesk } from './open-desk.js';
import { root } from './started.js';

const out = join(root, 'out');
const folder = mkdtempSync(join(tmpdir(), 'soakbook-build-'));
let server: Server;
let browser: Browser;
let page: Page;
const complaints: string[] = [];
/** Waits for what a busy machine may take long to show. */
const soon = <T>(read: () => T, timeout = 30_000) => expect.poll(read, { timeout });
const told = () => page.locator('#told').innerText();
const sheets = () => page.evaluate(() => window.soakbook.openSheets());
const open = async (part: string) => {
  const details = page.locator(`details[data-part=${part}]`);
  if ((await details.getAttribute('open')) === null) await details.locator('> summary').click();
};
const number = async (name: RegExp): Promise<number> => {
  const text = await page.locator('#result > div').filter({ hasText: name }).locator('dd').innerText(); // prettier-ignore
  return Number(/[\d,.]+/.exec(text)![0].replaceAll(',', ''));
};
const disabled = (id: string) => page.locator(id).getAttribute('aria-disabled');
/** Moves a slider as a person does, through its values. */
const move = (key: string, ...values: number[]) =>
  page.locator(`#${key}`).evaluate((input: HTMLInputElement, all) => {
    for (const value of all) {
      input.value = String(value);
      input.dispatchEvent(new Event('input', { bubbles: true }));
    }
  }, values);
const resting = () => soon(() => page.locator('#tried progress').count()).toBe(0);

beforeAll(async () => {
  mkdirSync(out, { recursive: true });
  ({ server, browser, page } = await openedDesk(complaints));
  await page.locator('[data-place=build]').click();
  await page.locator('#season figure').waitFor({ timeout: 120_000 });
}, 300_000);

afterAll(async () => {
  await browser?.close();
  server?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('the season before anything is written', () => {
  it('is a picture with its main numbers in words, and no sheet is added by it', async () => {
    const caption = await page.locator('#season figcaption').innerText();
    expect(caption).toMatch(/^The trees would use [\d,]+ gal; the plan waters [\d,]+ gal/);
    expect(await page.locator('#season .drawing').getAttribute('aria-label')).toMatch(/^Chart of 27 weeks/); // prettier-ignore
    expect(caption).toContain((await number(/water in the season/)).toLocaleString('en-US'));
    expect(await page.evaluate(() => window.soakbook.openSheets())).not.toContain('Plan');
  });

  it('leads past the pictures, to writing the sheets and to saving files', async () => {
    for (const [button, heading] of [['#to-sheets', 'Build the sheets'], ['#to-files', 'Save as files']] as const) {
      await page.locator('#panel').evaluate((panel) => panel.scrollTo(0, 0));
      await page.locator(button).focus();
      await page.keyboard.press('Enter');
      const at = await page.evaluate(() => {
        let focused = document.activeElement;
        while (focused?.shadowRoot?.activeElement) focused = focused.shadowRoot.activeElement;
        const told = document.querySelector('sb-panel')!.shadowRoot!.querySelector('#told')!;
        const { top, bottom } = focused!.getBoundingClientRect();
        return { text: focused?.textContent, covered: top < told.getBoundingClientRect().bottom, below: bottom > innerHeight };
      });
      expect(at).toEqual({ text: heading, covered: false, below: false });
    }
    await page.locator('#panel').evaluate((panel) => panel.scrollTo(0, 0));
  }); // prettier-ignore

  it('shows a tree’s water, why its means, and why each of its dates', async () => {
    await open('tree');
    await page.locator('#pick').selectOption({ index: 2 });
    const row = Number(await page.locator('#pick').inputValue());
    await soon(() => page.locator('#water figcaption').innerText()).toMatch(/stays out of stress|is under stress/); // prettier-ignore
    const title = await page.locator('#dates-title').innerText();
    const whys = await page.locator('#dates tbody td[lang=en]').allInnerTexts();
    expect(whys).toHaveLength(Number(/: (\d+) watering/.exec(title)![1]));
    expect(whys.every((why) => /^[A-Z].*\.$/.test(why))).toBe(true);
    await page.locator('#to-row').click();
    // the grid may still be on its way while the panel is already in use
    await soon(async () => {
      await page.locator('#use-chosen').click();
      return page.locator('#pick').inputValue();
    }).toBe(String(row));
  });

  it('says what one change would do, a season at a time', async () => {
    await open('what-if');
    const says = page.evaluate(
      () =>
        new Promise<string>((resolve) => {
          const line = document.querySelector('sb-panel')!.shadowRoot!.querySelector('#told')!;
          new MutationObserver((_, observer) => {
            if (!/ of /.test(line.textContent ?? '')) return;
            observer.disconnect();
            resolve(line.textContent ?? '');
          }).observe(line, { childList: true, characterData: true, subtree: true });
        }),
    );
    await page.locator('#ask-what-if').click();
    expect(await says).toMatch(/^Working out what if … 1 of \d+ seasons\.$/);
    await soon(told).toBe('What if is worked out.');
    const lines = await page.locator('#what-if-lines li').allInnerTexts();
    expect(lines[0]).toMatch(/^The season as it is\s+\d+ stress days/);
    const dry = lines.find((line) => line.startsWith('Rain × 0'))!;
    expect(dry).toMatch(/gal more water/);
  });
});

describe('values that are tried', () => {
  it('plan the season again while they move; the last one wins', async () => {
    await open('trial');
    const before = await number(/waterings/);
    const caption = await page.locator('#season figcaption').innerText();
    await move('depletionNew', 0.25, 0.2, 0.15, 0.1);
    expect(await page.locator('output[for=depletionNew]').innerText()).toBe('0.1');
    await resting();
    const after = await number(/waterings/);
    expect(after).not.toBe(before);
    expect(await page.locator('#season figcaption').innerText()).not.toBe(caption);
    const says = await textOf(page.locator('#tried'));
    const [more, fewer] = [after - before, before - after];
    expect(says).toContain(
      more > 0 ? `${more.toLocaleString('en-US')} more waterings` : `${fewer.toLocaleString('en-US')} fewer waterings`,
    ); // prettier-ignore
    // moved there at once, it is the same season
    await move('depletionNew', 0.3);
    await resting();
    expect(await number(/waterings/)).toBe(before);
    await move('depletionNew', 0.1);
    await resting();
    expect(await number(/waterings/)).toBe(after);
  });

  it('are not written or saved until they are kept', async () => {
    expect(await disabled('#build-sheets')).toBe('true');
    expect(await disabled('#download')).toBe('true');
    await page.locator('[data-place=site]').click();
    await page.locator('details summary').first().click();
    const field = page.locator('sb-site-field[data-key=depletionNew] #value');
    expect(await field.inputValue()).toBe('0.3');
    await page.locator('[data-place=build]').click();
  });

  it('go back to what is kept', async () => {
    await open('trial');
    await page.locator('#discard').click();
    await resting();
    await soon(() => textOf(page.locator('#tried'))).toBe('As kept.');
    expect(await page.locator('output[for=depletionNew]').innerText()).toBe('0.3');
    expect(await disabled('#build-sheets')).toBe(null);
  });

  it('are in the site once they are kept, and the plan is made with them', async () => {
    await move('crewHours', 6);
    await resting();
    const tried = await number(/crew hours/);
    await page.locator('#keep').click();
    await soon(told).toBe('The values are kept and the season is planned with them.');
    expect(await number(/crew hours/)).toBe(tried);
    expect(await textOf(page.locator('#tried'))).toBe('As kept.');
    await page.locator('[data-place=kit]').click();
    expect(await page.locator('sb-site-field[data-key=crewHours] #value').inputValue()).toBe('6');
    await page.locator('[data-place=build]').click();
  });
});

describe('a plan made again after something was changed', () => {
  const tile = (name: RegExp) =>
    page.locator('#result > div').filter({ hasText: name }).locator('dd');
  let kept = '';
  /** @param wage - "" for what it was */
  const planWith = async (wage: string): Promise<void> => {
    await page.locator('[data-place=kit]').click();
    const field = page.locator('sb-site-field[data-key=wage] #value');
    kept ||= await field.inputValue();
    await field.fill(wage || kept);
    await field.press('Enter');
    await page.locator('[data-place=build]').click();
  };

  it('stands beside the numbers of the plan before, where they are others', async () => {
    const before = await tile(/price/).innerText();
    const price = /[\d,]+/.exec(before)![0];
    const hours = await number(/crew hours/);
    await planWith('60');
    await soon(() => page.locator('#plan-before').innerText()).toContain(price);
    expect(await page.locator('#plan-before').innerText()).toContain(`${hours.toLocaleString('en-US')} crew hours`); // prettier-ignore
    await page.locator('#plan').click();
    await soon(() => tile(/price/).innerText()).toContain(`was $ ${price}`);
    expect(await page.locator('#plan-before').count()).toBe(0);
    // a wage gives and takes no tree
    expect(await tile(/trees planned/).innerText()).not.toContain('was');
    await withAxe(page);
    expect(await violations(page)).toEqual([]);
    await planWith('');
    await page.locator('#plan').click();
    await soon(() => tile(/price/).innerText()).toContain(price);
  }, 120_000); // prettier-ignore
});

describe('the sheets', () => {
  let before: string[];
  beforeAll(async () => {
    before = await sheets();
  });

  it('are taken away again when building is cancelled half way', async () => {
    const cancelled = page.evaluate(
      () =>
        new Promise<number>((resolve) => {
          const inside = document.querySelector('sb-panel')!.shadowRoot!;
          const line = inside.querySelector('#told')!;
          new MutationObserver((_, observer) => {
            const at = /^Writing sheet (\d+) of/.exec(line.textContent ?? '');
            if (!at || Number(at[1]) < 4) return;
            observer.disconnect();
            const step = inside.querySelector('#place')!.shadowRoot!;
            step
              .querySelector('sb-build-sheets')!
              .shadowRoot!.querySelector<HTMLElement>('#cancel-build')!
              .click();
            void window.soakbook.openSheets().then((open) => resolve(open.length));
          }).observe(line, { childList: true, characterData: true, subtree: true });
        }),
    );
    await page.locator('#build-sheets').click();
    expect(await cancelled).toBeGreaterThan(before.length);
    await soon(told).toBe('Building was stopped. The sheets are as they were before.');
    expect(await sheets()).toEqual(before);
    expect(await page.locator('#built').count()).toBe(0);
  });

  it('stand behind those that are open; a name in use gets a number; the plan stays', async () => {
    await page.locator('#native').check();
    // the choice outlives a look at something else
    await page.locator('[data-place=contract]').click();
    await page.locator('[data-place=build]').click();
    expect(await page.locator('#native').isChecked()).toBe(true);
    await page.locator('#build-sheets').click();
    // the grid works out some thousand formulas
    await soon(told, 150_000).toMatch(/^\d+ sheets written, from “/);
    const now = await sheets();
    expect(now.slice(0, before.length)).toEqual(before);
    expect(now).toContain('Plan');
    expect(now.filter((name) => /^Rules\b/.test(name))).toHaveLength(2);
    expect(new Set(now).size).toBe(now.length);
    expect(await page.locator('#result').count()).toBe(1);
    expect(await page.locator('#built details').textContent()).toContain('Plan');
  }, 300_000);

  it('are all gone after Undo build, and nothing else is', async () => {
    await page.locator('#undo-build').click();
    await soon(told).toMatch(/^\d+ sheets taken away\.$/);
    expect(await sheets()).toEqual(before);
    expect(await page.locator('#built').count()).toBe(0);
    expect(await page.locator('#result').count()).toBe(1);
  });
});

describe('files', () => {
  async function saved(id: string): Promise<{ name: string; bytes: Buffer; path: string }> {
    const [download] = await Promise.all([
      page.waitForEvent('download', { timeout: 60_000 }),
      page.locator(id).click(),
    ]);
    const name = download.suggestedFilename();
    const path = join(folder, `${Math.random().toString(36).slice(2)}-${name}`);
    await download.saveAs(path);
    await soon(told).toBe(`Saved as ${name}.`);
    return { name, bytes: readFileSync(path), path };
  }
  const pdfText = (path: string): string =>
    execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
  const pages = (path: string): number => pdfText(path).split('\f').length - 1;
  const names = (bytes: Buffer): string[] =>
    readXlsxSheets(new Uint8Array(bytes)).map(({ name }) => name);

  it('the workbook holds the plan, and what is set in the panel', async () => {
    const { bytes } = await saved('#download');
    expect(names(bytes)).toEqual(expect.arrayContaining(['Trees', 'Plan', 'Calendar', 'Site']));
  }, 300_000);

  it('crew sheets are in the language and of the days that are chosen', async () => {
    await page.locator('#crew-language').selectOption('es');
    const whole = await saved('#save-crew-pdf');
    await page.locator('#from').fill('2027-06-01');
    await page.locator('#to').fill('2027-06-07');
    const week = await saved('#save-crew-pdf');
    expect(week.name).toMatch(/-es\.pdf$/);
    expect(pdfText(week.path)).toMatch(/junio|jun/i);
    expect(pages(week.path)).toBeGreaterThan(0);
    expect(pages(week.path)).toBeLessThan(pages(whole.path));
    expect(names((await saved('#save-crew-xlsx')).bytes).length).toBeGreaterThan(0);
  }, 300_000);

  it('days in the wrong order are refused in a sentence', async () => {
    await page.locator('#to').fill('2027-05-01');
    await page.locator('#save-crew-pdf').click();
    expect(await page.locator('#wrong-days').innerText()).toContain('comes before the first');
    await soon(told).toBe('The last day, 2027-05-01, is before the first, 2027-06-01');
    await page.locator('#to').fill('2027-09-30');
  });

  it('the client gets the price and none of the costs', async () => {
    const { path } = await saved('#save-client-pdf');
    expect(pdfText(path)).toMatch(/\$/);
    expect(names((await saved('#save-client-xlsx')).bytes).length).toBeGreaterThan(0);
  }, 300_000);

  it('the calendar and the table can be read by others; the byte order mark is a switch', async () => {
    const calendar = await saved('#save-plan-ics');
    expect(calendar.bytes.toString('utf8')).toMatch(/^BEGIN:VCALENDAR\r\n/);
    const marked = await saved('#save-plan-csv');
    await page.locator('#bom').uncheck();
    const plain = await saved('#save-plan-csv');
    expect([...marked.bytes.subarray(0, 3)]).toEqual([0xef, 0xbb, 0xbf]);
    expect(marked.bytes.subarray(3).equals(plain.bytes)).toBe(true);
  }, 300_000);

  it('the open workbook is the grid as it stands', async () => {
    const { bytes } = await saved('#save-whole');
    expect(names(bytes)).toEqual(await sheets());
  }, 300_000);
});

describe('the step', () => {
  const PARTS = ['trial', 'means', 'crew', 'tree', 'coils', 'what-if', 'notes'];

  it.each([
    ['en', 'light'],
    ['es', 'light'],
    ['en', 'dark'],
    ['es', 'dark'],
  ] as const)('has nothing axe objects to, and fits 320 and 450 px, all parts open: %s, %s', async (language, colorScheme) => {
    await withAxe(page);
    await page.emulateMedia({ colorScheme });
    await page.locator('#language').selectOption(language);
    for (const part of PARTS) if ((await page.locator(`details[data-part=${part}]`).count()) > 0) await open(part);
    await page.locator('#water figure').waitFor();
    for (const width of [320, 450]) {
      await setWidth(page, width);
      await soon(async () => Math.round((await page.locator('#season .drawing').boundingBox())?.width ?? 0)).toBeLessThan(width);
      expect(await overhang(page), `at ${width}`).toBeLessThanOrEqual(0);
      await page.locator('#panel').screenshot({ path: join(out, `build-${width}-${colorScheme}-${language}.png`) });
    }
    expect(await violations(page)).toEqual([]);
    await page.locator('#language').selectOption('en');
    await page.emulateMedia({ colorScheme: 'light' });
  }, 120_000); // prettier-ignore

  it('can be walked with the keyboard: a slider moves by arrow keys', async () => {
    await page.locator('#crews').focus();
    await page.keyboard.press('ArrowRight');
    expect(await page.locator('output[for=crews]').innerText()).toBe('2');
    await resting();
    await page.locator('#discard').click();
    await resting();
  });

  it('complains about nothing', () => {
    expect(complaints).toEqual([]);
  });
});
