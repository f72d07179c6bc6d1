/**
 * What a plan is made from, as short marks by part: kept beside the sheets of a plan, they tell later which part has
 * changed, and nothing else. Equal cells give equal marks, however they came into the workbook.
 */
import { isBlank, text, type Cell } from '../tables/cells.js';
import { withoutMarks } from '../tables/kit-example.js';
import type { SiteKey } from '../tables/site-inputs.js';
import type { Session } from './session.js';

/** Parts with one mark each; inputs of the site have a mark each, so that a change can be named. */
export const MARKED = ['trees', 'units', 'rules', 'kit', 'weather', 'contract'] as const;
export type MarkedPart = (typeof MARKED)[number];
export type Part = MarkedPart | 'site';

export interface MadeFrom extends Record<MarkedPart, string> {
  /** inputs of the site that were typed */
  site: Partial<Record<SiteKey, string>>;
}

/** A part that is not what it was. */
export interface Change {
  part: Part;
  /** of the site: which inputs */
  keys: SiteKey[];
}

/** 32-bit FNV-1a from two beginnings: chance likeness of two texts is out of the question for a person's changes. */
const BEGINNINGS = [0x811c9dc5, 0x2f4a91b3];
const PRIME = 0x01000193;

/** A short mark of a text, 16 signs. */
export function markOf(given: string): string {
  return BEGINNINGS.map((begin) => {
    let hash = begin;
    for (let i = 0; i < given.length; i++)
      hash = Math.imul(hash ^ given.charCodeAt(i), PRIME) >>> 0;
    return hash.toString(16).padStart(8, '0');
  }).join('');
}

/** Digits that survive a file: the last ones of a number may not. */
const DIGITS = 12;

const plain = (cell: Cell | undefined): string =>
  typeof cell === 'number' ? String(Number(cell.toPrecision(DIGITS))) : text(cell ?? null).trim();

/** Cells without what is blank at the end of rows and of the table. */
function plainRows(cells: readonly (readonly Cell[])[]): string[][] {
  const rows = cells.map((row) => {
    const own = row.map(plain);
    while (own.at(-1) === '') own.pop();
    return own;
  });
  while (rows.at(-1)?.length === 0) rows.pop();
  return rows;
}

const tableMark = (table: readonly (readonly Cell[])[] | undefined): string =>
  table === undefined ? '' : markOf(JSON.stringify(plainRows(table)));

/** The columns that are understood, and what stands in them: others change nothing. */
function treesMark({ read: { reading, trees } }: Session): string {
  if (!reading) return '';
  const { columns, headerRow } = reading;
  const below = trees.cells.slice(headerRow + 1);
  const rows = plainRows(below.map((row) => columns.map(({ column }) => row[column] ?? null)));
  return markOf(JSON.stringify([columns.map(({ meaning, unit }) => [meaning, unit]), headerRow, rows]));
} // prettier-ignore

function rulesMark({ draft, leaveOutBroken, ruleSheets }: Session): string {
  const { starter, rules, stages } = draft;
  const sheets = ruleSheets.map(({ name, cells }) => [name, plainRows(cells)]);
  const tables = [rules, stages].map((table) => (table ? plainRows(table) : null));
  return markOf(JSON.stringify([starter, tables, sheets, leaveOutBroken]));
}

function siteMarks({ draft }: Session): MadeFrom['site'] {
  const typed = Object.entries(draft.site).filter(([, value]) => !isBlank(value));
  // eight signs are enough beside the key
  return Object.fromEntries(typed.map(([key, value]) => [key, markOf(plain(value)).slice(0, 8)]));
}

interface Known {
  of: readonly [Session['read'], Session['draft'], boolean];
  from: MadeFrom;
}
const known = new WeakMap<Session, Known>();
const treesKnown = new WeakMap<Session['read'], string>();

/** What a plan would be made from now; undefined while no trees are read. */
export function madeFrom(session: Session): MadeFrom | undefined {
  const { read, draft, leaveOutBroken } = session;
  if (!read.reading) return undefined;
  const last = known.get(session);
  if (last?.of[0] === read && last.of[1] === draft && last.of[2] === leaveOutBroken)
    return last.from;
  const trees = treesKnown.get(read) ?? treesMark(session);
  treesKnown.set(read, trees);
  const { contract, shortage } = read.papers;
  const from: MadeFrom = {
    trees,
    units: markOf(`${draft.units} ${draft.crewLanguage}`),
    rules: rulesMark(session),
    kit: tableMark(draft.kit && withoutMarks(draft.kit)),
    weather: tableMark(draft.weather),
    contract: contract || shortage ? `${tableMark(contract)} ${tableMark(shortage)}` : '',
    site: siteMarks(session),
  };
  known.set(session, { of: [read, draft, leaveOutBroken], from });
  return from;
}

/** The parts that are not what they were, in the order of the steps; none: all is as it was. */
export function changesSince(then: MadeFrom, now: MadeFrom): Change[] {
  const keys = [...new Set([...Object.keys(then.site), ...Object.keys(now.site)])] as SiteKey[];
  const changed = keys.filter((key) => then.site[key] !== now.site[key]);
  const is = (part: MarkedPart): boolean => then[part] !== now[part];
  // other units turn every number of the site
  const site = changed.length > 0 && !is('units') ? [{ part: 'site' as const, keys: changed }] : [];
  const of = (...parts: MarkedPart[]): Change[] =>
    parts.filter(is).map((part) => ({ part, keys: [] }));
  return [...of('trees', 'units'), ...site, ...of('weather', 'rules', 'kit', 'contract')];
}
