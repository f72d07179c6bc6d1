/**
 * The whole way as a person walks it: an inventory of their own, the five steps, the sheets, the files, which are then
 * opened with other programs. Once with the mouse, once with the keyboard alone, once in Spanish. All trees are invented.
 */
import type { Server } from 'node:http';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { lookAlikes } from '../planner/look-alikes.js';
import { skipWithout } from '../workbook/programs.js';
import { skipWithoutPoppler } from '../workbook/exports/samples.js';
import { asCsv, asXlsx, buildAndCancel, drop, focused, openDesk, pick, press, save, saveFolder, sheets, soon, tabTo, told, type Desk } from './desk-walk.js'; // prettier-ignore
import { textOf } from './panel-text.js';
import { pdfText, savedPlan } from './saved-files.js';
import { started } from './started.js';

vi.setConfig({ testTimeout: 240_000 });

const { folder, clear } = saveFolder();
const unread = skipWithout('openpyxl') || skipWithoutPoppler();
let server: Server;
let browser: Browser;
let url: string;

/** The first rows of a look-alike inventory, with its header. */
const inventory = (name: string, rows: number) => {
  const { cells, rows: all } = lookAlikes().find((each) => each.name === name)!;
  return cells.slice(0, cells.length - all + rows);
};

beforeAll(async () => {
  ({ server, browser, url } = await started());
});
afterAll(async () => {
  await browser?.close();
  server?.close();
  clear();
});

const heading = (page: Page, name: string) => page.getByRole('heading', { level: 2, name });
const field = (page: Page, label: string) => page.getByLabel(label, { exact: true });
const rowsRead = async (page: Page): Promise<string> => textOf(page.locator('#place'));

describe('from a town’s list of trees to sheets and files, with the mouse', () => {
  const ROWS = 120;
  let desk: Desk;
  let page: Page;
  let before: string[];
  beforeAll(async () => {
    desk = await openDesk(browser, url);
    ({ page } = desk);
  });
  afterAll(() => desk.close());

  it('the list opens, and the column that is a guess is asked about and corrected', async () => {
    const bytes = asCsv(inventory('town', ROWS));
    await pick(page, { name: 'town list.csv', bytes }, () => field(page, 'Open a file').click());
    await soon(() => rowsRead(page)).toMatch(new RegExp(`rows read ${ROWS} can be planned \\d+`));
    await heading(page, 'Trees').waitFor();
    expect(await rowsRead(page)).toContain('One column is unsure. Say what it means.');
    await field(page, 'Meaning of “date”').selectOption({ label: 'not used' });
    await soon(() => rowsRead(page)).not.toContain('One column is unsure');
    expect(await rowsRead(page)).toContain('1 correction of yours is used');
  });

  it('each step leads to the next, and takes what the office sets', async () => {
    await press(page, 'Next: Site');
    await heading(page, 'Site').waitFor();
    await field(page, 'Soil texture').selectOption('clay loam');
    await press(page, 'Next: Rules');
    await heading(page, 'Rules').waitFor();
    await field(page, 'Rules to start from').selectOption({ index: 1 });
    await soon(() => textOf(page.locator('#place'))).toContain('In use: the example “');
    await press(page, 'Next: Kit');
    await heading(page, 'Kit').waitFor();
    await press(page, 'More of example bag');
    await field(page, 'In stock').fill('40');
    await press(page, 'Keep');
    await soon(() => told(page)).toBe('15 gal bag is kept.');
    await press(page, 'Next: Build');
    await heading(page, 'Build').waitFor();
    await press(page, 'Plan the season');
    await soon(() => told(page)).toMatch(
      /^Season .*(is planned|planned, but \d+ days? do(es)? not fit)\.$/,
    );
    before = await sheets(page);
    expect(before).not.toContain('Plan');
  });

  it('building that is cancelled half way leaves the sheets as they were', async () => {
    await page.getByRole('radio', { name: 'The spreadsheet’s own formulas' }).check();
    await buildAndCancel(page);
    await soon(() => told(page)).toBe('Building was stopped. The sheets are as they were before.');
    expect(await sheets(page)).toEqual(before);
  });

  it('built, the sheets stand behind the list; undone, they are gone and nothing else', async () => {
    await press(page, 'Build the sheets');
    await soon(() => told(page)).toMatch(/^\d+ sheets written, from “/);
    const now = await sheets(page);
    expect(now.slice(0, before.length)).toEqual(before);
    expect(now).toEqual(expect.arrayContaining(['Plan', 'Crew', 'Checks']));
    await press(page, /^Undo build/);
    await soon(() => told(page)).toMatch(/^\d+ sheets taken away\.$/);
    expect(await sheets(page)).toEqual(before);
  });

  it.skipIf(unread)(
    'the saved workbook holds every row, and its totals agree; the paper has every stop',
    async () => {
      const book = savedPlan(await save(page, folder, () => press(page, 'Save: Workbook (.xlsx)')));
      expect(book.trees).toBe(ROWS);
      expect(book.differences.length).toBeGreaterThan(10);
      expect(book.differences.filter((gap) => gap !== 0)).toEqual([]);
      expect(book.stops.length).toBeGreaterThan(20);
      const paper = await save(page, folder, () =>
        press(page, 'Save: Crew sheets on paper (.pdf)'),
      );
      const { text, plain } = pdfText(paper);
      expect(text.match(/Reading$/gm)).toHaveLength(book.stops.length);
      const missing = [...new Set(book.stops)].filter((stop) => !stop.split(' · ').every((part) => plain.includes(part.replace(/\s+/g, '')))); // prettier-ignore
      expect(missing).toEqual([]);
    },
  );

  it('nothing was asked of another server, and the page complained about nothing', () => {
    expect(desk.foreign).toEqual([]);
    expect(desk.complaints).toEqual([]);
  });
});

describe('with the keyboard alone', () => {
  const ROWS = 40;

  it('a workbook is opened, walked through, planned and saved', async () => {
    const desk = await openDesk(browser, url);
    const { page } = desk;
    const enter = async (wanted: RegExp): Promise<void> => {
      await tabTo(page, wanted);
      await page.keyboard.press('Enter');
    };
    // the grid keeps the Tab key to itself, as every grid does: the panel is where one begins
    await page.locator('[data-place=trees]').focus();
    await page.keyboard.press('Shift+Tab');
    for (let i = 0; i < 4 && !/^input Open a file/.test(await focused(page)); i++)
      await page.keyboard.press('Shift+Tab');
    const bytes = await asXlsx('Our yard', inventory('contractor', ROWS));
    await pick(page, { name: 'yard.xlsx', bytes }, () => page.keyboard.press('Enter'));
    await soon(() => rowsRead(page)).toContain(`rows read ${ROWS}`);
    for (const step of ['Site', 'Rules', 'Kit', 'Build']) {
      await enter(new RegExp(`^button Next: ${step}$`));
      await soon(() => focused(page)).toBe(`h2 ${step}`);
    }
    await enter(/^button Plan the season$/);
    await soon(() => told(page)).toMatch(
      /^Season .*(is planned|planned, but \d+ days? do(es)? not fit)\.$/,
    );
    await tabTo(page, /^button Save: Table \(\.csv\)$/);
    const table = await save(page, folder, () => page.keyboard.press('Enter'));
    expect(table).toMatch(/yard.*\.csv$/i);
    expect(desk.complaints).toEqual([]);
    await desk.close();
  });
});

describe('in Spanish', () => {
  const ROWS = 40;

  it.skipIf(unread)('a metric register dropped on the page becomes a plan and crew sheets in Spanish', async () => {
    const desk = await openDesk(browser, url, { locale: 'es-MX' });
    const { page } = desk;
    await heading(page, 'Árboles').waitFor();
    const bytes = await asXlsx('Baumkataster', inventory('register', ROWS));
    await drop(page, { name: 'registro.xlsx', bytes });
    await soon(() => rowsRead(page)).toContain(`filas leídas ${ROWS}`);
    for (const step of ['Sitio', 'Reglas', 'Equipo', 'Crear']) {
      await press(page, `Siguiente: ${step}`);
      await heading(page, step).waitFor();
    }
    await press(page, 'Planificar la temporada');
    await soon(() => told(page)).toMatch(/^.*planificada\.$/);
    const book = savedPlan(await save(page, folder, () => press(page, 'Guardar: Libro (.xlsx)')));
    expect(book.trees).toBe(ROWS);
    expect(book.differences.filter((gap) => gap !== 0)).toEqual([]);
    await field(page, 'Idioma de las hojas de cuadrilla').selectOption({ label: 'Español' });
    const paper = await save(page, folder, () => press(page, 'Guardar: Hojas de cuadrilla en papel (.pdf)'));
    expect(pdfText(paper).text).toMatch(/Lectura$/m);
    expect(desk.complaints).toEqual([]);
    await desk.close();
  }); // prettier-ignore
});
