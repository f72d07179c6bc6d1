/**
 * Cells of the grid as a file may hold them: with the spreadsheet's own formulas or with values, never with our own
 * formulas, so that the file shows its numbers wherever it is opened.
 */
import type { ICellData } from '@univerjs/presets';
import type { FWorksheet } from '@univerjs/presets/preset-sheets-core';
import { FORMATS, looksLikeFormula } from '../workbook/model.js';
import type { Dress, LaidCell } from '../workbook/writers/laid-out.js';
import { eachCell, formulaIn, isOwnFormula, shownIn, type Spill } from './open-book.js';
import { dresser } from './grid-looks.js';

/** What became of formulas that a file may not hold. */
export interface Replaced {
  /** cells whose SOAK formula became the spreadsheet's own */
  twins: number;
  /** cells whose SOAK formula became the number it showed */
  values: number;
  /** formulas whose results filled several cells, kept as their results */
  spills: number;
}

/** What a model gave for a place of the sheet, if it still stands there. */
export type WrittenCell = (row: number, column: number) => LaidCell | undefined;

export interface SavedCells {
  rows: number;
  columns: number;
  cells: (row: number, column: number) => LaidCell | undefined;
}

function fileFormula(
  text: string,
  written: LaidCell | undefined,
  count: Replaced,
): string | undefined {
  if (text === '') return undefined;
  const bare = text.replace(/^=/, '');
  if (!isOwnFormula(bare)) return bare;
  if (written?.live === bare && written.formula !== undefined) {
    count.twins += 1;
    return written.formula;
  }
  count.values += 1;
  return undefined;
}

const worthKeeping = (cell: ICellData, dress: Dress): boolean =>
  shownIn(cell) !== null ||
  Boolean(cell.f ?? cell.si) ||
  dress.look.ground !== undefined ||
  dress.look.border !== undefined;

/**
 * All cells of a sheet as they are now.
 *
 * @param written - what the model gave; its dress and its twins are used where it has a cell
 * @param spills - formulas that fill more than their own cell
 * @param count - to which what was replaced is added
 */
export function savedCells(
  sheet: FWorksheet,
  written: WrittenCell,
  spills: readonly Spill[],
  count: Replaced,
): SavedCells {
  const lines = new Map<number, Map<number, LaidCell>>();
  let [rows, columns] = [0, 0];
  const put = (row: number, column: number, cell: LaidCell): void => {
    const line = lines.get(row) ?? new Map<number, LaidCell>();
    lines.set(row, line.set(column, cell));
    rows = Math.max(rows, row + 1);
    columns = Math.max(columns, column + 1);
  };
  const styles = sheet.getWorkbook().getStyles();
  const dress = dresser();
  const spilling = new Set(spills.map(({ row, column }) => `${row},${column}`));
  eachCell(sheet, (row, column, cell) => {
    const model = written(row, column);
    const own = model ?? dress(styles.getStyleByCell(cell));
    if (!model && !worthKeeping(cell, own)) return;
    const spilled = spilling.has(`${row},${column}`);
    const text = spilled ? '' : formulaIn(sheet, row, column);
    const formula = fileFormula(text, model, count);
    const { look, align, indent, wrap } = own;
    const value = shownIn(cell);
    // text that a program could take for a formula stays text
    const isText = formula === undefined && typeof value === 'string' && looksLikeFormula(value);
    const format = isText ? FORMATS.text : own.format;
    put(row, column, {
      value,
      ...(formula !== undefined && { formula }),
      ...(model?.jump !== undefined && { jump: model.jump }),
      look,
      format,
      ...(align && { align }),
      indent,
      wrap,
    });
  });
  for (const { cells } of spills) {
    count.spills += 1;
    for (const [place, cell] of cells) {
      const [row = 0, column = 0] = place.split(',').map(Number);
      put(row, column, { ...dress(null), value: shownIn(cell) });
    }
  }
  return { rows, columns, cells: (row, column) => lines.get(row)?.get(column) };
}

/** What was replaced, in a sentence for the person who saves; "" when nothing was. */
export function replacedSentence({ twins, values, spills }: Replaced): string {
  const cells = (n: number): string => `${n} ${n === 1 ? 'cell' : 'cells'}`;
  const parts = [
    twins > 0 && `${cells(twins)} with SOAK functions hold the spreadsheet's own formulas`,
    values > 0 && `${cells(values)} with SOAK functions hold the values they showed`,
    spills > 0 && `${cells(spills)} whose results fill other cells hold those results`,
  ].filter((part) => part !== false);
  return parts.length === 0
    ? ''
    : `In the file ${parts.join('; ')}: it shows its numbers where the functions are not installed.`;
}
