/** Balance: one tree, picked from a list, day by day, worked out in the sheet itself. */
import type { TreePlan } from '../../engine/plan/model.js';
import { M_PER_FOOT, MM_PER_INCH, type Units } from '../../engine/units.js';
import type { SiteKey } from '../../tables/site-inputs.js';
import {
  cell,
  formula,
  SheetDraft,
  type ColumnSpec,
  type RichCell,
  type Scalar,
  type TablePlace,
} from '../model.js';
import { both, type Call } from '../native-twins.js';
import { dayColumns } from './balance-days.js';
import { areaFactor, type BalanceTreesRefs } from './balance-trees.js';
import { balanceTrace, type BalanceDay } from './balance-trace.js';
import { balanceChart } from './charts.js';
import type { Context } from './context.js';
import type { Built } from './inputs.js';

/** Cells of other sheets that the balance looks up. */
export interface BalanceSources {
  site: (key: SiteKey) => string;
  weather: TablePlace;
  trees: TablePlace;
  plan: TablePlace;
  /** undefined: no tree is planned */
  balanceTrees: BalanceTreesRefs | undefined;
}

/** Two numbers that must agree, for Checks. */
export interface BalanceTotal {
  what: string;
  left: RichCell;
  right: RichCell;
}

export interface BalanceRefs {
  /** daily rows; undefined where nothing can be balanced */
  place?: TablePlace;
  totals: BalanceTotal[];
}

/** Stress coefficients from here on are rounding, not stress [-]. */
const NO_STRESS = '0.999999999';
const PICK_ROW = 3;
const PICK = `$B$${PICK_ROW}`;
/** Name of the pick list in the workbook. */
export const PICKS = 'Balance_Picks';

type Sources = BalanceSources & { balanceTrees: BalanceTreesRefs };

export function balanceSheet(ctx: Context, refs: BalanceSources): Built<BalanceRefs> {
  const draft = new SheetDraft('Balance', 'Balance of one tree', {}, 9);
  const { balanceTrees } = refs;
  if (balanceTrees && ctx.joined === 'no') return balanceOf(ctx, { ...refs, balanceTrees }, draft);
  draft.text([
    cell('Balance of one tree', 'title'),
    cell(
      balanceTrees
        ? 'Plan joins the waterings of several trees in one row: those of one tree cannot be looked up. Plan fewer trees at a time to see a balance.'
        : 'No tree is planned: there is nothing to balance.',
      'look',
    ),
  ]);
  return { sheet: draft.done(), refs: { totals: [] } };
}

/** A value of the picked tree, looked up or worked out once. */
interface Fact extends ColumnSpec {
  /** undefined: what Balance trees holds of it */
  formula: (at: (key: string) => string, call: Call) => string;
  value: Scalar;
}

function factsOf(ctx: Context, { balanceTrees, trees, site }: Sources, t: TreePlan): Fact[] {
  const { units } = ctx;
  const { place: list } = balanceTrees;
  const index = ctx.plan.trees.indexOf(t);
  const known = balanceTrees.rows[index]!;
  const { facts } = t;
  const area = units === 'US' ? 'ft²' : 'm²';
  const gal = ctx.unit('volume');
  const ball = ctx.unit('ball');
  const part = { width: 9, style: 'calculation', format: 'three' } as const;
  const whole = { ...part, format: 'whole' } as const;
  const date = { ...part, width: 11, format: 'date' } as const;
  const ballArea = (Math.PI / 4) * (facts.ballDiameter / 1000) ** 2;
  type At = (key: string) => string;
  const found = (at: At, then: string): string => `IF(${at('no')}=0,"",${then})`;
  const inList =
    (key: string) =>
    (at: At): string =>
      found(at, `INDEX(${list.range(key)},${at('no')})`);
  const orBlank =
    (key: string) =>
    (at: At): string => {
      const there = `INDEX(${list.range(key)},${at('no')})`;
      return found(at, `IF(${there}="","",${there})`);
    };
  const onTrees =
    (key: string) =>
    (at: At): string =>
      found(at, `INDEX(${trees.range(key)},MATCH(${at('row')},${trees.range('row')},0))`);
  const place = (key: string): string => `MATCH(${PICK}&"",${list.range(key)},0)`;
  return [
    { key: 'no', header: 'Place in list', ...whole, width: 11, value: index + 1,
      formula: () => `IF(ISNA(${place('pick')}),IF(ISNA(${place('id')}),0,${place('id')}),${place('pick')})` },
    { key: 'row', header: 'Row on Trees', ...whole, formula: inList('row'), value: known.row },
    { key: 'first', header: 'Stands from', ...date, formula: inList('first'), value: known.first },
    { key: 'planted', header: 'Planted', ...date, formula: orBlank('planted'), value: known.planted ?? '' },
    { key: 'needed', header: 'Months to establish', ...part, formula: inList('months'), value: known.months },
    { key: 'canopy', header: `Canopy (${ctx.unit('canopy')})`, ...part, formula: onTrees('canopy'), value: ctx.show('canopy', facts.canopy) },
    { key: 'factor', header: 'Plant factor', ...part, formula: onTrees('factor'), value: facts.plantFactor },
    { key: 'ball', header: `Ball (${ball})`, ...part, formula: onTrees('ball'), value: ctx.show('ball', facts.ballDiameter) },
    { key: 'depth', header: `Ball depth (${ball})`, ...part, formula: onTrees('depth'), value: ctx.show('ball', facts.ballDepth) },
    { key: 'ballWater', header: 'Water in ball (share)', ...part, formula: onTrees('ballWater'), value: facts.ballAvailable },
    { key: 'soilWater', header: 'Water in soil (share)', ...part, formula: onTrees('soilWater'), value: facts.soilAvailable },
    { key: 'efficiency', header: 'Efficiency (share)', ...part, formula: inList('efficiency'), value: known.efficiency },
    { key: 'ballOnly', header: 'Ball only (0 or 1)', ...whole, formula: inList('ballOnly'), value: known.ballOnly },
    { key: 'beyond', header: `Watered beyond the ball (${area})`, ...part, formula: orBlank('beyond'), value: known.beyond ?? '' },
    { key: 'padVolume', header: `Pad, new (${gal})`, ...part, formula: inList('padVolume'), value: known.padVolume },
    { key: 'pad', header: 'Pad', ...part, format: 'general', wrap: true, formula: orBlank('pad'), value: known.pad ?? '' },
    { key: 'ballArea', header: `Ball area (${area})`, ...part, value: ballArea / areaFactor(units),
      formula: (at) => found(at, `PI()/4*(${ballAcross(at('ball'), units)})^2`) },
    { key: 'ballTaw', header: `Ball holds (${gal})`, ...part, value: ctx.show('volume', facts.ballTaw),
      formula: (at, call) => found(at, call('ROOTZONE_VOLUME', [at('ball'), at('depth'), at('ballWater'), '1'])) },
    { key: 'covered', header: `Under a pad (${area})`, ...part,
      value: known.padVolume > 0 ? (ballArea * ctx.plan.site.padCover) / areaFactor(units) : 0,
      formula: (at) => found(at, `IF(${at('padVolume')}>0,${at('ballArea')}*${site('padCover')},0)`) },
  ]; // prettier-ignore
}

/** Diameter of a ball in the unit of canopies, by the steps of the twin of ROOT_SPREAD: no ring is exactly no ring. */
const ballAcross = (ball: string, units: Units): string =>
  units === 'US' ? `${ball}*${MM_PER_INCH}/1000/${M_PER_FOOT}` : `${ball}*10/1000/1`;

/** The first column of the workings, which are there but not shown. */
const FIRST_WORKING = 'p';
const CHART_ROWS = 20;
const CHART_COLUMNS = 15;

function balanceOf(ctx: Context, refs: Sources, draft: SheetDraft): Built<BalanceRefs> {
  const { weather, trees } = ctx.plan;
  const t = trees[0]!;
  const pick = refs.balanceTrees.rows[0]!.pick;
  const days = weather.et0.length;
  const trace = balanceTrace(ctx, t);
  const gal = ctx.unit('volume');
  // rows of what comes below, known beforehand: the sentence points at the facts
  const factRow = PICK_ROW + 5;
  const on = `$A$${factRow}`;
  const about = `INDEX(${refs.balanceTrees.place.range('means')},${on})`;
  draft.text([
    cell('Balance of one tree', 'title'),
    cell('Pick a tree: every number below follows by the formulas of this sheet, with the waterings on Plan. The workings stand in hidden columns to the right.', 'note'),
    [cell('Tree', 'heading'), cell(pick, 'input', { format: 'text' })],
    formula(
      `IF(${on}=0,"▲ """&${PICK}&""" is not in the list: pick a tree from the list, or type its id as on Trees.","Watered by: "&${about})`,
      `Watered by: ${t.chosen.label}`,
      { style: 'note' },
    ),
  ]); // prettier-ignore
  draft.validateFrom(`B${PICK_ROW}`, PICKS, 'A tree from the list, or its id as on the sheet Trees');
  draft.when(`A${PICK_ROW + 1}`, `${on}=0`, 'look');
  draft.skip();
  const facts = factsOf(ctx, refs, t);
  draft.text([cell('What the tree is', 'heading')]);
  const factPlace = draft.table('BalanceTree', facts, 1, (_, at) =>
    facts.map((f) => ({
      value: f.value,
      ...both(ctx.units, (call) => f.formula((key) => at.here(key, 0), call)),
    })),
  );
  if (factPlace.row(0) !== factRow) throw new RangeError('the facts of Balance moved');
  const fact = (key: string): string => `$${factPlace.letter(key)}$${factRow}`;
  draft.skip();
  const chartTop = draft.row;
  draft.skip(CHART_ROWS + 1);
  draft.text([cell('Day by day', 'heading')]);
  const columns = dayColumns(ctx);
  const place = draft.table(
    'Balance',
    [
      { key: 'date', header: 'Date', width: 12, style: 'result', format: 'date' },
      { key: 'on', header: 'Stands (0 or 1)', width: 22, style: 'calculation', format: 'whole' },
      ...columns,
    ],
    days,
    (i, at) => {
      const row = at.row(i);
      const stands = `IF(${on}=0,0,IF($A${row}<${fact('first')},0,1))`;
      const day = trace[i];
      const from = {
        now: (key: string) => `$${at.letter(key)}${row}`,
        before: (key: string) => `$${at.letter(key)}${row - 1}`,
        fact,
        site: refs.site,
        weather: refs.weather,
        plan: refs.plan,
      };
      return [
        weather.from + i,
        formula(stands, day ? 1 : 0),
        ...columns.map((c) => ({
          value: day ? c.value(day, i) : '',
          ...both(ctx.units, (call) => `IF($B${row}=0,"",${c.formula({ ...from, call })})`),
        })),
      ];
    },
  );
  draft.chartAt(balanceChart(ctx, place, t, trace), {
    from: { row: chartTop, column: 0 },
    to: { row: chartTop + CHART_ROWS, column: CHART_COLUMNS },
  });
  draft.when(place.area('ks'), `AND($B${place.row(0)}=1,$${place.letter('ks')}${place.row(0)}<${NO_STRESS})`, 'look'); // prettier-ignore
  draft.hide(...columns.slice(columns.findIndex((c) => c.key === FIRST_WORKING)).map((c) => place.letter(c.key))); // prettier-ignore
  draft.freeze(PICK_ROW, 0).repeat(place.headerRow, place.headerRow);
  return { sheet: draft.done(), refs: { place, totals: totals(ctx, refs, t, trace, place, fact, gal) } };
} // prettier-ignore

/** Balance against Plan and Trees, and against itself: what came in went out or is still there. */
function totals(
  ctx: Context,
  { plan, trees }: Sources,
  t: TreePlan,
  trace: (BalanceDay | undefined)[],
  place: TablePlace,
  fact: (key: string) => string,
  gal: string,
): BalanceTotal[] {
  const days = trace.filter((day) => day !== undefined);
  const sum = (pick: (day: BalanceDay) => number): number =>
    ctx.show('volume', days.reduce((all, day) => all + pick(day), 0)); // prettier-ignore
  const all = (...keys: string[]): string => keys.map((key) => `SUM(${place.range(key)})`).join('+');
  const row = `Balance!${fact('row')}`;
  const none = (then: string): string => `IF(Balance!${fact('no')}=0,0,${then})`;
  const given = sum((d) => d.water + d.soaked);
  const last = place.range('date').replace(/^.*:/, '');
  const lastRow = last.replace(/\D/g, '');
  const end = (key: string): string => `Balance!$${place.letter(key)}$${lastRow}`;
  const begin = days[0]!;
  const end_ = days.at(-1)!;
  return [
    {
      what: `Water of the tree on Balance (${gal}): Balance = Plan`,
      left: formula(all('water', 'soaked'), given),
      right: formula(none(`SUMIFS(${plan.range('each')},${plan.range('row')},${row})`), given),
    },
    {
      what: 'Stress days of the tree on Balance: Balance = Trees',
      left: formula(`COUNTIF(${place.range('ks')},"<${NO_STRESS}")`, days.filter((d) => d.ks < Number(NO_STRESS)).length),
      right: formula(none(`INDEX(${trees.range('stress')},MATCH(${row},${trees.range('row')},0))`), t.chosen.stressDays),
    },
    {
      what: `Balance closes (${gal}): held at first + came in = used + lost + held at last`,
      left: formula(
        none(`Balance!${fact('ballTaw')}+INDEX(${place.range('ringTaw')},MATCH(1,${place.range('on')},0))+${all('joined', 'toBall', 'toRing', 'gives')}`),
        ctx.show('volume', begin.ballMorning + begin.ringMorning) + sum((d) => d.joined + d.toBall + d.toRing + d.gives),
      ),
      right: formula(
        none(`${all('used', 'lost')}+${end('ball')}+${end('ring')}`),
        sum((d) => d.used + d.lost) + ctx.show('volume', end_.ball + end_.ring),
      ),
    },
  ];
} // prettier-ignore
