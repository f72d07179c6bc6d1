import { describe, expect, it } from 'vitest';
import { calculate, type Given, type Outcome } from '../../src/desk/headless.js';
import type { FunctionMetadata } from '../../src/desk/registration.js';
import { Problem } from '../../src/engine/problems.js';

/** Functions made for these tests: they tell what reached them. */
const implementations = {
  ECHO: (...args: unknown[]) => JSON.stringify(args),
  RANGE: (cells: unknown) => JSON.stringify(cells),
  REST: (first: unknown, rest: unknown) => JSON.stringify([first, rest]),
  TYPED: (...args: unknown[]) => JSON.stringify(args),
  GRID: () => [
    [1, 'two'],
    [true, ''],
  ],
  RAGGED: () => [[1, 2], [3]],
  BAD: () => {
    throw new Problem('holes must be a whole number from 1 to 100; got 0');
  },
  NONE: () => {
    throw new Problem('no allowed date within 400 days', 'none');
  },
  FAULT: () => {
    throw new TypeError('x is not a thing');
  },
  NAN: () => NaN,
  NOTHING: () => null,
  LOOKS: () => '#N/A',
};
const any = (name: string): FunctionMetadata['parameters'][number] => ({ name, type: 'any' });
const metadata: FunctionMetadata[] = [
  { id: 'ECHO', name: 'ECHO', parameters: [any('a'), any('b'), any('c')] },
  { id: 'RANGE', name: 'RANGE', parameters: [{ ...any('cells'), dimensionality: 'matrix' }] },
  { id: 'REST', name: 'REST', parameters: [any('first'), { ...any('rest'), repeating: true }] },
  {
    id: 'TYPED',
    name: 'TYPED',
    parameters: ['number', 'string', 'boolean'].map((type) => ({ name: `a ${type}`, type })),
  },
  ...['GRID', 'RAGGED', 'BAD', 'NONE', 'FAULT', 'NAN', 'NOTHING', 'LOOKS'].map((id) => ({
    id,
    name: id,
    parameters: [],
  })),
];

const given: Given = { 0: { 0: 7, 1: 'oak' }, 1: { 0: '=1/0' } };
const results = async (...formulas: string[]): Promise<unknown[]> =>
  (await calculate(formulas, { metadata, implementations }, given)).map((outcome: Outcome) =>
    'error' in outcome ? outcome.error : outcome.value,
  );

describe('arguments reach a function as the host hands them over', () => {
  it('an omitted argument is null, in the middle, at the end, or not written at all', async () => {
    expect(await results('=SOAK.ECHO(1,,3)', '=SOAK.ECHO(1,)', '=SOAK.ECHO(1)')).toEqual([
      '[1,null,3]',
      '[1,null,null]',
      '[1,null,null]',
    ]);
  });

  it('a blank cell is 0 where one value is asked, and "" inside a range', async () => {
    expect(await results('=SOAK.ECHO(D9,A1,B1)', '=SOAK.RANGE(A1:C1)')).toEqual([
      '[0,7,"oak"]',
      '[[7,"oak",""]]',
    ]);
  });

  it('a range parameter gets rows of cells also for one cell, one number and an array', async () => {
    expect(
      await results('=SOAK.RANGE(A1)', '=SOAK.RANGE(5)', '=SOAK.RANGE({1,2;"x",TRUE})'),
    ).toEqual(['[[7]]', '[[5]]', '[[1,2],["x",true]]']);
  });

  it('repeated arguments come as one list', async () => {
    expect(await results('=SOAK.REST(1,2,"x",A1)')).toEqual(['[1,[2,"x",7]]']);
  });

  it('declared types are honoured: text numbers, numbers as text, words for yes and no', async () => {
    expect(await results('=SOAK.TYPED(" 15 ",3,"true")', '=SOAK.TYPED(D9,D9,D9)')).toEqual([
      '[15,"3",true]',
      '[0,"",false]',
    ]);
    expect(await results('=SOAK.TYPED("oak",3,TRUE)')).toEqual([
      { code: '#VALUE!', message: 'a number must be a number; got "oak"' },
    ]);
  });

  it('an error in an argument is the result, also from inside a range', async () => {
    const error = (name: string) => ({
      code: '#DIV/0!',
      message: `${name} is an error itself (#DIV/0!)`,
    });
    expect(await results('=SOAK.ECHO(1/0)', '=SOAK.ECHO(1,A2)', '=SOAK.RANGE(A1:B2)')).toEqual([
      error('a'),
      error('b'),
      error('cells'),
    ]);
  });

  it('a range where one value is asked and too many arguments are errors with a sentence', async () => {
    expect(await results('=SOAK.ECHO(A1:B1)', '=SOAK.ECHO(1,2,3,4)')).toEqual([
      { code: '#VALUE!', message: 'a takes one value; got a range of 1 by 2 cells' },
      { code: '#VALUE!', message: 'takes 3 arguments; got 4' },
    ]);
  });
});

describe('results show as in a cell', () => {
  it('a table of results spills', async () => {
    expect(await results('=SOAK.GRID()')).toEqual([
      [
        [1, 'two'],
        [true, ''],
      ],
    ]);
  });

  it('a problem shows its code and keeps its sentence; other cells still calculate', async () => {
    expect(await results('=SOAK.BAD()', '=SOAK.NONE()', '=1+1', '=SOAK.BAD()+1')).toEqual([
      { code: '#VALUE!', message: 'holes must be a whole number from 1 to 100; got 0' },
      { code: '#N/A', message: 'no allowed date within 400 days' },
      2,
      { code: '#VALUE!', message: 'holes must be a whole number from 1 to 100; got 0' },
    ]);
  });

  it('a fault inside a function is an error that says whose fault it is', async () => {
    const [fault, ragged] = await results('=SOAK.FAULT()', '=SOAK.RAGGED()');
    expect(fault).toMatchObject({ code: '#VALUE!' });
    expect((fault as { message: string }).message).toContain('a fault in the function');
    expect((ragged as { message: string }).message).toContain('rows of different lengths');
  });

  it('NaN is #NUM!, nothing is 0, and names are found in any letter case', async () => {
    expect(await results('=SOAK.NAN()', '=SOAK.NOTHING()', '=soak.nothing()+3')).toEqual([
      { code: '#NUM!', message: 'the result is no number a cell can hold' },
      0,
      3,
    ]);
  });

  it('an unknown function is #NAME?', async () => {
    expect(await results('=SOAK.NOPE(1)')).toMatchObject([{ code: '#NAME?' }]);
  });
});
