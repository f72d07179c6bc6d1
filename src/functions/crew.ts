/** Worksheet functions about crews, water by the truck, and money. */
import packageJson from '../../package.json' with { type: 'json' };
import {
  stopMinutes as minutesAtStop,
  tankLoads as loadsFor,
} from '../engine/means/hand-and-tanker.js';
import { priceFor } from '../engine/money/price.js';
import { tierCost } from '../engine/money/tiers.js';
import { answer } from './answer.js';
import { number, optionalNumber, unitsOf } from './arguments.js';
import { readTiers } from './water-tiers.js';

/** Share of a truck tank that arrives on the trees. */
const USABLE = 0.9;
/** To park, roll out and pack up [min]. */
const SETUP = 4;

/**
 * Tank loads that a volume of water takes.
 * @customfunction TANK_LOADS
 * @param volume - water to bring, gal | L
 * @param tank - size of the truck's tank, gal | L, the same unit as volume
 * @param usable - share of a full tank that arrives on the trees, no unit; default 0.9
 * @returns loads, a whole number; 0 for no water
 * @equation loads = volume/(usable · tank), rounded up
 * @range tank to 1,000,000; usable above 0, at most 1
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source nine tenths of the tank as in the tanker shuttle formula of fire services, www.southern-fire.com/WaterMasterShuttleForm-a.html
 */
export function tankLoads(volume: unknown, tank: unknown, usable?: unknown): number {
  return answer(() =>
    loadsFor(
      number('volume', volume, 'someVolume'),
      number('tank', tank, 'tank'),
      optionalNumber('usable', usable, 'usable', USABLE),
    ),
  );
}

/**
 * Minutes at a stop: set-up and filling.
 * @customfunction STOP_MINUTES
 * @param volume - water to give at the stop, gal | L
 * @param flow - flow of the hose, gpm | L/min, to match volume
 * @param setup - to park, roll out and pack up, minutes, 0 is none; default 4
 * @returns time at the stop without the drive to it, minutes
 * @equation t = setup + volume/flow
 * @range setup to 600 minutes
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source definition; the 4 minutes of set-up are an assumption, to be replaced by your crew's own
 */
export function stopMinutes(volume: unknown, flow: unknown, setup?: unknown): number {
  return answer(() =>
    minutesAtStop(
      number('volume', volume, 'someVolume'),
      number('flow', flow, 'flow'),
      optionalNumber('setup', setup, 'setup', SETUP),
    ),
  );
}

/**
 * Cost of water that is priced by tiers.
 * @customfunction WATER_COST
 * @param volume - water bought in one billing period, gal | L
 * @param tiers - range of two columns: up to, gal | L, and price of 1,000 gal | 1 m³; ascending, the last up to blank for no limit; a header row is optional
 * @param units - "US" or "SI", no unit: what volume, up to and price are in; the sum is the same; default "US"
 * @returns cost in the money of the prices, without fixed charges
 * @equation cost = Σ (volume inside the tier)/1000 · price
 * @range volume to 1,000,000,000; price 0 or more, to 1,000,000
 * @throws #VALUE! naming the parameter that is blank or out of range, or the row of tiers: not two columns, a blank or negative price, up to that does not ascend or is blank before the last row, or a last tier that ends below volume
 * @source definition of block rates, as water utilities print them
 */
export function waterCost(volume: unknown, tiers: unknown[][], units?: unknown): number {
  return answer(() => {
    // the price of 1,000 gal goes with gallons as that of 1 m³ does with litres, so there is nothing to convert
    unitsOf(units);
    return tierCost(number('volume', volume, 'someVolume'), readTiers('tiers', tiers));
  });
}

/**
 * Selling price that leaves a margin.
 * @customfunction PRICE
 * @param cost - what the work costs you, money, no unit
 * @param margin - share of the price that shall be left, no unit, 0 to 0.95
 * @returns price in the money of cost
 * @equation price = cost/(1 − margin)
 * @range cost to 1,000,000,000; a margin of the price is not a mark-up on the cost: 30 % margin is 43 % mark-up
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source definition of gross margin in bookkeeping
 */
export function price(cost: unknown, margin: unknown): number {
  return answer(() => priceFor(number('cost', cost, 'money'), number('margin', margin, 'margin')));
}

/**
 * Version of these functions, to tell which rules and tables a result came from.
 * @customfunction SOAK_VERSION
 * @returns version, three numbers with dots
 * @equation none
 * @range always
 * @throws never
 * @source the package the functions were built from
 */
export function soakVersion(): string {
  return answer(() => packageJson.version);
}
