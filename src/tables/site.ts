/** Reads a site from the Site sheet or from JSON; what is not given takes the default of SITE_INPUTS. */
import { isoDate } from '../engine/dates.js';
import type { Site } from '../engine/plan/model.js';
import type { Units } from '../engine/units.js';
import {
  isMissing,
  plainLabel,
  quantity,
  quoted,
  sheetDay,
  text,
  unitWord,
  type Cell,
} from './cells.js';
import { hourOf, hourText } from './hours.js';
import { measureWords, rangeWords, unitsOf } from './said-units.js';
import { SITE_INPUTS, siteInput, toSI, type SiteInput, type SiteKey } from './site-inputs.js';

type Values = Map<SiteKey, string | number>;

export interface SiteReading {
  site: Site;
  /** one sentence for everything that could not be used */
  problems: string[];
  /** inputs whose value was given and is used; the others have their default */
  given: ReadonlySet<SiteKey>;
}

function build(values: Values): Site {
  const efficiency: Record<string, unknown> = {};
  const out: Record<string, unknown> = { efficiency };
  for (const input of SITE_INPUTS) {
    const value = values.get(input.key) ?? input.default;
    if (value === '' && input.kind === 'number') continue;
    const dot = input.key.indexOf('.');
    if (dot < 0) out[input.key] = value;
    else efficiency[input.key.slice(dot + 1)] = value;
  }
  return out as unknown as Site;
}

/** A site of defaults, with some fields replaced. Efficiencies may be given in part through a full record. */
export function defaultSite(overrides: Partial<Site> = {}): Site {
  return { ...build(new Map()), ...overrides };
}

const accepted = (i: SiteInput, units: Units | undefined): string =>
  i.kind === 'day'
    ? `a date${i.range ? ` from ${isoDate(i.range[0])} to ${isoDate(i.range[1])}` : ''}, best as yyyy-mm-dd`
    : i.kind === 'hour'
      ? 'an hour of the day from 0:00 to 23:59, such as 6:30, 6.5, 6:30 pm or 18:00'
      : i.words
        ? `one of ${i.words.join(', ')}`
        : i.range
          ? `${i.kind === 'count' ? 'a whole number' : 'a number'} from ${rangeWords(i.range, i.unitSI, i, units)}`
          : 'some text';

/** The default as its own sentence has it, in units where it has any. */
function defaultWords(i: SiteInput, units: Units | undefined): string {
  const { kind, default: value } = i;
  if (kind === 'day') return `The default ${isoDate(value as number)}`;
  if (kind === 'hour') return `The default ${hourText(value as number)}`;
  if (typeof value !== 'number') return value === '' ? 'None' : `The default ${value}`;
  return `The default ${i.unitUS === i.unitSI ? value : measureWords(value, i.unitSI, i, units)}`;
}

/** One value of one input, or a sentence about what is wrong with it. */
function readValue(i: SiteInput, cell: Cell, unit: string, where: string): string | number | Error {
  const units = unitsOf(unit, i);
  const bad = (why: string): Error =>
    new Error(
      `${where}: ${i.name} is ${quoted(cell)}, ${why}; accepted is ${accepted(i, units)}. ${defaultWords(i, units)} is used.`,
    );
  if (i.kind === 'text') return text(cell);
  if (i.kind === 'word') {
    const w = text(cell)
      .toLowerCase()
      .replace(/[\s_-]+/g, ' ');
    return i.words?.includes(w) ? w : bad('which is not a word it knows');
  }
  if (i.kind === 'day') {
    const day = sheetDay(cell);
    if (day === undefined) return bad('which is not a date');
    return i.range && (day < i.range[0] || day > i.range[1]) ? bad('which is out of range') : day;
  }
  if (i.kind === 'hour') return hourOf(cell) ?? bad('which is not an hour of the day');
  const q = quantity(cell);
  if (!q) return bad('which is not a number');
  const value = toSI(i, q.value, q.unit || unitOf(i, unit));
  if (value === undefined) return bad(`in the unit ${quoted(q.unit || unit)}, which does not fit`);
  if (i.kind === 'count' && !Number.isInteger(value)) return bad('which is not a whole number');
  const slack = 1e-9 * Math.max(1, Math.abs(value));
  if (i.range && (value < i.range[0] - slack || value > i.range[1] + slack))
    return bad('which is out of range');
  return value;
}

/** A unit cell that only repeats one of the input's own labels asks for no conversion when both are the same. */
const unitOf = (i: SiteInput, unit: string): string =>
  i.unitUS === i.unitSI && unitWord(unit) !== '%' ? '' : unit;

function finish(values: Values, problems: string[], units?: Units): SiteReading {
  const site = build(values);
  const given = new Set(values.keys());
  if (site.seasonTo < site.seasonFrom) {
    problems.push(
      `The season ends (${isoDate(site.seasonTo)}) before it starts (${isoDate(site.seasonFrom)}); the end is taken half a year after the start.`,
    );
    site.seasonTo = site.seasonFrom + 182;
    given.delete('seasonTo');
  } else if (site.seasonTo - site.seasonFrom > 730) {
    problems.push(
      `The season is ${site.seasonTo - site.seasonFrom + 1} days long; a plan covers up to two years, so it ends on ${isoDate(site.seasonFrom + 730)}.`,
    );
    site.seasonTo = site.seasonFrom + 730;
    given.delete('seasonTo');
  }
  if (site.block2UpTo > 0 && site.block2UpTo <= site.block1UpTo) {
    const said = (block: SiteKey, cubicMetres: number): string =>
      measureWords(cubicMetres, 'm³', siteInput(block), units);
    problems.push(
      `Water block 2 ends at ${said('block2UpTo', site.block2UpTo)}, not above block 1, which ends at ${said('block1UpTo', site.block1UpTo)}; block 2 is taken without an end.`,
    );
    site.block2UpTo = 0;
    given.delete('block2UpTo');
  }
  return { site, problems, given };
}

const LABELS = new Map<string, SiteInput>(
  SITE_INPUTS.flatMap((i) => [
    [plainLabel(i.name), i] as const,
    [plainLabel(i.key.replace(/([A-Z])/g, ' $1')), i] as const,
    [plainLabel(i.key), i] as const,
  ]),
);
const HEADER_WORDS: ReadonlySet<string> = new Set(['name', 'input', 'setting', 'item']);

/**
 * Reads rows `name | value | unit | note | source` (header optional; note and source are ignored).
 * @param units - of the person who reads the sentences; left out: both in what is said of several rows
 * @returns the site and one sentence for every row that could not be used
 */
export function readSite(cells: Cell[][], units?: Units): SiteReading {
  const values: Values = new Map();
  const problems: string[] = [];
  cells.forEach((row, r) => {
    const label = text(row[0]);
    if (label === '') return;
    const unitInLabel = /\(([^()]*)\)\s*$/.exec(label)?.[1] ?? '';
    const input =
      LABELS.get(plainLabel(label)) ?? LABELS.get(plainLabel(label.replace(/\([^()]*\)\s*$/, '')));
    const where = `Site sheet, row ${r + 1}`;
    if (HEADER_WORDS.has(plainLabel(label)) && plainLabel(text(row[1])) === 'value') return;
    if (!input) {
      const title = row.slice(1).every((c) => text(c) === '');
      if (!title)
        problems.push(
          `${where}: ${quoted(label)} is not the name of a site input; the row is left out.`,
        );
      return;
    }
    if (isMissing(row[1])) {
      if (input.kind !== 'text' && input.default !== '')
        problems.push(`${where}: ${input.name} is blank; the default is used.`);
      return;
    }
    if (values.has(input.key))
      problems.push(`${where}: ${input.name} is given a second time; this later row holds.`);
    const unit = text(row[2]) || unitInLabel;
    if (input.kind === 'number' && input.unitUS !== input.unitSI && unit === '' && quantity(row[1])?.unit === '')
      problems.push(`${where}: ${input.name} names no unit; it is read in ${input.unitSI}. Accepted are ${input.unitUS} and ${input.unitSI}.`); // prettier-ignore
    const value = readValue(input, row[1] ?? null, unit, where);
    if (value instanceof Error) problems.push(value.message);
    else values.set(input.key, value);
  });
  return finish(values, problems, units);
}

/**
 * A site from a JSON object keyed as the Site type, SI units, dates `yyyy-mm-dd` or serials, `efficiency` an
 * object by family. Unknown keys and unusable values are named in the problems.
 */
export function siteFromJson(obj: unknown): SiteReading {
  const values: Values = new Map();
  const problems: string[] = [];
  if (typeof obj !== 'object' || obj === null || Array.isArray(obj))
    return finish(values, ['The site is not an object of named inputs; defaults are used.']);
  const known = new Set<string>(SITE_INPUTS.map((i) => i.key));
  const visit = (entries: [string, unknown][], prefix: string): void => {
    for (const [name, raw] of entries) {
      const key = prefix + name;
      if (key === 'efficiency' && typeof raw === 'object' && raw !== null) {
        visit(Object.entries(raw), 'efficiency.');
      } else if (!known.has(key)) {
        problems.push(`Site: ${quoted(key)} is not the name of a site input; it is left out.`);
      } else {
        const input = siteInput(key as SiteKey);
        const cell: Cell =
          typeof raw === 'string' || typeof raw === 'number' || typeof raw === 'boolean'
            ? raw
            : null;
        const value = readValue(input, cell, '', 'Site');
        if (value instanceof Error) problems.push(value.message);
        else values.set(input.key, value);
      }
    }
  };
  visit(Object.entries(obj), '');
  return finish(values, problems);
}
