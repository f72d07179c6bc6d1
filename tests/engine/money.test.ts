/** Prices and water tiers: identities of bookkeeping, properties of block rates, and every sentence. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { priceFor } from '../../src/engine/money/price.js';
import { tierCost, type Tier } from '../../src/engine/money/tiers.js';
import { price, stopMinutes, tankLoads, waterCost } from '../../src/functions/crew.js';

const blocks = (...rows: [upTo: number, price: number][]): Tier[] =>
  rows.map(([upTo, each], i) => ({ upTo, price: each, row: i + 1 }));
const TIERS = blocks([1000, 4], [5000, 6], [Infinity, 9]);

describe('price, definition of gross margin', () => {
  it('leaves the margin over the cost, whatever the job', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 1e6, noNaN: true }),
        fc.double({ min: 0, max: 0.95, noNaN: true }),
        (cost, margin) => {
          const sold = priceFor(cost, margin);
          expect((sold - cost) / sold).toBeCloseTo(margin, 9);
        },
      ),
    );
  });
  it('0 cost and 0 margin are meant', () => {
    expect(priceFor(0, 0.3)).toBe(0);
    expect(priceFor(70, 0)).toBe(70);
  });
  it('refuses a margin of all the price, or a negative one', () => {
    expect(() => priceFor(70, 1)).toThrow('margin must be below 1');
    expect(() => priceFor(70, -0.1)).toThrow(/^margin must be from 0 to 1; got -0.1$/);
    expect(() => priceFor(-1, 0.3)).toThrow(/^cost must be from 0/);
  });
});

describe('water by tiers, worked by hand', () => {
  it.each([
    [0, 0],
    [500, 2],
    [1000, 4],
    [1001, 4.006],
    [5000, 28],
    [6000, 37],
  ])('%d units cost %d', (volume, cost) => {
    expect(tierCost(volume, TIERS)).toBeCloseTo(cost, 10);
  });
  it('a tier may be cut in two at the same price, and more water never costs less', () => {
    const cut = blocks([600, 4], [1000, 4], [5000, 6], [Infinity, 9]);
    const volumes = fc.double({ min: 0, max: 20000, noNaN: true });
    fc.assert(
      fc.property(volumes, volumes, (one, more) => {
        expect(tierCost(one, cut)).toBeCloseTo(tierCost(one, TIERS), 9);
        expect(tierCost(one + more, TIERS)).toBeGreaterThanOrEqual(tierCost(one, TIERS));
      }),
    );
  });
  it('a last tier with a limit covers exactly up to it', () => {
    expect(tierCost(5000, TIERS.slice(0, 2))).toBe(28);
    expect(() => tierCost(5000.5, TIERS.slice(0, 2))).toThrow(/^tiers, row 2: the last tier ends/);
  });
  it('no tier at all is said', () => {
    expect(() => tierCost(1, [])).toThrow('tiers has no row with a price');
  });
});

describe('WATER_COST reads a range as people fill it', () => {
  const rows = [
    [1000, 4],
    [5000, 6],
    ['', 9],
  ];
  const head = ['up to, gal', 'price per 1,000 gal'];
  it.each<[string, unknown[][]]>([
    ['a header row', [head, ...rows]],
    ['a header with a money sign', [['gal', '$/1,000 gal'], ...rows]],
    [
      'numbers as text',
      [
        ['1000', ' 4 '],
        ['5000', '6'],
        [' ', '9'],
      ],
    ],
    [
      'a blank as null',
      [
        [1000, 4],
        [5000, 6],
        [null, 9],
      ],
    ],
    [
      'a blank as 0',
      [
        [1000, 4],
        [5000, 6],
        [0, 9],
      ],
    ],
    ['blank rows below', [...rows, ['', ''], [null, null], [0, 0]]],
  ])('%s', (_, tiers) => {
    expect(waterCost(6000, tiers)).toBeCloseTo(37, 10);
    expect(waterCost(6000, tiers, 'SI')).toBeCloseTo(37, 10);
  });
  it('a price of 0 is a price', () => {
    expect(
      waterCost(1500, [
        [1000, 0],
        ['', 2],
      ]),
    ).toBeCloseTo(1, 10);
  });

  it.each<[string, unknown[][], string]>([
    [
      'three columns',
      [[1000, 4, 1]],
      'tiers must have two columns, up to and price of 1,000; got 3 columns',
    ],
    [
      'one column',
      [[1000], [4]],
      'tiers must have two columns, up to and price of 1,000; got 1 column',
    ],
    [
      'tiers that do not ascend, counted with the header',
      [head, [1000, 4], [1000, 6]],
      'tiers, row 3: "up to" must be above 1000, where the tier before it ends; got 1000',
    ],
    [
      'a blank price',
      [
        [1000, 4],
        [5000, null],
      ],
      'tiers, row 2, price, must be a number from 0 to 1000000; got a blank cell',
    ],
    [
      'a negative price',
      [
        [1000, 4],
        ['', -6],
      ],
      'tiers, row 2, price, must be a number from 0 to 1000000; got -6',
    ],
    [
      'an amount that is no number',
      [[1000, '$4']],
      'tiers, row 1, price, must be a number from 0 to 1000000; got "$4"',
    ],
    [
      'a volume that is no number',
      [['1000 gal', '4 a thousand']],
      'tiers, row 1, up to, must be a number above 0, at most 1000000000000; got "1000 gal"',
    ],
    [
      'a blank before the last row',
      [
        [1000, 4],
        ['', 6],
        [5000, 9],
      ],
      'tiers, row 2: "up to" must be a number above 0; got a blank cell, which only the last row may have',
    ],
    [
      'a volume beyond the last limit',
      [head, [1000, 4], [5000, 6]],
      'tiers, row 3: the last tier ends at 5000 and volume is 6000; leave its "up to" blank if there is no limit, or add a row',
    ],
    ['a header alone', [head], 'tiers has no row with a price'],
    ['TRUE', [[1000, true]], 'tiers, row 1, price, must be a number from 0 to 1000000; got TRUE'],
    [
      'an error cell',
      [[1000, '#REF!']],
      'tiers, row 1, column 2, is a cell with the error #REF!; put that cell right first',
    ],
  ])('says what is wrong with %s', (_, tiers, sentence) => {
    expect(() => waterCost(6000, tiers)).toThrow(sentence);
  });
});

describe('crew functions say what is wrong', () => {
  it.each([
    [() => tankLoads(100, 0), 'tank must be a number above 0, at most 1000000; got 0'],
    [() => tankLoads(100, 500, 1.2), 'usable must be a number above 0, at most 1; got 1.2'],
    [() => stopMinutes(20, ''), 'flow must be a number above 0, at most 1000000; got a blank cell'],
    [() => stopMinutes(20, 5, -1), 'setup must be a number from 0 to 600 min; got -1'],
    [() => price(70, 1), 'margin must be a number from 0 to 0.95; got 1'],
    [() => price(70, 30), 'margin must be a number from 0 to 0.95; got 30'],
  ])('%s', (call, sentence) => {
    expect(call).toThrow(sentence);
  });
  it('a set-up of 0 is a true zero, a blank one takes 4 minutes', () => {
    expect(stopMinutes(20, 5, 0)).toBe(4);
    expect(stopMinutes(20, 5, null)).toBe(8);
  });
});
