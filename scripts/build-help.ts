/**
 * Writes the help pages into a folder: one page a function, the list, the conventions, the checks.
 *
 *   npx tsx scripts/build-help.ts [folder]     default: dist/help; webpack.config.js does it in every build
 */
import { copyFileSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { REFERENCE_TABLES } from '../src/engine/reference-tables.js';
import { FUNCTIONS } from '../src/functions/index.js';
import type {
  FunctionData,
  FunctionNote,
  HelpData,
  ReferenceCase,
  RulePattern,
} from '../src/help/data.js';
import { typedExamples } from '../src/help/typed-examples.js';
import { helpPages } from '../src/help/site.js';
import { twin, TWIN_IDS, twinArguments } from '../src/workbook/native-twins.js';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..');
const STATIC = ['help.css', 'search.js'];

const readJson = (...path: string[]): unknown =>
  JSON.parse(readFileSync(join(ROOT, ...path), 'utf8'));

/** Every .json file below tests/reference, in a fixed order. */
function referenceFiles(): unknown[] {
  return readdirSync(join(ROOT, 'tests', 'reference'), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.json'))
    .sort()
    .map((name) => readJson('tests', 'reference', name));
}

function twinOf(id: string): ReturnType<HelpData['twinOf']> {
  const known = TWIN_IDS.find((each) => each === id);
  if (known === undefined) return undefined;
  const cells = twinArguments(known).map(({ name }, i) => ({
    cell: `${String.fromCharCode(65 + i)}2`,
    name,
  }));
  const formula = twin(
    known,
    cells.map(({ cell }) => cell),
    'US',
  );
  return { formula: `=${formula}`, cells };
}

/** What the pages are made of, read from the project as it stands. */
export function helpData(): HelpData {
  const { version } = readJson('package.json') as { version: string };
  const described = readJson('src', 'generated', 'functions.json') as {
    functions: FunctionData[];
    enums?: HelpData['enums'];
  };
  const files = referenceFiles();
  return {
    version,
    functions: described.functions,
    enums: described.enums ?? [],
    notes: readJson('src', 'generated', 'function-notes.json') as Record<string, FunctionNote>,
    cases: files.flatMap((file) => (Array.isArray(file) ? (file as ReferenceCase[]) : [])),
    patterns: files.filter(
      (file): file is RulePattern => typeof file === 'object' && file !== null && 'pattern' in file,
    ),
    tables: REFERENCE_TABLES,
    implementations: FUNCTIONS,
    twinOf,
  };
}

/** Writes all pages; the folder is made anew, so that no page of a renamed function stays. */
export function writeHelp(folder: string): number {
  const data = helpData();
  const pages = helpPages(data);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  for (const [name, text] of pages) writeFileSync(join(folder, name), text);
  writeFileSync(join(folder, 'examples.json'), JSON.stringify(typedExamples(data)));
  for (const name of STATIC) copyFileSync(join(ROOT, 'src', 'help', name), join(folder, name));
  return pages.size;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const folder = process.argv[2] ?? join(ROOT, 'dist', 'help');
  process.stdout.write(`${writeHelp(folder)} help pages in ${folder}\n`);
}
