/** Cutting a tour into contiguous rounds, one a crew, so that the longest is as short as it can be. */

export interface Split {
  /** where each round ends, exclusive; the last is the number of items. Empty rounds are left out. */
  ends: number[];
  /** the longest round, in the unit of the cost */
  longest: number;
}

/** Up to this many items every cut is tried; above, the cut is found by halving, exact where longer rounds cost more. */
const TRY_ALL = 200;

/**
 * The fewest contiguous rounds, at most `most`, none of them above `limit`, evenly filled. If even `most` rounds are
 * not enough, those with the shortest longest one.
 *
 * Dynamic programme: least longest round of the first i items in c rounds
 *   L(c, i) = min over j of max(L(c−1, j), cost(j, i))
 *
 * @param items - how many, from 1
 * @param cost - of a round over items from…to−1, above 0 for a round that is not empty
 */
export function evenRounds(
  items: number,
  most: number,
  limit: number,
  cost: (from: number, to: number) => number,
): Split {
  let least = Array.from({ length: items + 1 }, (_, i) => (i === 0 ? 0 : cost(0, i)));
  const cuts: number[][] = [];
  for (let crews = 1; ; crews++) {
    if (least[items]! <= limit || crews >= Math.min(most, items)) break;
    const cut: number[] = [0];
    const next = [0];
    for (let i = 1; i <= items; i++) {
      const longest = (j: number): number => Math.max(least[j]!, j === i ? 0 : cost(j, i));
      const j = bestCut(i, longest, (k) => k === i || least[k]! >= cost(k, i));
      cut.push(j);
      next.push(longest(j));
    }
    cuts.push(cut);
    least = next;
  }
  const ends = [items];
  for (let c = cuts.length - 1; c >= 0; c--) ends.unshift(cuts[c]![ends[0]!]!);
  return {
    ends: ends.filter((end, k) => end > (k === 0 ? 0 : ends[k - 1]!)),
    longest: least[items]!,
  };
}

/** The cut from 0 to i with the shortest longest round; the first of equal ones. */
function bestCut(
  i: number,
  longest: (j: number) => number,
  crossed: (j: number) => boolean,
): number {
  if (i <= TRY_ALL) {
    let best = 0;
    for (let j = 1; j <= i; j++) if (longest(j) < longest(best)) best = j;
    return best;
  }
  let [low, high] = [0, i];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (crossed(middle)) high = middle;
    else low = middle + 1;
  }
  return low > 0 && longest(low - 1) <= longest(low) ? low - 1 : low;
}
