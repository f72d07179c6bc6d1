/** A season planned again from its log, and the table of what-ifs, by the command and in the workbook. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { dayOf, isoDate } from '../../src/engine/dates.js';
import type { SeasonPlan } from '../../src/engine/plan/model.js';
import { planSeason, type SeasonInput } from '../../src/engine/plan/season.js';
import { checkContract, serviceOf } from '../../src/engine/contract/contract-check.js';
import { readContract } from '../../src/tables/contract.js';
import type { Cell } from '../../src/tables/cells.js';
import { readSeasonLog } from '../../src/tables/season-log.js';
import {
  planFromTables,
  replanFromTablesBy,
  type PlanJob,
  type PlanJobInput,
  type ReplannedJob,
} from '../../src/workbook/plan-job.js';
import { readXlsxSheets } from '../../src/workbook/readers/xlsx.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { atMost, changesInWords, stagesWith } from '../../src/workbook/season-news.js';
import { SEPARATE } from '../../src/workbook/sheets/what-if.js';
import { column, differences, errors, table } from './cells.js';
import { recalculate, skipWithout } from './programs.js';
import { INVENTORY, SAMPLES, sampleInput, sampleJob, SETUP } from './job.js';
import { planCommand as command, scratchFolder } from './plan-command.js';

const LOG = join(SAMPLES, 'season-log.xlsx');
const TODAY = dayOf(2027, 7, 1);
/** [L], a US gallon of 231 cubic inches */
const GALLON = 3.785411784;

const folder = scratchFolder();
const { inside } = folder;

/** Rows of the table on a sheet whose header holds these words, as objects by header. */
async function rowsOf(path: string, sheet: string, ...words: string[]): Promise<Record<string, Cell>[]> {
  const { cells } = (await readXlsxSheets(readFileSync(path))).find((s) => s.name === sheet)!;
  const top = cells.findIndex((row) => words.every((word) => row.includes(word)));
  const header = cells[top]!.map(String);
  const rest = cells.slice(top + 1);
  const end = rest.findIndex((row) => row.every((c) => c === null || c === ''));
  return (end < 0 ? rest : rest.slice(0, end)).map((row) =>
    Object.fromEntries(header.map((name, c) => [name, row[c] ?? null])),
  );
} // prettier-ignore

const REPLAN = [INVENTORY, '--site', SETUP, '--log', LOG, '--today', isoDate(TODAY), '--timers-as-planned']; // prettier-ignore
interface Result {
  gallons: number;
  waterings: number;
  changes: ReplannedJob['changes'];
  refused: string[];
}

describe('the sample planned again from its log', () => {
  it('past rows of Plan are those of the log, and every total of Checks agrees', async () => {
    const out = inside('again.xlsx');
    const { code, out: said } = await command(...REPLAN, '--out', out, '--json');
    expect(code).toBe(1); // row 61 of the sample cannot be planned
    const result = JSON.parse(said.split('\n').find((line) => line.startsWith('{'))!) as Result;
    expect(result.refused).toEqual([]);
    const plan = await rowsOf(out, 'Plan', 'Date', 'Why this day');
    const past = plan.filter((r) => (r['Date'] as number) < TODAY);
    const crew = past.filter((r) => r['By'] === 'crew');
    const key = (...parts: unknown[]): string => parts.join('|');
    const logged = await rowsOf(LOG, 'Waterings', 'Date', 'Water (gal)');
    expect(logged.length).toBeGreaterThan(300);
    expect(crew.map((r) => key(r['Date'], r['Tree'], (r['Each (gal)'] as number).toFixed(9), r['Means'])).sort()).toEqual(
      logged.map((r) => key(r['Date'], r['Tree'], (r['Water (gal)'] as number).toFixed(9), r['Device'])).sort(),
    );
    for (const row of past) expect(row['Why this day']).toBe('As it was really given.');
    const ahead = plan.filter((r) => (r['Date'] as number) >= TODAY);
    for (const row of ahead) expect(row['Why this day']).not.toMatch(/really given/);
    expect(ahead.length).toBe(result.changes.after.waterings);
    expect(past.length).toBe(result.changes.past.waterings);
    const gallons = (rows: typeof plan): number =>
      rows.reduce((sum, r) => sum + (r['All (gal)'] as number), 0);
    expect(gallons(ahead)).toBeCloseTo(result.changes.after.litres / GALLON, 4);
    expect(Math.round(gallons(plan))).toBe(result.gallons);
    const checks = await rowsOf(out, 'Checks', 'Total', 'Look (0 or 1)');
    expect(checks.length).toBeGreaterThan(15);
    expect(checks.filter((r) => r['Look (0 or 1)'] !== 0)).toEqual([]);
    const rain = await rowsOf(out, 'Weather', 'Date', 'Counted (in)');
    const fell = rain.filter((r) => (r['Date'] as number) < TODAY && r['Rain of day (in)'] !== 0);
    expect(fell.map((r) => [r['Date'], r['Rain of day (in)']])).toEqual(
      (await rowsOf(LOG, 'Rain', 'Date', 'Rain (in)')).map((r) => [r['Date'], expect.closeTo(r['Rain (in)'] as number, 9)]),
    );
  }); // prettier-ignore
  it('says what changed, what the readings mean and what is assumed', async () => {
    const { out } = await command(...REPLAN, '--out', inside('again.xlsx'));
    expect(out).toMatch(/From 2027-07-01 on:\n {2}waterings: \d+ as first planned, now \d+\n {2}water \(gal\): [\d,]+ as first planned, now [\d,]+\n/);
    expect(out).toMatch(/Rows that got worse: \d+\n {2}row 17 \(HR-016, Lantern Steps\): 0 stress days as first planned, now \d+/);
    expect(out).toMatch(/! Bag timings, row 2: HR-001: flush the bag/);
    expect(out).toMatch(/! 25 rows on a timer have no watering written down: what was planned is taken as given/);
    // a sentence stands there once
    expect(out.match(/flush the bag/g)).toHaveLength(1);
  }); // prettier-ignore
});

const asPlanned = ({ trees }: SeasonPlan, other: (tree: string) => string = () => ''): Cell[][] => [
  ['Row', 'Date', 'Water (L)', 'Device'],
  ...trees.flatMap(({ tree, chosen }) =>
    chosen.plan
      .filter((w) => w.day < TODAY)
      .map((w): Cell[] => [tree.row, w.day, w.litres, other(tree.id) || w.device]),
  ),
];

/** An invented contract: somebody comes to each tree every week. */
const WEEKLY: Cell[][] = [
  ['Applies to', 'Least visits', 'Visits per'],
  ['all', 1, 'week'],
];

/**
 * The sample without its contract, which would ask for visits of its own, and with a crew early enough for all its work: what
 * was moved off full days is decided anew when the season is planned again.
 */
async function withoutContract(): Promise<PlanJobInput> {
  const { contract: _contract, ...rest } = await sampleInput();
  return { ...rest, site: { ...rest.site!, crewStart: 5 } };
}

describe('as a job', () => {
  let first: PlanJob;
  beforeAll(async () => {
    first = planFromTables(await withoutContract());
  });
  const again = async (cells: Cell[][], more: object = {}): Promise<ReplannedJob> =>
    replanFromTablesBy(
      await withoutContract(),
      { log: readSeasonLog([{ name: 'Waterings', cells }]), today: TODAY, ...more },
      (season) => Promise.resolve(planSeason(season)),
    );
  it('watered as planned, nothing ahead changes: same days, same litres, no row worse', async () => {
    const job = await again(asPlanned(first.plan));
    expect(job.refused).toEqual([]);
    const rows = ({ trees }: SeasonPlan): unknown[] =>
      trees.flatMap((t) => t.chosen.plan.map((w) => [t.tree.row, w.day, w.device, w.litres.toFixed(6)])); // prettier-ignore
    expect(rows(job.plan)).toEqual(rows(first.plan));
    expect(job.changes.worse).toEqual([]);
    expect(job.changes.after.waterings).toBe(job.changes.before.waterings);
    expect(job.changes.after.litres).toBeCloseTo(job.changes.before.litres, 4);
    expect(changesInWords(job.changes, 'SI')).toContain('No row got worse.');
  });
  it('a contract’s least visits are kept ahead of today, with what was really given before it', async () => {
    const input = { ...(await withoutContract()), contract: WEEKLY };
    const { clauses } = readContract(WEEKLY);
    // nothing was given in the last days before today, which lie in the week of today
    const dry = asPlanned(first.plan).filter(
      ([, day]) => typeof day !== 'number' || day < TODAY - 5,
    );
    const news = { log: readSeasonLog([{ name: 'Waterings', cells: dry }]), today: TODAY };
    const planner = (season: SeasonInput) => Promise.resolve(planSeason(season));
    const [bare, kept] = [
      await replanFromTablesBy(await withoutContract(), news, planner),
      await replanFromTablesBy(input, news, planner),
    ];
    const visitsAhead = ({ plan }: PlanJob): number => {
      const service = serviceOf(plan);
      return checkContract(service, clauses)[0]!.shortfalls.filter(({ to }) => to >= TODAY)
        .reduce((sum, { asked, found, tree }) => sum + (asked - found) * service.trees[tree]!.count, 0);
    }; // prettier-ignore
    expect(visitsAhead(bare)).toBeGreaterThan(100);
    // what is left: the soil is full, or the rules leave no day
    expect(visitsAhead(kept)).toBeLessThan(0.35 * visitsAhead(bare));
    const past = ({ plan }: PlanJob): unknown[] =>
      plan.trees.map(({ chosen }) => chosen.plan.filter((w) => w.day < TODAY).map((w) => [w.day, w.litres])); // prettier-ignore
    expect(past(kept)).toEqual(past(bare));
    kept.plan.trees.forEach(({ chosen }, t) => {
      expect(chosen.plan).toHaveLength(chosen.waterings);
      expect(chosen.stressDays).toBeLessThanOrEqual(bare.plan.trees[t]!.chosen.stressDays);
    });
    expect(kept.remarks.join()).toMatch(/\d+ rows of trees come more often than their soil asks, for the contract’s least visits/); // prettier-ignore
    expect(bare.remarks.join()).not.toMatch(/contract/);
  });
  it('a season hardly watered leaves most rows worse, the worst first, and the workbook says it is planned again', async () => {
    const none = await again([['Row', 'Date', 'Water (L)'], [2, dayOf(2027, 4, 2), 1]]); // prettier-ignore
    expect(none.changes.worse.length).toBeGreaterThan(40);
    const [worst] = none.changes.worse;
    for (const row of none.changes.worse)
      expect(worst!.stressAfter - worst!.stressBefore).toBeGreaterThanOrEqual(
        row.stressAfter - row.stressBefore,
      );
    expect(column(none.model, 'ToLookAt', 'what')).toContain(
      "Planned again from 2027-07-01 with the season's log; rows before that day are as they were really given.",
    );
    expect(none.model.title).toMatch(/from 2027-07-01 on$/);
  });
  it.skipIf(skipWithout('Gnumeric'))('another program recalculates the same numbers, What if among them', async () => {
    const log = asPlanned(first.plan).filter((_, i) => i % 7 !== 3);
    const { model } = await replanFromTablesBy(
      { ...(await sampleInput()), whatIf: true },
      { log: readSeasonLog([{ name: 'Waterings', cells: log }]), today: TODAY },
      (season) => Promise.resolve(planSeason(season)),
    );
    const values = recalculate('Gnumeric', await writeXlsx(model, { pictures: false }));
    expect(errors(values)).toEqual([]);
    expect(differences(model, values)).toEqual([]);
    expect(Object.keys(values)).toContain('What if');
  }, 60_000); // prettier-ignore
  it('rows watered through another device are said, for Balance walks one means only', async () => {
    const [one] = first.plan.trees.filter((t) => t.chosen.label.startsWith('bag'));
    const job = await again(
      asPlanned(first.plan, (id) => (id === one!.tree.id ? 'hand hose' : '')),
    );
    expect(job.refused).toEqual([]);
    expect(job.said.join('\n')).toMatch(/^1 row was watered in more than one way.*Balance walks/m);
  });
  it('choosing again may change means, and never leaves more stress ahead than keeping them', async () => {
    const log = asPlanned(first.plan);
    const kept = await again(log);
    const chosen = await again(log, { chooseAgain: true });
    expect(chosen.changes.after.stressDays).toBeLessThanOrEqual(kept.changes.after.stressDays);
    expect(chosen.plan.trees.some((t) => t.options.length > 1)).toBe(true);
  });
});

describe('what the command refuses', () => {
  const ONE =
    'Id,Species,Caliper (in),Planted,Site,Address,Tap\nA1,live oak,2,2027-02-01,Yard,12 Hawser Lane,yes\n';
  const GOOD = 'Tree,Date,Water (gal)\nA1,2027-06-30,10\n';
  const planned = (log: string, ...more: string[]) =>
    command(inside('t.csv', ONE), '--site', SETUP, '--out', inside('p.xlsx'), '--log', inside('waterings.csv', log), ...more, '--force'); // prettier-ignore
  it('answers 0 for a clean log, 1 when a row of it is refused, and prints every refused row', async () => {
    expect((await planned(GOOD, '--today', '2027-07-01')).code).toBe(0);
    const bad = `${GOOD}B7,2027-06-29,10\nA1,someday,10\nA1,2027-08-01,10\n${'A1,x,1\n'.repeat(40)}`;
    const { code, out } = await planned(bad, '--today', '2027-07-01');
    expect(code).toBe(1);
    expect(out).toMatch(/not used: Waterings, row 3: there is no tree B7\. The row is not used\./);
    expect(out).toMatch(/not used: Waterings, row 4: Date is "someday"/);
    expect(out).toMatch(/not used: Waterings, row 5: 2027-08-01 is not before today, 2027-07-01/);
    expect(out.match(/^not used: /gm)).toHaveLength(43);
    const looks = (await rowsOf(inside('p.xlsx'), 'Checks', 'What', 'How many')).map((r) => String(r['What'])); // prettier-ignore
    expect(looks.filter((what) => what.startsWith('Waterings, row'))).toHaveLength(30);
    expect(looks.join()).toMatch(/and 13 more rows of the log that were not used/);
  });
  it('answers 2 with a sentence for what it cannot read', async () => {
    const cases: [() => ReturnType<typeof command>, RegExp][] = [
      [() => planned(GOOD), /today is not a day of the season, 2027-04-01 to 2027-09-30/],
      [() => planned(GOOD, '--today', 'July'), /--today "July" is no day; write it as in 2027-07-01/],
      [() => planned('Species\noak\n', '--today', '2027-07-01', '--log', inside('none.csv')), /none\.csv" cannot be read: there is no such file/],
      [() => planned('', '--today', '2027-07-01'), /waterings\.csv" is empty/],
      [() => planned(GOOD, '--what-if'), /--what-if asks of a whole season; it does not go with --log/],
      [() => command('t.csv', '--today', '2027-07-01'), /--today goes with --log/],
      [() => command('t.csv', '--choose-again'), /--choose-again goes with --log/],
      [() => command(inside('t.csv', ONE), '--log', inside('x.csv', 'Species\noak\n'), '--today', '2027-07-01', '--out', inside('q.xlsx')), /x\.csv": no table of a season log was found; accepted are Waterings/],
      [() => planned(GOOD, '--today', '2027-07-01', '--csv', inside('waterings.csv')), /waterings\.csv" is read for this plan; name another file/],
    ]; // prettier-ignore
    for (const [asked, sentence] of cases) {
      const { code, err } = await asked();
      expect(code, err).toBe(2);
      expect(err).toMatch(sentence);
    }
  });
});

describe('the words beside', () => {
  it('a stage of the log takes the place of one of the same day and keeps the order', () => {
    const rows: Cell[][] = [['From', 'Stage', 'Note'], ['2027-04-01', 'Stage 1', 'x'], [TODAY, 'Stage 2', null]]; // prettier-ignore
    const added = [
      { row: 2, from: TODAY, stage: '3', written: 'Stage 3' },
      { row: 3, from: dayOf(2027, 5, 1), stage: '2', written: 'Stage 2' },
    ];
    expect(stagesWith(rows, added)).toEqual([
      ['From', 'Stage', 'Note'],
      ['2027-04-01', 'Stage 1', 'x'],
      ['2027-05-01', 'Stage 2', null],
      ['2027-07-01', 'Stage 3', null],
    ]);
    expect(stagesWith(rows, [])).toBe(rows);
    expect(stagesWith([], [added[0]!])).toEqual([
      ['From', 'Stage'],
      ['2027-07-01', 'Stage 3'],
    ]);
  });
  it('long lists are cut with their number', () => {
    const many = Array.from({ length: 33 }, (_, i) => `row ${i}`);
    expect(atMost(many, 'rows')).toHaveLength(31);
    expect(atMost(many, 'rows').at(-1)).toMatch(/^… and 3 more rows/);
    expect(atMost(many.slice(3), 'rows')).toEqual(many.slice(3));
  });
});

describe('what if', () => {
  let job: PlanJob;
  beforeAll(async () => {
    job = await sampleJob({ whatIf: true });
  });
  const named = (start: string) => job.whatIf!.find((row) => row.name.startsWith(start))!;
  it('the base comes first and is the sample planned from separate visits', () => {
    const [base] = job.whatIf!;
    expect(base!.name).toBe('as it is');
    const trees = job.plan.trees.reduce((sum, t) => sum + t.tree.count, 0);
    expect(base!.treesKept + base!.treesNotKept).toBe(trees);
    expect(job.whatIf!.map((r) => r.name)).toEqual([
      'as it is', expect.stringMatching(/^one more allowed day a week: ... \(no day helps the trees; this one costs least\)$/), 'bag for all trees', 'gel pad for all trees',
      'soaker hose for all trees', 'hand watering for all trees', 'tanker for all trees', 'mulch on 100 % of the soil', 'ET0 × 1.1', 'rain × 0', '7 h a day',
    ]); // prettier-ignore
  });
  it('rows go where physics sends them', () => {
    const [base] = job.whatIf!;
    expect(named('ET0').litres).toBeGreaterThan(base!.litres);
    expect(named('ET0').stressDays).toBeGreaterThanOrEqual(base!.stressDays);
    expect(named('rain').litres).toBeGreaterThan(base!.litres);
    expect(named('mulch').litres).toBeLessThan(base!.litres);
    expect(named('one more').treesNotKept).toBeLessThanOrEqual(base!.treesNotKept);
    expect(named('one more').stressDays).toBeLessThanOrEqual(base!.stressDays);
    const hours = named('7 h');
    expect(hours.crewDaysOver).toBeGreaterThanOrEqual(base!.crewDaysOver);
    expect({ ...hours, name: '', note: '', crewDaysOver: 0 }).toEqual({ ...base!, name: '', note: '', crewDaysOver: 0 }); // prettier-ignore
    // what is cheapest for every tree costs no more than one family for all
    for (const row of job.whatIf!.filter((r) => r.name.endsWith('for all trees')))
      if (row.treesNotKept === 0) expect(row.cost).toBeGreaterThanOrEqual(base!.cost);
  });
  it('the sheet holds the rows, their differences from the first, and says that visits are separate', () => {
    const [base, ...others] = job.whatIf!;
    expect(column(job.model, 'WhatIf', 'water')[0]).toBeCloseTo(base!.litres / GALLON, 6);
    const t = table(job.model, 'WhatIf');
    const more = column(job.model, 'WhatIf', 'waterMore');
    expect(more[0]).toBeNull();
    others.forEach((row, i) =>
      expect(more[i + 1]).toBeCloseTo((row.litres - base!.litres) / GALLON, 6),
    );
    const cell = t.rows[1]![t.columns.findIndex((c) => c.key === 'waterMore')] as { formula: string };
    expect(cell.formula).toBe(`$F${t.top + 2}-$F$${t.top + 1}`);
    const sheet = job.model.sheets.find((s) => s.name === 'What if')!;
    expect(JSON.stringify(sheet.blocks)).toContain(SEPARATE);
    const said = column(job.model, 'WhatIf', 'note');
    expect(said[job.whatIf!.findIndex((r) => r.name.startsWith('7 h'))]).toMatch(/^Nothing changes\./);
  }); // prettier-ignore
  it('there is no such sheet unless it is asked for; the command prints the table when it is', async () => {
    expect((await sampleJob()).model.sheets.map((s) => s.name)).not.toContain('What if');
    const out = inside('what.xlsx');
    const { out: said } = await command(INVENTORY, '--site', SETUP, '--what-if', '--out', out);
    expect(said).toMatch(/^What if +kept +not kept +stress days +gal +waterings +cost \$ +crew days over\nas it is +\d/m);
    const [base] = job.whatIf!;
    expect(said).toContain(Math.round(base!.litres / GALLON).toLocaleString('en-US'));
    expect(said).toContain(SEPARATE);
    expect((await rowsOf(out, 'What if', 'What is changed')).length).toBe(job.whatIf!.length);
    const checks = await rowsOf(out, 'Checks', 'Total', 'Look (0 or 1)');
    expect(checks.filter((r) => r['Look (0 or 1)'] !== 0)).toEqual([]);
  }); // prettier-ignore
});
