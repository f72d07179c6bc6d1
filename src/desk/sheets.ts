/** The sheets the desk opens: the inventory with live columns beside it, and the inputs those use. */
import type { ICellData } from '@univerjs/presets';
import { isBlank, type Cell, type Grid } from '../tables/cells.js';
import type { MatchedColumn } from '../taskpane/planner.js';
import { letter } from '../workbook/model.js';
import type { DeskSheet } from './grid.js';

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

/** The inputs of the live columns: name, value, unit, where from. Demo figures, to be changed. */
const INPUTS = [
  { name: 'Reference ET, hottest month', value: 0.25, unit: 'in/day', note: 'invented demo figure, put your own' },
  { name: 'Plant factor', value: 0.5, unit: '', note: 'a temperate shade tree in a dry climate' },
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
  /** the formula of a row, given the cells it may use; undefined when the sheet lacks a column */
  formula(cells: RowCells): string | undefined;
}

interface RowCells {
  /** address of the row's cell with a meaning, converted to feet where it is a length */
  canopyFeet: string | undefined;
  canopyCell: string | undefined;
  texture: string | undefined;
  /** address of a live column of the same row, by its header */
  live(header: string): string;
}

const DEMAND = 'Demand (gal/day)';
const USABLE = 'Usable water (gal)';
const INTERVAL = 'Interval (days)';
const BAG = 'Bag runs (h)';

/** A formula that stays blank where its source is blank. */
const unlessBlank = (source: string, formula: string): string => `=IF(${source}="","",${formula})`;

const LIVE: readonly LiveColumn[] = [
  {
    header: DEMAND,
    pattern: '0.0',
    formula: ({ canopyFeet, canopyCell }) =>
      canopyFeet === undefined || canopyCell === undefined
        ? undefined
        : unlessBlank(
            canopyCell,
            `SOAK.TREE_DEMAND(${input('Reference ET, hottest month')},${canopyFeet},${input('Plant factor')})`,
          ),
  },
  {
    header: USABLE,
    pattern: '0',
    formula: ({ canopyFeet, canopyCell, texture }) => {
      if (canopyFeet === undefined || canopyCell === undefined) return undefined;
      const fallback = input('Soil texture where the row has none');
      const soil = texture === undefined ? fallback : `IF(${texture}="",${fallback},${texture})`;
      return unlessBlank(
        canopyCell,
        `SOAK.ROOTZONE_VOLUME(12*${canopyFeet},${input('Root zone depth')},SOAK.SOIL_WATER(${soil}),${input('Share used before watering')})`,
      );
    },
  },
  {
    header: INTERVAL,
    pattern: '0.0',
    formula: ({ canopyCell, live: cell }) =>
      canopyCell === undefined
        ? undefined
        : unlessBlank(canopyCell, `SOAK.INTERVAL(${cell(USABLE)},${cell(DEMAND)})`),
  },
  {
    header: BAG,
    pattern: '0.0',
    formula: ({ canopyCell, live: cell }) => {
      if (canopyCell === undefined) return undefined;
      const fill = `MIN(${input('Bag, full')},${cell(USABLE)})`;
      const depth = `${input('Bag, water depth when full')}*${fill}/${input('Bag, full')}`;
      return unlessBlank(
        canopyCell,
        `SOAK.BAG_HOURS(${fill},${input('Bag, holes')},${input('Bag, hole diameter')},${depth})`,
      );
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

/** Feet from a canopy column's unit; a unit that is no length leaves the column unused. */
const FEET: Readonly<Record<string, string>> = { ft: '', m: '/0.3048', in: '/12', cm: '/30.48' };

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
    if (c >= width) return 92;
    const longest = Math.max(...cells.slice(0, 200).map((row) => String(row[c] ?? '').length));
    return Math.round(Math.min(200, Math.max(64, longest * CHARACTER_PX + 12)));
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

/** Writes the live columns into `data`; returns how many the sheet has room of meaning for. */
function addLive(
  data: Record<number, Record<number, ICellData>>,
  cells: readonly (readonly Cell[])[],
  columns: readonly MatchedColumn[],
  headerRow: number,
  width: number,
): number {
  const canopy = columns.find((c) => c.meaning === 'canopy' && FEET[c.unit] !== undefined);
  const texture = columns.find((c) => c.meaning === 'texture');
  if (canopy === undefined) return 0;
  const columnOf = (header: string): number => width + LIVE.findIndex((l) => l.header === header);
  LIVE.forEach(({ header }, i) => {
    data[headerRow] = {
      ...data[headerRow],
      [width + i]: { v: header, t: TEXT_CELL, s: LIVE_HEADER },
    };
  });
  for (let r = headerRow + 1; r < cells.length; r++) {
    if ((cells[r] ?? []).every((cell) => isBlank(cell))) continue;
    const canopyCell = `${letter(canopy.column)}${r + 1}`;
    const row: RowCells = {
      canopyCell,
      canopyFeet: `${canopyCell}${FEET[canopy.unit] ?? ''}`,
      texture: texture === undefined ? undefined : `${letter(texture.column)}${r + 1}`,
      live: (header) => `${letter(columnOf(header))}${r + 1}`,
    };
    LIVE.forEach((column, i) => {
      const formula = column.formula(row);
      if (formula !== undefined) {
        data[r] = { ...data[r], [width + i]: { f: formula, s: live(column.pattern) } };
      }
    });
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
    widths: [240, 80, 70, 280],
    frozenRows: 1,
    frozenColumns: 0,
    headerRow: 0,
    firstColumn: 0,
  };
}
