/**
 * The panel walked through: every step in both languages, light and dark, narrow and wide, with the keyboard alone. Automatic
 * accessibility checks by axe-core; they find what can be found without a person.
 */
import { mkdirSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { overhang as overhangOf, setWidth as widen, violations as violationsOf, withAxe } from './panel-look.js'; // prettier-ignore
import type { PanelShell } from '../../src/taskpane/panel-shell.js';
import { STEPS } from '../../src/taskpane/session.js';
import { textOf } from './panel-text.js';
import { root, started } from './started.js';

const out = join(root, 'out');

let server: Server;
let browser: Browser;
let page: Page;
const complaints: string[] = [];
/** Waits for what a busy machine may take long to show. */
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 20_000 });
const enter = (place: string) => page.locator(`[data-place=${place}]`).click();
const told = () => page.locator('#told');

/** What has the focus, through all elements: its tag and the start of its text or name. */
const focused = (): Promise<string> =>
  page.evaluate(() => {
    let at = document.activeElement;
    while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
    const name = at?.getAttribute('aria-label') ?? at?.textContent ?? '';
    return `${at?.tagName.toLowerCase()} ${name.trim().replace(/\s+/g, ' ').slice(0, 40)}`;
  });

const violations = (): Promise<string[]> => violationsOf(page);
const setWidth = (width?: number): Promise<void> => widen(page, width);
const overhang = (): Promise<number> => overhangOf(page);

beforeAll(async () => {
  mkdirSync(out, { recursive: true });
  let url: string;
  ({ server, browser, url } = await started());
  page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(`${url}desk.html`);
  await page.waitForFunction(() => window.soakbook !== undefined);
  await page.evaluate(() => window.soakbook.ready);
  await withAxe(page);
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

describe('the steps', () => {
  it('say what is known and what is missing before they are entered', async () => {
    const lines = await page.locator('sb-step-list ol button').allInnerTexts();
    const plain = lines.map((line) => line.replace(/\s+/g, ' '));
    expect(plain).toEqual([
      '1 Trees look here: 59 of 60 rows can be planned ▲',
      '2 Site known: 16 inputs of yours ✓',
      '3 Rules known: 5 rules understood ✓',
      '4 Kit known: 5 devices ✓',
      expect.stringMatching(/^5 Build (known|look here): 67 trees planned/),
    ]);
  });

  it('are looked into by the checks below, through all elements', async () => {
    await enter('trees');
    await page.locator('#columns li').first().evaluate((item) => item.append(document.createElement('img'))); // prettier-ignore
    const found = (await violations()).join();
    await page.locator('#columns img').evaluate((image) => image.remove());
    expect(found).toMatch(/^image-alt: .*"#columns","img"/);
  });

  it.each([
    ['en', 'light'],
    ['es', 'light'],
    ['en', 'dark'],
    ['es', 'dark'],
  ] as const)('have nothing axe objects to, and fit 320 and 450 px: %s, %s', async (language, colorScheme) => {
    await page.emulateMedia({ colorScheme });
    await page.locator('#language').selectOption(language);
    for (const step of STEPS) {
      await enter(step);
      await page.locator('#panel details').evaluateAll((all) => all.forEach((d) => d.setAttribute('open', '')));
      for (const width of [320, 450]) {
        await setWidth(width);
        // pictures are drawn again for the new width, a moment later
        await expect.poll(overhang, { message: `${step} at ${width}`, timeout: 20_000 }).toBeLessThanOrEqual(0);
        await page.screenshot({ path: join(out, `panel-${step}-${width}-${colorScheme}-${language}.png`) });
      }
      expect(await violations(), step).toEqual([]);
    }
    await setWidth(undefined);
  }); // prettier-ignore

  it('speak the language that is chosen, and say that the translation is not a speaker’s', async () => {
    const panel = page.locator('sb-panel');
    expect(await panel.getAttribute('lang')).toBe('es');
    await enter('site');
    expect(await page.locator('#place h2').innerText()).toBe('Sitio');
    expect(await page.locator('sb-site-field[data-key=texture] label').innerText()).toBe('Textura del suelo'); // prettier-ignore
    expect(await page.locator('sb-panel footer').innerText()).toContain('Traducción de memoria');
    await enter('rules');
    expect(await page.locator('#in-use').innerText()).toBe('En uso: la hoja «Rules», 5 filas entendidas.'); // prettier-ignore
    await page.locator('#language').selectOption('en');
    expect(await panel.getAttribute('lang')).toBe('en');
    expect(await page.locator('sb-panel footer').innerText()).not.toContain('memoria');
    await page.emulateMedia({ colorScheme: 'light' });
  });

  it('still fit where text is twice as large', async () => {
    await page.evaluate(() => document.documentElement.style.setProperty('font-size', '200%'));
    for (const step of STEPS) {
      await enter(step);
      await setWidth(450);
      await page.screenshot({ path: join(out, `panel-${step}-200.png`) });
      expect(await overhang(), step).toBeLessThanOrEqual(0);
    }
    await page.evaluate(() => document.documentElement.style.removeProperty('font-size'));
    await setWidth(undefined);
  });

  it('have targets of at least 24 px', async () => {
    for (const step of STEPS) {
      await enter(step);
      const small = await page.evaluate(() => {
        const found: string[] = [];
        const visit = (parent: Element | ShadowRoot): void => {
          for (const child of parent.children) {
            if (child.matches('button, fluent-button, select, summary, textarea, input:not([type=checkbox], [type=radio], [type=file])')) {
              const { height, width } = child.getBoundingClientRect();
              if (width > 0 && Math.min(height, width) < 24) found.push(child.outerHTML.slice(0, 80));
            }
            if (child.shadowRoot && !child.matches('fluent-button')) visit(child.shadowRoot);
            visit(child);
          }
        };
        visit(document.getElementById('panel')!);
        return found;
      }); // prettier-ignore
      expect(small, step).toEqual([]);
    }
  });
});

describe('with the keyboard alone', () => {
  beforeAll(() => page.locator('#language').selectOption('en'));

  const press = (key: string) => page.keyboard.press(key);

  it('a step is entered, its heading has the focus, and its last button leads on', async () => {
    await page.locator('[data-place=trees]').focus();
    await press('Tab');
    expect(await focused()).toMatch(/^button 2 Site/);
    await press('Enter');
    await soon(focused).toBe('h2 Site');
    await page.locator('#next').focus();
    await press('Enter');
    await soon(focused).toBe('h2 Rules');
  });

  it('every control of a step is reached in the order it stands, and the panel is left again', async () => {
    await enter('kit');
    await soon(focused).toBe('h2 Kit');
    const seen: string[] = [];
    for (let i = 0; i < 80; i++) {
      await press('Tab');
      seen.push(await focused());
      if (/^body|Function help/.test(seen.at(-1) ?? '')) break;
    }
    const at = (start: string) => seen.findIndex((name) => name.startsWith(start));
    const order = ['fluent-button Edit 15 gal bag', 'fluent-button Remove 15 gal bag', 'fluent-button Add a device', 'fluent-button Next: Build'].map(at); // prettier-ignore
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(order[0]).toBe(0);
    expect(seen.length).toBeLessThan(80);
  });
});

describe('what a person sets', () => {
  beforeAll(() => page.locator('#language').selectOption('en'));

  const state = <T>(read: (panel: PanelShell) => T): Promise<T> =>
    page.evaluate(`(${read.toString()})(document.querySelector('sb-panel'))`);

  it('a column that is set to another meaning is read so, and comes back on demand', async () => {
    await enter('trees');
    await page.getByLabel('Meaning of “Soil”').selectOption('ignore');
    await soon(() => textOf(page.locator('#unmatched'))).toContain('Soil');
    expect(await page.locator('#columns li').count()).toBe(14);
    await page.locator('#forget').click();
    await soon(() => page.locator('#columns li').count()).toBe(15);
  });

  it('only a range is read, and what is no range is said beside the field', async () => {
    const range = page.getByLabel('Only these cells');
    await range.fill('A1:O11');
    await range.press('Enter');
    await range.blur();
    await soon(() => textOf(page.locator('#place'))).toMatch(/rows read\s+10/);
    await range.fill('everything');
    await range.blur();
    expect(await page.locator('#range-note').innerText()).toContain('is not a range of cells');
    await range.fill('');
    await range.blur();
    await soon(() => textOf(page.locator('#place'))).toMatch(/rows read\s+60/);
  });

  it('a value that cannot be used is said beside its field, and the default comes back', async () => {
    await enter('site');
    const latitude = page.locator('sb-site-field[data-key=latitude]');
    await latitude.locator('input').fill('133');
    await latitude.locator('input').blur();
    await soon(() => latitude.locator('#trouble').innerText()).toContain('out of range');
    expect(await latitude.locator('input').getAttribute('aria-invalid')).toBe('true');
    expect(await page.locator('[data-place=site]').innerText()).toContain('1 input cannot be used');
    await latitude.getByRole('button', { name: 'Where Latitude is from' }).click();
    await latitude.getByRole('button', { name: 'Use the default of Latitude' }).click();
    await soon(() => latitude.locator('#from').innerText()).toContain('coordinates');
    expect(Number(await latitude.locator('input').inputValue())).toBeCloseTo(33.41, 1);
  });

  it('a field left blank shows its default again', async () => {
    const zone = page.locator('sb-site-field[data-key=zone] input');
    await zone.fill('');
    await zone.blur();
    await soon(() => zone.inputValue()).toBe('9');
    expect(await state(({ session }) => session.draft.site.zone)).toBe(undefined);
  });

  it('units change what is shown, not what is meant', async () => {
    await enter('kit');
    const tank = page.locator('sb-site-field[data-key=tankVolume]');
    expect(await tank.locator('input').inputValue()).toBe('500');
    await page.locator('#units').selectOption('SI');
    await soon(() => tank.locator('input').inputValue()).toBe('1892.71');
    await page.locator('#units').selectOption('US');
    await soon(() => tank.locator('input').inputValue()).toBe('500');
  });

  it('weather by month is taken from the table; a row that is no number is named', async () => {
    await enter('site');
    await page.locator('#et0-10').fill('0.15');
    await page.locator('#rain-10').fill('none of it');
    await page.locator('#use-months').click();
    expect(await page.locator('sb-weather-months [role=alert]').innerText()).toContain('Oct: write numbers'); // prettier-ignore
    await page.locator('#rain-10').fill('0,5');
    await page.locator('#use-months').click();
    await soon(() => page.locator('#weather-said').innerText()).toContain('7 months');
    const row = await state(({ session }) =>
      session.draft.weather?.find(([month]) => month === 10),
    );
    expect(row).toEqual([10, 0.15, 0.5, null]);
  });

  it('pasted days are read, and said back; too few of them are named', async () => {
    await page.getByLabel('Paste days').check();
    const days = Array.from({ length: 30 }, (_, i) => `2027-04-${String(i + 1).padStart(2, '0')}\t5\t0`); // prettier-ignore
    await page.locator('#pasted').fill(['Date\tET0 (mm/day)\tRain (mm)', ...days].join('\n'));
    await page.locator('#use-pasted').click();
    await soon(() => page.locator('#weather-said').innerText()).toContain('30 days from 2027-04-01'); // prettier-ignore
    await page.locator('#weather-example').click();
    await soon(() => page.locator('#weather-said').innerText()).toContain('The example is used');
  });

  it('a device is added with the fields of its family, changed, removed and put back', async () => {
    await enter('kit');
    await page.locator('#add').click();
    await soon(focused).toBe('h3 New device');
    await page.locator('sb-device-form #family').selectOption('hand');
    expect(await page.locator('sb-device-form #holes').count()).toBe(0);
    await page.locator('#keep').click();
    expect(await page.locator('sb-device-form [role=alert]').innerText()).toContain('needs a name');
    await page.locator('sb-device-form #name').fill('long hose');
    await page.locator('sb-device-form #flow').fill('6');
    await page.locator('#keep').click();
    await soon(() => page.locator('#devices li').count()).toBe(6);
    expect(await page.locator('#devices').innerText()).toMatch(/long hose\s+by hand · 6 gpm/);
    await soon(() => told().innerText()).toBe('long hose is kept.');
    await page.getByRole('button', { name: 'Remove long hose' }).click();
    await soon(() => page.locator('#devices li').count()).toBe(5);
    await page.locator('#undo').click();
    await soon(() => page.locator('#devices li').count()).toBe(6);
  });

  it('a starter table can be put on sheets, which are then the rules in use', async () => {
    await page.setInputFiles('#open-file', {
      name: 'two.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from('Id,Caliper (in),Address\nA-1,2,1 Hawser Lane\nA-2,2,2 Hawser Lane\n'),
    });
    await soon(() => page.locator('#sheet-line').innerText()).toContain('two');
    await enter('rules');
    await soon(() => page.locator('#in-use').innerText()).toContain('built-in example');
    await page.getByLabel('Rules to start from').selectOption({ index: 2 });
    await soon(() => page.locator('#in-use').innerText()).toContain('the example “');
    const rows = await state(({ session }) => session.rules?.sentences.length);
    await page.locator('#to-sheet').click();
    await soon(() => told().innerText()).toBe('Written: Rules, Stages. Edit them; they are read with every change.'); // prettier-ignore
    await soon(() => page.locator('#in-use').innerText()).toContain('the sheet “Rules”');
    expect(await state(({ session }) => session.rules?.sentences.length)).toBe(rows);
  });

  it('a column that is guessed is asked about, and not again once it is confirmed', async () => {
    await page.setInputFiles('#open-file', {
      name: 'odd.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from('Number,Speceis,Caliper (in)\nT1,live oak,2\nT2,pistache,3\n'),
    });
    await soon(() => page.locator('#sheet-line').innerText()).toContain('odd');
    await enter('trees');
    await soon(() => page.locator('#ask-title').innerText()).toBe('One column is unsure. Say what it means.'); // prettier-ignore
    await page.getByRole('button', { name: 'It is right as it is: Speceis' }).click();
    await soon(() => page.locator('#ask-title').count()).toBe(0);
    expect(await textOf(page.locator('#columns'))).toMatch(/Speceis.*as you said/);
  });

  it('the page complains about nothing', () => {
    expect(complaints).toEqual([]);
  });
});
