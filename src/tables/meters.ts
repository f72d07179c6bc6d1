/** The Meters sheet: one row a period of a meter or hydrant permit, with its readings. */
import type { MeterRow } from '../engine/contract/ledger.js';
import { METER_UNITS, type MeterUnit } from '../engine/contract/meter.js';
import { Problem } from '../engine/problems.js';
import type { Cell } from './cells.js';
import { readPlainTable, type PlainColumn, type PlainRow } from './plain-table.js';

/** Columns of the Meters sheet in order. */
export const METER_COLUMNS = {
  meter: { name: 'Meter', also: ['meter number', 'permit', 'hydrant'], needed: true },
  from: { name: 'From', also: ['date installed', 'begin date'], needed: true },
  to: { name: 'To', also: ['date removed', 'end date'], needed: true },
  begin: { name: 'Begin', also: ['beginning read', 'begin read', 'begin reading'] },
  end: { name: 'End', also: ['ending read', 'end read', 'end reading'] },
  unit: { name: 'Unit', also: ['units'] },
  digits: { name: 'Digits' },
  permitFrom: { name: 'Permit from' },
  permitTo: { name: 'Permit to' },
  price: { name: 'Price', unit: ['per 1000 gal', 'per m³'] },
  fixed: { name: 'Fixed sum', also: ['fixed', 'rent'] },
  allowance: { name: 'Includes', also: ['allowance'], unit: ['gal', 'L'] },
  overPrice: { name: 'Over costs', also: ['overage'], unit: ['per 1000 gal', 'per m³'] },
} as const satisfies Record<string, PlainColumn>;

/** Other spellings of a meter's unit, as `plainLabel` gives them. */
const SPELLINGS: Readonly<Record<string, MeterUnit>> = {
  gallons: 'gal', gallon: 'gal', ccf: '100 ft3', hcf: '100 ft3', '100 cf': '100 ft3', '100 cu ft': '100 ft3', '100 ft': '100 ft3',
  'm ³': 'm3', 'cubic meters': 'm3', 'cubic metres': 'm3', m: 'm3',
}; // prettier-ignore

function meterRow(row: PlainRow<keyof typeof METER_COLUMNS>): MeterRow {
  const from = row.day('from') ?? row.refuse('from', 'a date cell, or yyyy-mm-dd');
  const to = row.day('to') ?? row.refuse('to', 'a date cell, or yyyy-mm-dd');
  if (to < from) throw new Problem('To lies before From');
  const digits = row.number('digits', 12);
  if (digits !== undefined && !(digits >= 1 && Number.isInteger(digits)))
    row.refuse('digits', 'a whole number from 1 to 12');
  return {
    row: row.at,
    meter: row.words('meter') || row.refuse('meter', 'the number of a meter or permit'),
    from,
    to,
    begin: row.number('begin'),
    end: row.number('end'),
    unit: row.word('unit', METER_UNITS, SPELLINGS) ?? row.refuse('unit', METER_UNITS.join(', ')),
    digits,
    permitFrom: row.day('permitFrom'),
    permitTo: row.day('permitTo'),
    price: row.number('price'),
    fixed: row.number('fixed'),
    allowance: row.number('allowance'),
    overPrice: row.number('overPrice'),
  };
}

/** Reads the Meters sheet. @returns never throws for what cells hold; a lacking reading is the ledger's to ask about */
export function readMeters(cells: readonly (readonly Cell[])[]): {
  meters: MeterRow[];
  problems: string[];
} {
  const { rows, problems } = readPlainTable(cells, METER_COLUMNS, meterRow);
  return { meters: rows, problems };
}
