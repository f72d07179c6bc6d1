/** What must hold of any table, tried on tables made up with a fixed seed. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { dayFromIso } from '../../../src/engine/dates.js';
import { allowed, parseRules } from '../../../src/engine/rules/rule-table.js';
import type { Moment, RuleCell, RuleQuery } from '../../../src/engine/rules/rule-table.js';

const SEED = 20260706;
const FROM = dayFromIso('2027-10-20');
const DAYS = 90;

const five = fc.integer({ min: 0, max: 287 }).map((n) => n * 5);
const two = (n: number) => String(n).padStart(2, '0');
const clock = (m: number) => `${two(Math.floor(m / 60))}:${two(m % 60)}`;
const window = fc
  .tuple(five, five)
  .filter(([a, b]) => a !== b)
  .map(([a, b]) => `${clock(a)}-${clock(b)}`);
const hours = fc.oneof(
  fc.constant(''),
  window,
  fc.tuple(window, window).map((w) => w.join(', ')),
  fc.tuple(window, window).map((w) => `one of ${w.join(', ')}`),
);
const pool = (...cells: RuleCell[]) => fc.constantFrom(...cells);

/** Columns of a made-up row; a season crosses New Year, which lies within the 90 days. */
const CELLS: Record<string, fc.Arbitrary<RuleCell>> = {
  Stage: pool('', '', '', '1', '2'),
  From: pool('', '', 'Nov 1', 'first Sun Dec'),
  Means: pool('', 'hand', 'hand, bag', 'soaker'),
  Source: pool('', '', 'mains', 'well'),
  Address: pool('', '', 'odd', 'even', 'ends 0-4 or none', 'not class shop', 'none and side N/W or odd'),
  Days: pool('', '', 'Mon Thu', 'odd dates', 'even dates', 'every 3rd day', 'not Sun', 'Sat', 'none'),
  Hours: hours,
  'New planting': pool('', '', '', '1-30', '20+'),
  Rain: pool('', '', '', '48 h after 0.5 in', '30 h after rain'),
  Verdict: pool('allow', 'allow', 'allow', 'free', 'ban'),
  Needs: pool('', '', 'nozzle', 'timer'),
  Agency: pool('', '', 'district'),
  '31st': pool('', 'all', 'none'),
  Midnight: pool('', 'end'),
}; // prettier-ignore
const HEADER = [...Object.keys(CELLS), 'To'];
type Row = RuleCell[];
const at = (name: string) => HEADER.indexOf(name);

/** A row whose words go together: what the parser would leave out is put right here. */
const row: fc.Arbitrary<Row> = fc
  .tuple(fc.tuple(...Object.values(CELLS)), pool('Jan 15', 'before first Sun Mar'))
  .map(([cells, to]) => {
    const out = [...cells, cells[at('From')] === '' ? '' : to];
    if (out[at('Verdict')] !== 'allow' && out[at('Days')] === 'none') out[at('Days')] = 'Tue';
    if (out[at('Verdict')] === 'ban')
      out[at('Hours')] = String(out[at('Hours')]).replace('one of ', '');
    return out;
  });
const rows = fc.array(row, { minLength: 1, maxLength: 6 });

const STAGES: RuleCell[][] = [
  ['From', 'Stage'],
  ['2027-10-25', '1'],
  ['2027-12-05', '2'],
];
const read = (list: Row[]) => {
  const table = parseRules([HEADER, ...list], STAGES);
  expect(table.problems.filter((p) => p.kind === 'broken')).toEqual([]);
  return table;
};

const query: fc.Arbitrary<RuleQuery> = fc.record({
  family: pool('hand', 'bag', 'soaker') as fc.Arbitrary<string>,
  address: pool('17 A', '240', 'by the gate') as fc.Arbitrary<string>,
  side: fc.constantFrom(undefined, 'N', 'S/E'),
  source: fc.constantFrom(undefined, 'well'),
  customerClass: fc.constantFrom(undefined, 'shop'),
  planted: fc.option(fc.integer({ min: FROM - 40, max: FROM + 5 }), { nil: undefined }),
  fitted: fc.constantFrom(undefined, [], ['nozzle'], ['timer', 'nozzle']),
  window: fc.constantFrom(undefined, 1, 2),
  rain: fc.array(
    fc.record({
      day: fc.integer({ min: FROM - 2, max: FROM + 12 }),
      mm: fc.constantFrom(4, 12.7, 30),
      minute: fc.option(five, { nil: undefined }),
    }),
    { maxLength: 2 },
  ),
});

/** Minutes of a day at which an answer may change: midnight, edges of windows, ends of rain. */
function edges(list: Row[], q: RuleQuery): number[] {
  const found = new Set<number>([0]);
  for (const cells of list)
    for (const time of String(cells[at('Hours')]).match(/\d\d:\d\d/g) ?? [])
      found.add((Number(time.slice(0, 2)) * 60 + Number(time.slice(3))) % 1440);
  for (const rain of q.rain ?? [])
    for (const h of [0, 48, 30]) found.add(((rain.minute ?? 1440) + h * 60) % 1440);
  return [...found].sort((a, b) => a - b);
}

const after = (m: Moment, day: number, minute: number) =>
  day > m.day || (day === m.day && minute >= m.minute);

/** Moments from `start` on for some days: every five minutes of the first day, edges of the others. */
function* moments(start: Moment, days: number, list: Row[], q: RuleQuery): Generator<Moment> {
  for (let minute = start.minute; minute < 1440; minute += 5) yield { day: start.day, minute };
  const some = edges(list, q);
  for (let day = start.day + 1; day < start.day + days; day++)
    for (const minute of some) if (after(start, day, minute)) yield { day, minute };
}

it('opens next at the first open minute that brute force finds, for 2,000 tables', () => {
  let later = 0;
  let never = 0;
  fc.assert(
    fc.property(rows, query, five, (list, q, minute) => {
      const table = read(list);
      const start = { day: FROM, minute };
      const first = allowed(table, start, q);
      if (first.open) return;
      const next = first.until;
      let brute: Moment | undefined;
      for (const moment of moments(start, DAYS, list, q))
        if (allowed(table, moment, q).open) {
          brute = moment;
          break;
        }
      if (brute) {
        later++;
        expect(next).toEqual(brute);
      } else {
        never++;
        if (next) expect(next.day).toBeGreaterThanOrEqual(FROM + DAYS);
      }
      if (next) expect(allowed(table, next, q).open).toBe(true);
    }),
    { numRuns: 2000, seed: SEED },
  );
  // the tables neither all open nor all stay shut
  expect(later).toBeGreaterThan(200);
  expect(never).toBeGreaterThan(50);
});

/** Up to 15 days of moments, open or not. */
const opened = (table: ReturnType<typeof read>, list: Row[], q: RuleQuery) =>
  [...moments({ day: FROM, minute: 0 }, 15, list, q)].map((m) => allowed(table, m, q).open);

it('a ban more never opens a moment', () => {
  let shut = 0;
  fc.assert(
    fc.property(rows, row, query, (list, extra, q) => {
      const ban = [...extra];
      ban[at('Verdict')] = 'ban';
      ban[at('Hours')] = String(ban[at('Hours')]).replace('one of ', '');
      if (ban[at('Days')] === 'none') ban[at('Days')] = 'Tue';
      const all = [...list, ban];
      const before = opened(read(list), all, q);
      opened(read(all), all, q).forEach((open, i) => {
        if (open && !before[i]) throw new Error(`moment ${i} was opened by a ban`);
        if (!open && before[i]) shut++;
      });
    }),
    { numRuns: 400, seed: SEED },
  );
  expect(shut).toBeGreaterThan(1000);
});

it('two agencies together are never looser than either, and no stricter than both', () => {
  let stricter = 0;
  const of = (list: Row[], agency: string) =>
    list.map((cells) => cells.map((cell, i) => (i === at('Agency') ? agency : cell)));
  fc.assert(
    fc.property(rows, rows, query, (a, b, q) => {
      const [town, district] = [of(a, 'town'), of(b, 'district')];
      const all = [...town, ...district];
      const one = opened(read(town), all, q);
      const other = opened(read(district), all, q);
      opened(read(all), all, q).forEach((open, i) => {
        expect(open).toBe(one[i] === true && other[i] === true);
        if (!open && (one[i] || other[i])) stricter++;
      });
    }),
    { numRuns: 300, seed: SEED },
  );
  expect(stricter).toBeGreaterThan(1000);
});
