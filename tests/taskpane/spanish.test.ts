/**
 * The planner's sentences in Spanish: those that are really said over the sample, invented inventories, rules tables, kits,
 * weather, plans, contracts, shortages, logs and files, good and bad. Common practice, no source.
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { TRIAGE_ORDER_NAMES } from '../../src/engine/contract/triage-orders.js';
import { FAMILIES } from '../../src/engine/plan/model.js';
import { RULE_COLUMNS } from '../../src/engine/rules/rule-parse.js';
import { MEANS_WORDS, NEED_WORDS, SOURCE_WORDS, TARGET_WORDS, VERDICT_WORDS } from '../../src/engine/rules/rule-types.js'; // prettier-ignore
import { STARTER_TABLES } from '../../src/engine/rules/starter-tables.js';
import { TEXTURES } from '../../src/engine/soil/texture.js';
import { LABELS } from '../../src/tables/inventory/index.js';
import { SITE_INPUTS } from '../../src/tables/site-inputs.js';
import { JOINTS, THEMES } from '../../src/taskpane/spanish/index.js';
import { Catalogue, holesOf, type Found, type Pair } from '../../src/taskpane/spanish/match.js';
import { program } from '../../src/taskpane/spanish/program.js';
import { fileSentences } from './said/files.js';
import { inventorySentences } from './said/inventories.js';
import { keptSentences } from './said/kept.js';
import { planSentences, sampleTrees } from './said/plans.js';
import { contractSentences, logSentences, shortageSentences } from './said/service.js';
import { rulesSentences, setupSentences } from './said/setups.js';

const SOURCE = join(import.meta.dirname, '..', '..', 'src');
const catalogue = new Catalogue(THEMES, JOINTS);
const said = new Map<string, readonly string[]>();
const found = new Map<string, Found>();
const all = (): string[] => [...new Set([...said.values()].flat())];

beforeAll(async () => {
  const trees = await sampleTrees();
  said.set('inventories', await inventorySentences([trees]));
  said.set('site, kit, weather', await setupSentences());
  said.set('rules', await rulesSentences(trees));
  said.set('plans and what if', await planSentences(trees));
  said.set('contract', await contractSentences(trees));
  said.set('shortage', await shortageSentences(trees));
  said.set('log', await logSentences(trees));
  said.set('files', [...(await fileSentences()), ...(await keptSentences())]);
  for (const sentence of all()) {
    const one = catalogue.find(sentence);
    if (one) found.set(sentence, one);
  }
}, 240_000);

/** Numbers and units as they stand in a sentence. */
const NUMBERS = /\d+(?:[.,]\d+)*/g;
const UNITS =
  /(?<=\d ?)(mm|cm|m|in(?=$|[),.;]| of | trunk| height| to )|ft|gal|L|min|h|%|°C|m³)(?![\p{L}])/gu;
/** Spanish has no word "in". */
const SPANISH_UNITS = /(?<=\d ?)(mm|cm|m|in|ft|gal|L|min|h|%|°C|m³)(?![\p{L}])/gu;
/** What of one list the other lacks, counting like ones. */
function lacking(wanted: readonly string[], there: readonly string[]): string[] {
  const left = [...there];
  return wanted.filter((one) => {
    const at = left.indexOf(one);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}
/** What one must type is the same in every language. */
const TYPED: ReadonlySet<string> = new Set(RULE_COLUMNS.map(({ accepted }) => accepted));
const listed = (text: string, what: RegExp): string[] =>
  [...text.matchAll(what)].map(([m]) => m).sort();

describe('what the planner says', () => {
  it('is said by more than two thousand sentences here, of every theme', () => {
    expect(all().length).toBeGreaterThan(2000);
    for (const [theme, sentences] of said) expect(sentences.length, theme).toBeGreaterThan(30);
  });

  it.each(['inventories', 'site, kit, weather', 'rules', 'plans and what if', 'contract', 'shortage', 'log', 'files'])(
    'has a Spanish for every sentence: %s',
    (theme) => {
      const missing = [...new Set(said.get(theme))].filter((sentence) => !found.has(sentence));
      expect(missing).toEqual([]);
    },
  ); // prettier-ignore

  it('is another sentence in Spanish, with the same numbers and units', () => {
    for (const [sentence, { text }] of found) {
      if (sentence !== 'no' && !TYPED.has(sentence)) expect(text).not.toBe(sentence);
      expect(text).not.toMatch(/[{}]/);
      expect(lacking(listed(sentence, NUMBERS), listed(text, NUMBERS)), text).toEqual([]);
      expect(lacking(listed(sentence, UNITS), listed(text, SPANISH_UNITS)), text).toEqual([]);
    }
  });

  it('begins with a capital letter or a small one as the English does, and ends with the same stop', () => {
    for (const [sentence, { text }] of found) {
      if (TYPED.has(sentence)) continue;
      const [mine, theirs] = [/\p{L}/u.exec(text)![0], /\p{L}/u.exec(sentence)![0]];
      const verbatim = sentence.startsWith(text.slice(0, 3));
      if (!verbatim && /^\p{L}/u.test(sentence) && /^[¿]?\p{L}/u.test(text))
        expect(mine === mine.toUpperCase(), text).toBe(theirs === theirs.toUpperCase());
      expect(/[.?]$/.exec(text)?.[0], text).toBe(/[.?]$/.exec(sentence)?.[0]);
    }
  });

  it('has no English left but names, headers, and words one must type', () => {
    const left =
      /\b(the|of|is|are|and|with|without|from|this|that|which|accepted|row|tree|trees|day|days|left out)\b/;
    const outside = (text: string): string =>
      text.replace(/«[^»]*»/g, '').replace(/se acepta:? [^.]*/g, '').replace(/\([^)]*\)/g, ''); // prettier-ignore
    const english = [...found]
      .filter(([sentence]) => !TYPED.has(sentence))
      .map(([, { text }]) => outside(text))
      .filter((text) => left.test(text));
    expect(english).toEqual([]);
  });
});

describe('the patterns', () => {
  const pairs = THEMES.flatMap((theme) => Object.entries(theme).flatMap(([group, list]) => list.map((pair) => ({ group, pair })))); // prettier-ignore
  /** Said, but by nothing small enough to be planned here; their words must stand in the source. */
  const RARE = [
    '1 crew day needs more than {h:num} hours; the longest needs {m:num}',
    '{n:num} more cannot be planned at all',
    'it would take the place of others that count for more',
    'The trees are planned as before; only full crew days change',
    '{d:dayName}: the hours are enough in all, but stop after stop {a:num} h of work would fall outside them',
  ];
  const ofProgram = new Set<Pair>(Object.values(program).flat());
  const LISTS = new Set(['count', 'means']);
  const isPattern = (group: string): boolean =>
    !LISTS.has(group) &&
    (group === 'say' || pairs.some((p) => p.group === group && holesOf(p.pair[0]).length > 0));

  it('are all used by a sentence that is really said; closed lists of words may have more words', () => {
    const used = new Set<Pair>([...found.values()].flatMap((one) => one.pairs));
    const unused = pairs.filter(
      ({ group, pair }) =>
        isPattern(group) && !ofProgram.has(pair) && !used.has(pair) && !RARE.includes(pair[0]),
    );
    expect(unused.map(({ group, pair }) => `${group}: ${pair[0]}`)).toEqual([]);
  });
  it('about programs stand in the source word by word: they are said by what is not here', () => {
    const files = ['workbook/writers/excel.ts', 'workbook/writers/excel-words.ts', 'workbook/writers/excel-undo.ts', 'taskpane/office-host.ts', 'taskpane/office-edits.ts', 'taskpane/formulas-stay.ts', 'taskpane/picked-file.ts', 'taskpane/readings.ts', 'taskpane/draft.ts', 'taskpane/sheets-read.ts', 'desk/sheet-edits.ts', 'desk/insert-formula.ts', 'taskpane/office-insert.ts', 'workers/room-function.ts', 'functions/arguments.ts', 'functions/bag.ts', 'desk/selected-cells.ts', 'desk/written-models.ts', 'workers/room-fill.ts']; // prettier-ignore
    const source = files.map((file) => readFileSync(join(SOURCE, file), 'utf8')).join('');
    for (const [pattern] of program.say!)
      for (const piece of pattern.split(/[{][^}]*[}]/).filter((text) => text.trim() !== ''))
        expect(source, pattern).toContain(piece);
  });
  it('about the spreadsheet program leave out none of its sentences', () => {
    const words = readFileSync(join(SOURCE, 'workbook/writers/excel-words.ts'), 'utf8');
    const sentences = [...words.matchAll(/'([A-Z][^'\n]{20,}\.)'/g)].map(
      ([, sentence]) => sentence!,
    );
    expect(sentences.length).toBeGreaterThan(8);
    expect(sentences.filter((sentence) => catalogue.find(sentence) === undefined)).toEqual([]);
  });
  it('that are rare stand in the source word by word', () => {
    const words = (file: string): string => readFileSync(join(SOURCE, file), 'utf8');
    const source = [
      'engine/plan/assemble.ts',
      'workbook/sheets/what-if.ts',
      'engine/contract/triage.ts',
      'engine/crew/smooth-plan.ts',
      'engine/plan/what-if.ts',
    ]
      .map(words)
      .join('');
    for (const pattern of RARE)
      for (const piece of pattern.split(/\{[^}]*\}|^1 crew /).filter((text) => text !== ''))
        expect(source, piece).toContain(
          piece.replace('day needs more', "day needs' : 'days need'} more"),
        );
  });
  it('know every word of the planner’s closed lists', () => {
    const listOf = (group: string): string[] => pairs.filter((p) => p.group === group).map(({ pair }) => pair[0]); // prettier-ignore
    const missing = (group: string, words: readonly string[]): string[] => words.filter((word) => !listOf(group).includes(word)); // prettier-ignore
    expect(missing('label', Object.values(LABELS))).toEqual([]);
    expect(missing('ruleMeans', MEANS_WORDS)).toEqual([]);
    expect(missing('water', SOURCE_WORDS)).toEqual([]);
    expect(missing('fitted', NEED_WORDS)).toEqual([]);
    expect(missing('typed', [...VERDICT_WORDS, ...TARGET_WORDS, ...RULE_COLUMNS.map(({ name }) => name)])).toEqual([]); // prettier-ignore
    expect(missing('choice', TEXTURES)).toEqual([]);
    expect(missing('family', FAMILIES)).toEqual([]);
    expect(missing('starter', STARTER_TABLES.map(({ name }) => name))).toEqual([]); // prettier-ignore
    expect(
      missing(
        'order',
        TRIAGE_ORDER_NAMES.map((name) => `"${name}"`),
      ),
    ).toEqual([]);
  });
  it('have the same holes in both languages', () => {
    for (const { pair } of pairs) expect(holesOf(pair[1]).sort(), pair[0]).toEqual(holesOf(pair[0]).sort()); // prettier-ignore
  });
  it('stand once in their group', () => {
    const names = pairs.map(({ group, pair }) => `${group}: ${pair[0]}`);
    expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
  });
  it('name only groups there are', () => {
    for (const group of Object.keys(JOINTS)) expect(pairs.some((p) => p.group === group), group).toBe(true); // prettier-ignore
  });
});

describe('a catalogue', () => {
  const small = new Catalogue(
    [{ say: [['{n:num} trees at {site}', '{n} árboles en {site}'], ['Which {w:thing}?', '¿Qué {w}?']], thing: [['tree', 'árbol'], ['house', 'casa']] }],
    { thing: [[' or ', ' o '], [' and ', ' y ']] },
  ); // prettier-ignore
  const text = (sentence: string) => small.find(sentence)?.text;
  it('gives nothing for a sentence that no pattern fits as a whole', () => {
    expect(text('3 trees')).toBe(undefined);
    expect(text('some trees at Park')).toBe(undefined);
    expect(text('Which bush?')).toBe(undefined);
    expect(text('3 trees at Park. Nobody knows.')).toBe(undefined);
  });
  it('gives up on a text made to keep it busy, and still knows the next one', () => {
    const busy = `All addresses may water by hand on Monday (${'a, b or c; row 4: x is "y", from 10:00 to 11:00 (on day 4), '.repeat(60)}).`; // prettier-ignore
    expect(catalogue.find(busy)).toBe(undefined);
    expect(catalogue.find('All addresses may water by hand on Monday.')?.text).toBe('Todas las direcciones pueden regar con manguera de mano los lunes.'); // prettier-ignore
  });
  it('takes several sentences, names with full stops in them, and small first letters', () => {
    expect(text('3 trees at St. Foo. Which tree?')).toBe('3 árboles en St. Foo. ¿Qué árbol?');
    expect(text('which tree or house?')).toBe('¿qué árbol o casa?');
  });
  it('knows every input of the site by its name', () => {
    for (const { name } of SITE_INPUTS)
      expect(catalogue.find(`${name} is "x", which is not a number; accepted is a number from 0 to 1.`), name).toBeDefined(); // prettier-ignore
  });
});
