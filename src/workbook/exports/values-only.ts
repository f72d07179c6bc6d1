/** A workbook without formulas: what a file shows that goes to people outside the office. */
import { rich, type ModelCell, type RichCell, type Sheet, type WorkbookModel } from '../model.js';

/** The cell as it shows; a jump stays only where its sheet goes along. */
function shownCell(value: ModelCell, has: (jump: string) => boolean): ModelCell {
  if (value === null || typeof value !== 'object') return value;
  const { formula: _formula, live: _live, jump, ...rest } = rich(value);
  return jump !== undefined && has(jump) ? { ...rest, jump } : rest;
}

const sheetIn = (jump: string): string => /^'?(.*?)'?!/.exec(jump)?.[1] ?? '';

/** The same sheets with values in the place of formulas, without lists to pick from, names and conditions. */
export function valuesOnly(model: WorkbookModel): WorkbookModel {
  const names = new Set(model.sheets.map((sheet) => sheet.name));
  const has = (jump: string): boolean => names.has(sheetIn(jump));
  const shown = (value: ModelCell): ModelCell => shownCell(value, has);
  const sheets = model.sheets.map((sheet): Sheet => ({
    ...sheet,
    blocks: sheet.blocks.map((block) =>
      block.kind === 'table'
        ? { ...block, rows: block.rows.map((row) => row.map(shown)) }
        : { ...block, lines: block.lines.map((line) => line.map((c) => shown(c) as RichCell)) },
    ),
    charts: sheet.charts.filter(({ series }) =>
      series.every((one) => has(one.values) && has(one.categories)),
    ),
    validations: [],
    conditions: [],
  }));
  return { ...model, sheets, names: {} };
}
