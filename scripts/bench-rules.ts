/**
 * Time and memory of season calendars under a 30-row rules table: 25,000, 50,000 and 100,000 distinct
 * addresses, 214 days, twice over: once for addresses alone, once with planting dates of the season too.
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
  return process.memoryUsage().heapUsed / 2 ** 20;
};

function run(addresses: number, planted: boolean): void {
  const table = parseRules(rows);
  const broken = table.problems.filter((p) => p.kind === 'broken');
  if (broken.length > 0 || table.rows.length !== 30) throw new Error('the table is not as meant');
  const rain = [{ day: FROM + 40, mm: 20 }, { day: FROM + 100, mm: 15 }]; // prettier-ignore
  const queries = Array.from({ length: addresses }, (_, i): RuleQuery => ({
    family: MEANS[i % MEANS.length] ?? 'bag',
    address: `${i + 1} Example Street`,
    planted: planted ? FROM - 60 + (i % 180) : undefined,
    rain,
  }));
  const before = megabytes();
  const start = performance.now();
  const calendars = ruleCalendars(table, queries, FROM, TO);
  const seconds = (performance.now() - start) / 1000;
  const grown = megabytes() - before;
  const distinct = new Set(calendars).size;
  const open = calendars.reduce((sum, c) => sum + (c.open[0] ?? 0), 0);
  console.log(
    `${addresses} addresses${planted ? ', planted over 180 days' : ''}: ${seconds.toFixed(2)} s, ` +
      `${grown.toFixed(1)} MB, ${distinct} calendars of ${TO - FROM + 1} days, ${open} open on the first day`,
  );
}

if (!gc) console.log('without --expose-gc the memory figures include garbage');
run(1000, false); // warm
for (const planted of [false, true]) for (const n of [25_000, 50_000, 100_000]) run(n, planted);
