/**
 * An invented contract list of 110 rows, 38 of them without a size: hoses may run on Tuesdays and Saturdays, everything else
 * on any day, nothing from ten to six; a crew of two works from six to two, Monday to Friday, so that four hours a day are open.
 */
import { dayOf } from '../../src/engine/dates.js';
import type { Device, Site } from '../../src/engine/plan/model.js';
import { planSeason, type SeasonInput } from '../../src/engine/plan/season.js';
import { parseRules } from '../../src/engine/rules/rule-table.js';
import { convert, type Cell } from '../../src/tables/cells.js';
import { readInventory } from '../../src/tables/inventory/index.js';
import { readWeather } from '../../src/tables/weather.js';
import { exampleSetup } from '../../src/workbook/example-setup.js';
import { random } from './small-cases.js';

export const ROWS = 110;
/** Rows that say how thick the tree is. */
export const SIZED = 72;
const WITHOUT = new Set(Array.from({ length: ROWS - SIZED }, (_, k) => Math.floor(((k + 0.5) * ROWS) / (ROWS - SIZED)))); // prettier-ignore

/** Trunks from two inches to a few veterans, at places of a town that is not on any map. */
function cells(): Cell[][] {
  const next = random(20_271);
  return [
    ['Tree no.', 'Species', 'Address', 'DBH (in)', 'Planted', 'Latitude', 'Longitude'],
    ...Array.from({ length: ROWS }, (_, i): Cell[] => {
      const inches = i % 50 === 7 ? 20 + Math.floor(10 * next()) : 2 + Math.floor(10 * next() ** 2);
      return [
        1000 + i,
        ['red maple', 'live oak', 'cherry plum', 'cedar elm'][i % 4]!,
        `${100 + 7 * i} Invented Street ${1 + (i % 9)}`,
        WITHOUT.has(i) ? null : inches,
        `${1995 + Math.floor(22 * next())}-0${1 + (i % 9)}-15`,
        40 + 0.09 * next(),
        -150 - 0.1 * next(),
      ];
    }),
  ];
} // prettier-ignore

const RULES: Cell[][] = [
  ['Means', 'Address', 'Days', 'Hours', 'Verdict'],
  ['soaker, drip', 'any', 'Tue Sat', 'not 10:00-18:00', 'allow'],
  ['hand, bag, truck', 'any', 'any', 'not 10:00-18:00', 'allow'],
];

function kit(example: readonly Device[]): Device[] {
  const of = (family: Device['family']): Device => example.find((d) => d.family === family)!;
  const gallons = (n: number): number => convert(n, 'gal', 'L')!;
  return [
    { ...of('bag'), name: 'bag', volume: gallons(20), ratedHours: 6, stock: 40 },
    { ...of('soaker'), name: 'hose', length: convert(50, 'ft', 'm')!, automatic: false, stock: 25 },
    of('hand'),
    { ...of('tanker'), name: 'truck', volume: gallons(300) },
  ];
}

export function contractList(more: Partial<Site> = {}, rows = ROWS): SeasonInput {
  const example = exampleSetup(40, 'US');
  const site: Site = {
    ...example.site,
    texture: 'sandy loam',
    seasonFrom: dayOf(2027, 6, 1),
    seasonTo: dayOf(2027, 9, 30),
    workDays: 'Mon-Fri',
    crews: 1,
    crewSize: 2,
    crewHours: 8,
    crewStart: 6,
    ...more,
  };
  const reading = readInventory(cells().slice(0, rows + 1), { seasonFrom: site.seasonFrom, units: 'US' }); // prettier-ignore
  return {
    trees: reading.rows.flatMap((row) => (row.tree ? [row.tree] : [])),
    notPlanned: [],
    site,
    weather: readWeather(example.weather, site).weather,
    rules: parseRules(RULES, []),
    kit: kit(example.kit),
  };
}

export const planned = (input: SeasonInput) => ({ input, separate: planSeason(input) });
