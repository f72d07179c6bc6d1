/** A file as the panel opens it: its sheets, the one in front, and settings of ours. */
import type { Grid } from '../tables/cells.js';
import { isBlank, text } from '../tables/cells.js';
import { readInventory } from '../tables/inventory/index.js';
import { readFile } from '../workbook/readers/open.js';
import type { OpenedFile } from './plan-room.js';

const SAMPLE_ROWS = 60;

/** How much a sheet looks like an inventory: trees among its first rows, then how much is on it. */
function likeness({ cells }: Grid): number {
  const filled = cells.filter((row) => row.some((c) => !isBlank(c))).length;
  if (filled === 0) return -1;
  const { rows, matches } = readInventory(cells.slice(0, SAMPLE_ROWS));
  const trees = rows.filter(({ tree }) => tree).length / Math.max(1, rows.length);
  return trees * 1000 + Math.min(matches.length, 20) + Math.min(filled, 1e6) / 1e6;
}

export async function openedFile(name: string, bytes: Uint8Array): Promise<OpenedFile> {
  const { sheets, settings, notes } = await readFile(name, bytes);
  const marks = sheets.map((sheet) => (/^trees$/i.test(text(sheet.name)) ? 1e4 : likeness(sheet)));
  const front = marks.reduce((best, mark, i) => (mark > (marks[best] ?? -1) ? i : best), 0);
  return { sheets, front, settings, notes };
}
