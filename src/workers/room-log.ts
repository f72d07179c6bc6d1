/** A filled log as the panel shows it: water and visits against the plan, questions with their cells, meters, pace. */
import { checkContract } from '../engine/contract/contract-check.js';
import { ledger } from '../engine/contract/ledger.js';
import { logFlags, type FlagKind } from '../engine/contract/log-flags.js';
import {
  productivity,
  serviceOfLog,
  treeTotals,
  type PlannedVisit,
  type TreeTotals,
} from '../engine/contract/log-totals.js';
import type { LogRow, LogTree, LogTruck } from '../engine/contract/visit-log.js';
import { isoDate } from '../engine/dates.js';
import type { Units } from '../engine/units.js';
import { plainLabel, splitHeader, text, type Cell } from '../tables/cells.js';
import { readContract } from '../tables/contract.js';
import type { InventoryReading } from '../tables/inventory/index.js';
import { GONE_WORDS } from '../tables/inventory/vocabulary.js';
import { readKit } from '../tables/kit.js';
import { readMeters } from '../tables/meters.js';
import { BELOW_LOG, LOG_COLUMNS, readVisitLog } from '../tables/visit-log.js';
import type { PlanJob } from '../workbook/plan-job.js';
import { shown, unitOf } from '../workbook/quantities.js';
import type { LogAsk, LogQuestion, LogReport, MeterLine } from './contract-types.js';
import { clauseLines, contractTreesOf, MOST_ROWS, placed } from './room-contract.js';
import { siteOf } from './room-setup.js';

/** Water of a tree may differ from its plan by this share before it is listed [-]: assumption, as the ledger's. */
const OFF = 0.1;

/** The cell a question is about. */
const ABOUT: Readonly<Record<FlagKind, keyof typeof LOG_COLUMNS>> = {
  'unknown tree': 'tree', gone: 'tree', 'before planting': 'date', times: 'arrived', 'nothing said': 'applied',
  duplicate: 'date', 'two places': 'arrived', 'two crews': 'crew', minutes: 'arrived', pump: 'applied', tank: 'applied',
  'no rain reading': 'rain', 'too regular': 'applied', 'copied day': 'applied',
}; // prettier-ignore

/** The log without what our own sheet has below it. */
function visitsOnly(cells: Cell[][]): Cell[][] {
  const end = cells.findIndex(([first]) => text(first) === BELOW_LOG);
  return end < 0 ? cells : cells.slice(0, end);
}

/** 0-based column of a kind of question; the first one where the log has no such column. */
function columnOf(header: readonly Cell[]): (kind: FlagKind) => number {
  const labels = header.map((c) => plainLabel(splitHeader(text(c)).name));
  return (kind) => {
    const { name, also = [] }: { name: string; also?: readonly string[] } =
      LOG_COLUMNS[ABOUT[kind]];
    return Math.max(0, labels.findIndex((l) => l === plainLabel(name) || also.includes(l))); // prettier-ignore
  };
}

const GONE: ReadonlySet<string> = new Set(GONE_WORDS.map(plainLabel));

/** Every tree the inventory names; one whose status says so is gone, since when is not known. */
function logTreesOf({ rows, matches }: InventoryReading): LogTree[] {
  const column = (meaning: string): number =>
    matches.find((m) => m.meaning === meaning)?.column ?? -1;
  const [id, status] = [column('id'), column('status')];
  return rows.flatMap(({ cells, tree }): LogTree[] => {
    const name = tree?.id ?? text(cells[id]);
    const word = plainLabel(text(cells[status]));
    if (name === '') return [];
    const gone = tree === undefined && GONE.has(word) ? { word, since: null } : undefined;
    return [{ id: name, planted: tree?.planted, gone }];
  });
}

/** Trucks with pump and tank of the kit, where the kit is the person's own. */
const trucksOf = (kit: Cell[][] | undefined): LogTruck[] | undefined =>
  kit &&
  readKit(kit)
    .kit.filter(({ family }) => family === 'tanker')
    .map(({ name, flow, volume }) => ({ name, flow, tank: volume }));

/** Waterings of the plan between two days. */
const plannedOf = ({ plan }: PlanJob, from: number, to: number): PlannedVisit[] =>
  plan.trees.flatMap(({ tree, chosen }) =>
    chosen.plan
      .filter(({ day }) => day >= from && day <= to)
      .map(({ day, litres }) => ({ tree: tree.id, day, litres })),
  );

/** Trees that differ from the plan: visits missed, or water off. */
function differing(totals: readonly TreeTotals[]): TreeTotals[] {
  const off = ({ planned, applied }: TreeTotals): number => Math.abs(applied - planned);
  return totals
    .filter((t) => t.missed > 0 || off(t) > OFF * t.planned)
    .sort((a, b) => b.missed - a.missed || off(b) - off(a))
    .slice(0, MOST_ROWS);
}

const total = (rows: readonly LogRow[], value: (row: LogRow) => number | undefined): number =>
  rows.reduce((sum, row) => sum + (value(row) ?? 0), 0);

function metersOf(
  cells: Cell[][],
  rows: readonly LogRow[],
  units: Units,
): NonNullable<LogReport['meters']> {
  const { meters, problems } = readMeters(cells);
  const book = ledger(meters, rows, undefined, units);
  const volume = (litres: number): number => shown('volume', units, litres);
  return {
    rows: book.rows.map(({ meter, used, logged, agrees, over, cost, questions }): MeterLine => ({
      row: meter.row,
      meter: meter.meter,
      from: isoDate(meter.from),
      to: isoDate(meter.to),
      ...(used !== undefined && { used: volume(used) }),
      logged: volume(logged),
      ...(agrees !== undefined && { agrees }),
      over: volume(over),
      ...(cost !== undefined && { cost }),
      questions,
    })),
    used: volume(book.used),
    logged: volume(book.logged),
    cost: book.cost,
    unmetered: { water: volume(book.unmetered.litres), rows: book.unmetered.rows.length },
    problems: problems.map(placed),
  };
}

function questionsOf(
  rows: readonly LogRow[],
  header: readonly Cell[],
  inventory: InventoryReading,
  kit: LogTruck[] | undefined,
  units: Units,
): LogQuestion[] {
  const byRow = new Map(rows.map((row) => [row.row, row]));
  const place = columnOf(header);
  return logFlags(rows, { trees: logTreesOf(inventory), kit, units }).map((flag) => {
    const { tree, day } = byRow.get(flag.row)!;
    return { ...flag, column: place(flag.kind), id: tree, day: isoDate(day) };
  });
}

/**
 * @param inventory - the trees the log is asked about with
 * @param job - the plan to hold it against, if any
 */
export function logReport(
  { cells, meters, contract, draft }: LogAsk,
  inventory: InventoryReading,
  job: PlanJob | undefined,
): LogReport {
  const { units, kit } = draft;
  const log = readVisitLog(visitsOnly(cells));
  const { rows } = log;
  const volume = (litres: number): number => shown('volume', units, litres);
  const days = rows.map(({ day }) => day);
  const [from, to] = [Math.min(...days), Math.max(...days)];
  const totals = treeTotals(rows, job && rows.length > 0 ? plannedOf(job, from, to) : []);
  const sum = (value: (t: TreeTotals) => number): number => totals.reduce((s, t) => s + value(t), 0);
  const said = rows.some(({ planned }) => planned !== undefined);
  const planned = job ? sum((t) => t.planned) : said ? total(rows, (r) => r.planned) : undefined;
  const questions = questionsOf(rows, cells[log.headerRow - 1] ?? [], inventory, trucksOf(kit), units);
  const trees = contractTreesOf(inventory.rows.flatMap(({ tree }) => tree ?? []));
  const { clauses } = readContract(contract ?? []);
  const judged = rows.length > 0 && clauses.length > 0 && trees.length > 0;
  const pace = productivity(rows);
  return {
    rows: rows.length,
    from: rows.length > 0 ? isoDate(from) : '',
    to: rows.length > 0 ? isoDate(to) : '',
    made: sum((t) => t.made),
    skipped: sum((t) => t.skipped),
    ...(job && { missed: sum((t) => t.missed) }),
    applied: volume(sum((t) => t.applied)),
    ...(planned !== undefined && { planned: volume(planned) }),
    trees: (job ? differing(totals) : []).map(({ tree, planned, applied, ...counts }) => ({
      id: tree, ...counts, planned: volume(planned), applied: volume(applied),
    })),
    questions,
    asked: new Set(questions.map(({ row }) => row)).size,
    ...(meters && { meters: metersOf(meters, rows, units) }),
    ...(judged && { contract: clauseLines(checkContract(serviceOfLog(rows, trees), clauses), trees, units) }),
    ...(pace && {
      pace: {
        treesPerDay: pace.treesPerDay,
        minutesAtTree: pace.minutesAtTree,
        minutesBetween: pace.minutesBetween,
        perTree: volume(pace.litresPerTree),
      },
    }),
    problems: log.problems.map(placed),
    waterUnit: unitOf('volume', units),
    currency: siteOf(draft, undefined).site.currency,
  };
} // prettier-ignore
