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
import { CORNERS, STEPS } from '../../src/taskpane/session.js';
import { textOf } from './panel-text.js';
import { openedDesk, openOver } from './open-desk.js';
import { root } from './started.js';

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

const PLACES = [...STEPS, ...CORNERS];
/** Opens what can be opened, also what comes to be seen by that. */
const openAll = async (): Promise<void> => {
  const closed = page.locator('#panel details:not([open])');
  await soon(async () => {
    await closed.evaluateAll((all) => all.forEach((d) => d.setAttribute('open', '')));
    return closed.count();
  }).toBe(0);
};

const violations = (): Promise<string[]> => violationsOf(page);
const setWidth = (width?: number): Promise<void> => widen(page, width);
const overhang = (): Promise<number> => overhangOf(page);

beforeAll(async () => {
  mkdirSync(out, { recursive: true });
  ({ server, browser, page } = await openedDesk(complaints));
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
      '2 Site known: 17 inputs of yours ✓',
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
  ] as const)('and corners have nothing axe objects to, and fit 320 and 450 px: %s, %s', async (language, colorScheme) => {
    await page.emulateMedia({ colorScheme });
    await page.locator('#language').selectOption(language);
    for (const step of PLACES) {
      await enter(step);
      await openAll();
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

  it.each(['en', 'es'])('and corners still fit 320 and 450 px where text is twice as large: %s', async (language) => {
    await page.locator('#language').selectOption(language);
    await page.evaluate(() => document.documentElement.style.setProperty('font-size', '200%'));
    for (const step of PLACES) {
      await enter(step);
      await openAll();
      for (const width of [320, 450]) {
        await setWidth(width);
        // pictures are drawn again for the new width, a moment later
        await expect.poll(overhang, { message: `${step} at ${width}`, timeout: 20_000 }).toBeLessThanOrEqual(0);
        await page.screenshot({ path: join(out, `panel-${step}-${width}-200-${language}.png`) });
      }
    }
    await page.evaluate(() => document.documentElement.style.removeProperty('font-size'));
    await setWidth(undefined);
    await page.locator('#language').selectOption('en');
  }); // prettier-ignore

  it('have targets of at least 24 px', async () => {
    for (const step of STEPS) {
      await enter(step);
      const small = await page.evaluate(() => {
        const found: string[] = [];
        const visit = (parent: Element | ShadowRoot): void => {
          for (const child of parent.children) {
            if (child.matches('button, select, summary, textarea, input:not([type=checkbox], [type=radio], [type=file])')) {
              const { height, width } = child.getBoundingClientRect();
              if (width > 0 && Math.min(height, width) < 24) found.push(child.outerHTML.slice(0, 80));
            }
            if (child.shadowRoot) visit(child.shadowRoot);
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
      if (await page.evaluate(() => document.activeElement?.closest('#panel') === null)) break;
    }
    const at = (start: string) => seen.findIndex((name) => name.startsWith(start));
    const order = ['button More of 15 gal bag', 'button Remove 15 gal bag', 'button Add: Bag', 'button Next: Build'].map(at); // prettier-ignore
    expect(order).toEqual([...order].sort((a, b) => a - b));
    expect(order[0]).toBe(0);
    expect(seen.length).toBeLessThan(80);
  });

  it('F6 leads out of the grid, where Tab goes from cell to cell, and back to where one was', async () => {
    const pane = () =>
      page.evaluate(() => document.activeElement?.closest('#panel, #grid')?.id ?? '');
    await page.locator('#next').focus();
    const before = await focused();
    await press('F6');
    await soon(pane).toBe('grid');
    await press('Tab');
    await press('Tab');
    await soon(pane).toBe('grid');
    await press('F6');
    await soon(pane).toBe('panel');
    expect(await focused()).toBe(before);
    // what nobody asked for does not take one out of the panel
    await page.waitForTimeout(2100);
    await page.evaluate(() =>
      document.querySelector<HTMLElement>('#grid [contenteditable]')!.focus(),
    );
    expect(await focused()).toBe(before);
    expect(await page.locator('sb-panel footer').innerText()).toContain('F6');
  });
});

describe('where the system gives the colours', () => {
  beforeAll(async () => {
    await page.locator('#language').selectOption('en');
    await page.emulateMedia({ forcedColors: 'active' });
  });
  afterAll(() => page.emulateMedia({ forcedColors: 'none' }));

  it('the step or corner one is in has a bar that the others lack', async () => {
    for (const place of ['rules', 'functions']) {
      await enter(place);
      const bars = await page.locator('sb-step-list [data-place]').evaluateAll((buttons) => {
        const ground = getComputedStyle(document.body).backgroundColor;
        return buttons
          .filter((b) => getComputedStyle(b).borderLeftColor !== ground)
          .map((b) => [(b as HTMLElement).dataset['place'], getComputedStyle(b).borderLeftWidth]);
      });
      expect(bars).toEqual([[place, '4px']]);
    }
  });

  it('what has the focus has a ring, whatever it is', async () => {
    const rings: [place: string, control: string][] = [
      ['trees', '[data-place=site]'], ['trees', '#sheet'], ['trees', '#range'], ['trees', '#use-selected'],
      ['site', 'sb-site-field[data-key=latitude] input'], ['site', 'details[data-group=money] summary'],
      ['site', 'sb-weather input[value=paste]'], ['kit', '#add-bag'], ['build', '#to-sheets'], ['build', '#bom'],
    ]; // prettier-ignore
    for (const [place, control] of rings) {
      await enter(place);
      await page.keyboard.press('Tab');
      await page.locator(control).focus();
      const ring = await page.locator(control).evaluate((element) => {
        const { outlineStyle, outlineWidth, outlineColor } = getComputedStyle(element);
        const seen = outlineColor !== getComputedStyle(document.body).backgroundColor;
        return { outlineStyle, outlineWidth, seen };
      });
      expect(ring, control).toEqual({ outlineStyle: 'solid', outlineWidth: '3px', seen: true });
    }
    await page.locator('#open-file').focus();
    const around = await page.locator('.file').evaluate((label) => getComputedStyle(label).outlineWidth);
    expect(around).toBe('3px');
  }); // prettier-ignore

  it('days of the strip that are open and closed have different signs', async () => {
    await enter('rules');
    await page.getByLabel('Rules to start from').selectOption('Two days a week by odd and even address'); // prettier-ignore
    await soon(() => page.locator('#in-use').innerText()).toContain('Two days a week');
    const signs = await page.locator('#strip .square').evaluateAll((squares) => {
      const found: Record<string, string[]> = {};
      for (const square of squares) {
        const sign = square.querySelector('[aria-hidden]')!.textContent ?? '';
        const known = (found[square.className] ??= []);
        if (!known.includes(sign)) known.push(sign);
      }
      return found;
    });
    expect(signs).toEqual({ 'square any': ['■'], 'square open': ['◧'], 'square closed': ['□'] });
    await page.getByLabel('Rules to start from').selectOption('');
    await soon(() => page.locator('#in-use').innerText()).toContain('the sheet “Rules”');
  });

  it('how far a planning is can be seen: what is done differs from what is left', async () => {
    await enter('build');
    await page.locator('#plan').evaluate((button) => {
      const bar = document.createElement('progress');
      [bar.id, bar.max, bar.value] = ['half', 2, 1];
      button.after(bar);
    });
    const picture = (await page.locator('#half').screenshot()).toString('base64');
    const [done, left, around] = await page.evaluate(async (base64) => {
      const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
      const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
      const ground = new OffscreenCanvas(image.width, image.height).getContext('2d')!;
      ground.drawImage(image, 0, 0);
      const at = (x: number): string =>
        ground.getImageData(Math.round(x * image.width), Math.floor(image.height / 2), 1, 1).data.join();
      return [at(0.25), at(0.75), getComputedStyle(document.body).backgroundColor];
    }, picture); // prettier-ignore
    await page.locator('#half').evaluate((bar) => bar.remove());
    expect(done).not.toBe(left);
    expect(around).not.toBe(`rgb(${done!.split(',').slice(0, 3).join(', ')})`);
  });
});

describe('the way between the steps', () => {
  it('back to the list from anywhere in a long step, with the focus on the step one is in', async () => {
    await enter('site');
    await page.locator('#next').scrollIntoViewIfNeeded();
    await page.locator('#to-steps').click();
    await soon(() => page.locator('[data-place=site]').evaluate((b) => b.getBoundingClientRect().top)).toBeGreaterThan(0); // prettier-ignore
    expect(await page.locator('[data-place=site]').evaluate((b) => b.matches(':focus'))).toBe(true);
  });

  it('on and back at the foot of each', async () => {
    await page.locator('#before').click();
    await soon(() => page.locator('[data-place=trees]').getAttribute('aria-current')).toBe('step');
    expect(await page.locator('#before').count()).toBe(0);
    await page.locator('#next').click();
    await soon(() => page.locator('[data-place=site]').getAttribute('aria-current')).toBe('step');
  });

  it('the button under the pointer can be read', async () => {
    await enter('build');
    // before a plan there is, and after
    await page.locator('#plan.main, #build-sheets').first().hover();
    expect(await violations()).toEqual([]);
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

  it('a range that is being typed stays while a reading ends', async () => {
    const range = page.getByLabel('Only these cells');
    await range.fill('A1:O1');
    await state(({ session }) => session.refresh());
    expect(await range.inputValue()).toBe('A1:O1');
    await range.press('1');
    await range.blur();
    await soon(() => textOf(page.locator('#place'))).toMatch(/rows read\s+10/);
    await range.fill('');
    await range.blur();
    await soon(() => textOf(page.locator('#place'))).toMatch(/rows read\s+60/);
  });

  describe('the cells that are selected', () => {
    const selected = () => page.locator('#use-selected').click();
    const range = () => page.getByLabel('Only these cells').inputValue();
    /** Drags over the grid from one place to another [px from its corner]. */
    async function drag(from: [number, number], to: [number, number]): Promise<void> {
      const cells = page.locator('#grid canvas[id^=univer-sheet]');
      const { x, y } = (await cells.boundingBox())!;
      await page.mouse.move(x + from[0], y + from[1]);
      await page.mouse.down();
      await page.mouse.move(x + to[0], y + to[1], { steps: 8 });
      await page.mouse.up();
    }
    const front = (sheet: string) =>
      page.locator('[data-u-comp="slide-tab-item"]', { hasText: sheet }).click();
    beforeAll(async () => {
      await enter('trees');
      await state(({ session }) => session.host.showCell(0, 0));
    });

    it('are what is read, at the press of a button', async () => {
      await drag([70, 40], [500, 200]);
      await selected();
      await soon(() => told().innerText()).toMatch(/^Only A1:[B-Z]\d+ is read\.$/);
      const block = await range();
      const rows = Number(/\d+$/.exec(block)![0]);
      expect(rows).toBeGreaterThan(2);
      await soon(() => textOf(page.locator('#place'))).toContain(`rows read ${rows - 1} `);
    });

    it('may be whole columns', async () => {
      await drag([70, 8], [500, 8]);
      await selected();
      await soon(range).toMatch(/^A:[B-Z]$/);
      await soon(() => textOf(page.locator('#place'))).toContain('rows read 60 ');
    });

    it('are refused in a sentence where they are one cell, or stand on another sheet', async () => {
      await state(({ session }) => session.host.showCell(2, 1));
      await selected();
      await soon(() => told().innerText()).toMatch(/^▲?\s*Only the cell B3 is selected\. Select the headers/);
      await front('Rules');
      await drag([70, 30], [300, 120]);
      await selected();
      await soon(() => told().innerText()).toMatch(/^▲?\s*A1:[A-Z]\d+ is selected on “Rules”; the trees are read from “harbour-row-trees”\./); // prettier-ignore
      expect(await range()).toMatch(/^A:[B-Z]$/);
    }); // prettier-ignore

    it('no more, once the field is blank again', async () => {
      await front('harbour-row-trees');
      await page.getByLabel('Only these cells').fill('');
      await page.getByLabel('Only these cells').blur();
      await soon(range).toBe('');
      await soon(() => state(({ session }) => session.trees.cells[0]?.length)).toBe(15);
    });
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
    await page.locator('#driving summary').click();
    const tank = () => page.locator('#tank').innerText();
    expect(await tank()).toMatch(/^Tank: 500 gal, the tank of “/);
    await page.locator('#units').selectOption('SI');
    await soon(tank).toContain('1,893 L');
    await page.locator('#units').selectOption('US');
    await soon(tank).toContain('500 gal');
  });

  it('the hour a crew starts stands beside its hours, and what is no hour is said in place', async () => {
    await enter('kit');
    const start = page.locator('sb-site-field[data-key=crewStart]');
    expect(await start.locator('label').innerText()).toBe('Crew starts at');
    await start.locator('input').fill('dawn');
    await start.locator('input').blur();
    await soon(() => start.locator('.trouble').innerText()).toContain('not an hour of the day');
    await start.locator('input').fill('');
    await start.locator('input').blur();
    await soon(() => start.locator('input').inputValue()).toBe('06:00');
    expect(await state(({ session }) => session.draft.site.crewStart)).toBe(undefined);
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

  it('mean highs and lows make ET0, are shown in the other units as well, and begin blank for the example', async () => {
    await page.getByLabel('Highs and lows by month').check();
    expect(await page.locator('#tmax-4').inputValue()).toBe('');
    for (const month of [4, 5, 6, 7, 8, 9]) {
      await page.locator(`#tmax-${month}`).fill('86');
      await page.locator(`#tmin-${month}`).fill(month === 5 ? '104' : '68');
      await page.locator(`#rain-${month}`).fill('1');
    }
    await page.locator('#use-months').click();
    expect(await page.locator('sb-weather-months [role=alert]').innerText()).toContain('May: write numbers, the high not below the low'); // prettier-ignore
    await page.locator('#tmin-5').fill('68');
    await page.locator('#use-months').click();
    await soon(() => page.locator('#weather-said').innerText()).toContain('ET0 of 6 months is computed from temperatures alone'); // prettier-ignore
    const kept = await state(({ session }) => session.draft.weather?.slice(0, 2));
    expect(kept).toEqual([['Month', 'Tmax (F)', 'Tmin (F)', 'Rain (in)'], [4, 86, 68, 1]]);
    await page.getByLabel('Units').selectOption('SI');
    await soon(() => page.locator('#tmax-4').inputValue()).toBe('30');
    // rain is as the planner reads it, a moment later
    await soon(() => page.locator('#rain-4').inputValue()).toBe('25.4');
    await page.getByLabel('Units').selectOption('US');
    await soon(() => page.locator('#tmax-4').inputValue()).toBe('86');
    expect((await state(({ session }) => session.setup!.weather.months[0]!)).et0).toBeGreaterThan(0.1);
  }, 120_000); // prettier-ignore

  it('pasted days are read, and said back; too few of them are named', async () => {
    await page.getByLabel('Paste days').check();
    const days = Array.from({ length: 30 }, (_, i) => `2027-04-${String(i + 1).padStart(2, '0')}\t5\t0`); // prettier-ignore
    await page.locator('#pasted').fill(['Date\tET0 (mm/day)\tRain (mm)', ...days].join('\n'));
    await page.locator('#use-pasted').click();
    await soon(() => page.locator('#weather-said').innerText()).toContain('30 days from 2027-04-01'); // prettier-ignore
    await page.locator('#weather-example').click();
    await soon(() => page.locator('#weather-said').innerText()).toContain('The example is used');
  });

  it('a device is added, changed in place and by its form, removed and put back', async () => {
    await enter('kit');
    await page.locator('#add-hand').click();
    await soon(() => page.locator('#devices li').count()).toBe(6);
    await soon(focused).toMatch(/^input/);
    await soon(() => told().innerText()).toContain('is added, with example numbers');
    const added = page.locator('sb-device-line').nth(5);
    const invented = () => added.locator('#invented').innerText();
    await soon(invented).toMatch(/^All numbers are the example’s, invented/);
    await added.locator('#flow').fill('6');
    await added.locator('#flow').blur();
    // the number that was typed is no longer one of them, the others still are
    await soon(invented).toMatch(/^Invented still: price of one/);
    await added.locator('#more').click();
    await soon(focused).toMatch(/^h3 Device “/);
    expect(await page.locator('sb-device-form #holes').count()).toBe(0);
    await page.locator('sb-device-form #name').fill('');
    await page.locator('#keep').click();
    expect(await page.locator('sb-device-form [role=alert]').innerText()).toContain('needs a name');
    await page.locator('sb-device-form #name').fill('long hose');
    await page.locator('#keep').click();
    await soon(() => told().innerText()).toBe('long hose is kept.');
    await soon(focused).toBe('button More of long hose');
    await page.getByRole('button', { name: 'Remove long hose' }).click();
    await soon(() => page.locator('#devices li').count()).toBe(5);
    await soon(focused).toBe('button Put back long hose');
    await page.keyboard.press('Enter');
    await soon(() => page.locator('#devices li').count()).toBe(6);
    expect(await added.locator('#flow').inputValue()).toBe('6');
  });

  it('a starter table can be put on sheets, which are then the rules in use', async () => {
    // settings and kit of the sample were changed above
    const file = {
      name: 'two.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from('Id,Caliper (in),Address\nA-1,2,1 Hawser Lane\nA-2,2,2 Hawser Lane\n'),
    };
    await openOver(page, file.name, () => page.setInputFiles('#open-file', file));
    await soon(() => page.locator('#sheet-line').innerText()).toContain('two');
    await enter('rules');
    await soon(() => page.locator('#in-use').innerText()).toContain('built-in example');
    await page.getByLabel('Rules to start from').selectOption({ index: 2 });
    await soon(() => page.locator('#in-use').innerText()).toContain('the example “');
    const rows = await state(({ session }) => session.rules?.sentences.length);
    await page.locator('#to-sheet').click();
    await soon(() => told().innerText()).toBe('Written: Rules, Stages. The sheet “Rules” is in front: edit it, it is read with every change.'); // prettier-ignore
    await soon(() => page.locator('#in-use').innerText()).toContain('the sheet “Rules”');
    expect(await state(({ session }) => session.rules?.sentences.length)).toBe(rows);
    expect(await state(({ session }) => session.host.sheetName())).toBe('Rules');
  });

  it('a column that is guessed is asked about, and not again once it is confirmed', async () => {
    // the rules were written on sheets of the workbook
    const file = {
      name: 'odd.csv',
      mimeType: 'text/csv',
      buffer: Buffer.from('Number,Speceis,Caliper (in)\nT1,live oak,2\nT2,pistache,3\n'),
    };
    await openOver(page, file.name, () => page.setInputFiles('#open-file', file));
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
