/** Cases for the kernel in TypeScript and in C: twelve trees with every means of the kit, as one list of doubles. */
import { SeasonRun, type OutcomeNumbers } from '../../src/engine/plan/kernel.js';
import {
  conditionsOf,
  dayColumns,
  meansNumbers,
  type Conditions,
  type MeansNumbers,
} from '../../src/engine/plan/means-numbers.js';
import { optionsFor } from '../../src/engine/plan/choose-means.js';
import { newBalance, stepDay } from '../../src/engine/soil/water-balance.js';
import { treeSeason, type TreeSeason } from '../../src/engine/plan/tree-season.js';
import type { AllowedDays } from '../../src/engine/plan/option.js';
import { benchSeason, benchTrees, DAYS } from './inventory.js';

export interface Case {
  tree: TreeSeason;
  means: MeansNumbers;
}

const calendar = (open: (i: number) => boolean): AllowedDays => ({
  open: Uint8Array.from({ length: DAYS }, (_, i) => (open(i) ? 1 : 0)),
  hours: () => '',
  minutes: () => 600,
  perWeek: () => 7,
});
const CALENDARS = [calendar(() => true), calendar((i) => [1, 3, 5].includes(i % 7))];

export function kernelCases(): { place: Conditions; cases: Case[] } {
  const { site, weather, kit } = benchSeason();
  const cases = benchTrees(1200)
    .filter((_, i) => i % 100 === 0)
    .flatMap((row, t) => {
      const tree = treeSeason(row, site, weather);
      // those that water ahead of need are not part of the kernel in C
      const { options, usual } = optionsFor(row, row.caliper!, 3, kit, 2, () => CALENDARS[t % 2]!);
      return options
        .slice(0, usual)
        .map((option) => ({ tree, means: meansNumbers(option, site, tree) }));
    });
  return { place: conditionsOf(site, weather), cases };
}

export const runCase = ({ tree, means }: Case, place: Conditions): OutcomeNumbers =>
  new SeasonRun(tree, means, place).finish();

/**
 * The balance alone, nothing decided: every third day a third of each store is poured on. Ends with water held and
 * used, and days stepped.
 */
export function balanceOf({ tree }: Case): [held: number, used: number] {
  const stores = newBalance(tree.ballTaw, tree.ringTaw[tree.first]!, 0);
  let used = 0;
  const { first, days } = tree;
  for (let i = first; i < days; i++) {
    const pour = i % 3 === 0;
    stores.ring += tree.joined[i]!;
    stores.toBall = pour ? tree.ballTaw / 3 : 0;
    stores.toRing = pour ? tree.ringTaw[i]! / 3 : 0;
    stepDay(stores, tree, i);
    used += stores.et;
  }
  return [stores.ball + stores.ring, used];
}

/** The fields of kernel.c in its order. */
export function asDoubles(place: Conditions, cases: Case[]): Float64Array {
  const out: number[] = [DAYS, cases.length];
  const never = dayColumns(calendar(() => false));
  out.push(place.padRelease, place.padReserve, place.padCover, cases[0]!.tree.overflowToRing);
  out.push(place.wage, place.crewSize, place.waterPrice);
  out.push(...place.rain, ...place.weekOf, ...place.padLeft);
  for (const { tree, means: m } of cases) {
    const days = m.main ? m.days : never;
    const padDays = m.padCapacity > 0 ? m.padDays : never;
    out.push(tree.first, tree.ballTaw, tree.ballArea);
    out.push(Number(m.main), Number(m.ballOnly), Number(m.full), Number(m.automatic));
    out.push(m.efficiency, m.most, m.flow, m.beyondBall, m.visitMinutes, m.pourFlow, m.tankLoad);
    out.push(m.refillMinutes, m.driveMinutes, m.padCapacity, m.padVisitMinutes, m.kitCost);
    out.push(Number(days.limited));
    out.push(...tree.demand, ...tree.p, ...tree.ringTaw, ...tree.ringArea);
    out.push(...tree.joined, ...tree.raw);
    out.push(...days.open, ...days.next, ...days.minutes, ...days.perWeek);
    out.push(...padDays.open, ...padDays.next);
  }
  return Float64Array.from(out);
}
