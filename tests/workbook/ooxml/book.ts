/** A workbook file as a checker of spreadsheets sees it: cells with formulas and styles, tables, lists to pick from. */
import { each, first, localName, parse, relationsOf, unzip, walk, type Node, type Parts } from './parts.js'; // prettier-ignore
import { areaOf, columnNumber, type Area } from './sheet-faults.js';

export interface Look {
  /** RRGGBB of text, and of the ground; no fill is white */
  ink: string;
  ground: string;
  bold: boolean;
  italic: boolean;
  /** [pt] */
  size: number;
  /** kinds of lines round the cell: "thin", "medium"; "" for none */
  border: string;
}

export interface Cell {
  at: string;
  row: number;
  column: number;
  value: string | number | boolean | null;
  formula?: string;
  error: boolean;
  look: number;
}

export interface Table {
  name: string;
  area: Area;
  headers: string[];
}

export interface SheetRead {
  name: string;
  cells: Map<string, Cell>;
  tables: Table[];
  merged: number;
  lists: { range: string; prompt: string; error: string; source: string }[];
  conditions: string[];
}

export interface BookRead {
  sheets: SheetRead[];
  names: Map<string, string>;
  looks: Look[];
  /** text colours of conditions */
  conditionInks: string[];
  charts: Node[];
}

const hex = (node: Node | undefined): string | undefined =>
  node?.attributes['rgb']?.slice(-6).toUpperCase();

function looksOf(styles: Node): Look[] {
  const list = (name: string): Node[] => first(styles, name)?.children ?? [];
  const [fonts, fills, borders] = [list('fonts'), list('fills'), list('borders')];
  return list('cellXfs').map(({ attributes: a }) => {
    const font = fonts[Number(a['fontId'] ?? 0)];
    const fill = first(fills[Number(a['fillId'] ?? 0)], 'patternFill');
    const sides = borders[Number(a['borderId'] ?? 0)]?.children ?? [];
    return {
      ink: hex(first(font, 'color')) ?? '000000',
      ground: (fill?.attributes['patternType'] === 'solid' && hex(first(fill, 'fgColor'))) || 'FFFFFF',
      bold: first(font, 'b') !== undefined,
      italic: first(font, 'i') !== undefined,
      size: Number(first(font, 'sz')?.attributes['val'] ?? 11),
      border: [...new Set(sides.flatMap((s) => s.attributes['style'] ?? []))].sort().join(),
    };
  });
} // prettier-ignore

function cellsOf(sheet: Node, strings: readonly string[]): Map<string, Cell> {
  const cells = new Map<string, Cell>();
  for (const row of each(first(sheet, 'sheetData'), 'row'))
    for (const c of each(row, 'c')) {
      const { r: at = '', t, s } = c.attributes;
      const [, letters, number] = /^([A-Z]+)(\d+)$/.exec(at)!;
      const v = first(c, 'v')?.text;
      const f = first(c, 'f')?.text;
      const value = v === undefined ? null : t === 's' ? strings[Number(v)]! : t === 'b' ? v === '1' : t === 'str' || t === 'e' ? v : Number(v);
      cells.set(at, { at, row: Number(number), column: columnNumber(letters!), value, error: t === 'e', look: Number(s ?? 0), ...(f !== undefined && { formula: f }) });
    }
  return cells;
} // prettier-ignore

/** @throws Error if the file lacks a part */
export function readBook(bytes: Uint8Array): BookRead {
  const parts: Parts = unzip(bytes);
  const tree = (name: string): Node => parse(new TextDecoder().decode(parts.get(name)));
  const workbook = tree('/xl/workbook.xml');
  const styles = tree('/xl/styles.xml');
  const strings = each(tree('/xl/sharedStrings.xml'), 'si').map((si) =>
    [...walk(si)].map((n) => (n.name === 't' ? n.text : '')).join(''),
  );
  const related = relationsOf(parts, '/xl/workbook.xml');
  const sheets = each(first(workbook, 'sheets'), 'sheet').map(({ attributes: a }): SheetRead => {
    const part = related.find((r) => r.id === a['r:id'])!.target;
    const sheet = tree(part);
    const tables = relationsOf(parts, part).filter((r) => r.type === 'table').map((r) => tree(r.target));
    return {
      name: a['name']!,
      cells: cellsOf(sheet, strings),
      tables: tables.map((t) => ({
        name: t.attributes['name']!,
        area: areaOf(t.attributes['ref']!)!,
        headers: each(first(t, 'tableColumns'), 'tableColumn').map((c) => c.attributes['name']!),
      })),
      merged: each(first(sheet, 'mergeCells'), 'mergeCell').length,
      lists: each(first(sheet, 'dataValidations'), 'dataValidation').map((v) => ({
        range: v.attributes['sqref'] ?? '',
        prompt: v.attributes['prompt'] ?? '',
        error: v.attributes['error'] ?? '',
        source: first(v, 'formula1')?.text ?? '',
      })),
      conditions: each(sheet, 'conditionalFormatting').flatMap((c) => [...walk(c)].flatMap((n) => (n.name === 'formula' ? [n.text] : []))),
    };
  }); // prettier-ignore
  return {
    sheets,
    names: new Map(each(first(workbook, 'definedNames'), 'definedName').map((n) => [n.attributes['name']!, n.text])),
    looks: looksOf(styles),
    conditionInks: each(first(styles, 'dxfs'), 'dxf').flatMap((d) => hex(first(first(d, 'font'), 'color')) ?? []),
    charts: [...parts.keys()].filter((p) => /\/charts\/chart\d+\.xml$/.test(p)).map(tree),
  };
} // prettier-ignore

/** Cells of a table's column below its header, top to bottom; what stands nowhere in the file is left out. */
export const columnCells = (sheet: SheetRead, table: Table, index: number): Cell[] =>
  Array.from({ length: table.area.bottom - table.area.top }, (_, i) => i + table.area.top + 1)
    .flatMap((row) => sheet.cells.get(`${lettersOf(table.area.left + index)}${row}`) ?? []); // prettier-ignore

export const lettersOf = (n: number): string =>
  n <= 0 ? '' : lettersOf(Math.floor((n - 1) / 26)) + String.fromCharCode(65 + ((n - 1) % 26));

/** Text in quotes and names of sheets in quotes taken out of a formula. */
export const bareFormula = (text: string): string =>
  text.replace(/"(?:[^"]|"")*"/g, '""').replace(/'(?:[^']|'')*'!/g, 'Sheet!');

const REFERENCE = /(\$?)\b([A-Z]{1,3})(\$?)(\d+)\b(?!\()/g;

/** A formula as it reads from its own cell: rows and columns that move with it become distances. */
export const fromItsCell = (formula: string, { row, column }: Cell): string =>
  formula.replace(/"(?:[^"]|"")*"/g, (text) => text.replace(/[A-Z]\d/g, '··')).replace(
    REFERENCE,
    (_, fixedColumn: string, letters: string, fixedRow: string, number: string) =>
      `R${fixedRow ? number : `[${Number(number) - row}]`}C${fixedColumn ? letters : `[${columnNumber(letters) - column}]`}`,
  ); // prettier-ignore

/** Numbers written into a formula, outside texts, names and references. */
export const numbersIn = (formula: string): string[] =>
  bareFormula(formula)
    .replace(/\$?\b[A-Z]{1,3}\$?\d+\b(?!\()|\$[A-Z]{1,3}\b|\$\d+/g, ' ')
    .replace(/(?<![\w.])[A-Za-z_][\w.]*/g, " ")
    .match(/\d+(?:\.\d+)?(?:[eE][-+]?\d+)?/g) ?? []; // prettier-ignore

export { localName };
