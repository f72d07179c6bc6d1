/**
 * A short round trip: nearest neighbour, then 2-opt and Or-opt until neither helps.
 *
 * 2-opt turns a stretch of the trip round; Or-opt lifts a run of up to three stops and sets it down elsewhere,
 * either way round. Sources: G. A. Croes, Operations Research 6 (1958) 791–812; I. Or, thesis,
 * Northwestern University (1976) (both from memory).
 */

/** Places to visit; node 0 is where the trip starts and ends. */
export interface Nodes {
  count: number;
  /** symmetric, 0 or more [m] */
  distance(a: number, b: number): number;
  /** near nodes of each node, nearest first; all others where there are few */
  near: readonly (readonly number[])[];
}

/** A gain below this is rounding, not a shorter way [m]. */
const LEAST_GAIN = 1e-6;
/** Longest run of stops that Or-opt moves. */
const LONGEST_RUN = 3;

/** Length of a round trip in this order [m]. */
export function tourLength(order: ArrayLike<number>, nodes: Nodes): number {
  let sum = 0;
  for (let i = 0; i < order.length; i++)
    sum += nodes.distance(order[i]!, order[(i + 1) % order.length]!);
  return sum;
}

/** From `start` always to the nearest place not yet visited; ties to the lower number. */
export function nearestNeighbour(start: number, nodes: Nodes): number[] {
  const visited = new Uint8Array(nodes.count);
  const order = [start];
  visited[start] = 1;
  for (let here = start; order.length < nodes.count;) {
    let best = nodes.near[here]!.find((c) => !visited[c]);
    if (best === undefined) {
      let least = Infinity;
      for (let c = 0; c < nodes.count; c++) {
        if (visited[c]) continue;
        const far = nodes.distance(here, c);
        if (far < least) [least, best] = [far, c];
      }
    }
    visited[best!] = 1;
    order.push(best!);
    here = best!;
  }
  return order;
}

/** A round trip under improvement: which node is at a position, and where each node is. */
class Tour {
  readonly size: number;
  private readonly at: Int32Array;
  private readonly position: Int32Array;

  constructor(
    order: readonly number[],
    private readonly nodes: Nodes,
  ) {
    this.size = order.length;
    this.at = Int32Array.from(order);
    this.position = new Int32Array(order.length);
    order.forEach((node, i) => (this.position[node] = i));
  }

  order(): number[] {
    return [...this.at];
  }

  after(node: number): number {
    const i = this.position[node]! + 1;
    return this.at[i === this.size ? 0 : i]!;
  }

  before(node: number): number {
    const i = this.position[node]!;
    return this.at[i === 0 ? this.size - 1 : i - 1]!;
  }

  private put(i: number, node: number): void {
    const where = ((i % this.size) + this.size) % this.size;
    this.at[where] = node;
    this.position[node] = where;
  }

  private node(i: number): number {
    return this.at[((i % this.size) + this.size) % this.size]!;
  }

  /** Turns the stretch from `a` forward to `b` round; the rest instead where that is shorter. */
  private turn(a: number, b: number): void {
    let [i, j] = [this.position[a]!, this.position[b]!];
    let length = ((j - i + this.size) % this.size) + 1;
    if (2 * length > this.size) {
      [i, j] = [j + 1, i - 1];
      length = this.size - length;
    }
    for (; length > 1; length -= 2, i++, j--) {
      const [x, y] = [this.node(i), this.node(j)];
      this.put(i, y);
      this.put(j, x);
    }
  }

  /** Lifts the run of `length` nodes that starts at `first` and sets it down between `c` and the node after it. */
  private shift(first: number, length: number, c: number, turned: boolean): void {
    const i = this.position[first]!;
    const run = Array.from({ length }, (_, k) => this.node(i + k));
    if (turned) run.reverse();
    const forward = (this.position[c]! - (i + length - 1) + this.size) % this.size;
    const backward = this.size - length - forward;
    if (forward <= backward) {
      for (let k = 0; k < forward; k++) this.put(i + k, this.node(i + length + k));
      run.forEach((node, k) => this.put(i + forward + k, node));
    } else {
      for (let k = 0; k < backward; k++) this.put(i + length - 1 - k, this.node(i - 1 - k));
      run.forEach((node, k) => this.put(i - backward + k, node));
    }
  }

  /** One 2-opt move that makes a new way from `a`, if there is one. @returns the nodes it touched */
  uncross(a: number): number[] | undefined {
    const { distance, near } = this.nodes;
    for (const forward of [true, false]) {
      const next = forward ? this.after(a) : this.before(a);
      const gone = distance(a, next);
      for (const c of near[a]!) {
        const added = distance(a, c);
        if (added >= gone) break;
        const beyond = forward ? this.after(c) : this.before(c);
        if (gone + distance(c, beyond) - added - distance(next, beyond) <= LEAST_GAIN) continue;
        if (forward) this.turn(next, c);
        else this.turn(c, next);
        return [a, next, c, beyond];
      }
    }
    return undefined;
  }

  /** One Or-opt move of a run that starts or ends at `a`, if there is one. @returns the nodes it touched */
  relocate(a: number): number[] | undefined {
    for (let length = 1; length <= Math.min(LONGEST_RUN, this.size - 2); length++)
      for (const atStart of [true, false]) {
        const i = this.position[a]! - (atStart ? 0 : length - 1);
        const moved = this.setDown(a, this.node(i), this.node(i + length - 1), length);
        if (moved) return moved;
        if (length === 1) break;
      }
    return undefined;
  }

  /** Sets the run `first…last` down beside a near node of its end `a`, where that is shorter. */
  private setDown(a: number, first: number, last: number, length: number): number[] | undefined {
    const { distance, near } = this.nodes;
    const [p, n] = [this.before(first), this.after(last)];
    const lifted = distance(p, first) + distance(last, n) - distance(p, n);
    const other = a === first ? last : first;
    const start = this.position[first]!;
    const inRun = (node: number): boolean =>
      (this.position[node]! - start + this.size) % this.size < length;
    for (const c of near[a]!) {
      const toC = distance(a, c);
      if (toC >= lifted) break;
      if (inRun(c)) continue;
      for (const afterC of [true, false]) {
        // the run stands between c and d, `a` beside c
        const d = afterC ? this.after(c) : this.before(c);
        if (inRun(d)) continue;
        if (lifted - toC - distance(other, d) + distance(c, d) <= LEAST_GAIN) continue;
        const aFirst = a === first;
        this.shift(first, length, afterC ? c : d, length > 1 && aFirst !== afterC);
        return [p, n, c, d, first, last];
      }
    }
    return undefined;
  }
}

/**
 * 2-opt and Or-opt from a given order until neither helps. Never longer than it was.
 *
 * @param at - nodes to begin with, each once; the others are looked at when a move touches them
 */
export function improve(
  order: readonly number[],
  nodes: Nodes,
  at: readonly number[] = order,
): number[] {
  if (order.length < 4) return [...order];
  const tour = new Tour(order, nodes);
  const waiting = [...at];
  const queued = new Uint8Array(order.length);
  for (const node of at) queued[node] = 1;
  for (let k = 0; k < waiting.length; k++) {
    const node = waiting[k]!;
    queued[node] = 0;
    let touched: number[] | undefined;
    while ((touched = tour.uncross(node) ?? tour.relocate(node)))
      for (const t of touched)
        if (!queued[t]) {
          queued[t] = 1;
          waiting.push(t);
        }
  }
  return tour.order();
}

/** A double bridge: the trip cut into a b c d and joined as a c b d, which neither 2-opt nor Or-opt undoes in one step. */
const bridged = (order: readonly number[], i: number, j: number, k: number): number[] => [
  ...order.slice(0, i),
  ...order.slice(j, k),
  ...order.slice(i, j),
  ...order.slice(k),
];

/** Nodes beside the cuts of a double bridge, each once. */
const cutEnds = (order: readonly number[], i: number, j: number, k: number): number[] => [
  ...new Set([i - 1, i, j - 1, j, k - 1, k % order.length].map((p) => order[p]!)),
];

/** Longest stretches that a double bridge swaps. */
const STRETCH = 30;

/** Double bridges of short stretches at places that look random but are the same in every run; the better is kept. */
function someKicks(order: number[], nodes: Nodes, kicks: number): number[] {
  let best = order;
  let least = tourLength(best, nodes);
  let state = 1;
  const random = (most: number): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * most);
  };
  for (let n = 0; n < kicks; n++) {
    const stretch = Math.min(STRETCH, Math.floor((best.length - 1) / 2));
    const i = 1 + random(best.length - 2);
    const j = Math.min(best.length - 1, i + 1 + random(stretch));
    const k = Math.min(best.length, j + 1 + random(stretch));
    if (i >= j) continue;
    const found = improve(bridged(best, i, j, k), nodes, cutEnds(best, i, j, k));
    const length = tourLength(found, nodes);
    if (length <= least) [best, least] = [found, length];
  }
  return best;
}

/** Up to this many nodes every one is tried as a start; above, a few. */
const TRY_ALL = 13;
const SOME_STARTS = 3;
/** Above this many nodes only the given order and one nearest-neighbour trip are improved. */
const ONE_START = 200;
/** Double bridges for every node, and the most of them. */
const KICKS = 4;
const MOST_KICKS = 400;
/** Above this many nodes a kick costs more than it brings. */
const LAST_KICKED = 1000;

/**
 * A short round trip. Several starts, the shortest result, then double bridges; the same input, the same answer.
 *
 * @param given - an order of all nodes; the answer is never longer
 * @param kicked - with double bridges, which bring the last few per cent and cost most of the time
 */
export function shortTour(given: readonly number[], nodes: Nodes, kicked = true): number[] {
  const step =
    nodes.count <= TRY_ALL
      ? 1
      : nodes.count <= ONE_START
        ? Math.ceil(nodes.count / SOME_STARTS)
        : nodes.count;
  let best = improve(given, nodes);
  let least = tourLength(best, nodes);
  for (let start = 0; start < nodes.count; start += step) {
    const found = improve(nearestNeighbour(start, nodes), nodes);
    const length = tourLength(found, nodes);
    if (length < least - LEAST_GAIN) [best, least] = [found, length];
  }
  if (kicked && nodes.count > 4 && nodes.count <= LAST_KICKED)
    best = someKicks(best, nodes, Math.min(MOST_KICKS, KICKS * nodes.count));
  return best;
}
