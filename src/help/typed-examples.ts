/** Worked examples as arguments are typed, in both systems of units: the panel begins a function with them. */
import { QUANTITIES, toCell, toEngine, type QuantityName } from '../functions/limits.js';
import { partsOf } from '../functions/parameter-words.js';
import type { Units } from '../engine/units.js';
import type { FunctionData, HelpData, ParameterData } from './data.js';
import { exampleOf } from './example.js';
import { canBeTyped, typed } from './values.js';

/** Arguments as they are typed: "" for one left out, null for a table on a sheet or what is known in the other units only. */
export type Typed = (string | null)[];

/** A converted example has as many digits as an example needs. */
const DIGITS = 3;

const quantityOf = (parameter: ParameterData): QuantityName | undefined => {
  const { us, si } = partsOf(parameter);
  const [US, SI] = [us, si].map((unit) => unit.replace(/ (?:as|a|per) .*$/, ''));
  return (Object.keys(QUANTITIES) as QuantityName[]).find((name) => {
    const labels = [QUANTITIES[name].US.label, QUANTITIES[name].SI.label];
    return (labels[0] === us && labels[1] === si) || (labels[0] === US && labels[1] === SI);
  });
};

/** A number in the other system; texts and what has no unit stay. @returns undefined for a table whose units are its own */
function inOther(value: unknown, parameter: ParameterData, from: Units, to: Units): unknown {
  if (Array.isArray(value)) {
    const cells = (value as unknown[]).flat();
    if (!cells.every((cell) => typeof cell === 'number')) return undefined;
    return value.map((each: unknown) => inOther(each, parameter, from, to));
  }
  const name = typeof value === 'number' ? quantityOf(parameter) : undefined;
  if (name === undefined || typeof value !== 'number') return value;
  const { us, si } = partsOf(parameter);
  if (us === si) return value;
  return Number(toCell(toEngine(value, name, from), name, to).toPrecision(DIGITS));
}

/** Tables with columns in units, whose other units nobody can guess from their cells. */
const hasUnits = (value: unknown, { description }: ParameterData): boolean =>
  Array.isArray(value) && description.includes(' | ');

function exampleIn(fn: FunctionData, inputs: readonly unknown[], to: Units): Typed {
  const at = fn.parameters.findIndex(({ name }) => name === 'units');
  const from: Units = at >= 0 && inputs[at] === 'SI' ? 'SI' : 'US';
  const values = fn.parameters.map((parameter, i): unknown => {
    const value = inputs[i] ?? null;
    if (i === at) return to === 'SI' ? 'SI' : null;
    if (from === to) return value;
    const other = inOther(value, parameter, from, to);
    return other === undefined && !hasUnits(value, parameter) ? value : other;
  });
  const all = values.map((value) =>
    value !== undefined && canBeTyped([value]) ? typed(value, '') : null,
  );
  while (all.at(-1) === '') all.pop();
  return all;
}

export const typedExamples = (data: HelpData): Record<string, Record<Units, Typed>> =>
  Object.fromEntries(
    data.functions.map((fn) => {
      const inputs = exampleOf(data, fn)?.inputs ?? [];
      return [fn.id, { US: exampleIn(fn, inputs, 'US'), SI: exampleIn(fn, inputs, 'SI') }];
    }),
  );
