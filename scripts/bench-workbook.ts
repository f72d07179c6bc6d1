/**
 * Seconds, memory and size of the whole way from an inventory to a workbook file, each length in a process of its own;
 * and how the time grows with the number of trees. Run by `npm run bench`.
 */
import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { runWorkbook, type WorkbookRun } from '../tests/bench/workbook.js';

const SIZES = [1_000, 5_000, 10_000, 20_000];
/** Above this much more processor time a tree than at 5,000 trees it no longer grows as a line [-]. */
const LINE = 1.5;

/** One length in a fresh process, so that its memory is its own. */
function measured(size: number): WorkbookRun {
  const self = fileURLToPath(import.meta.url);
  const said = execFileSync(process.execPath, [...process.execArgv, self, String(size)], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  return JSON.parse(said) as WorkbookRun;
}

const [given] = process.argv.slice(2);
if (given !== undefined) process.stdout.write(JSON.stringify(await runWorkbook(Number(given))));
else {
  const runs = SIZES.map((size) => {
    const run = measured(size);
    console.log(
      `workbook: ${size.toLocaleString('en-US')} distinct trees, ${run.rows.toLocaleString('en-US')} rows of tables: ` +
        `planned and built ${run.planned.toFixed(1)} s, written ${run.written.toFixed(1)} s, processor time ${run.worked.toFixed(1)} s ` +
        `or ${((run.worked / size) * 1000).toFixed(2)} ms a tree, peak ${run.peak.toFixed(0)} MB, file ${run.file.toFixed(1)} MB`,
    );
    return run;
  });
  const each = (run: WorkbookRun): number => run.worked / run.trees;
  const [, base, , last] = runs as [WorkbookRun, WorkbookRun, WorkbookRun, WorkbookRun];
  const ratio = each(last) / each(base);
  console.log(
    `workbook: processor time of a tree at ${last.trees.toLocaleString('en-US')} is ${ratio.toFixed(2)} times that at ${base.trees.toLocaleString('en-US')}` +
      `${ratio > LINE ? `: above ${LINE}, so it does not grow as a line` : ', so it grows as a line or less'}`,
  );
}
