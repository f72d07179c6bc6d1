/** Devices that stay in the yard: every tree is accounted for, with the reason. Invented trees. */
import { describe, expect, it } from 'vitest';
import { Calendars } from '../../src/engine/plan/calendars.js';
import { idleStock } from '../../src/engine/plan/idle-stock.js';
import type { Device } from '../../src/engine/plan/model.js';
import { planSeason } from '../../src/engine/plan/season.js';
import { parseRules } from '../../src/engine/rules/rule-table.js';
import { formats } from '../../src/taskpane/parts/format.js';
import { buildWords } from '../../src/taskpane/words/build.js';
import { ANY_DAY, BAG, HOSE, site, tree, weather } from './invented-season.js';

const TREES = [
  tree('young', { count: 3 }),
  tree('thick', { caliper: 400 }),
  tree('asked', { meansWanted: ['soaker'] }),
];

function idleWith(bags: number, tolerated = 0) {
  const kit = [
    { ...BAG, stock: bags, price: 500 },
    { ...HOSE, stock: 0, price: 1 },
  ];
  const input = { trees: TREES, site: site({ toleratedStress: tolerated }), weather: weather(), rules: ANY_DAY, kit };
  const plan = planSeason(input);
  expect(plan.trees.every(({ chosen }) => !chosen.devices.includes(BAG.name))).toBe(true);
  return { plan, idle: idleStock(plan.trees, kit, tolerated, new Calendars(input.rules, input.site)) };
} // prettier-ignore

describe('devices in stock that no tree has', () => {
  it('are named with what they would do to every tree', () => {
    const { idle, plan } = idleWith(30);
    expect(idle.map(({ device, stock }) => [device, stock])).toEqual([[BAG.name, 30]]);
    const [{ stressed, dearer, refused }] = idle as [(typeof idle)[number]];
    expect(refused).toEqual([
      { trees: 1, why: 'not possible: the row asks for soaker hose' },
      { trees: 1, why: 'not possible: the stem is too thick for bags' },
    ]);
    expect(stressed.trees + dearer).toBe(3);
    const young = plan.trees.find(({ tree: { id } }) => id === 'young')!;
    const best = Math.min(
      ...young.options.filter((o) => o.feasible && o.devices.includes(BAG.name)).map((o) => o.stressDays),
    );
    expect(dearer).toBe(best === 0 ? 3 : 0);
    // with as many days accepted as the bag leaves, it is only the cost that speaks against it
    expect(idleWith(30, best).idle[0]).toMatchObject({ dearer: 3, stressed: { trees: 0 } });
    if (best > 0) expect(stressed).toEqual({ trees: 3, least: best, most: best });
  }); // prettier-ignore

  it('are none where nothing is in stock, or what is there is used', () => {
    expect(idleWith(0).idle).toEqual([]);
    const kit = [{ ...BAG, stock: 9, price: 1 }];
    const input = { trees: [tree('young')], site: site({ toleratedStress: 365 }), weather: weather(), rules: ANY_DAY, kit }; // prettier-ignore
    const plan = planSeason(input);
    expect(plan.trees[0]!.chosen.devices).toEqual([BAG.name]);
    expect(idleStock(plan.trees, kit, 365, new Calendars(input.rules, input.site))).toEqual([]);
  });
});

const DRAINED = (hours: string, drain: string, days = 'any') =>
  parseRules([
    ['Means', 'Days', 'Hours', 'Verdict', 'Drain'],
    ['bag', days, hours, 'allow', drain],
    ['soaker', 'any', '', 'free', ''],
  ]);

describe('a bag that no day is open for', () => {
  const closedBy = (rules: ReturnType<typeof DRAINED>, ratedHours: number | null = 6.1, more = {}) => {
    const kit = [{ ...BAG, ratedHours: ratedHours ?? undefined, stock: 9, price: 1 }, { ...HOSE, stock: 0, price: 500 }];
    const own = site({ workDays: 'Mon-Fri', crewStart: 6, crewHours: 8, toleratedStress: 0, ...more });
    const input = { trees: [tree('1', { count: 3 })], site: own, weather: weather(), rules, kit: kit as Device[] };
    const plan = planSeason(input);
    const [idle] = idleStock(plan.trees, input.kit, 0, new Calendars(rules, own));
    return idle && { closed: idle.closed, others: idle.stressed.trees + idle.dearer + idle.refused.length };
  };
  const span = { start: 6 * 60, end: 10 * 60 };

  it('is idle because it cannot drain within the hours, where the rules ask that it does', () => {
    const inside = closedBy(DRAINED('00:00-10:00', 'inside'))!;
    expect(inside.closed).toEqual([{ trees: 3, why: { kind: 'drain', minutes: 6.1 * 60, span } }]);
    expect(inside.others).toBe(0);
    // how long it takes is not known: no span is surely long enough
    expect(closedBy(DRAINED('00:00-10:00', 'inside'), null)!.closed).toEqual([{ trees: 3, why: { kind: 'drain', span } }]);
  });

  it('is not, where it fits, where the crew comes early enough, or where only its filling counts', () => {
    for (const other of [
      closedBy(DRAINED('00:00-10:00', 'inside'), 3.9),
      closedBy(DRAINED('00:00-10:00', 'inside'), 6.1, { crewStart: 3 }),
      closedBy(DRAINED('00:00-10:00', 'free')),
    ])
      expect(other?.closed ?? []).toEqual([]);
  });

  it('is told from hours outside the crew’s day, days it does not work, and no day at all', () => {
    const kind = (rules: ReturnType<typeof DRAINED>) => closedBy(rules)?.closed.map(({ why }) => why);
    expect(kind(DRAINED('19:00-24:00', 'inside'))).toEqual([{ kind: 'crew' }]);
    expect(kind(DRAINED('', 'free', 'Sun'))).toEqual([{ kind: 'days' }]);
    expect(kind(DRAINED('', 'free', 'none'))).toEqual([{ kind: 'rules' }]);
  });

  it('says both numbers in both languages', () => {
    const of = (language: 'en' | 'es', takes?: number) =>
      buildWords(language).idleClosed.drain(formats(language), 3, takes, 4, '06:00', '10:00');
    expect(of('en', 6.1)).toBe('for 3 trees the rules ask that it has emptied within the open hours: it takes 6.1 hours to empty, and the longest open span on a work day, from when the crew can have come, is 4 hours, 06:00 to 10:00');
    expect(of('es', 6.1)).toContain('tarda 6.1 horas en vaciarse, y el mayor tramo abierto en un día de trabajo, desde que la cuadrilla puede haber llegado, es de 4 horas, de 06:00 a 10:00');
    expect(of('en')).toContain('how long it takes is not said under Kit');
  });
}); // prettier-ignore
