/**
 * Bundles the grid's library into modules beside the desk's page: dist/vendor/grid.js, grid-engine.js and what both share.
 * They change only with the library's version, so a bundle that is there already stays.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const ENTRIES = { grid: 'src/desk/grid-library.ts', 'grid-engine': 'src/desk/grid-engine.ts' };
/** Stands for the browser's message channels, of which the library closes none. */
const CHANNEL = 'src/desk/one-channel.ts';
/** Ends what the library's layers would hold on to. */
const LAYERS = 'src/desk/layer-objects.ts';
/** Ends what its reader of formulas would hold on to. */
const BRACKETS = 'src/desk/formula-brackets.ts';
/** What the bundle is made from, beside the library itself, whose versions the lock file holds. */
const MADE_FROM = [...Object.values(ENTRIES), CHANNEL, LAYERS, BRACKETS, 'package-lock.json'];

/**
 * Leaves out the patterns by which the library hyphenates running text in seventy languages, 4.7 MB: cells are not
 * hyphenated. The library takes a language without patterns as one that it does not hyphenate.
 */
const withoutHyphens = {
  name: 'without-hyphens',
  setup(bundle) {
    bundle.onResolve({ filter: /^\.\// }, ({ kind, importer }) =>
      kind === 'dynamic-import' && /engine-render/.test(importer)
        ? { path: 'none', namespace: 'no-patterns' }
        : undefined,
    );
    bundle.onLoad({ filter: /.*/, namespace: 'no-patterns' }, () => ({ contents: 'export {};' }));
  },
};

function keyOf(root) {
  const hash = createHash('sha256').update(readFileSync(fileURLToPath(import.meta.url)));
  for (const path of MADE_FROM) hash.update(readFileSync(join(root, path)));
  return hash.digest('hex').slice(0, 16);
}

/** Writes the bundle into `dist` where it is missing or was made from something else. */
export async function buildGrid(root, dist) {
  const folder = join(dist, 'vendor');
  mkdirSync(folder, { recursive: true });
  const banner = `/* The grid's library, licences in LICENSE.txt and *.LEGAL.txt; made from ${keyOf(root)} */`;
  const file = join(folder, 'grid.js');
  if (existsSync(file) && readFileSync(file, 'utf8').startsWith(banner)) return;
  for (const name of readdirSync(folder))
    if (/^grid.*\.js(\.LEGAL\.txt)?$/.test(name)) rmSync(join(folder, name));
  await build({
    absWorkingDir: root,
    entryPoints: ENTRIES,
    outdir: folder,
    chunkNames: 'grid-[hash]',
    bundle: true,
    splitting: true,
    minify: true,
    format: 'esm',
    target: 'es2022',
    define: { 'process.env.NODE_ENV': '"production"', MessageChannel: 'OneChannel' },
    inject: [CHANNEL],
    legalComments: 'external',
    banner: { js: banner },
    plugins: [withoutHyphens],
    logLevel: 'warning',
  });
}
