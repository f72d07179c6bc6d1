/** Distances and near neighbours of places, as the search for a short tour wants them. */
import { arc, direction, type Place } from './place.js';
import type { Nodes } from './tour.js';

/** Up to this many nodes every other one is a neighbour: near ones alone would not join clusters well. */
const ALL_NEAR = 200;
/** Neighbours looked at where there are more. */
const NEAR = 16;
/** Up to this many nodes distances are kept in a table. */
const TABLE = 800;

/**
 * Node 0 is the yard, node i + 1 is place i. Without a yard node 0 is next to everything, so that a round trip
 * through it is an open way with the best two ends.
 */
export function nodesOf(places: readonly Place[], yard: Place | undefined): Nodes {
  const count = places.length + 1;
  const xyz = new Float64Array(3 * count);
  if (yard) xyz.set(direction(yard), 0);
  places.forEach((place, i) => xyz.set(direction(place), 3 * (i + 1)));
  const open = yard === undefined;
  const far = (a: number, b: number): number =>
    open && (a === 0 || b === 0)
      ? 0
      : arc(
          xyz[3 * a]! - xyz[3 * b]!,
          xyz[3 * a + 1]! - xyz[3 * b + 1]!,
          xyz[3 * a + 2]! - xyz[3 * b + 2]!,
        );
  const distance = count <= TABLE ? tabled(count, far) : far;
  return { count, distance, near: nearLists(xyz, open, distance) };
}

function tabled(
  count: number,
  far: (a: number, b: number) => number,
): (a: number, b: number) => number {
  const table = new Float64Array(count * count);
  for (let a = 0; a < count; a++)
    for (let b = 0; b < a; b++) table[a * count + b] = table[b * count + a] = far(a, b);
  return (a, b) => table[a * count + b]!;
}

/** Near nodes of each, nearest first; the yard is on every list, since any stop may be the first or last. */
function nearLists(
  xyz: Float64Array,
  open: boolean,
  distance: (a: number, b: number) => number,
): number[][] {
  const count = xyz.length / 3;
  const nodes = Array.from({ length: count }, (_, i) => i);
  const from = new Float64Array(count);
  const sorted = (a: number, found: number[]): number[] => {
    for (const b of found) from[b] = distance(a, b);
    return found.sort((b, c) => from[b]! - from[c]! || b - c);
  };
  const allOf = (a: number): number[] =>
    sorted(
      a,
      nodes.filter((b) => b !== a),
    );
  if (count <= ALL_NEAR) return nodes.map(allOf);
  const placed = open ? nodes.slice(1) : nodes;
  const lists = sweep(xyz, placed);
  return nodes.map((a) =>
    a === 0 && open
      ? placed.slice(0, NEAR)
      : sorted(a, a === 0 || lists[a]!.includes(0) ? lists[a]! : [...lists[a]!, 0]),
  );
}

/**
 * The nearest of each place. Places are sorted along the axis on which they are spread most; from each, both
 * ways are searched until the step along that axis alone is longer than the farthest neighbour held.
 */
function sweep(xyz: Float64Array, placed: readonly number[]): number[][] {
  const axis = widestAxis(xyz, placed);
  const along = (node: number): number => xyz[3 * node + axis]!;
  const line = [...placed].sort((a, b) => along(a) - along(b) || a - b);
  const lists: number[][] = Array.from({ length: xyz.length / 3 }, () => []);
  line.forEach((a, i) => {
    const held: { node: number; square: number }[] = [];
    const farthest = (): number => (held.length < NEAR ? Infinity : held[NEAR - 1]!.square);
    const look = (b: number): void => {
      let square = 0;
      for (let k = 0; k < 3; k++) square += (xyz[3 * a + k]! - xyz[3 * b + k]!) ** 2;
      if (square >= farthest()) return;
      let at = held.length;
      while (at > 0 && held[at - 1]!.square > square) at--;
      held.splice(at, 0, { node: b, square });
      if (held.length > NEAR) held.pop();
    };
    for (const step of [1, -1])
      for (let j = i + step; j >= 0 && j < line.length; j += step) {
        if ((along(line[j]!) - along(a)) ** 2 >= farthest()) break;
        look(line[j]!);
      }
    lists[a] = held.map((h) => h.node);
  });
  return lists;
}

function widestAxis(xyz: Float64Array, placed: readonly number[]): number {
  const spread = [0, 1, 2].map((k) => {
    let [low, high] = [Infinity, -Infinity];
    for (const node of placed) {
      const x = xyz[3 * node + k]!;
      low = Math.min(low, x);
      high = Math.max(high, x);
    }
    return high - low;
  });
  return spread.indexOf(Math.max(...spread));
}
