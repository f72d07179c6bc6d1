/** The limits of the sheet Shortage: what there is, and who comes first where it is not enough. */
import { TRIAGE_ORDER_NAMES, type TriageOrder } from '../engine/contract/triage-orders.js';
import type { SeasonLimits } from '../engine/contract/triage-season.js';
import { Problem } from '../engine/problems.js';
import { L_PER_GALLON } from '../engine/units.js';
import { isMissing, type Cell } from './cells.js';
import { readPlainTable, type PlainColumn } from './plain-table.js';

/** Names of the limits as rows of the table, with how they are counted. */
export const LIMIT_NAMES = {
  order: 'Order',
  weekLitres: 'Water a week',
  seasonLitres: 'Water of the season',
  weekMinutes: 'Crew minutes a week',
} as const;
type LimitKey = keyof typeof LIMIT_NAMES;

export interface Shortage {
  order: TriageOrder;
  limits: SeasonLimits;
}

const COLUMNS = {
  name: { name: 'Limit', needed: true },
  value: { name: 'Value', needed: true },
  unit: { name: 'Unit' },
} as const satisfies Record<string, PlainColumn>;

const UNITS: Readonly<Record<string, number>> = { gal: L_PER_GALLON, l: 1, 'm³': 1000, m3: 1000 };

/**
 * Reads rows `Limit | Value | Unit`; a blank value is no limit.
 *
 * @returns undefined where no limit is named; a sentence for each row that cannot be used
 */
export function readShortage(cells: readonly (readonly Cell[])[]): {
  shortage: Shortage | undefined;
  problems: string[];
} {
  const found: Shortage = { order: 'new first', limits: {} };
  const { rows, problems } = readPlainTable(cells, COLUMNS, (row): boolean => {
    const names = Object.values(LIMIT_NAMES);
    const name = row.word('name', names) ?? row.refuse('name', names.join(', '));
    const key = (Object.keys(LIMIT_NAMES) as LimitKey[]).find((k) => LIMIT_NAMES[k] === name)!;
    if (isMissing(row.cell('value'))) return false;
    if (key === 'order') {
      found.order = row.word('value', TRIAGE_ORDER_NAMES)!;
      return false;
    }
    const value = row.number('value')!;
    if (!(value > 0)) row.refuse('value', 'a number above 0');
    const unit = row.words('unit').toLowerCase();
    const litres = UNITS[unit];
    if (key === 'weekMinutes') found.limits.weekMinutes = value;
    else if (litres === undefined)
      throw new Problem(`Unit is ${unit === '' ? 'blank' : `"${unit}"`}; accepted is gal, L or m³`); // prettier-ignore
    else found.limits[key] = value * litres;
    return true;
  });
  return { shortage: rows.includes(true) ? found : undefined, problems };
}
