/** Service: what the log proves. Invoice backup by contract line, trees against the plan, planned visits made and missed. */
import { bindsOn, type Clause } from '../../engine/contract/clauses.js';
import {
  invoiceLines,
  productivity,
  treeTotals,
  type PlannedVisit,
} from '../../engine/contract/log-totals.js';
import { minutesAt, plainName, type LogRow } from '../../engine/contract/visit-log.js';
import { dayOf, isoDate, type Day } from '../../engine/dates.js';
import {
  cell,
  formula,
  SheetDraft,
  type ModelCell,
  type RichCell,
  type Scalar,
  type TablePlace,
} from '../model.js';
import type { PaperTree, ServicePapers } from '../service-papers.js';
import type { Context } from './context.js';
import type { Built } from './inputs.js';
import type { LogRefs } from './log.js';
import { visitKey } from './log-values.js'; // prettier-ignore

/** Waterings the crew was to bring on the days of the log, a tree each. */
export function plannedVisits(ctx: Context, log: readonly LogRow[]): PlannedVisit[] {
  if (log.length === 0) return [];
  const from = Math.min(...log.map((r) => r.day));
  const to = Math.max(...log.map((r) => r.day));
  return ctx.plan.trees
    .flatMap(({ tree, chosen }) =>
      chosen.plan
        .filter((w) => w.day >= from && w.day <= to && !ctx.automatic(w.device))
        .map((w) => ({ tree: tree.id || String(tree.row), day: w.day, litres: w.litres })),
    )
    .sort((a, b) => a.day - b.day || (a.tree < b.tree ? -1 : a.tree > b.tree ? 1 : 0));
}

/** Rows the sheet stands on before its tables are laid: the log points at the planned visits. */
export const DUE_TOP = 6;
export const dueKeys = (due: readonly PlannedVisit[]): string =>
  `Service!$G$${DUE_TOP + 1}:$G$${DUE_TOP + Math.max(1, due.length)}`;

/** What a clause asks of a row of the log, in numbers a formula can compare. */
interface Bounds {
  who: string;
  low: number;
  high: number;
  first: Day;
  last: Day;
  /** days since planting; both 0 where the clause does not go by age */
  ageFrom: number;
  ageTo: number;
  /** months since planting up to which it holds; 0 for none */
  months: number;
}

const ALWAYS = { first: dayOf(2000, 1, 1), last: dayOf(2099, 12, 31) } as const;
/** A number no age, size or month reaches. */
const ENDLESS = 1_000_000;

/** @returns a sentence where a formula cannot say when the clause binds */
function boundsOf(ctx: Context, clause: Clause): Bounds | string {
  const { who, from, to, until } = clause;
  const byAge = from?.kind === 'age' || to?.kind === 'age';
  const bounds: Bounds = {
    who: who.kind === 'species' || who.kind === 'site' ? `${who.kind}: ${who.name}` : who.kind,
    low: 'low' in who ? ctx.show(who.kind === 'height' ? 'canopy' : 'trunk', who.low) : 0,
    high: 'high' in who && Number.isFinite(who.high) ? ctx.show(who.kind === 'height' ? 'canopy' : 'trunk', who.high) : ENDLESS,
    ...ALWAYS,
    ageFrom: from?.kind === 'age' ? from.days : 0,
    ageTo: to?.kind === 'age' ? to.days : byAge ? ENDLESS : 0,
    months: until && 'months' in until ? until.months : 0,
  };
  const dated: Clause = { ...clause, from: from?.kind === 'age' ? null : from, to: to?.kind === 'age' ? null : to, until: until && 'day' in until ? until : null };
  if (dated.from === null && dated.to === null && dated.until === null) return bounds;
  const { seasonFrom, seasonTo } = ctx.plan.site;
  const days = Array.from({ length: seasonTo - seasonFrom + 1 }, (_, i) => seasonFrom + i).filter((day) => bindsOn(dated, day, undefined));
  if (days.length === 0) return 'it binds on no day of this season';
  const [first, last] = [days[0]!, days.at(-1)!];
  if (last - first + 1 !== days.length) return 'it binds on two stretches of this season, which one line cannot add up';
  return { ...bounds, first, last };
} // prettier-ignore

function invoiceTable(
  ctx: Context,
  draft: SheetDraft,
  { clauses, log, trees }: ServicePapers,
  logRefs: LogRefs,
): void {
  const gal = ctx.unit('volume');
  const backed = clauses.flatMap((clause) => {
    const bounds = boundsOf(ctx, clause);
    return typeof bounds === 'string' ? [] : [{ clause, bounds }];
  });
  const known: PaperTree[] = [...trees];
  const lines = invoiceLines(log, known.map((t) => ({ ...t, count: 1 })), backed.map((b) => b.clause)); // prettier-ignore
  draft.text([
    cell('Invoice backup by contract line', 'heading'),
    cell('Visits with water to the trees a line speaks of, on days it binds. A visit may back several lines.', 'note'),
    ...clauses.flatMap((clause): RichCell[] => {
      const why = boundsOf(ctx, clause);
      return typeof why === 'string' ? [cell(`▲ Contract row ${clause.row} is left out: ${why}.`, 'look')] : [];
    }),
  ]); // prettier-ignore
  const log$ = (key: string): string => logRefs.place.range(key);
  const number = { style: 'calculation', width: 10, format: 'general', align: 'right' } as const;
  const result = { style: 'result', width: 10, format: 'whole' } as const;
  draft.table(
    'InvoiceBackup',
    [
      { key: 'line', header: 'Contract line', width: 26, wrap: true },
      { key: 'visits', header: 'Visits', ...result },
      { key: 'litres', header: `Water (${gal})`, ...result, format: 'one' },
      { key: 'minutes', header: 'Minutes there', ...result },
      { key: 'who', header: 'Speaks of', width: 20, style: 'calculation' },
      { key: 'low', header: 'Size from (in its unit)', ...number },
      { key: 'high', header: 'Size below (in its unit)', ...number },
      { key: 'first', header: 'First day (date)', ...number, format: 'date' },
      { key: 'last', header: 'Last day (date)', ...number, format: 'date' },
      { key: 'ageFrom', header: 'Age from (days)', ...number },
      { key: 'ageTo', header: 'Age to (days)', ...number },
      { key: 'months', header: 'Until (months)', ...number },
    ],
    backed.length,
    (i, at): ModelCell[] => {
      const { clause, bounds } = backed[i]!;
      const here = (key: string): string => at.here(key, i);
      const size = (key: string, word: string): string =>
        `(${here('who')}="${word}")*(${log$(key)}>0)*(${log$(key)}*(1+1E-12)>=${here('low')})*(${log$(key)}*(1+1E-12)<${here('high')})`;
      const speaks = `((${here('who')}="all")+${size('caliper', 'caliper')}+${size('height', 'height')}+("species: "&${log$('species')}=${here('who')})+("site: "&${log$('site')}=${here('who')}))>0`;
      const old = `(${log$('plantedOn')}>0)`;
      const age = `(${log$('date')}-${log$('plantedOn')})`;
      const binds = [
        `(${log$('date')}>=${here('first')})`,
        `(${log$('date')}<=${here('last')})`,
        `(((${log$('plantedOn')}=0)+(${age}>=0))>0)`,
        `(((${here('ageTo')}=0)+${old}*(${age}>=${here('ageFrom')})*(${age}<=${here('ageTo')}))>0)`,
        `(((${here('months')}=0)+${old}*(${log$('monthsOld')}<${here('months')}))>0)`,
      ].join('*');
      const backs = `(${log$('water')}=1)*(${log$('place')}>0)*(${speaks})*${binds}`;
      const line = lines[i]!;
      return [
        `Contract row ${clause.row}${clause.source === '' ? '' : `: ${clause.source}`}`,
        formula(`SUMPRODUCT(${backs})`, line.visits),
        formula(`SUMPRODUCT(${backs}*${log$('dose')})`, ctx.show('volume', line.litres)),
        formula(`SUMPRODUCT(${backs}*(${log$('timed')}=1)*(${log$('to')}-${log$('from')}))`, line.minutes),
        bounds.who, bounds.low, bounds.high, bounds.first, bounds.last, bounds.ageFrom, bounds.ageTo, bounds.months,
      ];
    },
  ); // prettier-ignore
}

function treesTable(
  ctx: Context,
  draft: SheetDraft,
  { log }: ServicePapers,
  due: readonly PlannedVisit[],
  logRefs: LogRefs,
  duePlace: TablePlace,
): TablePlace {
  const gal = ctx.unit('volume');
  const totals = treeTotals(log, due);
  const log$ = (key: string): string => logRefs.place.range(key);
  const column = { width: 10, style: 'calculation', format: 'whole' } as const;
  return draft.table(
    'ServiceTrees',
    [
      { key: 'tree', header: 'Tree', width: 26, format: 'text', align: 'left' },
      { key: 'made', header: 'Visits made', ...column, style: 'result' },
      { key: 'skipped', header: 'Visits skipped', ...column },
      { key: 'missed', header: 'Visits missed', ...column, style: 'result' },
      { key: 'planned', header: `Planned (${gal})`, ...column, format: 'one', width: 20 },
      { key: 'applied', header: `Applied (${gal})`, ...column, format: 'one' },
      { key: 'gap', header: `Applied less planned (${gal})`, ...column, format: 'one', style: 'result' },
      { key: 'name', header: 'Tree, plain', width: 10, style: 'calculation' },
    ],
    totals.length,
    (i, at): ModelCell[] => {
      const t = totals[i]!;
      const name = at.here('name', i);
      return [
        t.tree,
        formula(`COUNTIFS(${log$('name')},${name},${log$('water')},1)`, t.made),
        formula(`SUMPRODUCT((${log$('name')}=${name})*(${log$('water')}=0)*(${log$('skipped')}<>""))`, t.skipped),
        formula(`COUNTIFS(${duePlace.range('name')},${name},${duePlace.range('answered')},0)`, t.missed),
        formula(`SUMIFS(${duePlace.range('volume')},${duePlace.range('name')},${name})`, ctx.show('volume', t.planned)),
        formula(`SUMIFS(${log$('applied')},${log$('name')},${name})`, ctx.show('volume', t.applied)),
        formula(`${at.here('applied', i)}-${at.here('planned', i)}`, ctx.show('volume', t.applied) - ctx.show('volume', t.planned)),
        formula(`LOWER(TRIM(${at.here('tree', i)}))`, plainName(t.tree)),
      ];
    },
  ); // prettier-ignore
}

/** What crews got done, for the next estimate. */
function productivityTable(
  ctx: Context,
  draft: SheetDraft,
  { log }: ServicePapers,
  logRefs: LogRefs,
): void {
  const done = productivity(log);
  const gal = ctx.unit('volume');
  const timed = log.filter((r) => (r.applied ?? 0) > 0 && minutesAt(r) !== undefined);
  const stood = timed.reduce((sum, r) => sum + minutesAt(r)!, 0);
  const given = timed.reduce((sum, r) => sum + r.applied!, 0);
  const log$ = (key: string): string => logRefs.place.range(key);
  const own = `(${log$('water')}=1)*(${log$('timed')}=1)`;
  const rows: [string, RichCell | Scalar, string][] = [
    ['Visits with water and times', formula(`SUMPRODUCT(${own})`, timed.length), 'visits'],
    ['Minutes at a tree', formula(`IF(SUMPRODUCT(${own})=0,"",SUMPRODUCT(${own}*(${log$('to')}-${log$('from')}))/SUMPRODUCT(${own}))`, timed.length === 0 ? '' : stood / timed.length), 'min'],
    ['Water a tree', formula(`IF(SUMPRODUCT(${own})=0,"",SUMPRODUCT(${own}*${log$('dose')})/SUMPRODUCT(${own}))`, timed.length === 0 ? '' : ctx.show('volume', given / timed.length)), gal],
    ...(done
      ? ([
          ['Crew days with two visits and more', done.crewDays, 'crew days, when this workbook was made'],
          ['Trees in a crew day', done.treesPerDay, 'trees, when this workbook was made'],
          ['Minutes from one tree to the next', done.minutesBetween, 'min, when this workbook was made'],
        ] as [string, Scalar, string][])
      : []),
  ]; // prettier-ignore
  draft.text([cell('What crews got done: for the next estimate', 'heading')]);
  draft.table(
    'Productivity',
    [
      { key: 'what', header: 'What', width: 26, wrap: true },
      { key: 'value', header: 'Number', width: 10, style: 'result', format: 'one' },
      { key: 'unit', header: 'Unit', width: 10 },
    ],
    rows.length,
    (i) => rows[i]!,
  );
}

export function serviceSheet(
  ctx: Context,
  papers: ServicePapers,
  due: readonly PlannedVisit[],
  log: LogRefs,
): Built<{ due: TablePlace; trees: TablePlace }> {
  const draft = new SheetDraft('Service', 'Service', { orientation: 'portrait' }, 9);
  const days = papers.log.map((r) => r.day);
  const span = days.length === 0 ? 'The log is empty.' : `The log runs from ${isoDate(Math.min(...days))} to ${isoDate(Math.max(...days))}.`; // prettier-ignore
  draft.text([
    cell('Service', 'title'),
    cell(`What the log proves, added up by formulas. ${span}`, 'note'),
    cell('A planned visit is made when a row of the log lies within a day of it; a row with a reason to skip answers it, too.', 'note'),
    cell(null),
    cell('Planned visits of the crew on the days of the log', 'heading'),
  ]); // prettier-ignore
  const answered = new Set(log.values.map((v) => v['nearKey']).filter((k) => k !== ''));
  const gal = ctx.unit('volume');
  const duePlace = draft.table(
    'VisitsDue',
    [
      { key: 'tree', header: 'Tree', width: 26, format: 'text', align: 'left' },
      { key: 'date', header: 'Planned on', width: 10, style: 'calculation', format: 'date' },
      { key: 'volume', header: `Planned (${gal})`, width: 10, style: 'calculation', format: 'one' },
      { key: 'state', header: 'Visit is', width: 20, style: 'result' },
      { key: 'answered', header: 'Answered (0 or 1)', width: 10, style: 'calculation', format: 'whole' },
      { key: 'name', header: 'Tree, plain', width: 10, style: 'calculation' },
      { key: 'key', header: 'Visit', width: 16, style: 'calculation' },
    ],
    due.length,
    (i, at): ModelCell[] => {
      const { tree, day, litres } = due[i]!;
      const key = visitKey(day, tree);
      const here = (k: string): string => at.here(k, i);
      const made = answered.has(key);
      return [
        tree,
        day,
        ctx.show('volume', litres),
        formula(`IF(${here('answered')}=1,"✓ in the log","▲ missed")`, made ? '✓ in the log' : '▲ missed'),
        formula(`IF(COUNTIF(${log.place.range('nearKey')},${here('key')})>0,1,0)`, made ? 1 : 0),
        formula(`LOWER(TRIM(${here('tree')}))`, plainName(tree)),
        formula(`"d"&${here('date')}&"@"&${here('name')}`, key),
      ];
    },
  ); // prettier-ignore
  if (duePlace.headerRow !== DUE_TOP) throw new RangeError('the planned visits of Service moved');
  draft.when(duePlace.area('state'), `$${duePlace.letter('answered')}${duePlace.row(0)}=0`, 'look');
  draft.skip();
  if (papers.clauses.length > 0) {
    invoiceTable(ctx, draft, papers, log);
    draft.skip();
  }
  productivityTable(ctx, draft, papers, log);
  draft.breakAfter(draft.row - 1).skip();
  draft.text([cell('Trees against the plan', 'heading')]);
  const trees = treesTable(ctx, draft, papers, due, log, duePlace);
  return { sheet: draft.done(), refs: { due: duePlace, trees } };
}
