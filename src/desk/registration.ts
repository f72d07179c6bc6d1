/**
 * Registers every function of functions.json with the grid's formula engine, and hands arguments over
 * the way the host does. One file for the desk and the command line, so both show the same.
 *
 * What the host does, and is done here:
 * - an omitted argument is null, wherever it stands;
 * - a blank cell is 0 for a number, "" for a text, FALSE for a yes/no; in a range it is "";
 * - a parameter declared as a range gets rows of cells, also for one cell or one number;
 * - an error in any argument is the result; the function is not called;
 * - text that reads as a number is taken where a number is asked.
 *
 * The grid's own facade gives 0 for omitted middle arguments and for blanks alike, so the functions
 * are given to the engine as its function class, which sees the difference. What stays different from
 * the host: a range given where one value is asked is #VALUE! here (the host may try every cell), and
 * too few arguments reach the function as null (the host refuses to take the formula).
 */
import type {
  BaseFunction,
  BaseValueObject,
  IFunctionInfo,
} from '@univerjs/presets/preset-sheets-core';
import { Problem } from '../engine/problems.js';

/** The parts of the engine that are needed; the desk and the command line load different builds. */
export type FormulaEngine = Pick<
  typeof import('@univerjs/presets/preset-sheets-core'),
  | 'ArrayValueObject'
  | 'BaseFunction'
  | 'BooleanValueObject'
  | 'ErrorValueObject'
  | 'NumberValueObject'
  | 'StringValueObject'
>;

/** One function as functions.json describes it. */
export interface FunctionMetadata {
  id: string;
  name: string;
  description?: string;
  parameters: ParameterMetadata[];
}

export interface ParameterMetadata {
  name: string;
  description?: string;
  type?: string;
  dimensionality?: string;
  optional?: boolean;
  repeating?: boolean;
}

export type Implementation = (...args: never[]) => unknown;
export type ErrorCode = '#VALUE!' | '#N/A' | '#NUM!';

/** Why a cell shows an error: the sentence the host would show beside the cell. */
export interface CellTrouble {
  code: string;
  message: string;
  /** "SOAK.BAG_HOURS" */
  name: string;
}

/** The sentences of the last calculation, by sheet and cell. */
export class Troubles {
  readonly #bySheet = new Map<string, Map<string, CellTrouble>>();

  record(sheet: string, row: number, column: number, trouble: CellTrouble): void {
    const cells = this.#bySheet.get(sheet) ?? new Map<string, CellTrouble>();
    this.#bySheet.set(sheet, cells.set(`${row}|${column}`, trouble));
  }

  /** Lets go of a sheet that has gone; without a name, of all: each sheet written here has a key of its own. */
  forget(sheet?: string): void {
    if (sheet === undefined) this.#bySheet.clear();
    else this.#bySheet.delete(sheet);
  }

  /**
   * The sentence for a cell, given what the cell shows now. A record whose cell has since been given
   * another formula or value is not returned.
   */
  of(
    sheet: string,
    row: number,
    column: number,
    shown: { code: string; formula: string },
  ): CellTrouble | undefined {
    const found = this.#bySheet.get(sheet)?.get(`${row}|${column}`);
    if (found === undefined || found.code !== shown.code) return undefined;
    return shown.formula.toUpperCase().includes(found.name) ? found : undefined;
  }
}

export const NAMESPACE = 'SOAK';

type Primitive = string | number | boolean | null;
/** A place in the engine's arrays; one never filled has no object. */
type EngineCell = ReturnType<BaseValueObject['getArrayValue']>[number][number] | undefined;

class ArgumentError extends Error {
  constructor(
    readonly code: string,
    message: string,
  ) {
    super(message);
  }
}

/** An error in an argument goes on as the result, with a sentence that says which argument it was. */
function passOn(error: BaseValueObject, { name }: ParameterMetadata): ArgumentError {
  const code = String(error.getValue());
  return new ArgumentError(code, `${name} is an error itself (${code})`);
}

/** A cell inside a range, as the host hands it over. */
function cellValue(cell: EngineCell, parameter: ParameterMetadata): Primitive {
  if (!cell || cell.isNull()) return '';
  if (cell.isError()) throw passOn(cell, parameter);
  return cell.getValue();
}

function rowsOf(argument: BaseValueObject, parameter: ParameterMetadata): Primitive[][] {
  if (!argument.isArray()) return [[cellValue(argument, parameter)]];
  return argument.getArrayValue().map((row) => [...row].map((cell) => cellValue(cell, parameter)));
}

function blankFor(type: string | undefined): Primitive {
  if (type === 'string') return '';
  if (type === 'boolean') return false;
  return 0;
}

function coerce(value: Primitive, parameter: ParameterMetadata): Primitive {
  const { name, type } = parameter;
  if (type === 'number' && typeof value !== 'number') {
    if (typeof value === 'boolean') return value ? 1 : 0;
    const number = Number(value);
    if (typeof value === 'string' && value.trim() !== '' && Number.isFinite(number)) return number;
    throw new ArgumentError('#VALUE!', `${name} must be a number; got "${String(value)}"`);
  }
  if (type === 'string' && typeof value !== 'string') {
    return typeof value === 'boolean' ? String(value).toUpperCase() : String(value);
  }
  if (type === 'boolean' && typeof value !== 'boolean') {
    if (typeof value === 'number') return value !== 0;
    const word = String(value).trim().toUpperCase();
    if (word === 'TRUE' || word === 'FALSE') return word === 'TRUE';
    throw new ArgumentError('#VALUE!', `${name} must be TRUE or FALSE; got "${String(value)}"`);
  }
  return value;
}

function scalarOf(argument: BaseValueObject, parameter: ParameterMetadata): Primitive {
  if (!argument.isArray()) return coerce(cellValue(argument, parameter), parameter);
  const rows = argument.getArrayValue();
  const columns = rows[0]?.length ?? 0;
  if (rows.length !== 1 || columns !== 1) {
    throw new ArgumentError(
      '#VALUE!',
      `${parameter.name} takes one value; got a range of ${rows.length} by ${columns} cells`,
    );
  }
  const cell = rows[0]?.[0];
  if (!cell || cell.isNull()) return blankFor(parameter.type);
  return coerce(cellValue(cell, parameter), parameter);
}

function argumentFor(
  argument: BaseValueObject | undefined,
  parameter: ParameterMetadata,
): Primitive | Primitive[][] {
  if (argument === undefined || (!argument.isArray() && argument.isNull())) return null;
  if (argument.isError()) throw passOn(argument, parameter);
  return parameter.dimensionality === 'matrix'
    ? rowsOf(argument, parameter)
    : scalarOf(argument, parameter);
}

/** The engine's arguments as the host would hand them to the function. */
export function marshal(parameters: ParameterMetadata[], given: BaseValueObject[]): unknown[] {
  const last = parameters.at(-1);
  const fixed = last?.repeating === true ? parameters.slice(0, -1) : parameters;
  const surplus = given.slice(fixed.length);
  const values: unknown[] = fixed.map((parameter, i) => argumentFor(given[i], parameter));
  if (last?.repeating === true) {
    values.push(surplus.map((argument) => argumentFor(argument, last)));
  } else if (surplus.some((argument) => argument.isArray() || !argument.isNull())) {
    throw new ArgumentError(
      '#VALUE!',
      `takes ${parameters.length} ${parameters.length === 1 ? 'argument' : 'arguments'}; got ${given.length}`,
    );
  }
  return values;
}

/** What a result shows in a cell: error codes as the host has them, never NaN or infinity. */
function toValueObject(engine: FormulaEngine, value: unknown): BaseValueObject {
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) return engine.ErrorValueObject.create(errorType('#NUM!'));
    return engine.NumberValueObject.create(value);
  }
  if (typeof value === 'string') return engine.StringValueObject.create(value);
  if (typeof value === 'boolean') return engine.BooleanValueObject.create(value);
  if (value === null || value === undefined) return engine.NumberValueObject.create(0);
  if (value instanceof Problem) return engine.ErrorValueObject.create(errorType(codeOf(value)));
  throw new TypeError(`a function gave back ${typeof value}, which no cell can show`);
}

type EngineErrorType = Parameters<FormulaEngine['ErrorValueObject']['create']>[0];

/** The engine names its error kinds with the very text a cell shows. */
function errorType(code: string): EngineErrorType {
  return code as EngineErrorType;
}

function codeOf(problem: Problem): ErrorCode {
  return problem.kind === 'none' ? '#N/A' : '#VALUE!';
}

function toResult(engine: FormulaEngine, value: unknown): BaseValueObject {
  if (!Array.isArray(value)) return toValueObject(engine, value);
  const rows = value.map((row: unknown) => (Array.isArray(row) ? (row as unknown[]) : [row]));
  const columnCount = rows[0]?.length ?? 0;
  if (columnCount === 0 || rows.some((row) => row.length !== columnCount)) {
    throw new TypeError('a function gave back rows of different lengths, or none');
  }
  return engine.ArrayValueObject.create({
    calculateValueList: rows.map((row) => row.map((cell) => toValueObject(engine, cell))),
    rowCount: rows.length,
    columnCount,
    unitId: '',
    sheetId: '',
    row: -1,
    column: -1,
  });
}

function troubleFrom(error: unknown): { code: string; message: string } {
  if (error instanceof Problem) return { code: codeOf(error), message: error.message };
  if (error instanceof ArgumentError) return { code: error.code, message: error.message };
  const message = error instanceof Error ? error.message : String(error);
  return {
    code: '#VALUE!',
    message: `this is a fault in the function, not in your sheet: ${message}`,
  };
}

/** The functions as the engine's executors, named SOAK.ID. A throw inside one never leaves it. */
export function executorsFor(
  engine: FormulaEngine,
  metadata: readonly FunctionMetadata[],
  implementations: Readonly<Record<string, Implementation>>,
  troubles: Troubles,
): BaseFunction[] {
  return metadata.map(({ id, parameters }) => {
    const implementation = implementations[id] as ((...args: unknown[]) => unknown) | undefined;
    if (implementation === undefined) {
      throw new Error(`functions.json names ${id}, but there is no such function.`);
    }
    const name = `${NAMESPACE}.${id}`;
    class Executor extends engine.BaseFunction {
      override calculate(...given: BaseValueObject[]): BaseValueObject {
        try {
          return toResult(engine, implementation?.(...marshal(parameters, given)));
        } catch (error) {
          const { code, message } = troubleFrom(error);
          troubles.record(this.subUnitId ?? '', this.row, this.column, { code, message, name });
          return engine.ErrorValueObject.create(errorType(code));
        }
      }
    }
    return new Executor(name);
  });
}

/** The same functions for the grid's function list and argument hints. */
export function descriptionsFor(metadata: readonly FunctionMetadata[]): IFunctionInfo[] {
  const USER_DEFINED = 15 as IFunctionInfo['functionType'];
  return metadata.map(({ id, description, parameters }) => ({
    functionName: `${NAMESPACE}.${id}`,
    functionType: USER_DEFINED,
    description: description ?? '',
    abstract: description ?? '',
    functionParameter: parameters.map((parameter) => ({
      name: parameter.name,
      detail: parameter.description ?? '',
      example: '',
      require: parameter.optional === true ? 0 : 1,
      repeat: parameter.repeating === true ? 1 : 0,
    })),
  }));
}
