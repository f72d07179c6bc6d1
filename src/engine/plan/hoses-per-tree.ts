/** How many hoses the trees of a list take, one by one as the planner counts them. */
import { Problem } from '../problems.js';
import { joinedFor } from './choose-means.js';
import type { Device, Site, Tree } from './model.js';
import { establishedArea } from './tree-season.js';

export interface HoseCount {
  /** trees that can have such a hose, counting rows of several */
  trees: number;
  /** hoses all of them together take */
  hoses: number;
  /** hoses of the tree that takes most */
  most: number;
  /** hoses of a tree, and trees that take so many; fewest hoses first */
  each: [hoses: number, trees: number][];
}

/**
 * Hoses for the trees of a list. Left out are trees without a size, without a tap, and those whose row asks for other means.
 *
 * @param hose - a soaker hose with its length [m]
 * @param site - `reach` of the roots
 */
export function hosesPerTree(
  trees: readonly Tree[],
  hose: Device,
  site: Pick<Site, 'reach'>,
): HoseCount {
  const count: HoseCount = { trees: 0, hoses: 0, most: 0, each: [] };
  if (!(hose.length !== undefined && hose.length > 0)) return count;
  const each = new Map<number, number>();
  for (const tree of trees) {
    if (tree.tap === false || (tree.meansWanted && !tree.meansWanted.includes('soaker'))) continue;
    const area = areaOf(tree, site);
    if (area === undefined) continue;
    // the trunk decides about bags only
    const own = joinedFor(hose, 0, area);
    count.trees += tree.count;
    count.hoses += own * tree.count;
    count.most = Math.max(count.most, own);
    each.set(own, (each.get(own) ?? 0) + tree.count);
  }
  count.each = [...each].sort(([a], [b]) => a - b);
  return count;
}

/** A tree that cannot be sized is not planned, and takes no hose. */
function areaOf(tree: Tree, site: Pick<Site, 'reach'>): number | undefined {
  try {
    return establishedArea(tree, site);
  } catch (error) {
    if (error instanceof Problem) return undefined;
    throw error;
  }
}
