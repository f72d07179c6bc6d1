/** Builds dist/ with webpack. With --if-stale only when a source is newer than the last build. */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const SOURCES = [
  'src',
  'assets',
  'sample-workbooks',
  'tests/reference',
  'scripts/build-help.ts',
  'webpack.config.js',
  'package.json',
  'package-lock.json',
];

function newest(path) {
  if (!existsSync(path)) return 0;
  const info = statSync(path);
  if (!info.isDirectory()) return info.mtimeMs;
  return readdirSync(path).reduce(
    (time, name) => Math.max(time, newest(join(path, name))),
    info.mtimeMs,
  );
}

/** True when dist/ is missing or something it is made of is newer. The stamp is written last. */
export function isStale(root) {
  const stamp = join(root, 'dist', 'built.txt');
  if (!existsSync(stamp)) return true;
  const built = statSync(stamp).mtimeMs;
  return SOURCES.some((name) => newest(join(root, name)) > built);
}

/** The functions load into the spreadsheet program with every workbook: their bundle stays small [bytes, gzip]. */
export const FUNCTIONS_LIMIT = 60_000;

/** What travels for the functions alone [bytes, gzip]. */
export const functionsSize = (root) =>
  gzipSync(readFileSync(join(root, 'dist', 'functions.js')), { level: 9 }).length;

function reportSize() {
  const size = functionsSize(ROOT);
  const kB = (bytes) => `${(bytes / 1000).toFixed(1)} kB`;
  process.stderr.write(`functions.js ${kB(size)} gzip, limit ${kB(FUNCTIONS_LIMIT)}\n`);
  if (size <= FUNCTIONS_LIMIT) return 0;
  process.stderr.write('The functions have outgrown their limit; see what the bundle carries.\n');
  return 1;
}

function main() {
  if (process.argv.includes('--if-stale') && !isStale(ROOT)) return 0;
  process.stderr.write('Building dist/ …\n');
  const webpack = join(ROOT, 'node_modules', 'webpack-cli', 'bin', 'cli.js');
  const run = spawnSync(process.execPath, [webpack, '--mode', 'production'], {
    cwd: ROOT,
    stdio: ['ignore', 2, 2],
  });
  return run.status === 0 ? reportSize() : (run.status ?? 1);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) process.exitCode = main();
