/** What is in the files a person has saved, as other programs read them. */
import { execFileSync } from 'node:child_process';
import { CREW_WORDS } from '../../src/workbook/crew-words.js';
import { readCells, type Value, type Values } from '../workbook/programs.js';

type Cells = Record<string, Value>;

const placeOf = (address: string): { letter: string; row: number } => {
  const [, letter = '', row = ''] = /^([A-Z]+)(\d+)$/.exec(address) ?? [];
  return { letter, row: Number(row) };
};

/** Filled cells of the column below a header, in order. */
function below(cells: Cells, header: string): Value[] {
  const head = Object.entries(cells).find(([, value]) => value === header);
  if (!head) throw new Error(`there is no header "${header}"`);
  const { letter, row } = placeOf(head[0]);
  const out: Value[] = [];
  for (let r = row + 1; ; r++) {
    const value = cells[`${letter}${r}`];
    if (value === undefined) return out;
    out.push(value);
  }
}

export interface SavedPlan {
  sheets: string[];
  /** rows of the inventory on the sheet Trees */
  trees: number;
  /** of totals that must agree, one side less the other */
  differences: number[];
  /** stops of all crew days in order: the site and address of each */
  stops: string[];
}

/** Stops of the crew's sheet: lines of one stop follow each other, also over a filling of the tank; a heading begins a round. */
function stopsOf(cells: Cells): string[] {
  const head = Object.entries(cells).find(([, value]) => value === 'Day · stop');
  if (!head) throw new Error('there is no crew table');
  const { row: top } = placeOf(head[0]);
  const bottom = Math.max(...Object.keys(cells).map((address) => placeOf(address).row));
  const out: string[] = [];
  let before = '';
  for (let row = top + 1; row <= bottom; row++) {
    const stop = String(cells[`B${row}`] ?? '');
    if (/ · \d+$/.test(stop) && stop !== before) out.push(String(cells[`D${row}`]));
    if (cells[`D${row}`] !== CREW_WORDS.waterPoint.en) before = stop;
  }
  return out;
}

/** A saved workbook, read with openpyxl. */
export function savedPlan(path: string): SavedPlan {
  const book: Values = readCells(path, 'values');
  const sheet = (name: string): Cells => {
    const cells = book[name];
    if (!cells) throw new Error(`there is no sheet ${name}; there are ${Object.keys(book).join()}`);
    return cells;
  };
  return {
    sheets: Object.keys(book),
    trees: below(sheet('Trees'), 'Row').length,
    differences: below(sheet('Checks'), 'Difference').map(Number),
    stops: stopsOf(sheet('Crew')),
  };
}

/** The text of a PDF as it is laid out, without white space: a name may go over two lines. */
export function pdfText(path: string): { text: string; plain: string } {
  const text = execFileSync('pdftotext', ['-layout', path, '-'], {
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  });
  return { text, plain: text.replace(/\s+/g, '') };
}
