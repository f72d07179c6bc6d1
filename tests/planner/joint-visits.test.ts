import { describe, expect, it } from 'vitest';
import { joinVisits } from '../../src/engine/plan/joint-visits.js';
import { planSeason, type SeasonInput } from '../../src/engine/plan/season.js';
import { freshPath, plannerOf } from '../../src/engine/plan/path.js';
import type { SeasonPlan, Tree } from '../../src/engine/plan/model.js';
import {
  ANY_DAY,
  FROM,
  inventedSeason,
  NOZZLE,
  PAD,
  site,
  tree,
  weather,
} from './invented-season.js';
import { walkAgain } from './walk-again.js';

/** the last one holds a site that joining would harm */
const SEEDS = [...Array.from({ length: 24 }, (_, seed) => seed), 43];

/** Days on which somebody comes, site by site, from the waterings of a plan. */
function visitDays(plan: SeasonPlan, input: SeasonInput): Map<string, Set<number>> {
  const timed = new Set(input.kit.filter((d) => d.automatic).map((d) => d.name));
  const days = new Map<string, Set<number>>();
  for (const { tree: own, chosen } of plan.trees)
    for (const { day, device } of chosen.plan) {
      if (timed.has(device)) continue;
      days.set(own.site, (days.get(own.site) ?? new Set()).add(day));
    }
  return days;
}

const total = (plan: SeasonPlan): number =>
  [...plan.trees].reduce((sum, t) => sum + t.chosen.litres * t.tree.count, 0);

describe('joint visits of invented seasons', () => {
  const seasons = SEEDS.map((seed) => {
    const input = inventedSeason(seed);
    const plan = planSeason(input);
    return { input, plan, joint: joinVisits(input, plan) };
  });

  it('some sites join, some do not, and every tree is still there', () => {
    const kept = seasons.flatMap(({ joint }) => joint.sites.map((s) => s.kept));
    expect(kept.filter((k) => k === 'joined').length).toBeGreaterThan(10);
    expect(kept.filter((k) => k === 'separate').length).toBeGreaterThan(0);
    for (const { plan, joint } of seasons) {
      expect(joint.plan.trees.map((t) => t.tree)).toEqual(plan.trees.map((t) => t.tree));
      expect(joint.plan.notPlanned).toBe(plan.notPlanned);
    }
  });
  it('no tree has more stress days', () => {
    for (const { plan, joint } of seasons)
      plan.trees.forEach((t, i) =>
        expect(joint.plan.trees[i]!.chosen.stressDays).toBeLessThanOrEqual(t.chosen.stressDays),
      );
  });
  it('somebody comes to a site on no more days, counted from the waterings themselves', () => {
    let fewer = 0;
    for (const { input, plan, joint } of seasons) {
      const before = visitDays(plan, input);
      const after = visitDays(joint.plan, input);
      for (const [place, days] of before) {
        expect(after.get(place)!.size).toBeLessThanOrEqual(days.size);
        if (after.get(place)!.size < days.size) fewer++;
      }
      for (const { site: place, separate, joined, kept } of joint.sites) {
        expect(separate.days).toBe(before.get(place)?.size ?? 0);
        if (kept === 'joined') expect(joined!.days).toBe(after.get(place)!.size);
      }
    }
    expect(fewer).toBeGreaterThan(10);
  });
  it('the cost of a site’s trees adds up to kit, water, work and one drive a day of visits', () => {
    for (const { joint } of seasons)
      for (const { site: place, kept, joined, separate } of joint.sites) {
        const sums = kept === 'joined' ? joined! : separate;
        expect(sums.cost).toBeLessThanOrEqual(separate.cost * (1 + 1e-9));
        const timed = new Set(['hose']);
        const trees = joint.plan.trees.filter(
          (t) => t.tree.site === place && !t.chosen.devices.every((name) => timed.has(name)),
        );
        const cost = trees.reduce((sum, t) => sum + t.chosen.cost * t.tree.count, 0);
        // a site of one row bears a whole drive's share for the trees that stand there, as it was planned
        if (trees.length > 1) expect(cost).toBeCloseTo(sums.cost, 6);
      }
  });
  it('waterings add up to the litres of the outcome, and stay on allowed days', () => {
    for (const { input, joint } of seasons) {
      const { planner, taskOf } = plannerOf(input);
      for (const t of joint.plan.trees) {
        const sum = t.chosen.plan.reduce((all, w) => all + w.litres, 0);
        expect(sum).toBeCloseTo(t.chosen.litres, 6);
        const { option } = freshPath(planner, taskOf(t.tree), t.chosen.label)!;
        for (const w of t.chosen.plan) {
          const { allowed } = w.family === 'pad' ? option.pad! : option.main!;
          expect(allowed.open[w.day - FROM]).toBe(1);
        }
        if (!option.main) continue;
        const weeks = new Map<number, number>();
        for (const { day, family } of t.chosen.plan)
          // serial 2 is a Monday
          if (family !== 'pad')
            weeks.set(Math.floor((day - 2) / 7), 1 + (weeks.get(Math.floor((day - 2) / 7)) ?? 0));
        for (const used of weeks.values())
          expect(used).toBeLessThanOrEqual(option.main.allowed.perWeek(0));
      }
    }
  });
  it('the balance of every day closes, and the stress days are those of the waterings given', () => {
    for (const { input, joint } of seasons.slice(0, 12))
      for (const t of joint.plan.trees) {
        const run = walkAgain(input, t);
        expect(run.stressDays).toBe(t.chosen.stressDays);
        expect(run.leastKs).toBeCloseTo(t.chosen.leastKs, 9);
        expect(run.litres).toBeCloseTo(t.chosen.litres, 6);
      }
  });
  it('joining costs more water on the whole, and never more money', () => {
    let [before, after] = [0, 0];
    for (const { plan, joint } of seasons) {
      before += total(plan);
      after += total(joint.plan);
    }
    expect(after / before).toBeGreaterThan(0.99);
    expect(after / before).toBeLessThan(1.25);
  });
  it('is the same on every run', () => {
    for (const { input, plan, joint } of seasons.slice(0, 4)) {
      const again = joinVisits(input, plan);
      expect(again.sites).toEqual(joint.sites);
      expect(again.plan.trees.map((t) => t.chosen)).toEqual(joint.plan.trees.map((t) => t.chosen));
    }
  });
});

it('a pad laid in the middle of the season is soaked from then on, and its soaking brings the others along', () => {
  const input: SeasonInput = {
    trees: [
      tree('1', { planted: FROM + 40, meansWanted: ['pad'] }),
      tree('2', { planted: FROM - 20, meansWanted: ['hand'] }),
    ],
    site: site({ topUp: 0.3 }), weather: weather(), rules: ANY_DAY, kit: [NOZZLE, PAD],
  }; // prettier-ignore
  const plan = planSeason(input);
  const { plan: joint, sites } = joinVisits(input, plan);
  const [pad, hand] = joint.trees.map((t) => t.chosen.plan.map((w) => w.day));
  expect(pad!.length).toBeGreaterThan(2);
  expect(pad![0]).toBeGreaterThan(FROM + 40);
  expect(joint.trees[0]!.chosen.stressDays).toBe(plan.trees[0]!.chosen.stressDays);
  expect(sites[0]!.kept).toBe('joined');
  const shared = (of: number[]): number => pad!.filter((day) => of.includes(day)).length;
  expect(shared(hand!)).toBeGreaterThan(shared(plan.trees[1]!.chosen.plan.map((w) => w.day)));
});

describe('two trees, worked by hand', () => {
  // Root zone = ball alone (reach 0): TAW = π/4·d²·depth·0.155, D = ET0·PF·ks·π/4·canopy², RAW = p·TAW with
  // p = 0.5 + 0.04·(5 − ET0·PF). A full store is due on day k when (k + 1)·D > RAW (FAO-56 Eq. 83), so every
  // k = ⌊RAW/D⌋ days. RAW/D = 3.5 gives 3 days; 4.5 gives 4. On day 3 the second has used 3/4.5 = 0.67 > 0.6.
  const place = site({
    reach: 0.0001, siteFactor: 1, plantFactor: 0.5, seasonTo: FROM + 12, workDays: 'any', driveMinutes: 30,
  }); // prettier-ignore
  const ET0 = 5;
  const demand = ET0 * 0.5 * (Math.PI / 4) * 1 ** 2; // canopy 1 m
  const p = 0.5 + 0.04 * (5 - ET0 * 0.5);
  const ballArea = (Math.PI / 4) * 0.6 ** 2;
  const lasting = (days: number): number => (days * demand) / (p * ballArea * AVAILABLE);
  const AVAILABLE = 0.155;
  const standing = (id: string, days: number): Tree =>
    tree(id, { ballDiameter: 600, ballDepth: lasting(days), canopy: 1, planted: FROM - 9000 });
  const all = weather(ET0);
  const input: SeasonInput = {
    trees: [standing('1', 3.5), standing('2', 4.5)],
    site: place,
    weather: { ...all, et0: all.et0.slice(0, 13), rain: all.rain.slice(0, 13), effectiveRain: all.effectiveRain.slice(0, 13) },
    rules: ANY_DAY,
    kit: [NOZZLE],
  }; // prettier-ignore
  const plan = planSeason(input);
  const daysOf = (of: SeasonPlan, t: number): number[] =>
    of.trees[t]!.chosen.plan.map((w) => w.day - FROM);
  const { plan: joint, sites } = joinVisits(input, plan);

  it('apart: every third and every fourth day, six days with a visit', () => {
    expect(daysOf(plan, 0)).toEqual([3, 6, 9, 12]);
    expect(daysOf(plan, 1)).toEqual([4, 8, 12]);
    expect(sites[0]!.separate.days).toBe(6);
  });
  it('joined: both every third day, four days with a visit, the same water', () => {
    expect(daysOf(joint, 0)).toEqual([3, 6, 9, 12]);
    expect(daysOf(joint, 1)).toEqual([3, 6, 9, 12]);
    const efficiency = place.efficiency.hand;
    expect(joint.trees[1]!.chosen.litres).toBeCloseTo((12 * demand) / efficiency, 9);
    expect(sites[0]).toMatchObject({
      kept: 'joined',
      joined: { days: 4, waterings: 8, stressDays: 0 },
    });
    expect(joint.trees[1]!.chosen.plan[0]!.why).toMatch(/^Somebody is here today, and 67 % /);
  });
  it('joined: four drives of 30 minutes are shared by two', () => {
    const perHour = place.wage * place.crewSize;
    const work = 8 * NOZZLE.visitMinutes + (24 * demand) / place.efficiency.hand / 15;
    const water = ((24 * demand) / place.efficiency.hand / 1000) * place.waterPrice;
    const cost = ((work + 4 * 30) / 60) * perHour + water;
    expect(joint.trees[0]!.chosen.cost + joint.trees[1]!.chosen.cost).toBeCloseTo(cost, 9);
  });
  it('with a top-up share of 0.7 the second is left until it is due', () => {
    const later = { ...input, site: { ...place, topUp: 0.7 } };
    const apart = joinVisits(later, planSeason(later));
    expect(daysOf(apart.plan, 1)).toEqual([4, 8, 12]);
  });
  it('a site of one row stays as it is', () => {
    const alone = { ...input, trees: [input.trees[0]!] };
    const one = planSeason(alone);
    const { plan: same, sites: those } = joinVisits(alone, one);
    expect(same.trees[0]).toBe(one.trees[0]);
    expect(those[0]!.kept).toBe('separate');
  });
  it('a share above 1 is refused in a sentence', () => {
    const wrong = { ...input, site: { ...place, topUp: 1.5 } };
    expect(() => joinVisits(wrong, plan)).toThrow('a share from 0 to 1 is accepted');
  });
});
