import { describe, expect, it } from 'vitest';
import { alikeWeeks } from '../../src/taskpane/parts/alike-weeks.js';
import type { StripKind } from '../../src/workbook/rules-strip.js';

const DAYS = 42;
const each = <T>(value: (day: number) => T): T[] =>
  Array.from({ length: DAYS }, (_, i) => value(i));
const kind = (hours: (day: number) => string, bans: (day: number) => string = () => ''): StripKind => ({
  example: '1 Hawser Lane',
  trees: 3,
  means: [{ means: 'bag', hours: each(hours), remarks: [] }],
  bans: each(bans),
}); // prettier-ignore
const strip = (stage: (day: number) => string = () => '1') => ({ days: DAYS, stages: each(stage) });
const weeks = (...given: Parameters<typeof alikeWeeks>) => alikeWeeks(...given).map((w) => w.weeks);

describe('weeks of the strip', () => {
  it('that are the same every week are one', () => {
    const open = kind((day) => (day % 7 === 2 ? '00:00-10:00' : ''));
    const all = alikeWeeks(strip(), open);
    expect(all).toEqual([{ days: [0, 1, 2, 3, 4, 5, 6], weeks: 6 }]);
  });

  it('that differ in an hour or in a ban stand apart, in order', () => {
    const shorter = (day: number) => (day === 16 ? '00:00-09:00' : '00:00-10:00');
    expect(weeks(strip(), kind(shorter))).toEqual([2, 1, 3]);
    const banned = kind(() => '', (day) => (day >= 35 ? 'bag (row 9)' : '')); // prettier-ignore
    expect(weeks(strip(), banned)).toEqual([5, 1]);
  });

  it('that come back later are not drawn forward: time goes down the page', () => {
    const everyOther = kind((day) => (Math.floor(day / 7) % 2 === 0 ? 'any' : ''));
    expect(weeks(strip(), everyOther)).toEqual([1, 1, 1, 1, 1, 1]);
  });

  it('with a stage that begins in them are not hidden behind earlier ones', () => {
    const always = kind(() => 'any');
    expect(
      weeks(
        strip((day) => (day < 17 ? '1' : '2')),
        always,
      ),
    ).toEqual([2, 4]);
  });

  it('the last of which is cut short is no week like the others', () => {
    const short = { ...strip(), days: 38 };
    expect(
      weeks(
        short,
        kind(() => 'any'),
      ),
    ).toEqual([5, 1]);
  });
});
