/** Contract and Shortage on sheets: what the engine says of each clause and tree, read back as it was written. */
import { beforeAll, describe, expect, it } from 'vitest';
import { checkContract, serviceOf } from '../../src/engine/contract/contract-check.js';
import { readContract } from '../../src/tables/contract.js';
import { queryOf } from '../../src/engine/plan/calendars.js';
import { ruleCalendar } from '../../src/engine/rules/rule-calendar.js';
import { L_PER_GALLON } from '../../src/engine/units.js';
import type { PlanJob } from '../../src/workbook/plan-job.js';
import { planFromTables } from '../../src/workbook/plan-job.js';
import { readWorkbookSheets } from '../../src/workbook/readers/open.js';
import { PAPERS } from '../../src/workbook/service-papers.js';
import { setupFromSheets } from '../../src/workbook/setup.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { auditSheets } from '../../src/cli/audit.js';
import { column, table } from './cells.js';
import { sampleInput, sampleJob } from './job.js';

const SLOW = 120_000;

let job: PlanJob;
let back: Awaited<ReturnType<typeof readWorkbookSheets>>;
beforeAll(async () => {
  job = await sampleJob();
  back = await readWorkbookSheets(await writeXlsx(job.model, { pictures: false }));
}, SLOW);

const clausesOf = (made: PlanJob) => readContract(made.setup.contract!).clauses;

describe('the sheet Contract', () => {
  it('says of every clause what the engine says of the plan', () => {
    const results = checkContract(serviceOf(job.plan), clausesOf(job));
    const words = column(job.model, 'Contract', 'state');
    results.forEach(({ verdict }, i) => expect(words[i]).toContain(verdict));
    expect(new Set(results.map((r) => r.verdict)).size).toBeGreaterThan(1);
    expect(column(job.model, 'Contract', 'litres')).toEqual(results.map((r) => r.litres / L_PER_GALLON)); // prettier-ignore
    expect(column(job.model, 'Contract', 'visits')).toEqual(results.map((r) => r.visits));
  });

  it('names what the rules do not allow, beside the clause that asks for it, and that law goes first', () => {
    const fights = column(job.model, 'Contract', 'law').map(String);
    const said = fights.filter((text) => text !== '');
    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(
      /asks for 4 visits a week; stage 2 allows 3 \(hand.*The law goes first\.$/,
    );
    expect(clausesOf(job)[fights.indexOf(said[0]!)]!.visits?.count).toBe(4);
  });

  it('keeps least visits on lawful days only, and never by a means the clause does not count', async () => {
    const input = await sampleInput();
    const header = input.contract![0]!;
    const own = header.map(() => null as string | number | null);
    const put = (name: string, value: string | number): void => {
      own[header.findIndex((h) => String(h).startsWith(name))] = value;
    };
    for (const [name, value] of [['Applies to', 'site Fogbell Terrace'], ['From', 'Jul 1'], ['To', 'Aug 31'], ['Least visits', 2], ['Visits per', 'week']] as const) put(name, value); // prettier-ignore
    const plain = { ...input, visits: [], meters: [], clocks: [], bags: [], shortage: [] };
    const without = planFromTables({ ...plain, contract: [] });
    const made = planFromTables({ ...plain, contract: [header, own] });
    const [before] = checkContract(serviceOf(without.plan), clausesOf(made));
    const [after] = checkContract(serviceOf(made.plan), clausesOf(made));
    expect(before!.visits).toBeGreaterThan(0);
    expect(after!.visits).toBeLessThan(before!.visits);
    expect(made.remarks.join(' ')).toContain('for the contract’s least visits');
    const { rules } = made.season;
    const { seasonFrom, seasonTo } = made.plan.site;
    for (const { tree, chosen } of made.plan.trees.filter((t) => t.tree.site === 'Fogbell Terrace'))
      for (const { day, family } of chosen.plan) {
        const calendar = ruleCalendar(rules, queryOf(tree, family), seasonFrom, seasonTo);
        expect(calendar.open[day - calendar.from], `${tree.id}, day ${day}`).toBe(1);
      }
    put('Means', 'hand');
    const byHand = planFromTables({ ...plain, contract: [header, own] });
    expect(byHand.plan.trees.map((t) => t.chosen.waterings)).toEqual(without.plan.trees.map((t) => t.chosen.waterings)); // prettier-ignore
  }, SLOW); // prettier-ignore

  it('tells a row that cannot be read, and keeps it on the sheet', async () => {
    const input = await sampleInput();
    const contract = input.contract!.map((row) => [...row]);
    contract[2]![4] = 'fortnight';
    const made = planFromTables({ ...input, contract, visits: [], meters: [], clocks: [], bags: [], shortage: [] }); // prettier-ignore
    expect(made.notes.filter((n) => n.startsWith('Sheet Contract: row 3'))).toHaveLength(1);
    expect(column(made.model, 'Contract', 'c4')).toContain('fortnight');
    expect(column(made.model, 'Contract', 'state')).toContain('▲ not read');
  });
});

describe('papers on sheets', () => {
  it('are read back from the file as they were given', () => {
    const { setup, problems } = setupFromSheets(back);
    expect(problems).toEqual([]);
    for (const name of PAPERS) expect(setup[name], name).toBeDefined();
    const again = (made: PlanJob['setup']['contract']) => readContract(made!).clauses.map(({ row: _, ...clause }) => clause); // prettier-ignore
    expect(again(setup.contract)).toEqual(again(job.setup.contract));
    expect(setup.visits!.length).toBe(job.setup.visits!.length);
    expect(setup.meters!.length).toBe(job.setup.meters!.length);
    expect(setup.bags!.length).toBe(job.setup.bags!.length);
    expect(setup.shortage!.flat()).toContain('new first');
  });

  it('give the same workbook when it is planned again from its own sheets', async () => {
    const { setup } = setupFromSheets(back);
    const { contract, visits, meters, clocks, bags, shortage } = setup;
    const input = await sampleInput();
    const again = planFromTables({ ...input, contract, visits, meters, clocks, bags, shortage } as typeof input); // prettier-ignore
    for (const [name, key] of [['VisitLog', 'questions'], ['Meters', 'questions'], ['Contract', 'state'], ['BagRegister', 'todo'], ['Clocks', 'state'], ['Clocks', 'end'], ['Served', 'served']] as const) // prettier-ignore
      expect(column(again.model, name, key), `${name}, ${key}`).toEqual(column(job.model, name, key)); // prettier-ignore
  }, SLOW); // prettier-ignore

  it('are audited from the file with the questions the sheet shows', () => {
    const audit = auditSheets(back);
    expect(audit.problems).toEqual([]);
    const top = table(job.model, 'VisitLog').top;
    const asked = new Map<number, string[]>();
    for (const { row, kind } of audit.flags) asked.set(row, [...(asked.get(row) ?? []), `${kind}?`]); // prettier-ignore
    const shown = column(job.model, 'VisitLog', 'questions').map(String);
    shown.forEach((text, i) => expect((asked.get(top + 1 + i) ?? []).join(' ')).toBe(text));
    expect(audit.flags.length).toBeGreaterThan(5);
  });

  it('are not there where no paper was given', async () => {
    const input = await sampleInput();
    const bare = planFromTables({ ...input, contract: [], visits: [], meters: [], clocks: [], bags: [], shortage: [] }); // prettier-ignore
    const names = bare.model.sheets.map((s) => s.name);
    for (const name of ['Contract', 'Shortage', 'Log', 'Service', 'Meters', 'Clocks', 'Price views'])
      expect(names).not.toContain(name);
  }); // prettier-ignore
});

describe('half the water on the sample', () => {
  let half: PlanJob;
  let takes: number;
  beforeAll(async () => {
    takes = job.plan.trees.reduce((sum, t) => sum + t.chosen.litres * t.tree.count, 0);
    half = await sampleJob({
      shortage: [
        ['Limit', 'Value', 'Unit'],
        ['Order', 'new first', ''],
        ['Water of the season', takes / 2 / L_PER_GALLON, 'gal'],
      ],
    });
  }, SLOW);

  it('lists every row of trees, those not served first, each with its reason and what it means', () => {
    const served = column(half.model, 'Served', 'served').map(String);
    const why = column(half.model, 'Served', 'why').map(String);
    const stress = column(half.model, 'Served', 'stress') as number[];
    expect(served).toHaveLength(half.plan.trees.length);
    const out = served.filter((word) => word === '▲ not served').length;
    expect(out).toBeGreaterThan(0);
    expect(served.slice(0, out).every((word) => word === '▲ not served')).toBe(true);
    why.forEach((text, i) => expect(text !== '', `row ${i}`).toBe(i < out));
    expect(stress.slice(0, out).every((days) => days > 0)).toBe(true);
  });

  it('stays within the water there is, and serves the newly planted before anybody else', () => {
    const water = column(half.model, 'Served', 'water') as number[];
    const served = column(half.model, 'Served', 'served').map((word) => word === '✓ served');
    const sum = water.reduce((total, w, i) => total + (served[i] ? w : 0), 0);
    expect(sum).toBeLessThanOrEqual(takes / 2 / L_PER_GALLON + 1e-6);
    expect(sum).toBeGreaterThan(takes / 3 / L_PER_GALLON);
    const rank = column(half.model, 'Served', 'rank') as number[];
    expect(Math.min(...rank.filter((_, i) => !served[i]))).toBeGreaterThan(1);
  });

  it('says the order with its source, what is there, and what a little more would save', () => {
    const sheet = half.model.sheets.find((s) => s.name === 'Shortage')!;
    const text = sheet.blocks.flatMap((b) => (b.kind === 'text' ? b.lines.flat().map((c) => String(c.value)) : [])).join(' '); // prettier-ignore
    expect(text).toMatch(/The plan takes [\d,]+ gal; there are [\d,]+ gal, 50 % of it\./);
    expect(text).toContain('Order "new first"');
    expect(text).toContain('Richardson, Texas');
    expect(text).toMatch(/1,000 gal more \(water of the season\) would (serve|save)/);
    expect(text).toContain('Proven: within these limits no other choice is better by this order.');
    expect(column(half.model, 'ServedOrders', 'order')).toContain('large first');
  });

  it('refuses a limit it cannot read, in a sentence', async () => {
    const made = await sampleJob({ shortage: [['Limit', 'Value', 'Unit'], ['Water a week', 500, 'barrels']] }); // prettier-ignore
    expect(made.notes.join(' ')).toContain(
      'Sheet Shortage: row 2: Unit is "barrels"; accepted is gal, L or m³.',
    );
    expect(made.model.sheets.map((s) => s.name)).not.toContain('Shortage');
  });
});
