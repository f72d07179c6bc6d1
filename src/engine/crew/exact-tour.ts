/** The shortest round trip through a few places, proven. */
import type { Nodes } from './tour.js';

/**
 * Dynamic programme over sets of visited nodes:
 *   L(S, j) = min over i in S∖{j} of L(S∖{j}, i) + d(i, j)
 * with L({j}, j) = d(0, j). Work and memory grow as 2ⁿ: for a dozen nodes at most.
 * Source: M. Held, R. M. Karp, Journal of SIAM 10 (1962) 196–210 (memory).
 *
 * @returns all nodes in order, node 0 first
 */
export function exactTour({ count, distance }: Nodes): number[] {
  const stops = count - 1;
  if (stops < 1) return [0];
  const sets = 1 << stops;
  const length = new Float64Array(sets * stops).fill(Infinity);
  const before = new Int8Array(sets * stops).fill(-1);
  for (let j = 0; j < stops; j++) length[(1 << j) * stops + j] = distance(0, j + 1);
  for (let set = 1; set < sets; set++)
    for (let i = 0; i < stops; i++) {
      const reached = length[set * stops + i]!;
      if (reached === Infinity) continue;
      for (let j = 0; j < stops; j++) {
        if ((set >> j) & 1) continue;
        const at = (set | (1 << j)) * stops + j;
        const longer = reached + distance(i + 1, j + 1);
        if (longer < length[at]!) {
          length[at] = longer;
          before[at] = i;
        }
      }
    }
  let set = sets - 1;
  const home = (j: number): number => length[set * stops + j]! + distance(j + 1, 0);
  let last = 0;
  for (let j = 1; j < stops; j++) if (home(j) < home(last)) last = j;
  const order: number[] = [];
  for (let j = last; j >= 0;) {
    order.push(j + 1);
    const previous = before[set * stops + j]!;
    set &= ~(1 << j);
    j = previous;
  }
  return [0, ...order.reverse()];
}
