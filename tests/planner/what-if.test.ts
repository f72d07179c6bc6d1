import { describe, expect, it } from 'vitest';
import { planSeason, type SeasonInput } from '../../src/engine/plan/season.js';
import { whatIf, type WhatIf, type WhatIfRow } from '../../src/engine/plan/what-if.js';
import { Adviser } from '../../src/engine/plan/advice.js';
import { withAnyDay, withWeekday } from '../../src/engine/plan/more-days.js';
import { allowed } from '../../src/engine/rules/rule-table.js';
import { weekday } from '../../src/engine/dates.js';
import { plannerOf } from '../../src/engine/plan/path.js';
import {
  ANY_DAY, BAG, FROM, HOSE, inventedSeason, NOZZLE, PAD, rulesOf, site, STAGED, tree, TRUCK, TWICE_A_WEEK, weather,
} from './invented-season.js'; // prettier-ignore

const SEEDS = Array.from({ length: 12 }, (_, seed) => seed);
const seasons = SEEDS.map((seed) => inventedSeason(seed));
/** The season as it is, and with one change. */
const both = (input: SeasonInput, change: WhatIf): [WhatIfRow, WhatIfRow] => {
  const [base, other] = whatIf(input, [change]);
  return [base!, other!];
};
const never = (
  change: WhatIf,
  lower: (keyof WhatIfRow)[],
  higher: (keyof WhatIfRow)[] = [],
): number => {
  let changes = 0;
  for (const input of seasons) {
    const [base, other] = both(input, change);
    for (const key of lower)
      expect(other[key], key).toBeGreaterThanOrEqual((base[key] as number) * (1 - 1e-12));
    for (const key of higher)
      expect(other[key], key).toBeLessThanOrEqual((base[key] as number) * (1 + 1e-12));
    if ([...lower, ...higher].some((key) => other[key] !== base[key])) changes++;
  }
  return changes;
};

describe('the season as it is', () => {
  it('is the plan itself, like trees counted', () => {
    for (const input of seasons) {
      const [base] = whatIf(input, []);
      const plan = planSeason(input);
      const trees = plan.trees.reduce((sum, t) => sum + t.tree.count, 0);
      expect(base!.treesKept + base!.treesNotKept).toBe(trees);
      const litres = plan.trees
        .flatMap((t) => t.chosen.plan.map((w) => w.litres * t.tree.count))
        .reduce((a, b) => a + b, 0);
      expect(base!.litres).toBeCloseTo(litres, 4);
      expect(base!.crewDaysOver).toBe(plan.crewDays.filter((d) => d.overload).length);
    }
  });
  it('every change stands by itself, in the order asked, the same on every run', () => {
    const changes: WhatIf[] = [
      { kind: 'ET0', share: 1.2 },
      { kind: 'more days', weekday: 'best' },
      { kind: 'mulch', cover: 0.5 },
    ];
    const input = seasons[1]!;
    const rows = whatIf(input, changes);
    expect(rows.map((r) => r.name)).toEqual([
      'as it is', 'ET0 × 1.2', expect.stringMatching(/^one more allowed day a week: ... \(the day that helps most\)$/), 'mulch on 50 % of the soil',
    ]); // prettier-ignore
    expect(whatIf(input, changes)).toEqual(rows);
    expect(whatIf(input, [changes[2]!])[1]).toEqual(rows[3]);
  });
});

describe('weather', () => {
  it('a hotter year never lowers litres, waterings, stress days or trees lost', () => {
    const most = never({ kind: 'ET0', share: 1.1 }, ['litres', 'waterings', 'stressDays', 'treesNotKept']); // prettier-ignore
    expect(most).toBe(SEEDS.length);
  });
  it('less rain never lowers litres, waterings or stress days', () => {
    const wet = seasons.filter((s) => s.weather.rain.some((mm) => mm > 0)).length;
    expect(wet).toBeGreaterThan(2);
    expect(never({ kind: 'rain', share: 0.5 }, ['litres', 'waterings', 'stressDays'])).toBe(wet);
  });
  it('litres of one established tree on a hose go with ET0 where nothing falls and nothing is lost', () => {
    const input: SeasonInput = {
      trees: [tree('1', { planted: FROM - 9000 })], site: site(), weather: weather(5), rules: ANY_DAY, kit: [NOZZLE],
    }; // prettier-ignore
    const [base, other] = both(input, { kind: 'ET0', share: 1.2 });
    // what is given and what is left in the soil at the end together are the demand: one store's worth of slack
    expect(other.litres / base.litres).toBeGreaterThan(1.2 * 0.93);
    expect(other.litres / base.litres).toBeLessThan(1.2 * 1.07);
  });
});

describe('more days', () => {
  const staged = seasons.map((s) => ({ ...s, rules: STAGED }));
  it('the best day is only said to help where trees are kept or stress goes; both are met', () => {
    const said = new Set<boolean>();
    for (const input of [...seasons, ...staged]) {
      const [now, best] = both(input, { kind: 'more days', weekday: 'best' });
      const helps = best.treesNotKept < now.treesNotKept || best.stressDays < now.stressDays;
      expect(best.name).toContain(helps ? 'the day that helps most' : 'no day helps the trees');
      said.add(helps);
    }
    expect(said.size).toBe(2);
  });
  it('a weekday more opens that day in the hours of the rule, and closes none', () => {
    const more = withWeekday(STAGED, 4);
    let opened = 0;
    for (let i = 0; i < 183; i++)
      for (const address of ['1 Invented Way', '2 Invented Way']) {
        const ask = (rules: typeof STAGED, minute: number): boolean =>
          allowed(rules, { day: FROM + i, minute }, { family: 'bag', address }).open;
        for (const minute of [120, 900]) {
          const [before, after] = [ask(STAGED, minute), ask(more, minute)];
          if (before) expect(after).toBe(true);
          if (after && !before) opened++;
          expect(after).toBe(before || (minute === 120 && weekday(FROM + i) === 4));
        }
      }
    expect(opened).toBe(2 * 27); // 26 weeks and a day that begin with a Thursday
  });
  it('two waterings a week become three; a ban stays', () => {
    expect(withWeekday(TWICE_A_WEEK, 1).rows.map((r) => r.days.perWeek)).toEqual([3, 3]);
    const banned = rulesOf([null, 'any', 'any', 'Mon', 'any', 'allow'], [null, 'any', 'any', 'Tue', 'any', 'ban']); // prettier-ignore
    for (const rules of [withWeekday(banned, 2), withAnyDay(banned)])
      expect(allowed(rules, { day: FROM + 5, minute: 60 }, { family: 'bag', address: '1 A' }).open).toBe(false); // prettier-ignore
    expect(weekday(FROM + 5)).toBe(2);
  });
  it('any day and the best day never raise stress days or lose trees; any day is at least as good', () => {
    let helped = 0;
    for (const input of staged) {
      const [base, best, any] = whatIf(input, [
        { kind: 'more days', weekday: 'best' },
        { kind: 'more days', weekday: 'any' },
      ]);
      expect(best!.stressDays).toBeLessThanOrEqual(base!.stressDays);
      expect(any!.stressDays).toBeLessThanOrEqual(best!.stressDays);
      expect(best!.treesNotKept).toBeLessThanOrEqual(base!.treesNotKept);
      if (best!.stressDays < base!.stressDays) helped++;
      const each = whatIf(input, [0, 1, 2, 3, 4, 5, 6].map((day) => ({ kind: 'more days', weekday: day }))).slice(1); // prettier-ignore
      expect(best!.treesNotKept).toBe(Math.min(...each.map((r) => r.treesNotKept)));
    }
    expect(helped).toBeGreaterThan(2);
  });
});

describe('means, mulch, crews, rules', () => {
  it('another means for one row changes that row alone', () => {
    const input: SeasonInput = {
      trees: [tree('1'), tree('2', { count: 3 })], site: site(), weather: weather(), rules: ANY_DAY, kit: [BAG, NOZZLE, HOSE],
    }; // prettier-ignore
    const before = planSeason(input).trees;
    const [base, other] = both(input, { kind: 'means', families: ['bag'], row: 3 });
    const alone = planSeason({ ...input, trees: [input.trees[0]!, { ...input.trees[1]!, meansWanted: ['bag'] }] }).trees; // prettier-ignore
    expect(before[1]!.chosen.families).not.toEqual(['bag']);
    expect(alone[0]!.chosen).toEqual(before[0]!.chosen);
    expect(other.litres - base.litres).toBeCloseTo(3 * (alone[1]!.chosen.litres - before[1]!.chosen.litres), 6); // prettier-ignore
    expect(other.name).toBe('bag for the tree in row 3');
  });
  it('trees that cannot have it stay as planned, and are counted', () => {
    const input: SeasonInput = {
      trees: [tree('1', { tap: false, count: 4 }), tree('2')], site: site(), weather: weather(), rules: ANY_DAY, kit: [TRUCK, HOSE],
    }; // prettier-ignore
    const [base, other] = both(input, { kind: 'means', families: ['soaker'] });
    expect(other.note).toBe('4 trees cannot have it and stay as planned.');
    expect(other.treesNotPlanned).toBe(base.treesNotPlanned);
  });
  it('mulch on half the soil holds back a quarter of the evaporation (FAO-56 ch. 10, seen)', () => {
    // with the whole demand taken as evaporation, 50 % covered is PF × 0.75
    const bare = seasons[0]!;
    const dimmed = { ...bare, trees: bare.trees.map((t) => ({ ...t, plantFactor: t.plantFactor! * 0.75 })) }; // prettier-ignore
    const [, mulch] = both(bare, { kind: 'mulch', cover: 0.5, evaporationShare: 1 });
    expect(mulch.litres).toBeCloseTo(whatIf(dimmed, [])[0]!.litres, 6);
  });
  it('mulch never raises litres, waterings or stress days, and leaves mulched trees alone', () => {
    expect(never({ kind: 'mulch', cover: 1 }, [], ['litres', 'waterings', 'stressDays'])).toBe(SEEDS.length); // prettier-ignore
    const mulched = { ...seasons[0]!, trees: seasons[0]!.trees.map((t) => ({ ...t, mulchDepth: 75 })) }; // prettier-ignore
    const [base, other] = both(mulched, { kind: 'mulch', cover: 1 });
    expect(other.litres).toBe(base.litres);
  });
  it('fewer crew hours overload more days and change nothing else; more crews overload fewer', () => {
    let more = 0;
    for (const input of seasons) {
      const [base, short, crews] = whatIf(input, [
        { kind: 'crew', hours: 3 },
        { kind: 'crew', crews: 3 },
      ]);
      expect({ ...short, name: '', note: '', crewDaysOver: 0 }).toEqual({ ...base, name: '', note: '', crewDaysOver: 0 }); // prettier-ignore
      expect(short!.crewDaysOver).toBeGreaterThanOrEqual(base!.crewDaysOver);
      expect(crews!.crewDaysOver).toBeLessThanOrEqual(base!.crewDaysOver);
      if (short!.crewDaysOver > base!.crewDaysOver) more++;
    }
    expect(more).toBeGreaterThan(2);
  });
  it('another rules table is planned under that table', () => {
    const [, other] = both(seasons[0]!, { kind: 'rules', name: 'stage 3', rules: TWICE_A_WEEK });
    expect(other).toEqual({ ...whatIf({ ...seasons[0]!, rules: TWICE_A_WEEK }, [])[0]!, name: 'stage 3' }); // prettier-ignore
  });
  const wrong: [WhatIf, RegExp][] = [
    [{ kind: 'ET0', share: 0 }, /share of ET0 must be above 0/],
    [{ kind: 'rain', share: -1 }, /share of rain must be from 0 to 3/],
    [{ kind: 'mulch', cover: 2 }, /soil covered must be from 0 to 1/],
    [{ kind: 'more days', weekday: 7 }, /from 0 \(Sunday\) to 6 is accepted/],
    [{ kind: 'means', families: [] }, /name at least one family/],
    [{ kind: 'means', families: ['bag'], row: 99 }, /no tree in row 99/],
    [{ kind: 'crew' }, /give at least one/],
    [{ kind: 'crew', crews: 1.5 }, /a whole number from 1/],
  ];
  it.each(wrong)('%o is refused in a sentence', (change, sentence) => {
    expect(() => whatIf(seasons[0]!, [change])).toThrow(sentence);
  });
});

describe('what would help a tree that cannot be kept', () => {
  const strict = rulesOf([null, 'any', 'any', 'Mon', 'any', 'allow']);
  const place = site({ workDays: 'any' });
  const case1: SeasonInput = {
    trees: [tree('1', { planted: FROM, meansWanted: ['bag'] })], site: place, weather: weather(), rules: strict,
    kit: [BAG, NOZZLE, { ...HOSE, name: 'new hose', rate: undefined }],
  }; // prettier-ignore
  const least = (input: SeasonInput): number =>
    Math.min(...planSeason(input).trees[0]!.options.filter((o) => o.feasible).map((o) => o.stressDays)); // prettier-ignore
  const advise = (input: SeasonInput) => {
    const [{ tree: own, chosen, state }] = planSeason(input).trees as [SeasonTree];
    expect(state).toBe('cannot be kept');
    const { taskOf } = plannerOf(input);
    const now = { means: chosen.label, stressDays: chosen.stressDays, cost: chosen.cost };
    return { now, ...new Adviser(input).advise(taskOf(own), now) };
  };
  type SeasonTree = ReturnType<typeof planSeason>['trees'][number];

  it('each remedy leaves the stress days of a plan made with that change', () => {
    const { remedies } = advise(case1);
    const leaves = (kind: string) => remedies.find((r) => r.kind === kind)?.stressDays;
    const [wish] = case1.trees;
    expect(leaves('any day')).toBe(least({ ...case1, rules: ANY_DAY }));
    const days = [0, 1, 2, 3, 4, 5, 6].map((day) => least({ ...case1, rules: withWeekday(strict, day) })); // prettier-ignore
    expect(leaves('one more day')).toBe(Math.min(...days));
    const free = { ...wish!, meansWanted: ['hand' as const] };
    const other = least({ ...case1, trees: [free] });
    const now = least(case1);
    expect(leaves('another means')).toBe(other < now ? other : undefined);
  });
  it('two bags leave what one bag of twice the water leaves', () => {
    const thirsty = { ...case1, trees: [tree('1', { caliper: 75, planted: FROM - 9000, meansWanted: ['bag'] })] }; // prettier-ignore
    const { remedies, now } = advise(thirsty);
    const twice = least({ ...thirsty, kit: [{ ...BAG, volume: 2 * BAG.volume! }] });
    expect(twice).toBeLessThan(now.stressDays);
    const bags = remedies.find((r) => r.kind === 'more bags')!;
    expect(bags.stressDays).toBe(twice);
    expect(bags.sentence).toMatch(/^2 joined bags, (full|part) fills, or a larger one of 114 L \(30 gal\), would leave \d+ stress days\.$/); // prettier-ignore
  });
  it('a tap in reach is tried where one is missing', () => {
    const input: SeasonInput = {
      trees: [tree('1', { planted: FROM, tap: false })], site: place, weather: weather(), rules: rulesOf(
        [null, 'tanker', 'any', 'Mon', 'any', 'allow'], [null, 'soaker', 'any', 'any', 'any', 'allow'],
      ), kit: [TRUCK, HOSE],
    }; // prettier-ignore
    const { remedies } = advise(input);
    expect(remedies.map((r) => r.sentence)).toContain('With a tap in reach, soaker hose would leave 0 stress days.'); // prettier-ignore
  });
  it('the best comes first, none is as bad as now, and what must be measured is said', () => {
    for (const input of [case1, { ...case1, trees: [tree('1', { caliper: 75, planted: FROM - 9000 })], kit: [BAG, PAD] }]) {
      const { remedies, now, text } = advise(input);
      const left = remedies.map((r) => r.stressDays);
      expect(left.length).toBeGreaterThan(0);
      expect([...left].sort((a, b) => a - b)).toEqual(left);
      for (const n of left) expect(n).toBeLessThan(now.stressDays);
      expect(text).toContain(`Cannot be met under these rules: ${now.stressDays} stress days`);
    } // prettier-ignore
    const wanting = { ...case1, trees: [tree('1', { planted: FROM })] };
    expect(advise(wanting).text).toMatch(
      /new hose was not tried: no measured output or length for it\./,
    );
  });
  it('where nothing helps it says so', () => {
    const pads = { ...case1, trees: [tree('1', { caliper: 75 })], kit: [PAD], rules: ANY_DAY };
    expect(advise(pads).text).toMatch(/a means with more water is needed\.$/);
  });
});
