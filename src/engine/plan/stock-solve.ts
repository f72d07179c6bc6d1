/** The best use of short stock: a whole-number model, solved one aim after the other, and a greedy answer to start from. */
import type { Row, Solve, WholeNumberModel } from './solve.js';
import {
  AIMS,
  aimsOf,
  aimsOfAll,
  better,
  total,
  usedBy,
  withinStock,
  zero,
  type Aims,
  type StockGroup,
  type StockOption,
} from './stock-aims.js';

export interface Found {
  takes: number[][];
  /** cost above the proven lower limit; NaN when there is none */
  missing: number;
  note: string;
}

/** One solve for every aim that can differ; each aim reached becomes a row of the next model. */
export async function inTurn(
  groups: readonly StockGroup[],
  stock: ReadonlyMap<string, number>,
  tolerated: number,
  solve: Solve | undefined,
): Promise<Found> {
  const greedy = greedyTakes(groups, stock, tolerated);
  if (!solve)
    return {
      takes: greedy,
      missing: NaN,
      note: 'The stock is short and no solver was at hand: devices went tree by tree to those that would lose most without them. How much better it could be is not known.',
    };
  const model = modelOf(groups, stock);
  const columns = columnsOf(groups);
  let takes = greedy;
  for (const aim of AIMS) {
    const cost = columns.map(({ option }) => aimsOf(option, tolerated)[aim]);
    const now = (): number => aimsOfAll(groups, takes, tolerated)[aim];
    if (now() > leastPossible(groups, columns, cost) + ROUNDING) {
      const found = await solve({ ...model, cost });
      const given = found.x && takesOf(groups, columns, found.x);
      if (!given || !keeps(groups, stock, given))
        return {
          takes,
          missing: NaN,
          note: `The stock is short and the solver stopped without an answer (${found.status}): devices were given out tree by tree. How much better it could be is not known.`,
        };
      takes = given;
      // all aims but the cost are whole numbers: less than one above the bound is none
      const whole = aim !== 'cost' && now() < found.bound + 1 - WHOLE_ROUNDING;
      if (!found.proven && !whole)
        return {
          takes,
          missing: aim === 'cost' ? Math.max(0, now() - found.bound) : NaN,
          note: `The stock is short and the solver left a gap (${found.status}) when it made ${WORDS[aim]} small: ${amount(now())} reached, no less than ${amount(found.bound)} is possible.`,
        };
    }
    const counted = cost.flatMap((c, i) => (c === 0 ? [] : [i]));
    model.rows.push({
      columns: counted,
      values: counted.map((i) => cost[i]!),
      low: -Infinity,
      high: now(),
    });
  }
  return { takes, missing: 0, note: 'The stock is short; no better use of it exists (proven).' };
}

/** An aim cannot be smaller than with every tree at its own least. */
function leastPossible(
  groups: readonly StockGroup[],
  columns: readonly Column[],
  cost: readonly number[],
): number {
  const least = groups.map(() => Infinity);
  columns.forEach(({ group }, c) => (least[group] = Math.min(least[group]!, cost[c]!)));
  return least.reduce((sum, one, g) => sum + one * groups[g]!.count, 0);
}

/** Differences below this are rounding. */
const ROUNDING = 1e-9;

const WHOLE_ROUNDING = 1e-3;

const WORDS: Readonly<Record<keyof Aims, string>> = {
  notKept: 'the number of trees not kept',
  unserved: 'the number of trees without means',
  stressDays: 'the stress days',
  cost: 'the cost',
};

const amount = (value: number): string => String(Number(value.toFixed(2)));

interface Column {
  group: number;
  /** undefined: trees without means */
  option?: StockOption;
}

/** One column an option of a group, and one for its trees without means. */
const columnsOf = (groups: readonly StockGroup[]): Column[] =>
  groups.flatMap(({ options }, group) => [
    ...options.map((option) => ({ group, option })),
    { group },
  ]);

function modelOf(
  groups: readonly StockGroup[],
  stock: ReadonlyMap<string, number>,
): WholeNumberModel {
  const columns = columnsOf(groups);
  const rows: Row[] = groups.map(({ count }) => ({
    columns: [],
    values: [],
    low: count,
    high: count,
  }));
  const limits = new Map<string, Row>();
  columns.forEach(({ group, option }, c) => {
    const row = rows[group]!;
    row.columns.push(c);
    row.values.push(1);
    for (const [name, number] of option?.uses ?? []) {
      const high = stock.get(name);
      if (high === undefined) continue;
      let limit = limits.get(name);
      if (!limit) limits.set(name, (limit = { columns: [], values: [], low: -Infinity, high }));
      limit.columns.push(c);
      limit.values.push(number);
    }
  });
  return {
    cost: columns.map(() => 0),
    most: columns.map(({ group }) => groups[group]!.count),
    rows: [...rows, ...limits.values()],
  };
}

function takesOf(
  groups: readonly StockGroup[],
  columns: readonly Column[],
  x: readonly number[],
): number[][] {
  const takes = groups.map((): number[] => []);
  columns.forEach(({ group, option }, c) => {
    if (option) takes[group]!.push(Math.round(x[c]!) + 0);
  });
  return takes;
}

/** Whole numbers of trees within counts and stock: a solver keeps them up to its tolerance only. */
function keeps(
  groups: readonly StockGroup[],
  stock: ReadonlyMap<string, number>,
  takes: readonly number[][],
): boolean {
  return (
    takes.every((own, g) => own.every((n) => n >= 0) && total(own) <= groups[g]!.count) &&
    withinStock(usedBy(groups, takes), stock)
  );
}

/** Trees in turn, each taking the best option for which devices are left. Feasible, not the best. */
function greedyTakes(
  groups: readonly StockGroup[],
  stock: ReadonlyMap<string, number>,
  tolerated: number,
): number[][] {
  const left = new Map(stock);
  const ranked = groups.map((group) =>
    group.options
      .map((_, o) => o)
      .sort((a, b) => better(group.options[a]!, group.options[b]!, tolerated)),
  );
  const loss = (g: number): Aims => {
    const { options } = groups[g]!;
    const [best, next] = ranked[g]!.map((o) => options[o]);
    const [a, b] = [aimsOf(best, tolerated), aimsOf(next, tolerated)];
    const out = zero();
    for (const aim of AIMS) out[aim] = b[aim] - a[aim];
    return out;
  };
  const order = groups
    .map((_, g) => ({ g, loss: loss(g) }))
    .sort((p, q) => {
      for (const aim of AIMS) if (p.loss[aim] !== q.loss[aim]) return q.loss[aim] - p.loss[aim];
      return p.g - q.g;
    });
  const takes = groups.map(({ options }) => options.map(() => 0));
  for (const { g } of order) {
    let trees = groups[g]!.count;
    for (const o of ranked[g]!) {
      const { uses } = groups[g]!.options[o]!;
      const reach = [...uses].map(([name, number]) =>
        Math.floor((left.get(name) ?? Infinity) / number),
      );
      const taken = Math.min(trees, ...reach);
      for (const [name, number] of uses) {
        const rest = left.get(name);
        if (rest !== undefined) left.set(name, rest - number * taken);
      }
      takes[g]![o] = taken;
      trees -= taken;
    }
  }
  return takes;
}
