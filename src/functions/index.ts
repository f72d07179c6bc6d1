/** Every worksheet function under its id, for the host, the desk, the command line and the tests. */
import { bagHole, bagHours, bagOpenHoles } from './bag.js';
import { padVolume, rechargeDate } from './gel-pad.js';
import { coilLength, hoseFlow, hoseMinutes } from './hose.js';
import { planTotals } from './plan.js';
import { interval, rootzoneVolume, soilWater, treeDemand } from './tree-and-soil.js';
import { et0, et0Temp, sunEnergy } from './weather.js';

// Ids are for ever: saved workbooks store them. Arguments are whatever cells hold; each function checks its own.
export const FUNCTIONS: Record<string, (...args: any[]) => unknown> = {
  ET0: et0,
  ET0_TEMP: et0Temp,
  SUN_ENERGY: sunEnergy,
  TREE_DEMAND: treeDemand,
  SOIL_WATER: soilWater,
  ROOTZONE_VOLUME: rootzoneVolume,
  INTERVAL: interval,
  BAG_HOURS: bagHours,
  BAG_HOLE: bagHole,
  BAG_OPEN_HOLES: bagOpenHoles,
  PAD_VOLUME: padVolume,
  RECHARGE_DATE: rechargeDate,
  HOSE_FLOW: hoseFlow,
  HOSE_MINUTES: hoseMinutes,
  COIL_LENGTH: coilLength,
  PLAN_TOTALS: planTotals,
};
