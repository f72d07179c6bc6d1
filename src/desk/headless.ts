/** Calculates formulas in the grid's engine without any window, for the command line and the tests. */
import { createRequire } from 'node:module';
import type { ICellData } from '@univerjs/presets';
import type { FunctionMetadata, Implementation } from './registration.js';
import { executorsFor, Troubles } from './registration.js';

/** What a cell holds: a number, text, yes/no, or nothing. */
export type Shown = string | number | boolean | null;

export type Outcome =
  | { formula: string; value: Shown | Shown[][] }
  | { formula: string; error: { code: string; message: string } };

export interface FunctionSet {
  metadata: readonly FunctionMetadata[];
  implementations: Readonly<Record<string, Implementation>>;
}

/** Cells of the sheet every formula stands in, by address row and column from 0; formulas start "=". */
export type Given = Record<number, Record<number, string | number | boolean>>;

const MEANINGS: Record<string, string> = {
  '#NAME?': 'no function or name is spelt like this',
  '#DIV/0!': 'something is divided by zero',
  '#REF!': 'a cell that is referred to does not exist, or a spill has no room',
  '#NUM!': 'the result is no number a cell can hold',
  '#N/A': 'there is no such value',
  '#VALUE!': 'a value is of the wrong kind, or the formula cannot be read',
  '#SPILL!': 'the cells the result needs are not empty',
  '#NULL!': 'two ranges do not meet',
  '#CALC!': 'the formula cannot be calculated',
};

const WAIT_MS = 60_000;
const SHEET_ROWS = 5000;
const SHEET_COLUMNS = 60;
/** One formula a sheet, away from the given cells, so that spills have room. */
const AT = { row: 1000, column: 20 };
const ONE_CELL = { startRow: AT.row, endRow: AT.row, startColumn: AT.column, endColumn: AT.column };

/**
 * The engine's module build for Node does not load there (a dependency of it lacks the export it asks
 * for); its CommonJS build does, so that is what is required.
 */
export function loadEngine() {
  const require = createRequire(import.meta.url);
  const core = require('@univerjs/presets') as typeof import('@univerjs/presets');
  const sheets =
    require('@univerjs/presets/preset-sheets-node-core') as typeof import('@univerjs/presets/preset-sheets-node-core');
  return { core, sheets };
}

const ERROR_CODE =
  /^#(?:NAME\?|DIV\/0!|REF!|NUM!|N\/A|VALUE!|SPILL!|NULL!|CALC!|CYCLE!|ERROR!|CONNECT!)$/;

function withEquals(formula: string): string {
  const text = formula.trim();
  return text.startsWith('=') ? text : `=${text}`;
}

/** What each formula would show in a cell. */
export async function calculate(
  formulas: readonly string[],
  functions: FunctionSet,
  given: Given = {},
): Promise<Outcome[]> {
  const { core, sheets: parts } = loadEngine();
  const troubles = new Troubles();
  const { univer, univerAPI } = core.createUniver({
    locale: core.LocaleType.EN_US,
    locales: { [core.LocaleType.EN_US]: {} },
    presets: [parts.UniverSheetsNodeCorePreset()],
  });
  try {
    const injector = univer.__getInjector();
    injector
      .get(parts.IFunctionService)
      .registerExecutors(
        ...executorsFor(parts, functions.metadata, functions.implementations, troubles),
      );
    const cells = Object.fromEntries(
      Object.entries(given).map(([row, columns]) => [
        row,
        Object.fromEntries(
          Object.entries(columns).map(([column, value]) => [
            column,
            typeof value === 'string' && value.startsWith('=') ? { f: value } : { v: value },
          ]),
        ),
      ]),
    );
    const ids = formulas.map((_, i) => `formula-${i}`);
    const workbook = univerAPI.createWorkbook({
      id: 'calc',
      name: 'calc',
      sheetOrder: ids,
      sheets: Object.fromEntries(
        ids.map((id, i) => [
          id,
          {
            id,
            name: id,
            rowCount: SHEET_ROWS,
            columnCount: SHEET_COLUMNS,
            cellData: {
              ...cells,
              [AT.row]: { [AT.column]: { f: withEquals(formulas[i] ?? '') } },
            },
          },
        ]),
      ),
    });
    const formulaApi = univerAPI.getFormula();
    const applied = formulaApi.onCalculationResultApplied(WAIT_MS);
    formulaApi.executeCalculation();
    await applied;

    const model = injector.get(parts.FormulaDataModel);
    const spills = model.getArrayFormulaRange();
    const spillCells = model.getArrayFormulaCellData();
    return ids.map((id, i): Outcome => {
      const formula = formulas[i] ?? '';
      const sheet = workbook.getSheetBySheetId(id);
      if (sheet === null) throw new Error(`The sheet of ${formula} was lost.`);
      const spill = spills?.['calc']?.[id]?.[AT.row]?.[AT.column];
      const origin = sheet.getRange(AT.row, AT.column).getCellDatas()[0]?.[0] ?? undefined;
      const spilled = spillCells?.['calc']?.[id];
      const rows: Shown[][] = [];
      const { startRow, endRow, startColumn, endColumn } = spill ?? ONE_CELL;
      for (let row = startRow; row <= endRow; row++) {
        const shown: Shown[] = [];
        for (let column = startColumn; column <= endColumn; column++) {
          const isOrigin = row === AT.row && column === AT.column;
          shown.push(shownValue(isOrigin ? origin : (spilled?.[row]?.[column] ?? undefined)));
        }
        rows.push(shown);
      }
      const first = rows[0]?.[0] ?? null;
      if (spill !== undefined && (rows.length > 1 || (rows[0]?.length ?? 0) > 1)) {
        return { formula, value: rows };
      }
      if (typeof first !== 'string' || !ERROR_CODE.test(first)) return { formula, value: first };
      const trouble = troubles.of(id, AT.row, AT.column, {
        code: first,
        formula: withEquals(formula),
      });
      const message =
        trouble === undefined ? (MEANINGS[first] ?? 'the formula has no value') : trouble.message;
      return { formula, error: { code: first, message } };
    });
  } finally {
    univer.dispose();
  }
}

const BOOLEAN_CELL = 3;

function shownValue(cell: ICellData | undefined): Shown {
  if (cell?.v === null || cell?.v === undefined) return null;
  if (cell.t === BOOLEAN_CELL) return cell.v === 1 || cell.v === true;
  return cell.v;
}
