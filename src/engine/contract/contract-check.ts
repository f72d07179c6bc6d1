/** A plan, or a log of what was done, against a contract: each clause met, short by how much, and where. */
import { civil, dayOf, isoDate, type Day } from '../dates.js';
import type { SeasonPlan } from '../plan/model.js';
import type { RainDay } from '../rules/rule-types.js';
import {
  bindsOn,
  goesByAge,
  speaksOf,
  windowsOf,
  type Clause,
  type ContractTree,
  type Window,
} from './clauses.js';
import { several } from './say.js';

/** One watering of one row of trees. */
export interface ServiceVisit {
  /** index into the trees of the service */
  tree: number;
  day: Day;
  /** for one tree [L] */
  litres: number;
  /** family of the means; "" where it is not known */
  means: string;
}

/** What was or will be done between two days, both included. */
export interface Service {
  from: Day;
  to: Day;
  trees: readonly ContractTree[];
  visits: readonly ServiceVisit[];
  /** undefined: nothing is known of rain, so no clause is skipped for it */
  rain?: readonly RainDay[] | undefined;
}

/** Less, or for a cap more, than a clause asks: one tree, one visit, week or month. */
export interface Shortfall extends Window {
  /** index of the tree; -1 for a cap, which is about all trees together */
  tree: number;
  what: 'gallons' | 'visits' | 'cap';
  asked: number; // [L] or visits
  found: number; // [L] or visits
}

export type ClauseVerdict = 'met' | 'short' | 'over' | 'nobody' | 'cannot tell';

export interface ClauseResult {
  clause: Clause;
  verdict: ClauseVerdict;
  /** trees the clause speaks of, like ones counted */
  trees: number;
  /** visits, weeks and months that were judged */
  judged: number;
  /** visits that rain stood for */
  excused: number;
  /** water that lacks, like trees counted; for a cap what lies above it [L] */
  litres: number;
  /** visits that lack, like trees counted */
  visits: number;
  /** cost of the water above a cap [money]; undefined where the clause names no price */
  cost: number | undefined;
  shortfalls: Shortfall[];
  /** where, or why it cannot be told, in a sentence without volumes */
  where: string;
}

const visitOf = ({ litres }: ServiceVisit): boolean => litres > 0;

/** Spans of rain within a window that stand for a visit each, none of them overlapping. */
function rainSpans(
  { from, to }: Window,
  skip: NonNullable<Clause['skip']>,
  rain: ReadonlyMap<Day, number>,
): number {
  let spans = 0;
  for (let start = from, day = from, sum = 0; day <= to; day++) {
    sum += rain.get(day) ?? 0;
    if (day - start >= skip.days) sum -= rain.get(start++) ?? 0;
    if (sum < skip.mm - 1e-9) continue;
    spans++;
    start = day + 1;
    sum = 0;
  }
  return spans;
}

class Checker {
  private readonly byTree: ServiceVisit[][];
  private readonly rain: ReadonlyMap<Day, number>;

  constructor(private readonly service: Service) {
    this.byTree = service.trees.map(() => []);
    for (const visit of service.visits) if (visitOf(visit)) this.byTree[visit.tree]?.push(visit);
    const sums = new Map<Day, number>();
    for (const { day, mm } of service.rain ?? []) sums.set(day, (sums.get(day) ?? 0) + mm);
    this.rain = sums;
  }

  check(clause: Clause): ClauseResult {
    const result: ClauseResult = {
      clause, verdict: 'met', trees: 0, judged: 0, excused: 0, litres: 0, visits: 0, cost: undefined,
      shortfalls: [], where: '',
    }; // prettier-ignore
    const own: number[] = [];
    let unknown = '';
    this.service.trees.forEach((tree, i) => {
      const speaks = speaksOf(clause, tree);
      const undated = goesByAge(clause) && tree.planted === undefined && speaks !== false;
      if (speaks === true && !undated) own.push(i);
      else if (speaks !== false)
        unknown ||= `${tree.id}: ${undated ? 'its planting date' : String(speaks).replace(' is not known', '')} is not known`;
    });
    result.trees = own.reduce((sum, i) => sum + this.service.trees[i]!.count, 0);
    for (const i of own) this.minimums(clause, i, result);
    if (clause.most) this.cap(clause, own, result);
    return settled(result, this.service, unknown);
  }

  private minimums(clause: Clause, i: number, result: ClauseResult): void {
    const { from, to, trees } = this.service;
    const { planted, count } = trees[i]!;
    const counts = (v: ServiceVisit): boolean =>
      clause.means === null || v.means === '' || clause.means.includes(v.means);
    const visits = this.byTree[i]!.filter((v) => counts(v) && bindsOn(clause, v.day, planted));
    const add = (short: Omit<Shortfall, 'tree'>): void => {
      result.judged++;
      if (!(short.found < short.asked * (1 - 1e-9))) return;
      result.shortfalls.push({ tree: i, ...short });
      const lacks = (short.asked - short.found) * count;
      if (short.what === 'visits') result.visits += lacks;
      else result.litres += lacks;
    };
    const { least, visits: often } = clause;
    if (least?.per === 'visit')
      for (const { day, litres } of visits)
        if (day >= from && day <= to)
          add({ from: day, to: day, what: 'gallons', asked: least.litres, found: litres });
    const per = often?.per ?? (least?.per === 'visit' ? undefined : least?.per);
    if (per === undefined) return;
    for (const window of windowsOf(clause, per, from, to, planted)) {
      const inside = visits.filter((v) => v.day >= window.from && v.day <= window.to);
      const asked = often?.count ?? 1;
      const spans = clause.skip ? rainSpans(window, clause.skip, this.rain) : 0;
      const excused = Math.min(asked, spans);
      result.excused += excused * count;
      if (often) add({ ...window, what: 'visits', asked: asked - excused, found: inside.length });
      if (least && least.per === per)
        add({
          ...window,
          what: 'gallons',
          asked: least.litres * (1 - excused / asked),
          found: inside.reduce((sum, v) => sum + v.litres, 0),
        });
    }
    if (often && least && least.per !== 'visit' && least.per !== often.per)
      this.minimums({ ...clause, visits: null }, i, result);
  }

  private cap(clause: Clause, own: readonly number[], result: ClauseResult): void {
    const { litres: most, per, price } = clause.most!;
    const sums = new Map<string, Window & { litres: number }>();
    for (const i of own)
      for (const visit of this.byTree[i]!) {
        if (!bindsOn(clause, visit.day, this.service.trees[i]!.planted)) continue;
        const window = spanOf(visit.day, per, this.service);
        const sum = sums.get(String(window.from)) ?? { ...window, litres: 0 };
        sum.litres += visit.litres * this.service.trees[i]!.count;
        sums.set(String(window.from), sum);
      }
    for (const { from, to, litres } of [...sums.values()].sort((a, b) => a.from - b.from)) {
      result.judged++;
      if (litres <= most * (1 + 1e-9)) continue;
      result.shortfalls.push({ tree: -1, from, to, what: 'cap', asked: most, found: litres });
      result.litres += litres - most;
    }
    if (price !== null) result.cost = (result.litres / 1000) * price;
  }
}

function spanOf(day: Day, per: 'week' | 'month' | 'season', { from, to }: Service): Window {
  if (per === 'season') return { from, to };
  const { year, month } = civil(day);
  const start = per === 'week' ? day - ((day + 5) % 7) : dayOf(year, month, 1);
  const next = per === 'week' ? start + 7 : dayOf(month === 12 ? year + 1 : year, (month % 12) + 1, 1); // prettier-ignore
  return { from: start, to: next - 1 };
}

const spanWords = ({ from, to }: Window): string =>
  from === to
    ? `on ${isoDate(from)}`
    : to - from === 6
      ? `in the week from ${isoDate(from)}`
      : `from ${isoDate(from)} to ${isoDate(to)}`;

function settled(result: ClauseResult, { trees }: Service, unknown: string): ClauseResult {
  const { shortfalls, judged } = result;
  const [first] = shortfalls;
  if (first) {
    result.verdict = first.what === 'cap' ? 'over' : 'short';
    const rows = new Set(shortfalls.map((s) => s.tree)).size;
    const at = spanWords(first);
    result.where =
      first.what === 'cap'
        ? `${several(shortfalls.length, 'time')}, first ${at}`
        : `${several(rows, 'row')} of trees, ${several(shortfalls.length, 'time')}; first ${trees[first.tree]!.id} ${at}`;
  } else if (unknown !== '') {
    result.verdict = 'cannot tell';
    result.where = unknown;
  } else if (result.trees === 0) {
    result.verdict = 'nobody';
    result.where = 'no tree is spoken of';
  } else if (judged === 0) {
    result.verdict = 'cannot tell';
    result.where = result.clause.most ? '' : 'no whole week, month or visit lies in these days';
    if (result.clause.most) result.verdict = 'met';
  }
  if (first && unknown !== '') result.where += `; besides, ${unknown}`;
  return result;
}

/**
 * Judges a plan or a log by each clause. Whole weeks (Mon–Sun; counted from planting where a clause goes by age) and whole
 * months only. A clause with visits and rain to skip for asks for one visit less for each span of rain.
 *
 * @param service - what was or will be done
 * @param clauses - of the contract
 * @returns a result for each clause, in their order
 */
export function checkContract(service: Service, clauses: readonly Clause[]): ClauseResult[] {
  const checker = new Checker(service);
  return clauses.map((clause) => checker.check(clause));
}

/** The trees and waterings of a season plan as a contract sees them. @param rain - measured, where known */
export function serviceOf(plan: SeasonPlan, rain?: readonly RainDay[]): Service {
  return {
    from: plan.site.seasonFrom,
    to: plan.site.seasonTo,
    trees: plan.trees.map(({ tree }) => ({
      id: tree.id, row: tree.row, count: tree.count, species: tree.species, site: tree.site,
      caliper: tree.caliper, height: tree.height, planted: tree.planted,
    })), // prettier-ignore
    visits: plan.trees.flatMap(({ chosen }, tree) =>
      chosen.plan.map(({ day, litres, family }) => ({ tree, day, litres, means: family })),
    ),
    rain,
  };
}
