/** The sample job, planned once for all workbook tests. */
import { join } from 'node:path';
import { dayOf } from '../../src/engine/dates.js';
import { planFromTables, type PlanJob, type PlanJobInput } from '../../src/workbook/plan-job.js';
import { readTableFile } from '../../src/workbook/readers/open.js';
import { setupFromJson } from '../../src/workbook/setup.js';
import { bytesOf } from './programs.js';

export const SAMPLES = join(import.meta.dirname, '..', '..', 'sample-workbooks');
export const INVENTORY = join(SAMPLES, 'harbour-row-trees.csv');
export const SETUP = join(SAMPLES, 'site.json');

export async function sampleInput(): Promise<PlanJobInput> {
  const { cells } = await readTableFile('harbour-row-trees.csv', bytesOf(INVENTORY));
  const { setup, problems } = setupFromJson(JSON.parse(new TextDecoder().decode(bytesOf(SETUP))));
  return {
    inventory: cells,
    fileName: 'harbour-row-trees.csv',
    madeOn: dayOf(2027, 3, 15),
    notes: problems,
    ...setup,
  };
}

export const sampleJob = async (more: Partial<PlanJobInput> = {}): Promise<PlanJob> =>
  planFromTables({ ...(await sampleInput()), ...more });
