/** The worked example of a function: a reference case, computed by the function itself. */
import { Problem } from '../engine/problems.js';
import { casesOf, type FunctionData, type HelpData, type ReferenceCase } from './data.js';
import { canBeTyped, formulaOf, shortNumber, shown } from './values.js';

export interface Example {
  case: ReferenceCase;
  formula: string;
  inputs: unknown[];
  result: unknown;
  /** what the source gives, and how near the function must come */
  published: string;
  within: string;
}

interface Row {
  inputs: unknown[];
  expected: unknown;
}

/** The case marked as worked, else the first with one expected value and arguments that can be typed. */
export function exampleOf(data: HelpData, fn: FunctionData): Example | undefined {
  const cases = casesOf(data, fn.id);
  const chosen =
    cases.find(({ worked }) => worked === true) ??
    cases.find((each) => canBeTyped(rowOf(each).inputs) && !isComparison(rowOf(each).expected)) ??
    cases.find((each) => canBeTyped(rowOf(each).inputs)) ??
    cases[0];
  if (chosen === undefined) return undefined;
  const { inputs: given, expected } = rowOf(chosen);
  const inputs = readable(data, fn, chosen);
  return {
    case: chosen,
    inputs,
    formula: formulaOf(fn.id, inputs, fn.parameters),
    result: resultOf(data, fn, inputs),
    published: publishedValue(fn, expected, given),
    within: withinWords(chosen),
  };
}

const rowOf = (each: ReferenceCase): Row =>
  each.rows?.[0] ?? { inputs: each.inputs ?? [], expected: each.expected };

/** What a cell would hold: the result, or the error with its sentence. */
export function resultOf(data: HelpData, fn: FunctionData, inputs: readonly unknown[]): unknown {
  const run = data.implementations[fn.id] as ((...args: unknown[]) => unknown) | undefined;
  if (run === undefined) throw new Error(`There is no function ${fn.id}.`);
  try {
    return run(...fn.parameters.map((_, i) => inputs[i] ?? null));
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return `${error.kind === 'none' ? '#N/A' : '#VALUE!'} ${error.message}`;
  }
}

/** Inputs of six digits, if the answer stays within the case's tolerance; cases converted from SI have sixteen. */
function readable(data: HelpData, fn: FunctionData, each: ReferenceCase): unknown[] {
  const { inputs, expected } = rowOf(each);
  const short = inputs.map((value) =>
    typeof value === 'number' ? Number(shortNumber(value)) : value,
  );
  const result = resultOf(data, fn, short);
  const limit = allowed(each, expected);
  const isNear =
    typeof result === 'number' &&
    typeof expected === 'number' &&
    limit !== undefined &&
    Math.abs(result - expected) <= limit;
  return isNear ? short : inputs;
}

function allowed({ relative, tolerance }: ReferenceCase, expected: unknown): number | undefined {
  if (relative !== undefined && typeof expected === 'number') return Math.abs(expected) * relative;
  return typeof tolerance === 'number' ? tolerance : undefined;
}

const isComparison = (expected: unknown): boolean =>
  expected !== null &&
  typeof expected === 'object' &&
  ('sameAs' in expected || ('share' in expected && 'of' in expected));

/** What is expected, in words: a value, or a share of what another call gives. */
export function publishedValue(fn: FunctionData, expected: unknown, inputs: unknown[]): string {
  if (!isComparison(expected)) return shown(expected);
  const { sameAs, share, of } = expected as { sameAs?: unknown[]; share?: number; of?: unknown[] };
  const other = formulaOf(fn.id, sameAs ?? of ?? inputs, fn.parameters);
  return sameAs === undefined ? `${shown(share)} of what ${other} gives` : `what ${other} gives`;
}

/** The tolerance of a case in words. */
export function withinWords({ relative, tolerance }: ReferenceCase): string {
  if (relative !== undefined) return `within ${shortNumber(relative * 100)} %`;
  if (tolerance === undefined) return 'exactly';
  if (typeof tolerance !== 'number') return `within ${shown(tolerance)}`;
  return tolerance <= 1e-9 ? 'exactly' : `within ${shortNumber(tolerance)}`;
}
