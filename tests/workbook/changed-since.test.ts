/**
 * Clauses and limits that were changed after the plan was made: in LibreOffice and Gnumeric their rows say so, and so does
 * Checks; rows that were not changed keep what was judged, whatever their cells hold. Clauses are invented.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.js';
import { letter, rich, type WorkbookModel } from '../../src/workbook/model.js';
import type { PlanJob } from '../../src/workbook/plan-job.js';
import { CHANGED, joined } from '../../src/workbook/sheets/as-planned.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { openGrid, writing } from '../desk/open-grid.js';
import { column, differences, errors, table } from './cells.js';
import { sampleJob } from './job.js';
import { recalculate, skipWithout, type Value, type Values } from './programs.js';

const SLOW = 180_000;
const PROGRAMS = ['LibreOffice', 'Gnumeric'] as const;

/** Numbers with few and many decimals, dates as numbers, text that looks like a number, signs and marks. */
const HEADER = ['Applies to', 'From', 'To', 'Least water (gal)', 'Water per', 'Least visits', 'Visits per', 'Over costs (per 1000 gal)', 'Means', 'Source', 'Where']; // prettier-ignore
const ROWS: Cell[][] = [
  ['all', 'Jun 1', 'Aug 31', 12.5, 'visit', 1, 'week', null, 'any', 'page 4 · a'],
  ['all', 46539, 46600, 26.417205235815, 'week', null, null, 6.0005, null, '10', 'office'],
  [
    'caliper 2-3 in',
    '',
    null,
    0.1,
    'visit',
    null,
    null,
    null,
    'bag, hand',
    '▲ “said”, ½ & <twice>',
  ],
  ['site Old Weighhouse', null, null, null, null, 4, 'week', null, 'hand', '2027-01-31'],
  ['all', null, null, 12, 'fortnight', null, null, null, null, null],
];
const LIMITS: Cell[][] = [
  ['Limit', 'Value', 'Unit'],
  ['Order', 'new first', ''],
  ['Water a week', 1594.25, 'gal'],
  ['Crew minutes a week', null, ''],
];

let job: PlanJob;
beforeAll(async () => {
  job = await sampleJob({ contract: [HEADER, ...ROWS], shortage: LIMITS, visits: [], meters: [], clocks: [], bags: [] }); // prettier-ignore
}, SLOW);

const written = (model: WorkbookModel): Promise<Uint8Array> =>
  writeXlsx(model, { pictures: false });

/** What a recalculated file shows in a column of a table. */
function shown(values: Values, sheet: string, name: string, key: string): Value[] {
  const t = table(job.model, name);
  const at = t.columns.findIndex((c) => c.key === key);
  return t.rows.map((_, i) => values[sheet]![`${letter(at)}${t.top + 1 + i}`] ?? null);
}

/** Both sides of a line of Checks. */
function line(values: Values, what: string): [Value, Value] {
  const row = column(job.model, 'Totals', 'what').indexOf(what);
  expect(row, what).toBeGreaterThanOrEqual(0);
  return [shown(values, 'Checks', 'Totals', 'left')[row]!, shown(values, 'Checks', 'Totals', 'right')[row]!]; // prettier-ignore
}

/** The workbook with some input cells typed over, and a clause added below. No formula has a result yet: all is calculated. */
function typedOver(changes: [name: string, row: number, key: string, value: Cell][], added?: Cell): WorkbookModel {
  const model = structuredClone(job.model);
  for (const [name, row, key, value] of changes) {
    const t = table(model, name);
    const at = t.columns.findIndex((c) => c.key === key);
    t.rows[row]![at] = { ...rich(t.rows[row]![at]!), value };
  }
  for (const sheet of model.sheets)
    for (const block of sheet.blocks)
      for (const cells of block.kind === 'text' ? block.lines : block.rows)
        cells.forEach((c, i) => {
          if (rich(c).formula !== undefined) cells[i] = { ...rich(c), value: null };
        });
  if (added !== undefined) {
    const sheet = model.sheets.find((s) => s.name === 'Contract')!;
    const t = table(model, 'Contract');
    sheet.blocks.push({ kind: 'text', top: t.top + t.rows.length + 1, lines: [[rich(added)]] });
  }
  return model;
} // prettier-ignore

describe('the row as planned', () => {
  it('joins numbers without any decimal mark, the same however a half is stored', () => {
    expect(joined(['all', 12.5, null, 46539, 26.417205235815, '', true])).toBe('all · 12500/1000 ·  · 46539 · 26417/1000 ·  · TRUE'); // prettier-ignore
    expect([joined([1.0005]), joined([8.0045]), joined([0]), joined([3 - 1e-16 * 4])]).toEqual(['1001/1000', '8005/1000', '0', '3']); // prettier-ignore
  });

  it('keeps columns of the office’s own that are called as ours', () => {
    const headers = table(job.model, 'Contract').columns.map((c) => c.header);
    expect(headers).toContain('Where 2');
    expect(new Set(headers).size).toBe(headers.length);
  });
});

describe.each(PROGRAMS)('in %s', (program) => {
  it.skipIf(skipWithout(program, 'openpyxl'))('rows nobody changed keep what was judged', async () => {
    const values = recalculate(program, await written(typedOver([])));
    expect(errors(values)).toEqual([]);
    expect(differences(job.model, values)).toEqual([]);
    expect(shown(values, 'Contract', 'Contract', 'state')).toEqual(column(job.model, 'Contract', 'judged'));
    expect(column(job.model, 'Contract', 'judged')).toContain('▲ not read');
    expect(line(values, 'Contract rows changed since the plan = 0')).toEqual([0, 0]);
    expect(line(values, 'Contract rows: planned with = on Contract')).toEqual([5, 5]);
    expect(line(values, 'Limits on Shortage changed since the plan = 0')).toEqual([0, 0]);
  }, SLOW); // prettier-ignore

  it.skipIf(skipWithout(program, 'openpyxl'))('changed rows say so, one by one, and Checks counts them', async () => {
    const model = typedOver(
      [
        ['Contract', 0, 'c3', 12.501],
        ['Contract', 1, 'c1', 46540],
        ['Contract', 3, 'c8', 'bag'],
        ['ShortageLimits', 1, 'value', 1600],
        ['ShortageLimits', 2, 'value', 30000],
      ],
      'all',
    );
    const values = recalculate(program, await written(model));
    expect(errors(values)).toEqual([]);
    const judged = column(job.model, 'Contract', 'judged');
    expect(shown(values, 'Contract', 'Contract', 'state')).toEqual([CHANGED, CHANGED, judged[2], CHANGED, judged[4]]);
    expect(shown(values, 'Shortage', 'ShortageLimits', 'state')).toEqual(['✓ as planned', CHANGED, CHANGED, '✓ as planned']);
    expect(line(values, 'Contract rows changed since the plan = 0')).toEqual([0, 3]);
    expect(line(values, 'Contract rows: planned with = on Contract')).toEqual([5, 6]);
    expect(line(values, 'Limits on Shortage changed since the plan = 0')).toEqual([0, 2]);
    const wrong = shown(values, 'Checks', 'Totals', 'verdict').filter((v) => v === '▲ look here');
    expect(wrong).toHaveLength(3);
  }, SLOW); // prettier-ignore
});

describe('in the desk’s grid', () => {
  it('the state of a row follows its cells as well', async () => {
    const model = typedOver([
      ['Contract', 1, 'c3', 26.5],
      ['ShortageLimits', 0, 'value', 'stress'],
    ]);
    const own = model.sheets.filter(({ name }) => name === 'Contract' || name === 'Shortage');
    const grid = openGrid({ Mine: { 0: { 0: { v: 1 } } } });
    try {
      await grid.models.write({ ...model, sheets: own }, writing(false));
      const states = (sheet: string, name: string) => {
        const t = table(model, name);
        const at = t.columns.findIndex((c) => c.key === 'state');
        return t.rows.map((_, i) => grid.shown(sheet, t.top + i, at));
      };
      const judged = column(job.model, 'Contract', 'judged');
      expect(states('Contract', 'Contract')).toEqual([judged[0], CHANGED, ...judged.slice(2)]);
      expect(states('Shortage', 'ShortageLimits')).toEqual([CHANGED, '✓ as planned', '✓ as planned', '✓ as planned']); // prettier-ignore
    } finally {
      grid.close();
    }
  }, SLOW); // prettier-ignore
});
