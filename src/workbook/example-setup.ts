/**
 * A site, kit, rules and weather to plan with when none are given. Invented, meant to be replaced; every
 * table that comes from here is named in the notes of the workbook.
 */
import { dayOf } from '../engine/dates.js';
import type { Device, Site } from '../engine/plan/model.js';
import { MM_PER_INCH, type Units } from '../engine/units.js';
import type { Cell } from '../tables/cells.js';
import type { SiteOrigins } from '../tables/site-notes.js';
import { defaultSite } from '../tables/site.js';
import { exampleKit } from './example-kit.js';
import type { GivenPapers } from './service-papers.js';

export interface Setup extends GivenPapers {
  site: Site;
  /** inputs of the site that are not the default */
  origins?: SiteOrigins;
  kit: Device[];
  /** tables with their header row, as on the sheets Rules and Weather */
  rules: Cell[][];
  stages: Cell[][];
  weather: Cell[][];
}

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
 * @param units - of the weather table; the kit has sizes that are round in them
 */
export function exampleSetup(latitude: number, units: Units = 'SI'): Setup {
  const south = latitude < 0;
  const [unit, per] = units === 'US' ? ['in', MM_PER_INCH] : ['mm', 1];
  const weather: Cell[][] = [
    ['Month', `ET0 (${unit}/day)`, `Rain (${unit})`, 'Share of rain to count on'],
  ];
  for (let month = 1; month <= 12; month++) {
    const at = south ? (month - 1 + HALF_A_YEAR) % 12 : month - 1;
    const [et0, rain] = NORMALS[at]!;
    weather.push([month, et0 / per, rain / per, SHARE]);
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
