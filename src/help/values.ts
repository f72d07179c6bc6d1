/** Values as a person types them in a formula and reads them in a cell. */
import { isoDate } from '../engine/dates.js';

export const NAMESPACE = 'SOAK';
const LONGEST_ARRAY = 16;
const DIGITS_SHOWN = 6;

/** A value in a formula. A long range cannot be typed: its parameter's name stands for it. */
export function typed(value: unknown, parameter: string): string {
  if (value === null || value === undefined) return '';
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'number') return String(value);
  if (typeof value === 'string') return `"${value.replaceAll('"', '""')}"`;
  const rows = (value as unknown[]).map((row) => (Array.isArray(row) ? (row as unknown[]) : [row]));
  const isShort = rows.flat().length <= LONGEST_ARRAY && rows.every((row) => row.every(isTypable));
  if (!isShort) return parameter;
  return `{${rows.map((row) => row.map((cell) => typed(cell, parameter)).join(',')).join(';')}}`;
}

/** Array constants hold numbers and texts; a blank among them cannot be written. */
const isTypable = (cell: unknown): boolean =>
  typeof cell === 'number' ||
  typeof cell === 'boolean' ||
  (typeof cell === 'string' && cell !== '');

/** True if the formula can be typed as it stands, without a table on a sheet. */
export const canBeTyped = (inputs: readonly unknown[]): boolean =>
  inputs.every((value) => typed(value, '\0') !== '\0');

/** The formula that a cell holds: =SOAK.BAG_HOURS(15,4,0.055,24). */
export function formulaOf(
  id: string,
  inputs: readonly unknown[],
  parameters: readonly { name: string }[],
): string {
  const args = inputs.map((value, i) => typed(value, parameters[i]?.name ?? ''));
  while (args.at(-1) === '') args.pop();
  return `=${NAMESPACE}.${id}(${args.join(', ')})`;
}

/** A number with few enough digits to read. */
export function shortNumber(value: number): string {
  if (Number.isInteger(value)) return String(value);
  return String(Number(value.toPrecision(DIGITS_SHOWN)));
}

/** A result in words of a cell; a date's serial number with the date it shows as. */
export function shown(value: unknown, isDate = false): string {
  if (typeof value === 'number')
    return isDate
      ? `${shortNumber(value)}, shown as ${isoDate(Math.floor(value))}`
      : shortNumber(value);
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'string') return value === '' ? '(blank)' : value;
  if (Array.isArray(value)) {
    const rows = (value.every(Array.isArray) ? value : [value]) as unknown[][];
    return rows.map((row) => row.map((cell) => shown(cell)).join(' | ')).join('\n');
  }
  if (value !== null && typeof value === 'object')
    return Object.entries(value)
      .map(([part, each]) => `${part} ${shown(each)}`)
      .join(', ');
  return '(blank)';
}
