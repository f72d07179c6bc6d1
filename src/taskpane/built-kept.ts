/** Sets of sheets the panel has written, as texts kept in the workbook: read back without trust. */
import { text } from '../tables/cells.js';
import type { Sheet } from '../workbook/model.js';
import { MARKED, type MadeFrom } from './made-from.js';

export interface BuiltSheet {
  /** the program's own key */
  key: string;
  /** as it is called now */
  name: string;
  /** as the plan calls it, whatever number or name it got: "Log" of "Log 2"; "" where that was not kept */
  of: string;
  /** what stands first on it; "" where that was not kept */
  title: string;
}

/** What one build has written. */
export interface BuiltSet {
  sheets: BuiltSheet[];
  /** names of the workbook it defined */
  names: string[];
  /** when, on the person's own clock: yyyy-mm-ddThh:mm; "" where that was not kept */
  made: string;
  /** with our own functions */
  live: boolean;
  /** undefined where that was not kept */
  from: MadeFrom | undefined;
}

type Named = Record<string, unknown>;
const isNamed = (value: unknown): value is Named =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const words = (value: unknown): string => (typeof value === 'string' ? value : '');

function sheetFrom(value: unknown): BuiltSheet | undefined {
  if (!isNamed(value)) return undefined;
  const { key, name, of, title } = value;
  if (typeof key !== 'string' || typeof name !== 'string') return undefined;
  return { key, name, of: words(of), title: words(title) };
}

const areTexts = (value: unknown): value is Record<string, string> =>
  isNamed(value) && Object.values(value).every((each) => typeof each === 'string');

function madeFromKept(value: unknown): MadeFrom | undefined {
  if (!isNamed(value)) return undefined;
  const { site, ...marks } = value;
  if (!areTexts(site) || !areTexts(marks) || !MARKED.every((part) => part in marks))
    return undefined;
  return { ...(marks as Record<(typeof MARKED)[number], string>), site };
}

const MOMENT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/;

function setFrom(value: unknown): BuiltSet[] {
  if (!isNamed(value)) return [];
  const { sheets, names, made, live, from } = value;
  if (!Array.isArray(sheets) || !Array.isArray(names)) return [];
  const own = sheets.map(sheetFrom);
  const isWhole = own.every((sheet) => sheet !== undefined);
  if (!isWhole || !names.every((name) => typeof name === 'string')) return [];
  return [
    {
      sheets: own,
      names,
      made: MOMENT.test(words(made)) ? words(made) : '',
      live: live === true,
      from: madeFromKept(from),
    },
  ];
}

/** Sets from the text kept in the workbook; what is not ours gives none, since nothing may be taken away by it. */
export function setsFrom(kept: string): BuiltSet[] {
  if (kept === '') return [];
  try {
    const read: unknown = JSON.parse(kept);
    return Array.isArray(read) ? read.flatMap(setFrom) : [];
  } catch {
    return [];
  }
}

/** What stands first on a sheet of a model. */
export function titleOf({ blocks: [first] }: Sheet): string {
  if (first === undefined) return '';
  if (first.kind === 'table') return first.columns[0]?.header ?? '';
  const cell = first.lines[0]?.[0] ?? null;
  return text(typeof cell === 'object' ? (cell?.value ?? null) : cell);
}

/** A moment by the person's own clock, yyyy-mm-ddThh:mm. */
export function momentOf(at: Date): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}T${two(at.getHours())}:${two(at.getMinutes())}`;
}
