/** Cells, tables and columns of a workbook model, and what a recalculated file says of them. */
import { expect } from 'vitest';
import {
  letter,
  rich,
  tablesOf,
  type Sheet,
  type TableBlock,
  type WorkbookModel,
} from '../../src/workbook/model.js';
import type { Values } from './programs.js';

/** Every cell of a sheet with its address. */
export function cellsOf(sheet: Sheet): { at: string; cell: ReturnType<typeof rich> }[] {
  return sheet.blocks.flatMap((block) => {
    const [rows, top] =
      block.kind === 'text' ? [block.lines, block.top] : [block.rows, block.top + 1];
    return rows.flatMap((row, r) =>
      row.map((value, c) => ({ at: `${letter(c)}${top + r}`, cell: rich(value) })),
    );
  });
}

export function table(model: WorkbookModel, name: string): TableBlock {
  const found = model.sheets.flatMap(tablesOf).find((t) => t.name === name);
  if (!found) throw new Error(`no table ${name}`);
  return found;
}

/** Values of a column of a table. */
export function column(model: WorkbookModel, name: string, key: string): unknown[] {
  const t = table(model, name);
  const at = t.columns.findIndex((c) => c.key === key);
  expect(at, `column ${key} of ${name}`).toBeGreaterThanOrEqual(0);
  return t.rows.map((row) => rich(row[at]!).value);
}

/** Formula cells whose recalculated value is not the engine's, as sentences. */
export function differences(model: WorkbookModel, values: Values): string[] {
  const out: string[] = [];
  for (const sheet of model.sheets)
    for (const { at, cell } of cellsOf(sheet)) {
      if (cell.formula === undefined) continue;
      const got = values[sheet.name]?.[at] ?? '';
      const want = cell.value ?? '';
      const same =
        typeof want === 'number' && typeof got === 'number'
          ? Math.abs(got - want) <= 1e-9 * Math.max(1, Math.abs(want))
          : got === want;
      if (!same)
        out.push(`${sheet.name}!${at}: ${String(got)} for ${String(want)}, =${cell.formula}`);
    }
  return out;
}

export const errors = (values: Values): string[] =>
  Object.entries(values).flatMap(([sheet, cells]) =>
    Object.entries(cells).flatMap(([at, v]) =>
      typeof v === 'string' && /^#(N\/A|VALUE!|REF!|NAME\?|DIV\/0!|NUM!|NULL!)$|^Err:\d+$/.test(v)
        ? [`${sheet}!${at}: ${v}`]
        : [],
    ),
  );
