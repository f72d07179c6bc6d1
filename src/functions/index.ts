/** Every worksheet function under its id, for the host, the desk, the command line and the tests. */
import { bagHole, bagHours, bagLeft, bagOpenHoles, bagVerdict, waterWeight } from './bag.js';
import {
  contractCheck,
  contractGallons,
  deficitGallons,
  logFlags,
  meterUse,
  triage,
  warrantyEnd,
} from './contract.js';
import { price, soakVersion, stopMinutes, tankLoads, waterCost } from './crew.js';
import { padCharged, padDays, padVolume, rechargeDate } from './gel-pad.js';
import { coilDiameter, coilLength, hoseFlow, hoseMinutes, soakCycles } from './hose.js';
import { interval, nextDate, ruleOfThumb } from './interval.js';
import { bucketFlow, hoseEvenness, hoseLongest, hoseLoss, outletFactor } from './pipe.js';
import { planDates, planDays, planMeans, planTotals } from './plan.js';
import { ruleDates, ruleNext, ruleOpen, ruleWhy } from './rules.js';
import { heatRest, salinity } from './safety.js';
import { depletion, mulchVolume, rootzoneVolume, soilIntake, soilWater, stress } from './soil.js';
import {
  ballDepth,
  ballDiameter,
  containerVolume,
  plantFactor,
  rootMonths,
  rootSpread,
  treeDemand,
} from './tree.js';
import { et0, et0Temp, rainDay, rainMonth, sunEnergy, sunHours } from './weather.js';

// Ids are for ever: saved workbooks store them. Arguments are whatever cells hold; each function checks its own.
export const FUNCTIONS: Record<string, (...args: any[]) => unknown> = {
  ET0: et0,
  ET0_TEMP: et0Temp,
  SUN_ENERGY: sunEnergy,
  SUN_HOURS: sunHours,
  RAIN_MONTH: rainMonth,
  RAIN_DAY: rainDay,
  PLANT_FACTOR: plantFactor,
  TREE_DEMAND: treeDemand,
  BALL_DIAMETER: ballDiameter,
  BALL_DEPTH: ballDepth,
  CONTAINER_VOLUME: containerVolume,
  ROOT_MONTHS: rootMonths,
  ROOT_SPREAD: rootSpread,
  SOIL_WATER: soilWater,
  SOIL_INTAKE: soilIntake,
  DEPLETION: depletion,
  ROOTZONE_VOLUME: rootzoneVolume,
  STRESS: stress,
  MULCH_VOLUME: mulchVolume,
  INTERVAL: interval,
  NEXT_DATE: nextDate,
  RULE_OF_THUMB: ruleOfThumb,
  BAG_HOURS: bagHours,
  BAG_LEFT: bagLeft,
  BAG_HOLE: bagHole,
  BAG_OPEN_HOLES: bagOpenHoles,
  BAG_VERDICT: bagVerdict,
  WATER_WEIGHT: waterWeight,
  PAD_VOLUME: padVolume,
  PAD_CHARGED: padCharged,
  PAD_DAYS: padDays,
  RECHARGE_DATE: rechargeDate,
  BUCKET_FLOW: bucketFlow,
  HOSE_FLOW: hoseFlow,
  HOSE_MINUTES: hoseMinutes,
  HOSE_LOSS: hoseLoss,
  OUTLET_FACTOR: outletFactor,
  HOSE_EVENNESS: hoseEvenness,
  HOSE_LONGEST: hoseLongest,
  COIL_LENGTH: coilLength,
  COIL_DIAMETER: coilDiameter,
  SOAK_CYCLES: soakCycles,
  RULE_OPEN: ruleOpen,
  RULE_WHY: ruleWhy,
  RULE_NEXT: ruleNext,
  RULE_DATES: ruleDates,
  PLAN_DATES: planDates,
  PLAN_DAYS: planDays,
  PLAN_MEANS: planMeans,
  PLAN_TOTALS: planTotals,
  TANK_LOADS: tankLoads,
  STOP_MINUTES: stopMinutes,
  WATER_COST: waterCost,
  PRICE: price,
  HEAT_REST: heatRest,
  SALINITY: salinity,
  CONTRACT_GALLONS: contractGallons,
  CONTRACT_CHECK: contractCheck,
  DEFICIT_GALLONS: deficitGallons,
  TRIAGE: triage,
  LOG_FLAGS: logFlags,
  METER_USE: meterUse,
  WARRANTY_END: warrantyEnd,
  SOAK_VERSION: soakVersion,
};
