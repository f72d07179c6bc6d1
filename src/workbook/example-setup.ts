/**
 * A site, kit, rules and weather to plan with when none are given. Invented, meant to be replaced; every
 * table that comes from here is named in the notes of the workbook.
 */
import { dayOf } from '../engine/dates.js';
import type { Device, Site } from '../engine/plan/model.js';
import type { Units } from '../engine/units.js';
import { convert, type Cell } from '../tables/cells.js';
import { defaultSite } from '../tables/site.js';
import type { GivenPapers } from './service-papers.js';

export interface Setup extends GivenPapers {
  site: Site;
  kit: Device[];
  /** tables with their header row, as on the sheets Rules and Weather */
  rules: Cell[][];
  stages: Cell[][];
  weather: Cell[][];
}

/** Kit of the example; prices and sizes are invented. SI units, in sizes that are round in them. */
const KIT_SI: readonly Device[] = [
  { name: 'example bag', family: 'bag', volume: 57, holes: 4, ratedHours: 5, price: 28, seasons: 3, stock: 0, setupMinutes: 6, visitMinutes: 4, automatic: false },
  { name: 'example pad', family: 'pad', volume: 11, price: 22, seasons: 2, stock: 0, setupMinutes: 10, visitMinutes: 12, automatic: false },
  { name: 'example soaker on a timer', family: 'soaker', rate: 8, length: 12, price: 60, seasons: 3, stock: 0, setupMinutes: 40, visitMinutes: 10, automatic: true },
  { name: 'example hand hose', family: 'hand', flow: 20, price: 40, seasons: 4, stock: 2, setupMinutes: 0, visitMinutes: 3, automatic: false },
  { name: 'example tanker', family: 'tanker', volume: 1900, flow: 60, price: 0, seasons: 10, stock: 1, setupMinutes: 0, visitMinutes: 3, automatic: false },
]; // prettier-ignore

/** A US size in the SI unit. */
const us = (value: number, unit: string, inside: string): number => convert(value, unit, inside)!;
/** The same devices in sizes that are round in US units. A 15 gal bag is a usual size of the trade; common practice, no source. */
const KIT_US: readonly Device[] = KIT_SI.map((device) => ({
  ...device,
  ...{
    bag: { volume: us(15, 'gal', 'L') },
    pad: { volume: us(3, 'gal', 'L') },
    soaker: { rate: us(65, 'gal/h per 100 ft', 'L/h per m'), length: us(40, 'ft', 'm') },
    hand: { flow: us(5, 'gpm', 'L/min') },
    tanker: { volume: us(500, 'gal', 'L'), flow: us(15, 'gpm', 'L/min') },
  }[device.family],
}));

/** The example's kit, in sizes that are round in a unit system; SI values. */
export const exampleKit = (units: Units): Device[] =>
  (units === 'US' ? KIT_US : KIT_SI).map((device) => ({ ...device }));

const RULES: Cell[][] = [
  ['Stage', 'Means', 'Address', 'Days', 'Hours', 'Verdict', 'Note'],
  ['', 'any', 'any', 'any', '00:00-12:00, 17:00-24:00', 'allow', 'example, replace by your ordinance'],
]; // prettier-ignore

/** Invented normals of a hot, dry place north of the equator: month, ET0 [mm/day], rain [mm]. */
const NORMALS: readonly (readonly [number, number])[] = [
  [1.8, 20],
  [2.6, 22],
  [4.0, 22],
  [5.6, 8],
  [7.0, 4],
  [8.0, 2],
  [7.6, 18],
  [6.9, 22],
  [5.6, 15],
  [4.0, 14],
  [2.4, 14],
  [1.7, 22],
];
/** Share of the mean effective rain to count on in the example [-]. */
const SHARE = 0.5;

/** Months by which the year is turned for a place south of the equator. */
const HALF_A_YEAR = 6;

/**
 * The example for a latitude: south of the equator the weather is turned by half a year and the season
 * runs from October to March.
 *
 * @param latitude - north positive [deg]
 * @param units - the kit has sizes that are round in them
 */
export function exampleSetup(latitude: number, units: Units = 'SI'): Setup {
  const south = latitude < 0;
  const weather: Cell[][] = [['Month', 'ET0 (mm/day)', 'Rain (mm)', 'Share of rain to count on']];
  for (let month = 1; month <= 12; month++) {
    const at = south ? (month - 1 + HALF_A_YEAR) % 12 : month - 1;
    const [et0, rain] = NORMALS[at]!;
    weather.push([month, et0, rain, SHARE]);
  }
  return {
    site: defaultSite({
      name: 'Example site, replace by yours',
      latitude,
      ...(south && { seasonFrom: dayOf(2027, 10, 1), seasonTo: dayOf(2028, 3, 31) }),
    }),
    kit: exampleKit(units),
    rules: RULES,
    stages: [['From', 'Stage']],
    weather,
  };
}
