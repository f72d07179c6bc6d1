/** The tables about soils, laid out for the help pages with the provenance of each row. */
import type { ReferenceTable } from '../reference-tables.js';
import { TEXTURE_ROWS } from './texture.js';

const NOT_PRINTED = 'not printed';
const share = (value: number | undefined): number | string =>
  value === undefined ? NOT_PRINTED : Number(value.toPrecision(3));

export const SOIL_WATER_TABLES: readonly ReferenceTable[] = [
  {
    title: 'Water a soil holds, shares of its volume',
    columns: ['Texture', 'Field capacity', 'Wilting point', 'Available'],
    rows: Object.entries(TEXTURE_ROWS).map(([texture, row]) => ({
      cells: [texture, share(row.fieldCapacity), share(row.wiltingPoint), share(row.available)],
      certainty: row.certainty,
      source: row.source,
    })),
  },
];

export const SOIL_INTAKE_TABLES: readonly ReferenceTable[] = [
  {
    title: 'Basic intake rate',
    columns: ['Texture', 'Rate (mm/h)'],
    rows: Object.entries(TEXTURE_ROWS).map(([texture, row]) => ({
      cells: [texture, row.intake],
      certainty: row.intakeCertainty,
      source: row.intakeSource,
    })),
  },
];
