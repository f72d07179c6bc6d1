/**
 * Writes dist/sheets/soakbook.gs: all worksheet functions as one script for Google Sheets, with the names SOAK_ET0 and
 * so on.
 *
 *   node scripts/build-sheets.mjs [file]
 *
 * That host runs scripts without modules, and shows a function's description from the comment in front of a plain
 * top-level declaration. So the code is bundled into one constant, and each function stands behind it by its name.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
/** The name that holds the code; its last underscore keeps it out of that host's list of functions. */
export const HOLDER = 'Soakbook_';
export const PREFIX = 'SOAK_';
/** What that host is known to run; from memory, cautious. Class fields and "??" are written out for it. */
const LANGUAGE = 'es2019';
/** Words that cannot name a parameter. */
const RESERVED = new Set(['class', 'default', 'new', 'in', 'for', 'function', 'return', 'this']);

const readJson = (name) => JSON.parse(readFileSync(join(ROOT, 'src', 'generated', name), 'utf8'));

const parameterName = ({ name }) => (RESERVED.has(name) ? `${name}_` : name);
const oneComment = (text) => text.replace(/\*\//g, '* /').replace(/\s+/g, ' ');

/** What the code must know of each function. */
const shapesOf = (functions) =>
  Object.fromEntries(
    functions.map(({ id, parameters, result }) => [
      id,
      {
        names: parameters.map(({ name }) => name),
        ranges: parameters.map(({ dimensionality }) => dimensionality === 'matrix'),
        spills: result.dimensionality === 'matrix',
      },
    ]),
  );

function declaration({ id, description, parameters, result }, note) {
  const type = { number: 'number', string: 'string', boolean: 'boolean' }[result.type] ?? 'Array';
  const names = parameters.map(parameterName);
  return [
    '/**',
    ` * ${oneComment(description)}`,
    ' *',
    ...parameters.map((parameter) => {
      const name = parameterName(parameter);
      const kind = parameter.dimensionality === 'matrix' ? 'Array' : 'any';
      return ` * @param {${kind}} ${parameter.optional ? `[${name}]` : name} ${oneComment(parameter.description)}`;
    }),
    ` * @return {${result.dimensionality === 'matrix' ? 'Array' : type}} ${oneComment(note.result)}`,
    ' * @customfunction',
    ' */',
    `function ${PREFIX}${id}(${names.join(', ')}) {`,
    `  return ${HOLDER}.call('${id}', arguments);`,
    '}',
  ].join('\n');
}

/** The script as text. */
export async function sheetsScript() {
  const { functions } = readJson('functions.json');
  const notes = readJson('function-notes.json');
  const { version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
  const entry = [
    "import './src/sheets/older-language.ts';",
    "import { FUNCTIONS } from './src/functions/index.ts';",
    "import { sheetCaller } from './src/sheets/adapter.ts';",
    "import { HOST_CLOCK } from './src/sheets/host-clock.ts';",
    `export const call = sheetCaller(FUNCTIONS, ${JSON.stringify(shapesOf(functions))}, HOST_CLOCK);`,
  ].join('\n');
  const { outputFiles } = await build({
    stdin: { contents: entry, resolveDir: ROOT, loader: 'ts' },
    bundle: true,
    write: false,
    format: 'iife',
    globalName: HOLDER,
    target: LANGUAGE,
    charset: 'utf8',
    legalComments: 'none',
    minifySyntax: true,
    minifyWhitespace: true,
  });
  return [
    `/* Soakbook ${version}: worksheet functions for a tree's water. Made by a program; do not change it here. */`,
    outputFiles[0].text.trim(),
    ...functions.map((fn) => declaration(fn, notes[fn.id])),
    '',
  ].join('\n\n');
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const file = process.argv[2] ?? join(ROOT, 'dist', 'sheets', 'soakbook.gs');
  const text = await sheetsScript();
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
  process.stdout.write(`${file}: ${(Buffer.byteLength(text) / 1000).toFixed(0)} kB\n`);
}
