/** Trees that are left out because there is too little for all: a column "Served" of the list says "no" beside their rows. */
import { isBlank, yesNo, type Cell } from '../tables/cells.js';
import type { CellEdit } from '../workers/fill-types.js';
import { freeColumn } from './live-columns.js';
import type { Session } from './session.js';
import { enoughWords } from './words/enough.js';

/** The column of the list that says so, and the 0-based rows it leaves out. */
export function leftOut({ reading, trees }: Session): { column: number; rows: number[] } | undefined {
  const column = reading?.columns.find(({ meaning }) => meaning === 'served')?.column;
  if (column === undefined) return undefined;
  const top = reading?.headerRow ?? 0;
  const rows = trees.cells.flatMap((row, r) => (r > top && yesNo(row[column]) === false ? [r] : []));
  return { column, rows };
} // prettier-ignore

const cellAt = ({ trees }: Session, row: number, column: number): Cell =>
  trees.cells[row]?.[column] ?? null;

/**
 * Marks rows as left out, in the column there is or in one that is added.
 *
 * @param rows - 1-based, as the sheet counts them
 * @returns whether they are marked; why not is said
 */
export async function leaveOut(session: Session, rows: readonly number[]): Promise<boolean> {
  const { host, sheet, range, reading, formats: f } = session;
  const words = enoughWords(session.language).leftOut;
  const there = leftOut(session);
  if (!there && range !== '') {
    session.say(words.noRoom(range), 'trouble');
    return false;
  }
  const column = there?.column ?? (await freeColumn(session));
  const head: CellEdit = { row: reading?.headerRow ?? 0, column, was: null, value: words.header, head: true };
  const marks = rows.map((row): CellEdit => ({ row: row - 1, column, was: cellAt(session, row - 1, column), value: 'no' }));
  const edits = there ? marks : [head, ...marks];
  const written = await host.editCells(sheet, edits);
  await session.refresh();
  if (written === edits.length) return true;
  session.say(words.changed(f, edits.length - written), 'trouble');
  return false;
} // prettier-ignore

/** Clears the marks: all trees are planned for again. The column stays. */
export async function serveAll(session: Session): Promise<void> {
  const { host, sheet, formats: f } = session;
  const there = leftOut(session);
  if (!there) return;
  const { column, rows } = there;
  const edits = rows
    .map((row): CellEdit => ({ row, column, was: cellAt(session, row, column), value: null }))
    .filter(({ was }) => !isBlank(was));
  const written = await host.editCells(sheet, edits);
  await session.refresh();
  session.say(enoughWords(session.language).leftOut.served(f, written), 'fine');
}
