import { describe, expect, it } from 'vitest';
import { claimsOf, shortfall } from '../../../src/engine/crew/bound-work.js';
import { lengthOf } from '../../../src/engine/crew/shift.js';
import type { RuleWindow } from '../../../src/engine/rules/rule-types.js';

type Windows = RuleWindow[];
const w = (start: number, end: number): RuleWindow => ({ start, end });

/**
 * Whether whole minutes of work can be given minutes of a small day: each minute of work finds a minute of its own by
 * augmenting paths (matching, Kuhn 1955), which knows nothing of sums.
 */
function canBeDone(kinds: readonly Windows[], work: readonly number[], day: number): boolean {
  const minutes = work.flatMap((n, k) => Array.from({ length: n }, () => kinds[k]!));
  const takenBy = new Array<number>(day).fill(-1);
  const place = (m: number, seen: Set<number>): boolean => {
    for (let at = 0; at < day; at++) {
      if (seen.has(at) || !minutes[m]!.some(({ start, end }) => start <= at && at < end)) continue;
      seen.add(at);
      if (takenBy[at]! < 0 || place(takenBy[at]!, seen)) {
        takenBy[at] = m;
        return true;
      }
    }
    return false;
  };
  return minutes.every((_, m) => place(m, new Set()));
}

/** Every way to give up to `most` minutes to so many kinds. */
function* amounts(kinds: number, most: number): Generator<number[]> {
  if (kinds === 0) yield [];
  else
    for (const rest of amounts(kinds - 1, most)) for (let n = 0; n <= most; n++) yield [...rest, n];
}

describe('work bound to hours fits exactly when it can be done', () => {
  // small days of six minutes; the kinds of hours of up to three sorts of work
  it.each([
    ['one kind', [[w(0, 3)]]],
    ['nested', [[w(2, 3)], [w(1, 4)], [w(0, 6)]]],
    ['nested, with a gap', [[w(1, 2), w(4, 5)], [w(0, 2), w(4, 6)], [w(0, 6)]]],
    ['apart', [[w(0, 2)], [w(3, 5)]]],
    ['overlapping', [[w(0, 3)], [w(2, 5)], [w(4, 6)]]],
    ['overlapping with gaps', [[w(0, 1), w(3, 4)], [w(3, 5)], [w(0, 2), w(4, 5)]]],
  ])('%s', (_, kinds) => {
    let [fits, fails] = [0, 0];
    for (const work of amounts(kinds.length, 5)) {
      const can = canBeDone(kinds, work, 6);
      expect(shortfall(kinds, work).minutes === 0, work.join()).toBe(can);
      if (can) fits++;
      else fails++;
    }
    expect(fits).toBeGreaterThan(0);
    expect(fails).toBeGreaterThan(0);
  });

  it('measures work against unions: two kinds that fit alone may not fit together', () => {
    const kinds = [[w(6, 9)], [w(8, 11)]];
    expect(shortfall(kinds, [3, 0]).minutes).toBe(0);
    expect(shortfall(kinds, [0, 3]).minutes).toBe(0);
    const both = shortfall(kinds, [3, 3]);
    expect(both.minutes).toBe(1);
    expect(both.claim!.windows).toEqual([w(6, 11)]);
  });
  it('names the kinds themselves where they are nested', () => {
    const kinds = [[w(6, 9)], [w(6, 14)]];
    expect(claimsOf(kinds).map(({ windows }) => windows)).toEqual([[w(6, 9)], [w(6, 14)]]);
  });
  it('stays on the safe side with more kinds of hours than it tells apart', () => {
    // twelve kinds of two minutes each, one minute later each time
    const kinds = Array.from({ length: 12 }, (_, k) => [w(k, k + 2)]);
    const claims = claimsOf(kinds);
    expect(claims.length).toBeLessThan(300);
    expect(claims.every(({ binds }) => binds.length === 12)).toBe(true);
    let found = 0;
    for (let seed = 1; seed <= 400; seed++) {
      const work = kinds.map((_, k) => (seed * (k + 3) * 7919) % 3);
      if (shortfall(kinds, work).minutes > 0) continue;
      found++;
      expect(canBeDone(kinds, work, 13), work.join()).toBe(true);
    }
    expect(found).toBeGreaterThan(0);
    expect(shortfall(kinds, kinds.map(() => 0)).minutes).toBe(0);
  }); // prettier-ignore
  it('leaves no time to work without hours', () => {
    expect(shortfall([[], [w(0, 5)]], [1, 0]).minutes).toBe(1);
    expect(lengthOf([])).toBe(0);
  });
});
