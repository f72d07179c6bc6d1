/** What a choice of means for every tree is judged by, when devices are limited. */

/** Devices one tree takes with it for the season, by name. */
export type Uses = ReadonlyMap<string, number>;

/** One way to serve a tree, as simulated. */
export interface StockOption {
  stressDays: number;
  cost: number; // for one tree and season
  /** ties of cost are broken by litres, then visits, where stock does not bind */
  litres: number;
  visits: number;
  uses: Uses;
}

/** Like trees: every one has the same feasible options. */
export interface StockGroup {
  /** trees, a whole number from 1 */
  count: number;
  options: readonly StockOption[];
}

/** What is made small, the first first. */
export interface Aims {
  /** trees with more stress days than tolerated, those without means included */
  notKept: number;
  unserved: number;
  /** stress days of served trees that are not kept [days] */
  stressDays: number;
  cost: number;
}

/** Their order. */
export const AIMS = ['notKept', 'unserved', 'stressDays', 'cost'] as const;

/** What one tree with an option adds to the aims; without an option it has no means. */
export function aimsOf(option: StockOption | undefined, tolerated: number): Aims {
  if (!option) return { notKept: 1, unserved: 1, stressDays: 0, cost: 0 };
  const lost = option.stressDays > tolerated;
  return {
    notKept: lost ? 1 : 0,
    unserved: 0,
    stressDays: lost ? option.stressDays : 0,
    cost: option.cost,
  };
}

/** Differences of money below this are rounding. */
const SAME_COST = 1e-9;

/** Which option a tree would rather have, as a sort compares; 0 when nothing tells them apart. */
export function better(a: StockOption, b: StockOption, tolerated: number): number {
  const [p, q] = [aimsOf(a, tolerated), aimsOf(b, tolerated)];
  const cost = Math.abs(a.cost - b.cost) < SAME_COST ? 0 : a.cost - b.cost;
  return (
    p.notKept - q.notKept ||
    p.stressDays - q.stressDays ||
    cost ||
    (Math.abs(a.litres - b.litres) < SAME_COST ? 0 : a.litres - b.litres) ||
    a.visits - b.visits
  );
}

/** The option a tree would have if nothing were short. */
export const firstChoice = (group: StockGroup, tolerated: number): number =>
  group.options.reduce(
    (best, option, i) =>
      best < 0 || better(option, group.options[best]!, tolerated) < 0 ? i : best,
    -1,
  );

/** Devices used, by name. */
export function usedBy(
  groups: readonly StockGroup[],
  takes: readonly number[][],
): Map<string, number> {
  const used = new Map<string, number>();
  groups.forEach((group, g) =>
    group.options.forEach((option, o) => {
      const trees = takes[g]![o]!;
      if (trees > 0)
        for (const [name, number] of option.uses)
          used.set(name, (used.get(name) ?? 0) + number * trees);
    }),
  );
  return used;
}

/** No device beyond its stock. */
export const withinStock = (
  used: ReadonlyMap<string, number>,
  stock: ReadonlyMap<string, number>,
): boolean => [...used].every(([name, number]) => number <= (stock.get(name) ?? Infinity));

export const zero = (): Aims => ({ notKept: 0, unserved: 0, stressDays: 0, cost: 0 });

/** The aims of all trees together; those that take no option are without means. */
export function aimsOfAll(
  groups: readonly StockGroup[],
  takes: readonly number[][],
  tolerated: number,
): Aims {
  const sum = zero();
  const add = (one: Aims, trees: number): void => {
    for (const aim of AIMS) sum[aim] += one[aim] * trees;
  };
  groups.forEach((group, g) => {
    group.options.forEach((option, o) => add(aimsOf(option, tolerated), takes[g]![o]!));
    add(aimsOf(undefined, tolerated), group.count - total(takes[g]!));
  });
  return sum;
}

export const total = (numbers: readonly number[]): number => numbers.reduce((a, b) => a + b, 0);
