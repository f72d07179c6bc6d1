import { beforeAll, describe, expect, it } from 'vitest';
import { isoDate } from '../../../src/engine/dates.js';
import { clientPages } from '../../../src/workbook/exports/client-pdf.js';
import { crewPages } from '../../../src/workbook/exports/crew-pdf.js';
import { makePdf } from '../../../src/workbook/exports/pdf.js';
import { crewRounds, longDay } from '../../../src/workbook/exports/rounds.js';
import type { Context } from '../../../src/workbook/sheets/context.js';
import { CAUTIONS } from '../../../src/workbook/words.js';
import { FONTS, readPdf, sampleContext, skipWithoutPoppler } from './samples.js';

const PAPERS = [
  ['US', '612 x 792 pts (letter)'],
  ['SI', '595.28 x 841.89 pts (A4)'],
] as const;

const squeeze = (text: string): string => text.replace(/\s+/g, ' ');
const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
const times = (text: string, pattern: RegExp): number => [...text.matchAll(pattern)].length;

describe.skipIf(skipWithoutPoppler())('crew sheets on paper', () => {
  describe.each(PAPERS)('%s', (units, size) => {
    let ctx: Context;
    let read: ReturnType<typeof readPdf>;
    beforeAll(async () => {
      ctx = await sampleContext(units);
      read = readPdf(await makePdf(crewPages(ctx), FONTS));
    });

    /** Text of each round, from its title to the next. */
    const parts = (): string[] =>
      read.text.split(/^(?=\w{3} \d+ \w{3} \d{4}.* \d{4}-\d\d-\d\d$)/m).slice(1);

    it('is of the right size, with every font inside the file', () => {
      expect(read.size).toBe(size);
      expect(read.fonts.length).toBe(2);
      for (const font of read.fonts) expect(font).toMatch(/DejaVuSansCondensed.*\byes +yes +yes/);
    });

    it('starts a page for every crew day, and few days need a second', () => {
      const { length } = crewRounds(ctx.plan);
      expect(parts().length).toBe(length);
      expect(read.pages).toBeGreaterThanOrEqual(length);
      expect(read.pages).toBeLessThan(length * 1.25);
      expect(read.text).toContain(`Page ${read.pages} of ${read.pages}`);
    });

    it('holds every stop and every tree once, in driving order, with its litres or gallons', () => {
      const texts = parts();
      crewRounds(ctx.plan).forEach((round, r) => {
        const text = texts[r]!;
        expect(squeeze(text)).toMatch(new RegExp(`^ ?${longDay(round.day)} ${isoDate(round.day)}`));
        let from = 0;
        round.stops.forEach((stop, s) => {
          const name = new RegExp(`^ *${s + 1} +${escaped(stop.site)}`, 'gm');
          expect(times(text, name), `${longDay(round.day)}, stop ${s + 1}`).toBe(1);
          const at = text.search(name);
          expect(at).toBeGreaterThanOrEqual(from);
          from = at;
        });
        for (const { tree } of round.stops.flatMap((stop) => stop.tasks))
          expect(times(text, new RegExp(`${escaped(tree.id)}\\b`, 'g')), tree.id).toBe(1);
      });
    });

    it('puts cautions, water and hours before the first stop of every page that starts a day', () => {
      crewRounds(ctx.plan).forEach((round, r) => {
        const text = squeeze(parts()[r]!);
        const first = text.indexOf(`1 ${round.stops[0]!.site}`);
        for (const words of [...CAUTIONS.map((c) => c.short), 'Water from', 'Hours allowed']) {
          expect(text).toContain(words);
          expect(text.indexOf(words)).toBeLessThan(first);
        }
        const bags = round.stops.some((s) => s.tasks.some((t) => t.watering.family === 'bag'));
        expect(text.includes('write FULL in Reading')).toBe(bags);
      });
    });

    it('leaves room for readings and a name', () => {
      const stops = crewRounds(ctx.plan).reduce((n, round) => n + round.stops.length, 0);
      expect(times(read.text, /Reading$/gm)).toBe(stops);
      expect(times(read.text, /Trees skipped/g)).toBe(crewRounds(ctx.plan).length);
    });
  });

  it('gives the same bytes for the same plan', async () => {
    const ctx = await sampleContext();
    const days: [number, number] = [ctx.plan.crewDays[3]!.day, ctx.plan.crewDays[5]!.day];
    const [a, b] = [
      await makePdf(crewPages(ctx, { days }), FONTS),
      await makePdf(crewPages(ctx, { days }), FONTS),
    ];
    expect(Buffer.compare(a, b)).toBe(0);
    expect(times(readPdf(a).text, /Trees skipped/g)).toBe(3);
  });

  it('says a page carries a day on, and repeats its stop, when a stop is longer than a page', async () => {
    const ctx = await sampleContext();
    const day = ctx.plan.crewDays[0]!;
    const [stop] = day.stops;
    const [task] = stop!.tasks;
    const tasks = Array.from({ length: 60 }, (_, i) => ({
      ...task!,
      tree: { ...task!.tree, id: `T${String(i + 1).padStart(3, '0')}` },
    }));
    const long = { ...day, stops: [{ ...stop!, tasks }] };
    const read = readPdf(
      await makePdf(crewPages({ ...ctx, plan: { ...ctx.plan, crewDays: [long] } }), FONTS),
    );
    expect(read.pages).toBeGreaterThan(3);
    expect(times(read.text, /, continued/g)).toBe(read.pages - 1);
    // the last page may hold the signature alone
    const heads = times(read.text, new RegExp(`^ *1 +${escaped(stop!.site)}`, 'gm'));
    expect([read.pages, read.pages - 1]).toContain(heads);
    for (const { tree } of tasks) expect(times(read.text, new RegExp(tree.id, 'g'))).toBe(1);
  });

  it('warns of a round longer than the crew’s day, and of stops without an hour in common', async () => {
    const ctx = await sampleContext();
    const day = ctx.plan.crewDays.find((d) => d.stops.length > 1)!;
    const [round] = day.rounds!;
    const stops = day.stops.map((stop, i) => ({
      ...stop,
      tasks: stop.tasks.map((task) => ({
        ...task,
        watering: { ...task.watering, hours: i === 0 ? '04:00-08:00' : '18:00-22:00' },
      })),
    }));
    const odd = { ...day, stops, rounds: [{ ...round!, hours: 99 }] };
    const { text } = readPdf(
      await makePdf(crewPages({ ...ctx, plan: { ...ctx.plan, crewDays: [odd] } }), FONTS),
    );
    expect(text).toContain('▲ More hours than the crew has');
    expect(text).toContain('▲ No hour is open to all stops');
    expect(text).toContain('allowed 04:00–08:00');
  });

  it('refuses days without a crew, in a sentence', async () => {
    const ctx = await sampleContext();
    expect(() => crewPages(ctx, { days: [1000, 1001] })).toThrow(/no crew goes out from 1902/);
    expect(() => crewPages({ ...ctx, plan: { ...ctx.plan, crewDays: [] } })).toThrow(
      /no crew goes out in this plan/,
    );
  });
});

describe.skipIf(skipWithoutPoppler())('the client’s copy on paper', () => {
  it.each(PAPERS)('%s: season, price, what is asked, in a few pages, without costs', async (units, size) => {
    const ctx = await sampleContext(units);
    const read = readPdf(await makePdf(clientPages(ctx), FONTS));
    expect(read.size).toBe(size);
    expect(read.pages).toBeLessThanOrEqual(4);
    const text = squeeze(read.text);
    for (const words of ['The season at a glance', 'Water month by month', 'Price', 'What we ask of you', 'Signature', 'HR-060'])
      expect(text).toContain(words);
    expect(text).not.toMatch(/office|margin|left over/i);
    const sites = new Set(ctx.plan.crewDays.flatMap((d) => d.stops.map((s) => s.site)));
    for (const site of sites) expect(text).toContain(site);
  }); // prettier-ignore
});
