/**
 * Joint visits: when somebody comes to a site because one tree is due, others there that have used enough of their
 * water are watered on the same drive (design of this model, section 11).
 */
import { Problem } from '../problems.js';
import { adviserOf } from './advice.js';
import type { OutcomeNumbers } from './kernel.js';
import { assemblePlan } from './assemble.js';
import type { MeansOutcome, SeasonPlan, Site, TreePlan } from './model.js';
import type { TreePlanner } from './plan-trees.js';
import {
  firstDay,
  freshPath,
  outcomeAlong,
  plannerOf,
  SideBySide,
  walkAlone,
  withChosen,
  type Path,
  type Walked,
} from './path.js';
import type { SeasonInput } from './season.js';
import { lazyObject } from './views.js';

/** Share of the usable water a tree must have used to be watered when somebody comes anyway [-]. Assumption. */
export const TOP_UP = 0.6;
/** Rounding that does not count as a higher cost. */
const HAIR = 1e-9;

/** A site's season: all trees that need a person, like ones counted, and each drive once. */
export interface SiteSums {
  /** days on which somebody comes */
  days: number;
  waterings: number;
  litres: number;
  stressDays: number;
  /** kit, labour, drive and water */
  cost: number;
}

export interface SiteVisits {
  site: string;
  /** rows there that need a person */
  rows: number;
  /** which version the plan holds */
  kept: 'joined' | 'separate';
  separate: SiteSums;
  /** undefined where there is nothing to join */
  joined: SiteSums | undefined;
  /** a sentence with the numbers */
  why: string;
}

export interface JointVisits {
  plan: SeasonPlan;
  /** sites that need a person, in the order of the plan */
  sites: SiteVisits[];
}

/**
 * Joins the visits of a season plan site by site. A site keeps its separate visits unless joined ones cost no more, need
 * no more days and leave no tree with more stress days. Each drive is shared by the trees visited that day, so that the
 * cost of a site's trees adds up to what the site really costs; automatic means keep their plan.
 *
 * @param input - the one the plan was made from
 * @param by - its planner, where somebody has it already
 * @throws Problem if the site's top-up share is not from 0 to 1, or as `planSeason`
 */
export function joinVisits(
  input: SeasonInput,
  plan: SeasonPlan,
  by = plannerOf(input),
): JointVisits {
  const { planner, taskOf } = by;
  const paths = (trees: readonly TreePlan[]): Path[] =>
    trees.map((tree) => {
      const path = freshPath(planner, taskOf(tree.tree), tree.chosen.label);
      if (!path)
        throw new Problem(
          `row ${tree.tree.row}: ${tree.chosen.label} is no means of this season; plan the season again before visits are joined`,
        );
      return path;
    });
  const joint = joinSites(planner, plan.trees, paths);
  return { plan: assemblePlan(input, joint.trees, plan.notPlanned), sites: joint.sites };
}

/** @param pathsOf - paths of the trees of one site; asked a site at a time */
export function joinSites(
  planner: TreePlanner,
  trees: readonly TreePlan[],
  pathsOf: (trees: readonly TreePlan[]) => Path[],
): { trees: TreePlan[]; sites: SiteVisits[] } {
  const topUp = topUpOf(planner.setting.site);
  const joined = [...trees];
  const sites: SiteVisits[] = [];
  for (const [site, rows] of rowsBySite(trees, planner)) {
    const own = rows.map((row) => trees[row]!);
    const { visits, walked } = joinSite(planner, site, pathsOf(own), topUp);
    sites.push(visits);
    if (rows.length < 2) continue;
    const costs = trueCosts(walked, planner.setting.site);
    rows.forEach((row, k) => (joined[row] = revised(trees[row]!, walked[k]!, costs[k]!, planner, visits.kept === 'joined'))); // prettier-ignore
  }
  return { trees: joined, sites };
}

/** @throws Problem if the share is not from 0 to 1 */
export function topUpOf({ topUp = TOP_UP }: Site): number {
  if (!(topUp >= 0 && topUp <= 1))
    throw new Problem(`the top-up share is ${topUp}; a share from 0 to 1 is accepted`);
  return topUp;
}

/** Rows whose chosen means need a person, by site. */
export function rowsBySite(
  trees: readonly TreePlan[],
  planner: TreePlanner,
): Map<string, number[]> {
  const timed = new Set(planner.setting.kit.filter((d) => d.automatic).map((d) => d.name));
  const sites = new Map<string, number[]>();
  trees.forEach(({ tree, chosen }, row) => {
    if (chosen.devices.every((name) => timed.has(name))) return;
    const known = sites.get(tree.site);
    if (known) known.push(row);
    else sites.set(tree.site, [row]);
  });
  return sites;
}

function joinSite(
  planner: TreePlanner,
  site: string,
  paths: readonly Path[],
  topUp: number,
): { visits: SiteVisits; walked: readonly Walked[] } {
  const alone = paths.map((path) => walkAlone(path, planner));
  const separate = sumsOf(alone, planner.setting.site);
  const about = { site, rows: paths.length, separate };
  if (paths.length < 2)
    return {
      visits: { ...about, kept: 'separate', joined: undefined, why: 'One row: nothing to join.' },
      walked: alone,
    };
  const together = walkTogether(paths, planner, topUp);
  const joined = sumsOf(together, planner.setting.site);
  const against = whyNot(alone, together, separate, joined);
  const kept = against === '' ? 'joined' : 'separate';
  return {
    visits: { ...about, joined, kept, why: against || whyJoined(separate, joined) },
    walked: kept === 'joined' ? together : alone,
  };
}

/** All trees of a site through the season: on a day when one is due, those that have used enough are watered, too. */
export function walkTogether(
  paths: readonly Path[],
  planner: TreePlanner,
  topUp: number,
): Walked[] {
  const site = new SideBySide(paths, planner);
  const { runs } = site;
  const padsAlone = paths.flatMap(({ option }, k) => (option.main ? [] : [k]));
  const watered = paths.flatMap(({ option }, k) => (option.main ? [k] : []));
  const days = paths[0]!.season.days;
  for (let i = Math.min(...paths.map(firstDay)); i < days; i++) {
    const standing = watered.filter((k) => site.stands(k, i));
    let comes = false;
    for (const k of padsAlone) if (site.stands(k, i) && site.step(k, i, false)) comes = true;
    const due = standing.map((k) => runs[k]!.isDue(i));
    comes ||= due.includes(true);
    standing.forEach((k, n) => {
      const extra =
        comes && !due[n]! && runs[k]!.isOpen(i) && runs[k]!.usedShare(i) >= topUp - HAIR;
      site.step(k, i, due[n]! || extra, extra);
    });
  }
  return site.walked();
}

export function sumsOf(walked: readonly Walked[], site: Site): SiteSums {
  const costs = trueCosts(walked, site);
  const sum = (value: (w: Walked, k: number) => number): number =>
    walked.reduce((total, w, k) => total + value(w, k) * w.path.task.tree.count, 0);
  return {
    days: new Set(walked.flatMap((w) => w.cameOn)).size,
    waterings: sum((w) => w.outcome.waterings),
    litres: sum((w) => w.outcome.litres),
    stressDays: sum((w) => w.outcome.stressDays),
    cost: sum((_, k) => costs[k]!),
  };
}

/** Cost of one tree of each row, with its part of the drives that are really made. */
export function trueCosts(walked: readonly Walked[], site: Site): number[] {
  const visited = new Map<number, number>();
  for (const { cameOn, path } of walked)
    for (const day of cameOn) visited.set(day, (visited.get(day) ?? 0) + path.task.tree.count);
  const perMinute = (site.wage * site.crewSize) / 60;
  return walked.map(({ outcome, cameOn, driveMinutes }) => {
    const driven = cameOn.reduce((sum, day) => sum + site.driveMinutes / visited.get(day)!, 0);
    return outcome.cost + (driven - driveMinutes) * perMinute;
  });
}

/** Why separate visits are kept, "" if joined ones are as good. */
function whyNot(
  alone: readonly Walked[],
  together: readonly Walked[],
  separate: SiteSums,
  joined: SiteSums,
): string {
  const worse = together.findIndex((w, k) => w.outcome.stressDays > alone[k]!.outcome.stressDays);
  if (worse >= 0) {
    const { tree } = together[worse]!.path.task;
    return `Kept apart: joined, ${tree.id} (row ${tree.row}) would have ${together[worse]!.outcome.stressDays} stress days instead of ${alone[worse]!.outcome.stressDays}.`;
  }
  if (joined.cost > separate.cost * (1 + HAIR))
    return `Kept apart: joined visits would cost ${joined.cost.toFixed(2)} instead of ${separate.cost.toFixed(2)}.`;
  if (joined.days > separate.days)
    return `Kept apart: joined visits would need ${joined.days} days instead of ${separate.days}.`;
  return '';
}

export const whyJoined = (separate: SiteSums, joined: SiteSums): string =>
  `Joined: ${joined.days} days with a visit instead of ${separate.days}, ${Math.round(joined.litres)} L instead of ${Math.round(separate.litres)} L, cost ${joined.cost.toFixed(2)} instead of ${separate.cost.toFixed(2)}.`;

/** The tree with what a walk came to, at its true cost. `joined`: its waterings may be others than before. */
export function revised(
  old: TreePlan,
  walked: Walked,
  cost: number,
  planner: TreePlanner,
  joined: boolean,
): TreePlan {
  const numbers: OutcomeNumbers = { ...walked.outcome, cost };
  const { stressDays } = numbers;
  const kept = old.state === 'planned' || stressDays <= planner.setting.site.toleratedStress;
  const chosen = joined
    ? outcomeAlong({ ...walked, outcome: numbers }, planner)
    : atCost(old.chosen, cost);
  const advice = (): string =>
    kept
      ? ''
      : stressDays === old.chosen.stressDays
        ? old.advice
        : adviserOf(planner.setting).advise(walked.path.task, {
            means: chosen.label,
            stressDays,
            cost,
          }).text;
  return withChosen(old, chosen, kept ? 'planned' : 'cannot be kept', advice);
}

/** The same outcome at another cost; its waterings stay unmade until somebody reads them. */
function atCost(outcome: MeansOutcome, cost: number): MeansOutcome {
  const { label, families, devices, feasible, verdict, waterings, litres, visits, stressDays, leastKs } = outcome; // prettier-ignore
  const made = lazyObject<Pick<MeansOutcome, 'plan'>>({ plan: () => outcome.plan }) as MeansOutcome;
  return Object.assign(made, { label, families, devices, feasible, verdict, waterings, litres, visits, stressDays, leastKs, cost }); // prettier-ignore
}
