/** The papers of a service beside its plan: contract, log of visits, meters, clocks, bags, and limits when water is short. */
import type { BagRow } from '../engine/contract/bag-register.js';
import type { Clause } from '../engine/contract/clauses.js';
import type { MeterRow } from '../engine/contract/ledger.js';
import type { LogRow, LogTree } from '../engine/contract/visit-log.js';
import { plainName } from '../engine/contract/visit-log.js';
import { seasonCandidates } from '../engine/contract/triage-season.js';
import { nextSaving, triage, type NextSaving, type Triage } from '../engine/contract/triage.js';
import type { Day } from '../engine/dates.js';
import type { SeasonPlan } from '../engine/plan/model.js';
import type { SeasonInput } from '../engine/plan/season.js';
import { L_PER_GALLON, type Units } from '../engine/units.js';
import { text, type Cell } from '../tables/cells.js';
import { readBags, readClocks, type ClockRow } from '../tables/clocks.js';
import { readContract } from '../tables/contract.js';
import type { InventoryReading } from '../tables/inventory/index.js';
import { readMeters } from '../tables/meters.js';
import { readShortage, type Shortage } from '../tables/shortage.js';
import { readVisitLog } from '../tables/visit-log.js';

/** Tables as they are given, header row first; what is not given is undefined. */
export interface GivenPapers {
  contract?: Cell[][];
  visits?: Cell[][];
  meters?: Cell[][];
  clocks?: Cell[][];
  bags?: Cell[][];
  shortage?: Cell[][];
}
export const PAPERS = ['contract', 'visits', 'meters', 'clocks', 'bags', 'shortage'] as const satisfies readonly (keyof GivenPapers)[]; // prettier-ignore

/** A tree of the inventory as the papers know it. */
export interface PaperTree {
  id: string;
  row: number;
  species: string;
  site: string;
  caliper?: number | undefined; // [mm]
  height?: number | undefined; // [m]
  planted?: Day | undefined;
  clock?: ClockRow | undefined;
}

/** Who is served with what there is, and what a little more of each limit would save. */
export interface ShortageAnswer extends Shortage {
  result: Triage;
  /** rows of the plan in the order of the result */
  next: NextSaving[];
}

export interface ServicePapers {
  contractRows: Cell[][];
  clauses: Clause[];
  log: LogRow[];
  meters: MeterRow[];
  bags: BagRow[];
  trees: PaperTree[];
  shortage?: ShortageAnswer;
}

export interface PapersReading {
  clauses: Clause[];
  /** the papers of a plan; undefined where none was given */
  papersOf: (plan: SeasonPlan, season: SeasonInput, units: Units) => ServicePapers | undefined;
  /** what could not be used, a sentence each */
  problems: string[];
}

/** Reads the papers. @returns never throws for what cells hold */
export function readPapers(given: GivenPapers, inventory: InventoryReading): PapersReading {
  const problems: string[] = [];
  const noted = <T extends { problems: string[] }>(sheet: string, reading: T): T => {
    problems.push(...reading.problems.map((p) => `Sheet ${sheet}: ${p}.`.replace(/\.\.$/, '.')));
    return reading;
  };
  const rows = (name: keyof GivenPapers): Cell[][] => given[name] ?? [];
  const has = (name: keyof GivenPapers): boolean => rows(name).length > 0;
  const clauses = has('contract') ? noted('Contract', readContract(rows('contract'))).clauses : [];
  const log = has('visits') ? byDay(noted('Log', readVisitLog(rows('visits'))).rows) : [];
  const meters = has('meters') ? noted('Meters', readMeters(rows('meters'))).meters : [];
  const clocks = has('clocks') ? noted('Clocks', readClocks(rows('clocks'))).clocks : [];
  const bags = has('bags') ? noted('Clocks', readBags(rows('bags'))).bags : [];
  const short = has('shortage') ? noted('Shortage', readShortage(rows('shortage'))).shortage : undefined; // prettier-ignore
  const trees = paperTrees(inventory, clocks);
  const papersOf: PapersReading['papersOf'] = (plan, season, units) =>
    PAPERS.some(has)
      ? {
          contractRows: rows('contract'),
          clauses, log, meters, bags, trees,
          ...(short && { shortage: shortageOf(short, plan, season, units) }),
        }
      : undefined; // prettier-ignore
  return { clauses, papersOf, problems };
}

/** In the order of the days, rows numbered as they will stand: the sheet counts from above. */
const byDay = (rows: readonly LogRow[]): LogRow[] =>
  [...rows].sort((a, b) => a.day - b.day).map((row, i) => ({ ...row, row: i + 2 }));

/** Every row of the inventory that names a tree, also those that could not be planned. */
function paperTrees(inventory: InventoryReading, clocks: readonly ClockRow[]): PaperTree[] {
  const byTree = new Map(clocks.map((clock) => [plainName(clock.tree), clock]));
  const idColumn = inventory.matches.find((m) => m.meaning === 'id')?.column ?? -1;
  return inventory.rows.map(({ row, cells, tree }): PaperTree => {
    const id = tree?.id || text(cells[idColumn]) || String(row);
    const clock = byTree.get(plainName(id));
    return {
      id, row, species: tree?.species ?? '', site: tree?.site ?? '', caliper: tree?.caliper,
      height: tree?.height, planted: clock?.planted ?? tree?.planted, clock,
    }; // prettier-ignore
  });
}

/** The trees a log is asked about with. */
export const logTrees = (trees: readonly PaperTree[]): LogTree[] =>
  trees.map(({ id, planted, clock }) => ({
    id,
    planted,
    ...(clock &&
      clock.status !== 'alive' && { gone: { word: clock.status, since: clock.since ?? null } }),
  }));

/** An hour of a crew of one, in minutes. */
const HOUR = 60;

/**
 * Who is served within the limits, and what the next 1,000 gal (1,000 L) or crew hour would save.
 * @throws Problem as `triage`
 */
export function shortageOf(
  short: Shortage,
  plan: SeasonPlan,
  season: SeasonInput,
  units: Units,
): ShortageAnswer {
  const { trees, budgets } = seasonCandidates(season, plan, short.limits, ({ chosen }) => ({
    stressDays: chosen.stressDays,
  }));
  const day = plan.site.seasonFrom;
  const result = triage(trees, budgets, short.order, day);
  const thousand = units === 'US' ? 1000 * L_PER_GALLON : 1000;
  // of the weeks the one with least left is worth more first
  const tightest = (kind: string): number => {
    const of = budgets.map((b, k) => ({ k, left: result.selection.left[k]! / b.amount, name: b.name })).filter((b) => b.name.startsWith(kind)); // prettier-ignore
    return of.sort((a, b) => a.left - b.left)[0]?.k ?? -1;
  };
  const kinds: [string, number][] = [
    ['water in the week', thousand],
    ['crew minutes', HOUR],
    ['water of the season', thousand],
  ];
  const next = kinds.flatMap(([kind, more]) => {
    const k = tightest(kind);
    return k < 0 ? [] : [nextSaving(trees, budgets, short.order, day, k, more)];
  });
  return { ...short, result, next };
}
