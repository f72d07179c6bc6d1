import { beforeAll, describe, expect, it } from 'vitest';
import { isoDate } from '../../../src/engine/dates.js';
import { clientPages } from '../../../src/workbook/exports/client-pdf.js';
import { checkInPlan, crewPages } from '../../../src/workbook/exports/crew-pdf.js';
import { makePdf } from '../../../src/workbook/exports/pdf.js';
import { crewRounds, longDay } from '../../../src/workbook/exports/rounds.js';
import type { Context } from '../../../src/workbook/sheets/context.js';
import { spell } from '../../../src/workbook/sheets/crew.js';
import { CREW_CAUTIONS, CREW_WORDS, UNREAD_SENTENCES } from '../../../src/workbook/crew-words.js';
import {
  scaleSteps,
  seasonDrawing,
  seasonSentence,
} from '../../../src/workbook/exports/season-chart.js';
import { seasonSeries } from '../../../src/workbook/series.js';
import type { SeasonSeries } from '../../../src/workbook/series-types.js';
import { CAUTIONS } from '../../../src/workbook/words.js';
import { column } from '../cells.js';
import { sampleJob } from '../job.js';
import { contextOf, FONTS, readPdf, sampleContext, skipWithoutPoppler } from './samples.js';

const PAPERS = [
  ['US', '612 x 792 pts (letter)'],
  ['SI', '595.28 x 841.89 pts (A4)'],
] as const;

const squeeze = (text: string): string => text.replace(/\s+/g, ' ');
const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
const times = (text: string, pattern: RegExp): number => [...text.matchAll(pattern)].length;

/** When the tank is filled: before a stop, or before a tree of it that has a line of its own. */
const FILLED = /(Fill the tank before|Llene la cuba antes de) (la )?\S+/g;

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
      read.text.split(/^(?=\w{3} \d+ \w{3} \d{4}.* start \d\d:\d\d)/m).slice(1);

    it('is of the right size, with every font inside the file', () => {
      expect(read.size).toBe(size);
      expect(read.fonts.length).toBe(2);
      for (const font of read.fonts) expect(font).toMatch(/DejaVuSansCondensed.*\byes +yes +yes/);
    });

    it('starts a page for every crew day, and few days need a second', () => {
      const { length } = crewRounds(ctx.plan);
      expect(parts().length).toBe(length);
      expect(read.pages).toBeGreaterThanOrEqual(length);
      expect(read.pages).toBeLessThan(length * 1.42);
      expect(read.text).toContain(`Page ${read.pages} of ${read.pages}`);
    });

    it('holds every stop and every tree once, in driving order, with its litres or gallons', () => {
      const texts = parts();
      crewRounds(ctx.plan).forEach((round, r) => {
        const text = texts[r]!;
        expect(squeeze(text)).toMatch(
          new RegExp(`^ ?${longDay(round.day)} start 05:00 Times are estimates`),
        );
        // its date stands once
        expect(text).not.toContain(isoDate(round.day));
        let from = 0;
        round.stops.forEach((stop, s) => {
          const name = new RegExp(`^ *${s + 1} +${escaped(stop.site)}`, 'gm');
          expect(times(text, name), `${longDay(round.day)}, stop ${s + 1}`).toBe(1);
          expect(text).toMatch(
            new RegExp(`^ *${s + 1} +${escaped(stop.site)} +about \\d\\d:\\d[05]`, 'm'),
          );
          const at = text.search(name);
          expect(at).toBeGreaterThanOrEqual(from);
          from = at;
        });
        const work = text.replace(FILLED, '');
        for (const { tree } of round.stops.flatMap((stop) => stop.tasks))
          expect(times(work, new RegExp(`${escaped(tree.id)}\\b`, 'g')), tree.id).toBe(1);
      });
    });

    it('says when the tank is filled, as often as the day has loads, and numbers no stop for it', () => {
      const texts = parts();
      let trucks = 0;
      crewRounds(ctx.plan).forEach((round, r) => {
        const text = squeeze(texts[r]!);
        const filled = round.stops.flatMap((stop) => stop.fillings ?? []);
        expect(times(text, /Fill the tank/g), longDay(round.day)).toBe(filled.length);
        expect(filled.reduce((sum, { loads }) => sum + loads, 0)).toBe(round.tankLoads);
        const at = round.stops.findIndex((stop) => stop.fillings?.[0]?.before === 0);
        if (at < 0) return;
        trucks += 1;
        // above the stop whose first tree it is for, and says so
        expect(text).toContain(`Fill the tank before stop ${at + 1} `);
        const fill = text.indexOf('Fill the tank');
        expect(fill).toBeLessThan(text.indexOf(`${at + 1} ${round.stops[at]!.site}`));
      });
      expect(trucks).toBeGreaterThan(20);
    });

    it('puts cautions, water and hours before the first stop of every page that starts a day', () => {
      crewRounds(ctx.plan).forEach((round, r) => {
        const text = squeeze(parts()[r]!);
        const first = text.indexOf(`1 ${round.stops[0]!.site}`);
        const bags = round.stops.some((s) => s.tasks.some((t) => t.watering.family === 'bag'));
        const said = CAUTIONS.filter((c) => bags || !c.bag).map((c) => c.short);
        for (const { short, bag } of CAUTIONS) expect(text.includes(short)).toBe(bags || !bag);
        for (const words of [...said, 'Water from', 'Hours to water']) {
          expect(text).toContain(words);
          expect(text.indexOf(words)).toBeLessThan(first);
        }
        expect(text.includes('write FULL in Reading')).toBe(bags);
      });
    });

    it('prints times that add up to the total at the head of the day, with the way back', () => {
      const minutes = (all: Iterable<RegExpMatchArray>): number =>
        [...all].reduce((sum, [, h, min]) => sum + Number(h ?? 0) * 60 + Number(min ?? 0), 0);
      const TIME = '(?:(\\d+) h ?)?(?:(\\d+) min)?';
      crewRounds(ctx.plan).forEach((round, r) => {
        const text = parts()[r]!;
        const after = (before: string) => text.matchAll(new RegExp(`${before}${TIME}`, 'g'));
        // at the trees the time stands alone below the amount, in the column before the reading
        const trees = minutes(text.matchAll(/ {2,}(?:(\d+) h ?)?(?:(\d+) min)?$/gm));
        const out = minutes(after('drive '));
        const back = minutes(after('Way back to the yard +· +'));
        const tank = minutes(after('Water point +· +'));
        const total = Math.round(round.hours * 60);
        expect(out + back + tank + trees, longDay(round.day)).toBe(total);
        expect(back).toBeGreaterThan(0);
        expect(squeeze(text)).toContain(`in all ${spell(total / 60)})`);
      });
    });

    it('says of the trees on timers how many there are, where, and that nothing is to be opened', () => {
      let days = 0;
      crewRounds(ctx.plan).forEach(({ day }, r) => {
        const rows = ctx.plan.trees.filter(({ chosen }) =>
          chosen.plan.some((w) => w.day === day && ctx.automatic(w.device)),
        );
        const text = squeeze(parts()[r]!);
        expect(text.includes('By timer today')).toBe(rows.length > 0);
        if (rows.length > 0) expect(text).toMatch(/tell the office\. Start \d\d:\d\d–/);
        if (rows.length === 0) return;
        days += 1;
        const trees = rows.reduce((sum, { tree }) => sum + tree.count, 0);
        const block = text.slice(text.indexOf('By timer today'));
        expect(block).toMatch(new RegExp(`^By timer today: ${trees} trees?\\. Open nothing\\.`));
        for (const { tree } of rows) expect(block).toContain(tree.site);
      });
      expect(days).toBeGreaterThan(50);
    });

    it('tells somebody of every day without a crew on which timers run, once', () => {
      const out = new Set(crewRounds(ctx.plan).map(({ day }) => day));
      const alone = new Set(
        ctx.plan.trees.flatMap(({ chosen }) =>
          chosen.plan.flatMap(({ day, device }) =>
            ctx.automatic(device) && !out.has(day) ? [day] : [],
          ),
        ),
      );
      expect(alone.size).toBeGreaterThan(20);
      const text = squeeze(read.text);
      for (const day of alone) {
        const named = longDay(day).replace(/ \d{4}$/, '');
        expect(
          times(text, new RegExp(`${named}, (\\w{3} \\d+ \\w{3}, )*start \\d`, 'g')),
          named,
        ).toBe(1);
      }
    });

    it('says once on every page that local code decides', () => {
      const pages = read.text.split('\f').filter((page) => page.trim() !== '');
      expect(pages).toHaveLength(read.pages);
      for (const page of pages) expect(times(page, /local code/gi)).toBe(1);
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
      await makePdf(
        crewPages({ ...ctx, plan: { ...ctx.plan, trees: [], crewDays: [long] } }),
        FONTS,
      ),
    );
    expect(read.pages).toBeGreaterThan(3);
    // the last page is the field card
    expect(times(read.text, /, continued/g)).toBe(read.pages - 2);
    // the last page of the day may hold the signature alone
    const heads = times(read.text, new RegExp(`^ *1 +${escaped(stop!.site)}`, 'gm'));
    expect([read.pages - 1, read.pages - 2]).toContain(heads);
    for (const { tree } of tasks) expect(times(read.text, new RegExp(tree.id, 'g'))).toBe(1);
  });

  /** Open at hours that all lie within the crew's day. */
  const openIn = (hours: string) => ({ hours, within: hours });

  it('warns of a round longer than the crew’s day, and of stops without an hour in common', async () => {
    const ctx = await sampleContext();
    const day = ctx.plan.crewDays.find((d) => d.stops.length > 1)!;
    const [round] = day.rounds!;
    const stops = day.stops.map((stop, i) => ({
      ...stop,
      tasks: stop.tasks.map((task) => ({
        ...task,
        watering: { ...task.watering, ...openIn(i === 0 ? '04:00-08:00' : '18:00-22:00') },
      })),
    }));
    const odd = { ...day, stops, rounds: [{ ...round!, hours: 99, over: 90 }] };
    const { text } = readPdf(
      await makePdf(crewPages({ ...ctx, plan: { ...ctx.plan, crewDays: [odd] } }), FONTS),
    );
    expect(text).toContain('▲ More hours than the crew has');
    expect(text).toContain('▲ No hour is open to all stops');
    expect(text).toContain('allowed 04:00–08:00');
  });

  it('names hours by means at a stop where one may run when another may not', async () => {
    const ctx = await sampleContext();
    const day = ctx.plan.crewDays.find((d) => d.stops.some((s) => s.tasks.length > 1))!;
    const [task] = day.stops.flatMap((stop) => stop.tasks);
    const mixed = (['bag', 'tanker'] as const).map((family, i) => ({
      ...task!,
      watering: { ...task!.watering, family, ...openIn(i === 0 ? '19:00-24:00' : 'any') },
    }));
    const [stop] = day.stops;
    // the second stop closes at eight: the first is not open at all hours of the round
    const early = mixed.map((t) => ({
      ...t,
      watering: { ...t.watering, ...openIn('00:00-08:00') },
    }));
    const odd = {
      ...day,
      stops: [
        { ...stop!, tasks: mixed },
        { ...stop!, tasks: early },
      ],
    };
    const plan = { ...ctx.plan, crewDays: [odd] };
    const text = squeeze(readPdf(await makePdf(crewPages({ ...ctx, plan }), FONTS)).text);
    expect(text).toMatch(/allowed bag 19:00–24:00; (Reading )?truck any hour/);
    expect(text).not.toContain('allowed any hour');
  });

  it('refuses days on which nobody waters, and days outside the plan, in a sentence with days in words', async () => {
    const ctx = await sampleContext();
    const { seasonFrom, seasonTo } = ctx.plan.site;
    // a plan without its trees has no timers: only crew days are left
    const crewOnly = { ...ctx, plan: { ...ctx.plan, trees: [] } };
    const out = new Set(ctx.plan.crewDays.map(({ day }) => day));
    const idle = Array.from({ length: seasonTo - seasonFrom }, (_, i) => seasonFrom + i).find((day) => !out.has(day))!; // prettier-ignore
    const named = longDay(idle).replace(' 2027', '');
    expect(() => crewPages(crewOnly, { days: [idle, idle] })).toThrow(
      `no crew goes out and no timer waters on ${named}; the days of the plan stand on the sheet Calendar`,
    );
    const none = { ...crewOnly, plan: { ...crewOnly.plan, crewDays: [] } };
    expect(() => crewPages(none, { days: [idle, idle + 2] })).toThrow(
      `from ${named} to ${longDay(idle + 2).replace(' 2027', '')};`,
    );
    expect(() => crewPages(none)).toThrow('no timer waters in this plan');
    for (const days of [
      [seasonFrom - 1, seasonTo],
      [seasonFrom, seasonTo + 1],
    ] as [number, number][])
      // prettier-ignore
      expect(() => crewPages(ctx, { days })).toThrow(
        `the days ${longDay(days[0])} to ${longDay(days[1])} are not all in the plan, which goes from Thu 1 Apr 2027 to Thu 30 Sep 2027`,
      );
  });

  it('refuses a day with a year that is half typed as one outside the plan', async () => {
    const { site } = (await sampleContext()).plan;
    expect(() => checkInPlan(['0027-06-02', '2027-06-03'], site)).toThrow(
      'the days 0027-06-02 to Thu 3 Jun 2027 are not all in the plan',
    );
  });
});

describe.skipIf(skipWithoutPoppler())('crew sheets on paper in Spanish', () => {
  const DAYS = 12;
  let ctx: Context;
  let spanish: ReturnType<typeof readPdf>;
  beforeAll(async () => {
    const whole = await sampleContext();
    const crewDays = whole.plan.crewDays.slice(60, 60 + DAYS);
    ctx = { ...whole, crewLanguage: 'es', plan: { ...whole.plan, crewDays } };
    spanish = readPdf(await makePdf(crewPages(ctx), FONTS));
  });

  /** Text of each round, from its title to the next. */
  const parts = (text: string): string[] =>
    text.split(/^(?=\p{L}{3} \d+ \p{L}{3} \d{4}.* (?:start|inicio) \d\d:\d\d)/mu).slice(1);

  it('hold every stop and every tree once, in driving order', () => {
    const texts = parts(spanish.text);
    const rounds = crewRounds(ctx.plan);
    expect(texts).toHaveLength(rounds.length);
    rounds.forEach((round, r) => {
      let from = 0;
      round.stops.forEach((stop, s) => {
        const name = new RegExp(`^ *${s + 1} +${escaped(stop.site)}`, 'gm');
        expect(times(texts[r]!, name), `${isoDate(round.day)}, parada ${s + 1}`).toBe(1);
        const at = texts[r]!.search(name);
        expect(at).toBeGreaterThanOrEqual(from);
        from = at;
      });
      const work = texts[r]!.replace(FILLED, '');
      for (const { tree } of round.stops.flatMap((stop) => stop.tasks))
        expect(times(work, new RegExp(`${escaped(tree.id)}\\b`, 'g')), tree.id).toBe(1);
    });
  });

  it('put cautions, water, hours and what to do on the spot before the first stop, in Spanish', () => {
    crewRounds(ctx.plan).forEach((round, r) => {
      const text = squeeze(parts(spanish.text)[r]!);
      const first = text.indexOf(`1 ${round.stops[0]!.site}`);
      const bags = round.stops.some((s) => s.tasks.some((t) => t.watering.family === 'bag'));
      const said = CREW_CAUTIONS.filter(({ bag }) => bags || !bag).map((c) => c.es);
      for (const words of [...said, 'Agua de', 'Horas de riego']) {
        expect(text).toContain(words);
        expect(text.indexOf(words)).toBeLessThan(first);
      }
      expect(text.includes('anote LLENA en Lectura')).toBe(bags);
    });
  });

  it('say on every page that nobody has read the translation, and hold no English of the crew’s', () => {
    for (const words of UNREAD_SENTENCES.es!)
      expect(times(spanish.text, new RegExp(escaped(words), 'g'))).toBe(spanish.pages);
    const own = squeeze(spanish.text).replaceAll(UNREAD_SENTENCES.es![1], ' ');
    for (const { en, es } of Object.values(CREW_WORDS))
      if (en !== es && en.includes(' ')) expect(own).not.toContain(en);
    expect(own).toContain(`Página 1 de ${spanish.pages}`);
  });

  it('follow the English pages when both are asked for, and are the only ones when one is', async () => {
    const both = readPdf(await makePdf(crewPages({ ...ctx, crewLanguage: 'both' }), FONTS));
    const days = (text: string): string[] =>
      parts(text).map((part) => /(\d+) \p{L}{3} \d{4}/u.exec(part)![1]!);
    const once = days(spanish.text);
    expect(days(both.text)).toEqual([...once, ...once]);
    const lastEnglish = both.text.lastIndexOf('Trees skipped');
    expect(lastEnglish).toBeGreaterThan(0);
    expect(both.text.indexOf('Árboles omitidos')).toBeGreaterThan(lastEnglish);
    expect(spanish.text).not.toContain('Trees skipped');
  });

  it('set every letter of the crew’s in 12 pt or more', async () => {
    const sizes: number[] = [];
    const look = (node: unknown): void => {
      if (Array.isArray(node)) node.forEach(look);
      else if (node !== null && typeof node === 'object') {
        for (const [key, value] of Object.entries(node)) {
          if (key === 'fontSize') sizes.push(value as number);
          else if (typeof value === 'function' && (key === 'footer' || key === 'header'))
            look((value as (page: number, pages: number) => unknown)(1, 2));
          else look(value);
        }
      }
    };
    look(crewPages({ ...ctx, crewLanguage: 'both' }));
    expect(sizes.length).toBeGreaterThan(50);
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(12);
  });
});

describe('the season as a drawing', () => {
  const series: SeasonSeries = {
    unit: 'gal',
    weeks: [0, 1, 2, 3, 4].map((i) => ({
      from: 46600 + 7 * i, to: 46606 + 7 * i, demand: 100 + i, rain: i === 2 ? 40 : 0, watering: 20 * i, crewHours: 0, waterings: 0,
    })),
    stages: [{ day: 46600, name: 'One' }, { day: 46614, name: '<b>&"Two"' }],
  }; // prettier-ignore

  it('draws a bar for every week that has water, in proportion, and rain above it', () => {
    const svg = seasonDrawing(series, 500, 170);
    const bars = [...svg.matchAll(/<rect x="([\d.]+)" y="([\d.]+)" width="([\d.]+)" height="([\d.]+)" fill="(#\w+)"/g)]
      .map(([, x, y, , h, fill]) => ({ x: Number(x), y: Number(y), h: Number(h), fill }))
      .filter(({ h }) => h !== 8); // prettier-ignore
    const water = bars.filter(({ fill }) => fill !== '#FFFFFF');
    const [rain] = bars.filter(({ fill }) => fill === '#FFFFFF');
    expect(water).toHaveLength(4);
    expect(water[3]!.h / water[0]!.h).toBeCloseTo(4, 1);
    expect(rain!.h / water[1]!.h).toBeCloseTo(1, 1);
    expect(rain!.x).toBe(water[1]!.x);
    expect(rain!.y + rain!.h).toBeCloseTo(water[1]!.y, 1);
  });

  it('holds names of stages as text, never as markup, and one line a change', () => {
    const svg = seasonDrawing(series, 500, 170);
    expect(svg).toContain('&lt;b&gt;&amp;&quot;Two&quot;');
    expect(svg).not.toContain('<b>');
    expect(times(svg, /stroke-dasharray/g)).toBe(1);
  });

  it('steps its scale in ones, twos or fives, above all that it shows', () => {
    expect(scaleSteps(103)).toEqual([0, 50, 100, 150]);
    expect(scaleSteps(3120)).toEqual([0, 1000, 2000, 3000, 4000]);
    expect(scaleSteps(0.9)).toHaveLength(6);
    expect(scaleSteps(0)).toEqual([0, 1]);
  });

  it('says the numbers of the sheet Charts', async () => {
    const job = await sampleJob();
    const said = seasonSentence(seasonSeries(contextOf(job, 'US')));
    for (const key of ['demand', 'rain', 'water']) {
      const total = (column(job.model, 'Weeks', key) as number[]).reduce((a, b) => a + b, 0);
      expect(said).toContain(`${Math.round(total).toLocaleString('en-US')} gal`);
    }
  });
});

describe.skipIf(skipWithoutPoppler())('the client’s copy on paper', () => {
  it.each(PAPERS)('%s: season, price, what is asked, in a few pages, without costs', async (units, size) => {
    const ctx = await sampleContext(units);
    const read = readPdf(await makePdf(clientPages(ctx), FONTS));
    expect(read.size).toBe(size);
    expect(read.pages).toBeLessThanOrEqual(4);
    expect(read.fonts.length).toBe(2);
    const text = squeeze(read.text);
    for (const words of ['The season at a glance', 'The season by weeks', 'Demand Watering Rain that counts', 'Stage 1', 'Stage 2', 'Water month by month', 'Price', 'What this price stands on', 'What we ask of you', 'Signature', 'HR-060'])
      expect(text).toContain(words);
    expect(text).not.toMatch(/office|margin|left over/i);
    const sites = new Set(ctx.plan.crewDays.flatMap((d) => d.stops.map((s) => s.site)));
    for (const site of sites) expect(text).toContain(site);
  }); // prettier-ignore
});
