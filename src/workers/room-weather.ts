/** What a draft's weather says: of which kind it is, how far it reaches, its months. */
import { civil, isoDate } from '../engine/dates.js';
import type { Site } from '../engine/plan/model.js';
import { Problem } from '../engine/problems.js';
import type { Units } from '../engine/units.js';
import type { Cell } from '../tables/cells.js';
import { readWeather, readWeatherTable, type WeatherTable } from '../tables/weather.js';
import { shown } from '../workbook/quantities.js';
import type { SetupReport } from './plan-room.js';

type Report = SetupReport['weather'];

/** Months of a table: mean ET0 of a day, rain of a month [mm]. */
function monthsOf(table: WeatherTable): Report['months'] {
  if (table.kind === 'monthly')
    return [...table.monthly]
      .sort((a, b) => a.month - b.month)
      .map(({ month, et0, rain }) => ({ month, et0, rain }));
  const sums = new Map<number, { et0: number; rain: number; days: number; months: Set<number> }>();
  for (const { day, et0, rain } of table.daily) {
    const { year, month } = civil(day);
    const sum = sums.get(month) ?? { et0: 0, rain: 0, days: 0, months: new Set<number>() };
    sum.months.add(year);
    sums.set(month, {
      ...sum,
      et0: sum.et0 + et0,
      rain: sum.rain + rain,
      days: sum.days + 1,
    });
  }
  return [...sums]
    .sort(([a], [b]) => a - b)
    .map(([month, sum]) => ({
      month,
      et0: sum.et0 / sum.days,
      rain: sum.rain / sum.months.size,
    }));
}

const many = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

function saysOf(table: WeatherTable): string {
  if (table.kind === 'monthly') return many(table.monthly.length, 'month');
  const days = table.daily.map(({ day }) => day);
  if (days.length === 0) return 'no days';
  const [first, last] = [
    days.reduce((a, b) => Math.min(a, b)),
    days.reduce((a, b) => Math.max(a, b)),
  ];
  return `${many(days.length, 'day')} from ${isoDate(first)} to ${isoDate(last)}`;
}

/**
 * @param given - the draft's table; undefined: the example's
 * @param site - its season must be covered; its latitude gives ET0 from temperatures
 */
export function weatherReport(
  given: Cell[][] | undefined,
  example: Cell[][],
  site: Site,
  units: Units,
): Report {
  const sentence = (error: unknown): string => {
    if (error instanceof Problem) return sentenceCase(error.message);
    throw error;
  };
  let table: WeatherTable;
  try {
    table = readWeatherTable(given ?? example, site);
  } catch (error) {
    return { kind: 'none', says: '', months: [], problems: [sentence(error)] };
  }
  let { problems } = table;
  try {
    ({ problems } = readWeather(given ?? example, site));
  } catch (error) {
    problems = [...problems, sentence(error)];
  }
  return {
    kind: given === undefined ? 'example' : table.kind,
    says: saysOf(table),
    months: monthsOf(table).map(({ month, et0, rain }) => ({
      month,
      et0: shown('depth', units, et0),
      rain: shown('depth', units, rain),
    })),
    problems,
  };
}

const sentenceCase = (words: string): string =>
  `${words.charAt(0).toUpperCase()}${words.slice(1)}${/[.!?]$/.test(words) ? '' : '.'}`;
