/** Build and the corners in the spreadsheet program's page, over a strict stand-in for its library. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import type { Server } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { officeScript, type FakePage, type Start } from '../office/page-host.js';
import bags from '../reference/bag.json' with { type: 'json' };
import flows from '../reference/hose.json' with { type: 'json' };
import pads from '../reference/pad.json' with { type: 'json' };
import { save } from './desk-walk.js';
import { overhang, setWidth, violations, withAxe } from './panel-look.js';
import { textOf } from './panel-text.js';
import { noteComplaints } from './open-desk.js';
import { root, started } from './started.js';

const TREES = [
  ['Tag', 'Species', 'Caliper (cm)', 'Canopy (ft)', 'Planted', 'Demand', 'Ball diameter (cm)'],
  ['A-1', 'live oak', 5, 6, '2026-03-01', '', 60],
  ['A-2', 'desert willow', 4, 5, '2026-03-01', '', 50],
  ['A-3', 'live oak', 6, 7, '2026-03-01', '#NAME?', 70],
];
const START: Start = {
  sheets: [
    {
      name: 'Street trees',
      values: TREES,
      formulas: TREES.map((row, r) => row.map((_, c) => (r === 3 && c === 5 ? '=SOAK.TREE_DEMAND(0.25,7)' : ''))),
    },
  ],
}; // prettier-ignore

let server: Server;
let browser: Browser;
let page: Page;
const folder = mkdtempSync(join(tmpdir(), 'soakbook-corners-'));
const complaints: string[] = [];
/** Waits for what a busy machine may take long to show. */
const soon = <T>(read: () => T) => expect.poll(read, { timeout: 30_000 });
const told = () => page.locator('#told').innerText();
const enter = (place: string) => page.locator(`[data-place=${place}]`).click();
const host = <T>(ask: (fake: FakePage['fakeHost']) => T): Promise<T> =>
  page.evaluate(`(${ask.toString()})(globalThis.fakeHost)`);
const sheets = () => host((fake) => fake.sheets());
/** Formulas of ours on all sheets. */
const ours = () =>
  host(
    (fake) =>
      fake
        .sheets()
        .flatMap((name) => {
          const cells = fake.values(name);
          return cells.flatMap((row, r) => row.map((_, c) => fake.cellAt(name, r, c).formula));
        })
        .filter((formula) => formula.includes('SOAK.')).length,
  );

beforeAll(async () => {
  mkdirSync(join(root, 'out'), { recursive: true });
  let url: string;
  ({ server, browser, url } = await started());
  page = await browser.newPage({ viewport: { width: 450, height: 900 } });
  noteComplaints(page, complaints);
  const body = await officeScript(START);
  await page.route('https://**/*', (route) =>
    route.request().url().endsWith('/office.js')
      ? route.fulfill({ contentType: 'text/javascript', body })
      : route.abort(),
  );
  await page.goto(`${url}taskpane.html`);
  await page.locator('#place .numbers').waitFor({ timeout: 60_000 });
}, 300_000);

afterAll(async () => {
  await browser?.close();
  server?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('Build in the spreadsheet program', () => {
  let before: string;
  const whole = () =>
    host((fake) => JSON.stringify(fake.sheets().map((name) => [name, fake.values(name)])));

  beforeAll(async () => {
    before = await whole();
    await enter('build');
    await page.locator('#plan').click();
    await page.locator('#season figure').waitFor({ timeout: 60_000 });
  }, 300_000);

  it('cancelled half way leaves every sheet and cell as it was', async () => {
    const cancelled = page.evaluate(
      () =>
        new Promise<void>((resolve) => {
          const inside = document.querySelector('sb-panel')!.shadowRoot!;
          const line = inside.querySelector('#told')!;
          new MutationObserver((_, observer) => {
            const at = /^Writing sheet (\d+) of/.exec(line.textContent ?? '');
            if (!at || Number(at[1]) < 3) return;
            observer.disconnect();
            const step = inside.querySelector('#place')!.shadowRoot!;
            const part = step.querySelector('sb-build-sheets')!.shadowRoot!;
            part.querySelector<HTMLElement>('#cancel-build')!.click();
            resolve();
          }).observe(line, { childList: true, characterData: true, subtree: true });
        }),
    );
    await page.locator('#build-sheets').click();
    await cancelled;
    await soon(told).toBe('Building was stopped. The sheets are as they were before.');
    expect(await whole()).toBe(before);
    expect(await host((fake) => fake.setting('built') ?? '')).toBe('');
  }, 300_000);

  it('writes live formulas of ours; the plan stays although it now stands on sheets', async () => {
    expect(await page.locator('#live').isChecked()).toBe(true);
    const own = await ours();
    await page.locator('#build-sheets').click();
    await soon(told).toMatch(/^\d+ sheets written, from “/);
    expect((await sheets())[0]).toBe('Street trees');
    expect(await sheets()).toEqual(expect.arrayContaining(['Plan', 'Rules', 'Site']));
    expect(await ours()).toBeGreaterThan(own + 3);
    // the program tells of its changes later: still the same plan
    await page.waitForTimeout(1500);
    expect(await page.locator('#result').count()).toBe(1);
  }, 300_000);

  it('keeps the receipt in the workbook, and Undo build takes away those sheets and no other', async () => {
    expect(await host((fake) => JSON.stringify([...fake.book.settings]))).toContain('built');
    await page.locator('#undo-build').click();
    await soon(told).toMatch(/^\d+ sheets taken away\.$/);
    expect(await whole()).toBe(before);
    expect(await page.locator('#result').count()).toBe(1);
  }, 300_000);

  it('writes the spreadsheet’s own formulas where that is chosen', async () => {
    const own = await ours();
    await page.locator('#native').check();
    await page.locator('#build-sheets').click();
    await soon(told).toMatch(/^\d+ sheets written/);
    expect(await ours()).toBe(own);
    await page.locator('#undo-build').click();
    await soon(told).toMatch(/taken away/);
  }, 300_000);

  it('hands over files from here, too, and has paper for what timers water alone', async () => {
    const paperOf = async (button: string): Promise<string> => {
      const path = await save(page, folder, () => page.locator(button).click());
      return execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
    };
    expect(await paperOf('#save-client-pdf')).toMatch(/\b3 trees\b/);
    // the example kit's hoses water these three by themselves: what is set on their timers, and no crew
    const paper = await paperOf('#save-crew-pdf');
    expect(paper).toContain('By timer');
    expect(paper).not.toContain('Way back to the yard');
  }, 300_000);
});

interface Case {
  function?: string;
  name: string;
  inputs?: unknown[];
  expected?: unknown;
  tolerance?: number;
  rows?: { inputs: unknown[]; expected: unknown }[];
}
const rowsOf = (file: unknown, id: string) =>
  (file as Case[])
    .filter((each) => each.function === id)
    .flatMap(({ inputs, expected, tolerance = 0.06, rows }) =>
      (rows ?? [{ inputs: inputs ?? [], expected }]).map((row) => ({ ...row, tolerance })),
    );

describe('Field check', () => {
  const verdict = () => textOf(page.locator('#verdict'));
  const shown = async (name: string): Promise<number> => {
    const text = await page.locator('sb-field-check dl > div').filter({ hasText: name }).locator('dd').innerText(); // prettier-ignore
    return Number(/[\d.]+/.exec(text)![0]);
  };
  const type = async (values: Readonly<Record<string, unknown>>): Promise<void> => {
    for (const [key, value] of Object.entries(values))
      await page.locator(`#${key}`).fill(value === undefined ? '' : String(value));
  };
  const inUnits = async (units: string): Promise<void> => {
    await page.locator('#units').selectOption(units);
    await soon(() => page.locator('#units').inputValue()).toBe(units);
  };
  const SAYS: Readonly<Record<string, RegExp>> = {
    ok: /^This bag is fine/,
    flush: /^This bag needs flushing: .* of \d+ holes (is|are) open\./,
    replace: /^This bag (is faulty|leaks)/,
  };

  beforeAll(() => enter('field-check'));

  it('leads to the time a bag should take, with its form open', async () => {
    await page.locator('#work-out').click();
    const form = page.locator('sb-function-form');
    await soon(() => form.locator('h3, h2').first().innerText()).toContain('BAG_HOURS');
    await form.locator('input').first().waitFor();
    // whoever comes again by the corner itself finds the list
    await enter('field-check');
    await enter('functions');
    await soon(() => form.count()).toBe(0);
    await enter('field-check');
  });

  it('begins with the kit’s own bag, how to time it, and what would come of an invented reading', async () => {
    expect(await page.locator('#device').inputValue()).toBe('example bag');
    expect(await page.locator('#holes').getAttribute('placeholder')).toMatch(/^\d+ on Kit$/);
    expect(await page.locator('#how li').count()).toBe(3);
    expect(await textOf(page.locator('#example'))).toBe('Invented example: Holes 4; Rated time of a full drain 6 h; Time measured, from full 8 h. Verdict: This bag needs flushing: 3 of 4 holes are open. Flush it, fill it, time it again.'); // prettier-ignore
    expect(await verdict()).toBe('');
    await type({ hours: 4 });
    await soon(() => page.locator('#how').count()).toBe(0);
    expect(await verdict()).not.toBe('');
    await page.locator('#device').selectOption('');
  });

  it('says what the published cases of a bag’s timing say', async () => {
    const rows = rowsOf(bags, 'BAG_VERDICT');
    expect(rows.length).toBeGreaterThan(3);
    for (const { inputs, expected } of rows) {
      const [holes, ratedHours, hours, left] = inputs;
      await type({ holes, ratedHours, hours, left });
      await soon(verdict).toMatch(SAYS[String(expected).split(':')[0]!]!);
    }
    for (const { inputs, expected } of rowsOf(bags, 'BAG_OPEN_HOLES')) {
      const [holes, ratedHours, hours, left] = inputs;
      await type({ holes, ratedHours, hours, left });
      await soon(() => shown('open holes')).toBeCloseTo(Number(expected), 1);
    }
  }, 300_000);

  it('counts in the words of the trade, and says what to do next', async () => {
    await type({ holes: 4, ratedHours: 5, hours: 20, left: '' });
    await soon(verdict).toBe('This bag needs flushing: 1 of 4 holes is open. Next: Flush it, fill it, time it again.'); // prettier-ignore
    await page.locator('#where-from summary').click();
    const from = await textOf(page.locator('#where-from'));
    expect(from).toContain('n = holes · rated_hours · (1 − √left)/hours');
    expect(from).toContain('Torricelli');
    expect(from).toContain(
      'Holes 4; Rated time of a full drain 5 h; Time measured, from full 20 h',
    );
  });

  it('takes what is left blank from the device of the kit', async () => {
    await page.locator('#device').selectOption({ index: 1 });
    await type({ holes: '', ratedHours: '', hours: 100 });
    await soon(verdict).toMatch(/^This bag is faulty: a full one takes 100 h, more than 48 h\./);
  });

  it('says what is wrong with a word in a field, and gives no verdict on it', async () => {
    await type({ hours: 'ten' });
    await soon(() => textOf(page.locator('sb-field-check'))).toContain('“ten” is not a number.');
    expect(await verdict()).toMatch(/^Needed: hours above 0/);
    expect(await page.locator('#log').count()).toBe(0);
  });

  it('reads a bucket as the published cases do, in both systems of units', async () => {
    await page.locator('#kind-flow').check();
    await page.locator('#device').selectOption('');
    for (const { inputs, expected, tolerance } of rowsOf(flows, 'BUCKET_FLOW')) {
      const [volume, seconds, units = 'US'] = inputs;
      await inUnits(String(units));
      await type({ volume, seconds });
      await soon(async () => Math.abs((await shown('flow')) - Number(expected))).toBeLessThan(tolerance + 0.051); // prettier-ignore
      expect(await verdict()).toMatch(/^The flow is [\d.]+ (gpm|L\/min)\./);
    }
  }, 300_000);

  it('keeps a reading the same when the units change', async () => {
    await inUnits('US');
    await type({ volume: 5, seconds: 60, pressure: 40, rated: 'forty' });
    await soon(() => shown('flow')).toBe(5);
    await inUnits('SI');
    await soon(() => page.locator('#volume').inputValue()).toBe('18.9271');
    expect(await page.locator('#pressure').inputValue()).toBe('275.79');
    expect(await page.locator('#seconds').inputValue()).toBe('60');
    expect(await page.locator('#rated').inputValue()).toBe('forty');
    await inUnits('US');
    await soon(() => page.locator('#volume').inputValue()).toBe('5');
    await type({ pressure: '', rated: '' });
  });

  it('weighs a pad as the published cases do', async () => {
    await page.locator('#kind-pad').check();
    await page.locator('#device').selectOption('');
    for (const { inputs, expected, tolerance } of rowsOf(pads, 'PAD_VOLUME')) {
      const [saturated, dry, usable, units = 'US'] = inputs;
      await inUnits(String(units));
      await type({ saturated, dry, usable });
      await soon(async () => Math.abs((await shown('water it holds')) - Number(expected))).toBeLessThan(tolerance + 0.051); // prettier-ignore
    }
    await inUnits('US');
    await type({ saturated: 30, dry: 5, now: 6 });
    await soon(verdict).toMatch(/^This pad is due: 4 % of its water is left\. Next: Lift it/);
  }, 300_000);

  it('writes a row a check into the log, which it makes once', async () => {
    await page.locator('#tree').fill('=A-1');
    await page.locator('#log').click();
    await soon(told).toBe('Written to “Field log”, row 2.');
    await page.locator('#tree').fill('A-2');
    await page.locator('#log').click();
    await soon(told).toBe('Written to “Field log”, row 3.');
    const rows = await host((fake) => fake.values('Field log'));
    expect(rows[0]).toEqual(['Date', 'Check', 'Tree', 'Device', 'Readings', 'Verdict', 'Next action']); // prettier-ignore
    expect(rows[1]).toEqual([
      expect.any(Number), 'A pad, weighed', '=A-1', '', expect.stringContaining('Weight soaked 30 lb'),
      'This pad is due: 4 % of its water is left.', 'Lift it, soak it overnight, lay it back.',
    ]); // prettier-ignore
    expect(rows).toHaveLength(3);
  });

  it('writes nothing onto a sheet of that name with other headers', async () => {
    await host((fake) => fake.type('Field log', 'B1', 'Something else'));
    await page.locator('#log').click();
    await soon(told).toMatch(/^The sheet “Field log” has other headers than this log\./);
    expect(await host((fake) => fake.values('Field log').length)).toBe(3);
  });
});

describe('Functions', () => {
  const origin = (name: string) => page.locator(`#from-argument-${name}`).innerText();
  const value = () => page.locator('#value').innerText();
  beforeAll(async () => {
    await host((fake) => fake.activate('Street trees'));
    await host((fake) => fake.choose('F3'));
    await enter('functions');
    await page.locator('#functions li').first().waitFor();
  });

  it('are found by words of name and description, in the language of the panel', async () => {
    await page.locator('#search').fill('open holes');
    await soon(() => page.locator('#functions strong').first().innerText()).toBe('SOAK.BAG_OPEN_HOLES'); // prettier-ignore
    await page.locator('#language').selectOption('es');
    await page.locator('#search').fill('agujeros abiertos');
    await soon(() => page.locator('#functions strong').allInnerTexts()).toContain('SOAK.BAG_OPEN_HOLES'); // prettier-ignore
    await page.locator('#language').selectOption('en');
    await page.locator('#search').fill('xyzzy');
    await soon(() => page.locator('#found').innerText()).toMatch(/^Nothing is found for “xyzzy”\./);
    await page.locator('#search').fill('');
    await soon(() => page.locator('#functions li').count()).toBeGreaterThan(60);
  });

  it('point at the matched column of the chosen row; the rest says that it is an example', async () => {
    await page.locator('#use-TREE_DEMAND').click();
    await soon(() => page.locator('#formula').innerText()).toBe('=SOAK.TREE_DEMAND(0.25,D3)');
    expect(await origin('canopy')).toBe('Column “Canopy (ft)”, row 3.');
    expect(await origin('et0')).toBe('Example value: put your own.');
    await page.locator('#optional summary').click();
    expect(await origin('plant_factor')).toBe('Blank: the default is taken.');
    await page.locator('#argument-et0').fill('0.3');
    expect(await origin('et0')).toBe('As you typed it.');
  });

  it('answer while values are typed, with the cell the column has', async () => {
    // 0.3 in on 5 ft of canopy
    await soon(value).toBe('1.84 gal/day');
    await page.locator('#argument-et0').fill('3/10');
    await soon(() => origin('et0')).toBe('3/10 = 0.3 in');
    await soon(value).toBe('1.84 gal/day');
    await soon(() => page.locator('#aloud').innerText()).toBe('1.84 gal/day');
  });

  it('say what is wrong beside the argument, and insert nothing then', async () => {
    await page.locator('#argument-et0').fill('30');
    await soon(() => page.locator('#wrong-argument-et0').innerText()).toMatch(/^Et0 must be a number above 0, at most 0\.9 in; got 30/); // prettier-ignore
    await page.locator('#insert').click();
    await soon(told).toMatch(/^Not inserted: et0 must be a number above 0/);
    expect(await host((fake) => fake.cell('Street trees', 'F3').formula)).toBe('');
    await page.locator('#argument-et0').fill('0.3');
    await soon(value).toBe('1.84 gal/day');
  });

  it('enter the formula that is shown into the chosen blank cell, with a number format', async () => {
    await page.locator('#insert').click();
    await soon(told).toMatch(/^F3 shows /);
    const cell = await host((fake) => fake.cell('Street trees', 'F3'));
    expect(cell.formula).toBe('=SOAK.TREE_DEMAND(0.3,D3)');
    expect(cell.numberFormat).toBe('0.00" gal/day"');
  });

  it('replace only what was put there from here', async () => {
    await page.locator('#argument-et0').fill('0.2');
    await soon(() => page.locator('#insert').innerText()).toBe('Replace the formula in F3');
    await page.locator('#insert').click();
    await soon(() => host((fake) => fake.cell('Street trees', 'F3').formula)).toBe('=SOAK.TREE_DEMAND(0.2,D3)'); // prettier-ignore
  });

  it('touch no filled cell, and offer a blank one beside the trees', async () => {
    await host((fake) => fake.choose('B3'));
    await soon(() => page.locator('#goes-into').innerText()).toMatch(/B3 is filled and stays/);
    await soon(() => page.locator('#insert').innerText()).toBe('Insert into H3');
    await page.locator('#insert').click();
    await soon(told).toMatch(/^H3 shows /);
    await soon(() => page.locator('#insert').innerText()).toBe('Insert into I3');
    expect(await host((fake) => fake.cell('Street trees', 'B3').value)).toBe('desert willow');
  });

  it('go onto no sheet the planner reads, but onto one of their own, with the sheet of their cells', async () => {
    await host((fake) => fake.book.addSheet('Rules'));
    await host((fake) => fake.activate('Rules'));
    await host((fake) => fake.choose('G12'));
    await soon(() => page.locator('#goes-into').innerText()).toMatch(/^.*“Rules” is a sheet of the planner/); // prettier-ignore
    await page.locator('#argument-canopy').fill('6');
    await soon(() => page.locator('#insert').innerText()).toMatch(/of “Street trees”$/);
    await page.locator('#insert-new').click();
    await soon(told).toMatch(/^A2 of “Answers” shows /);
    expect(await host((fake) => fake.cell('Answers', 'A2').formula)).toBe('=SOAK.TREE_DEMAND(0.2,6)'); // prettier-ignore
    expect(await host((fake) => fake.values('Rules'))).toEqual([]);
    await host((fake) => fake.activate('Street trees'));
  });

  it('take the system of units in which the columns fit', async () => {
    await page.locator('#back').click();
    await host((fake) => fake.choose('F2'));
    await page.locator('#use-BALL_DIAMETER').click();
    await soon(() => page.locator('#formula').innerText()).toBe('=SOAK.BALL_DIAMETER(C2,"SI")');
  });

  it('say of a column in another unit that it is not used', async () => {
    await page.locator('#back').click();
    await page.locator('#use-ROOT_SPREAD').click();
    await soon(() => origin('canopy')).toBe('Column “Canopy (ft)”, row 2.');
    expect(await origin('ball_diameter')).toMatch(
      /^Column “Ball diameter \(cm\)” is in cm, needed is in: not used\./,
    );
    expect(await page.locator('#argument-ball_diameter').inputValue()).not.toMatch(/^G/);
  });

  it('ask for an argument that has neither value nor default', async () => {
    await page.locator('#back').click();
    await page.locator('#use-PRICE').click();
    await page.locator('#argument-cost').fill('');
    await page.locator('#insert').click();
    await soon(told).toBe('Fill cost to see the answer.');
    await page.locator('#argument-cost').fill('D2');
    await soon(() => page.locator('#formula').innerText()).toMatch(/^=SOAK\.PRICE\(D2,/);
    // words and dates are texts in a formula; cells, numbers and what follows "=" are not
    for (const [typed, stands] of [
      ['sandy loam', '"sandy loam"'],
      ['2027-06-01', '"2027-06-01"'],
      ['1.5', '1.5'],
      ['Kit!A1:C9', 'Kit!A1:C9'],
      ['=D2*2', 'D2*2'],
    ] as const) {
      await page.locator('#argument-cost').fill(typed);
      await soon(() => page.locator('#formula').innerText()).toContain(`(${stands},`);
    }
  });

  it('lead to their help page', async () => {
    const href = await page.locator('#help-page').getAttribute('href');
    const answer = await page.request.get(new URL(href!, page.url()).href);
    expect(answer.ok()).toBe(true);
    expect(await answer.text()).toContain('PRICE');
  });
});

describe('Repair', () => {
  it('enters again what the program has lost, and says how many', async () => {
    await enter('repair');
    await page.locator('#repair').click();
    await soon(told).toBe('1 formula entered again.');
    expect(await host((fake) => fake.cell('Street trees', 'F4').value)).toBe('(calculated)');
    await page.locator('#repair').click();
    await soon(told).toBe('No broken formula of ours was found. Nothing was changed.');
  });
});

describe('the corners', () => {
  it.each(['en', 'es'] as const)('have nothing axe objects to, and fit 320 and 450 px: %s', async (language) => {
    await withAxe(page);
    await page.locator('#language').selectOption(language);
    for (const corner of ['field-check', 'functions', 'repair']) {
      await enter(corner);
      if (corner === 'functions') {
        await page.locator('#use-TREE_DEMAND').waitFor();
        expect(await violations(page), 'the list').toEqual([]);
        await page.locator('#use-TREE_DEMAND').click();
      }
      if (corner === 'field-check') {
        await page.locator('#hours').fill('20');
        await page.locator('#holes').fill('4');
        await page.locator('#ratedHours').fill('5');
        await page.locator('#log').waitFor();
      }
      for (const width of [320, 450]) {
        await page.setViewportSize({ width, height: 900 });
        await setWidth(page, width);
        expect(await overhang(page), `${corner} at ${width}`).toBeLessThanOrEqual(0);
        await page.screenshot({ path: join(root, 'out', `${corner}-${width}-${language}.png`), fullPage: true });
      }
      expect(await violations(page), corner).toEqual([]);
    }
  }, 300_000); // prettier-ignore

  it('complain about nothing', () => {
    expect(complaints).toEqual([]);
  });
});
