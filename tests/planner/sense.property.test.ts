/**
 * What anybody would expect of a planner, as properties over random trees, soils, seasons and rules; fixed seeds.
 * Where common sense fails, the case is kept, counted and explained: see "what common sense gets wrong".
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayOf } from '../../src/engine/dates.js';
import type {
  Device,
  MeansOutcome,
  SeasonWeather,
  Site,
  Tree,
} from '../../src/engine/plan/model.js';
import type { AllowedDays } from '../../src/engine/plan/option.js';
import { planSeason } from '../../src/engine/plan/season.js';
import { simulate } from '../../src/engine/plan/simulate.js';
import { treeSeason, type TreeSeason } from '../../src/engine/plan/tree-season.js';
import { parseRules } from '../../src/engine/rules/rule-table.js';
import { MM_PER_INCH } from '../../src/engine/units.js';
import { defaultSite } from '../../src/tables/site.js';
import { device } from '../engine/device.js';

const SEED = 20270503;
const RUNS = 1000;
const FROM = dayOf(2027, 5, 3); // a Monday
const DAYS = 120;

const MEANS = {
  hand: device({ name: 'nozzle', family: 'hand', flow: 20 }),
  hose: device({ name: 'hose', family: 'soaker', rate: 8, length: 25, automatic: true }),
  'bag part': device({ name: 'bag', family: 'bag', volume: 57, ratedHours: 5 }),
  'bag full': device({ name: 'bag', family: 'bag', volume: 57, ratedHours: 5 }),
};
type Means = keyof typeof MEANS;

interface Case {
  inches: number;
  /** days since planting at the season's start */
  age: number;
  means: Means;
  /** open weekdays, 0 Monday, and the most waterings a week */
  days: number[];
  perWeek: number;
  /** mean reference ET [mm/day] and how it swings from day to day */
  et0: number;
  swing: number;
  texture: string;
  plantFactor: number;
  /** rain that counts: day and mm */
  showers: [number, number][];
  site: Partial<Site>;
  tree: Partial<Tree>;
  device: Partial<Device>;
}

const shower = fc.tuple(fc.integer({ min: 0, max: DAYS - 1 }), fc.integer({ min: 1, max: 30 }));
const caseOf = (means: readonly Means[], limits: readonly number[]): fc.Arbitrary<Case> =>
  fc.record({
    inches: fc.integer({ min: 3, max: 32 }).map((quarters) => quarters / 4),
    age: fc.integer({ min: 0, max: 1500 }),
    means: fc.constantFrom(...means),
    days: fc.uniqueArray(fc.integer({ min: 0, max: 6 }), { minLength: 1 }),
    perWeek: fc.constantFrom(...limits),
    et0: fc.integer({ min: 4, max: 18 }).map((halves) => halves / 2),
    swing: fc.integer({ min: 0, max: 20 }),
    texture: fc.constantFrom('sand', 'loam', 'clay'),
    plantFactor: fc.constantFrom(0.3, 0.5, 0.8),
    showers: fc.array(shower, { maxLength: 10 }),
    site: fc.constant({}),
    tree: fc.constant({}),
    device: fc.constant({}),
  });

const ALL = Object.keys(MEANS) as Means[];
/** Means that refill what the tree has drawn, however much; a bag gives at most its volume. */
const REFILLING: readonly Means[] = ['hand', 'hose'];
const BAGS: readonly Means[] = ['bag part', 'bag full'];
const FREE = [Infinity];
const LIMITED = [1, 2, 3];

function run(c: Case): { outcome: MeansOutcome; season: TreeSeason } {
  const rain = new Float64Array(DAYS);
  for (const [day, mm] of c.showers) rain[day]! += mm;
  const site = defaultSite({ texture: c.texture, zone: 9, plantFactor: c.plantFactor, ...c.site });
  const weather: SeasonWeather = {
    from: FROM,
    et0: Float64Array.from(
      { length: DAYS },
      (_, i) => c.et0 * (0.8 + 0.4 * Math.sin(i * (1 + c.swing))),
    ),
    rain,
    effectiveRain: rain,
    peakMonth: 7,
    peakEt0: c.et0,
  };
  const tree: Tree = {
    id: 'T', row: 2, species: 'invented', count: 1, site: 'S', address: '1 Invented Way',
    caliper: c.inches * MM_PER_INCH, planted: FROM - c.age, ...c.tree,
  }; // prettier-ignore
  const allowed: AllowedDays = {
    open: Uint8Array.from({ length: DAYS }, (_, i) => (c.days.includes(i % 7) ? 1 : 0)),
    hours: () => 'any',
    minutes: () => 1440,
    perWeek: () => c.perWeek,
  };
  const season = treeSeason(tree, site, weather);
  const main = {
    device: { ...MEANS[c.means], ...c.device },
    joined: 1,
    fill: c.means === 'bag full' ? ('full' as const) : ('enough' as const),
    allowed,
  };
  return {
    outcome: simulate(season, { label: c.means, driveMinutes: 0, main }, site, weather),
    season,
  };
}
const outcome = (c: Case): MeansOutcome => run(c).outcome;

const always = <T>(cases: fc.Arbitrary<T>, holds: (value: T) => boolean, runs = RUNS): void => {
  fc.assert(fc.property(cases, holds), { seed: SEED, numRuns: runs });
};
/** How many of the runs break a property. */
const broken = <T>(cases: fc.Arbitrary<T>, holds: (value: T) => boolean, runs = RUNS): number =>
  fc.sample(cases, { seed: SEED, numRuns: runs }).filter((value) => !holds(value)).length;

const wetter = ([c, more]: [Case, [number, number]]): Case => ({
  ...c,
  showers: [...c.showers, more],
});
const hotter = ([c, halves]: [Case, number]): Case => ({ ...c, et0: c.et0 + halves / 2 });
const bolder = ([c, steps]: [Case, number]): Case => ({
  ...c,
  site: { depletionNew: 0.3 + 0.05 * steps, depletionEstablished: 0.5 + 0.05 * steps },
});
/** One open weekday fewer; the same case where that would be none. */
const stricter = ([c, day]: [Case, number]): Case => {
  const days = c.days.filter((d) => d !== day);
  return days.length === 0 ? c : { ...c, days };
};
const larger = ([c, steps]: [Case, number]): Case => ({
  ...c,
  device: { volume: 57 + 15 * steps },
});
const steps = fc.integer({ min: 1, max: 4 });
const weekday = fc.integer({ min: 0, max: 6 });
const anyCase = caseOf(ALL, [...FREE, ...LIMITED]);

describe('weather', () => {
  it('more rain never adds waterings', () => {
    always(fc.tuple(anyCase, shower), (p) => outcome(wetter(p)).waterings <= outcome(p[0]).waterings); // prettier-ignore
  });
  it('more rain never adds stress with a means that refills', () => {
    always(fc.tuple(caseOf(REFILLING, FREE), shower), (p) => outcome(wetter(p)).stressDays <= outcome(p[0]).stressDays); // prettier-ignore
  });
  it('more rain adds at most one refill of litres: it can put off the last watering, which then fills more', () => {
    always(fc.tuple(caseOf(REFILLING, FREE), shower), (p) => {
      const { season } = run(p[0]);
      const refill = (season.ballTaw + Math.max(...season.ringTaw)) / 0.7; // by hand, the least efficient
      return outcome(wetter(p)).litres <= outcome(p[0]).litres + refill;
    });
  });
  it('hotter never lowers the demand of any day, and never saves a watering', () => {
    always(fc.tuple(anyCase, steps), (p) => {
      const [cool, hot] = [run(p[0]), run(hotter(p))];
      return (
        hot.season.demand.every((d, i) => d >= cool.season.demand[i]!) &&
        hot.outcome.waterings >= cool.outcome.waterings
      );
    });
  });
});

describe('rules', () => {
  it('a weekday fewer never lowers stress with a means that refills', () => {
    always(fc.tuple(caseOf(REFILLING, FREE), weekday), (p) => outcome(stricter(p)).stressDays >= outcome(p[0]).stressDays); // prettier-ignore
  });
  it('a lower weekly limit never lowers stress', () => {
    always(caseOf(ALL, [2, 3]), (c) => outcome({ ...c, perWeek: c.perWeek - 1 }).stressDays >= outcome(c).stressDays); // prettier-ignore
  });
});

describe('the tree', () => {
  const balls = fc.tuple(anyCase, fc.integer({ min: 12, max: 40 }), fc.integer({ min: 1, max: 14 })); // prettier-ignore
  const withBall = (c: Case, inches: number, depth?: number): Case => ({
    ...c,
    tree: {
      ballDiameter: inches * MM_PER_INCH,
      ...(depth !== undefined && { ballDepth: depth }),
    },
  });
  it('a wider ball of a depth below the root zone’s never shortens the interval nor adds waterings', () => {
    always(balls, ([c, inches, more]) => {
      const [small, large] = [run(withBall(c, inches, 400)), run(withBall(c, inches + more, 400))];
      return (
        large.season.facts.peak.interval >= small.season.facts.peak.interval - 1e-9 &&
        large.outcome.waterings <= small.outcome.waterings
      );
    });
  });
  it('a deeper ball never shortens the interval', () => {
    always(fc.tuple(anyCase, fc.integer({ min: 200, max: 600 }), fc.integer({ min: 1, max: 200 })), ([c, depth, more]) => {
      const at = (mm: number): number => run({ ...c, tree: { ballDepth: mm } }).season.facts.peak.interval;
      return at(depth + more) >= at(depth) - 1e-9;
    }); // prettier-ignore
  });
  it('a wider ball of the depth the stock table gives never shortens it within a band of that table', () => {
    const band = (inches: number): number => (inches < 20 ? 0 : inches <= 30 ? 1 : 2);
    always(balls, ([c, inches, more]) => {
      if (band(inches) !== band(inches + more)) return true;
      const at = (d: number): number => run(withBall(c, d)).season.facts.peak.interval;
      return at(inches + more) >= at(inches) - 1e-9;
    });
  });
  it('more depletion allowed never adds waterings', () => {
    always(fc.tuple(anyCase, steps), (p) => outcome(bolder(p)).waterings <= outcome(p[0]).waterings); // prettier-ignore
  });
  it('more depletion allowed never adds stress with a means that refills', () => {
    always(fc.tuple(caseOf(REFILLING, FREE), steps), (p) => outcome(bolder(p)).stressDays <= outcome(p[0]).stressDays); // prettier-ignore
  });
});

describe('means and money', () => {
  it('a larger bag never adds waterings', () => {
    always(
      fc.tuple(caseOf(BAGS, FREE), steps),
      (p) => outcome(larger(p)).waterings <= outcome(p[0]).waterings,
    );
  });
  it('twice the price of water never raises a tree’s litres, whatever means it then gets', () => {
    const kit = [
      MEANS.hand, MEANS['bag part'], { ...MEANS.hose, price: 90, setupMinutes: 40 },
      device({ name: 'pad', family: 'pad', volume: 11, visitMinutes: 12 }),
      device({ name: 'truck', family: 'tanker', volume: 2000, flow: 60 }),
    ].map((d) => ({ ...d, stock: 1000 })); // prettier-ignore
    const changed = new Set<boolean>();
    always(fc.tuple(anyCase, fc.double({ min: 0.1, max: 60, noNaN: true }), fc.constantFrom(2, 10)), ([c, price, times]) => {
      const rules = parseRules([['Means', 'Days', 'Verdict'], ['any', c.days.map((d) => 'Mon Tue Wed Thu Fri Sat Sun'.split(' ')[d]).join(' '), 'allow']], []);
      const plan = (waterPrice: number) => {
        const site = defaultSite({
          seasonFrom: FROM, seasonTo: FROM + DAYS - 1, texture: c.texture, zone: 9, plantFactor: c.plantFactor, waterPrice,
        });
        const flat = new Float64Array(DAYS);
        const weather = { from: FROM, et0: flat.map(() => c.et0), rain: flat, effectiveRain: flat, peakMonth: 7, peakEt0: c.et0 };
        const tree = { id: 'T', row: 2, species: 'x', count: 1, site: 'S', address: '1', caliper: c.inches * MM_PER_INCH, planted: FROM - c.age };
        return planSeason({ trees: [tree], site, weather, rules, kit }).trees[0]!.chosen;
      };
      const [cheap, dear] = [plan(price), plan(times * price)];
      changed.add(dear.label !== cheap.label);
      return dear.litres <= cheap.litres + 1e-6;
    }, 150); // prettier-ignore
    expect(changed.has(true)).toBe(true); // the price does change what is chosen
  });
});

/**
 * Limits, not aims: with a better choice of days these counts fall to 0. Two causes, both of the rule "as late as
 * safe", which looks no further than the next allowed day:
 * - a bag gives at most its volume. Who waits until the usable water is nearly gone cannot fill up again, so a season
 *   that waters earlier (fewer allowed days, less depletion allowed, a smaller bag) can end with less stress;
 * - a weekly limit is spent on the first days of a week that ask for it, and the rest of the week is dry.
 * Counted in 1,000 cases each, in brackets what was measured.
 */
describe('what common sense gets wrong, and how often', () => {
  const less = (a: Case, b: Case): boolean => outcome(a).stressDays <= outcome(b).stressDays;
  it('a weekday fewer lowers stress with bags (1 of 2,000)', () => {
    expect(broken(fc.tuple(caseOf(BAGS, FREE), weekday), (p) => less(p[0], stricter(p)), 2000)).toBeLessThanOrEqual(4); // prettier-ignore
  });
  it('a weekday fewer lowers stress under a weekly limit (38)', () => {
    expect(broken(fc.tuple(caseOf(ALL, LIMITED), weekday), (p) => less(p[0], stricter(p)))).toBeLessThanOrEqual(50); // prettier-ignore
  });
  it('more depletion allowed adds stress with bags (9)', () => {
    expect(broken(fc.tuple(caseOf(BAGS, FREE), steps), (p) => less(bolder(p), p[0]))).toBeLessThanOrEqual(15); // prettier-ignore
  });
  it('more rain adds stress with bags (16)', () => {
    expect(broken(fc.tuple(caseOf(BAGS, FREE), shower), (p) => less(wetter(p), p[0]))).toBeLessThanOrEqual(25); // prettier-ignore
  });
  it('a larger bag adds stress (4)', () => {
    expect(broken(fc.tuple(caseOf(BAGS, FREE), steps), (p) => less(larger(p), p[0]))).toBeLessThanOrEqual(10); // prettier-ignore
  });
  it('the smallest of them: of three weekdays with two waterings a week, dropping one saves a day of stress', () => {
    // Monday and Tuesday use up the week, Thursday is closed for it; without Tuesday the two are spread.
    const c: Case = {
      inches: 0.75, age: 0, means: 'hand', days: [0, 1, 3], perWeek: 2, et0: 3, swing: 0, texture: 'sand',
      plantFactor: 0.3, showers: [], site: {}, tree: {}, device: {},
    }; // prettier-ignore
    const [three, two] = [outcome(c).stressDays, outcome(stricter([c, 1])).stressDays];
    expect(two).toBe(0);
    expect(three).toBeLessThanOrEqual(1); // 1 now, 0 when mended
  });
  it('a ball just wider than 30 in is shallower by the stock table, and holds up to a tenth less', () => {
    // Depth 66 % of the diameter up to 30 in, 60 % above (UF/IFAS after ANSI Z60.1, seen, domain.md 3.3): 30 in is
    // 19.8 in deep, 31 in 18.6 in. The step is the source's; a measured depth on the row avoids it.
    const c = fc.sample(caseOf(['hand'], FREE), { seed: SEED, numRuns: 1 })[0]!;
    const interval = (inches: number): number =>
      run({ ...c, age: 0, inches: 2, tree: { ballDiameter: inches * MM_PER_INCH } }).season.facts.peak.interval; // prettier-ignore
    expect(interval(30.1) / interval(30)).toBeGreaterThan(0.9);
    expect(interval(30.1)).toBeLessThan(interval(30));
    expect(interval(32.5)).toBeGreaterThan(interval(30));
  });
});
