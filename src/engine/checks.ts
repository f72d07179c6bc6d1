/** Guards for engine inputs: every one throws a Problem that names the quantity, what it got and what it needs. */
import { Problem } from './problems.js';

/** A number as a person would write it: no more than six significant figures, no exponent for everyday sizes. */
export const plain = (value: number): string => String(Number(value.toPrecision(6)));

/**
 * A finite number within limits, both ends allowed.
 *
 * @param name - the quantity, as the person knows it
 * @param unit - said after the limits, "" for a pure number
 * @returns the value, unchanged
 * @throws Problem if the value is not finite or lies outside
 */
export function within(name: string, value: number, low: number, high: number, unit = ''): number {
  if (!(value >= low && value <= high)) {
    const of = unit === '' ? '' : ` ${unit}`;
    throw new Problem(
      `${name} must be from ${plain(low)} to ${plain(high)}${of}; got ${Number.isFinite(value) ? plain(value) : String(value)}`,
    );
  }
  return value;
}

/**
 * A finite number above zero.
 *
 * @returns the value, unchanged
 * @throws Problem if the value is zero, negative or not finite
 */
export function positive(name: string, value: number, unit = ''): number {
  if (!(value > 0 && value < Infinity)) {
    const of = unit === '' ? '' : ` ${unit}`;
    throw new Problem(`${name} must be above 0${of}; got ${String(value)}`);
  }
  return value;
}
