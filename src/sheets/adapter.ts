/** Our functions as functions of a Google Sheets script: arguments, columns of cases, errors. */
import type { CellValue } from '../functions/answer.js';
import { Problem } from '../engine/problems.js';
import { cellReader, type SheetClock } from './host-values.js';

/** What a call needs to know of a function. */
export interface Shape {
  /** names of the parameters, in order */
  names: readonly string[];
  /** which of them take a range */
  ranges: readonly boolean[];
  /** answers with rows of cells */
  spills: boolean;
}

type Implementation = (...args: unknown[]) => unknown;
type Rows = readonly (readonly unknown[])[];

const isRows = (value: unknown): value is Rows => Array.isArray(value) && Array.isArray(value[0]);
const isBlank = (value: unknown): boolean => value === '' || value === null || value === undefined;

/** The sentence a cell shows; a fault of ours is said as one. */
const sentenceOf = (error: unknown): string =>
  error instanceof Problem
    ? error.message
    : `this is a fault in the function, not in your sheet: ${error instanceof Error ? error.message : String(error)}`;

/** Size of the ranges that stand where one value is asked: one case for each of their cells. */
function casesOf(
  given: readonly unknown[],
  { names, ranges }: Shape,
): [number, number] | undefined {
  let size: [number, number] | undefined;
  let first = '';
  given.forEach((value, i) => {
    if (ranges[i] || !isRows(value)) return;
    const own: [number, number] = [value.length, value[0]?.length ?? 0];
    if (own[0] * own[1] === 1) return;
    if (size === undefined) [size, first] = [own, names[i] ?? ''];
    else if (size[0] !== own[0] || size[1] !== own[1])
      throw new Problem(
        `${names[i]} has ${own[0]} rows and ${own[1]} columns, ${first} has ${size[0]} and ${size[1]}; ranges must be of one size`,
      );
  });
  return size;
}

/** One case of many: the values of its cell, and whether all of these are blank. */
function caseAt(
  given: readonly unknown[],
  ranges: readonly boolean[],
  row: number,
  column: number,
): { values: unknown[]; blank: boolean } {
  let blank = true;
  const values = given.map((value, i) => {
    if (ranges[i] || !isRows(value) || value.length * (value[0]?.length ?? 0) === 1) return value;
    const cell = value[row]?.[column];
    if (!isBlank(cell)) blank = false;
    return cell;
  });
  return { values, blank };
}

/** A range parameter takes rows, also for one cell; what is left out stays so. */
const asRange = (value: unknown, isRange: boolean): unknown =>
  isRange && !isBlank(value) && !Array.isArray(value) ? [[value]] : value;

/**
 * Makes the one entry that all functions of the script call.
 *
 * @param functions - by id
 * @param shapes - by id
 * @param clock - the host's
 * @returns a call by id with the host's arguments; it answers with cells, and throws an Error with a sentence
 */
export function sheetCaller(
  functions: Readonly<Record<string, Implementation>>,
  shapes: Readonly<Record<string, Shape>>,
  clock: SheetClock,
): (id: string, given: ArrayLike<unknown>) => unknown {
  const callOne = (id: string, values: readonly unknown[]): unknown =>
    functions[id]!(...values) as CellValue | CellValue[][];

  const callAll = (id: string, given: readonly unknown[], shape: Shape): unknown => {
    const size = shape.spills ? undefined : casesOf(given, shape);
    if (size === undefined) return callOne(id, given);
    return Array.from({ length: size[0] }, (_, row) =>
      Array.from({ length: size[1] }, (_cell, column) => {
        const { values, blank } = caseAt(given, shape.ranges, row, column);
        if (blank) return '';
        try {
          return callOne(id, values);
        } catch (error) {
          return `not computed: ${sentenceOf(error)}`;
        }
      }),
    );
  };

  return (id, given) => {
    try {
      const shape = shapes[id]!;
      const read = cellReader(clock);
      if (given.length > shape.names.length)
        throw new Problem(`${id} takes ${shape.names.length} arguments; got ${given.length}`);
      const values = Array.from(given, (value, i) => {
        const plain = isRows(value) ? value.map((row) => row.map(read)) : read(value);
        return asRange(plain, shape.ranges[i] ?? false);
      });
      return callAll(id, values, shape);
    } catch (error) {
      throw new Error(sentenceOf(error));
    }
  };
}
