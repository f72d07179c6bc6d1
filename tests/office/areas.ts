/** Addresses and the areas they stand for. */
import { invalid } from './errors.js';

export const ROWS = 1_048_576;
export const COLUMNS = 16_384;

export interface Area {
  top: number;
  left: number;
  rows: number;
  columns: number;
}

export function letters(column: number): string {
  let name = '';
  for (let n = column + 1; n > 0; n = Math.floor((n - 1) / 26))
    name = String.fromCharCode(65 + ((n - 1) % 26)) + name;
  return name;
}

const columnOf = (name: string): number =>
  [...name.toUpperCase()].reduce((n, c) => n * 26 + c.charCodeAt(0) - 64, 0) - 1;

const CORNER = /^\$?([A-Za-z]{1,3})?\$?([1-9]\d{0,6})?$/;

/** `B2`, `$B$2:C9`, `A:C`, `3:7`; without a sheet. */
export function areaOf(address: string): Area {
  const [from = '', to = from, ...more] = address.split(':');
  const a = CORNER.exec(from);
  const b = CORNER.exec(to);
  const bad = (): never => {
    throw invalid(`The address "${address}" is not valid`);
  };
  if (!a || !b || more.length > 0 || from === '') return bad();
  if (!a[1] !== !b[1] || !a[2] !== !b[2]) return bad();
  if ((!a[1] || !a[2]) && !address.includes(':')) return bad();
  const left = a[1] ? columnOf(a[1]) : 0;
  const right = b[1] ? columnOf(b[1]) : COLUMNS - 1;
  const top = a[2] ? Number(a[2]) - 1 : 0;
  const bottom = b[2] ? Number(b[2]) - 1 : ROWS - 1;
  if (right >= COLUMNS || bottom >= ROWS) return bad();
  return {
    top: Math.min(top, bottom),
    left: Math.min(left, right),
    rows: Math.abs(bottom - top) + 1,
    columns: Math.abs(right - left) + 1,
  };
}

/** The area as the host writes it, without its sheet. */
export function addressOf({ top, left, rows, columns }: Area): string {
  const from = `${letters(left)}${top + 1}`;
  if (rows === 1 && columns === 1) return from;
  if (rows === ROWS) return `${letters(left)}:${letters(left + columns - 1)}`;
  if (columns === COLUMNS) return `${top + 1}:${top + rows}`;
  return `${from}:${letters(left + columns - 1)}${top + rows}`;
}

export const holds = (a: Area, row: number, column: number): boolean =>
  row >= a.top && row < a.top + a.rows && column >= a.left && column < a.left + a.columns;

export const overlap = (a: Area, b: Area): boolean =>
  a.top < b.top + b.rows &&
  b.top < a.top + a.rows &&
  a.left < b.left + b.columns &&
  b.left < a.left + a.columns;
