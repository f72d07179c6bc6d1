/** What the help pages are made of. Everything comes from the declarations and the data; nothing is written per function. */
import { upperFirst } from '../engine/first-letter.js';
import type { ReferenceTable } from '../engine/reference-tables.js';

export interface ParameterData {
  name: string;
  description: string;
  optional?: boolean;
  dimensionality?: string;
  customEnumId?: string;
}

export interface FunctionData {
  id: string;
  description: string;
  parameters: ParameterData[];
  helpUrl: string;
}

export interface FunctionNote {
  family: string;
  result: string;
  equation: string;
  range: string;
  errors: string;
  source: string;
}

/** One reference case, or several under one name and source. */
export interface ReferenceCase {
  name: string;
  function?: string;
  engine?: string;
  inputs?: unknown[];
  expected?: unknown;
  rows?: { inputs: unknown[]; expected: unknown }[];
  /** absolute, or by part */
  tolerance?: unknown;
  relative?: number;
  source: string;
  certainty: string;
  /** the case to show as the worked example */
  worked?: boolean;
}

/** A rules table with moments at which watering is open or not. */
export interface RulePattern {
  pattern: string;
  says: string;
  source: string;
  moments: unknown[];
}

export interface HelpData {
  version: string;
  functions: readonly FunctionData[];
  notes: Readonly<Record<string, FunctionNote>>;
  enums: readonly { id: string; values: readonly { stringValue: string }[] }[];
  cases: readonly ReferenceCase[];
  patterns: readonly RulePattern[];
  tables: Readonly<Record<string, readonly ReferenceTable[]>>;
  implementations: Readonly<Record<string, (...args: never[]) => unknown>>;
  /** the native twin for US units with cells A2, B2, …, or undefined */
  twinOf: (id: string) => { formula: string; cells: { cell: string; name: string }[] } | undefined;
}

/** The note of a function; the generator of the notes sees to it that there is one. */
export function noteOf(data: HelpData, id: string): FunctionNote {
  const note = data.notes[id];
  if (note === undefined) throw new Error(`function-notes.json does not speak of ${id}.`);
  return note;
}

export const casesOf = (data: HelpData, id: string): ReferenceCase[] =>
  data.cases.filter((each) => each.function === id);

/** Rule patterns speak for every function that reads a rules table. */
export const patternsOf = (data: HelpData, { parameters }: FunctionData): readonly RulePattern[] =>
  parameters.some(({ name }) => name === 'rules') ? data.patterns : [];

/** Number of values a case compares. */
export const valuesIn = (each: ReferenceCase): number => each.rows?.length ?? 1;

/** How sure a value is, in words; the legend stands on the page about checks. */
export const CERTAINTY_WORDS: Readonly<Record<string, string>> = {
  seen: 'seen in the publication',
  secondary: 'read in a copy or an extract',
  memory: 'from memory, to be confirmed',
  computed: 'computed independently',
  assumption: 'assumption of this model',
  'common practice, no source': 'common practice, no source',
};

export function certaintyWords(certainty: string): string {
  const words = CERTAINTY_WORDS[certainty];
  if (words === undefined)
    throw new Error(`The reference data uses an unknown certainty "${certainty}".`);
  return words;
}

/** A rule pattern names its certainty within its source: "a publication, seen". */
export function patternSource({ source }: RulePattern): { source: string; certainty: string } {
  const found = /, (seen|secondary|memory|computed)\b/.exec(source);
  if (found?.[1] === undefined) throw new Error(`The rules of "${source}" do not say how sure.`);
  return { source: source.replace(found[0], ''), certainty: found[1] };
}

/** Functions of the same family, those its text names, and those whose result is one of its arguments; both ways. */
export function relatedTo(data: HelpData, fn: FunctionData): FunctionData[] {
  const family = noteOf(data, fn.id).family;
  return data.functions.filter(
    (other) =>
      other.id !== fn.id &&
      (noteOf(data, other.id).family === family ||
        names(data, fn, other) ||
        names(data, other, fn)),
  );
}

function names(data: HelpData, one: FunctionData, other: FunctionData): boolean {
  if (one.parameters.some(({ name }) => name.toUpperCase() === other.id)) return true;
  const note = noteOf(data, one.id);
  const words = [one.description, ...one.parameters.map((each) => each.description)]
    .concat(note.result, note.range, note.errors, note.source)
    .join(' ')
    .split(/[^A-Z0-9_]+/);
  return words.includes(other.id);
}

/** "tree-and-soil" as a heading. */
export const familyTitle = (family: string): string => upperFirst(family.replaceAll('-', ' '));
