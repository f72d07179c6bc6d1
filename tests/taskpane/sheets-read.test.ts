/** Ranges and header keys. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import { cornersOf, headersKey, isOtherSheet, onlyRange } from '../../src/taskpane/sheets-read.js';

describe('a range of cells', () => {
  it('is two corners, in whatever order and with or without dollars', () => {
    const wanted = { top: 1, bottom: 9, left: 0, right: 27 };
    for (const typed of ['A2:AB10', 'AB10:A2', '$a$2:$ab$10', ' A10:AB2 '])
      expect(cornersOf(typed), typed).toEqual(wanted);
  });
  it('may be whole columns or whole rows, without an end', () => {
    const end = Infinity;
    expect(cornersOf('C:$A')).toEqual({ top: 0, bottom: end, left: 0, right: 2 });
    expect(cornersOf('3:7')).toEqual({ top: 2, bottom: 6, left: 0, right: end });
    const cells = [['a', 'b', 'c'], ['d', 'e', 'f'], ['g', 'h', 'i']]; // prettier-ignore
    expect(onlyRange({ cells }, 'B:B').cells).toEqual([
      [null, 'b'],
      [null, 'e'],
      [null, 'h'],
    ]);
    expect(onlyRange({ cells }, '2:3').cells).toEqual([[], ['d', 'e', 'f'], ['g', 'h', 'i']]);
  });
  it.each(['A1', 'A0:B2', '0:2', 'A:2', 'A1:B', 'Trees!A1:B2', 'A1:B2:C3'])(
    '%s is none',
    (typed) => {
      expect(cornersOf(typed)).toBeUndefined();
    },
  );
  it('keeps rows and columns in their places and blanks the rest', () => {
    const cells = [['a', 'b', 'c'], ['d', 'e', 'f'], ['g', 'h', 'i']]; // prettier-ignore
    expect(onlyRange({ cells }, 'B2:B3').cells).toEqual([[], [null, 'e'], [null, 'h']]);
    expect(onlyRange({ cells }, '').cells).toBe(cells);
    expect(() => onlyRange({ cells }, 'all')).toThrow('accepted is A1:H60');
  });
});

describe('the key of a row of headers', () => {
  it('is the same for the same headers, however spaced, cased or followed by blanks', () => {
    expect(headersKey(['Tag', 'Caliper (in)'])).toBe(
      headersKey([' tag', 'CALIPER  (in)', null, '']),
    );
  });
  it('differs by words, by order and by where one header ends', () => {
    const keys = [['a', 'b'], ['b', 'a'], ['a b'], ['a', null, 'b'], ['ab']].map(headersKey);
    expect(new Set(keys).size).toBe(keys.length);
  });
});

it('sheets of our own workbooks are not taken for inventories', () => {
  expect(['Rules', 'STAGES', 'Kit', 'Plan', 'Crew'].every(isOtherSheet)).toBe(true);
  expect(['Trees', 'harbour-row-trees', 'Sheet1'].some(isOtherSheet)).toBe(false);
});
