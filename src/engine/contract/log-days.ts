/** Questions a crew's or a truck's day raises: places, minutes, what pump and tank could give, rain. */
import { isoDate } from '../dates.js';
import type { Units } from '../units.js';
import type { Ask } from './log-flags.js';
import { minutesWords, several, volumeWords } from './say.js';
import { grouped, minutesAt, plainName, type LogRow, type LogTruck } from './visit-log.js';

/** Minutes a watch may be off at one visit [min]. */
export const WATCH = 2;
/** Share by which truck record and log, or pump and log, may differ before somebody is asked [-]. */
export const SLACK = 0.15;
/** Least of that difference over a day [min]. */
export const LEAST_MINUTES = 10;
/** Visits from which the pace of a day says something. */
export const FEW = 4;
/** Flow at which a tank is filled from a hydrant [L/min], about 100 gpm: secondary, truck operators. */
export const HYDRANT = 378.5;

const byDay = (name: string, day: number): string =>
  name === '' ? '' : `${plainName(name)}|${day}`;

export function askAboutDays(
  rows: readonly LogRow[],
  kit: readonly LogTruck[],
  units: Units,
  ask: Ask,
): void {
  for (const [, own] of grouped(rows, (r) => byDay(r.crew, r.day))) {
    askAboutPlaces(own, 'crew', ask);
    askAboutPace(own, ask);
    askAboutTruckRecord(own, ask);
  }
  const trucks = new Map(kit.map((truck) => [plainName(truck.name), truck]));
  for (const [, own] of grouped(rows, (r) => byDay(r.truck, r.day))) {
    askAboutPlaces(own, 'truck', ask);
    const truck = trucks.get(plainName(own[0]!.truck));
    if (truck) askAboutWater(own, truck, units, ask);
  }
  askAboutRain(rows, ask);
}

const inOrder = (rows: readonly LogRow[]): LogRow[] =>
  rows
    .filter((r) => minutesAt(r) !== undefined)
    .sort((a, b) => a.arrived! - b.arrived! || a.row - b.row);

/** At two trees at once: a visit begins well before the one before it ends. */
function askAboutPlaces(rows: readonly LogRow[], who: 'crew' | 'truck', ask: Ask): void {
  const visits = inOrder(rows);
  visits.forEach((row, i) => {
    const name = plainName(row.tree);
    let before: LogRow | undefined;
    for (const earlier of visits.slice(0, i))
      if (plainName(earlier.tree) !== name && earlier.left! > (before?.left ?? -1))
        before = earlier;
    const over = before ? Math.min(before.left!, row.left!) - row.arrived! : 0;
    if (before && over > WATCH)
      ask(row, 'two places', `The same ${who} is at ${before.tree} (row ${before.row}) for ${minutesWords(over)} of this visit. Which time is right?`); // prettier-ignore
  });
}

/** More trees than minutes: from the first arrival to the last leaving there is not a minute for each. */
function askAboutPace(rows: readonly LogRow[], ask: Ask): void {
  const visits = inOrder(rows.filter((r) => (r.applied ?? 0) > 0));
  if (visits.length < FEW) return;
  const span = Math.max(...visits.map((r) => r.left!)) - visits[0]!.arrived!;
  if (span >= visits.length) return;
  for (const row of visits)
    ask(row, 'minutes', `${several(visits.length, 'tree')} are logged within ${minutesWords(span)}. Are the times right?`); // prettier-ignore
}

/** Minutes logged against minutes of the truck's own record, over a day of rows that have both. */
function askAboutTruckRecord(rows: readonly LogRow[], ask: Ask): void {
  const both = rows.filter((r) => minutesAt(r) !== undefined && r.truckMinutes !== undefined);
  if (both.length === 0) return;
  const logged = both.reduce((sum, r) => sum + minutesAt(r)!, 0);
  const stood = both.reduce((sum, r) => sum + r.truckMinutes!, 0);
  if (logged - stood <= Math.max(LEAST_MINUTES, SLACK * stood)) return;
  for (const row of both)
    ask(row, 'minutes', `${minutesWords(logged)} are logged at ${several(both.length, 'tree')} this day, and the truck stood there ${minutesWords(stood)}. Where was the rest?`); // prettier-ignore
}

/** More water than the pump gives in the minutes at the tree, or than the tank can have held and been refilled with. */
function askAboutWater(
  rows: readonly LogRow[],
  { flow, tank }: LogTruck,
  units: Units,
  ask: Ask,
): void {
  const given = rows.filter((r) => (r.applied ?? 0) > 0);
  if (flow !== undefined)
    for (const row of given) {
      const minutes = minutesAt(row);
      if (minutes === undefined) continue;
      const most = flow * (minutes + WATCH);
      if (row.applied! > most * (1 + SLACK))
        ask(row, 'pump', `${volumeWords(row.applied!, units)} in ${minutesWords(minutes)} is more than the pump gives, ${volumeWords(flow, units)} a minute. Are both numbers right?`); // prettier-ignore
    }
  if (tank === undefined) return;
  for (const row of given)
    if (row.applied! > tank * (1 + SLACK))
      ask(row, 'tank', `${volumeWords(row.applied!, units)} is more than the tank holds, ${volumeWords(tank, units)}. Is the number right?`); // prettier-ignore
  const visits = inOrder(given);
  if (visits.length < 2) return;
  const total = visits.reduce((sum, r) => sum + r.applied!, 0);
  const gaps = visits.slice(1).map((r, i) => Math.max(0, r.arrived! - visits[i]!.left!));
  const between = gaps.reduce((sum, gap) => sum + gap, 0);
  // it may set out full; every litre more has to come through a hydrant in a gap, a tankful at most
  const most = gaps.reduce((sum, gap) => sum + Math.min(tank, gap * HYDRANT), tank);
  if (total > most * (1 + SLACK))
    for (const row of visits)
      ask(row, 'tank', `${volumeWords(total, units)} are logged this day; a tank of ${volumeWords(tank, units)} with ${minutesWords(between)} between visits gives less. Was there another truck?`); // prettier-ignore
}

/** Where rain is read on some days, a day of visits without a reading is asked about once, at its first row. */
function askAboutRain(rows: readonly LogRow[], ask: Ask): void {
  if (rows.every((r) => r.rain === undefined)) return;
  for (const [, own] of grouped(rows, (r) => String(r.day)))
    if (own.every((r) => r.rain === undefined))
      ask(own[0]!, 'no rain reading', `No row of ${isoDate(own[0]!.day)} has the rain since the last visit. Was the gauge read?`); // prettier-ignore
}
