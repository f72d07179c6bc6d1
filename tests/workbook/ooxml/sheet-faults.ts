/** Faults of a sheet part and its tables that no order of elements shows: places, indices, sizes, limits. */
import { each, first, walk, type Node } from './parts.js';

/** What the rest of the workbook says, for checks inside a sheet. */
export interface Book {
  /** shared strings, text only */
  strings: string[];
  /** number of cell formats and of formats of conditions */
  formats: number;
  conditionFormats: number;
  sheetNames: Set<string>;
}

/** Limits of Excel, as its vendor publishes them; from memory. */
const LIMITS = { row: 1_048_576, column: 16_384, formula: 8192, text: 32_767, prompt: 255, header: 255 } as const; // prettier-ignore

/** `AB` → 28 */
export const columnNumber = (letters: string): number =>
  [...letters].reduce((n, c) => n * 26 + c.charCodeAt(0) - 64, 0);

export interface Area {
  top: number;
  left: number;
  bottom: number;
  right: number;
}

/** `A8:C16` or `A8`; undefined if it is neither, or turned round. */
export function areaOf(ref: string): Area | undefined {
  const found = /^([A-Z]{1,3})([1-9]\d*)(?::([A-Z]{1,3})([1-9]\d*))?$/.exec(ref);
  if (!found) return undefined;
  const [, left, top, right = left, bottom = top] = found;
  const area = { top: Number(top), left: columnNumber(left!), bottom: Number(bottom), right: columnNumber(right!) }; // prettier-ignore
  const inside = area.bottom <= LIMITS.row && area.right <= LIMITS.column;
  return inside && area.top <= area.bottom && area.left <= area.right ? area : undefined;
}

const overlap = (a: Area, b: Area): boolean =>
  a.top <= b.bottom && b.top <= a.bottom && a.left <= b.right && b.left <= a.right;

/** Text of quotes out, so that what is left is a formula's own. */
const bare = (formula: string): string => formula.replace(/"(?:[^"]|"")*"/g, '""');

/** What is wrong with a formula, in words. */
export function formulaFaults(formula: string, sheets: ReadonlySet<string>): string[] {
  const text = bare(formula);
  const faults: string[] = [];
  const without = text.replace(/'(?:[^']|'')*'/g, 'Q');
  const open = [...without].reduce((n, c) => (n < 0 ? n : n + (c === '(' ? 1 : c === ')' ? -1 : 0)), 0); // prettier-ignore
  if (open !== 0 || (text.match(/"/g)?.length ?? 0) % 2 !== 0) faults.push('is not closed');
  if (formula.startsWith('=')) faults.push('starts with =');
  if (formula.length > LIMITS.formula) faults.push(`is longer than ${LIMITS.formula} characters`);
  if (text.includes('#REF!')) faults.push('points at nothing');
  for (const [, quoted, open_] of text.matchAll(/(?:'((?:[^']|'')+)'|\b([A-Za-z_][\w.]*))!/g)) {
    const name = quoted?.replaceAll("''", "'") ?? open_!;
    if (!sheets.has(name)) faults.push(`points at a sheet ${name} that is not there`);
  }
  return faults;
}

type Cells = Map<string, string | number | undefined>;

function cellFaults(c: Node, at: string, book: Book): { faults: string[]; shown?: string | number } {
  const faults: string[] = [];
  const { t, s } = c.attributes;
  const f = first(c, 'f');
  const v = first(c, 'v');
  const style = Number(s ?? 0);
  if (!(style >= 0 && style < book.formats)) faults.push(`has format ${s} of ${book.formats}`);
  if (f) faults.push(...formulaFaults(f.text, book.sheetNames).map((said) => `${said}: ${f.text}`));
  let shown: string | number | undefined = v?.text;
  if (t === 's') {
    shown = book.strings[Number(v?.text)];
    if (shown === undefined)
      faults.push(`takes text ${v?.text} of ${book.strings.length} shared ones`);
  } else if (t === 'e') faults.push(`holds the error ${v?.text}`);
  else if (t === 'b') {
    if (!/^[01]$/.test(v?.text ?? '')) faults.push(`is yes or no and holds ${v?.text}`);
  } else if (t === 'inlineStr') shown = [...walk(c)].map((n) => (n.name === 't' ? n.text : '')).join('');
  else if ((t === undefined || t === 'n') && v) {
    shown = Number(v.text);
    if (v.text.trim() === '' || !Number.isFinite(shown)) faults.push(`holds the number ${v.text}`);
  } else if (t !== undefined && t !== 'str' && t !== 'n') faults.push(`is of a kind ${t}`);
  if (typeof shown === 'string' && shown.length > LIMITS.text) faults.push('holds too long a text');
  return { faults: faults.map((said) => `${at} ${said}`), ...(shown !== undefined && { shown }) };
} // prettier-ignore

/** Rows and cells in their order, once, in the place they name; and the dimension they take. */
function gridFaults(sheet: Node, book: Book, cells: Cells): string[] {
  const faults: string[] = [];
  let lastRow = 0;
  const all: Area = { top: Infinity, left: Infinity, bottom: 0, right: 0 };
  for (const row of each(first(sheet, 'sheetData'), 'row')) {
    const r = Number(row.attributes['r']);
    if (!(r > lastRow)) faults.push(`row ${row.attributes['r']} stands after row ${lastRow}`);
    lastRow = Math.max(lastRow, r);
    let lastColumn = 0;
    for (const c of each(row, 'c')) {
      const at = c.attributes['r'] ?? '';
      const area = areaOf(at);
      if (!area || area.top !== r) {
        faults.push(`${at} stands in row ${r}`);
        continue;
      }
      if (cells.has(at)) faults.push(`${at} stands twice`);
      else if (area.left <= lastColumn) faults.push(`${at} stands after a cell to its right`);
      lastColumn = Math.max(lastColumn, area.left);
      const found = cellFaults(c, at, book);
      cells.set(at, found.shown);
      faults.push(...found.faults);
      all.top = Math.min(all.top, r);
      all.bottom = Math.max(all.bottom, r);
      all.left = Math.min(all.left, area.left);
      all.right = Math.max(all.right, area.right);
    }
  }
  const said = first(sheet, 'dimension')?.attributes['ref'] ?? '';
  const given = areaOf(said);
  // a dimension may begin at A1 where the first cells are blank; it ends with the last cell
  if (said !== '' && cells.size > 0)
    if (!given || given.bottom !== all.bottom || given.right !== all.right || given.top > all.top || given.left > all.left)
      faults.push(`the dimension ${said} is not that of the cells`);
  return faults;
} // prettier-ignore

function ruleFaults(sheet: Node, book: Book): string[] {
  const faults: string[] = [];
  const areas = (node: Node): void => {
    for (const ref of (node.attributes['sqref'] ?? '').split(' '))
      if (!areaOf(ref)) faults.push(`${node.name} is for "${ref}", which is no range`);
  };
  const ranks = new Set<string>();
  for (const rule of each(sheet, 'conditionalFormatting')) {
    areas(rule);
    for (const { attributes: a } of each(rule, 'cfRule')) {
      if (ranks.has(a['priority']!)) faults.push(`two conditions have the priority ${a['priority']}`);
      ranks.add(a['priority']!);
      if (a['dxfId'] !== undefined && Number(a['dxfId']) >= book.conditionFormats)
        faults.push(`a condition has format ${a['dxfId']} of ${book.conditionFormats}`);
    }
  }
  for (const list of each(first(sheet, 'dataValidations'), 'dataValidation')) {
    areas(list);
    for (const words of ['prompt', 'error'])
      if ((list.attributes[words] ?? '').length > LIMITS.prompt)
        faults.push(`a ${words} is longer than ${LIMITS.prompt} characters`);
    const source = first(list, 'formula1')?.text ?? '';
    if (/^".*"$/.test(source) && source.length - 2 > LIMITS.prompt)
      faults.push(`a list to pick from is longer than ${LIMITS.prompt} characters`);
  }
  for (const { attributes: a } of each(first(sheet, 'hyperlinks'), 'hyperlink')) {
    if (!areaOf(a['ref'] ?? '')) faults.push(`a jump stands at "${a['ref']}"`);
    const place = /^(?:'((?:[^']|'')+)'|([A-Za-z_]\w*))!/.exec(a['location'] ?? '');
    const name = place?.[1]?.replaceAll("''", "'") ?? place?.[2];
    if (a['location'] !== undefined && (name === undefined || !book.sheetNames.has(name)))
      faults.push(`the jump ${a['location']} leads nowhere`);
  }
  for (const part of first(sheet, 'headerFooter')?.children ?? [])
    if (part.text.length > LIMITS.header) faults.push(`${part.name} is longer than ${LIMITS.header} characters`);
  let past = 0;
  for (const { attributes: a } of each(first(sheet, 'cols'), 'col')) {
    if (!(Number(a['min']) > past && Number(a['min']) <= Number(a['max'])))
      faults.push(`columns ${a['min']} to ${a['max']} are out of order`);
    past = Number(a['max']);
    if (Number(a['style'] ?? 0) >= book.formats) faults.push(`a column has format ${a['style']}`);
  }
  if (first(sheet, 'mergeCells')) faults.push('cells are merged');
  return faults;
} // prettier-ignore

function tableFaults(table: Node, cells: Cells): string[] {
  const { ref, displayName, name } = table.attributes;
  const area = areaOf(ref ?? '');
  if (!area) return [`table ${name} is at "${ref}"`];
  const faults: string[] = [];
  if (!/^[A-Za-z_\\][\w.]*$/.test(displayName ?? '')) faults.push(`"${displayName}" is no name of a table`);
  if (area.bottom === area.top) faults.push(`table ${name} has no row below its header`);
  const columns = each(first(table, 'tableColumns'), 'tableColumn');
  if (columns.length !== area.right - area.left + 1)
    faults.push(`table ${name} has ${columns.length} columns over ${ref}`);
  const seen = new Set<string>();
  columns.forEach(({ attributes: a }, i) => {
    const title = (a['name'] ?? '').replaceAll('_x000a_', '\n');
    if (seen.has(title.toLowerCase())) faults.push(`table ${name} has two columns "${title}"`);
    seen.add(title.toLowerCase());
    const at = `${letters(area.left + i)}${area.top}`;
    if (cells.get(at) !== title)
      faults.push(`the header ${at} is "${cells.get(at)}" and the column of ${name} "${title}"`);
  });
  if (new Set(columns.map((c) => c.attributes['id'])).size !== columns.length)
    faults.push(`table ${name} numbers two columns alike`);
  const filter = first(table, 'autoFilter')?.attributes['ref'];
  if (filter !== undefined && filter !== ref) faults.push(`the filter ${filter} is not over ${name}`);
  return faults;
} // prettier-ignore

const letters = (n: number): string =>
  n <= 0 ? '' : letters(Math.floor((n - 1) / 26)) + String.fromCharCode(65 + ((n - 1) % 26));

/** Faults of a sheet and of the tables on it. */
export function sheetFaults(sheet: Node, tables: readonly Node[], book: Book): string[] {
  const cells: Cells = new Map();
  const faults = [...gridFaults(sheet, book, cells), ...ruleFaults(sheet, book)];
  const areas = tables.map((t) => areaOf(t.attributes['ref'] ?? ''));
  areas.forEach((a, i) => {
    if (a && areas.some((b, k) => b && k < i && overlap(a, b)))
      faults.push(`table ${tables[i]!.attributes['name']} lies over another`);
  });
  return [...faults, ...tables.flatMap((t) => tableFaults(t, cells))];
}
