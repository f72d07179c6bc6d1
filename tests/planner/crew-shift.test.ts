/** Seasons of crews that start early, late and at night: what is told to do lies in the law and in their day. */
import { describe, expect, it } from 'vitest';
import { shiftOf } from '../../src/engine/crew/shift.js';
import { crewedSeason } from '../../src/engine/plan/crewed-season.js';
import type { SeasonPlan, Site, Watering } from '../../src/engine/plan/model.js';
import { planSeason, type SeasonInput } from '../../src/engine/plan/season.js';
import { parseRules } from '../../src/engine/rules/rule-table.js';
import { windowsIn } from '../../src/engine/rules/rule-words.js';
import { intersect } from '../../src/engine/rules/rule-windows.js';
import { hoursText } from '../../src/engine/rules/rule-words.js';
import {
  BAG,
  HOSE,
  inventedSeason,
  KIT,
  NOZZLE,
  site,
  tree,
  TRUCK,
  weather,
} from './invented-season.js';

const hours = (text: string, days = 'any') =>
  parseRules([
    ['Days', 'Hours', 'Verdict'],
    [days, text, 'allow'],
  ]);
const season = (more: Partial<SeasonInput>, own: Partial<Site> = {}): SeasonInput => ({
  trees: [1, 2, 3].map((n) => tree(`T${n}`)),
  notPlanned: [],
  site: site({ workDays: 'any', ...own }),
  weather: weather(),
  rules: hours('any'),
  kit: KIT,
  ...more,
});
const byPeople = ({ trees }: SeasonPlan, { kit }: SeasonInput): Watering[] => {
  const timed = new Set(kit.filter((d) => d.automatic).map((d) => d.name));
  return trees.flatMap((t) => t.chosen.plan).filter((w) => !timed.has(w.device));
};

describe('hours that lie outside the crew’s day', () => {
  const evening = { rules: hours('18:00-24:00', 'Mon Thu'), kit: [BAG, NOZZLE] };
  it('leave no day to water, and the tree says so with the numbers and the start that would help', () => {
    const input = season(evening, { crewStart: 6, crewHours: 8 });
    const plan = planSeason(input);
    for (const { state, chosen, advice } of plan.trees) {
      expect(state).toBe('cannot be kept');
      expect(chosen.plan).toEqual([]);
      // Mondays and Thursdays from Thursday 1 April to Thursday 30 September 2027
      expect(advice).toContain(
        "On all 53 allowed days the open hours (18:00-24:00) lie outside the crew's day (06:00-14:00).",
      );
      expect(advice).toMatch(
        /With the crew's day starting at 16:00, .* would leave \d+ stress days?\./,
      );
    }
  });
  it('are reached by a crew that starts at the hour named', () => {
    const late = planSeason(season(evening, { crewStart: 16, crewHours: 8 }));
    const early = planSeason(season(evening, { crewStart: 6, crewHours: 8 }));
    late.trees.forEach((t, i) => {
      expect(t.chosen.waterings).toBeGreaterThan(20);
      expect(t.chosen.stressDays).toBeLessThan(early.trees[i]!.chosen.stressDays);
      expect(new Set(t.chosen.plan.map((w) => [w.hours, w.within].join()))).toEqual(new Set(['18:00-24:00,18:00-24:00'])); // prettier-ignore
    });
  });
  it('do not matter to a timer', () => {
    const timed = { ...evening, kit: [HOSE] };
    const plans = [6, 16].map((crewStart) =>
      planSeason(season(timed, { crewStart, crewHours: 8 })),
    );
    const told = plans.map((p) => p.trees.map((t) => t.chosen.plan));
    expect(told[0]).toEqual(told[1]);
    expect(told[0]![0]!.length).toBeGreaterThan(20);
    expect(told[0]![0]![0]!.within).toBe(undefined);
  });
  it('cut what a person can pour: no more than the flow gives in what is left of them', () => {
    const short = { rules: hours('00:00-06:02', 'Mon'), kit: [NOZZLE] };
    const plan = planSeason(season(short, { crewStart: 6 }));
    const all = plan.trees.flatMap((t) => t.chosen.plan);
    expect(all.length).toBeGreaterThan(20);
    for (const { litres, minutes, within } of all) {
      expect(within).toBe('06:00-06:02');
      expect(minutes).toBeLessThanOrEqual(2 + 1e-9);
      expect(litres).toBeLessThanOrEqual(2 * NOZZLE.flow! + 1e-9);
    }
    expect(all.some(({ minutes }) => minutes > 2 - 1e-6)).toBe(true);
  });
});

describe('whatever the crew’s day', () => {
  const random = (seed: number, own: Partial<Site>): SeasonInput => {
    const base = inventedSeason(seed, 20);
    return { ...base, site: { ...base.site, ...own }, rules: hours('00:00-09:00, 19:00-24:00', 'Mon Wed Fri Sat'), kit: [BAG, HOSE, NOZZLE, TRUCK] };
  }; // prettier-ignore
  it.each([
    [6, 8],
    [4.5, 10],
    [13, 8],
    [20, 8],
  ])('from %d h for %d h every watering by a person lies in the law and in it', (crewStart, crewHours) => {
    for (let seed = 1; seed <= 3; seed++) {
      const input = random(seed, { crewStart, crewHours });
      const { plan } = crewedSeason(input, planSeason(input));
      const shift = shiftOf(input.site);
      const told = byPeople(plan, input);
      for (const w of told) {
        const both = intersect(windowsIn(w.hours), [{ start: shift.start, end: shift.end }]);
        expect(w.within).toBe(hoursText(both));
        expect(both.length).toBeGreaterThan(0);
        if (w.family === 'hand' || w.family === 'tanker')
          expect(w.minutes).toBeLessThanOrEqual(both.reduce((n, { start, end }) => n + end - start, 0) + 1e-6);
      }
      expect(told.length).toBeGreaterThan(20);
    }
  }); // prettier-ignore
  it('one of 24 hours from midnight gives the plan of rules without hours, day for day', () => {
    const input = { ...random(5, { crewStart: 0, crewHours: 24 }), rules: hours('any') };
    const { plan } = crewedSeason(input, planSeason(input));
    // the same with a crew of eight hours and hoses that need no more of them
    const shorter = { ...input, site: { ...input.site, crewStart: 6, crewHours: 17 } };
    const other = crewedSeason(shorter, planSeason(shorter)).plan;
    const told = (p: SeasonPlan) => p.trees.map((t) => t.chosen.plan.map((w) => [w.day, w.device, w.litres, w.hours])); // prettier-ignore
    expect(told(plan)).toEqual(told(other));
    expect(plan.crewDays.some((d) => d.overload)).toBe(false);
    expect(plan.trees.flatMap((t) => t.chosen.plan).every((w) => (w.within ?? 'any') === 'any')).toBe(true); // prettier-ignore
  });
  it('that goes past midnight is said to be planned with up to it', () => {
    const input = season({ kit: [NOZZLE] }, { crewStart: 20, crewHours: 8 });
    expect(planSeason(input).problems.at(-1)).toBe(
      "The crew's day goes from 20:00 past midnight; only its hours up to 24:00 are planned with.",
    );
    expect(planSeason(season({ kit: [NOZZLE] }, { crewStart: 6 })).problems.join()).not.toContain(
      'midnight',
    );
  });
  it('too much work for what is open of it is a problem of the plan with its worst day', () => {
    const many = Array.from({ length: 12 }, (_, n) => tree(`T${n + 1}`, { site: `Site ${n}`, tap: true })); // prettier-ignore
    const input = season(
      { trees: many, rules: hours('00:00-07:00', 'Mon Wed Fri'), kit: [NOZZLE] },
      { crewStart: 6 },
    );
    const { problems } = planSeason(input);
    expect(problems.join('\n')).toMatch(
      /\d+ crew days have more work than the open hours within the crew's day hold\. [A-Z][a-z]{2} \d+ [A-Z][a-z]{2}: open 06:00-07:00 leaves 0\.\d h, the work bound to it needs \d\.\d h\./,
    );
  });
});
