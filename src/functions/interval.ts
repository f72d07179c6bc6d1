/** Worksheet functions about how long water lasts, and the rules of thumb beside them. */
import { Problem } from '../engine/problems.js';
import { dayDrawn } from '../engine/run-out.js';
import { RULE_NAMES, wateringByRule } from '../engine/tree/rules-of-thumb.js';
import { answer } from './answer.js';
import {
  date,
  dateCell,
  number,
  numbers,
  optionalNumber,
  toCell,
  unitsOf,
  word,
} from './arguments.js';

/**
 * Days a root zone's usable water lasts.
 * @customfunction INTERVAL
 * @param volume - usable water of the root zone, gal | L
 * @param demand - water used a day, gal | L as volume
 * @param rain - water that rain brings a day, gal | L as volume; default 0
 * @returns days
 * @equation t = volume/(demand − rain)
 * @range volume and demand above 0
 * @throws #VALUE! naming the parameter that is blank or out of range; #N/A if rain covers demand
 * @source water balance, FAO-56 Eq. 85
 */
export function interval(volume: unknown, demand: unknown, rain?: unknown): number {
  return answer(() => {
    const usable = number('volume', volume, 'anyVolume');
    const net = number('demand', demand, 'demand') - optionalNumber('rain', rain, 'rainGain', 0);
    if (net <= 0)
      throw new Problem('rain covers demand, so the root zone does not run dry', 'none');
    return usable / net;
  });
}

/**
 * Date a root zone's usable water runs out.
 * @customfunction NEXT_DATE
 * @param last - day it was last watered full, a date
 * @param volume - usable water of the root zone, gal | L
 * @param demands - water used on each day after last, a range, or one number for every day; gal | L as volume
 * @returns the first day on which the demands together reach volume, a date; water then at the latest
 * @equation sum of demands = volume
 * @range 400 days for one number, else as many days as demands has cells
 * @throws #VALUE! naming the parameter that is blank or out of range; #N/A if the water lasts longer
 * @source water balance, FAO-56 Eq. 85 with demand alone
 */
export function nextDate(last: unknown, volume: unknown, demands: unknown[][]): number {
  return answer(() =>
    dateCell(
      dayDrawn(
        date('last', last),
        number('volume', volume, 'anyVolume'),
        numbers('demands', demands, 'draw'),
        (days) => `the usable water lasts longer than the ${days} days looked at`,
      ),
    ),
  );
}

/**
 * Water for one watering by a published rule of thumb, low and high side by side, gal | L.
 * @customfunction RULE_OF_THUMB
 * @param caliper - trunk diameter, in | cm
 * @param rule - "florida" (2 to 3 gal an inch), "minnesota" (1 to 1.5), "extension" (1.5) or "colorado" (10 a week), no unit
 * @param units - "US" or "SI", no unit; default "US"
 * @returns low and high, gal | L per watering, in two cells; the same where the rule gives one number
 * @equation gallons = inches of trunk · the rule's gallons an inch
 * @range florida: daily for 2 to 6 weeks by size, alternate days for 2 to 5 months, then weekly; minnesota: daily 2 weeks, every 2 to 3 days to week 12, then weekly; extension: daily 2 weeks, alternate days 2 months, then weekly; colorado: weekly, established trees without irrigation. The rules conflict and know neither soil nor weather
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source UF/IFAS; University of Minnesota Extension; eXtension, trees for energy conservation; Colorado State Forest Service as quoted by a city
 */
export function ruleOfThumb(caliper: unknown, rule: unknown, units?: unknown): unknown[][] {
  return answer(() => {
    const system = unitsOf(units);
    const { low, high } = wateringByRule(
      number('caliper', caliper, 'caliper', system),
      word('rule', rule, RULE_NAMES),
    );
    return [[toCell(low, 'volume', system), toCell(high, 'volume', system)]];
  });
}
