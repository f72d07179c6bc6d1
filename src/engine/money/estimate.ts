/** What a season costs and what it is sold for, line by line. */
import type { Device, SeasonPlan } from '../plan/model.js';
import { againstRules, type RuleComparison } from './against-rules.js';
import { materials, mulchNeeded, type Material, type SiteMulch } from './materials.js';
import { priceFor } from './price.js';
import { waterBill, type WaterMonth } from './water-bill.js';

export type LineKind =
  'kit' | 'set-up' | 'watering' | 'driving' | 'refills' | 'hose checks' | 'water' | 'mulch';

export interface EstimateLine {
  kind: LineKind;
  /** the device of a kit line, else '' */
  device: string;
  quantity: number;
  unit: 'each' | 'crew h' | 'm³';
  unitCost: number; // [money]
  cost: number; // quantity · unit cost [money]
  price: number; // cost/(1 − margin), to the cent [money]
}

/** Crew hours of the season. Watering, driving and refills together are the hours of the crew days. */
export interface CrewHours {
  watering: number;
  driving: number;
  refills: number;
  /** looking at hoses on a timer; in no crew day, so done on the way [h] */
  hoseChecks: number;
}

export interface Estimate {
  lines: EstimateLine[];
  cost: number;
  /** sum of the rounded prices: the lines add up to it */
  price: number;
  hours: CrewHours;
  materials: Material[];
  mulch: SiteMulch[];
  water: WaterMonth[];
  /** the site's rule first */
  againstRules: RuleComparison[];
}

/** To the cent, halves away from zero, as spreadsheets round: a tail of binary noise does not decide. */
export const toCents = (amount: number): number =>
  Math.round(Number((amount * 100).toPrecision(15))) / 100;

/**
 * Hours of the crew days by what they go to, and of the checks of automatic hoses: minutes at each tree, and one drive
 * to each site and check.
 */
export function crewHours(plan: SeasonPlan, kit: readonly Device[]): CrewHours {
  const { site, crewDays } = plan;
  const byName = new Map(kit.map((device) => [device.name, device]));
  let atTrees = 0;
  const rounds = new Map<string, number>();
  for (const { tree, chosen } of plan.trees) {
    const device = chosen.devices.map((name) => byName.get(name)).find((d) => d?.automatic);
    if (!device || chosen.plan.length === 0) continue;
    atTrees += chosen.visits * device.visitMinutes * tree.count;
    rounds.set(tree.site, Math.max(rounds.get(tree.site) ?? 0, chosen.visits));
  }
  const drives = [...rounds.values()].reduce((a, b) => a + b, 0);
  const hours = { watering: 0, driving: 0, refills: 0 };
  for (const day of crewDays) {
    const watering = day.stops.reduce((sum, stop) => sum + stop.minutes, 0) / 60;
    const refills = (day.tankLoads * site.tankRefillMinutes) / 60;
    hours.watering += watering;
    hours.refills += refills;
    hours.driving += day.hours - watering - refills;
  }
  return { ...hours, hoseChecks: (atTrees + drives * site.driveMinutes) / 60 };
}

/**
 * The estimate of a season. Kit is billed as a season's share of everything in use, owned or bought (price ÷ seasons, as
 * in the choice of means); what is to be paid now for new kit stands in `materials`. Lines without a quantity are left out.
 *
 * @param kit - the devices the plan was made with
 * @throws Problem if the margin is not from 0 to below 1, or water blocks do not ascend
 * Source: definitions; gross margin of bookkeeping.
 */
export function estimate(plan: SeasonPlan, kit: readonly Device[]): Estimate {
  const { site } = plan;
  const needed = materials(plan, kit);
  const mulch = mulchNeeded(plan);
  const water = waterBill(plan);
  const hours = crewHours(plan, kit);
  const crewHour = site.wage * site.crewSize;
  const lines: EstimateLine[] = [];
  const line = (
    kind: LineKind,
    quantity: number,
    unit: EstimateLine['unit'],
    unitCost: number,
    device = '',
  ): void => {
    if (quantity <= 0) return;
    const cost = quantity * unitCost;
    lines.push({
      kind, device, quantity, unit, unitCost, cost, price: toCents(priceFor(cost, site.margin)),
    }); // prettier-ignore
  };
  for (const { device, needed: pieces } of needed)
    if (device.price > 0) line('kit', pieces, 'each', device.price / device.seasons, device.name);
  const total = (numbers: number[]): number => numbers.reduce((a, b) => a + b, 0);
  line('set-up', total(needed.map((m) => m.setupHours)), 'crew h', crewHour);
  line('watering', hours.watering, 'crew h', crewHour);
  // what a sum of differences leaves of no driving at all is no line
  line('driving', hours.driving < 1e-9 ? 0 : hours.driving, 'crew h', crewHour);
  line('refills', hours.refills, 'crew h', crewHour);
  line('hose checks', hours.hoseChecks, 'crew h', crewHour);
  const cubicMetres = total(water.map((m) => m.litres)) / 1000;
  line('water', cubicMetres, 'm³', total(water.map((m) => m.cost)) / cubicMetres);
  line('mulch', total(mulch.map((m) => m.volume)), 'm³', site.mulchPrice);
  return {
    lines,
    cost: total(lines.map((l) => l.cost)),
    price: toCents(total(lines.map((l) => l.price))),
    hours,
    materials: needed,
    mulch,
    water,
    againstRules: againstRules(plan),
  };
}
