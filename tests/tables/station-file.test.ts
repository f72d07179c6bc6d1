/** Weather of a station: files in the GHCN-Daily layout, and years that stand for the season to come. Invented figures. */
import { describe, expect, it } from 'vitest';
import { dayOf, dayOfYear, isoDate } from '../../src/engine/dates.js';
import { Problem } from '../../src/engine/problems.js';
import { hargreavesEt } from '../../src/engine/weather/reference-et.js';
import type { Cell } from '../../src/tables/cells.js';
import { defaultSite } from '../../src/tables/site.js';
import { readWeather, readWeatherTable } from '../../src/tables/weather.js';

const SITE = defaultSite({ latitude: 36, seasonFrom: dayOf(2027, 6, 1), seasonTo: dayOf(2027, 6, 30) }); // prettier-ignore
const JUNE = Array.from({ length: 30 }, (_, i) => dayOf(2024, 6, 1) + i);
const basic = (day: number): string => isoDate(day).replace(/-/g, '');

/** A column for each element: rain on the third, tenths of mm and °C. */
const wide = (days = JUNE): Cell[][] => [
  ['STATION', 'DATE', 'LATITUDE', 'PRCP', 'PRCP_ATTRIBUTES', 'TMAX', 'TMIN'],
  ...days.map((day): Cell[] => ['XX000000001', isoDate(day), '36.1', day === JUNE[2] ? '127' : '0', ',,W', '350', '200']), // prettier-ignore
];
/** A row for each day and element. */
const long = (): Cell[][] =>
  JUNE.flatMap((day): Cell[][] => [
    ['XX000000001', basic(day), 'TMAX', '350', '', '', 'W', ''],
    ['XX000000001', basic(day), 'TMIN', '200', '', '', 'W', ''],
    ['XX000000001', basic(day), 'PRCP', day === JUNE[2] ? '127' : '0', '', '', 'W', ''],
    ['XX000000001', basic(day), 'SNOW', '0', '', '', 'W', ''],
  ]);
/** The same without the station, under a header. */
const headed = (): Cell[][] => [
  ['date', 'attr', 'value', 'a', 'b', 'c', 'd'],
  ...long().map((row) => row.slice(1)),
];

describe('a station file in the GHCN-Daily layout', () => {
  it.each([
    ['a column for each element', wide()],
    ['a row for each element', long()],
    ['a row for each element, without the station', headed()],
  ])('with %s is read in tenths; ET0 is from temperatures at the site’s latitude', (_, cells) => {
    const { weather, problems } = readWeather(cells, SITE);
    const day = dayOf(2024, 6, 3);
    expect(weather.rain[2]).toBeCloseTo(12.7, 10);
    expect(weather.rain[3]).toBe(0);
    expect(weather.et0[2]).toBeCloseTo(hargreavesEt(35, 20, 36, dayOfYear(day)), 10);
    expect(problems.join(' ')).toMatch(/rain in tenths of mm, temperatures in tenths of °C/);
    expect(problems.join(' ')).toMatch(/ET0 of 30 days is computed from temperatures alone \(Hargreaves\), at latitude 36/); // prettier-ignore
    expect(problems.join(' ')).toMatch(/2024-06-01 to 2024-06-30 stands for the season/);
  });

  it('days that failed a check of quality, and -9999, are no records', () => {
    const flagged = long().map((row, i) => (i === 0 ? [...row.slice(0, 5), 'G', 'W', ''] : row));
    const { problems } = readWeatherTable(flagged, SITE);
    expect(problems.join(' ')).toMatch(/2024-06-01 has neither ET0 nor both temperatures/);
    const missing = wide().map((row, i) => (i === 4 ? [...row.slice(0, 3), '-9999', '', '-9999', '200'] : row)); // prettier-ignore
    const table = readWeatherTable(missing, SITE);
    expect(table.kind === 'daily' && table.daily.length).toBe(29);
    expect(table.problems.join(' ')).toMatch(/1 of 30 days have no rain on record/);
  });

  it('without both temperatures, or not in tenths, it is refused in a sentence', () => {
    expect(() => readWeatherTable(wide().map((row) => row.slice(0, 6)), SITE)).toThrow(/no TMIN: ET0 is computed from both/); // prettier-ignore
    const fahrenheit = wide().map((row, i) => (i === 0 ? row : [...row.slice(0, 3), '0.5', '', '95', '68'])); // prettier-ignore
    expect(() => readWeatherTable(fahrenheit, SITE)).toThrow(/not in whole tenths.*Tmax \(F\)/);
    expect(() => readWeatherTable(fahrenheit, SITE)).toThrow(Problem);
  });
});

describe('a year that stands for the season', () => {
  it('the latest one that covers it is taken', () => {
    const both = [...wide(), ...wide(JUNE.map((d) => d - 366)).slice(1).map((row) => [...row.slice(0, 5), '300', '100'])]; // prettier-ignore
    const { problems } = readWeather(both, SITE);
    expect(problems.join(' ')).toMatch(/2024-06-01 to 2024-06-30/);
  });
  it('short gaps take the days around them and no rain; long ones are refused with the first day', () => {
    const gap = (from: number, days: number): Cell[][] => wide(JUNE.filter((_, i) => i < from || i >= from + days)); // prettier-ignore
    const { weather, problems } = readWeather(gap(10, 2), SITE);
    expect(weather.et0[10]).toBeGreaterThan(Math.min(weather.et0[9]!, weather.et0[12]!) - 1e-12);
    expect(weather.et0[10]).toBeLessThan(Math.max(weather.et0[9]!, weather.et0[12]!) + 1e-12);
    expect(weather.rain[10]).toBe(0);
    expect(problems.join(' ')).toMatch(/2 days without a record take the ET0 of the days around/);
    expect(() => readWeather(gap(10, 8), SITE)).toThrow(/covers no whole season.*2024-06-11 is the first day missing/); // prettier-ignore
  });
  it('29 February of the season takes the 28th where the year has none', () => {
    const site = { ...SITE, seasonFrom: dayOf(2028, 2, 27), seasonTo: dayOf(2028, 3, 2) };
    const days = Array.from({ length: 10 }, (_, i) => dayOf(2023, 2, 24) + i);
    expect(readWeather(wide(days), site).weather.et0.length).toBe(5);
  });
  it('records of the season itself are not moved: a day that lacks is said', () => {
    const own = wide(JUNE.slice(1).map((d) => d + (dayOf(2027, 6, 1) - JUNE[0]!)));
    expect(() => readWeather(own, SITE)).toThrow(/no row for 2027-06-01/);
  });
});
