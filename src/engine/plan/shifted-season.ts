/**
 * Crew days that bunch, eased by rhythm: trees full on the same first day come due together, all season long. A watering
 * before a day with more work than hours is put forward and the tree, or the joined site, is walked on from there, so that
 * its later waterings come forward, too (design of this model, section 11).
 */
import { assemblePlan } from './assemble.js';
import {
  revised,
  rowsBySite,
  sumsOf,
  topUpOf,
  trueCosts,
  whyJoined,
  type JointVisits,
  type SiteSums,
  type SiteVisits,
} from './joint-visits.js';
import type { CrewDay, SeasonPlan, TreePlan } from './model.js';
import { freshPath, walkAlone, type plannerOf, type Walked } from './path.js';
import { RhythmWalker } from './rhythm.js';
import type { Routes } from './routes.js';
import type { SeasonInput } from './season.js';
import { SeasonWork } from './season-work.js';
import { Limits, type OwedTo } from './shift-limits.js';
import { ShiftSearch } from './shift-search.js';

/**
 * Part of a crew's day from which on a joined visit is too long to be moved about as one: where such sites stay on full
 * days, their rows are visited apart, each with a rhythm of its own [-]. Assumption.
 */
const LONG_VISIT = 0.25;
/**
 * Trees walked at most, so that a long list still plans in seconds: some fifty microseconds each. A third of them for sites
 * as they are joined, the rest where long visits are parted.
 */
const MOST_WALKS = 36_000;
/** Waterings by a person above which a search within these walks finds nothing that holds, measured: it is not begun. */
const MOST_WATERINGS = 20_000;
/** Rounding that is no change [min]. */
const HAIR = 1e-6;

export interface ShiftedSeason {
  plan: SeasonPlan;
  sites: SiteVisits[];
  /** rows with waterings put forward, or visited apart from their site, to relieve full days */
  shifted: number;
}

/** One way of visiting sites, searched. */
interface Version {
  trees: readonly TreePlan[];
  /** sites that are visited apart for the sake of full days */
  parted: ReadonlySet<string>;
  work: SeasonWork;
  search: ShiftSearch;
  /** minutes by which its days are too long, all together */
  over: number;
}

/**
 * Relieves days with more work than hours. No day that fitted is too long afterwards, and no row has more stress, more than one watering
 * more, or much more water (`Limits`). Deterministic; what it takes is bounded in trees walked.
 *
 * @param input - the one the plans were made from
 * @param separate - the season before visits were joined
 * @param joint - its visits joined
 * @param owedTo - least visits a contract owes a tree: none is lost that is kept now
 * @returns the joint plan itself where nothing helps
 */
export function shiftedSeason(
  input: SeasonInput,
  separate: SeasonPlan,
  joint: JointVisits,
  by: ReturnType<typeof plannerOf>,
  owedTo: OwedTo = () => [],
): ShiftedSeason {
  const nothing = { plan: joint.plan, sites: joint.sites, shifted: 0 };
  const { crewDays, trees } = joint.plan;
  if (!crewDays.some((day) => day.overload)) return nothing;
  if (
    crewDays.reduce(
      (sum, { stops }) => sum + stops.reduce((n, { tasks }) => n + tasks.length, 0),
      0,
    ) > MOST_WATERINGS
  )
    return nothing;
  const before = overOf(crewDays, input);
  const limits = new Limits(trees, input.site.seasonFrom, owedTo);
  const joined = new Set(
    joint.sites.flatMap(({ site, kept }) => (kept === 'joined' ? [site] : [])),
  );
  const ways = new Map<number, Routes>();
  const versionOf = (
    plans: readonly TreePlan[],
    parted: ReadonlySet<string>,
    walks: number,
  ): Version | undefined => {
    const together = new Set([...joined].filter((site) => !parted.has(site)));
    const work = new SeasonWork(by.planner, plans, together, before, crewDays);
    const walker = new RhythmWalker(by.planner, topUpOf(input.site));
    const search = new ShiftSearch(work, before, walker, limits, by, walks, ways);
    const over = search.run();
    return over && { trees: plans, parted, work, search, over: total(over) };
  };
  const whole = versionOf(trees, new Set(), MOST_WALKS / 3);
  let best = whole && whole.over < total(before) - HAIR ? whole : undefined;
  if (!best || best.over > HAIR) {
    const { plans, parted } = visitedApart(input, separate, joint, limits, by);
    const apart = parted.size > 0 ? versionOf(plans, parted, (MOST_WALKS * 2) / 3) : undefined;
    if (apart && apart.over < (best?.over ?? total(before)) - HAIR) best = apart;
  }
  return best ? finished(input, joint, best, by) : nothing;
}

/** Minutes by which the longest round of each day of the season is too long. */
function overOf(crewDays: readonly CrewDay[], { site }: SeasonInput): Float64Array {
  const over = new Float64Array(site.seasonTo - site.seasonFrom + 1);
  for (const { day, overBy = 0 } of crewDays) over[day - site.seasonFrom] = overBy * 60;
  return over;
}

/** Plans with the rows of sites of long visits as they were before joining, where they bear that. */
function visitedApart(
  { site }: SeasonInput,
  separate: SeasonPlan,
  joint: JointVisits,
  limits: Limits,
  { planner }: ReturnType<typeof plannerOf>,
): { plans: TreePlan[]; parted: Set<string> } {
  const plans = [...joint.plan.trees];
  const parted = new Set<string>();
  const long = new Set<string>();
  for (const { stops } of joint.plan.crewDays)
    for (const stop of stops)
      if (stop.minutes >= LONG_VISIT * site.crewHours * 60) long.add(stop.site);
  const joined = new Set(
    joint.sites.flatMap(({ site: name, kept }) => (kept === 'joined' ? [name] : [])),
  );
  for (const [name, rows] of rowsBySite(plans, planner)) {
    if (!long.has(name) || !joined.has(name)) continue;
    const bear = rows.every((row) => {
      const { chosen } = separate.trees[row]!;
      return limits.bears(
        row,
        chosen,
        chosen.plan.map(({ day }) => day - site.seasonFrom),
      );
    });
    if (!bear) continue;
    parted.add(name);
    for (const row of rows) plans[row] = separate.trees[row]!;
  }
  return { plans, parted };
}

/** The season of a version: true costs of the sites that are visited otherwise, and their sums. */
function finished(
  input: SeasonInput,
  joint: JointVisits,
  { trees, parted, work, search }: Version,
  { planner, taskOf }: ReturnType<typeof plannerOf>,
): ShiftedSeason {
  const plans = [...trees];
  const sums = new Map<string, SiteSums>();
  let shifted = 0;
  const alone = (plan: TreePlan): Walked =>
    walkAlone(freshPath(planner, taskOf(plan.tree), plan.chosen.label)!, planner);
  const bySite = work.sites.map((): number[] => []);
  search.rhythms.forEach(({ site }, of) => bySite[site]!.push(of));
  bySite.forEach((rhythms, at) => {
    const name = work.sites[at]!;
    if (!parted.has(name) && !rhythms.some((of) => search.moved.has(of))) return;
    const rows = rhythms.flatMap((of) => search.rhythms[of]!.rows);
    const now = rhythms.flatMap((of) => search.rhythms[of]!.now);
    const moved = rhythms.flatMap((of) => search.rhythms[of]!.rows.map(() => search.moved.has(of)));
    const walked = rhythms.flatMap(
      (of) => search.moved.get(of) ?? search.rhythms[of]!.now.map(({ plan }) => alone(plan)),
    );
    const costs = trueCosts(walked, planner.setting.site);
    rows.forEach((row, k) => {
      const w = { ...walked[k]!, early: now[k]!.early };
      plans[row] = revised(trees[row]!, w, costs[k]!, planner, moved[k]!);
      if (moved[k]! || parted.has(name)) shifted++;
    });
    sums.set(name, sumsOf(walked, planner.setting.site));
  });
  return {
    plan: assemblePlan(input, plans, joint.plan.notPlanned),
    sites: joint.sites.map((visits) =>
      asVisited(visits, sums.get(visits.site), parted.has(visits.site)),
    ),
    shifted,
  };
}

/** The sums of the version the plan holds, as it is visited now. */
function asVisited(visits: SiteVisits, now: SiteSums | undefined, parted: boolean): SiteVisits {
  if (!now) return visits;
  if (parted)
    return {
      ...visits,
      kept: 'separate',
      separate: now,
      why: 'Kept apart: joined, its visits would not fit into the crews’ days.',
    };
  if (visits.kept === 'separate') return { ...visits, separate: now };
  return { ...visits, joined: now, why: whyJoined(visits.separate, now) };
}

const total = (minutes: Float64Array): number => minutes.reduce((sum, each) => sum + each, 0);
