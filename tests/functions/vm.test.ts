/**
 * The file that the spreadsheet program loads, run alone in a bare virtual machine and called as that program calls:
 * the catalogue with every way a cell can reach an argument, and all published cases. Each answer must be the
 * documented one, and the same as that of the source.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Problem } from '../../src/engine/problems.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import described from '../../src/generated/functions.json' with { type: 'json' };
import { ENTRIES, goodCall, type Parameter } from './catalogue.js';
import {
  BLANK,
  ErrorCell,
  hostRuntime,
  OMITTED,
  type DescribedFunction,
  type HostArgument,
  type Runtime,
  type Shown,
} from './host-marshalling.js';
import { builtText } from '../scripts/built.js';

const byId = new Map(
  (described.functions as unknown as DescribedFunction[]).map((each) => [each.id, each]),
);
let host: Runtime;
let calls = 0;
const count = { catalogue: 0, published: 0 };

beforeAll(() => {
  host = hostRuntime(builtText('functions.js'));
});
afterAll(() => {
  console.info(
    `${byId.size} functions in the bare machine: ${count.catalogue} calls from the catalogue, ${count.published} published cases`,
  );
});

/** What the source answers to the arguments that the host hands over. */
function bySource(fn: DescribedFunction, handed: unknown[]): Shown {
  try {
    const value = FUNCTIONS[fn.id]!(...handed);
    return Array.isArray(value)
      ? { kind: 'spill', rows: value as (string | number | boolean)[][] }
      : { kind: 'cell', value: value as string | number | boolean };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    const code = error.kind === 'none' ? '#N/A' : '#VALUE!';
    return { kind: 'error', code, sentence: error.message, called: true };
  }
}

/** Calls as the host does; the bundle must say what the source says. */
function ask(id: string, given: readonly HostArgument[], anyBlank: 0 | '' = 0): Shown {
  const fn = byId.get(id)!;
  calls++;
  const shown = host.call(fn, given, anyBlank);
  const handed = host.handOver(fn, given, anyBlank);
  if (!(handed instanceof ErrorCell)) expect(shown, id).toEqual(bySource(fn, handed));
  return shown;
}

/** A good argument of the catalogue as the formula would hold it: blank cells of its tables are blank. */
const asGiven = (good: unknown): HostArgument =>
  Array.isArray(good)
    ? (good as (number | string)[][]).map((row) => row.map((cell) => (cell === '' ? BLANK : cell)))
    : (good as number | string | boolean);
const goodGiven = (id: string): HostArgument[] => goodCall(id).map(asGiven);
const withOne = (id: string, index: number, given: HostArgument): HostArgument[] =>
  goodGiven(id).map((good, i) => (i === index ? given : good));

/** What the catalogue promises for good arguments. */
function expectPromised(id: string, shown: Shown): void {
  const { gives } = ENTRIES[id]!;
  if (typeof gives === 'string') {
    if (shown.kind !== 'cell') throw new Error(`${id} shows ${JSON.stringify(shown)}`);
    expect(typeof shown.value).toBe({ number: 'number', text: 'string', truth: 'boolean' }[gives]);
    return;
  }
  if (shown.kind !== 'spill') throw new Error(`${id} shows ${JSON.stringify(shown)}`);
  const [rows, columns] = gives;
  if (rows > 0) expect(shown.rows).toHaveLength(rows);
  for (const row of shown.rows) expect(row).toHaveLength(columns);
}

function expectSentence(shown: Shown, name: string): void {
  if (shown.kind !== 'error') throw new Error(`no error for ${name}: ${JSON.stringify(shown)}`);
  expect(shown.called).toBe(true);
  expect(shown.sentence).toMatch(new RegExp(`^${name}\\b.{10,}`, 's'));
}

/** A blank or omitted argument: needed ones are asked for by name, others mean their default. */
function expectAbsent(id: string, p: Parameter, index: number, shown: Shown): void {
  if (!p.optional) expectSentence(shown, p.name);
  else if (p.default !== undefined)
    expect(shown).toEqual(ask(id, withOne(id, index, asGiven(p.default))));
  else if (shown.kind === 'error') expect(shown.sentence.length).toBeGreaterThan(15);
  else expectPromised(id, shown);
}

describe('the room of the functions', () => {
  it('holds CustomFunctions and nothing else, before and after', () => {
    expect(host.globals()).toEqual(['CustomFunctions']);
  });

  it('has every described function tied once', () => {
    expect([...host.associated].sort()).toEqual([...byId.keys()].sort());
  });
});

describe.each(Object.keys(ENTRIES))('%s', (id) => {
  const parameters = ENTRIES[id]!.parameters.map((p, index) => [p.name, p, index] as const);
  const before = (): number => calls;

  it('gives what it promises, with all arguments and with the needed ones alone', () => {
    const start = before();
    expectPromised(id, ask(id, goodGiven(id)));
    const needed = goodGiven(id).filter((_, i) => !ENTRIES[id]!.parameters[i]!.optional);
    expectPromised(id, ask(id, needed));
    count.catalogue += calls - start;
  });

  if (parameters.length === 0) return;

  it.each(parameters)(
    '%s: left out, blank, in error, one cell, text, below zero',
    (_, p, index) => {
      const start = before();
      const text = p.kind === 'text';
      const left = ask(id, withOne(id, index, OMITTED));
      if (!text) expectAbsent(id, p, index, left);
      for (const anyBlank of [0, ''] as const) {
        const blank = ask(id, withOne(id, index, BLANK), anyBlank);
        // a 0 that counts cannot be told from a blank that the host hands over as 0
        if (!text && !(p.zeroCounts && anyBlank === 0)) expectAbsent(id, p, index, blank);
      }
      for (const code of ['#DIV/0!', '#N/A', '#REF!'])
        expect(ask(id, withOne(id, index, new ErrorCell(code)))).toEqual({
          kind: 'error',
          code,
          sentence: '',
          called: false,
        });
      const good = asGiven(p.good);
      if (Array.isArray(good)) {
        // one cell given to a range arrives as [[v]]: a header alone, or one number
        const [cell = BLANK] = (good as HostArgument[][]).flat();
        const one = ask(id, withOne(id, index, cell));
        if (one.kind === 'error') expect(one.sentence.length).toBeGreaterThan(15);
        else expectPromised(id, one);
        const broken = (good as (number | string)[][]).map((row, r) =>
          row.map((each, c) => (r + c === 0 ? new ErrorCell('#N/A') : each)),
        );
        expect(ask(id, withOne(id, index, broken))).toMatchObject({ code: '#N/A', called: false });
      } else
        expect(ask(id, withOne(id, index, [[good as number]]))).toEqual(ask(id, goodGiven(id)));
      if (!text && p.kind !== 'range')
        expectSentence(ask(id, withOne(id, index, 'about ten')), p.name);
      if (p.kind === 'number' && !p.signed) expectSentence(ask(id, withOne(id, index, -1)), p.name);
      count.catalogue += calls - start;
    },
  );
});

interface Case {
  name: string;
  function?: string;
  inputs?: unknown[];
  rows?: { inputs: unknown[] }[];
}
const folder = new URL('../reference/', import.meta.url);
const files = readdirSync(folder).filter((name) => name.endsWith('.json'));

describe.each(files)('published cases of %s', (file) => {
  it('give in the bare machine what they give in the source', () => {
    const data: unknown = JSON.parse(readFileSync(new URL(file, folder), 'utf8'));
    for (const each of Array.isArray(data) ? (data as Case[]) : []) {
      if (each.function === undefined) continue;
      for (const { inputs } of each.rows ?? [{ inputs: each.inputs ?? [] }]) {
        const given = inputs.map((input) =>
          input === null || input === undefined ? OMITTED : asGiven(input),
        );
        ask(each.function, given);
        count.published++;
      }
    }
  });
});

it('the published cases were there', () => {
  expect(count.published).toBeGreaterThan(200);
  expect(count.catalogue).toBeGreaterThan(byId.size * 20);
});
