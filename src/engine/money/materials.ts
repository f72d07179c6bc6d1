/** What must be bought, and what of it one season bears. */
import { joinedFor } from '../plan/choose-means.js';
import { servesAllTrees, type Device, type SeasonPlan, type TreePlan } from '../plan/model.js';
import { mulchVolume } from '../soil/mulch.js';
import { trunkUsed } from './against-rules.js';

export interface Material {
  device: Device;
  /** trees that use it */
  trees: number;
  /** pieces for them: trees · joined; one nozzle or truck serves a whole crew */
  needed: number;
  toBuy: number;
  /** to be paid now for what is not in stock [money] */
  buyNow: number;
  /** wear of one season, of what is owned as well as of what is bought: needed · price ÷ seasons [money] */
  seasonShare: number;
  /** crew hours to set them up, once a season [h] */
  setupHours: number;
}

/** One for the crew, whatever the number of trees. */
const shared = ({ family }: Device): boolean => servesAllTrees(family);

/** Pieces of a device one tree needs. */
function piecesFor(device: Device, t: TreePlan): number {
  const caliper = t.tree.caliper ?? t.facts.ballDiameter / 12;
  return joinedFor(device, caliper, (Math.PI / 4) * t.facts.establishedDiameter ** 2);
}

/**
 * Devices the plan uses, in the order of the kit. A tree that is never watered needs none.
 *
 * Source: definition; wear as in the choice of means (price ÷ seasons).
 */
export function materials(plan: SeasonPlan, kit: readonly Device[]): Material[] {
  const byName = new Map(kit.map((device) => [device.name, { device, trees: 0, pieces: 0 }]));
  const truck = kit.find((device) => device.family === 'tanker');
  for (const t of plan.trees) {
    if (t.chosen.plan.length === 0) continue;
    const fills = t.tree.tap === false && t.chosen.families.includes('bag');
    for (const name of new Set([...t.chosen.devices, ...(fills && truck ? [truck.name] : [])])) {
      const use = byName.get(name);
      if (!use) continue;
      use.trees += t.tree.count;
      use.pieces += t.tree.count * piecesFor(use.device, t);
    }
  }
  return [...byName.values()]
    .filter(({ trees }) => trees > 0)
    .map(({ device, trees, pieces }) => {
      const needed = shared(device) ? 1 : pieces;
      const toBuy = Math.max(0, needed - device.stock);
      return {
        device,
        trees,
        needed,
        toBuy,
        buyNow: toBuy * device.price,
        seasonShare: (needed * device.price) / device.seasons,
        setupHours: shared(device) ? 0 : (trees * device.setupMinutes) / 60,
      };
    });
}

/** Bark stays dry when mulch ends this far from it [m]. Common practice, no source. */
const CLEAR_OF_BARK = 0.075;

export interface SiteMulch {
  site: string;
  trees: number;
  volume: number; // [m³]
}

/**
 * Mulch to bring every tree to the target depth, by site. The ring ends at the root zone of the peak month or at the
 * widest ring, whichever is less; what the row says is there already is taken off, no word counts as none.
 *
 * @returns sites that need some, in the order of the inventory; empty without a target
 */
export function mulchNeeded(plan: SeasonPlan): SiteMulch[] {
  const { mulchDepth, mulchRing, zone } = plan.site;
  const sites = new Map<string, SiteMulch>();
  if (mulchDepth <= 0) return [];
  for (const t of plan.trees) {
    const lacking = mulchDepth - (t.tree.mulchDepth ?? 0);
    const reach = Math.max(t.facts.ballDiameter / 1000, t.facts.peak.ringDiameter);
    const outer = Math.min(mulchRing, reach);
    const clear = trunkUsed(t, zone) / 1000 + 2 * CLEAR_OF_BARK;
    if (lacking <= 0 || outer <= clear) continue;
    const { site, count } = t.tree;
    const sum = sites.get(site) ?? { site, trees: 0, volume: 0 };
    sum.trees += count;
    sum.volume += mulchVolume(outer, lacking, clear) * count;
    sites.set(site, sum);
  }
  return [...sites.values()];
}
