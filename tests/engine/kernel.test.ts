import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayOf, weekday } from '../../src/engine/dates.js';
import { SeasonRun } from '../../src/engine/plan/kernel.js';
import { conditionsOf, meansNumbers } from '../../src/engine/plan/means-numbers.js';
import type { Device, SeasonWeather, Tree } from '../../src/engine/plan/model.js';
import type { AllowedDays, Option } from '../../src/engine/plan/option.js';
import { simulate, type DayRow } from '../../src/engine/plan/simulate.js';
import { treeSeason } from '../../src/engine/plan/tree-season.js';
import { L_PER_GALLON, MM_PER_INCH } from '../../src/engine/units.js';
import { defaultSite } from '../../src/tables/site.js';
import { device } from './device.js';
import { referenceSeason } from './reference-season.js';

const FROM = dayOf(2027, 4, 1);
const DAYS = 120;
const site = defaultSite({ texture: 'loam', zone: 8 });
const tree = (more: Partial<Tree> = {}): Tree => ({
  id: 'T',
  row: 2,
  species: 'invented',
  count: 1,
  caliper: 2 * MM_PER_INCH,
  planted: FROM - 100,
  site: 'S',
  address: '1 Invented Way',
  ...more,
});
const weather = (et0: (i: number) => number, rain: (i: number) => number): SeasonWeather => ({
  from: FROM,
  et0: Float64Array.from({ length: DAYS }, (_, i) => et0(i)),
  rain: new Float64Array(DAYS),
  effectiveRain: Float64Array.from({ length: DAYS }, (_, i) => rain(i)),
  peakMonth: 7,
  peakEt0: 7,
});
const dry = weather(
  () => 6,
  () => 0,
);
const calendar = (open: (i: number) => boolean, minutes = 1440, perWeek = 7): AllowedDays => ({
  open: Uint8Array.from({ length: DAYS }, (_, i) => (open(i) ? 1 : 0)),
  hours: (i) => `hours of ${i}`,
  minutes: () => minutes,
  perWeek: () => perWeek,
});
const ANY = calendar(() => true);
const bag = device({ name: 'bag', family: 'bag', volume: 57, holes: 4, ratedHours: 5 });
const hose = device({ name: 'hose', family: 'soaker', rate: 6, length: 15, automatic: true });
const nozzle = device({ name: 'nozzle', family: 'hand', flow: 20 });
const truck = device({ name: 'truck', family: 'tanker', flow: 60, volume: 2000 });
const pad = device({ name: 'pad', family: 'pad', volume: 3 * L_PER_GALLON });
const option = (main: Device | undefined, more: Partial<Option> = {}): Option => ({
  label: 'x',
  driveMinutes: 3,
  ...(main ? { main: { device: main, joined: 1, fill: 'enough', allowed: ANY } } : {}),
  ...more,
});

/** Equal to 1e-12 of the value, words and whole numbers exactly. */
function same(got: unknown, wanted: unknown, where: string): void {
  if (typeof wanted === 'number' && typeof got === 'number') {
    if (!(Math.abs(got - wanted) <= 1e-12 * Math.max(1, Math.abs(wanted))))
      expect(got, where).toBe(wanted);
  } else if (typeof wanted === 'object' && wanted !== null) {
    expect(Object.keys(got as object).sort(), where).toEqual(Object.keys(wanted).sort());
    for (const [key, value] of Object.entries(wanted))
      same((got as Record<string, unknown>)[key], value, `${where}.${key}`);
  } else expect(got, where).toBe(wanted);
}

it('gives the days, sums, waterings and words of the plain season: 1,500 random ones', () => {
  let waterings = 0;
  let soaks = 0;
  fc.assert(
    fc.property(
      fc.record({
        caliper: fc.double({ min: 0.5, max: 12, noNaN: true }),
        age: fc.integer({ min: -1500, max: DAYS - 5 }),
        main: fc.constantFrom(undefined, bag, hose, { ...hose, automatic: false }, nozzle, truck),
        padded: fc.boolean(),
        full: fc.boolean(),
        byTruck: fc.boolean(),
        joined: fc.constantFrom(1, 2),
        open: fc.uniqueArray(fc.integer({ min: 0, max: 6 })),
        padOpen: fc.uniqueArray(fc.integer({ min: 0, max: 6 })),
        perWeek: fc.constantFrom(1, 2, 7, Infinity),
        minutes: fc.constantFrom(3, 60, 1440),
        et0: fc.array(fc.double({ min: 0, max: 11, noNaN: true }), { minLength: 9, maxLength: 9 }),
        rain: fc.array(fc.oneof(fc.constant(0), fc.double({ min: 0, max: 40, noNaN: true })), {
          minLength: 11,
          maxLength: 11,
        }),
        overflow: fc.constantFrom(0, 0.5, 1),
        joining: fc.constantFrom(0, 0.5, 1),
      }),
      (r) => {
        fc.pre(r.main !== undefined || r.padded);
        const place = { ...site, overflowToRing: r.overflow, joiningShare: r.joining };
        const w = weather(
          (i) => r.et0[i % 9]!,
          (i) => r.rain[i % 11]!,
        );
        const days = calendar((i) => r.open.includes(i % 7), r.minutes, r.perWeek);
        const padDays = calendar((i) => r.padOpen.includes(i % 7));
        const way: Option = {
          label: 'x',
          driveMinutes: 4,
          ...(r.main && {
            main: {
              device: r.main,
              joined: r.joined,
              fill: r.full && r.main === bag ? 'full' : 'enough',
              allowed: days,
            },
          }),
          ...(r.padded && { pad: { device: pad, allowed: padDays } }),
          ...(r.byTruck && r.main === bag && { truck }),
        };
        const season = treeSeason(
          tree({ caliper: r.caliper * MM_PER_INCH, planted: FROM + r.age }),
          place,
          w,
        );
        const [rows, plainRows]: DayRow[][] = [[], []];
        const got = simulate(season, way, place, w, (row) => rows!.push(row));
        const plain = referenceSeason(season, way, place, w, (row) => plainRows!.push(row));
        same(got, plain, 'outcome');
        same(rows, plainRows, 'days');
        waterings += got.waterings;
        soaks += got.plan.length - got.waterings;
      },
    ),
    { numRuns: 1500 },
  );
  expect(waterings).toBeGreaterThan(5000);
  expect(soaks).toBeGreaterThan(500);
});

describe('driven a day at a time', () => {
  const season = treeSeason(tree(), site, dry);
  const place = conditionsOf(site, dry);
  const runOf = (way: Option) => new SeasonRun(season, meansNumbers(way, site, season), place);

  it('watering when due is the season itself', () => {
    const run = runOf(option(nozzle));
    for (let i = 0; i < DAYS; i++) run.step(i, run.isDue(i));
    expect(run.outcome()).toEqual(runOf(option(nozzle)).finish());
  });
  it('asking twice changes nothing, and the share used grows to where it is due', () => {
    const run = runOf(option(nozzle));
    const shares: number[] = [];
    for (let i = 0; i < DAYS; i++) {
      shares.push(run.usedShare(i));
      expect(run.usedShare(i)).toBe(shares[i]);
      const due = run.isDue(i);
      if (!due) expect(shares[i]).toBeLessThanOrEqual(1);
      run.step(i, due);
    }
    expect(shares[0]).toBe(0);
    expect(Math.max(...shares)).toBeGreaterThan(0.3);
    expect(run.outcome()).toEqual(runOf(option(nozzle)).finish());
  });
  it('a top-up before it is due is taken, and a closed day is not used', () => {
    const mondays = option(nozzle);
    mondays.main!.allowed = calendar((i) => weekday(FROM + i) === 1);
    const run = runOf(mondays);
    const watered: number[] = [];
    for (let i = 0; i < DAYS; i++) {
      const before = run.waterings;
      run.step(i, true);
      if (run.waterings > before) watered.push(FROM + i);
    }
    expect(watered.length).toBeGreaterThan(10);
    for (const day of watered) expect(weekday(day)).toBe(1);
  });
});

describe('a season under way', () => {
  const way = option(bag, { pad: { device: pad, allowed: ANY } });
  const season = treeSeason(tree(), site, dry);
  const plan = (replay?: Parameters<typeof simulate>[5], days?: DayRow[]) =>
    simulate(season, way, site, dry, (row) => days?.push(row), replay);
  const column = (soaks: boolean, from: { day: number; litres: number; family: string }[]) => {
    const litres = new Float64Array(DAYS);
    for (const w of from) if ((w.family === 'pad') === soaks) litres[w.day - FROM] = w.litres;
    return litres;
  };

  it('replayed as planned it ends as planned, sums and days alike', () => {
    const [days, again]: DayRow[][] = [[], []];
    const first = plan(undefined, days);
    const given = column(false, first.plan);
    const padGiven = column(true, first.plan);
    const replayed = plan({ today: 60, given, padGiven }, again);
    const { plan: rows, ...sums } = replayed;
    const { plan: planned, ...wanted } = first;
    same(sums, wanted, 'sums');
    same(again, days, 'days');
    expect(rows.map((w) => w.day)).toEqual(planned.map((w) => w.day));
    expect(rows.filter((w) => w.day < FROM + 60).every((w) => /really given/.test(w.why))).toBe(
      true,
    );
    expect(rows.filter((w) => w.day >= FROM + 60)).toEqual(
      planned.filter((w) => w.day >= FROM + 60),
    );
  });
  it('nothing given in the past: no watering there, stress, and a first one today', () => {
    const missed = plan({ today: 40 });
    expect(missed.plan[0]!.day).toBe(FROM + 40);
    expect(missed.stressDays).toBeGreaterThan(10);
  });
  it('begins with the stores that were found', () => {
    const days: DayRow[] = [];
    plan(undefined, days);
    const { ball, ring, pad: held } = days[49]!;
    const rest: DayRow[] = [];
    // the morning of a day is the evening before, roots reaching further first
    const morning = ring + days[50]!.joined;
    plan({ from: 50, start: { ball, ring: morning, pad: held } }, rest);
    expect(rest).toHaveLength(DAYS - 50);
    rest.forEach((row, i) => same({ ...row, joined: 0 }, { ...days[50 + i]!, joined: 0 }, `${i}`));
  });
  it('a forced day is watered if the tree takes any', () => {
    const force = new Uint8Array(DAYS);
    force[0] = 1; // full stores: nothing to give
    force[2] = 1;
    const forced = plan({ force });
    expect(forced.plan.filter((w) => w.family === 'bag')[0]!.day).toBe(FROM + 2);
  });
});
