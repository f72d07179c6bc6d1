/** Takes away what a build has written into the open workbook: that and nothing else. */
import { Problem } from '../../engine/problems.js';
import { INK } from './ink.js';
import { sheetReference } from '../model.js';

/** Colour of the tabs of our sheets: a sheet of a wanted name without it is somebody else's. */
export const TAB = `#${INK.water}`.toUpperCase();

export interface Written {
  /** the program's own keys of sheets */
  keys: readonly string[];
  /** names of sheets that may have been made before the program broke off, so that nobody knows their keys */
  sheets: readonly string[];
  /** defined names */
  names: readonly string[];
}

/**
 * Deletes sheets by their keys, or by name where they have our tab; names only where they point into those sheets or
 * nowhere any more. What is gone already is no matter.
 *
 * @throws Problem when no other sheet would be left
 */
export async function takeAway(written: Written): Promise<void> {
  const keys = new Set(written.keys);
  const wanted = new Set(written.sheets.map((name) => name.toLowerCase()));
  const defined = new Set(written.names.map((name) => name.toLowerCase()));
  await Excel.run(async (context) => {
    const { worksheets, names } = context.workbook;
    worksheets.load('items/id, items/name, items/tabColor, items/visibility');
    names.load('items/name, items/formula');
    await context.sync();
    const ours = (s: Excel.Worksheet): boolean =>
      keys.has(s.id) || (wanted.has(s.name.toLowerCase()) && s.tabColor.toUpperCase() === TAB);
    const doomed = worksheets.items.filter(ours);
    if (!worksheets.items.some((s) => s.visibility === 'Visible' && !ours(s)))
      throw new Problem('A workbook needs one sheet that can be seen. Add an empty sheet, then take these away.'); // prettier-ignore
    const places = [...doomed.map((s) => `${sheetReference(s.name)}!`), '#REF!'];
    for (const name of names.items) {
      const formula = String(name.formula).replace(/'([A-Za-z_]\w*)'!/g, '$1!');
      if (defined.has(name.name.toLowerCase()) && places.some((at) => formula.includes(at)))
        name.delete();
    }
    for (const sheet of doomed) sheet.delete();
    await context.sync();
  });
}
