import { beforeAll, describe, expect, it } from 'vitest';
import { estimate } from '../../../src/engine/money/estimate.js';
import { clientCopy } from '../../../src/workbook/exports/client-copy.js';
import { crewCopy } from '../../../src/workbook/exports/crew-copy.js';
import { months, visits } from '../../../src/workbook/exports/client-words.js';
import { rich, type WorkbookModel } from '../../../src/workbook/model.js';
import type { Context } from '../../../src/workbook/sheets/context.js';
import { writeXlsx } from '../../../src/workbook/writers/file.js';
import { cellsOf, column, errors, table } from '../cells.js';
import { recalculate, skipWithout } from '../programs.js';
import { kindsOf, sampleContext } from './samples.js';

let ctx: Context;
let crew: WorkbookModel;
let client: WorkbookModel;
beforeAll(async () => {
  ctx = await sampleContext();
  crew = crewCopy(ctx);
  client = clientCopy(ctx);
});

const sum = (values: unknown[]): number => values.reduce((n: number, v) => n + Number(v ?? 0), 0);

describe('copies for crew and client', () => {
  it('hold their own sheets only, and values only', () => {
    expect(crew.sheets.map((s) => s.name)).toEqual(['Crew']);
    expect(client.sheets.map((s) => s.name)).toEqual(['About', 'Estimate', 'To do']);
    for (const sheet of [...crew.sheets, ...client.sheets])
      for (const { at, cell } of cellsOf(sheet))
        expect(cell.formula, `${sheet.name}!${at}`).toBeUndefined();
  });

  it('give the crew a sheet for each language asked for', () => {
    const names = (crewLanguage: 'en' | 'es' | 'both'): string[] =>
      crewCopy({ ...ctx, crewLanguage }).sheets.map((s) => s.name);
    expect([names('en'), names('es'), names('both')]).toEqual([['Crew'], ['Cuadrilla'], ['Crew', 'Cuadrilla']]);
  }); // prettier-ignore

  it('jump to no sheet that stayed in the office', () => {
    for (const sheet of client.sheets)
      for (const { cell } of cellsOf(sheet))
        if (cell.jump !== undefined) expect(cell.jump).toMatch(/^'(To do|Estimate|About)'!/);
  });

  it('give the crew every gallon that needs a person', () => {
    const gallons = sum(column(crew, 'Crew', 'volume'));
    const litres = ctx.plan.crewDays.reduce((n, d) => n + d.litres, 0);
    expect(gallons).toBeCloseTo(ctx.show('volume', litres), 6);
  });

  it('show the client the price of the office, and neither cost nor margin', () => {
    const est = estimate(ctx.plan, ctx.kit);
    expect(sum(column(client, 'Estimate', 'price'))).toBeCloseTo(est.price, 6);
    const total = cellsOf(client.sheets[1]!).find(({ cell }) => cell.value === est.price);
    expect(total).toBeDefined();
    const words = client.sheets.flatMap((s) => cellsOf(s).map(({ cell }) => String(cell.value)));
    for (const text of words) expect(text).not.toMatch(/\boffice\b|margin|left over/i);
    // the model alone is read above: column headers stand apart from cells
    for (const name of ['Estimate', 'AgainstRules'])
      for (const c of table(client, name).columns) expect(c.header).not.toMatch(/office/i);
  });

  it('say month by month what the season holds', () => {
    const all = months(ctx.plan);
    expect(all.map((m) => m.name)).toEqual(
      ['Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep'].map((m) => `${m} 2027`),
    );
    const litres = ctx.plan.trees.reduce((n, t) => n + t.chosen.litres * t.tree.count, 0);
    expect(sum(all.map((m) => m.litres))).toBeCloseTo(litres, 6);
    expect(sum(all.map((m) => m.crewDays))).toBe(ctx.plan.crewDays.length);
  });

  it('name every site the crew comes to, and every row that is not planned', () => {
    const stops = ctx.plan.crewDays.flatMap((d) => d.stops.map((s) => s.site));
    expect(new Set(visits(ctx.plan).map((v) => v.site))).toEqual(new Set(stops));
    expect(table(client, 'NotPlanned').rows.length).toBe(ctx.plan.notPlanned.length);
    const first = rich(table(client, 'Visits').rows[0]![0]!).value;
    expect(first).toBe(ctx.plan.crewDays[0]!.stops[0]!.site);
  });

  it('name rows that will be short of water, with what would help', () => {
    const [one, ...rest] = ctx.plan.trees;
    const dry = { ...one!, state: 'cannot be kept' as const, advice: 'One more day a week.' };
    const copy = clientCopy({ ...ctx, plan: { ...ctx.plan, trees: [dry, ...rest] } });
    expect(column(copy, 'ShortOfWater', 'help')).toEqual(['One more day a week.']);
  });
});

describe.skipIf(skipWithout('openpyxl', 'LibreOffice'))('copies as files', () => {
  it('are read by openpyxl without a formula, the crew sheet with a page a day and the field card behind', async () => {
    const kinds = kindsOf(await writeXlsx(crew));
    expect(kinds.formulas).toEqual([]);
    const card = 1;
    expect(kinds.breaks).toBe(ctx.plan.crewDays.length - 1 + card);
    expect(kinds.titles[0]).toMatch(/^\$?1:\$?\d+$/);
    expect(kindsOf(await writeXlsx(client)).formulas).toEqual([]);
  });

  it('open in LibreOffice without an error', async () => {
    for (const model of [crew, client]) {
      const values = recalculate('LibreOffice', await writeXlsx(model));
      expect(Object.keys(values)).toEqual(model.sheets.map((s) => s.name));
      expect(errors(values)).toEqual([]);
    }
  }, 120_000);
});
