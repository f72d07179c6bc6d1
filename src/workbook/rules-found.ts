/** Where the Rules and Stages tables stand in a workbook, a text table or the cells of a grid. Nothing is read of them here. */
import { RULE_COLUMNS } from '../engine/rules/rule-parse.js';
import { isBlank, plainLabel, text, type Cell } from '../tables/cells.js';

export interface NamedCells {
  /** "" for a text table */
  name: string;
  cells: Cell[][];
}

/** A table and where it stands. */
export interface FoundTable {
  sheet: string;
  /** 1-based row of the sheet that holds the header */
  headerRow: number;
  /** 0-based column of the first cell */
  column: number;
  /** 0-based column of the sheet of each column of the rows */
  columns: number[];
  /** header first */
  rows: Cell[][];
}

export interface FoundRules {
  rules: FoundTable;
  stages?: FoundTable;
}

/** Header of the column of sentences on our own Rules sheet; it is no column of the rules. */
export const UNDERSTOOD = 'Understood';

const COLUMN_NAMES = new Set(RULE_COLUMNS.map(({ name }) => name.toLowerCase()));
const VERDICT = 'verdict';
const STAGES_HEADER = ['from', 'stage'];

export const label = (cell: Cell | undefined): string => text(cell).toLowerCase();
export const blankRow = (row: readonly Cell[]): boolean => row.every((c) => isBlank(c));
/** Heads the column of sentences. */
export const isUnderstood = (cell: Cell | undefined): boolean =>
  plainLabel(text(cell)).startsWith(UNDERSTOOD.toLowerCase());

/** Filled cells of a row that stand side by side, as [first, last] columns. */
function runs(row: readonly Cell[]): [number, number][] {
  const out: [number, number][] = [];
  row.forEach((cell, c) => {
    if (isBlank(cell)) return;
    const last = out.at(-1);
    if (last && last[1] === c - 1) last[1] = c;
    else out.push([c, c]);
  });
  return out;
}

interface Spot {
  row: number;
  first: number;
  last: number;
}

function stagesSpot(cells: Cell[][], among?: number): Spot | undefined {
  for (const [r, row] of cells.entries()) {
    if (among !== undefined && r !== among) continue;
    for (const [first, last] of runs(row)) {
      const names = row.slice(first, last + 1).map(label);
      if (
        STAGES_HEADER.every((n) => names.includes(n)) &&
        !names.some((n) => n === VERDICT || n === 'means')
      )
        return { row: r, first, last };
    }
  }
  return undefined;
}

/** The row with Verdict and another column of ours; else the one with most columns of ours, at least two. */
function rulesSpot(cells: Cell[][]): Spot | undefined {
  let best: { spot: Spot; score: number } | undefined;
  for (const [r, row] of cells.entries()) {
    const stages = stagesSpot(cells, r);
    const mine = runs(row).filter(([first]) => first !== stages?.first);
    const [first, last] = [mine[0]?.[0] ?? 0, mine.at(-1)?.[1] ?? -1];
    const names = row.slice(first, last + 1).map(label);
    const known = new Set(names.filter((n) => COLUMN_NAMES.has(n))).size;
    const score = known + (names.includes(VERDICT) ? 100 : 0);
    if (known >= 2 && score > (best?.score ?? 0)) best = { spot: { row: r, first, last }, score };
  }
  return best?.spot;
}

/** Rows of a table down to the sheet's end, the next header, or a heading over that header. */
function cut(sheet: NamedCells, spot: Spot, other: Spot | undefined): FoundTable {
  const { cells, name } = sheet;
  let end = cells.length;
  const below = other !== undefined && other.row > spot.row;
  const beside = other !== undefined && other.row === spot.row;
  if (below) {
    end = other.row;
    const above = cells[end - 1];
    if (end - 1 > spot.row && above && above.filter((c) => !isBlank(c)).length === 1) end -= 1;
  }
  const from = spot.first;
  const width = beside && other.first > from ? Math.min(spot.last, other.first - 1) : spot.last;
  const rows = cells.slice(spot.row, end).map((row) => row.slice(from, width + 1));
  while (rows.length > 1 && blankRow(rows.at(-1) ?? [])) rows.pop();
  const columns = Array.from({ length: width + 1 - from }, (_, i) => from + i);
  return { sheet: name, headerRow: spot.row + 1, column: from, columns, rows };
}

/** Our own column of sentences is taken out, wherever it stands. */
function withoutUnderstood(found: FoundTable): FoundTable {
  const kept = (found.rows[0] ?? []).map((cell) => !isUnderstood(cell));
  if (!kept.includes(false)) return found;
  const rows = found.rows.map((row) => row.filter((_, c) => kept[c] !== false));
  while (rows.length > 1 && blankRow(rows.at(-1) ?? [])) rows.pop();
  return { ...found, columns: found.columns.filter((_, c) => kept[c] !== false), rows };
}

const named = (sheets: readonly NamedCells[], name: string): NamedCells | undefined =>
  sheets.find((s) => plainLabel(s.name) === name);

/**
 * The Rules table, and the Stages table if there is one: on the sheets of those names, else on any sheet.
 * @returns undefined when no sheet has a header row of ours
 */
export function findRules(sheets: readonly NamedCells[]): FoundRules | undefined {
  const own = named(sheets, 'rules');
  const order = own ? [own, ...sheets.filter((s) => s !== own)] : [...sheets];
  for (const sheet of order) {
    const spot = rulesSpot(sheet.cells);
    if (!spot) {
      if (sheet === own) return undefined;
      continue;
    }
    const beside = stagesSpot(sheet.cells);
    const rules = withoutUnderstood(cut(sheet, spot, beside));
    if (beside) return { rules, stages: cut(sheet, beside, spot) };
    const other = named(sheets, 'stages');
    const there = other && stagesSpot(other.cells);
    return there ? { rules, stages: cut(other, there, undefined) } : { rules };
  }
  return undefined;
}
