/**
 * Writes src/generated/functions.json, the host's description of every worksheet function,
 * src/generated/functions-es.json, the same in Spanish, and src/generated/function-notes.json, what the help pages
 * add to it (equation, range, errors, source). All come from the JSDoc in src/functions, which is the only place a
 * function is declared; the Spanish sentences stand in src/functions/words-es.json.
 *
 *   node scripts/build-metadata.mjs           write all three
 *   node scripts/build-metadata.mjs --check   exit 1 if a file is out of date or a declaration has an error
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import metadataTool from 'custom-functions-metadata';
import { tsImport } from 'tsx/esm/api';
import ts from 'typescript';
import { translated } from './build-metadata-words.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const folder = join(root, 'src', 'functions');
const generated = join(root, 'src', 'generated');
const NOTE_TAGS = ['equation', 'range', 'throws', 'source'];
/** Where the add-in is served while it is developed; a build for another place writes its own (see webpack.config.js). */
const BASE = 'https://localhost:3000';
const { PARAMETER_CHOICES } = await tsImport('../src/functions/choices.ts', import.meta.url);

const fail = (sentence) => {
  process.stderr.write(`${sentence}\n`);
  process.exit(1);
};

const oneLine = (text) => text.replace(/\s+/g, ' ').trim();

/** Source files that declare functions, in a fixed order so that the output never depends on the disk. */
const declaring = () =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.ts'))
    .map((name) => join(folder, name))
    .filter((file) => /@customfunction\s/.test(readFileSync(file, 'utf8')))
    .sort();

/** The host's description; line breaks of the source do not belong in a tooltip. */
async function describe(files) {
  const { metadataJson, errors } = await metadataTool.generateCustomFunctionsMetadata(files);
  if (errors.length > 0)
    fail(`A function declaration has errors:\n${errors.map((error) => `  ${error}`).join('\n')}`);
  const metadata = JSON.parse(metadataJson);
  const silent = [];
  for (const fn of metadata.functions) {
    fn.description = oneLine(fn.description ?? '');
    if (fn.description === '') silent.push(fn.id);
    for (const parameter of fn.parameters) {
      // a last underscore only keeps a name from being a word of the language, such as class
      parameter.name = parameter.name.replace(/_$/, '');
      parameter.description = oneLine(parameter.description ?? '');
      if (parameter.description === '') silent.push(`${fn.id} ${parameter.name}`);
    }
  }
  const enums = addChoices(metadata.functions);
  if (silent.length > 0) fail(`These have no description: ${silent.join(', ')}.`);
  for (const fn of metadata.functions) fn.helpUrl = `${BASE}/help/${fn.id}.html`;
  metadata.functions.sort((a, b) => (a.id < b.id ? -1 : 1));
  return { ...metadata, ...(enums.length > 0 ? { enums } : {}) };
}

/** The lists of words that a host offers for a parameter; the tool's own form, from the table of choices.ts. */
function addChoices(functions) {
  const used = new Map();
  for (const fn of functions)
    for (const parameter of fn.parameters) {
      const choices =
        PARAMETER_CHOICES[`${fn.id}.${parameter.name}`] ?? PARAMETER_CHOICES[parameter.name];
      if (choices === undefined) continue;
      parameter.type = 'string';
      parameter.customEnumId = choices.id;
      used.set(choices.id, {
        id: choices.id,
        type: 'string',
        values: choices.words.map((word) => ({
          name: word.toUpperCase().replace(/[^A-Z0-9]+/g, '_'),
          stringValue: word,
          tooltip: '',
        })),
      });
    }
  return [...used.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
}

/** What the tool does not carry over: result, equation, range, errors, source. */
function notesOf(files) {
  const notes = {};
  for (const file of files) {
    const source = ts.createSourceFile(
      file,
      readFileSync(file, 'utf8'),
      ts.ScriptTarget.Latest,
      true,
    );
    for (const statement of source.statements) {
      if (!ts.isFunctionDeclaration(statement)) continue;
      const tags = ts.getJSDocTags(statement);
      const textOf = (name) => {
        const tag = tags.find((each) => each.tagName.text === name);
        return tag === undefined ? '' : oneLine(ts.getTextOfJSDocComment(tag.comment) ?? '');
      };
      const id = textOf('customfunction');
      if (id === '') continue;
      const note = {
        family: relative(folder, file).replace(/\.ts$/, ''),
        result: textOf('returns'),
      };
      for (const name of NOTE_TAGS) note[name === 'throws' ? 'errors' : name] = textOf(name);
      const missing = Object.keys(note).filter((key) => note[key] === '');
      if (missing.length > 0) fail(`${id} does not say its ${missing.join(', ')}.`);
      notes[id] = note;
    }
  }
  return Object.fromEntries(Object.entries(notes).sort(([a], [b]) => (a < b ? -1 : 1)));
}

const files = declaring();
const described = await describe(files);
const words = JSON.parse(readFileSync(join(folder, 'words-es.json'), 'utf8'));
const spanish = translated(described, words.sentences);
const outputs = {
  'functions.json': described,
  'functions-es.json': spanish.described,
  'function-notes.json': notesOf(files),
};
for (const sentence of spanish.missing)
  process.stderr.write(`words-es.json lacks "${sentence}"; it is shown in English.\n`);
const check = process.argv.includes('--check');
mkdirSync(generated, { recursive: true });
for (const [name, content] of Object.entries(outputs)) {
  const path = join(generated, name);
  const text = `${JSON.stringify(content, null, 2)}\n`;
  if (!check) {
    writeFileSync(path, text);
    continue;
  }
  let current = '';
  try {
    current = readFileSync(path, 'utf8');
  } catch {
    fail(`src/generated/${name} is missing; run node scripts/build-metadata.mjs.`);
  }
  if (current !== text)
    fail(`src/generated/${name} is out of date; run node scripts/build-metadata.mjs.`);
}
process.stdout.write(
  `${outputs['functions.json'].functions.length} functions ${check ? 'agree with' : 'written to'} src/generated.\n`,
);
