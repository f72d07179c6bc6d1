import { beforeAll, describe, expect, it } from 'vitest';
import { dayOf } from '../../src/engine/dates.js';
import type { TreePlan } from '../../src/engine/plan/model.js';
import { planSeason } from '../../src/engine/plan/season.js';
import type { DayRow } from '../../src/engine/plan/simulate.js';
import { Problem } from '../../src/engine/problems.js';
import { parseRules } from '../../src/engine/rules/rule-table.js';
import { L_PER_GALLON, type Units } from '../../src/engine/units.js';
import type { Cell } from '../../src/tables/cells.js';
import { readWeather } from '../../src/tables/weather.js';
import type { PlanJob } from '../../src/workbook/plan-job.js';
import { planFromTables } from '../../src/workbook/plan-job.js';
import {
  crewSeries,
  seasonSeries,
  seriesSource,
  waterLeftSeries,
} from '../../src/workbook/series.js';
import { whyMeans } from '../../src/workbook/why-means.js';
import { column } from './cells.js';
import { sampleInput, sampleJob } from './job.js';

/** Invented trees: a hose on a timer, one planted in the season, a bag that rules leave dry, a row without sizes. */
const HEADER = ['Tag', 'Species', 'Qty', 'Caliper (in)', 'Planted', 'Canopy (ft)', 'Soil', 'Site', 'Tap', 'Means wanted']; // prettier-ignore
const ROWS: Cell[][] = [
  ['S-1', 'live oak', 1, 2, '2027-02-20', '', 'loam', 'Yard', 'yes', 'soaker'],
  ['S-2', 'live oak', 4, 3, '2027-06-15', '', 'sandy loam', 'Yard', 'yes', 'soaker'],
  ['B-1', 'live oak', 2, 2, '2027-02-20', '', 'sand', 'Yard', 'yes', 'bag'],
  ['X-1', 'live oak', 1, '', '', '', 'loam', 'Yard', 'yes', ''],
];
/** Stage 3 closes everything for ten days. */
const RULES: Cell[][] = [
  ['Stage', 'Means', 'Source', 'Address', 'Days', 'Hours', 'New planting', 'Verdict', 'Note'],
  ['2', 'any', 'any', 'any', 'Mon', 'any', '', 'allow', 'invented'],
  ['3', 'any', 'any', 'any', 'any', 'any', '', 'ban', 'invented'],
];
const STAGES: Cell[][] = [
  ['From', 'Stage'],
  ['2027-05-01', '2'],
  ['2027-08-01', '3'],
  ['2027-08-11', '2'],
];

async function hardJob(units: Units, rows = ROWS): Promise<PlanJob> {
  const { site, kit, weather } = await sampleInput();
  return planFromTables({
    inventory: [HEADER, ...rows],
    fileName: 'invented.csv',
    madeOn: dayOf(2027, 3, 15),
    units,
    site: site!,
    kit: kit!,
    weather: weather!,
    rules: RULES,
    stages: STAGES,
  });
}

const UNITS = ['US', 'SI'] as const;
const LITRES: Record<Units, number> = { US: L_PER_GALLON, SI: 1 };
const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const jobs = new Map<string, PlanJob>();

beforeAll(async () => {
  for (const units of UNITS) {
    jobs.set(`sample ${units}`, await sampleJob({ units }));
    jobs.set(`hard ${units}`, await hardJob(units));
  }
});

describe.each(UNITS)('series in %s units', (units) => {
  describe.each(['sample', 'hard'] as const)('of the %s plan', (which) => {
    const job = (): PlanJob => jobs.get(`${which} ${units}`)!;
    const source = () => seriesSource(job(), units);

    it('hold the weeks of the sheet Charts, cell for cell', () => {
      const { weeks, unit } = seasonSeries(source());
      expect(unit).toBe(units === 'US' ? 'gal' : 'L');
      for (const [key, value] of [['from', 'from'], ['to', 'to'], ['demand', 'demand'], ['rain', 'rain'], ['water', 'watering']] as const)
        expect(weeks.map((w) => w[value])).toEqual(column(job().model, 'Weeks', key));
    }); // prettier-ignore

    it('add up to the plan’s water, waterings and crew hours', () => {
      const { plan } = job();
      const { weeks } = seasonSeries(source());
      const litres = sum(plan.trees.map((t) => t.chosen.litres * t.tree.count));
      expect((sum(weeks.map((w) => w.watering)) * LITRES[units]) / litres).toBeCloseTo(1, 9);
      expect(sum(weeks.map((w) => w.waterings))).toBe(
        sum(plan.trees.map((t) => t.chosen.plan.length)),
      );
      expect(sum(weeks.map((w) => w.crewHours))).toBeCloseTo(
        sum(plan.crewDays.map((d) => d.hours)),
        9,
      );
      for (const { from, to, crewHours } of weeks)
        expect(crewHours).toBeCloseTo(
          sum(plan.crewDays.filter((d) => d.day >= from && d.day <= to).map((d) => d.hours)),
          9,
        );
    });

    it('hold the crew hours of Charts and the closed days of Calendar', () => {
      const { days, limit } = crewSeries(source());
      expect(days.map((d) => d.day)).toEqual(column(job().model, 'CrewHours', 'date'));
      expect(days.map((d) => d.hours)).toEqual(column(job().model, 'CrewHours', 'hours'));
      const said = (column(job().model, 'Days', 'closed') as string[]).map((text) => text.split('; ')); // prettier-ignore
      expect(days.map((d) => d.barred)).toEqual(said.map((words) => words.includes('no watering')));
      expect(days.map((d) => d.off)).toEqual(said.map((words) => words.includes('crew off')));
      expect(limit).toBe(job().setup.site.crewHours * (job().setup.site.crews ?? 1));
    });

    it('name a stage on the day Calendar has it first', () => {
      const { stages } = seasonSeries(source());
      const [date, stage] = ['date', 'stage'].map((key) => column(job().model, 'Days', key));
      const changes = stage!.flatMap((name, i) =>
        name === (i === 0 ? '' : stage![i - 1]) ? [] : [{ day: date![i], name }],
      );
      expect(changes.length).toBeGreaterThan(0);
      expect(stages).toEqual(changes);
    });

    it('hold the first tree’s days of the sheet Balance, cell for cell', () => {
      const { row } = job().plan.trees[0]!.tree;
      const series = waterLeftSeries(source(), row);
      const cells = (key: string): unknown[] =>
        column(job().model, 'Balance', key).filter((value) => value !== '');
      for (const key of ['ball', 'ring', 'threshold'] as const)
        expect(series[key]).toEqual(cells(key));
      expect(series.stress).toEqual(cells('ks').map((ks) => (ks as number) < 0.999999999));
      expect(series.ball.map((ball, i) => ball + series.ring[i]!)).toEqual(
        (cells('left') as number[]).map((left) => expect.closeTo(left, 9) as number),
      );
    });

    it('count each tree’s stress days and water as the plan does, and never more than full', () => {
      for (const { tree, chosen } of job().plan.trees) {
        const series = waterLeftSeries(source(), tree.row);
        expect(series.stress.filter(Boolean)).toHaveLength(chosen.stressDays);
        const given = sum(series.waterings.map((w) => w.amount)) * LITRES[units];
        expect(given).toBeCloseTo(chosen.litres, 6);
        series.ball.forEach((ball, i) =>
          expect(ball + series.ring[i]!).toBeLessThanOrEqual(series.full[i]! * (1 + 1e-9)),
        );
      }
    });

    it('are plain data: a worker can hand them over', () => {
      const all = [seasonSeries(source()), crewSeries(source()), waterLeftSeries(source(), job().plan.trees[0]!.tree.row)]; // prettier-ignore
      for (const series of all) {
        expect(structuredClone(series)).toEqual(series);
        expect(JSON.parse(JSON.stringify(series))).toEqual(series);
      }
    });
  });
});

describe('one tree’s water', () => {
  it('is looked at where it hurts: the hard plan has stress, barred days and rain', () => {
    const job = jobs.get('hard US')!;
    const source = seriesSource(job, 'US');
    expect(sum(job.plan.trees.map((t) => t.chosen.stressDays))).toBeGreaterThan(0);
    const barred = (date: number): boolean[] =>
      crewSeries(source)
        .days.filter((d) => d.day === dayOf(2027, 8, date))
        .map((d) => d.barred);
    // Mondays: one of the closed stage, one after it
    expect([...barred(2), ...barred(16)]).toEqual([true, false]);
    expect(sum(seasonSeries(source).weeks.map((w) => w.rain))).toBeGreaterThan(0);
  });

  it('is the engine’s own walk of a hose on a timer, day by day', async () => {
    const job = await hardJob('SI', ROWS.slice(0, 1));
    const days: DayRow[] = [];
    planSeason({
      trees: [job.plan.trees[0]!.tree],
      site: job.setup.site,
      weather: readWeather(job.setup.weather, job.setup.site).weather,
      kit: job.setup.kit,
      rules: parseRules(job.setup.rules, job.setup.stages),
      onDay: (_, day) => days.push({ ...day }),
    });
    const series = waterLeftSeries(seriesSource(job, 'SI'), 2);
    expect(series.ball).toHaveLength(days.length);
    days.forEach((day, i) => {
      expect(series.ball[i]).toBeCloseTo(day.ball, 9);
      expect(series.ring[i]).toBeCloseTo(day.ring, 9);
      expect(series.rain[i]).toBeCloseTo(day.rainIn, 9);
    });
    expect(sum(series.rain)).toBeGreaterThan(0);
  });

  it('begins on the day a tree is planted', () => {
    const series = waterLeftSeries(seriesSource(jobs.get('hard US')!, 'US'), 3);
    expect(series.id).toBe('S-2');
    expect(series.from).toBe(dayOf(2027, 6, 15));
    expect(series.ball).toHaveLength(dayOf(2027, 9, 30) - dayOf(2027, 6, 15) + 1);
    for (const { day } of series.waterings) expect(day).toBeGreaterThanOrEqual(series.from);
  });

  it('of a row that is not planned is refused with the reason', () => {
    const source = seriesSource(jobs.get('hard US')!, 'US');
    expect(() => waterLeftSeries(source, 5)).toThrow(Problem);
    expect(() => waterLeftSeries(source, 5)).toThrow(/Row 5 is not planned: ./);
    expect(() => waterLeftSeries(source, 99)).toThrow(
      'Row 99 holds no tree of this plan; planned are 3 rows from 2 to 4',
    );
  });
});

describe('the reason for a means', () => {
  const outcome = (label: string, cost: number, stressDays: number) => ({
    label, cost, stressDays, families: [], devices: [], feasible: true, verdict: '', waterings: 12,
    litres: 100 * L_PER_GALLON, visits: 12, leastKs: 1, plan: [],
  }); // prettier-ignore
  const [bag, hose, hand] = [outcome('bag', 40, 0), outcome('hose', 55, 0), outcome('hand', 20, 9)];
  const site = { toleratedStress: 0, currency: '$' };
  const why = (options: unknown[], chosen: unknown, tolerated = 0): string =>
    whyMeans(
      { options, chosen } as TreePlan,
      { ...site, toleratedStress: tolerated } as Parameters<typeof whyMeans>[1],
      'US',
    );

  it('names the cheapest, how many keep the tree, and the price of the next', () => {
    expect(why([hand, bag, hose], bag)).toBe(
      '“bag” is the cheapest of 2 means that keep this tree without stress: $40.00 a tree, 12 waterings, 100 gal. Next is “hose”, $15.00 more.',
    );
  });
  it('says when only one keeps it, and when none does', () => {
    expect(why([hand, bag], bag)).toMatch(/^Only “bag” keeps this tree without stress: \$40\.00/);
    expect(why([hand], hand, 3)).toMatch(
      /^No means keeps this tree within 3 stress days; “hand” comes closest with 9 stress days: \$20\.00/,
    );
  });
  it('does not call a dearer means the cheapest', () => {
    expect(why([bag, hose], hose)).toContain('“bag” would cost $15.00 less for this tree alone');
  });
});
