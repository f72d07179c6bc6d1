/** Exact and conventional conversion factors. The engine is SI inside; callers convert once, at the edge. */

/** 1 inch [mm], exact (international inch, 1959). */
export const MM_PER_INCH = 25.4;
/** 1 foot [m], exact. */
export const M_PER_FOOT = 0.3048;
/** 1 US gallon [L], exact: 231 cubic inches. */
export const L_PER_GALLON = 3.785411784;
/** 1 cubic yard [m³], exact: 27 cubic feet. */
export const M3_PER_CUBIC_YARD = 0.764554857984;
/** 1 psi [kPa]: pound-force (4.4482216152605 N, exact) on a square inch. */
export const KPA_PER_PSI = 6.894757293168361;
/** 1 avoirdupois pound [kg], exact. */
export const KG_PER_POUND = 0.45359237;
/** 1 mph [m/s], exact. */
export const MS_PER_MPH = 0.44704;
/** Standard gravity [m/s²], exact by convention. */
export const GRAVITY = 9.80665;
/** Depth of water on an area: 1 mm on 1 m² is 1 L. */
export const L_PER_MM_M2 = 1;

export type Units = 'US' | 'SI';

export const fahrenheitToCelsius = (f: number): number => ((f - 32) * 5) / 9;
/** [°F] from [°C]. Exact by definition. */
export const celsiusToFahrenheit = (c: number): number => (c * 9) / 5 + 32;
