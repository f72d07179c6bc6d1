/**
 * Station files in the layout of GHCN-Daily, to a table by day. Two shapes are met: a column for each element beside
 * STATION and DATE, or a row for each day and element. Amounts are whole tenths: PRCP in tenths of mm, TMAX and TMIN in
 * tenths of °C, -9999 for none. Source: readme of GHCN-Daily, from memory; files of both shapes: seen.
 */
import { Problem } from '../engine/problems.js';
import { isBlank, isMissing, plainLabel, plainNumber, text, type Cell } from './cells.js';

const ELEMENTS = ['TMAX', 'TMIN', 'PRCP'] as const;
type Element = (typeof ELEMENTS)[number];

const isElement = (word: string): word is Element => (ELEMENTS as readonly string[]).includes(word);
const TENTHS = 10;
const NO_RECORD = -9999;
/** Temperatures above this are no whole degrees Celsius; below, tenths would never be this warm [either]. */
const HOTTEST_C = 60;

interface Days {
  /** yyyymmdd → tenths, or what the file's unit is */
  values: Map<string, Partial<Record<Element, number>>>;
  elements: Set<Element>;
}

export interface StationDays {
  /** Date, Tmax (C), Tmin (C), Rain (mm), header first */
  rows: Cell[][];
  notes: string[];
}

const word = (cell: Cell | undefined): string => text(cell).toUpperCase();

/** "2015-01-31" or 20150131 → "2015-01-31"; undefined for anything else. */
function isoOf(cell: Cell | undefined): string | undefined {
  const m = /^(\d{4})-?(\d\d)-?(\d\d)$/.exec(text(cell));
  return m ? `${m[1]}-${m[2]}-${m[3]}` : undefined;
}

function put(days: Days, date: string, element: Element, cell: Cell | undefined): void {
  if (isMissing(cell)) return;
  const value = plainNumber(cell);
  if (value === undefined || value === NO_RECORD) return;
  days.elements.add(element);
  const day = days.values.get(date) ?? {};
  day[element] = value;
  days.values.set(date, day);
}

/** Columns STATION and DATE with one for each element. */
function wide(cells: Cell[][]): Days | undefined {
  const top = cells.findIndex((row) => {
    const words = row.map(word);
    return words.includes('STATION') && words.includes('DATE') && words.some(isElement);
  });
  if (top < 0) return undefined;
  const header = (cells[top] ?? []).map(word);
  const date = header.indexOf('DATE');
  const days: Days = { values: new Map(), elements: new Set() };
  for (const row of cells.slice(top + 1)) {
    const day = isoOf(row[date]);
    if (day === undefined) continue;
    header.forEach((name, at) => {
      if (isElement(name)) put(days, day, name, row[at]);
    });
  }
  return days;
}

/** Rows of day, element, value, with or without the station before and a header above; flags of quality are heeded. */
function long(cells: Cell[][]): Days | undefined {
  const first = cells.slice(0, 20).find((row) => row.some((c) => isElement(word(c))));
  if (!first) return undefined;
  const element = first.findIndex((c) => isElement(word(c)));
  if (element < 1 || isoOf(first[element - 1]) === undefined) return undefined;
  const days: Days = { values: new Map(), elements: new Set() };
  const QUALITY = element + 3;
  for (const row of cells) {
    const date = isoOf(row[element - 1]);
    const name = word(row[element]);
    if (date === undefined || !isElement(name) || !isBlank(row[QUALITY])) continue;
    put(days, date, name, row[element + 1]);
  }
  return days;
}

/** Whether amounts are tenths: all whole, and some day too warm for whole degrees. */
function inTenths({ values }: Days): boolean {
  let hottest = -Infinity;
  for (const day of values.values())
    for (const element of ELEMENTS) {
      const value = day[element];
      if (value === undefined) continue;
      if (!Number.isInteger(value)) return false;
      if (element === 'TMAX') hottest = Math.max(hottest, value);
    }
  return hottest > HOTTEST_C || hottest === -Infinity;
}

/**
 * The days of a station file.
 * @returns undefined when the table has another layout
 * @throws Problem when it has this layout, but no temperatures, or amounts that are no tenths
 */
export function stationDays(cells: Cell[][]): StationDays | undefined {
  const days = wide(cells) ?? long(cells);
  if (!days) return undefined;
  const lacking = (['TMAX', 'TMIN'] as const).filter((e) => !days.elements.has(e));
  if (lacking.length > 0)
    throw new Problem(
      `the station file has no ${lacking.join(' and no ')}: ET0 is computed from both temperatures; take a station that records them`,
    );
  if (!inTenths(days))
    throw new Problem(
      'the station file is not in whole tenths, as GHCN-Daily has them; write the units into its header, as DATE, Tmax (F), Tmin (F), Rain (in), and leave out STATION',
    );
  const tenth = (value: number | undefined): Cell => (value === undefined ? null : value / TENTHS);
  const dated = [...days.values].sort(([a], [b]) => (a < b ? -1 : 1));
  const dry = dated.filter(([, day]) => day.PRCP === undefined).length;
  const notes = [
    'The weather is a station file in the GHCN-Daily layout: rain in tenths of mm, temperatures in tenths of °C.',
    ...(dry > 0 ? [`Station file: ${dry} of ${dated.length} days have no rain on record; none is counted on.`] : []),
  ]; // prettier-ignore
  return {
    rows: [
      ['Date', 'Tmax (C)', 'Tmin (C)', 'Rain (mm)'],
      ...dated.map(([date, day]): Cell[] => [
        date,
        tenth(day.TMAX),
        tenth(day.TMIN),
        tenth(day.PRCP),
      ]),
    ],
    notes,
  };
}

/** True for the header of such a file: for telling it from an inventory. */
export const isStationHeader = (row: readonly Cell[]): boolean =>
  row.map((c) => plainLabel(text(c))).includes('station') && row.some((c) => isElement(word(c)));
