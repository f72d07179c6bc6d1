/** A log of service, row by row, as its readers hand it over; and what it is read beside. */
import type { Day } from '../dates.js';

/** How applied water was measured. A counted measure gives like numbers by nature; a metered one does not. */
export const MEASURED_HOW = ['meter', 'minutes', 'tank', 'bag', 'bucket', 'estimate'] as const;
export type MeasuredHow = (typeof MEASURED_HOW)[number];

/** One visit to one tree. Whatever the row does not say is undefined. */
export interface LogRow {
  /** row in the person's table, the header being row 1 */
  row: number;
  tree: string;
  day: Day;
  arrived?: number | undefined; // [min of the day]
  left?: number | undefined; // [min of the day]
  crew: string;
  truck: string;
  planned?: number | undefined; // [L]
  /** for one tree [L] */
  applied?: number | undefined;
  measured?: MeasuredHow | undefined;
  /** meter or hydrant permit the water came through */
  source: string;
  /** rain since the last visit [mm] */
  rain?: number | undefined;
  /** how deep a screwdriver went in [mm] */
  probed?: number | undefined;
  leaves: string;
  bag: string;
  condition: string;
  photo: string;
  /** why the tree was not watered */
  skipped: string;
  approved: string;
  /** minutes the truck's own record has it stand there [min] */
  truckMinutes?: number | undefined;
}

/** A tree as a log needs it. */
export interface LogTree {
  id: string;
  planted?: Day | undefined;
  /** dead or removed: since this day; null where the day is not known */
  gone?: { word: string; since: Day | null } | undefined;
}

/** A pump and tank of the kit, by the name rows call their truck. */
export interface LogTruck {
  name: string;
  flow?: number | undefined; // [L/min]
  tank?: number | undefined; // [L]
}

/** Minutes logged at the tree; undefined where a time is lacking or the times are reversed. */
export const minutesAt = ({ arrived, left }: LogRow): number | undefined =>
  arrived === undefined || left === undefined || left < arrived ? undefined : left - arrived;

/** Rows grouped by a key; rows whose key is "" are left out. */
export function grouped<T>(rows: readonly T[], key: (row: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const k = key(row);
    if (k === '') continue;
    const group = groups.get(k);
    if (group) group.push(row);
    else groups.set(k, [row]);
  }
  return groups;
}

/** A name for comparison: "Crew  2" and "crew 2" are one. */
export const plainName = (name: string): string => name.trim().toLowerCase().replace(/\s+/g, ' ');
