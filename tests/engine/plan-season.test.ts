import { describe, expect, it } from 'vitest';
import { dayOf, weekday } from '../../src/engine/dates.js';
import { planSeason, type SeasonInput } from '../../src/engine/plan/season.js';
import type { Device, SeasonWeather, Tree } from '../../src/engine/plan/model.js';
import { allowed, parseRules } from '../../src/engine/rules/rule-table.js';
import { defaultSite } from '../../src/tables/site.js';
import { device } from './device.js';
import { L_PER_GALLON, MM_PER_INCH } from '../../src/engine/units.js';

const from = dayOf(2027, 4, 1);
const to = dayOf(2027, 9, 30);
const site = defaultSite({
  seasonFrom: from,
  seasonTo: to,
  texture: 'loam',
  zone: 9,
  crewHours: 8,
});
const days = to - from + 1;
const weather: SeasonWeather = {
  from,
  et0: new Float64Array(days).fill(6.5),
  rain: new Float64Array(days),
  effectiveRain: new Float64Array(days),
  peakMonth: 7,
  peakEt0: 6.5,
};
const kit: Device[] = [
  device({ name: 'bag', family: 'bag', volume: 15 * L_PER_GALLON, holes: 4, ratedHours: 5 }),
  device({ name: 'hose', family: 'soaker', rate: 8, length: 20, automatic: true, price: 60 }),
  device({ name: 'truck', family: 'tanker', volume: 2000, flow: 60 }),
];
const sapling = (id: string, more: Partial<Tree> = {}): Tree => ({
  id,
  row: Number(id) + 1,
  species: 'invented',
  count: 1,
  caliper: 2 * MM_PER_INCH,
  planted: from - 800,
  site: `Site ${Number(id) % 3}`,
  address: `${id} Invented Way`,
  ...more,
});
const rulesOf = (...rows: (string | null)[][]) =>
  parseRules(
    [['Stage', 'Means', 'Address', 'Days', 'Hours', 'Verdict'], ...rows],
    [
      ['From', 'Stage'],
      ['2027-04-01', '1'],
      ['2027-07-01', '2'],
    ],
  );
const twoStages = rulesOf(
  ['1', 'any', 'any', 'any', '00:00-10:00, 19:00-24:00', 'allow'],
  ['2', 'bag, soaker', 'odd', 'Tue Sat', '00:00-10:00', 'allow'],
  ['2', 'bag, soaker', 'even', 'Wed Sun', '00:00-10:00', 'allow'],
  ['2', 'tanker', 'any', 'any', 'any', 'free'],
);
const plan = (more: Partial<SeasonInput> = {}) =>
  planSeason({
    trees: Array.from({ length: 12 }, (_, i) => sapling(String(i + 1))),
    site,
    weather,
    rules: twoStages,
    kit,
    ...more,
  });

describe('a season under two stages', () => {
  it('reads the example rules without a problem', () => {
    expect(twoStages.problems.filter((p) => p.kind === 'broken')).toEqual([]);
  });
  it('plans no watering on a day the rules close (asked of the minute-by-minute answer)', () => {
    const onlyBags = plan({ kit: [kit[0]!] });
    let seen = 0;
    for (const { tree: t, chosen } of onlyBags.trees)
      for (const w of chosen.plan) {
        const open = Array.from({ length: 24 }, (_, h) => h * 60).some(
          (minute) =>
            allowed(
              twoStages,
              { day: w.day, minute },
              { family: w.family, address: t.address, planted: t.planted },
            ).open,
        );
        expect(open).toBe(true);
        if (w.day >= dayOf(2027, 7, 1)) {
          seen++;
          expect(Number(t.id) % 2 === 1 ? [2, 6] : [3, 0]).toContain(weekday(w.day));
        }
      }
    expect(seen).toBeGreaterThan(50);
  });
  it('sends the crew on work days only', () => {
    const p = plan({ site: { ...site, workDays: 'Tue-Fri' }, kit: [kit[2]!] });
    const worked = p.crewDays.map((d) => weekday(d.day));
    expect(worked.length).toBeGreaterThan(10);
    for (const d of worked) expect([2, 3, 4, 5]).toContain(d);
    expect(() => plan({ site: { ...site, workDays: 'Funday' } })).toThrow(/Funday/);
  });
  it('every tree is planned or listed', () => {
    const p = plan({
      trees: [
        sapling('1'),
        sapling('2', { caliper: undefined }),
        sapling('3', { planted: to + 10 }),
      ],
      notPlanned: [{ row: 9, id: 'x', reason: 'unreadable' }],
    });
    expect(p.trees.length + p.notPlanned.length).toBe(4);
    expect(p.notPlanned.map((n) => n.reason).join(' ')).toMatch(/nothing gives a size/);
    expect(p.notPlanned.map((n) => n.reason).join(' ')).toMatch(/planted after the season ends/);
  });
  it('the reason of a like row names its own row', () => {
    const p = plan({
      trees: ['4', '5'].map((id) => sapling(id, { caliper: undefined, row: Number(id) })),
    });
    expect(p.notPlanned.map((n) => n.reason.slice(0, 6))).toEqual(['row 4:', 'row 5:']);
  });
  it('gallons of the crew days are the gallons of the trees that need a crew, times their count', () => {
    const p = plan({ trees: [sapling('1', { count: 7, tap: false }), sapling('2', { count: 2 })] });
    const crew = p.crewDays.reduce((s, d) => s + d.litres, 0);
    const byHand = p.trees.flatMap((t) =>
      t.chosen.plan
        .filter((w) => !kit.find((d) => d.name === w.device)!.automatic)
        .map((w) => w.litres * t.tree.count),
    );
    expect(byHand.length).toBeGreaterThan(0);
    expect(crew).toBeCloseTo(
      byHand.reduce((a, b) => a + b, 0),
      6,
    );
  });
  it('is the same whatever the order of the rows', () => {
    const trees = Array.from({ length: 12 }, (_, i) => sapling(String(i + 1)));
    const one = plan({ trees });
    const other = plan({ trees: [...trees].reverse() });
    for (const t of one.trees)
      expect(other.trees.find((o) => o.tree.id === t.tree.id)!.chosen).toEqual(t.chosen);
  });
  it('says what would help when rules cannot keep a tree', () => {
    const strict = rulesOf(
      ['1', 'any', 'any', 'Mon', 'any', 'allow'],
      ['2', 'any', 'any', 'Mon', 'any', 'allow'],
    );
    const p = plan({ rules: strict, trees: [sapling('1', { planted: from })] });
    expect(p.trees[0]!.state).toBe('cannot be kept');
    expect(p.trees[0]!.advice).toMatch(/With any day allowed, .* would leave 0/);
  });
  it('a stricter rule never lowers stress', () => {
    const strict = rulesOf(
      ['1', 'any', 'any', 'Mon', 'any', 'allow'],
      ['2', 'any', 'any', 'none', 'any', 'allow'],
    );
    const loose = plan();
    const tight = plan({ rules: strict });
    loose.trees.forEach((t, i) =>
      expect(tight.trees[i]!.chosen.stressDays).toBeGreaterThanOrEqual(t.chosen.stressDays),
    );
  });
  it('refuses an empty kit and weather of another season in a sentence', () => {
    expect(() => plan({ kit: [] })).toThrow(/list at least one device/);
    expect(() => plan({ weather: { ...weather, et0: new Float64Array(3) } })).toThrow(
      /covers 3 days/,
    );
  });
});
