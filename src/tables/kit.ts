/** The Kit sheet: one row a device. Units come from the header, so "Volume (L)" and "Volume (gal)" both do. */
import { FAMILIES, type Device, type Family } from '../engine/plan/model.js';
import type { Units } from '../engine/units.js';
import {
  convert,
  isBlank,
  isMissing,
  plainLabel,
  quantity,
  quoted,
  splitHeader,
  text,
  yesNo,
  type Cell,
} from './cells.js';
import { rangeWords, unitsOf } from './said-units.js';

type KitKey = keyof Device;

/** A column of marks, see `kit-example.ts`; no number of a device. */
export const EXAMPLE_COLUMN = 'Example numbers';

export interface KitColumn {
  key: KitKey;
  name: string;
  /** unit shown with US units, and the unit inside; '' for none */
  unitUS: string;
  unitSI: string;
  kind: 'text' | 'family' | 'number' | 'yesno';
  /** value of a blank cell; undefined stays unknown: for yes and no, blank is then an answer of its own */
  blank?: number | boolean;
  range?: readonly [number, number];
  note: string;
}

/** Columns of the Kit sheet in order. */
export const KIT_COLUMNS: readonly KitColumn[] = [
  { key: 'name', name: 'Device', unitUS: '', unitSI: '', kind: 'text', note: 'A name of your own, used once.' },
  { key: 'family', name: 'Family', unitUS: '', unitSI: '', kind: 'family', note: FAMILIES.join(', ') },
  { key: 'volume', name: 'Volume', unitUS: 'gal', unitSI: 'L', kind: 'number', range: [0.1, 50000], note: 'Bag: full fill. Pad: water it gives back. Tanker: tank.' },
  { key: 'holes', name: 'Holes', unitUS: '', unitSI: '', kind: 'number', range: [1, 1000], note: 'Bag: drain holes.' },
  { key: 'ratedHours', name: 'Rated hours', unitUS: 'h', unitSI: 'h', kind: 'number', range: [0.1, 240], note: 'Bag: hours of a full drain, all holes open.' },
  { key: 'rate', name: 'Rate', unitUS: 'gal/h per 100 ft', unitSI: 'L/h per m', kind: 'number', range: [0.01, 1000], note: 'Soaker: measured, there is no default.' },
  { key: 'length', name: 'Length', unitUS: 'ft', unitSI: 'm', kind: 'number', range: [0.1, 1000], note: 'Soaker: one hose. A large tree gets several, up to six.' },
  { key: 'flow', name: 'Flow', unitUS: 'gpm', unitSI: 'L/min', kind: 'number', range: [0.1, 5000], note: 'Hand and tanker: at the nozzle.' },
  { key: 'price', name: 'Price', unitUS: '', unitSI: '', kind: 'number', blank: 0, range: [0, 1e7], note: 'For one.' },
  { key: 'seasons', name: 'Seasons', unitUS: '', unitSI: '', kind: 'number', blank: 1, range: [0.1, 50], note: 'The price is spread over them: a device of 60 that lasts 3 seasons costs 20 a season.' },
  { key: 'stock', name: 'In stock', unitUS: '', unitSI: '', kind: 'number', blank: 0, range: [0, 1e6], note: 'Already owned.' },
  { key: 'buy', name: 'Buy more', unitUS: 'yes/no', unitSI: 'yes/no', kind: 'yesno', note: 'Bag, pad, soaker: yes when more may be bought than is in stock, no when not. Blank: as “Stock only” of the site says.' },
  { key: 'setupMinutes', name: 'Minutes to set', unitUS: '', unitSI: '', kind: 'number', blank: 0, range: [0, 1440], note: 'Once a season, for one tree.' },
  { key: 'visitMinutes', name: 'Minutes a visit', unitUS: '', unitSI: '', kind: 'number', blank: 0, range: [0, 1440], note: 'Each watering, besides the time water runs.' },
  { key: 'automatic', name: 'Automatic', unitUS: 'yes/no', unitSI: 'yes/no', kind: 'yesno', blank: false, note: 'yes when a timer opens the valve.' },
  { key: 'shutsItself', name: 'Shuts itself', unitUS: 'yes/no', unitSI: 'yes/no', kind: 'yesno', blank: false, note: 'Soaker without such a timer: yes when a wind-up timer or a metering valve at the tap shuts it. Otherwise whoever opens it stays until it is shut.' },
]; // prettier-ignore

const FAMILY_WORDS: Readonly<Record<string, Family>> = {
  bag: 'bag', bags: 'bag', 'slow release bag': 'bag', pad: 'pad', pads: 'pad', 'gel pad': 'pad', mat: 'pad',
  soaker: 'soaker', 'soaker hose': 'soaker', 'porous hose': 'soaker', hand: 'hand', hose: 'hand', 'garden hose': 'hand',
  bucket: 'hand', tanker: 'tanker', tank: 'tanker', 'water truck': 'tanker', truck: 'tanker',
}; // prettier-ignore

/** The family a word names, or undefined. */
export const familyOf = (word: string): Family | undefined => FAMILY_WORDS[plainLabel(word)];

/** What a device of a family cannot be planned without, and why. */
const NEEDS: Readonly<Record<Family, readonly (readonly [KitKey, string])[]>> = {
  bag: [['volume', 'a bag needs its full volume']],
  pad: [['volume', 'a pad needs the volume of water it gives back']],
  soaker: [
    ['rate', 'a soaker hose needs a measured rate: hoses differ fourfold, so there is no default; run it into a bucket for ten minutes and write the result'],
  ],
  hand: [['flow', 'hand watering needs the flow at the nozzle; fill a bucket against a stopwatch']],
  tanker: [['flow', 'a tanker needs the flow of its pump at the nozzle']],
}; // prettier-ignore

/** Header text of a column, unit in brackets. */
export function kitHeader(column: KitColumn, units: Units): string {
  const unit = units === 'US' ? column.unitUS : column.unitSI;
  return unit === '' ? column.name : `${column.name} (${unit})`;
}

/** The Kit sheet as rows with a header. */
export function kitRows(kit: readonly Device[], units: Units): Cell[][] {
  const show = (d: Device, c: KitColumn): Cell => {
    const v = d[c.key];
    if (v === undefined) return null;
    if (typeof v === 'boolean') return v ? 'yes' : 'no';
    if (typeof v === 'number' && units === 'US' && c.unitUS !== c.unitSI)
      return convert(v, c.unitSI, c.unitUS) ?? v;
    return v;
  };
  return [
    KIT_COLUMNS.map((c) => kitHeader(c, units)),
    ...kit.map((d) => KIT_COLUMNS.map((c) => show(d, c))),
  ];
}

const BY_NAME = new Map(
  KIT_COLUMNS.flatMap((c) => [[plainLabel(c.name), c] as const, [plainLabel(c.key), c] as const]),
);

/**
 * Reads the Kit sheet. The header is the first row that names "Device" and "Family"; rows above are skipped.
 * @returns the devices that can be planned with, and a sentence for each row or cell that could not be used
 */
export function readKit(cells: Cell[][]): { kit: Device[]; problems: string[] } {
  const problems: string[] = [];
  const kit: Device[] = [];
  const top = cells.findIndex((row) => {
    const names = row.map((c) => BY_NAME.get(plainLabel(splitHeader(text(c)).name))?.key);
    return names.includes('name') && names.includes('family');
  });
  if (top < 0)
    return {
      kit,
      problems: [
        'Kit sheet: no header row with "Device" and "Family" was found; no device is known.',
      ],
    };
  const columns = (cells[top] ?? []).map((c) => {
    const { name, unit } = splitHeader(text(c));
    const column = BY_NAME.get(plainLabel(name));
    if (!column && text(c) !== '' && plainLabel(name) !== plainLabel(EXAMPLE_COLUMN))
      problems.push(`Kit sheet, header: ${quoted(c)} is not a column of the kit; it is left out.`);
    if (column && unit !== '' && column.unitSI !== '' && column.kind === 'number' && convert(1, unit, column.unitSI) === undefined) {
      problems.push(`Kit sheet, header: ${quoted(c)} has the unit ${quoted(unit)}, which does not measure this; accepted are ${column.unitUS} and ${column.unitSI}. The column is left out.`);
      return undefined;
    }
    if (column?.kind === 'number' && unit === '' && column.unitUS !== column.unitSI)
      problems.push(`Kit sheet, header: ${quoted(c)} names no unit; it is read in ${column.unitUS}. Write "${column.name} (${column.unitUS})" or "${column.name} (${column.unitSI})".`); // prettier-ignore
    return column ? { column, unit } : undefined;
  }); // prettier-ignore
  const names = new Set<string>();
  for (let r = top + 1; r < cells.length; r++) {
    const row = cells[r] ?? [];
    if (row.every((c) => isBlank(c))) continue;
    const where = `Kit sheet, row ${r + 1}`;
    const device: Record<string, unknown> = {};
    for (const c of KIT_COLUMNS) if (c.blank !== undefined) device[c.key] = c.blank;
    let family: Family | undefined;
    columns.forEach((found, at) => {
      const cell = row[at] ?? null;
      if (!found || isMissing(cell)) return;
      const { column, unit } = found;
      if (column.kind === 'text') device[column.key] = text(cell);
      else if (column.kind === 'family') family = familyOf(text(cell));
      else if (column.kind === 'yesno') {
        const yes = yesNo(cell);
        const wrong = `${where}: ${column.name} is ${quoted(cell)}`;
        if (yes === undefined && column.blank === undefined) problems.push(`${wrong}; accepted are yes, no and blank. It is taken as blank: the answer for the whole kit holds.`);
        else if (yes === undefined) problems.push(`${wrong}; accepted are yes and no. It is taken as no.`);
        else device[column.key] = yes;
      } else {
        const value = readNumber(column, cell, unit, where);
        if (typeof value === 'number') device[column.key] = value;
        else problems.push(value.message);
      }
    }); // prettier-ignore
    const name = typeof device['name'] === 'string' ? device['name'] : '';
    if (name === '') {
      problems.push(`${where}: the device has no name; it is left out.`);
    } else if (family === undefined) {
      problems.push(`${where}: ${quoted(name)} names no family; accepted are ${FAMILIES.join(', ')}. The device is left out.`);
    } else if (names.has(name)) {
      problems.push(`${where}: a device named ${quoted(name)} is already listed; this second one is left out.`);
    } else {
      const lacking = NEEDS[family].find(([key]) => device[key] === undefined);
      if (lacking) problems.push(`${where}: ${quoted(name)} is left out, because ${lacking[1]}.`);
      else {
        names.add(name);
        kit.push({ ...(device as unknown as Device), family });
      }
    } // prettier-ignore
  }
  if (kit.length === 0) problems.push('Kit sheet: no device that can be planned with.');
  return { kit, problems };
}

function readNumber(column: KitColumn, cell: Cell, unit: string, where: string): number | Error {
  const wrong = (why: string): Error =>
    new Error(`${where}: ${column.name} is ${quoted(cell)}, ${why}; accepted is a number from ${rangeWords(column.range ?? [0, Number.MAX_VALUE], column.unitSI, column, unitsOf(unit, column))}. The cell is left out.`); // prettier-ignore
  const q = quantity(cell);
  if (!q) return wrong('which is not a number');
  const from = q.unit || unit || column.unitUS;
  const value = column.unitSI === '' ? q.value : convert(q.value, from, column.unitSI);
  if (value === undefined) return wrong('in a unit that does not fit');
  if (column.range && (value < column.range[0] || value > column.range[1]))
    return wrong('which is out of range');
  return value;
}
