/** The sheets the desk opens: the inventory with live columns beside it, and the inputs those use. */
import type { ICellData } from '@univerjs/presets';
import { isBlank, type Cell, type Grid } from '../tables/cells.js';
import type { MatchedColumn } from '../workers/plan-room.js';
import { letter } from '../workbook/model.js';
import { widestWord } from '../workbook/writers/type-width.js';
import { GRID_TYPE } from './grid-looks.js';
import type { DeskSheet } from './open-data.js';

const INK = {
  bark: '#3b2f2a',
  water: '#0b5c8f',
  mist: '#e6eef3',
  straw: '#fff4cf',
  ochre: '#8a5a00',
  sand: '#f6efe2',
  paper: '#ffffff',
};
const TEXT_CELL = 1;
const NUMBER_CELL = 2;
const ALIGN_RIGHT = 3;
const WRAP = 3;
const HEADER = { bl: 1, bg: { rgb: INK.mist }, cl: { rgb: INK.bark }, tb: WRAP, vt: 2 };
const LIVE_HEADER = { ...HEADER, bg: { rgb: INK.water }, cl: { rgb: INK.paper } };
const live = (pattern: string) => ({ cl: { rgb: INK.water }, ht: ALIGN_RIGHT, n: { pattern } });
const CHARACTER_PX = 7.5;
const PADDING_PX = 18;
/** A browser without the grid's face takes one that may be this much wider [-]. */
const OTHER_FACE = 1.25;
/** Widths of the inventory's columns [px]; a single word of a header may take more. */
const OWN_WIDTHS = { least: 56, most: 170, word: 280 };

/** The inputs of the live columns: name, value, unit, where from. Demo figures, to be changed. */
const INPUTS = [
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

const input = (name: (typeof INPUTS)[number]['name']): string =>
  `Inputs!$B$${INPUTS.findIndex((line) => line.name === name) + 2}`;

interface LiveColumn {
  header: string;
  pattern: string;
  /** the formula of a row, given the cells it may use */
  formula(cells: RowCells): string;
}

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

const LIVE: readonly LiveColumn[] = [
  {
    header: DEMAND,
    pattern: '0.0',
    formula: ({ canopy }) =>
      `SOAK.TREE_DEMAND(${input('Reference ET, hottest month')},${canopy},${input('Plant factor')})`,
  },
  {
    header: USABLE,
    pattern: '0',
    formula: ({ canopy, soil }) =>
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
    formula: ({ live: cell }) => {
      const fill = `MIN(${input('Bag, full')},${cell(USABLE)})`;
      const depth = `${input('Bag, water depth when full')}*${fill}/${input('Bag, full')}`;
      return `SOAK.BAG_HOURS(${fill},${input('Bag, holes')},${input('Bag, hole diameter')},${depth})`;
    },
  },
];

/** Text that is exactly a number is shown as one; anything else stays as it came. */
function gridCell(cell: Cell, isDate: boolean): ICellData | undefined {
  if (cell === null || cell === '') return undefined;
  if (typeof cell === 'number') {
    return isDate
      ? { v: cell, t: NUMBER_CELL, s: { n: { pattern: 'yyyy-mm-dd' } } }
      : { v: cell, t: NUMBER_CELL };
  }
  if (typeof cell === 'boolean') return { v: cell ? 1 : 0, t: 3 };
  const number = Number(cell);
  return String(number) === cell ? { v: number, t: NUMBER_CELL } : { v: cell, t: TEXT_CELL };
}

/** Characters a cell takes in the grid: a date is a number that is shown as yyyy-mm-dd. */
const lengthShown = (cell: Cell | undefined, isDate = false): number =>
  isDate && typeof cell === 'number' ? 'yyyy-mm-dd'.length : String(cell ?? '').length;

/** What a cell is divided by to be in feet or inches; a column in another unit is not used. */
const PER_FOOT: Readonly<Record<string, number>> = { ft: 1, m: 0.3048, in: 12, cm: 30.48 };
const PER_INCH: Readonly<Record<string, number>> = { in: 1, cm: 2.54, mm: 25.4 };
const divided = (cell: string, by: number): string => (by === 1 ? cell : `(${cell}/${by})`);

/** Cells a row's live formulas read; undefined when the sheet has neither canopies nor trunks. */
function cellsOf(
  columns: readonly MatchedColumn[],
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

/** The inventory as a grid sheet, its live columns to the right, and the Inputs sheet. */
export function deskSheets(
  name: string,
  { cells, dateCells }: Grid,
  columns: readonly MatchedColumn[],
  headerRow: number,
): DeskSheet[] {
  const width = Math.max(...cells.map((row) => row.length));
  const data: Record<number, Record<number, ICellData>> = {};
  cells.forEach((row, r) => {
    const line: Record<number, ICellData> = {};
    row.forEach((value, c) => {
      const made = gridCell(value, dateCells?.has(`${r},${c}`) ?? false);
      if (made !== undefined) line[c] = r === headerRow ? { ...made, s: HEADER } : made;
    });
    data[r] = line;
  });
  const made = addLive(data, cells, columns, headerRow, width);
  const widths = Array.from({ length: width + made }, (_, c) => {
    if (c >= width) return 128;
    const longest = Math.max(...cells.slice(0, 200).map((row, r) => lengthShown(row[c], dateCells?.has(`${r},${c}`)))); // prettier-ignore
    const word = widestWord(String(cells[headerRow]?.[c] ?? ''), GRID_TYPE, true);
    const header = word * OTHER_FACE + PADDING_PX;
    const content = Math.min(OWN_WIDTHS.most, longest * CHARACTER_PX + PADDING_PX);
    return Math.ceil(Math.max(OWN_WIDTHS.least, Math.min(OWN_WIDTHS.word, header), content));
  });
  const sheet: DeskSheet = {
    name,
    cells: data,
    rows: cells.length,
    columns: width + made,
    widths,
    frozenRows: headerRow + 1,
    frozenColumns: 1,
    headerRow,
    firstColumn: made === 0 ? 0 : width,
  };
  return made === 0 ? [sheet] : [sheet, inputsSheet()];
}

/** Writes the live columns into `data`; returns how many: none without canopies and trunks. */
function addLive(
  data: Record<number, Record<number, ICellData>>,
  cells: readonly (readonly Cell[])[],
  columns: readonly MatchedColumn[],
  headerRow: number,
  width: number,
): number {
  const rowCells = cellsOf(columns);
  if (rowCells === undefined) return 0;
  const put = (row: number, i: number, cell: ICellData): void => {
    data[row] = { ...data[row], [width + i]: cell };
  };
  LIVE.forEach(({ header }, i) => put(headerRow, i, { v: header, t: TEXT_CELL, s: LIVE_HEADER }));
  let isFirst = true;
  for (let r = headerRow + 1; r < cells.length; r++) {
    if ((cells[r] ?? []).every((cell) => isBlank(cell))) continue;
    const row: RowCells = {
      ...rowCells(r + 1),
      live: (header) => `${letter(width + LIVE.findIndex((l) => l.header === header))}${r + 1}`,
    };
    LIVE.forEach((column, i) => {
      // as if filled down: the grid reads a shared formula once, not once a row
      const shared = { si: `live-${i + 1}`, s: live(column.pattern) };
      const f = `=IF(${row.neither},"",${column.formula(row)})`;
      put(r, i, isFirst ? { f, ...shared } : shared);
    });
    isFirst = false;
  }
  return LIVE.length;
}

function inputsSheet(): DeskSheet {
  const text = (v: string, s: ICellData['s'] = null): ICellData => ({ v, t: TEXT_CELL, s });
  const straw = { bg: { rgb: INK.straw }, cl: { rgb: INK.ochre } };
  const cells: Record<number, Record<number, ICellData>> = {
    0: Object.fromEntries(
      ['Input', 'Value', 'Unit', 'Note'].map((header, c) => [c, text(header, HEADER)]),
    ),
  };
  INPUTS.forEach(({ name, value, unit, note }, i) => {
    cells[i + 1] = {
      0: text(name),
      1: typeof value === 'number' ? { v: value, t: NUMBER_CELL, s: straw } : text(value, straw),
      2: text(unit),
      3: text(note, { cl: { rgb: '#6b4f3a' } }),
    };
  });
  return {
    name: 'Inputs',
    cells,
    rows: INPUTS.length + 1,
    columns: 4,
    widths: [250, 110, 70, 520],
    frozenRows: 1,
    frozenColumns: 0,
    headerRow: 0,
    firstColumn: 0,
  };
}

const RULE_WIDTHS = { least: 80, most: 240 };

/** A sheet of the workbook as it came, such as Rules: no live columns. */
export function plainSheet(name: string, { cells, dateCells }: Grid): DeskSheet {
  const width = Math.max(1, ...cells.map((row) => row.length));
  const data = Object.fromEntries(
    cells.map((row, r) => [
      r,
      Object.fromEntries(
        row.flatMap((value, c) => {
          const made = gridCell(value, dateCells?.has(`${r},${c}`) ?? false);
          return made === undefined ? [] : [[c, made] as const];
        }),
      ),
    ]),
  );
  const widths = Array.from({ length: width }, (_, c) => {
    const longest = Math.max(0, ...cells.map((row, r) => lengthShown(row[c], dateCells?.has(`${r},${c}`)))); // prettier-ignore
    return Math.round(
      Math.min(RULE_WIDTHS.most, Math.max(RULE_WIDTHS.least, longest * CHARACTER_PX + PADDING_PX)),
    );
  });
  return {
    name,
    cells: data,
    rows: cells.length,
    columns: width,
    widths,
    frozenRows: 0,
    frozenColumns: 0,
    headerRow: -1,
    firstColumn: 0,
  };
}
