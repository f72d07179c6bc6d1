/**
 * A model beside names that are taken already: its sheets, tables and names get free ones, and everything that points at
 * them follows. Text is left alone, inside formulas too.
 */
import { sheetReference, type ModelCell, type RichCell, type Sheet, type WorkbookModel } from '../model.js'; // prettier-ignore

/** Names of a workbook that a model is to be written into; case does not tell two apart. */
export interface NamesInUse {
  sheets: readonly string[];
  tables: readonly string[];
  /** defined names */
  names: readonly string[];
}

/** Longest name of a sheet and of a table or defined name [characters]. */
export const LONGEST_SHEET = 31;
const LONGEST_NAME = 255;
/** Names of sheets a spreadsheet program keeps for itself. */
const RESERVED_SHEETS = ['history'];

const key = (name: string): string => name.toLowerCase();

/** Gives names that nobody has, and remembers them. */
export function nameGiver(taken: Iterable<string>, longest: number, joint: string) {
  const used = new Set([...taken].map(key));
  return (wanted: string): string => {
    let name = wanted.slice(0, longest);
    for (let n = 2; used.has(key(name)); n++) {
      const number = `${joint}${n}`;
      name = wanted.slice(0, longest - number.length).trimEnd() + number;
    }
    used.add(key(name));
    return name;
  };
}

/** Old name, in lower case, to new one; only names that change. */
type Changes = ReadonlyMap<string, string>;

function changes(old: readonly string[], give: (name: string) => string): Map<string, string> {
  const out = new Map<string, string>();
  for (const name of old) {
    const free = give(name);
    if (free !== name) out.set(key(name), free);
  }
  return out;
}

/**
 * Parts of a formula in which a name may or may not stand: text, errors, a quoted sheet, columns in brackets (with one level
 * of brackets inside), addresses with a dollar sign, numbers, words.
 */
const PARTS =
  /"(?:[^"]|"")*"|#[A-Z0-9/]+[!?]?|'(?:[^']|'')*'(?=!)|\[(?:'.|\[(?:'.|[^\]'])*\]|[^[\]'])*\]|\$[A-Za-z]+|\d[\w.]*|[\p{L}_\\][\p{L}\p{N}_.\\?]*/gu;

/** Makes formulas, references and jumps follow. */
function follower(sheets: Changes, names: Changes): (text: string) => string {
  if (sheets.size === 0 && names.size === 0) return (text) => text;
  return (text) =>
    text.replace(PARTS, (part, at: number) => {
      const next = text[at + part.length];
      if (part.startsWith("'")) {
        const free = sheets.get(key(part.slice(1, -1).replaceAll("''", "'")));
        return free === undefined ? part : sheetReference(free);
      }
      if (!/^[\p{L}_\\]/u.test(part)) return part;
      // a sheet of another workbook, `[Other.xlsx]Trees!A1`, is none of ours
      if (next === '!') return text[at - 1] === ']' ? part : (sheetFor(part, sheets) ?? part);
      if (next === '(') return part;
      return names.get(key(part)) ?? part;
    });
}

function sheetFor(name: string, sheets: Changes): string | undefined {
  const free = sheets.get(key(name));
  return free === undefined ? undefined : sheetReference(free);
}

/** Sheet a jump leads to, as written in lower case. */
function jumpSheet(jump: string): string {
  const found = /^(?:'((?:[^']|'')*)'|([^'!]*))!/.exec(jump);
  return key((found?.[1] ?? found?.[2] ?? '').replaceAll("''", "'"));
}

/** @param sheets - a cell that shows a sheet's name and jumps there shows the new name */
function followCell<C extends ModelCell>(
  cell: C,
  follow: (text: string) => string,
  sheets: Changes,
): C {
  if (cell === null || typeof cell !== 'object') return cell;
  const old: RichCell = cell;
  if (old.formula === undefined && old.live === undefined && old.jump === undefined) return cell;
  const to = old.jump === undefined ? '' : jumpSheet(old.jump);
  const named = typeof old.value === 'string' && old.value !== '' && key(old.value) === to;
  return {
    ...cell,
    ...(named && sheets.has(to) && { value: sheets.get(to)! }),
    ...(old.formula !== undefined && { formula: follow(old.formula) }),
    ...(old.live !== undefined && { live: follow(old.live) }),
    ...(old.jump !== undefined && { jump: follow(old.jump) }),
  };
}

function followSheet(
  sheet: Sheet,
  follow: (text: string) => string,
  sheets: Changes,
  tables: Changes,
): Sheet {
  return {
    ...sheet,
    name: sheets.get(key(sheet.name)) ?? sheet.name,
    blocks: sheet.blocks.map((block) =>
      block.kind === 'text'
        ? {
            ...block,
            lines: block.lines.map((line) => line.map((c) => followCell(c, follow, sheets))),
          }
        : {
            ...block,
            name: tables.get(key(block.name)) ?? block.name,
            rows: block.rows.map((row) => row.map((c) => followCell(c, follow, sheets))),
          },
    ),
    validations: sheet.validations.map((v) =>
      v.source === undefined ? v : { ...v, source: follow(v.source) },
    ),
    conditions: sheet.conditions.map((c) => ({ ...c, formula: follow(c.formula) })),
    charts: sheet.charts.map((chart) => ({
      ...chart,
      series: chart.series.map((s) => ({
        ...s,
        values: follow(s.values),
        categories: follow(s.categories),
      })),
    })),
  };
}

/**
 * The model with sheets, tables and names that are free: "Plan" becomes "Plan 2", the table `Plan` becomes `Plan_2`.
 * Formulas, live formulas, jumps, lists of validations, conditions and ranges of charts follow. Names that are free stay.
 */
export function withFreeNames(model: WorkbookModel, inUse: NamesInUse): WorkbookModel {
  const sheets = changes(
    model.sheets.map((s) => s.name),
    nameGiver([...RESERVED_SHEETS, ...inUse.sheets], LONGEST_SHEET, ' '),
  );
  // Tables and defined names live in one room.
  const give = nameGiver([...inUse.tables, ...inUse.names], LONGEST_NAME, '_');
  const tables = changes(
    model.sheets.flatMap((s) => s.blocks.flatMap((b) => (b.kind === 'table' ? [b.name] : []))),
    give,
  );
  const names = changes(Object.keys(model.names), give);
  if (sheets.size + tables.size + names.size === 0) return model;
  const follow = follower(sheets, new Map([...tables, ...names]));
  return {
    ...model,
    sheets: model.sheets.map((sheet) => followSheet(sheet, follow, sheets, tables)),
    names: Object.fromEntries(
      Object.entries(model.names).map(([name, at]) => [names.get(key(name)) ?? name, follow(at)]),
    ),
  };
}
