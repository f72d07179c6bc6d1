/**
 * No worksheet function stands on our word alone: each has at least two checks whose answer comes from outside the project.
 * Counted from the data the checks run on: cases of tests/reference, and the second computations of tests/accuracy.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../src/functions/index.js';
import metadata from '../../src/generated/functions.json' with { type: 'json' };
import { ORACLES } from '../accuracy/oracles.js';
import { SEASONS } from '../accuracy/plan-seasons.js';
import { ENTRIES } from './catalogue.js';

const LEAST = 2;
/** "common practice, no source" is not among them. */
const OUTSIDE = ['seen', 'secondary', 'memory', 'computed'];

interface Row {
  inputs?: unknown[];
  expected?: unknown;
}
interface Case extends Row {
  function?: string;
  rows?: Row[];
  source: string;
  certainty: string;
}

const folder = new URL('../reference/', import.meta.url);
const cases = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .flatMap((name) => {
    const data: unknown = JSON.parse(readFileSync(new URL(name, folder), 'utf8'));
    return Array.isArray(data) ? (data as Case[]) : [];
  });

/** An answer that is only another answer of ours says nothing from outside. */
const fromOutside = ({ expected }: Row): boolean =>
  expected !== undefined &&
  !(typeof expected === 'object' && expected !== null && 'sameAs' in expected);

/** Different questions with an answer from outside; the same question twice counts once. */
function casesFor(id: string): number {
  const questions = cases
    .filter((each) => each.function === id && OUTSIDE.includes(each.certainty))
    .filter((each) => each.source.trim() !== '')
    .flatMap((each) => each.rows ?? [each])
    .filter(fromOutside)
    .map((row) => JSON.stringify(row.inputs));
  return new Set(questions).size;
}

/** Seasons worked out by hand are asked of each of these. */
const planned = (id: string): number => (id.startsWith('PLAN_') ? SEASONS.length : 0);

/** A version has no published value: version.test.ts compares it with two files that are not code of the function. */
const VERSION = 'SOAK_VERSION';

const counts = Object.fromEntries(
  Object.keys(ENTRIES).map((id) => [id, casesFor(id) + (id in ORACLES ? 1 : 0) + planned(id)]),
);

describe('checks from outside', () => {
  it('are counted for every function there is', () => {
    expect(Object.keys(counts).sort()).toEqual(metadata.functions.map((f) => f.id).sort());
    expect(Object.keys(counts).sort()).toEqual(Object.keys(FUNCTIONS).sort());
    for (const id of Object.keys(ORACLES)) expect(counts, id).toHaveProperty(id);
  });

  it.each(Object.entries(counts).filter(([id]) => id !== VERSION))(
    '%s has at least two (%d)',
    (_, count) => {
      expect(count).toBeGreaterThanOrEqual(LEAST);
    },
  );

  it(`${VERSION} is compared with the package and with its lock`, () => {
    const test = readFileSync(new URL('version.test.ts', import.meta.url), 'utf8');
    for (const text of [VERSION, 'package.json', 'package-lock.json']) expect(test).toContain(text);
  });
});
