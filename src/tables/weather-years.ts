/** Daily records laid onto a season they were not made in: a past year stands for the one to come. */
import { civil, dayOf, isoDate, type Day } from '../engine/dates.js';
import { Problem } from '../engine/problems.js';
import type { DailyWeather } from '../engine/weather/season-weather.js';

/** Longest run of days without a record that is filled [days], an assumption of this planner. */
const LONGEST_GAP = 3;
/** Years that are looked back for the latest with records. */
const MOST_YEARS = 200;

/** The same date of another year; 29 February becomes the 28th where there is none. */
function inYear(day: Day, year: number): Day {
  const { month, date } = civil(day);
  const leap = civil(dayOf(year, 3, 1) - 1).date === 29;
  return dayOf(year, month, month === 2 && date === 29 && !leap ? 28 : date);
}

/** Days of a year's records, with short gaps filled by their neighbours. */
function laidOnto(
  records: ReadonlyMap<Day, DailyWeather>,
  from: Day,
  to: Day,
  years: number,
): { daily: DailyWeather[]; filled: number } | { missing: Day } {
  const then = (day: Day): Day => inYear(day, civil(day).year - years);
  const daily: DailyWeather[] = [];
  let filled = 0;
  for (let day = from; day <= to; day++) {
    const record = records.get(then(day)) ?? between(records, then(day));
    if (!record) return { missing: then(day) };
    if (!records.has(then(day))) filled++;
    daily.push({ ...record, day });
  }
  return { daily, filled };
}

/** A day without a record: ET0 between that of the days around it, no rain counted on. */
function between(records: ReadonlyMap<Day, DailyWeather>, day: Day): DailyWeather | undefined {
  const near = (step: 1 | -1): number | undefined => {
    for (let k = 1; k <= LONGEST_GAP; k++) {
      const found = records.get(day + step * k);
      if (found) return k;
    }
    return undefined;
  };
  const [before, after] = [near(-1), near(1)];
  if (before === undefined || after === undefined || before + after > LONGEST_GAP + 1)
    return undefined;
  const [a, b] = [records.get(day - before)!, records.get(day + after)!];
  return { day, et0: a.et0 + ((b.et0 - a.et0) * before) / (before + after), rain: 0 };
}

/**
 * Records for every day of a season. Records of the season itself are taken as they are; where there is not one of
 * them, the latest year that covers the season stands for it, and a note says so.
 *
 * @throws Problem when records are of other years and none of those covers the season
 */
export function daysForSeason(
  daily: readonly DailyWeather[],
  from: Day,
  to: Day,
): { daily: readonly DailyWeather[]; notes: string[] } {
  if (daily.length === 0 || daily.some(({ day }) => day >= from && day <= to))
    return { daily, notes: [] };
  const records = new Map(daily.map((d) => [d.day, d]));
  const latest = daily.reduce((last, { day }) => Math.max(last, day), -Infinity);
  const nearest = Math.max(1, civil(from).year - civil(latest).year);
  const earliest = daily.reduce((first, { day }) => Math.min(first, day), Infinity);
  let missing: Day | undefined;
  for (let years = nearest; years < nearest + MOST_YEARS; years++) {
    if (inYear(to, civil(to).year - years) < earliest) break;
    const laid = laidOnto(records, from, to, years);
    if ('missing' in laid) {
      missing ??= laid.missing;
      continue;
    }
    const [first, last] = [from, to].map((day) => isoDate(inYear(day, civil(day).year - years)));
    return {
      daily: laid.daily,
      notes: [
        `The weather on record is of other years: ${first} to ${last} stands for the season.`,
        ...(laid.filled > 0 ? [`${laid.filled} days without a record take the ET0 of the days around them, and no rain.`] : []),
      ],
    }; // prettier-ignore
  }
  throw new Problem(
    `the weather on record covers no whole season from ${isoDate(from)} to ${isoDate(to)}, of that year or another${missing === undefined ? '' : `; ${isoDate(missing)} is the first day missing`}`,
  );
}
