import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inShift, lengthOf, shiftOf, startFor } from '../../../src/engine/crew/shift.js';
import { dayOf } from '../../../src/engine/dates.js';
import { Calendars } from '../../../src/engine/plan/calendars.js';
import type { AllowedDays } from '../../../src/engine/plan/option.js';
import type { Device, Site } from '../../../src/engine/plan/model.js';
import { parseRules, type RuleTable } from '../../../src/engine/rules/rule-table.js';
import { clock, hoursText, windowsIn } from '../../../src/engine/rules/rule-words.js';
import { defaultSite } from '../../../src/tables/site.js';
import { device } from '../device.js';
import { treePlan } from './invented.js';

const FROM = dayOf(2027, 6, 7); // a Monday
const DAYS = 14;
const site = (more: Partial<Site>): Site =>
  defaultSite({ seasonFrom: FROM, seasonTo: FROM + DAYS - 1, workDays: 'any', ...more });
const rules = (hours: string, days = 'any'): RuleTable =>
  parseRules([
    ['Days', 'Hours', 'Verdict'],
    [days, hours, 'allow'],
  ]);
const NOZZLE = device({ name: 'nozzle', family: 'hand', flow: 15 });
const TIMER = device({ name: 'timer', family: 'soaker', rate: 8, length: 20, automatic: true });
const { tree } = treePlan(1, []);
const daysOf = (table: RuleTable, more: Partial<Site>, what: Device = NOZZLE): AllowedDays =>
  new Calendars(table, site(more)).allowed(tree, what);

describe('a crew’s day on the clock', () => {
  it('starts at the hour of the site, at six where none is given, and lasts its hours', () => {
    expect(shiftOf(site({ crewStart: 6.5, crewHours: 8 }))).toEqual({ start: 390, end: 870, pastMidnight: false }); // prettier-ignore
    const { crewStart, ...older } = site({ crewHours: 8 });
    expect(crewStart).toBe(6);
    expect(shiftOf(older)).toEqual({ start: 360, end: 840, pastMidnight: false });
  });
  it('ends at midnight at the latest, and says that it would go on', () => {
    expect(shiftOf(site({ crewStart: 20, crewHours: 8 }))).toEqual({ start: 1200, end: 1440, pastMidnight: true }); // prettier-ignore
    expect(shiftOf(site({ crewStart: 16, crewHours: 8 })).pastMidnight).toBe(false);
  });
  it('is to be moved as little as possible to hold a window, or to lie in it', () => {
    const evening = { start: 18 * 60, end: 24 * 60 };
    expect(clock(startFor(evening, 8 * 60, 6 * 60))).toBe('16:00');
    expect(clock(startFor(evening, 4 * 60, 6 * 60))).toBe('18:00');
    expect(clock(startFor({ start: 0, end: 4 * 60 }, 8 * 60, 6 * 60))).toBe('00:00');
    expect(clock(startFor({ start: 0, end: 9 * 60 }, 8 * 60, 6 * 60))).toBe('01:00');
    expect(clock(startFor({ start: 300, end: 700 }, 480, 300))).toBe('05:00');
  });
});

describe('the open hours of a day, by hand', () => {
  // [hours of the rules, start, hours of the crew, what is left, minutes]
  it.each([
    ['00:00-09:00, 19:00-24:00', 6, 8, '06:00-09:00', 180],
    ['00:00-09:00, 19:00-24:00', 12, 8, '19:00-20:00', 60],
    ['00:00-09:00, 19:00-24:00', 8, 12, '08:00-09:00, 19:00-20:00', 120],
    ['18:00-24:00', 6, 8, '', 0],
    ['18:00-24:00', 16, 8, '18:00-24:00', 360],
    ['18:00-24:00', 20, 8, '20:00-24:00', 240],
    ['any', 6, 8, '06:00-14:00', 480],
    ['any', 0, 24, 'any', 1440],
    ['any', 20, 8, '20:00-24:00', 240],
  ])('%s with a crew from %d h for %d h: %s', (hours, crewStart, crewHours, left, minutes) => {
    const day = daysOf(rules(hours), { crewStart, crewHours });
    expect(day.within!(3)).toBe(left);
    expect(day.minutes(3)).toBe(minutes);
    expect(day.open[3]).toBe(minutes > 0 ? 1 : 0);
    expect(day.hours(3)).toBe(hours);
    expect(day.lawful!(3)).toBe(lengthOf(windowsIn(hours)));
  });
  it('are those of the rules for what a timer does', () => {
    const day = daysOf(rules('18:00-24:00'), { crewStart: 6 }, TIMER);
    expect([day.open[3], day.minutes(3), day.within]).toEqual([1, 360, undefined]);
  });
  it('are of one window where only one may be used, and no longer than the limit', () => {
    const one = daysOf(rules('one of 04:00-08:00, 12:00-18:00'), { crewStart: 6, crewHours: 8 });
    expect([one.within!(0), one.minutes(0), one.lawful!(0)]).toEqual([
      '06:00-08:00, 12:00-14:00',
      120,
      360,
    ]);
    const limited = parseRules([
      ['Hours', 'Limit', 'Verdict'],
      ['00:00-09:00', '200', 'allow'],
    ]);
    expect(daysOf(limited, { crewStart: 6 }).minutes(0)).toBe(180);
    expect(daysOf(limited, { crewStart: 3 }).minutes(0)).toBe(200);
  });
  it('that lie outside are counted, with the start that would reach them', () => {
    const calendars = new Calendars(rules('18:00-24:00', 'Mon Thu'), site({ crewStart: 6 }));
    expect(calendars.outsideShift(tree, NOZZLE)).toEqual({
      allowed: 4,
      outside: 4,
      windows: ['18:00-24:00'],
      starts: [16 * 60],
    });
    expect(calendars.outsideShift(tree, TIMER).outside).toBe(0);
  });
});

const someHours = fc
  .uniqueArray(fc.integer({ min: 0, max: 24 }), { minLength: 2, maxLength: 6 })
  .map((hours) => {
    const at = hours.sort((a, b) => a - b);
    return Array.from({ length: at.length >> 1 }, (_, i) => ({ start: at[2 * i]! * 60, end: at[2 * i + 1]! * 60 })); // prettier-ignore
  });

describe('whatever the rules', () => {
  it('a longer day, or one that holds another, closes nothing and leaves no less', () => {
    fc.assert(
      fc.property(someHours, fc.double({ min: 0, max: 23, noNaN: true }), fc.double({ min: 0.5, max: 12, noNaN: true }), fc.double({ min: 0, max: 6, noNaN: true }), fc.double({ min: 0, max: 6, noNaN: true }), (windows, start, hours, before, after) => {
        const table = rules(hoursText(windows), 'Mon Wed Sat');
        const first = Math.max(0, start - before);
        const short = daysOf(table, { crewStart: start, crewHours: hours });
        const long = daysOf(table, { crewStart: first, crewHours: start - first + hours + after });
        for (let i = 0; i < DAYS; i++) {
          expect(long.open[i]).toBeGreaterThanOrEqual(short.open[i]!);
          // starts are taken to the minute
          expect(long.minutes(i)).toBeGreaterThanOrEqual(short.minutes(i) - 2);
        }
      }),
      { numRuns: 200 },
    );
  }); // prettier-ignore
  it('a day of 24 hours from midnight leaves exactly what the rules give', () => {
    fc.assert(
      fc.property(someHours, (windows) => {
        const table = rules(hoursText(windows), 'Mon Wed Sat');
        const person = daysOf(table, { crewStart: 0, crewHours: 24 });
        const timer = daysOf(table, {}, TIMER);
        expect(person.open).toEqual(timer.open);
        for (let i = 0; i < DAYS; i++) {
          expect(person.within!(i)).toBe(timer.hours(i));
          expect(person.minutes(i)).toBe(timer.minutes(i));
          expect(person.minutes(i)).toBe(person.lawful!(i));
        }
      }),
    );
  });
  it('nothing is left that is not both in the rules’ hours and in the crew’s day', () => {
    fc.assert(
      fc.property(someHours, fc.integer({ min: 0, max: 1400 }), fc.integer({ min: 1, max: 900 }), (windows, start, length) => {
        const shift = { start, end: Math.min(1440, start + length) };
        const left = inShift(windows, shift);
        for (let minute = 0; minute < 1440; minute += 7) {
          const isIn = (list: readonly { start: number; end: number }[]) => list.some((w) => w.start <= minute && minute < w.end);
          expect(isIn(left)).toBe(isIn(windows) && isIn([shift]));
        }
      }),
    );
  }); // prettier-ignore
});
