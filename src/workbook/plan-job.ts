/** From tables to a plan and its workbook: what the command line, the desk and the tests all run. */
import { isoDate, type Day } from '../engine/dates.js';
import type { Solve } from '../engine/plan/solve.js';
import { stockLimits } from '../engine/plan/stock.js';
import { withinStock, type StockedSeason } from '../engine/plan/within-stock.js';
import { crewedSeason, type CrewedSeason } from '../engine/plan/crewed-season.js';
import { replan } from '../engine/plan/replan.js';
import { planSeason, type SeasonInput } from '../engine/plan/season.js';
import type { OwedTo } from '../engine/plan/shift-limits.js';
import { owedTo } from '../engine/contract/contract-plan.js';
import { whatIf, type WhatIfRow } from '../engine/plan/what-if.js';
import type { SeasonPlan, Tree } from '../engine/plan/model.js';
import { Problem } from '../engine/problems.js';
import { numberNotice, parseRules } from '../engine/rules/rule-table.js';
import type { Units } from '../engine/units.js';
import { text, type Cell } from '../tables/cells.js';
import { readInventory, type InventoryReading } from '../tables/inventory/index.js';
import { readWeather } from '../tables/weather.js';
import { buildWorkbook } from './build.js';
import type { CrewLanguage } from './crew-words.js';
import { exampleSetup, type Setup } from './example-setup.js';
import type { WorkbookModel } from './model.js';
import { atMost, balanceCaveat, changesOf, newsOf, silences, stagesWith, type Again, type Changes } from './season-news.js'; // prettier-ignore
import {
  papersIn,
  readPapers,
  shortageOf,
  type LivingPapers,
  type PapersReading,
  type ServicePapers,
  type ShortageAnswer,
} from './service-papers.js';
import { keptAhead, keptContract } from './contract-kept.js';
import { shortageOfBy } from './shortage-proven.js';
import type { Shortage } from '../tables/shortage.js';
import { questions } from './sheets/what-if.js';

export interface PlanJobInput extends Partial<Setup> {
  inventory: Cell[][];
  /** "row,column", 0-based, of inventory cells shown as dates */
  dateCells?: Set<string>;
  /** the inventory, where it was read already */
  reading?: InventoryReading;
  fileName: string;
  /** the day the plan is made on; the engine has no clock */
  madeOn: Day;
  units?: Units;
  title?: string;
  paper?: 'letter' | 'a4';
  crewLanguage?: CrewLanguage;
  /** sentences from reading the files, to be shown with the plan */
  notes?: string[];
  /** plan the season with one thing changed at a time as well, for the sheet What if */
  whatIf?: boolean;
  onProgress?: (done: number, total: number) => void;
  /** stops the planning */
  signal?: { readonly aborted: boolean };
}

export interface PlanJob {
  plan: SeasonPlan;
  reading: InventoryReading;
  setup: Setup;
  /** what the season was planned from */
  season: SeasonInput;
  /** the plan before the contract's least visits were kept, where they add any */
  bare?: SeasonPlan;
  /** what was assumed or left out before planning, a sentence each */
  notes: string[];
  /** what was done to the visits, a sentence each: nothing to look at */
  remarks: string[];
  /** built when it is read first */
  readonly model: WorkbookModel;
  /**
   * The workbook, with a sheet of these answers if there are any.
   *
   * @param fresh - log, meters, clocks and bags as they are by now, in the place of those that were planned with
   */
  workbook(asked?: readonly WhatIfRow[], fresh?: LivingPapers): WorkbookModel;
  /** the season as it is first; where they were asked for */
  whatIf?: WhatIfRow[];
}

/** A season planned again from a day within it. */
export interface ReplannedJob extends PlanJob {
  /** the plan the season was begun with */
  before: SeasonPlan;
  changes: Changes;
  /** rows of the log that were not used, a sentence each */
  refused: string[];
  /** what readings mean and what was assumed, a sentence each */
  said: string[];
}

const EXAMPLE_PARTS: readonly (readonly [keyof Setup, string])[] = [
  ['site', 'site'],
  ['kit', 'kit'],
  ['rules', 'rules'],
  ['weather', 'weather'],
];

const median = (numbers: number[]): number | undefined => {
  const sorted = [...numbers].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
};

/** Latitude of the example when neither site nor inventory give one [deg]. */
const EXAMPLE_LATITUDE = 33;

/** The given parts, the example for the rest, and a note for whatever is an example. */
function complete(input: PlanJobInput, trees: Tree[]): { setup: Setup; notes: string[] } {
  const own = median(trees.flatMap((t) => (t.latitude === undefined ? [] : [t.latitude])));
  const example = exampleSetup(
    input.site?.latitude ?? own ?? EXAMPLE_LATITUDE,
    input.units ?? 'US',
  );
  const setup: Setup = {
    site: input.site ?? example.site,
    origins: input.site
      ? (input.origins ?? {})
      : own === undefined
        ? {}
        : { latitude: 'inventory' },
    kit: input.kit ?? example.kit,
    rules: input.rules ?? example.rules,
    // Without rules of their own, stages would speak of nothing.
    stages: input.stages ?? (input.rules ? [] : example.stages),
    weather: input.weather ?? example.weather,
    ...papersIn(input),
  };
  const missing = EXAMPLE_PARTS.filter(([part]) => input[part] === undefined).map(
    ([, word]) => word,
  );
  const notes: string[] = [];
  if (missing.length > 0)
    notes.push(
      `Planned with the built-in example for: ${missing.join(', ')}. The numbers are invented; replace them by yours.`,
    );
  if (input.site === undefined)
    notes.push(
      own === undefined
        ? `No latitude was given: ${EXAMPLE_LATITUDE} degrees north of the example is used.`
        : `Latitude ${own.toFixed(2)} is the middle of the inventory's own coordinates.`,
    );
  return { setup, notes };
}

/**
 * Reads, plans and builds.
 *
 * @throws Problem if the inventory holds no table, the kit is empty, or the weather does not cover the season
 */
export function planFromTables(input: PlanJobInput): PlanJob {
  const ready = readyJob(input);
  const { season, finish, build, papers, units } = ready;
  if (limited(season))
    throw new Problem(
      'a plan within the stock is made by a solver; ask for it with planFromTablesBy',
    );
  const { plan, bare } = finish(planSeason(season));
  const { short } = papers;
  return build(plan, { bare, shortage: short && shortageOf(short, plan, season, units) });
}

/**
 * The same with a season planned elsewhere, by workers for instance, and within the stock of what may not be bought.
 *
 * @param solve - the solver for a short stock and for who is served; without one the choice is greedy, and a note says so
 * @throws Problem as `planFromTables`, or whatever the planner throws
 */
export async function planFromTablesBy(
  input: PlanJobInput,
  planner: (season: SeasonInput) => Promise<SeasonPlan>,
  solve?: Solve,
): Promise<PlanJob> {
  const { season, finish, build, papers, units } = readyJob(input);
  const stocked = await withinStock(season, await planner(season), solve);
  const { plan, bare } = finish(stocked.plan, stocked);
  const shortage = await whoIsServed(papers.short, plan, season, units, solve);
  return build(plan, { bare, shortage });
}

/**
 * Plans the season as `planFromTablesBy` does, then its rest again from a day on, with what really happened before it.
 * Visits ahead are joined; full crew days are not relieved, for that would move waterings over the line of today.
 *
 * @throws Problem as `planFromTablesBy`, or if today is not a day of the season
 */
export async function replanFromTablesBy(
  input: PlanJobInput,
  again: Again,
  planner: (season: SeasonInput) => Promise<SeasonPlan>,
  solve?: Solve,
): Promise<ReplannedJob> {
  const { season, build, notes, remarks, papers, owed, units, saidOfStock } = readyJob(input);
  const { clauses, short } = papers;
  const { log, today } = again;
  const stocked = await withinStock(season, await planner(season), solve);
  const before = keptContract(season, crewedSeason(season, stocked.plan, owed).plan, clauses).plan;
  const replanned = replan(season, before, newsOf(again));
  const { sites, problems, notes: found } = replanned;
  const { plan, rows } = keptAhead(replanned, clauses, today);
  const refused = [...log.problems, ...problems];
  const said = [
    ...log.notes,
    ...found,
    ...silences(again, plan),
    ...balanceCaveat(before, plan, again),
  ];
  const over = plan.crewDays.filter((d) => d.day >= today && d.overload).length;
  saidOfStock(stocked);
  notes.push(
    `Planned again from ${isoDate(today)} with the season's log; rows before that day are as they were really given.`,
    ...(again.chooseAgain && limited(season)
      ? ['The means were chosen again without looking at the stock.']
      : []),
    ...(over > 0 ? [`${many(over, 'crew day')} ahead with more work than hours: no watering was moved for it.`] : []),
    ...atMost(said, 'notes on the log'),
    ...atMost(refused, 'rows of the log that were not used'),
  ); // prettier-ignore
  remarks.push(...visitRemarks(sites, 0), ...keptRemark(rows));
  const stages = (rows: Cell[][]): Cell[][] => stagesWith(rows, log.stages);
  const shortage = await whoIsServed(short, plan, season, units, solve);
  const job = build(plan, { more: ` from ${isoDate(today)} on`, stages, shortage });
  return { ...job, before, changes: changesOf(before, plan, today), refused, said };
}

/** Who is served within the limits, where there are any: proven by the solver, where there is one. */
const whoIsServed = async (
  short: Shortage | undefined,
  plan: SeasonPlan,
  season: SeasonInput,
  units: Units,
  solve: Solve | undefined,
): Promise<ShortageAnswer | undefined> =>
  short && (solve ? shortageOfBy(short, plan, season, units, solve) : shortageOf(short, plan, season, units)); // prettier-ignore

interface Making {
  /** added to the title */
  more?: string;
  /** the Stages table as it stands by now */
  stages?: (rows: Cell[][]) => Cell[][];
  shortage?: ShortageAnswer | undefined;
  bare?: SeasonPlan | undefined;
}

/** What the choice within the stock said. */
type StockSaid = Pick<StockedSeason, 'note' | 'enough'>;

/** Whether there is a device of which no more may be used than is in stock. */
const limited = ({ kit, site }: SeasonInput): boolean => stockLimits(kit, site).size > 0;

/** Reads what is to be planned. */
function readyJob(input: PlanJobInput): {
  season: SeasonInput;
  /** crew days, joined visits and the contract's least visits for a plan of separate visits; `bare` is as `PlanJob` says */
  finish: (separate: SeasonPlan, ofStock?: StockSaid) => { plan: SeasonPlan; bare?: SeasonPlan };
  /** the job of a plan as it stands */
  build: (plan: SeasonPlan, making: Making) => PlanJob;
  /** of the job; what is added before it is built, stands in the workbook */
  notes: string[];
  remarks: string[];
  /** adds what the choice within the stock said: that it is enough is nothing to look at */
  saidOfStock: (said: StockSaid) => void;
  papers: PapersReading;
  /** least visits of the contract, which relief must not take away */
  owed: OwedTo;
  units: Units;
} {
  const units = input.units ?? 'US';
  const reading =
    input.reading ??
    readInventory(input.inventory, {
      file: input.fileName,
      ...(input.dateCells && { dateCells: input.dateCells }),
      ...(input.site && { seasonFrom: input.site.seasonFrom }),
      ...(input.units && { units: input.units }),
    });
  if (reading.rows.length === 0)
    throw new Problem(`"${input.fileName}" has no rows below its header`);
  const trees = reading.rows.flatMap((row) => (row.tree ? [row.tree] : []));
  const { setup, notes: assumed } = complete(input, trees);
  const read = readWeather(setup.weather, setup.site);
  const idColumn = reading.matches.find((m) => m.meaning === 'id')?.column ?? -1;
  const rules = parseRules(setup.rules, setup.stages);
  const unnumbered = numberNotice(rules, trees);
  const papers = readPapers(setup, reading);
  const notes = [
    ...(input.notes ?? []),
    ...assumed,
    ...read.problems,
    ...rules.problems.map((p) => p.sentence),
    ...(unnumbered === undefined ? [] : [unnumbered]),
    ...papers.problems,
  ];
  const remarks: string[] = [];
  const season: SeasonInput = {
    trees,
    notPlanned: reading.rows.flatMap((row) =>
      row.tree
        ? []
        : [
            {
              row: row.row,
              id: text(row.cells[idColumn]),
              reason: row.unusable ?? 'the row could not be read as a tree',
            },
          ],
    ),
    site: setup.site,
    weather: read.weather,
    rules,
    kit: setup.kit,
    ...(input.onProgress && { onProgress: input.onProgress }),
    ...(input.signal && { signal: input.signal }),
  };
  const { seasonFrom, seasonTo } = setup.site;
  const owed: OwedTo = ({ tree }) => owedTo(tree, papers.clauses, seasonFrom, seasonTo);
  const saidOfStock = ({ note, enough }: StockSaid): void => {
    if (note !== '') (enough ? remarks : notes).push(note);
  };
  const finish: ReturnType<typeof readyJob>['finish'] = (separate, ofStock) => {
    if (ofStock) saidOfStock(ofStock);
    const { plan, sites, shifted, moves, stayed } = crewedSeason(season, separate, owed);
    remarks.push(...visitRemarks(sites, moves.length, shifted));
    if (stayed > 0)
      notes.push(`Waterings stay on full days, because earlier ones would leave the trees dry: ${many(stayed, 'row')}.`); // prettier-ignore
    const kept = keptContract(season, plan, papers.clauses);
    remarks.push(...keptRemark(kept.rows));
    return { plan: kept.plan, ...(kept.rows > 0 && { bare: plan }) };
  };
  const build = (plan: SeasonPlan, { more = '', stages, shortage, bare }: Making): PlanJob => {
    const asked = input.whatIf ? whatIf(season, questions(season, plan)) : undefined;
    const madeWith = (service: ServicePapers | undefined, notes: string[]) => ({
      plan,
      reading,
      kit: setup.kit,
      ruleRows: setup.rules,
      stageRows: stages ? stages(setup.stages) : setup.stages,
      weatherRows: setup.weather,
      ...(setup.origins && { origins: setup.origins }),
      units,
      source: input.fileName,
      madeOn: input.madeOn,
      title: input.title ?? `Watering plan, ${setup.site.name}${more}`,
      notes,
      ...(service && { papers: service }),
      ...(input.paper && { paper: input.paper }),
      ...(input.crewLanguage && { crewLanguage: input.crewLanguage }),
    });
    const workbook: PlanJob['workbook'] = (answers = asked, fresh) => {
      const { contract, shortage: limits } = setup;
      const standing = { ...(contract && { contract }), ...(limits && { shortage: limits }) };
      const read = fresh ? readPapers({ ...standing, ...fresh }, reading) : papers;
      const others = notes.filter((note) => !papers.problems.includes(note));
      const all = fresh ? [...others, ...read.problems] : notes;
      return buildWorkbook(madeWith(read.papersOf(shortage), all), answers);
    };
    let built: WorkbookModel | undefined;
    return {
      plan, reading, setup, season, notes, remarks, workbook,
      ...(asked && { whatIf: asked }), ...(bare && { bare }),
      get model() {
        return (built ??= workbook());
      },
    }; // prettier-ignore
  };
  return { season, finish, build, notes, remarks, papers, owed, units, saidOfStock };
}

const many = (count: number, one: string): string => `${count} ${count === 1 ? one : `${one}s`}`;

const keptRemark = (rows: number): string[] =>
  rows === 0 ? [] : [`${many(rows, 'row')} of trees ${rows === 1 ? 'comes more often than its' : 'come more often than their'} soil asks, for the contract’s least visits.`]; // prettier-ignore

/** What was done to the visits, in sentences. */
function visitRemarks(sites: CrewedSeason['sites'], moved: number, shifted = 0): string[] {
  const remarks: string[] = [];
  const joined = sites.flatMap((site) =>
    site.kept === 'joined' && site.joined ? [{ ...site, joined: site.joined }] : [],
  );
  if (joined.length > 0) {
    const sum = (value: (site: (typeof joined)[number]) => number): number =>
      joined.reduce((total, site) => total + value(site), 0);
    const [now, before] = [sum((s) => s.joined.days), sum((s) => s.separate.days)];
    // joining can save minutes without saving a drive: then there is nothing to boast of
    if (now < before)
      remarks.push(
        `Visits of ${many(joined.length, 'site')} are joined: ${now} drives instead of ${before}.`,
      );
  }
  if (shifted > 0)
    remarks.push(`${many(shifted, 'row')} watered in another rhythm, away from days with more work than hours.`); // prettier-ignore
  if (moved > 0)
    remarks.push(`${many(moved, 'watering')} moved to an earlier day, away from days with more work than hours.`); // prettier-ignore
  return remarks;
}
