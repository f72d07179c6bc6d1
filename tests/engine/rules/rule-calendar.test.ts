import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayFromIso } from '../../../src/engine/dates.js';
import {
  calendarKey,
  ruleCalendar,
  ruleCalendars,
} from '../../../src/engine/rules/rule-calendar.js';
import { allowed, parseRules } from '../../../src/engine/rules/rule-table.js';
import type { RuleCell, RuleQuery } from '../../../src/engine/rules/rule-table.js';

const POOLS: Record<string, RuleCell[]> = {
  Stage: ['', '', '1', '2'],
  From: ['', '', '2028-02-24', '2028-02-29'],
  To: ['', '', '2028-03-04', '2028-03-09'],
  Needs: ['', '', '', 'nozzle', 'timer'],
  Means: ['', 'any', 'hand', 'hand, bag', 'soaker'],
  Target: ['', 'tree', 'new planting'],
  Source: ['', '', 'mains', 'well'],
  Address: [
    '',
    '',
    'odd',
    'even',
    'ends 0-4 or none',
    'not class shop',
    'group a and odd',
    'side N/W',
  ],
  Days: [
    '',
    'any',
    'Mon Thu',
    'odd dates',
    'even dates',
    'every 2nd day',
    'not Sun',
    'Sat-Tue',
    '2 per week',
  ],
  Hours: [
    '',
    'any',
    '00:00-10:00, 19:00-24:00',
    '18:00-09:00',
    '21:15-06:45, 05:00-07:30',
    'not 10:00-18:00',
    '12:00-12:01',
    'one of 02:30-08:00, 19:00-01:30',
  ],
  'New planting': ['', '', '', '1-5', '4-12'],
  Rain: ['', '', '', '48 h after 0.5 in', '30 h after 5 mm'],
  Verdict: ['allow', 'allow', 'allow', 'free', 'ban'],
  Agency: ['', '', 'district'],
  '31st': ['', 'all', 'none'],
  Midnight: ['', 'end'],
  'Day one': ['', '0'],
};
const HEADER = Object.keys(POOLS);
const FROM = dayFromIso('2028-02-20');
const DAYS = 20;

/** A row whose words go together: a budget and a choice of windows are for allow rows. */
const rowArbitrary = fc
  .tuple(...Object.values(POOLS).map((pool) => fc.constantFrom(...pool)))
  .map((cells) => {
    const at = (name: string) => HEADER.indexOf(name);
    const out: RuleCell[] = [...cells];
    if (out[at('Verdict')] !== 'allow' && out[at('Days')] === '2 per week') out[at('Days')] = '';
    if (out[at('Verdict')] === 'ban')
      out[at('Hours')] = String(out[at('Hours')]).replace('one of ', '');
    return out;
  });
const tableArbitrary = fc.record({
  rows: fc.array(rowArbitrary, { minLength: 0, maxLength: 6 }),
  stages: fc.option(fc.constantFrom('1', '2', 'none'), { nil: undefined }),
});
const queryArbitrary: fc.Arbitrary<RuleQuery> = fc.record({
  family: fc.constantFrom('hand', 'bag', 'soaker'),
  address: fc.constantFrom('17 A', '240', 'by the gate'),
  source: fc.constantFrom(undefined, 'well'),
  target: fc.constantFrom(undefined, 'new planting' as const),
  planted: fc.option(fc.integer({ min: FROM - 6, max: FROM + 10 }), { nil: undefined }),
  group: fc.constantFrom(undefined, 'A'),
  side: fc.constantFrom(undefined, 'north'),
  fitted: fc.constantFrom(undefined, [], ['nozzle'], ['timer']),
  window: fc.constantFrom(undefined, 1, 2, 3),
  watered: fc.constantFrom(undefined, [FROM, FROM + 1], [FROM + 8, FROM + 9, FROM + 11]),
  customerClass: fc.constantFrom(undefined, 'shop'),
  rain: fc.array(
    fc.record({
      day: fc.integer({ min: FROM - 2, max: FROM + DAYS }),
      mm: fc.constantFrom(0, 4, 5, 12.7, 30),
      minute: fc.option(fc.integer({ min: 0, max: 1439 }), { nil: undefined }),
    }),
    { maxLength: 2 },
  ),
});

describe('the calendar agrees with the answer at every minute', () => {
  it('for 200 random tables and 20 days over 29 February', () => {
    let openMinutes = 0;
    let closedMinutes = 0;
    fc.assert(
      fc.property(tableArbitrary, queryArbitrary, ({ rows, stages }, query) => {
        const table = parseRules(
          [HEADER, ...rows],
          stages && [
            ['From', 'Stage'],
            ['2028-02-20', stages],
            ['2028-03-01', stages === '1' ? '2' : '1'],
          ],
        );
        expect(table.problems.filter((p) => p.kind === 'broken')).toEqual([]);
        const calendar = ruleCalendar(table, query, FROM, FROM + DAYS - 1);
        for (let day = FROM; day < FROM + DAYS; day++) {
          const expected = new Uint8Array(1440);
          for (const w of calendar.windows(day)) expected.fill(1, w.start, w.end);
          const seen = new Uint8Array(1440);
          for (let minute = 0; minute < 1440; minute++)
            seen[minute] = allowed(table, { day, minute }, query).open ? 1 : 0;
          const differs = seen.findIndex((v, i) => v !== expected[i]);
          if (differs >= 0) throw new Error(`day ${day - FROM} minute ${differs} differs`);
          const sum = seen.reduce((a, b) => a + b, 0);
          openMinutes += sum;
          closedMinutes += 1440 - sum;
          expect(calendar.open[day - FROM]).toBe(sum > 0 ? 1 : 0);
          expect(calendar.hours[day - FROM] === '').toBe(sum === 0);
        }
      }),
      { numRuns: 200 },
    );
    // the tables are neither all open nor all closed
    expect(openMinutes).toBeGreaterThan(100_000);
    expect(closedMinutes).toBeGreaterThan(100_000);
  });

  it('on days of 23 and 25 hours, at every minute there is', () => {
    for (const date of ['2027-03-14', '2027-11-07']) {
      const first = dayFromIso(date) - 1;
      fc.assert(
        fc.property(tableArbitrary, queryArbitrary, ({ rows }, without) => {
          const query = { ...without, zone: 'America/New_York' };
          const table = parseRules([HEADER, ...rows]);
          const calendar = ruleCalendar(table, query, first, first + 2);
          for (let day = first; day < first + 3; day++)
            for (let minute = 0; minute < 1440; minute += 5) {
              // 02:00 to 03:00 of 14 March is not on the clock
              if (date === '2027-03-14' && day === first + 1 && minute >= 120 && minute < 180)
                continue;
              const open = calendar.windows(day).some((w) => minute >= w.start && minute < w.end);
              expect(allowed(table, { day, minute }, query).open).toBe(open);
            }
        }),
        { numRuns: 60, seed: 20270314 },
      );
    }
  });

  it('until is the minute at which the answer changes', () => {
    fc.assert(
      fc.property(
        tableArbitrary,
        queryArbitrary,
        fc.integer({ min: 0, max: 4 * 1440 }),
        ({ rows }, query, offset) => {
          const table = parseRules([HEADER, ...rows]);
          const at = (m: number) => ({ day: FROM, minute: m });
          const start = allowed(table, at(offset), query);
          let m = offset + 1;
          const last = offset + 10 * 1440;
          while (m < last && allowed(table, at(m), query).open === start.open) m++;
          const until = start.until;
          const found = until ? (until.day - FROM) * 1440 + until.minute : Infinity;
          if (m < last) expect(found).toBe(m);
          else expect(found).toBeGreaterThanOrEqual(last);
        },
      ),
      { numRuns: 150 },
    );
  });

  it('a ban on everything never opens, whatever else the table says', () => {
    const ban = HEADER.map((name) => (name === 'Verdict' ? 'ban' : ''));
    fc.assert(
      fc.property(fc.array(rowArbitrary, { maxLength: 5 }), queryArbitrary, (rows, query) => {
        const table = parseRules([HEADER, ...rows, ban]);
        const calendar = ruleCalendar(table, query, FROM, FROM + DAYS - 1);
        expect([...calendar.open].every((o) => o === 0)).toBe(true);
        expect(calendar.hours.every((h) => h === '')).toBe(true);
        expect([...calendar.row].every((r) => r > 0)).toBe(true);
      }),
    );
  });
});

describe('keys and sharing', () => {
  const table = parseRules([
    ['Means', 'Address', 'Days', 'New planting', 'Verdict'],
    ['bag', 'odd', 'Wed Sat', '', 'allow'],
    ['bag', 'even', 'Thu Sun', '', 'allow'],
    ['bag', '', '', '1-30', 'allow'],
    ['hand', '', '', '', 'free'],
  ]);
  const key = (q: Partial<RuleQuery>, from?: number) =>
    calendarKey(table, { family: 'bag', address: '1', ...q }, from);

  it('shares by parity, not by number', () => {
    expect(key({ address: '1427' })).toBe(key({ address: '9 B' }));
    expect(key({ address: '1428' })).not.toBe(key({ address: '9' }));
    expect(key({ address: '' })).not.toBe(key({ address: '9' }));
    expect(key({ family: 'hand' })).not.toBe(key({ family: 'bag' }));
  });

  it('minds the planting date only where rules ask for it and it is recent', () => {
    expect(key({ family: 'hand', planted: FROM })).toBe(key({ family: 'hand' }));
    expect(key({ planted: FROM })).not.toBe(key({}));
    expect(key({ planted: FROM - 31 }, FROM)).toBe(key({}, FROM));
    expect(key({ planted: FROM - 30 }, FROM)).not.toBe(key({}, FROM));
  });

  it('hands equal queries one calendar and other dates another', () => {
    const a = ruleCalendar(table, { family: 'bag', address: '7' }, FROM, FROM + 30);
    expect(ruleCalendar(table, { family: 'Bag', address: '5' }, FROM, FROM + 30)).toBe(a);
    expect(ruleCalendar(table, { family: 'bag', address: '5' }, FROM, FROM + 29)).not.toBe(a);
    expect(a.windows(FROM - 1)).toEqual([]);
    expect(a.windows(FROM + 31)).toEqual([]);
  });

  it('an equal key means an equal calendar', () => {
    fc.assert(
      fc.property(tableArbitrary, queryArbitrary, queryArbitrary, ({ rows }, a, b) => {
        const one = parseRules([HEADER, ...rows]);
        const two = parseRules([HEADER, ...rows]);
        fc.pre(calendarKey(one, a, FROM) === calendarKey(one, b, FROM));
        const [x, y] = [ruleCalendar(one, a, FROM, FROM + 9), ruleCalendar(two, b, FROM, FROM + 9)];
        expect(y.hours).toEqual(x.hours);
        expect(y.reasons).toEqual(x.reasons);
      }),
      { numRuns: 60 },
    );
  });
});

describe('what a day carries', () => {
  const from = dayFromIso('2027-05-03');
  const q: RuleQuery = { family: 'hand', address: '14' };

  it('a weekly budget, the stricter of two agencies', () => {
    const table = parseRules([
      ['Days', 'Agency', 'Verdict'],
      ['3 per week, not Sun', 'town', 'allow'],
      ['2 per week', 'district', 'allow'],
    ]);
    const calendar = ruleCalendar(table, q, from, from + 6);
    expect([...calendar.open]).toEqual([1, 1, 1, 1, 1, 1, 0]);
    expect([...calendar.perWeek].slice(0, 6)).toEqual([2, 2, 2, 2, 2, 2]);
    expect([...ruleCalendar(parseRules([]), q, from, from).perWeek]).toEqual([7]);
  });

  it('the more generous of two rows of one agency, the free row deciding', () => {
    const table = parseRules([
      ['Days', 'Limit', 'Verdict'],
      ['2 per week', '15', 'allow'],
      ['3 per week', '30', 'allow'],
      ['Tue', '', 'free'],
    ]);
    const calendar = ruleCalendar(table, q, from, from + 2);
    expect([...calendar.perWeek]).toEqual([3, 7, 3]);
    expect([...calendar.limit]).toEqual([30, -1, 30]);
    expect([...calendar.row]).toEqual([2, 4, 2]);
  });

  it('limit, one window of several, needs and the deciding row', () => {
    const table = parseRules([
      ['Days', 'Hours', 'Limit', 'Needs', 'Verdict'],
      ['Mon', 'one of 04:00-08:00, 18:00-22:00', 15, 'nozzle', 'allow'],
    ]);
    const calendar = ruleCalendar(table, q, from, from + 1);
    expect(calendar.hours).toEqual(['04:00-08:00, 18:00-22:00', '']);
    expect([...calendar.limit]).toEqual([15, -1]);
    expect([...calendar.oneWindow]).toEqual([1, 0]);
    expect(calendar.needs).toEqual([['nozzle'], []]);
    expect([...calendar.row]).toEqual([2, 2]);
    expect(calendar.reasons[0]).toMatch(/^Open on Mon 2027-05-03: Row 2 allows/);
    expect(calendar.reasons[1]).toMatch(/^Closed on Tue 2027-05-04: Row 2 allows/);
  });

  it('limits by what they count over, for a planner to share among trees', () => {
    const table = parseRules([
      ['Means', 'Limit', 'Agency', 'Days', 'Verdict'],
      ['hand', '60 property', 'town', '', 'allow'],
      ['hand', '15 zone', 'district', '', 'allow'],
      ['hand', '20 zone', 'water board', 'Mon', 'allow'],
      ['hand', '', 'water board', 'Tue', 'allow'],
      ['hand', '30', 'water board', 'Wed', 'allow'],
      ['hand', '40', 'water board', 'Wed', 'allow'],
    ]);
    const { limit, limits } = ruleCalendar(table, q, from, from + 2);
    expect([...limits.property]).toEqual([60, 60, 60]);
    expect([...limits.zone]).toEqual([15, 15, 15]);
    expect([...limits.day]).toEqual([-1, -1, 40]);
    expect([...limit]).toEqual([15, 15, 15]);
  });

  it('one of two windows: either until one is chosen, then only that', () => {
    const table = parseRules([
      ['Hours', 'Verdict'],
      ['one of 04:00-08:00, 20:00-02:00', 'allow'],
    ]);
    const day = (window?: number) => ruleCalendar(table, { ...q, window }, from, from);
    expect(day().hours).toEqual(['00:00-02:00, 04:00-08:00, 20:00-24:00']);
    expect([...day().oneWindow, ...day(1).oneWindow, ...day(2).oneWindow]).toEqual([1, 0, 0]);
    expect(day(1).hours).toEqual(['04:00-08:00']);
    expect(day(2).hours).toEqual(['00:00-02:00, 20:00-24:00']);
    expect(day().reasons[0]).toContain(
      'any of the windows 04:00-08:00, 20:00-02:00 may be chosen, but only one',
    );
    expect(day(1).reasons[0]).not.toContain('may be chosen');
    expect(day(3).hours).toEqual(['']);
    expect(day(3).reasons[0]).toContain('window 3 was chosen, the row has 2');
    const at = { day: from, minute: 21 * 60 };
    expect(allowed(table, at, q).reason).toContain('but only one');
    expect(allowed(table, at, { ...q, window: 1 }).open).toBe(false);
  });

  it('what is fitted decides where it is said, and is asked for where it is not', () => {
    const table = parseRules([
      ['Means', 'Needs', 'Verdict'],
      ['hand', 'nozzle, attended', 'allow'],
      ['', 'timer', 'ban'],
    ]);
    const at = { day: from, minute: 600 };
    const unsaid = allowed(table, at, q);
    expect(unsaid.open).toBe(true);
    expect(unsaid.reason).toContain('needs nozzle, attended');
    expect(unsaid.reason).toContain('Not with timer (row 3)');
    expect(ruleCalendar(table, q, from, from).needs).toEqual([['nozzle', 'attended', 'no timer']]);
    const half = allowed(table, at, { ...q, fitted: ['nozzle'] });
    expect(half).toMatchObject({ open: false, row: 2 });
    expect(half.reason).toContain('attended not fitted');
    expect(allowed(table, at, { ...q, fitted: ['Nozzle', 'attended'] }).open).toBe(true);
    const timed = { ...q, fitted: ['nozzle', 'attended', 'timer'] };
    expect(allowed(table, at, timed)).toMatchObject({ open: false, row: 3 });
    const two = ruleCalendars(table, [q, timed, { ...q, address: '999' }], from, from);
    expect(two.map((c) => c.open[0])).toEqual([1, 0, 1]);
    expect(two[2]).toBe(two[0]);
  });

  it('days already watered use up a weekly budget, and say so', () => {
    const table = parseRules([
      ['Days', 'Verdict'],
      ['2 per week', 'allow'],
    ]);
    // Monday 3 and Wednesday 5 May are used: they stay open, the rest of the week shuts
    const used = { ...q, watered: [from, from + 2] };
    const calendar = ruleCalendar(table, used, from, from + 7);
    expect([...calendar.open]).toEqual([1, 0, 1, 0, 0, 0, 0, 1]);
    expect(calendar.reasons[1]).toContain('the 2 days of this week (Mon to Sun) are used');
  });

  it('an age without end is not taken for no age', () => {
    const table = parseRules([
      ['New planting', 'Days', 'Verdict'],
      ['61+', 'Mon', 'allow'],
      ['1-60', '', 'allow'],
    ]);
    const open = (planted?: number) =>
      [...ruleCalendar(table, { ...q, planted }, from, from + 2).open].join('');
    expect([open(from - 400), open(from - 60), open(from - 58), open(from), open()]).toEqual([
      '100', '100', '110', '111', '111',
    ]); // prettier-ignore
    // a row for planting day alone, counted as day 0
    const zero = parseRules([
      ['New planting', 'Day one', 'Verdict'],
      ['0', '0', 'allow'],
      ['0+', '0', 'ban'],
    ]);
    expect(ruleCalendar(zero, q, from, from).row[0]).toBe(0);
    expect(ruleCalendar(zero, { ...q, planted: from }, from, from).row[0]).toBe(3);
    expect(key2(table, from - 400)).toBe(key2(table, from - 500));
    expect(key2(table, from - 400)).not.toBe(key2(table, undefined));
  });
  const key2 = (table: ReturnType<typeof parseRules>, planted?: number) =>
    calendarKey(table, { ...q, planted }, from);

  it('a day no row opens is closed by its row, not by a ban of some hours; a ban of all of them decides', () => {
    const table = (hours: string, allowed: string) =>
      parseRules([
        ['Means', 'Days', 'Hours', 'Verdict'],
        ['', '', hours, 'ban'],
        ['soaker', 'Tue', allowed, 'allow'],
      ]);
    // 3 May 2027 is a Monday
    const rows = (hours: string, allowed = '') => [
      ...ruleCalendar(table(hours, allowed), { family: 'soaker', address: '' }, from, from + 1).row,
    ];
    expect(rows('10:00-18:00')).toEqual([3, 3]);
    expect(rows('18:00-10:00')).toEqual([3, 3]);
    expect(rows('')).toEqual([2, 2]);
    expect(rows('10:00-18:00', '11:00-15:00')).toEqual([3, 2]);
  });

  it('says a ban that leaves hours open, and what was assumed for a blank setting', () => {
    const ban = parseRules([
      ['Hours', 'Verdict'],
      ['11:00-19:00', 'ban'],
    ]);
    const day = ruleCalendar(ban, q, from, from);
    expect(day.hours).toEqual(['00:00-11:00, 19:00-24:00']);
    expect(day.reasons[0]).toMatch(/^Open on Mon 2027-05-03 outside a ban: Row 2 bans/);
    const night = parseRules([
      ['Hours', 'Midnight', 'Verdict'],
      ['18:00-09:00', '', 'allow'],
    ]);
    expect(ruleCalendar(night, q, from, from).reasons[0]).toContain('Midnight is blank');
  });

  it('shares calendars over 2000 trees of ten last digits and many planting dates', () => {
    const table = parseRules([
      ['Address', 'Days', 'Hours', 'New planting', 'Verdict'],
      ...Array.from({ length: 20 }, (_, i): RuleCell[] => [
        `ends ${i % 10}`,
        i % 2 ? 'Mon Thu' : 'odd dates',
        '18:00-09:00',
        i < 2 ? '1-60' : '',
        'allow',
      ]),
    ]);
    const seen = new Set<unknown>();
    for (let tree = 0; tree < 2000; tree++)
      seen.add(
        ruleCalendar(
          table,
          { family: 'bag', address: String(tree), planted: from - 100 - tree },
          from,
          from + 239,
        ),
      );
    expect(seen.size).toBe(10);
  });

  it('refuses reversed, broken and endless spans', () => {
    const table = parseRules([]);
    expect(() => ruleCalendar(table, q, from, from - 1)).toThrow('before it starts');
    expect(() => ruleCalendar(table, q, from + 0.5, from + 2)).toThrow('whole day');
    expect(() => ruleCalendar(table, q, from, from + 3660)).toThrow('at most 3660');
  });
});
