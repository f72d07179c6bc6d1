/** From matched columns to trees: every row becomes a tree or a sentence why it is none. */
import { civil, isoDate, type Day } from '../../engine/dates.js';
import type { Family, Tree, WaterSource } from '../../engine/plan/model.js';
import { textureName } from '../../engine/soil/texture.js';
import type { Units } from '../../engine/units.js';
import {
  convert,
  isBlank,
  isMissing,
  plainLabel,
  plainNumber,
  quantity,
  quoted,
  text,
  yesNo,
  type Cell,
} from '../cells.js';
import { familyOf } from '../kit.js';
import { measureWords, rangeWords } from '../said-units.js';
import { readDate, type DateOrder, type ReadDate } from './dates.js';
import { MEASURES, type ColumnUse, type InventoryRow } from './columns.js';
import { assumedOn } from './assumed.js';
import { readContainer, readCoordinate, readMeasure, readPair } from './measures.js';
import {
  EMPTY_PLACES,
  END_WORDS,
  GONE_WORDS,
  NO_SPECIES,
  SOURCE_WORDS,
  TOTAL_WORDS,
  WATER_USE_WORDS,
  type Meaning,
} from './vocabulary.js';

/** Site of a tree that has neither a site nor an address. */
export const NO_ADDRESS = 'no address';

interface DataRow {
  row: number;
  cells: Cell[];
}

interface Input {
  headers: string[];
  data: DataRow[];
  /** 1-based row of a line of units, or undefined */
  unitsRow: number | undefined;
  uses: ColumnUse[];
  orders: ReadonlyMap<number, DateOrder>;
  pivotYear: number;
  seasonFrom: Day | undefined;
  dateCells: ReadonlySet<string> | undefined;
  /** units sentences are in; undefined: both */
  sayIn: Units | undefined;
  notes: string[];
}

const MOST_TREES = 100_000;
/** A tap farther than this is no tap [m]: two lengths of hose. */
const TAP_REACH = 60;
/** Share of filled cells under which a street column is filled down. */
const FILL_DOWN_BELOW = 0.5;
const ACROSS = { unitUS: 'in', unitSI: 'cm' };
const AWAY = { unitUS: 'ft', unitSI: 'm' };
/** What a root zone can be sized from. */
const sizes = (units: Units | undefined): string =>
  `trunk diameter (${rangeWords(MEASURES.caliper!.range, 'mm', ACROSS, units)}), circumference, container, ball diameter or canopy`;
/** Words of a note that do not change what it says of the tree: dates and small words. */
const IDLE_NOTE_WORDS =
  /^(\d+|tree|is|was|has|been|now|in|on|by|city|jan|feb|mar|apr|may|june?|july?|aug|sept?|oct|nov|dec)$/;
/** A note of these words alone says that the tree is not there. */
const STRONG_NOTES: ReadonlySet<string> = new Set(['removed', 'dead', 'gone', 'stump', 'felled']);

const goneWords = new Set(GONE_WORDS);
const emptyPlaces = new Set(EMPTY_PLACES);
const noSpecies = new Set(NO_SPECIES);
const totals = new Set(TOTAL_WORDS);
const ends = new Set(END_WORDS);

function remember<T>(make: (cell: Cell) => T): (cell: Cell) => T {
  const seen = new Map<Cell, T>();
  return (cell) => {
    const old = seen.get(cell);
    if (old !== undefined || seen.has(cell)) return old as T;
    const value = make(cell);
    if (seen.size < 50_000) seen.set(cell, value);
    return value;
  };
}

/** Label of a cell for comparison, remembered: species and status repeat by the thousand. */
const label = remember((cell: Cell): string => plainLabel(text(cell)));

const goneWord = remember((cell: Cell): string | undefined => {
  if (typeof cell !== 'string') return undefined;
  const said = label(cell);
  if (said.length > 60 || /\bdead ?(wood|branch|limb|top|twig)/.test(said) || /\b(not|no) (dead|removed)\b/.test(said)) return undefined; // prettier-ignore
  if (goneWords.has(said)) return said;
  for (const w of goneWords) if (` ${said} `.includes(` ${w} `)) return w;
  return undefined;
});

export function buildRows(input: Input): InventoryRow[] {
  const { data, notes } = input;
  const by = new Map<Meaning, ColumnUse[]>();
  for (const u of input.uses) by.set(u.meaning, [...(by.get(u.meaning) ?? []), u]);
  for (const list of by.values())
    list.sort((a, b) => (b.year ?? 0) - (a.year ?? 0) || a.rank - b.rank);
  for (const [meaning, list] of by) {
    const years = list.flatMap((u) => u.year ?? []);
    if (years.length > 1)
      notes.push(`${list.length} columns hold the ${meaning === 'caliper' ? 'trunk diameter' : meaning} of survey years ${Math.min(...years)} to ${Math.max(...years)}; the latest one filled is used on each row.`); // prettier-ignore
    else if (list.length > 1 && meaning === 'canopy')
      notes.push(`${list.length} columns hold a crown width; their mean is used.`);
  }
  const filledDown = fillDown(by, data, notes);
  const headerWords = new Set(input.headers.filter((h) => h !== ''));
  const sumRow = unlabelledTotal(data);
  const names = new Map<string, number>();
  const tally = { duplicates: 0, noId: 0 };
  const out: InventoryRow[] = [];
  for (const [i, d] of data.entries()) {
    const made: InventoryRow = { row: d.row, cells: d.cells, notes: [] };
    const reason =
      d.row === input.unitsRow
        ? 'this row holds units, not a tree'
        : (notARow(d, headerWords) ?? (i === sumRow ? 'this row holds sums of the columns above, not a tree' : undefined)); // prettier-ignore
    if (reason !== undefined) made.unusable = `Row ${d.row}: ${reason}.`;
    else oneRow(made, d, { ...input, by, filledDown: filledDown[i] ?? {}, names, tally });
    out.push(made);
  }
  if (tally.duplicates > 0)
    notes.push(`${tally.duplicates} tree id${tally.duplicates === 1 ? ' occurs' : 's occur'} a second time; the later rows are kept, with -2, -3 … after the id.`); // prettier-ignore
  if (tally.noId > 0 && by.has('id'))
    notes.push(`${tally.noId} row${tally.noId === 1 ? ' has' : 's have'} no tree id; the sheet row stands for it.`); // prettier-ignore
  return out;
}

/** Repeated headers, sums, closing lines. */
function notARow(d: DataRow, headerWords: ReadonlySet<string>): string | undefined {
  let filled = 0;
  let named = 0;
  let first: Cell = null;
  for (const c of d.cells) {
    if (c === null || c === '' || isBlank(c)) continue;
    if (filled === 0) first = c;
    filled++;
    if (typeof c === 'string' && (headerWords.has(c) || headerWords.has(c.trim()))) named++;
  }
  if (named >= 2 && named >= 0.6 * filled) return 'this row repeats the header';
  const said = typeof first === 'string' ? label(first) : '';
  if (typeof first === 'string' && (totals.has(said) || /^(grand |sub ?)?total\b/.test(said)))
    return `this row holds sums (${quoted(first)}), not a tree`;
  if (
    filled === 1 &&
    typeof first === 'string' &&
    (ends.has(said) || ends.has(text(first).toLowerCase()))
  )
    return `this row ends the list (${quoted(first)})`;
  return undefined;
}

/** Index of a last row of numbers only, one of which is the sum of its column; -1 for none. */
function unlabelledTotal(data: readonly DataRow[]): number {
  const i = data.length - 1;
  const last = data[i];
  if (!last || data.length < 4) return -1;
  const numbers: [number, number][] = [];
  for (const [c, cell] of last.cells.entries()) {
    if (isBlank(cell)) continue;
    const n = plainNumber(cell);
    if (n === undefined) return -1;
    numbers.push([c, n]);
  }
  const sums = numbers.filter(([c, n]) => {
    let sum = 0;
    let addends = 0;
    for (let r = 0; r < i; r++) {
      const v = plainNumber(data[r]?.cells[c] ?? null);
      if (v !== undefined && v !== 0) {
        sum += v;
        addends++;
      }
    }
    return addends >= 3 && n !== 0 && Math.abs(sum - n) <= 1e-6 * Math.abs(n);
  });
  return sums.length > 0 && sums.length * 2 >= numbers.length ? i : -1;
}

/** Streets written only on the first row of each group go down to the next; house numbers with them. */
function fillDown(by: ReadonlyMap<Meaning, ColumnUse[]>, data: readonly DataRow[], notes: string[]): { street?: Cell; houseNumber?: Cell }[] {
  const street = by.get('street')?.[0]?.column;
  const first = data[0];
  if (street === undefined || !first || isMissing(first.cells[street] ?? null)) return [];
  const filled = data.filter((d) => !isMissing(d.cells[street] ?? null)).length;
  if (data.length < 6 || filled >= FILL_DOWN_BELOW * data.length) return [];
  const house = by.get('houseNumber')?.[0]?.column;
  notes.push(`Look here: the street is written on ${filled} of ${data.length} rows only; it is carried down to the rows below it${house === undefined ? '' : ', and so is the house number'}.`);
  const now: { street?: Cell; houseNumber?: Cell } = {};
  return data.map((d) => {
    const s = d.cells[street] ?? null;
    const h = house === undefined ? null : (d.cells[house] ?? null);
    if (!isMissing(s)) {
      now.street = s;
      delete now.houseNumber;
    }
    if (!isMissing(h)) now.houseNumber = h;
    return { ...now };
  });
} // prettier-ignore

interface Context extends Input {
  by: ReadonlyMap<Meaning, ColumnUse[]>;
  filledDown: { street?: Cell; houseNumber?: Cell };
  names: Map<string, number>;
  tally: { duplicates: number; noId: number };
}

function oneRow(made: InventoryRow, d: DataRow, ctx: Context): void {
  const { notes } = made;
  const cellOf = (m: Meaning): Cell => {
    const u = ctx.by.get(m)?.[0];
    return u ? (d.cells[u.column] ?? null) : null;
  };
  const word = (m: Meaning): string => (isMissing(cellOf(m)) ? '' : text(cellOf(m)));
  const refuse = (why: string): void => {
    made.unusable = `Row ${d.row}: ${why}.`;
  };

  const gone = whyGone(d, ctx) ?? whyLeftOut(d, ctx);
  if (gone !== undefined) return refuse(gone);

  const size = (m: Meaning): number | undefined => measure(m, d, ctx, notes);
  const caliper = size('caliper');
  const around = size('circumference');
  const byClass = caliper === undefined && around === undefined ? size('diameterClass') : undefined;
  let trunk = caliper ?? byClass;
  if (around !== undefined) {
    const across = around / Math.PI;
    if (trunk === undefined) trunk = across;
    else if (Math.abs(across - trunk) > 0.1 * trunk)
      notes.push(`Circumference and diameter differ: ${measureWords(across, 'mm', ACROSS, ctx.sayIn)} against ${measureWords(trunk, 'mm', ACROSS, ctx.sayIn)} across; the diameter is used.`); // prettier-ignore
  }
  const containerCell = cellOf('container');
  const pot = readContainer(containerCell);
  if (pot.note !== undefined) notes.push(`Container: ${pot.note}.`);
  const ballDiameter = size('ballDiameter');
  const canopy = size('canopy');
  const found = [trunk, pot.value, ballDiameter, canopy].some((v) => v !== undefined);
  if (!found) {
    const said = notes.length > 0 ? ` (${notes.join(' ').replace(/\.$/, '')})` : '';
    return refuse(`no trunk diameter, container, ball or canopy on this row, so the root zone cannot be sized${said}; fill one of ${sizes(ctx.sayIn)}`); // prettier-ignore
  }
  const count = readCount(cellOf('count'), ctx.by.has('count'), notes);
  if (typeof count === 'string') return refuse(count);

  const tree: Tree = {
    id: uniqueId(cellOf('id'), d.row, ctx, notes),
    row: d.row,
    species: speciesOf(word, notes),
    count,
    site: '',
    address: addressOf(word, ctx),
  };
  tree.site = word('site') || tree.address || NO_ADDRESS;
  const set = <K extends keyof Tree>(key: K, value: Tree[K] | undefined): void => {
    if (value !== undefined) tree[key] = value;
  };
  set('caliper', trunk);
  set('container', pot.value);
  set('ballDiameter', ballDiameter);
  set('ballDepth', size('ballDepth'));
  set('canopy', canopy);
  set('height', size('height'));
  set('mulchDepth', size('mulchDepth'));
  set('tapFlow', size('tapFlow'));
  set('planted', plantedOf(d, ctx, notes));
  set('plantFactor', plantFactorOf(cellOf('waterNeed'), notes));
  set('texture', textureOf(word('texture'), notes));
  set('tap', tapOf(cellOf('tap'), notes, ctx.sayIn));
  set('source', sourceOf(word('source'), notes));
  set('meansWanted', meansOf(word('meansWanted'), notes));
  const place = placeOf(d, ctx, notes);
  set('latitude', place?.latitude);
  set('longitude', place?.longitude);
  const remarks = (ctx.by.get('note') ?? []).map((u) => d.cells[u.column] ?? null).filter((c) => !isMissing(c)).map((c) => text(c)); // prettier-ignore
  if (remarks.length > 0) tree.note = remarks.join('; ');
  const assumed = assumedOn(d.cells, ctx.uses);
  if (assumed.length > 0) tree.assumed = assumed;
  made.tree = tree;
}

/** Why the row is no standing tree, from its status, species, planting and note cells. */
function whyGone(d: DataRow, ctx: Context): string | undefined {
  const at = (u: ColumnUse): Cell => d.cells[u.column] ?? null;
  for (const u of ctx.by.get('status') ?? []) {
    const w = goneWord(at(u));
    if (w !== undefined) return `${quoted(u.header)} says ${quoted(at(u))}, so there is no living tree to water; change it if there is`; // prettier-ignore
  }
  for (const m of ['species', 'commonName', 'genus'] as const)
    for (const u of ctx.by.get(m) ?? []) {
      const c = at(u);
      if (typeof c !== 'string') continue;
      const named = label(c);
      if (emptyPlaces.has(named) || goneWords.has(named) || /^(vacant|empty|stump|available planting|planting site)\b/.test(named))
        return `${quoted(u.header)} says ${quoted(c)}, so no living tree stands there; write the species if one does`;
    } // prettier-ignore
  for (const m of ['planted', 'plantedYear'] as const)
    for (const u of ctx.by.get(m) ?? [])
      if (goneWord(at(u)) !== undefined)
        return `${quoted(u.header)} says ${quoted(at(u))} in place of a date, so there is no living tree to water`;
  for (const u of ctx.by.get('note') ?? []) {
    const core = label(at(u)).split(' ').filter((w) => !IDLE_NOTE_WORDS.test(w)).join(' '); // prettier-ignore
    if (STRONG_NOTES.has(core))
      return `${quoted(u.header)} says ${quoted(at(u))}, so there is no living tree to water; change it if there is`;
  }
  return undefined;
}

/** Whether somebody has left the tree out, because there is too little for all. */
function whyLeftOut(d: DataRow, ctx: Context): string | undefined {
  const u = ctx.by.get('served')?.[0];
  const said = u && (d.cells[u.column] ?? null);
  if (!u || yesNo(said) !== false) return undefined;
  return `${quoted(u.header)} says ${quoted(said)}, so it is left out and gets rain alone; write yes or clear the cell to serve it`; // prettier-ignore
}

/** The value of a measure: latest year first, crown widths averaged, else the first that reads. */
function measure(m: Meaning, d: DataRow, ctx: Context, notes: string[]): number | undefined {
  const uses = ctx.by.get(m);
  const how = MEASURES[m];
  if (!uses || !how) return undefined;
  const values: number[] = [];
  const troubles: string[] = [];
  for (const u of uses) {
    const cell = d.cells[u.column] ?? null;
    if (isBlank(cell)) continue;
    const isDate = ctx.dateCells?.has(`${d.row - 1},${u.column}`) ?? false;
    const got = readMeasure(cell, { unit: u.unit, to: how.to, range: how.range, decimalComma: u.decimalComma, stems: m === 'caliper' || m === 'circumference', isDate }); // prettier-ignore
    if (got.note !== undefined) troubles.push(`${u.header || m}: ${got.note}.`);
    if (got.value === undefined) continue;
    values.push(got.value * u.factor);
    if (m !== 'canopy' || u.year !== undefined) break;
  }
  // troubles of columns that were passed over for a good one are of no interest, its own note is
  if (values.length > 0)
    notes.push(...troubles.slice(-1).filter((t) => !/left out|not measured/.test(t)));
  else notes.push(...troubles.slice(0, 1));
  return values.length === 0 ? undefined : values.reduce((a, b) => a + b, 0) / values.length;
}

function readCount(cell: Cell, hasColumn: boolean, notes: string[]): number | string {
  if (isMissing(cell)) {
    if (hasColumn) notes.push('Count is blank; one tree is assumed.');
    return 1;
  }
  const n = plainNumber(cell) ?? quantity(cell)?.value;
  if (n === undefined)
    return `the count is ${quoted(cell)}; accepted is a whole number from 1 to ${MOST_TREES}`;
  if (n === 0) {
    notes.push('Count is 0; one tree is assumed.');
    return 1;
  }
  return Number.isInteger(n) && n >= 1 && n <= MOST_TREES
    ? n
    : `the count is ${quoted(cell)}; accepted is a whole number from 1 to ${MOST_TREES}`;
}

function uniqueId(cell: Cell, row: number, ctx: Context, notes: string[]): string {
  const given = isMissing(cell) || text(cell) === '0' ? '' : text(cell);
  if (given === '') ctx.tally.noId++;
  const base = given || `row ${row}`;
  let times = ctx.names.get(base) ?? 0;
  if (times === 0) {
    ctx.names.set(base, 1);
    return base;
  }
  let id: string;
  do id = `${base}-${++times}`;
  while (ctx.names.has(id));
  ctx.names.set(base, times);
  ctx.names.set(id, 1);
  ctx.tally.duplicates++;
  notes.push(`The id ${quoted(base)} is already used; this tree is ${quoted(id)}.`);
  return id;
}

function speciesOf(word: (m: Meaning) => string, notes: string[]): string {
  const usable = (s: string): string => (s === '' || noSpecies.has(label(s)) ? '' : s);
  const [science = '', common = ''] = word('species').split(/\s*::\s*/);
  const genus = usable(word('genus'));
  const epithet = usable(word('epithet'));
  const own = usable(science);
  let name = own;
  if (own !== '' && genus !== '' && /^(\p{Ll}|[xX×] )/u.test(own)) name = `${genus} ${own}`;
  name ||= [genus, genus === '' ? '' : epithet].filter((s) => s !== '').join(' ');
  name ||= usable(word('commonName')) || usable(common);
  if (name === '') {
    notes.push(science === '' ? 'No species on this row.' : `${quoted(science)} names no species.`);
    return 'unknown species';
  }
  return name;
}

function addressOf(word: (m: Meaning) => string, ctx: Context): string {
  const whole = word('address');
  if (whole !== '') return whole;
  const down = ctx.filledDown;
  const street = word('street') || text(down.street);
  const number = word('houseNumber') || text(down.houseNumber);
  return [number === '0' || street === '' ? '' : number, street].filter((s) => s !== '').join(' ');
}

function plantedOf(d: DataRow, ctx: Context, notes: string[]): Day | undefined {
  const read = (m: 'planted' | 'plantedYear'): ReadDate => {
    const u = ctx.by.get(m)?.[0];
    if (!u) return {};
    const isDate = ctx.dateCells?.has(`${d.row - 1},${u.column}`) ?? false;
    return readDate(d.cells[u.column] ?? null, { order: ctx.orders.get(u.column) ?? 'month first', pivotYear: ctx.pivotYear, isDate }); // prettier-ignore
  };
  const date = read('planted');
  const year = read('plantedYear');
  if (date.day === undefined || year.note?.includes('zero') === true) {
    const trouble = [date, year].find((r) => r.day === undefined && r.note !== undefined);
    if (trouble) notes.push(`Planted: ${trouble.note}.`);
  }
  let day = date.day;
  if (day !== undefined && year.note?.includes('zero') === true) return undefined;
  if (day === undefined) {
    day = year.day;
    if (day !== undefined && year.note !== undefined) notes.push(`Planted: ${year.note}.`);
  } else if (date.note !== undefined) notes.push(`Planted: ${date.note}.`);
  if (day !== undefined && year.day !== undefined && Math.abs(civil(day).year - civil(year.day).year) > 1)
    notes.push(`Planted: the date says ${civil(day).year}, the year column ${civil(year.day).year}; the date is used.`); // prettier-ignore
  if (day !== undefined && ctx.seasonFrom !== undefined && day > ctx.seasonFrom + 366)
    notes.push(
      `Planted on ${isoDate(day)}, more than a year after the season starts; check the date.`,
    );
  return day;
}

function plantFactorOf(cell: Cell, notes: string[]): number | undefined {
  if (isMissing(cell)) return undefined;
  const n = plainNumber(cell);
  if (n !== undefined && n > 0 && n <= 1.2) return n;
  const known = WATER_USE_WORDS[plainLabel(text(cell))];
  if (known === undefined)
    notes.push(`Water use ${quoted(cell)} is not known; accepted are very low, low, moderate, high or a factor up to 1.2. The site's factor is used.`); // prettier-ignore
  return known;
}

function textureOf(word: string, notes: string[]): string | undefined {
  if (word === '') return undefined;
  const known = textureName(word);
  if (known === undefined)
    notes.push(`Soil texture ${quoted(word)} is not known; the site's is used.`);
  return known;
}

function tapOf(cell: Cell, notes: string[], units: Units | undefined): boolean | undefined {
  if (isMissing(cell)) return undefined;
  const yes = yesNo(cell);
  if (yes !== undefined) return yes;
  const q = quantity(cell);
  const metres = q ? convert(q.value, q.unit || 'ft', 'm') : undefined;
  if (metres === undefined) {
    notes.push(`Tap ${quoted(cell)} is neither yes, no nor a distance; it is left open.`);
    return undefined;
  }
  if (q?.unit === '') notes.push(`Tap ${quoted(cell)} is taken as a distance in feet.`);
  if (metres > TAP_REACH)
    notes.push(
      `The tap is ${measureWords(metres, 'm', AWAY, units)} away, beyond ${measureWords(TAP_REACH, 'm', AWAY, units)} of hose; taken as no tap.`,
    );
  return metres <= TAP_REACH;
}

function sourceOf(word: string, notes: string[]): WaterSource | undefined {
  if (word === '') return undefined;
  const known = SOURCE_WORDS[plainLabel(word)];
  if (known === undefined)
    notes.push(
      `Water source ${quoted(word)} is not known; accepted are mains, reclaimed, well, grey, rain, tanker.`,
    );
  return known;
}

function meansOf(word: string, notes: string[]): Family[] | undefined {
  if (word === '' || plainLabel(word) === 'any') return undefined;
  const out: Family[] = [];
  for (const part of word.split(/[,;+/&]|\bor\b|\band\b/i)) {
    if (part.trim() === '') continue;
    const family = familyOf(part);
    if (family === undefined)
      notes.push(`Means ${quoted(part)} is not known; accepted are bag, pad, soaker, hand, tanker.`); // prettier-ignore
    else if (!out.includes(family)) out.push(family);
  }
  return out.length > 0 ? out : undefined;
}

function placeOf(d: DataRow, ctx: Context, notes: string[]): { latitude: number; longitude: number } | undefined {
  const lat = ctx.by.get('latitude')?.[0];
  const lon = ctx.by.get('longitude')?.[0];
  if (!lat || !lon) return undefined;
  const a = d.cells[lat.column] ?? null;
  const b = d.cells[lon.column] ?? null;
  if (isMissing(a) || isMissing(b)) return undefined;
  if (lat.pair) return readPair(a);
  const latitude = readCoordinate(a);
  const longitude = readCoordinate(b);
  if (latitude === undefined || longitude === undefined || Math.abs(latitude) > 90 || Math.abs(longitude) > 180) {
    notes.push(`Coordinates ${quoted(a)}, ${quoted(b)} are not degrees; left out.`);
    return undefined;
  }
  return latitude === 0 && longitude === 0 ? undefined : { latitude, longitude };
} // prettier-ignore
