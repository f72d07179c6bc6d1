/** From tables to a plan and its workbook: what the command line, the desk and the tests all run. */
import { isoDate, type Day } from '../engine/dates.js';
import type { Solve } from '../engine/plan/solve.js';
import { withinStock } from '../engine/plan/within-stock.js';
import { crewedSeason, type CrewedSeason } from '../engine/plan/crewed-season.js';
import { replan } from '../engine/plan/replan.js';
import { planSeason, type SeasonInput } from '../engine/plan/season.js';
import { whatIf, type WhatIfRow } from '../engine/plan/what-if.js';
import type { SeasonPlan, Tree } from '../engine/plan/model.js';
import { Problem } from '../engine/problems.js';
import { parseRules } from '../engine/rules/rule-table.js';
import type { Units } from '../engine/units.js';
import { text, type Cell } from '../tables/cells.js';
import { readInventory, type InventoryReading } from '../tables/inventory/index.js';
import { readWeather } from '../tables/weather.js';
import { buildWorkbook } from './build.js';
import type { CrewLanguage } from './crew-words.js';
import { exampleSetup, type Setup } from './example-setup.js';
import type { WorkbookModel } from './model.js';
import { atMost, balanceCaveat, changesOf, newsOf, silences, stagesWith, type Again, type Changes } from './season-news.js'; // prettier-ignore
import { PAPERS, readPapers } from './service-papers.js';
import { keptContract } from './contract-kept.js';
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
  /** what was assumed or left out before planning, a sentence each */
  notes: string[];
  /** what was done to the visits, a sentence each: nothing to look at */
  remarks: string[];
  /** built when it is read first */
  readonly model: WorkbookModel;
  /** the workbook, with a sheet of these answers if there are any */
  workbook(asked?: readonly WhatIfRow[]): WorkbookModel;
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
  const example = exampleSetup(input.site?.latitude ?? own ?? EXAMPLE_LATITUDE);
  const setup: Setup = {
    site: input.site ?? example.site,
    kit: input.kit ?? example.kit,
    rules: input.rules ?? example.rules,
    // Without rules of their own, stages would speak of nothing.
    stages: input.stages ?? (input.rules ? [] : example.stages),
    weather: input.weather ?? example.weather,
    ...Object.fromEntries(PAPERS.flatMap((name) => (input[name] ? [[name, input[name]]] : []))),
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
  const { season, finish } = readyJob(input);
  if (season.site.stockOnly === 'yes')
    throw new Problem(
      'a plan within the stock is made by a solver; ask for it with planFromTablesBy',
    );
  return finish(planSeason(season));
}

/**
 * The same with a season planned elsewhere, by workers for instance, and within the stock where the site says so.
 *
 * @param solve - the solver for a short stock; without one the choice is greedy, and a note says so
 * @throws Problem as `planFromTables`, or whatever the planner throws
 */
export async function planFromTablesBy(
  input: PlanJobInput,
  planner: (season: SeasonInput) => Promise<SeasonPlan>,
  solve?: Solve,
): Promise<PlanJob> {
  const { season, finish } = readyJob(input);
  const { plan, note } = await withinStock(season, await planner(season), solve);
  return finish(plan, note);
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
  const { season, build, notes, remarks, clauses } = readyJob(input);
  const { log, today } = again;
  const { plan: separate, note } = await withinStock(season, await planner(season), solve);
  const before = crewedSeason(season, separate).plan;
  const { plan, sites, problems, notes: found } = replan(season, before, newsOf(again));
  const refused = [...log.problems, ...problems];
  const said = [
    ...log.notes,
    ...found,
    ...silences(again, plan),
    ...balanceCaveat(before, plan, again),
  ];
  const over = plan.crewDays.filter((d) => d.day >= today && d.overload).length;
  notes.push(
    `Planned again from ${isoDate(today)} with the season's log; rows before that day are as they were really given.`,
    ...(note === '' ? [] : [note]),
    ...(again.chooseAgain && season.site.stockOnly === 'yes'
      ? ['The means were chosen again without looking at the stock.']
      : []),
    ...(clauses > 0
      ? ['The contract’s least visits are not kept in a season planned again; the sheet Contract says where it falls short.']
      : []),
    ...(over > 0 ? [`${many(over, 'crew day')} ahead with more work than hours: no watering was moved for it.`] : []),
    ...atMost(said, 'notes on the log'),
    ...atMost(refused, 'rows of the log that were not used'),
  ); // prettier-ignore
  remarks.push(...visitRemarks(sites, 0));
  const stages = (rows: Cell[][]): Cell[][] => stagesWith(rows, log.stages);
  const job = build(plan, ` from ${isoDate(today)} on`, stages);
  return { ...job, before, changes: changesOf(before, plan, today), refused, said };
}

/** Reads what is to be planned; `finish` builds the job from its plan. */
function readyJob(input: PlanJobInput): {
  season: SeasonInput;
  finish: (plan: SeasonPlan, stockNote?: string) => PlanJob;
  /** the job of a plan as it stands; `more` is added to its title */
  build: (plan: SeasonPlan, more?: string, stages?: (rows: Cell[][]) => Cell[][]) => PlanJob;
  /** of the job; what is added before it is built, stands in the workbook */
  notes: string[];
  remarks: string[];
  /** rows of the contract */
  clauses: number;
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
  const papers = readPapers(setup, reading);
  const notes = [
    ...(input.notes ?? []),
    ...assumed,
    ...read.problems,
    ...rules.problems.map((p) => p.sentence),
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
  const finish = (separate: SeasonPlan, stockNote = ''): PlanJob => {
    if (stockNote !== '') notes.push(stockNote);
    const { plan, sites, moves, stayed } = crewedSeason(season, separate);
    remarks.push(...visitRemarks(sites, moves.length));
    if (stayed > 0)
      notes.push(`${many(stayed, 'row')} kept its waterings on a full day: earlier ones would leave the tree dry.`); // prettier-ignore
    if (papers.clauses.length === 0) return build(plan);
    const kept = keptContract(season, plan, papers.clauses);
    if (kept.rows > 0)
      remarks.push(`${many(kept.rows, 'row')} of trees come${kept.rows === 1 ? 's' : ''} more often than its soil asks, for the contract’s least visits.`); // prettier-ignore
    return build(kept.plan);
  };
  const build = (
    plan: SeasonPlan,
    more = '',
    stages = (rows: Cell[][]): Cell[][] => rows,
  ): PlanJob => {
    const asked = input.whatIf ? whatIf(season, questions(season, plan)) : undefined;
    const service = papers.papersOf(plan, season, units);
    const made = {
      plan,
      reading,
      kit: setup.kit,
      ruleRows: setup.rules,
      stageRows: stages(setup.stages),
      weatherRows: setup.weather,
      units,
      source: input.fileName,
      madeOn: input.madeOn,
      title: input.title ?? `Watering plan, ${setup.site.name}${more}`,
      notes,
      ...(service && { papers: service }),
      ...(input.paper && { paper: input.paper }),
      ...(input.crewLanguage && { crewLanguage: input.crewLanguage }),
    };
    const workbook: PlanJob['workbook'] = (answers = asked) => buildWorkbook(made, answers);
    let built: WorkbookModel | undefined;
    return {
      plan, reading, setup, season, notes, remarks, workbook, ...(asked && { whatIf: asked }),
      get model() {
        return (built ??= workbook());
      },
    }; // prettier-ignore
  };
  return { season, finish, build, notes, remarks, clauses: papers.clauses.length };
}

const many = (count: number, one: string): string => `${count} ${count === 1 ? one : `${one}s`}`;

/** What was done to the visits, in sentences. */
function visitRemarks(sites: CrewedSeason['sites'], moved: number): string[] {
  const remarks: string[] = [];
  const joined = sites.flatMap((site) =>
    site.kept === 'joined' && site.joined ? [{ ...site, joined: site.joined }] : [],
  );
  if (joined.length > 0) {
    const sum = (value: (site: (typeof joined)[number]) => number): number =>
      joined.reduce((total, site) => total + value(site), 0);
    remarks.push(
      `Visits of ${many(joined.length, 'site')} are joined: ${sum((s) => s.joined.days)} drives instead of ${sum((s) => s.separate.days)}.`,
    );
  }
  if (moved > 0)
    remarks.push(`${many(moved, 'watering')} moved to an earlier day, away from days with more work than hours.`); // prettier-ignore
  return remarks;
}
