/**
 * Stands for the spreadsheet program on its side of a worksheet function: hands arguments over as it does, and shows
 * what comes back as a cell would. From the program's public documentation and its users' reports:
 *
 * - an omitted argument is null, wherever it stands; the function always gets all its parameters, and after them an
 *   object about the call;
 * - a blank cell is 0 for a number, "" for a text, FALSE for a yes/no; what it is for "any" was not found written, so
 *   both 0 and "" are tried; inside a range it is "";
 * - a range parameter gets rows of cells, also for one cell: [[v]];
 * - an argument in error is the answer, and the function is not called;
 * - a returned null shows 0; rows must be of one length; a CustomFunctions.Error shows its code with its message,
 *   anything else that is thrown shows #VALUE! without a word.
 */
import { createContext, runInContext } from 'node:vm';

export const OMITTED = Symbol('omitted');
export const BLANK = Symbol('blank cell');

/** A cell in error, such as #DIV/0!. */
export class ErrorCell {
  constructor(readonly code: string) {}
}

type Plain = number | string | boolean;
export type HostCell = Plain | typeof BLANK | ErrorCell;
export type HostArgument = typeof OMITTED | HostCell | readonly (readonly HostCell[])[];

export interface DescribedParameter {
  name: string;
  type?: string;
  dimensionality?: string;
  optional?: boolean;
}
export interface DescribedFunction {
  id: string;
  parameters: DescribedParameter[];
  result: { type?: string; dimensionality?: string };
}

/** What a cell or a spill shows. */
export type Shown =
  | { kind: 'cell'; value: Plain }
  | { kind: 'spill'; rows: Plain[][] }
  | { kind: 'error'; code: string; sentence: string; called: boolean };

export interface Runtime {
  functions: ReadonlyMap<string, (...args: unknown[]) => unknown>;
  /** ids in the order they were tied, with repetitions */
  associated: readonly string[];
  /** names in the runtime's global room after the script has run */
  globals(): string[];
  call(fn: DescribedFunction, given: readonly HostArgument[], anyBlank?: 0 | ''): Shown;
  /** what would be handed to the function, or the error that is the answer */
  handOver(
    fn: DescribedFunction,
    given: readonly HostArgument[],
    anyBlank?: 0 | '',
  ): unknown[] | ErrorCell;
}

const isRange = (given: HostArgument): given is readonly (readonly HostCell[])[] =>
  Array.isArray(given);

function blankAs(type: string | undefined, anyBlank: 0 | ''): Plain {
  if (type === 'number') return 0;
  if (type === 'string') return '';
  if (type === 'boolean') return false;
  return anyBlank;
}

/** A text parameter gets text; the other types of ours take anything. */
const asType = (value: Plain, type: string | undefined): Plain =>
  type === 'string'
    ? typeof value === 'boolean'
      ? String(value).toUpperCase()
      : `${value}`
    : value;

function handOverOne(
  parameter: DescribedParameter,
  given: HostArgument,
  anyBlank: 0 | '',
): unknown {
  if (given === OMITTED) return null;
  const rows = isRange(given) ? given : [[given]];
  const broken = rows.flat().find((cell) => cell instanceof ErrorCell);
  if (broken !== undefined) return broken;
  if (parameter.dimensionality === 'matrix')
    return rows.map((row) => row.map((cell) => (cell === BLANK ? '' : cell)));
  const [cell] = rows.flat();
  if (rows.flat().length !== 1)
    throw new Error(`${parameter.name}: lifting over a range is the program's own business`);
  return cell === BLANK || cell === undefined
    ? blankAs(parameter.type, anyBlank)
    : asType(cell as Plain, parameter.type);
}

function handOver(
  fn: DescribedFunction,
  given: readonly HostArgument[],
  anyBlank: 0 | '' = 0,
): unknown[] | ErrorCell {
  if (given.length > fn.parameters.length) throw new Error(`${fn.id}: too many arguments`);
  const handed = fn.parameters.map((parameter, i) =>
    handOverOne(parameter, given[i] ?? OMITTED, anyBlank),
  );
  return handed.find((each) => each instanceof ErrorCell) ?? handed;
}

/** A value of the runtime as one of ours; only what a cell can show passes. */
function plainCell(id: string, value: unknown): Plain {
  if (value === null || value === undefined) throw new Error(`${id} gave back nothing: it shows 0`);
  if (typeof value === 'number' && Number.isFinite(value)) return value;
  if (typeof value === 'string' || typeof value === 'boolean') return value;
  throw new Error(`${id} gave back ${String(value)}, which no cell can show`);
}

function shownResult({ id, result }: DescribedFunction, value: unknown): Shown {
  if (result.dimensionality !== 'matrix') {
    if (Array.isArray(value)) throw new Error(`${id} spills and is not described so`);
    return { kind: 'cell', value: plainCell(id, value) };
  }
  if (!Array.isArray(value) || value.length === 0) throw new Error(`${id} gave back no rows`);
  const rows = (value as unknown[]).map((row) => {
    if (!Array.isArray(row)) throw new Error(`${id} gave back a row that is none`);
    return (row as unknown[]).map((cell) => plainCell(id, cell));
  });
  const width = rows[0]?.length ?? 0;
  if (width === 0 || rows.some((row) => row.length !== width))
    throw new Error(`${id} gave back rows of different lengths, or empty ones`);
  return { kind: 'spill', rows };
}

/**
 * Runs the script of the functions in a bare room: the language and CustomFunctions, no page, no timer, no console.
 */
export function hostRuntime(script: string): Runtime {
  const functions = new Map<string, (...args: unknown[]) => unknown>();
  const associated: string[] = [];
  const ErrorCode = { invalidValue: '#VALUE!', notAvailable: '#N/A' };
  class HostError extends Error {
    constructor(
      readonly code: string,
      message: string,
    ) {
      super(message);
    }
  }
  const CustomFunctions = {
    Error: HostError,
    ErrorCode,
    associate: (id: string, fn: (...args: unknown[]) => unknown): void => {
      associated.push(id);
      functions.set(id, fn);
    },
  };
  const room = createContext({ CustomFunctions });
  // Node's machines bring a console of the inspector, which the functions' runtime may lack
  runInContext('delete globalThis.console', room);
  runInContext(script, room, { timeout: 20_000, filename: 'functions.js' });

  const call: Runtime['call'] = (fn, given, anyBlank) => {
    const handed = handOver(fn, given, anyBlank);
    if (handed instanceof ErrorCell)
      return { kind: 'error', code: handed.code, sentence: '', called: false };
    const target = functions.get(fn.id);
    if (target === undefined) throw new Error(`${fn.id} is not tied to a function`);
    try {
      return shownResult(fn, target(...handed, { functionName: fn.id }));
    } catch (error) {
      if (!(error instanceof HostError)) throw error;
      if (!Object.values(ErrorCode).includes(error.code))
        throw new Error(`${fn.id} throws the code ${error.code}, which shows no sentence`, {
          cause: error,
        });
      return { kind: 'error', code: error.code, sentence: error.message, called: true };
    }
  };
  return {
    functions,
    associated,
    globals: () => runInContext('Object.keys(globalThis)', room) as string[],
    call,
    handOver,
  };
}
