/** Balance trees: what the Balance sheet must know of each planned tree besides its row on Trees. */
import { joinedFor } from '../../engine/plan/choose-means.js';
import { anyDay } from '../../engine/plan/calendars.js';
import type { TreePlan } from '../../engine/plan/model.js';
import type { Option } from '../../engine/plan/option.js';
import { coiledArea } from '../../engine/means/soaker-hose.js';
import { M_PER_FOOT } from '../../engine/units.js';
import { cell, looksLikeFormula, SheetDraft, type ColumnSpec, type TablePlace } from '../model.js';
import type { Context } from './context.js';
import type { Built } from './inputs.js';

const squareMetres = (diameter: number): number => (Math.PI / 4) * diameter * diameter;

/** Square metres in the unit of area that goes with canopy and ring. */
export const areaFactor = (units: 'US' | 'SI'): number => (units === 'US' ? M_PER_FOOT ** 2 : 1);

/** Ids that a pick list can offer without a program reading more into them than text. */
const plainId = (id: string): boolean =>
  id !== '' && id.length <= 60 && !/[~*?\p{C}]/u.test(id) && !looksLikeFormula(id);

/** How a tree is called in the pick list: never a number or a date, so that no program turns it into one. */
export const pickOf = ({ tree }: TreePlan): string =>
  plainId(tree.id) && tree.id !== `row ${tree.row}`
    ? `${tree.id} · row ${tree.row}`
    : `row ${tree.row}`;

/** The way a tree is watered, as the planner sees it; which days are allowed is not asked any more. */
export function optionOf(
  ctx: Pick<Context, 'plan' | 'kit'>,
  { tree, facts, chosen }: TreePlan,
): Option {
  const days = anyDay(ctx.plan.weather.et0.length);
  const devices = chosen.devices.flatMap((name) => ctx.kit.find((d) => d.name === name) ?? []);
  const main = devices.find((d) => d.family !== 'pad');
  const pad = devices.find((d) => d.family === 'pad');
  const caliper = tree.caliper ?? facts.ballDiameter / 12;
  return {
    label: chosen.label,
    driveMinutes: 0,
    ...(main && {
      main: {
        device: main,
        joined: joinedFor(main, caliper, squareMetres(facts.establishedDiameter)),
        fill: 'enough' as const,
        allowed: days,
      },
    }),
    ...(pad && { pad: { device: pad, allowed: days } }),
  };
}

/** Ground a coil reaches outside the ball [m²]; undefined where the whole ring can be reached. */
function beyondBall({ main }: Option, ballDiameter: number): number | undefined {
  if (main?.device.family !== 'soaker') return undefined;
  return coiledArea((main.device.length ?? 0) * main.joined) - squareMetres(ballDiameter / 1000);
}

/** A name as a criterion of SUMIFS: signs that stand for others are taken as they are. */
const asCriterion = (name: string): string => name.replace(/[~*?]/g, '~$&');

/** Day on which the tree stands from, and the day it was planted; planted undefined: established. */
export function standing(
  ctx: Pick<Context, 'plan'>,
  t: TreePlan,
): { first: number; planted?: number } {
  const { from } = ctx.plan.weather;
  if (!Number.isFinite(t.facts.monthsAtStart)) return { first: from };
  const planted = t.tree.planted ?? from;
  return { first: Math.max(from, planted), planted };
}

/** A row of the table, by column. */
export interface BalanceTreeRow {
  pick: string;
  id: string;
  row: number;
  first: number;
  planted: number | null;
  months: number;
  means: string;
  efficiency: number;
  ballOnly: 0 | 1;
  beyond: number | null;
  padVolume: number;
  pad: string | null;
}

export interface BalanceTreesRefs {
  place: TablePlace;
  /** in the order of the planned trees */
  rows: BalanceTreeRow[];
}

function rowOf(ctx: Context, t: TreePlan): BalanceTreeRow {
  const option = optionOf(ctx, t);
  const family = option.main?.device.family;
  const pad = option.pad?.device;
  const beyond = beyondBall(option, t.facts.ballDiameter);
  const { first, planted } = standing(ctx, t);
  return {
    pick: pickOf(t),
    id: t.tree.id,
    row: t.tree.row,
    first,
    planted: planted ?? null,
    months: t.facts.monthsToEstablish,
    means: t.chosen.label,
    efficiency: family ? ctx.plan.site.efficiency[family] : 1,
    ballOnly: family === 'bag' ? 1 : 0,
    beyond: beyond === undefined ? null : beyond / areaFactor(ctx.units),
    padVolume: pad?.volume === undefined ? 0 : ctx.show('volume', pad.volume),
    pad: pad ? asCriterion(pad.name) : null,
  };
}

/** @returns undefined when no tree is planned */
export function balanceTreesSheet(ctx: Context): Built<BalanceTreesRefs> | undefined {
  const { trees } = ctx.plan;
  if (trees.length === 0) return undefined;
  const area = ctx.units === 'US' ? 'ft²' : 'm²';
  const gal = ctx.unit('volume');
  const draft = new SheetDraft('Balance trees', 'Balance trees');
  draft.text([
    cell('Balance trees', 'title'),
    cell('What the Balance sheet looks up besides Trees, one row a planned tree.', 'note'),
    cell('No planting day: established. No ground beyond the ball: all of the ring can be watered.', 'note'),
  ]); // prettier-ignore
  draft.skip();
  const part = { style: 'calculation', format: 'three' } as const;
  const columns: ColumnSpec[] = [
    { key: 'pick', header: 'Pick', width: 26, style: 'result' },
    { key: 'id', header: 'Tree', width: 16 },
    { key: 'row', header: 'Row', width: 8, format: 'whole' },
    { key: 'first', header: 'Stands from', width: 12, format: 'date' },
    { key: 'planted', header: 'Planted', width: 12, format: 'date' },
    { key: 'months', header: 'Months to establish', width: 11, ...part },
    { key: 'means', header: 'Means', width: 30, wrap: true },
    { key: 'efficiency', header: 'Efficiency (share)', width: 10, ...part },
    { key: 'ballOnly', header: 'Wets the ball only (0 or 1)', width: 11, format: 'whole' },
    { key: 'beyond', header: `Ground watered beyond the ball (${area})`, width: 13, ...part },
    { key: 'padVolume', header: `Pad, new (${gal})`, width: 9, ...part },
    { key: 'pad', header: 'Pad', width: 18, wrap: true },
  ];
  const rows = trees.map((t) => rowOf(ctx, t));
  const place = draft.table('BalanceTrees', columns, rows.length, (i) =>
    columns.map(({ key }) => rows[i]![key as keyof BalanceTreeRow]),
  );
  draft.freeze(place.headerRow, 1).repeat(place.headerRow, place.headerRow);
  return { sheet: draft.done(), refs: { place, rows } };
}
