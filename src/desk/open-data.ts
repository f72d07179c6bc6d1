/** Sheets the desk opens, as the grid's data of a workbook. */
import type { ICellData, IWorkbookData } from '@univerjs/presets';

const HEADER_PX = 64;
const MIDDLE = 2;

/** One sheet to show: cells as the grid wants them, and what it looks like. */
export interface DeskSheet {
  name: string;
  cells: Record<number, Record<number, ICellData>>;
  rows: number;
  columns: number;
  widths: number[];
  frozenRows: number;
  frozenColumns: number;
  /** 0-based row that is taller, for headers on two lines; -1 for none */
  headerRow: number;
  /** 0-based column to bring into view first */
  firstColumn: number;
}

export function workbookData(
  id: string,
  name: string,
  sheets: readonly DeskSheet[],
): Partial<IWorkbookData> {
  const ids = sheets.map((_, i) => `sheet-${i + 1}`);
  return {
    id,
    name,
    sheetOrder: ids,
    sheets: Object.fromEntries(
      sheets.map((sheet, i) => [
        ids[i],
        {
          id: ids[i] ?? '',
          name: sheet.name,
          cellData: sheet.cells,
          rowCount: Math.max(sheet.rows + 50, 100),
          columnCount: Math.max(sheet.columns + 6, 20),
          columnData: Object.fromEntries(sheet.widths.map((w, column) => [column, { w }])),
          defaultRowHeight: 24,
          defaultStyle: { vt: MIDDLE },
          rowData: sheet.headerRow < 0 ? {} : { [sheet.headerRow]: { h: HEADER_PX } },
          freeze: {
            startRow: sheet.frozenRows,
            startColumn: sheet.frozenColumns,
            xSplit: sheet.frozenColumns,
            ySplit: sheet.frozenRows,
          },
        },
      ]),
    ),
  };
}
