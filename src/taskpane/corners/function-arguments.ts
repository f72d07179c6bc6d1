/** What each argument of a function begins with: a cell of the row, the worked example's value, or nothing. */
import type { Units } from '../../engine/units.js';
import type { Meaning } from '../../tables/inventory/vocabulary.js';
import { letter } from '../../workbook/model.js';
import type { MatchedColumn } from '../../workers/plan-room.js';
import type { Example, FunctionEntry, FunctionParameter } from './function-data.js';

export type Origin =
  | { kind: 'column'; header: string; row: number }
  | { kind: 'example' | 'units' | 'blank' | 'default' | 'yours' };

export interface Argument {
  parameter: FunctionParameter;
  /** as it is typed into the formula, "" for blank */
  typed: string;
  origin: Origin;
  /** a column that means this, in a unit the function does not take */
  unused?: { header: string; unit: string; wanted: string };
}

/** Parameters that mean what a column means, and the units they are taken in. Any other is left to the person. */
const PARAMETERS: readonly { name: string; functions?: readonly string[]; meaning: Meaning; US?: string; SI?: string }[] = [
  { name: 'canopy', meaning: 'canopy', US: 'ft', SI: 'm' },
  { name: 'caliper', functions: ['BALL_DIAMETER', 'CONTRACT_GALLONS', 'RULE_OF_THUMB'], meaning: 'caliper', US: 'in', SI: 'cm' },
  { name: 'diameter', functions: ['DEFICIT_GALLONS'], meaning: 'caliper', US: 'in', SI: 'cm' },
  { name: 'ball_diameter', meaning: 'ballDiameter', US: 'in', SI: 'cm' },
  { name: 'class', meaning: 'container' },
  { name: 'class_', meaning: 'container' },
  { name: 'planted', meaning: 'planted' },
  { name: 'texture', meaning: 'texture' },
  { name: 'latitude', meaning: 'latitude' },
  { name: 'address', meaning: 'address' },
]; // prettier-ignore

export interface Around {
  units: Units;
  /** matched columns of the sheet in front, where the chosen cell stands in one of its rows */
  columns: readonly MatchedColumn[];
  /** 1-based; undefined: no row */
  row: number | undefined;
  example: Example | undefined;
}

type Found = { column: MatchedColumn; wanted: string; fits: boolean };

function columnFor(
  id: string,
  { name }: FunctionParameter,
  columns: readonly MatchedColumn[],
  units: Units,
): Found | undefined {
  const known = PARAMETERS.find(
    (p) => p.name === name && (p.functions === undefined || p.functions.includes(id)),
  );
  const column = known && columns.find(({ meaning, ask }) => meaning === known.meaning && !ask);
  if (!known || !column) return undefined;
  const wanted = known[units] ?? '';
  return { column, wanted, fits: wanted === '' || column.unit === wanted };
}

/** The system of units in which most columns can be pointed at; the workbook's own where both do alike. */
function systemFor({ id, parameters }: FunctionEntry, { columns, units }: Around): Units {
  if (!parameters.some(({ name }) => name === 'units')) return units;
  const fitting = (system: Units): number =>
    parameters.filter((p) => columnFor(id, p, columns, system)?.fits).length;
  const other: Units = units === 'US' ? 'SI' : 'US';
  return fitting(other) > fitting(units) ? other : units;
}

/** Arguments to begin with, in the order of the function, each with where it is from. */
export function argumentsOf(entry: FunctionEntry, around: Around): Argument[] {
  const system = systemFor(entry, around);
  const { columns, row, example } = around;
  return entry.parameters.map((parameter, i): Argument => {
    if (parameter.name === 'units')
      // the functions take US units where nothing is said
      return { parameter, typed: system === 'US' ? '' : '"SI"', origin: { kind: 'units' } };
    const found = row === undefined ? undefined : columnFor(entry.id, parameter, columns, system);
    if (found?.fits && row !== undefined) {
      const { column, header } = found.column;
      return {
        parameter,
        typed: `${letter(column)}${row}`,
        origin: { kind: 'column', header, row },
      };
    }
    const unused = found && {
      unused: { header: found.column.header, unit: found.column.unit, wanted: found.wanted },
    };
    if (parameter.optional) return { parameter, typed: '', origin: { kind: 'default' }, ...unused };
    // an example in the other units would be read wrongly
    const value = system === exampleSystem(entry, example) ? (example?.[i] ?? '') : '';
    return {
      parameter,
      typed: value,
      origin: { kind: value === '' ? 'blank' : 'example' },
      ...unused,
    };
  });
}

function exampleSystem({ parameters }: FunctionEntry, example: Example | undefined): Units {
  const at = parameters.findIndex(({ name }) => name === 'units');
  return at >= 0 && example?.[at] === '"SI"' ? 'SI' : 'US';
}

/** A number; a text, list or formula as written; TRUE or FALSE; a cell or range; a function's call; a table's column. */
const VERBATIM: readonly RegExp[] = [
  /^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?%?$/i,
  /^["{]/,
  /^(?:true|false)$/i,
  /^(?:'[^']+'!|[\w.]+!)?\$?[a-z]{1,3}\$?\d{1,7}(?::\$?[a-z]{1,3}\$?\d{1,7})?$/i,
  /^[a-z][\w.]*\(.*\)$/i,
  /^\w+\[.+\]$/,
];

/** What a person typed as it stands in a formula: words and dates are put in quotes; after "=" everything stays. */
export function asArgument(typed: string): string {
  const trimmed = typed.trim();
  if (trimmed.startsWith('=')) return trimmed.slice(1);
  if (trimmed === '' || VERBATIM.some((form) => form.test(trimmed))) return trimmed;
  return `"${trimmed.replaceAll('"', '""')}"`;
}

/** The formula; blank arguments at its end are left out. */
export function formulaFor(id: string, list: readonly Argument[]): string {
  const typed = list.map((each) => asArgument(each.typed));
  while (typed.at(-1) === '') typed.pop();
  return `=SOAK.${id}(${typed.join(',')})`;
}

/** The first argument that must be filled and is not. */
export const missingIn = (list: readonly Argument[]): string | undefined =>
  list.find(({ parameter, typed }) => !parameter.optional && typed.trim() === '')?.parameter.name;
