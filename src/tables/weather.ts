/**
 * The Weather sheet: a table by month (Month, ET0, Rain, Share counted; or Month, Tmax, Tmin, Rain) or by day (Date, ET0,
 * Rain; or Date, Tmax, Tmin, Rain). Units come from the header.
 */
import { civil, dayOf, dayOfYear, isoDate, type Day } from '../engine/dates.js';
import type { SeasonWeather, Site } from '../engine/plan/model.js';
import { Problem } from '../engine/problems.js';
import { fahrenheitToCelsius, MM_PER_INCH } from '../engine/units.js';
import { hargreavesEt } from '../engine/weather/reference-et.js';
import {
  seasonWeather,
  seasonWeatherDaily,
  type DailyWeather,
  type MonthlyWeather,
} from '../engine/weather/season-weather.js';
import {
  isBlank,
  isMissing,
  plainLabel,
  plainNumber,
  quantity,
  quoted,
  sheetDay,
  text,
  type Cell,
} from './cells.js';
import { stationDays } from './ghcn-daily.js';
import { daysForSeason } from './weather-years.js';

type WeatherKey = 'month' | 'date' | 'et0' | 'rain' | 'share' | 'tmax' | 'tmin';

/** Columns of the two tables, with the headers of the writer and other names that are understood. */
export const WEATHER_COLUMNS: readonly { key: WeatherKey; name: string; unitUS: string; unitSI: string; also: readonly string[] }[] = [
  { key: 'month', name: 'Month', unitUS: '', unitSI: '', also: ['mes', 'monat', 'mois', 'mese'] },
  { key: 'date', name: 'Date', unitUS: '', unitSI: '', also: ['day', 'fecha', 'datum', 'data'] },
  { key: 'et0', name: 'ET0', unitUS: 'in/day', unitSI: 'mm/day', also: ['eto', 'et', 'reference et', 'etref', 'et o'] },
  { key: 'rain', name: 'Rain', unitUS: 'in', unitSI: 'mm', also: ['precipitation', 'precip', 'rainfall', 'prcp', 'lluvia'] },
  { key: 'share', name: 'Share counted', unitUS: '', unitSI: '', also: ['share', 'share of rain', 'share of rain to count on', 'reliability'] },
  { key: 'tmax', name: 'Tmax', unitUS: 'F', unitSI: 'C', also: ['maximum temperature', 'max temp', 'temp max', 'high'] },
  { key: 'tmin', name: 'Tmin', unitUS: 'F', unitSI: 'C', also: ['minimum temperature', 'min temp', 'temp min', 'low'] },
]; // prettier-ignore

const BY_NAME = new Map(
  WEATHER_COLUMNS.flatMap((c) => [c.name, ...c.also].map((n) => [plainLabel(n), c.key] as const)),
);

/** Depth units of a weather header: millimetres in one, and whether the header says a month. */
const DEPTHS: readonly (readonly [RegExp, number])[] = [
  [/^(mm|millimet(re|er)s?)\b/, 1],
  [/^(in|inch|inches|")(?=\W|$)/, MM_PER_INCH],
  [/^cm\b/, 10],
];
/** Part of the rain counted on where the table does not say [-]: an assumption, said in the problems. */
const SHARE_BY_MONTH = 0.5;
const SHARE_BY_DAY = 1;
/** Highest daily ET0 that is believed to be in inches when the header is silent. */
const INCHES_BELOW = 0.7;
const DAYS_OF_MONTH = [31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31] as const;

interface Found {
  at: number;
  unit: string;
}

const unitOf = (header: string): string =>
  (/[([]([^)\]]*)[)\]]/.exec(header)?.[1] ?? '').trim().toLowerCase();
const nameOf = (header: string): string => plainLabel(header.replace(/[([][^)\]]*[)\]]/g, ''));
const factorOf = (unit: string): number | undefined => DEPTHS.find(([p]) => p.test(unit))?.[1];
const perMonth = (unit: string): boolean => /month|mo\b|mes|monat|mois/.test(unit);

const MONTH_NAMES = ['jan ene janvier gennaio gen', 'feb fev', 'mar maerz mrz', 'apr avr abr', 'may mai mag', 'jun juin giu', 'jul juil lug', 'aug aout ago', 'sep set', 'oct okt ott', 'nov', 'dec dez dic'].map((s) => s.split(' ')); // prettier-ignore

function monthOf(cell: Cell): number | undefined {
  const n = plainNumber(cell);
  if (n !== undefined) {
    if (Number.isInteger(n) && n >= 1 && n <= 12) return n;
    return n > 10_000 ? civil(n).month : undefined;
  }
  const label = plainLabel(text(cell));
  if (label.length < 3) return undefined;
  const i = MONTH_NAMES.findIndex((names) => names.some((w) => label.startsWith(w)));
  return i < 0 ? undefined : i + 1;
}

/** A weather table as it was read, before it is laid out for a season. */
export type WeatherTable = { problems: string[] } & (
  | { kind: 'monthly'; monthly: MonthlyWeather[] }
  | { kind: 'daily'; daily: DailyWeather[]; share: number }
);

const NO_HEADER =
  'the Weather sheet has no header row; accepted are Month, ET0 (in/day or mm/day), Rain (in or mm), Share counted; or Month, Tmax, Tmin, Rain; or Date, ET0, Rain; or Date, Tmax, Tmin, Rain; or a station file in the GHCN-Daily layout';

/**
 * Reads a weather table: by month, by day, or a station file in the GHCN-Daily layout.
 * @param site - its latitude gives ET0 where there are only temperatures [deg]
 * @returns months [mm/day, mm/month] or days [mm/day, mm], and a sentence for all that was left out or assumed
 * @throws Problem when no table is found
 */
export function readWeatherTable(given: Cell[][], site: Pick<Site, 'latitude'>): WeatherTable {
  const problems: string[] = [];
  const station = stationDays(given);
  if (station) problems.push(...station.notes);
  const cells = station?.rows ?? given;
  const top = cells.findIndex((row) => {
    const keys = row.map((c) => BY_NAME.get(nameOf(text(c))));
    return (
      (keys.includes('month') || keys.includes('date')) &&
      (keys.includes('et0') || keys.includes('tmax'))
    );
  });
  if (top < 0) throw new Problem(NO_HEADER);
  const at = new Map<WeatherKey, Found>();
  (cells[top] ?? []).forEach((c, i) => {
    const key = BY_NAME.get(nameOf(text(c)));
    if (key && !at.has(key)) at.set(key, { at: i, unit: unitOf(text(c)) });
  });
  const rows = cells.slice(top + 1).map((row, i) => ({
    row,
    where: station ? `Station file, ${text(row[0])}` : `Weather sheet, row ${top + i + 2}`,
  }));
  const depth = depthFactors(
    at,
    rows.map((r) => r.row),
    problems,
  );
  const value = (key: WeatherKey, row: Cell[], where: string): number | undefined => {
    const f = at.get(key);
    const cell = f ? (row[f.at] ?? null) : null;
    if (isMissing(cell)) return undefined;
    const q = key === 'share' ? quantity(cell) : undefined;
    const n = q
      ? q.unit === '%' || q.value > 1 || f?.unit === '%'
        ? q.value / 100
        : q.value
      : plainNumber(cell);
    if (n === undefined)
      problems.push(`${where}: ${quoted(cell)} is not a number; it is left out.`);
    return n;
  };
  return at.has('date') && !at.has('month')
    ? byDay(site.latitude, rows, at, depth, value, problems)
    : byMonth(site.latitude, rows, at, depth, value, problems);
}

/**
 * Reads the Weather sheet for the season of the site.
 * @returns the season by day, and a sentence for every cell or row that was left out or assumed
 * @throws Problem when no table is found, or the season is not covered
 */
export function readWeather(
  cells: Cell[][],
  site: Site,
): { weather: SeasonWeather; problems: string[] } {
  const table = readWeatherTable(cells, site);
  const { problems } = table;
  const { seasonFrom: from, seasonTo: to, plantFactor } = site;
  if (table.kind === 'monthly')
    return { weather: seasonWeather({ from, to, monthly: table.monthly, plantFactor }), problems };
  const { daily, notes } = daysForSeason(table.daily, from, to);
  return {
    weather: seasonWeatherDaily({ from, to, daily, share: table.share }),
    problems: [...problems, ...notes],
  };
}

type Rows = readonly { row: Cell[]; where: string }[];
type Value = (key: WeatherKey, row: Cell[], where: string) => number | undefined;
interface Depths {
  et0: number;
  rain: number;
  et0PerMonth: boolean;
}

function depthFactors(at: ReadonlyMap<WeatherKey, Found>, rows: Cell[][], problems: string[]): Depths {
  const et0 = at.get('et0');
  const rain = at.get('rain');
  const largest = et0 ? Math.max(0, ...rows.map((r) => plainNumber(r[et0.at] ?? null) ?? 0)) : 0;
  const named = [et0, rain].map((f) => (f ? factorOf(f.unit) : undefined)).find((f) => f !== undefined);
  const guess = named ?? (et0 && largest < INCHES_BELOW ? MM_PER_INCH : 1);
  for (const [name, f] of [['ET0', et0], ['Rain', rain]] as const)
    if (f && factorOf(f.unit) === undefined)
      problems.push(`Weather sheet: ${name} names no unit that is known; it is read in ${guess === 1 ? 'mm' : 'in'}. Write it in the header, as "${name} (${guess === 1 ? 'mm' : 'in'}${name === 'ET0' ? '/day' : ''})".`);
  return {
    et0: (et0 && factorOf(et0.unit)) ?? guess,
    rain: (rain && factorOf(rain.unit)) ?? guess,
    et0PerMonth: et0 !== undefined && perMonth(et0.unit),
  };
} // prettier-ignore

/** The day that stands for a month where only its means are known, J [-]. Source: FAO-56 Annex 2, note of Table 2.5. */
const middleDay = (month: number): number => Math.trunc(30.4 * month - 15);

/**
 * ET0 of the two temperatures of a row, at the latitude of the site, where both are there [mm/day]. What is wrong with them
 * is said. Source: FAO-56 Eq. 52, for days and for means of longer times.
 */
function fromTemperatures(latitude: number, at: ReadonlyMap<WeatherKey, Found>, value: Value, problems: string[]) {
  for (const key of ['tmax', 'tmin'] as const) {
    const f = at.get(key);
    if (f && !/[fc]/.test(f.unit)) problems.push(`Weather sheet: ${key} names no unit; it is read in °C. Write "Tmax (C)" or "Tmax (F)".`);
  }
  const celsius = (key: 'tmax' | 'tmin', row: Cell[], where: string): number | undefined => {
    const t = value(key, row, where);
    return t !== undefined && /f/.test(at.get(key)?.unit ?? '') ? fahrenheitToCelsius(t) : t;
  };
  return (row: Cell[], where: string, dayOfTheYear: number): number | undefined => {
    const [tmax, tmin] = [celsius('tmax', row, where), celsius('tmin', row, where)];
    if (tmax === undefined || tmin === undefined) return undefined;
    try {
      return hargreavesEt(tmax, tmin, latitude, dayOfTheYear);
    } catch (error) {
      problems.push(`${where}: ${error instanceof Error ? error.message : String(error)}.`);
      return undefined;
    }
  };
} // prettier-ignore

function byMonth(latitude: number, rows: Rows, at: ReadonlyMap<WeatherKey, Found>, depth: Depths, value: Value, problems: string[]): WeatherTable {
  const monthly: MonthlyWeather[] = [];
  let assumed = 0;
  let computed = 0;
  const ofTemperatures = fromTemperatures(latitude, at, value, problems);
  const monthAt = at.get('month')?.at ?? 0;
  for (const { row, where } of rows) {
    if (isBlank(row[monthAt])) continue;
    const month = monthOf(row[monthAt] ?? null);
    if (month === undefined) {
      problems.push(`${where}: ${quoted(row[monthAt])} is not a month; accepted are 1 to 12 or the name. The row is left out.`);
      continue;
    }
    if (monthly.some((m) => m.month === month)) {
      problems.push(`${where}: ${quoted(row[monthAt])} is given a second time; the row is left out.`);
      continue;
    }
    const given = value('et0', row, where);
    const et0 = given === undefined ? ofTemperatures(row, where, middleDay(month)) : (given * depth.et0) / (depth.et0PerMonth ? (DAYS_OF_MONTH[month - 1] ?? 30) : 1);
    if (et0 === undefined) {
      problems.push(at.has('tmax') ? `${where}: the month has neither ET0 nor both temperatures; it is left out.` : `${where}: ET0 is blank; the month is left out.`);
      continue;
    }
    if (given === undefined) computed++;
    const rain = value('rain', row, where);
    if (rain === undefined) problems.push(`${where}: rain is blank; none is counted on.`);
    const share = value('share', row, where);
    if (share === undefined) assumed++;
    monthly.push({
      month,
      et0,
      rain: (rain ?? 0) * depth.rain,
      share: share ?? SHARE_BY_MONTH,
    });
  }
  if (computed > 0) problems.push(`Weather sheet: ET0 of ${computed} month${computed === 1 ? '' : 's'} is computed from temperatures alone (Hargreaves), at latitude ${Number(latitude.toFixed(2))}.`);
  if (assumed > 0)
    problems.push(`Weather sheet: ${assumed} month${assumed === 1 ? ' gives' : 's give'} no share of rain to count on; ${SHARE_BY_MONTH} is assumed.`);
  return { kind: 'monthly', monthly, problems };
} // prettier-ignore

function byDay(latitude: number, rows: Rows, at: ReadonlyMap<WeatherKey, Found>, depth: Depths, value: Value, problems: string[]): WeatherTable {
  const daily: DailyWeather[] = [];
  const seen = new Set<Day>();
  const shares = new Set<number>();
  const ofTemperatures = fromTemperatures(latitude, at, value, problems);
  let computed = 0;
  for (const { row, where } of rows) {
    const cell = row[at.get('date')?.at ?? 0] ?? null;
    if (isBlank(cell)) continue;
    const day = sheetDay(cell);
    if (day === undefined || seen.has(day)) {
      problems.push(`${where}: ${quoted(cell)} is ${day === undefined ? 'not a date; write yyyy-mm-dd' : 'given a second time'}. The row is left out.`);
      continue;
    }
    const given = value('et0', row, where);
    const et0 = given === undefined ? ofTemperatures(row, where, dayOfYear(day)) : given * depth.et0;
    if (et0 === undefined) {
      problems.push(`${where}: ${isoDate(day)} has neither ET0 nor both temperatures; the row is left out.`);
      continue;
    }
    if (given === undefined) computed++;
    const share = value('share', row, where);
    if (share !== undefined) shares.add(share);
    seen.add(day);
    daily.push({ day, et0, rain: (value('rain', row, where) ?? 0) * depth.rain });
  }
  if (computed > 0) problems.push(`Weather sheet: ET0 of ${computed} days is computed from temperatures alone (Hargreaves), at latitude ${Number(latitude.toFixed(2))}.`);
  if (shares.size > 1) problems.push('Weather sheet: the share counted differs by day; the least is used for all.');
  const share = shares.size > 0 ? Math.min(...shares) : SHARE_BY_DAY;
  return { kind: 'daily', daily, share, problems };
} // prettier-ignore

/** The monthly table as rows with a header; ET0 [mm/day], rain [mm/month] in. */
export function weatherRows(monthly: readonly MonthlyWeather[], units: 'US' | 'SI'): Cell[][] {
  const per = units === 'US' ? MM_PER_INCH : 1;
  const header = WEATHER_COLUMNS.filter((c) =>
    ['month', 'et0', 'rain', 'share'].includes(c.key),
  ).map((c) => {
    const unit = units === 'US' ? c.unitUS : c.unitSI;
    return unit === '' ? c.name : `${c.name} (${unit})`;
  });
  return [header, ...monthly.map((m) => [monthName(m.month), m.et0 / per, m.rain / per, m.share])];
}

const monthName = (month: number): string => {
  const day = dayOf(2001, month, 1);
  return new Intl.DateTimeFormat('en', { month: 'short', timeZone: 'UTC' }).format(
    (day - 25569) * 86_400_000,
  );
};
