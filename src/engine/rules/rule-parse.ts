/**
 * Reads the rules table and the Stages table. Nothing throws and nothing is silently ignored: a cell
 * that cannot be read leaves its row out and is reported with row, column, what was read and the
 * accepted forms.
 */
import { isoDate } from '../dates.js';
import { Problem } from '../problems.js';
import { address, age, limit, rain, stageName, tidy, word, wordList } from './rule-cells.js';
import { flaws } from './rule-check.js';
import type { Report } from './rule-check.js';
import { DATE_FORMS, dateCell, fullDate } from './rule-dates.js';
import { parseDays } from './rule-days.js';
import { hours } from './rule-hours.js';
import { MEANS_ACCEPTED, meansOf } from './rule-means.js';
import {
  ALL_WEEKDAYS,
  NEED_WORDS,
  SOURCE_WORDS,
  TARGET_WORDS,
  VERDICT_WORDS,
} from './rule-types.js';
import type { RuleCell, RuleProblem, RuleRow, RuleTable } from './rule-types.js';

export { parseDays };

/** A row before its verdict and number are known to be good. */
const blankRow = (row: number): RuleRow => ({
  row,
  stage: null,
  from: null,
  to: null,
  yearlyFrom: null,
  yearlyTo: null,
  means: null,
  target: null,
  source: null,
  address: null,
  days: { weekdays: ALL_WEEKDAYS, parity: null, every: null, perWeek: null },
  hours: null,
  oneWindow: false,
  limit: null,
  age: null,
  rain: null,
  verdict: 'allow',
  needs: [],
  note: '',
  agency: '',
  day31: 'by parity',
  midnight: 'start',
  finish: 'inside',
  drain: 'free',
  filling: 'own means',
  dayOne: 1,
  assumed: [],
});

interface Column {
  name: string;
  accepted: string;
  /** a cell as a person would write it */
  example: string;
  read: (text: string, cell: RuleCell) => Partial<RuleRow>;
  /** a setting: blank takes a default, and answers say so */
  setting?: true;
}

const setting = (
  name: string,
  words: readonly string[],
  read: (w: string) => Partial<RuleRow>,
): Column => ({
  name,
  accepted: words.join(', '),
  example: words[0] ?? '',
  read: (text) => read(word(text, words)),
  setting: true,
});

const COLUMNS: Column[] = [
  {
    name: 'Stage',
    accepted: 'a name, e.g. 2',
    example: '2',
    read: (t) => ({ stage: stageName(t) }),
  },
  {
    name: 'From',
    accepted: DATE_FORMS,
    example: '2027-05-01',
    read: (t, c) => dateCell(t, c, false),
  },
  { name: 'To', accepted: DATE_FORMS, example: '2027-09-30', read: (t, c) => dateCell(t, c, true) },
  {
    name: 'Means',
    accepted: MEANS_ACCEPTED,
    example: 'hose, bag, truck',
    read: (t) => ({ means: meansOf(t) }),
  },
  {
    name: 'Target',
    accepted: `any, ${TARGET_WORDS.join(', ')}`,
    example: 'tree',
    read: (t) => ({ target: t.toLowerCase() === 'any' ? null : word(t, TARGET_WORDS) }),
  },
  {
    name: 'Source',
    accepted: `any, or of ${SOURCE_WORDS.join(', ')}`,
    example: 'mains',
    read: (t) => ({ source: wordList(t, SOURCE_WORDS) }),
  },
  {
    name: 'Address',
    accepted:
      'any, odd, even, ends 0-1, ends 4,5, side N/W, group C, class commercial, none, not class commercial; joined by "and", "or"',
    example: 'even or none',
    read: (t) => ({ address: address(t) }),
  },
  {
    name: 'Days',
    accepted:
      'any, none, Mon Thu, Mondays and Thursdays, Mon-Fri, not Sun, odd dates, even dates, every 2nd day, 2 per week; several joined by commas',
    example: 'Mon Thu',
    read: (t) => ({ days: parseDays(t) }),
  },
  {
    name: 'Hours',
    accepted:
      'any, 00:00-10:00, 19:00-24:00, 18:00-09:00, before 09:00, not 10:00-18:00, one of 04:00-08:00, 18:00-22:00; before 9 am or after 7 pm, 9:30 pm to 6 am, noon, midnight',
    example: 'before 9 am or after 7 pm',
    read: hours,
  },
  {
    name: 'Limit',
    accepted: 'minutes: 15, 15 zone, 60 property',
    example: '15 zone',
    read: (t) => ({ limit: limit(t) }),
  },
  {
    name: 'New planting',
    accepted: 'days since planting, e.g. 1-30, as text, or 61+',
    example: '1-30',
    read: (t, c) => ({ age: age(t, c) }),
  },
  {
    name: 'Rain',
    accepted: '48 h after 0.5 in, 24 h after 10 mm, 24 h after rain',
    example: '48 h after 0.5 in',
    read: (t) => ({ rain: rain(t) }),
  },
  {
    name: 'Verdict',
    accepted: VERDICT_WORDS.join(', '),
    example: 'allow',
    read: (t) => ({ verdict: word(t, VERDICT_WORDS) }),
  },
  {
    name: 'Needs',
    accepted: NEED_WORDS.join(', '),
    example: 'nozzle',
    read: (t) => ({ needs: wordList(t, NEED_WORDS) ?? [] }),
  },
  { name: 'Note', accepted: 'text', example: 'section 4', read: (t) => ({ note: t }) },
  { name: 'Agency', accepted: 'a name', example: 'district', read: (t) => ({ agency: t }) },
  setting('31st', ['by parity', 'all', 'none'], (w) => ({ day31: w as RuleRow['day31'] })),
  setting('Midnight', ['start', 'end'], (w) => ({ midnight: w as RuleRow['midnight'] })),
  setting('Finish', ['inside', 'may run over'], (w) => ({ finish: w as RuleRow['finish'] })),
  setting('Drain', ['free', 'inside'], (w) => ({ drain: w as RuleRow['drain'] })),
  setting('Filling', ['own means', 'hand'], (w) => ({ filling: w as RuleRow['filling'] })),
  setting('Day one', ['1', '0'], (w) => ({ dayOne: w === '0' ? 0 : 1 })),
];

/** Header names of the rules table with the forms each takes, for help texts and cell checks. */
export const RULE_COLUMNS: readonly { name: string; accepted: string; example: string }[] =
  COLUMNS.map(({ name, accepted, example }) => ({ name, accepted, example }));

/**
 * What one cell of a row says; of a blank one, nothing.
 * @throws Problem if there is no such column, or the cell cannot be read
 */
export function readCell(name: string, cell: RuleCell): Partial<RuleRow> {
  const column = COLUMNS.find((c) => c.name === name);
  if (!column) throw new Problem(`"${name}" is no column of a rules table`);
  const text = tidy(cell);
  return text === '' ? {} : column.read(text, cell);
}

/** Two cells of a column say the same; one that cannot be read says what no other does. */
export function sayTheSame(name: string, one: RuleCell, other: RuleCell): boolean {
  if (tidy(one) === tidy(other) && typeof one === typeof other) return true;
  const said = (cell: RuleCell): string =>
    JSON.stringify({ ...blankRow(0), ...readCell(name, cell) });
  try {
    return said(one) === said(other);
  } catch (error) {
    if (error instanceof Problem) return false;
    throw error;
  }
}

/** Puts problems of a table into a list, each with its sentence. */
export function reporter(table: RuleProblem['table'], problems: RuleProblem[]): Report {
  return (row, column, read, accepted, why, kind = 'broken') => {
    const outcome = kind === 'broken' && row > 1 ? ' The row is left out.' : '';
    const sentence = `${table} row ${row}, ${column}: ${why}. Read "${read}"; accepted: ${accepted}.${outcome}`;
    problems.push({ kind, table, row, column, read, accepted, sentence });
  };
}

/** Position of each header name; unknown and doubled names are reported. */
function header(
  cells: readonly RuleCell[],
  names: readonly string[],
  required: readonly string[],
  report: Report,
): Map<string, number> | null {
  const at = new Map<string, number>();
  const accepted = names.join(', ');
  cells.forEach((cell, i) => {
    const text = tidy(cell);
    if (text === '') return;
    const name = names.find((n) => n.toLowerCase() === text.toLowerCase());
    if (name === undefined)
      report(1, text, text, accepted, 'no such column, and its cells are not read');
    else if (at.has(name)) report(1, name, text, 'each column once', 'the column is there twice');
    else at.set(name, i);
  });
  const missing = required.filter((name) => !at.has(name));
  for (const name of missing)
    report(1, name, tidy(cells[0]), accepted, `the column ${name} is missing, no row can be read`);
  return missing.length === 0 ? at : null;
}

function readRow(
  cells: readonly RuleCell[],
  at: Map<string, number>,
  rowNumber: number,
  report: Report,
): RuleRow | null {
  const row = blankRow(rowNumber);
  let good = true;
  for (const column of COLUMNS) {
    const i = at.get(column.name);
    const cell = (i === undefined ? null : cells[i]) ?? null;
    const text = tidy(cell);
    if (text === '') {
      if (column.setting) row.assumed.push(column.name);
      if (column.name !== 'Verdict') continue;
    }
    try {
      Object.assign(row, column.read(text, cell));
    } catch (error) {
      good = false;
      const why = error instanceof Problem ? error.message : 'it cannot be read';
      report(
        rowNumber,
        column.name,
        text,
        column.accepted,
        text === '' ? 'the cell is blank' : why,
      );
    }
  }
  if (!good) return null;
  const found = flaws(row);
  for (const [column, read, accepted, why] of found) report(rowNumber, column, read, accepted, why);
  return found.length === 0 ? row : null;
}

const isBlank = (cells: readonly RuleCell[]): boolean => cells.every((cell) => tidy(cell) === '');

function readStages(cells: RuleCell[][], problems: RuleProblem[]): RuleTable['stages'] {
  const report = reporter('Stages', problems);
  const at = header(cells[0] ?? [], ['From', 'Stage'], ['From', 'Stage'], report);
  if (!at) return [];
  const stages: RuleTable['stages'] = [];
  cells.slice(1).forEach((row, i) => {
    if (isBlank(row)) return;
    const rowNumber = i + 2;
    const cell = row[at.get('From') ?? 0] ?? null;
    const stage = tidy(row[at.get('Stage') ?? 0]);
    if (stage === '') {
      report(rowNumber, 'Stage', stage, 'a name, e.g. 2', 'the cell is blank');
      return;
    }
    try {
      const from = fullDate(tidy(cell), cell);
      if (stages.some((s) => s.from === from))
        report(rowNumber, 'From', isoDate(from), 'each day once', 'two stages start on one day');
      else stages.push({ from, stage: stageName(stage) });
    } catch (error) {
      const why = error instanceof Problem ? error.message : 'it cannot be read';
      report(rowNumber, 'From', tidy(cell), 'yyyy-mm-dd or a date cell', why);
    }
  });
  return stages.sort((a, b) => a.from - b.from);
}

/**
 * Reads a rules range (header in row 1) and, if given, a Stages range with the columns From and Stage.
 * Blank rows are skipped, a broken row is left out and reported. Never throws. Notices are left to
 * `parseRules`, which costs more.
 * @param rows cells of the rules table; header names as in RULE_COLUMNS, in any order and case
 * @param stages cells of the Stages table
 */
export function readRules(rows: RuleCell[][], stages?: RuleCell[][]): RuleTable {
  const table: RuleTable = { rows: [], stages: [], problems: [] };
  const report = reporter('Rules', table.problems);
  if (stages && !stages.every(isBlank)) table.stages = readStages(stages, table.problems);
  if (rows.every(isBlank)) return table;
  const names = COLUMNS.map((column) => column.name);
  const at = header(rows[0] ?? [], names, ['Verdict'], report);
  if (!at) return table;
  rows.slice(1).forEach((cells, i) => {
    if (isBlank(cells)) return;
    const row = readRow(cells, at, i + 2, report);
    if (row) table.rows.push(row);
  });
  return table;
}
