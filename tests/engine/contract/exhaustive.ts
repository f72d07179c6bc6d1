/** A selection the slow way. */
import type { Candidate } from '../../../src/engine/contract/selection.js';

/** The greatest worth of each tier in turn, by looking at every subset. */
export function exhaustive(candidates: readonly Candidate[], budgets: readonly number[]): number[] {
  const tiers = [...new Set(candidates.map((c) => c.tier))].sort((a, b) => a - b);
  let best = tiers.map(() => 0);
  for (let set = 0; set < 2 ** candidates.length; set++) {
    const own = candidates.filter((_, i) => (set >> i) & 1);
    if (budgets.some((b, k) => own.reduce((s, c) => s + c.use[k]!, 0) > b + 1e-9)) continue;
    const worth = tiers.map((t) => own.reduce((s, c) => s + (c.tier === t ? c.worth : 0), 0));
    const first = worth.findIndex((w, k) => Math.abs(w - best[k]!) > 1e-9);
    if (first >= 0 && worth[first]! > best[first]!) best = worth;
  }
  return best;
}
