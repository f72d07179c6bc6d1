/** The stand-in for the spreadsheet program notices what it is there to notice. */
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import { describe, expect, it } from 'vitest';
import { FUNCTIONS } from '../../src/functions/index.js';
import described from '../../src/generated/functions.json' with { type: 'json' };
import {
  BLANK,
  ErrorCell,
  hostRuntime,
  OMITTED,
  type DescribedFunction,
  type HostArgument,
  type Shown,
} from './host-marshalling.js';

const one = (type: string, matrix = false): DescribedFunction => ({
  id: 'ONE',
  parameters: [
    { name: 'a', type, ...(matrix ? { dimensionality: 'matrix' } : {}) },
    { name: 'b', type: 'any', optional: true },
  ],
  result: { type: 'any' },
});
const spilling: DescribedFunction = {
  ...one('any'),
  result: { type: 'any', dimensionality: 'matrix' },
};
const runtime = (body: string): ReturnType<typeof hostRuntime> =>
  hostRuntime(`CustomFunctions.associate('ONE', function (a, b, call) { ${body} });`);
const told = (body: string, fn: DescribedFunction = one('any')): unknown =>
  runtime(body).call(fn, [1]);

describe('arguments', () => {
  const seen = (fn: DescribedFunction, ...given: HostArgument[]): Shown =>
    runtime('return JSON.stringify([a, b])').call(fn, given);

  it('left out are null, also in the middle', () => {
    expect(seen(one('any'), OMITTED, 2)).toEqual({ kind: 'cell', value: '[null,2]' });
    expect(seen(one('any'))).toEqual({ kind: 'cell', value: '[null,null]' });
  });

  it('that are blank cells go by the type', () => {
    const blank = (type: string): unknown => seen(one(type), BLANK);
    expect(blank('number')).toEqual({ kind: 'cell', value: '[0,null]' });
    expect(blank('string')).toEqual({ kind: 'cell', value: '["",null]' });
    expect(blank('boolean')).toEqual({ kind: 'cell', value: '[false,null]' });
    expect(blank('any')).toEqual({ kind: 'cell', value: '[0,null]' });
    const other = runtime('return JSON.stringify(a)').call(one('any'), [BLANK], '');
    expect(other).toEqual({ kind: 'cell', value: '""' });
  });

  it('given to a range are rows, blanks in it are texts', () => {
    expect(seen(one('any', true), 7)).toEqual({ kind: 'cell', value: '[[[7]],null]' });
    expect(seen(one('any', true), [[1, BLANK]])).toEqual({
      kind: 'cell',
      value: '[[[1,""]],null]',
    });
  });

  it('of a text parameter are text', () => {
    expect(seen(one('string'), 7)).toEqual({ kind: 'cell', value: '["7",null]' });
    expect(seen(one('string'), true)).toEqual({ kind: 'cell', value: '["TRUE",null]' });
  });

  it('in error are the answer, and the function is not called', () => {
    const called = runtime('throw new TypeError("called")');
    for (const given of [[new ErrorCell('#N/A')], [1, [[new ErrorCell('#N/A')]]]])
      expect(called.call(one('any'), given)).toMatchObject({ code: '#N/A', called: false });
  });

  it('are followed by an object about the call', () => {
    expect(told('return call.functionName')).toEqual({ kind: 'cell', value: 'ONE' });
  });
});

describe('answers', () => {
  it.each([
    ['return null', 'ONE gave back nothing: it shows 0'],
    ['', 'ONE gave back nothing: it shows 0'],
    ['return NaN', 'ONE gave back NaN, which no cell can show'],
    ['return {}', 'ONE gave back [object Object], which no cell can show'],
    ['return [[1]]', 'ONE spills and is not described so'],
  ])('of "%s" are no cell', (body, sentence) => {
    expect(() => told(body)).toThrow(sentence);
  });

  it.each([
    ['return 1', 'ONE gave back no rows'],
    ['return []', 'ONE gave back no rows'],
    ['return [1]', 'ONE gave back a row that is none'],
    ['return [[]]', 'ONE gave back rows of different lengths, or empty ones'],
    ['return [[1, 2], [3]]', 'ONE gave back rows of different lengths, or empty ones'],
    ['return [[1, null]]', 'ONE gave back nothing: it shows 0'],
  ])('of "%s" are no spill', (body, sentence) => {
    expect(() => told(body, spilling)).toThrow(sentence);
  });

  it('that are errors of the host show code and sentence; other codes and other errors are faults', () => {
    const thrown = (code: string): string =>
      `throw new CustomFunctions.Error(${code}, 'a is too large')`;
    expect(told(thrown('CustomFunctions.ErrorCode.invalidValue'))).toEqual({
      kind: 'error',
      code: '#VALUE!',
      sentence: 'a is too large',
      called: true,
    });
    expect(() => told(thrown('"#NUM!"'))).toThrow('#NUM!, which shows no sentence');
    expect(() => told('throw new Error("oh")')).toThrow('oh');
  });
});

describe('the room', () => {
  it.each(['document', 'window', 'setTimeout', 'console', 'fetch', 'process', 'Office'])(
    'has no %s',
    (name) => {
      expect(() => hostRuntime(`${name};`)).toThrow(`${name} is not defined`);
    },
  );

  it('shows a name that a script leaves behind', () => {
    expect(hostRuntime('var left = 1;').globals()).toContain('left');
  });
});

/** The functions' entry as one script, made in memory: vm.test.ts looks at the built file itself. */
function bundled(): string {
  const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
  const { outputFiles } = buildSync({
    entryPoints: [join(root, 'src', 'functions', 'functions.ts')],
    bundle: true,
    minify: true,
    write: false,
    format: 'iife',
    target: 'es2022',
  });
  return outputFiles[0]!.text;
}

it('a bundle whose numbers are not the source’s would be noticed', () => {
  const script = bundled();
  const changed = script.replace(/(?<![\d.])0?\.62(?!\d)/g, '.63');
  expect(changed).not.toBe(script);
  const fn = (described.functions as unknown as DescribedFunction[]).find(
    ({ id }) => id === 'BAG_HOURS',
  )!;
  const given = [15, 4, 0.055, 24];
  const right = { kind: 'cell', value: FUNCTIONS['BAG_HOURS']!(...given) };
  expect(hostRuntime(script).call(fn, given)).toEqual(right);
  expect(hostRuntime(changed).call(fn, given)).not.toEqual(right);
});
