/**
 * What a company owns, said in a minute: a newcomer's kit and crew on the desk, counted in actions (a click, or typing in a
 * field), and what the planner gets of it. The same in the page of the spreadsheet program, over its strict stand-in.
 */
import type { Server } from 'node:http';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Device } from '../../src/engine/plan/model.js';
import type { Cell } from '../../src/tables/cells.js';
import { readKit } from '../../src/tables/kit.js';
import { setupOf } from '../../src/workers/room-setup.js';
import type { Draft } from '../../src/workers/plan-room.js';
import { officeScript } from '../office/page-host.js';
import { asCsv } from './desk-walk.js';
import { noteComplaints } from './open-desk.js';
import { overhang, violations, withAxe } from './panel-look.js';
import { started } from './started.js';

/** Most actions the kit and crew below may take. */
const MOST_ACTIONS = 18;

const soon = <T>(read: () => T) => expect.poll(read, { timeout: 20_000 });
/** An invented street: young trees, and a third of them older. */
const TREES: Cell[][] = [
  ['Tree', 'Species', 'Caliper (in)', 'Address'],
  ...Array.from({ length: 30 }, (_, i): Cell[] => [`T-${i + 1}`, 'live oak', i % 3 === 0 ? 5 : 2, `${i + 1} Hawser Lane`]),
]; // prettier-ignore

let server: Server;
let browser: Browser;
let url: string;

beforeAll(async () => {
  ({ server, browser, url } = await started());
});
afterAll(async () => {
  await browser?.close();
  server?.close();
});

const draftOf = (page: Page): Promise<Draft> =>
  page.evaluate("document.querySelector('sb-panel').session.draft");
/** What the plan room is given, read as it reads it. */
async function given(page: Page) {
  const draft = await draftOf(page);
  const { setup } = setupOf(draft, undefined);
  return { ...setup, wage: draft.site.wage };
}
const named = (page: Page, name: string) =>
  page.locator('sb-device-line', { has: page.locator('strong', { hasText: new RegExp(`^${name}$`) }) }); // prettier-ignore

async function deskWithTrees(complaints: string[]): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1366, height: 820 }, serviceWorkers: 'block' }); // prettier-ignore
  const page = await context.newPage();
  noteComplaints(page, complaints);
  await page.goto(`${url}desk.html`);
  await page.waitForFunction(() => window.soakbook !== undefined);
  await page.evaluate(() => window.soakbook.ready);
  const buffer = Buffer.from(asCsv(TREES));
  await page.setInputFiles('#open-file', { name: 'street.csv', mimeType: 'text/csv', buffer });
  await soon(() => page.locator('#sheet-line').innerText()).toContain('street');
  return page;
}

async function officeWithTrees(complaints: string[], draft?: Partial<Draft>): Promise<Page> {
  const body = await officeScript({
    sheets: [{ name: 'Street', values: TREES }],
    settings: draft ? { draft: JSON.stringify({ units: 'US', crewLanguage: 'en', site: {}, starter: '', ...draft }) } : {},
  }); // prettier-ignore
  const context = await browser.newContext({ viewport: { width: 400, height: 900 } });
  const page = await context.newPage();
  noteComplaints(page, complaints);
  await page.route('https://**/*', (route) =>
    route.request().url().endsWith('/office.js')
      ? route.fulfill({ contentType: 'text/javascript', body })
      : route.abort(),
  );
  await page.goto(`${url}taskpane.html`);
  await page.getByRole('heading', { level: 2, name: 'Trees' }).waitFor();
  return page;
}

/** Says the newcomer's kit and crew; counts what it takes. */
async function sayAll(page: Page): Promise<number> {
  let actions = 0;
  const click = async (selector: string): Promise<void> => {
    actions++;
    await page.locator(selector).click();
  };
  const type = async (field: ReturnType<Page['locator']>, text: string): Promise<void> => {
    actions++;
    await field.fill(text);
    // as one goes on to the next field
    await field.press('Tab');
  };
  const remove = async (name: string): Promise<void> => {
    actions++;
    await page.getByRole('button', { name: `Remove ${name}` }).click();
  };
  const crew = (key: string) => page.locator(`sb-crew sb-site-field[data-key=${key}] input`);

  const bag = page.locator('sb-device-line').first();
  await type(bag.locator('#stock'), '40');
  await type(bag.locator('#volume'), '20');
  await type(bag.locator('#ratedHours'), '6');
  await remove('example pad');
  await remove('example soaker on a timer');
  await remove('example hand hose');
  await type(page.locator('sb-device-line').nth(1).locator('#volume'), '300');
  await click('#add-soaker');
  const hose = page.locator('sb-device-line').nth(2);
  await type(hose.locator('#length'), '50');
  await soon(() => hose.locator('#trees').count()).toBe(1);
  await type(hose.locator('#trees'), '25');
  await click('#work-days input[data-day="6"]');
  await type(crew('crews'), '1');
  await type(crew('crewSize'), '2');
  await type(crew('crewStart'), '6 am');
  await type(page.locator('sb-crew #ends'), '2 pm');
  await type(crew('wage'), '32');
  return actions;
}

/** How far the panel is scrolled [px]. */
const scrolledBy = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const own = document.querySelector('#panel.panel');
    const scroller = own && own.scrollHeight > own.clientHeight ? own : document.documentElement;
    return Math.round(scroller.scrollTop);
  });
/** Once the planner has read what was typed, and the panel is drawn. */
const settled = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    const panel = document.querySelector('sb-panel') as unknown as { session: { refresh(): Promise<void> } };
    await panel.session.refresh();
    for (let frame = 0; frame < 3; frame++) await new Promise(requestAnimationFrame);
  }); // prettier-ignore

const close = (value: number | undefined, wanted: number): boolean =>
  value !== undefined && Math.abs(value - wanted) < 1e-3 * wanted;
const GAL = 3.785411784;
const FT = 0.3048;

/** Device by device and input by input, as the planner has them. */
async function expectNewcomersKit(page: Page): Promise<void> {
  await soon(async () => (await given(page)).wage).toBe(32);
  const { kit = [], site } = await given(page);
  expect(kit.map(({ name, family }) => [name, family])).toEqual([
    ['20 gal bag', 'bag'],
    ['300 gal tanker', 'tanker'],
    ['50 ft soaker hose', 'soaker'],
  ]);
  const [bag, tanker, hose] = kit as [Device, Device, Device];
  expect(bag).toMatchObject({ stock: 40, ratedHours: 6, automatic: false });
  expect(close(bag.volume, 20 * GAL)).toBe(true);
  expect(tanker.stock).toBe(1);
  expect(close(tanker.volume, 300 * GAL)).toBe(true);
  expect(hose.automatic).toBe(false);
  expect(close(hose.length, 50 * FT)).toBe(true);
  // what 25 trees of the list take, by the planner's own number of hoses a tree
  const served = await page.evaluate("document.querySelector('sb-panel').session.setup.kit.hoses");
  const [{ trees, hoses }] = served as [{ trees: number; hoses: number }];
  expect(trees).toBe(30);
  expect(hoses).toBeGreaterThan(30);
  expect(hose.stock).toBe(Math.ceil((25 * hoses) / trees));
  expect(site).toMatchObject({ workDays: 'Mon-Fri', crews: 1, crewSize: 2, crewStart: 6, crewHours: 8, wage: 32 }); // prettier-ignore
}

describe('forty bags, hoses for 25 trees, a truck of 300 gallons, two people from 6 to 2, Monday to Friday', () => {
  it('are said on the desk in eighteen actions at most, and the planner gets just that', async () => {
    const complaints: string[] = [];
    const page = await deskWithTrees(complaints);
    await page.locator('[data-place=kit]').click();
    await page.locator('sb-crew #ends').waitFor();
    const actions = await sayAll(page);
    expect(actions).toBeLessThanOrEqual(MOST_ACTIONS);
    await expectNewcomersKit(page);
    await page.locator('[data-place=build]').click();
    await page.locator('#plan').click();
    await expect.poll(() => page.locator('#told').innerText(), { timeout: 120_000 }).toMatch(/planned/);
    // after the next plan nothing can be put back
    await page.locator('[data-place=kit]').click();
    await page.locator('sb-crew #ends').waitFor();
    expect(await page.locator('.undo').count()).toBe(0);
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 180_000); // prettier-ignore

  it('are said the same way in the spreadsheet program', async () => {
    const complaints: string[] = [];
    const page = await officeWithTrees(complaints);
    await page.locator('[data-place=kit]').click();
    await page.locator('sb-crew #ends').waitFor();
    expect(await sayAll(page)).toBeLessThanOrEqual(MOST_ACTIONS);
    await expectNewcomersKit(page);
    const kept = await page.evaluate("globalThis.fakeHost && document.querySelector('sb-panel').session.host.readSetting('draft')"); // prettier-ignore
    expect(readKit((JSON.parse(kept as string) as Draft).kit!).kit).toEqual((await given(page)).kit); // prettier-ignore
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 120_000);
});

describe('the field one goes on to', () => {
  it.each([
    ['on the desk', (complaints: string[]) => deskWithTrees(complaints)],
    ['in the spreadsheet program', (complaints: string[]) => officeWithTrees(complaints)],
  ])('stays where it is while names, warnings and notes above it change: %s', async (_where, opened) => {
    const complaints: string[] = [];
    const page = await opened(complaints);
    await page.locator('[data-place=kit]').click();
    await page.locator('sb-crew #ends').waitFor();
    // so narrow that names and notes take several lines
    await page.setViewportSize({ width: 340, height: 700 });
    const line = (nth: number, field: string) => page.locator('sb-device-line').nth(nth).locator(field);
    const crew = (key: string) => page.locator(`sb-crew sb-site-field[data-key=${key}] input`);
    const typed = [
      [line(0, '#volume'), '17.25', line(0, '#ratedHours')],
      [line(1, '#volume'), '3.75', line(1, '#price')],
      [line(2, '#length'), '137.5', line(2, '#price')],
      [line(2, '#price'), '90', line(3, '#stock')],
      [crew('crews'), '2', crew('crewSize')],
    ] as const;
    let moved = 0;
    for (const [field, text, next] of typed) {
      await next.evaluate((input) => input.scrollIntoView({ block: 'center' }));
      await field.fill(text);
      await settled(page);
      const before = await next.evaluate((input) => input.getBoundingClientRect().top);
      const scrolled = await scrolledBy(page);
      const box = (await next.boundingBox())!;
      // by what was seen a moment ago
      await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
      await settled(page);
      const after = await next.evaluate((input) => {
        const { activeElement } = input.getRootNode() as ShadowRoot;
        return { top: input.getBoundingClientRect().top, focused: activeElement === input };
      });
      expect([text, after.focused]).toEqual([text, true]);
      // a page is scrolled by whole dots of the screen
      expect(Math.abs(after.top - before), text).toBeLessThan(1.5);
      if ((await scrolledBy(page)) !== scrolled) moved++;
    }
    // something above did grow or shrink, else nothing is shown by this
    expect(moved).toBeGreaterThan(0);
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 120_000); // prettier-ignore
});

describe('a kit of a person’s own', () => {
  const OWN: Cell[][] = [
    ['Shelf', 'Device', 'Family', 'Volume (L)', 'Rated hours (h)', 'In stock', 'Price', 'Bought in'],
    ['top', 'bag A', 'bag', 57, 5, 4, 20, 2021],
    ['yard', 'the red truck', 'tanker', 1136, null, 1, 0, 2015],
  ]; // prettier-ignore
  let page: Page;
  const complaints: string[] = [];
  const kit = async () => (await draftOf(page)).kit;

  beforeAll(async () => {
    page = await officeWithTrees(complaints, { kit: OWN });
    await page.locator('[data-place=kit]').click();
    await page.locator('sb-crew #ends').waitFor();
    await withAxe(page);
  });
  afterAll(() => page.context().close());

  it('is shown in the units of the panel; a field that is left as it was changes nothing', async () => {
    const volume = named(page, 'bag A').locator('#volume');
    expect(await volume.inputValue()).toBe('15.0578');
    await volume.press('ArrowRight');
    await volume.press('Tab');
    expect(await kit()).toEqual(OWN);
  });

  it('gets a number in its own unit, and keeps its columns, rows and names', async () => {
    await named(page, 'bag A').locator('#volume').fill('20');
    await named(page, 'bag A').locator('#volume').press('Enter');
    const changed = OWN.map((row) => [...row]);
    changed[1]![3] = 75.70823568;
    await soon(kit).toEqual(changed);
    await named(page, 'the red truck').locator('#stock').fill('2');
    await named(page, 'bag A').locator('#price').fill('25');
    await named(page, 'bag A').locator('#price').press('Enter');
    changed[2]![5] = 2;
    changed[1]![6] = 25;
    await soon(kit).toEqual(changed);
    await named(page, 'bag A').locator('#remove').click();
    await soon(async () => (await kit())?.length).toBe(2);
    await page.getByRole('button', { name: 'Put back bag A' }).click();
    await soon(kit).toEqual(changed);
  });

  it('keeps cells that its form shows with fewer digits', async () => {
    const before = await kit();
    await page.getByRole('button', { name: 'More of bag A' }).click();
    expect(await page.locator('sb-device-form #volume').inputValue()).toBe('20');
    await page.locator('sb-device-form #seasons').fill('4');
    await page.locator('#keep').click();
    await soon(async () => (await kit())?.[0]?.includes('Seasons')).toBe(true);
    for (const [r, row] of before!.entries()) expect((await kit())![r]!.slice(0, row.length)).toEqual(row);
  }); // prettier-ignore

  it('has an answer of its own to whether more of a device may be bought', async () => {
    const bag = named(page, 'bag A');
    const buy = page.locator('sb-device-form #buy');
    const answer = async (chosen: string): Promise<void> => {
      await page.getByRole('button', { name: 'More of bag A' }).click();
      await buy.selectOption(chosen);
      await page.locator('#keep').click();
      await buy.waitFor({ state: 'detached' });
    };
    const cell = async () => {
      const [header = [], row = []] = (await kit()) ?? [];
      return row[header.indexOf('Buy more (yes/no)')];
    };
    expect(await bag.locator('#said').innerText()).toBe('bag');
    await answer('no');
    await soon(cell).toBe('no');
    await soon(() => bag.locator('#said').innerText()).toBe('bag · only what is in stock');
    await page.locator('#buying').selectOption('yes');
    await answer('yes');
    await soon(cell).toBe('yes');
    await soon(() => bag.locator('#said').innerText()).toBe('bag · more may be bought');
    await page.getByRole('button', { name: 'More of bag A' }).click();
    expect(await buy.inputValue()).toBe('yes');
    expect((await buy.locator('option').allInnerTexts())[0]?.trim()).toBe('No, as for the whole kit');
    expect(await violations(page)).toEqual([]);
    await page.locator('#cancel').click();
    await answer('');
    await soon(cell).toBe(null);
    await soon(() => bag.locator('#said').innerText()).toBe('bag');
    // one truck serves all trees: there is nothing to ask
    await page.getByRole('button', { name: 'More of the red truck' }).click();
    expect([await page.locator('sb-device-form #stock').count(), await buy.count()]).toEqual([1, 0]);
    await page.locator('#cancel').click();
    await page.locator('#buying').selectOption('no');
  }); // prettier-ignore

  it('says at the field what cannot be read', async () => {
    const bag = named(page, 'bag A');
    await bag.locator('#ratedHours').fill('all night');
    await bag.locator('#ratedHours').press('Enter');
    await soon(() => bag.locator('.trouble').innerText()).toContain('which is not a number');
    expect(await bag.locator('#ratedHours').getAttribute('aria-invalid')).toBe('true');
    expect(await bag.locator('#volume').getAttribute('aria-invalid')).toBe(null);
    await bag.locator('#ratedHours').fill('6');
    await bag.locator('#ratedHours').press('Enter');
    await soon(() => bag.locator('.trouble').count()).toBe(0);
  });

  it('of hoses keeps the trees that were said when the length of a hose changes', async () => {
    await page.locator('#add-soaker').click();
    const hose = page.locator('sb-device-line').last();
    await soon(() => hose.locator('#trees').count()).toBe(1);
    await hose.locator('#trees').fill('13');
    await hose.locator('#trees').press('Enter');
    const stock = () => hose.locator('#stock').inputValue();
    await soon(stock).not.toBe('0');
    const before = Number(await stock());
    await hose.locator('#length').fill('10');
    await hose.locator('#length').press('Enter');
    // shorter hoses: a tree takes more of them
    await soon(async () => Number(await stock())).toBeGreaterThan(before);
    await soon(() => hose.locator('#trees').inputValue()).toBe('13');
    // hoses that were counted are what they are
    await hose.locator('#stock').fill('9');
    await hose.locator('#stock').press('Enter');
    await soon(() => hose.locator('#trees').inputValue()).not.toBe('13');
    await hose.locator('#length').fill('50');
    await hose.locator('#length').press('Enter');
    await soon(() => hose.locator('#name').innerText()).toContain('50 ft');
    expect(await stock()).toBe('9');
    await hose.locator('#remove').click();
  });

  it('of hoses takes trees, and says what is no number of them', async () => {
    await page.locator('#add-timed').click();
    const hose = page.locator('sb-device-line').last();
    await soon(() => hose.locator('#trees').count()).toBe(1);
    await hose.locator('#trees').fill('a few');
    await hose.locator('#trees').press('Enter');
    await soon(() => hose.getByRole('alert').innerText()).toContain('no number of trees');
    await hose.locator('#trees').fill('10');
    await hose.locator('#trees').press('Enter');
    await soon(() => hose.locator('#trees-said').innerText()).toMatch(/On average .* So \d+ hoses serve about 10 of 30 trees\. They are enough for 1\d if the smaller trees get them\.$/); // prettier-ignore
    expect(await hose.getByRole('alert').count()).toBe(0);
  });

  it('has a number of the example marked until it is typed or confirmed', async () => {
    const hose = page.locator('sb-device-line').last();
    const invented = hose.locator('#invented');
    await soon(() => invented.innerText()).toContain('All numbers are the example’s');
    await hose.locator('#length').fill('33');
    await hose.locator('#length').press('Enter');
    await soon(() => invented.innerText()).toMatch(
      /^Invented still: price of one 60 \S+, \d numbers under More\./,
    );
    await invented.getByRole('button').click();
    await soon(() => invented.count()).toBe(0);
    expect((await kit())!.at(-1)).toContain('none');
    await hose.locator('#remove').click();
  });
});

describe('the crew', () => {
  let page: Page;
  const complaints: string[] = [];
  const site = async () => (await draftOf(page)).site;
  const ends = () => page.locator('sb-crew #ends');
  const day = (n: number) => page.locator(`#work-days input[data-day="${n}"]`);

  beforeAll(async () => {
    page = await officeWithTrees(complaints);
    await page.locator('[data-place=kit]').click();
    await ends().waitFor();
    await withAxe(page);
  });
  afterAll(() => page.context().close());

  it('has its days marked with the keyboard; the last one stays', async () => {
    await day(6).focus();
    await page.keyboard.press('Space');
    await soon(async () => (await site()).workDays).toBe('Mon-Fri');
    for (const n of [1, 2, 3, 4]) await day(n).uncheck();
    await soon(async () => (await site()).workDays).toBe('Fri');
    await day(5).click();
    await soon(() => page.locator('#days-trouble').innerText()).toContain('one day of the week at least'); // prettier-ignore
    expect([await day(5).isChecked(), (await site()).workDays]).toEqual([true, 'Fri']);
    await day(0).check();
    await soon(async () => (await site()).workDays).toBe('Fri Sun');
    expect(await page.locator('#days-trouble').count()).toBe(0);
  });

  it('ends at an hour, or works so many: both are one input', async () => {
    expect(await ends().inputValue()).toBe('14:00');
    await ends().fill('3:30 pm');
    await ends().press('Enter');
    const hours = page.locator('sb-site-field[data-key=crewHours] input');
    await soon(() => hours.inputValue()).toBe('9.5');
    await hours.fill('7');
    await hours.press('Enter');
    await soon(() => ends().inputValue()).toBe('13:00');
    for (const [typed, said] of [['dusk', 'not an hour of the day'], ['5 am', 'before it starts at 06:00']]) {
      await ends().fill(typed!);
      await ends().press('Enter');
      await soon(() => page.locator('#ends-trouble').innerText()).toContain(said);
      expect((await site()).crewHours).toBe(7);
    }
  }); // prettier-ignore

  it('has wage and price of water beside it: the same inputs as under Site', async () => {
    const wage = page.locator('sb-site-field[data-key=wage] input');
    await wage.fill('41');
    await wage.press('Enter');
    await soon(async () => (await site()).wage).toBe(41);
    await page.locator('[data-place=site]').click();
    await page.locator('details[data-group=money] summary').click();
    expect(await wage.inputValue()).toBe('41');
    await wage.fill('32');
    await wage.press('Enter');
    await soon(async () => (await site()).wage).toBe(32);
    await page.locator('[data-place=kit]').click();
    await soon(() => wage.inputValue()).toBe('32');
  });

  it('is typed from field to field; where a value is from is asked within its field', async () => {
    const field = (key: string) => page.locator(`sb-site-field[data-key=${key}]`);
    await field('wage').locator('input').focus();
    await page.keyboard.press('Control+A');
    await page.keyboard.type('33');
    await page.keyboard.press('Tab');
    await page.keyboard.type('9');
    await page.keyboard.press('Tab');
    await soon(async () => [(await site()).wage, (await site()).waterPrice]).toEqual([33, 9]);
    await field('waterPrice').locator('input').focus();
    await page.keyboard.press('Alt+Enter');
    await soon(() => field('waterPrice').locator('#where').isVisible()).toBe(true);
    // and what stands there is reached from the field
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await soon(async () => 'waterPrice' in (await site())).toBe(false);
    await field('waterPrice').locator('input').focus();
    await page.keyboard.press('Alt+Enter');
    await soon(() => field('waterPrice').locator('#where').isVisible()).toBe(false);
  });

  it.each(['en', 'es'])('and the devices fit 320 and 450 px and have nothing axe objects to: %s', async (language) => {
    await page.locator('#language').selectOption(language);
    // half under the bar that stays in view a button is small
    await page.evaluate(() => window.scrollTo(0, 0));
    await page.locator('#driving').evaluate((details) => details.setAttribute('open', ''));
    for (const width of [320, 450]) {
      await page.setViewportSize({ width, height: 900 });
      await soon(() => overhang(page)).toBeLessThanOrEqual(0);
    }
    expect(await violations(page)).toEqual([]);
  }); // prettier-ignore

  it('complains of nothing', () => expect(complaints).toEqual([]));
});
