/** Checks: totals that must agree, as native formulas; everything somebody should look at. */
import {
  cell,
  formula,
  SheetDraft,
  type ModelCell,
  type RichCell,
  type TablePlace,
} from '../model.js';
import type { Estimate } from '../../engine/money/estimate.js';
import type { SiteKey } from '../../tables/site-inputs.js';
import { isAssumption, SITE_NOTES } from '../../tables/site-notes.js';
import { SITE_INPUTS, siteInput, siteValue } from '../../tables/site-inputs.js';
import type { Context } from './context.js';
import type { Built } from './inputs.js';
import { moneyTotals } from './checks-money.js';
import type { BalanceRefs } from './balance.js';
import type { CalendarRefs } from './calendar.js';
import type { ChartRefs } from './charts.js';
import type { EstimateRefs } from './estimate.js';
import type { MaterialRefs } from './materials.js';
import type { MeansRefs } from './means.js';

export interface CheckRefs {
  trees: TablePlace;
  plan: TablePlace;
  planRows: number;
  crew: TablePlace;
  peakEt0: string;
  site: (key: SiteKey) => string;
  means: MeansRefs;
  calendar: CalendarRefs;
  materials: MaterialRefs;
  estimate: EstimateRefs & { money: Estimate };
  charts: ChartRefs;
  /** the crew sheet in further languages */
  otherCrews: TablePlace[];
  balance: BalanceRefs;
  /** of contract, log and meters, where there are any */
  papers: Total[];
}

export interface Total {
  what: string;
  left: RichCell;
  right: RichCell;
}

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

function totals(ctx: Context, refs: CheckRefs): Total[] {
  const { plan, reading } = ctx;
  const { trees, crew } = refs;
  const show = (litres: number): number => ctx.show('volume', litres);
  const states = trees.range('state');
  const stateCount = (state: string): number => plan.trees.filter((t) => t.state === state).length;
  const rows = reading.rows.length;
  const litres = sum(plan.trees.map((t) => t.chosen.litres * t.tree.count));
  const listed = sum(plan.trees.flatMap((t) => t.chosen.plan.map((w) => w.litres * t.tree.count)));
  const byCrew = sum(
    plan.trees.flatMap((t) =>
      t.chosen.plan.filter((w) => !ctx.automatic(w.device)).map((w) => w.litres * t.tree.count),
    ),
  );
  const crewLitres = sum(plan.crewDays.map((d) => d.litres));
  const waterings = sum(plan.trees.map((t) => t.chosen.plan.length));
  const gal = ctx.unit('volume');
  const from = refs.site('seasonFrom');
  const to = refs.site('seasonTo');
  const dates = refs.plan.range('date');
  return [
    {
      what: 'Inventory rows read = rows on Trees',
      left: cell(rows),
      right: formula(`COUNT(${trees.range('row')})`, rows),
    },
    {
      what: 'Rows read = planned + cannot be kept + not planned',
      left: cell(rows),
      right: formula(
        ['planned', 'cannot be kept', 'not planned']
          .map((state) => `COUNTIF(${states},"${state}")`)
          .join('+'),
        stateCount('planned') + stateCount('cannot be kept') + (rows - plan.trees.length),
      ),
    },
    {
      what: 'Trees planned: as planned = on Trees',
      left: cell(sum(plan.trees.map((t) => t.tree.count))),
      right: formula(`SUM(${trees.range('count')})`, sum(plan.trees.map((t) => t.tree.count))),
    },
    {
      what: `Water of the season (${gal}): Trees = Plan`,
      left: formula(`SUM(${trees.range('season')})`, show(litres)),
      right: formula(`SUM(${refs.plan.range('volume')})`, show(listed)),
    },
    {
      what: `Water brought by the crew (${gal}): Plan = Crew`,
      left: formula(
        `SUMIF(${refs.plan.range('by')},"crew",${refs.plan.range('volume')})`,
        show(byCrew),
      ),
      right: formula(`SUM(${crew.range('volume')})`, show(crewLitres)),
    },
    ...moneyTotals(ctx, refs),
    ...pictureTotals(ctx, refs, litres),
    ...refs.papers,
    ...(ctx.joined !== 'no'
      ? []
      : [
          {
            what: 'Waterings and pad soakings: Trees = rows on Plan',
            left: formula(
              `SUM(${trees.range('waterings')})+SUM(${trees.range('soakings')})`,
              waterings,
            ),
            right: formula(`COUNT(${dates})`, refs.planRows),
          },
        ]),
    {
      what: 'Plan rows outside the season = 0',
      left: cell(0),
      right: formula(
        `COUNTIF(${dates},"<"&${from})+COUNTIF(${dates},">"&${to})`,
        sum(
          plan.trees.map(
            (t) =>
              t.chosen.plan.filter(
                (w) => w.day < plan.site.seasonFrom || w.day > plan.site.seasonTo,
              ).length,
          ),
        ),
      ),
    },
    {
      what: `Peak ET0 (${ctx.unit('depth')}/day): planned with = on Weather`,
      left: cell(ctx.show('depth', plan.weather.peakEt0)),
      right: formula(refs.peakEt0, ctx.show('depth', plan.weather.peakEt0)),
    },
    {
      what: `Demand in the peak month, one of each row (${gal}/day): planned with = on Trees`,
      left: cell(show(sum(plan.trees.map((t) => t.facts.peak.demand)))),
      right: formula(
        `SUM(${trees.range('demand')})`,
        show(sum(plan.trees.map((t) => t.facts.peak.demand))),
      ),
    },
    {
      what: `Usable water, one of each row (${gal}): planned with = on Trees`,
      left: cell(show(sum(plan.trees.map((t) => t.facts.peak.raw)))),
      right: formula(
        `SUM(${trees.range('usable')})`,
        show(sum(plan.trees.map((t) => t.facts.peak.raw))),
      ),
    },
  ];
}

/** Charts, further crew sheets and the balance of the picked tree against the sheets they follow. */
function pictureTotals(ctx: Context, { charts, calendar, crew, otherCrews, balance, plan }: CheckRefs, litres: number): Total[] {
  const gal = ctx.unit('volume');
  const crewLitres = ctx.show('volume', sum(ctx.plan.crewDays.map((d) => d.litres)));
  return [
    {
      what: `Water of the season (${gal}): Charts by week = Plan`,
      left: formula(`SUM(${charts.weeks.range('water')})`, ctx.show('volume', charts.litres)),
      right: formula(`SUM(${plan.range('volume')})`, ctx.show('volume', litres)),
    },
    {
      what: 'Crew hours: Charts = Calendar',
      left: formula(`SUM(${charts.hours.range('hours')})`, sum(ctx.plan.crewDays.map((d) => d.hours))),
      right: formula(`SUM(${calendar.days.range('hours')})`, calendar.hours),
    },
    ...otherCrews.map((other) => ({
      what: `Water brought by the crew (${gal}): Crew = the same in Spanish`,
      left: formula(`SUM(${crew.range('volume')})`, crewLitres),
      right: formula(`SUM(${other.range('volume')})`, crewLitres),
    })),
    ...balance.totals,
  ];
} // prettier-ignore

const agree = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-6 * Math.max(1, Math.abs(b));

/** What somebody should look at, with how many rows, days or cells it is about. */
interface Look {
  what: string;
  count: number;
}

function looks(ctx: Context, { complete }: MeansRefs): Look[] {
  const { plan, reading } = ctx;
  const out: Look[] = ctx.notes.map((what) => ({ what, count: 1 }));
  if (!complete) out.push({ what: 'Means shows the largest groups of like trees only', count: 1 });
  for (const what of [...reading.notes, ...plan.problems]) out.push({ what, count: 1 });
  const reasons = new Map<string, number>();
  const planned = new Set(plan.trees.map((t) => t.tree.row));
  const given = new Map(plan.notPlanned.map((n) => [n.row, n.reason]));
  for (const r of reading.rows) {
    if (planned.has(r.row)) continue;
    const reason = (given.get(r.row) ?? r.unusable ?? 'the row was left out').replace(
      /^row \d+:\s*/i,
      '',
    );
    reasons.set(reason, (reasons.get(reason) ?? 0) + 1);
  }
  const sorted = [...reasons].sort((a, b) => b[1] - a[1]);
  for (const [reason, count] of sorted.slice(0, 50))
    out.push({ what: `Rows not planned: ${reason}`, count });
  const rest = sum(sorted.slice(50).map(([, count]) => count));
  if (rest > 0) out.push({ what: 'Rows not planned for other reasons: see Trees', count: rest });
  if (ctx.joined !== 'no')
    out.push({
      what: `Plan and Crew are joined ${ctx.joined === 'by site' ? 'by site, day and means' : 'by day and means'}: too many rows otherwise`,
      count: 1,
    });
  return out;
}

/** Estimates and assumptions in use: said, but not counted among the things to look at. */
function inUse(ctx: Context): Look[] {
  const flags = new Map<string, number>();
  for (const t of ctx.plan.trees)
    for (const flag of t.facts.flags) flags.set(flag, (flags.get(flag) ?? 0) + 1);
  const kept = SITE_INPUTS.filter(
    (i) =>
      ctx.origins?.[i.key] === undefined &&
      isAssumption(i.key) &&
      siteValue(ctx.plan.site, siteInput(i.key).key) === i.default,
  );
  return [
    ...[...flags]
      .sort((a, b) => b[1] - a[1])
      .map(([what, count]) => ({ what: `Estimated: ${what}`, count })),
    ...kept.map((i) => ({
      what: `Default in use: ${i.name}. ${SITE_NOTES[i.key].note}`,
      count: 1,
    })),
  ];
}

export function checksSheet(
  ctx: Context,
  refs: CheckRefs,
): Built<{ total: string; toLook: number }> {
  const all = totals(ctx, refs);
  const look = looks(ctx, refs.means);
  const used = inUse(ctx);
  const draft = new SheetDraft('Checks', 'Checks', { orientation: 'portrait' });
  const value = (c: RichCell): number => (typeof c.value === 'number' ? c.value : NaN);
  const verdicts = all.map((t) => (agree(value(t.left), value(t.right)) ? 0 : 1));
  const toLook = sum(verdicts) + sum(look.map((l) => l.count));
  const top = 7;
  const lookTop = top + all.length + 3;
  const totalRow = 3;
  draft.text([
    cell('Checks', 'title'),
    cell(
      'Totals are added up again here by formulas. Estimates and defaults are listed below.',
      'note',
    ),
    [
      cell('To look at, all together', 'heading'),
      formula(
        `SUM($E$${top + 1}:$E$${top + all.length})+SUM($B$${lookTop + 1}:$B$${lookTop + Math.max(1, look.length)})`,
        toLook,
        { style: 'result', format: 'whole' },
      ),
    ],
  ]);
  draft.skip(2);
  draft.text([cell('Totals that must agree', 'heading')]);
  const totalsPlace = draft.table(
    'Totals',
    [
      { key: 'what', header: 'Total', width: 66, wrap: true },
      { key: 'left', header: 'One side', width: 14, style: 'calculation', format: 'two' },
      { key: 'right', header: 'Other side', width: 14, style: 'calculation', format: 'two' },
      { key: 'gap', header: 'Difference', width: 12, style: 'calculation', format: 'two' },
      { key: 'wrong', header: 'Look (0 or 1)', width: 9, style: 'result', format: 'whole' },
      { key: 'verdict', header: 'Verdict', width: 14, style: 'fine' },
    ],
    all.length,
    (i, at): ModelCell[] => {
      const { what, left, right } = all[i]!;
      const format = [left, right].every((c) => Number.isInteger(c.value)) ? 'whole' : 'two';
      const [a, b, gap, wrong] = ['left', 'right', 'gap', 'wrong'].map((key) => at.here(key, i));
      return [
        what,
        { ...left, format },
        { ...right, format },
        formula(`ROUND(${a}-${b},6)`, Math.round((value(left) - value(right)) * 1e6) / 1e6 + 0),
        formula(`IF(ABS(${gap})<=0.000001*MAX(1,ABS(${b})),0,1)`, verdicts[i]!),
        formula(
          `IF(${wrong}=0,"✓ agrees","▲ look here")`,
          verdicts[i] === 0 ? '✓ agrees' : '▲ look here',
        ),
      ];
    },
  );
  draft.when(totalsPlace.area('wrong', 'verdict'), `$E${totalsPlace.row(0)}<>0`, 'look');
  draft.skip();
  draft.text([cell('To look at', 'heading')]);
  const wide = { width: 66, wrap: true } as const;
  const lookPlace = draft.table(
    'ToLookAt',
    [
      { key: 'what', header: 'What', ...wide },
      { key: 'count', header: 'How many', width: 14, style: 'result', format: 'whole' },
    ],
    look.length,
    (i) => [look[i]!.what, look[i]!.count],
  );
  if (totalsPlace.headerRow !== top || lookPlace.headerRow !== lookTop)
    throw new RangeError('the tables of Checks are not where its sum looks for them');
  draft.skip();
  draft.text([cell('Estimates and defaults in use', 'heading')]);
  draft.table(
    'InUse',
    [
      { key: 'what', header: 'Estimate or default', ...wide },
      { key: 'count', header: 'Rows', width: 14, style: 'calculation', format: 'whole' },
    ],
    used.length,
    (i) => [used[i]!.what, used[i]!.count],
  );
  return {
    sheet: draft.done(),
    refs: { total: `Checks!$B$${totalRow}`, toLook },
  };
}
