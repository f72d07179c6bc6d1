/** The one place where a Problem becomes what a cell shows. */
import { Problem } from '../engine/problems.js';

/** What a cell or a spilled range may show. */
export type CellValue = number | string | boolean;

/**
 * Runs the body of a worksheet function. A Problem becomes the host's error with its sentence; where there is no
 * host (desk, command line, tests) the Problem itself is thrown and they show it. A number that no cell can
 * show never leaves: it would be a fault of ours, so it is said as one.
 *
 * @param compute - the body
 * @returns its answer
 * @throws CustomFunctions.Error in the host, Problem elsewhere; a programming error is passed on as it is
 */
export function answer<T extends CellValue | CellValue[][]>(compute: () => T): T {
  try {
    const result = compute();
    for (const cell of Array.isArray(result) ? result.flat() : [result])
      if (typeof cell === 'number' && !Number.isFinite(cell))
        throw new Problem('the inputs are so extreme together that there is no number to show');
    return result;
  } catch (error) {
    if (error instanceof Problem && hostHasErrors()) throw hostError(error);
    throw error;
  }
}

const hostHasErrors = (): boolean =>
  typeof CustomFunctions !== 'undefined' && typeof CustomFunctions.Error === 'function';

/** Only these two codes carry a sentence in the host. */
function hostError(problem: Problem): CustomFunctions.Error {
  const { invalidValue, notAvailable } = CustomFunctions.ErrorCode;
  return new CustomFunctions.Error(
    problem.kind === 'none' ? notAvailable : invalidValue,
    problem.message,
  );
}
