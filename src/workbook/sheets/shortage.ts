/** Shortage: who is served when there is less than the plan takes, who is not, why, and what that means for each. */
import { TRIAGE_ORDER_NAMES, TRIAGE_TABLES } from '../../engine/contract/triage-orders.js';
import type { TriageRow } from '../../engine/contract/triage.js';
import { LIMIT_NAMES } from '../../tables/shortage.js';
import {
  cell,
  formula,
  lines,
  SheetDraft,
  type Format,
  type ModelCell,
  type RichCell,
  type Scalar,
  type TablePlace,
} from '../model.js';
import type { ShortageAnswer } from '../service-papers.js';
import { changedTotal, joined, stateCell } from './as-planned.js';
import type { Total } from './checks.js';
import { typedNumber, type Context } from './context.js';
import type { Built } from './inputs.js'; // prettier-ignore

const WIDTH = 180;
/** The state of a limit that nobody changed. */
const AS_PLANNED = '✓ as planned';

const trees = (n: number): string => (n === 1 ? 'one tree' : `${n} trees`);

/** The answer in a few sentences. */
function sentences(ctx: Context, answer: ShortageAnswer): string[] {
  const { order, result, next } = answer;
  const gal = ctx.unit('volume');
  const { served, notServed, stressDays, says, source, selection } = result;
  const takes = ctx.plan.trees.reduce((sum, t) => sum + t.chosen.litres * t.tree.count, 0);
  const shown = (litres: number): string =>
    `${Math.round(ctx.show('volume', litres)).toLocaleString('en-US')} ${gal}`;
  const { seasonLitres } = answer.limits;
  return [
    `The plan takes ${shown(takes)}${seasonLitres === undefined ? '' : `; there are ${shown(seasonLitres)}, ${Math.round((100 * seasonLitres) / takes)} % of it`}.`,
    `Served: ${trees(served)}. Not served: ${trees(notServed)}, which would have ${stressDays.toLocaleString('en-US')} days under stress together, with rain alone.`,
    `Order "${order}": ${says}. Source: ${source}. Published orders conflict; the choice is the office’s.`,
    ...next.map(({ budget, trees: more, stressDays: saved }) => {
      const what = budget.startsWith('crew') ? `One more crew hour (${budget})` : `1,000 ${gal} more (${budget})`;
      if (more === 0 && saved === 0) return `${what} would serve no further tree.`;
      const who = more === 0 ? 'as many trees, others among them,' : `${trees(Math.abs(more))} ${more > 0 ? 'more' : 'fewer'}`;
      return `${what} would serve ${who} and ${saved < 0 ? 'cost' : 'save'} ${Math.abs(saved).toLocaleString('en-US')} days under stress.`;
    }),
    'A row of trees is served whole or not at all, all season: half the water for every tree is not tried here.',
    selection.exact
      ? 'Proven: within these limits no other choice is better by this order.'
      : 'The search was cut: another choice could serve a little more.',
  ];
} // prettier-ignore

/** Not served first, by rank; then the served. */
const inOrder = (rows: readonly TriageRow[]): TriageRow[] =>
  [...rows].sort((a, b) => Number(a.served) - Number(b.served) || a.rank - b.rank || a.tree.row - b.tree.row); // prettier-ignore

export function shortageSheet(
  ctx: Context,
  answer: ShortageAnswer,
): Built<{ place: TablePlace; limits: TablePlace; totals: Total[] }> {
  const { result, limits: given, order } = answer;
  const gal = ctx.unit('volume');
  const draft = new SheetDraft('Shortage', 'Shortage', { orientation: 'landscape' }, 9);
  draft.text([
    cell('Shortage', 'title'),
    cell('Who is served if there is only this much. Change a limit or the order, then plan again; until then its state says so. The other sheets show the plan without these limits.', 'note'),
  ]); // prettier-ignore
  draft.skip();
  const show = (litres: number | undefined): Scalar => (litres === undefined ? null : typedNumber(ctx.show('volume', litres))); // prettier-ignore
  const rows: [string, Scalar, string, Format][] = [
    [LIMIT_NAMES.order, order, '', 'text'],
    [LIMIT_NAMES.weekLitres, show(given.weekLitres), gal, 'whole'],
    [LIMIT_NAMES.seasonLitres, show(given.seasonLitres), gal, 'whole'],
    [LIMIT_NAMES.weekMinutes, given.weekMinutes ?? null, 'min', 'whole'],
  ];
  const limits = draft.table(
    'ShortageLimits',
    [
      { key: 'name', header: 'Limit', width: 22 },
      { key: 'value', header: 'Value', width: 13, style: 'input', align: 'right' },
      { key: 'unit', header: 'Unit', width: 20 },
      { key: 'state', header: 'State', width: 21, style: 'fine' },
      { key: 'planned', header: 'As planned', width: 18, style: 'note' },
    ],
    rows.length,
    (i, at): ModelCell[] => {
      const [name, value, unit, format] = rows[i]!;
      const own = ['name', 'value', 'unit'].map((key) => at.here(key, i));
      return [
        name,
        { value, format },
        unit,
        stateCell(own, at.here('planned', i), `"${AS_PLANNED}"`, AS_PLANNED),
        joined([name, value, unit]),
      ];
    },
  );
  draft.when(limits.area('state'), `${limits.here('state', 0)}<>"${AS_PLANNED}"`, 'look');
  draft.validate(`${limits.letter('value')}${limits.row(0)}`, [...TRIAGE_ORDER_NAMES], `One of: ${TRIAGE_ORDER_NAMES.join(', ')}`); // prettier-ignore
  draft.skip();
  draft.text([
    cell('What comes out', 'heading'),
    ...sentences(ctx, answer).flatMap((s) => lines(s, WIDTH).map((line) => cell(line))),
  ]);
  draft.skip();
  draft.text([cell('Row by row, those not served first', 'heading')]);
  const byRow = new Map(ctx.plan.trees.map((t) => [t.tree.row, t]));
  const all = inOrder(result.rows);
  const place = draft.table(
    'Served',
    [
      { key: 'tree', header: 'Tree', width: 22, format: 'text', align: 'left' },
      { key: 'served', header: 'Served', width: 13, style: 'result' },
      { key: 'why', header: 'Why not', width: 44, wrap: true },
      { key: 'species', header: 'Species', width: 16, wrap: true },
      { key: 'site', header: 'Site', width: 18, wrap: true },
      { key: 'count', header: 'Trees', width: 7, format: 'whole' },
      { key: 'planted', header: 'Planted', width: 11, format: 'date' },
      { key: 'rank', header: 'Rank (of all)', width: 7, style: 'calculation', format: 'whole' },
      { key: 'water', header: `Water of the season (${gal})`, width: 11, style: 'calculation', format: 'whole' },
      { key: 'stress', header: 'Stress days without it, each', width: 11, style: 'result', format: 'whole' },
      { key: 'ks', header: 'Ks at its least without it', width: 9, style: 'calculation', format: 'two' },
    ],
    all.length,
    (i): ModelCell[] => {
      const { tree, served, why, rank } = all[i]!;
      const planned = byRow.get(tree.row)!;
      return [
        tree.id || `row ${tree.row}`,
        cell(served ? '✓ served' : '▲ not served', served ? 'fine' : 'look'),
        why,
        planned.tree.species, planned.tree.site, tree.count, tree.planted ?? null, rank,
        ctx.show('volume', planned.chosen.litres * tree.count),
        tree.leftOut?.stressDays ?? null,
        tree.leftOut?.leastKs ?? null,
      ];
    },
  ); // prettier-ignore
  draft.skip();
  totals(ctx, draft, answer, place, limits);
  draft.skip();
  orders(draft);
  draft.freeze(0, 1);
  const changed = changedTotal('Limits on Shortage changed since the plan = 0', limits.range('state'), `"${AS_PLANNED}"`); // prettier-ignore
  return { sheet: draft.done(), refs: { place, limits, totals: [changed] } };
}

/** The list added up again, against the limit. */
function totals(ctx: Context, draft: SheetDraft, { result, limits: given }: ShortageAnswer, place: TablePlace, limits: TablePlace): void {
  const gal = ctx.unit('volume');
  const litres = (served: boolean): number =>
    result.rows.filter((r) => r.served === served).reduce((sum, { tree }) => sum + ctx.plan.trees.find((t) => t.tree.row === tree.row)!.chosen.litres * tree.count, 0);
  const [word, water] = [place.range('served'), place.range('water')];
  const days = `SUMPRODUCT((${word}="▲ not served")*${place.range('count')}*${place.range('stress')})`;
  const rows: [string, RichCell, string][] = [
    ['Trees served', formula(`SUMIF(${word},"✓ served",${place.range('count')})`, result.served), 'trees'],
    ['Trees not served', formula(`SUMIF(${word},"▲ not served",${place.range('count')})`, result.notServed), 'trees'],
    ['Water of those served', formula(`SUMIF(${word},"✓ served",${water})`, ctx.show('volume', litres(true))), gal],
    ['Water of those not served', formula(`SUMIF(${word},"▲ not served",${water})`, ctx.show('volume', litres(false))), gal],
    ['Days under stress of those not served', formula(days, result.stressDays), 'days'],
    ...(given.seasonLitres === undefined
      ? []
      : ([['Left of the season’s water', formula(`${limits.cell('value', 2)}-SUMIF(${word},"✓ served",${water})`, ctx.show('volume', given.seasonLitres - litres(true))), gal]] as [string, RichCell, string][])),
  ];
  draft.text([cell('Added up', 'heading')]);
  draft.table(
    'ServedTotals',
    [
      { key: 'what', header: 'What', width: 22, wrap: true },
      { key: 'value', header: 'Number', width: 13, style: 'result', format: 'whole' },
      { key: 'unit', header: 'Unit', width: 44 },
    ],
    rows.length,
    (i) => rows[i]!,
  );
} // prettier-ignore

/** The orders there are, with their sources. */
function orders(draft: SheetDraft): void {
  const [table] = TRIAGE_TABLES;
  draft.text([cell('Orders to choose from; they conflict', 'heading')]);
  draft.table(
    'ServedOrders',
    [
      { key: 'order', header: 'Order', width: 22 },
      { key: 'certainty', header: 'Certainty', width: 13, wrap: true },
      { key: 'says', header: 'What it says', width: 44, wrap: true },
      { key: 'source', header: 'Source', width: 16, wrap: true },
    ],
    table!.rows.length,
    (i) => {
      const { cells, certainty, source } = table!.rows[i]!;
      return [String(cells[0]), certainty, String(cells[1]), source];
    },
  );
}
