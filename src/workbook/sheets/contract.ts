/** Contract: its clauses as rows, what each asks of the plan, where it is short, and where it fights with the rules. */
import {
  checkContract,
  serviceOf,
  type ClauseResult,
} from '../../engine/contract/contract-check.js';
import { contractAgainstRules } from '../../engine/contract/contract-law.js';
import { contractAgainstNeed } from '../../engine/contract/contract-need.js';
import type { Clause } from '../../engine/contract/clauses.js';
import { FAMILIES } from '../../engine/plan/model.js';
import { parseRules } from '../../engine/rules/rule-table.js';
import { isBlank, plainLabel, splitHeader, type Cell } from '../../tables/cells.js';
import { CONTRACT_COLUMNS } from '../../tables/contract.js';
import { cell, formula, letter, lines, SheetDraft, tidy, uniqueHeaders, type ColumnSpec, type ModelCell, type RichCell, type Style, type TablePlace } from '../model.js'; // prettier-ignore
import { isDay } from '../../engine/dates.js';
import type { ServicePapers } from '../service-papers.js';
import { changedTotal, joined, stateCell } from './as-planned.js';
import type { Total } from './checks.js';
import { widthFor, type Context } from './context.js';
import type { Built } from './inputs.js';

/** First of the columns beside the contract's own: what stands from here on is worked out. */
export const CONTRACT_STATE = 'State of the plan';

const WIDTH = 180;

/** Words to pick from, by column. */
const LISTS: Readonly<Record<string, readonly string[]>> = {
  [CONTRACT_COLUMNS.leastPer.name]: ['visit', 'week', 'month'],
  [CONTRACT_COLUMNS.visitsPer.name]: ['week', 'month'],
  [CONTRACT_COLUMNS.mostPer.name]: ['week', 'month', 'season'],
};

const VERDICTS: Readonly<Record<ClauseResult['verdict'], string>> = {
  met: '✓ met',
  short: '▲ short',
  over: '▲ over',
  nobody: '– no tree',
  'cannot tell': '▲ cannot tell',
};

interface Row {
  given: Cell[];
  clause: Clause | undefined;
  result: ClauseResult | undefined;
  law: string;
}

/** Rows of the table as given, with what is known of each. */
function rowsOf(ctx: Context, { contractRows, clauses }: ServicePapers): { header: Cell[]; rows: Row[] } {
  const top = contractRows.findIndex((line) => line.some((c) => !isBlank(c)));
  const header = contractRows[top] ?? [];
  const rules = parseRules(ctx.ruleRows, ctx.stageRows);
  const { seasonFrom, seasonTo } = ctx.plan.site;
  const results = checkContract(serviceOf(ctx.plan), clauses);
  const families = FAMILIES.filter((f) => ctx.kit.some((device) => device.family === f));
  const fights = contractAgainstRules(ctx.plan.trees.map((t) => t.tree), clauses, rules, seasonFrom, seasonTo, families);
  const rows = contractRows.flatMap((given, i): Row[] => {
    if (i <= top || given.every((c) => isBlank(c))) return [];
    const at = clauses.findIndex((clause) => clause.row === i + 1);
    const own = fights.filter(({ clause }) => clause.row === i + 1);
    return [{ given, clause: clauses[at], result: results[at], law: own.map((f) => f.sentence).join(' ') }];
  });
  return { header, rows };
} // prettier-ignore

/** The word for a clause, and how it looks. */
function judgedWord({ clause, result }: Row): { word: string; style: Style } {
  if (!clause || !result) return { word: '▲ not read', style: 'look' };
  const { verdict } = result;
  return {
    word: VERDICTS[verdict],
    style: verdict === 'met' ? 'fine' : verdict === 'nobody' ? 'note' : 'look',
  };
}

/** What stands beside the state. */
function resultCells(ctx: Context, { clause, result, law }: Row): ModelCell[] {
  if (!clause || !result) return [null, null, null, 'its row could not be read: see About', ''];
  const { trees, litres, visits, where, cost } = result;
  const over = cost === undefined || cost === 0 ? '' : `costs ${cost.toFixed(2)} ${ctx.plan.site.currency}; `;
  return [trees, ctx.show('volume', litres), visits, `${over}${where}`, law];
} // prettier-ignore

/** Contract, law and tree side by side, in a few sentences. */
function sentences(ctx: Context, { clauses }: ServicePapers, rows: readonly Row[]): string[] {
  const gal = ctx.unit('volume');
  const needs = contractAgainstNeed(ctx.plan, clauses);
  const surplus = needs.reduce((sum, n) => sum + n.surplus, 0);
  const cost = needs.reduce((sum, n) => sum + n.cost, 0);
  const more = needs.filter((n) => n.surplus > 0).length;
  const states = new Map<string, number>();
  for (const { result } of rows)
    if (result) states.set(result.verdict, (states.get(result.verdict) ?? 0) + 1);
  return [
    `Of ${rows.length} clauses: ${[...states].map(([verdict, n]) => `${n} ${verdict}`).join(', ')}.`,
    'The law goes first, the contract second, the tree third: least visits are kept on the days the rules leave; a tree gets no more than its root zone holds.',
    more === 0
      ? 'The contract asks for no more water than the plan gives any tree.'
      : `Taken literally the contract asks for ${Math.round(ctx.show('volume', surplus)).toLocaleString('en-US')} ${gal} more than the plan gives, on ${more} rows of trees: water they cannot use, ${cost.toFixed(2)} ${ctx.plan.site.currency} at the price of this site.`,
  ];
} // prettier-ignore

export interface ContractRefs {
  place: TablePlace;
  /** rows of the table that are clauses, in the order of the clauses */
  rowOf: (clause: Clause) => number;
  /** what Checks says of rows that are others than those planned with */
  totals: Total[];
}

/** Rows below the table in which a clause may be added before the plan is made again. */
const BELOW = 100;

/** Rows that somebody changed, added or took out after the plan was made. */
function staleTotals(place: TablePlace, ownColumns: number, rows: number): Total[] {
  const [first, last] = [place.row(place.count), place.row(place.count + BELOW - 1)];
  const filled = Array.from({ length: ownColumns }, (_, c) => `(Contract!$${letter(c)}$${first}:$${letter(c)}$${last}<>"")`); // prettier-ignore
  return [
    changedTotal('Contract rows changed since the plan = 0', place.range('state'), place.range('judged')), // prettier-ignore
    {
      what: 'Contract rows: planned with = on Contract',
      left: cell(rows),
      right: formula(`ROWS(${place.range('state')})+SUMPRODUCT(((${filled.join('+')})>0)*1)`, rows),
    },
  ];
}

/** What is worked out for each clause, beside its own columns. */
const resultColumns = (gal: string): ColumnSpec[] => [
  { key: 'state', header: CONTRACT_STATE, width: 21, style: 'result' },
  { key: 'trees', header: 'Trees spoken of', width: 9, style: 'calculation', format: 'whole' },
  { key: 'litres', header: `Short by, or over (${gal})`, width: 11, style: 'result', format: 'one' },
  { key: 'visits', header: 'Visits short (visits)', width: 9, style: 'result', format: 'whole' },
  { key: 'where', header: 'Where', width: 40, style: 'note', wrap: true },
  { key: 'law', header: 'Against the rules', width: 48, style: 'caution', wrap: true },
  { key: 'planned', header: 'As planned', width: 11, style: 'note' },
  { key: 'judged', header: 'State as planned', width: 14, style: 'note' },
]; // prettier-ignore

export function contractSheet(ctx: Context, papers: ServicePapers): Built<ContractRefs> {
  const { header, rows } = rowsOf(ctx, papers);
  const gal = ctx.unit('volume');
  const draft = new SheetDraft('Contract', 'Contract', { pagesWide: 2 }, 9);
  draft.text([
    cell('Contract', 'title'),
    ...[cell('One row a clause. Change or add rows, then plan again; the columns on the right are worked out for the plan of this workbook. A row that is no longer the one planned with says so.', 'note'),
      ...sentences(ctx, papers, rows).flatMap((s): RichCell[] => lines(s, WIDTH).map((line) => cell(line))),
      // beside the column that is repeated on every page, which would cut them off there
    ].map((line): RichCell[] => [cell(null), line]),
  ]); // prettier-ignore
  draft.skip();
  const beside = resultColumns(gal);
  const names = uniqueHeaders([
    ...beside.map((c) => c.header),
    ...header.map((h) => (h === null ? '' : String(h))),
  ]);
  const columns = names.slice(beside.length).map((text, i): ColumnSpec => {
    const cells = rows.map((row) => row.given[i]);
    const numeric = cells.some((c) => typeof c === 'number');
    return {
      key: `c${i}`, header: text, width: numeric || /^(from|to|until)$|\bper$/i.test(text) ? 10 : widthFor('', cells, 24), style: 'input', wrap: true,
      align: numeric ? 'right' : 'left',
    };
  }); // prettier-ignore
  const place = draft.table(
    'Contract',
    [...columns, ...beside],
    rows.length,
    (i, at): ModelCell[] => [
      ...columns.map((_, c): ModelCell => {
        const value = rows[i]!.given[c] ?? null;
        if (typeof value !== 'number') return value;
        const dated = /^(from|to|until)$/i.test(columns[c]!.header) && isDay(value);
        return { value, format: dated ? 'date' : tidy(value) };
      }),
      { ...stateCell(columns.map(({ key }) => at.here(key, i)), at.here('planned', i), at.here('judged', i), judgedWord(rows[i]!).word), style: judgedWord(rows[i]!).style },
      ...resultCells(ctx, rows[i]!),
      joined(columns.map((_, c) => rows[i]!.given[c] ?? null)),
      judgedWord(rows[i]!).word,
    ],
  ); // prettier-ignore
  const [state, judged] = [place.here('state', 0), place.here('judged', 0)];
  draft.when(place.area('state'), `${state}<>${judged}`, 'look');
  columns.forEach(({ header: text, key }) => {
    const name = splitHeader(text).name;
    const list = Object.entries(LISTS).find(([own]) => plainLabel(own) === plainLabel(name))?.[1];
    if (list) draft.validate(place.area(key), [...list], `One of: ${list.join(', ')}`);
  });
  draft.freeze(place.headerRow, 1).repeat(place.headerRow, place.headerRow, ['A', 'A']);
  return {
    sheet: draft.done(),
    refs: {
      place,
      rowOf: (clause) => rows.findIndex((row) => row.clause === clause),
      totals: rows.length === 0 ? [] : staleTotals(place, columns.length, rows.length),
    },
  };
}
