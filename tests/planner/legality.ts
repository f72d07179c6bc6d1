/**
 * Asks of every planned watering, minute by minute and row by row, what the planner took from a season's calendar:
 * may this means water this address then? Another path through the rules than the planner's own.
 */
import type { Day } from '../../src/engine/dates.js';
import { isoDate } from '../../src/engine/dates.js';
import type { SeasonPlan, Tree, Watering } from '../../src/engine/plan/model.js';
import { allowed, type RuleQuery, type RuleTable } from '../../src/engine/rules/rule-table.js';

export interface Legality {
  /** waterings asked about */
  asked: number;
  /** a sentence for each that breaks the rules */
  broken: string[];
  /** waterings by family */
  families: Map<string, number>;
}

/** Minutes at which the windows of a plan's hours begin, and the last minute of each. */
export function edges(hours: string): { start: number; last: number }[] {
  if (hours === 'any') return [{ start: 0, last: 1439 }];
  return [...hours.matchAll(/(\d\d):(\d\d)-(\d\d):(\d\d)/g)].map((m) => {
    const [h0, m0, h1, m1] = m.slice(1).map(Number) as [number, number, number, number];
    return { start: 60 * h0 + m0, last: 60 * h1 + m1 - 1 };
  });
}

/** The question a tree and a means put to the rules: water a truck brings is not mains water. */
export function queryOf(tree: Tree, family: string, watered: readonly Day[]): RuleQuery {
  const trucked = family === 'tanker' || (family === 'bag' && tree.tap === false);
  return {
    family,
    address: tree.address,
    source: trucked ? 'tanker' : (tree.source ?? 'mains'),
    target: 'tree',
    planted: tree.planted,
    watered,
  };
}

/** Families whose water runs while somebody or a timer holds the tap open; a bag drains by itself. */
const RUNS: ReadonlySet<string> = new Set(['soaker', 'hand', 'tanker']);

/** Whether a watering may start in each of its windows and still be running in their last minute. */
function whyNot(rules: RuleTable, tree: Tree, w: Watering, watered: Day[]): string | undefined {
  const query = queryOf(tree, w.family, watered);
  const windows = edges(w.hours);
  const where = `row ${tree.row}, ${tree.address || 'no address'}, ${w.family} on ${isoDate(w.day)}, ${w.hours}`;
  if (windows.length === 0) return `${where}: the plan names no hours`;
  const length = windows.reduce((sum, { start, last }) => sum + last + 1 - start, 0);
  if (RUNS.has(w.family) && w.minutes > length + 1e-6)
    return `${where}: ${w.minutes.toFixed(0)} min do not fit into ${length} min`;
  for (const { start, last } of windows)
    for (const minute of [start, last]) {
      const answer = allowed(rules, { day: w.day, minute }, query);
      if (!answer.open) return `${where}: ${answer.reason}`;
    }
  return undefined;
}

/** Every watering of the chosen means of every tree, and every task of every crew day. */
export function legalityOf(plan: SeasonPlan, rules: RuleTable): Legality {
  const found: Legality = { asked: 0, broken: [], families: new Map() };
  const known = new Set<Watering>();
  for (const { tree, chosen } of plan.trees) {
    const watered = new Map<string, Day[]>();
    for (const w of chosen.plan) {
      const before = watered.get(w.family) ?? [];
      watered.set(w.family, before);
      known.add(w);
      // a week's share looks back six days at most
      const wrong = whyNot(rules, tree, w, before.slice(-7));
      if (wrong !== undefined) found.broken.push(wrong);
      before.push(w.day);
      found.asked++;
      found.families.set(w.family, (found.families.get(w.family) ?? 0) + tree.count);
    }
  }
  const crewed = new Map<string, Day[]>();
  for (const day of [...plan.crewDays].sort((a, b) => a.day - b.day))
    for (const stop of day.stops)
      for (const { tree, watering } of stop.tasks) {
        if (watering.day !== day.day)
          found.broken.push(
            `row ${tree.row}: a watering of ${isoDate(watering.day)} is on the crew's ${isoDate(day.day)}`,
          );
        const key = `${tree.row} ${watering.family}`;
        const before = crewed.get(key) ?? [];
        crewed.set(key, before);
        if (!known.has(watering)) {
          const wrong = whyNot(rules, tree, watering, before.slice(-7));
          if (wrong !== undefined) found.broken.push(`crew: ${wrong}`);
          found.asked++;
        }
        before.push(watering.day);
      }
  return found;
}

/**
 * Days on which the runs at one address, of all its trees, come to more minutes than the rules give a property.
 * The planner holds each tree to that limit by itself; this counts what it comes to together.
 */
export function propertyOverrun(plan: SeasonPlan, minutes: number): { days: number; over: number } {
  const runs = new Map<string, number>();
  for (const { tree, chosen } of plan.trees)
    for (const w of chosen.plan) {
      if (!RUNS.has(w.family)) continue;
      const key = `${tree.address}|${w.day}`;
      runs.set(key, (runs.get(key) ?? 0) + w.minutes * tree.count);
    }
  return { days: runs.size, over: [...runs.values()].filter((sum) => sum > minutes + 1e-6).length };
}

/** Rows that went in and are neither planned nor listed, or are both, or come back changed. */
export function lostRows(rowsIn: readonly number[], plan: SeasonPlan): string[] {
  const seen = new Map<number, number>();
  for (const row of [...plan.trees.map((t) => t.tree.row), ...plan.notPlanned.map((n) => n.row)])
    seen.set(row, (seen.get(row) ?? 0) + 1);
  const wrong = rowsIn
    .filter((row) => seen.get(row) !== 1)
    .map((row) => `row ${row}: ${seen.get(row) ?? 0} times`);
  const known = new Set(rowsIn);
  for (const row of seen.keys()) if (!known.has(row)) wrong.push(`row ${row}: from nowhere`);
  for (const { id, row, reason } of plan.notPlanned)
    if (reason.trim() === '') wrong.push(`row ${row} ${id}: listed without a reason`);
  return wrong;
}
