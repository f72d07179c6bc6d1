/** What a crew reads of trees on timers, and how whole minutes keep their sum. */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { CrewSpeech } from '../../../src/workbook/crew-speech.js';
import { wholeParts } from '../../../src/workbook/exports/round-minutes.js';
import {
  joinedAddresses,
  startsWithin,
  timerDays,
  timersOn,
  type TimerPlace,
} from '../../../src/workbook/exports/timers.js';
import { apartSentences, timerSentences } from '../../../src/workbook/timer-speech.js';
import type { Context } from '../../../src/workbook/sheets/context.js';
import { sampleContext } from './samples.js';

let ctx: Context;
beforeAll(async () => {
  ctx = await sampleContext();
});

const places = (count: number, rows: number): TimerPlace[] =>
  Array.from({ length: count }, (_, p) => ({
    site: `Site ${p + 1}`,
    hours: '00:00-10:00',
    rows: Array.from({ length: rows }, (__, i) => ({ ...ctx.plan.trees[0]!.tree, id: `T-${p}-${i}`, address: `${i + 1} Invented Way` })),
    trees: rows,
    minutes: [44, 64],
    lasts: 64,
  })); // prettier-ignore

describe('trees on timers', () => {
  it('are those of the plan that a timer waters, each once a day', () => {
    const [day] = ctx.plan.trees
      .flatMap(({ chosen }) => chosen.plan.filter(({ device }) => ctx.automatic(device)))
      .map((watering) => watering.day);
    const rows = ctx.plan.trees.filter(({ chosen }) => chosen.plan.some((w) => w.day === day && ctx.automatic(w.device))); // prettier-ignore
    const found = timersOn(ctx, new Set([day!]));
    expect([...found.keys()]).toEqual([day]);
    const named = found.get(day!)!.flatMap((place) => place.rows.map(({ row }) => row));
    expect(named.sort()).toEqual(rows.map(({ tree }) => tree.row).sort());
    expect(timersOn(ctx, new Set()).size).toBe(0);
  });

  it('name a street once for its numbers, before it or after it', () => {
    expect(joinedAddresses(['13 Tarbarrel Row', '17 Tarbarrel Row', 'At the pier'])).toEqual([
      '13, 17 Tarbarrel Row',
      'At the pier',
    ]);
    expect(joinedAddresses(['Calle Inventada 3', 'Calle Inventada 5b'])).toEqual([
      'Calle Inventada 3, 5b',
    ]);
  });

  it('are few words for many sites and trees: the rest is a number', () => {
    const said = timerSentences(places(40, 200), new CrewSpeech('en'))!;
    expect(said.title).toBe('By timer today: 8,000 trees');
    expect(said.lines[0]).toContain('Site 1 · 1, 2, 3, 4, 5 Invented Way, 195 more (200 trees, runs 44 min–1 h 4 min)'); // prettier-ignore
    expect(said.lines[0]).not.toContain('Site 9');
    expect(said.lines[1]).toBe('+ 32 sites (6,400 trees)');
    expect(said.lines.join('').length).toBeLessThan(800);
    // where each tree is a site of its own, as many are named as have room
    const single = timerSentences(places(60, 1), new CrewSpeech('en'))!.lines;
    expect(single[0]).toContain('Site 40 ');
    expect(single[0]).not.toContain('Site 41 ');
    expect(single[1]).toBe('+ 20 sites (20 trees)');
  });

  it('are named by their ids where addresses do not tell them apart', () => {
    const [place] = places(1, 2);
    const rows = place!.rows.map((tree) => ({ ...tree, address: '1 Invented Way' }));
    const [line] = timerSentences([{ ...place!, rows }], new CrewSpeech('es'))!.lines;
    expect(line).toBe('Arranque 00:00–08:55 (00:00–10:00): Site 1 · 1 Invented Way, T-0-0, T-0-1 (2 árboles, corre 44 min–1 h 4 min)'); // prettier-ignore
  });

  it('start so that the longest run ends within its hours, to five minutes', () => {
    expect(startsWithin('20:00-24:00', 50)).toEqual([{ start: 1200, end: 1390 }]);
    expect(startsWithin('00:00-10:00, 18:00-18:50', 51)).toEqual([{ start: 0, end: 545 }]);
    expect(startsWithin('18:02-19:00', 58)).toEqual([{ start: 1082, end: 1082 }]);
    const [place] = places(1, 2);
    const said = (hours: string, lasts: number): string =>
      timerSentences([{ ...place!, hours, lasts }], new CrewSpeech('en'))!.lines[0]!;
    expect(said('20:00-24:00', 90)).toMatch(/^Start 20:00–22:30 \(20:00–24:00\): .*runs 44 min–1 h 4 min over 1 h 30 min/); // prettier-ignore
    expect(said('20:00-21:00', 90)).toMatch(/^In parts within 20:00–21:00/);
  });

  it('on days without a crew are told on the page before, like days together', () => {
    const [place] = places(1, 2);
    const days = [46000, 46001].map((day) => ({ day, places: [place!] }));
    expect(apartSentences(days, new CrewSpeech('en'))).toEqual([
      'Tue 9 Dec, Wed 10 Dec, start 00:00–08:55: Site 1 (2 trees, 44 min–1 h 4 min)',
    ]);
    expect(apartSentences(undefined, new CrewSpeech('en'))).toEqual([]);
    const { apart } = timerDays(ctx);
    const crewed = ctx.plan.crewDays.map(({ day }) => day);
    for (const [page, own] of apart)
      for (const { day } of own) {
        expect(crewed).not.toContain(day);
        expect(page).toBe(crewed.filter((each) => each < day).at(-1) ?? crewed[0]);
      }
  });

  it('are not spoken of on a day without them', () => {
    expect(timerSentences(undefined, new CrewSpeech('en'))).toBeUndefined();
    expect(timerSentences([], new CrewSpeech('en'))).toBeUndefined();
  });
});

describe('whole minutes', () => {
  it('add up to the rounded sum, each within one of its own', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 300, noNaN: true }), { maxLength: 60 }), (exact) => {
        const whole = wholeParts(exact);
        const total = exact.reduce((a, b) => a + b, 0);
        expect(Math.abs(whole.reduce((a, b) => a + b, 0) - total)).toBeLessThan(0.51);
        whole.forEach((value, i) => {
          expect(Number.isInteger(value)).toBe(true);
          expect(Math.abs(value - exact[i]!)).toBeLessThan(1.001);
        });
      }),
    );
  }); // prettier-ignore
  it('leave whole ones alone', () => {
    expect(wholeParts([20, 12, 2.75, 2.75, 2.75, 2.75])).toEqual([20, 12, 3, 3, 3, 2]);
  });
});
