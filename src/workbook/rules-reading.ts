/**
 * Reads the Rules and Stages tables of a workbook, a text table or the cells of a grid, and puts what was understood into
 * words. Rows are named as on the sheet they stand on, the first row of the sheet being 1.
 */
import { Problem } from '../engine/problems.js';
import {
  parseRules,
  RULE_COLUMNS,
  ruleSentence,
  type RuleProblem,
  type RuleTable,
} from '../engine/rules/rule-table.js';
import type { Cell } from '../tables/cells.js';
import { letter } from './model.js';
import { readTableFile, readWorkbookSheets } from './readers/open.js';
import { blankRow, findRules, label, type FoundRules, type FoundTable, type NamedCells } from './rules-found.js'; // prettier-ignore

export { findRules, UNDERSTOOD } from './rules-found.js';
export type { FoundRules, FoundTable, NamedCells } from './rules-found.js';

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

const onNoSheet = (rows: Cell[][]): FoundTable => ({
  ...{ sheet: '', headerRow: 1, column: 0, rows },
  columns: (rows[0] ?? []).map((_, c) => c),
});

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
