/**
 * Builds dist/ with webpack: a folder that any web server can hand out.
 *
 *   node scripts/build.mjs                                  for https://localhost:3000, where it is developed
 *   node scripts/build.mjs --base-url https://example.com   for another place; also SOAKBOOK_BASE
 *   node scripts/build.mjs --namespace SOAKTEST             for a second add-in beside the first; also SOAKBOOK_NAMESPACE
 *   node scripts/build.mjs --if-stale                       only when a source is newer than the last build, or the place differs
 */
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { readStamp, settingsFrom } from './make-manifest.mjs';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const SOURCES = [
  'src',
  'assets',
  'sample-workbooks',
  'tests/reference',
  'docs',
  'manifest.xml',
  'scripts/build-docs.ts',
  'scripts/build-docs-markdown.ts',
  'scripts/build-grid.mjs',
  'scripts/build-help.ts',
  'scripts/make-manifest.mjs',
  'scripts/offline-list.mjs',
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

/**
 * True when dist/ is missing, was built for another place, or something it is made of is newer. The stamp is written
 * last.
 */
export function isStale(root, place = settingsFrom(process.env)) {
  const made = readStamp(root);
  if (made?.base !== place.base || made.namespace !== place.namespace) return true;
  const built = statSync(join(root, 'dist', 'built.txt')).mtimeMs;
  return SOURCES.some((name) => newest(join(root, name)) > built);
}

/**
 * The functions load into the spreadsheet program with every workbook: their bundle stays small [bytes, gzip]. 57 of
 * them took 61 kB; with contracts, shortage and logs, which read tables of their own, 64 take 75 kB, and 79 kB with the
 * words of ordinances and limits in the units of the reader.
 */
export const FUNCTIONS_LIMIT = 82_000;

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

/** What the command line says goes before the environment. */
export function environmentFor(args, env) {
  const made = { ...env };
  const options = { '--base-url': 'SOAKBOOK_BASE', '--namespace': 'SOAKBOOK_NAMESPACE' };
  for (let i = 0; i < args.length; i++) {
    if (args[i] === '--if-stale') continue;
    const [name, inline] = args[i].split(/=(.*)/s);
    const variable = options[name];
    if (variable === undefined)
      throw new Error(
        `"${args[i]}" is no option of build; there are --base-url, --namespace and --if-stale.`,
      );
    const value = inline ?? args[++i];
    if (value === undefined || value === '' || value.startsWith('--'))
      throw new Error(`${name} needs a value.`);
    made[variable] = value;
  }
  return made;
}

function main() {
  const args = process.argv.slice(2);
  const env = environmentFor(args, process.env);
  const place = settingsFrom(env);
  if (args.includes('--if-stale') && !isStale(ROOT, place)) return 0;
  process.stderr.write(`Building dist/ for ${place.base}, namespace ${place.namespace} …\n`);
  const webpack = join(ROOT, 'node_modules', 'webpack-cli', 'bin', 'cli.js');
  const run = spawnSync(process.execPath, [webpack, '--mode', 'production'], {
    cwd: ROOT,
    env,
    stdio: ['ignore', 2, 2],
  });
  return run.status === 0 ? reportSize() : (run.status ?? 1);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  try {
    process.exitCode = main();
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
    process.exitCode = 2;
  }
}
