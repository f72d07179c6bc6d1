/** Ranges from which the arguments of twins are drawn. Both unit systems must stay inside what the function takes. */
import type { TwinId } from '../../src/workbook/native-twins.js';

/** Least and greatest value; a third number is the step of whole values. */
export type Range = readonly [number, number, number?];

/** The same for US and SI. */
const both = (...ranges: Range[]): Record<'US' | 'SI', Range[]> => ({ US: ranges, SI: ranges });

export const RANGES: Record<TwinId, Record<'US' | 'SI', Range[]>> = {
  SUN_ENERGY: { US: [[-89, 89], [40000, 50000, 1]], SI: [[-89, 89], [40000, 50000, 1]] },
  ET0_TEMP: {
    US: [[75, 118], [30, 74], [-60, 60], [40000, 50000, 1]],
    SI: [[24, 48], [0, 23], [-60, 60], [40000, 50000, 1]],
  },
  TREE_DEMAND: {
    US: [[0.05, 0.5], [2, 60], [0.1, 1], [0.5, 1.4]],
    SI: [[1, 12], [0.5, 20], [0.1, 1], [0.5, 1.4]],
  },
  ROOTZONE_VOLUME: {
    US: [[10, 300], [6, 36], [0.03, 0.3], [0.1, 0.8]],
    SI: [[20, 800], [15, 90], [0.03, 0.3], [0.1, 0.8]],
  },
  INTERVAL: { US: [[1, 500], [1, 40], [0, 0.9]], SI: [[1, 500], [1, 40], [0, 0.9]] },
  BAG_HOURS: {
    US: [[5, 40], [1, 8, 1], [0.02, 0.2], [6, 40], [0.5, 0.9], [0, 4]],
    SI: [[20, 150], [1, 8, 1], [0.5, 5], [15, 100], [0.5, 0.9], [0, 15]],
  },
  BAG_HOLE: {
    US: [[5, 40], [1, 8, 1], [1, 24], [6, 40], [0.5, 0.9]],
    SI: [[20, 150], [1, 8, 1], [1, 24], [15, 100], [0.5, 0.9]],
  },
  BAG_OPEN_HOLES: { US: [[1, 8, 1], [2, 10], [2, 48], [0, 0.9]], SI: [[1, 8, 1], [2, 10], [2, 48], [0, 0.9]] },
  PAD_VOLUME: { US: [[20, 60], [1, 10], [0.5, 1]], SI: [[10, 30], [0.5, 5], [0.5, 1]] },
  RECHARGE_DATE: { US: [[40000, 50000, 1], [1, 20], [0.05, 2], [0, 0.5]], SI: [[40000, 50000, 1], [4, 60], [0.2, 8], [0, 0.5]] },
  HOSE_FLOW: {
    US: [[10, 100], [20, 120], [5, 25], [8, 12], [0.5, 1.3]],
    SI: [[3, 30], [2, 15], [30, 170], [50, 80], [0.5, 1.3]],
  },
  HOSE_MINUTES: { US: [[1, 300], [0.2, 10], [0.5, 1]], SI: [[5, 1000], [1, 40], [0.5, 1]] },
  COIL_LENGTH: { US: [[0.5, 4], [5, 30], [6, 24]], SI: [[0.2, 1.2], [1.5, 9], [15, 60]] },
  SUN_HOURS: both([-89, 89], [40000, 50000, 1]),
  RAIN_MONTH: {
    US: [[0, 12], [0.5, 12], [0.5, 6]],
    SI: [[0, 300], [12, 300], [12, 150]],
  },
  RAIN_DAY: { US: [[0, 4]], SI: [[0, 100]] },
  BALL_DEPTH: { US: [[4, 60]], SI: [[10, 150]] },
  ROOT_MONTHS: { US: [[0.5, 12], [1, 13, 1]], SI: [[1, 30], [1, 13, 1]] },
  ROOT_SPREAD: {
    US: [[12, 54], [1, 40], [0, 60], [3, 48], [0.5, 2]],
    SI: [[30, 140], [0.5, 12], [0, 60], [3, 48], [0.5, 2]],
  },
  DEPLETION: { US: [[0.1, 0.8], [0, 0.5]], SI: [[0.1, 0.8], [0, 12]] },
  STRESS: both([0, 80], [80, 200], [0.1, 0.8]),
  MULCH_VOLUME: { US: [[4, 30], [1, 6], [0.5, 3]], SI: [[1.5, 9], [2, 15], [0.1, 1]] },
  BAG_LEFT: {
    US: [[5, 40], [0, 30], [1, 8, 1], [0.02, 0.2], [6, 40], [0.5, 0.9]],
    SI: [[20, 150], [0, 30], [1, 8, 1], [0.5, 5], [15, 100], [0.5, 0.9]],
  },
  WATER_WEIGHT: { US: [[0.1, 3000]], SI: [[0.5, 10000]] },
  PAD_CHARGED: { US: [[0.5, 20], [0, 24], [0.5, 8]], SI: [[2, 80], [0, 24], [0.5, 8]] },
  PAD_DAYS: both([0.5, 20], [0.01, 3], [0, 0.5]),
  BUCKET_FLOW: { US: [[1, 10], [5, 120]], SI: [[5, 40], [5, 120]] },
  HOSE_LOSS: {
    US: [[0.5, 20], [10, 300], [0.5, 2], [100, 150], [0, 40, 1]],
    SI: [[2, 80], [3, 100], [12, 50], [100, 150], [0, 40, 1]],
  },
  OUTLET_FACTOR: both([1, 200, 1], [1, 2]),
  TANK_LOADS: both([0, 20000], [100, 3000], [0.5, 1]),
  STOP_MINUTES: both([0, 500], [0.5, 40], [0, 30]),
  PRICE: both([0, 5000], [0, 0.8]),
  CONTRACT_GALLONS: both([0.5, 20], [0, 1]),
  // in US the meter begins again, in SI it does not
  METER_USE: { US: [[90000, 99999], [0, 30000], [0, 1]], SI: [[0, 30000], [30000, 90000], [0, 1]] },
  WARRANTY_END: both([40000, 50000, 1], [1, 120, 1], [0, 200, 1], [50000, 51000, 1]),
}; // prettier-ignore

/** Arguments that are no plain number: what the function is given and what stands in the formula, whatever was drawn. */
export const FIXED: Partial<
  Record<TwinId, { at: number; US: readonly [unknown, string]; SI: readonly [unknown, string] }>
> = {
  CONTRACT_GALLONS: {
    at: 1,
    US: [[[0.5, 10], [2, 25], [3, 30], [4, 35]], '{0.5,10;2,25;3,30;4,35}'],
    SI: [[[0.5, 40], [5, 95], [7.5, 115], [10, 132]], '{0.5,40;5,95;7.5,115;10,132}'],
  },
  METER_USE: { at: 2, US: ['100 ft3', '"100 ft3"'], SI: ['m3', '"m3"'] },
}; // prettier-ignore
