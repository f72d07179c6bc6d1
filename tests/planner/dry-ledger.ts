/**
 * A second, small water balance kept as depletions [L], to judge the planner's dates by. Written from FAO-56
 * (Allen, Pereira, Raes, Smith 1998; seen, reference/domain.md 4.1 and 4.5): Ks Eq. 84, Dr,i = Dr,i-1 - P - I +
 * ETc + DP Eq. 85, 0 <= Dr <= TAW Eq. 86, DP = P + I - Dr,i-1 Eq. 88 with water early in the day as in Example 38;
 * and from the order of one day in 2-model 4. It takes a tree's sizes from the engine, and nothing else.
 */
import type { TreeSeason } from '../../src/engine/plan/tree-season.js';

/** A way of watering, as plain numbers. */
export interface Way {
  kind: 'bag full' | 'bag part' | 'soaker' | 'hand';
  efficiency: number;
  /** bag: its volume [L] */
  volume: number;
  /** hose, hand: flow [L/min] and open minutes of each day */
  flow: number;
  minutes: (day: number) => number;
  /** ground a coil covers [m2]; Infinity by hand */
  reach: number;
}

export interface Place {
  /** rain that counts [mm/day] */
  rain: Float64Array;
  joiningShare: number;
  overflowToRing: number;
}

/** What lacks in ball and ring in the evening [L], and what the season came to so far. */
export interface Ledger {
  ball: number;
  ring: number;
  waterings: number;
  litres: number;
  /** days that began, after water, with more depleted than RAW: Ks < 1 */
  stressDays: number;
  /** days that ended with more depleted than RAW: FAO-56's own advice is to water before */
  overDays: number;
  /** how far they ended beyond RAW, summed over days [L] */
  beyond: number;
  /** demand the tree could not meet [L] */
  unmet: number;
}

export const fullStores = (): Ledger => ({
  ball: 0, ring: 0, waterings: 0, litres: 0, stressDays: 0, overDays: 0, beyond: 0, unmet: 0,
}); // prettier-ignore

/** Least amount worth a visit [L]: the planner's own limit; less is no watering. */
const LEAST = 0.5;
const HAIR = 1e-9;

/** Litres applied this morning, and what of them reaches ball and ring. */
function dose(tree: TreeSeason, way: Way, place: Place, day: number, ball: number, ring: number) {
  const none = { litres: 0, toBall: 0, toRing: 0 };
  if (way.kind === 'bag full' || way.kind === 'bag part') {
    const passing = place.overflowToRing > 0 ? ring / place.overflowToRing : 0;
    const wanted = (ball + passing) / way.efficiency;
    const litres = way.kind === 'bag full' ? way.volume : Math.min(way.volume, wanted);
    return litres < LEAST ? none : { litres, toBall: litres * way.efficiency, toRing: 0 };
  }
  const ground = tree.ringArea[day]!;
  const wet = ground > 0 ? Math.min(1, Math.max(0, (way.reach - tree.ballArea) / ground)) : 1;
  const lack = ball + ring * wet;
  const litres = Math.min(lack / way.efficiency, way.flow * way.minutes(day));
  if (litres < LEAST) return none;
  const net = litres * way.efficiency;
  return { litres, toBall: (net * ball) / lack, toRing: (net * ring * wet) / lack };
}

/** The ledger one day later. */
export function nextDay(
  before: Ledger,
  tree: TreeSeason,
  way: Way,
  place: Place,
  day: number,
  water: boolean,
): Ledger {
  const taw = tree.ballTaw + tree.ringTaw[day]!;
  const raw = tree.p[day]! * taw;
  // 1 roots reach new soil that lacks what it does not hold
  const grown = day > tree.first ? Math.max(0, tree.ringTaw[day]! - tree.ringTaw[day - 1]!) : 0;
  let { ball } = before;
  let ring = before.ring + grown * (1 - place.joiningShare);
  // 2, 3 rain and watering early in the day; Eq. 88 store by store, the ball's excess partly into the ring
  const given = water
    ? dose(tree, way, place, day, ball, ring)
    : { litres: 0, toBall: 0, toRing: 0 };
  const rain = place.rain[day]!; // 1 mm on 1 m2 is 1 L
  ball -= given.toBall + rain * tree.ballArea;
  ring -= given.toRing + rain * tree.ringArea[day]!;
  if (ball < 0) {
    if (tree.ringTaw[day]! > 0) ring += ball * place.overflowToRing;
    ball = 0;
  }
  ring = Math.max(0, ring);
  // 5 Eq. 84 on both together, ET from each in proportion to what is left in it
  const depleted = ball + ring;
  const ks = depleted > raw ? (taw - depleted) / (taw - raw) : 1;
  const left = taw - depleted;
  const et = Math.min(left, Math.max(0, ks) * tree.demand[day]!);
  const ballLeft = tree.ballTaw - ball;
  ball += left > 0 ? (et * ballLeft) / left : 0;
  ring += left > 0 ? (et * (left - ballLeft)) / left : 0;
  return {
    ball,
    ring,
    waterings: before.waterings + (given.litres > 0 ? 1 : 0),
    litres: before.litres + given.litres,
    stressDays: before.stressDays + (ks < 1 - HAIR ? 1 : 0),
    overDays: before.overDays + (depleted + et > raw * (1 + HAIR) ? 1 : 0),
    beyond: before.beyond + Math.max(0, depleted + et - raw),
    unmet: before.unmet + tree.demand[day]! - et,
  };
}

/** A season watered on the days of a set. */
export function seasonOn(
  tree: TreeSeason,
  way: Way,
  place: Place,
  isWatered: (day: number) => boolean,
  see?: (day: number, ledger: Ledger) => void,
): Ledger {
  let ledger = fullStores();
  for (let day = tree.first; day < tree.days; day++) {
    ledger = nextDay(ledger, tree, way, place, day, isWatered(day));
    see?.(day, ledger);
  }
  return ledger;
}
