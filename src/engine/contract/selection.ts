/**
 * Which of many to serve when some things do not suffice for all: a budgeted selection, solved exactly. Those of a lower
 * tier come first whatever it costs the others; inside a tier the greatest sum of worth counts.
 */
import { within } from '../checks.js';
import { Problem } from '../problems.js';

/** Something that is served whole or not at all. */
export interface Candidate {
  /** whole number from 0; lower ones first, without exception */
  tier: number;
  /** above 0; the sum inside a tier is made as great as it can be [any unit] */
  worth: number;
  /** what it takes of each budget, 0 or more [the unit of the budget] */
  use: readonly number[];
}

export interface Selection {
  served: boolean[];
  /** worth served in each tier, from the lowest on; `cut`: a better choice in it is not ruled out by the search itself */
  worth: { tier: number; sum: number; possible: number; cut: boolean }[];
  /** what is left of each budget */
  left: number[];
  /** false: the search was cut; `possible` is then a proven limit of each tier that it was cut in */
  exact: boolean;
}

interface State {
  worth: number;
  left: number[];
  last: Taken | undefined;
}
interface Taken {
  index: number;
  before: Taken | undefined;
}

/** States kept side by side before the search is cut, with one budget and with several. */
const MOST_STATES = 4000;
const MOST_STATES_SEVERAL = 300;
/** What a tier's search may look at, roughly: more rows and budgets leave room for fewer states. */
const MOST_LOOKS = 5e7;
const FEWEST_STATES = 20;
const HAIR = 1e-9;

const fits = (use: readonly number[], left: readonly number[]): boolean =>
  use.every((u, k) => u <= left[k]! + HAIR * Math.max(1, u));

/** At least as good in worth and in everything left. */
const covers = (a: State, b: State): boolean =>
  a.worth >= b.worth - HAIR && a.left.every((l, k) => l >= b.left[k]! - HAIR);

/** States none of which is covered by another. Best worth first. */
function front(states: State[]): State[] {
  states.sort((a, b) => b.worth - a.worth || b.left.reduce((s, l) => s + l, 0) - a.left.reduce((s, l) => s + l, 0)); // prettier-ignore
  const kept: State[] = [];
  if (states[0]?.left.length === 1) {
    let most = -Infinity;
    for (const state of states)
      if (state.left[0]! > most + HAIR) {
        kept.push(state);
        most = state.left[0]!;
      }
    return kept;
  }
  for (const state of states) if (!kept.some((other) => covers(other, state))) kept.push(state);
  return kept;
}

/** Items from the `first` on by what they are worth for each unit of each budget: the order of the fractional limits. */
class Tier {
  /** places of the items by worth for each unit of one budget, one list a budget */
  private readonly byBudget: number[][];

  constructor(
    private readonly all: readonly Candidate[],
    readonly items: readonly number[],
    budgets: number,
  ) {
    const rate = (at: number, k: number): number => {
      const { use, worth } = all[items[at]!]!;
      return use[k]! > 0 ? worth / use[k]! : Infinity;
    };
    this.byBudget = Array.from({ length: budgets }, (_, k) =>
      items.map((_, at) => at).sort((a, b) => rate(b, k) - rate(a, k)),
    );
  }

  /** No choice among the items from place `from` on adds more than this to what is left. */
  limit(from: number, left: readonly number[]): number {
    let least = Infinity;
    this.byBudget.forEach((order, k) => {
      let room = left[k]!;
      let sum = 0;
      for (const at of order) {
        if (at < from) continue;
        const { worth, use } = this.all[this.items[at]!]!;
        const takes = use[k]!;
        if (takes > room) {
          sum += (worth * Math.max(0, room)) / takes;
          break;
        }
        room -= takes;
        sum += worth;
      }
      least = Math.min(least, sum);
    });
    return least;
  }

  /** A choice at once, in the order of the items: what the search has to beat. */
  greedy(state: State): State {
    let { worth, last } = state;
    const left = [...state.left];
    for (const index of this.items) {
      const { worth: more, use } = this.all[index]!;
      if (!fits(use, left)) continue;
      worth += more;
      last = { index, before: last };
      use.forEach((u, k) => (left[k]! -= u));
    }
    return { worth, left, last };
  }
}

/** The best states of a tier, all of the same worth, from those the tiers before left. */
function searchTier(
  all: readonly Candidate[],
  items: readonly number[],
  starts: readonly State[],
  budgets: number,
): { states: State[]; possible: number; exact: boolean } {
  const tier = new Tier(all, items, budgets);
  let states = starts.map((s) => ({ ...s, worth: 0 }));
  const possible = Math.max(...states.map((s) => tier.limit(0, s.left)));
  // a state that cannot reach what a choice at once reaches is no use
  const atOnce = states.map((s) => tier.greedy(s));
  const floor = Math.max(...atOnce.map((s) => s.worth));
  let exact = true;
  const most =
    budgets === 1
      ? MOST_STATES
      : Math.max(FEWEST_STATES, Math.min(MOST_STATES_SEVERAL, MOST_LOOKS / (items.length ** 2 * budgets))); // prettier-ignore
  items.forEach((index, at) => {
    const { worth, use } = all[index]!;
    const next = [...states];
    for (const state of states)
      if (fits(use, state.left))
        next.push({
          worth: state.worth + worth,
          left: state.left.map((l, k) => l - use[k]!),
          last: { index, before: state.last },
        });
    const hopeful = next
      .map((state) => ({ state, limit: state.worth + tier.limit(at + 1, state.left) }))
      .filter(({ limit }) => limit >= floor - HAIR);
    if (hopeful.length > 2 * most) {
      exact = false;
      hopeful.sort((a, b) => b.limit - a.limit).length = Math.floor(most);
    }
    states = front(hopeful.map(({ state }) => state));
  });
  if (!exact) states.push(...atOnce);
  const best = Math.max(...states.map((s) => s.worth));
  return {
    states: front(states.filter((s) => s.worth >= best - HAIR)),
    possible: exact ? best : possible,
    exact,
  };
}

/**
 * Serves the best selection within the budgets.
 *
 * @param budgets - what there is of each thing: litres of a week, of a season, minutes of a crew …
 * @returns who is served; `exact` tells whether a better one is ruled out
 * @throws Problem if a number is negative or a use is lacking
 */
export function select(candidates: readonly Candidate[], budgets: readonly number[]): Selection {
  budgets.forEach((b) => within('budget', b, 0, 1e12));
  candidates.forEach(({ use, worth, tier }, i) => {
    if (use.length !== budgets.length || !use.every((u) => u >= 0 && u < Infinity))
      throw new Problem(`candidate ${i + 1} must say what it takes of each budget, 0 or more`);
    if (!(worth > 0 && worth < Infinity) || !Number.isInteger(tier))
      throw new Problem(`candidate ${i + 1} must have a worth above 0 and a whole tier`);
  });
  let states: State[] = [{ worth: 0, left: [...budgets], last: undefined }];
  const result: Selection = {
    served: candidates.map(() => false),
    worth: [],
    left: [],
    exact: true,
  };
  const tiers = [...new Set(candidates.map((c) => c.tier))].sort((a, b) => a - b);
  // what takes most of the budgets for its worth comes last, so that states fall out early
  const heavy = (i: number): number => {
    const { use, worth } = candidates[i]!;
    return use.reduce((sum, u, k) => sum + u / Math.max(budgets[k]!, HAIR), 0) / worth;
  };
  for (const tier of tiers) {
    const items = candidates
      .map((_, i) => i)
      .filter((i) => candidates[i]!.tier === tier)
      .sort((a, b) => heavy(a) - heavy(b) || a - b);
    const found = searchTier(candidates, items, states, budgets.length);
    states = found.states;
    result.exact &&= found.exact;
    result.worth.push({ tier, sum: states[0]!.worth, possible: found.possible, cut: !found.exact });
  }
  const chosen = states.reduce((a, b) => (used(a, budgets) <= used(b, budgets) ? a : b));
  for (let taken = chosen.last; taken; taken = taken.before) result.served[taken.index] = true;
  result.left = chosen.left.map((l) => Math.max(0, l));
  return result;
}

const used = ({ left }: State, budgets: readonly number[]): number =>
  budgets.reduce((sum, b, k) => sum + (b > 0 ? (b - left[k]!) / b : 0), 0);
