/** Meters and hydrant permits against the log: what passed each meter, what was logged from it, what it costs. */
import { isoDate, type Day } from '../dates.js';
import { positive } from '../checks.js';
import { Problem } from '../problems.js';
import type { Units } from '../units.js';
import { METER_LITRES, unitsUsed, type MeterUnit } from './meter.js';
import { volumeWords } from './say.js';
import { plainName, type LogRow } from './visit-log.js';

/** One period of a meter. Whatever the row does not say is undefined. */
export interface MeterRow {
  row: number;
  meter: string;
  from: Day;
  to: Day;
  begin?: number | undefined;
  end?: number | undefined;
  unit: MeterUnit;
  /** digits before the point that the meter shows */
  digits?: number | undefined;
  permitFrom?: Day | undefined;
  permitTo?: Day | undefined;
  /** price of water [money per m³] */
  price?: number | undefined;
  /** fixed sum of the period [money] */
  fixed?: number | undefined;
  /** water the fixed sum covers, or that somebody else pays [L] */
  allowance?: number | undefined;
  /** price of water above the allowance [money per m³]; default: the price */
  overPrice?: number | undefined;
}

export interface LedgerRow {
  meter: MeterRow;
  /** through the meter [L]; undefined where a reading is lacking or wrong */
  used: number | undefined;
  rolled: boolean;
  /** logged as drawn from this meter on these days [L], and by how many rows */
  logged: number;
  rows: number;
  /** used less logged [L] */
  difference: number | undefined;
  /** the difference is within the tolerance */
  agrees: boolean | undefined;
  /** above the allowance [L] */
  over: number;
  /** undefined where no price is given or nothing was measured [money] */
  cost: number | undefined;
  /** what somebody should look at, a sentence each */
  questions: string[];
}

export interface Ledger {
  rows: LedgerRow[];
  /** sums of the rows with readings [L] */
  used: number;
  logged: number;
  cost: number;
  /** water in the log that names no meter of the ledger, or none on that day [L], and its rows */
  unmetered: { litres: number; rows: number[] };
}

/** Share by which meter and log may differ [-]: assumption; meters of moving trucks, hoses left full, rounding at trees. */
export const LEDGER_TOLERANCE = 0.1;

/**
 * The ledger. A log row belongs to the period of its source that its day lies in; where two periods meet on a day, to the
 * earlier one.
 *
 * @param tolerance - share of the metered water by which the log may differ [-], above 0
 * @throws Problem if the tolerance is not above 0
 */
export function ledger(
  meters: readonly MeterRow[],
  log: readonly LogRow[],
  tolerance: number = LEDGER_TOLERANCE,
  units: Units = 'US',
): Ledger {
  positive('tolerance', tolerance);
  const sorted = [...meters].sort((a, b) => a.from - b.from || a.row - b.row);
  const drawn = new Map(sorted.map((m) => [m, { litres: 0, rows: 0, outside: false }]));
  const unmetered: Ledger['unmetered'] = { litres: 0, rows: [] };
  for (const row of log) {
    const litres = row.applied ?? 0;
    if (litres <= 0) continue;
    const meter = sorted.find((m) => plainName(m.meter) === plainName(row.source) && row.day >= m.from && row.day <= m.to); // prettier-ignore
    if (meter === undefined) {
      unmetered.litres += litres;
      unmetered.rows.push(row.row);
      continue;
    }
    const sum = drawn.get(meter)!;
    sum.litres += litres;
    sum.rows++;
    sum.outside ||= row.day < (meter.permitFrom ?? -Infinity) || row.day > (meter.permitTo ?? Infinity); // prettier-ignore
  }
  const rows = meters.map((meter): LedgerRow => {
    const { litres, rows: count, outside } = drawn.get(meter)!;
    const questions: string[] = [];
    const read = readings(meter, questions);
    const used = read && read.used * METER_LITRES[meter.unit];
    const difference = used === undefined ? undefined : used - litres;
    const agrees = difference === undefined ? undefined : Math.abs(difference) <= tolerance * used! + 1e-9; // prettier-ignore
    if (read?.rolled) questions.push('The meter has passed its highest number and begun again.');
    if (agrees === false)
      questions.push(`The log has ${volumeWords(Math.abs(difference!), units)} ${difference! > 0 ? 'less' : 'more'} than the meter's ${volumeWords(used!, units)}, beyond ${Math.round(tolerance * 100)} %.`); // prettier-ignore
    if (outside) questions.push(`Water was drawn outside the permit's days, ${permitWords(meter)}.`); // prettier-ignore
    questions.push(...against(meter, before(sorted, meter)));
    const over = used === undefined ? 0 : Math.max(0, used - (meter.allowance ?? Infinity));
    return { meter, used, rolled: read?.rolled ?? false, logged: litres, rows: count, difference, agrees, over, cost: costOf(meter, used, over), questions }; // prettier-ignore
  });
  const sum = (value: (r: LedgerRow) => number | undefined): number =>
    rows.reduce((total, r) => total + (value(r) ?? 0), 0);
  return {
    rows,
    used: sum((r) => r.used),
    logged: sum((r) => (r.used === undefined ? 0 : r.logged)),
    cost: sum((r) => r.cost),
    unmetered,
  };
}

function readings(meter: MeterRow, questions: string[]): ReturnType<typeof unitsUsed> | undefined {
  const { begin, end, digits } = meter;
  if (begin === undefined || end === undefined) {
    const which = begin === undefined ? (end === undefined ? 'Both readings are' : 'The begin reading is') : 'The end reading is'; // prettier-ignore
    questions.push(`${which} missing, so nothing is known of this period.`);
    return undefined;
  }
  try {
    return unitsUsed(begin, end, digits);
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    questions.push(`${error.message[0]!.toUpperCase()}${error.message.slice(1)}.`);
    return undefined;
  }
}

const permitWords = ({ permitFrom, permitTo }: MeterRow): string =>
  [permitFrom === undefined ? '' : `from ${isoDate(permitFrom)}`, permitTo === undefined ? '' : `to ${isoDate(permitTo)}`].filter((t) => t !== '').join(' '); // prettier-ignore

/** The period of the same meter before this one. */
const before = (sorted: readonly MeterRow[], meter: MeterRow): MeterRow | undefined =>
  sorted.slice(0, sorted.indexOf(meter)).findLast((m) => plainName(m.meter) === plainName(meter.meter)); // prettier-ignore

/** Questions between a period and the one before it: another unit, a gap in the readings, days read twice. */
function against(meter: MeterRow, last: MeterRow | undefined): string[] {
  if (!last) return [];
  const found: string[] = [];
  if (last.unit !== meter.unit)
    found.push(`The unit was ${last.unit} in row ${last.row} and is ${meter.unit} here. Which is on the meter?`); // prettier-ignore
  else if (last.end !== undefined && meter.begin !== undefined && last.end !== meter.begin)
    found.push(`It begins at ${meter.begin}, and row ${last.row} ended at ${last.end}. What passed between?`); // prettier-ignore
  if (meter.from < last.to) found.push(`Its days overlap those of row ${last.row}.`);
  return found;
}

function costOf(meter: MeterRow, used: number | undefined, over: number): number | undefined {
  const { price, fixed, overPrice = price } = meter;
  if (used === undefined || (price === undefined && fixed === undefined && overPrice === undefined))
    return undefined;
  // an allowance is covered by the fixed sum, or paid by somebody else: only what lies above it is priced
  const priced = meter.allowance === undefined ? (used / 1000) * (price ?? 0) : (over / 1000) * (overPrice ?? 0); // prettier-ignore
  return (fixed ?? 0) + priced;
}
