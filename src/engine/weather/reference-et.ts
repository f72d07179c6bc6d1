/**
 * Reference evapotranspiration of a day: FAO-56 Penman–Monteith with its chapter 3 for what was not measured,
 * the ASCE-EWRI standardised form for cross-checking, and Hargreaves where only temperatures are trusted.
 *
 * Symbols inside formulas are FAO-56's: e vapour pressure [kPa], Δ its slope [kPa/°C], γ psychrometric
 * constant [kPa/°C], R radiation [MJ/m² per day], G soil heat flux [MJ/m² per day], u2 wind at 2 m [m/s].
 */
import { positive, within } from '../checks.js';
import { Problem } from '../problems.js';
import { daylightHours, extraterrestrialRadiation } from './sun.js';

/** Weather of one day. What is undefined was not measured and is estimated by FAO-56 chapter 3. */
export interface DayOfWeather {
  tmax: number; // [°C]
  tmin: number; // [°C]
  latitude: number; // [deg], north positive
  dayOfYear: number; // J, 1…366
  elevation?: number | undefined; // [m], 0
  /** humidity, the first that is given counts: ea [kPa], dew point [°C], relative humidity [%] */
  vapourPressure?: number | undefined;
  dewPoint?: number | undefined;
  humidityMax?: number | undefined;
  humidityMin?: number | undefined;
  humidityMean?: number | undefined;
  wind?: number | undefined; // [m/s], 2
  windHeight?: number | undefined; // [m], 2
  /** radiation, the first that is given counts: Rs [MJ/m² per day], bright sunshine [h] */
  solar?: number | undefined;
  sunshine?: number | undefined;
  /** adjustment of Eq. 50 [-]: 0.16 inland, 0.19 at the coast */
  coast?: boolean | undefined;
  soilHeat?: number | undefined; // G [MJ/m² per day], 0
}

/** Intermediate values of the Penman–Monteith calculation, under FAO-56's symbols. */
export interface EtParts {
  es: number; // [kPa]
  ea: number; // [kPa]
  slope: number; // Δ [kPa/°C]
  gamma: number; // γ [kPa/°C]
  u2: number; // [m/s]
  ra: number; // [MJ/m² per day]
  rs: number;
  rso: number;
  rns: number;
  rnl: number;
  rn: number;
  et: number; // [mm/day]
}

/** Wind where none was measured [m/s] (FAO-56 chapter 3, text of Table 4). */
export const DEFAULT_WIND = 2;
/** MJ/m² to the depth of water it evaporates [mm] (FAO-56 Eq. 20). */
const MM_PER_MJ = 0.408;

/** What distinguishes the two published forms; everything else they share. */
interface Form {
  numerator: number; // Cn
  denominator: number; // Cd
  boltzmann: number; // σ [MJ/m² per day per K⁴]
  solarConstant: number; // [MJ/m² per minute]
  /** 4098 · 0.6108, rounded differently by the two papers */
  slopeConstant: number;
}
const FAO56: Form = {
  numerator: 900,
  denominator: 0.34,
  boltzmann: 4.903e-9,
  solarConstant: 0.082,
  slopeConstant: 4098 * 0.6108,
};
const ASCE = { boltzmann: 4.901e-9, solarConstant: 4.92 / 60, slopeConstant: 2503 };
const ASCE_SHORT: Form = { ...ASCE, numerator: 900, denominator: 0.34 };
const ASCE_TALL: Form = { ...ASCE, numerator: 1600, denominator: 0.38 };

/**
 * Saturation vapour pressure, e°(T) = 0.6108 exp(17.27 T/(T + 237.3)).
 *
 * @param t - air temperature [°C]
 * @returns pressure [kPa]
 * Source: FAO-56 Eq. 11.
 */
export const saturationPressure = (t: number): number =>
  0.6108 * Math.exp((17.27 * t) / (t + 237.3));

/**
 * Air pressure from elevation, P = 101.3 ((293 − 0.0065 z)/293)^5.26.
 *
 * @param elevation - above sea level [m], −450…6000
 * @returns pressure [kPa]
 * @throws Problem outside that range
 * Source: FAO-56 Eq. 7.
 */
export const airPressure = (elevation: number): number =>
  101.3 * ((293 - 0.0065 * within('elevation', elevation, -450, 6000, 'm')) / 293) ** 5.26;

/**
 * Wind at 2 m from wind at another height, u2 = uz · 4.87/ln(67.8 z − 5.42).
 *
 * @param wind - measured [m/s], 0…60
 * @param height - of the instrument above ground [m], 0.5…100
 * @returns wind at 2 m [m/s]
 * @throws Problem outside those ranges
 * Source: FAO-56 Eq. 47.
 */
export function windAt2m(wind: number, height: number): number {
  within('wind', wind, 0, 60, 'm/s');
  within('height of the wind instrument', height, 0.5, 100, 'm');
  return height === 2 ? wind : (wind * 4.87) / Math.log(67.8 * height - 5.42);
}

/**
 * Soil heat flux of a month from the month before, G = 0.14 (Tmonth − Tbefore).
 *
 * @returns flux [MJ/m² per day]
 * Source: FAO-56 Eq. 44, as used in Example 17.
 */
export const monthlySoilHeat = (thisMonth: number, monthBefore: number): number =>
  0.14 * (thisMonth - monthBefore);

/**
 * Reference evapotranspiration of a day, FAO-56 Penman–Monteith,
 *   ETo = [0.408 Δ (Rn − G) + γ · 900/(T + 273) · u2 (es − ea)] / [Δ + γ (1 + 0.34 u2)].
 *
 * @param weather - the day; what is missing is estimated by chapter 3 (Eq. 48, 50; wind 2 m/s)
 * @returns depth [mm/day]; may fall slightly below 0 on a cold, saturated day, as the equation does
 * @throws Problem if a value is out of range or two values contradict
 * Source: FAO-56 Eq. 6, with Eq. 7, 8, 11–13, 17, 19, 21–25, 34, 35, 37–40, 47, 48, 50.
 */
export const referenceEt = (weather: DayOfWeather): number => penmanMonteith(weather, FAO56).et;

/** As `referenceEt`, with every intermediate value. */
export const referenceEtParts = (weather: DayOfWeather): EtParts => penmanMonteith(weather, FAO56);

/**
 * Standardised reference evapotranspiration of a day, ASCE-EWRI, with the simple clear-sky radiation.
 *
 * @param weather - the day
 * @param surface - "short" (clipped grass, Cn 900, Cd 0.34) or "tall" (alfalfa, Cn 1600, Cd 0.38)
 * @returns depth [mm/day]
 * @throws Problem if a value is out of range or two values contradict
 * Source: ASCE-EWRI (2005), Eq. 1 and Table 1.
 */
export const standardisedEt = (weather: DayOfWeather, surface: 'short' | 'tall'): number =>
  penmanMonteith(weather, surface === 'short' ? ASCE_SHORT : ASCE_TALL).et;

/**
 * Reference evapotranspiration from temperatures, ETo = 0.0023 (Tmean + 17.8) √(Tmax − Tmin) · 0.408 Ra.
 *
 * @param tmax - [°C], −60…60
 * @param tmin - [°C], not above tmax
 * @param latitude - [deg], −90…90
 * @param dayOfYear - J, 1…366
 * @returns depth [mm/day], never below 0
 * @throws Problem outside those ranges
 * Source: FAO-56 Eq. 52.
 */
export function hargreavesEt(
  tmax: number,
  tmin: number,
  latitude: number,
  dayOfYear: number,
): number {
  checkTemperatures(tmax, tmin);
  const ra = MM_PER_MJ * extraterrestrialRadiation(latitude, dayOfYear);
  return Math.max(0, 0.0023 * ((tmax + tmin) / 2 + 17.8) * Math.sqrt(tmax - tmin) * ra);
}

function penmanMonteith(w: DayOfWeather, form: Form): EtParts {
  checkTemperatures(w.tmax, w.tmin);
  const elevation = w.elevation ?? 0;
  const mean = (w.tmax + w.tmin) / 2;
  const es = (saturationPressure(w.tmax) + saturationPressure(w.tmin)) / 2; // Eq. 12
  const ea = actualPressure(w, es);
  const slope =
    (form.slopeConstant * Math.exp((17.27 * mean) / (mean + 237.3))) / (mean + 237.3) ** 2; // Eq. 13
  const gamma = 0.665e-3 * airPressure(elevation); // Eq. 8
  const u2 = windAt2m(w.wind ?? DEFAULT_WIND, w.windHeight ?? 2);

  const ra = extraterrestrialRadiation(w.latitude, w.dayOfYear, form.solarConstant);
  const rso = (0.75 + 2e-5 * elevation) * ra; // Eq. 37
  const rs = solarRadiation(w, ra);
  const rns = 0.77 * rs; // Eq. 38
  const rnl = longwaveLoss(w, ea, rs, rso, form.boltzmann);
  const rn = rns - rnl; // Eq. 40

  const energy = MM_PER_MJ * slope * (rn - (w.soilHeat ?? 0));
  const air = ((gamma * form.numerator) / (mean + 273)) * u2 * (es - ea);
  const et = (energy + air) / (slope + gamma * (1 + form.denominator * u2)); // Eq. 6
  return { es, ea, slope, gamma, u2, ra, rs, rso, rns, rnl, rn, et };
}

function actualPressure(w: DayOfWeather, es: number): number {
  if (w.vapourPressure !== undefined)
    return within('vapour pressure', w.vapourPressure, 0, 12, 'kPa');
  if (w.dewPoint !== undefined) {
    if (w.dewPoint > w.tmax)
      throw new Problem('the dew point must not be above the highest temperature of the day');
    return saturationPressure(within('dew point', w.dewPoint, -80, 60, '°C')); // Eq. 14
  }
  if (w.humidityMax !== undefined && w.humidityMin !== undefined) {
    const atNight = within('highest humidity', w.humidityMax, 0, 100, '%');
    const byDay = within('lowest humidity', w.humidityMin, 0, 100, '%');
    return (saturationPressure(w.tmin) * atNight + saturationPressure(w.tmax) * byDay) / 200; // Eq. 17
  }
  if (w.humidityMean !== undefined)
    return (within('mean humidity', w.humidityMean, 0, 100, '%') / 100) * es; // Eq. 19
  return saturationPressure(w.tmin); // Eq. 48
}

function solarRadiation(w: DayOfWeather, ra: number): number {
  if (w.solar !== undefined) return within('solar radiation', w.solar, 0, 60, 'MJ/m²');
  if (w.sunshine !== undefined) {
    const daylight = daylightHours(w.latitude, w.dayOfYear);
    within('hours of sunshine', w.sunshine, 0, 24, 'h');
    const share = daylight > 0 ? Math.min(1, w.sunshine / daylight) : 0;
    return (0.25 + 0.5 * share) * ra; // Eq. 35
  }
  return (w.coast === true ? 0.19 : 0.16) * Math.sqrt(w.tmax - w.tmin) * ra; // Eq. 50
}

function longwaveLoss(
  w: DayOfWeather,
  ea: number,
  rs: number,
  rso: number,
  boltzmann: number,
): number {
  // In polar night both are 0 and say nothing of the clouds: the overcast limit is taken.
  const clearness = rso > 0 ? Math.min(1, Math.max(0.3, rs / rso)) : 0.3;
  const radiant = (boltzmann * ((w.tmax + 273.16) ** 4 + (w.tmin + 273.16) ** 4)) / 2;
  return radiant * (0.34 - 0.14 * Math.sqrt(ea)) * (1.35 * clearness - 0.35); // Eq. 39
}

/** A sheet may have been in either; the engine works in °C. */
const CELSIUS = '°C (-76 to 140 °F)';

function checkTemperatures(tmax: number, tmin: number): void {
  within('highest temperature', tmax, -60, 60, CELSIUS);
  within('lowest temperature', tmin, -60, 60, CELSIUS);
  if (tmin > tmax) throw new Problem('the lowest temperature must not be above the highest');
}

/**
 * Dew point that a vapour pressure implies, the inverse of Eq. 14.
 *
 * @param ea - vapour pressure [kPa], above 0
 * @returns temperature [°C]
 * @throws Problem if ea is not positive
 * Source: FAO-56 Eq. 11 solved for temperature.
 */
export function dewPointOf(ea: number): number {
  const x = Math.log(positive('vapour pressure', ea, 'kPa') / 0.6108);
  return (237.3 * x) / (17.27 - x);
}
