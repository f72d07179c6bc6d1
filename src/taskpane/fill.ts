/** Puts a value into blank cells of the list, marked as assumed, and takes it out again. */
import type { FillAsk, Lack } from '../workers/fill-types.js';
import { freeColumn } from './live-columns.js';
import type { Session } from './session.js';
import { fillWords } from './words/fill.js';

export interface FillWish {
  lack: Lack | undefined;
  rows: readonly number[] | undefined;
  /** undefined: a column is added */
  column: number | undefined;
  header: string;
  /** "" for what the list knows of each species */
  value: string;
}

/** @returns whether the cells were written; why not is said */
export async function fillIn(session: Session, wish: FillWish): Promise<boolean> {
  const { host, room, trees, draft, sheet, range, formats: f } = session;
  const words = fillWords(session.language);
  const { lack, rows, column, value } = wish;
  const marked = session.reading?.columns.some(({ meaning }) => meaning === 'assumed') ?? false;
  if (range !== '' && (!marked || column === undefined)) {
    session.say(words.noRoom(range), 'trouble');
    return false;
  }
  const ask: FillAsk = {
    ...{ trees, draft, column, value, names: words.names },
    ...(lack && { lack }),
    ...(rows && { rows }),
    free: await freeColumn(session),
  };
  const { edits, rows: filled } = await room.fill(ask);
  const written = await host.editCells(sheet, edits);
  await session.refresh();
  if (written === 0) session.say(words.changed, 'trouble');
  else session.say(words.done(f, filled, wish.header), 'fine');
  return written > 0;
}

/** Takes every assumed value out of the list again. */
export async function takeBack(session: Session): Promise<void> {
  const { host, room, trees, draft, sheet, formats: f } = session;
  const { edits, rows } = await room.takeBack({ trees, draft });
  await host.editCells(sheet, edits);
  await session.refresh();
  session.say(fillWords(session.language).taken(f, rows), 'fine');
}
