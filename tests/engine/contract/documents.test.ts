/** Clauses of published documents as tables, with checks worked by hand: met, short, and in conflict with a rule table. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkContract } from '../../../src/engine/contract/contract-check.js';
import { contractAgainstRules } from '../../../src/engine/contract/contract-law.js';
import { dayFromIso } from '../../../src/engine/dates.js';
import { readRules, type RuleCell } from '../../../src/engine/rules/rule-table.js';
import { L_PER_GALLON, MM_PER_INCH } from '../../../src/engine/units.js';
import type { Cell } from '../../../src/tables/cells.js';
import { readContract } from '../../../src/tables/contract.js';
import { readService } from '../../../src/tables/contract-plan.js';

interface Expected {
  row: number;
  verdict: string;
  gallons: number;
  visits: number;
  excused?: number;
  cost?: number;
  where?: string;
}
interface Document {
  document: string;
  source: string;
  certainty: string;
  clauses: Cell[][];
  plan: Cell[][];
  from?: string;
  to?: string;
  rain?: [string, number][];
  expected: Expected[];
  rules?: RuleCell[][];
  stages?: RuleCell[][];
  lawUntil?: string;
  conflicts?: { row: number; asked: number; allowed: number; says: string }[];
  byHand: string;
}

const folder = new URL('../../reference/contracts/', import.meta.url);
const documents = readdirSync(folder).map((name) => ({
  name,
  ...(JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as Document),
}));
const maybeDay = (text: string | undefined): number | undefined =>
  text === undefined ? undefined : dayFromIso(text);

it('six published documents are there, each with its source', () => {
  expect(documents).toHaveLength(6);
  for (const each of documents) {
    expect(each.source.length).toBeGreaterThan(20);
    expect(['seen', 'secondary', 'memory']).toContain(each.certainty);
  }
});

describe.each(documents)('$document', (each) => {
  const { clauses, problems } = readContract(each.clauses);
  const { service } = readService(each.plan, undefined, {
    from: maybeDay(each.from),
    to: maybeDay(each.to),
  });
  const rain = each.rain?.map(([day, inches]) => ({
    day: dayFromIso(day),
    mm: inches * MM_PER_INCH,
  }));

  it('is read without a problem', () => {
    expect(problems).toEqual([]);
    expect(clauses).toHaveLength(each.clauses.length - 1);
  });

  it('is judged as by hand', () => {
    const results = checkContract({ ...service, rain }, clauses);
    expect(results.map((r) => r.clause.row)).toEqual(each.expected.map((e) => e.row));
    each.expected.forEach((expected, i) => {
      const found = results[i]!;
      expect(found.verdict, `row ${expected.row}`).toBe(expected.verdict);
      expect(found.litres / L_PER_GALLON, `row ${expected.row}`).toBeCloseTo(expected.gallons, 9);
      expect(found.visits, `row ${expected.row}`).toBe(expected.visits);
      if (expected.excused !== undefined) expect(found.excused).toBe(expected.excused);
      if (expected.cost !== undefined) expect(found.cost).toBeCloseTo(expected.cost, 9);
      if (expected.where !== undefined) expect(found.where).toContain(expected.where);
    });
  });

  it('fights the rules where it does by hand', () => {
    const rules = readRules(each.rules ?? [['Means', 'Verdict']], each.stages);
    expect(rules.problems.filter((p) => p.kind === 'broken')).toEqual([]);
    const trees = service.trees.map((tree) => ({
      ...tree,
      address: '14 Mill Lane',
      tap: true,
      source: undefined,
    }));
    const until = maybeDay(each.lawUntil) ?? service.to;
    const found = contractAgainstRules(trees, clauses, rules, service.from, until);
    expect(found.map((c) => ({ row: c.clause.row, asked: c.asked, allowed: c.allowed }))).toEqual(
      (each.conflicts ?? []).map(({ row, asked, allowed }) => ({ row, asked, allowed })),
    );
    found.forEach((c, i) => expect(c.sentence).toContain(each.conflicts![i]!.says));
  });
});

describe('rows of a Contract table that cannot be used', () => {
  const head = ['Applies to', 'From', 'To', 'Least water (gal)', 'Water per', 'Least visits', 'Visits per', 'Skip if rain (in)', 'Within days', 'Until']; // prettier-ignore
  const read = (...row: Cell[]): string => readContract([head, row]).problems[0] ?? 'none';
  it.each([
    [['caliper big', '', '', 10, 'week'], /^row 2: Applies to is "caliper big"; accepted is all, caliper 2-3 in/],
    [['caliper 3-2 in', '', '', 10, 'week'], /smaller size first/],
    [['all', 'spring', '', 10, 'week'], /^row 2: From is "spring"; accepted is a date, a day of every year/],
    [['all', 'Apr 15', '2027-10-01', 10, 'week'], /From and To must both be days of every year/],
    [['all', '2027-10-01', '2027-04-01', 10, 'week'], /To lies before From/],
    [['all', '', '', 10, 'fortnight'], /Water per is "fortnight"; accepted is visit, week, month/],
    [['all', '', '', 10, ''], /Water per is blank; accepted is visit, week, month/],
    [['all', '', '', '', '', '', ''], /asks for nothing/],
    [['all', '', '', '', '', 1.5, 'week'], /a whole number of visits/],
    [['all', '', '', 10, 'week', '', '', 1, ''], /Skip if rain needs Within days/],
    [['all', '', '', 10, 'week', '', '', '', '', 'soon'], /Until is "soon"; accepted is a date, or months or years/],
  ])('%j', (row, sentence) => expect(read(...row)).toMatch(sentence)); // prettier-ignore

  it('a table without its header says which columns are accepted', () => {
    expect(readContract([['one', 'two']]).problems[0]).toMatch(/no header row with Applies to/);
  });

  it('ends of a phase are whole weeks after planting', () => {
    const [clause] = readContract([head, ['all', 'week 3', 'week 8', 5, 'week']]).clauses;
    expect(clause).toMatchObject({ from: { days: 14 }, to: { days: 55 } });
  });
});
