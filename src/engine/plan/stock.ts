/**
 * One means for every tree when bags, pads and hoses, or some of them, are limited to what is in stock.
 *
 * A multiple-choice assignment: of like trees, how many take each option, so that no device is used beyond its stock.
 * Aims in this order: fewest trees not kept, fewest trees without any means, fewest stress days among those not
 * kept, least cost.
 */
import { Problem } from '../problems.js';
import { servesAllTrees, type Device, type Site } from './model.js';
import { devicesOf, type Option } from './option.js';
import type { Solve } from './solve.js';
import {
  aimsOfAll,
  firstChoice,
  total,
  usedBy,
  withinStock,
  type Aims,
  type StockGroup,
  type Uses,
} from './stock-aims.js';
import { inTurn } from './stock-solve.js';

/** Devices an option ties to one tree; a nozzle or a truck serves all trees. */
export function usesOf(option: Option): Uses {
  const uses = new Map<string, number>();
  for (const device of devicesOf(option)) {
    if (servesAllTrees(device.family)) continue;
    const number = device === option.main?.device ? option.main.joined : 1;
    uses.set(device.name, (uses.get(device.name) ?? 0) + number);
  }
  return uses;
}

/** Devices in stock that belong to one tree each, by name. */
export const stockAtHand = (kit: readonly Device[]): Map<string, number> =>
  new Map(
    kit.filter(({ family }) => !servesAllTrees(family)).map(({ name, stock }) => [name, stock]),
  );

/** Whether more of a device may be bought than is in stock: its own answer, else the one of the site. */
const mayBuy = ({ buy }: Pick<Device, 'buy'>, { stockOnly }: Pick<Site, 'stockOnly'>): boolean =>
  buy ?? stockOnly !== 'yes'; // prettier-ignore

/**
 * What limits the choice: the stock of every device of which no more may be bought. Empty: nothing is limited.
 *
 * @returns devices by name; a nozzle or a truck is never among them, whatever its row says
 */
export const stockLimits = (kit: readonly Device[], site: Site): Map<string, number> =>
  stockAtHand(kit.filter((device) => !mayBuy(device, site)));

export interface StockAnswer {
  /** for each group, how many of its trees take each option; what is missing to `count` has no means left */
  takes: number[][];
  /** trees of each group for which no device is left */
  unserved: number[];
  aims: Aims;
  /** devices used by all trees together, by name */
  used: Map<string, number>;
  /** cost above a proven lower limit, over the cost [-]; 0 when the optimum is proven */
  gap: number;
  /** how the answer was found, and what is not proven, in a sentence */
  note: string;
}

/** What is said where nothing had to give way. */
export const STOCK_IS_ENOUGH = 'Every tree has its first choice: the stock is enough.';
/** The same where more may be bought of other devices: of those the stock need not be enough. */
export const stockIsEnough = (limited: readonly string[]): string =>
  `Every tree has its first choice: the stock of ${limited.join(', ')} is enough.`;

/**
 * Means for all trees within the stock.
 *
 * Where every tree's first choice fits the stock, that is the answer and no better one exists. Else the trees that
 * compete for short devices are given to the solver, one aim after the other, each kept while the next is made small.
 *
 * @param groups - like trees and their feasible options
 * @param stock - devices at hand by name; a device not named is not limited
 * @param tolerated - stress days a tree may have and still be kept [days]
 * @param solve - an exact solver; without one the answer is the greedy one and its gap is not known (NaN)
 * @throws Problem if a count or a stock is not a whole number
 */
export async function chooseWithinStock(
  groups: readonly StockGroup[],
  stock: ReadonlyMap<string, number>,
  tolerated: number,
  solve: Solve | undefined,
): Promise<StockAnswer> {
  check(groups, stock);
  const first = groups.map((group) => firstChoice(group, tolerated));
  const takes = groups.map((group, g) =>
    group.options.map((_, o) => (o === first[g] ? group.count : 0)),
  );
  if (withinStock(usedBy(groups, takes), stock))
    return answerOf(groups, takes, tolerated, 0, STOCK_IS_ENOUGH);
  const competing = competitors(groups, first, stock);
  const left = stockLeft(groups, takes, competing, stock);
  const those = competing.map((g) => groups[g]!);
  const found = await inTurn(those, left, tolerated, solve);
  competing.forEach((g, k) => (takes[g] = found.takes[k]!));
  const cost = aimsOfAll(groups, takes, tolerated).cost;
  const gap = found.missing === 0 ? 0 : cost > 0 ? found.missing / cost : NaN;
  return answerOf(groups, takes, tolerated, gap, found.note);
}

function check(groups: readonly StockGroup[], stock: ReadonlyMap<string, number>): void {
  groups.forEach(({ count, options }, g) => {
    if (options.length === 0)
      throw new Problem(`group ${g + 1} has no way of watering; at least one is needed`);
    if (!Number.isInteger(count) || count < 1)
      throw new Problem(`group ${g + 1} has ${count} trees; a whole number from 1 is accepted`);
  });
  for (const [name, number] of stock)
    if (!Number.isInteger(number) || number < 0)
      throw new Problem(`stock of ${name} is ${number}; a whole number from 0 is accepted`);
}

/**
 * Groups that may have to give way: their first choice takes a device that can run short. A device can run short when
 * all trees together could want more of it than there is. The others keep their first choice whatever these get.
 */
function competitors(
  groups: readonly StockGroup[],
  first: readonly number[],
  stock: ReadonlyMap<string, number>,
): number[] {
  const wanted = new Map<string, number>();
  for (const { count, options } of groups) {
    const most = new Map<string, number>();
    for (const { uses } of options)
      for (const [name, number] of uses) most.set(name, Math.max(most.get(name) ?? 0, number));
    for (const [name, number] of most) wanted.set(name, (wanted.get(name) ?? 0) + number * count);
  }
  const short = (name: string): boolean => wanted.get(name)! > (stock.get(name) ?? Infinity);
  return groups.flatMap((group, g) => {
    const choice = group.options[first[g]!];
    return choice && [...choice.uses.keys()].some(short) ? [g] : [];
  });
}

/** Stock after the groups that do not compete have taken theirs. */
function stockLeft(
  groups: readonly StockGroup[],
  takes: readonly number[][],
  competing: readonly number[],
  stock: ReadonlyMap<string, number>,
): Map<string, number> {
  const compete = new Set(competing);
  const others = takes.map((own, g) => (compete.has(g) ? own.map(() => 0) : own));
  const used = usedBy(groups, others);
  return new Map([...stock].map(([name, number]) => [name, number - (used.get(name) ?? 0)]));
}

function answerOf(
  groups: readonly StockGroup[],
  takes: number[][],
  tolerated: number,
  gap: number,
  note: string,
): StockAnswer {
  return {
    takes,
    unserved: groups.map((group, g) => group.count - total(takes[g]!)),
    aims: aimsOfAll(groups, takes, tolerated),
    used: usedBy(groups, takes),
    gap,
    note,
  };
}

/** What must be bought for these uses [devices], nothing where the stock is enough. */
export function toBuy(
  used: ReadonlyMap<string, number>,
  stock: ReadonlyMap<string, number>,
): Map<string, number> {
  const lacking = new Map<string, number>();
  for (const [name, number] of used) {
    const more = number - (stock.get(name) ?? 0);
    if (more > 0) lacking.set(name, more);
  }
  return lacking;
}

/**
 * Gives the rows of a group their options: rows in turn, options in turn, so that at most one row a change of option is
 * split.
 *
 * @param counts - trees of each row; together the group's count
 * @param takes - how many trees of the group take each option
 * @returns for each row, parts of its trees: an option and how many, option undefined for trees without means
 */
export function shareOut(
  counts: readonly number[],
  takes: readonly number[],
): { option: number | undefined; count: number }[][] {
  const rest = [...takes];
  let o = 0;
  return counts.map((count) => {
    const parts: { option: number | undefined; count: number }[] = [];
    for (let trees = count; trees > 0;) {
      while (o < rest.length && rest[o] === 0) o++;
      const taken = o < rest.length ? Math.min(trees, rest[o]!) : trees;
      if (o < rest.length) rest[o]! -= taken;
      parts.push({ option: o < rest.length ? o : undefined, count: taken });
      trees -= taken;
    }
    return parts;
  });
}
