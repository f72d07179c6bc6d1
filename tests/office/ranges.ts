/** Ranges as the stand-in keeps them, and checks that an argument is one. */
import { addressOf, areaOf, COLUMNS, ROWS, type Area } from './areas.js';
import type { RangeState, SheetState } from './book.js';
import { invalid } from './errors.js';
import type { Check } from './members.js';
import { kindOf } from './proxies.js';

export const whole = (sheet: SheetState): RangeState => ({
  sheet,
  areas: [{ top: 0, left: 0, rows: ROWS, columns: COLUMNS }],
});

export const first = (range: RangeState): Area => range.areas[0]!;

/** An address, with or without a sheet before it. */
export function rangeOf(sheet: SheetState, address: string): RangeState {
  const at = address.lastIndexOf('!');
  const name = address.slice(0, Math.max(at, 0)).replace(/^'|'$/g, '').replaceAll("''", "'");
  const own = at < 0 ? sheet : sheet.book.sheet(name);
  if (!own) throw invalid(`There is no sheet "${name}"`);
  return { sheet: own, areas: [areaOf(address.slice(at + 1))] };
}

const quoted = (name: string): string =>
  /^[A-Za-z_]\w*$/.test(name) ? name : `'${name.replaceAll("'", "''")}'`;
export const fullAddress = ({ sheet, areas }: RangeState): string =>
  areas.map((a) => `${quoted(sheet.name)}!${addressOf(a)}`).join(',');

export const isRange: Check = (value) =>
  kindOf(value) === 'Range' ? undefined : 'a Range is expected';
export const isRangeOrText: Check = (value) =>
  typeof value === 'string' ? undefined : isRange(value);

export const usedOf = (sheet: SheetState): RangeState | undefined => {
  const used = sheet.grid.used();
  return used && { sheet, areas: [used] };
};
