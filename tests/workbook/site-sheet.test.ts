import { beforeAll, describe, expect, it } from 'vitest';
import { L_PER_GALLON } from '../../src/engine/units.js';
import { emptyDraft } from '../../src/taskpane/draft.js';
import { SITE_INPUTS, type SiteKey } from '../../src/tables/site-inputs.js';
import { SITE_NOTES } from '../../src/tables/site-notes.js';
import type { WorkbookModel } from '../../src/workbook/model.js';
import { planFromTables, type PlanJobInput } from '../../src/workbook/plan-job.js';
import { readWorkbookSheets } from '../../src/workbook/readers/open.js';
import { setupFromJson, setupFromSheets } from '../../src/workbook/setup.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { setupOf } from '../../src/workers/room-setup.js';
import { cellsOf, column, table } from './cells.js';
import { sampleInput, sampleJob } from './job.js';

/** What the row of an input on the sheet Site says. */
function row(model: WorkbookModel, key: SiteKey): Record<'source' | 'kind' | 'note', unknown> {
  const at = SITE_INPUTS.findIndex((input) => input.key === key);
  const of = (name: string): unknown => column(model, 'Site', name)[at];
  return { source: of('source'), kind: of('kind'), note: of('note') };
}

const OWN = { source: 'put in for this plan', kind: 'input' };
let rows: Pick<PlanJobInput, 'inventory' | 'fileName' | 'madeOn'>;
const planned = (more: Partial<PlanJobInput>): WorkbookModel =>
  planFromTables({ ...rows, ...more }).model;

beforeAll(async () => {
  const { inventory, fileName, madeOn } = await sampleInput();
  rows = { inventory: inventory.slice(0, 4), fileName, madeOn };
});

describe('the source of a value on the sheet Site', () => {
  it('is the person for what was typed in the panel, a value equal to the default among it', () => {
    const site = { wage: 32, waterPrice: 2, workDays: 'Mon-Fri', seasonFrom: '2027-05-01', texture: 'clay' }; // prettier-ignore
    const model = planned(setupOf({ ...emptyDraft(), site }, 33.4).setup);
    for (const key of Object.keys(site) as SiteKey[]) expect(row(model, key)).toMatchObject(OWN);
    expect(row(model, 'crewSize')).toMatchObject({
      source: SITE_NOTES.crewSize.source,
      kind: 'assumption',
    });
    expect(row(model, 'plantFactor').kind).toBe('published');
    expect(row(model, 'latitude').kind).toBe('inventory');
    const checks = cellsOf(model.sheets.find(({ name }) => name === 'Checks')!);
    const said = checks.map(({ cell }) => String(cell.value));
    expect(said.some((text) => text.startsWith('Default in use: Crew size.'))).toBe(true);
    expect(said.some((text) => text.startsWith('Default in use: Water price.'))).toBe(false);
  });

  it('stays that of the default where what was typed cannot be used', () => {
    const site = { wage: 'much', seasonFrom: '2027-05-01', seasonTo: '2027-04-01' };
    const { setup } = setupOf({ ...emptyDraft(), site }, undefined);
    expect(setup.origins).toEqual({ seasonFrom: 'own' });
    expect(setupFromJson({ site }).setup.origins).toEqual({ seasonFrom: 'own' });
  });

  it('is the inventory for the latitude of its coordinates', () => {
    const model = planned({});
    expect(row(model, 'latitude').source).toBe('middle of the coordinates in the inventory');
    expect(row(model, 'wage').source).toBe(SITE_NOTES.wage.source);
  });

  it('is the person for a site file, but the demo figure for a file that calls itself invented', () => {
    const file = { site: { wage: 31 } };
    expect(row(planned(setupFromJson(file).setup), 'wage')).toMatchObject(OWN);
    expect(row(planned(setupFromJson({ wage: 31 }).setup), 'wage')).toMatchObject(OWN);
    const demo = { _about: 'Invented place. Replace every number.', ...file };
    expect(row(planned(setupFromJson(demo).setup), 'wage').source).toBe(SITE_NOTES.wage.source);
  });

  it('comes back from a workbook of ours, with what was changed in it', async () => {
    const { setup } = setupOf({ ...emptyDraft(), site: { waterPrice: 2 } }, undefined);
    const sheets = await readWorkbookSheets(await writeXlsx(planned(setup), { pictures: false }));
    expect(setupFromSheets(sheets).setup.origins).toEqual({ waterPrice: 'own' });
    const wage = sheets
      .find(({ name }) => name === 'Site')!
      .cells.find(([name]) => name === 'Wage')!;
    wage[1] = 41;
    expect(setupFromSheets(sheets).setup.origins).toEqual({ waterPrice: 'own', wage: 'own' });
  });

  it('is the person for a bare sheet of names and values', () => {
    const cells = [['Name', 'Value', 'Unit'], ['Wage', 30, 'per hour']]; // prettier-ignore
    expect(setupFromSheets([{ name: 'Site', cells }]).setup.origins).toEqual({ wage: 'own' });
  });
});

describe('the row Tank volume', () => {
  const tanker = (name: string, gallons?: number) => ({
    name, family: 'tanker' as const, stock: 1, price: 0, seasons: 10, setupMinutes: 0, visitMinutes: 6, automatic: false,
    ...(gallons !== undefined && { volume: gallons * L_PER_GALLON }),
  }); // prettier-ignore
  const note = (...kit: ReturnType<typeof tanker>[]): unknown =>
    row(planned({ kit }), 'tankVolume').note;

  it('says whose tank is used instead, where a device has its own', () => {
    expect(note(tanker('old truck', 300))).toBe(
      'Not used in this plan: the tank of “old truck” (300 gal) is used instead.',
    );
    expect(note(tanker('old truck', 300), tanker('trailer'))).toBe(
      'Used only where a tanker of the kit has no volume: else the tank of “old truck” (300 gal) is used instead.',
    );
    expect(note(tanker('trailer'))).toBe(SITE_NOTES.tankVolume.note);
  });

  it('says so in litres too', async () => {
    const { model } = await sampleJob({ units: 'SI', kit: [tanker('old truck', 300)] });
    expect(row(model, 'tankVolume').note).toContain('“old truck” (1136 L)');
  });
});

describe('the sheet Weather', () => {
  it('is in the units of the plan, the example’s table too, and the same weather in both', () => {
    const of = (units: 'US' | 'SI') => planFromTables({ ...rows, units });
    const [us, si] = [of('US'), of('SI')];
    const heads = (model: WorkbookModel, name: string) => table(model, name).columns.map((c) => c.header); // prettier-ignore
    expect(heads(us.model, 'WeatherGiven')).toEqual(['Month', 'ET0 (in/day)', 'Rain (in)', 'Share of rain to count on']); // prettier-ignore
    expect(heads(si.model, 'WeatherGiven')).toEqual(['Month', 'ET0 (mm/day)', 'Rain (mm)', 'Share of rain to count on']); // prettier-ignore
    expect(heads(us.model, 'WeatherMonths')).toContain('Mean ET0 (in/day)');
    expect(us.plan.weather.peakEt0).toBeCloseTo(si.plan.weather.peakEt0, 9);
  });

  it('leaves a table as it was given, and says in which units what follows is', () => {
    const weather = [['Month', 'ET0 (mm/day)', 'Rain (mm)'], ...[4, 5, 6, 7, 8, 9].map((m) => [m, 6, 10])]; // prettier-ignore
    const model = planned({ weather });
    expect(column(model, 'WeatherGiven', 'c1')[0]).toBe(6);
    const sheet = model.sheets.find(({ name }) => name === 'Weather')!;
    expect(cellsOf(sheet).map(({ cell }) => cell.value)).toContain(
      'As given, in the units of its headers; then in inches, by month and every day of the season as the plan used it.',
    );
  });
});
