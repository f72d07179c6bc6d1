/** Walks a planned tree again with the waterings of its plan and closes the balance of every day. */
import { expect } from 'vitest';
import { SeasonRun } from '../../src/engine/plan/kernel.js';
import { meansNumbers } from '../../src/engine/plan/means-numbers.js';
import type { TreePlan } from '../../src/engine/plan/model.js';
import { freshPath, plannerOf } from '../../src/engine/plan/path.js';
import type { SeasonInput } from '../../src/engine/plan/season.js';

/** What the kernel's own replay of these waterings comes to; each day in − out = change within 1e-9 of the water. */
export function walkAgain(input: SeasonInput, { tree, chosen }: TreePlan): SeasonRun {
  const { planner, taskOf } = plannerOf(input);
  const { season, option } = freshPath(planner, taskOf(tree), chosen.label)!;
  const given = new Float64Array(season.days);
  const padGiven = new Float64Array(season.days);
  for (const { day, family, litres } of chosen.plan)
    (family === 'pad' ? padGiven : given)[day - input.site.seasonFrom]! += litres;
  const means = meansNumbers(option, input.site, season);
  const replay = { today: season.days, given, padGiven };
  const run = new SeasonRun(season, means, planner.conditions, undefined, replay);
  let held = run.stores.ball + run.stores.ring + run.stores.pad;
  for (let i = season.first; i < season.days; i++) {
    run.step(i, false);
    const { ball, ring, pad, toBall, toRing, et, percolated } = run.stores;
    const joined = i === season.first ? 0 : season.joined[i]!;
    const left = held + joined + toBall + toRing + run.padIn - et - percolated - ball - ring - pad;
    expect(Math.abs(left)).toBeLessThan(1e-9 * Math.max(1, held + toBall + toRing));
    held = ball + ring + pad;
  }
  return run;
}
