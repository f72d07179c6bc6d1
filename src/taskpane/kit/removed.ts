/** Devices that were removed and can be put back until the season is planned again: one list for a session. */
import type { Cell } from '../../tables/cells.js';
import { headerAt, withRow } from '../kit-table.js';
import type { Session } from '../session.js';

export interface Removed {
  name: string;
  /** 0-based row of the table it stood on, and the row itself */
  at: number;
  row: Cell[];
  /** headers of the table it is from */
  header: Cell[];
}

/** What decides that a list is of the past: another workbook, or another plan than the one there was. */
interface Kept {
  opened: number;
  plan: Session['plan'];
  list: Removed[];
}

const lists = new WeakMap<Session, Kept>();

function keptOf(session: Session): Kept {
  const known = lists.get(session);
  const past =
    known === undefined ||
    known.opened !== session.opened ||
    (session.plan !== undefined && session.plan !== known.plan);
  if (!past) return known;
  const fresh: Kept = { opened: session.opened, plan: session.plan, list: [] };
  lists.set(session, fresh);
  return fresh;
}

/** What can be put back, the last one removed last. Rows of a table that has gone since are none of it. */
export function removedOf(session: Session, rows: readonly Cell[][]): Removed[] {
  const now = rows[headerAt(rows)] ?? [];
  return keptOf(session).list.filter(({ header }) => header.every((h, i) => now[i] === h));
}

/** Remembers a row before it is taken out. */
export function remember(session: Session, rows: readonly Cell[][], at: number, name: string): void {
  const header = [...(rows[headerAt(rows)] ?? [])];
  keptOf(session).list.push({ name, at, row: [...(rows[at] ?? [])], header });
} // prettier-ignore

/** The table with a removed row in it again; it is remembered no longer. */
export function putBack(session: Session, rows: readonly Cell[][], removed: Removed): Cell[][] {
  const kept = keptOf(session);
  kept.list = kept.list.filter((other) => other !== removed);
  return withRow(rows, Math.min(removed.at, rows.length), removed.row);
}

/** Nothing is left to put back. */
export const forgetRemoved = (session: Session): void => void lists.delete(session);
