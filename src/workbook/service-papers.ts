/** The papers of a service beside its plan: contract, log of visits, meters, clocks, bags, and limits when water is short. */
import type { BagRow } from '../engine/contract/bag-register.js';
import type { Clause } from '../engine/contract/clauses.js';
import type { MeterRow } from '../engine/contract/ledger.js';
import type { LogRow, LogTree } from '../engine/contract/visit-log.js';
import { plainName } from '../engine/contract/visit-log.js';
import { moreOfEach, seasonCandidates } from '../engine/contract/triage-season.js';
import { nextSaving, triage, type NextSaving, type Triage } from '../engine/contract/triage.js';
import type { Day } from '../engine/dates.js';
import { atMost } from './season-news.js';
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

/** Papers that are filled while the season runs; the plan does not rest on them. */
export type LivingPapers = Pick<GivenPapers, 'visits' | 'meters' | 'clocks' | 'bags'>;

/** The papers among other parts. */
export const papersIn = (parts: GivenPapers): GivenPapers =>
  Object.fromEntries(PAPERS.flatMap((name) => (parts[name] ? [[name, parts[name]]] : [])));

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
  /** limits, where water is short; undefined where none were given */
  short: Shortage | undefined;
  /** the papers of a plan; undefined where none was given */
  papersOf: (shortage?: ShortageAnswer) => ServicePapers | undefined;
  /** what could not be used, a sentence each */
  problems: string[];
}

/** Reads the papers. @returns never throws for what cells hold */
export function readPapers(given: GivenPapers, inventory: InventoryReading): PapersReading {
  const problems: string[] = [];
  const noted = <T extends { problems: string[] }>(sheet: string, reading: T): T => {
    const said = reading.problems.map((p) => `Sheet ${sheet}: ${p}.`.replace(/\.\.$/, '.'));
    problems.push(...atMost(said, `rows of the sheet ${sheet} that were not used`));
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
  const papersOf: PapersReading['papersOf'] = (shortage) =>
    PAPERS.some(has)
      ? {
          contractRows: rows('contract'),
          clauses, log, meters, bags, trees,
          ...(shortage && { shortage }),
        }
      : undefined; // prettier-ignore
  return { clauses, short, papersOf, problems };
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
  const next = moreOfEach(budgets, result.selection.left, thousand).map(({ which, more }) =>
    nextSaving(trees, budgets, short.order, day, which, more),
  );
  return { ...short, result, next };
}
