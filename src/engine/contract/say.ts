/** Quantities in sentences of this room: in the unit system of the person who reads them. */
import { L_PER_GALLON, MM_PER_INCH, type Units } from '../units.js';

const rounded = (value: number, digits: number): string => String(Number(value.toFixed(digits)));

/** `20 gal` or `75.7 L`. @param litres - [L] */
export const volumeWords = (litres: number, units: Units): string =>
  units === 'US' ? `${rounded(litres / L_PER_GALLON, 1)} gal` : `${rounded(litres, 1)} L`;

/** `1 in` or `25 mm`. @param mm - depth of rain [mm] */
export const depthWords = (mm: number, units: Units): string =>
  units === 'US' ? `${rounded(mm / MM_PER_INCH, 2)} in` : `${rounded(mm, 0)} mm`;

/** `171 min`. @param minutes - [min] */
export const minutesWords = (minutes: number): string => `${rounded(minutes, 1)} min`;

/** `one tree`, `3 trees`. */
export const several = (count: number, one: string, many = `${one}s`): string =>
  count === 1 ? `one ${one}` : `${count} ${many}`;
