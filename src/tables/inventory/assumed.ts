/**
 * Values that were put into blank cells of an inventory without anybody having measured them. A column of the list, "Assumed",
 * says so on each row, as "DBH (in) = 2.5": text that every spreadsheet and every .csv keeps. A mark holds as long as the
 * cell still has that value; whoever writes what was measured over it needs to change nothing else.
 */
import { isBlank, plainNumber, text, type Cell } from '../cells.js';
import type { Meaning } from './vocabulary.js';

/** What a value of a column says of the tree, in the words of plan and paper. */
export const WHAT: Readonly<Partial<Record<Meaning, string>>> = {
  caliper: 'size', circumference: 'size', diameterClass: 'size', container: 'size', ballDiameter: 'size', canopy: 'size',
  species: 'species', commonName: 'species', count: 'count', planted: 'planting date', plantedYear: 'planting date',
  ballDepth: 'ball depth', height: 'height', waterNeed: 'water use', texture: 'soil', mulchDepth: 'mulch depth',
  tap: 'tap', tapFlow: 'tap flow', source: 'water source', meansWanted: 'means',
}; // prettier-ignore

const BETWEEN = '; ';

interface MarkedColumn {
  column: number;
  header: string;
  meaning: Meaning;
}

export interface AssumedCell {
  /** 0-based column of the value */
  column: number;
  what: string;
  /** as it stands in the Assumed cell */
  mark: string;
}

/** Marks are parted by semicolons, so that none may stand inside. */
const inMark = (said: Cell | undefined): string => text(said).replaceAll(';', ',');

/** "DBH (in) = 2.5" */
export const markOf = (header: string, value: Cell): string =>
  `${inMark(header)} = ${inMark(value)}`;

/** The marks of an Assumed cell. */
const marksOf = (cell: Cell | undefined): string[] =>
  text(cell)
    .split(/\s*;\s*/)
    .filter((mark) => mark !== '');

/** An Assumed cell with a mark, or without it where it is `gone`. */
export function withMark(cell: Cell | undefined, mark: string, gone = false): Cell {
  const others = marksOf(cell).filter((each) => each !== mark);
  const all = gone ? others : [...others, mark];
  return all.length === 0 ? null : all.join(BETWEEN);
}

/** Numbers are the same however a file writes them: 2.5 and "2.50". */
function isOf(mark: string, header: string, value: Cell): boolean {
  const start = `${inMark(header)} = `;
  if (!mark.startsWith(start)) return false;
  const said = mark.slice(start.length);
  if (said === inMark(value)) return true;
  const [a, b] = [plainNumber(said), plainNumber(value)];
  return a !== undefined && a === b;
}

/** Cells of a row that hold an assumed value still, with the mark that says so, in the order of the columns. */
export function assumedCells(
  cells: readonly Cell[],
  columns: readonly MarkedColumn[],
): AssumedCell[] {
  const marks = columns
    .filter(({ meaning }) => meaning === 'assumed')
    .flatMap(({ column }) => marksOf(cells[column]));
  if (marks.length === 0) return [];
  return columns.flatMap(({ column, header, meaning }) => {
    const what = WHAT[meaning];
    const value = cells[column] ?? null;
    if (what === undefined || isBlank(value)) return [];
    const mark = marks.find((each) => isOf(each, header, value));
    return mark === undefined ? [] : [{ column, what, mark }];
  });
}

/** What of a row is assumed, each once; a person may also have written the word alone, as "size". */
export function assumedOn(cells: readonly Cell[], columns: readonly MarkedColumn[]): string[] {
  const words = new Set<string>(Object.values(WHAT));
  const written = columns
    .filter(({ meaning }) => meaning === 'assumed')
    .flatMap(({ column }) => marksOf(cells[column]).map((mark) => mark.toLowerCase()))
    .filter((mark) => words.has(mark));
  return [...new Set([...assumedCells(cells, columns).map(({ what }) => what), ...written])];
}
