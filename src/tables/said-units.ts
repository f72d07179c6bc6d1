/** Measures in sentences about tables: in the units of the person who reads them, in both where nobody has chosen yet. */
import type { Units } from '../engine/units.js';
import { convert, unitWord } from './cells.js';

/** The units one quantity is written in; "" or "share": none. */
export interface UnitPair {
  unitUS: string;
  unitSI: string;
}

const DIGITS = 3;
/** Below 1 two digits say enough: 0.2 in. */
const DIGITS_BELOW_ONE = 2;
const digitsOf = (value: number): number => (Math.abs(value) < 1 ? DIGITS_BELOW_ONE : DIGITS);

/** Units a measure may be written in, by the unit inside, in the spelling that is shown. */
export const MEASURE_UNITS: Readonly<Record<'mm' | 'm' | 'L/min', readonly string[]>> = {
  mm: ['in', 'cm', 'mm', 'ft', 'm'],
  m: ['ft', 'm', 'in', 'cm'],
  'L/min': ['gpm', 'L/min', 'gph', 'L/h'],
};

/** The unit in the spelling of a list, or as it is: "inches" is `in`. */
export const spelled = (unit: string, units: readonly string[]): string =>
  units.find((u) => Math.abs((convert(1, u, unit) ?? 0) - 1) < 1e-12) ?? unit;

/** Rounded so that a limit that is said is also accepted. */
function inward(value: number, up: boolean): number {
  if (value === 0) return 0;
  const step = 10 ** (Math.floor(Math.log10(Math.abs(value))) + 1 - digitsOf(value));
  const slack = 1e-9;
  const steps = up ? Math.ceil(value / step - slack) : Math.floor(value / step + slack);
  return Number((steps * step).toPrecision(DIGITS));
}

const named = (unit: string): string => (unit === '' || unit === 'share' ? '' : ` ${unit}`);

/** `0.2 to 196 in`, `0 up per m³`. @param range - lowest and highest in the unit `from`, MAX_VALUE for no end */
export function rangeIn(
  [low, high]: readonly [number, number],
  from: string,
  unit: string,
): string {
  const rounded = (value: number, up: boolean): number =>
    from === unit ? value : inward(convert(value, from, unit) ?? value, up);
  const end = high === Number.MAX_VALUE ? ' up' : ` to ${rounded(high, false)}`;
  return `${rounded(low, true)}${end}${named(unit)}`;
}

/** The units a unit word is of; undefined where it is of neither, or of both. */
export function unitsOf(unit: string, { unitUS, unitSI }: UnitPair): Units | undefined {
  const word = unitWord(unit);
  if (unitUS === unitSI) return undefined;
  return word === unitWord(unitUS) ? 'US' : word === unitWord(unitSI) ? 'SI' : undefined;
}

/** The same range in the units of a person; `0.2 to 196 in or 0.5 to 500 cm` where they are not known. */
export function rangeWords(
  range: readonly [number, number],
  from: string,
  { unitUS, unitSI }: UnitPair,
  units: Units | undefined,
): string {
  if (unitUS === unitSI) return rangeIn(range, from, unitSI);
  if (units !== undefined) return rangeIn(range, from, units === 'US' ? unitUS : unitSI);
  return `${rangeIn(range, from, unitUS)} or ${rangeIn(range, from, unitSI)}`;
}

/** `13.4 in`; `13.4 in (34 cm)` where the units are not known. @param value - in the unit `from` */
export function measureWords(
  value: number,
  from: string,
  { unitUS, unitSI }: UnitPair,
  units: Units | undefined,
): string {
  const one = (unit: string): string => {
    const converted = convert(value, from, unit) ?? value;
    return `${Number(converted.toPrecision(digitsOf(converted)))}${named(unit)}`;
  };
  if (units !== undefined) return one(units === 'US' ? unitUS : unitSI);
  return unitUS === unitSI ? one(unitSI) : `${one(unitUS)} (${one(unitSI)})`;
}
