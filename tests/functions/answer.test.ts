/** The one place where a Problem becomes a cell's error. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { Problem } from '../../src/engine/problems.js';
import { answer } from '../../src/functions/answer.js';

class HostError {
  constructor(
    readonly code: string,
    readonly message?: string,
  ) {}
}
const host = {
  Error: HostError,
  ErrorCode: { invalidValue: '#VALUE!', notAvailable: '#N/A' },
};
const caught = (compute: () => number): unknown => {
  try {
    return answer(compute);
  } catch (error) {
    return error;
  }
};

afterEach(() => vi.unstubAllGlobals());

describe('in the host', () => {
  it('a value that cannot be used is #VALUE! with the sentence', () => {
    vi.stubGlobal('CustomFunctions', host);
    const error = caught(() => {
      throw new Problem('holes must be a whole number');
    });
    expect(error).toEqual(new HostError('#VALUE!', 'holes must be a whole number'));
  });

  it('a question without an answer is #N/A with the sentence', () => {
    vi.stubGlobal('CustomFunctions', host);
    const error = caught(() => {
      throw new Problem('rain covers demand', 'none');
    });
    expect(error).toEqual(new HostError('#N/A', 'rain covers demand'));
  });

  it('a fault of ours is passed on as it is, not dressed up as the person’s', () => {
    vi.stubGlobal('CustomFunctions', host);
    const fault = new TypeError('fault');
    expect(
      caught(() => {
        throw fault;
      }),
    ).toBe(fault);
  });
});

describe('without a host', () => {
  it('the Problem itself is thrown, also where an older runtime has no error class', () => {
    const problem = new Problem('sentence');
    const thrower = (): number => {
      throw problem;
    };
    expect(caught(thrower)).toBe(problem);
    vi.stubGlobal('CustomFunctions', { associate: () => undefined });
    expect(caught(thrower)).toBe(problem);
  });

  it('a number that no cell can show never leaves, alone or in a spilled range', () => {
    expect(caught(() => NaN)).toBeInstanceOf(Problem);
    expect(caught(() => Infinity)).toBeInstanceOf(Problem);
    expect(() =>
      answer(() => [
        [1, ''],
        [NaN, 'a'],
      ]),
    ).toThrow(Problem);
    expect(answer(() => [[1, 'a', true]])).toEqual([[1, 'a', true]]);
  });
});
