import { describe, expect, it } from 'vitest';
import { planSeason, type SeasonInput } from '../../src/engine/plan/season.js';
import { replan, type News } from '../../src/engine/plan/replan.js';
import type { GivenRow } from '../../src/engine/plan/replan-rows.js';
import type { SeasonPlan, TreePlan, Watering } from '../../src/engine/plan/model.js';
import { isoDate } from '../../src/engine/dates.js';
import {
  ANY_DAY, BAG, FROM, HOSE, inventedSeason, KIT, NOZZLE, PAD, rulesOf, site, STAGED, tree, TWICE_A_WEEK, weather,
} from './invented-season.js'; // prettier-ignore
import { walkAgain } from './walk-again.js';

const SEEDS = Array.from({ length: 12 }, (_, seed) => seed);
const TODAY = FROM + 100;

/** Every watering of a plan before today, as somebody would write it down. */
const asPlanned = (plan: SeasonPlan, today = TODAY): GivenRow[] =>
  plan.trees.flatMap(({ tree: t, chosen }) =>
    chosen.plan
      .filter((w) => w.day < today)
      .map((w) => ({ tree: t.id, day: w.day, litres: w.litres, device: w.device })),
  ).map((row, k) => ({ ...row, row: k + 2 })); // prettier-ignore

const ahead = (t: TreePlan, today = TODAY): Watering[] =>
  t.chosen.plan.filter((w) => w.day >= today);
const behind = (t: TreePlan, today = TODAY): Watering[] =>
  t.chosen.plan.filter((w) => w.day < today);
const seasons = SEEDS.map((seed) => {
  const input = inventedSeason(seed);
  return { input, plan: planSeason(input) };
});

describe('nothing changed, watered as planned', () => {
  const again = seasons.map(({ input, plan }) =>
    replan(input, plan, { today: TODAY, given: asPlanned(plan) }),
  );
  it('the remaining plan is the same to the last word', () => {
    let seen = 0;
    seasons.forEach(({ plan }, s) => {
      expect(again[s]!.problems).toEqual([]);
      plan.trees.forEach((t, k) => {
        const other = again[s]!.plan.trees[k]!;
        expect(ahead(other)).toEqual(ahead(t));
        // all of its stress may be past
        if (t.state === 'planned') expect(other.state).toBe('planned');
        seen += ahead(t).length;
        const { litres, cost, stressDays, visits, waterings, leastKs } = other.chosen;
        expect([stressDays, visits, waterings, leastKs]).toEqual([t.chosen.stressDays, t.chosen.visits, t.chosen.waterings, t.chosen.leastKs]); // prettier-ignore
        expect(litres).toBeCloseTo(t.chosen.litres, 6);
        expect(cost).toBeCloseTo(t.chosen.cost, 6);
      });
    });
    expect(seen).toBeGreaterThan(1000);
  });
  it('past rows are as they were, marked as really given', () => {
    seasons.forEach(({ plan }, s) =>
      plan.trees.forEach((t, k) => {
        const other = behind(again[s]!.plan.trees[k]!);
        expect(other.map(({ day, litres, device }) => [day, litres, device])).toEqual(
          behind(t).map(({ day, litres, device }) => [day, litres, device]),
        );
        for (const w of other) expect(w.why).toBe('As it was really given.');
      }),
    );
  });
  it('a week later nothing changes either, and it is the same on every run', () => {
    const { input, plan } = seasons[0]!;
    const later = { today: TODAY + 7, given: asPlanned(plan, TODAY + 7) };
    const one = replan(input, plan, later);
    expect(one.plan.trees.map((t) => ahead(t, TODAY + 7))).toEqual(plan.trees.map((t) => ahead(t, TODAY + 7))); // prettier-ignore
    expect(replan(input, plan, later).plan.trees.map((t) => t.chosen)).toEqual(one.plan.trees.map((t) => t.chosen)); // prettier-ignore
  });
  it('choosing again with nothing changed keeps every means that was worth its kit', () => {
    const { input, plan } = seasons[1]!;
    const other = replan(input, plan, { today: TODAY, given: asPlanned(plan), chooseAgain: true });
    other.plan.trees.forEach((t, k) => {
      const before = plan.trees[k]!;
      expect(t.options.length).toBeGreaterThan(1);
      expect(t.options).toContain(t.chosen);
      // the kit is paid for, so only less stress or a cheaper way of working on can win
      if (t.chosen.label === before.chosen.label) expect(ahead(t)).toEqual(ahead(before));
      else if (t.chosen.stressDays >= before.chosen.stressDays)
        expect(t.chosen.cost).toBeLessThan(before.chosen.cost);
    });
  });
});

describe('the real past', () => {
  it('a missed last watering brings the next one not later', () => {
    let missed = 0;
    for (const { input, plan } of seasons) {
      const last = plan.trees.map(
        (t) =>
          behind(t)
            .filter((w) => w.family !== 'pad')
            .at(-1)?.day,
      );
      const given = asPlanned(plan).filter(
        (row) => !plan.trees.some((t, k) => t.tree.id === row.tree && last[k] === row.day && row.device !== 'pad'),
      ); // prettier-ignore
      const { plan: other } = replan(input, plan, { today: TODAY, given });
      plan.trees.forEach((t, k) => {
        const [then] = ahead(t).filter((w) => w.family !== 'pad');
        if (last[k] === undefined || !then) return;
        missed++;
        expect(ahead(other.trees[k]!).find((w) => w.family !== 'pad')!.day).toBeLessThanOrEqual(then.day); // prettier-ignore
      });
    }
    expect(missed).toBeGreaterThan(80);
  });
  it('rain that fell on top of the expected one adds no watering on dry days ahead', () => {
    let fewer = 0;
    for (const { input, plan } of seasons) {
      const given = asPlanned(plan);
      const none = replan(input, plan, { today: TODAY, given, rain: [] });
      const rain = [
        { row: 2, day: TODAY - 2, mm: 30 },
        { row: 3, day: TODAY - 40, mm: 12 },
      ];
      const wet = replan(input, plan, { today: TODAY, given, rain });
      none.plan.trees.forEach((t, k) => {
        const [before, after] = [ahead(t).length, ahead(wet.plan.trees[k]!).length];
        if (after < before) fewer++;
        expect(after).toBeLessThanOrEqual(before);
      });
    }
    expect(fewer).toBeGreaterThan(0);
  });
  it('past rows never change, whatever else is told', () => {
    const input: SeasonInput = {
      trees: [tree('1'), tree('2', { site: 'Lot' }), tree('3', { planted: FROM - 20 })],
      site: site(), weather: weather(6, true), rules: STAGED, kit: [BAG, NOZZLE],
    }; // prettier-ignore
    const plan = planSeason(input);
    const given = [
      { row: 2, tree: '1', day: FROM + 3, litres: 11.5 },
      { row: 3, tree: '2', day: FROM + 9, litres: 40, device: 'nozzle' },
      { row: 4, tree: '3', day: FROM + 90, litres: 7 },
    ];
    const told: Partial<News>[] = [
      {},
      { rain: [{ row: 2, day: FROM + 5, mm: 25 }] },
      { bags: [{ row: 2, tree: '1', hours: 10 }] },
      { rules: TWICE_A_WEEK },
      { stages: [{ from: TODAY, stage: '2' }] },
      { chooseAgain: true, joint: true },
      { flows: [{ row: 2, device: 'nozzle', flow: 3 }] },
    ];
    for (const more of told) {
      const { plan: other } = replan(input, plan, { today: TODAY, given, ...more });
      const past = other.trees.map((t) => behind(t).map(({ day, litres }) => [day, litres]));
      expect(past).toEqual([[[FROM + 3, 11.5]], [[FROM + 9, 40]], [[FROM + 90, 7]]]);
      for (const t of other.trees)
        expect(t.chosen.plan.reduce((sum, w) => sum + w.litres, 0)).toBeCloseTo(t.chosen.litres, 6);
    }
  });
  it('the balance of every day closes, past and ahead, and agrees with a walk through the whole season', () => {
    for (const { input, plan } of seasons.slice(0, 6)) {
      const given = asPlanned(plan).filter((_, k) => k % 3 > 0);
      const { plan: other } = replan(input, plan, { today: TODAY, given });
      for (const t of other.trees) {
        const run = walkAgain(input, t);
        expect(run.stressDays).toBe(t.chosen.stressDays);
        expect(run.litres).toBeCloseTo(t.chosen.litres, 6);
        expect(run.waterings).toBe(t.chosen.waterings);
      }
    }
  });
  it('joint visits ahead: no more stress days, no more days with a visit, the past untouched', () => {
    let fewer = 0;
    for (const { input, plan } of seasons) {
      const given = asPlanned(plan).filter((_, k) => k % 4 > 0);
      const apart = replan(input, plan, { today: TODAY, given });
      const joint = replan(input, plan, { today: TODAY, given, joint: true });
      joint.plan.trees.forEach((t, k) => {
        const other = apart.plan.trees[k]!;
        expect(t.chosen.stressDays).toBeLessThanOrEqual(other.chosen.stressDays);
        expect(behind(t)).toEqual(behind(other));
        const run = walkAgain(input, t);
        expect(run.stressDays).toBe(t.chosen.stressDays);
      });
      for (const { site: place, joined, separate, kept } of joint.sites) {
        const timed = (device: string): boolean =>
          input.kit.find((d) => d.name === device)!.automatic;
        const days = apart.plan.trees.filter((t) => t.tree.site === place).flatMap((t) => t.chosen.plan).filter((w) => !timed(w.device)).map((w) => w.day); // prettier-ignore
        expect(separate.days).toBe(new Set(days).size);
        if (kept === 'joined' && joined!.days < separate.days) fewer++;
      }
    }
    expect(fewer).toBeGreaterThan(5);
  });
  it('every day of the season is shown once, in its order', () => {
    const { input, plan } = seasons[2]!;
    const days = new Map<string, number[]>();
    replan(input, plan, {
      today: TODAY, given: asPlanned(plan), chooseAgain: true,
      onDay: (t, i) => void days.set(t.id, [...(days.get(t.id) ?? []), i]),
    }); // prettier-ignore
    for (const t of plan.trees) {
      const seen = days.get(t.tree.id)!;
      expect(seen.at(-1)).toBe(input.site.seasonTo - FROM);
      seen.forEach((day, k) => expect(day).toBe(seen[0]! + k));
    }
  });
  it('water through another device counts by that device’s own efficiency', () => {
    const input: SeasonInput = {
      trees: [tree('1')], site: site(), weather: weather(), rules: ANY_DAY, kit: [BAG, NOZZLE],
    }; // prettier-ignore
    const plan = planSeason(input);
    const today = FROM + 6;
    const levels = ['bag', 'nozzle'].map((device) => {
      let held = 0;
      replan(input, plan, {
        today, given: [{ row: 2, tree: '1', day: FROM + 4, litres: 8, device }],
        onDay: (_, i, run) => { if (i === FROM + 4 - FROM) held = run.stores.toBall + run.stores.toRing; },
      }); // prettier-ignore
      return held;
    });
    const { bag, hand } = input.site.efficiency;
    expect(levels[0]).toBeCloseTo(8 * bag, 9);
    expect(levels[1]).toBeCloseTo(8 * hand, 9);
  });
  it('a past of several devices adds up', () => {
    const input: SeasonInput = {
      trees: [tree('1')], site: site(), weather: weather(), rules: ANY_DAY, kit: [BAG, NOZZLE],
    }; // prettier-ignore
    const given = ['bag', 'nozzle', 'bag', 'nozzle', 'nozzle'].map((device, k) => ({ row: k + 2, tree: '1', day: FROM + 4 * k + 3, litres: 8 + k, device })); // prettier-ignore
    const { plan: other } = replan(input, planSeason(input), { today: TODAY, given });
    const { plan: all, waterings, litres, visits } = other.trees[0]!.chosen;
    expect(all.slice(0, 5).map((w) => [w.day, w.litres, w.device])).toEqual(given.map((g) => [g.day, g.litres, g.device])); // prettier-ignore
    expect([waterings, visits]).toEqual([all.length, all.length]);
    expect(all.reduce((sum, w) => sum + w.litres, 0)).toBeCloseTo(litres, 9);
  });
  it('a pad takes what it can hold, and what was poured over it is on record', () => {
    const input: SeasonInput = {
      trees: [tree('1', { meansWanted: ['pad'] })], site: site(), weather: weather(), rules: ANY_DAY, kit: [PAD],
    }; // prettier-ignore
    let most = 0;
    const { plan: other } = replan(input, planSeason(input), {
      today: TODAY, given: [{ row: 2, tree: '1', day: FROM + 30, litres: 40 }],
      onDay: (_, __, run) => { most = Math.max(most, run.stores.pad); },
    }); // prettier-ignore
    const { plan: all, litres } = other.trees[0]!.chosen;
    expect(all[0]!.litres).toBe(40);
    expect(all.reduce((sum, w) => sum + w.litres, 0)).toBeCloseTo(litres, 9);
    expect(most).toBeLessThanOrEqual(PAD.volume!);
  });
  it('measured rain counts by the rule for single storms: the first tenth of an inch is lost', () => {
    const { input, plan } = seasons[0]!;
    const told = (mm: number) =>
      replan(input, plan, {
        today: TODAY,
        given: asPlanned(plan),
        rain: [{ row: 2, day: TODAY - 1, mm }],
      });
    const [none, drizzle, storm] = [0, 2.5, 30].map((mm) => told(mm).plan.trees.map((t) => t.chosen.plan)); // prettier-ignore
    expect(drizzle).toEqual(none);
    expect(storm).not.toEqual(none);
  });
  it('a tree that suffered in the past and is safe from today on is planned', () => {
    const input: SeasonInput = {
      trees: [tree('1')], site: site(), weather: weather(), rules: ANY_DAY, kit: [NOZZLE],
    }; // prettier-ignore
    const { plan: other } = replan(input, planSeason(input), { today: TODAY, given: [] });
    expect(other.trees[0]!.chosen.stressDays).toBeGreaterThan(50);
    expect(other.trees[0]).toMatchObject({ state: 'planned', advice: '' });
  });
  it('another means from today on costs its kit beside the one that was bought', () => {
    const rules = rulesOf(
      ['1', 'any', 'any', 'any', 'any', 'allow'],
      ['2', 'bag', 'any', 'any', 'any', 'ban'],
    );
    const cost = (price: number): number => {
      const input: SeasonInput = {
        trees: [tree('1', { meansWanted: ['bag', 'hand'] })], site: site(), weather: weather(5), rules,
        kit: [{ ...BAG, price, visitMinutes: 1 }, { ...NOZZLE, visitMinutes: 40 }],
      }; // prettier-ignore
      const plan = planSeason({ ...input, rules: ANY_DAY });
      expect(plan.trees[0]!.chosen.families).toEqual(['bag']);
      const { plan: other } = replan(input, plan, { today: TODAY, given: asPlanned(plan), chooseAgain: true }); // prettier-ignore
      expect(other.trees[0]!.chosen.families).toEqual(['hand']);
      return other.trees[0]!.chosen.cost;
    };
    expect(cost(50) - cost(20)).toBeCloseTo(30 / BAG.seasons, 9);
  });
  it('a tree that cannot be kept from today on is told what would help from today on', () => {
    const rules = rulesOf(
      ['1', 'any', 'any', 'any', 'any', 'allow'],
      ['2', 'any', 'any', 'Mon', 'any', 'allow'],
    );
    const input: SeasonInput = {
      trees: [tree('1', { planted: FROM })], site: site({ workDays: 'any' }), weather: weather(), rules, kit: [NOZZLE],
    }; // prettier-ignore
    const plan = planSeason(input);
    let dry = 0;
    const { plan: other } = replan(input, plan, {
      today: TODAY, given: asPlanned(plan),
      onDay: (_, i, run) => { if (i >= TODAY - FROM && run.stores.ks < 1 - 1e-9) dry++; },
    }); // prettier-ignore
    expect(other.trees[0]!.state).toBe('cannot be kept');
    expect(dry).toBeGreaterThan(0);
    expect(other.trees[0]!.chosen.stressDays).toBeGreaterThan(dry);
    expect(other.trees[0]!.advice).toMatch(
      new RegExp(`: ${dry} stress days from today on with hand watering.*With any day allowed, hand watering would leave 0 stress days`), // prettier-ignore
    );
  });
  it('a week’s share already used is not used again', () => {
    const input: SeasonInput = {
      trees: [tree('1', { planted: FROM - 20 })],
      site: site({ workDays: 'any' }), weather: weather(8), rules: TWICE_A_WEEK, kit: [NOZZLE],
    }; // prettier-ignore
    const plan = planSeason(input);
    // 5 April 2027 is a Monday: both waterings of the week are gone on Tuesday evening
    const monday = FROM + 4;
    const given = [0, 1].map((k) => ({ row: k + 2, tree: '1', day: monday + k, litres: 1 }));
    const { plan: other } = replan(input, plan, { today: monday + 2, given });
    expect(isoDate(monday)).toBe('2027-04-05');
    const next = ahead(other.trees[0]!, monday + 2)[0]!.day;
    expect(next).toBeGreaterThanOrEqual(monday + 7);
    const free = replan(input, plan, { today: monday + 2, given: [] });
    expect(ahead(free.plan.trees[0]!, monday + 2)[0]!.day).toBeLessThan(monday + 7);
  });
});

describe('readings', () => {
  const input: SeasonInput = {
    trees: [tree('1', { meansWanted: ['bag'] }), tree('2', { meansWanted: ['bag'] })],
    site: site(), weather: weather(), rules: ANY_DAY, kit: [BAG, PAD],
  }; // prettier-ignore
  const plan = planSeason(input);
  const given = asPlanned(plan);
  const as = (more: Partial<News>) => replan(input, plan, { today: TODAY, given, ...more });

  it('a bag at half its holes drains twice as long (t ∝ 1/n, Torricelli), and nothing else changes', () => {
    const { plan: other, notes } = as({ bags: [{ row: 2, tree: '1', hours: 10 }] });
    expect(notes.join(' ')).toMatch(/flush the bag: .*about 2 of 4 holes/);
    ahead(other.trees[0]!).forEach((w, k) => {
      const before = ahead(plan.trees[0]!)[k]!;
      expect({ ...w, minutes: 0 }).toEqual({ ...before, minutes: 0 });
      expect(w.minutes).toBeCloseTo(2 * before.minutes, 9);
    });
    expect(behind(other.trees[0]!).map((w) => w.minutes)).toEqual(behind(plan.trees[0]!).map((w) => w.minutes)); // prettier-ignore
    expect(ahead(other.trees[1]!)).toEqual(ahead(plan.trees[1]!));
  });
  it('a bag with a quarter left after half its rated time is sound: √¼ = ½', () => {
    expect(as({ bags: [{ row: 2, tree: '1', hours: 2.5, left: 0.25 }] }).notes.join()).toMatch(/the bag is sound: .*5 h/); // prettier-ignore
  });
  it('a bag still not empty after two days is to be replaced, and planned as a new one', () => {
    const { plan: other, notes } = as({ bags: [{ row: 2, tree: '1', hours: 60 }] });
    expect(notes.join()).toMatch(/replace the bag/);
    expect(ahead(other.trees[0]!)).toEqual(ahead(plan.trees[0]!));
  });
  it('a pad weighed full is soaked later than one weighed empty', () => {
    const padded: SeasonInput = { ...input, trees: [tree('1', { meansWanted: ['pad'] })] };
    const base = planSeason(padded);
    const next = (litres: number): number =>
      replan(padded, base, { today: TODAY, given: asPlanned(base), pads: [{ row: 2, tree: '1', litres }] })
        .plan.trees[0]!.chosen.plan.find((w) => w.day >= TODAY)!.day; // prettier-ignore
    expect(next(0.2)).toBeLessThan(next(11));
    expect(next(0.2)).toBe(TODAY);
  });
  it('a hose at half its flow runs twice as long for the same litres', () => {
    const hosed: SeasonInput = { ...input, trees: [tree('1')], kit: [HOSE] };
    const base = planSeason(hosed);
    const half = (HOSE.rate! * HOSE.length!) / 60 / 2;
    for (const name of ['1', undefined]) {
      const { plan: other } = replan(hosed, base, {
        today: TODAY, given: asPlanned(base), flows: [{ row: 2, tree: name, device: 'hose', flow: half }],
      }); // prettier-ignore
      ahead(other.trees[0]!).forEach((w, k) => {
        const before = ahead(base.trees[0]!)[k]!;
        expect(w.litres).toBeCloseTo(before.litres, 9);
        expect(w.minutes).toBeCloseTo(2 * before.minutes, 6);
      });
      expect(behind(other.trees[0]!).map((w) => w.minutes)).toEqual(behind(base.trees[0]!).map((w) => w.minutes)); // prettier-ignore
    }
  });
  it('a hose nobody wrote down was not running, unless it is taken as planned', () => {
    const hosed: SeasonInput = { ...input, trees: [tree('1')], kit: [HOSE] };
    const base = planSeason(hosed);
    const dry = replan(hosed, base, { today: TODAY, given: [] });
    expect(dry.notes.join()).toMatch(
      /1 row on a timer has no watering written down: taken as not watered/,
    );
    expect(dry.plan.trees[0]!.chosen.stressDays).toBeGreaterThan(50);
    const timed = replan(hosed, base, { today: TODAY, given: [], automaticAsPlanned: true });
    expect(ahead(timed.plan.trees[0]!)).toEqual(ahead(base.trees[0]!));
  });
});

describe('rules from today', () => {
  it('a stage that begins today closes days ahead, and no watering breaks it', () => {
    const rules = rulesOf(
      ['1', 'any', 'any', 'any', 'any', 'allow'],
      ['2', 'any', 'any', 'Wed', 'any', 'allow'],
    );
    const input: SeasonInput = {
      trees: [tree('1')], site: site({ seasonTo: FROM + 80 }),
      weather: cut(81), rules, kit: [NOZZLE],
    }; // prettier-ignore
    const plan = planSeason(input);
    const today = FROM + 30;
    const stages = [{ from: today, stage: '2' }];
    const { plan: other } = replan(input, plan, { today, given: asPlanned(plan, today), stages });
    const days = ahead(other.trees[0]!, today).map((w) => (w.day - 1) % 7);
    expect(days.length).toBeGreaterThan(3);
    expect(new Set(days)).toEqual(new Set([3]));
    expect(behind(other.trees[0]!, today).map((w) => w.day)).toEqual(behind(plan.trees[0]!, today).map((w) => w.day)); // prettier-ignore
    const unknown = replan(input, plan, {
      today,
      given: [],
      stages: [{ from: today, stage: '9' }],
    });
    expect(unknown.notes.join()).toMatch(/Stage 9 .* no row of the rules names it/);
  });
});

/** The first days of the weather. */
function cut(days: number) {
  const all = weather();
  return { ...all, et0: all.et0.slice(0, days), rain: all.rain.slice(0, days), effectiveRain: all.effectiveRain.slice(0, days) }; // prettier-ignore
}

describe('rows that cannot be used', () => {
  const input: SeasonInput = {
    trees: [tree('1', { meansWanted: ['hand'] }), tree('2'), tree('2', { row: 7 }), tree('4', { planted: FROM + 40 }), tree('5', { caliper: undefined })],
    site: site(), weather: weather(), rules: ANY_DAY, kit: KIT,
  }; // prettier-ignore
  const plan = planSeason(input);
  const row = (more: Partial<GivenRow>): GivenRow => ({ row: 2, tree: '1', day: FROM + 1, litres: 5, ...more }); // prettier-ignore
  const said = (more: Partial<News>): string[] => replan(input, plan, { today: TODAY, given: [], ...more }).problems; // prettier-ignore
  const cases: [string, Partial<News>, RegExp][] = [
    ['an unknown tree', { given: [row({ row: 5, tree: 'X' })] }, /^Waterings, row 5: there is no tree X/],
    ['a tree that is not planned', { given: [row({ tree: '5' })] }, /tree 5 is not planned: .*size/],
    ['an id that stands twice', { given: [row({ tree: '2' })] }, /tree 2 stands in rows 3 and 7; give the row/],
    ['a row that holds another tree', { given: [row({ treeRow: 7 })] }, /row 7 holds tree 2, not 1/],
    ['a day before the season', { given: [row({ day: FROM - 1 })] }, /2027-03-31 is outside the season/],
    ['a day that is no date', { given: [row({ day: NaN })] }, /NaN is no date/],
    ['a day to come', { given: [row({ day: TODAY })] }, /is not before today/],
    ['negative litres', { given: [row({ litres: -3 })] }, /-3 L is no amount of water/],
    ['a tree not planted yet', { given: [row({ tree: '4' })] }, /is planted on 2027-05-11, after 2027-04-02/],
    ['a device that is not there', { given: [row({ device: 'bucket' })] }, /bucket is not in the kit; there are bag, /],
    ['a pad the tree has not', { given: [row({ device: 'pad' })] }, /no pad in its plan/],
    ['the same watering twice', { given: [row({}), row({ row: 3, litres: 6 })] }, /^Waterings, row 3: this tree has a watering on 2027-04-02 already, in row 2/],
    ['rain before the season', { rain: [{ row: 4, day: FROM - 9, mm: 3 }] }, /^Rain, row 4: .* is not between/],
    ['negative rain', { rain: [{ row: 4, day: FROM, mm: -3 }] }, /-3 mm is no rain/],
    ['rain twice', { rain: [{ row: 4, day: FROM, mm: 3 }, { row: 5, day: FROM, mm: 3 }] }, /row 5: 2027-04-01 has rain already/],
    ['a bag the tree has not', { bags: [{ row: 2, tree: '1', hours: 5 }] }, /^Bag timings, row 2: .*has no bag/],
    ['a pad the tree has not, weighed', { pads: [{ row: 2, tree: '1', litres: 5 }] }, /has no pad/],
    ['a flow of nothing', { flows: [{ row: 2, device: 'nozzle', flow: 0 }] }, /0 L\/min is no flow/],
    ['a flow of a bag', { flows: [{ row: 2, device: 'bag', flow: 1 }] }, /time a bag, weigh a pad/],
  ]; // prettier-ignore
  it.each(cases)('%s is said with its row', (_, news, sentence) => {
    const problems = said(news);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(sentence);
    expect(problems[0]).toMatch(/The row is not used\.$/);
  });
  it('the row number tells trees of one id apart', () => {
    const { plan: other, problems } = replan(input, plan, { today: TODAY, given: [row({ tree: '2', treeRow: 7 })] }); // prettier-ignore
    expect(problems).toEqual([]);
    expect(other.trees.map((t) => behind(t).length)).toEqual([0, 0, 1, 0]);
  });
  it('a day outside the season cannot be today', () => {
    expect(() => said({ today: FROM - 1 })).toThrow(
      /today is not a day of the season, 2027-04-01 to/,
    );
  });
});
