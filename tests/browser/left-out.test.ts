/** On the desk: days that do not fit, what would be enough, trees left out for it in a click and served again in another. */
import { mkdirSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { PanelShell } from '../../src/taskpane/panel-shell.js';
import type { Cell } from '../../src/tables/cells.js';
import { openedDesk } from './open-desk.js';
import { overhang, setWidth, violations, withAxe } from './panel-look.js';
import { root } from './started.js';

/** Invented trees without a tap, so that somebody has to come to each. */
const ROWS = 16;
const LIST = [
  'Tag,Species,Caliper (in),Address,Tap,Planted',
  ...Array.from(
    { length: ROWS },
    (_, k) => `W-${k + 1},live oak,${2 + (k % 3)},${k + 1} Hawser Lane,no,2027-02-01`,
  ),
].join('\n');
const SITE = { seasonFrom: '2027-06-01', seasonTo: '2027-07-15', crewStart: '9:00', crewHours: 6, workDays: 'Mon-Fri' }; // prettier-ignore
const RULES: Cell[][] = [
  ['Means', 'Address', 'Days', 'Hours', 'Verdict'],
  ['any', 'any', 'any', 'not 10:00-18:00', 'allow'],
];

const out = join(root, 'out');
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 120_000 });
let server: Server;
let browser: Browser;
let page: Page;
const complaints: string[] = [];
const told = () => page.locator('#told').innerText();
const cells = (): Promise<Cell[][]> =>
  page.evaluate(async () => {
    const { session } = document.querySelector('sb-panel') as PanelShell;
    return (await session.host.readTable(session.sheet)).cells;
  });

beforeAll(async () => {
  mkdirSync(out, { recursive: true });
  ({ server, browser, page } = await openedDesk(complaints));
}, 120_000);
afterAll(async () => {
  await browser?.close();
  server?.close();
});

it('days do not fit where a crew begins an hour before the open hours end', async () => {
  const buffer = Buffer.from(LIST);
  await page.setInputFiles('#open-file', { name: 'quay.csv', mimeType: 'text/csv', buffer });
  await soon(() => page.locator('#sheet-line').innerText()).toBe('Sheet “quay”');
  await page.evaluate(
    async ([site, rules]) => {
      const { session } = document.querySelector('sb-panel') as PanelShell;
      await session.change({ site, rules, stages: [['From', 'Stage']] });
    },
    [SITE, RULES] as const,
  );
  await page.locator('[data-place=build]').click();
  await page.locator('#plan').click();
  await soon(told).toContain('do not fit');
}, 240_000);

it('the days of the plan fit without them, and they are marked in the list', async () => {
  await page.locator('#try-enough').click();
  await soon(() => page.locator('#enough-found').count()).toBe(1);
  const way = page.locator('#enough tbody[data-way=fewer]').first();
  await soon(() => way.locator('td').first().innerText()).toContain('0');
  await withAxe(page);
  for (const width of [320, 450]) {
    await setWidth(page, width);
    expect(await overhang(page)).toBeLessThanOrEqual(0);
    await page.screenshot({ path: join(out, `enough-${width}.png`) });
  }
  expect(await violations(page)).toEqual([]);
  await setWidth(page);
  await way.getByRole('button', { name: 'Use this' }).click();
  await soon(told).toMatch(/is planned\.$/);
  const marked = (await cells()).filter((row) => row.at(-1) === 'no').length;
  expect(marked).toBeGreaterThan(0);
  expect((await cells())[0]!.at(-1)).toBe('Served');
  await soon(() => page.locator('#left-out').innerText()).toContain(`${marked} row`);
  expect(await page.locator('#over').count()).toBeLessThanOrEqual(0);
  expect(await page.locator('#fits-now').innerText()).toMatch(/Every day fits\. The plan before this one had \d+ day/); // prettier-ignore
  await page.locator('#left-out').scrollIntoViewIfNeeded();
  await page.screenshot({ path: join(out, 'left-out.png') });
  expect(await violations(page)).toEqual([]);
}, 240_000); // prettier-ignore

it('they are served again, and the plan is said to be out of date', async () => {
  await page.locator('#serve-all').click();
  await soon(() => page.locator('#left-out').count()).toBeLessThanOrEqual(0);
  await soon(told).toMatch(/served again/);
  expect((await cells()).every((row) => row.at(-1) !== 'no')).toBe(true);
  expect(await page.locator('#outdated').count()).toBe(1);
  expect(complaints).toEqual([]);
});
