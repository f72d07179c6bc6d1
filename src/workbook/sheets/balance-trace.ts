/** One tree's season as the engine's kernel walks it with the waterings of the plan, with everything in between. */
import { SeasonRun } from '../../engine/plan/kernel.js';
import { conditionsOf, meansNumbers } from '../../engine/plan/means-numbers.js';
import type { TreePlan } from '../../engine/plan/model.js';
import { treeSeason } from '../../engine/plan/tree-season.js';
import type { Context } from './context.js';
import { optionOf } from './balance-trees.js';

/** A day, in litres and square metres. */
export interface BalanceDay {
  demand: number;
  water: number;
  soaked: number;
  p: number;
  ringArea: number;
  ringTaw: number;
  joined: number;
  ballMorning: number;
  ringMorning: number;
  padFull: number;
  padMorning: number;
  /** share of a watering that goes to the ball [-] */
  share: number;
  toBall: number;
  toRing: number;
  gives: number;
  ballFilled: number;
  ringFilled: number;
  depletion: number;
  ks: number;
  used: number;
  lost: number;
  ball: number;
  ring: number;
  pad: number;
  /** water left when stress begins, (1 − p)·TAW */
  threshold: number;
}

/**
 * Days of the season, undefined before the tree stands. The kernel replays the plan: nothing is decided anew.
 */
export function balanceTrace(
  ctx: Pick<Context, 'plan' | 'kit'>,
  t: TreePlan,
): (BalanceDay | undefined)[] {
  const { site, weather } = ctx.plan;
  const season = treeSeason(t.tree, site, weather);
  const { days, first, ballTaw } = season;
  const option = optionOf(ctx, t);
  const water = new Float64Array(days);
  const soaked = new Float64Array(days);
  for (const w of t.chosen.plan)
    (w.device === option.pad?.device.name ? soaked : water)[w.day - weather.from]! += w.litres;
  const means = meansNumbers(option, site, season);
  const place = conditionsOf(site, weather);
  const run = new SeasonRun(season, means, place, undefined, {
    today: days,
    given: water,
    padGiven: soaked,
  });
  const out: (BalanceDay | undefined)[] = Array.from({ length: days });
  let { ball, ring, pad } = run.stores;
  for (let i = first; i < days; i++) {
    run.step(i, false);
    const { stores } = run;
    const ringTaw = season.ringTaw[i]!;
    const joined = i > first ? season.joined[i]! : 0;
    const ringMorning = ring + joined;
    const padMorning = pad + run.padIn;
    const gives = padMorning - stores.pad;
    const ballFilled = Math.min(ballTaw, ball + stores.toBall + gives);
    const lackBall = Math.max(0, ballTaw - ball);
    const area = season.ringArea[i]!;
    const reach = area > 0 ? Math.min(1, Math.max(0, means.beyondBall / area)) : 1;
    const lack = lackBall + Math.max(0, ringTaw - ringMorning) * reach;
    out[i] = {
      demand: season.demand[i]!,
      water: water[i]!,
      soaked: soaked[i]!,
      p: season.p[i]!,
      ringArea: area,
      ringTaw,
      joined,
      ballMorning: ball,
      ringMorning,
      padFull: means.padCapacity > 0 ? means.padCapacity * place.padLeft[i - first]! : 0,
      padMorning,
      share: means.ballOnly ? 1 : lack > 0 ? lackBall / lack : 0,
      toBall: stores.toBall,
      toRing: stores.toRing,
      gives,
      ballFilled,
      ringFilled: ballTaw + ringTaw - stores.depletion - ballFilled,
      depletion: stores.depletion,
      ks: stores.ks,
      used: stores.et,
      lost: stores.percolated,
      ball: stores.ball,
      ring: stores.ring,
      pad: stores.pad,
      threshold: (1 - season.p[i]!) * (ballTaw + ringTaw),
    };
    ({ ball, ring, pad } = stores);
  }
  return out;
}
