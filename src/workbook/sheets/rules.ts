/** Rules: the tables as given, each row read back in words. Rule days: six weeks of open and closed days. */
import { civil, dayName } from '../../engine/dates.js';
import { RULE_COLUMNS, type RuleTable } from '../../engine/rules/rule-table.js';
import {
  MEANS_WORDS,
  NEED_WORDS,
  SOURCE_WORDS,
  TARGET_WORDS,
  VERDICT_WORDS,
} from '../../engine/rules/rule-types.js';
import { isBlank, text, type Cell } from '../../tables/cells.js';
import {
  cell,
  letter,
  lines,
  SheetDraft,
  type ColumnSpec,
  type ModelCell,
  type RichCell,
  type Sheet,
} from '../model.js';
import { LEFT_OUT, UNDERSTOOD, understandTables, type RulesReading } from '../rules-reading.js';
import { ruleStrip, stripStart, type RuleStrip, type StripKind } from '../rules-strip.js';
import type { Context } from './context.js';
import { givenTable, MARKS } from './inputs.js';

const EMPTY_RULES: Cell[][] = [
  ['Stage', 'From', 'To', 'Means', 'Target', 'Address', 'Days', 'Hours', 'Verdict', 'Note'],
];
const EMPTY_STAGES: Cell[][] = [['From', 'Stage']];

/** Words offered in a column; where several may stand in a cell, any of them and no others are refused. */
const OFFERED: Readonly<Record<string, readonly string[]>> = {
  Means: ['any', ...MEANS_WORDS],
  Target: ['any', ...TARGET_WORDS],
  Source: ['any', ...SOURCE_WORDS],
  Address: ['any', 'odd', 'even', 'even or none', 'none', 'ends 0-1', 'group A', 'class commercial'],
  Days: ['any', 'none', 'Mon Thu', 'Mon-Fri', 'not Sun', 'odd dates', 'even dates', 'every 2nd day', '2 per week'],
  Hours: ['any', '00:00-10:00', '18:00-09:00', 'before 09:00', 'after 18:00', 'not 10:00-18:00'],
  Limit: ['15', '15 zone', '60 property'],
  'New planting': ['1-30', '31-60', '61+'],
  Rain: ['48 h after 0.5 in', '24 h after 10 mm', '24 h after rain'],
  Verdict: VERDICT_WORDS,
  Needs: NEED_WORDS,
  '31st': ['by parity', 'all', 'none'],
  Midnight: ['start', 'end'],
  Finish: ['inside', 'may run over'],
  Drain: ['free', 'inside'],
  Filling: ['own means', 'hand'],
  'Day one': ['1', '0'],
}; // prettier-ignore
const SEVERAL = new Set(['Means', 'Source', 'Hours', 'Needs']);
/** Columns whose first word holds where the cell is blank. */
const SETTINGS = new Set(['31st', 'Midnight', 'Finish', 'Drain', 'Filling', 'Day one']);
/** Longest message beside a cell [characters]. */
const LONGEST_MESSAGE = 250;
/** Rows below the table that have their lists as well, for rows to come. */
const SPARE_ROWS = 40;

function messageFor(column: string): string {
  const accepted = RULE_COLUMNS.find(({ name }) => name === column)?.accepted ?? '';
  const several = SEVERAL.has(column) ? ' Several may be written, separated by commas.' : '';
  const blank =
    column === 'Verdict'
      ? ''
      : ` Blank: ${SETTINGS.has(column) ? OFFERED[column]?.[0] : 'no condition'}.`;
  return `${column}: ${accepted}.${several}${blank}`.slice(0, LONGEST_MESSAGE);
}

/** A sentence for each row that is not blank, in the order of the rows. */
function sentences({ rows, understood, problems }: RulesReading): ModelCell[] {
  return rows.flatMap((row, i): ModelCell[] => {
    if (i === 0 || row.every((c) => isBlank(c))) return [];
    const read = understood.find(({ tableRow }) => tableRow === i + 1);
    if (read) return [`Row ${i + 1}: ${read.sentence}`];
    const why = problems.filter(
      (p) => p.table === 'Rules' && p.kind === 'broken' && p.row === i + 1,
    );
    return [
      cell(`▲ Left out. ${why.map((p) => p.sentence.replace(LEFT_OUT, '')).join(' ')}`, 'look'),
    ];
  });
}

const isExample = (rows: Cell[][]): boolean =>
  rows.some((row) => row.some((c) => /^example\b/i.test(text(c))));

function headLines(ctx: Context): RichCell[] {
  if (ctx.ruleRows.length < 2)
    return [
      cell(
        'No rules were given: every day and hour counts as allowed. Fill this table and plan again.',
        'look',
      ),
    ];
  const out = [
    cell('One row says one thing. Check every row against the ordinance in force.', 'note'),
    cell(
      `The last column says what was understood when this file was made: change a row, plan again, read it again. Reasons on Plan name rows as it does; the header is row 1.`,
      'note',
    ),
  ];
  return isExample(ctx.ruleRows)
    ? [...out, cell('▲ These rules are an example: replace by your ordinance.', 'look')]
    : out;
}

function rulesSheet(ctx: Context, reading: RulesReading): Sheet {
  const draft = new SheetDraft('Rules', 'Rules and stages');
  draft.text([cell('Rules and stages', 'title'), ...headLines(ctx)]);
  draft.skip();
  draft.text([cell(MARKS.stages, 'heading')]);
  givenTable(draft, 'Stages', ctx.stageRows.length ? ctx.stageRows : EMPTY_STAGES);
  draft.skip();
  draft.text([cell(MARKS.rules, 'heading')]);
  const given = ctx.ruleRows.length ? ctx.ruleRows : EMPTY_RULES;
  const place = givenTable(draft, 'Rules', given, 22, {
    column: {
      key: 'understood',
      header: `${UNDERSTOOD} (text made with this file)`,
      width: 58,
      style: 'calculation',
      wrap: true,
    },
    cells: sentences(reading),
  });
  const header = (given[0] ?? []).map((c) => text(c).toLowerCase());
  const last = place.row(Math.max(0, given.length - 2)) + SPARE_ROWS;
  const stageAt = (ctx.stageRows[0] ?? []).findIndex((c) => text(c).toLowerCase() === 'stage');
  const stages = ctx.stageRows
    .slice(1)
    .map((row) => text(row[stageAt]))
    .filter((s) => s !== '');
  for (const { name } of RULE_COLUMNS) {
    const at = header.indexOf(name.toLowerCase());
    const values = name === 'Stage' ? [...new Set(stages)] : OFFERED[name];
    if (at < 0 || !values || values.length === 0) continue;
    draft.validate(
      `${letter(at)}${place.row(0)}:${letter(at)}${last}`,
      [...values],
      messageFor(name),
    );
  }
  draft.repeat(place.headerRow, place.headerRow);
  return draft.done();
}

/** Days side by side: two weeks are as much as a landscape page shows in type that can be read. */
const BLOCK_DAYS = 14;

const hoursCell = (hours: string): RichCell =>
  hours === ''
    ? cell('closed', 'note')
    : cell(hours === 'any' ? 'any hour' : hours.replaceAll(', ', ' '), 'result');

/** The rows over the means: stage in force, bans; each only where the rules have any. */
function rowsAbove(strip: RuleStrip, kind: StripKind, first: number): ModelCell[][] {
  const days = Array.from({ length: BLOCK_DAYS }, (_, i) => first + i);
  const row = (name: string, values: string[]): ModelCell[] => [
    name,
    ...days.map((i) => cell(values[i] || 'none', 'text')),
  ];
  return [
    ...(strip.stages.some((s) => s !== '') ? [row('stage in force', strip.stages)] : []),
    ...(kind.bans.some((b) => b !== '') ? [row('banned', kind.bans)] : []),
  ];
}

function blockTable(
  draft: SheetDraft,
  name: string,
  strip: RuleStrip,
  kind: StripKind,
  first: number,
): void {
  const columns: ColumnSpec[] = [
    { key: 'means', header: 'Means', width: 14 },
    ...Array.from({ length: BLOCK_DAYS }, (_, i): ColumnSpec => ({
      key: `d${i}`,
      header: dayName(strip.from + first + i),
      width: 11.5,
      style: 'result',
      align: 'center',
      wrap: true,
    })),
  ]; // prettier-ignore
  const rows: ModelCell[][] = [
    ...rowsAbove(strip, kind, first),
    ...kind.means.map(({ means, hours }): ModelCell[] => [
      means,
      ...hours.slice(first, first + BLOCK_DAYS).map(hoursCell),
    ]),
  ];
  draft.table(name, columns, rows.length, (i) => rows[i]!);
}

const counted = (n: number, one: string): string => `${n} ${one}${n === 1 ? '' : 's'}`;
const LINE = 150;

/** What hours alone do not say, for a kind. */
function remarks(kind: StripKind): RichCell[] {
  return kind.means
    .filter((m) => m.remarks.length > 0)
    .flatMap((m) => lines(`${m.means}: ${m.remarks.join('; ')}`, LINE).map((l) => cell(l, 'note')));
}

function ruleDaysSheet(ctx: Context, table: RuleTable): Sheet {
  const { plan, kit, madeOn } = ctx;
  const strip = ruleStrip(
    table,
    plan.trees.map(({ tree }) => tree),
    kit,
    stripStart(madeOn, plan.site),
  );
  const draft = new SheetDraft('Rule days', 'Rule days');
  const rain = table.rows.filter(({ rain: r }) => r !== null).map(({ row }) => row);
  draft.text([
    cell(`Six weeks of rules from ${dayName(strip.from)} ${civil(strip.from).year}`, 'title'),
    cell('Bold: hours open to a means. The word “closed”: no watering by it on that day. The crew’s own work days are not looked at here.', 'note'),
    ...(rain.length > 0 ? [cell(`Rain may close more days: see row ${rain.join(', ')} of the rules.`, 'look')] : []),
    ...(strip.more.kinds > 0
      ? [cell(`${counted(strip.more.kinds, 'more kind')} of trees under these rules, ${counted(strip.more.trees, 'tree')}, are not shown; the most common ${strip.kinds.length} are.`, 'look')]
      : []),
    ...(strip.kinds.length === 0 ? [cell('No tree could be planned, so there are no days to show.', 'look')] : []),
  ]); // prettier-ignore
  strip.kinds.forEach((kind, k) => {
    draft.skip();
    const one = strip.kinds.length === 1 && strip.more.kinds === 0;
    const head = one
      ? `All trees, as ${kind.example}`
      : `Kind ${k + 1}: ${counted(kind.trees, 'tree')}, as ${kind.example}`;
    draft.text([cell(head, 'heading'), ...remarks(kind)]);
    for (let first = 0, b = 0; first < strip.days; first += BLOCK_DAYS, b++) {
      if (b > 0) draft.skip();
      blockTable(draft, `RuleDays${k + 1}${letter(b)}`, strip, kind, first);
    }
    if (k < strip.kinds.length - 1) draft.breakAfter(draft.row);
  });
  return draft.done();
}

/** The sheets Rules and Rule days. */
export function ruleSheets(ctx: Context): Sheet[] {
  const reading = understandTables(ctx.ruleRows, ctx.stageRows);
  return [rulesSheet(ctx, reading), ruleDaysSheet(ctx, reading.table)];
}
