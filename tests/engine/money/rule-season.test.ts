/** Rules of thumb over a season: counted on paper, and day by day. Sources: the publications named in RULES_OF_THUMB. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { againstRule, againstRules } from '../../../src/engine/money/against-rules.js';
import { ruleSeason } from '../../../src/engine/money/rule-season.js';
import { RULE_NAMES, type RuleName } from '../../../src/engine/tree/rules-of-thumb.js';
import { L_PER_GALLON, MM_PER_INCH } from '../../../src/engine/units.js';
import { FROM, madePlan, madeTree, TO } from './made-plan.js';

const inches = (n: number): number => n * MM_PER_INCH;
const gallons = (n: number): number => n * L_PER_GALLON;

describe('a season by a rule of thumb, counted by hand', () => {
  const two = { caliper: inches(2), planted: FROM, monthsToEstablish: 6 };
  it('UF/IFAS, 2 in: 14 daily, 31 on alternate days of two months, 16 weekly until day 182', () => {
    const s = ruleSeason('florida', two, FROM, TO)!;
    expect(s.waterings).toEqual({ low: 61, high: 61 });
    expect(s.low).toBeCloseTo(gallons(61 * 2 * 2), 9);
    expect(s.high).toBeCloseTo(gallons(61 * 2 * 3), 9);
  });
  it('UF/IFAS waters thicker trunks longer: a month, then three; six weeks, then five months', () => {
    const count = (caliper: number): number =>
      ruleSeason('florida', { ...two, caliper: inches(caliper), monthsToEstablish: 24 }, FROM, TO)!
        .waterings.low;
    // 30 daily, ages 30…120 every second 46, weekly from 121 to 182 9
    expect(count(4)).toBe(30 + 46 + 9);
    // 42 daily, ages 42…182 every second 71
    expect(count(4.01)).toBe(42 + 71);
  });
  it('Minnesota, 1 in: 14 daily, 70 days every 3 or every 2, then weekly', () => {
    const s = ruleSeason('minnesota', { ...two, caliper: inches(1) }, FROM, TO)!;
    // weekly at ages 84, 91 … 182
    expect(s.waterings).toEqual({ low: 14 + 24 + 15, high: 14 + 35 + 15 });
    expect(s.high).toBeCloseTo(gallons(64 * 1.5), 9);
  });
  it('Colorado, 2 in: 10 gal an inch in each of 27 weeks begun, for old trees as well', () => {
    const old = { ...two, planted: undefined };
    for (const tree of [two, old])
      expect(ruleSeason('colorado', tree, FROM, TO)).toMatchObject({
        from: FROM,
        to: TO,
        low: expect.closeTo(gallons(27 * 20), 9),
      });
  });
  it('is silent before planting, after establishment, and on trees it does not speak of', () => {
    expect(ruleSeason('florida', { ...two, planted: FROM - 400 }, FROM, TO)).toBeUndefined();
    expect(ruleSeason('florida', { ...two, planted: undefined }, FROM, TO)).toBeUndefined();
    expect(ruleSeason('colorado', { ...two, planted: TO + 1 }, FROM, TO)).toBeUndefined();
    expect(ruleSeason('colorado', { ...two, planted: TO }, FROM, TO)!.waterings.low).toBe(1);
  });
});

/** The same schedules told a second time, as a walk over days: is day `age` after planting watered? */
const WALK: Readonly<
  Record<RuleName, (age: number, caliper: number, pick: 'low' | 'high') => boolean>
> = {
  florida: (age, caliper) => {
    const [daily, alternate] =
      caliper <= 2 ? [14, 61] : caliper <= 4 ? [30, 91] : [42, 152];
    return stages(age, daily, 2, alternate);
  },
  extension: (age) => stages(age, 14, 2, 61),
  minnesota: (age, _, pick) => stages(age, 14, pick === 'low' ? 3 : 2, 70),
  colorado: (age) => age % 7 === 0,
}; // prettier-ignore
function stages(age: number, daily: number, step: number, length: number): boolean {
  if (age < daily) return true;
  if (age < daily + length) return (age - daily) % step === 0;
  return (age - daily - length) % 7 === 0;
}

describe('any tree, any season', () => {
  it('counts the waterings a walk over the days counts', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...RULE_NAMES),
        fc.integer({ min: 4, max: 40 }),
        fc.integer({ min: -500, max: 100 }),
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 0, max: 300 }),
        (rule, quarters, planted, months, length) => {
          const caliper = quarters / 4;
          const tree = {
            caliper: inches(caliper),
            planted: FROM + planted,
            monthsToEstablish: months,
          };
          const got = ruleSeason(rule, tree, FROM, FROM + length);
          for (const pick of ['low', 'high'] as const) {
            let want = 0;
            const first = rule === 'colorado' ? Math.max(FROM, tree.planted) : tree.planted;
            for (let day = Math.max(FROM, tree.planted); day <= FROM + length; day++) {
              const age = day - tree.planted;
              if (rule !== 'colorado' && age >= (months * 365.25) / 12) break;
              if (WALK[rule](day - first, caliper, pick)) want++;
            }
            expect(got?.waterings[pick] ?? 0).toBe(want);
          }
        },
      ),
      { numRuns: 500 },
    );
  });
});

describe('the plan against the rules', () => {
  it('compares trees and days the rule speaks of, and no others', () => {
    const plan = madePlan({}, [
      madeTree(),
      madeTree({ id: 'old', planted: FROM - 3000, count: 3 }),
    ]);
    const florida = againstRule('florida', plan);
    expect(florida).toMatchObject({ trees: 2, others: 3, plan: 200 });
    expect(againstRule('colorado', plan)).toMatchObject({ trees: 5, others: 0, plan: 500 });
    // established after 1 month: the watering on day 40 is no longer compared
    const quick = madeTree();
    quick.facts = { ...quick.facts, monthsToEstablish: 1 };
    expect(againstRule('florida', madePlan({}, [quick])).plan).toBe(100);
  });
  it('puts the rule of the site first', () => {
    for (const blanketRule of RULE_NAMES)
      expect(againstRules(madePlan({ blanketRule })).map((c) => c.rule)).toEqual([
        blanketRule,
        ...RULE_NAMES.filter((r) => r !== blanketRule),
      ]);
  });
});
