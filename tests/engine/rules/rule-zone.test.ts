/**
 * Days of 23 and 25 hours. The dates are those of the time zone database of the runtime, asked through Intl;
 * that clocks change on these dates is from memory: second Sunday of March and first of November (northern),
 * first Sunday of October and of April (southern).
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayFromIso, isoDate } from '../../../src/engine/dates.js';
import { ruleCalendar } from '../../../src/engine/rules/rule-calendar.js';
import { allowed, parseRules, runAllowed } from '../../../src/engine/rules/rule-table.js';
import type { RuleQuery } from '../../../src/engine/rules/rule-table.js';
import { clockShift, realMinutes } from '../../../src/engine/rules/rule-zone.js';

const NORTH = 'America/New_York';
const SOUTH = 'Australia/Sydney';
const hours = (text: string, more: [string, string][] = []) =>
  parseRules([
    ['Hours', 'Verdict', ...more.map((m) => m[0])],
    [text, 'allow', ...more.map((m) => m[1])],
  ]);
const at = (date: string, time: string) => {
  const [h = '0', m = '0'] = time.split(':');
  return { day: dayFromIso(date), minute: Number(h) * 60 + Number(m) };
};
const inZone = (zone: string | undefined, more: Partial<RuleQuery> = {}): RuleQuery => ({
  family: 'hand', address: '5', zone, ...more,
}); // prettier-ignore

describe('the hour a day loses or has twice', () => {
  it.each([
    [NORTH, '2026-03-08', { kind: 'skipped', start: 120, end: 180 }],
    [NORTH, '2026-11-01', { kind: 'repeated', start: 60, end: 120 }],
    [SOUTH, '2026-10-04', { kind: 'skipped', start: 120, end: 180 }],
    [SOUTH, '2026-04-05', { kind: 'repeated', start: 120, end: 180 }],
    // half an hour
    ['Australia/Lord_Howe', '2026-10-04', { kind: 'skipped', start: 120, end: 150 }],
    // before midnight and after it
    ['America/Nuuk', '2026-03-28', { kind: 'skipped', start: 1380, end: 1440 }],
    ['America/Santiago', '2026-09-06', { kind: 'skipped', start: 0, end: 60 }],
    // a day that never was
    ['Pacific/Apia', '2011-12-30', { kind: 'skipped', start: 0, end: 1440 }],
    [NORTH, '2026-03-09', null],
    [SOUTH, '2026-07-01', null],
    ['UTC', '2026-03-08', null],
    [undefined, '2026-03-08', null],
  ] as const)('%s on %s', (zone, date, expected) =>
    expect(clockShift(zone, dayFromIso(date))).toEqual(expected),
  );

  it('refuses a name that is no zone, with a sentence', () => {
    expect(() => allowed(hours('any'), at('2026-03-08', '5:00'), inZone('Mars/Crater'))).toThrow(
      '"Mars/Crater" is not a time zone; write an IANA name',
    );
  });
});

describe('a skipped hour', () => {
  it.each([
    [NORTH, '2026-03-08'],
    [SOUTH, '2026-10-04'],
  ])(
    '%s: a start in it is the next minute there is, and a run lasts real minutes',
    (zone, date) => {
      const q = inZone(zone);
      const late = hours('02:30-05:00');
      const answer = allowed(late, at(date, '02:10'), q);
      expect(answer.open).toBe(true);
      expect(answer.reason).toContain('02:10 does not exist');
      expect(answer.reason).toContain('03:00 is meant');
      expect(allowed(late, at(date, '01:00'), q).until).toEqual(at(date, '03:00'));
      expect(allowed(late, at(date, '01:00'), inZone(undefined)).until).toEqual(at(date, '02:30'));
      expect(ruleCalendar(late, q, at(date, '0').day, at(date, '0').day).hours).toEqual([
        '03:00-05:00',
      ]);
      // 01:00 to 05:00 on the clock are three hours
      const early = hours('01:00-05:00');
      expect(runAllowed(early, at(date, '01:00'), 180, q).open).toBe(true);
      expect(runAllowed(early, at(date, '01:00'), 181, q).open).toBe(false);
      expect(runAllowed(early, at(date, '01:00'), 240, inZone(undefined)).open).toBe(true);
      const calendar = ruleCalendar(early, q, at(date, '0').day, at(date, '0').day);
      expect([calendar.hours[0], calendar.minutes[0]]).toEqual(['01:00-05:00', 180]);
      // a window that lies wholly in the hour does not open
      const lost = ruleCalendar(hours('02:00-03:00'), q, at(date, '0').day, at(date, '0').day + 1);
      expect([...lost.minutes]).toEqual([0, 60]);
      // nothing open becomes shut because it is split by the hour
      const split = hours('01:00-02:30, 02:45-04:00');
      expect(allowed(split, at(date, '01:30'), q).until).toEqual(at(date, '04:00'));
    },
  );

  it('at midnight and before it does not end what is open', () => {
    const evening = hours('20:00-04:00');
    const nuuk = allowed(evening, at('2026-03-28', '21:00'), inZone('America/Nuuk'));
    expect(nuuk.until).toEqual(at('2026-03-29', '04:00'));
    const run = (m: number) =>
      runAllowed(evening, at('2026-03-28', '21:00'), m, inZone('America/Nuuk')).open;
    expect([run(360), run(361)]).toEqual([true, false]);
    const santiago = allowed(evening, at('2026-09-05', '21:00'), inZone('America/Santiago'));
    expect(santiago.until).toEqual(at('2026-09-06', '04:00'));
    const apia = allowed(hours('any'), at('2011-12-29', '12:00'), inZone('Pacific/Apia'));
    expect(apia.until).toBeUndefined();
    const noon = allowed(hours('11:00-13:00'), at('2011-12-29', '13:00'), inZone('Pacific/Apia'));
    expect(noon.until).toEqual(at('2011-12-31', '11:00'));
  });
});

describe('a repeated hour', () => {
  it.each([
    [NORTH, '2026-11-01', '00:00', '01:30', '04:00'],
    [SOUTH, '2026-04-05', '01:00', '02:30', '05:00'],
  ])('%s: both passes count, a start in it is the second', (zone, date, start, inside, end) => {
    const q = inZone(zone);
    const table = hours(`${start}-${end}`);
    const run = (from: string, m: number) => runAllowed(table, at(date, from), m, q).open;
    // four hours on the clock are five
    expect([run(start, 300), run(start, 301)]).toEqual([true, false]);
    expect([run(inside, 150), run(inside, 151)]).toEqual([true, false]);
    const day = at(date, '0').day;
    expect([...ruleCalendar(table, q, day, day).minutes]).toEqual([300]);
    expect([...ruleCalendar(table, inZone(undefined), day, day).minutes]).toEqual([240]);
    expect([...ruleCalendar(hours('any'), q, day - 1, day + 1).minutes]).toEqual([
      1440, 1500, 1440,
    ]);
  });
});

it('locks after rain for real hours', () => {
  const table = parseRules([
    ['Rain', 'Verdict'],
    ['12 h after rain', 'ban'],
  ]);
  const opens = (zone: string | undefined, date: string) =>
    allowed(
      table,
      at(date, '21:00'),
      inZone(zone, { rain: [{ day: dayFromIso(date), mm: 5, minute: 20 * 60 }] }),
    ).until;
  expect(opens(undefined, '2026-03-07')).toEqual(at('2026-03-08', '08:00'));
  expect(opens(NORTH, '2026-03-07')).toEqual(at('2026-03-08', '09:00'));
  expect(opens(NORTH, '2026-10-31')).toEqual(at('2026-11-01', '07:00'));
});

/** What a clock on the wall shows, minute by minute of real time, around a local day. */
function wall(zone: string, day: number): { day: number; minute: number }[] {
  const format = new Intl.DateTimeFormat('sv-SE', {
    timeZone: zone, dateStyle: 'short', timeStyle: 'short',
  }); // prettier-ignore
  const first = (day - 25569) * 1440 - 14 * 60;
  return Array.from({ length: 52 * 60 }, (_, i) => {
    const [date = '', time = ''] = format.format((first + i) * 60_000).split(' ');
    return at(date, time);
  }).filter((m) => m.day === day);
}

describe('against a clock read minute by minute', () => {
  it.each([
    [NORTH, '2026-03-08'],
    [NORTH, '2026-11-01'],
    [SOUTH, '2026-10-04'],
    [SOUTH, '2026-04-05'],
    ['Australia/Lord_Howe', '2026-10-04'],
    ['Australia/Lord_Howe', '2026-04-05'],
  ])('%s on %s: runs of any length and the minutes of a day', (zone, date) => {
    const day = dayFromIso(date);
    const clock = wall(zone, day);
    const quarter = fc.integer({ min: 0, max: 40 }).map((n) => n * 15);
    const two = (n: number) => String(n).padStart(2, '0');
    const text = (m: number) => `${two(Math.floor(m / 60))}:${two(m % 60)}`;
    const q = inZone(zone);
    fc.assert(
      fc.property(
        quarter,
        quarter,
        quarter,
        fc.integer({ min: 1, max: 500 }),
        (a, b, s, length) => {
          fc.pre(a !== b);
          const [from, to] = [Math.min(a, b), Math.max(a, b)];
          const table = hours(`${text(from)}-${text(to)}`);
          const open = (m: { minute: number }) => m.minute >= from && m.minute < to;
          const real = clock.filter(open).length;
          expect(ruleCalendar(table, q, day, day).minutes[0]).toBe(real);
          // the last time the clock shows this minute, or the first one after it that it shows at all
          const shown = clock.findLastIndex((m) => m.minute === s);
          const start = shown >= 0 ? shown : clock.findIndex((m) => m.minute > s);
          const run = clock.slice(start, start + length);
          const fits = run.every(open);
          expect(runAllowed(table, { day, minute: s }, length, q).open).toBe(fits);
        },
      ),
      { numRuns: 300, seed: 20261004 },
    );
  });

  it('counts real minutes between two moments of different days', () => {
    const a = at('2026-03-07', '12:00');
    expect(realMinutes(a, at('2026-03-08', '12:00'), NORTH)).toBe(1380);
    expect(realMinutes(at('2026-10-31', '12:00'), at('2026-11-01', '12:00'), NORTH)).toBe(1500);
    expect(realMinutes(a, at('2026-03-08', '12:00'), undefined)).toBe(1440);
    expect(isoDate(a.day)).toBe('2026-03-07');
  });
});
