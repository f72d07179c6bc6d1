/**
 * The corner Contract on the desk and over the strict stand-in for the spreadsheet program: clauses, shortage, log, in both
 * languages, narrow, wide and dark, with axe-core's checks. The logs are invented.
 */
import { mkdirSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { officeScript, type FakePage, type Start } from '../office/page-host.js';
import { overhang, violations, withAxe } from './panel-look.js';
import { textOf } from './panel-text.js';
import { root, started } from './started.js';

const out = join(root, 'out');
const LOG = ['Tree', 'Date', 'Arrived', 'Left', 'Crew', 'Truck', 'Applied (gal)', 'How measured', 'Source or meter', 'Skip reason']; // prettier-ignore

let server: Server;
let browser: Browser;
let url: string;
const complaints: string[] = [];
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 30_000 });

async function opened(size: { width: number; height: number }): Promise<Page> {
  const page = await browser.newPage({ viewport: size });
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  return page;
}

beforeAll(async () => {
  mkdirSync(out, { recursive: true });
  ({ server, browser, url } = await started());
});
afterAll(async () => {
  await browser?.close();
  server?.close();
});

/** What has the focus, through all elements. */
const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    let at = document.activeElement;
    while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
    return at?.id ?? '';
  });

describe('on the desk', () => {
  let page: Page;
  beforeAll(async () => {
    page = await opened({ width: 1280, height: 900 });
    await page.goto(`${url}desk.html`, { timeout: 120_000 });
    await page.waitForFunction(() => window.soakbook !== undefined);
    await page.evaluate(() => window.soakbook.ready);
    await withAxe(page);
    await page.locator('[data-place=contract]').click();
  }, 300_000);

  it('without a contract says what one holds, and puts an example on a sheet that is read at once', async () => {
    expect(await textOf(page.locator('sb-contract-clauses'))).toMatch(/^Put what the contract asks for on a sheet “Contract”/); // prettier-ignore
    await page.locator('#put-contract').focus();
    await page.keyboard.press('Enter');
    await soon(() => page.locator('#told').innerText()).toBe('Written: Contract. Replace the two example rows by yours.'); // prettier-ignore
    await soon(() => page.locator('#contract-sheet').innerText()).toBe('Sheet “Contract”: 2 clauses understood.'); // prettier-ignore
    expect(await page.locator('#contract-example').innerText()).toContain('invented');
    await soon(() => focused(page)).toBe('open-contract');
  });

  it('withdraws the plan that was made without it; planned by it, shows each clause with its verdict and what it adds', async () => {
    expect(await textOf(page.locator('#clauses'))).not.toContain('Short by');
    expect(await page.locator('#bare').count()).toBe(0);
    await page.locator('#plan-by').click();
    await soon(() => textOf(page.locator('#clauses'))).toMatch(/Each tree gets at least 10 gal a week and at least one visit a week.*short\s*\. Short by [\d,]+ gal and [\d,]+ visits\. On \d+ rows of trees/); // prettier-ignore
    expect(await textOf(page.locator('#surplus'))).toMatch(/asks for [\d,]+ gal more than the plan gives, on \d+ rows of trees/); // prettier-ignore
    await soon(() => page.locator('#bare tbody tr').count()).toBe(4);
    await soon(() => focused(page)).toBe('bare-title');
    const numbers = await page.locator('#bare td.number').allInnerTexts();
    const [metBefore, metAfter, before, after] = numbers.map((n) => Number(n.replaceAll(',', '')));
    expect(after).toBeGreaterThan(before!);
    expect(metAfter).toBeGreaterThanOrEqual(metBefore!);
  }, 60_000);

  it('chooses who is served with a season’s water, says what the next 1,000 gal save, and lists the others', async () => {
    await page.locator('#part-shortage').click();
    await page.locator('#limit').selectOption('season');
    await page.locator('#amount').fill('lots');
    expect(await page.locator('#amount-wrong').innerText()).toContain(
      'accepted is a number above 0',
    );
    expect(await page.locator('#ask-shortage').getAttribute('aria-disabled')).toBe('true');
    await page.locator('#amount').fill('20000');
    await page.locator('#amount').press('Enter');
    await soon(() => page.locator('#told').innerText()).toMatch(/^\d+ trees served, \d+ not\.$/);
    const [, served, not] = /^(\d+) trees served, (\d+) not/.exec(await page.locator('#told').innerText())!; // prettier-ignore
    expect(Number(served) + Number(not)).toBe(67);
    expect(await page.locator('#next-saving').innerText()).toMatch(/^The next 1,000 gal would serve .* and (save|cost) [\d,]+ days? under stress\.$/); // prettier-ignore
    expect(await textOf(page.locator('#out li').first())).toMatch(/^HR-\d+, .*under stress, least Ks .*(ot enough is left|t takes more)/); // prettier-ignore
    await page.locator('#list-to-sheet').click();
    await soon(() => page.locator('#told').innerText()).toBe('Written: Not served.');
  });

  it('an order by value asks for its column, and names the row that has none', async () => {
    await page.locator('#order').selectOption('value');
    await page.locator('#ask-shortage').click();
    await soon(() => textOf(page.locator('sb-contract-shortage'))).toMatch(/Row \d+ \(HR-\d+\): the order "value" goes by value, which is blank/); // prettier-ignore
    await page.locator('#value').selectOption({ label: 'Caliper (in)' });
    await page.locator('#order').selectOption('new first');
  });

  it('a log from a file is held against the plan; its questions name rows', async () => {
    await page.locator('#part-log').click();
    expect(await page.locator('#log-empty').innerText()).toContain('one row for each visit');
    const rows = Array.from({ length: 5 }, (_, i) => `HR-00${i + 1},2027-06-02,7:00,7:01,Crew 1,,${10 + i},bucket,,`); // prettier-ignore
    const text = [LOG.join(','), ...rows, 'X-1,2027-06-03,8:00,7:00,Crew 2,,20,bucket,,', 'HR-005,when,,,,,,,,'].join('\n'); // prettier-ignore
    await page.locator('#open-log').setInputFiles({ name: 'june.csv', mimeType: 'text/csv', buffer: Buffer.from(text) }); // prettier-ignore
    await soon(() => page.locator('#told').innerText()).toBe('“june.csv” is read: 6 rows.');
    expect(await textOf(page.locator('#log-sums'))).toMatch(/^visits made 6 visits missed ▲? ?\d+/);
    expect(await textOf(page.locator('#log-problems'))).toMatch(/^Row 8 Date is "when"/);
    expect(await textOf(page.locator('sb-contract-log'))).toContain('A flag is a question, not an accusation.'); // prettier-ignore
    const questions = await textOf(page.locator('#questions'));
    expect(questions).toMatch(/Row 2 Minutes ?\. HR-001 ?, Wed 2 Jun ?: 5 trees are logged within 1 min.*4 more rows with the same question/); // prettier-ignore
    expect(questions).toMatch(/Row 7 Unknown tree ?\. X-1.*Which tree was it\?/);
  });

  it.each([
    ['en', 'light'],
    ['es', 'dark'],
  ] as const)('has nothing axe objects to, and fits 320 and 450 px: %s, %s', async (language, colorScheme) => {
    await page.emulateMedia({ colorScheme });
    await page.locator('#language').selectOption(language);
    for (const part of ['clauses', 'shortage', 'log']) {
      await page.locator(`#part-${part}`).click();
      if (part === 'shortage') {
        await page.locator('#ask-shortage').click();
        await page.locator('#out').waitFor();
      }
      await page.locator('#panel details').evaluateAll((all) => all.forEach((d) => d.setAttribute('open', '')));
      for (const width of [320, 450]) {
        await page.locator('#panel').evaluate((panel, w) => panel.style.setProperty('width', `${w}px`), width);
        expect(await overhang(page), `${part} at ${width}`).toBeLessThanOrEqual(0);
        await page.screenshot({ path: join(out, `contract-${part}-${width}-${language}.png`) });
      }
      expect(await violations(page), part).toEqual([]);
    }
  }, 120_000); // prettier-ignore

  it('in Spanish says its own sentences in Spanish', async () => {
    expect(await page.locator('#place h2').innerText()).toBe('Contrato');
    expect(await textOf(page.locator('sb-contract-log'))).toContain('Una marca es una pregunta, no una acusación.'); // prettier-ignore
    expect(complaints).toEqual([]);
  });
});

describe('in the spreadsheet program’s page', () => {
  const sheet = (name: string, values: Start['sheets'][number]['values']) => ({ name, values });
  const START: Start = {
    sheets: [
      sheet('Street trees', [
        ['Tag', 'Species', 'Caliper (in)', 'Planted'],
        ['A-1', 'live oak', 2, '2027-01-10'],
        ['A-2', 'live oak', 3, '2027-01-10'],
      ]),
      sheet('Contract', [
        ['Applies to', 'Least visits', 'Visits per', 'Source'],
        ['all', 4, 'week', 'page 2'],
        ['size L', 1, 'week', ''],
      ]),
      sheet('Rules', [['Days', 'Verdict'], ['2 per week', 'allow']]),
      sheet('Log', [
        LOG,
        ['A-1', '2027-06-01', '7:00', '7:10', 'Crew 1', '', 12, 'meter', 'H-7', ''],
        ['A-9', '2027-06-01', '7:20', '7:30', 'Crew 1', '', 12, 'meter', 'H-7', ''],
      ]),
      sheet('Meters', [
        ['Meter', 'From', 'To', 'Begin', 'End', 'Unit'],
        ['H-7', '2027-06-01', '2027-06-30', 100, 150, 'gal'],
      ]),
    ],
  }; // prettier-ignore
  let page: Page;
  const host = <T>(ask: (fake: FakePage['fakeHost']) => T): Promise<T> =>
    page.evaluate(`(${ask.toString()})(globalThis.fakeHost)`);

  beforeAll(async () => {
    page = await opened({ width: 350, height: 800 });
    const body = await officeScript(START);
    await page.route('https://**/*', (route) =>
      route.request().url().endsWith('/office.js')
        ? route.fulfill({ contentType: 'text/javascript', body })
        : route.abort(),
    );
    await page.goto(`${url}taskpane.html`, { timeout: 120_000 });
    await page.locator('#place .numbers').waitFor({ timeout: 60_000 });
    await page.locator('[data-place=contract]').click();
  }, 300_000);

  it('reads the contract before there is a plan; the row that cannot be used leads to its cell', async () => {
    await soon(() => page.locator('#contract-sheet').innerText()).toBe('Sheet “Contract”: 1 clause understood.'); // prettier-ignore
    expect(await page.locator('sb-contract-clauses #needs-plan').innerText()).toContain(
      'planned with its least visits kept',
    );
    await page.getByRole('button', { name: 'Go to row 3 of Contract' }).click();
    await soon(() => host((fake) => fake.chosen())).toBe('Contract!A3');
  });

  it('once the season is planned, says that the law leaves fewer visits than the contract asks for', async () => {
    await page.locator('#plan-by').click();
    await soon(() => textOf(page.locator('#fights'))).toMatch(/^Contract row 2 asks for 4 visits a week; row 2 of the rules allows 2 .*The law goes first\./); // prettier-ignore
  });

  it('reads the sheets Log and Meters; a question leads to its cell', async () => {
    await page.locator('#part-log').click();
    await soon(() => page.locator('#log-from').innerText()).toBe(
      'Sheet “Log” of the open workbook.',
    );
    await soon(() => textOf(page.locator('#questions'))).toContain(
      'A-9 is not on the list of trees',
    );
    expect(await textOf(page.locator('#meters'))).toMatch(/^H-7 ?, .*50 gal through it, 24 gal in the log/); // prettier-ignore
    await page.locator('#questions').getByRole('button', { name: 'Go to row 3 of Log' }).first().click(); // prettier-ignore
    await soon(() => host((fake) => fake.chosen())).toBe('Log!A3');
  });

  it('follows what is typed into the contract: the plan by the old one is withdrawn', async () => {
    await host((fake) => fake.type('Contract', 'B2', 1));
    await page.locator('#part-clauses').click();
    await soon(() => textOf(page.locator('#clauses'))).toContain('at least one visit a week');
    expect(await page.locator('#fights, #no-fights').count()).toBe(0);
    await page.locator('#plan-by').click();
    await soon(() => page.locator('#no-fights').count()).toBe(1);
    await page.screenshot({ path: join(out, 'contract-office.png') });
    expect(complaints).toEqual([]);
  });

  it('builds its sheets with the plan: states beside the clauses, and the log as it is by then', async () => {
    await host((fake) => fake.type('Log', 'G2', 15));
    await page.locator('[data-place=build]').click();
    expect(await page.locator('#log-goes-too').innerText()).toContain('with the visits logged');
    await page.locator('#native').check();
    await page.locator('#build-sheets').click();
    await page.locator('#built').waitFor({ timeout: 60_000 });
    const names = await host((fake) => fake.sheets());
    for (const name of ['Contract', 'Log', 'Service', 'Meters', 'Clocks'])
      expect(names.filter((n) => n.startsWith(name)).length, name).toBe(
        ['Contract', 'Log', 'Meters'].includes(name) ? 2 : 1,
      );
    const written = (own: string): string => names.find((n) => n.startsWith(own) && n !== own)!;
    const cells = (name: string): Promise<unknown[][]> =>
      page.evaluate(`globalThis.fakeHost.values(${JSON.stringify(name)})`);
    expect((await cells(written('Contract'))).flat().join('|')).toMatch(/State of the plan/);
    expect((await cells(written('Log'))).some((row) => row.includes('A-1') && row.includes(15))).toBe(true); // prettier-ignore
    expect(complaints).toEqual([]);
  }, 90_000);
});
