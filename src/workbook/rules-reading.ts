/**
 * Finds the Rules and Stages tables in a workbook, a text table or the cells of a grid, reads them, and puts
 * what was understood into words. Rows are named as on the sheet they stand on, the first row of the sheet being 1.
 */
import { Problem } from '../engine/problems.js';
import {
  parseRules,
  RULE_COLUMNS,
  ruleSentence,
  type RuleProblem,
  type RuleTable,
} from '../engine/rules/rule-table.js';
import { isBlank, plainLabel, text, type Cell } from '../tables/cells.js';
import { letter } from './model.js';
import { readTableFile, readWorkbookSheets } from './readers/open.js';

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
  /** header first */
  rows: Cell[][];
}

export interface FoundRules {
  rules: FoundTable;
  stages?: FoundTable;
}

/** A rule as it was understood. */
export interface Understood {
  /** 1-based row of the sheet */
  row: number;
  /** row of the table, the header being 1: what reasons in a plan call "Row 4" */
  tableRow: number;
  sentence: string;
}

/** Something to look at, with its place on the sheet. */
export interface RulesTrouble {
  /** broken: the row, or the column, is not used; notice: it is used, but look at it */
  kind: RuleProblem['kind'];
  table: RuleProblem['table'];
  sheet: string;
  row: number;
  column: string;
  /** "C12", undefined when there is no such column */
  address?: string;
  read: string;
  accepted: string;
  sentence: string;
}

export interface RulesReading {
  /** where the tables stand */
  found: FoundRules;
  /** tables with their header, as `Setup` takes them */
  rows: Cell[][];
  stages: Cell[][];
  /** a Stages table was found */
  staged: boolean;
  table: RuleTable;
  understood: Understood[];
  problems: RulesTrouble[];
  /** how many of the problems keep a row or column from being used */
  broken: number;
  /** rows below the header with anything in them */
  given: number;
}

/** Header of the column of sentences on our own Rules sheet; it is no column of the rules. */
export const UNDERSTOOD = 'Understood';

const COLUMN_NAMES = new Set(RULE_COLUMNS.map(({ name }) => name.toLowerCase()));
const VERDICT = 'verdict';
const STAGES_HEADER = ['from', 'stage'];

const label = (cell: Cell | undefined): string => text(cell).toLowerCase();
const blankRow = (row: readonly Cell[]): boolean => row.every((c) => isBlank(c));
const isUnderstood = (cell: Cell | undefined): boolean =>
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
  return { sheet: name, headerRow: spot.row + 1, column: from, rows };
}

/** Our own column of sentences is taken out, wherever it stands. */
function withoutUnderstood(found: FoundTable): FoundTable {
  const kept = (found.rows[0] ?? []).map((cell) => !isUnderstood(cell));
  if (!kept.includes(false)) return found;
  const rows = found.rows.map((row) => row.filter((_, c) => kept[c] !== false));
  while (rows.length > 1 && blankRow(rows.at(-1) ?? [])) rows.pop();
  return { ...found, rows };
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

const place = (sheet: string, row: number): string =>
  sheet === '' ? `row ${row}` : `sheet "${sheet}", row ${row}`;

/** A problem with the rows of its table turned into rows of the sheet. */
function placed(problem: RuleProblem, found: FoundTable | undefined): RulesTrouble {
  const { kind, table, column, read, accepted } = problem;
  const shift = (row: number): number => row + (found?.headerRow ?? 1) - 1;
  const sheet = found?.sheet ?? '';
  const row = shift(problem.row);
  // What was read is quoted as it stands; only the words before it name rows.
  const head = problem.sentence.slice(`${table} row ${problem.row}, `.length);
  const quote = head.indexOf('Read "');
  const why = quote < 0 ? head : head.slice(0, quote);
  const moved = why.replace(/\brow (\d+)\b/g, (_, n: string) => `row ${shift(Number(n))}`);
  const at = (found?.rows[0] ?? []).findIndex((c) => label(c) === column.toLowerCase());
  return {
    kind, table, sheet, row, column, read, accepted,
    ...(at >= 0 && { address: `${letter((found?.column ?? 0) + at)}${row}` }),
    sentence: `${table}: ${place(sheet, row)}, ${moved}${quote < 0 ? '' : head.slice(quote)}`,
  }; // prettier-ignore
}

/** Reads tables that were found, in words. */
export function understand(found: FoundRules): RulesReading {
  const { rules, stages } = found;
  const table = parseRules(rules.rows, stages?.rows);
  const problems = table.problems.map((p) => placed(p, p.table === 'Rules' ? rules : stages));
  return {
    found,
    rows: rules.rows,
    stages: stages?.rows ?? [],
    staged: stages !== undefined,
    table,
    understood: table.rows.map((row) => ({
      row: row.row + rules.headerRow - 1,
      tableRow: row.row,
      sentence: ruleSentence(row),
    })),
    problems,
    broken: problems.filter(({ kind }) => kind === 'broken').length,
    given: rules.rows.slice(1).filter((row) => !blankRow(row)).length,
  };
}

const onNoSheet = (rows: Cell[][]): FoundTable => ({ sheet: '', headerRow: 1, column: 0, rows });

/** Tables that stand on no sheet, with their header as row 1. */
export const understandTables = (rows: Cell[][], stages: Cell[][] = []): RulesReading =>
  understand({
    rules: onNoSheet(rows),
    ...(stages.length > 0 && { stages: onNoSheet(stages) }),
  });

/** The same rules read with these stages, if they came without any. */
export const withStages = (reading: RulesReading, stages: Cell[][]): RulesReading =>
  reading.staged || stages.length === 0
    ? reading
    : understand({ rules: reading.found.rules, stages: onNoSheet(stages) });

const ACCEPTED = [...RULE_COLUMNS].map(({ name }) => name).join(', ');

/**
 * Rules from the sheets of a workbook or the cells of a grid.
 * @throws Problem when no header row of a Rules table is there
 */
export function readRules(sheets: readonly NamedCells[]): RulesReading {
  const found = findRules(sheets);
  if (found) return understand(found);
  const names = sheets.flatMap(({ name }) => (name === '' ? [] : [`"${name}"`]));
  const where = names.length === 0 ? '' : ` on ${names.join(', ')}`;
  throw new Problem(
    `no Rules table was found${where}: a row of headers is looked for, Verdict and at least one other of ${ACCEPTED}`,
  );
}

/**
 * Rules from a file, .xlsx or text table, told apart by its bytes.
 * @throws Problem naming the file when it cannot be read or holds no Rules table
 */
export async function readRulesFile(name: string, bytes: Uint8Array): Promise<RulesReading> {
  const isWorkbook = bytes[0] === 0x50 && bytes[1] === 0x4b;
  const sheets: NamedCells[] = isWorkbook
    ? await readWorkbookSheets(bytes)
    : [{ name: '', cells: (await readTableFile(name, bytes)).cells }];
  try {
    return readRules(sheets);
  } catch (error) {
    throw error instanceof Problem ? new Problem(`"${name}": ${error.message}`) : error;
  }
}

/** Lines for people: what the rules say, then what to look at. */
export function inWords({ understood, problems, given }: RulesReading): string[] {
  const rows = given === 1 ? '1 row' : `${given} rows`;
  return [
    `Rules: ${rows} read, ${understood.length} understood.`,
    ...understood.map(({ row, sentence }) => `  row ${row}: ${sentence}`),
    ...problems.map(({ kind, sentence }) => `${kind === 'broken' ? '✕' : '!'} ${sentence}`),
  ];
}

/** Said already, or not yet true, where planning stops. */
export const LEFT_OUT = / The row is left out\.$/;

/** Why planning stops, and how to go on; undefined when every row was understood. */
export function refusal(reading: RulesReading, goOn: string): string | undefined {
  if (reading.broken === 0) return undefined;
  const said = reading.problems
    .filter(({ kind }) => kind === 'broken')
    .map((p) => `- ${p.sentence.replace(LEFT_OUT, '')}`);
  const count = reading.broken === 1 ? '1 place' : `${reading.broken} places`;
  return `the rules cannot be used as they are: ${count} to mend\n${said.join('\n')}\n${goOn}`;
}
