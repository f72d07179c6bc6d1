import { PLAN_CALL } from './plan-tables.js';

/** The catalogue of worksheet functions as designed: parameters in order, optional ones with what stands for them. */
export interface Parameter {
  name: string;
  /** a call that works */
  good: unknown;
  /** text: anything that can be written; range: rows of cells */
  kind: 'number' | 'word' | 'date' | 'moment' | 'text' | 'range';
  optional?: true;
  /** what an omitted argument means, written out; undefined where nothing can be written for it */
  default?: unknown;
  /** 0 is a value of its own, not a blank */
  zeroCounts?: true;
  /** may be negative */
  signed?: true;
  /** a table with its header row: words and blanks are for its reader to judge */
  table?: true;
  /** takes text that is no number, such as "#15" or "9b" */
  codes?: true;
}

export interface Entry {
  parameters: readonly Parameter[];
  /** what a good call shows; a spill by rows × columns, 0 where the number of rows depends on the tables */
  gives: 'number' | 'text' | 'truth' | readonly [rows: number, columns: number];
  /** has a twin made of the spreadsheet's own functions */
  native: boolean;
}

const need = (name: string, good: unknown, more: Partial<Parameter> = {}): Parameter => ({
  name,
  good,
  kind: 'number',
  ...more,
});
const opt = (
  name: string,
  good: unknown,
  fallback: unknown,
  more: Partial<Parameter> = {},
): Parameter => ({ name, good, kind: 'number', optional: true, default: fallback, ...more });

const zero = { zeroCounts: true } as const;
const word = { kind: 'word' } as const;
const table = { kind: 'range', table: true } as const;
const units = opt('units', 'US', 'US', word);
const latitude = need('latitude', 33.4, { signed: true, zeroCounts: true });
const tmax = need('tmax', 104, { signed: true, zeroCounts: true });
const tmin = need('tmin', 78, { signed: true, zeroCounts: true });
const day = need('date', '2027-07-01', { kind: 'date' });
const texture = need('texture', 'loam', word);
const exponent = opt('exponent', 1.1, 1);
const discharge = opt('discharge', 0.7, 0.62);
const roughness = opt('c', 130, 140);

/** Invented tables, small enough to read, large enough to plan one tree through one dry month. */
export const RULES = [
  ['Means', 'Days', 'Hours', 'Verdict'],
  ['soaker', 'Tue, Sat', '19:00-10:00', 'allow'],
  ['bag', 'any', '', 'allow'],
];
export const RAIN = [
  ['Date', 'Rain'],
  ['2027-07-01', 12],
];
export const STAGES = [
  ['From', 'Stage'],
  ['2027-01-01', '1'],
];
export const TIERS = [
  [1000, 4],
  [5000, 6],
  ['', 9],
];
/** Invented: a size table, a small contract, waterings, a log, trees that might be served. */
export const SIZES = [
  [0.5, 10],
  [2, 25],
  [3, 30],
];
export const CONTRACT = [
  ['Applies to', 'Least water (gal)', 'Water per'],
  ['all', 15, 'week'],
];
export const SERVICE = [
  ['Tree', 'Date', 'Each (gal)'],
  ['A1', '2027-06-07', 15],
  ['A1', '2027-06-14', 10],
  ['A1', '2027-06-20', 0],
];
export const NEEDY = [
  ['Tree', 'Water (gal)', 'Value', 'Days it lasts'],
  ['A1', 15, 4, 3],
  ['A2', 20, 5, 9],
];
export const VISIT_LOG = [
  ['Tree', 'Date', 'Arrived', 'Left', 'Crew', 'Truck', 'Applied (gal)'],
  ['A1', '2027-06-07', '7:00', '7:06', '1', 'T1', 15],
  ['A1', '2027-06-07', '7:10', '7:16', '1', 'T1', 15],
];
export const LISTED = [
  ['Tree id', 'Status', 'Since'],
  ['A1', '', ''],
];
export const TRUCKS = [
  ['Device', 'Family', 'Volume (gal)', 'Flow (gpm)'],
  ['T1', 'tanker', 500, 10],
];
const ruleTail = [
  need('means', 'soaker', word),
  need('address', '14 Mill Lane', { kind: 'text' }),
  need('rules', RULES, table),
  opt('planted', '2027-03-01', undefined, { kind: 'date' }),
  opt('rain', RAIN, undefined, table),
  opt('stages', STAGES, undefined, table),
];
const planTables = (first: string): Parameter[] =>
  [first, 'site', 'weather', 'rules', 'kit', 'stages'].map((name, i) =>
    name === 'stages' ? opt(name, PLAN_CALL[i], undefined, table) : need(name, PLAN_CALL[i], table),
  );

const entry =
  (native: boolean) =>
  (gives: Entry['gives'], ...parameters: Parameter[]): Entry => ({ gives, parameters, native });
const twin = entry(true);
const plain = entry(false);

/** Every function. */
export const ENTRIES: Readonly<Record<string, Entry>> = {
  ET0: plain(
    'number',
    tmax,
    tmin,
    latitude,
    day,
    opt('dewpoint', 45, 78, { signed: true }),
    opt('wind', 5, 2 / 0.44704),
    opt('solar', 28, undefined),
    opt('elevation', 1100, 0, { signed: true, zeroCounts: true }),
    units,
  ),
  ET0_TEMP: twin('number', tmax, tmin, latitude, day, units),
  SUN_ENERGY: twin('number', latitude, day),
  SUN_HOURS: twin('number', latitude, day),
  RAIN_MONTH: twin(
    'number',
    need('rain', 3, zero),
    need('etc', 6, zero),
    opt('storage', 2, 3),
    units,
  ),
  RAIN_DAY: twin('number', need('rain', 0.6, zero), units),

  PLANT_FACTOR: plain('number', need('kind', 'tree', word), opt('climate', 'humid', 'dry', word)),
  TREE_DEMAND: twin(
    'number',
    need('et0', 0.3),
    need('canopy', 12),
    opt('plant_factor', 0.6, 0.5),
    opt('site_factor', 1.2, 1),
    units,
  ),
  BALL_DIAMETER: plain('number', need('caliper', 2), units),
  BALL_DEPTH: twin('number', need('ball_diameter', 24), units),
  CONTAINER_VOLUME: plain('number', need('class', '#15', { codes: true }), units),
  ROOT_MONTHS: twin('number', need('caliper', 3), need('zone', 9, { codes: true }), units),
  ROOT_SPREAD: twin(
    'number',
    need('ball_diameter', 24),
    need('canopy', 12),
    need('months', 3, zero),
    need('months_to_establish', 9),
    opt('reach', 1.5, 1),
    units,
  ),
  SOIL_WATER: plain('number', texture, opt('what', 'field capacity', 'available', word)),
  SOIL_INTAKE: plain('number', texture, units),
  DEPLETION: twin('number', need('base', 0.5), need('etc', 0.3, zero), units),
  ROOTZONE_VOLUME: twin(
    'number',
    need('diameter', 24),
    need('depth', 16),
    need('available', 0.155),
    opt('depletion', 0.3, 0.5),
    units,
  ),
  STRESS: twin('number', need('depleted', 70, zero), need('total', 100), need('depletion', 0.5)),
  MULCH_VOLUME: twin(
    'number',
    need('outer_diameter', 8),
    need('depth', 3),
    opt('clear_diameter', 2, 1),
    units,
  ),

  INTERVAL: twin('number', need('volume', 10), need('demand', 2), opt('rain', 0.5, 0, zero)),
  NEXT_DATE: plain(
    'number',
    need('last', '2027-06-01', { kind: 'date' }),
    need('volume', 3),
    need('demands', [[0.8, 0.9, 1, 1.1, 0.9]], { kind: 'range', zeroCounts: true }),
  ),
  RULE_OF_THUMB: plain([1, 2], need('caliper', 3), need('rule', 'florida', word), units),

  BAG_HOURS: twin(
    'number',
    need('volume', 15),
    need('holes', 4),
    need('hole', 0.055),
    need('depth', 24),
    discharge,
    opt('left', 5, 0, zero),
    units,
  ),
  BAG_LEFT: twin(
    'number',
    need('volume', 15),
    need('hours', 2, zero),
    need('holes', 4),
    need('hole', 0.055),
    need('depth', 24),
    discharge,
    units,
  ),
  BAG_HOLE: twin(
    'number',
    need('volume', 15),
    need('holes', 4),
    need('hours', 5),
    need('depth', 24),
    discharge,
    units,
  ),
  BAG_OPEN_HOLES: twin(
    'number',
    need('holes', 4),
    need('rated_hours', 5),
    need('hours', 10),
    opt('left', 0.25, 0, zero),
  ),
  BAG_VERDICT: plain(
    'text',
    need('holes', 4),
    need('rated_hours', 5),
    need('hours', 10),
    opt('left', 0.25, 0, zero),
  ),
  WATER_WEIGHT: twin('number', need('volume', 15), units),

  PAD_VOLUME: twin('number', need('saturated', 30), need('dry', 5), opt('usable', 0.8, 0.9), units),
  PAD_CHARGED: twin(
    'number',
    need('volume', 3),
    need('hours', 4, zero),
    opt('half_time', 3, 2),
    units,
  ),
  PAD_DAYS: twin('number', need('volume', 3), need('draw', 0.2), opt('reserve', 0.2, 0.1, zero)),
  RECHARGE_DATE: plain(
    'number',
    need('charged', '2027-06-01', { kind: 'date' }),
    need('volume', 3),
    need('draws', [[0.5, 0.6, 0.7, 0.8, 0.9]], { kind: 'range', zeroCounts: true }),
    opt('reserve', 0.2, 0.1, zero),
  ),

  BUCKET_FLOW: twin('number', need('volume', 5), need('seconds', 32), units),
  HOSE_FLOW: twin(
    'number',
    need('length', 50),
    need('rate', 60),
    opt('pressure', 8, undefined, zero),
    opt('rated_pressure', 10, undefined),
    exponent,
    units,
  ),
  HOSE_MINUTES: twin('number', need('volume', 20), need('flow', 0.5), opt('efficiency', 0.8, 0.9)),
  HOSE_LOSS: twin(
    'number',
    need('flow', 5),
    need('length', 100),
    need('bore', 0.625),
    roughness,
    opt('outlets', 10, 0, zero),
    units,
  ),
  OUTLET_FACTOR: twin('number', need('outlets', 10), opt('m', 2, 1.852)),
  HOSE_EVENNESS: plain(
    'number',
    need('length', 100),
    need('rate', 90),
    need('pressure', 10),
    need('bore', 0.5),
    exponent,
    roughness,
    units,
  ),
  HOSE_LONGEST: plain(
    'number',
    need('rate', 90),
    need('pressure', 10),
    need('bore', 0.5),
    opt('evenness', 0.9, 0.8),
    exponent,
    roughness,
    units,
  ),
  COIL_LENGTH: twin('number', need('inner', 2), need('outer', 6), need('spacing', 12), units),
  COIL_DIAMETER: plain('number', need('length', 25), need('inner', 2), need('spacing', 12), units),
  SOAK_CYCLES: plain(
    [1, 3],
    need('minutes', 60),
    need('rate', 1),
    need('intake', 0.3),
    opt('storage', 0.3, 0.25),
    units,
  ),

  RULE_OPEN: plain('truth', need('when', '2027-07-06 20:00', { kind: 'moment' }), ...ruleTail),
  RULE_WHY: plain('text', need('when', '2027-07-06 20:00', { kind: 'moment' }), ...ruleTail),
  RULE_NEXT: plain('number', need('after', '2027-07-06 12:00', { kind: 'moment' }), ...ruleTail),
  RULE_DATES: plain(
    [17, 1],
    need('from', '2027-07-01', { kind: 'date' }),
    need('to', '2027-07-31', { kind: 'date' }),
    ...ruleTail,
  ),

  PLAN_DATES: plain([0, 3], ...planTables('tree')),
  PLAN_DAYS: plain([0, 9], ...planTables('tree')),
  PLAN_MEANS: plain([0, 6], ...planTables('tree')),
  PLAN_TOTALS: plain([0, 7], ...planTables('trees')),

  TANK_LOADS: twin(
    'number',
    need('volume', 2000, zero),
    need('tank', 500),
    opt('usable', 0.8, 0.9),
  ),
  STOP_MINUTES: twin('number', need('volume', 40, zero), need('flow', 5), opt('setup', 6, 4, zero)),
  WATER_COST: plain(
    'number',
    need('volume', 6000, zero),
    need('tiers', TIERS, { kind: 'range', table: true }),
    units,
  ),
  PRICE: twin('number', need('cost', 100, zero), need('margin', 0.3, zero)),
  HEAT_REST: plain(
    [1, 2],
    need('temperature', 92),
    need('workload', 'heavy', word),
    opt('humidity', 0.2, 0.3),
    opt('sun', 'partly', 'full', word),
    units,
  ),
  SALINITY: plain('text', need('ec', 1.27, zero), opt('what', 'boron', 'ec', word)),
  CONTRACT_GALLONS: twin(
    'number',
    need('caliper', 2.5),
    need('table', SIZES, { kind: 'range', table: true }),
    units,
  ),
  CONTRACT_CHECK: plain(
    [1, 4],
    need('plan', SERVICE, table),
    need('contract', CONTRACT, table),
    opt(
      'trees',
      [
        ['Tree id', 'Caliper (in)'],
        ['A1', 2],
      ],
      undefined,
      table,
    ),
    opt('rain', RAIN, undefined, table),
    opt('from', '2027-06-07', undefined, { kind: 'date' }),
    opt('to', '2027-06-20', undefined, { kind: 'date' }),
  ),
  DEFICIT_GALLONS: plain(
    [1, 2],
    need('diameter', 10),
    need('rule', 'texas', word),
    opt('days', 14, 28),
    units,
  ),
  TRIAGE: plain(
    [2, 5],
    need('trees', NEEDY, table),
    need('budget', 20),
    need('order', 'value', word),
    opt('days', 14, 7),
    opt('date', '2027-07-01', undefined, { kind: 'date' }),
  ),
  LOG_FLAGS: plain(
    [2, 1],
    need('log', VISIT_LOG, table),
    need('trees', LISTED, table),
    opt('kit', TRUCKS, undefined, table),
  ),
  METER_USE: twin(
    'number',
    need('begin', 100, zero),
    need('end', 350, zero),
    opt('unit', '100 ft3', 'gal', word),
  ),
  WARRANTY_END: twin(
    'number',
    need('planted', '2027-03-15', { kind: 'date' }),
    need('months', 24),
    opt('uncredited', 10, 0, zero),
    opt('restart', '2027-09-01', undefined, { kind: 'date' }),
  ),
  SOAK_VERSION: plain('text'),
};

/** The parameters of every function. */
export const CATALOGUE: Readonly<Record<string, readonly Parameter[]>> = Object.fromEntries(
  Object.entries(ENTRIES).map(([id, { parameters }]) => [id, parameters]),
);

/** A call that works, argument by argument. */
export const goodCall = (id: string): unknown[] => (CATALOGUE[id] ?? []).map((p) => p.good);
