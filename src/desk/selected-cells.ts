/** The cells that are selected in the grid, as the panel asks for them. */
import type { FWorksheet } from '@univerjs/presets/preset-sheets-core';
import { Problem } from '../engine/problems.js';
import { NOT_ONE_BLOCK, type SelectedCells } from '../taskpane/host.js';
import { letter } from '../workbook/model.js';

/**
 * One cell is "B3", a block "A1:H60", whole columns "A:H", whole rows "3:7", as the spreadsheet program writes them.
 *
 * @throws Problem where nothing is selected, or more than one block
 */
export function selectedCells(sheet: FWorksheet): SelectedCells {
  const [only, another] = sheet.getSelection()?.getActiveRangeList() ?? [];
  if (only === undefined)
    throw new Problem(
      'no cells are selected; select the headers and the trees below them in the sheet',
    );
  if (another !== undefined) throw new Problem(NOT_ONE_BLOCK);
  const [top, left, bottom, right] = [only.getRow(), only.getColumn(), only.getLastRow(), only.getLastColumn()]; // prettier-ignore
  const allRows = top === 0 && bottom === sheet.getMaxRows() - 1;
  const allColumns = left === 0 && right === sheet.getMaxColumns() - 1;
  const corner = (row: number, column: number): string => `${letter(column)}${row + 1}`;
  const [from, to] = allRows
    ? [letter(left), letter(right)]
    : allColumns
      ? [String(top + 1), String(bottom + 1)]
      : [corner(top, left), corner(bottom, right)];
  const one = top === bottom && left === right;
  return { sheet: sheet.getSheetName(), range: one ? from : `${from}:${to}` };
}
