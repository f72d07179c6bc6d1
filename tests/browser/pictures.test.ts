/** The panel's pictures, drawn in a real browser under the panel's own security policy. */
import { mkdirSync, readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { build } from 'esbuild';
import { chromium, type Browser, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findBrowser } from '../../scripts/find-browser.mjs';
import { coilSeries, crewSeries, seasonSeries, seriesSource, waterLeftSeries } from '../../src/workbook/series.js'; // prettier-ignore
import type { CoilSeries, CrewSeries, SeasonSeries, WaterLeftSeries } from '../../src/workbook/series-types.js'; // prettier-ignore
import { sampleJob } from '../workbook/job.js';
import { root } from './started.js';

const OUT = join(root, 'out');

/** What the page draws, in this order: season, water left, crew weeks, coil. */
const ENTRY = `
import { loadPictures } from './src/taskpane/pictures/load.js';
import { pictureStyles } from './src/taskpane/pictures/styles.js';
import { rasterise } from './src/taskpane/rasterise.js';
document.adoptedStyleSheets = [pictureStyles.styleSheet];
globalThis.rasterise = rasterise;
globalThis.draw = async ({ season, water, crew, coil }, language, width) => {
  const p = await loadPictures();
  const words = p.pictureWords(language);
  document.documentElement.lang = language;
  document.querySelector('main').replaceChildren(
    p.seasonPicture(season, words, width), p.waterLeftPicture(water, words, width),
    p.crewWeeksPicture(crew, words, width), p.coilPicture(coil, words, width));
};`;

/** The policy of the panel's own page, as it stands there. */
function policy(): string {
  const html = readFileSync(join(root, 'src', 'taskpane', 'taskpane.html'), 'utf8');
  const found = /http-equiv="Content-Security-Policy"\s+content="([^"]*)"/.exec(html)?.[1];
  if (found === undefined) throw new Error('taskpane.html names no policy');
  return found;
}

async function served(): Promise<{ server: Server; url: string; lazy: number }> {
  const { outputFiles } = await build({
    stdin: { contents: ENTRY, resolveDir: root, loader: 'ts' },
    bundle: true, format: 'esm', splitting: true, minify: true, write: false, outdir: join(root, 'out', 'page'),
  }); // prettier-ignore
  const files = new Map<string, [string, string | Uint8Array]>(
    outputFiles.map((file) => [`/${file.path.split(/[\\/]/).pop()!}`, ['text/javascript', file.contents]]),
  ); // prettier-ignore
  files.set('/panel.css', ['text/css', readFileSync(join(root, 'src', 'taskpane', 'panel.css'))]);
  files.set('/', ['text/html', `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Pictures</title>
    <meta http-equiv="Content-Security-Policy" content="${policy()}"><link rel="icon" href="data:,"><link rel="stylesheet" href="panel.css">
    <script type="module" src="stdin.js"></script></head><body><main></main></body></html>`]); // prettier-ignore
  const server = createServer((request, response) => {
    const [type, body] = files.get(request.url ?? '') ?? ['text/plain', ''];
    response.writeHead(body === '' ? 404 : 200, { 'content-type': type }).end(body);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const lazy = outputFiles.find((file) => !file.path.endsWith('stdin.js') && file.contents.length > 100_000); // prettier-ignore
  return {
    server,
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    lazy: lazy?.contents.length ?? 0,
  };
}

interface Drawn {
  season: SeasonSeries;
  water: WaterLeftSeries;
  crew: CrewSeries;
  coil: CoilSeries;
}

let server: Server;
let browser: Browser;
let url: string;
let lazy: number;
let sample: Drawn;

beforeAll(async () => {
  mkdirSync(OUT, { recursive: true });
  const job = await sampleJob();
  const source = seriesSource(job, 'US');
  sample = {
    season: seasonSeries(source),
    water: waterLeftSeries(source, job.plan.trees[0]!.tree.row),
    crew: crewSeries(source),
    coil: coilSeries(source)[1]!,
  };
  ({ server, url, lazy } = await served());
  const executablePath = findBrowser();
  if (executablePath === undefined) throw new Error('No browser: run npm test, it looks for one.');
  browser = await chromium.launch({
    executablePath,
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'],
  });
});
afterAll(async () => {
  await browser?.close();
  server?.close();
});

interface Opened {
  page: Page;
  /** everything the page complained of: errors, warnings, refusals of the policy */
  said: string[];
}

async function drawn(
  data: Drawn,
  { width = 320, scheme = 'light' as 'light' | 'dark', language = 'en' } = {},
): Promise<Opened> {
  const page = await browser.newPage({ viewport: { width, height: 900 }, colorScheme: scheme });
  const said: string[] = [];
  page.on('console', (message) => said.push(message.text()));
  page.on('pageerror', (error) => said.push(error.message));
  await page.goto(url);
  await page.waitForFunction('globalThis.draw');
  await page.evaluate(
    ([given, words, wide]) =>
      (globalThis as unknown as { draw: (...a: unknown[]) => Promise<void> }).draw(given, words, wide),
    [data, language, width - 16] as const,
  ); // prettier-ignore
  return { page, said };
}

/** The sample with what an easy season lacks: stress on Tuesdays, a day too long, barred days. */
function hard(): Drawn {
  const made = structuredClone(sample);
  made.water.stress = made.water.stress.map(
    (_, i) => (made.water.from + i - 3) % 7 === 0 && i > 60 && i < 130,
  );
  made.water.rain[70] = 6;
  made.crew.days[40]!.hours = 11.5;
  for (const i of [80, 81, 82]) Object.assign(made.crew.days[i]!, { barred: true, hours: 0 });
  made.season.stages.push({ day: made.season.stages[1]!.day + 6, name: 'Stage 3' });
  return made;
}

const labels = (page: Page): Promise<(string | null)[]> =>
  page.locator('figure > svg').evaluateAll((all) => all.map((svg) => svg.getAttribute('aria-label'))); // prettier-ignore
const titles = (page: Page): Promise<string[]> => page.locator('figcaption').allTextContents();

describe('pictures under the panel’s policy', () => {
  for (const width of [320, 450])
    for (const scheme of ['light', 'dark'] as const)
      for (const language of ['en', 'es'] as const)
        it(`are drawn ${width} px wide, ${scheme}, in ${language}, without a word from the browser`, async () => {
          const { page, said } = await drawn(hard(), { width, scheme, language });
          expect(said).toEqual([]);
          expect(await page.locator('figure').count()).toBe(4);
          expect(await page.locator('main style').count()).toBe(0);
          const wide = await page.evaluate(() => document.documentElement.scrollWidth);
          expect(wide).toBeLessThanOrEqual(width);
          await page.screenshot({
            path: join(OUT, `pictures-${width}-${scheme}-${language}.png`),
            fullPage: true,
          });
          await page.close();
        });

  it('load the drawing library only when the first is wanted', async () => {
    const page = await browser.newPage();
    const asked: string[] = [];
    page.on('request', (request) => asked.push(new URL(request.url()).pathname));
    await page.goto(url);
    await page.waitForFunction('globalThis.draw');
    const before = asked.length;
    expect(lazy).toBeGreaterThan(100_000);
    await page.evaluate(
      (data) => (globalThis as unknown as { draw: (...a: unknown[]) => Promise<void> }).draw(data, 'en', 300),
      sample,
    ); // prettier-ignore
    expect(asked.length).toBeGreaterThan(before);
    await page.close();
  });

  it('have no accessibility fault axe knows of, with the numbers open', async () => {
    const axe = readFileSync(join(root, 'node_modules', 'axe-core', 'axe.min.js'), 'utf8');
    for (const scheme of ['light', 'dark'] as const) {
      const { page } = await drawn(hard(), { scheme });
      for (const summary of await page.locator('summary').all()) await summary.click();
      await page.evaluate(axe);
      const faults = await page.evaluate(async () => {
        const run = (globalThis as unknown as { axe: { run: (where: string) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> } }).axe.run; // prettier-ignore
        return (await run('main')).violations.map((v) => `${v.id}: ${v.nodes[0]?.html}`);
      });
      expect(faults).toEqual([]);
      await page.close();
    }
  });
});

describe('what the pictures say', () => {
  it('is computed: an easy season, and one with stress, a day too long and barred days', async () => {
    const easy = await drawn(sample);
    expect(await titles(easy.page)).toEqual([
      expect.stringMatching(/^The trees would use 50,894 gal; the plan waters 58,226 gal, most in the week from Mon 14 Jun$/),
      expect.stringMatching(/^HR-001 stays out of stress; it is driest on \w{3} \d+ \w{3} with [\d.]+ gal left$/),
      expect.stringMatching(/^Somebody is out on 109 of 183 days; the fullest is Sat 24 Apr with 4 h 3\d min of 9 h$/),
      '2 hoses of 40 ft wet 80 ft², to 1.1 ft beyond the dripline',
    ]);
    const other = await drawn(hard());
    expect((await titles(other.page)).slice(1, 3)).toEqual([
      'HR-001 is under stress on 10 days, mostly on Tuesdays',
      '1 day asks for more than 9 h; the longest is Tue 11 May with 11 h 30 min',
    ]);
    const spanish = await drawn(hard(), { language: 'es' });
    expect((await titles(spanish.page)).slice(1)).toEqual([
      'HR-001 sufre estrés 10 días, sobre todo los martes',
      expect.stringMatching(/^1 día pide más de 9 h; el más largo es mar 11 may con 11 h 30 min$/),
      '2 mangueras de 40 ft mojan 80 ft², hasta 1.1 ft más allá de la copa',
    ]);
    for (const { page } of [easy, other, spanish]) await page.close();
  }); // prettier-ignore

  it('reaches people who do not see it: a label with the main numbers, and a table of all', async () => {
    const { page } = await drawn(hard());
    const [season, water, crew, coil] = await labels(page);
    expect(season).toMatch(/27 weeks.*Demand 50,894 gal, watering 58,226 gal, rain that counts [\d,]+ gal.*Stage 2 from Thu 1 Jul/);
    expect(water).toMatch(/Least left in the evening: [\d.]+ gal.*Waterings: \d+.*Stress days: 10/);
    expect(crew).toMatch(/183 days.*The longest is Tue 11 May with 11 h 30 min.*Barred by the rules: 3/);
    expect(coil).toContain('ground it wets, 80 ft²');
    expect(await page.locator('figure > svg').evaluateAll((all) => all.map((s) => s.getAttribute('role')))).toEqual(Array(4).fill('img'));
    const figures = page.locator('figure');
    for (const [i, rows] of [27, 183, 183].entries()) {
      const table = figures.nth(i).locator('tbody tr');
      expect(await table.count()).toBe(0);
      await figures.nth(i).locator('summary').click();
      await expect.poll(() => table.count()).toBe(rows);
    }
    await page.close();
  }); // prettier-ignore

  it('is drawn as large as it is', async () => {
    const data = hard();
    const { page } = await drawn(data, { width: 450 });
    const boxes = (figure: number, mark: string, nth: number) =>
      page.locator('figure').nth(figure).locator(`g[data-mark="${mark}"]`).nth(nth).locator('rect')
        .evaluateAll((all) => all.map((rect) => ({ h: Number(rect.getAttribute('height')), w: Number(rect.getAttribute('width')) })));
    const bars = await boxes(0, 'rect', 0);
    expect(bars).toHaveLength(data.season.weeks.length);
    const tallest = Math.max(...bars.map(({ h }) => h));
    const most = Math.max(...data.season.weeks.map((w) => w.watering));
    bars.forEach(({ h }, i) => expect(h / tallest).toBeCloseTo(data.season.weeks[i]!.watering / most, 2));

    const drops = page.locator('figure').nth(1).locator('g[data-mark="dot"] path');
    expect(await drops.count()).toBe(data.water.waterings.length);
    expect(await boxes(1, 'rect', 0)).toHaveLength(10);
    const rain = await boxes(1, 'rect', 1);
    expect(rain).toHaveLength(data.water.rain.filter((r) => r > 0).length);
    expect(Math.max(...rain.map(({ h }) => h)) / rain[0]!.h).toBeCloseTo(6 / data.water.rain.find((r) => r > 0)!, 0);

    const work = data.crew.days.filter((d) => d.hours > 0);
    const squares = [...(await boxes(2, 'rect', 0)), ...(await boxes(2, 'rect', 1))];
    expect(squares).toHaveLength(183);
    const filled = await boxes(2, 'rect', 2);
    expect(filled).toHaveLength(work.length);
    const full = Math.max(...filled.map(({ h }) => h));
    filled.forEach(({ h }, i) => expect(Math.abs(h - full * Math.min(1, work[i]!.hours / 9))).toBeLessThan(1.5));
    const crosses = page.locator('figure').nth(2).locator('g[data-mark="link"] path');
    expect(await crosses.count()).toBe(2 * 3);
    const written = await page.locator('figure').nth(2).locator('g[data-mark="text"]').first().locator('text').allTextContents();
    expect(written).toHaveLength(work.length);
    expect(written).toContain('▲ 11.5');
    await page.close();
  }); // prettier-ignore

  it('can be told apart without colour: hatches, dashes and shapes, each of them defined', async () => {
    const { page } = await drawn(hard());
    const found = await page.evaluate(() =>
      [...document.querySelectorAll('[fill^="url("]')].map((element) => {
        const id = /url\(#(.*)\)/.exec(element.getAttribute('fill')!)![1]!;
        return document.querySelectorAll(`pattern#${id}`).length;
      }),
    );
    expect(found.length).toBeGreaterThanOrEqual(5);
    expect(new Set(found)).toEqual(new Set([1]));
    await page.close();
  });

  it('keeps a contrast of 3 to 1 between what is drawn and its ground, in light and dark', async () => {
    for (const scheme of ['light', 'dark'] as const) {
      const { page } = await drawn(sample, { scheme });
      const worst = await page.evaluate(() => {
        const channels = (color: string): number[] => color.match(/[\d.]+/g)!.slice(0, 3).map(Number);
        const light = (color: string): number => {
          const [r, g, b] = channels(color).map((c) => (c / 255 <= 0.03928 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4));
          return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
        };
        const ground = light(getComputedStyle(document.querySelector('figure > svg')!).backgroundColor);
        const over = (color: string): number => {
          const own = light(color);
          return (Math.max(own, ground) + 0.05) / (Math.min(own, ground) + 0.05);
        };
        const inks = ['--bark', '--loam', '--water', '--clay'].map((name) => {
          const probe = document.createElement('i');
          probe.setAttribute('class', 'probe');
          document.body.append(probe);
          probe.style.color = `var(${name})`;
          return getComputedStyle(probe).color;
        });
        return Math.min(...inks.map(over));
      });
      expect(worst).toBeGreaterThanOrEqual(3);
      await page.close();
    }
  }); // prettier-ignore
});

describe('the rasteriser of the page', () => {
  it('makes a PNG image of a drawing under the panel’s policy', async () => {
    const { page, said } = await drawn(sample);
    const png = await page.evaluate(
      async ([svg]) => {
        const made = await (globalThis as unknown as { rasterise: (svg: string, wide: number) => Promise<Uint8Array> }).rasterise(svg!, 540);
        const image = await createImageBitmap(new Blob([made as Uint8Array<ArrayBuffer>], { type: 'image/png' }));
        const canvas = new OffscreenCanvas(image.width, image.height);
        const ground = canvas.getContext('2d')!;
        ground.drawImage(image, 0, 0);
        const { data } = ground.getImageData(0, 0, image.width, image.height);
        const kinds = new Set<number>();
        for (let i = 0; i < data.length; i += 4) if (data[i + 3]! === 255) kinds.add((data[i]! << 16) | (data[i + 1]! << 8) | data[i + 2]!);
        return { first: [...made.subarray(0, 4)], wide: image.width, high: image.height, hose: kinds.has(0x0b5c8f), bark: kinds.has(0x3b2f2a) };
      },
      [sample.coil.svg],
    );
    const [, w, h] = /width="(\d+)" height="(\d+)"/.exec(sample.coil.svg)!.map(Number);
    expect(png).toEqual({ first: [137, 80, 78, 71], wide: 540, high: Math.round((540 * h!) / w!), hose: true, bark: true });
    expect(said).toEqual([]);
    await page.close();
  }); // prettier-ignore

  it('says what is wrong with a drawing it cannot read', async () => {
    const { page } = await drawn(sample);
    const refused = await page.evaluate(async () => {
      const { rasterise } = globalThis as unknown as { rasterise: (svg: string, wide: number) => Promise<Uint8Array> }; // prettier-ignore
      const why = (svg: string, wide: number): Promise<string> =>
        rasterise(svg, wide).then(
          () => 'drawn',
          (error: Error) => error.message,
        );
      return [await why('no drawing', 100), await why('<svg xmlns="http://www.w3.org/2000/svg"/>', 0)]; // prettier-ignore
    });
    expect(refused[0]).toMatch(/^a picture cannot be drawn: /);
    expect(refused[1]).toMatch(/^a picture 0 px wide; whole numbers from 1 to 8000 are accepted/);
    await page.close();
  });
});
