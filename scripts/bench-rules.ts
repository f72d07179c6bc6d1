/**
 * Time and memory of season calendars under a 30-row rules table: 25,000, 50,000 and 100,000 distinct
 * addresses, 214 days; once by address and means alone, once with planting dates that make trees young within
 * the season, so that many more calendars differ.
 * Run: npx tsx --expose-gc scripts/bench-rules.ts
 */
import { performance } from 'node:perf_hooks';
import { dayFromIso } from '../src/engine/dates.js';
import { ruleCalendars } from '../src/engine/rules/rule-calendar.js';
import { parseRules } from '../src/engine/rules/rule-table.js';
import type { RuleCell, RuleQuery } from '../src/engine/rules/rule-table.js';

const FROM = dayFromIso('2027-04-01');
const TO = dayFromIso('2027-10-31');
const MEANS = ['bag', 'soaker', 'hand', 'drip', 'sprinkler'];

/** 30 rows: last digits by means, seasons, new plantings, rain, bans. Invented. */
const rows: RuleCell[][] = [
  ['From', 'To', 'Means', 'Address', 'Days', 'Hours', 'New planting', 'Rain', 'Verdict'],
  ...MEANS.flatMap((means, m): RuleCell[][] =>
    ['0-1', '2-3', '4-5', '6-7', '8-9'].map((ends, i) => [
      m % 2 ? 'Apr' : '', m % 2 ? 'Oct' : '', means, `ends ${ends}`,
      ['Mon Thu', 'odd dates', 'every 3rd day', '3 per week', 'not Sun'][i] ?? '',
      '18:00-09:00', '', '', 'allow',
    ]),
  ),
  ['', '', 'any', 'none', 'Wed', '18:00-09:00', '', '', 'allow'],
  ['', '', 'any', '', '', 'before 09:00, after 18:00', '1-30', '', 'allow'],
  ['Jun', 'Aug', 'sprinkler', '', '', '11:00-19:00', '', '', 'ban'],
  ['', '', 'any', '', '', '', '', '48 h after 0.5 in', 'ban'],
  ['Jul 1', 'Jul 31', 'drip, soaker', 'odd', 'Sun', '', '', '', 'ban'],
]; // prettier-ignore

const gc = (globalThis as { gc?: () => void }).gc;
const megabytes = (): number => {
  gc?.();
  gc?.();
  return process.memoryUsage().heapUsed / 2 ** 20;
};

const ADDRESSES = 100_000;

function queries(count: number, planted: boolean): RuleQuery[] {
  const rain = [
    { day: FROM + 40, mm: 20 },
    { day: FROM + 100, mm: 15 },
  ];
  return Array.from({ length: count }, (_, i) => ({
    family: MEANS[i % MEANS.length] ?? 'bag',
    address: `${i + 1} Example Street`,
    planted: planted ? FROM - 280 + ((i * 7) % 501) : undefined,
    rain,
  }));
}

const timed = (work: () => void): number => {
  const start = performance.now();
  work();
  return (performance.now() - start) / 1000;
};

function run(count: number, planted: boolean): void {
  const asked = queries(count, planted);
  const table = parseRules(rows);
  const broken = table.problems.filter((p) => p.kind === 'broken');
  if (broken.length > 0 || table.rows.length !== 30) throw new Error('the table is not as meant');
  const before = megabytes();
  let calendars = ruleCalendars(parseRules([['Verdict']]), [], FROM, TO);
  const seconds = timed(() => (calendars = ruleCalendars(table, asked, FROM, TO)));
  const grown = megabytes() - before;
  const again = timed(() => (calendars = ruleCalendars(table, asked, FROM, TO)));
  const distinct = new Set(calendars).size;
  const days = calendars.reduce((sum, c) => sum + c.open.reduce((a, b) => a + b, 0), 0);
  console.log(
    `${count} addresses${planted ? ', planted on 501 dates' : ''}: ${seconds.toFixed(2)} s ` +
      `(of these ${again.toFixed(3)} s look-ups), ${grown.toFixed(1)} MB, ` +
      `${distinct} calendars of ${TO - FROM + 1} days, ${(days / count).toFixed(1)} open days each`,
  );
}

if (!gc) console.log('without --expose-gc the memory figures include garbage');
run(1000, true); // warm
for (const planted of [false, true]) for (const share of [4, 2, 1]) run(ADDRESSES / share, planted);
