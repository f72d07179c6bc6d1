/** Worksheet functions about the weather. */
import { dayOfYear } from '../engine/dates.js';
import { Problem } from '../engine/problems.js';
import { hargreavesEt, referenceEt } from '../engine/weather/reference-et.js';
import {
  dailyEffectiveRain,
  monthlyEffectiveRain,
  SCS_STORAGE,
} from '../engine/weather/rainfall.js';
import { daylightHours, extraterrestrialRadiation } from '../engine/weather/sun.js';
import { answer } from './answer.js';
import { date, number, optionalNumber, toCell, unitsOf } from './arguments.js';

/**
 * Reference evapotranspiration of a day from its weather, in | mm.
 * @customfunction ET0
 * @param tmax - highest temperature of the day, °F | °C
 * @param tmin - lowest temperature of the day, °F | °C
 * @param latitude - decimal degrees, north positive
 * @param date - the day, a date
 * @param dewpoint - dew point, °F | °C; default: the lowest temperature (for a true zero write 0.001)
 * @param wind - mean wind at 2 m above ground, mph | m/s; default 2 m/s
 * @param solar - solar radiation of the day, MJ/m² in both systems; default: from the temperature range, inland
 * @param elevation - above sea level, ft | m; default 0
 * @param units - "US" or "SI", no unit; default "US"
 * @returns depth of water, in | mm, never below 0
 * @equation FAO-56 Eq. 6; missing values by Eq. 48, 50 and wind 2 m/s
 * @range -60 to 60 °C, latitude -90 to 90, wind to 45 m/s, elevation -430 to 5,800 m
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Allen, Pereira, Raes, Smith (1998), FAO Irrigation and Drainage Paper 56
 */
export function et0(
  tmax: unknown,
  tmin: unknown,
  latitude: unknown,
  date: unknown,
  dewpoint?: unknown,
  wind?: unknown,
  solar?: unknown,
  elevation?: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const temperatures = temperaturePair(tmax, tmin, system);
    const dewPoint = optionalNumber('dewpoint', dewpoint, 'dewPoint', undefined, system);
    if (dewPoint !== undefined && dewPoint > temperatures.tmax)
      throw new Problem('dewpoint must not be above tmax');
    const depth = referenceEt({
      ...temperatures,
      ...placeAndDay(latitude, date),
      dewPoint,
      wind: optionalNumber('wind', wind, 'wind', undefined, system),
      solar: optionalNumber('solar', solar, 'solar', undefined),
      elevation: optionalNumber('elevation', elevation, 'elevation', 0, system),
    });
    // The equation dips a little below zero on cold, saturated days; a cell of water use must not.
    return toCell(Math.max(0, depth), 'waterDepth', system);
  });
}

/**
 * Reference evapotranspiration of a day from temperatures alone, in | mm.
 * @customfunction ET0_TEMP
 * @param tmax - highest temperature of the day, °F | °C
 * @param tmin - lowest temperature of the day, °F | °C
 * @param latitude - decimal degrees, north positive
 * @param date - the day, a date
 * @param units - "US" or "SI", no unit; default "US"
 * @returns depth of water, in | mm, never below 0
 * @equation FAO-56 Eq. 52 (Hargreaves-Samani)
 * @range -60 to 60 °C, latitude -90 to 90; best over five days or more
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Allen, Pereira, Raes, Smith (1998), FAO Irrigation and Drainage Paper 56
 */
export function et0Temp(
  tmax: unknown,
  tmin: unknown,
  latitude: unknown,
  date: unknown,
  units?: unknown,
): number {
  return answer(() => {
    const system = unitsOf(units);
    const day = temperaturePair(tmax, tmin, system);
    const sun = placeAndDay(latitude, date);
    return toCell(
      hargreavesEt(day.tmax, day.tmin, sun.latitude, sun.dayOfYear),
      'waterDepth',
      system,
    );
  });
}

/**
 * Sun energy above the atmosphere on a day, MJ/m².
 * @customfunction SUN_ENERGY
 * @param latitude - decimal degrees, north positive
 * @param date - the day, a date
 * @returns energy, MJ/m² a day; 0 in polar night
 * @equation FAO-56 Eq. 21, with Eq. 23 to 25
 * @range latitude -90 to 90
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Allen, Pereira, Raes, Smith (1998), FAO Irrigation and Drainage Paper 56
 */
export function sunEnergy(latitude: unknown, date: unknown): number {
  return answer(() => {
    const sun = placeAndDay(latitude, date);
    return extraterrestrialRadiation(sun.latitude, sun.dayOfYear);
  });
}

/**
 * Daylight hours of a day, sunrise to sunset.
 * @customfunction SUN_HOURS
 * @param latitude - decimal degrees, north positive
 * @param date - the day, a date
 * @returns hours, 0 in polar night, 24 in polar day
 * @equation hours = 24/π · arccos(−tan φ · tan δ), φ the latitude, δ the sun's declination (FAO-56 Eq. 34, with Eq. 24 and 25)
 * @range latitude -90 to 90; the sun's centre at a level horizon, so almanacs print about 0.1 h more
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Allen, Pereira, Raes, Smith (1998), FAO Irrigation and Drainage Paper 56
 */
export function sunHours(latitude: unknown, date: unknown): number {
  return answer(() => {
    const sun = placeAndDay(latitude, date);
    return daylightHours(sun.latitude, sun.dayOfYear);
  });
}

/**
 * Effective rain of a month: what the roots can use of it, in | mm. Not for single storms.
 * @customfunction RAIN_MONTH
 * @param rain - rain of the month, in | mm
 * @param etc - water the planting uses in the month as a depth, in | mm
 * @param storage - usable water the soil can hold, in | mm; default 3 in
 * @param units - "US" or "SI", no unit; default "US"
 * @returns depth, in | mm; never above rain or etc
 * @equation effective = SF · (0.70917 rain^0.82416 − 0.11556) · 10^(0.02426 etc), SF = 0.531747 + 0.295164 storage − 0.057697 storage² + 0.003804 storage³; all in inches
 * @range rain to 3,000 mm, etc to 1,000 mm, storage to 7.5 in | 190 mm
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source USDA National Engineering Handbook, part 623, chapter 2, Eq. 2-84 and 2-85
 */
export function rainMonth(rain: unknown, etc: unknown, storage?: unknown, units?: unknown): number {
  return answer(() => {
    const system = unitsOf(units);
    const depth = monthlyEffectiveRain(
      number('rain', rain, 'monthRain', system),
      number('etc', etc, 'monthDemand', system),
      optionalNumber('storage', storage, 'soilStorage', SCS_STORAGE, system),
    );
    return toCell(depth, 'waterDepth', system);
  });
}

/**
 * Effective rain of one day: what the roots can use of it, in | mm. Not for monthly totals.
 * @customfunction RAIN_DAY
 * @param rain - rain of the day, in | mm
 * @param units - "US" or "SI", no unit; default "US"
 * @returns depth, in | mm
 * @equation the first 0.1 in is lost, full credit from 0.1 to 1 in, two thirds from 1 to 2 in, nothing above
 * @range rain to 2,000 mm; the result is at most 1.57 in
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Texas A&M AgriLife, TexasET, effective rainfall
 */
export function rainDay(rain: unknown, units?: unknown): number {
  return answer(() => {
    const system = unitsOf(units);
    const depth = dailyEffectiveRain(number('rain', rain, 'dayRain', system));
    return toCell(depth, 'waterDepth', system);
  });
}

function temperaturePair(
  tmax: unknown,
  tmin: unknown,
  system: 'US' | 'SI',
): { tmax: number; tmin: number } {
  const high = number('tmax', tmax, 'temperature', system);
  const low = number('tmin', tmin, 'temperature', system);
  if (low > high) throw new Problem('tmin must not be above tmax');
  return { tmax: high, tmin: low };
}

function placeAndDay(latitude: unknown, day: unknown): { latitude: number; dayOfYear: number } {
  return {
    latitude: number('latitude', latitude, 'latitude'),
    dayOfYear: dayOfYear(date('date', day)),
  };
}
