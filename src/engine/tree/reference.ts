/** The tables about trees and nursery stock, laid out for the help pages with the provenance of each row. */
import type { ReferenceTable } from '../reference-tables.js';
import { ESTABLISHMENT } from './establishment.js';
import { PLANT_FACTORS, type Climate } from './plant-factor.js';
import { RULES_OF_THUMB } from './rules-of-thumb.js';
import { BALL_BY_CALIPER, CONTAINERS, DEPTH_SHARES } from './stock-sizes.js';

const climatesOf = (row: (typeof PLANT_FACTORS)[string]): [string, Climate][] =>
  row.dry === row.humid
    ? [['any', 'dry']]
    : [
        ['dry', 'dry'],
        ['humid', 'humid'],
      ];

export const PLANT_FACTOR_TABLES: readonly ReferenceTable[] = [
  {
    title: 'Plant factors, established plants',
    columns: ['Kind', 'Climate', 'Share of reference evapotranspiration'],
    rows: Object.entries(PLANT_FACTORS).flatMap(([kind, row]) =>
      climatesOf(row).map(([shown, climate]) => {
        const { value, certainty, source } = row[climate];
        return { cells: [kind, shown, value], certainty, source };
      }),
    ),
  },
];

export const BALL_DIAMETER_TABLES: readonly ReferenceTable[] = [
  {
    title: 'Least root-ball diameter, shade trees',
    columns: ['Caliper (in)', 'Ball diameter (in)'],
    rows: BALL_BY_CALIPER.map((cells) => ({
      cells,
      certainty: 'memory',
      source: 'ANSI Z60.1-2014, section 1; a municipal chart agrees within 1 in to 3 in of caliper',
    })),
  },
];

/** "below 20 in", "20 to 30 in", "above 30 in": the bands as a person reads them. */
const bandOfBall = (i: number): string => {
  const from = DEPTH_SHARES[i - 1]?.[0];
  const to = DEPTH_SHARES[i]![0];
  if (from === undefined) return `below ${to}`;
  return to === Infinity ? `above ${Math.round(from)}` : `${from} to ${Math.round(to)}`;
};

export const BALL_DEPTH_TABLES: readonly ReferenceTable[] = [
  {
    title: 'Least root-ball depth',
    columns: ['Ball diameter (in)', 'Depth, share of the diameter'],
    rows: DEPTH_SHARES.map(([, share], i) => ({
      cells: [bandOfBall(i), share],
      certainty: 'seen',
      source: 'UF/IFAS, root-ball depth of field-grown trees',
    })),
  },
];

export const CONTAINER_TABLES: readonly ReferenceTable[] = [
  {
    title: 'True volume of nursery containers',
    columns: ['Class', 'Volume (gal)'],
    rows: CONTAINERS.map(({ class: name, gallons, certainty, source }) => ({
      cells: [`#${name}`, gallons],
      certainty,
      source,
    })),
  },
];

export const ROOT_MONTHS_TABLES: readonly ReferenceTable[] = [
  {
    title: 'Months to establish',
    columns: ['Hardiness zones', 'Months per inch of trunk'],
    rows: ESTABLISHMENT.map(({ from, to, months, certainty, source }) => ({
      cells: [from === to ? `${from}` : `${from} to ${to}`, months],
      certainty,
      source,
    })),
  },
];

export const RULE_OF_THUMB_TABLES: readonly ReferenceTable[] = [
  {
    title: 'Rules of thumb for watering young trees',
    columns: ['Rule', 'Low (gal per inch)', 'High (gal per inch)', 'How often'],
    rows: Object.entries(RULES_OF_THUMB).map(([rule, { low, high, often, certainty, source }]) => ({
      cells: [rule, low, high, often],
      certainty,
      source,
    })),
  },
];
