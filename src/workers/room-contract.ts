/** A contract as the panel shows it: what was understood, and the last plan by it, law and need beside it. */
import type { Clause, ContractTree } from '../engine/contract/clauses.js';
import { checkContract, serviceOf, type ClauseResult } from '../engine/contract/contract-check.js';
import { contractAgainstRules } from '../engine/contract/contract-law.js';
import { contractAgainstNeed } from '../engine/contract/contract-need.js';
import { isoDate } from '../engine/dates.js';
import { estimate } from '../engine/money/estimate.js';
import { FAMILIES, type SeasonPlan, type Tree } from '../engine/plan/model.js';
import type { Units } from '../engine/units.js';
import { readContract } from '../tables/contract.js';
import type { PlanJob } from '../workbook/plan-job.js';
import { shown, unitOf } from '../workbook/quantities.js';
import { clauseSentence } from './clause-sentence.js';
import type {
  ClauseLine,
  ContractAsk,
  ContractJudgement,
  ContractReport,
  ServiceSums,
} from './contract-types.js';

/** More rows are not read by anybody. */
export const MOST_ROWS = 300;
/** How a row says that it is to be replaced. */
const EXAMPLE = /^example\b/i;
const ROW = /^row (\d+): /;

/** "row 4: …" as the row and the rest; row 0 speaks of the table as a whole. */
export function placed(sentence: string): { row: number; sentence: string } {
  const [start = '', row] = ROW.exec(sentence) ?? [];
  return { row: Number(row ?? 0), sentence: sentence.slice(start.length) };
}

/** Trees of an inventory as a contract sees them. */
export const contractTreesOf = (trees: readonly Tree[]): ContractTree[] =>
  trees.map(({ id, row, count, species, site, caliper, height, planted }) => ({
    id, row, count, species, site, caliper, height, planted,
  })); // prettier-ignore

/** Results of a check in the draft's units. @param trees - of the service that was checked */
export function clauseLines(
  results: readonly ClauseResult[],
  trees: readonly ContractTree[],
  units: Units,
): ClauseLine[] {
  return results.map(({ clause, verdict, litres, visits, excused, cost, shortfalls, where, ...rest }) => {
    const [first] = shortfalls;
    const tree = first && trees[first.tree];
    const besides = where.indexOf('besides, ');
    return {
      row: clause.row,
      verdict,
      trees: rest.trees,
      water: shown('volume', units, litres),
      visits,
      excused,
      ...(cost !== undefined && { cost }),
      ...(first && {
        first: {
          row: tree?.row ?? 0,
          id: tree?.id ?? '',
          from: isoDate(first.from),
          to: isoDate(first.to),
          rows: new Set(shortfalls.map((s) => s.tree)).size,
          times: shortfalls.length,
        },
      }),
      why: verdict === 'cannot tell' ? where : besides < 0 ? '' : where.slice(besides),
    };
  });
} // prettier-ignore

function sums(plan: SeasonPlan, job: PlanJob, met: number, units: Units): ServiceSums {
  const total = (value: (chosen: SeasonPlan['trees'][number]['chosen']) => number): number =>
    plan.trees.reduce((sum, { chosen, tree }) => sum + value(chosen) * tree.count, 0);
  return {
    waterings: total(({ waterings }) => waterings),
    water: shown(
      'volume',
      units,
      total(({ litres }) => litres),
    ),
    price: estimate(plan, job.setup.kit).price,
    met,
  };
}

const metIn = (results: readonly ClauseResult[]): number =>
  results.filter(({ verdict }) => verdict === 'met').length;

function judgement(job: PlanJob, clauses: readonly Clause[], ask: ContractAsk): ContractJudgement {
  const { plan, season, setup } = job;
  const { units } = ask;
  const service = serviceOf(plan);
  const results = checkContract(service, clauses);
  const families = FAMILIES.filter((f) => setup.kit.some((device) => device.family === f));
  const { seasonFrom, seasonTo, currency } = plan.site;
  const trees = plan.trees.map(({ tree }) => tree);
  const fights = contractAgainstRules(trees, clauses, season.rules, seasonFrom, seasonTo, families);
  const needs = contractAgainstNeed(plan, clauses).filter(({ surplus }) => surplus > 0);
  const volume = (litres: number): number => shown('volume', units, litres);
  const { bare } = job;
  const more = (old: SeasonPlan): number =>
    plan.trees.filter(({ chosen }, t) => chosen.waterings > old.trees[t]!.chosen.waterings).length;
  return {
    clauses: clauseLines(results, service.trees, units),
    fights: fights.map(({ clause, sentence }) => ({ row: clause.row, sentence })),
    surplus: {
      water: volume(needs.reduce((sum, n) => sum + n.surplus, 0)),
      cost: needs.reduce((sum, n) => sum + n.cost, 0),
      count: needs.length,
      rows: [...needs]
        .sort((a, b) => b.surplus - a.surplus)
        .slice(0, MOST_ROWS)
        .map(({ tree: { tree }, contract, plan: used, surplus }) => ({
          row: tree.row,
          id: tree.id,
          asked: volume(contract * tree.count),
          used: volume(used * tree.count),
          surplus: volume(surplus),
        })),
    },
    plan: sums(plan, job, metIn(results), units),
    ...(bare && {
      bare: {
        ...sums(bare, job, metIn(checkContract(serviceOf(bare), clauses)), units),
        rows: more(bare),
      },
    }),
    currency,
  };
}

/**
 * @param job - the plan to judge; left out: the contract is only read
 * @throws Problem as the rules and the planner
 */
export function contractReport(ask: ContractAsk, job: PlanJob | undefined): ContractReport {
  const { clauses, problems } = readContract(ask.cells);
  return {
    understood: clauses.map((clause) => ({
      row: clause.row,
      sentence: clauseSentence(clause, ask.units),
      example: EXAMPLE.test(clause.source),
    })),
    problems: problems.map(placed),
    waterUnit: unitOf('volume', ask.units),
    ...(job && clauses.length > 0 && { judged: judgement(job, clauses, ask) }),
  };
}
