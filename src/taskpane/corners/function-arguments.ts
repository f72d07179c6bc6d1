/** The arguments of a function: a cell of the row, the worked example's value, what a person typed, or nothing. */
import type { Units } from '../../engine/units.js';
import type { Meaning } from '../../tables/inventory/vocabulary.js';
import { letter } from '../../workbook/model.js';
import type { MatchedColumn } from '../../workers/plan-room.js';
import { argued, meantBy, plainlyTyped, saidOf, takenBy, type Taken } from './argument-value.js';
import type { Example, FunctionEntry, FunctionParameter } from './function-data.js';

export type Origin =
  | { kind: 'column'; header: string; row: number }
  | { kind: 'example' | 'units' | 'blank' | 'default' | 'yours' };

export interface Argument {
  parameter: FunctionParameter;
  /** as it stands in the field, "" for blank */
  typed: string;
  origin: Origin;
  taken: Taken;
  /** what it is, its default and its unit in the system chosen, "" where there is none */
  what: string;
  default: string;
  unit: string;
  units: Units;
  /** as it stands in the formula, "" for blank */
  formula: string;
  /** the number that was read out of a fraction or a quantity */
  read?: number;
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

/** Whether a column of an inventory may mean this parameter. */
export const isPointable = (id: string, { name }: FunctionParameter): boolean =>
  PARAMETERS.some(
    (p) => p.name === name && (p.functions === undefined || p.functions.includes(id)),
  );

/** The system of units in which most columns can be pointed at; the workbook's own where both do alike. */
function systemFor({ id, parameters }: FunctionEntry, { columns, units }: Around): Units {
  if (!parameters.some(({ name }) => name === 'units')) return units;
  const fitting = (system: Units): number =>
    parameters.filter((p) => columnFor(id, p, columns, system)?.fits).length;
  const other: Units = units === 'US' ? 'SI' : 'US';
  return fitting(other) > fitting(units) ? other : units;
}

/** What an argument begins with, and where that is from. */
function begun(
  entry: FunctionEntry,
  parameter: FunctionParameter,
  { columns, row, example }: Around,
  system: Units,
): Pick<Argument, 'typed' | 'origin' | 'unused'> {
  if (parameter.name === 'units')
    // the functions take US units where nothing is said
    return { typed: system === 'US' ? '' : 'SI', origin: { kind: 'units' } };
  const found = row === undefined ? undefined : columnFor(entry.id, parameter, columns, system);
  if (found?.fits && row !== undefined) {
    const { column, header } = found.column;
    return { typed: `${letter(column)}${row}`, origin: { kind: 'column', header, row } };
  }
  const unused = found && {
    unused: { header: found.column.header, unit: found.column.unit, wanted: found.wanted },
  };
  if (parameter.optional) return { typed: '', origin: { kind: 'default' }, ...unused };
  const value = example?.[system][entry.parameters.indexOf(parameter)] ?? '';
  const kind = value === '' ? 'blank' : 'example';
  return { typed: plainlyTyped(value), origin: { kind }, ...unused };
}

/**
 * Arguments in the order of the function, each with where it is from and how it was understood.
 *
 * @param yours - what the person typed, by parameter
 */
export function argumentsOf(
  entry: FunctionEntry,
  around: Around,
  yours: Readonly<Record<string, string>> = {},
): Argument[] {
  const system = systemFor(entry, around);
  const begin = entry.parameters.map((parameter) => {
    const typed = yours[parameter.name];
    const first = begun(entry, parameter, around, system);
    return typed === undefined ? first : { typed, origin: { kind: 'yours' as const } };
  });
  const at = entry.parameters.findIndex(({ name }) => name === 'units');
  const units = at < 0 ? system : chosenUnits(begin[at]!.typed, system);
  return entry.parameters.map((parameter, i) => {
    const taken = takenBy(parameter);
    const said = saidOf(parameter, units);
    return {
      parameter,
      ...begin[i]!,
      ...said,
      units,
      taken,
      ...argued(begin[i]!.typed, taken, said.unit),
    };
  });
}

/** The system an argument chooses; a cell or formula chooses what nobody knows here. */
function chosenUnits(typed: string, otherwise: Units): Units {
  const word = typed.replaceAll('"', '').trim().toUpperCase();
  if (word === 'SI') return 'SI';
  return word === '' || word === 'US' ? 'US' : otherwise;
}

const PLAIN_NAME = /^[\w.]+$/;
const asSheet = (name: string): string =>
  PLAIN_NAME.test(name) ? name : `'${name.replaceAll("'", "''")}'`;

/**
 * The formula; blank arguments at its end are left out.
 *
 * @param from - the sheet whose cells are meant, where the formula goes onto another one
 */
export function formulaFor(id: string, list: readonly Argument[], from?: string): string {
  const all = list.map(({ formula }) => {
    const meant = meantBy(formula);
    const bare = from !== undefined && meant.kind === 'pointed' && meant.at.sheet === undefined;
    return bare ? `${asSheet(from)}!${formula}` : formula;
  });
  while (all.at(-1) === '') all.pop();
  return `=SOAK.${id}(${all.join(',')})`;
}

/** The first argument that must be filled and is not. */
export const missingIn = (list: readonly Argument[]): string | undefined =>
  list.find(({ parameter, formula }) => !parameter.optional && formula === '')?.parameter.name;

/** The first argument that only the spreadsheet can work out. */
export const workedOutBySheet = (list: readonly Argument[]): string | undefined =>
  list.find(({ formula }) => meantBy(formula).kind === 'formula')?.parameter.name;
