/** The sun above the atmosphere: energy and day length from latitude and day of the year alone. */
import { within } from '../checks.js';

/** Solar constant of FAO-56 [MJ/m² per minute]. */
export const SOLAR_CONSTANT = 0.082;

interface SunPath {
  latitude: number; // [rad]
  declination: number; // [rad]
  sunset: number; // hour angle [rad], 0…π
  inverseDistance: number; // relative, Earth to sun [-]
}

function sunPath(latitudeDeg: number, dayOfYear: number): SunPath {
  const latitude = (within('latitude', latitudeDeg, -90, 90, 'degrees') * Math.PI) / 180;
  const turn = (2 * Math.PI * within('day of the year', dayOfYear, 1, 366)) / 365;
  const declination = 0.409 * Math.sin(turn - 1.39); // Eq. 24
  // Beyond the polar circles the argument leaves −1…1: the sun does not set, or does not rise.
  const argument = Math.min(1, Math.max(-1, -Math.tan(latitude) * Math.tan(declination)));
  return {
    latitude,
    declination,
    sunset: Math.acos(argument), // Eq. 25
    inverseDistance: 1 + 0.033 * Math.cos(turn), // Eq. 23
  };
}

/**
 * Extraterrestrial radiation of a day,
 *   Ra = (24·60/π) · Gsc · dr · (ωs sin φ sin δ + cos φ cos δ sin ωs).
 *
 * @param latitude - north positive [deg], −90…90
 * @param dayOfYear - J [day], 1…366
 * @param solarConstant - Gsc [MJ/m² per minute], 0.0820
 * @returns energy [MJ/m² per day]; 0 in polar night
 * @throws Problem outside those ranges
 * Source: FAO-56 Eq. 21, with Eq. 23, 24, 25.
 */
export function extraterrestrialRadiation(
  latitude: number,
  dayOfYear: number,
  solarConstant = SOLAR_CONSTANT,
): number {
  const sun = sunPath(latitude, dayOfYear);
  const geometry =
    sun.sunset * Math.sin(sun.latitude) * Math.sin(sun.declination) +
    Math.cos(sun.latitude) * Math.cos(sun.declination) * Math.sin(sun.sunset);
  return Math.max(0, ((24 * 60) / Math.PI) * solarConstant * sun.inverseDistance * geometry);
}

/**
 * Daylight hours, N = 24 ωs/π.
 *
 * @param latitude - north positive [deg], −90…90
 * @param dayOfYear - J [day], 1…366
 * @returns hours [h], 0…24
 * @throws Problem outside those ranges
 * Source: FAO-56 Eq. 34.
 */
export const daylightHours = (latitude: number, dayOfYear: number): number =>
  (24 * sunPath(latitude, dayOfYear).sunset) / Math.PI;
