/**
 * Which numbers of a kit are the example's still: a column beside the kit's own holds them a row, so that they go with the
 * row. A blank cell says nothing; `none` that all numbers are a person's own.
 */
import { isBlank, plainLabel, splitHeader, text, type Cell } from './cells.js';
import { EXAMPLE_COLUMN, KIT_COLUMNS, type KitColumn } from './kit.js';

type KitKey = KitColumn['key'];
const NONE = 'none';

const isMarks = (header: Cell | undefined): boolean => plainLabel(text(header)) === plainLabel(EXAMPLE_COLUMN); // prettier-ignore
const isName = (header: Cell | undefined): boolean =>
  ['device', 'name'].includes(plainLabel(splitHeader(text(header)).name));

/** The header row and the column with the marks, where the table has one. */
function placeOf(rows: readonly (readonly Cell[])[]): { top: number; column: number } | undefined {
  const top = rows.findIndex((row) => row.some(isMarks));
  return top < 0 ? undefined : { top, column: rows[top]!.findIndex(isMarks) };
}

const keysIn = (cell: Cell | undefined): KitKey[] | undefined => {
  if (isBlank(cell)) return undefined;
  const named = text(cell).split(', ');
  return KIT_COLUMNS.flatMap(({ key }) => (named.includes(key) ? key : []));
};

/** Marks of a row; undefined where nothing is said. @param at - 0-based */
export function marksOf(rows: readonly (readonly Cell[])[], at: number): KitKey[] | undefined {
  const place = placeOf(rows);
  return place && at > place.top ? keysIn(rows[at]?.[place.column]) : undefined;
}

/** The same by the name of the device. */
export function marksByName(rows: readonly (readonly Cell[])[]): Map<string, KitKey[]> {
  const place = placeOf(rows);
  const found = new Map<string, KitKey[]>();
  const name = place ? rows[place.top]!.findIndex(isName) : -1;
  if (!place || name < 0) return found;
  for (const row of rows.slice(place.top + 1)) {
    const keys = keysIn(row[place.column]);
    if (keys && !found.has(text(row[name]))) found.set(text(row[name]), keys);
  }
  return found;
}

/** The table with a row's marks. @param header - 0-based row of the headers @param keys - those that are the example's */
export function withMarks(
  rows: readonly (readonly Cell[])[],
  header: number,
  at: number,
  keys: readonly KitKey[],
): Cell[][] {
  const made = rows.map((row) => [...row]);
  const top = (made[header] ??= []);
  const known = top.findIndex(isMarks);
  const column = known < 0 ? top.push(EXAMPLE_COLUMN) - 1 : known;
  const row = (made[at] ??= []);
  while (row.length < column) row.push(null);
  row[column] = keys.length === 0 ? NONE : keys.join(', ');
  return made;
}

/** The table without them: they change no plan. */
export function withoutMarks(rows: readonly (readonly Cell[])[]): Cell[][] {
  const place = placeOf(rows);
  return rows.map((row) => row.filter((_, column) => column !== place?.column));
}
