/** Values for blank cells of an inventory: what the list itself suggests, which cells are written, and how all is taken back. */
import { Problem } from '../engine/problems.js';
import type { Tree } from '../engine/plan/model.js';
import {
  convert,
  isBlank,
  isMissing,
  plainLabel,
  plainNumber,
  quantity,
  text,
  type Cell,
  type Grid,
} from '../tables/cells.js';
import {
  assumedCells,
  markOf,
  MEASURES,
  WHAT,
  withMark,
  type ColumnMatch,
  type InventoryReading,
  type InventoryRow,
  type Meaning,
} from '../tables/inventory/index.js';
import type {
  AssumedColumn,
  BlankColumn,
  BlanksAsk,
  CellEdit,
  FillAsk,
  Filling,
  Known,
  Lack,
  TakeBackAsk,
} from './fill-types.js';

type Read = (grid: Grid) => InventoryReading;

/** Columns a lack can be mended in, the most telling first. */
const INTO: Readonly<Record<Lack, readonly Meaning[]>> = {
  size: ['caliper', 'circumference', 'container', 'ballDiameter', 'canopy'],
  species: ['species', 'commonName'],
  count: ['count'],
};
/** Cells nobody is told about when they are blank: something of the site stands for them. */
const OTHERS: readonly Meaning[] = [
  'texture', 'waterNeed', 'planted', 'plantedYear', 'mulchDepth', 'ballDepth', 'tap', 'tapFlow', 'source', 'meansWanted',
]; // prettier-ignore
const NAMES: readonly Meaning[] = ['species', 'commonName', 'genus'];
/** Dates of planting are not alike because species are. */
const NOT_KNOWN_FROM_OTHERS: ReadonlySet<Meaning> = new Set(['planted', 'plantedYear', 'species', 'commonName']); // prettier-ignore
/** So few trees of a name say nothing of the others. Assumption. */
const LEAST_OF_A_KIND = 3;
const DIGITS = 3;

/** What becomes of a value in a tree, to see that it was taken. */
const TAKEN: Readonly<Partial<Record<Meaning, keyof Tree>>> = {
  texture: 'texture', waterNeed: 'plantFactor', planted: 'planted', plantedYear: 'planted', mulchDepth: 'mulchDepth',
  ballDepth: 'ballDepth', tap: 'tap', tapFlow: 'tapFlow', source: 'source', meansWanted: 'meansWanted',
}; // prettier-ignore

const isNumber = (meaning: Meaning): boolean =>
  MEASURES[meaning] !== undefined || meaning === 'container' || meaning === 'count';

/** Rows that lack a size say so in these words. */
const NO_SIZE = /^Row \d+: no trunk diameter/;

/** The name trees of a kind share; "" where a row has none. */
function nameOn({ cells }: InventoryRow, matches: readonly ColumnMatch[]): string {
  for (const meaning of NAMES) {
    const at = matches.find((match) => match.meaning === meaning);
    if (at && !isMissing(cells[at.column])) return text(cells[at.column]);
  }
  return '';
}

/** A value in the unit of its column; undefined where it is no number. */
function sized(cell: Cell, unit: string): number | undefined {
  const plain = plainNumber(cell);
  if (plain !== undefined) return plain > 0 ? plain : undefined;
  const found = quantity(cell);
  if (!found || found.value <= 0) return undefined;
  return found.unit === '' || unit === '' ? found.value : convert(found.value, found.unit, unit);
}

const rounded = (n: number): string => String(Number(n.toPrecision(DIGITS)));

/** The number in the middle, of an even number of them between the two. */
function median(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

function commonest(words: readonly string[]): string {
  const times = new Map<string, number>();
  for (const word of words) times.set(word, (times.get(word) ?? 0) + 1);
  return [...times].reduce((best, each) => (each[1] > best[1] ? each : best))[0];
}

interface Values {
  known: Known | undefined;
  /** by label of the name */
  kinds: ReadonlyMap<string, Known>;
}

/** What the cells of a column say that were not assumed themselves. */
function valuesOf(match: ColumnMatch, { rows, matches }: InventoryReading): Values {
  const none: Values = { known: undefined, kinds: new Map() };
  if (NOT_KNOWN_FROM_OTHERS.has(match.meaning)) return none;
  const numeric = isNumber(match.meaning);
  const all: string[] = [];
  const byName = new Map<string, string[]>();
  for (const row of rows) {
    const cell = row.cells[match.column] ?? null;
    if (row.tree === undefined || isMissing(cell)) continue;
    if (assumedCells(row.cells, matches).some(({ column }) => column === match.column)) continue;
    const value = numeric ? sized(cell, match.unit)?.toString() : text(cell);
    if (value === undefined) continue;
    all.push(value);
    const name = plainLabel(nameOn(row, matches));
    if (name !== '') byName.set(name, [...(byName.get(name) ?? []), value]);
  }
  const known = (values: readonly string[]): Known => ({
    value: numeric ? rounded(median(values.map(Number))) : commonest(values),
    of: values.length,
  });
  if (all.length === 0) return none;
  const kinds = [...byName].filter(([, values]) => values.length >= LEAST_OF_A_KIND);
  return {
    known: known(all),
    kinds: new Map(kinds.map(([name, values]) => [name, known(values)])),
  };
}

/** Rows asked about whose cell in a column is blank. Without a column all of them lack it. */
function blankRows(
  { lack, rows: asked }: BlanksAsk,
  column: number | undefined,
  reading: InventoryReading,
): InventoryRow[] {
  const wanted = asked && new Set(asked);
  return reading.rows.filter(
    ({ row, cells, tree, unusable = '' }) =>
      (wanted ? wanted.has(row) : tree !== undefined) &&
      (tree !== undefined || (lack === 'size' && NO_SIZE.test(unusable))) &&
      (column === undefined || isBlank(cells[column])),
  );
}

function blankColumn(ask: BlanksAsk, match: ColumnMatch, reading: InventoryReading): BlankColumn[] {
  const { column, header, meaning, unit } = match;
  const rows = blankRows(ask, column, reading);
  if (rows.length === 0) return [];
  const { known, kinds } = valuesOf(match, reading);
  const lacking = new Map<string, { name: string; rows: number }>();
  for (const row of rows) {
    const name = nameOn(row, reading.matches);
    const label = plainLabel(name);
    lacking.set(label, { name, rows: (lacking.get(label)?.rows ?? 0) + 1 });
  }
  return [
    {
      column,
      header,
      meaning,
      unit,
      rows: rows.length,
      ...(known && { known }),
      kinds: [...lacking]
        .flatMap(([label, kind]) => {
          const value = kinds.get(label);
          return value ? [{ ...kind, ...value }] : [];
        })
        .sort((a, b) => b.rows - a.rows),
    },
  ];
}

/** Columns that could be filled on the rows asked about, the most telling first. */
export function blanksOf(ask: BlanksAsk, reading: InventoryReading): BlankColumn[] {
  const { lack, draft } = ask;
  // without headers there is no place to say what was assumed
  if (reading.headerRow === 0) return [];
  const found = (lack ? INTO[lack] : OTHERS).flatMap((meaning) =>
    reading.matches
      .filter((match) => match.meaning === meaning && match.header !== '')
      .flatMap((match) => blankColumn(ask, match, reading)),
  );
  const hasSizes = reading.matches.some(({ meaning }) => INTO.size.includes(meaning));
  if (lack !== 'size' || hasSizes) return found;
  const rows = blankRows(ask, undefined, reading).length;
  const unit = MEASURES.caliper![draft.units];
  return rows === 0 ? [] : [{ header: '', meaning: 'caliper', unit, rows, kinds: [] }];
}

/** A typed value as it is written: in the unit of its column. @throws Problem where it cannot be */
function written(typed: string, match: Pick<ColumnMatch, 'meaning' | 'unit'>): Cell {
  const said = text(typed);
  if (said === '') throw new Problem('nothing is typed to be used for these rows');
  if (!isNumber(match.meaning)) return plainNumber(said) ?? said;
  const plain = plainNumber(said) ?? plainNumber(said, true);
  if (plain !== undefined) return plain;
  const found = quantity(said);
  const value =
    found && found.unit !== '' ? convert(found.value, found.unit, match.unit) : undefined;
  return value === undefined ? said : Number(rounded(value));
}

/** @throws Problem in the reader's own words, where it does not take what would be written */
function mustBeTaken(
  { meaning }: Pick<ColumnMatch, 'meaning'>,
  row: number,
  before: InventoryReading,
  after: InventoryReading,
): void {
  const of = ({ rows }: InventoryReading) => rows.find((each) => each.row === row);
  const [was, is] = [of(before), of(after)];
  const key = TAKEN[meaning];
  const taken =
    is?.tree !== undefined &&
    (key === undefined || is.tree[key] !== undefined) &&
    (WHAT[meaning] !== 'species' || is.tree.species !== 'unknown species');
  if (taken) return;
  const notes = is?.notes.filter((note) => !was?.notes.includes(note)) ?? [];
  const said = notes[0] ?? is?.unusable?.replace(/^Row \d+: /, '') ?? 'the row was not read';
  throw new Problem(said.replace(/\.$/, ''));
}

/** The sheet's cells with edits in them; the rows that are not touched are the same. */
function edited({ cells, dateCells }: Grid, edits: readonly CellEdit[]): Grid {
  const made = [...cells];
  const own = new Set<number>();
  for (const { row, column, value } of edits) {
    if (!own.has(row)) made[row] = [...(made[row] ?? [])];
    own.add(row);
    const line = made[row]!;
    while (line.length < column) line.push(null);
    line[column] = value;
  }
  return { cells: made, ...(dateCells && { dateCells }) };
}

/**
 * The cells that are written to fill blank ones, with the mark that they are assumed.
 *
 * @param read - the reader, to see that it takes the values
 * @throws Problem in a sentence, where it does not
 */
export function fillingOf(ask: FillAsk, reading: InventoryReading, read: Read): Filling {
  const { trees, free, names } = ask;
  const { matches, headerRow } = reading;
  if (headerRow === 0)
    throw new Problem('the list has no row of headers, so nothing in it can be marked as assumed; write headers above it first'); // prettier-ignore
  const added: CellEdit[] = [];
  const addColumn = (header: string): number => {
    const column = free + added.length;
    added.push({ row: headerRow - 1, column, was: null, value: header, head: true });
    return column;
  };
  const known = matches.find(({ column }) => column === ask.column);
  const unit = MEASURES.caliper![ask.draft.units];
  const newOne = { meaning: 'caliper' as const, unit, header: `${names.size} (${unit})` };
  const match = known ?? { ...newOne, column: addColumn(newOne.header) };
  const rows = blankRows(ask, known?.column, reading);
  const marks = matches.find(({ meaning }) => meaning === 'assumed')?.column ?? addColumn(names.assumed); // prettier-ignore
  const values = known && ask.value === '' ? valuesOf(known, reading) : undefined;
  const one = values ? undefined : written(ask.value, match);
  const valueOn = (row: InventoryRow): Cell => {
    if (one !== undefined) return one;
    const kind = values?.kinds.get(plainLabel(nameOn(row, matches))) ?? values?.known;
    return kind ? (plainNumber(kind.value) ?? kind.value) : null;
  };
  const filled = rows.flatMap((row) => {
    const value = valueOn(row);
    return value === null ? [] : [{ row, value }];
  });
  const edits = filled.flatMap(({ row: { row, cells }, value }): CellEdit[] => [
    { row: row - 1, column: match.column, was: null, value },
    {
      row: row - 1,
      column: marks,
      was: cells[marks] ?? null,
      value: withMark(cells[marks], markOf(match.header, value)),
    },
  ]);
  const [first] = filled;
  if (!first) throw new Problem('there is no blank cell to fill on these rows any more');
  const all = [...added, ...edits];
  mustBeTaken(match, first.row.row, reading, read(edited(trees, all)));
  return { edits: all, rows: filled.length };
}

/** Every assumed value out again, with its mark; columns that were added for them go where nothing is left in them. */
export function takingBack({ trees }: TakeBackAsk, { rows, matches, headerRow }: InventoryReading): Filling {
  const marks = matches.find(({ meaning }) => meaning === 'assumed')?.column;
  if (marks === undefined) return { edits: [], rows: 0 };
  const edits: CellEdit[] = [];
  let count = 0;
  for (const { row, cells } of rows) {
    const held = assumedCells(cells, matches);
    if (held.length === 0) continue;
    count++;
    const was = cells[marks] ?? null;
    const value = held.reduce<Cell>((left, { mark }) => withMark(left, mark, true), was);
    for (const { column } of held)
      edits.push({ row: row - 1, column, was: cells[column] ?? null, value: null });
    edits.push({ row: row - 1, column: marks, was, value });
  }
  const after = edited(trees, edits);
  const isEmpty = (column: number): boolean =>
    after.cells.every((row, r) => r < headerRow || isBlank(row[column]));
  const ours = matches.filter(({ column, header, meaning }) =>
    meaning === 'assumed'
      ? /^(?:Assumed|Supuesto)$/.test(header)
      : column === marks - 1 && /^(?:Caliper|Calibre) \((?:in|cm)\)$/.test(header),
  );
  for (const { column, header } of ours)
    if (headerRow > 0 && count > 0 && isEmpty(column))
      edits.push({ row: headerRow - 1, column, was: header, value: null });
  return { edits, rows: count };
} // prettier-ignore

/** Values of a list that are marked as assumed, by column. */
export function assumedColumns({ rows, matches }: InventoryReading): AssumedColumn[] {
  const found = new Map<number, AssumedColumn>();
  for (const { cells } of rows)
    for (const { column, what } of assumedCells(cells, matches)) {
      const header = matches.find((match) => match.column === column)?.header ?? '';
      const before = found.get(column) ?? { header, what, rows: 0 };
      found.set(column, { ...before, rows: before.rows + 1 });
    }
  return [...found.values()];
}
