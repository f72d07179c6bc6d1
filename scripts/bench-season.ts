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

/** Times t of sizes n as t = c·n^k, by least squares of their logarithms. */
function growth(
  sizes: readonly number[],
  times: readonly number[],
): { power: number; fit: number } {
  const x = sizes.map(Math.log);
  const y = times.map(Math.log);
  const mean = (values: number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
  const [mx, my] = [mean(x), mean(y)];
  const sum = (a: number[], ma: number, b: number[], mb: number): number =>
    a.reduce((total, value, i) => total + (value - ma) * (b[i]! - mb), 0);
  const power = sum(x, mx, y, my) / sum(x, mx, x, mx);
  return { power, fit: sum(x, mx, y, my) ** 2 / (sum(x, mx, x, mx) * sum(y, my, y, my)) };
}

async function inventories(): Promise<void> {
  const threads = usualThreads();
  const pool = nodePool(threads);
  const season = benchSeason();
  await pool.plan({ ...season, trees: benchTrees(4_000) }); // threads started, code warm
  const times: number[] = [];
  for (const size of SIZES) {
    const trees = benchTrees(size);
    const started = performance.now();
    const plan = await pool.plan({ ...season, trees });
    const seconds = (performance.now() - started) / 1000;
    times.push(seconds);
    if (plan.trees.length !== size) throw new Error(`${plan.trees.length} of ${size} planned`);
    console.log(
      `season: ${size.toLocaleString('en-US')} distinct trees × ${DAYS} days × all means, ${threads} threads: ` +
        `${seconds.toFixed(2)} s, ${((seconds / size) * 1e6).toFixed(0)} µs a tree, peak so far ${peak().toFixed(0)} MB`,
    );
  }
  pool.end();
  const { power, fit } = growth(SIZES, times);
  console.log(`season: time grows as trees^${power.toFixed(3)} (R² ${fit.toFixed(4)})`);
  console.log(
    `season: goals ${GOAL.seconds} s and ${GOAL.megabytes} MB; here ${times.at(-1)!.toFixed(1)} s and ${peak().toFixed(0)} MB`,
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
