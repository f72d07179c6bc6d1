/** Means, Calendar, Materials, Estimate: they agree with the plan, with each other and with other people's programs. */
import { beforeAll, describe, expect, it } from 'vitest';
import { estimate } from '../../src/engine/money/estimate.js';
import { RULE_NAMES } from '../../src/engine/tree/rules-of-thumb.js';
import type { Cell } from '../../src/tables/cells.js';
import { readSite } from '../../src/tables/site.js';
import { dayOf } from '../../src/engine/dates.js';
import { comparisonWords } from '../../src/workbook/estimate-words.js';
import {
  letter,
  rich,
  type Sheet,
  type TableBlock,
  type WorkbookModel,
} from '../../src/workbook/model.js';
import type { PlanJob } from '../../src/workbook/plan-job.js';
import { calendarDays } from '../../src/workbook/calendar-days.js';
import { dayMark } from '../../src/workbook/sheets/calendar.js';
import { context, type Context } from '../../src/workbook/sheets/context.js';
import { estimateSheet } from '../../src/workbook/sheets/estimate.js';
import { siteSheet } from '../../src/workbook/sheets/inputs.js';
import { materialsSheet } from '../../src/workbook/sheets/materials.js';
import { calendarSheet } from '../../src/workbook/sheets/calendar.js';
import { CHOSEN, groupsShown, likeTrees, meansSheet } from '../../src/workbook/sheets/means.js';
import { planSheet } from '../../src/workbook/sheets/plan.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { cellsOf, column, differences, errors, table } from './cells.js';
import { sampleInput, sampleJob } from './job.js';
import { recalculate, skipWithout } from './programs.js';

const sum = (values: unknown[]): number =>
  values.reduce((a: number, b) => a + (typeof b === 'number' ? b : 0), 0);

/**
 * A generated look-alike of a city's inventory, invented: 240 rows, headers of another hand, metric trunks, gaps, rows
 * nobody can size, house numbers odd and even, several trees on a row.
 */
function cityInventory(): Cell[][] {
  const rows: Cell[][] = [
    ['OBJECTID', 'Genus species', 'DBH (cm)', 'Nbr trees', 'Date planted', 'Street address', 'Park', 'Tap', 'Mulch (cm)'],
  ]; // prettier-ignore
  for (let i = 0; i < 240; i++) {
    const young = i % 3 === 0;
    rows.push([
      1000 + i,
      ['Acer campestre', 'Tilia cordata', 'Quercus robur'][i % 3]!,
      i % 17 === 5 ? null : young ? 4 + (i % 5) : 10 + ((i * 7) % 35),
      i % 11 === 0 ? 4 : 1,
      young ? `2027-0${1 + (i % 3)}-15` : null,
      `${1 + i} Weir Lane`,
      `Plot ${String.fromCharCode(65 + (i % 8))}`,
      i % 4 === 0 ? 'no' : 'yes',
      i % 5 === 0 ? 5 : null,
    ]);
  }
  return rows;
}

const ODD_EVEN: Cell[][] = [
  ['Stage', 'Means', 'Address', 'Days', 'Hours', 'Verdict'],
  ['1', 'any', 'any', 'not Sun', '00:00-10:00', 'allow'],
  ['2', 'bag, hand, soaker', 'odd', 'Tue Sat', '00:00-10:00', 'allow'],
  ['2', 'bag, hand, soaker', 'even', 'Wed Fri', '00:00-10:00', 'allow'],
  ['2', 'tanker', 'any', 'not Sun', 'any', 'free'],
];
const STAGES: Cell[][] = [
  ['From', 'Stage'],
  ['2027-04-01', '1'],
  ['2027-06-14', '2'],
];

async function cityJob(units: 'US' | 'SI'): Promise<PlanJob> {
  const { site, kit, weather } = await sampleInput();
  return sampleJob({
    inventory: cityInventory(), fileName: 'city.csv', units, rules: ODD_EVEN, stages: STAGES, kit: kit!, weather: weather!,
    site: {
      ...site!, mulchDepth: 75, block1UpTo: 20, block2UpTo: 45, blanketRule: 'minnesota', margin: 0.3,
    },
  }); // prettier-ignore
}

/** The context a job's workbook was built from. */
const contextOf = (job: PlanJob): Context =>
  context({
    plan: job.plan, reading: job.reading, kit: job.setup.kit, ruleRows: job.setup.rules, stageRows: job.setup.stages,
    weatherRows: job.setup.weather, units: 'US', source: 'made', madeOn: dayOf(2027, 3, 15), title: 'made', notes: [],
  }); // prettier-ignore

let sample: PlanJob;
let city: PlanJob;
beforeAll(async () => {
  sample = await sampleJob();
  city = await cityJob('US');
});

const asModel = (sheet: Sheet): WorkbookModel => ({
  title: 't', description: 't', madeOn: 46000, paper: 'a4', sheets: [sheet], names: {},
}); // prettier-ignore

describe('totals agree', () => {
  it.each(['the sample', 'a city'])('for %s, on every row of Checks', (which) => {
    const { model, plan } = which === 'a city' ? city : sample;
    const what = column(model, 'Totals', 'what').join('\n');
    for (const words of ['Means = Trees', 'Plan = Calendar', 'Calendar = Crew + timers', 'Plan = Estimate', 'Crew hours: Calendar', 'lines = total'])
      expect(what).toContain(words);
    expect(column(model, 'Totals', 'wrong')).toEqual(column(model, 'Totals', 'wrong').map(() => 0));
    const gallons = sum(column(model, 'Trees', 'season'));
    expect(gallons).toBeGreaterThan(1000);
    expect(sum(column(model, 'Plan', 'volume'))).toBeCloseTo(gallons, 5);
    expect(sum(column(model, 'Days', 'volume'))).toBeCloseTo(gallons, 5);
    expect(sum(column(model, 'Crew', 'volume')) + sum(column(model, 'Days', 'byTimer'))).toBeCloseTo(gallons, 5);
    const at = column(model, 'Estimate', 'what').indexOf('Water');
    expect(Number(column(model, 'Estimate', 'quantity')[at]) * 1000).toBeCloseTo(gallons, 5);
    expect(sum(column(model, 'Days', 'hours'))).toBeCloseTo(sum(plan.crewDays.map((d) => d.hours)), 8);
  }); // prettier-ignore

  it('shows on Estimate what the engine sells it for', () => {
    const { lines, price } = estimate(city.plan, city.setup.kit);
    expect(column(city.model, 'Estimate', 'price')).toEqual(lines.map((l) => l.price));
    expect(lines.map((l) => l.kind)).toContain('mulch');
    const total = cellsOf(city.model.sheets.find((s) => s.name === 'Estimate')!);
    expect(total.some(({ cell }) => cell.value === price)).toBe(true);
  });

  it('fills three blocks of water in the months of most water, none above its end', () => {
    const top = [20, 25].map((m3) => (m3 * 1000) / 3.785411784);
    const blocks = [0, 1, 2].map((b) => column(city.model, 'WaterMonths', `block${b}`) as number[]);
    blocks.slice(0, 2).forEach((block, b) => {
      for (const gallons of block) expect(gallons).toBeLessThanOrEqual(top[b]! + 1e-6);
    });
    expect(Math.max(...blocks[2]!)).toBeGreaterThan(0);
    expect(sum(blocks.flat())).toBeCloseTo(sum(column(city.model, 'WaterMonths', 'volume')), 6);
  });
});

describe('odd jobs', () => {
  it('an inventory of which nothing can be planned costs nothing, and still agrees', async () => {
    const { model, plan } = await sampleJob({
      inventory: [
        ['Id', 'Species', 'Caliper (in)'],
        ['1', 'stump', null],
      ],
    });
    expect(plan.trees).toEqual([]);
    expect(column(model, 'Totals', 'wrong').every((v) => v === 0)).toBe(true);
    expect(estimate(plan, [])).toMatchObject({ lines: [], cost: 0, price: 0 });
    const words = cellsOf(model.sheets.find((s) => s.name === 'Estimate')!);
    expect(words.some(({ cell }) => /speaks of none of these trees/.test(String(cell.value)))).toBe(
      true,
    );
  });
  it('a season over the turn of the year has a grid for each of its months', async () => {
    const { site } = await sampleInput();
    const seasonFrom = dayOf(2027, 12, 20);
    const { model } = await sampleJob({
      site: { ...site!, seasonFrom, seasonTo: dayOf(2028, 2, 3) },
      weather: [
        ['Month', 'ET0 (mm/day)', 'Rain (mm)'],
        ...[12, 1, 2].map((month) => [month, 6, 0]),
      ],
    });
    const names = model.sheets.flatMap((s) => s.blocks).flatMap((b) => (b.kind === 'table' ? [b.name] : []));
    expect(names.filter((n) => n.startsWith('Month_'))).toEqual([
      'Month_2027_12', 'Month_2028_01', 'Month_2028_02',
    ]);
    expect(column(model, 'WaterMonths', 'month')).toEqual(['Dec 2027', 'Jan 2028', 'Feb 2028']);
    expect(column(model, 'Totals', 'wrong').every((v) => v === 0)).toBe(true);
  }); // prettier-ignore
  it('a second block that ends below the first is said, and taken without an end', () => {
    const { site, problems } = readSite([
      ['Water block 1, up to', 30, 'm³'],
      ['Water block 2, up to', 20, 'm³'],
    ]);
    expect(problems).toEqual([
      'Water block 2 ends at 5280 gal (20 m³), not above block 1, which ends at 7930 gal (30 m³); block 2 is taken without an end.',
    ]);
    expect(site.block2UpTo).toBe(0);
  });
});

describe('recalculated elsewhere', () => {
  for (const program of ['LibreOffice', 'Gnumeric'] as const)
    for (const units of ['US', 'SI'] as const)
      it.skipIf(skipWithout(program, 'openpyxl'))(
        `a city in ${units} units gives the engine's numbers to 1e-9 in ${program}, and no error`,
        async () => {
          const { model } = await cityJob(units);
          const values = recalculate(
            program,
            await writeXlsx(model, { uncached: true, pictures: false }),
          );
          expect(differences(model, values)).toEqual([]);
          expect(errors(values)).toEqual([]);
        },
      );
});

describe('Means', () => {
  it('marks one means for every group, the one Trees names, and counts every tree', () => {
    const { model, plan } = sample;
    const marks = column(model, 'Means', 'mark');
    const groups = column(model, 'Means', 'group') as number[];
    const chosen = marks.flatMap((m, i) => (m === CHOSEN ? [i] : []));
    expect(chosen.map((i) => groups[i])).toEqual([...new Set(groups)]);
    const counts = column(model, 'Means', 'count');
    expect(sum(chosen.map((i) => counts[i]))).toBe(sum(plan.trees.map((t) => t.tree.count)));
    const named = new Set(column(model, 'Trees', 'means').filter((m) => m !== null));
    const labels = column(model, 'Means', 'means');
    expect(new Set(chosen.map((i) => labels[i]))).toEqual(named);
  });
  it('shows the largest groups when not all fit, and says so', () => {
    const ctx = contextOf(city);
    const all = likeTrees(city.plan.trees, city.plan.site.zone);
    const size = all[0]!.first.options.length;
    const some = groupsShown(all, 3 * size);
    expect(some.length).toBeLessThanOrEqual(3);
    const least = Math.min(...some.map((g) => g.trees));
    expect(all.filter((g) => g.trees > least).every((g) => some.includes(g))).toBe(true);
    const { sheet, refs } = meansSheet(ctx, 3 * size);
    expect(refs.complete).toBe(false);
    const words = cellsOf(sheet).map(({ cell }) => String(cell.value));
    expect(words.some((w) => w.startsWith(`▲ ${some.length} of ${all.length} groups`))).toBe(true);
  });
});

describe('Calendar', () => {
  it('says of each day what the rules close, and for whom only', () => {
    const days = calendarDays(contextOf(city), (name) => contextOf(city).automatic(name));
    const on = (month: number, date: number) => days.find((d) => d.day === dayOf(2027, month, date))!;
    // 2027-05-02 is a Sunday of stage 1, 2027-07-05 a Monday and 2027-07-06 a Tuesday of stage 2
    expect([on(5, 2), on(7, 5), on(7, 6)].map((d) => d.stage)).toEqual(['1', '2', '2']);
    expect(on(5, 2)).toMatchObject({ barred: true, crewOff: true });
    expect(on(5, 3)).toMatchObject({ barred: false, closed: [], partly: [] });
    // pads have no row of their own in stage 2
    expect(on(7, 5).closed).toEqual(expect.arrayContaining(['soaker', 'hand']));
    expect(on(7, 6).partly).toEqual(expect.arrayContaining(['soaker', 'hand']));
    expect(dayMark(on(5, 2))).toBe('✕ all');
    for (const d of days) if (d.barred) expect(d.byCrew + d.byTimer).toBe(0);
  }); // prettier-ignore
  it('has room in its squares for what is not allowed, in a line of its own where anything is', async () => {
    const soaker = ['soaker', 'Mon Tue Wed Thu Fri Sat', 'ban'];
    const { model } = await sampleJob({
      stages: [],
      rules: [
        ['Means', 'Days', 'Verdict'],
        ['any', 'any', 'allow'],
        soaker,
        ['soaker, tanker', 'Sun', 'ban'],
      ],
    });
    const months = model.sheets
      .find((s) => s.name === 'Calendar')!
      .blocks.filter((b) => b.kind === 'table' && b.name.startsWith('Month_')) as TableBlock[];
    const lines = (what: string, key: string) =>
      months.flatMap((t) =>
        t.rows
          .filter(([first]) => rich(first!).value === what)
          .map((row) => rich(row[t.columns.findIndex((c) => c.key === key)]!).value),
      );
    expect(lines('rules', 'Tue')).toContain('✕ soaker');
    expect(lines('rules', 'Sun')).toContain('✕ 2 means');
    expect(lines('date', 'Tue')).toContain(27);
    for (const { columns, rows } of months)
      for (const row of rows)
        row.slice(1).forEach((square, c) => {
          const { value, style } = rich(square);
          if (typeof value === 'string') expect(value.length).toBeLessThan(columns[c + 1]!.width!);
          // a heading in a column without a style would run over its neighbours
          if (style === 'heading') expect(columns[c + 1]!.style).toBeDefined();
        });
  });
  it('has a square for every day of the season, each pointing at its own day', () => {
    const calendar = sample.model.sheets.find((s) => s.name === 'Calendar')!;
    const list = table(sample.model, 'Days');
    const seen: number[] = [];
    for (const block of calendar.blocks) {
      if (block.kind !== 'table' || !block.name.startsWith('Month_')) continue;
      const [, year, month] = block.name.split('_').map(Number);
      const whats = block.rows.map((row) => rich(row[0]!).value);
      const after = (r: number, what: unknown): number => whats.indexOf(what as string, r);
      block.rows.forEach((row, r) => {
        if (whats[r] !== 'date') return;
        row.slice(1, 8).forEach((square, c) => {
          const { value } = rich(square);
          if (value === null) return;
          const day = dayOf(year!, month!, value as number);
          seen.push(day);
          const at = list.top + 1 + day - sample.plan.site.seasonFrom;
          for (const [line, key] of [['crew h', 'hours'], ['gal', 'volume']] as const) {
            const column = letter(list.columns.findIndex((k) => k.key === key));
            expect(rich(block.rows[after(r, line)]![c + 1]!).formula).toContain(`$${column}$${at}=0`);
          }
        });
      });
    } // prettier-ignore
    const { seasonFrom, seasonTo } = sample.plan.site;
    expect(seen).toEqual(Array.from({ length: seasonTo - seasonFrom + 1 }, (_, i) => seasonFrom + i));
  }); // prettier-ignore
});

describe('the client copy', () => {
  it('has the same lines and total, and neither costs nor margin nor a formula that leads to them', () => {
    const ctx = contextOf(sample);
    const money = estimate(sample.plan, sample.setup.kit);
    const site = siteSheet(ctx).refs.value;
    const { days } = calendarSheet(ctx, planSheet(ctx).refs).refs;
    const materials = materialsSheet(ctx, money, { days, site }).refs;
    const { sheet, refs } = estimateSheet(ctx, money, { days, materials, site }, 'client');
    const cells = cellsOf(sheet);
    expect(column(asModel(sheet), 'Estimate', 'price')).toEqual(money.lines.map((l) => l.price));
    expect(refs.price).toBe(money.price);
    for (const { cell } of cells) expect(cell.formula ?? '').not.toMatch(/!(?<!Estimate!)/);
    const text = cells.map(({ cell }) => String(cell.value)).join('\n');
    expect(text).not.toMatch(/office|margin|left over/i);
    const costs = money.lines.filter((l) => l.cost > 1).map((l) => l.cost);
    for (const { cell } of cells) expect(costs).not.toContain(cell.value);
    expect(table(asModel(sheet), 'Estimate').columns.map((c) => c.key)).toEqual([
      'what',
      'quantity',
      'unit',
      'price',
    ]);
  });
});

describe('water against published rules', () => {
  it('names the rule and its publication, and says more as plainly as less', () => {
    const ctx = contextOf(sample);
    const c = { rule: 'colorado' as const, trees: 12, others: 0, low: 10_000, high: 10_000, plan: 8000 };
    const said = comparisonWords(ctx, c);
    expect(said).toMatch(/10 gal for each inch of trunk, once a week.*Colorado State Forest Service/);
    expect(said).toMatch(/528 gal less \(20 %\)/);
    expect(comparisonWords(ctx, { ...c, plan: 12_000 })).toMatch(/528 gal more\./);
    expect(comparisonWords(ctx, { ...c, high: 14_000, plan: 12_000 })).toMatch(/lies within the rule/);
    expect(comparisonWords(ctx, { ...c, trees: 0 })).toMatch(/speaks of none of these trees/);
    expect(comparisonWords(ctx, { ...c, others: 3 })).toMatch(/the other 3 trees/);
  }); // prettier-ignore
  it('stands on the sheet with every rule, the one of the site first', () => {
    expect(column(city.model, 'AgainstRules', 'rule')).toHaveLength(RULE_NAMES.length);
    expect(String(column(city.model, 'AgainstRules', 'rule')[0])).toMatch(/^1 to 1.5 gal/);
    const of = (key: string): number[] => column(city.model, 'AgainstRules', key) as number[];
    of('saved').forEach((saved, i) => {
      expect(saved).toBeCloseTo(of('low')[i]! - of('plan')[i]!, 9);
    });
  });
});
