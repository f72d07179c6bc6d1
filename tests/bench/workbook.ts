/** Inventories of any length as an office would send them, and the whole way from one to the bytes of a workbook. */
import { isoDate, dayOf } from '../../src/engine/dates.js';
import type { Cell } from '../../src/tables/cells.js';
import { exampleSetup } from '../../src/workbook/example-setup.js';
import { planFromTablesBy, type PlanJobInput } from '../../src/workbook/plan-job.js';
import { tablesOf } from '../../src/workbook/model.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { rasterise } from '../../src/cli/rasterise.js';
import { planInThreads } from '../../src/workers/node-pool.js';
import { benchTrees, DAYS, FROM } from './inventory.js';

const HEADER = ['Tag', 'Species', 'Caliper (mm)', 'Canopy (m)', 'Planted', 'Site', 'Address', 'Tap']; // prettier-ignore

/** The invented trees of `benchTrees` as a table, header first. */
export const benchTable = (count: number): Cell[][] => [
  HEADER,
  ...benchTrees(count).map((t) => [
    `T-${t.id}`, t.species, t.caliper ?? null, t.canopy ?? null, isoDate(t.planted!), t.site, t.address, 'yes',
  ]),
]; // prettier-ignore

export function benchInput(count: number): PlanJobInput {
  const setup = exampleSetup(33);
  return {
    ...setup,
    site: { ...setup.site, seasonFrom: FROM, seasonTo: FROM + DAYS - 1 },
    inventory: benchTable(count),
    fileName: 'invented.csv',
    madeOn: dayOf(2027, 3, 15),
  };
}

export interface WorkbookRun {
  trees: number;
  /** [s] */
  planned: number;
  written: number;
  /** of this thread and its helpers [s] */
  worked: number;
  /** most memory the process held [MB] */
  peak: number;
  /** size of the file [MB] */
  file: number;
  rows: number;
}

/** Plans `count` trees and writes the whole workbook. @throws Error if a tree is lost on the way */
export async function runWorkbook(count: number): Promise<WorkbookRun> {
  const input = benchInput(count);
  const before = process.cpuUsage();
  const started = performance.now();
  const job = await planFromTablesBy(input, planInThreads);
  const planned = performance.now();
  const bytes = await writeXlsx(job.model, { rasterise });
  const written = performance.now();
  const { user, system } = process.cpuUsage(before);
  if (job.plan.trees.length !== count)
    throw new Error(`${job.plan.trees.length} of ${count} trees planned`);
  const tables = job.model.sheets.flatMap(tablesOf);
  return {
    trees: count,
    planned: (planned - started) / 1000,
    written: (written - planned) / 1000,
    worked: (user + system) / 1e6,
    peak: process.resourceUsage().maxRSS / 1024,
    file: bytes.length / 1e6,
    rows: tables.reduce((n, t) => n + t.rows.length, 0),
  };
}
