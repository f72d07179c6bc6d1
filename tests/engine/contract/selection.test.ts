/** Who is served: the selection against exhaustive search, and the published orders on one small case. */
import { describe, expect, it } from 'vitest';
import { select, type Candidate } from '../../../src/engine/contract/selection.js';
import {
  leftOutFor,
  nextSaving,
  triage,
  type TriageTree,
} from '../../../src/engine/contract/triage.js';
import { TRIAGE_ORDER_NAMES, TRIAGE_ORDERS } from '../../../src/engine/contract/triage-orders.js';
import { dayFromIso } from '../../../src/engine/dates.js';
import { sequence } from '../../accuracy/precise.js';
import { exhaustive } from './exhaustive.js';

describe('the selection', () => {
  it('equals exhaustive search on 300 random cases of up to 12 rows, 3 budgets, 3 tiers', () => {
    const next = sequence(411);
    const whole = (n: number): number => Math.floor(next() * n);
    for (let run = 0; run < 300; run++) {
      const m = 1 + whole(3);
      const tiers = 1 + whole(3);
      const fine = next() < 0.5;
      const candidates = Array.from({ length: 3 + whole(10) }, (): Candidate => ({
        tier: whole(tiers),
        worth: next() < 0.3 ? 1 : fine ? 0.1 + next() * 9 : 1 + whole(6),
        use: Array.from({ length: m }, () => (fine ? next() * 20 : whole(20))),
      }));
      const all = candidates[0]!.use.map((_, k) => candidates.reduce((s, c) => s + c.use[k]!, 0));
      const budgets = all.map((sum) => (fine ? sum * next() : Math.floor(sum * next())));
      const found = select(candidates, budgets);
      expect(found.exact).toBe(true);
      const expected = exhaustive(candidates, budgets);
      found.worth.forEach(({ sum }, k) =>
        expect(sum, `run ${run}, tier ${k}`).toBeCloseTo(expected[k]!, 7),
      );
      // what it says is served is what it counted, and it fits
      const own = candidates.filter((_, i) => found.served[i]);
      expect(own.reduce((s, c) => s + c.worth, 0)).toBeCloseTo(expected.reduce((a, b) => a + b, 0), 7); // prettier-ignore
      budgets.forEach((b, k) =>
        expect(own.reduce((s, c) => s + c.use[k]!, 0)).toBeLessThanOrEqual(b + 1e-6),
      );
    }
  });

  it('proves the best of 1,500 rows with one budget, and never passes a budget', () => {
    const next = sequence(7);
    const candidates = Array.from({ length: 1500 }, (): Candidate => ({
      tier: next() < 0.2 ? 0 : 1,
      worth: 1,
      use: [5 + next() * 80],
    }));
    const budget = candidates.reduce((s, c) => s + c.use[0]!, 0) / 2;
    const found = select(candidates, [budget]);
    expect(found.exact).toBe(true);
    expect(found.left[0]).toBeGreaterThanOrEqual(0);
    // all of the first tier fit; of the second the smallest ones are most
    expect(found.worth[0]!.sum).toBe(candidates.filter((c) => c.tier === 0).length);
    let room = budget - candidates.reduce((s, c) => s + (c.tier === 0 ? c.use[0]! : 0), 0);
    let most = 0;
    for (const use of candidates
      .filter((c) => c.tier === 1)
      .map((c) => c.use[0]!)
      .sort((a, b) => a - b))
      // prettier-ignore
      if ((room -= use) >= 0) most++;
    expect(found.worth[1]!.sum).toBe(most);
  });

  it('says so when it had to cut the search, and how much more could be possible', () => {
    const next = sequence(12);
    const candidates = Array.from({ length: 90 }, (): Candidate => ({
      tier: 0,
      worth: 1 + next(),
      use: Array.from({ length: 6 }, () => 1 + next() * 9),
    }));
    const found = select(candidates, [120, 130, 125, 128, 122, 131]);
    expect(found.exact).toBe(false);
    expect(found.worth[0]!.possible).toBeGreaterThan(found.worth[0]!.sum);
    // no worse than taking the rows by their worth for what they take
    const left = [120, 130, 125, 128, 122, 131];
    const share = ({ use, worth }: Candidate): number =>
      use.reduce((s, u, k) => s + u / [120, 130, 125, 128, 122, 131][k]!, 0) / worth; // prettier-ignore
    const start = [...left];
    let simple = 0;
    for (const c of [...candidates].sort((a, b) => share(a) - share(b)))
      if (c.use.every((u, k) => u <= start[k]!)) {
        simple += c.worth;
        c.use.forEach((u, k) => (start[k]! -= u));
      }
    expect(found.worth[0]!.sum).toBeGreaterThanOrEqual(simple - 1e-9);
  });
});

const DAY = dayFromIso('2027-07-01');
const tree = (id: string, litres: number, more: Partial<TriageTree>): TriageTree => ({
  id, row: 2, count: 1, use: [litres], stressDays: 0, ...more,
}); // prettier-ignore
const TREES: TriageTree[] = [
  tree('new', 20, { planted: dayFromIso('2026-03-01'), caliper: 50, value: 300, leftOut: leftOutFor(7, 3, 0.5) }),
  tree('large', 60, { planted: dayFromIso('1990-01-01'), caliper: 356, value: 9000, leftOut: leftOutFor(7, 20, 0.5) }),
  tree('old', 50, { planted: dayFromIso('1970-01-01'), caliper: 508, value: 2000, stressDays: 6, poor: true, leftOut: leftOutFor(7, 10, 0.5) }),
  tree('middle', 30, { planted: dayFromIso('2015-03-01'), caliper: 127, value: 800, leftOut: leftOutFor(7, 6, 0.5) }),
]; // prettier-ignore
const served = (order: (typeof TRIAGE_ORDER_NAMES)[number], litres = 80): string[] =>
  triage(TREES, [{ name: 'water', amount: litres }], order, DAY)
    .rows.filter((r) => r.served)
    .map((r) => r.tree.id);

describe('orders of published advice conflict', () => {
  it('four of them name a publication that was read, and serve different trees with the same water', () => {
    const published = TRIAGE_ORDER_NAMES.filter((o) =>
      ['seen', 'secondary'].includes(TRIAGE_ORDERS[o].certainty),
    );
    expect(published).toEqual(['new first', 'large first', 'sound first', 'value']);
    for (const order of published)
      expect(TRIAGE_ORDERS[order].source).toMatch(/\w+\.(com|edu|org)/);
    expect(served('new first')).toEqual(['new', 'old']);
    expect(served('large first')).toEqual(['new', 'large']);
    expect(served('sound first')).toEqual(['new', 'middle']);
    expect(served('value')).toEqual(['new', 'large']);
    expect(served('stress')).toEqual(['new', 'old']);
  });

  it('says who is not served, why, and what that means', () => {
    const result = triage(TREES, [{ name: 'water', amount: 80 }], 'large first', DAY);
    expect(result).toMatchObject({ served: 2, notServed: 2, stressDays: 1, unknown: 0 });
    expect(result.rows[2]!.why).toBe('not enough is left: water');
    expect(triage(TREES, [{ name: 'water', amount: 40 }], 'value', DAY).rows[1]!.why).toBe(
      'it takes more than all there is: water',
    );
  });

  it('says what a little more water would save', () => {
    const budgets = [{ name: 'water', amount: 80 }];
    expect(nextSaving(TREES, budgets, 'large first', DAY, 0, 30)).toEqual({
      budget: 'water', more: 30, trees: 0, stressDays: -4,
    }); // prettier-ignore
    expect(nextSaving(TREES, budgets, 'new first', DAY, 0, 20)).toMatchObject({ trees: 1, stressDays: 1 }); // prettier-ignore
  });

  it('asks for what an order goes by', () => {
    expect(() => triage([tree('x', 5, {})], [{ name: 'water', amount: 9 }], 'value', DAY)).toThrow(
      'row 2 (x): the order "value" goes by value, which is blank',
    );
  });
});

describe('being left out', () => {
  it('agrees with a day-by-day walk of FAO-56 Eq. 84 in small steps', () => {
    const [lasts, p, days] = [4, 0.4, 20];
    const steps = 20000;
    let depleted = 0; // of TAW 1; demand p/lasts a day
    let ks = 1;
    for (let i = 0; i < days * steps; i++) {
      ks = depleted <= p ? 1 : (1 - depleted) / (1 - p);
      depleted += (ks * p) / lasts / steps;
    }
    const out = leftOutFor(days, lasts, p);
    expect(out.leastKs).toBeCloseTo(ks, 4);
    expect(out.stressDays).toBe(16);
  });
});
