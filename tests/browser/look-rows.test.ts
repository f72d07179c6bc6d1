/** Thousands of rows with the same fault: said once, every row still a few clicks away, and the page stays quick. Common practice, no source. */
import { mkdirSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PanelShell } from '../../src/taskpane/panel-shell.js';
import { overhang, setWidth, violations, withAxe } from './panel-look.js';
import { openedDesk } from './open-desk.js';
import { textOf } from './panel-text.js';
import { root } from './started.js';

const ROWS = 5000;
/** Sheet rows without any size. */
const SIZELESS = [12, 15, ...Array.from({ length: 10 }, (_, i) => 31 + i)];
/** Longest time the list may take to be drawn, or a click in it [ms]. */
const QUICK = 1000;

const out = join(root, 'out');
let server: Server;
let browser: Browser;
let page: Page;
const complaints: string[] = [];
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 60_000 });
const groups = () => page.locator('#look sb-look-group');
const buttonIn = (group: number, name: string | RegExp) =>
  groups().nth(group).getByRole('button', { name, exact: true });
/** How long the page takes to draw after something is done in it [ms]. */
const drawn = (name: string): Promise<number> =>
  page.evaluate(async (label) => {
    const all = [...document.querySelector('sb-panel')!.shadowRoot!.querySelector('sb-trees')!.shadowRoot!.querySelector('#look')!.shadowRoot!.querySelectorAll('sb-look-group')]; // prettier-ignore
    const found = all.flatMap((g) => [...g.shadowRoot!.querySelectorAll('button')]).find((b) => b.getAttribute('aria-label') === label); // prettier-ignore
    if (!found) throw new Error(`there is no button ${label}`);
    const start = performance.now();
    found.click();
    await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
    return performance.now() - start;
  }, name);

beforeAll(async () => {
  mkdirSync(out, { recursive: true });
  ({ server, browser, page } = await openedDesk(complaints));
  await withAxe(page);
  await page.locator('[data-place=trees]').click();
  const lines = Array.from({ length: ROWS }, (_, i) => {
    const size = SIZELESS.includes(i + 2) ? '' : '2';
    return `T${i + 1},live oak,${size},mud ${i}`;
  });
  const buffer = Buffer.from(['Tree id,Species,Caliper (in),Soil texture', ...lines].join('\n'));
  await page.locator('#open-file').setInputFiles({ name: 'faults.csv', mimeType: 'text/csv', buffer }); // prettier-ignore
  await page.waitForFunction(
    (rows) => {
      const { session } = document.querySelector('sb-panel') as PanelShell;
      return session.sheet === 'faults' && session.reading?.rows === rows;
    },
    ROWS,
    { timeout: 120_000 },
  );
}, 300_000);

afterAll(async () => {
  await browser?.close();
  server?.close();
});

describe('rows with the same fault', () => {
  it('stand under one sentence each, rows that cannot be planned first', async () => {
    await soon(() => groups().count()).toBe(2);
    // what the trees are like, and a value to use, is found a moment later
    await soon(() => textOf(groups().first())).toMatch(/^not planned \. No trunk diameter, container.*12 rows: Use a value for these 12 rows /); // prettier-ignore
    expect(await textOf(groups().nth(1))).toMatch(/^Soil texture "mud 0" is not known.*This is what row 2 says\..*4,988 rows:$/); // prettier-ignore
    expect(await groups().first().getByRole('button').allInnerTexts()).toEqual(['12', '15', '▸ 31–40', 'Use for 12 rows', 'Use each species’ own for 12 rows']); // prettier-ignore
  });

  it('open a run into its rows, and each row leads to its cell', async () => {
    await buttonIn(0, 'Rows 31–40').click();
    await buttonIn(0, 'Go to row 35, T34').click();
    const { address } = await page.evaluate(async () => ({
      address: await (
        document.querySelector('sb-panel') as PanelShell
      ).session.host.selectedCells(),
    }));
    expect(address.range).toBe('C35');
    expect(await buttonIn(0, 'Rows 31–40').getAttribute('aria-expanded')).toBe('true');
  });

  it('are reached in three clicks where they are thousands, each drawn quickly', async () => {
    expect(await buttonIn(1, 'Rows 41–5001').count()).toBe(1);
    expect(await drawn('Rows 41–5001')).toBeLessThan(QUICK);
    expect(await drawn('Rows 2541–2640')).toBeLessThan(QUICK);
    expect(await buttonIn(1, 'Go to row 2600, T2599').count()).toBe(1);
    expect(await groups().nth(1).getByRole('button').count()).toBeLessThan(300);
  });

  it('are drawn again quickly with every change of the session', async () => {
    const time = await page.evaluate(async () => {
      const { session } = document.querySelector('sb-panel') as PanelShell;
      const start = performance.now();
      session.changed();
      await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
      return performance.now() - start;
    });
    expect(time).toBeLessThan(QUICK);
  });

  it.each([
    ['en', 'light'],
    ['es', 'light'],
    ['en', 'dark'],
  ] as const)(
    'have nothing axe objects to, and fit 320 and 450 px: %s, %s',
    async (language, colorScheme) => {
      await page.emulateMedia({ colorScheme });
      await page.locator('#language').selectOption(language);
      for (const width of [320, 450]) {
        await setWidth(page, width);
        expect(await overhang(page)).toBeLessThanOrEqual(0);
        await page.locator('#look').scrollIntoViewIfNeeded();
        await page.screenshot({ path: join(out, `look-${width}-${colorScheme}-${language}.png`) });
      }
      expect(await violations(page)).toEqual([]);
      await setWidth(page);
    },
  );

  it('are counted in the language of the panel', async () => {
    await page.locator('#language').selectOption('es');
    await soon(() => textOf(groups().nth(1))).toMatch(/^La textura del suelo «mud 0» no se conoce.*4,?988 filas:$/); // prettier-ignore
    await page.locator('#language').selectOption('en');
  });

  it('complain about nothing', () => {
    expect(complaints).toEqual([]);
  });
});
