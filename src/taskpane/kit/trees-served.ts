/** Hoses in numbers of trees: by what a tree of the list takes on average, as the planner counts. */

export interface HosesOfTrees {
  /** trees of the list that can have such a hose, at least one */
  trees: number;
  /** hoses all of them take together */
  hoses: number;
  /** hoses of a tree, and trees that take so many; fewest hoses first */
  each: readonly (readonly [hoses: number, trees: number])[];
}

/** A count this close to a whole number is one. */
const HAIR = 1e-9;

/** Trees that hoses serve. @param stock - hoses */
export const treesServed = (stock: number, { trees, hoses }: HosesOfTrees): number =>
  Math.floor((stock * trees) / hoses + HAIR);

/** Hoses that so many trees take. */
export const hosesFor = (served: number, { trees, hoses }: HosesOfTrees): number =>
  Math.ceil((served * hoses) / trees - HAIR);

/** Trees that hoses serve if those that take fewest get them: with large trees in the list more than the average says. */
export function smallTreesServed(stock: number, { each }: Pick<HosesOfTrees, 'each'>): number {
  let left = stock;
  let served = 0;
  for (const [hoses, trees] of each) {
    const these = Math.min(trees, Math.floor(left / hoses + HAIR));
    served += these;
    left -= these * hoses;
  }
  return served;
}
