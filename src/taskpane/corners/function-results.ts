/** What a function's result is: its unit in each system, or the columns of its table. Symbols as `words.unit` says them. */
import type { Units } from '../../engine/units.js';
import { FORMATS } from '../../workbook/model.js';
import type { CellValue } from '../../functions/answer.js';
import { decimalsFor } from '../parts/format.js';

export type Kind = 'number' | 'date' | 'moment' | 'text';
export interface Result {
  kind: Kind;
  US: string;
  SI: string;
}

const shared = (unit: string, kind: Kind = 'number'): Result => ({ kind, US: unit, SI: unit });
const PLAIN = shared('');
const WORDS = shared('', 'text');
const DATE = shared('', 'date');
const MOMENT = shared('', 'moment');

const UNITS: readonly (readonly [US: string, SI: string, ids: readonly string[]])[] = [
  ['gal', 'L', ['BAG_LEFT', 'CONTAINER_VOLUME', 'PAD_CHARGED', 'PAD_VOLUME', 'ROOTZONE_VOLUME', 'CONTRACT_GALLONS', 'DEFICIT_GALLONS', 'RULE_OF_THUMB']],
  ['gal/day', 'L/day', ['TREE_DEMAND']],
  ['in', 'mm', ['BAG_HOLE', 'ET0', 'ET0_TEMP', 'RAIN_DAY', 'RAIN_MONTH']],
  ['in', 'cm', ['BALL_DEPTH', 'BALL_DIAMETER']],
  ['gpm', 'L/min', ['BUCKET_FLOW', 'HOSE_FLOW']],
  ['ft', 'm', ['COIL_DIAMETER', 'COIL_LENGTH', 'HOSE_LONGEST', 'ROOT_SPREAD']],
  ['psi', 'kPa', ['HOSE_LOSS']],
  ['lb', 'kg', ['WATER_WEIGHT']],
  ['cubic yards', 'm³', ['MULCH_VOLUME']],
  ['in/h', 'mm/h', ['SOIL_INTAKE']],
  ['h', 'h', ['BAG_HOURS', 'SUN_HOURS']],
  ['min', 'min', ['HOSE_MINUTES', 'STOP_MINUTES']],
  ['days', 'days', ['INTERVAL', 'PAD_DAYS']],
  ['months', 'months', ['ROOT_MONTHS']],
  ['MJ/m²', 'MJ/m²', ['SUN_ENERGY']],
]; // prettier-ignore

const SCALARS = new Map<string, Result>([
  ...UNITS.flatMap(([US, SI, ids]) => ids.map((id) => [id, { kind: 'number', US, SI }] as const)),
  ...(['NEXT_DATE', 'RECHARGE_DATE', 'WARRANTY_END'] as const).map((id) => [id, DATE] as const),
  ['RULE_NEXT', MOMENT],
]);

/** What a meter counts decides the unit of its water: METER_USE's own result. */
const METER_WATER: Readonly<Record<string, string>> = { gal: 'gal', '100 ft3': 'gal', m3: 'm³' };

/** Functions that answer with rows: what stands in each column, by its key in the words of the panel. */
const TABLES: Readonly<Record<string, readonly (readonly [key: string, result: Result])[]>> = {
  CONTRACT_CHECK: [['verdict', WORDS], ['lacks', PLAIN], ['visitsLack', PLAIN], ['where', WORDS]],
  DEFICIT_GALLONS: [['low', SCALARS.get('DEFICIT_GALLONS')!], ['high', SCALARS.get('DEFICIT_GALLONS')!]],
  HEAT_REST: [['work', shared('min')], ['rest', shared('min')]],
  LOG_FLAGS: [['questions', WORDS]],
  PLAN_DATES: [['date', DATE], ['water', shared('gal')], ['minutes', shared('min')]],
  PLAN_DAYS: [
    ['date', DATE], ['et0', shared('in')], ['rain', shared('in')], ['demand', shared('gal')], ['watering', shared('gal')],
    ['ball', shared('gal')], ['ring', shared('gal')], ['ks', PLAIN], ['lost', shared('gal')],
  ],
  PLAN_MEANS: [['means', WORDS], ['waterings', PLAIN], ['water', shared('gal')], ['stress', shared('days')], ['cost', PLAIN], ['verdict', WORDS]],
  PLAN_TOTALS: [
    ['means', WORDS], ['waterings', PLAIN], ['water', shared('gal')], ['stress', shared('days')], ['first', DATE],
    ['between', shared('days')], ['cost', PLAIN],
  ],
  RULE_DATES: [['date', DATE]],
  RULE_OF_THUMB: [['low', SCALARS.get('RULE_OF_THUMB')!], ['high', SCALARS.get('RULE_OF_THUMB')!]],
  SOAK_CYCLES: [['cycles', PLAIN], ['on', shared('min')], ['off', shared('min')]],
  TRIAGE: [['served', WORDS], ['rank', PLAIN], ['stress', shared('days')], ['ks', PLAIN], ['why', WORDS]],
}; // prettier-ignore

/** Columns of a function's table; undefined where it answers with one value. */
export const columnsOf = (id: string): readonly (readonly [string, Result])[] | undefined =>
  TABLES[id];

/** What a function's one value is; without a unit where it has none, or is a text. */
export const resultOf = (id: string): Result => SCALARS.get(id) ?? PLAIN;

/**
 * The unit of a function's result.
 *
 * @param last - the last argument that chooses what is counted, "" where none is given
 */
export function unitOf(id: string, units: Units, last: string): string {
  if (id === 'METER_USE') return METER_WATER[last.toLowerCase()] ?? 'gal';
  return resultOf(id)[units];
}

/** A text inside a number format; quotes cannot stand in it. */
const inFormat = (unit: string): string => (unit === '' ? '' : `" ${unit.replaceAll('"', '')}"`);

/**
 * The number format of the cell a formula goes into: three significant digits, the unit behind them, days as days.
 *
 * @param first - the value the first cell will hold, where it is known
 */
export function formatFor({ kind }: Result, unit: string, first: CellValue | undefined): string {
  if (kind === 'date') return FORMATS.date;
  if (kind === 'moment') return `${FORMATS.date} ${FORMATS.time}`;
  if (typeof first !== 'number') return FORMATS.general;
  const decimals = decimalsFor(first);
  return `${decimals === 0 ? '0' : `0.${'0'.repeat(decimals)}`}${inFormat(unit)}`;
}
