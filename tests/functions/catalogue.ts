/** The catalogue of worksheet functions as designed: parameters in order, optional ones with what stands for them. */
export interface Parameter {
  name: string;
  /** a call that works */
  good: unknown;
  /** number | word | date | range */
  kind: 'number' | 'word' | 'date' | 'range';
  optional?: true;
  /** what an omitted argument means, written out; undefined where nothing can be written for it */
  default?: unknown;
  /** 0 is a value of its own, not a blank */
  zeroCounts?: true;
  /** may be negative */
  signed?: true;
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
const units = opt('units', 'US', 'US', { kind: 'word' });
const latitude = need('latitude', 33.4, { signed: true, zeroCounts: true });
const tmax = need('tmax', 104, { signed: true, zeroCounts: true });
const tmin = need('tmin', 78, { signed: true, zeroCounts: true });
const day = need('date', '2027-07-01', { kind: 'date' });

/** Functions that take single cells and short ranges; the plan functions have their own test. */
export const CATALOGUE: Readonly<Record<string, readonly Parameter[]>> = {
  ET0: [
    tmax,
    tmin,
    latitude,
    day,
    opt('dewpoint', 45, 78, { signed: true }),
    opt('wind', 5, 2 / 0.44704),
    opt('solar', 28, undefined),
    opt('elevation', 1100, 0, { signed: true, zeroCounts: true }),
    units,
  ],
  ET0_TEMP: [tmax, tmin, latitude, day, units],
  SUN_ENERGY: [latitude, day],
  TREE_DEMAND: [
    need('et0', 0.3),
    need('canopy', 12),
    opt('plant_factor', 0.6, 0.5),
    opt('site_factor', 1.2, 1),
    units,
  ],
  SOIL_WATER: [
    need('texture', 'loam', { kind: 'word' }),
    opt('what', 'field capacity', 'available', { kind: 'word' }),
  ],
  ROOTZONE_VOLUME: [
    need('diameter', 24),
    need('depth', 16),
    need('available', 0.155),
    opt('depletion', 0.3, 0.5),
    units,
  ],
  INTERVAL: [need('volume', 10), need('demand', 2), opt('rain', 0.5, 0, { zeroCounts: true })],
  BAG_HOURS: [
    need('volume', 15),
    need('holes', 4),
    need('hole', 0.055),
    need('depth', 24),
    opt('discharge', 0.7, 0.62),
    opt('left', 5, 0, { zeroCounts: true }),
    units,
  ],
  BAG_HOLE: [
    need('volume', 15),
    need('holes', 4),
    need('hours', 5),
    need('depth', 24),
    opt('discharge', 0.7, 0.62),
    units,
  ],
  BAG_OPEN_HOLES: [
    need('holes', 4),
    need('rated_hours', 5),
    need('hours', 10),
    opt('left', 0.25, 0, { zeroCounts: true }),
  ],
  PAD_VOLUME: [need('saturated', 30), need('dry', 5), opt('usable', 0.8, 0.9), units],
  RECHARGE_DATE: [
    need('charged', '2027-06-01', { kind: 'date' }),
    need('volume', 3),
    need('draws', [[0.5, 0.6, 0.7, 0.8, 0.9]], { kind: 'range', zeroCounts: true }),
    opt('reserve', 0.2, 0.1, { zeroCounts: true }),
  ],
  HOSE_FLOW: [
    need('length', 50),
    need('rate', 60),
    opt('pressure', 8, undefined, { zeroCounts: true }),
    opt('rated_pressure', 10, undefined),
    opt('exponent', 1.1, 1),
    units,
  ],
  HOSE_MINUTES: [need('volume', 20), need('flow', 0.5), opt('efficiency', 0.8, 0.9)],
  COIL_LENGTH: [need('inner', 2), need('outer', 6), need('spacing', 12), units],
};

/** A call that works, argument by argument. */
export const goodCall = (id: string): unknown[] => (CATALOGUE[id] ?? []).map((p) => p.good);
