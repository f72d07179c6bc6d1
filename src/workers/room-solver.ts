/** The exact solver of a page's plan room: loaded when first asked for, and missed where it cannot be had. */
import type { Solve } from '../engine/plan/solve.js';
import { highsSolver } from '../workbook/highs.js';

/**
 * A solver that does not throw when it cannot be loaded: it then answers every question with nothing, so that what rests on
 * it is said to be unproven. The next question tries to load it again.
 *
 * @param file - where highs.wasm is served, from the page's folder
 */
export function roomSolver(file: string): Solve {
  let solve = highsSolver({ locateFile: () => file });
  return async (model) => {
    try {
      return await solve(model);
    } catch (error) {
      solve = highsSolver({ locateFile: () => file });
      const why = error instanceof Error ? error.message : String(error);
      return { x: undefined, bound: NaN, proven: false, status: `it did not start: ${why}` };
    }
  };
}
