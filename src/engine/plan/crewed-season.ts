/**
 * A season as crews drive it: visits of a site joined, and days with more work than hours relieved by watering some
 * trees earlier, with their whole rhythm or once, as long as they do not suffer for it (design of this model, section 11).
 */
import { smoothPlan, type Move } from '../crew/smooth-plan.js';
import { assemblePlan } from './assemble.js';
import { joinVisits, type SiteVisits } from './joint-visits.js';
import type { SeasonPlan, TreePlan } from './model.js';
import type { OwedTo } from './shift-limits.js';
import { freshPath, plannerOf, walkAlone } from './path.js';
import type { TreePlanner, TreeTask } from './plan-trees.js';
import type { SeasonInput } from './season.js';
import { shiftedSeason } from './shifted-season.js';

export interface CrewedSeason {
  plan: SeasonPlan;
  /** sites that need a person, with what joining their visits brings */
  sites: SiteVisits[];
  /** rows with waterings put forward, and those that follow with them */
  shifted: number;
  /** waterings that were moved to an earlier day by themselves */
  moves: Move[];
  /** rows whose waterings stay on a full day, because earlier ones would cost the tree stress */
  stayed: number;
}

/**
 * @param input - the one the plan was made from
 * @param owedTo - least visits a contract owes a tree, which a shift must not take from it
 * @throws Problem as `joinVisits`
 */
export function crewedSeason(input: SeasonInput, plan: SeasonPlan, owedTo?: OwedTo): CrewedSeason {
  const by = plannerOf(input);
  const { site, kit } = input;
  const joint = shiftedSeason(input, plan, joinVisits(input, plan, by), by, owedTo);
  const { shifted } = joint;
  if (!joint.plan.crewDays.some((day) => day.overload))
    return { plan: joint.plan, sites: joint.sites, shifted, moves: [], stayed: 0 };
  const { planner, taskOf } = by;
  const device = new Map(kit.map((each) => [each.name, each]));
  const smoothed = smoothPlan(joint.plan.trees, site, kit, {
    allowed: (tree, watering) => planner.calendars.allowed(tree, device.get(watering.device)!),
  });
  const back = new Set<number>();
  const trees = smoothed.trees.map((moved, k) => {
    const before = joint.plan.trees[k]!;
    if (
      moved === before ||
      stressOf(moved, planner, taskOf(moved.tree)) <= before.chosen.stressDays
    )
      return moved;
    back.add(before.tree.row);
    return before;
  });
  return {
    plan: assemblePlan(input, trees, plan.notPlanned),
    sites: joint.sites,
    shifted,
    moves: smoothed.moves.filter((move) => !back.has(move.row)),
    stayed: back.size,
  };
}

/** Stress days of a tree that is watered on the days of its plan and on no other. */
function stressOf({ chosen }: TreePlan, planner: TreePlanner, task: TreeTask): number {
  const path = freshPath(planner, task, chosen.label)!;
  const { days } = path.season;
  const given = new Float64Array(days);
  const padGiven = new Float64Array(days);
  for (const { family, day, litres } of chosen.plan)
    (family === 'pad' ? padGiven : given)[day - planner.setting.weather.from]! += litres;
  return walkAlone({ ...path, replay: { today: days, given, padGiven } }, planner).outcome
    .stressDays;
}
