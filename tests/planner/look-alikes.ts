/** Five invented inventories in the shapes that offices really keep. The same every time. */
import type { Cell } from '../../src/tables/cells.js';
import { random } from './small-cases.js';

export interface LookAlike {
  name: string;
  cells: Cell[][];
  /** trees counted by hand below the header; rows that cannot be sized are among them */
  rows: number;
}

const SPECIES = ['desert willow', 'live oak', 'red maple', 'Quercus robur', 'cedar elm', 'crape myrtle', "Acer rubrum 'Nobody'"]; // prettier-ignore
const STREETS = ['Tarbarrel Row', 'Hawser Lane', 'Bollard Street', 'Slipway Avenue', '3rd Quay'];

/** Street trees of a town: house numbers of all kinds, dates as text, trunks in inches, 620 rows. */
function town(next: () => number): Cell[][] {
  const header = ['tree_id', 'species', 'address', 'date', 'dbh', 'latitude', 'longitude'];
  const number = (i: number): string =>
    i % 31 === 0 ? `${i}X` : i % 17 === 0 ? `${i} 1/2` : i % 23 === 0 ? 'No number,' : `${100 + i}`;
  return [
    header,
    ...Array.from({ length: 620 }, (_, i): Cell[] => {
      const young = i % 2 === 0;
      const year = young ? 2024 + Math.floor(next() * 3) : 1990 + Math.floor(next() * 30);
      const month = 1 + Math.floor(next() * 12);
      return [
        `T${i + 1}`,
        SPECIES[i % SPECIES.length]!,
        `${number(i)} ${STREETS[Math.floor(i / 40) % STREETS.length]!}`,
        `${year}-${String(month).padStart(2, '0')}-0${1 + (i % 9)}`,
        i % 40 === 7 ? null : Math.round((young ? 1 + 2 * next() : 4 + 20 * next()) * 10) / 10,
        Math.round((33 + next() / 10) * 1e5) / 1e5,
        Math.round((-139 - next() / 10) * 1e5) / 1e5,
      ];
    }),
  ];
}

/** A park: coordinates and no address, trunks in centimetres. */
function park(next: () => number): Cell[][] {
  return [
    ['Genus', 'Diameter Breast Height (cm)', 'Year Planted', 'Located in', 'Latitude', 'Longitude'],
    ...Array.from({ length: 180 }, (_, i): Cell[] => [
      ['Quercus', 'Acer', 'Ulmus', 'Platanus'][i % 4]!,
      Math.round(4 + 60 * next() ** 2),
      i % 9 === 0 ? null : 1970 + Math.floor(57 * next()),
      i % 3 === 0 ? 'Street' : 'Park',
      Math.round((33.4 + next() / 100) * 1e6) / 1e6,
      Math.round((-139.1 - next() / 100) * 1e6) / 1e6,
    ]),
  ];
}

/** Planting orders: one row for many container trees, number and street apart, a total at the end. */
function orders(next: () => number): Cell[][] {
  const rows = Array.from({ length: 90 }, (_, i): Cell[] => [
    `Project ${1 + (i % 12)}`,
    SPECIES[(i * 3) % SPECIES.length]!,
    [15, 5, 30, 45][i % 4]!,
    1 + Math.floor(25 * next()),
    `${1 + Math.floor(next() * 3)}/${1 + Math.floor(next() * 28)}/2027`,
    i % 11 === 0 ? null : 10 + Math.floor(990 * next()),
    STREETS[i % STREETS.length]!,
    i % 5 === 0 ? 'no' : 'yes',
  ]);
  return [
    [
      'Project',
      'Species',
      'Container (#)',
      'Qty',
      'Planting date',
      'Street number',
      'Street',
      'Tap',
    ],
    ...rows,
  ];
}

/** A register in metric units with canopy and crown columns, German headers. */
function register(next: () => number): Cell[][] {
  return [
    ['Baumnummer', 'Baumart', 'Stammdurchmesser (cm)', 'Kronendurchmesser (m)', 'Pflanzjahr', 'Adresse'],
    ...Array.from({ length: 140 }, (_, i): Cell[] => [
      i + 1,
      ['Winterlinde', 'Stieleiche', 'Feldahorn'][i % 3]!,
      Math.round((3 + 45 * next()) * 10) / 10,
      Math.round((1 + 9 * next()) * 10) / 10,
      1985 + Math.floor(42 * next()),
      `Erfundene Gasse ${1 + Math.floor(300 * next())}`,
    ]),
  ]; // prettier-ignore
}

/** A contractor's list: lines before the header, blanks, stumps, a mix of waters and of wishes. */
function contractor(next: () => number): Cell[][] {
  return [
    ['Invented Contractor, list of 12 March'],
    [],
    ['Tag', 'Species', 'Caliper (in)', 'Container', 'Planted', 'Site', 'Address', 'Tap', 'Soil'],
    ...Array.from({ length: 75 }, (_, i): Cell[] => [
      `C-${i + 1}`,
      SPECIES[i % SPECIES.length]!,
      i % 6 === 5 ? null : Math.round((0.75 + 5 * next() ** 2) * 100) / 100,
      i % 6 === 5 && i % 12 !== 11 ? '#15' : '',
      i % 4 === 0 ? '' : `2026-${String(1 + (i % 12)).padStart(2, '0')}-15`,
      `Yard ${1 + (i % 7)}`,
      i % 10 === 0 ? '' : `${3 + 7 * i} Example Way`,
      ['yes', 'no', ''][i % 3]!,
      ['loam', 'clay', 'sandy loam', ''][i % 4]!,
    ]),
  ];
}

export const lookAlikes = (): LookAlike[] =>
  [town, park, orders, register, contractor].map((make, i) => {
    const cells = make(random(41 * (i + 1)));
    const header = make === contractor ? 3 : 1;
    return { name: make.name, cells, rows: cells.length - header };
  });
