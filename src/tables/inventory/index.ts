/**
 * Reads a tree inventory that somebody else made: finds the header, matches columns to meanings, decides units and
 * date order from all cells of a column, and turns every row into a tree or into a sentence why it is none.
 * Nothing is decided silently: every choice is in `matches`, in `notes`, or in the notes of the row.
 */
import type { Day } from '../../engine/dates.js';
import { civil } from '../../engine/dates.js';
import type { Units } from '../../engine/units.js';
import {
  convert,
  isBlank,
  isMissing,
  isUnit,
  plainLabel,
  quoted,
  text,
  unitWord,
  type Cell,
} from '../cells.js';
import {
  MEASURES,
  type ColumnMatch,
  type ColumnUse,
  type Confidence,
  type InventoryRow,
} from './columns.js';
import { dateOrder, type DateOrder } from './dates.js';
import {
  byContent,
  candidates,
  findHeader,
  fit,
  headerParts,
  otherThing,
  SURVEY_DAY,
  type Candidate,
} from './header-match.js';
import { magnitude, readCoordinate, readPair, unitInCells } from './measures.js';
import { buildRows } from './rows.js';
import type { Language } from './english-headers.js';
import { PAIR_WORDS } from './synonyms.js';
import { MEANINGS, type Meaning } from './vocabulary.js';

export {
  MEASURES,
  type ColumnMatch,
  type ColumnUse,
  type Confidence,
  type InventoryRow,
} from './columns.js';
export { MEANINGS, type Meaning } from './vocabulary.js';
export { assumedCells, markOf, WHAT, withMark } from './assumed.js';

export interface InventoryOptions {
  file?: string;
  sheet?: string;
  /** first day of the season: planting dates long after it are noted, two-digit years are read around it */
  seasonFrom?: Day;
  /** units of columns that name none, and the order of dates that leave it open */
  units?: Units;
  /** units of the person who reads the sentences; left out: those of the columns, and both where these are not said either */
  sayIn?: Units;
  /** 1-based row of the header, where the search would be wrong; 0 for a sheet without header */
  headerRow?: number;
  /**
   * header → meaning, "meaning unit" as in "canopy ft", or "ignore"; overrules the matching. A column without a header is
   * named by its place: "Column 3"
   */
  matches?: Record<string, string>;
  /** "row,column", 0-based, of cells a workbook shows as dates */
  dateCells?: ReadonlySet<string>;
}

export interface InventoryReading {
  /** 1-based, 0 when the sheet has no header */
  headerRow: number;
  headers: string[];
  matches: ColumnMatch[];
  unmatched: string[];
  rows: InventoryRow[];
  notes: string[];
}

const SAMPLE = 400;
const WEIGHT: Readonly<Record<Confidence, number>> = {
  exact: 250,
  synonym: 240,
  near: 150,
  content: 100,
};
const LEAST_FIT: Readonly<Record<Confidence, number>> = {
  exact: 0.25,
  synonym: 0.25,
  near: 0.5,
  content: 0.5,
};
/** Diameters above this in the middle of a column are no diameters [cm]. */
const DIAMETER_DOUBTED = 100;
/** Middle of an inch column above which it must be centimetres. */
const INCHES_DOUBTED = 60;
/** Middle of a circumference column below which metres are meant. */
const METRES_BELOW = 8;
const METRIC_LANGUAGES: ReadonlySet<Language | undefined> = new Set<Language | undefined>([
  'es',
  'de',
  'fr',
  'it',
]);
const METRIC_UNITS = /^(mm|cm|m|l|l\/min|lpm)$/;
const US_UNITS = /^(in|inch|inches|ft|feet|foot|gal|gals|gallons|gpm)$/;
const columnName = (i: number): string => `Column ${i + 1}`;
const PAIRS = new Set(PAIR_WORDS.map((w) => plainLabel(w).replace(/ /g, '')));

const median = (values: number[]): number => {
  const sorted = values.slice().sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? NaN;
};

interface Choice {
  column: number;
  candidate: Candidate;
  score: number;
  fit: number;
}

/** Columns of one meaning that may stand together: survey years, crown widths, several status or note columns. */
function together(first: ColumnUse, all: readonly ColumnUse[], next: { year: number | undefined; named: string; confidence: Confidence; factor: number }): boolean {
  const { meaning } = first;
  if (next.confidence === 'near' && first.confidence !== 'near') return false;
  if (meaning === 'status') return all.length < 6;
  if (meaning === 'note') return all.length < 3;
  if (!MEASURES[meaning] || first.named !== next.named || first.factor !== next.factor) return false;
  if (first.year !== undefined && next.year !== undefined) return !all.some((u) => u.year === next.year);
  return first.year === undefined && next.year === undefined && (meaning === 'canopy' || meaning === 'circumference' || meaning === 'height') && all.length < 4;
} // prettier-ignore

function assign(
  headers: string[],
  samples: readonly Cell[][],
  filled: readonly number[],
  forced: Record<string, string>,
  notes: string[],
): ColumnUse[] {
  const uses: ColumnUse[] = [];
  const byMeaning = new Map<Meaning, ColumnUse[]>();
  const parts = headers.map((h) => headerParts(h));
  const take = (column: number, c: Candidate, why: string, pair = false, isForced = false, wantedUnit = ''): void => {
    const p = parts[column] ?? headerParts('');
    const sample = samples[column] ?? [];
    const texts = [...new Set(sample.filter((x) => !isMissing(x)).map((x) => text(x)))];
    const use: ColumnUse = {
      column, header: headers[column] ?? '', meaning: c.meaning, unit: p.unit, confidence: c.confidence, why, samples: texts.slice(0, 3),
      unitFrom: '', loose: c.loose || c.confidence === 'content', wantedUnit,
      factor: c.factor, rank: c.rank, year: p.year, language: c.language, named: p.unit, pair, forced: isForced,
      decimalComma: texts.some((t) => /^-?\d+,(\d{1,2}|\d{4,})$/.test(t)) && !texts.some((t) => /^-?\d+\.\d/.test(t)),
    };
    uses.push(use);
    byMeaning.set(c.meaning, [...(byMeaning.get(c.meaning) ?? []), use]);
  }; // prettier-ignore
  const used = new Set<number>();
  const wanted = new Map(Object.entries(forced).map(([h, m]) => [plainLabel(h) || h, m]));
  headers.forEach((h, column) => {
    const name = h === '' ? columnName(column) : h;
    const m = wanted.get(plainLabel(name) || name);
    if (m === undefined) return;
    const [, word = '', unit = ''] = /^\s*(\S*)\s*(.*?)\s*$/.exec(m) ?? [];
    const meaning = MEANINGS.find((x) => x === word);
    used.add(column);
    if (meaning) {
      const listed = candidates(parts[column] ?? headerParts(h), h).find(
        (c) => c.meaning === meaning,
      );
      const measure = MEASURES[meaning];
      const fits = measure !== undefined && convert(1, unit, measure.to) !== undefined;
      if (unit !== '' && !fits)
        notes.push(`${quoted(name)}: ${quoted(unit)} is not a unit of ${LABELS[meaning]}; ${measure ? 'the unit is read as if none were chosen' : 'it has none'}.`); // prettier-ignore
      take(column, { meaning, confidence: 'exact', rank: 0, factor: listed?.factor ?? 1, loose: false, language: listed?.language, word: h }, 'chosen by the user', false, true, fits ? unitWord(unit) : ''); // prettier-ignore
    } else {
      if (plainLabel(m) !== 'ignore' && m !== '')
        notes.push(`${quoted(name)}: ${quoted(m)} is not a meaning; accepted are ${MEANINGS.join(', ')} and ignore. The column is left out.`); // prettier-ignore
    }
  });
  const choices: Choice[] = [];
  const refused = new Set<number>();
  headers.forEach((h, column) => {
    const p = parts[column];
    if (used.has(column) || !p || text(h) === '') return;
    const sample = samples[column] ?? [];
    for (const candidate of candidates(p, h)) {
      let f = fit(candidate.meaning, sample);
      if (candidate.meaning === 'id' && !Number.isNaN(f)) {
        const ids = sample.filter((c) => !isMissing(c) && text(c) !== '0');
        f *=
          ids.length === 0
            ? 0.3
            : Math.max(0.3, new Set(ids.map((c) => text(c))).size / ids.length);
      }
      if (f < LEAST_FIT[candidate.confidence]) {
        if (
          !candidate.loose &&
          candidate.rank < 12 &&
          candidate.confidence !== 'near' &&
          !refused.has(column)
        ) {
          refused.add(column);
          notes.push(`Column ${quoted(h)} is named like ${LABELS[candidate.meaning]}, but its cells (${firstSamples(sample)}) do not read so; it is not used as that.`); // prettier-ignore
        }
        continue;
      }
      const score = WEIGHT[candidate.confidence] - Math.min(candidate.rank, 30) - (candidate.loose ? 60 : 0) + 150 * (Number.isNaN(f) ? 0.25 : f) + 60 * (filled[column] ?? 0) + latest(p.year); // prettier-ignore
      choices.push({ column, candidate, score, fit: f });
    }
  });
  choices.sort((a, b) => b.score - a.score || a.column - b.column);
  for (const { column, candidate: c, fit: f } of choices) {
    if (used.has(column)) continue;
    const p = parts[column] ?? headerParts('');
    const have = byMeaning.get(c.meaning) ?? [];
    const first = have[0];
    if (first && (first.forced || !together(first, have, { year: p.year, named: p.unit, confidence: c.confidence, factor: c.factor }))) continue; // prettier-ignore
    used.add(column);
    const how =
      c.confidence === 'exact'
        ? 'the header is the name used here'
        : c.confidence === 'synonym'
          ? `the header is a known name ("${c.word}")`
          : `the header is close to "${c.word}"`;
    const loose = c.loose ? '; the name is general, look at the samples' : '';
    take(column, c, `${how}${Number.isNaN(f) ? '; the column is empty' : ''}${loose}`);
    if (c.loose && c.meaning === 'planted')
      notes.push(`Look here: column ${quoted(headers[column])} is taken as the planting date; if it is the day of a survey, set the column to "ignore".`); // prettier-ignore
  }
  headers.forEach((h, column) => {
    if (used.has(column) || !PAIRS.has(parts[column]?.compact ?? '') || byMeaning.has('latitude') || byMeaning.has('longitude')) return; // prettier-ignore
    const sample = (samples[column] ?? []).filter((c) => !isMissing(c));
    if (sample.length === 0 || sample.filter((c) => readPair(c)).length < sample.length / 2) return;
    used.add(column);
    for (const meaning of ['latitude', 'longitude'] as const)
      take(column, { meaning, confidence: 'synonym', rank: 0, factor: 1, loose: false, language: undefined, word: h }, 'the cells hold latitude and longitude together', true); // prettier-ignore
  });
  for (let column = 0; column < headers.length; column++) {
    const unnamed = text(headers[column] ?? '') === '' || headers[column] === columnName(column);
    if (used.has(column) || !unnamed) continue;
    const meaning = byContent(samples[column] ?? [], new Set(byMeaning.keys()));
    if (!meaning) continue;
    used.add(column);
    take(column, { meaning, confidence: 'content', rank: 0, factor: 1, loose: false, language: undefined, word: '' }, 'the column has no name; its cells read so'); // prettier-ignore
  }
  return uses;
}

const latest = (year: number | undefined): number => (year === undefined ? 0 : (year - 1900) / 100);
const firstSamples = (sample: readonly Cell[]): string =>
  [...new Set(sample.filter((c) => !isMissing(c)).map((c) => quoted(c)))].slice(0, 2).join(', ');

/** Meanings in words, for sentences. */
export const LABELS: Readonly<Record<Meaning, string>> = {
  id: 'a tree id', species: 'a species', commonName: 'a common name', genus: 'a genus', epithet: 'a species epithet', count: 'a count of trees',
  caliper: 'a trunk diameter', circumference: 'a trunk circumference', diameterClass: 'a diameter class', container: 'a container class',
  ballDiameter: 'a ball diameter', ballDepth: 'a ball depth', planted: 'a planting date', plantedYear: 'a planting year', canopy: 'a canopy diameter',
  height: 'a height', waterNeed: 'a water use', texture: 'a soil texture', mulchDepth: 'a mulch depth', site: 'a site', address: 'an address',
  houseNumber: 'a house number', street: 'a street', latitude: 'a latitude', longitude: 'a longitude', tap: 'a tap', tapFlow: 'a tap flow',
  source: 'a water source', meansWanted: 'the means wanted', status: 'a status', served: 'whether it is served', note: 'a note', assumed: 'a list of assumed values',
}; // prettier-ignore

/** US or SI for the columns that name no unit, and why. */
function systemOf(uses: ColumnUse[], samples: readonly Cell[][], options: InventoryOptions): { units: Units; why: string } {
  const named = uses.filter((u) => MEASURES[u.meaning]).map((u) => u.named).filter((u) => u !== '');
  const metric = named.filter((u) => METRIC_UNITS.test(u)).length;
  const us = named.filter((u) => US_UNITS.test(u)).length;
  if (options.units) return { units: options.units, why: 'as set' };
  if (metric !== us) return { units: metric > us ? 'SI' : 'US', why: `as other headers are in ${metric > us ? 'metric' : 'US'} units` };
  if (uses.filter((u) => METRIC_LANGUAGES.has(u.language)).length * 3 > uses.length)
    return { units: 'SI', why: 'as the headers are in a language of metric lands' };
  const middle = (meaning: 'latitude' | 'longitude'): number => {
    const use = uses.find((u) => u.meaning === meaning);
    const values = (use ? (samples[use.column] ?? []) : []).map((c) => (use?.pair ? readPair(c)?.[meaning] : readCoordinate(c))).filter((v): v is number => v !== undefined && v !== 0);
    return median(values);
  };
  const lat = middle('latitude');
  const lon = middle('longitude');
  if (!Number.isNaN(lat) && !Number.isNaN(lon)) {
    const inside = lat > 18 && lat < 72 && lon < -60 && lon > -180;
    return inside
      ? { units: 'US', why: 'as the coordinates lie in North America' }
      : { units: 'SI', why: 'as the coordinates lie where metric units are used' };
  }
  return { units: 'US', why: 'as nothing says otherwise' };
} // prettier-ignore

const UNIT_FROM = { chosen: 'chosen by the user', header: 'from the header', cells: 'written in the cells', guess: '' } as const; // prettier-ignore

/** Gives every measure column its unit, and calls a circumference a circumference. */
function settleUnits(uses: ColumnUse[], column: (i: number) => Cell[], system: { units: Units; why: string }, notes: string[]): void {
  for (const use of uses) {
    const measure = MEASURES[use.meaning];
    if (!measure) {
      use.unit = '';
      continue;
    }
    const all = column(use.column);
    if (convert(1, use.named, measure.to) === undefined) use.named = '';
    const inCells = use.named === '' && use.wantedUnit === '' ? unitInCells(all) : '';
    const cellsFit = inCells !== '' && convert(1, inCells, measure.to) !== undefined;
    use.unit = use.wantedUnit || use.named || (cellsFit ? inCells : measure[system.units]);
    use.unitFrom = use.wantedUnit !== '' ? 'chosen' : use.named !== '' ? 'header' : cellsFit ? 'cells' : 'guess';
    use.why += `; unit ${use.unit} ${UNIT_FROM[use.unitFrom] || system.why}`;
    const sized = all.map((c) => magnitude(c, use.decimalComma)).filter((n): n is number => n !== undefined && n > 0);
    const middle = median(sized);
    if (Number.isNaN(middle) || use.forced) continue;
    const guessed = use.unitFrom === 'guess';
    if (guessed && use.unit === 'in' && use.meaning !== 'mulchDepth' && middle > INCHES_DOUBTED) {
      use.unit = 'cm';
      use.why += `; half the values are above ${INCHES_DOUBTED}, so cm`;
      notes.push(`Look here: ${quoted(use.header)} names no unit and half its values are ${short(middle)} or more, too large for inches; they are read as cm.`);
    }
    if (guessed && use.meaning === 'circumference' && use.unit === 'cm' && middle < METRES_BELOW) {
      use.unit = 'm';
      use.why += `; half the values are below ${METRES_BELOW}, so m`;
    }
    if (use.meaning === 'caliper' && use.unit === 'cm' && middle > DIAMETER_DOUBTED) {
      use.meaning = 'circumference';
      use.why += `; named a diameter, but half the values are ${short(middle)} or more: read as circumference`;
      notes.push(`Look here: ${quoted(use.header)} is named as a diameter, but half its values are ${short(middle)} or more, and trunks more than 1 m (40 in) thick are rare. It is read as circumference in cm and divided by π. If it is a diameter, set the column to "caliper".`);
    } else if (use.meaning === 'caliper' && convert(middle, use.unit, 'cm') as number > DIAMETER_DOUBTED) {
      notes.push(`Look here: ${quoted(use.header)} has trunks of ${short(middle)} ${use.unit} and more on half its rows; check the unit.`);
    }
  }
} // prettier-ignore

const short = (n: number): string => String(Number(n.toPrecision(3)));

/** A line of units under the header: every filled cell is a unit word. */
const isUnitsRow = (row: readonly Cell[]): boolean => {
  const filled = row.filter((c) => !isBlank(c));
  return (
    filled.length >= 2 &&
    filled.every((c) => typeof c === 'string' && (isUnit(c) || /^\W?$/.test(text(c))))
  );
};

/**
 * Reads an inventory. Never throws for what cells hold.
 * @param cells the whole sheet; rows may differ in length
 * @returns every non-blank row below the header exactly once, as a tree or with the reason it is none
 */
export function readInventory(cells: Cell[][], options: InventoryOptions = {}): InventoryReading {
  const notes: string[] = [];
  const at = options.headerRow !== undefined ? Math.min(Math.max(0, Math.floor(options.headerRow)), cells.length) - 1 : findHeader(cells); // prettier-ignore
  const width = cells.reduce((w, row) => Math.max(w, row.length), 0);
  const headers = Array.from({ length: width }, (_, i) =>
    at >= 0 ? text(cells[at]?.[i]) : columnName(i),
  );
  while (at >= 0 && headers.length > 0 && headers.at(-1) === '' && cells.slice(at).every((r) => isBlank(r[headers.length - 1]))) headers.pop(); // prettier-ignore
  const preamble = cells.slice(0, Math.max(0, at)).filter((r) => r.some((c) => !isBlank(c)));
  if (preamble.length > 0) {
    const first = preamble[0]?.find((c) => !isBlank(c)) ?? null;
    notes.push(`${preamble.length} row${preamble.length === 1 ? '' : 's'} above the header (row ${at + 1}) ${preamble.length === 1 ? 'is' : 'are'} skipped; the first begins ${quoted(first)}.`); // prettier-ignore
  }
  const data: { row: number; cells: Cell[] }[] = [];
  let blank = 0;
  for (let r = at + 1; r < cells.length; r++) {
    const row = cells[r] ?? [];
    if (row.every((c) => isBlank(c))) blank++;
    else data.push({ row: r + 1, cells: row });
  }
  if (at < 0 && data.length > 0)
    notes.push(
      'No row names the columns; they are read by what their cells hold. Check the matches.',
    );
  if (blank > 0) notes.push(`${blank} entirely blank row${blank === 1 ? '' : 's'} skipped.`);
  if (data.length === 0) notes.push('There are no rows below the header.');

  const unitsRow = data[0] && isUnitsRow(data[0].cells) ? data[0] : undefined;
  if (unitsRow) {
    unitsRow.cells.forEach((c, i) => {
      if (typeof c === 'string' && isUnit(c) && headerParts(headers[i] ?? '').unit === '')
        headers[i] = `${headers[i] ?? ''} (${unitWord(c)})`;
    });
    notes.push(`Row ${unitsRow.row} holds units, which are used for the columns.`);
  }
  const body = unitsRow ? data.slice(1) : data;
  const step = Math.max(1, Math.floor(body.length / SAMPLE));
  const sampled = body.filter((_, i) => i % step === 0);
  const samples = headers.map((_, i) => sampled.map((d) => d.cells[i] ?? null));
  // short columns: where the even sample finds nothing, the first filled cells speak
  const column = (i: number): Cell[] => body.map((d) => d.cells[i] ?? null);
  samples.forEach((s, i) => {
    if (s.every((c) => isMissing(c))) samples[i] = column(i).filter((c) => !isMissing(c)).slice(0, SAMPLE); // prettier-ignore
  });
  const filled = samples.map((s) => (s.length === 0 ? 0 : s.filter((c) => !isMissing(c)).length / Math.max(s.length, Math.min(sampled.length, SAMPLE)))); // prettier-ignore

  const uses = assign(headers, samples, filled, options.matches ?? {}, notes);
  const system = systemOf(uses, samples, options);
  settleUnits(uses, column, system, notes);

  const pivotYear = options.seasonFrom !== undefined ? civil(options.seasonFrom).year : 2030;
  const orders = new Map<number, DateOrder>();
  for (const use of uses) {
    if (use.meaning !== 'planted' && use.meaning !== 'plantedYear') continue;
    const { order, decided } = dateOrder(column(use.column), system.units === 'US');
    orders.set(use.column, order);
    const shown = order === 'day first' ? 'day/month/year' : 'month/day/year';
    if (decided === 'cells')
      use.why += `; dates are ${shown}, as some cells allow no other reading`;
    if (decided === 'units') {
      use.why += `; dates read ${shown}`;
      notes.push(`Look here: the dates of ${quoted(use.header)} can be read day first or month first; they are read ${shown}, ${system.why}. Set the units to change it.`); // prettier-ignore
    }
    if (decided === 'mixed') {
      use.why += `; both date orders occur, open ones read ${shown}`;
      notes.push(`Look here: ${quoted(use.header)} mixes day/month/year and month/day/year; where a date leaves it open it is read ${shown}.`); // prettier-ignore
    }
  }

  const rows = buildRows({ headers, data, unitsRow: unitsRow?.row, uses, orders, pivotYear, seasonFrom: options.seasonFrom, dateCells: options.dateCells, sayIn: options.sayIn ?? options.units, notes }); // prettier-ignore
  const taken = new Set(uses.map((u) => u.column));
  headers.forEach((h, i) => {
    if (taken.has(i) || text(h) === '') return;
    const other = at >= 0 ? otherThing(headerParts(h)) : undefined;
    if (other === SURVEY_DAY) notes.push(`${quoted(h)} is ${other}; it is not used.`);
  });
  return {
    headerRow: at + 1,
    headers,
    matches: uses
      .sort((a, b) => a.column - b.column)
      .map(({ column: c, header, meaning, unit, unitFrom, confidence, loose, why, samples: s }) => ({ column: c, header, meaning, unit, unitFrom, confidence, loose, why, samples: s })), // prettier-ignore
    unmatched: headers.filter((h, i) => text(h) !== '' && !taken.has(i)),
    rows,
    notes,
  };
}
