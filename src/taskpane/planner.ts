/** What the panel asks of the planner: a reading of the open sheet, and a plan with its file. */
import type { Grid } from '../tables/cells.js';

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
  problems: string[];
  /** the plan as an .xlsx file */
  file(): Promise<Uint8Array>;
}

export interface Planner {
  read(grid: Grid): SheetReading;
  plan(grid: Grid, source: string): PlanSummary;
}
