/** Weather of a season as days, from monthly normals or from daily records. */
import { plain, within } from '../checks.js';
import { civil, dayOf, isoDate, MONTHS, type Day } from '../dates.js';
import type { SeasonWeather } from '../plan/model.js';
import { Problem } from '../problems.js';
import { MM_PER_INCH } from '../units.js';
import { dailyEffectiveRain, monthlyEffectiveRain, SCS_STORAGE } from './rainfall.js';

/** Longest season that is laid out day by day [days]: three years. */
export const LONGEST_SEASON = 1096;

/** Normals of one calendar month. */
export interface MonthlyWeather {
  /** 1…12 */
  month: number;
  /** mean reference ET [mm/day] */
  et0: number;
  /** rain of the month [mm/month] */
  rain: number;
  /** share of the effective rain to count on [-], 0…1 */
  share: number;
}

/** One recorded or forecast day. */
export interface DailyWeather {
  day: Day;
  /** reference ET [mm/day] */
  et0: number;
  /** rain [mm] */
  rain: number;
}

/**
 * A season from monthly normals. Effective rain of each month by the SCS formula for the whole month, times
 * the share to count on, spread evenly over its days: normals know nothing of single storms.
 *
 * @param input.from - first day, `input.to` last day, both inside
 * @param input.monthly - one entry for every month the season touches; others are ignored
 * @param input.plantFactor - of the planting, for ETc in the SCS formula [-], above 0 to 1.5
 * @param input.storage - usable soil storage of the SCS formula [mm], default 3 in
 * @throws Problem if a month is missing or given twice, a value is out of range, or the days are in the wrong order
 * Source: `monthlyEffectiveRain`.
 */
export function seasonWeather(input: {
  from: Day;
  to: Day;
  monthly: readonly MonthlyWeather[];
  plantFactor: number;
  storage?: number | undefined;
}): SeasonWeather {
  const { from, plantFactor, storage = SCS_STORAGE } = input;
  const length = seasonLength(from, input.to);
  within('plant factor', plantFactor, 0, 1.5);
  const byMonth = new Map<number, MonthlyWeather>();
  for (const entry of input.monthly) {
    if (!Number.isInteger(entry.month) || entry.month < 1 || entry.month > 12)
      throw new Problem(`month must be a whole number from 1 to 12; got ${String(entry.month)}`);
    if (byMonth.has(entry.month))
      throw new Problem(`the weather gives ${monthName(entry.month)} twice`);
    byMonth.set(entry.month, entry);
  }
  return fill(from, length, (day) => {
    const { year, month } = civil(day);
    const normal = byMonth.get(month);
    if (!normal)
      throw new Problem(`the weather has no row for ${monthName(month)}, which the season needs`);
    const name = monthName(month);
    const days = daysInMonth(year, month);
    const et0 = depthWithin(`ET0 of ${name}`, normal.et0, 25, '/day');
    const rain = depthWithin(`rain of ${name}`, normal.rain, 3000);
    const share = within(`share of rain to count on in ${name}`, normal.share, 0, 1);
    const effective = monthlyEffectiveRain(rain, et0 * plantFactor * days, storage);
    return { et0, rain: rain / days, effectiveRain: (effective * share) / days };
  });
}

/**
 * A season from daily records. Effective rain of each day by the per-event rule, times the share to count on.
 *
 * @param input.from - first day, `input.to` last day, both inside
 * @param input.daily - one record for every day of the season, in any order; others are ignored
 * @param input.share - share of the effective rain to count on [-], 0…1
 * @throws Problem if a day is missing or given twice, a value is out of range, or the days are in the wrong order
 * Source: `dailyEffectiveRain`.
 */
export function seasonWeatherDaily(input: {
  from: Day;
  to: Day;
  daily: readonly DailyWeather[];
  share: number;
}): SeasonWeather {
  const { from } = input;
  const length = seasonLength(from, input.to);
  const share = within('share of rain to count on', input.share, 0, 1);
  const byDay = new Map<Day, DailyWeather>();
  for (const record of input.daily) {
    if (byDay.has(record.day)) throw new Problem(`the weather gives ${isoDate(record.day)} twice`);
    byDay.set(record.day, record);
  }
  return fill(from, length, (day) => {
    const record = byDay.get(day);
    if (!record)
      throw new Problem(`the weather has no row for ${isoDate(day)}, which the season needs`);
    const et0 = depthWithin(`ET0 of ${isoDate(day)}`, record.et0, 25);
    const rain = depthWithin(`rain of ${isoDate(day)}`, record.rain, 2000);
    return { et0, rain, effectiveRain: share * dailyEffectiveRain(rain) };
  });
}

/**
 * A depth from 0 to a limit, both said in mm and inches: the table may have been in either.
 *
 * @param mm - the depth [mm], `high` its limit [mm]
 * @param per - said after the unit, as "/day"
 * @throws Problem if it is outside
 */
function depthWithin(name: string, mm: number, high: number, per = ''): number {
  const inches = (depth: number): string => String(Number((depth / MM_PER_INCH).toPrecision(3)));
  if (mm >= 0 && mm <= high) return mm;
  throw new Problem(
    `${name} must be from 0 to ${high} mm${per} (${inches(high)} in${per}); got ${plain(mm)} mm (${inches(mm)} in)`,
  );
}

const monthName = (month: number): string => MONTHS[month - 1] ?? String(month);

const daysInMonth = (year: number, month: number): number =>
  (month === 12 ? dayOf(year + 1, 1, 1) : dayOf(year, month + 1, 1)) - dayOf(year, month, 1);

function seasonLength(from: Day, to: Day): number {
  if (!Number.isInteger(from) || !Number.isInteger(to))
    throw new Problem('the season must start and end on whole days');
  const length = to - from + 1;
  if (length < 1)
    throw new Problem(`the season ends on ${isoDate(to)}, before it starts on ${isoDate(from)}`);
  if (length > LONGEST_SEASON)
    throw new Problem(
      `the season is ${length} days long; at most ${LONGEST_SEASON} can be planned`,
    );
  return length;
}

function fill(
  from: Day,
  length: number,
  weatherOn: (day: Day) => { et0: number; rain: number; effectiveRain: number },
): SeasonWeather {
  const et0 = new Float64Array(length);
  const rain = new Float64Array(length);
  const effectiveRain = new Float64Array(length);
  const monthSums = new Map<number, { sum: number; days: number }>();
  for (let i = 0; i < length; i++) {
    const today = weatherOn(from + i);
    et0[i] = today.et0;
    rain[i] = today.rain;
    effectiveRain[i] = today.effectiveRain;
    const { month } = civil(from + i);
    const tally = monthSums.get(month) ?? { sum: 0, days: 0 };
    monthSums.set(month, { sum: tally.sum + today.et0, days: tally.days + 1 });
  }
  let peakMonth = civil(from).month;
  let peakEt0 = -1;
  for (const [month, { sum, days }] of monthSums)
    if (sum / days > peakEt0) {
      peakMonth = month;
      peakEt0 = sum / days;
    }
  return { from, et0, rain, effectiveRain, peakMonth, peakEt0 };
}
