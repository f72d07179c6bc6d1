/** An empty log of visits, by itself: the panel needs no more of it. */
import type { Units } from '../engine/units.js';
import type { Cell } from '../tables/cells.js';
import type { PlainColumn } from '../tables/plain-table.js';
import { LOG_COLUMNS } from '../tables/visit-log.js';

/** A log of visits without a visit: its header, as a sheet has it. */
export const emptyLog = (units: Units): Cell[][] => [
  Object.values(LOG_COLUMNS).map(({ name, unit }: PlainColumn) =>
    unit === undefined ? name : `${name} (${unit[units === 'US' ? 0 : 1]})`,
  ),
];
