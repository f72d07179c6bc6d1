/** A kit to plan with when none is given, and what a device that is added begins with. Invented, meant to be replaced. */
import type { Device } from '../engine/plan/model.js';
import type { Units } from '../engine/units.js';
import { convert } from '../tables/cells.js';

/** Kit of the example; prices and sizes are invented. SI units, in sizes that are round in them. */
const KIT_SI: readonly Device[] = [
  { name: 'example bag', family: 'bag', volume: 57, holes: 4, ratedHours: 5, price: 28, seasons: 3, stock: 0, setupMinutes: 6, visitMinutes: 4, automatic: false },
  { name: 'example pad', family: 'pad', volume: 11, price: 22, seasons: 2, stock: 0, setupMinutes: 10, visitMinutes: 12, automatic: false },
  { name: 'example soaker on a timer', family: 'soaker', rate: 8, length: 12, price: 60, seasons: 3, stock: 0, setupMinutes: 40, visitMinutes: 10, automatic: true },
  { name: 'example hand hose', family: 'hand', flow: 20, price: 40, seasons: 4, stock: 2, setupMinutes: 0, visitMinutes: 3, automatic: false },
  { name: 'example tanker', family: 'tanker', volume: 1900, flow: 60, price: 0, seasons: 10, stock: 1, setupMinutes: 0, visitMinutes: 3, automatic: false },
]; // prettier-ignore

/** A US size in the SI unit. */
const us = (value: number, unit: string, inside: string): number => convert(value, unit, inside)!;
/** The same devices in sizes that are round in US units. A 15 gal bag is a usual size of the trade; common practice, no source. */
const KIT_US: readonly Device[] = KIT_SI.map((device) => ({
  ...device,
  ...{
    bag: { volume: us(15, 'gal', 'L') },
    pad: { volume: us(3, 'gal', 'L') },
    soaker: { rate: us(65, 'gal/h per 100 ft', 'L/h per m'), length: us(40, 'ft', 'm') },
    hand: { flow: us(5, 'gpm', 'L/min') },
    tanker: { volume: us(500, 'gal', 'L'), flow: us(15, 'gpm', 'L/min') },
  }[device.family],
}));

/** The example's kit, in sizes that are round in a unit system; SI values. */
export const exampleKit = (units: Units): Device[] =>
  (units === 'US' ? KIT_US : KIT_SI).map((device) => ({ ...device }));
