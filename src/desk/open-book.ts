/** The workbook open in the grid, as the parts of the desk use it: cells as stored, sheets, waiting for results. */
import type { FUniver, ICellData, IRange, Nullable } from '@univerjs/presets';
import type {
  FormulaDataModel,
  FWorkbook,
  FWorksheet,
  IDependencyManagerService,
} from '@univerjs/presets/preset-sheets-core';
import type { Troubles } from './registration.js';

export type Shown = string | number | boolean | null;

/** Cells the result of one formula fills. */
export interface Spill {
  /** 0-based; of the cell with the formula */
  row: number;
  column: number;
  cells: ReadonlyMap<string, ICellData>;
}

export interface OpenBook {
  workbook(): FWorkbook;
  /** runs a command of the grid now */
  run(id: string, params: object): void;
  /** waits until formulas entered after this call are worked out [ms] */
  calculated(patience?: number): Promise<void>;
  stopCalculation(): void;
  /** lets go of what is known of sheets that are about to go, beside the sheets themselves */
  forget(sheetIds: readonly string[]): void;
  /** formulas of a sheet that fill more than their own cell */
  spills(sheetId: string): Spill[];
}

const CALCULATION_WAIT_MS = 60_000;
/** For all formulas of a workbook, of which there may be tens of thousands [ms]. */
export const LONGEST_CALCULATION_MS = 600_000;

/**
 * @param api - the grid's facade
 * @param workbook - gives the workbook that is open now
 * @param formulas - gives the grid's store of results that fill several cells
 * @param links - gives the grid's index of what refers to what
 * @param troubles - why cells show errors
 */
export function openBook(
  api: FUniver,
  workbook: () => FWorkbook,
  formulas: () => Pick<FormulaDataModel, 'getArrayFormulaRange' | 'getArrayFormulaCellData'>,
  links: () => Pick<IDependencyManagerService, 'removeFormulaDependency'>,
  troubles: Pick<Troubles, 'forget'>,
): OpenBook {
  return {
    workbook,
    run: (id, params) => void api.syncExecuteCommand(id, params),
    calculated: (patience = CALCULATION_WAIT_MS) =>
      api.getFormula().onCalculationResultApplied(patience),
    stopCalculation: () => api.getFormula().stopCalculation(),
    forget(sheetIds) {
      for (const sheetId of sheetIds) unlink(links(), workbook(), sheetId);
      // only now: taking out what one sheet refers to makes an empty place for the sheet it referred to
      for (const sheetId of sheetIds) {
        forgetPlaces(links(), workbook().getId(), sheetId);
        troubles.forget(sheetId);
      }
    },
    spills: (sheetId) => spillsOf(formulas(), workbook().getId(), sheetId),
  };
}

/**
 * With a sheet the grid forgets who refers to it, but not to what it referred: each sheet that was written and taken away
 * again would stay in the index of the sheets that stay, which grows and is searched at every calculation.
 */
function unlink(
  index: Pick<IDependencyManagerService, 'removeFormulaDependency'>,
  workbook: FWorkbook,
  sheetId: string,
): void {
  const sheet = workbook.getSheetBySheetId(sheetId);
  if (sheet === null) return;
  eachCell(sheet, (row, column, { f, si }) => {
    if (f || si) index.removeFormulaDependency(workbook.getId(), sheetId, row, column);
  });
}

interface Places {
  _removeDependencyRTreeCacheById?(unitId: string, sheetId: string): void;
}

/**
 * The index keeps a place for every cell that was ever referred to, empty once nothing does any more. The grid throws away
 * those of a sheet that goes if it has formulas of its own, and keeps those of one without; asked by its public names to clear
 * a sheet without formulas, it would clear the whole workbook.
 */
function forgetPlaces(index: object, unitId: string, sheetId: string): void {
  (index as Places)._removeDependencyRTreeCacheById?.(unitId, sheetId);
}

function spillsOf(
  store: Pick<FormulaDataModel, 'getArrayFormulaRange' | 'getArrayFormulaCellData'>,
  unit: string,
  sheetId: string,
): Spill[] {
  const ranges = store.getArrayFormulaRange()?.[unit]?.[sheetId] ?? {};
  const held = store.getArrayFormulaCellData()?.[unit]?.[sheetId] ?? {};
  const out: Spill[] = [];
  for (const [row, line] of Object.entries(ranges))
    for (const [column, range] of Object.entries((line ?? {}) as Record<string, IRange>)) {
      const cells = new Map<string, ICellData>();
      for (let r = range.startRow; r <= range.endRow; r++)
        for (let c = range.startColumn; c <= range.endColumn; c++) {
          const cell = held[r]?.[c];
          const isOrigin = r === Number(row) && c === Number(column);
          if (cell && !isOrigin) cells.set(`${r},${c}`, cell);
        }
      if (cells.size > 0) out.push({ row: Number(row), column: Number(column), cells });
    }
  return out;
}

const BOOLEAN_CELL = 3;

/** What a cell holds; text in several looks or lines is its words. */
export function shownIn(cell: Nullable<ICellData>): Shown {
  if (!cell) return null;
  const words = cell.p?.body?.dataStream;
  if (words !== undefined) return words.replace(/[\r\n]+$/, '').replaceAll('\r', '\n');
  const { v: value } = cell;
  if (value === null || value === undefined) return null;
  return cell.t === BOOLEAN_CELL ? value === 1 || value === true : value;
}

/** The formula of a cell with its equals sign, "" where there is none; a filled one is shared and written out. */
export function formulaIn(sheet: FWorksheet, row: number, column: number): string {
  const cell = sheet.getSheet().getCellRaw(row, column);
  if (cell?.f) return cell.f;
  return cell?.si ? sheet.getRange(row, column).getFormula() : '';
}

/** Every stored cell of a sheet, row by row; places from 0. */
export function eachCell(
  sheet: FWorksheet,
  visit: (row: number, column: number, cell: ICellData) => void,
): void {
  sheet
    .getSheet()
    .getCellMatrix()
    .forValue((row, column, cell) => {
      if (cell) visit(row, column, cell);
    });
}

const OWN = /\bSOAK\s*\./i;
/** True for a formula that calls our own functions; words between quotation marks do not count. */
export const isOwnFormula = (text: string): boolean => OWN.test(text.replace(/"[^"]*"/g, ''));
