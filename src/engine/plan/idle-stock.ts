/** Devices in stock that no tree of a plan has, and why: the first thing the person who owns them asks. */
import type { Calendars } from './calendars.js';
import type { Device, MeansOutcome, TreePlan } from './model.js';
import { neverOpen, type NeverOpen } from './never-open.js';

export interface IdleDevice {
  device: string;
  /** how many are in stock */
  stock: number;
  /** trees for which no day is open with it, by reason, most trees first: neither stress nor cost is why they lack it */
  closed: { trees: number; why: NeverOpen }[];
  /** trees it would leave with more stress than is accepted, and the least and most days of that [days] */
  stressed: { trees: number; least: number; most: number };
  /** trees it would keep as well, at a higher cost */
  dearer: number;
  /** trees that cannot have it, by reason, most trees first */
  refused: { trees: number; why: string }[];
}

/** Families that are counted a tree; a nozzle or a truck serves all of them. */
const ONE_A_TREE: ReadonlySet<Device['family']> = new Set(['bag', 'pad', 'soaker']);

/** The way with this device that hurts the tree least. */
function bestWith(device: string, options: readonly MeansOutcome[]): MeansOutcome | undefined {
  const those = options.filter(({ devices }) => devices.includes(device));
  const possible = those.filter(({ feasible }) => feasible);
  if (possible.length === 0) return those[0];
  return possible.reduce((best, one) => (one.stressDays < best.stressDays ? one : best));
}

/**
 * @param tolerated - stress days a tree may have and still be kept [days]
 * @param calendars - the rules' days as they were planned with
 */
export function idleStock(
  trees: readonly TreePlan[],
  kit: readonly Device[],
  tolerated: number,
  calendars: Calendars,
): IdleDevice[] {
  const used = new Set(trees.flatMap(({ chosen }) => chosen.devices));
  return kit
    .filter(({ name, family, stock }) => ONE_A_TREE.has(family) && (stock ?? 0) > 0 && !used.has(name))
    .map((device) => idleDevice(device, trees, tolerated, calendars))
    .filter(({ closed, stressed, dearer, refused }) => closed.length + stressed.trees + dearer + refused.length > 0); // prettier-ignore
}

function idleDevice(
  device: Device,
  trees: readonly TreePlan[],
  tolerated: number,
  calendars: Calendars,
): IdleDevice {
  const { name, stock } = device;
  const closed = new Map<string, IdleDevice['closed'][number]>();
  const stressed = { trees: 0, least: Infinity, most: 0 };
  const reasons = new Map<string, number>();
  let dearer = 0;
  for (const { tree, options } of trees) {
    const best = bestWith(name, options);
    if (best === undefined) continue;
    const why = best.feasible ? neverOpen(calendars, tree, device) : undefined;
    if (!best.feasible) reasons.set(best.verdict, (reasons.get(best.verdict) ?? 0) + tree.count);
    else if (why) {
      const key = JSON.stringify(why);
      closed.set(key, { trees: (closed.get(key)?.trees ?? 0) + tree.count, why });
    } else if (best.stressDays > tolerated) {
      stressed.trees += tree.count;
      stressed.least = Math.min(stressed.least, best.stressDays);
      stressed.most = Math.max(stressed.most, best.stressDays);
    } else dearer += tree.count;
  }
  const refused = [...reasons].map(([why, count]) => ({ trees: count, why }));
  refused.sort((a, b) => b.trees - a.trees || (a.why < b.why ? -1 : 1));
  const shut = [...closed.values()].sort((a, b) => b.trees - a.trees);
  return { device: name, stock: stock ?? 0, closed: shut, stressed, dearer, refused };
}
