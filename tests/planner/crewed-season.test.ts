/** Joined visits and relieved days of whole seasons: nothing lost, nothing later, nobody drier. */
import { describe, expect, it } from 'vitest';
import { crewedSeason } from '../../src/engine/plan/crewed-season.js';
import { joinVisits } from '../../src/engine/plan/joint-visits.js';
import { plannerOf } from '../../src/engine/plan/path.js';
import { planSeason } from '../../src/engine/plan/season.js';
import { shiftedSeason } from '../../src/engine/plan/shifted-season.js';
import { allowed } from '../../src/engine/rules/rule-table.js';
import { inventedSeason, NOZZLE, STAGED, TRUCK } from './invented-season.js';

/** Hand and truck only, and hours so short that days are over. */
const busy = (seed: number, crewHours: number) => {
  const season = inventedSeason(seed, 40);
  return { ...season, kit: [NOZZLE, TRUCK], rules: STAGED, site: { ...season.site, crewHours } };
};

describe('a crewed season', () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8])('%i: moves only to earlier, legal days', (seed) => {
    const season = busy(seed, 2);
    const plan = planSeason(season);
    const joint = joinVisits(season, plan).plan;
    const by = plannerOf(season);
    const shifted = shiftedSeason(season, plan, joinVisits(season, plan, by), by).plan;
    const crewed = crewedSeason(season, plan);
    const over = (days: typeof plan.crewDays): number => days.filter((d) => d.overload).length;
    expect(over(crewed.plan.crewDays)).toBeLessThanOrEqual(over(joint.crewDays));
    crewed.plan.trees.forEach(({ tree, chosen }, k) => {
      const before = shifted.trees[k]!.chosen;
      const litres = (waterings: typeof chosen.plan): number =>
        waterings.reduce((sum, w) => sum + w.litres, 0);
      expect(litres(chosen.plan)).toBeCloseTo(litres(before.plan), 9);
      expect(chosen.plan).toHaveLength(before.plan.length);
      for (const watering of chosen.plan) {
        if (watering.movedFrom === undefined) continue;
        expect(watering.day).toBeLessThan(watering.movedFrom);
        const query = { family: watering.family, address: tree.address, source: watering.family === 'tanker' ? 'tanker' : (tree.source ?? 'mains'), target: 'tree' as const, planted: tree.planted }; // prettier-ignore
        const anyMinute = Array.from({ length: 96 }, (_, q) => q * 15).some(
          (minute) => allowed(season.rules, { day: watering.day, minute }, query).open,
        );
        expect(anyMinute).toBe(true);
      }
    });
  });

  it('moves something somewhere, or the cases are too easy', () => {
    const moved = [1, 2, 3, 4, 5, 6, 7, 8].map((seed) => {
      const season = busy(seed, 2);
      return crewedSeason(season, planSeason(season)).moves.length;
    });
    expect(moved.reduce((a, b) => a + b, 0)).toBeGreaterThan(0);
  });

  it('leaves a season without full days as joining made it', () => {
    const full = busy(3, 24);
    const season = { ...full, site: { ...full.site, crewStart: 0 } };
    const plan = planSeason(season);
    const crewed = crewedSeason(season, plan);
    expect(crewed.moves).toEqual([]);
    expect(crewed.plan.trees.map((t) => t.chosen.waterings)).toEqual(
      joinVisits(season, plan).plan.trees.map((t) => t.chosen.waterings),
    );
  });
});
