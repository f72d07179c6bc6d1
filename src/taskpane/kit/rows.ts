/** The kit as it stands in the session, also while a change is still being read. */
import type { Cell } from '../../tables/cells.js';
import { splitHeader, text } from '../../tables/cells.js';
import { marksOf, withMarks } from '../../tables/kit-example.js';
import { devicesOf, headerAt, unitIn, type KitKey, type KitRow } from '../kit-table.js';
import type { Session } from '../session.js';
import { nameAfter, type Described } from './device-names.js';
import { columnOf, SIZE_OF, unitShown } from './kit-cells.js';

/** Numbers of a row that are the example's still: as its marks say, else as was read. */
export const inventedIn = (session: Session, rows: readonly Cell[][], { at, cells }: KitRow): readonly KitKey[] =>
  marksOf(rows, at) ?? session.setup?.kit.invented.find(({ name }) => name === text(cells.name))?.keys ?? []; // prettier-ignore

/** The table with numbers of a row made a person's own; any other row, and one without such numbers, stays as it is. */
export function withOwn(session: Session, rows: Cell[][], row: KitRow, own: readonly KitKey[]): Cell[][] {
  const before = inventedIn(session, rows, row);
  const left = before.filter((key) => !own.includes(key));
  return left.length === before.length ? rows : withMarks(rows, headerAt(rows), row.at, left);
} // prettier-ignore

/** The table of a person's own, else the example's. */
export const kitTable = ({ draft, setup }: Pick<Session, 'draft' | 'setup'>): Cell[][] =>
  draft.kit ?? setup?.kit.rows ?? [];

/** A row in words of its numbers. */
export function described(rows: readonly Cell[][], { family, cells }: KitRow, session: Pick<Session, 'draft'>): Described {
  const size = family && columnOf(SIZE_OF[family]);
  return { family, cells, unit: size ? unitIn(rows, size, session.draft.units) : '' };
} // prettier-ignore

/**
 * The name of a row after its cells were changed, see `nameAfter`.
 *
 * @param before - the row as it was, `after` as it is; the other rows are those of `rows`
 */
export function renamed(
  rows: readonly Cell[][],
  before: KitRow,
  after: KitRow,
  session: Pick<Session, 'draft' | 'language'>,
): string {
  const { units } = session.draft;
  const others = devicesOf(rows)
    .filter(({ at }) => at !== before.at)
    .map(({ cells }) => text(cells.name));
  const [old, now] = [described(rows, before, session), described(rows, after, session)];
  const wanted = after.family ? unitShown(rows, columnOf(SIZE_OF[after.family]), units) : '';
  return nameAfter(before.cells.name, old, now, wanted, session.language, others);
}

/** Sentences about a row, by their column where they name one; `at` 0-based as in the table. */
export function problemsOf(problems: readonly string[], at: number): string[] {
  const start = `Kit sheet, row ${at + 1}:`;
  return problems.filter((said) => said.startsWith(start));
}

/** Whether a sentence is about a column: "Kit sheet, row 2: Volume is …". */
export const isAbout = (said: string, column: string): boolean =>
  said.includes(`: ${splitHeader(column).name} is `);
