/** Pictures of the hoses as they are laid, two beside each other on a printed page. */
import { coilDrawing, COIL_WORDS } from '../coil-diagram.js';
import { coilSeries } from '../coil-series.js';
import { cell, type SheetDraft } from '../model.js';
import type { CoilSeries } from '../series-types.js';
import type { Context } from './context.js';

/** Height of a row of the sheet [px]; a little room is left under each picture. */
const ROW_PIXELS = 20;
const SPARE_ROWS = 1;
/** Size on the sheet over the size of the drawing [-]. */
const SCALE = 0.75;
/** Pictures beside each other, and the columns at which they begin. */
const COLUMNS = [0, 3] as const;
/** Rows of pictures on a printed page. */
const ROWS_A_PAGE = 2;
/** More sizes than these nobody lays in a season: those with most trees are drawn. */
const MOST = 12;

function shownOf(coils: readonly CoilSeries[]): CoilSeries[] {
  const kept = new Set([...coils].sort((a, b) => b.facts.trees - a.facts.trees).slice(0, MOST));
  return coils.filter((coil) => kept.has(coil));
}

/** Draws every hose size in use from the next row on; nothing where no tree gets a hose. */
export function coilPictures(ctx: Context, draft: SheetDraft): void {
  const coils = coilSeries(ctx);
  if (coils.length === 0) return;
  const shown = shownOf(coils);
  draft.text([
    cell('Soaker hoses as they are laid', 'heading'),
    cell('Seen from above and to scale, each round the middle tree of those that get it. The coil begins half a spacing from the bark.', 'note'),
    ...(shown.length < coils.length
      ? [cell(`▲ ${shown.length} of ${coils.length} sizes are drawn, those with most trees.`, 'look')]
      : []),
  ]); // prettier-ignore
  for (let first = 0; first < shown.length; first += COLUMNS.length) {
    const pair = shown.slice(first, first + COLUMNS.length);
    let highest = 0;
    pair.forEach(({ facts, alt }, i) => {
      const drawing = coilDrawing(facts, COIL_WORDS.en);
      const height = Math.round(drawing.height * SCALE);
      highest = Math.max(highest, height);
      draft.picture({
        name: `Coil ${first + i + 1}`,
        svg: drawing.svg,
        width: Math.round(drawing.width * SCALE),
        height,
        at: { row: draft.row, column: COLUMNS[i]! },
        alt,
      });
    });
    draft.skip(Math.ceil(highest / ROW_PIXELS) + SPARE_ROWS);
    const rowsDone = first / COLUMNS.length + 1;
    if (rowsDone % ROWS_A_PAGE === 0 || first + COLUMNS.length >= shown.length)
      draft.breakAfter(draft.row - 1);
  }
}
