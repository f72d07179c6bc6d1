/** Colours of the written file, measured: text on its ground, lines of charts, and what is left without colour. */
import { beforeAll, describe, expect, it } from 'vitest';
import { rasterise } from '../../src/cli/rasterise.js';
import { clientCopy } from '../../src/workbook/exports/client-copy.js';
import { crewCopy } from '../../src/workbook/exports/crew-copy.js';
import { cell, SheetDraft, STYLES, type Style } from '../../src/workbook/model.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { contextOf } from './exports/samples.js';
import { sampleJob } from './job.js';
import { readBook, type BookRead, type Look } from './ooxml/book.js';
import { each, first, localName, walk, type Node } from './ooxml/parts.js';

const channel = (value: number): number =>
  value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;

/** RRGGBB as red, green and blue from 0 to 1. */
const rgb = (hex: string): [number, number, number] =>
  [0, 2, 4].map((at) => parseInt(hex.slice(at, at + 2), 16) / 255) as [number, number, number];

/** Relative luminance, WCAG 2.2. */
const luminance = (hex: string): number => {
  const [r, g, b] = rgb(hex).map(channel) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};

/** Contrast ratio of two colours, WCAG 2.2 [-]. */
export const contrast = (a: string, b: string): number => {
  const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y) as [number, number];
  return (light + 0.05) / (dark + 0.05);
};

/** Hue in degrees; undefined for colours that are nearly gray. */
function hue(hex: string): number | undefined {
  const [r, g, b] = rgb(hex);
  const [least, most] = [Math.min(r, g, b), Math.max(r, g, b)];
  if (most - least < 0.12) return undefined;
  const turn = most === r ? (g - b) / (most - least) : most === g ? 2 + (b - r) / (most - least) : 4 + (r - g) / (most - least); // prettier-ignore
  return (turn * 60 + 360) % 360;
}
const isRed = (hex: string): boolean => {
  const h = hue(hex);
  return h !== undefined && (h < 20 || h > 340);
};
const isGreen = (hex: string): boolean => {
  const h = hue(hex);
  return h !== undefined && h > 80 && h < 170;
};

const LEAST_TEXT = 4.5;
const LEAST_LINE = 3;

let books: BookRead[];
beforeAll(async () => {
  const job = await sampleJob({ crewLanguage: 'both', whatIf: true });
  const ctx = contextOf(job, 'US');
  const models = [job.model, clientCopy(ctx), crewCopy(ctx)];
  books = await Promise.all(models.map(async (model) => readBook(await writeXlsx(model, { rasterise })))); // prettier-ignore
});

const looksUsed = (book: BookRead): Look[] => {
  const used = new Set(book.sheets.flatMap((s) => [...s.cells.values()].map((c) => c.look)));
  return [...used].map((at) => book.looks[at]!);
};

describe('colours of the sheets', () => {
  it('give text at least 4.5:1 on its ground, in every style a cell uses', () => {
    for (const book of books) {
      const looks = looksUsed(book);
      expect(looks.length).toBeGreaterThan(5);
      const faint = looks
        .filter(({ ink, ground }) => contrast(ink, ground) < LEAST_TEXT)
        .map(({ ink, ground }) => `${ink} on ${ground}: ${contrast(ink, ground).toFixed(2)}`);
      expect(faint).toEqual([]);
    }
  });

  it('give text of conditions as much on any ground it can meet', () => {
    const book = books[0]!;
    const grounds = new Set(looksUsed(book).filter((l) => l.ground !== '0B5C8F').map((l) => l.ground)); // prettier-ignore
    expect(book.conditionInks.length).toBeGreaterThan(0);
    for (const ink of book.conditionInks)
      for (const ground of grounds)
        expect(contrast(ink, ground), `${ink} on ${ground}`).toBeGreaterThanOrEqual(LEAST_TEXT);
  });

  it('never set red on green or green on red', () => {
    for (const book of books)
      for (const { ink, ground } of looksUsed(book))
        expect((isRed(ink) && isGreen(ground)) || (isGreen(ink) && isRed(ground))).toBe(false);
  });
});

/** The look of every style, from a file that holds one cell of each. */
async function styleLooks(): Promise<Record<Style, Look>> {
  const draft = new SheetDraft('Styles', 'Styles');
  const names = Object.keys(STYLES) as Style[];
  draft.text(names.map((style) => cell(style, style)));
  const book = readBook(
    await writeXlsx({ title: 't', description: 't', madeOn: 46000, paper: 'a4', sheets: [draft.done()], names: {} }),
  ); // prettier-ignore
  const found = [...book.sheets[0]!.cells.values()];
  return Object.fromEntries(found.map((c) => [c.value, book.looks[c.look]])) as Record<Style, Look>;
}

/** What is left of a look on a black-and-white print: weight, slant, size, lines. */
const uncoloured = ({ bold, italic, size, border }: Look): string =>
  `${bold} ${italic} ${size} ${border}`;

/** Styles that say what a cell is for; the others are running text that says so in words. */
const TELLING: readonly Style[] = ['input', 'calculation', 'result', 'look', 'field', 'header', 'title', 'heading', 'text']; // prettier-ignore

describe('styles', () => {
  it('are told apart without colour where they say what a cell is for', async () => {
    const looks = await styleLooks();
    const alike = TELLING.flatMap((a, i) =>
      TELLING.slice(i + 1)
        .filter((b) => uncoloured(looks[a]) === uncoloured(looks[b]))
        .map((b) => `${a} and ${b}`),
    );
    // a header stands alone in its row above its table, a look holds a word and a triangle
    expect(alike.filter((pair) => pair !== 'look and header')).toEqual([]);
  });

  it('in red and in green differ in weight or lines as well', async () => {
    const all = Object.values(await styleLooks());
    const [red, green] = [all.filter((l) => isRed(l.ink)), all.filter((l) => isGreen(l.ink))];
    expect(red.length).toBeGreaterThan(0);
    expect(green.length).toBeGreaterThan(0);
    for (const r of red) for (const g of green) expect(uncoloured(r)).not.toBe(uncoloured(g));
  });

  it('in red or green always hold words', () => {
    const coloured = books.flatMap((book) =>
      book.sheets.flatMap((sheet) =>
        [...sheet.cells.values()]
          .filter(({ look }) => isRed(book.looks[look]!.ink) || isGreen(book.looks[look]!.ink))
          .map(({ at, value }) => ({ where: `${sheet.name}!${at}`, value })),
      ),
    );
    expect(coloured.length).toBeGreaterThan(20);
    for (const { where, value } of coloured)
      if (value !== null && value !== '') expect(String(value), where).toMatch(/\p{L}{2}/u);
  });
});

interface Stroke {
  color: string;
  dash: string;
  width: string;
}

/** Colour, dash and width of every series of a chart. */
const strokesOf = (chart: Node): Stroke[] =>
  [...walk(chart)]
    .filter((n) => localName(n) === 'ser')
    .map((ser) => {
      const line = first(first(ser, 'spPr'), 'ln');
      const fill = first(line ?? first(ser, 'spPr'), 'solidFill');
      return {
        color: each(fill, 'srgbClr')[0]?.attributes['val'] ?? '',
        dash: first(line, 'prstDash')?.attributes['val'] ?? 'solid',
        width: line?.attributes['w'] ?? '',
      };
    });

describe('charts', () => {
  it('draw every series at 3:1 or more against paper, and name colours outright', () => {
    const strokes = books.flatMap((book) => book.charts.flatMap(strokesOf));
    expect(strokes.length).toBeGreaterThan(6);
    for (const { color } of strokes) {
      expect(color).toMatch(/^[0-9A-F]{6}$/);
      expect(contrast(color, 'FFFFFF')).toBeGreaterThanOrEqual(LEAST_LINE);
    }
  });

  it('tell their series apart by dash or width, so that a red and a green line are no pair', () => {
    for (const chart of books.flatMap((book) => book.charts)) {
      const strokes = strokesOf(chart);
      const drawn = strokes.map(({ dash, width }) => `${dash} ${width}`);
      expect(new Set(drawn).size).toBe(strokes.length);
    }
  });
});

describe('the measure', () => {
  it('gives the ratios WCAG gives', () => {
    expect(contrast('000000', 'FFFFFF')).toBeCloseTo(21, 6);
    expect(contrast('767676', 'FFFFFF')).toBeGreaterThan(4.5);
    expect(contrast('777777', 'FFFFFF')).toBeLessThan(4.5);
  });

  it('knows red from green, and both from brown and blue', () => {
    expect([isRed('FF0000'), isGreen('00FF00'), isRed('00FF00'), isGreen('FF0000')]).toEqual([true, true, false, false]); // prettier-ignore
    for (const neither of ['0B5C8F', '8A5A00', '6B4F3A', '777777'])
      expect([isRed(neither), isGreen(neither)]).toEqual([false, false]);
  });
});
