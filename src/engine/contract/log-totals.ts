/** Sums of a log: trees against the plan, what backs an invoice line by line, and how much a crew gets done in an hour. */
import type { Day } from '../dates.js';
import type { RainDay } from '../rules/rule-types.js';
import { bindsOn, speaksOf, type Clause, type ContractTree } from './clauses.js';
import type { Service } from './contract-check.js';
import { grouped, minutesAt, plainName, type LogRow } from './visit-log.js';

/** A watering that was planned for one tree. */
export interface PlannedVisit {
  tree: string;
  day: Day;
  litres: number; // [L]
}

export interface TreeTotals {
  tree: string;
  /** visits with water */
  made: number;
  skipped: number;
  /** planned visits with no row within the days of grace */
  missed: number;
  planned: number; // [L]
  applied: number; // [L]
}

const watered = ({ applied }: LogRow): boolean => (applied ?? 0) > 0;

/** Days a visit may come before or after its day and still be that visit [days]. */
export const GRACE = 1;

/**
 * Visits and water by tree, against the plan. A row answers the nearest planned visit that is still open, within a day of
 * it; a row with a reason to skip answers it, too.
 *
 * @param planned - waterings planned for the days of the log
 * @returns trees in the order they first appear, planned ones first
 */
export function treeTotals(
  rows: readonly LogRow[],
  planned: readonly PlannedVisit[],
): TreeTotals[] {
  const logged = grouped(rows, (r) => plainName(r.tree));
  const wanted = grouped(planned, (p) => plainName(p.tree));
  return [...new Set([...wanted.keys(), ...logged.keys()])].map((key) => {
    const own = [...(logged.get(key) ?? [])].sort((a, b) => a.day - b.day);
    const plans = wanted.get(key) ?? [];
    const open = new Set(plans);
    for (const row of own) {
      const near = [...open]
        .filter((p) => Math.abs(p.day - row.day) <= GRACE)
        .sort((a, b) => Math.abs(a.day - row.day) - Math.abs(b.day - row.day))[0];
      if (near) open.delete(near);
    }
    return {
      tree: plans[0]?.tree ?? own[0]!.tree,
      made: own.filter(watered).length,
      skipped: own.filter((r) => !watered(r) && r.skipped !== '').length,
      missed: open.size,
      planned: plans.reduce((sum, p) => sum + p.litres, 0),
      applied: own.reduce((sum, r) => sum + (r.applied ?? 0), 0),
    };
  });
}

export interface InvoiceLine {
  clause: Clause;
  trees: number;
  visits: number;
  litres: number; // [L]
  minutes: number; // [min]
  /** rows of the log that back the line */
  rows: number[];
}

/**
 * What backs an invoice, by contract line: the visits with water to the trees a clause speaks of, on days it binds. A visit
 * may back several lines, as a line of gallons and one of visits.
 */
export function invoiceLines(
  rows: readonly LogRow[],
  trees: readonly ContractTree[],
  clauses: readonly Clause[],
): InvoiceLine[] {
  const known = new Map(trees.map((tree) => [plainName(tree.id), tree]));
  return clauses.map((clause) => {
    const own = rows.filter((row) => {
      const tree = known.get(plainName(row.tree));
      return (
        watered(row) &&
        tree !== undefined &&
        speaksOf(clause, tree) === true &&
        bindsOn(clause, row.day, tree.planted)
      );
    });
    return {
      clause,
      trees: new Set(own.map((r) => plainName(r.tree))).size,
      visits: own.length,
      litres: own.reduce((sum, r) => sum + r.applied!, 0),
      minutes: own.reduce((sum, r) => sum + (minutesAt(r) ?? 0), 0),
      rows: own.map((r) => r.row),
    };
  });
}

/**
 * A log as a contract sees it, to be checked clause by clause. Days run from the first row to the last, unless said.
 *
 * @param rain - measured; left out: the log's own readings count on the day they were read
 */
export function serviceOfLog(
  rows: readonly LogRow[],
  trees: readonly ContractTree[],
  days: { from?: Day; to?: Day } = {},
  rain?: readonly RainDay[],
): Service {
  const place = new Map(trees.map((tree, i) => [plainName(tree.id), i]));
  const own = rows.filter((row) => place.has(plainName(row.tree)));
  const all = rows.map((r) => r.day);
  return {
    from: days.from ?? Math.min(...all),
    to: days.to ?? Math.max(...all),
    trees,
    visits: own.map((r) => ({
      tree: place.get(plainName(r.tree))!,
      day: r.day,
      litres: r.applied ?? 0,
      means: '',
    })),
    rain: rain ?? rainOfLog(rows),
  };
}

/** The greatest reading of each day: every crew reads the same sky. */
function rainOfLog(rows: readonly LogRow[]): RainDay[] | undefined {
  const most = new Map<Day, number>();
  for (const { day, rain } of rows)
    if (rain !== undefined) most.set(day, Math.max(most.get(day) ?? 0, rain));
  return most.size === 0 ? undefined : [...most].map(([day, mm]) => ({ day, mm }));
}

export interface Productivity {
  crewDays: number;
  trees: number;
  /** from the first arrival to the last leaving of each crew and day [h] */
  hours: number;
  treesPerDay: number;
  treesPerHour: number;
  /** minutes at a tree, and from one tree to the next [min] */
  minutesAtTree: number;
  minutesBetween: number;
  litresPerTree: number; // [L]
}

/** What crews got done, for the next estimate; undefined while no crew day has two visits with times. */
export function productivity(rows: readonly LogRow[]): Productivity | undefined {
  const timed = rows.filter((r) => watered(r) && minutesAt(r) !== undefined);
  const days = [...grouped(timed, (r) => (r.crew === '' ? '' : `${plainName(r.crew)}|${r.day}`)).values()].filter((own) => own.length > 1); // prettier-ignore
  if (days.length === 0) return undefined;
  const all = days.flat();
  const span = days.reduce((sum, own) => sum + Math.max(...own.map((r) => r.left!)) - Math.min(...own.map((r) => r.arrived!)), 0); // prettier-ignore
  const standing = all.reduce((sum, r) => sum + minutesAt(r)!, 0);
  const gaps = all.length - days.length;
  return {
    crewDays: days.length,
    trees: all.length,
    hours: span / 60,
    treesPerDay: all.length / days.length,
    treesPerHour: span > 0 ? (all.length * 60) / span : 0,
    minutesAtTree: standing / all.length,
    minutesBetween: Math.max(0, span - standing) / gaps,
    litresPerTree: all.reduce((sum, r) => sum + r.applied!, 0) / all.length,
  };
}
