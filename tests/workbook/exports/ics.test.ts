import ICAL from 'ical.js';
import { beforeAll, describe, expect, it } from 'vitest';
import { civil } from '../../../src/engine/dates.js';
import { placed, planIcs } from '../../../src/workbook/exports/ics.js';
import { windowsIn } from '../../../src/engine/rules/rule-words.js';
import { crewRounds, type Round } from '../../../src/workbook/exports/rounds.js';
import type { Context } from '../../../src/workbook/sheets/context.js';
import { sampleInput } from '../job.js';
import { sampleContext } from './samples.js';

let ctx: Context;
let rounds: Round[];
beforeAll(async () => {
  ctx = await sampleContext();
  rounds = crewRounds(ctx.plan);
});

/** Events as an independent parser reads them. */
const eventsIn = (text: string): ICAL.Event[] =>
  new ICAL.Component(ICAL.parse(text) as unknown[])
    .getAllSubcomponents('vevent')
    .map((part) => new ICAL.Event(part));

const uids = (text: string): string[] => eventsIn(text).map((e) => e.uid);

describe('the crew days as a calendar', () => {
  it('is read by an independent parser: an event for each crew and day, as long as the work', () => {
    const events = eventsIn(planIcs(ctx));
    expect(events.length).toBe(rounds.length);
    expect(new Set(events.map((e) => e.uid)).size).toBe(rounds.length);
    events.forEach((event, i) => {
      const round = rounds[i]!;
      const { year, month, date } = civil(round.day);
      expect([event.startDate.year, event.startDate.month, event.startDate.day]).toEqual([
        year,
        month,
        date,
      ]);
      const minutes = event.duration.toSeconds() / 60;
      expect(minutes).toBeGreaterThanOrEqual(round.hours * 60 - 1e-6);
      expect(minutes).toBeLessThan(Math.max(15, round.hours * 60) + 1);
    });
  });

  it('names every stop in driving order, with trees and amounts', () => {
    eventsIn(planIcs(ctx)).forEach((event, i) => {
      const { stops, tankLoads, waters } = rounds[i]!;
      const lines = event.description.split('\n').filter((line) => /^\d+\. /.test(line));
      expect(lines.length).toBe(stops.length);
      stops.forEach((stop, s) => expect(lines[s]).toContain(`${s + 1}. ${stop.site}`));
      expect(event.description).toContain(`${tankLoads} tank load`);
      const filled = stops.flatMap((stop, s) =>
        (stop.fillings ?? []).map(({ before }) => [before === 0 ? 'before' : 'within', s + 1]),
      );
      const said = [...event.description.matchAll(/^ *(before|within) (\d+): Fill the tank/gm)];
      expect(said.map(([, when, stop]) => [when, Number(stop)])).toEqual(filled);
      expect(event.description).toContain(`water: ${waters.join(', ')}`);
      expect(event.location).toContain(stops[0]!.site);
    });
  });

  it('stands in open hours and in floating time, whatever zone the machine is in', () => {
    const before = process.env['TZ'];
    try {
      const texts = ['UTC', 'Pacific/Auckland', 'America/Los_Angeles'].map((zone) => {
        process.env['TZ'] = zone;
        return planIcs(ctx);
      });
      expect(new Set(texts).size).toBe(1);
    } finally {
      if (before === undefined) delete process.env['TZ'];
      else process.env['TZ'] = before;
    }
    eventsIn(planIcs(ctx)).forEach((event, i) => {
      expect(event.startDate.zone.tzid).toBe('floating');
      const start = event.startDate.hour * 60 + event.startDate.minute;
      const open = rounds[i]!.common.some((w) => w.start <= start && start < w.end);
      expect(open, event.summary).toBe(true);
    });
  });

  it('keeps to RFC 5545: CRLF, lines of at most 75 octets, VERSION and PRODID', () => {
    const text = planIcs(ctx);
    expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
    expect(text.replace(/\r\n/g, '')).not.toMatch(/[\r\n]/);
    for (const line of text.split('\r\n'))
      expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75);
    expect(text).toMatch(/^BEGIN:VCALENDAR\r\nVERSION:2\.0\r\nPRODID:/);
  });

  it('gives the same bytes for the same plan, and keeps UIDs when a day is planned anew', () => {
    const first = planIcs(ctx);
    expect(planIcs(ctx)).toBe(first);
    const later = planIcs({ ...ctx, madeOn: ctx.madeOn + 3 });
    expect(uids(later)).toEqual(uids(first));
    const [a, b] = [eventsIn(first)[0]!, eventsIn(later)[0]!];
    expect(b.sequence).toBeGreaterThan(a.sequence);
    expect(String(b.component.getFirstPropertyValue('dtstamp'))).toBe('2027-03-18T00:00:00Z');
    expect(eventsIn(planIcs(ctx, { revision: 1 }))[0]!.sequence).toBe(a.sequence + 1);
  });

  it('gives other sites and crews UIDs of their own', () => {
    const other = { ...ctx, plan: { ...ctx.plan, site: { ...ctx.plan.site, name: 'Elsewhere' } } };
    const own = new Set(uids(planIcs(ctx)));
    for (const uid of uids(planIcs(other))) expect(own.has(uid)).toBe(false);
  });

  it('cancels days of the calendar before that are no longer planned, and only its own', () => {
    const first = planIcs(ctx);
    const fewer = { ...ctx, plan: { ...ctx.plan, crewDays: ctx.plan.crewDays.slice(2) } };
    const events = eventsIn(planIcs(fewer, { before: first }));
    const gone = events.filter((e) => e.component.getFirstPropertyValue('status') === 'CANCELLED');
    expect(gone.map((e) => e.uid)).toEqual(uids(first).slice(0, 2));
    expect(events.length).toBe(rounds.length);
    const past = { ...fewer, madeOn: fewer.plan.crewDays[0]!.day };
    expect(eventsIn(planIcs(past, { before: first })).length).toBe(rounds.length - 2);
    const foreign = 'BEGIN:VEVENT\r\nUID:20270406-1-0000000000000000@soakbook\r\nEND:VEVENT\r\n';
    expect(uids(planIcs(ctx, { before: foreign }))).toEqual(uids(first));
  });

  it('makes an event for each crew that goes out', async () => {
    const { site } = await sampleInput();
    const two = await sampleContext('US', {
      site: { ...site!, crews: 2, crewHours: 1.5 },
    });
    const all = crewRounds(two.plan);
    const events = eventsIn(planIcs(two));
    expect(all.some((round) => round.crews === 2)).toBe(true);
    expect(events.length).toBe(all.length);
    expect(new Set(events.map((e) => e.uid)).size).toBe(all.length);
    events.forEach((event, i) => {
      const { crew, crews } = all[i]!;
      expect(event.summary.includes(`crew ${crew}:`)).toBe(crews > 1);
    });
    const litres = two.plan.crewDays.reduce((n, d) => n + d.litres, 0);
    expect(all.reduce((n, round) => n + round.litres, 0)).toBeCloseTo(litres, 6);
    const stops = two.plan.crewDays.reduce((n, d) => n + d.stops.length, 0);
    expect(all.reduce((n, round) => n + round.stops.length, 0)).toBe(stops);
  });

  it('refuses a revision it cannot count', () => {
    expect(() => planIcs(ctx, { revision: 100 })).toThrow(/from 0 to 99/);
    expect(() => planIcs(ctx, { revision: 0.5 })).toThrow(/whole number/);
  });
});

describe('where a round stands in the open hours', () => {
  // [open hours, minutes of work, start] of a crew from 06:00 to 21:00; by hand
  it.each([
    ['any', 480, 360],
    ['00:00-10:00, 18:00-24:00', 180, 360],
    ['00:00-10:00, 18:00-24:00', 300, 360],
    ['00:00-07:00, 18:00-24:00', 150, 1080],
    ['00:00-07:00, 18:00-24:00', 240, 1080],
    ['19:00-24:00', 120, 1140],
    ['00:00-03:00', 60, 360],
    ['08:00-09:00, 18:00-24:00', 120, 1080],
  ] as const)('%s for %i minutes starts at minute %i', (hours, length, start) => {
    expect(placed(windowsIn(hours), length, { start: 360, end: 1260 })).toBe(start);
  });

  it('reads hours as the plan writes them and refuses other words', () => {
    expect(windowsIn('any')).toEqual([{ start: 0, end: 1440 }]);
    expect(windowsIn('')).toEqual([]);
    expect(() => windowsIn('morning')).toThrow(/"morning" is not a list of hours/);
  });
});
