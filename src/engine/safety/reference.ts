/** The tables of heat and salinity, laid out for the help pages and the Sources sheet. */
import type { ReferenceTable } from '../reference-tables.js';
import {
  HUMIDITY_ADJUSTMENTS,
  SCHEDULE,
  SUN_ADJUSTMENTS,
  WORKLOADS,
  type WorkRest,
} from './heat.js';
import { SALINITY_LIMITS } from './salinity.js';

const hour = (each: WorkRest): string => {
  if (each === 'stop') return 'stop (printed: caution)';
  return each.rest === 0 ? '60 / 0 (no limit stated)' : `${each.work} / ${each.rest}`;
};

/** The temperatures of a row: from above the row before it up to its own. */
function span(index: number): string {
  const { upTo } = SCHEDULE[index]!;
  const before = SCHEDULE[index - 1]?.upTo;
  if (before === undefined) return `${upTo} and below`;
  if (upTo === Infinity) return `${before + 1} and above`;
  return before + 1 === upTo ? String(upTo) : `${before + 1} to ${upTo}`;
}

const signed = (degrees: number): string =>
  degrees > 0 ? `+${degrees}` : String(degrees).replace('-', '−');

export const HEAT_TABLES: readonly ReferenceTable[] = [
  {
    title:
      'Work and rest in the heat: sample schedule for healthy, acclimatised workers under 40 in normal clothing',
    columns: [
      'adjusted temperature, °F',
      ...WORKLOADS.map((load) => `${load} work, min work / rest`),
    ],
    rows: SCHEDULE.map((each, i) => ({
      cells: [span(i), ...WORKLOADS.map((load) => hour(each[load]))],
      certainty: each.certainty,
      source: each.source,
    })),
  },
  {
    title: 'Adjustment for sun',
    columns: ['sun', 'added to the air temperature, °F'],
    rows: Object.entries(SUN_ADJUSTMENTS).map(([sun, { degrees, certainty, source }]) => ({
      cells: [sun, signed(degrees)],
      certainty,
      source,
    })),
  },
  {
    title: 'Adjustment for humidity; between two values the higher one counts',
    columns: ['relative humidity, %', 'added to the air temperature, °F'],
    rows: HUMIDITY_ADJUSTMENTS.map(({ humidity, degrees, certainty, source }) => ({
      cells: [Math.round(humidity * 100), signed(degrees)],
      certainty,
      source,
    })),
  },
];

export const SALINITY_TABLES: readonly ReferenceTable[] = [
  {
    title: 'Restriction on use of water by its salts',
    columns: ['what', 'measure', 'unit', 'none below', 'slight to moderate', 'severe above'],
    rows: Object.entries(SALINITY_LIMITS).map(
      ([what, { label, unit, low, high, certainty, source }]) => ({
        cells: [what, label, unit === '' ? 'no unit' : unit, low, `${low} to ${high}`, high],
        certainty,
        source,
      }),
    ),
  },
];
