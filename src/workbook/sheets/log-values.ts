/** The numbers behind a row of the sheet Log as its formulas give them: results of the cells until a program calculates. */
import { GRACE, type PlannedVisit } from '../../engine/contract/log-totals.js';
import { HYDRANT } from '../../engine/contract/log-days.js';
import { minutesAt, plainName, type LogRow } from '../../engine/contract/visit-log.js';
import { civil, dayOf, type Day } from '../../engine/dates.js';
import type { Device } from '../../engine/plan/model.js';
import { L_PER_GALLON } from '../../engine/units.js';
import type { Scalar } from '../model.js';
import type { PaperTree } from '../service-papers.js';
import { typedNumber, type Context } from './context.js';

export const visitKey = (day: Day, name: string): string => `d${day}@${plainName(name)}`;

type Values = Record<string, Scalar>;

/** What rows with nothing in them show. */
const BLANK: Values = {
  name: '', team: '', from: -1, to: -1, timed: 0, water: 0, dose: -1, place: 0, crewDay: '', crewKey: '', truckKey: '',
  treeKey: '', first: 0, paceKey: '', paceNo: 0, both: 0, kitRow: 0, isTruck: 0, tank: 0, pump: 0,
  tankKey: '', tankNo: 0, refill: 0, meterKey: '', tenths: 0, timeKey: '', timeNo: 0, step: 0, rowKey: '', alike: 0, twin: 0, near: 0, nearKey: '',
  caliper: 0, height: 0, species: '', site: '', plantedOn: 0, monthsOld: -1,
}; // prettier-ignore

/** Whole months from one day to another. */
export function monthsBetween(from: Day, to: Day): number {
  const [a, b] = [civil(from), civil(to)];
  const next = b.month === 12 ? dayOf(b.year + 1, 1, 1) : dayOf(b.year, b.month + 1, 1);
  const length = next - dayOf(b.year, b.month, 1);
  const short = b.date < Math.min(a.date, length) ? 1 : 0;
  return (b.year - a.year) * 12 + b.month - a.month - short;
}

interface Setting {
  trees: readonly PaperTree[];
  due: readonly PlannedVisit[];
}

/**
 * @param rows - of the log in the order of the sheet
 * @param count - rows of the table, blank ones included
 */
export function logValues(ctx: Context, rows: readonly LogRow[], count: number, { trees, due }: Setting): Values[] {
  const placeOf = new Map<string, number>();
  trees.forEach(({ id }, i) => {
    if (!placeOf.has(plainName(id))) placeOf.set(plainName(id), i + 1);
  });
  const kitOf = new Map<string, number>();
  ctx.kit.forEach(({ name }, i) => {
    if (!kitOf.has(plainName(name))) kitOf.set(plainName(name), i + 1);
  });
  const planned = new Map<string, number>();
  for (const { day, tree } of due)
    planned.set(visitKey(day, tree), (planned.get(visitKey(day, tree)) ?? 0) + 1);
  const out = Array.from({ length: count }, (_, i): Values => {
    const row = rows[i];
    return { ...BLANK, no: i + 1, ...(row && plainParts(ctx, row, placeOf, kitOf, trees, planned)) };
  });
  const all = rows.map((row, i) => ({ row, v: out[i]!, i }));
  const seen = new Map<Scalar, number>();
  for (const { v, i } of all) {
    if (v['treeKey'] === '') continue;
    if (!seen.has(v['treeKey']!)) seen.set(v['treeKey']!, i + 1);
    v['first'] = seen.get(v['treeKey']!)!;
  }
  const earlier = (a: Values, b: Values): boolean =>
    a['from']! < b['from']! || (a['from'] === b['from'] && a['no']! < b['no']!);
  const before = (v: Values, key: string): Values[] =>
    all.map((e) => e.v).filter((o) => o[key] === v[key] && earlier(o, v));
  for (const { row, v } of all) {
    for (const [key, no] of [['paceKey', 'paceNo'], ['tankKey', 'tankNo'], ['timeKey', 'timeNo']] as const)
      if (v[key] !== '') v[no] = 1 + before(v, key).length;
    if (v['timed'] !== 1) continue;
    v['rowKey'] = [v['team'], v['name'], v['from'], v['to'], Math.round((v['dose'] as number) * 1e6)].join('@');
    const alike = all.find((o) => o.v['rowKey'] === v['rowKey'])!;
    v['alike'] = alike.i + 1;
    v['twin'] = alike.row.day < row.day ? alike.row.day : 0;
  }
  for (const { v } of all) {
    const prior = (key: string, no: string): Values | undefined =>
      all.map((e) => e.v).find((o) => o[key] === v[key] && o[no] === (v[no] as number) - 1);
    const truck = (v['tankNo'] as number) > 1 ? prior('tankKey', 'tankNo') : undefined;
    if (truck) v['refill'] = Math.min(v['tank'] as number, Math.max(0, (v['from'] as number) - (truck['to'] as number)) * ctx.show('volume', HYDRANT));
    const visit = (v['timeNo'] as number) > 1 ? prior('timeKey', 'timeNo') : undefined;
    if (visit) v['step'] = (v['from'] as number) - (visit['from'] as number);
  }
  return out;
} // prettier-ignore

/** What a row shows of itself, the lists and the plan. */
function plainParts(
  ctx: Context,
  row: LogRow,
  placeOf: ReadonlyMap<string, number>,
  kitOf: ReadonlyMap<string, number>,
  trees: readonly PaperTree[],
  /** planned visits that no row above answers */
  planned: Map<string, number>,
): Values {
  const name = plainName(row.tree);
  const team = plainName(row.crew);
  const timed = minutesAt(row) !== undefined;
  const water = (row.applied ?? 0) > 0;
  const crewDay = `d${row.day}@${team}`;
  const crewKey = team === '' ? '' : crewDay;
  const truckKey = plainName(row.truck) === '' ? '' : `d${row.day}@${plainName(row.truck)}`;
  const kitRow = kitOf.get(plainName(row.truck)) ?? 0;
  const device: Device | undefined = ctx.kit[kitRow - 1];
  const isTruck = device?.family === 'tanker';
  const tank = isTruck ? ctx.show('volume', device.volume ?? 0) : 0;
  const pump = isTruck ? ctx.show('volume', device.flow ?? 0) : 0;
  const place = placeOf.get(name) ?? 0;
  const tree = trees[place - 1];
  const near = [row.day, row.day - GRACE, row.day + GRACE].find((d) => (planned.get(visitKey(d, name)) ?? 0) > 0) ?? 0; // prettier-ignore
  if (near > 0) planned.set(visitKey(near, name), planned.get(visitKey(near, name))! - 1);
  const dose = row.applied === undefined ? -1 : typedNumber(ctx.show('volume', row.applied));
  return {
    name, team, from: row.arrived ?? -1, to: row.left ?? -1, timed: timed ? 1 : 0, water: water ? 1 : 0, dose, place,
    crewDay, crewKey, truckKey,
    treeKey: water ? visitKey(row.day, name) : '',
    paceKey: timed && water ? crewKey : '',
    both: timed && row.truckMinutes !== undefined ? 1 : 0,
    kitRow, isTruck: isTruck ? 1 : 0, tank, pump,
    tankKey: tank > 0 && timed && water ? truckKey : '',
    meterKey: water && row.measured === 'meter' ? crewDay : '',
    tenths: water ? Math.round(dose * (ctx.units === 'US' ? L_PER_GALLON : 1) * 10) : 0,
    timeKey: timed ? crewDay : '',
    near,
    nearKey: near === 0 ? '' : visitKey(near, name),
    caliper: tree?.caliper === undefined ? 0 : ctx.show('trunk', tree.caliper),
    height: tree?.height === undefined ? 0 : ctx.show('canopy', tree.height),
    species: tree?.species.trim() ?? '',
    site: tree?.site.trim() ?? '',
    plantedOn: tree?.planted ?? 0,
    monthsOld: tree?.planted === undefined ? -1 : monthsBetween(tree.planted, row.day),
  }; // prettier-ignore
}
