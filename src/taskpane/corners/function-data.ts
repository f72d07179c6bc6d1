/** What the functions say of themselves: fetched when a corner needs it, once. */
import type { Units } from '../../engine/units.js';
import type { Language } from '../parts/format.js';

export interface FunctionParameter {
  name: string;
  description: string;
  optional?: boolean;
  type?: string;
  dimensionality?: string;
  customEnumId?: string;
  /** the words it takes, where they are a list */
  choices?: readonly string[];
}
export interface FunctionEntry {
  id: string;
  description: string;
  parameters: readonly FunctionParameter[];
  helpUrl: string;
}
export interface FunctionNote {
  family: string;
  result: string;
  equation: string;
  range: string;
  source: string;
}

interface Described {
  functions: readonly FunctionEntry[];
  enums: readonly { id: string; values: readonly { stringValue: string }[] }[];
}

let english: Promise<readonly FunctionEntry[]> | undefined;
let spanish: Promise<readonly FunctionEntry[]> | undefined;
let notes: Promise<Readonly<Record<string, FunctionNote>>> | undefined;

function withChoices({ functions, enums }: Described): FunctionEntry[] {
  const lists = new Map(enums.map(({ id, values }) => [id, values.map((v) => v.stringValue)]));
  return functions.map((entry) => ({
    ...entry,
    parameters: entry.parameters.map((parameter) => {
      const choices = lists.get(parameter.customEnumId ?? '');
      return choices ? { ...parameter, choices } : parameter;
    }),
  }));
}

async function describedIn(language: Language): Promise<readonly FunctionEntry[]> {
  if (language === 'es') {
    const file = await import('../../generated/functions-es.json', { with: { type: 'json' } });
    return withChoices(file.default as Described);
  }
  const file = await import('../../generated/functions.json', { with: { type: 'json' } });
  return withChoices(file.default as Described);
}

/** All functions, described in a language; names of parameters are English in both. */
export function loadFunctions(language: Language): Promise<readonly FunctionEntry[]> {
  if (language === 'es') return (spanish ??= describedIn('es'));
  return (english ??= describedIn('en'));
}

/** Equation, result and source by function, in English. */
export const loadNotes = (): Promise<Readonly<Record<string, FunctionNote>>> =>
  (notes ??= import('../../generated/function-notes.json', { with: { type: 'json' } }).then(
    (file) => file.default as Record<string, FunctionNote>,
  ));

/** Arguments of a worked example as they are typed in each system, "" for one left out; null where they cannot be typed. */
export type Example = Readonly<Record<Units, readonly (string | null)[]>>;

let examples: Promise<Readonly<Record<string, Example>>> | undefined;

/** Worked examples of the help pages, by function. @throws Error if the page's server does not give them */
export function loadExamples(): Promise<Readonly<Record<string, Example>>> {
  examples ??= fetchExamples().catch((error: unknown) => {
    examples = undefined;
    throw error;
  });
  return examples;
}

async function fetchExamples(): Promise<Record<string, Example>> {
  const answer = await fetch('help/examples.json');
  if (!answer.ok) throw new Error(`help/examples.json was not served (${answer.status})`);
  return (await answer.json()) as Record<string, Example>;
}

/** The page beside this one, whatever server it is from. */
export const helpPage = (id: string): string => `help/${id}.html`;
