/** Sheets the corner Contract writes: an empty contract with example rows, and the list of trees that are not served. */
import { dayFromIso } from '../../engine/dates.js';
import type { Units } from '../../engine/units.js';
import { CONTRACT_COLUMNS } from '../../tables/contract.js';
import type { Cell } from '../../tables/cells.js';
import {
  cell,
  lines,
  SheetDraft,
  type ColumnSpec,
  type Sheet,
  type WorkbookModel,
} from '../../workbook/model.js';
import type { LimitKind, ShortageReport } from '../../workers/contract-types.js';

type Key = keyof typeof CONTRACT_COLUMNS;

const WIDTHS: Readonly<Record<Key, number>> = {
  who: 18,
  from: 10,
  to: 10,
  least: 11,
  leastPer: 10,
  visits: 9,
  visitsPer: 9,
  most: 11,
  mostPer: 9,
  overPrice: 13,
  rain: 10,
  rainDays: 8,
  means: 10,
  until: 12,
  source: 40,
};
const LISTS: readonly (readonly [Key, readonly string[]])[] = [
  ['leastPer', ['visit', 'week', 'month']],
  ['visitsPer', ['week', 'month']],
  ['mostPer', ['week', 'month', 'season']],
];
const WIDTH = 110;
const EXAMPLE = 'Example, invented: replace by your contract';

/** Two invented clauses: a minimum for all trees, and one of summer with a cap. */
const examples = (units: Units): Partial<Record<Key, Cell>>[] => {
  const us = units === 'US';
  return [
    {
      who: 'all',
      least: us ? 10 : 40,
      leastPer: 'week',
      visits: 1,
      visitsPer: 'week',
      rain: us ? 1 : 25,
      rainDays: 7,
      means: 'any',
      until: '24 months',
      source: EXAMPLE,
    },
    {
      who: us ? 'caliper 2-4 in' : 'caliper 50-100 mm',
      from: 'Jun 1',
      to: 'Aug 31',
      visits: 2,
      visitsPer: 'week',
      most: us ? 5000 : 20000,
      mostPer: 'week',
      overPrice: us ? 12 : 3,
      means: 'any',
      source: EXAMPLE,
    },
  ];
};

function headerOf(key: Key, units: Units): string {
  const { name, unit }: { name: string; unit?: readonly [string, string] } = CONTRACT_COLUMNS[key];
  return unit === undefined ? name : `${name} (${unit[units === 'US' ? 0 : 1]})`;
}

function contractSheet(units: Units): Sheet {
  const keys = Object.keys(CONTRACT_COLUMNS) as Key[];
  const rows = examples(units);
  const draft = new SheetDraft('Contract', 'Contract');
  draft.text([
    cell('Contract', 'title'),
    cell(
      'One row a clause. Leave blank what a clause does not ask for. Replace the example rows by yours.',
      'note',
    ),
  ]);
  draft.skip();
  const columns = keys.map((key): ColumnSpec => {
    const numeric = rows.some((row) => typeof row[key] === 'number');
    return {
      key,
      header: headerOf(key, units),
      width: WIDTHS[key],
      style: 'input',
      wrap: true,
      align: numeric ? 'right' : 'left',
    };
  });
  const place = draft.table('Contract', columns, rows.length, (i) =>
    keys.map((key) => rows[i]![key] ?? null),
  );
  for (const [key, words] of LISTS)
    draft.validate(place.area(key), [...words], `One of: ${words.join(', ')}`);
  draft.freeze(place.headerRow, 1).repeat(place.headerRow, place.headerRow);
  return draft.done();
}

const book = (title: string, sheet: Sheet, madeOn: string): WorkbookModel => ({
  title,
  description: title,
  madeOn: dayFromIso(madeOn),
  paper: 'letter',
  sheets: [sheet],
  names: {},
});

/** @param madeOn - yyyy-mm-dd */
export const contractModel = (units: Units, madeOn: string): WorkbookModel =>
  book('Contract', contractSheet(units), madeOn);

const LIMITS: Readonly<Record<LimitKind, string>> = {
  week: 'Water a week',
  season: 'Water of the season',
  hours: 'Crew hours a week at trees',
};

/** @param water - unit of the water column */
function notServedSheet(report: ShortageReport, water: string): Sheet {
  const { wish, says, source, certainty, out, unit, served, notServed, exact } = report;
  const draft = new SheetDraft('Not served', 'Not served');
  draft.text([
    cell('Not served', 'title'),
    cell(
      `${LIMITS[wish.limit]}: ${wish.amount} ${unit}. ${served} trees are served, ${notServed} are not.`,
    ),
    ...lines(`Order “${wish.order}”: ${says}.`, WIDTH).map((line) => cell(line)),
    ...lines(`Source: ${source} (${certainty}).`, WIDTH).map((line) => cell(line, 'note')),
    ...(exact ? [] : [cell('The search was cut: a slightly better choice is not ruled out.')]),
    ...lines(
      'Days under stress and least Ks are of one tree with rain alone, by the daily water balance (FAO-56 Eq. 84). Ks 1 is without stress.',
      WIDTH,
    ).map((line) => cell(line, 'note')),
  ]);
  draft.skip();
  const columns: ColumnSpec[] = [
    { key: 'rank', header: 'Place in the order', width: 9, format: 'plain', style: 'calculation' },
    { key: 'tree', header: 'Tree', width: 14 },
    { key: 'species', header: 'Species', width: 22 },
    { key: 'trees', header: 'Trees', width: 8, format: 'plain', style: 'calculation' },
    { key: 'row', header: 'Row', width: 7, format: 'plain', style: 'calculation' },
    { key: 'stress', header: 'Days under stress', width: 10, format: 'whole', style: 'result' },
    { key: 'ks', header: 'Least Ks', width: 8, format: 'two', style: 'result' },
    {
      key: 'water',
      header: `Water of the plan (${water})`,
      width: 12,
      format: 'one',
      style: 'calculation',
    },
    { key: 'why', header: 'Why it is not served', width: 48, wrap: true },
  ];
  const place = draft.table('NotServed', columns, out.length, (i) => {
    const { rank, id, species, trees, row, stressDays, leastKs, water: each, why } = out[i]!;
    return [rank, id, species, trees, row, stressDays, leastKs, each, why];
  });
  draft.freeze(place.headerRow, 2).repeat(place.headerRow, place.headerRow);
  return draft.done();
}

/**
 * @param water - unit of water
 * @param madeOn - yyyy-mm-dd
 */
export const notServedModel = (report: ShortageReport, water: string, madeOn: string): WorkbookModel =>
  book('Not served', notServedSheet(report, water), madeOn); // prettier-ignore
