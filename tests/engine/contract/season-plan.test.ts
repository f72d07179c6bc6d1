/** A season plan under contract and under shortage, through the planner itself. Invented trees and site. */
import { describe, expect, it } from 'vitest';
import { checkContract, serviceOf } from '../../../src/engine/contract/contract-check.js';
import { contractAgainstNeed } from '../../../src/engine/contract/contract-need.js';
import { withContract } from '../../../src/engine/contract/contract-plan.js';
import { triage } from '../../../src/engine/contract/triage.js';
import { seasonCandidates } from '../../../src/engine/contract/triage-season.js';
import { planSeason, type SeasonInput } from '../../../src/engine/plan/season.js';
import { readRules, type RuleCell } from '../../../src/engine/rules/rule-table.js';
import { L_PER_GALLON } from '../../../src/engine/units.js';
import type { Cell } from '../../../src/tables/cells.js';
import { readContract } from '../../../src/tables/contract.js';
import { readKit } from '../../../src/tables/kit.js';
import { readSite } from '../../../src/tables/site.js';
import { readTrees } from '../../../src/tables/trees-sheet.js';
import { readWeather } from '../../../src/tables/weather.js';

const SITE: Cell[][] = [
  ['Latitude', 33, 'deg'],
  ['Soil texture', 'loam', ''],
  ['Season from', '2027-06-07', ''],
  ['Season to', '2027-07-25', ''],
  ['Work days', 'any', ''],
];
const WEATHER: Cell[][] = [
  ['Month', 'ET0 (in/day)', 'Rain (in)', 'Share counted'],
  [6, 0.28, 0, 0.5],
  [7, 0.3, 0, 0.5],
];
const KIT: Cell[][] = [
  ['Device', 'Family', 'Flow (gpm)', 'Volume (gal)', 'Minutes a visit'],
  ['truck', 'tanker', 20, 500, 4],
];
const TREES: Cell[][] = [
  ['Tree ID', 'Caliper (in)', 'Canopy diameter (ft)', 'Planted', 'Count', 'Site'],
  ['A', 2, 5, '2027-03-01', 4, 'North'],
  ['B', 6, 18, '2015-03-01', 2, 'North'],
  ['C', 14, 36, '1990-03-01', 1, 'South'],
];

function season(rules: RuleCell[][]): SeasonInput {
  const { site } = readSite(SITE);
  return {
    trees: readTrees(TREES).rows.flatMap((r) => (r.tree ? [r.tree] : [])),
    site,
    weather: readWeather(WEATHER, site).weather,
    rules: readRules(rules),
    kit: readKit(KIT).kit,
  };
}
const OPEN: RuleCell[][] = [
  ['Means', 'Days', 'Verdict'],
  ['any', 'any', 'allow'],
];
const TWO_A_WEEK: RuleCell[][] = [
  ['Means', 'Days', 'Verdict'],
  ['any', '2 per week', 'allow'],
];
const clausesOf = (visits: number) =>
  readContract([
    ['Applies to', 'Least visits', 'Visits per'],
    ['all', visits, 'week'],
  ]).clauses;

describe('a plan that keeps a contract', () => {
  it('has the visits asked for in every week, and no tree drier than before', () => {
    const input = season(OPEN);
    const plan = planSeason(input);
    const clauses = clausesOf(3);
    expect(checkContract(serviceOf(plan), clauses)[0]!.verdict).toBe('short');
    const { plan: kept, changed } = withContract(input, plan, clauses);
    expect(changed.length).toBeGreaterThan(0);
    expect(checkContract(serviceOf(kept), clauses)[0]).toMatchObject({ verdict: 'met', visits: 0 });
    kept.trees.forEach((tree, t) => {
      expect(tree.chosen.stressDays).toBeLessThanOrEqual(plan.trees[t]!.chosen.stressDays);
      expect(tree.chosen.plan).toHaveLength(tree.chosen.waterings);
    });
  });

  it('goes no further than the law: two visits a week of three asked', () => {
    const input = season(TWO_A_WEEK);
    const { plan } = withContract(input, planSeason(input), clausesOf(3));
    const [result] = checkContract(serviceOf(plan), clausesOf(3));
    expect(result!.verdict).toBe('short');
    for (const s of result!.shortfalls) expect(s.found).toBeLessThanOrEqual(2);
    expect(checkContract(serviceOf(plan), clausesOf(2))[0]!.verdict).toBe('met');
  });

  it('is left as it was where the contract asks for nothing more', () => {
    const input = season(OPEN);
    const plan = planSeason(input);
    expect(withContract(input, plan, []).changed).toEqual([]);
  });
});

describe('a contract beside what trees can use', () => {
  it('shows the surplus in water and money: 100 gallons a week to a 2-inch tree', () => {
    const input = season(OPEN);
    const plan = planSeason(input);
    const { clauses } = readContract([
      ['Applies to', 'Least water (gal)', 'Water per'],
      ['caliper 1-3 in', 100, 'week'],
    ]);
    const [young, middle] = contractAgainstNeed(plan, clauses);
    expect(young!.contract / L_PER_GALLON).toBeCloseTo(700, 6);
    expect(young!.surplus).toBeCloseTo((young!.contract - young!.plan) * 4, 6);
    expect(young!.surplus).toBeGreaterThan(0);
    expect(young!.cost).toBeCloseTo((young!.surplus / 1000) * plan.site.waterPrice, 9);
    expect(middle).toMatchObject({ contract: 0, surplus: 0, cost: 0 });
  });
});

describe('half the water of a season', () => {
  const input = season(OPEN);
  const plan = planSeason(input);
  const need = plan.trees.reduce((s, t) => s + t.chosen.litres * t.tree.count, 0);
  const { trees, budgets } = seasonCandidates(input, plan, { seasonLitres: need / 2 });

  it('names who is not served, and what rain alone does to them', () => {
    const result = triage(trees, budgets, 'new first', plan.site.seasonFrom);
    const out = result.rows.filter((r) => !r.served);
    expect(out.length).toBeGreaterThan(0);
    expect(result.rows.find((r) => r.tree.id === 'A')!.served).toBe(true);
    for (const { tree, why } of out) {
      expect(why).not.toBe('');
      expect(tree.leftOut!.stressDays).toBeGreaterThan(0);
      expect(tree.leftOut!.leastKs).toBeLessThan(1);
    }
  });

  it('the served ones take no more than there is, also week by week', () => {
    const weekly = seasonCandidates(input, plan, { weekLitres: need / 14, weekMinutes: 60 });
    const result = triage(weekly.trees, weekly.budgets, 'large first', plan.site.seasonFrom);
    weekly.budgets.forEach(({ amount }, k) => {
      const used = result.rows.reduce((s, r) => s + (r.served ? r.tree.use[k]! : 0), 0);
      expect(used).toBeLessThanOrEqual(amount + 1e-6);
    });
    expect(weekly.budgets[0]!.name).toBe('water in the week of 2027-06-07');
  });
});
