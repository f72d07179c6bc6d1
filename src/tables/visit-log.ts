/** The Log sheet: one row a visit to a tree, filled in by hand or typed; and the list of trees and trucks it is asked about with. */
import {
  MEASURED_HOW,
  type LogRow,
  type LogTree,
  type LogTruck,
} from '../engine/contract/visit-log.js';
import type { Units } from '../engine/units.js';
import { plainLabel, plainNumber, text, type Cell } from './cells.js';
import { GONE_WORDS } from './inventory/vocabulary.js';
import { readPlainTable, type PlainColumn, type PlainRow } from './plain-table.js';

const volume = ['gal', 'L'] as const;

/** The heading below the visits on our own sheet Log: what follows are no visits. */
export const BELOW_LOG = 'Limits of the questions';

/** Columns of the Log sheet in order. */
export const LOG_COLUMNS = {
  tree: { name: 'Tree', also: ['tree id', 'id'], needed: true },
  date: { name: 'Date', also: ['day', 'date performed'], needed: true },
  arrived: { name: 'Arrived', also: ['arrival', 'arrival time', 'start'] },
  left: { name: 'Left', also: ['departure', 'departure time', 'end'] },
  crew: { name: 'Crew' },
  truck: { name: 'Truck', also: ['vehicle'] },
  planned: { name: 'Planned', also: ['planned gal', 'planned gallons'], unit: volume },
  applied: { name: 'Applied', also: ['applied gal', 'applied gallons', 'gallons', 'water'], unit: volume },
  measured: { name: 'How measured', also: ['measured'] },
  source: { name: 'Source or meter', also: ['source', 'meter'] },
  rain: { name: 'Rain since last visit', also: ['rain'], unit: ['in', 'mm'] },
  probed: { name: 'Screwdriver depth', also: ['soil check', 'screwdriver'], unit: ['in', 'mm'] },
  leaves: { name: 'Leaves' },
  bag: { name: 'Bag state', also: ['bag'] },
  condition: { name: 'Condition' },
  photo: { name: 'Photo' },
  skipped: { name: 'Skip reason', also: ['skipped', 'skip code'] },
  approved: { name: 'Approved', also: ['approver'] },
  truckMinutes: { name: 'Truck there', also: ['truck minutes'], unit: ['min', 'min'] },
} as const satisfies Record<string, PlainColumn>; // prettier-ignore
type LogKey = keyof typeof LOG_COLUMNS;

const CLOCK = /^(\d{1,2})(?::|\.|h)?(\d{2})? ?(am|pm)?$/i;
const SAID_TIME = 'a time such as 7:30, 19:05 or 7:30 pm';

/** Minutes of the day of a time cell: a fraction of a day, a date with a time, or a written time. */
function timeOf(row: PlainRow<LogKey>, key: 'arrived' | 'left'): number | undefined {
  if (!row.has(key)) return undefined;
  const cell = row.cell(key);
  // whole numbers are hours nobody can tell from days
  if (typeof cell === 'number')
    return cell >= 0 && (cell < 1 || !Number.isInteger(cell))
      ? Math.round((cell % 1) * 1440)
      : row.refuse(key, SAID_TIME);
  const m = CLOCK.exec(text(cell));
  const half = m?.[3]?.toLowerCase();
  if (!m || (m[2] === undefined && half === undefined)) return row.refuse(key, SAID_TIME);
  const hour = Number(m[1]);
  const minute = Number(m[2] ?? 0);
  if (minute > 59 || hour > 23 || (half !== undefined && (hour < 1 || hour > 12)))
    return row.refuse(key, SAID_TIME);
  return (half === undefined ? hour : (hour % 12) + (half === 'pm' ? 12 : 0)) * 60 + minute;
}

const logRow = (row: PlainRow<LogKey>): LogRow => ({
  row: row.at,
  tree: row.words('tree') || row.refuse('tree', 'the id of a tree'),
  day: row.day('date') ?? row.refuse('date', 'a date cell, or yyyy-mm-dd'),
  arrived: timeOf(row, 'arrived'),
  left: timeOf(row, 'left'),
  crew: row.words('crew'),
  truck: row.words('truck'),
  planned: row.number('planned'),
  applied: row.number('applied'),
  measured: row.word('measured', MEASURED_HOW, {
    metered: 'meter', 'flow meter': 'meter', timed: 'minutes', time: 'minutes', container: 'bucket', guess: 'estimate',
  }), // prettier-ignore
  source: row.words('source'),
  rain: row.number('rain'),
  probed: row.number('probed'),
  leaves: row.words('leaves'),
  bag: row.words('bag'),
  condition: row.words('condition'),
  photo: row.words('photo'),
  skipped: row.words('skipped'),
  approved: row.words('approved'),
  truckMinutes: row.number('truckMinutes', 1440),
});

export interface VisitLog {
  rows: LogRow[];
  headerRow: number;
  /** the unit system its water is written in */
  units: Units;
  problems: string[];
}

/** Reads the Log sheet. @returns never throws for what cells hold */
export function readVisitLog(cells: readonly (readonly Cell[])[]): VisitLog {
  const { rows, headerRow, problems, units } = readPlainTable(cells, LOG_COLUMNS, logRow);
  const unit = units.get('applied') ?? units.get('planned') ?? '';
  return {
    rows,
    headerRow,
    units: unit === '' || unit.startsWith('gal') ? 'US' : 'SI',
    problems,
  };
}

const TREE_COLUMNS = {
  id: { name: 'Tree', also: ['tree id', 'id'], needed: true },
  planted: { name: 'Planted', also: ['plantdate', 'plant date'] },
  status: { name: 'Status', also: ['state', 'condition'] },
  since: { name: 'Since', also: ['status date', 'removed', 'removed on', 'dead since'] },
  species: { name: 'Species' },
} as const satisfies Record<string, PlainColumn>;

const GONE: ReadonlySet<string> = new Set(GONE_WORDS.map(plainLabel));

/** The list of trees a log is asked about with: id, planting date, and whether a tree is dead or removed, since when. */
export function readLogTrees(cells: readonly (readonly Cell[])[]): {
  trees: LogTree[];
  problems: string[];
} {
  const { rows, problems } = readPlainTable(cells, TREE_COLUMNS, (row): LogTree => {
    const status = row.words('status');
    return {
      id: row.words('id') || row.refuse('id', 'the id of a tree'),
      planted: plainNumber(row.cell('planted')) === 0 ? undefined : row.day('planted'),
      ...(GONE.has(plainLabel(status)) && {
        gone: { word: status.toLowerCase(), since: row.day('since') ?? null },
      }),
    };
  });
  return { trees: rows, problems };
}

const TRUCK_COLUMNS = {
  name: { name: 'Device', also: ['truck', 'name'], needed: true },
  family: { name: 'Family' },
  tank: { name: 'Volume', also: ['tank'], unit: volume },
  flow: { name: 'Flow', also: ['pump'], unit: ['gpm', 'l/min'] },
} as const satisfies Record<string, PlainColumn>;

/** Pumps and tanks of the Kit sheet; other devices are of no account here. */
export function readTrucks(cells: readonly (readonly Cell[])[]): {
  trucks: LogTruck[];
  problems: string[];
} {
  const { rows, problems } = readPlainTable(cells, TRUCK_COLUMNS, (row): LogTruck & { family: string } => ({
    name: row.words('name') || row.refuse('name', 'the name of a truck'),
    family: plainLabel(row.words('family')),
    tank: row.number('tank') || undefined,
    flow: row.number('flow') || undefined,
  })); // prettier-ignore
  const isTruck = ({ family }: { family: string }): boolean =>
    family === '' || /tank|truck/.test(family);
  return {
    trucks: rows.filter(isTruck).map(({ name, tank, flow }) => ({ name, tank, flow })),
    problems,
  };
}
