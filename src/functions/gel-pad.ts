/** Worksheet functions about gel pads. */
import {
  PAD_HALF_TIME,
  padCharge,
  padDays as daysOfPad,
  padVolume as usableWaterOfPad,
  rechargeDate as dayOfRecharge,
} from '../engine/means/gel-pad.js';
import { Problem } from '../engine/problems.js';
import { answer } from './answer.js';
import { date, dateCell, number, numbers, optionalNumber, toCell, unitsOf } from './arguments.js';

/**
 * Usable water of a gel pad from two weighings, gal | L.
 * @customfunction PAD_VOLUME
 * @param saturated - weight after soaking in the water it will get, lb | kg
 * @param dry - weight of the dry pad, lb | kg
 * @param usable - share of the water that roots can draw, no unit; default 0.9
 * @param units - "US" or "SI", no unit; default "US"
 * @returns usable water, gal | L
 * @equation V = (saturated − dry) · usable, 1 kg of water being 1 L
 * @range weights to 900 kg, saturated above dry
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source definition; weigh it with your own water, for hard water halves what gel takes up
 */
export function padVolume(
  saturated: unknown,
  dry: unknown,
  usable?: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const wet = number('saturated', saturated, 'weight', system);
    const empty = number('dry', dry, 'weight', system);
    if (wet <= empty) throw new Problem('saturated must be above dry');
    const litres = usableWaterOfPad(wet, empty, optionalNumber('usable', usable, 'usable', 0.9));
    return toCell(litres, 'volume', system);
  });
}

/**
 * Water a dry gel pad has taken up after soaking, gal | L.
 * @customfunction PAD_CHARGED
 * @param volume - usable water of the pad when full, gal | L
 * @param hours - time it has soaked, hours; 0 is a true zero
 * @param half_time - time in which it takes up half of that, hours; default 2, an assumption: time your own pad
 * @param units - "US" or "SI", no unit; default "US"
 * @returns water taken up, gal | L
 * @equation V (1 − 2^(−hours/half_time))
 * @range from dry, under enough water; hours 0 to 10,000, half_time to 1,000
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source first-order uptake, an assumption of this model; gel charges in 1 to 24 h by grain size (from memory)
 */
export function padCharged(
  volume: unknown,
  hours: unknown,
  half_time?: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const litres = padCharge(
      number('volume', volume, 'bagVolume', system),
      number('hours', hours, 'elapsed'),
      optionalNumber('half_time', half_time, 'halfTime', PAD_HALF_TIME),
    );
    return toCell(litres, 'volume', system);
  });
}

/**
 * Days until a full gel pad has fallen to its reserve at a steady draw.
 * @customfunction PAD_DAYS
 * @param volume - usable water of the pad, gal | L
 * @param draw - water drawn a day, gal | L as volume
 * @param reserve - share of the water that must stay, no unit, 0 to 0.99; default 0.1
 * @returns time, days, not rounded
 * @equation volume · (1 − reserve)/draw
 * @range volume and draw above 0
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source water balance of the pad
 */
export function padDays(volume: unknown, draw: unknown, reserve?: unknown): number {
  return answer(() =>
    daysOfPad(
      number('volume', volume, 'anyVolume'),
      number('draw', draw, 'steadyDraw'),
      optionalNumber('reserve', reserve, 'reserve', 0.1),
    ),
  );
}

/**
 * Date a gel pad must be soaked again.
 * @customfunction RECHARGE_DATE
 * @param charged - day it was last soaked, a date
 * @param volume - usable water of the pad, gal | L
 * @param draws - water drawn on each day after charged, a range, or one number for every day; gal | L as volume
 * @param reserve - share of the water that must stay, no unit, 0 to 0.99; default 0.1
 * @returns the first day the store has fallen to the reserve, a date
 * @equation volume · (1 − reserve) = sum of draws
 * @range 400 days for one number, else as many days as draws has cells
 * @throws #VALUE! naming the parameter that is blank or out of range; #N/A if the reserve is not reached
 * @source water balance of the pad
 */
export function rechargeDate(
  charged: unknown,
  volume: unknown,
  draws: unknown[][],
  reserve?: unknown,
): number {
  return answer(() =>
    dateCell(
      dayOfRecharge(
        date('charged', charged),
        number('volume', volume, 'anyVolume'),
        numbers('draws', draws, 'draw'),
        optionalNumber('reserve', reserve, 'reserve', 0.1),
      ),
    ),
  );
}
