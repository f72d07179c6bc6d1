/**
 * Every function with every kind of thing a cell can hold in every argument: either the documented value or the
 * documented error. The number of calls is printed at the end.
 */
import { afterAll, describe, expect, it } from 'vitest';
import { Problem } from '../../src/engine/problems.js';
import { FUNCTIONS } from '../../src/functions/index.js';
import { ENTRIES, goodCall, type Parameter } from './catalogue.js';

type Outcome = { value: unknown } | { sentence: string; kind: string };

function run(id: string, inputs: unknown[]): Outcome {
  const target = FUNCTIONS[id];
  if (!target) throw new Error(`no function ${id}`);
  try {
    return { value: target(...inputs) };
  } catch (error) {
    // anything else is a fault of ours and fails the test
    if (error instanceof Problem) return { sentence: error.message, kind: error.kind };
    throw error;
  }
}
const withArgument = (id: string, index: number, value: unknown): Outcome =>
  run(
    id,
    goodCall(id).map((good, i) => (i === index ? value : good)),
  );

/** What a cell may show for this function: the right kind, finite, not below 0, rectangular. */
function expectShown(id: string, outcome: Outcome): void {
  if (!('value' in outcome)) throw new Error(`${id} answered: ${outcome.sentence}`);
  const { value } = outcome;
  const { gives } = ENTRIES[id]!;
  if (gives === 'number') {
    expect(value).toBeTypeOf('number');
    expect(Number.isFinite(value)).toBe(true);
    expect(value).toBeGreaterThanOrEqual(0);
  } else if (gives === 'text') {
    expect(value).toBeTypeOf('string');
    expect((value as string).length).toBeGreaterThan(1);
  } else if (gives === 'truth') expect(value).toBeTypeOf('boolean');
  else {
    const rows = value as unknown[][];
    expect(rows.length).toBeGreaterThan(0);
    if (gives[0] > 0) expect(rows).toHaveLength(gives[0]);
    for (const row of rows) {
      expect(row).toHaveLength(gives[1]);
      for (const cell of row) {
        expect(['number', 'string', 'boolean']).toContain(typeof cell);
        if (typeof cell === 'number') expect(Number.isFinite(cell)).toBe(true);
      }
    }
  }
}

/** A sentence for the person at the sheet: names the parameter first, shows no programmer's word. */
function expectSentence(outcome: Outcome, name: string): string {
  if (!('sentence' in outcome))
    throw new Error(`no error for ${name} but ${JSON.stringify(outcome.value)}`);
  expect(outcome.sentence).toMatch(new RegExp(`^${name}\\b.{10,}`, 's'));
  expect(outcome.sentence).not.toMatch(/NaN|undefined|null|\[object|Infinity/);
  return outcome.sentence;
}

/** Either is right: the value means something here, or another argument makes it impossible. */
function expectEither(id: string, outcome: Outcome): void {
  if ('value' in outcome) expectShown(id, outcome);
  else {
    expect(outcome.sentence).toMatch(/^.{15,}/s);
    expect(outcome.sentence).not.toMatch(/NaN|undefined|null|\[object|Infinity/);
  }
}

/** The same answer as another call, be it a number, a text or rows. */
function expectSame(outcome: Outcome, other: Outcome): void {
  if (
    'value' in outcome &&
    'value' in other &&
    typeof outcome.value === 'number' &&
    typeof other.value === 'number'
  )
    expect(outcome.value).toBeCloseTo(other.value, 10);
  else expect(outcome).toEqual(other);
}

let calls = 0;
type Probe = (id: string, p: Parameter, index: number) => void;
const probe = (id: string, index: number, value: unknown): Outcome => {
  calls++;
  return withArgument(id, index, value);
};

function expectBlank(id: string, p: Parameter, index: number, value: unknown): void {
  const outcome = probe(id, index, value);
  if (!p.optional) expect(expectSentence(outcome, p.name)).toContain('blank');
  else if (p.default === undefined) expectEither(id, outcome);
  else expectSame(outcome, withArgument(id, index, p.default));
}

const PROBES: Record<string, Probe> = {
  omitted: (id, p, index) => {
    if (p.kind === 'text') return expectEither(id, probe(id, index, undefined));
    for (const value of [undefined, null]) expectBlank(id, p, index, value);
  },
  'blank cell': (id, p, index) => {
    for (const value of ['', '   ', [['']], [[null]]])
      if (p.kind === 'text') expectEither(id, probe(id, index, value));
      else expectBlank(id, p, index, value);
  },
  zero: (id, p, index) => {
    const outcome = probe(id, index, 0);
    if (p.zeroCounts || p.kind === 'text') expectEither(id, outcome);
    else if (!p.optional) expectSentence(outcome, p.name);
    else if (p.default === undefined) expectEither(id, outcome);
    else expectSame(outcome, withArgument(id, index, p.default));
  },
  'number as text': (id, p, index) => {
    const base = withArgument(id, index, p.good);
    if (p.kind === 'number' && typeof p.good === 'number')
      for (const text of [` ${p.good} `, [[`${p.good}`]]]) expectSame(probe(id, index, text), base);
    else if (p.kind === 'range' && !p.table)
      expectSame(
        probe(
          id,
          index,
          (p.good as number[][]).map((row) => row.map(String)),
        ),
        base,
      );
    else if (p.kind === 'word' || p.table) expectSentence(probe(id, index, '5.5'), p.name);
    else expectEither(id, probe(id, index, '46569'));
  },
  'number as the host’s object': (id, p, index) => {
    if (typeof p.good !== 'number') return;
    const base = withArgument(id, index, p.good);
    expectSame(probe(id, index, { type: 'FormattedNumber', basicValue: p.good }), base);
  },
  'word in any case': (id, p, index) => {
    if (p.kind !== 'word') return;
    const base = withArgument(id, index, p.good);
    const text = String(p.good);
    for (const other of [text.toUpperCase(), ` ${text.toLowerCase()} `, text.replace(' ', '-')])
      expectSame(probe(id, index, other), base);
  },
  'wrong text': (id, p, index) => {
    const outcome = probe(id, index, 'about ten');
    if (p.kind === 'text') expectShown(id, outcome);
    else expect(expectSentence(outcome, p.name)).toContain('"about ten"');
  },
  negative: (id, p, index) => {
    const outcome = probe(id, index, -1);
    if (p.kind === 'text' || p.signed) expectEither(id, outcome);
    else expectSentence(outcome, p.name);
  },
  huge: (id, p, index) => {
    for (const value of [1e300, -1e300, Number.MAX_VALUE]) {
      const outcome = probe(id, index, value);
      if (p.kind === 'text') expectEither(id, outcome);
      else expectSentence(outcome, p.name);
    }
  },
  'no number': (id, p, index) => {
    for (const value of [NaN, Infinity, -Infinity]) expectSentence(probe(id, index, value), p.name);
  },
  'true or false': (id, p, index) => {
    for (const value of [true, false]) {
      const outcome = probe(id, index, value);
      if (p.kind === 'text') expectEither(id, outcome);
      else expectSentence(outcome, p.name);
    }
  },
  'error cell': (id, p, index) => {
    for (const value of ['#DIV/0!', ' #n/a ', '#REF!', { type: 'Error', basicValue: '#VALUE!' }])
      expectSentence(probe(id, index, value), p.name);
    expect(expectSentence(probe(id, index, [['#DIV/0!']]), p.name)).toContain('#DIV/0!');
  },
  'two cells': (id, p, index) => {
    if (p.kind === 'range') return;
    expectSentence(probe(id, index, [[p.good, p.good]]), p.name);
  },
};

describe.each(Object.keys(ENTRIES))('%s', (id) => {
  it('gives what it promises for good arguments', () => {
    calls++;
    expectShown(id, run(id, goodCall(id)));
  });

  const parameters = ENTRIES[id]!.parameters.map((p, index) => [p.name, p, index] as const);
  if (parameters.length === 0) return;

  it('does so with every optional argument left out', () => {
    calls++;
    const required = parameters.filter(([, p]) => !p.optional).map(([, p]) => p.good);
    expectShown(id, run(id, required));
  });

  it.each(parameters)('%s', (_name, p, index) => {
    for (const [what, check] of Object.entries(PROBES))
      try {
        check(id, p, index);
      } catch (error) {
        throw new Error(`${what}: ${(error as Error).message}`, { cause: error });
      }
  });
});

afterAll(() => {
  console.info(`${Object.keys(ENTRIES).length} functions, ${calls} calls`);
});
