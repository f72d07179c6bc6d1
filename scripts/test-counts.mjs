/** Prints "N passed, N failed" from vitest's JSON report; fails on any failure, skip or empty run. */
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/**
 * Counts of a report. A file that could not be loaded has no tests of its own, so it counts as one
 * failure.
 */
export function countsOf(report) {
  const brokenFiles = report.testResults.filter(
    (file) => file.status === 'failed' && file.assertionResults.every((t) => t.status !== 'failed'),
  ).length;
  return {
    passed: report.numPassedTests,
    failed: report.numFailedTests + brokenFiles,
    skipped: report.numPendingTests + (report.numTodoTests ?? 0),
  };
}

function main() {
  const path = process.argv[2];
  if (path === undefined || !existsSync(path)) {
    process.stderr.write('The tests left no report, so they did not run to the end.\n');
    process.stdout.write('0 passed, 1 failed\n');
    return 1;
  }
  const { passed, failed, skipped } = countsOf(JSON.parse(readFileSync(path, 'utf8')));
  if (skipped > 0) process.stderr.write(`${skipped} tests were skipped; here none may be.\n`);
  process.stdout.write(`${passed} passed, ${failed} failed\n`);
  return failed > 0 || skipped > 0 || passed === 0 ? 1 : 0;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) process.exitCode = main();
