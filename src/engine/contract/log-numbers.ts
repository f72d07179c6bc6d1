/**
 * Numbers too regular to be measured. Water by the bag or bucket is alike by nature and is not asked about; a meter's
 * readings and a watch's minutes scatter.
 */
import { isoDate } from '../dates.js';
import type { Units } from '../units.js';
import type { Ask } from './log-flags.js';
import { several, volumeWords } from './say.js';
import { grouped, minutesAt, plainName, type LogRow } from './visit-log.js';

/** Rows of a day from which like numbers are worth a question. */
export const ENOUGH = 8;
/** Rows from which a day that repeats another one is. */
export const DAY_ROWS = 6;

const crewDay = (r: LogRow): string => `${plainName(r.crew)}|${r.day}`;

export function askAboutNumbers(rows: readonly LogRow[], units: Units, ask: Ask): void {
  const days = [...grouped(rows, crewDay).values()];
  for (const own of days) {
    askAboutMeter(own, units, ask);
    askAboutWatch(own, ask);
  }
  askAboutCopies(days, ask);
}

/** A meter that shows the same litres at every tree of a day. */
function askAboutMeter(rows: readonly LogRow[], units: Units, ask: Ask): void {
  const metered = rows.filter((r) => r.measured === 'meter' && (r.applied ?? 0) > 0);
  if (metered.length < ENOUGH) return;
  const tenths = new Set(metered.map((r) => Math.round(r.applied! * 10)));
  if (tenths.size > 1) return;
  for (const row of metered)
    ask(row, 'too regular', `The meter gives ${volumeWords(row.applied!, units)} at each of ${several(metered.length, 'tree')} this day. Was it read at every one?`); // prettier-ignore
}

/** The same minutes at every tree, and the same minutes between them. */
function askAboutWatch(rows: readonly LogRow[], ask: Ask): void {
  const timed = rows
    .filter((r) => minutesAt(r) !== undefined)
    .sort((a, b) => a.arrived! - b.arrived!);
  if (timed.length < ENOUGH) return;
  const stays = new Set(timed.map((r) => Math.round(minutesAt(r)!)));
  const steps = new Set(timed.slice(1).map((r, i) => Math.round(r.arrived! - timed[i]!.arrived!)));
  if (stays.size > 1 || steps.size > 1) return;
  for (const row of timed)
    ask(row, 'too regular', `All ${several(timed.length, 'visit')} of the day last the same and follow each other by the same minutes. Was a watch read?`); // prettier-ignore
}

/** What a day's rows say that could be copied: tree by tree, times and water. */
const copyKey = (rows: readonly LogRow[]): string =>
  [...rows]
    .sort((a, b) => (a.arrived ?? 0) - (b.arrived ?? 0) || a.row - b.row)
    .map((r) => [plainName(r.tree), r.arrived ?? '', r.left ?? '', r.applied ?? ''].join(' '))
    .join('|');

/** A day whose trees, times and water repeat an earlier day of the same crew, number by number. */
function askAboutCopies(days: readonly LogRow[][], ask: Ask): void {
  const said = new Map<string, LogRow>();
  const long = days.filter(
    (rows) => rows.length >= DAY_ROWS && rows.every((r) => minutesAt(r) !== undefined),
  );
  for (const rows of [...long].sort((a, b) => a[0]!.day - b[0]!.day)) {
    const key = `${plainName(rows[0]!.crew)}|${copyKey(rows)}`;
    const before = said.get(key);
    if (!before) said.set(key, rows[0]!);
    else
      for (const row of rows)
        ask(row, 'copied day', `Every tree, time and amount of this day is as on ${isoDate(before.day)}. Was it written down on the day?`); // prettier-ignore
  }
}
