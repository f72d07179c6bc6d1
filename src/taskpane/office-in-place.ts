/**
 * Sheets of the spreadsheet program written in the place of older ones. The old ones stay under other names until the new
 * ones are in: their formulas follow a name, so that they are whole again when it is given back.
 */
import { Problem } from '../engine/problems.js';
import { LONGEST_SHEET, nameGiver } from '../workbook/writers/rename.js';
import type { Receipt } from './host.js';
import { ask } from './office-cells.js';

interface Aside {
  key: string;
  /** as it was called */
  name: string;
}

/** Room for a number behind a name that is taken, too. */
const OLD = ' (old)';
const LONGEST_OLD = LONGEST_SHEET - OLD.length;

/** Gives the sheets of a receipt names nobody wants. */
const setAside = ({ sheets }: Receipt): Promise<Aside[]> =>
  ask('making room for the new sheets', async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load('items/id, items/name');
    await context.sync();
    const keys = new Set(sheets.map(({ key }) => key));
    const give = nameGiver(
      worksheets.items.map(({ name }) => name),
      LONGEST_SHEET,
      ' ',
    );
    const own = worksheets.items.filter(({ id }) => keys.has(id));
    const aside = own.map(({ id: key, name }) => ({ key, name }));
    for (const sheet of own)
      sheet.name = give(`${sheet.name.slice(0, LONGEST_OLD).trimEnd()}${OLD}`);
    await context.sync();
    return aside;
  });

/** Gives them their names back. */
const putBack = (aside: readonly Aside[]): Promise<void> =>
  ask('giving the sheets their names back', async (context) => {
    for (const { key, name } of aside) context.workbook.worksheets.getItem(key).name = name;
    await context.sync();
  });

/** Why it broke off, when the old sheets have their names again. */
async function undone(cause: unknown, aside: readonly Aside[]): Promise<unknown> {
  try {
    await putBack(aside);
    return cause;
  } catch (error) {
    const why = cause instanceof Error ? cause.message : String(cause);
    const back = error instanceof Error ? error.message : String(error);
    return new Problem(`${why} The sheets that were to be replaced are whole, but keep names that end in “${OLD.trim()}”: ${back}`); // prettier-ignore
  }
}

/**
 * @param write - writes the new sheets; takes away what it wrote when it breaks off
 * @param remove - takes sheets away
 * @throws what went wrong; the old sheets are then as they were
 */
export async function inPlace(
  old: Receipt,
  write: () => Promise<Receipt>,
  remove: (receipt: Receipt) => Promise<void>,
): Promise<Receipt> {
  const aside = await setAside(old);
  let written: Receipt | undefined;
  try {
    written = await write();
    await remove(old);
    return written;
  } catch (error) {
    // what cannot be taken away keeps its names, and giving them back below says so
    if (written) await remove(written).catch(() => undefined);
    throw await undone(error, aside);
  }
}
