/** "Write the order" in the Rules step, on the desk and in the spreadsheet program's page: few actions, and the plan follows. */
import { mkdirSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { weekday } from '../../src/engine/dates.js';
import { readRules } from '../../src/engine/rules/rule-parse.js';
import { STARTER_TABLES } from '../../src/engine/rules/starter-tables.js';
import type { PanelShell } from '../../src/taskpane/panel-shell.js';
import { officeScript, type FakePage, type StartSheet } from '../office/page-host.js';
import { noteComplaints, openOver } from './open-desk.js';
import { overhang, setWidth, violations, withAxe } from './panel-look.js';
import { root, started } from './started.js';

const out = join(root, 'out');
const TREES = ['Id,Caliper (in),Address,Lat,Lon', ...Array.from({ length: 8 }, (_, i) => `A-${i + 1},${2 + (i % 3)},${i + 1} Hawser Lane,40,-75`)].join('\n'); // prettier-ignore
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 60_000 });

let server: Server;
let browser: Browser;
let page: Page;
let url: string;
const complaints: string[] = [];

beforeAll(async () => {
  mkdirSync(out, { recursive: true });
  ({ server, browser, url } = await started());
  page = await browser.newPage({ viewport: { width: 1366, height: 820 }, acceptDownloads: true });
  noteComplaints(page, complaints);
  await page.goto(`${url}desk.html`);
  await page.waitForFunction(() => window.soakbook !== undefined);
  await page.evaluate(() => window.soakbook.ready);
});
afterAll(async () => {
  await browser?.close();
  server?.close();
});

/** A person's actions, counted: a click, or typing into a field. */
class Hand {
  actions = 0;
  constructor(private readonly page: Page) {}
  get lines(): Locator {
    return this.page.locator('sb-order-line');
  }
  async press(name: string): Promise<void> {
    this.actions++;
    await this.page.locator('sb-order').getByRole('button', { name, exact: true }).click();
  }
  async tick(line: number, ...names: string[]): Promise<void> {
    for (const name of names) {
      this.actions++;
      await this.lines.nth(line).getByRole('checkbox', { name, exact: true }).check();
    }
  }
  async click(line: number, ...names: string[]): Promise<void> {
    for (const name of names) {
      this.actions++;
      await this.lines.nth(line).getByRole('button', { name, exact: true }).click();
    }
  }
  async type(line: number, id: string, text: string): Promise<void> {
    this.actions++;
    await this.lines.nth(line).locator(`#${id}`).fill(text);
  }
  /** Types into a field of the form's head. */
  async close(id: string, text: string): Promise<void> {
    this.actions++;
    await this.page.locator(`sb-order-hours #closed-${id}`).fill(text);
    await this.page.locator(`sb-order-hours #closed-${id}`).blur();
  }
  async choose(line: number, id: string, value: string): Promise<void> {
    this.actions++;
    await this.lines.nth(line).locator(`#${id}`).selectOption(value);
  }
}

/** @param asked - about an order that is on a sheet and in no file */
async function openList(asked = true): Promise<Hand> {
  const give = () =>
    page.setInputFiles('#open-file', { name: 'mine.csv', mimeType: 'text/csv', buffer: Buffer.from(TREES) }); // prettier-ignore
  await (asked ? openOver(page, 'mine.csv', give) : give());
  await soon(() => page.evaluate(() => window.soakbook.openSheets())).not.toContain('Rules');
  await page.locator('[data-place=rules]').click();
  await soon(() => page.locator('#in-use').innerText()).toContain('the built-in example');
  await page.locator('#write-order').waitFor();
  return new Hand(page);
}
const used = () => soon(() => page.locator('#told').innerText()).toContain('is on the sheet “Rules” and in use'); // prettier-ignore
const rulesCells = () => page.evaluate(async () => (await (document.querySelector('sb-panel') as PanelShell).session.host.readTable('Rules')).cells.map((row) => row.map((c) => (c === '' ? null : c)))); // prettier-ignore
const reads = (line: number) => page.locator('sb-order-line').nth(line).locator('#reads').innerText(); // prettier-ignore

describe('an order is written in few actions', () => {
  it('hoses and drip on two days, by hand, bags and trucks any day, nothing at all in the heat of the day: at most 11', async () => {
    const hand = await openList(false);
    await hand.press('Write the order');
    await hand.close('from', '10 am to 6 pm');
    expect(await page.locator('#closed-to').inputValue()).toBe('6 pm');
    await hand.tick(0, 'soaker hoses', 'drip lines');
    await hand.click(0, 'Tuesday', 'Saturday');
    await hand.press('Add a line');
    await hand.tick(1, 'hose held by hand', 'watering bags', 'water trucks');
    await soon(() => page.locator('#closed-reads').innerText()).toContain('Nobody may water by any means from 10:00 to 18:00'); // prettier-ignore
    await soon(() => reads(0)).toContain('by soaker or drip on Tuesday and Saturday');
    await soon(() => reads(1)).toContain('by hand, bag or tanker');
    expect(await page.locator('sb-order-line').nth(1).locator('#hours-note').innerText()).toContain('any hour but those when nothing may run'); // prettier-ignore
    expect(await page.locator('#unnamed').innerText()).toBe('No line names: sprinklers, bucket or can, gel pads. The plan counts them as allowed on any day, outside the hours when nothing may run.'); // prettier-ignore
    expect(await page.locator('#order-problems').count()).toBe(0);
    expect(await page.locator('#order-strip').count()).toBe(1);
    expect(await page.evaluate(() => window.soakbook.openSheets())).not.toContain('Rules');
    await hand.press('Use this order');
    await used();
    expect(hand.actions).toBeLessThanOrEqual(11);
    expect(await rulesCells()).toEqual([
      ['Means', 'Days', 'Hours', 'Verdict'],
      ['any', null, '10:00-18:00', 'ban'],
      ['soaker, drip', 'Tue Sat', null, 'allow'],
      ['hand, bag, tanker', null, null, 'allow'],
    ]);
    expect(await page.evaluate(() => window.soakbook.openSheets())).not.toContain('Stages');
  });

  it('and the plan follows it: hoses are open and used on Tuesdays and Saturdays only', async () => {
    await page.locator('[data-place=build]').click();
    await page.getByRole('button', { name: 'Plan the season' }).click();
    await page.locator('#download').waitFor();
    const { strip, hoses } = await page.evaluate(async () => {
      const { session } = document.querySelector('sb-panel') as PanelShell;
      const file = await session.room.file({ kind: 'plan.csv' });
      return { strip: session.rules!.strip!, hoses: new TextDecoder().decode(file.bytes) };
    });
    for (const { means, hours } of strip.kinds[0]!.means) {
      const days = hours.flatMap((h, i) => (h === '' ? [] : [weekday(strip.from + i)]));
      if (means === 'soaker') expect([...new Set(days)].sort()).toEqual([2, 6]);
      if (['bag', 'pad'].includes(means)) expect(days).toHaveLength(42);
      for (const h of hours) expect(['', '00:00-10:00, 18:00-24:00']).toContain(h);
    }
    // days on which hoses are closed are so by their own row
    expect(strip.kinds[0]!.bans.join('')).toBe('');
    for (const day of hoses.split('\n').filter((row) => /soaker/.test(row)).flatMap((row) => row.match(/\d{4}-\d\d-\d\d/g) ?? [])) expect([2, 6]).toContain(new Date(`${day}T12:00Z`).getUTCDay()); // prettier-ignore
  });

  it('the sheet fills the form again: the hours at its head, and the lines without them', async () => {
    await page.locator('[data-place=rules]').click();
    const hand = new Hand(page);
    await hand.press('Write the order');
    expect(await page.locator('#closed-from').inputValue()).toBe('10:00');
    expect(await page.locator('#closed-to').inputValue()).toBe('18:00');
    expect(await hand.lines.count()).toBe(2);
    await hand.press('Add a line');
    expect(await hand.lines.nth(2).locator('#from').inputValue()).toBe('');
    await hand.click(2, 'Remove line 3');
    await hand.close('from', '18:00');
    await hand.close('to', '10:00');
    await soon(() => page.locator('#closed-reads').innerText()).toContain('from 18:00 to 10:00 the next day'); // prettier-ignore
    await hand.press('Use this order');
    await used();
    expect((await rulesCells())[1]).toEqual(['any', null, '18:00-10:00', 'ban']);
    await hand.press('Write the order');
    expect(await page.locator('#closed-to').inputValue()).toBe('10:00');
    await hand.close('from', '');
    await hand.close('to', '');
    await hand.press('Use this order');
    await used();
    expect((await rulesCells()).map((row) => row[3] ?? null)).toEqual(['Verdict', null, 'allow', 'allow']); // prettier-ignore
  });

  it('one day a week by odd and even addresses', async () => {
    const hand = await openList();
    await hand.press('Write the order');
    await hand.tick(0, 'soaker hoses', 'drip lines');
    await hand.choose(0, 'address-kind', 'odd');
    await hand.click(0, 'Tuesday');
    await hand.press('Copy line 1');
    await hand.choose(1, 'address-kind', 'even or none');
    await hand.click(1, 'Tuesday', 'Thursday');
    await hand.press('Use this order');
    await used();
    expect(hand.actions).toBeLessThanOrEqual(12);
    expect((await rulesCells()).slice(1)).toEqual([
      ['soaker, drip', 'odd', 'Tue', null, 'allow'],
      ['soaker, drip', 'even or none', 'Thu', null, 'allow'],
    ]);
  });

  it('everything banned but bags and by hand; then hours only before 9 and after 19', async () => {
    let hand = await openList();
    await hand.press('Write the order');
    expect(await page.locator('#unnamed').count()).toBe(0);
    await hand.tick(0, 'watering bags', 'hose held by hand');
    await hand.press('Ban them in a line of their own');
    expect(await page.locator('#unnamed').count()).toBe(0);
    await hand.press('Use this order');
    await used();
    expect(hand.actions).toBeLessThanOrEqual(5);
    expect((await rulesCells()).slice(1)).toEqual([
      ['hand, bag', null, null, 'allow'],
      ['soaker, drip, sprinkler, bucket, tanker, pad', null, null, 'ban'],
    ]);

    hand = await openList();
    await hand.press('Write the order');
    await hand.close('from', '9 to 19');
    expect(await page.locator('#unnamed').innerText()).toBe('No line names any means. The plan counts all as allowed on any day, outside the hours when nothing may run.'); // prettier-ignore
    await hand.press('Use this order');
    await used();
    expect(hand.actions).toBeLessThanOrEqual(3);
    expect((await rulesCells())[1]).toEqual(['any', null, '09:00-19:00', 'ban']);
  });

  it('a sheet that is there fills the form; only the changed cell is written', async () => {
    const hand = new Hand(page);
    await hand.press('Write the order');
    await hand.close('to', '20');
    await hand.press('Use this order');
    await used();
    expect((await rulesCells())[1]).toEqual(['any', null, '09:00-20:00', 'ban']);
    expect(complaints).toEqual([]);
  });

  it('bad input gets a sentence at its field, and the order is not used', async () => {
    const hand = new Hand(page);
    await hand.press('Write the order');
    await hand.close('to', '6');
    await hand.press('Use this order');
    await soon(() => page.locator('#closed-to-trouble').innerText()).toContain('The hours end (06:00) before they begin (09:00)'); // prettier-ignore
    expect(await focused()).toBe('closed-to');
    expect((await rulesCells())[1]).toEqual(['any', null, '09:00-20:00', 'ban']);
    await hand.close('to', '20');
    await hand.click(0, 'All means');
    await hand.type(0, 'from', '10');
    await hand.type(0, 'to', '6');
    await hand.press('Use this order');
    await soon(() => page.locator('#to-trouble').innerText()).toContain('The hours end (06:00) before they begin (10:00)'); // prettier-ignore
    expect(await focused()).toBe('to');
    await hand.press('Close without using it');
  });

  it('the button of the other means says which they are, and stands only where other lines name some', async () => {
    const hand = new Hand(page);
    await hand.press('Write the order');
    await hand.press('Add a line');
    expect(await page.locator('#the-others').count()).toBe(0);
    await hand.tick(0, 'soaker hoses', 'drip lines', 'sprinklers', 'watering bags', 'water trucks');
    await hand.click(
      1,
      'All means no other line names: hose held by hand, bucket or can, gel pads',
    );
    await soon(() => reads(1)).toContain('by hand, bucket or pad');
    await hand.press('Close without using it');
  });
});

/** The id of what has the focus, within whatever it stands. */
const focused = () =>
  page.evaluate(() => {
    let at = document.activeElement;
    while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
    return at?.id || at?.localName || '';
  });

describe('with the keyboard alone', () => {
  /** Tab until a field has the focus; what came before it is passed in order, and the focus is never lost. */
  async function tabTo(id: string): Promise<void> {
    const passed: string[] = [];
    for (let i = 0; i < 80; i++) {
      await page.keyboard.press('Tab');
      const at = await focused();
      if (at === id) return;
      expect(at, `after ${passed.join(' ')}`).not.toBe('body');
      passed.push(at);
    }
    throw new Error(`#${id} is not reached; passed: ${passed.join(' ')}`);
  }
  async function tick(...ids: string[]): Promise<void> {
    for (const id of ids) {
      await tabTo(id);
      await page.keyboard.press('Space');
    }
  }

  it('an order is written from its first field to its last, in the order they stand in', async () => {
    await openList();
    await page.locator('#write-order').focus();
    await page.keyboard.press('Enter');
    await soon(focused).toBe('order-title');
    await page.keyboard.press('Tab');
    expect(await focused()).toBe('closed-from');
    await page.keyboard.type('10 am');
    await page.keyboard.press('Tab');
    expect(await focused()).toBe('closed-to');
    await page.keyboard.type('6 pm');
    await tick('m-soaker', 'm-drip', 'day-2', 'day-6');
    await tabTo('dates');
    await page.keyboard.press('ArrowDown');
    await tabTo('add-line');
    await page.keyboard.press('Enter');
    await soon(focused).toBe('m-soaker');
    await tick('m-hand', 'm-bag', 'm-tanker');
    await tabTo('verdict');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowUp');
    await tabTo('ban-unnamed');
    await page.keyboard.press('Enter');
    await soon(focused).toBe('m-soaker');
    await tabTo('use-order');
    await page.keyboard.press('Enter');
    await used();
    await soon(focused).toBe('write-order');
    expect(await rulesCells()).toEqual([
      ['Means', 'Days', 'Hours', 'Verdict'],
      ['any', null, '10:00-18:00', 'ban'],
      ['soaker, drip', 'Tue Sat, odd dates', null, 'allow'],
      ['hand, bag, tanker', null, null, 'allow'],
      ['sprinkler, bucket, pad', null, null, 'ban'],
    ]);
  });

  it('a line is copied and removed, and what is done goes on from there', async () => {
    await page.keyboard.press('Enter');
    await soon(focused).toBe('order-title');
    await tabTo('copy');
    await page.keyboard.press('Enter');
    await soon(focused).toBe('m-soaker');
    expect(await page.locator('sb-order-line').count()).toBe(4);
    await page.keyboard.press('Shift+Tab');
    expect(await focused()).toBe('remove');
    await page.keyboard.press('Enter');
    await soon(focused).toBe('add-line');
    expect(await page.locator('sb-order-line').count()).toBe(3);
    await tabTo('close-order');
    await page.keyboard.press('Enter');
    await soon(focused).toBe('write-order');
  });
});

describe('an example over rules that are there', () => {
  it('says how many rows make way, and puts a copy of them on the sheet Rules before', async () => {
    const before = await rulesCells();
    await page.locator('#starter').selectOption({ index: 1 });
    await soon(() => page.locator('#in-use').innerText()).not.toContain('your sheet');
    await page.locator('#write-order').click();
    expect(await page.locator('#replaces').innerText()).toContain('4 rows on the sheet “Rules” make way for this order'); // prettier-ignore
    await page.locator('#use-order').click();
    await used();
    const sheets = await page.evaluate(() => window.soakbook.openSheets());
    expect(sheets.filter((name) => name.startsWith('Rules'))).toEqual(['Rules', 'Rules before']);
    const cellsOf = (name: string) => page.evaluate(async (sheet) => (await (document.querySelector('sb-panel') as PanelShell).session.host.readTable(sheet)).cells, name); // prettier-ignore
    const blank = (rows: unknown[][]) => rows.map((row) => row.map((c) => (c === '' ? null : c)));
    expect(blank(await cellsOf('Rules before'))).toEqual(before);
    const now = await rulesCells();
    const starter = STARTER_TABLES[0]!;
    expect(readRules(now).rows.map(({ row: _, ...r }) => r)).toEqual(readRules(starter.rows).rows.map(({ row: _, ...r }) => r)); // prettier-ignore
    expect(await page.locator('#in-use').innerText()).toContain('Rules');
    expect(await page.evaluate(() => (document.querySelector('sb-panel') as PanelShell).session.rules!.problems)).toEqual([]); // prettier-ignore
  });
});

describe('the form', () => {
  it.each([
    ['en', 'light'],
    ['es', 'light'],
    ['en', 'dark'],
  ] as const)(
    'has nothing axe objects to, and fits 320 and 450 px, all parts open: %s, %s',
    async (language, colorScheme) => {
      await withAxe(page);
      await page.emulateMedia({ colorScheme });
      await page.locator('#language').selectOption(language);
      await page.locator('#write-order').click();
      await page.locator('#order-strip').waitFor();
      await page.locator('#closed-from').fill(language === 'es' ? 'de 10 a 18' : '10 am to 6 pm');
      await page.locator('#closed-from').blur();
      await page.locator('#closed-reads').waitFor();
      await page.locator('#add-line').click();
      await page.locator('sb-order-line').last().locator('#the-others').waitFor();
      await page.locator('#unnamed').waitFor();
      await page.screenshot({ path: join(out, `order-desk-${colorScheme}-${language}.png`) });
      await page.locator('sb-order-line summary').first().click();
      for (const width of [320, 450]) {
        await setWidth(page, width);
        expect(await overhang(page)).toBeLessThanOrEqual(0);
        await page
          .locator('sb-order')
          .screenshot({ path: join(out, `order-${width}-${colorScheme}-${language}.png`) });
      }
      expect(await violations(page)).toEqual([]);
      await setWidth(page);
      await page.locator('#close-order').click();
      await page.locator('#language').selectOption('en');
    },
  );
});

describe('in the spreadsheet program', () => {
  const trees = TREES.split('\n').map((row) => row.split(','));
  /** The page over a workbook with these rules. */
  async function officePage(rules: StartSheet): Promise<Page> {
    const office = await browser.newPage({ viewport: { width: 350, height: 800 } });
    const body = await officeScript({ sheets: [{ name: 'Trees', values: trees }, rules] });
    await office.route('https://**/*', (route) => route.fulfill({ contentType: 'text/javascript', body })); // prettier-ignore
    await office.goto(`${url}taskpane.html`);
    await office.locator('[data-place=rules]').click();
    await office.locator('#write-order').waitFor();
    return office;
  }
  const valuesOf = (office: Page, sheet: string) => office.evaluate((name) => (globalThis as unknown as FakePage).fakeHost.values(name), sheet); // prettier-ignore

  it('a broken row and the columns of others stay; a line changed there changes its cells alone', async () => {
    const values = [['Means', 'Days', 'Verdict', 'Clerk'], ['hose', 'Mondays', 'allow', 'A.'], ['bagg', 'Tue', 'allow', 'B.']]; // prettier-ignore
    const office = await officePage({ name: 'Rules', values });
    const hand = new Hand(office);
    await hand.press('Write the order');
    expect(await office.locator('.kept').innerText()).toContain('"bagg" is not one of the words');
    await hand.click(0, 'Monday', 'Tuesday');
    await hand.press('Add a line');
    await hand.tick(1, 'watering bags');
    await hand.press('Use this order');
    await soon(() => office.locator('#told').innerText()).toContain('in use');
    expect(await valuesOf(office, 'Rules')).toEqual([
      values[0],
      ['hose', 'Tue', 'allow', 'A.'],
      values[2],
      ['bag', '', 'allow', ''],
    ]);
    await office.close();
  });

  it('a formula is not written over: nothing is, a sentence says where it stands, and no copy is left', async () => {
    const values = [['Means', 'Days', 'Verdict'], ['hose', 'Mon', 'allow'], ['bag', 'Tue', 'allow']]; // prettier-ignore
    const formulas = values.map((row, r) => row.map((_, c) => (r === 2 && c === 1 ? '=TEXT(D1,"ddd")' : ''))); // prettier-ignore
    const office = await officePage({ name: 'Rules', values, formulas });
    const hand = new Hand(office);
    const refused = () => soon(() => office.locator('#told').innerText()).toContain('Formulas stand in B3 of the sheet “Rules”, so nothing was written. Put plain values there, then try again.'); // prettier-ignore
    await hand.press('Write the order');
    await hand.click(0, 'Monday', 'Friday');
    await hand.click(1, 'Tuesday', 'Sunday');
    await hand.press('Use this order');
    await refused();
    expect(await valuesOf(office, 'Rules')).toEqual(values);
    expect(await hand.lines.count()).toBe(2);
    await hand.press('Close without using it');

    await office.locator('#starter').selectOption({ index: 1 });
    await hand.press('Write the order');
    await soon(() => office.locator('#replaces').innerText()).toContain('2 rows');
    await hand.press('Use this order');
    await refused();
    expect(await valuesOf(office, 'Rules')).toEqual(values);
    const sheets = await office.evaluate(() => (globalThis as unknown as FakePage).fakeHost.book.sheets.map(({ name }) => name)); // prettier-ignore
    expect(sheets.filter((name) => name.startsWith('Rules'))).toEqual(['Rules']);
    await office.close();
  });
});
