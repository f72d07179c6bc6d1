/** Columns of the tables of a season log: the names and units that are understood, and how a cell of each is read. */
import { KG_PER_POUND } from '../engine/units.js';
import { Problem } from '../engine/problems.js';
import {
  convert,
  isMissing,
  plainLabel,
  quantity,
  quoted,
  splitHeader,
  text,
  unitWord,
  type Cell,
} from './cells.js';
import { readDate, type DateOrder } from './inventory/dates.js';

export type LogKind = 'Waterings' | 'Rain' | 'Bag timings' | 'Pad weights' | 'Flows' | 'Stages';

type Measure = 'volume' | 'depth' | 'time' | 'share' | 'flow' | 'weight';
type What = Measure | 'text' | 'date' | 'row';

interface Field {
  /** header as we would write it */
  name: string;
  what: What;
  /** other names, as `plainLabel` gives them */
  also?: readonly string[];
}

interface TableSpec {
  /** names of sheets and files, as `plainLabel` gives them */
  names: readonly string[];
  fields: Readonly<Record<string, Field>>;
  /** of each list one column must be there */
  needs: readonly (readonly string[])[];
}

/** Units of a measure: the one inside, those that are accepted, in words, and header names that say their unit. */
const MEASURES: Readonly<
  Record<Measure, { si: string; accepted: string; said: readonly string[]; none?: string }>
> = {
  volume: { si: 'l', accepted: 'gal or L', said: ['gal', 'gals', 'gallon', 'gallons', 'l', 'liter', 'liters', 'litre', 'litres'] },
  depth: { si: 'mm', accepted: 'in or mm', said: ['in', 'inch', 'inches', 'mm', 'millimetres', 'millimeters', 'cm'] },
  time: { si: 'h', accepted: 'h or min', said: ['h', 'hr', 'hrs', 'hour', 'hours', 'min', 'minutes'] },
  share: { si: 'share', accepted: 'a share from 0 to 1, or %', said: ['%'], none: 'share' },
  flow: { si: 'l/min', accepted: 'gpm or L/min', said: ['gpm', 'gal/min', 'l/min', 'lpm'] },
  weight: { si: 'kg', accepted: 'lb or kg', said: ['kg', 'lb', 'lbs'] },
}; // prettier-ignore

const WEIGHTS: Readonly<Record<string, number>> = {
  kg: 1, kgs: 1, kilogram: 1, kilograms: 1, g: 0.001,
  lb: KG_PER_POUND, lbs: KG_PER_POUND, pound: KG_PER_POUND, pounds: KG_PER_POUND,
}; // prettier-ignore

const TREE: Field = {
  name: 'Tree',
  what: 'text',
  also: ['tree id', 'id', 'tag', 'tree tag', 'tree no', 'tree number'],
};
const ROW: Field = {
  name: 'Row',
  what: 'row',
  also: ['inventory row', 'tree row', 'row on trees'],
};
const DATE: Field = { name: 'Date', what: 'date', also: ['day', 'watered', 'watered on', 'on'] };
const DEVICE: Field = { name: 'Device', what: 'text', also: ['means', 'with', 'through'] };

export const LOG_TABLES: Readonly<Record<LogKind, TableSpec>> = {
  Waterings: {
    names: ['waterings', 'watering', 'watering log', 'given', 'waterings given'],
    fields: {
      tree: TREE,
      row: ROW,
      date: DATE,
      water: { name: 'Water', what: 'volume', also: ['each', 'volume', 'amount', 'given', 'water given', 'applied', 'a tree', 'one tree'] },
      device: DEVICE,
    },
    needs: [['tree', 'row'], ['date'], ['water']],
  },
  Rain: {
    names: ['rain', 'rainfall', 'rain gauge', 'precipitation'],
    fields: {
      date: { ...DATE, also: ['day'] },
      rain: { name: 'Rain', what: 'depth', also: ['rainfall', 'precipitation', 'depth', 'amount', 'rain of day', 'gauge'] },
    },
    needs: [['date'], ['rain']],
  },
  'Bag timings': {
    names: ['bag timings', 'bag timing', 'bags'],
    fields: {
      tree: TREE,
      row: ROW,
      hours: { name: 'Hours', what: 'time', also: ['hours timed', 'time', 'timed', 'drained in'] },
      left: { name: 'Left', what: 'share', also: ['share left', 'left in it'] },
      before: { name: 'Before', what: 'share', also: ['share before', 'at first', 'share at first'] },
    },
    needs: [['tree', 'row'], ['hours']],
  },
  'Pad weights': {
    names: ['pad weights', 'pad weight', 'pads'],
    fields: {
      tree: TREE,
      row: ROW,
      date: { ...DATE, also: ['day', 'weighed', 'weighed on'] },
      water: { name: 'Usable water', what: 'volume', also: ['usable', 'water', 'left now', 'water left'] },
      saturated: { name: 'Saturated', what: 'weight', also: ['soaked', 'wet'] },
      dry: { name: 'Dry', what: 'weight', also: ['dry weight'] },
      now: { name: 'Now', what: 'weight', also: ['weight now', 'weight', 'now if weighed'] },
      usable: { name: 'Usable share', what: 'share' },
    },
    needs: [['tree', 'row'], ['water', 'now']],
  },
  Flows: {
    names: ['flows', 'flow', 'hose flows', 'flow readings'],
    fields: {
      device: DEVICE,
      flow: { name: 'Flow', what: 'flow', also: ['measured', 'measured flow', 'rate'] },
      tree: TREE,
      row: ROW,
    },
    needs: [['device'], ['flow']],
  },
  Stages: {
    names: ['stages', 'stage', 'stage changes'],
    fields: {
      date: { ...DATE, name: 'From', also: ['date', 'day', 'since', 'starts'] },
      stage: { name: 'Stage', what: 'text', also: ['new stage'] },
    },
    needs: [['date'], ['stage']],
  },
}; // prettier-ignore

const EXAMPLE: Readonly<Record<Measure, string>> = {
  volume: 'gal', depth: 'in', time: 'h', share: 'share', flow: 'gpm', weight: 'lb',
}; // prettier-ignore

const isMeasure = (what: What): what is Measure => what in MEASURES;

/** A header row that is understood, in words: "Tree or Row, Date, Water (gal)". */
export function acceptedHeader(kind: LogKind): string {
  const { fields, needs } = LOG_TABLES[kind];
  const shown = (key: string): string => {
    const { name, what } = fields[key]!;
    return isMeasure(what) ? `${name} (${EXAMPLE[what]})` : name;
  };
  return `"${needs.map((any) => any.map(shown).join(' or ')).join(', ')}"`;
}

export interface Column {
  at: number;
  header: string;
  what: What;
  /** unit of numbers that bring none; '' where the header names none */
  unit: string;
  /** the header's bracket, where it is no unit of the measure */
  wrongUnit?: string;
}

/** One of a measure's unit in those inside; undefined for another unit. */
function factor(measure: Measure, unit: string): number | undefined {
  if (measure === 'weight') return WEIGHTS[unit];
  const inside = convert(1, unit, MEASURES[measure].si);
  const longest = measure === 'depth' && /^(m|met.*|mtr|ft|foot|feet|yd|yards?)$/.test(unit);
  return unit === '' || longest ? undefined : inside;
}

/** Columns of a header row by field; a field takes the first of its names that is there. */
export function matchHeader(line: readonly Cell[], kind: LogKind): Map<string, Column> {
  const found = new Map<string, Column>();
  const taken = new Set<number>();
  const labels = line.map((c) => plainLabel(splitHeader(text(c)).name));
  const bare = line.map((c) => text(c).toLowerCase());
  for (const [key, { name, what, also = [] }] of Object.entries(LOG_TABLES[kind].fields)) {
    const said = isMeasure(what) ? MEASURES[what].said : [];
    const at = [
      ...[plainLabel(name), ...also].map((n) => labels.indexOf(n)),
      ...labels.map((l, c) => (said.includes(l) || said.includes(bare[c]!) ? c : -1)),
    ].find((c) => c >= 0 && !taken.has(c));
    if (at === undefined) continue;
    taken.add(at);
    found.set(key, { at, header: text(line[at]), what, ...unitOf(text(line[at]), what) });
  }
  return found;
}

function unitOf(header: string, what: What): { unit: string; wrongUnit?: string } {
  if (!isMeasure(what)) return { unit: '' };
  const { said, none = '' } = MEASURES[what];
  const { name, unit } = splitHeader(header);
  if (factor(what, unit) !== undefined) return { unit };
  const own = [header.toLowerCase(), plainLabel(name)].find((word) => said.includes(word));
  if (own !== undefined) return { unit: own };
  // a range in brackets, "(0 to 0.99)", is no unit
  if (unit === '' || /\d/.test(unit)) return { unit: what === 'time' ? hoursIn(name) : none };
  return { unit: '', wrongUnit: unit };
}

/** "Hours timed" says its unit. */
const hoursIn = (name: string): string =>
  /\bhours?\b/i.test(name) ? 'h' : /\bminutes?\b/i.test(name) ? 'min' : '';

/**
 * Reads a cell of a column: a day, an inventory row, or a number in the units inside (L, mm, h, share, L/min, kg).
 * @throws Problem saying what was read and what is accepted
 */
export function readField(
  column: Column,
  cell: Cell,
  dates: { order: DateOrder; isDate: boolean },
): number {
  const { header, what } = column;
  const refuse = (why: string, accepted: string): never => {
    throw new Problem(
      isMissing(cell)
        ? `${header} is blank; accepted is ${accepted}`
        : `${header} is ${quoted(cell)}${why}; accepted is ${accepted}`,
    );
  };
  if (what === 'date') {
    const { day, note } = readDate(cell, { ...dates, pivotYear: 2030 });
    return day === undefined || note !== undefined
      ? refuse(', which is no day', 'a date cell, or a day like 2027-07-01')
      : day;
  }
  const read = isMissing(cell) ? undefined : measured(column, cell);
  if (what === 'row')
    return read !== undefined && Number.isInteger(read.value) && read.value >= 1
      ? read.value
      : refuse(', which is no row of the inventory', 'a whole number from 1');
  if (!isMeasure(what)) throw new TypeError(`${header} is read as words`);
  const { accepted } = MEASURES[what];
  const number = what === 'share' ? accepted : `a number in ${accepted}`;
  if (read === undefined) return refuse(', which is no number', number);
  if (read.unit === '' && column.wrongUnit !== undefined)
    return refuse(` and its unit ${quoted(column.wrongUnit)} does not measure this`, number);
  if (read.unit === '')
    return refuse(
      ' without a unit',
      `a header that names it in brackets, ${accepted}, or the unit beside the number`,
    );
  const times = factor(what, read.unit);
  if (times === undefined) return refuse(', in a unit that does not fit', number);
  const value = read.value * times;
  if (value < 0 || (what === 'share' && value > 1))
    return refuse(', which is out of range', number);
  return value;
}

/** The number and its own unit, or the column's. */
function measured({ unit, what }: Column, cell: Cell): { value: number; unit: string } | undefined {
  const pounds = what === 'weight' ? /^(.*\d)\s*([a-z]+)\.?$/i.exec(text(cell)) : null;
  const read = quantity(pounds ? pounds[1]! : cell);
  if (!read) return undefined;
  const own = pounds ? unitWord(pounds[2]!) : read.unit;
  return { value: read.value, unit: own === '' ? unit : own };
}
