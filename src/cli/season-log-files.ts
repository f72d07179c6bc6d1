/** Reads the files of a season log: workbooks with a sheet a table, text tables with one table each. */
import { basename } from 'node:path';
import { Problem } from '../engine/problems.js';
import type { Units } from '../engine/units.js';
import { readSeasonLog, type LogTable, type SeasonLog } from '../tables/season-log.js';
import { readTableFile, readWorkbookSheets } from '../workbook/readers/open.js';

/**
 * @param bytesOf - reads a file
 * @throws Problem naming the file when one cannot be read, or when there is no table of a season log in them
 */
export async function readLogFiles(
  paths: readonly string[],
  bytesOf: (path: string) => Uint8Array,
  units: Units,
): Promise<SeasonLog> {
  const tables: LogTable[] = [];
  const notes: string[] = [];
  for (const path of paths) {
    const bytes = bytesOf(path);
    const name = basename(path);
    try {
      if (bytes[0] === 0x50 && bytes[1] === 0x4b) tables.push(...(await readWorkbookSheets(bytes)));
      else {
        const table = await readTableFile(name, bytes);
        notes.push(...table.notes);
        tables.push({ ...table, name });
      }
    } catch (error) {
      if (!(error instanceof Problem) || error.message.includes(`"${name}"`)) throw error;
      throw new Problem(`"${path}": ${error.message}`);
    }
  }
  const all = paths.map((path) => `"${path}"`).join(', ');
  try {
    const log = readSeasonLog(tables, units);
    return { ...log, notes: [...notes, ...log.notes] };
  } catch (error) {
    throw error instanceof Problem ? new Problem(`${all}: ${error.message}`) : error;
  }
}
