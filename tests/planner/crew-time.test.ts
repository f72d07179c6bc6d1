/** Crew time that is worth more than its wage, and where more open hours could come from. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { chooseMeans } from '../../src/engine/plan/choose-means.js';
import { crewCost, weighedCost } from '../../src/engine/plan/crew-time.js';
import { furtherDays, openWeekHours, usefulStarts, workWeekdays } from '../../src/engine/plan/open-hours.js'; // prettier-ignore
import { planSeason, type SeasonInput } from '../../src/engine/plan/season.js';
import type { Site } from '../../src/engine/plan/model.js';
import { TreePlanner } from '../../src/engine/plan/plan-trees.js';
import { parseRules } from '../../src/engine/rules/rule-table.js';
import { benchSeason, benchTrees } from '../bench/inventory.js';

/** Forty trees under rules that close the middle of the day, and one crew that works from six, Monday to Friday. */
function season(site: Partial<Site> = {}, hours = 'not 10:00-18:00', days = 'any'): SeasonInput {
  const bench = benchSeason();
  const rules = parseRules([['Means', 'Address', 'Days', 'Hours', 'Verdict'], ['any', 'any', days, hours, 'allow']], []); // prettier-ignore
  const crew = { workDays: 'Mon-Fri', crewStart: 6, crewHours: 8, crews: 1 };
  return { ...bench, rules, site: { ...bench.site, ...crew, ...site }, trees: benchTrees(40) };
}

describe('crew time', () => {
  it('in an outcome is its cost less kit and water, and none of it is lost', () => {
    const input = season();
    const planner = new TreePlanner(input);
    const [tree] = input.trees;
    const plan = planSeason({ ...input, trees: [tree!] }).trees[0]!;
    const { options } = planner.ready({ tree: tree!, driveMinutes: input.site.driveMinutes });
    const option = options.find(({ label }) => label === plan.chosen.label)!;
    const free = { ...input, site: { ...input.site, wage: 0 } };
    const unpaid = planSeason({ ...free, trees: [tree!] }).trees[0]!.options.find(({ label }) => label === plan.chosen.label)!; // prettier-ignore
    const paid = crewCost(plan.chosen, option, input.site);
    expect(paid).toBeGreaterThan(0);
    const setUp = (option.main!.device.setupMinutes / 60) * input.site.wage * input.site.crewSize;
    expect(plan.chosen.cost - unpaid.cost).toBeCloseTo(paid + setUp, 6);
  });

  it('worth its wage changes no plan at all', () => {
    const usual = planSeason(season());
    const said = planSeason(season({ crewTimeWorth: 1 }));
    expect(said.trees.map(({ chosen }) => [chosen.label, chosen.cost, chosen.plan])).toEqual(
      usual.trees.map(({ chosen }) => [chosen.label, chosen.cost, chosen.plan]),
    );
  });

  it('worth more never takes more of it, keeps every tree that was kept, and may cost more', () => {
    const of = (worth: number) => {
      const usual = season({ crewTimeWorth: worth, wage: 0.5 });
      // a thin hose that costs nothing but time, and bags that have to be bought
      const kit = usual.kit.flatMap((device) =>
        device.family === 'hand'
          ? [{ ...device, flow: 3 }]
          : device.family === 'bag'
            ? [device]
            : [],
      );
      const input = { ...usual, kit };
      const planner = new TreePlanner(input);
      const { trees } = planSeason(input);
      const labour = trees.map(({ tree, chosen }) => {
        const { options } = planner.ready({ tree, driveMinutes: 0 });
        return crewCost(
          chosen,
          options.find(({ label }) => label === chosen.label)!,
          input.site,
        );
      });
      const sum = (all: number[]): number => all.reduce((a, b) => a + b, 0);
      return {
        labour: sum(labour),
        cost: sum(trees.map(({ chosen }) => chosen.cost)),
        kept: trees.filter(({ state }) => state === 'planned').length,
      };
    };
    const [usual, dear] = [of(1), of(10)];
    expect(dear.labour).toBeLessThan(usual.labour);
    expect(dear.cost).toBeGreaterThan(usual.cost);
    expect(dear.kept).toBe(usual.kept);
  });

  it('takes the quick means before the cheap one, but none that leaves the tree dry', () => {
    const outcome = (cost: number, labour: number, stressDays = 0) => ({
      cost, labour, stressDays, litres: 100, visits: 5,
    }); // prettier-ignore
    const slow = outcome(100, 80);
    const quick = outcome(120, 20);
    const dry = outcome(10, 1, 4);
    const chosen = (worth: number) =>
      chooseMeans([slow, quick, dry], 0, (o) => o.cost + (worth - 1) * o.labour)?.chosen;
    expect(chosen(1)).toBe(slow);
    expect(chosen(2)).toBe(quick);
  });

  it('worth less than its wage is refused with what is accepted', () => {
    const input = season({ crewTimeWorth: 0.5 });
    const { options } = new TreePlanner(input).ready({ tree: input.trees[0]!, driveMinutes: 0 });
    expect(() => weighedCost({ cost: 1, litres: 1 }, options[0]!, input.site)).toThrow(
      'an hour of the crew is worth 0.5 times its wage; a number from 1 is accepted',
    );
  });
});

describe('more open hours', () => {
  const asked = <T>(input: SeasonInput, ask: (i: SeasonInput, p: ReturnType<typeof planSeason>) => T) =>
    ask(input, planSeason(input)); // prettier-ignore

  it('come from the earliest start that covers the morning, one halfway to it, and an evening', () => {
    // open to 10:00 and from 18:00; eight hours from two o'clock are all open, and from four six of them
    expect(asked(season(), usefulStarts)).toEqual([2, 4, 16]);
  });
  it('come from no other start where the crew’s whole day is open', () => {
    expect(asked(season({}, 'any'), usefulStarts)).toEqual([]);
  });
  it('come from weekdays that are lawful and not worked, and from no other', () => {
    expect(asked(season(), furtherDays)).toEqual([6, 0]);
    expect(asked(season({}, 'not 10:00-18:00', 'Tue Sat'), furtherDays)).toEqual([6]);
    expect(asked(season({ workDays: 'any' }), furtherDays)).toEqual([]);
  });
  it('are counted for the week within the crew’s day: five mornings of four hours, for each crew', () => {
    expect(asked(season(), openWeekHours)).toBeCloseTo(20, 9);
    expect(asked(season({ crews: 3 }), openWeekHours)).toBeCloseTo(60, 9);
    expect(asked(season({}, '18:00-24:00'), openWeekHours)).toBeUndefined();
  });
  it('are asked of the weekdays as they are typed', () => {
    expect(workWeekdays(season({ workDays: 'Mon Wed Fri' }))).toEqual([1, 3, 5]);
  });
});
