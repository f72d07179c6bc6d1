/** The sheet of what timers water on days on which no crew goes out. */
import { beforeAll, describe, expect, it } from 'vitest';
import { dayOf, type Day } from '../../../src/engine/dates.js';
import { lastsMinutes } from '../../../src/engine/plan/option.js';
import { windowsIn } from '../../../src/engine/rules/rule-words.js';
import { CrewSpeech } from '../../../src/workbook/crew-speech.js';
import { crewCopy } from '../../../src/workbook/exports/crew-copy.js';
import { crewPages, MOST_LINES } from '../../../src/workbook/exports/crew-pdf.js';
import { makePdf } from '../../../src/workbook/exports/pdf.js';
import { longDay } from '../../../src/workbook/exports/rounds.js';
import { hosesIn, timerRuns, treesIn } from '../../../src/workbook/exports/timers.js';
import { daySpans, runSentences } from '../../../src/workbook/timer-speech.js';
import type { Context } from '../../../src/workbook/sheets/context.js';
import { cellsOf } from '../cells.js';
import { sampleInput, sampleJob } from '../job.js';
import { contextOf, FONTS, readPdf, sampleContext, skipWithoutPoppler } from './samples.js';

const TUESDAY = dayOf(2027, 6, 8);
const SATURDAY = dayOf(2027, 6, 12);
const WEEK: [Day, Day] = [TUESDAY, SATURDAY];

const STREET = 24;
/** Trees of one site: each at an address of its own, then many at one, then without any; a row of three, a note. */
const LIST = [
  ['Tree id', 'Count', 'Caliper (in)', 'Planted', 'Site', 'Address', 'Tap', 'Note'],
  ...Array.from({ length: STREET }, (_, i) =>
    [`A-${i + 1}`, i === 5 ? 3 : 1, i % 2 === 0 ? 2 : 3.5, '2026-11-10', 'Sample Court', `${i + 11} Invented Row`, 'yes', i === 3 ? 'gate is locked' : '']),
  ...Array.from({ length: 45 }, (_, i) => [`B-${i + 1}`, 1, i < 43 ? 2 : 3 + (i % 2), '2026-11-10', 'Sample Court', '7 Other Row', 'yes', '']),
  ['C-1', 1, 2, '2026-11-10', 'Invented Green', '', 'yes', ''],
]; // prettier-ignore

/** A plan in which hoses on timers do everything, on Tuesdays and Saturdays. */
async function timersOnly(): Promise<Context> {
  const { kit = [], site } = await sampleInput();
  const hose = { ...kit.find(({ automatic }) => automatic)!, name: 'short hose on a timer', length: 7.6, stock: 900 }; // prettier-ignore
  const job = await sampleJob({
    inventory: LIST,
    kit: [hose],
    stages: [],
    rules: [
      ['Means', 'Days', 'Hours', 'Verdict'],
      ['soaker', 'Tue Sat', '00:00-10:00, 18:00-24:00', 'allow'],
    ],
    site: { ...site!, texture: 'clay loam' },
  });
  return contextOf(job, 'US');
}

let ctx: Context;
beforeAll(async () => {
  ctx = await timersOnly();
});

const squeeze = (text: string): string => text.replace(/\s+/g, ' ');
const times = (text: string, pattern: RegExp): number => [...text.matchAll(pattern)].length;
/** Rows a timer waters on a day. */
const rowsOn = (day: Day) =>
  ctx.plan.trees.filter(({ chosen }) => chosen.plan.some((w) => w.day === day));

describe('what is set on timers', () => {
  it('is every row once a day it is watered, and no crew day stands beside it', () => {
    expect(ctx.plan.crewDays).toEqual([]);
    const all = timerRuns(ctx, WEEK);
    expect(all.flatMap(({ days }) => days).sort()).toEqual(WEEK);
    for (const { days, runs } of all)
      for (const day of days) {
        const rows = runs.flatMap((run) => run.rows.map(({ row }) => row));
        expect(rowsOn(day).length).toBeGreaterThan(10);
        expect(rows.sort()).toEqual(rowsOn(day).map(({ tree }) => tree.row).sort()); // prettier-ignore
        expect(treesIn(runs)).toBe(rowsOn(day).reduce((sum, { tree }) => sum + tree.count, 0));
        expect(hosesIn(runs)).toBeGreaterThan(treesIn(runs));
        for (const { rows: own } of runs) expect(own.length).toBeLessThanOrEqual(20);
      }
  });

  it('starts so that each run, with its pauses, ends within its hours', () => {
    let starts = 0;
    for (const { days, runs } of timerRuns(ctx, [ctx.plan.site.seasonFrom, ctx.plan.site.seasonTo]))
      for (const run of runs) {
        const { start } = runSentences(run, new CrewSpeech('en'));
        const own = new Set(run.rows.map(({ row }) => row));
        const lasts = Math.max(
          ...ctx.plan.trees
            .filter(({ tree }) => own.has(tree.row))
            .flatMap(({ chosen }) => chosen.plan.filter((w) => days.includes(w.day)))
            .map(lastsMinutes),
        );
        for (const [, h, min] of start.matchAll(/–(\d\d):(\d\d)/g)) {
          const ends = Number(h) * 60 + Number(min) + lasts;
          // the hours that are open at that start
          const open = windowsIn(run.hours).find((w) => w.start <= ends - lasts && ends - lasts < w.end)!; // prettier-ignore
          expect(ends, start).toBeLessThanOrEqual(open.end + 1e-6);
          const set = Number(h) * 60 + Number(min) + run.minutes + (run.cycles - 1) * run.pause;
          expect(set, start).toBeLessThanOrEqual(open.end);
          // and not much sooner than they must
          expect(open.end - Math.max(ends, set)).toBeLessThan(6);
          starts += 1;
        }
      }
    expect(starts).toBeGreaterThan(200);
  });

  it('stands together for days that read alike', async () => {
    const [first] = timerRuns(ctx, [TUESDAY, TUESDAY]);
    const twice = { ...ctx, plan: { ...ctx.plan, trees: ctx.plan.trees.map((plan) => ({
      ...plan,
      chosen: { ...plan.chosen, plan: plan.chosen.plan.flatMap((w) => (w.day === TUESDAY ? [w, { ...w, day: TUESDAY + 2 }] : [])) },
    })) } }; // prettier-ignore
    expect(timerRuns(twice, WEEK)).toEqual([{ days: [TUESDAY, TUESDAY + 2], runs: first!.runs }]);
    const say = new CrewSpeech('en');
    expect(daySpans([TUESDAY, TUESDAY + 1, TUESDAY + 4], say)).toEqual(['Tue 8 Jun', 'Wed 9 Jun', 'Sat 12 Jun']); // prettier-ignore
    expect(daySpans([0, 1, 2, 4].map((i) => TUESDAY + i), say)).toEqual(['Tue 8 Jun – Thu 10 Jun', 'Sat 12 Jun']); // prettier-ignore
  });

  it('is told by addresses, and by ids where several rows have one or none', () => {
    const say = new CrewSpeech('en');
    const runs = timerRuns(ctx, [SATURDAY, SATURDAY]).flatMap((all) => all.runs);
    const told = runs.map((run) => runSentences(run, say));
    expect(told.filter(({ address }) => /Invented Row/.test(address)).every(({ ids }) => ids === '')).toBe(true); // prettier-ignore
    const shared = told.filter(({ address }) => address === '7 Other Row');
    expect(shared.flatMap(({ ids }) => ids.split(', '))).toHaveLength(rowsOn(SATURDAY).filter(({ tree }) => tree.id.startsWith('B')).length); // prettier-ignore
    // two rows that run in another way stand alone, and are told all the same
    expect(shared.some(({ ids }) => /^B-4[45]$/.test(ids))).toBe(true);
    expect(told.find(({ address }) => address === '')?.ids).toBe('C-1');
    expect(told.some(({ note }) => note === 'Note: gate is locked')).toBe(true);
  });
});

describe.skipIf(skipWithoutPoppler())('the sheet of timers on paper', () => {
  it('names each place and what to do, days in its head, and has the field card after it', async () => {
    const read = readPdf(await makePdf(crewPages(ctx, { days: WEEK }), FONTS));
    const text = squeeze(read.text);
    expect(text).toContain('By timer · Tue 8 Jun – Sat 12 Jun 2027');
    expect(text).toContain('Set each timer as written');
    expect(text).toContain('Look at every hose');
    const card = read.text.split('\f').filter((page) => page.trim() !== '').at(-1)!; // prettier-ignore
    expect(card).toContain('Field card');
    for (let i = 0; i < STREET; i++) {
      const days = WEEK.filter((day) => rowsOn(day).some(({ tree }) => tree.id === `A-${i + 1}`));
      expect(times(text, new RegExp(`\\b${i + 11} Invented Row`, 'g'))).toBe(days.length);
    }
    for (const { tree } of rowsOn(SATURDAY).filter(({ tree: { id } }) => id.startsWith('B')))
      expect(text).toMatch(new RegExp(`\\b${tree.id}\\b`));
    expect(text).not.toMatch(/\+ \d+ sites|\d more/);
    expect(times(text, /Trees skipped/g)).toBe(1);
    for (const page of read.text.split('\f').filter((each) => each.trim() !== ''))
      expect(times(page, /local code/gi)).toBe(1);
    expect(squeeze(readPdf(await makePdf(crewPages(ctx, { days: [TUESDAY, TUESDAY] }), FONTS)).text)).toContain('By timer · Tue 8 Jun 2027'); // prettier-ignore
  });

  it('speaks the crew’s languages, and is of the whole season where no days are named', async () => {
    const both = squeeze(readPdf(await makePdf(crewPages({ ...ctx, crewLanguage: 'both' }, { days: WEEK }), FONTS)).text); // prettier-ignore
    expect(both.indexOf('Con temporizador · mar 8 jun – sáb 12 jun 2027')).toBeGreaterThan(both.indexOf('By timer ·')); // prettier-ignore
    expect(both).toContain('Arranque entre');
    expect(JSON.stringify(crewPages(ctx))).toContain('By timer · Thu 1 Apr – Thu 30 Sep 2027');
  });
});

describe('the sheet of timers', () => {
  it('is refused where it has more lines than a file holds, and where nothing waters', () => {
    const [row] = ctx.plan.trees;
    const own = ctx.plan.trees.filter(({ chosen }) => chosen.plan.length > 0)[0]!;
    const many = Array.from({ length: MOST_LINES + 1 }, (_, i) => ({ ...own, tree: { ...row!.tree, row: i + 2, address: `${i + 1} Invented Row` } })); // prettier-ignore
    const [watering] = own.chosen.plan;
    const crowd = { ...ctx, plan: { ...ctx.plan, trees: many } };
    expect(() => crewPages(crowd, { days: [watering!.day, watering!.day] })).toThrow(
      `the crew sheets have ${MOST_LINES + 1} lines`,
    );
    const idle = TUESDAY + 1;
    expect(rowsOn(idle)).toEqual([]);
    expect(() => crewPages(ctx, { days: [idle, idle] })).toThrow(
      'no crew goes out and no timer waters on Wed 9 Jun; the days of the plan stand on the sheet Calendar',
    );
  });

  it('is not made where a crew goes out on one of the days', async () => {
    const sample = await sampleContext();
    const out = new Set(sample.plan.crewDays.map(({ day }) => day));
    const alone = timerRuns(sample, [sample.plan.site.seasonFrom, sample.plan.site.seasonTo])
      .flatMap(({ days }) => days)
      .find((day) => !out.has(day) && out.has(day + 1))!;
    const text = (days: [Day, Day]): string => JSON.stringify(crewPages(sample, { days }));
    expect(text([alone, alone + 1])).not.toContain('Set each timer');
    expect(text([alone, alone])).toContain('Set each timer');
    expect(text([alone, alone])).toContain(`By timer · ${longDay(alone)}`);
  });

  it('is in the crew’s workbook, too, where no crew goes out in the season: every address on its days', () => {
    const [sheet] = crewCopy(ctx).sheets;
    const texts = cellsOf(sheet!).flatMap(({ cell }) => (typeof cell.value === 'string' ? [cell.value] : [])); // prettier-ignore
    const runs = timerRuns(ctx, [ctx.plan.site.seasonFrom, ctx.plan.site.seasonTo]);
    const lines = runs.flatMap((all) => all.runs.filter(({ address }) => address === '11 Invented Row')); // prettier-ignore
    expect(lines.length).toBeGreaterThan(5);
    expect(texts.filter((text) => text === 'Sample Court · 11 Invented Row')).toHaveLength(lines.length); // prettier-ignore
    expect(texts.some((text) => text.startsWith('By timer · Tue 8 Jun · Allowed 00:00–10:00'))).toBe(true); // prettier-ignore
    expect(texts.some((text) => text.startsWith('Start 00:00–'))).toBe(true);
  });
});

describe('beside crews', () => {
  /** By hand on Thursdays, where no hose is; hoses on timers as above, each at a site of its own. */
  async function mixed(sites: number): Promise<Context> {
    const { kit = [], site } = await sampleInput();
    const hose = { ...kit.find(({ automatic }) => automatic)!, name: 'short hose on a timer', length: 7.6, stock: 900 }; // prettier-ignore
    const job = await sampleJob({
      inventory: [
        ['Tree id', 'Caliper (in)', 'Planted', 'Address', 'Means wanted'],
        ...Array.from({ length: sites }, (_, i) => [`T-${i + 1}`, 2, '2026-11-10', `${i + 11} Invented Row`, 'soaker']), // prettier-ignore
        ['H-1', 2, '2026-11-10', '7 Other Row', 'hand'],
      ],
      kit: [hose, kit.find(({ family }) => family === 'hand')!],
      stages: [],
      rules: [
        ['Means', 'Days', 'Hours', 'Verdict'],
        ['soaker', 'Tue Sat', '00:00-10:00, 18:00-24:00', 'allow'],
        ['hand', 'Thu', '00:00-10:00', 'allow'],
      ],
      site: { ...site!, texture: 'clay loam' },
    });
    return contextOf(job, 'US');
  }
  const textOf = (own: Context, days: [Day, Day]): string =>
    JSON.stringify(crewPages(own, { days }).content);
  const THURSDAY = dayOf(2027, 6, 10);

  it('a day whose places a crew’s page cuts has them all on a sheet of its own', async () => {
    const own = await mixed(12);
    expect(own.plan.crewDays.some(({ day }) => day === THURSDAY)).toBe(true);
    const text = textOf(own, [THURSDAY, SATURDAY]);
    const [crew, timers] = text.split('By timer · ');
    expect(crew).toMatch(/\+ 4\W+sites/);
    const watered = own.plan.trees.filter(({ chosen }) => chosen.plan.some(({ day }) => day === SATURDAY)); // prettier-ignore
    expect(watered.length).toBeGreaterThan(8);
    for (const { tree } of watered) expect(timers).toContain(tree.address);
    expect(timers).toContain('Sat 12 Jun');
  });

  it('few places stand on the crew’s page alone, and so does a day before it that belongs to an earlier page of the file', async () => {
    const own = await mixed(3);
    expect(textOf(own, [THURSDAY, SATURDAY])).not.toContain('By timer · ');
    // what timers water stands on the page of the crew day before it, which is asked for or not
    const crewed = own.plan.crewDays.map(({ day }) => day);
    const watered = own.plan.trees.flatMap(({ chosen }) => chosen.plan.map(({ day }) => day));
    const before = crewed.slice(0, -1).findIndex((day, i) => watered.some((d) => d > day && d < crewed[i + 1]!)); // prettier-ignore
    expect(before).toBeGreaterThanOrEqual(0);
    const [first, next] = [crewed[before]!, crewed[before + 1]!];
    const between = watered.find((day) => day > first && day < next)!;
    const say = new CrewSpeech('en');
    const [, timers] = textOf(own, [between, next]).split('By timer · ');
    expect(timers).toContain(`"${say.weekDay(between)}`);
    expect(textOf(own, [first, next])).not.toContain('By timer · ');
  });
});
