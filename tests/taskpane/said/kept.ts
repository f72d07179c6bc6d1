/** Copies of workbooks in the browser that cannot be opened again. */
import {
  bookFrom,
  cellPieces,
  headOf,
  partKey,
  type BookFrame,
} from '../../../src/desk/kept-form.js';
import { DeskKeeper } from '../../../src/desk/keeper.js';
import { MOST_FILLED } from '../../../src/workbook/readers/limits.js';
import { refusal } from './room.js';

const sheet = (key: string, name: string) => ({ key, name, frame: {} });
const frame: BookFrame = { title: 'x', front: 'a', styles: {}, names: [], settings: [], sheets: [sheet('a', 'Street')] }; // prettier-ignore
const opening = (of: BookFrame, ...texts: (string | undefined)[]): Promise<string> => {
  const head = headOf({ stamp: 's', name: 'street.xlsx', at: '2026-11-26T09:40', unsaved: false, frame: of, pieces: { a: texts.length } }); // prettier-ignore
  const parts = new Map(texts.map((text, i) => [partKey('a', i), text]));
  return refusal(async () => bookFrom(head, parts));
};

/** A row on a sheet with more cells than are kept. */
function tooMany(): string[] {
  const line = Object.fromEntries(Array.from({ length: 10_000 }, (_, c) => [c, {}]));
  const rows = (2 * MOST_FILLED) / 10_000 + 1;
  return [...cellPieces(Object.fromEntries(Array.from({ length: rows }, (_, r) => [r, line])))];
}

export async function keptSentences(): Promise<string[]> {
  const keeper = new DeskKeeper({
    store: {
      head: async () => undefined,
      all: async () => undefined,
      write: async () => true,
      clear: async () => undefined,
    },
    source: () => undefined,
    takeUp: async () => undefined,
    pause: async () => undefined,
    now: () => new Date(0),
  });
  return [
    await opening(frame, undefined),
    await opening(frame, '{"0":{'),
    await opening({ ...frame, names: {} as unknown as BookFrame['names'] }),
    await opening({ ...frame, sheets: [] }),
    await opening({ ...frame, sheets: [sheet('a', 'Street'), sheet('b', 'Street')] }),
    await opening(frame, ...tooMany()),
    await refusal(() => keeper.openAgain()),
  ];
}
