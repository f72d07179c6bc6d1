/** The one place where a Problem becomes what a cell shows. */
import { Problem } from '../engine/problems.js';

/** What a cell or a spilled range may show. */
export type CellValue = number | string | boolean;

/** What a cell can tell apart: 15 significant digits. The rest is noise of unit conversion, and INT() would see it. */
const asCell = (value: number): number =>
  Number.isInteger(value) ? value : Number(value.toPrecision(15));

function cellOf(value: CellValue): CellValue {
  if (typeof value !== 'number') return value;
  if (!Number.isFinite(value))
    throw new Problem('the inputs are so extreme together that there is no number to show');
  return asCell(value);
}

/**
 * Runs the body of a worksheet function. A Problem becomes the host's error with its sentence; where there is no
 * host (desk, command line, tests) the Problem itself is thrown and they show it. Numbers are rounded to the
 * 15 digits of a cell. A number that no cell can show never leaves: it would be a fault of ours, so it is said as one.
 *
 * @param compute - the body
 * @returns its answer
 * @throws CustomFunctions.Error in the host, Problem elsewhere; a programming error is passed on as it is
 */
export function answer<T extends CellValue | CellValue[][]>(compute: () => T): T {
  try {
    const result: CellValue | CellValue[][] = compute();
    return (Array.isArray(result) ? result.map((row) => row.map(cellOf)) : cellOf(result)) as T;
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
