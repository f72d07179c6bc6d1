/** The log of field checks: a sheet of the workbook, a row a check. */
import { dayFromIso } from '../../engine/dates.js';
import { Problem } from '../../engine/problems.js';
import { isBlank, text, type Cell } from '../../tables/cells.js';
import type { Host } from '../host.js';
import { cornersEn } from '../words/corners-en.js';
import { cornersEs } from '../words/corners-es.js';

export const LOG_SHEET = 'Field log';

export interface LogRow {
  /** yyyy-mm-dd */
  date: string;
  check: string;
  tree: string;
  device: string;
  readings: string;
  verdict: string;
  action: string;
}

const HEADERS: readonly (readonly string[])[] = [
  cornersEn.field.logHeader,
  cornersEs.field.logHeader,
];

/** A sheet of that name that is something else must not get our rows. */
function isOther(cells: readonly Cell[][]): boolean {
  const first = cells.find((row) => row.some((cell) => !isBlank(cell)));
  if (!first) return false;
  return !HEADERS.some((header) => header.every((name, i) => text(first[i]) === name));
}

/**
 * Writes a check below the last row of the log, making the sheet where there is none; gives the 1-based row.
 *
 * @throws Problem with `other`'s sentence if a sheet of that name has other headers
 */
export async function writeLog(
  host: Host,
  header: readonly string[],
  row: LogRow,
  other: string,
): Promise<number> {
  const { cells } = await host.readTable(LOG_SHEET);
  if (isOther(cells)) throw new Problem(other);
  const { date, check, tree, device, readings, verdict, action } = row;
  return host.appendRow(LOG_SHEET, header, [
    dayFromIso(date), check, tree, device, readings, verdict, action,
  ]); // prettier-ignore
}
