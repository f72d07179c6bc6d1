/** Trees: every row of the inventory, what the tree needs, what it gets, or why it is not planned. */
import { isDay } from '../../engine/dates.js';
import { trunkUsed } from '../../engine/money/against-rules.js';
import type { TreePlan } from '../../engine/plan/model.js';
import { L_PER_GALLON, MM_PER_INCH } from '../../engine/units.js';
import type { Cell } from '../../tables/cells.js';
import type { SiteKey } from '../../tables/site-inputs.js';
import {
  cell,
  SheetDraft,
  uniqueHeaders,
  type ColumnSpec,
  type ModelCell,
  type TablePlace,
} from '../model.js';
import { both, type Call } from '../native-twins.js';
import { RULES_OF_THUMB } from '../words.js';
import { widthFor, type Context } from './context.js';
import type { Built } from './inputs.js';

/** Cells on other sheets that the formulas of this one point at. */
export interface TreeRefs {
  peakEt0: string;
  site: (key: SiteKey) => string;
  thumb: { low: string; high: string };
}

/** An inventory row with what became of it. */
interface Entry {
  row: number;
  cells: Cell[];
  planned?: TreePlan;
  reason: string;
  notes: string[];
}

function entries(ctx: Context): Entry[] {
  const planned = new Map(ctx.plan.trees.map((t) => [t.tree.row, t]));
  const reasons = new Map(ctx.plan.notPlanned.map((n) => [n.row, n.reason]));
  return ctx.reading.rows.map(({ row, cells, unusable, notes }) => {
    const found = planned.get(row);
    return {
      row,
      cells,
      notes,
      reason: found ? '' : (reasons.get(row) ?? unusable ?? 'the row was left out of the plan'),
      ...(found && { planned: found }),
    };
  });
}

type Own = (ctx: Context, t: TreePlan) => ModelCell;
interface Computed extends ColumnSpec {
  /** the value of a planned tree, from the engine */
  value: Own;
  /** the formula of the column, the same on every row */
  formula?: (at: (key: string) => string, call: Call) => string;
}

function computedColumns(ctx: Context, refs: TreeRefs): Computed[] {
  const { plan, units } = ctx;
  const ball = ctx.unit('ball');
  const gal = ctx.unit('volume');
  const rootDepth = units === 'US' ? refs.site('rootDepth') : `${refs.site('rootDepth')}/10`;
  const peak = (t: TreePlan) => t.facts.peak;
  const calculation = { style: 'calculation', format: 'one' } as const;
  const result = { style: 'result' } as const;
  const unless = (key: string, then: string): string => `IF(${key}="","",${then})`;
  const gallonsPerInch = (pick: 'low' | 'high'): number => {
    const perInch = RULES_OF_THUMB.map((r) => r[pick]);
    return pick === 'low' ? Math.min(...perInch) : Math.max(...perInch);
  };
  const thumbVolume = (pick: 'low' | 'high', t: TreePlan): number =>
    ctx.show(
      'volume',
      (gallonsPerInch(pick) * trunkUsed(t, plan.site.zone) * L_PER_GALLON) / MM_PER_INCH,
    );
  return [
    { key: 'state', header: 'State', width: 14, ...result, value: (_, t) => t.state },
    { key: 'count', header: 'Trees', width: 8, style: 'calculation', format: 'whole', value: (_, t) => t.tree.count },
    { key: 'trunk', header: `Trunk used (${ctx.unit('trunk')})`, width: 9, ...calculation, value: (c, t) => c.show('trunk', trunkUsed(t, plan.site.zone)) },
    { key: 'canopy', header: `Canopy used (${ctx.unit('canopy')})`, width: 9, ...calculation, value: (c, t) => c.show('canopy', t.facts.canopy) },
    { key: 'ball', header: `Ball used (${ball})`, width: 8, ...calculation, value: (c, t) => c.show('ball', t.facts.ballDiameter) },
    { key: 'depth', header: `Ball depth used (${ball})`, width: 10, ...calculation, value: (c, t) => c.show('ball', t.facts.ballDepth) },
    { key: 'ring', header: `Root zone, peak month (${ball})`, width: 11, ...calculation, value: (c, t) => c.show('ring', peak(t).ringDiameter) },
    { key: 'ballWater', header: 'Water in ball (share)', width: 10, ...calculation, format: 'share', value: (_, t) => t.facts.ballAvailable },
    { key: 'soilWater', header: 'Water in soil (share)', width: 10, ...calculation, format: 'share', value: (_, t) => t.facts.soilAvailable },
    { key: 'depletion', header: 'Depletion (share)', width: 10, ...calculation, format: 'share', value: (_, t) => peak(t).depletion },
    { key: 'factor', header: 'Plant factor', width: 8, ...calculation, format: 'two', value: (_, t) => t.facts.plantFactor },
    {
      key: 'usable', header: `Usable water (${gal})`, width: 10, ...calculation,
      value: (c, t) => c.show('volume', peak(t).raw),
      formula: (at, call) => {
        const zone = (diameter: string, depth: string, available: string): string =>
          call('ROOTZONE_VOLUME', [at(diameter), depth, at(available), at('depletion')]);
        return unless(at('ball'), `${zone('ball', at('depth'), 'ballWater')}+${zone('ring', rootDepth, 'soilWater')}-${zone('ball', rootDepth, 'soilWater')}`);
      },
    },
    {
      key: 'demand', header: `Demand, peak month (${gal}/day)`, width: 11, ...calculation,
      value: (c, t) => c.show('volume', peak(t).demand),
      formula: (at, call) =>
        unless(at('canopy'), call('TREE_DEMAND', [refs.peakEt0, at('canopy'), at('factor'), refs.site('siteFactor')])),
    },
    {
      key: 'interval', header: 'Interval, peak month (days)', width: 11, ...result, format: 'one',
      value: (_, t) => peak(t).interval,
      formula: (at, call) => unless(at('usable'), call('INTERVAL', [at('usable'), at('demand')])),
    },
    {
      key: 'thumbLow', header: `Rule of thumb, low (${gal})`, width: 10, ...calculation,
      value: (_, t) => thumbVolume('low', t),
      formula: (at) => unless(at('trunk'), `${at('trunk')}*MIN(${refs.thumb.low})`),
    },
    {
      key: 'thumbHigh', header: `Rule of thumb, high (${gal})`, width: 10, ...calculation,
      value: (_, t) => thumbVolume('high', t),
      formula: (at) => unless(at('trunk'), `${at('trunk')}*MAX(${refs.thumb.high})`),
    },
    { key: 'means', header: 'Means', width: 24, wrap: true, ...result, value: (_, t) => t.chosen.label },
    { key: 'waterings', header: 'Waterings', width: 10, ...result, format: 'whole', value: (_, t) => t.chosen.waterings },
    { key: 'soakings', header: 'Pad soakings', width: 10, ...result, format: 'whole', value: (_, t) => t.chosen.plan.length - t.chosen.waterings },
    { key: 'each', header: `Season, one tree (${gal})`, width: 11, ...calculation, value: (c, t) => c.show('volume', t.chosen.litres) },
    {
      key: 'season', header: `Season, all (${gal})`, width: 11, ...result, format: 'whole',
      value: (c, t) => c.show('volume', t.chosen.litres * t.tree.count),
      formula: (at) => unless(at('each'), `${at('each')}*${at('count')}`),
    },
    { key: 'stress', header: 'Stress days', width: 8, ...result, format: 'whole', value: (_, t) => t.chosen.stressDays },
    { key: 'cost', header: `Cost (${plan.site.currency} a tree)`, width: 10, style: 'calculation', format: 'two', value: (_, t) => t.chosen.cost },
  ]; // prettier-ignore
}

/** Meanings whose cells are numbers even where the file held them as text. */
const NUMERIC_MEANINGS: ReadonlySet<string> = new Set([
  'count', 'caliper', 'circumference', 'ballDiameter', 'ballDepth', 'canopy', 'height', 'mulchDepth',
  'latitude', 'longitude', 'tapFlow', 'plantedYear',
]); // prettier-ignore

/** The user's cell as it is, but a plain number of a .csv as a number rather than text. */
function ownCell(value: Cell, meaning: string): Cell {
  if (typeof value !== 'string' || !NUMERIC_MEANINGS.has(meaning)) return value;
  return /^\s*-?\d+(\.\d+)?\s*$/.test(value) ? Number(value) : value;
}

/** The tree is in the ground during the season, so demand and interval mean something. */
const stands = (t: TreePlan): boolean => t.facts.peak.demand > 0;

/** @returns with `id`: the column that names a tree, the row where the inventory has no ids */
export function treesSheet(ctx: Context, refs: TreeRefs): Built<{ place: TablePlace; id: string }> {
  const rows = entries(ctx);
  const { headers, matches } = ctx.reading;
  const kept = [...matches].sort((a, b) => a.column - b.column);
  const computed = computedColumns(ctx, refs);
  const gal = ctx.unit('volume');
  const texts = uniqueHeaders([
    'Row',
    ...computed.map((c) => c.header),
    'Look at',
    ...kept.map((m) => headers[m.column] || m.meaning),
  ]);
  const [computedTexts, keptTexts] = [
    texts.slice(1, 1 + computed.length),
    texts.slice(2 + computed.length),
  ];
  const columns: ColumnSpec[] = [
    { key: 'row', header: 'Row', width: 7, style: 'calculation', format: 'whole' },
    ...kept.map((m, i): ColumnSpec => {
      const cells = rows.map((r) => ownCell(r.cells[m.column] ?? null, m.meaning));
      const numeric = cells.filter((c) => typeof c === 'number').length > cells.length / 2;
      return {
        key: `own${i}`,
        header: keptTexts[i]!,
        width: widthFor(keptTexts[i]!, cells, 26),
        wrap: true,
        align: numeric ? 'right' : 'left',
      };
    }),
    ...computed.map((c, i) => ({ ...c, header: computedTexts[i]! })),
    { key: 'flags', header: texts[1 + computed.length]!, width: 60, wrap: true, style: 'note' },
  ];

  const draft = new SheetDraft('Trees', 'Trees', { pagesWide: 2 });
  const left = headers.length - kept.length;
  draft.text([
    cell('Trees', 'title'),
    cell(
      `Your columns first, in your order; then what was worked out. ${left > 0 ? `${left} other columns stay in your file.` : ''}`.trim(),
      'note',
    ),
    cell(
      `Rule of thumb: published ${gal} for one watering, lowest to highest; the model beside it works from water held and water used.`,
      'note',
    ),
  ]);
  draft.skip();
  const place = draft.table('Trees', columns, rows.length, (i, at) => {
    const { row, cells, planned, reason, notes } = rows[i]!;
    const own = kept.map((m): ModelCell => {
      const value = ownCell(cells[m.column] ?? null, m.meaning);
      return m.meaning === 'planted' && typeof value === 'number' && isDay(Math.floor(value))
        ? { value, format: 'date' }
        : value;
    });
    const worked = computed.map((c): ModelCell => {
      const value = planned ? c.value(ctx, planned) : c.key === 'state' ? 'not planned' : null;
      if (!c.formula) return value;
      const apart = planned && !stands(planned) && (c.key === 'demand' || c.key === 'interval');
      if (apart) return c.key === 'demand' ? 0 : null;
      const shownValue = planned ? (value as number) : '';
      const { formula: build } = c;
      return {
        value: shownValue,
        ...both(ctx.units, (call) => build((key) => at.here(key, i), call)),
      };
    });
    const flags = planned
      ? [...(planned.advice ? [planned.advice] : []), ...planned.facts.flags, ...notes]
      : [reason, ...notes];
    return [row, ...own, ...worked, flags.join('; ')];
  });
  draft
    .freeze(place.headerRow, Math.min(2, 1 + kept.length))
    .repeat(place.headerRow, place.headerRow, ['A', kept.length > 0 ? 'B' : 'A'])
    .when(place.area('state'), `$${place.letter('state')}${place.row(0)}<>"planned"`, 'look');
  const id = kept.findIndex((m) => m.meaning === 'id');
  return { sheet: draft.done(), refs: { place, id: id < 0 ? 'row' : `own${id}` } };
}
