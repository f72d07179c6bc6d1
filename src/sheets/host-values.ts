/**
 * Arguments as Google Sheets hands them to a script, made into what our functions take.
 *
 * From that host's public documentation, and from memory: a range arrives as rows of cells, one cell as its value; a
 * blank cell is "", an argument left out is undefined; a cell with a date is a Date, in the time zone of the sheet; a cell
 * in error is its text, such as "#DIV/0!".
 */
import { Problem } from '../engine/problems.js';

/** The parts of the host that know the sheet's time zone. */
export interface SheetClock {
  /** such as "America/Denver" */
  zone(): string;
  /** the moment in that zone, by a pattern of the host */
  format(moment: Date, zone: string, pattern: string): string;
}

export type SheetCell = number | string | boolean | Date;
export type SheetArgument = SheetCell | null | undefined | readonly (readonly SheetCell[])[];

const PATTERN = "yyyy-MM-dd'T'HH:mm:ss";
const STAMP = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d):(\d\d)$/;
/** Serial number of 1970-01-01. */
const EPOCH = 25_569;
const DAY_MS = 86_400_000;

/** A Date of any room: the host's own are not instances of the script's. */
const isDate = (value: unknown): value is Date =>
  Object.prototype.toString.call(value) === '[object Date]';

/**
 * Turns cells into values our functions know: dates become serial numbers, everything else stays.
 *
 * @param clock - asked for the zone once, and for each moment once
 */
export function cellReader(clock: SheetClock): (cell: unknown) => unknown {
  const known = new Map<number, number>();
  let zone: string | undefined;
  const serialOf = (moment: Date): number => {
    const time = moment.getTime();
    const found = known.get(time);
    if (found !== undefined) return found;
    if (Number.isNaN(time)) throw new Problem('a cell holds a date that is none');
    zone = zone ?? clock.zone();
    const stamp = STAMP.exec(clock.format(moment, zone, PATTERN));
    if (stamp === null) throw new Problem('a cell holds a date before the year 0 or after 9999');
    const [year, month, day, hour, minute, second] = stamp.slice(1).map(Number) as [
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    const serial = Date.UTC(year, month - 1, day, hour, minute, second) / DAY_MS + EPOCH;
    known.set(time, serial);
    return serial;
  };
  return (cell) => (isDate(cell) ? serialOf(cell) : cell);
}
