/**
 * Four bundles of our own code into dist/: functions (for the host's functions runtime), taskpane (the panel inside the
 * host), desk (the page with the grid) and plan-room (the worker that reads, plans and writes for both pages); beside them
 * offline-worker, by which the desk opens without its server. Pictures, file writers and fonts are chunks that load when
 * they are first needed. The grid's library is a module of its own, which scripts/build-grid.mjs bundles once.
 */
import { copyFileSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import process from 'node:process';
import { EsbuildPlugin } from 'esbuild-loader';
import { tsImport } from 'tsx/esm/api';
import { buildGrid } from './scripts/build-grid.mjs';
import { settingsFrom, stampText, writePlace } from './scripts/make-manifest.mjs';
import { writeOfflineList } from './scripts/offline-list.mjs';

const ROOT = dirname(fileURLToPath(import.meta.url));
const DIST = join(ROOT, 'dist');
const GRID = 'node_modules/@univerjs/presets/lib';

/** Files served as they are: from, to. */
const COPIES = [
  [`${GRID}/styles/preset-sheets-core.css`, 'vendor/grid.css'],
  ['node_modules/@univerjs/presets/LICENSE', 'vendor/LICENSE.txt'],
  [
    'node_modules/dejavu-fonts-ttf/ttf/DejaVuSansCondensed.ttf',
    'vendor/fonts/DejaVuSansCondensed.ttf',
  ],
  [
    'node_modules/dejavu-fonts-ttf/ttf/DejaVuSansCondensed-Bold.ttf',
    'vendor/fonts/DejaVuSansCondensed-Bold.ttf',
  ],
  ['node_modules/dejavu-fonts-ttf/LICENSE', 'vendor/fonts/LICENSE.txt'],
  ['node_modules/highs/build/highs.wasm', 'vendor/highs.wasm'],
  ['node_modules/highs/LICENSE', 'vendor/highs-LICENSE.txt'],
  ['src/desk/desk.html', 'desk.html'],
  ['src/taskpane/taskpane.html', 'taskpane.html'],
  ['src/desk/desk.css', 'desk.css'],
  ['src/taskpane/panel.css', 'panel.css'],
  ['assets/mark.svg', 'mark.svg'],
];

/** Files of a folder as copies; only those a page opens. */
function folderCopies(from, to, wanted) {
  return readdirSync(join(ROOT, from))
    .filter((name) => wanted.test(name))
    .map((name) => [`${from}/${name}`, `${to}/${name}`]);
}

/** Copies the static files after each build and stamps it, so that a later build knows what is newer. */
class StaticFiles {
  apply(compiler) {
    compiler.hooks.afterEmit.tapPromise('StaticFiles', async (compilation) => {
      const copies = [
        ...COPIES,
        ...folderCopies('assets', 'assets', /\.(png|svg)$/),
        ...folderCopies('sample-workbooks', 'samples', /\.(csv|xlsx|json)$/),
      ];
      for (const [from, to] of copies) {
        mkdirSync(dirname(join(DIST, to)), { recursive: true });
        copyFileSync(join(ROOT, from), join(DIST, to));
      }
      await buildGrid(ROOT, DIST);
      const place = settingsFrom(process.env);
      writePlace(ROOT, DIST, place);
      const { writeHelp } = await tsImport('./scripts/build-help.ts', import.meta.url);
      writeHelp(join(DIST, 'help'));
      const { writeDocs } = await tsImport('./scripts/build-docs.ts', import.meta.url);
      writeDocs(DIST);
      writeOfflineList(DIST);
      if (compilation.errors.length === 0) {
        writeFileSync(join(DIST, 'built.txt'), stampText(place));
      }
    });
  }
}

export default (_env, { mode }) => ({
  mode,
  context: ROOT,
  entry: {
    functions: './src/functions/functions.ts',
    taskpane: './src/taskpane/taskpane.ts',
    desk: './src/desk/desk.ts',
    // a worker loads its chunks by importScripts, from its own origin
    'plan-room': { import: './src/workers/room-worker.ts', chunkLoading: 'import-scripts' },
    'offline-worker': './src/desk/offline-worker.ts',
  },
  // the minifier wraps each file once more and so sees what nothing uses
  output: { path: DIST, filename: '[name].js', chunkFilename: 'chunks/[name].js', iife: false },
  devtool: mode === 'production' ? false : 'source-map',
  target: ['web', 'es2022'],
  resolve: { extensions: ['.ts', '.js'], extensionAlias: { '.js': ['.ts', '.js'] } },
  module: {
    rules: [
      { test: /\.ts$/, loader: 'esbuild-loader', options: { target: 'es2022' } },
      {
        // told by us where its wasm file is; else its place on this machine would stand in the bundle
        test: /highs\.mjs$/,
        loader: 'esbuild-loader',
        options: { target: 'es2022', define: { 'import.meta.url': 'self.location.href' } },
        parser: { url: false },
      },
    ],
  },
  // the solver asks for it on Node only
  externals: { 'node:module': 'var undefined' },
  plugins: [new StaticFiles()],
  optimization: {
    minimizer: [
      new EsbuildPlugin({
        target: 'es2022',
        format: 'iife',
        treeShaking: true,
        legalComments: 'external',
      }),
    ],
  },
  performance: { hints: false },
  stats: 'errors-warnings',
});
