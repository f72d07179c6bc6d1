/**
 * What the plan room says of a contract, of a shortage and of a log, over an invented street. Counts of the engine are worked
 * out again here from the plan's own waterings. Common practice, no source.
 */
import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { dayFromIso, isoDate } from '../../src/engine/dates.js';
import { Problem } from '../../src/engine/problems.js';
import { L_PER_GALLON } from '../../src/engine/units.js';
import type { Cell, Grid } from '../../src/tables/cells.js';
import { readInventory } from '../../src/tables/inventory/index.js';
import { contractModel } from '../../src/taskpane/corners/contract-sheets.js';
import { tablesOf, type TableBlock } from '../../src/workbook/model.js';
import type { ContractReport, LogAsk, ShortageWish } from '../../src/workers/contract-types.js';
import type { Draft, PlanRoom } from '../../src/workers/plan-room.js';
import { roomAnswers } from '../../src/workers/room-answers.js';
import { roomHere } from '../../src/workers/room-here.js';
import { roomLine } from '../../src/workers/room-line.js';
import type { FromRoom } from '../../src/workers/room-messages.js';
import { INVENTORY } from '../workbook/job.js';

const never = (): never => {
  throw new Error('this test asks for no file');
};
const parts = { fonts: async () => never(), rasterise: async () => never() };
const DRAFT: Draft = { units: 'US', crewLanguage: 'en', corrections: {}, site: {}, starter: '' };
const RULES: Cell[][] = [['Days', 'Verdict'], ['2 per week', 'allow']]; // prettier-ignore
const HEADER = ['Applies to', 'From', 'To', 'Least water (gal)', 'Water per', 'Least visits', 'Visits per', 'Means', 'Source']; // prettier-ignore

/** A room whose messages are copied as a worker's are. */
function throughLine(): PlanRoom {
  const start = () => {
    let told: (message: FromRoom) => void = () => undefined;
    const answer = roomAnswers({ fonts: parts.fonts }, (message) => {
      const sent = structuredClone(message);
      setTimeout(() => told(sent), 0);
    });
    return {
      post: (message: Parameters<typeof answer>[0]) => answer(structuredClone(message)),
      listen: (onMessage: typeof told) => void (told = onMessage),
      end: () => undefined,
    };
  };
  return roomLine({ rasterise: parts.rasterise, start });
}

let room: PlanRoom;
let line: PlanRoom;
let trees: Grid;
/** rows of the plan */
let planned: number[];

beforeAll(async () => {
  room = roomHere(parts);
  line = throughLine();
  const { sheets, front } = await room.open('street.csv', readFileSync(INVENTORY));
  trees = sheets[front]!;
  const draft: Draft = { ...DRAFT, rules: RULES };
  const ask = { trees, source: 'street', sheets: [], draft, today: '2027-03-15' };
  const [{ picks }] = await Promise.all([room.plan(ask), line.plan(ask)]);
  planned = picks.map(({ row }) => row);
}, 60_000);

const contract = (rows: Cell[][], more: object = {}, on = room): Promise<ContractReport> =>
  on.contract({ cells: [HEADER, ...rows], units: 'US', judge: true, ...more });

describe('a contract', () => {
  const THREE: Cell[] = ['all', 'Jun 1', 'Aug 31', 10, 'visit', 3, 'week', 'any', 'page 4'];

  it('is understood row by row before there is a plan; a row that cannot be used is named', async () => {
    const rows = [THREE, ['caliper 2-4 in', '', '', 5, 'week', '', '', 'bag, hand', ''], ['caliper big', '', '', 5, 'week', '', '', '', '']]; // prettier-ignore
    const report = await roomHere(parts).contract({ cells: [HEADER, ...rows], units: 'US', judge: false }); // prettier-ignore
    expect(report.understood.map(({ row, sentence }) => [row, sentence])).toEqual([
      [2, 'Each tree gets at least 10 gal a visit and at least 3 visits a week; from June 1 to August 31.'],
      [3, 'Each tree from 2 in to below 4 in trunk gets at least 5 gal a week; only visits by bag or hand count.'],
    ]); // prettier-ignore
    expect(report.problems).toEqual([{ row: 4, sentence: expect.stringContaining('"caliper big"') }]); // prettier-ignore
    expect(report.judged).toBe(undefined);
  });

  it('cannot be judged before there is a plan', async () => {
    const early = roomHere(parts).contract({ cells: [HEADER, THREE], units: 'US', judge: true }); // prettier-ignore
    await expect(early).rejects.toThrow(/there is no plan yet/);
  });

  it('fights with rules that allow two days a week, and names its row', async () => {
    const { judged } = await contract([THREE]);
    expect(judged!.fights.map(({ row }) => row)).toContain(2);
    expect(judged!.fights[0]!.sentence).toMatch(/^Contract row 2 asks for 3 visits a week; row 2 of the rules allows 2 .*The law goes first\.$/); // prettier-ignore
  });

  it('is short of exactly the visits the plan lacks in whole weeks of the clause', async () => {
    const { judged } = await contract([['all', '', '', '', '', 1, 'week', '', '']]);
    const known = new Map(readInventory(trees.cells).rows.map((r) => [r.row, r.tree!]));
    // the season, 1 Apr to 30 Sep 2027, holds the 25 whole weeks from 5 Apr to 26 Sep
    const weeks = Array.from({ length: 25 }, (_, w) => dayFromIso('2027-04-05') + 7 * w);
    let lacks = 0;
    for (const row of planned) {
      const { count, planted = 0 } = known.get(row)!;
      const { waterings } = await room.tree(row);
      const came = (monday: number): boolean =>
        waterings.some(({ day }) => day >= monday && day < monday + 7);
      lacks += count * weeks.filter((monday) => monday >= planted && !came(monday)).length;
    }
    expect(judged!.clauses[0]).toMatchObject({ verdict: 'short', visits: lacks, water: 0 });
    expect(lacks).toBeGreaterThan(0);
  });

  it('planned with, gives each row its least visits where the rules leave days: more waterings, more clauses met', async () => {
    const cells: Cell[][] = [HEADER, ['all', 'Jun 1', 'Aug 31', '', '', 1, 'week', '', '']];
    const by = roomHere(parts);
    const ask = { trees, source: 'street', sheets: [], draft: { ...DRAFT, rules: RULES }, today: '2027-03-15' }; // prettier-ignore
    const { remarks } = await by.plan({ ...ask, papers: { contract: cells } });
    const { judged } = await by.contract({ cells, units: 'US', judge: true });
    const { plan, bare } = judged!;
    const before = (await room.contract({ cells, units: 'US', judge: true })).judged!;
    expect(before.clauses[0]!.verdict).toBe('short');
    expect(before.bare).toBe(undefined);
    expect(bare).toMatchObject(before.plan);
    expect(bare!.rows).toBeGreaterThan(0);
    expect(remarks.join()).toContain(`${bare!.rows} rows of trees come more often than`);
    expect(plan.waterings).toBeGreaterThan(bare!.waterings);
    expect(plan.price).toBeGreaterThan(bare!.price);
    expect(judged!.clauses[0]!.visits).toBeLessThan(before.clauses[0]!.visits);
    const { sheets } = await by.model();
    expect(sheets.map(({ name }) => name)).toContain('Contract');
  });

  it('planned with, goes into the workbook with the log as it is by then, not as it was', async () => {
    const cells: Cell[][] = [HEADER, ['all', 'Jun 1', 'Aug 31', '', '', 1, 'week', '', '']];
    const by = roomHere(parts);
    const ask = { trees, source: 'street', sheets: [], draft: DRAFT, today: '2027-03-15' };
    const log = (...rows: Cell[][]): Cell[][] => [['Tree', 'Date', 'Applied (gal)'], ...rows];
    const id = 'HR-001';
    await by.plan({ ...ask, papers: { contract: cells, visits: log([id, '2027-06-02', 11]) } });
    const visits = async (fresh?: { visits?: Cell[][] }): Promise<unknown[]> => {
      const sheet = (await by.model(fresh)).sheets.find(({ name }) => name === 'Log')!;
      const [table] = tablesOf(sheet);
      const at = table!.columns.findIndex(({ header }) => header.startsWith('Applied'));
      return table!.rows.map((row) => row[at]).flatMap((cell) => typeof cell === 'number' ? cell : typeof cell === 'object' && cell && 'value' in cell && typeof cell.value === 'number' ? cell.value : []); // prettier-ignore
    };
    expect(await visits()).toEqual([11]);
    expect(await visits({ visits: log([id, '2027-06-02', 11], [id, '2027-06-09', 12]) })).toEqual([11, 12]); // prettier-ignore
    expect(await visits({ visits: log() })).toEqual([]);
    const { sheets } = await by.model({});
    expect(sheets.map(({ name }) => name)).toContain('Contract');
  });

  it('that asks for more than trees can use is told in water and money', async () => {
    const { judged } = await contract([['all', '', '', 200, 'week', '', '', '', '']]);
    const { water, cost, rows, count } = judged!.surplus;
    expect(rows.length).toBe(count);
    expect(rows.reduce((sum, r) => sum + r.surplus, 0)).toBeCloseTo(water, 6);
    for (const r of rows) expect(r.asked - r.used).toBeCloseTo(r.surplus, 6);
    expect(rows.map((r) => r.surplus)).toEqual([...rows.map((r) => r.surplus)].sort((a, b) => b - a)); // prettier-ignore
    const { site } = await room.setup(trees, DRAFT);
    const price = site.find(({ key }) => key === 'waterPrice')!;
    expect(price.unit).toBe('per 1000 gal');
    // the price is shown with six digits
    expect(cost / ((water / 1000) * (price.value as number))).toBeCloseTo(1, 5);
  });

  it('says the same in litres', async () => {
    const rows: Cell[][] = [['all', '', '', 200, 'week', '', '', '', '']];
    const [us, si] = [await contract(rows), await contract(rows, { units: 'SI' })];
    expect(si.waterUnit).toBe('L');
    expect(si.judged!.surplus.water).toBeCloseTo(us.judged!.surplus.water * L_PER_GALLON, 6);
    expect(si.understood[0]!.sentence).toBe('Each tree gets at least 757.1 L a week.');
  });

  it.each(['US', 'SI'] as const)('the empty one that is offered is read whole, as two examples: %s', async (units) => {
    const [sheet] = contractModel(units, '2027-03-15').sheets;
    const table: TableBlock = tablesOf(sheet!)[0]!;
    const cells = [table.columns.map(({ header }): Cell => header), ...(table.rows as Cell[][])];
    const report = await roomHere(parts).contract({ cells, units, judge: false });
    expect(report.problems).toEqual([]);
    expect(report.understood.map(({ example }) => example)).toEqual([true, true]);
  }); // prettier-ignore
});

describe('when there is too little', () => {
  const shortage = (wish: Partial<ShortageWish>) =>
    room.shortage({ limit: 'season', amount: 8000, order: 'new first', ...wish });

  it('serves what fits the season’s water and says what the rest means', async () => {
    const report = await shortage({});
    const taken = report.needed - report.out.reduce((sum, { water }) => sum + water, 0);
    expect(taken).toBeLessThanOrEqual(8000 + 1e-6);
    expect(report.out.reduce((sum, { trees }) => sum + trees, 0)).toBe(report.notServed);
    expect(report.out.reduce((sum, r) => sum + r.stressDays * r.trees, 0)).toBe(report.stressDays);
    for (const { why, leastKs } of report.out) {
      expect(why).toMatch(/water of the season|others that count for more/);
      expect(leastKs).toBeLessThan(1);
    }
    expect(report.out.map(({ rank }) => rank)).toEqual([...report.out.map(({ rank }) => rank)].sort((a, b) => a - b)); // prettier-ignore
  });

  it('the next 1,000 gal save what is saved with 9,000', async () => {
    const [now, then] = [await shortage({}), await shortage({ amount: 9000 })];
    expect(now.next).toEqual({
      more: 1000,
      trees: then.served - now.served,
      stressDays: now.stressDays - then.stressDays,
    });
  });

  it('serves everybody where there is enough, and says how much that is', async () => {
    const { needed } = await shortage({});
    const report = await shortage({ amount: needed + 1 });
    expect(report).toMatchObject({ notServed: 0, out: [], stressDays: 0, exact: true });
    expect(report.next).toBe(undefined);
  });

  it.each(['week', 'hours'] as const)(
    'a limit by %s names the week that is short',
    async (limit) => {
      const { needed, unit } = await shortage({ limit, amount: 1000 });
      const report = await shortage({ limit, amount: needed / 2 });
      expect(unit).toBe(limit === 'hours' ? 'h' : 'gal');
      expect(report.notServed).toBeGreaterThan(0);
      expect(report.out.some(({ why }) => /in the week of 2027-\d\d-\d\d$/.test(why))).toBe(true);
    },
  );

  it('the order says its source; one that goes by a value names the row without one', async () => {
    expect((await shortage({})).source).toContain('Texas');
    await expect(shortage({ order: 'value' })).rejects.toThrow(/^row \d+ \(HR-\d+\): the order "value" goes by value, which is blank$/); // prettier-ignore
  });

  it('a value that is no number, or a condition that is no word for one, is named with its row', async () => {
    const species = 1;
    await expect(shortage({ order: 'value', value: species })).rejects.toThrow(/the value is "desert willow"; accepted is a number/); // prettier-ignore
    await expect(shortage({ order: 'sound first', condition: species })).rejects.toThrow(/the condition is "desert willow"; accepted is good, fair/); // prettier-ignore
    await expect(shortage({ amount: 0 })).rejects.toThrow(Problem);
  });
});

describe('a filled log', () => {
  const LOG = ['Tree', 'Date', 'Arrived', 'Left', 'Crew', 'Truck', 'Applied (gal)', 'How measured', 'Source or meter', 'Skip reason']; // prettier-ignore
  const log = (rows: Cell[][], more: Partial<LogAsk> = {}, on = room) =>
    on.log({ cells: [LOG, ...rows], trees, draft: DRAFT, planned: true, ...more });
  /** The first waterings of a row of the plan. */
  const due = async (row: number) => (await room.tree(row)).waterings.slice(0, 3);

  it('sums water and visits against the plan, and lists the tree that lacks one', async () => {
    const [first, second, third] = await due(2);
    const report = await log([
      ['HR-001', isoDate(first!.day), '7:00', '7:10', 'Crew 1', '', first!.amount, 'bucket', '', ''],
      ['HR-001', isoDate(third!.day), '7:00', '7:10', 'Crew 1', '', third!.amount, 'bucket', '', ''],
    ]); // prettier-ignore
    expect(report).toMatchObject({ rows: 2, made: 2, skipped: 0, from: isoDate(first!.day), to: isoDate(third!.day) }); // prettier-ignore
    expect(report.applied).toBeCloseTo(first!.amount + third!.amount, 6);
    const tree = report.trees.find(({ id }) => id === 'HR-001')!;
    expect(tree).toMatchObject({ made: 2, missed: 1 });
    expect(tree.planned - tree.applied).toBeCloseTo(second!.amount, 6);
    expect(report.missed).toBeGreaterThanOrEqual(1);
  });

  it('asks about rows, with the cell that is meant', async () => {
    const report = await log([
      ['HR-001', '2027-06-01', '8:00', '7:00', 'Crew 1', '', 10, '', '', ''],
      ['nobody', '2027-06-01', '9:00', '9:05', 'Crew 1', '', '', '', '', ''],
    ]);
    expect(report.questions.map(({ row, column, kind }) => [row, column, kind])).toEqual([
      [2, 2, 'times'],
      [3, 0, 'unknown tree'],
      [3, 6, 'nothing said'],
    ]);
    expect(report.asked).toBe(2);
  });

  it('without a plan says what the log itself has, and no missed visits', async () => {
    const own = roomHere(parts);
    const report = await log([['HR-001', '2027-06-01', '', '', 'Crew 1', '', 10, '', '', '']], { planned: false }, own); // prettier-ignore
    expect(report.missed).toBe(undefined);
    expect(report.planned).toBe(undefined);
    expect(report.applied).toBeCloseTo(10, 9);
    await expect(log([], { trees: { cells: [] } }, own)).rejects.toThrow(/no trees to ask the log about/); // prettier-ignore
  });

  it('does not take the limits below our own sheet for visits', async () => {
    const row: Cell[] = ['HR-001', '2027-06-01', '', '', 'Crew 1', '', 10, '', '', ''];
    const report = await log([row, [], ['Limits of the questions'], ['Limit', 'Unit'], [2, 'min']]);
    expect([report.rows, report.problems]).toEqual([1, []]);
  });

  it('holds meters against it, and the contract by it', async () => {
    const meters: Cell[][] = [['Meter', 'From', 'To', 'Begin', 'End', 'Unit', 'Price (per 1000 gal)'], ['H-7', '2027-06-01', '2027-06-30', 1000, 1100, 'gal', 10]]; // prettier-ignore
    const visits = [['HR-001', '2027-06-02', '', '', 'Crew 1', '', 60, 'meter', 'H-7', ''], ['HR-002', '2027-06-03', '', '', 'Crew 1', '', 5, 'meter', 'other', '']]; // prettier-ignore
    const report = await log(visits, { meters, contract: [HEADER, ['all', '', '', 40, 'visit', '', '', '', '']] }); // prettier-ignore
    const [meter] = report.meters!.rows;
    expect(meter).toMatchObject({ row: 2, meter: 'H-7', agrees: false, over: 0 });
    expect([meter!.used, meter!.logged, meter!.cost]).toEqual([expect.closeTo(100, 9), expect.closeTo(60, 9), expect.closeTo(1, 6)]); // prettier-ignore
    expect(report.meters!.unmetered).toEqual({ water: expect.closeTo(5, 9), rows: 1 });
    expect(report.contract).toMatchObject([{ row: 2, verdict: 'short', first: { id: 'HR-002' } }]);
    expect(report.contract![0]!.water).toBeCloseTo(35, 9);
  });

  it('is the same through a worker, and so are contract and shortage', async () => {
    const rows: Cell[][] = [['HR-001', '2027-06-02', '7:00', '7:10', 'Crew 1', '', 12, '', '', '']];
    expect(await log(rows, {}, line)).toEqual(await log(rows));
    const clause: Cell[] = ['all', '', '', 10, 'visit', 1, 'week', '', ''];
    expect(await contract([clause], {}, line)).toEqual(await contract([clause]));
    const wish = { limit: 'season', amount: 8000, order: 'new first' } as const;
    expect(await line.shortage(wish)).toEqual(await room.shortage(wish));
  });
});
