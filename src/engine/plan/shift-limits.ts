/** What putting waterings forward may cost a tree: no stress, hardly any water, none of the visits a contract owes it. */
import type { MeansOutcome, TreePlan } from './model.js';
import type { Owed } from './owed-visits.js';

/** Waterings, and times somebody comes, that a tree may have more than without relief, over the season. */
export const MOST_MORE_WATERINGS = 1;
/**
 * Most of its water a tree may get more over the season [-]. What is put forward is poured sooner, not lost, but the season
 * ends with fuller soil, and one watering of a dozen is a twelfth. Assumption: a tenth is what a drought bears.
 */
export const MOST_MORE_WATER = 0.1;
/** Rounding that is no change. */
const HAIR = 1e-9;

/** Least visits a contract owes a tree. */
export type OwedTo = (tree: TreePlan) => readonly Owed[];

type Outcome = Pick<MeansOutcome, 'stressDays' | 'leastKs' | 'waterings' | 'visits' | 'litres'>;

export class Limits {
  /** @param trees - as they would be without relief */
  constructor(
    private readonly trees: readonly TreePlan[],
    private readonly seasonFrom: number,
    private readonly owedTo: OwedTo,
  ) {}

  /**
   * Whether a row bears to be watered like this.
   *
   * @param watered - days of the season with a watering by its main means
   */
  bears(row: number, now: Outcome, watered: readonly number[]): boolean {
    const tree = this.trees[row]!;
    const { stressDays, leastKs, waterings, visits, litres } = tree.chosen;
    return (
      now.stressDays <= stressDays &&
      now.leastKs >= leastKs - HAIR &&
      now.waterings <= waterings + MOST_MORE_WATERINGS &&
      now.visits <= visits + MOST_MORE_WATERINGS &&
      now.litres <= litres * (1 + MOST_MORE_WATER) &&
      this.keepsVisits(tree, watered)
    );
  }

  /** As many visits within every window of a contract as before, or as many as are owed. */
  private keepsVisits(tree: TreePlan, watered: readonly number[]): boolean {
    const windows = this.owedTo(tree);
    if (windows.length === 0) return true;
    const before = tree.chosen.plan.map(({ day }) => day - this.seasonFrom);
    return windows.every(({ from, to, visits }) => {
      const within = (days: readonly number[]): number =>
        days.filter((day) => day >= from && day <= to).length;
      return within(watered) >= Math.min(visits, within(before));
    });
  }
}
