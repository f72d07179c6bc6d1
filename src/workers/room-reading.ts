/** What the panel shows of an inventory: columns and how sure they are, rows to look at, trees. */
import { isoDate } from '../engine/dates.js';
import { text, type Cell } from '../tables/cells.js';
import {
  MEASURES,
  type ColumnMatch,
  type InventoryReading,
  type InventoryRow,
  type Meaning,
} from '../tables/inventory/index.js';
import { MEASURE_UNITS, spelled } from '../tables/said-units.js';
import type { Lack } from './fill-types.js';
import { assumedColumns } from './room-fill.js';
import type { LookReason, LookRow, MatchedColumn, SheetReading } from './plan-room.js';

const SAMPLES = 3;

function matchedColumn(match: ColumnMatch): MatchedColumn {
  const { column, header, meaning, confidence, unitFrom, loose, why, samples } = match;
  const measure = MEASURES[meaning];
  const list = measure ? MEASURE_UNITS[measure.to] : [];
  const unit = measure ? spelled(match.unit, list) : '';
  const weak = confidence === 'near' || confidence === 'content' || loose;
  return {
    column,
    header: header === '' ? `Column ${column + 1}` : header,
    meaning,
    unit,
    units: unit === '' || list.includes(unit) ? [...list] : [unit, ...list],
    samples: samples
      .slice(0, SAMPLES)
      .map((text) => (meaning === 'planted' ? dateText(text) : text)),
    doubt: weak || unitFrom === 'guess' ? sentence(why) : '',
    ask: weak,
  };
}

/** A date of a spreadsheet is a number of days: as people read it. Years alone stay. */
const dateText = (text: string): string =>
  /^\d{5}(\.\d+)?$/.test(text) ? isoDate(Math.floor(Number(text))) : text;

const sentence = (words: string): string =>
  words === '' ? '' : `${words[0]!.toUpperCase()}${words.slice(1)}.`;

/** How notes on a row name what they speak of, where they do not name the header. */
const SPOKEN: readonly (readonly [RegExp, readonly Meaning[]])[] = [
  [/^Container\b/, ['container']],
  [/^Planted\b/, ['planted', 'plantedYear']],
  [/^Count\b/, ['count']],
  [/^Tap\b/, ['tap']],
  [/^Water use\b/, ['waterNeed']],
  [/^Soil texture\b/, ['texture']],
  [/^Means\b/, ['meansWanted']],
  [/^Coordinates\b/, ['latitude', 'longitude']],
  [/^The id\b/, ['id']],
  [/^(No species|.* names no species)/, ['species', 'commonName']],
  [/^no trunk diameter\b/, ['caliper', 'circumference', 'container', 'canopy']],
];

/** Reasons that go with a value in a blank cell. */
const LACKS: readonly (readonly [RegExp, Lack])[] = [
  [/^no trunk diameter\b/, 'size'],
  [/^No species on this row/, 'species'],
  [/^Count is blank/, 'count'],
];

/** The column a reason speaks of: one whose header it begins with, or whose meaning. */
function columnOf(reason: string, matches: readonly ColumnMatch[]): number | undefined {
  const named = matches.find(
    ({ header }) =>
      header !== '' && (reason.startsWith(`${header}: `) || reason.startsWith(`"${header}" `)),
  );
  if (named) return named.column;
  const meanings = SPOKEN.find(([pattern]) => pattern.test(reason))?.[1] ?? [];
  return meanings.flatMap((m) => matches.find(({ meaning }) => meaning === m)?.column ?? [])[0];
}

function lookReason(said: string, matches: readonly ColumnMatch[]): LookReason {
  // the list names the row itself
  const sentence = said.replace(/^Row \d+: /, '');
  const column = columnOf(sentence, matches);
  const lacks = LACKS.find(([pattern]) => pattern.test(sentence))?.[1];
  return { sentence, ...(column !== undefined && { column }), ...(lacks && { lacks }) };
}

function lookRow(
  { row, cells, tree, unusable, notes }: InventoryRow,
  matches: readonly ColumnMatch[],
): LookRow | undefined {
  const sentences = unusable === undefined ? notes : [unusable];
  if (sentences.length === 0) return undefined;
  const idColumn = matches.find(({ meaning }) => meaning === 'id')?.column ?? -1;
  return {
    row,
    id: tree?.id ?? text(cells[idColumn]),
    reasons: sentences.map((said) => lookReason(said, matches)),
    unusable: unusable !== undefined,
  };
}

/** Columns with a header, or with cells, that nobody could place. */
function unmatched(
  { headerRow, headers, matches }: InventoryReading,
  cells: Cell[][],
): SheetReading['unmatched'] {
  const taken = new Set(matches.map(({ column }) => column));
  return headers.flatMap((header, column) => {
    if (taken.has(column)) return [];
    const samples: string[] = [];
    for (let r = headerRow; r < cells.length && samples.length < SAMPLES; r++) {
      const said = text(cells[r]?.[column]);
      if (said !== '' && !samples.includes(said)) samples.push(said);
    }
    const name = text(header);
    if (name === '' && samples.length === 0) return [];
    return [{ column, header: name === '' ? `Column ${column + 1}` : name, samples }];
  });
}

/** The number in the middle; undefined of none. */
export function middle(numbers: number[]): number | undefined {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}

/** Middle of the inventory's own coordinates [deg]. */
export const ownLatitude = ({ rows }: InventoryReading): number | undefined =>
  middle(rows.flatMap(({ tree }) => tree?.latitude ?? []));

/** @param cells - those the inventory was read from */
export function sheetReading(reading: InventoryReading, cells: Cell[][]): SheetReading {
  const { headerRow, matches, rows, notes } = reading;
  const trees = rows.flatMap(({ tree }) => tree ?? []);
  const latitude = ownLatitude(reading);
  return {
    headerRow: Math.max(0, headerRow - 1),
    columns: matches.map(matchedColumn),
    unmatched: unmatched(reading, cells),
    usable: trees.length,
    trees: trees.reduce((sum, { count }) => sum + count, 0),
    rows: rows.length,
    look: rows
      .flatMap((row) => lookRow(row, matches) ?? [])
      .sort((a, b) => Number(b.unusable) - Number(a.unusable) || a.row - b.row),
    notes,
    assumed: assumedColumns(reading),
    ...(latitude !== undefined && { latitude }),
  };
}
