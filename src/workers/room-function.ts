/** Works out a worksheet function for the panel, by the very function a cell would call, and what it refuses in its own words. */
import { Problem } from '../engine/problems.js';
import type { CellValue } from '../functions/answer.js';
import type { Cell } from '../tables/cells.js';

/** An argument as it is meant: left out, a value, or cells of a sheet. */
export type Given =
  | { kind: 'omitted' }
  | { kind: 'value'; value: string | number | boolean | Cell[][] }
  | { kind: 'cells'; cells: Cell[][] };

/** What a call needs to know of a parameter, as functions.json has it. */
export interface ParameterShape {
  name: string;
  type?: string;
  dimensionality?: string;
}

export interface FunctionAsk {
  id: string;
  parameters: readonly ParameterShape[];
  /** in the order of the parameters; what is missing at the end is left out */
  given: readonly Given[];
}

export type FunctionAnswer =
  | { value: CellValue | CellValue[][] }
  /** why there is no value; `none`: the inputs are fine and there is no such value */
  | { trouble: string; none: boolean };

/** A blank cell, as the spreadsheet program hands it to a parameter that takes one value. */
function blankFor(type: string | undefined): CellValue {
  if (type === 'string') return '';
  return type === 'boolean' ? false : 0;
}

function oneOf(value: string | number | boolean, type: string | undefined): CellValue {
  if (type !== 'string' || typeof value === 'string') return value;
  return typeof value === 'boolean' ? String(value).toUpperCase() : String(value);
}

function single(cells: Cell[][], { name, type }: ParameterShape): CellValue {
  const [rows, columns] = [cells.length, cells[0]?.length ?? 0];
  if (rows !== 1 || columns !== 1)
    throw new Problem(`${name} takes one value; got a range of ${rows} by ${columns} cells`);
  const cell = cells[0]?.[0];
  return cell === null || cell === undefined || cell === '' ? blankFor(type) : oneOf(cell, type);
}

/** An argument as the spreadsheet program would hand it over. */
function handed(given: Given | undefined, parameter: ParameterShape): unknown {
  if (given === undefined || given.kind === 'omitted') return null;
  const isRange = parameter.dimensionality === 'matrix';
  if (given.kind === 'value' && !Array.isArray(given.value))
    return isRange ? [[given.value]] : oneOf(given.value, parameter.type);
  const cells = given.kind === 'value' ? (given.value as Cell[][]) : given.cells;
  return isRange ? cells.map((row) => row.map((cell) => cell ?? '')) : single(cells, parameter);
}

/**
 * The functions are loaded with the first call.
 *
 * @throws Error for a fault of ours; what the function refuses is an answer
 */
export async function functionAnswer({
  id,
  parameters,
  given,
}: FunctionAsk): Promise<FunctionAnswer> {
  const { FUNCTIONS } = await import('../functions/index.js');
  const run = FUNCTIONS[id] as ((...all: unknown[]) => CellValue | CellValue[][]) | undefined;
  if (!run) throw new Error(`there is no function ${id}`);
  try {
    return { value: run(...parameters.map((parameter, i) => handed(given[i], parameter))) };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return { trouble: error.message, none: error.kind === 'none' };
  }
}
