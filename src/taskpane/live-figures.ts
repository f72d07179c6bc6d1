/**
 * Live figures beside a list: columns our own functions fill, from the list's canopies and trunks, and a sheet of inputs they
 * use. The sample has them from the start; a list of somebody's own when they are asked for.
 */
import type { MatchedColumn } from '../workers/plan-room.js';
import { letter } from '../workbook/model.js';

/** The inputs of the live columns: name, value, unit, where from. Demo figures, to be changed. */
export const INPUT_LINES = [
  { name: 'Reference ET, hottest month', value: 0.25, unit: 'in/day', note: 'invented demo figure, put your own' },
  { name: 'Plant factor', value: 0.5, unit: '', note: 'a temperate shade tree in a dry climate' },
  { name: 'Canopy where the row has none', value: 'from the trunk', unit: '', note: 'assumption: 1 ft and 2 ft for each inch of trunk, to 4 in; above, 4 ft and 1.25 ft for each inch' },
  { name: 'Root zone depth', value: 12, unit: 'in', note: 'assumption' },
  { name: 'Soil texture where the row has none', value: 'loam', unit: '', note: 'assumption' },
  { name: 'Share used before watering', value: 0.5, unit: '', note: 'assumption' },
  { name: 'Bag, full', value: 15, unit: 'gal', note: 'invented demo device' },
  { name: 'Bag, holes', value: 4, unit: '', note: 'invented demo device' },
  { name: 'Bag, hole diameter', value: 0.055, unit: 'in', note: 'invented demo device' },
  { name: 'Bag, water depth when full', value: 24, unit: 'in', note: 'invented demo device' },
] as const; // prettier-ignore

export const INPUT_HEADERS = ['Input', 'Value', 'Unit', 'Note'] as const;
export const INPUTS_SHEET = 'Inputs';

type InputOf = (name: (typeof INPUT_LINES)[number]['name']) => string;
const plainName = (sheet: string): boolean => /^[A-Za-z_]\w*$/.test(sheet);
const inputsOn = (sheet: string): InputOf => {
  const place = plainName(sheet) ? sheet : `'${sheet.replaceAll("'", "''")}'`;
  return (name) => `${place}!$B$${INPUT_LINES.findIndex((line) => line.name === name) + 2}`;
};

interface RowCells {
  /** the canopy in feet: the row's own, or estimated from its trunk */
  canopy: string;
  /** true in a row that has neither */
  neither: string;
  /** the soil's word: the row's own, or the one of the Inputs sheet */
  soil: string;
  /** address of a live column of the same row, by its header */
  live(header: string): string;
}

const DEMAND = 'Demand by Inputs (gal/day)';
const USABLE = 'Usable when established (gal)';
const INTERVAL = 'Interval when established (days)';
const BAG = 'Bag runs (h)';

interface Figure {
  header: string;
  pattern: string;
  /** given the cells of the row it may use */
  formula(cells: RowCells, input: InputOf): string;
}

const FIGURES: readonly Figure[] = [
  {
    header: DEMAND,
    pattern: '0.0',
    formula: ({ canopy }, input) =>
      `SOAK.TREE_DEMAND(${input('Reference ET, hottest month')},${canopy},${input('Plant factor')})`,
  },
  {
    header: USABLE,
    pattern: '0',
    formula: ({ canopy, soil }, input) =>
      `SOAK.ROOTZONE_VOLUME(12*${canopy},${input('Root zone depth')},SOAK.SOIL_WATER(${soil}),${input('Share used before watering')})`,
  },
  {
    header: INTERVAL,
    pattern: '0.0',
    formula: ({ live: cell }) => `SOAK.INTERVAL(${cell(USABLE)},${cell(DEMAND)})`,
  },
  {
    header: BAG,
    pattern: '0.0',
    formula: ({ live: cell }, input) => {
      const fill = `MIN(${input('Bag, full')},${cell(USABLE)})`;
      const depth = `${input('Bag, water depth when full')}*${fill}/${input('Bag, full')}`;
      return `SOAK.BAG_HOURS(${fill},${input('Bag, holes')},${input('Bag, hole diameter')},${depth})`;
    },
  },
];

export const LIVE_HEADERS: readonly string[] = FIGURES.map(({ header }) => header);

/** What a cell is divided by to be in feet or inches; a column in another unit is not used. */
const PER_FOOT: Readonly<Record<string, number>> = { ft: 1, m: 0.3048, in: 12, cm: 30.48 };
const PER_INCH: Readonly<Record<string, number>> = { in: 1, cm: 2.54, mm: 25.4 };
const divided = (cell: string, by: number): string => (by === 1 ? cell : `(${cell}/${by})`);

/** Cells a row's live formulas read; undefined when the sheet has neither canopies nor trunks. */
function cellsOf(
  columns: readonly MatchedColumn[],
  input: InputOf,
): ((row: number) => Omit<RowCells, 'live'>) | undefined {
  const find = (meaning: string, units?: Readonly<Record<string, number>>) =>
    columns.find((c) => c.meaning === meaning && (units === undefined || c.unit in units));
  const canopy = find('canopy', PER_FOOT);
  const trunk = find('caliper', PER_INCH);
  const soil = find('texture');
  if (canopy === undefined && trunk === undefined) return undefined;
  return (row) => {
    const at = (column: MatchedColumn): string => `${letter(column.column)}${row}`;
    const sources = [canopy, trunk].filter((c) => c !== undefined).map(at);
    const own = canopy && divided(at(canopy), PER_FOOT[canopy.unit] ?? 1);
    const inches = trunk && divided(at(trunk), PER_INCH[trunk.unit] ?? 1);
    // The planner's own estimate, with the same numbers; the Inputs sheet names it.
    const estimate = inches && `MIN(100,IF(${inches}<=4,1+2*${inches},4+1.25*${inches}))`;
    const word = input('Soil texture where the row has none');
    return {
      canopy:
        canopy && own && estimate
          ? `IF(${at(canopy)}="",${estimate},${own})`
          : (own ?? estimate ?? ''),
      neither: `COUNTA(${sources.join(',')})=0`,
      soil: soil === undefined ? word : `IF(${at(soil)}="",${word},${at(soil)})`,
    };
  };
}

export interface LiveColumn {
  header: string;
  /** a number format */
  pattern: string;
  /** with its equals sign, of a 1-based row */
  formula(row: number): string;
}

/**
 * The live columns of a list; none where it has neither canopies nor trunks.
 *
 * @param first - 0-based column the first of them stands in
 * @param inputs - name of the sheet with their inputs
 */
export function liveColumns(
  columns: readonly MatchedColumn[],
  first: number,
  inputs = INPUTS_SHEET,
): LiveColumn[] {
  const input = inputsOn(inputs);
  const cells = cellsOf(columns, input);
  if (!cells) return [];
  return FIGURES.map(({ header, pattern, formula }) => ({
    header,
    pattern,
    formula(row) {
      const own = cells(row);
      const live = (of: string): string => `${letter(first + LIVE_HEADERS.indexOf(of))}${row}`;
      return `=IF(${own.neither},"",${formula({ ...own, live }, input)})`;
    },
  }));
}
