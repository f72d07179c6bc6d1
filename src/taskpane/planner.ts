/** What the panel asks of the planner: a reading of the open sheet, and a plan with its file. */
import type { Cell, Grid } from '../tables/cells.js';
import type { NamedCells } from '../workbook/rules-reading.js';
import type { RuleStrip } from '../workbook/rules-strip.js';

/** A column of the sheet whose header was understood. */
export interface MatchedColumn {
  /** 0-based */
  column: number;
  header: string;
  /** what it is taken for, as the planner names it: "canopy" */
  meaning: string;
  /** the same for people: "Canopy diameter" */
  label: string;
  /** "" when it has none */
  unit: string;
  samples: string[];
  /** a sentence when the match or its unit was guessed, else "" */
  doubt: string;
}

export interface LookRow {
  /** 1-based row of the sheet */
  row: number;
  id: string;
  reason: string;
  /** the row cannot be planned at all */
  unusable: boolean;
}

export interface SheetReading {
  /** 0-based row of the headers */
  headerRow: number;
  columns: MatchedColumn[];
  /** headers nobody could place */
  unmatched: string[];
  usable: number;
  rows: number;
  look: LookRow[];
  notes: string[];
}

export interface PlanSummary {
  /** trees, counting rows of several like trees */
  planned: number;
  cannotBeKept: number;
  /** rows of the sheet */
  notPlanned: number;
  waterings: number;
  gallons: number;
  stressDays: number;
  crewDays: number;
  season: string;
  /** trees that cannot be kept, with what would help */
  lost: LookRow[];
  /** what was done to the visits, a sentence each: nothing to look at */
  remarks: string[];
  problems: string[];
  /** the plan as an .xlsx file */
  file(): Promise<Uint8Array>;
}

/** Rules for the next plan; left out, the planner takes its own and says so. */
export interface RulesForPlan {
  rules?: Cell[][];
  stages?: Cell[][];
  /** sentences for the plan's own notes */
  notes?: string[];
}

/** What the rules in use say. */
export interface RulesReport {
  /** where they are from: "the sheet “Rules”" */
  origin: string;
  /** they are an example, to be replaced */
  example: boolean;
  /** row of the sheet, or of the table where they stand on no sheet */
  sentences: { row: number; sentence: string }[];
  problems: { broken: boolean; sentence: string }[];
  /** undefined while there are no trees to look at */
  strip: RuleStrip | undefined;
  forPlan: RulesForPlan;
}

/** Of a planning under way: how far it is, and a way to stop it. */
export interface PlanWatch {
  /** trees done, of all */
  onProgress(done: number, total: number): void;
  signal: { readonly aborted: boolean };
}

export interface Planner {
  /** names of the rules tables to start from */
  readonly starters: readonly string[];
  read(grid: Grid): SheetReading;
  /**
   * @param trees - the sheet with the inventory
   * @param sheets - sheets of the open workbook that may hold rules
   * @param starter - name of a table to start from, "" for the rules of the workbook
   */
  rules(trees: Grid, sheets: readonly NamedCells[], starter: string): RulesReport;
  plan(grid: Grid, source: string, rules?: RulesForPlan, watch?: PlanWatch): Promise<PlanSummary>;
}
