/**
 * Seconds and memory of the season engine: distinct trees × 214 days × every means of a full kit, from a thousand
 * trees to a hundred thousand, by two threads; how the time grows; and the sample planned anew. Run by `npm run bench`.
 */
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beginSeason, planSeason, type SeasonInput } from '../src/engine/plan/season.js';
import { dayOf } from '../src/engine/dates.js';
import { planFromTablesBy } from '../src/workbook/plan-job.js';
import { readTableFile } from '../src/workbook/readers/open.js';
import { setupFromJson } from '../src/workbook/setup.js';
import { nodePool, usualThreads } from '../src/workers/node-pool.js';
import { benchSeason, benchTrees, DAYS } from '../tests/bench/inventory.js';

const SIZES = [1_000, 3_000, 10_000, 30_000, 100_000];
const GOAL = { seconds: 30, megabytes: 1536, milliseconds: 100 };
const SAMPLE = join(dirname(fileURLToPath(import.meta.url)), '..', 'sample-workbooks');

const peak = (): number => process.resourceUsage().maxRSS / 1024;

/** Times t of sizes n as t = c + k·n, by least squares of relative errors; `off`: largest relative error. */
function line(
  sizes: readonly number[],
  times: readonly number[],
): { c: number; k: number; off: number } {
  // divided by t: 1 = c/t + k·n/t
  const sum = (value: (n: number, t: number) => number): number =>
    sizes.reduce((total, n, i) => total + value(n, times[i]!), 0);
  const [cc, ck, kk] = [sum((_, t) => t ** -2), sum((n, t) => n * t ** -2), sum((n, t) => (n / t) ** 2)]; // prettier-ignore
  const [c1, k1] = [sum((_, t) => 1 / t), sum((n, t) => n / t)];
  const determinant = cc * kk - ck * ck;
  const c = (c1 * kk - k1 * ck) / determinant;
  const k = (cc * k1 - ck * c1) / determinant;
  const off = Math.max(...sizes.map((n, i) => Math.abs((c + k * n) / times[i]! - 1)));
  return { c, k, off };
}

async function inventories(): Promise<void> {
  const threads = usualThreads();
  const pool = nodePool(threads);
  const season = benchSeason();
  await pool.plan({ ...season, trees: benchTrees(8_000) }); // threads started, code warm
  // other programs on the machine lengthen the wait, hardly the work: the growth is that of the work
  const times: number[] = [];
  let seconds = 0;
  for (const size of SIZES) {
    const trees = benchTrees(size);
    const before = process.cpuUsage();
    const started = performance.now();
    const plan = await pool.plan({ ...season, trees });
    seconds = (performance.now() - started) / 1000;
    const { user, system } = process.cpuUsage(before);
    const worked = (user + system) / 1e6;
    times.push(worked);
    if (plan.trees.length !== size) throw new Error(`${plan.trees.length} of ${size} planned`);
    console.log(
      `season: ${size.toLocaleString('en-US')} distinct trees × ${DAYS} days × all means, ${threads} threads: ` +
        `${seconds.toFixed(2)} s, processor time ${worked.toFixed(2)} s or ${((worked / size) * 1e6).toFixed(0)} µs a tree, peak so far ${peak().toFixed(0)} MB`,
    );
  }
  pool.end();
  const { c, k, off } = line(SIZES, times);
  console.log(
    `season: processor time as a line: ${c.toFixed(2)} s + ${(k * 1e6).toFixed(0)} µs a tree, no size further from it than ${(off * 100).toFixed(0)} %`,
  );
  console.log(
    `season: goals ${GOAL.seconds} s and ${GOAL.megabytes} MB; here ${seconds.toFixed(1)} s and ${peak().toFixed(0)} MB`,
  );
}

/** What a person waits for when an input of the sample changes: the trees planned again, crew days read. */
async function sample(): Promise<void> {
  const file = 'harbour-row-trees.csv';
  const table = await readTableFile(file, readFileSync(join(SAMPLE, file)));
  const { setup } = setupFromJson(JSON.parse(readFileSync(join(SAMPLE, 'site.json'), 'utf8')));
  const inputs: SeasonInput[] = [];
  await planFromTablesBy(
    {
      ...setup,
      inventory: table.cells,
      ...(table.dateCells && { dateCells: table.dateCells }),
      fileName: file,
      madeOn: dayOf(2027, 3, 1),
    },
    async (input) => {
      inputs.push(input);
      return planSeason(input);
    },
  );
  const input = inputs[0]!;
  const planning: number[] = [];
  const reading: number[] = [];
  for (let round = 0; round < 15; round++) {
    const changed = { ...input, site: { ...input.site, siteFactor: 0.9 + round / 100 } };
    const started = performance.now();
    const plan = planSeason(changed);
    const planned = performance.now();
    if (plan.crewDays.length === 0) throw new Error('the sample has no crew days');
    planning.push(planned - started);
    reading.push(performance.now() - started);
  }
  const median = (values: number[]): string =>
    values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!.toFixed(0);
  console.log(
    `sample: ${input.trees.length} rows, ${beginSeason(input).tasks.length} of them unlike, planned anew in ` +
      `${median(planning)} ms, with crew days ${median(reading)} ms (goal ${GOAL.milliseconds} ms; median of ${planning.length})`,
  );
}

await sample();
await inventories();
