/** The sample workbook as an auditor of spreadsheets reads it: from the file, knowing nothing of how it was made. */
import { beforeAll, describe, expect, it } from 'vitest';
import { rasterise } from '../../src/cli/rasterise.js';
import { rich, tablesOf } from '../../src/workbook/model.js';
import type { PlanJob } from '../../src/workbook/plan-job.js';
import { writeXlsx } from '../../src/workbook/writers/file.js';
import { sampleJob } from './job.js';
import { areaOf } from './ooxml/sheet-faults.js';
import { bareFormula, columnCells, fromItsCell, numbersIn, readBook, type BookRead, type Cell, type SheetRead, type Table } from './ooxml/book.js'; // prettier-ignore

let job: PlanJob;
let book: BookRead;
beforeAll(async () => {
  job = await sampleJob({ crewLanguage: 'both', whatIf: true });
  book = readBook(await writeXlsx(job.model, { rasterise }));
});

const formulas = (): { sheet: SheetRead; cell: Cell; text: string }[] =>
  book.sheets.flatMap((sheet) =>
    [...sheet.cells.values()].flatMap((cell) =>
      cell.formula === undefined ? [] : [{ sheet, cell, text: cell.formula }],
    ),
  );
const columns = (): { sheet: SheetRead; table: Table; header: string; cells: Cell[] }[] =>
  book.sheets.flatMap((sheet) =>
    sheet.tables.flatMap((table) =>
      table.headers.map((header, i) => ({ sheet, table, header, cells: columnCells(sheet, table, i) })),
    ),
  ); // prettier-ignore

/** Tables that are lists of unlike things, one thing a row: their rows have formulas of their own. */
const LISTS: readonly [table: RegExp, why: string][] = [
  [/^Outcome$/, 'About: a fact a row, each counted otherwise'],
  [
    /^Month_\d{4}_\d\d$/,
    'Calendar: a month as a grid, each day taken from its own row of the days',
  ],
  [/^Estimate$/, 'a line for each kind of cost, each taken from another sheet'],
  [/^CrewHours$/, 'Charts: each day points at its own row of Calendar, by its whole address'],
  [/^(ServedTotals|Productivity)$/, 'Shortage, Service: a sum a row, each of its own column'],
  [
    /^(BuildUp|PriceViews|DrySeason)$/,
    'Price views: a part of the price a row, each counted otherwise',
  ],
  [/^Totals$/, 'Checks: a check a row, each with its own two sides'],
];
const isList = ({ name }: Table): boolean => LISTS.some(([pattern]) => pattern.test(name));

/** Numbers that formulas may hold, each with the reason why it is no input. */
const CONSTANTS: Record<string, string> = {
  '0': 'nothing, exact match, or the least a thing can be',
  '1': 'the whole of a share, the first of a list',
  '2': 'a square, decimals of money',
  '4': 'quarter of pi times the square of a diameter',
  '5': 'FAO-56: the demand in mm/day the allowed depletion is given for',
  '6': 'decimals a difference is rounded to on Checks',
  '10': 'tenths of a litre; what each digit of a meter counts to',
  '12': 'months of a year',
  '60': 'minutes of an hour',
  '100': 'feet of hose a rate is given for',
  '365': 'days of a year',
  '1000': 'millimetres of a metre; thousands of gallons or litres',
  '1440': 'minutes of a day',
  '1000000': 'cubic millimetres of a litre, square of 1000',
  '25.4': 'millimetres of an inch',
  '0.3048': 'metres of a foot',
  '3.785411784': 'litres of a gallon',
  '0.45359237': 'kilograms of a pound',
  '0.6233766233766234': 'gallons of an inch of water on a square foot, 144/231',
  '30.4375': 'days of a mean month',
  '0.04': 'FAO-56: change of the allowed depletion for 1 mm/day of demand',
  '0.1': 'FAO-56: least allowed depletion',
  '0.8': 'FAO-56: greatest allowed depletion',
  '0.000001': 'rounding that is no difference on Checks',
  '1E-9': 'rounding that is no difference',
  '1E-12': 'rounding of a size converted from inches',
};

/** Headers of numbers without a unit in brackets, by the reason. */
const NO_UNIT: readonly [headers: RegExp, why: string][] = [
  [
    /^(Row|Group|Number|Place in list|Row on Trees|Month no\.|Month of date|Days|Rows|How many|Cycles)$/,
    'a place in a list, or a count',
  ],
  [
    /^(Trees|Number of trees|Trees with it|Trees it speaks of|Number in plan|Stops|Needed|In stock|To buy|Seasons|Seasons it lasts|Holes|Open holes)\b/,
    'things counted, named by the header',
  ],
  [
    /^(Waterings|Visits|Pad soakings|Stress days|Crew days|Months|Minutes)\b/,
    'the unit is the first word',
  ],
  [/^(Plant factor|Ks|Share)\b/, 'a ratio'],
  [/^(Least visits|Within days|Digits)$/, 'Contract, Meters: counts, named by the header'],
  [/^(Arrived|Left)$/, 'Log: a time of day, shown as one'],
];
/** Tables whose headers or units are somebody else's, or stand beside each number. */
const UNIT_ELSEWHERE: readonly [table: RegExp, why: string][] = [
  [
    /^(Site|Outcome|Totals|FieldLimits|Estimate|LogLimits|ClockSettings|ShortageLimits|ServedTotals|Productivity|BuildUp)$/,
    'unlike things a row: the unit stands in a column or in the words',
  ],
  [/^Month_/, 'Calendar: the unit stands at the head of each line of the grid'],
  [/^(Kit|WeatherGiven|Trees)$/, 'headers of the user’s own tables are kept as they are'],
];

const VOLATILE = /\b(NOW|TODAY|RAND|RANDBETWEEN|RANDARRAY|OFFSET|INDIRECT|CELL|INFO)\s*\(/i;

describe('the sample workbook, audited', () => {
  it('has formulas to audit on many sheets', () => {
    expect(formulas().length).toBeGreaterThan(2000);
    expect(new Set(formulas().map(({ sheet }) => sheet.name)).size).toBeGreaterThan(8);
  });

  it('has one formula a column in every table of like rows', () => {
    const odd = columns().flatMap(({ sheet, table, header, cells }) => {
      const shapes = new Set(cells.flatMap((c) => (c.formula === undefined ? [] : [fromItsCell(c.formula, c)])));
      return isList(table) || shapes.size <= 1 ? [] : [`${sheet.name}, ${table.name}, ${header}: ${[...shapes].slice(0, 2).join(' and ')}`];
    });
    expect(odd).toEqual([]);
  }); // prettier-ignore

  it('has no number typed over a formula in such a table', () => {
    const typed = columns().flatMap(({ sheet, table, header, cells }) => {
      const numbers = cells.filter((c) => c.formula === undefined && typeof c.value === 'number');
      const calculated = cells.some((c) => c.formula !== undefined);
      return isList(table) || !calculated ? [] : numbers.map((c) => `${sheet.name}!${c.at} of ${header}`);
    });
    expect(typed).toEqual([]);
  }); // prettier-ignore

  it('needs every exception it makes', () => {
    for (const [pattern] of LISTS) {
      const mixed = columns().some(({ table, cells }) => pattern.test(table.name) &&
        new Set(cells.flatMap((c) => (c.formula === undefined ? [] : [fromItsCell(c.formula, c)]))).size > 1);
      expect(mixed, String(pattern)).toBe(true);
    }
  }); // prettier-ignore

  it('holds no input inside a formula: every number in one is known, with its reason', () => {
    const found = new Map<string, string>();
    for (const { sheet, cell, text } of formulas())
      for (const number of numbersIn(text)) if (!found.has(number)) found.set(number, `${sheet.name}!${cell.at}: ${text.slice(0, 200)}`);
    const unknown = [...found].filter(([number]) => CONSTANTS[number] === undefined).map(([number, where]) => `${number} in ${where}`);
    expect(unknown).toEqual([]);
    const unused = Object.keys(CONSTANTS).filter((number) => !found.has(number));
    expect(unused).toEqual([]);
  }); // prettier-ignore

  it('names its lists, and every name leads to cells that hold something', () => {
    const used = [...formulas().map(({ text }) => text), ...book.sheets.flatMap((s) => s.lists.map((l) => l.source))];
    const own = [...book.names].filter(([name]) => !name.startsWith('_xlnm.'));
    expect(own.length).toBeGreaterThanOrEqual(7);
    for (const [name, place] of own) {
      const [, quoted, plain, from] = /^(?:'([^']+)'|(\w+))!(\$[A-Z]+\$\d+)/.exec(place) ?? [];
      const cell = book.sheets.find((s) => s.name === (quoted ?? plain))?.cells.get(from!.replaceAll('$', ''));
      expect(cell?.value ?? null, `${name}: ${place}`).not.toBeNull();
    }
    const inUse = own.filter(([name]) => used.some((text) => new RegExp(`\\b${name}\\b`).test(text)));
    expect(inUse.map(([name]) => name).sort()).toEqual(expect.arrayContaining(['Balance_Picks', 'Field_Trees', 'Kit_Devices']));
  }); // prettier-ignore

  it('has no merged cell, and no blank row inside a table', () => {
    expect(book.sheets.filter((s) => s.merged > 0).map((s) => s.name)).toEqual([]);
    const blank = book.sheets.flatMap((sheet) =>
      sheet.tables.flatMap((table) => {
        const { top, bottom } = table.area;
        const held = new Set(table.headers.flatMap((_, i) => columnCells(sheet, table, i)).filter((c) => c.value !== null || c.formula !== undefined).map((c) => c.row));
        return Array.from({ length: bottom - top }, (_, i) => top + 1 + i).filter((row) => !held.has(row) && bottom - top > 1).map((row) => `${sheet.name}, ${table.name}, row ${row}`);
      }),
    );
    expect(blank).toEqual([]);
  }); // prettier-ignore

  it('says the unit in the header of every number', () => {
    const silent = job.model.sheets.flatMap((sheet) =>
      tablesOf(sheet).flatMap((t) =>
        t.columns.flatMap((c, i) => {
          const numbers = t.rows.some((row) => typeof rich(row[i] ?? null).value === 'number');
          const known = c.format === 'date' || /\(.+\)/.test(c.header) ||
            NO_UNIT.some(([pattern]) => pattern.test(c.header)) || UNIT_ELSEWHERE.some(([pattern]) => pattern.test(t.name));
          return numbers && !known ? [`${sheet.name}, ${t.name}: ${c.header}`] : [];
        }),
      ),
    );
    expect(silent).toEqual([]);
  }); // prettier-ignore

  it('uses no function that calculates anew at every touch, and none that reaches outside', () => {
    for (const { sheet, cell, text } of formulas()) {
      const bare = bareFormula(text);
      expect(VOLATILE.test(bare), `${sheet.name}!${cell.at}: ${text}`).toBe(false);
      expect(/\[|\bHYPERLINK\(|\bWEBSERVICE\(/i.test(bare), `${sheet.name}!${cell.at}: ${text}`).toBe(false);
    }
  }); // prettier-ignore

  it('shows no error', () => {
    const errors = book.sheets.flatMap((s) => [...s.cells.values()].filter((c) => c.error || /^#(N\/A|VALUE!|REF!|NAME\?|DIV\/0!|NUM!|NULL!)/.test(String(c.value))).map((c) => `${s.name}!${c.at}`));
    expect(errors).toEqual([]);
  }); // prettier-ignore

  it('says what is accepted at every list to pick from, and lists something there', () => {
    const lists = book.sheets.flatMap((s) => s.lists.map((list) => ({ sheet: s.name, ...list })));
    expect(lists.length).toBeGreaterThan(5);
    for (const { sheet, range, prompt, error, source } of lists) {
      const where = `${sheet}!${range}`;
      expect(prompt.length, where).toBeGreaterThan(5);
      expect(error.length, where).toBeGreaterThan(5);
      expect(areaOf(range), where).toBeDefined();
      expect(/^"[^"]+"$/.test(source) || book.names.has(source) || /!\$[A-Z]+\$\d+:/.test(source), `${where}: ${source}`).toBe(true);
    }
  }); // prettier-ignore

  it('has no formula that adds up its own cell', () => {
    for (const { sheet, cell, text } of formulas()) {
      const own = bareFormula(text).replace(/(?:Sheet|[A-Za-z_]\w*)!\$?[A-Z]+\$?\d+(?::\$?[A-Z]+\$?\d+)?/g, ' ');
      for (const [ref] of own.replaceAll('$', '').matchAll(/\b[A-Z]{1,3}\d+(?::[A-Z]{1,3}\d+)?\b/g)) {
        const area = areaOf(ref);
        const inside = area && cell.row >= area.top && cell.row <= area.bottom && cell.column >= area.left && cell.column <= area.right;
        expect(inside ?? false, `${sheet.name}!${cell.at}: ${text}`).toBe(false);
      }
    }
  }); // prettier-ignore
});

describe('the audit itself', () => {
  const at = (row: number, column: number): Cell => ({ at: '', row, column, value: null, error: false, look: 0 }); // prettier-ignore

  it('sees the same formula one row further down, and another when a reference stays behind', () => {
    expect(fromItsCell('$A5*Site!$B$3', at(5, 2))).toBe(fromItsCell('$A6*Site!$B$3', at(6, 2)));
    expect(fromItsCell('$A5*Site!$B$3', at(5, 2))).not.toBe(fromItsCell('$A5*Site!$B$3', at(6, 2)));
    expect(fromItsCell('SUM(A1:A4)', at(5, 1))).toBe(fromItsCell('SUM(B1:B4)', at(5, 2)));
  });

  it('tells numbers from references, names, texts and functions with digits', () => {
    expect(numbersIn('A1*2+Sheet1!$B$3+LOG10(C4)+IF(D5="7 days",0.5,1e-6)')).toEqual(['2', '0.5', '1e-6']); // prettier-ignore
    expect(numbersIn("SUM('Rule days 2'!A1:A9)/Peak_ET0")).toEqual([]);
  });
});
