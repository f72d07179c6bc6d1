/** A stream of numbers from 0 to 1 that is the same in every run (linear congruential, Numerical Recipes' constants). */
export function randomStream(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** A whole number from `low` to `high`, both possible. */
export const whole = (random: () => number, low: number, high: number): number =>
  low + Math.floor(random() * (high - low + 1));
