/**
 * The plan room: everything slow that the panel asks for, in one place that can be a worker. Questions and answers are plain
 * data; the plan itself stays in the room.
 */
import type { Cell, Grid } from '../tables/cells.js';
import type { SiteKey } from '../tables/site-inputs.js';
import type { CrewLanguage } from '../workbook/crew-words.js';
import type { WorkbookModel } from '../workbook/model.js';
import type { GivenPapers, LivingPapers } from '../workbook/service-papers.js';
import type { NamedCells } from '../workbook/rules-reading.js';
import type { RuleStrip } from '../workbook/rules-strip.js';
import type {
  CoilSeries,
  CrewSeries,
  SeasonSeries,
  WaterLeftSeries,
} from '../workbook/series-types.js';
import type { CrewOpen } from '../engine/plan/crew-open.js';
import type { HoseCount } from '../engine/plan/hoses-per-tree.js';
import type { IdleDevice } from '../engine/plan/idle-stock.js';
import type { Device } from '../engine/plan/model.js';
import type { Units } from '../engine/units.js';
import type { AssumedColumn, BlankColumn, BlanksAsk, FillAsk, Filling, Lack, TakeBackAsk } from './fill-types.js'; // prettier-ignore
import type { FunctionAnswer, FunctionAsk } from './room-function.js';
import type {
  ContractAsk,
  ContractReport,
  LogAsk,
  LogReport,
  ShortageReport,
  ShortageWish,
} from './contract-types.js'; // prettier-ignore

/** Everything a plan is made from beside the trees. Kept as JSON in the workbook, so it holds nothing but plain data. */
export interface Draft {
  units: Units;
  crewLanguage: CrewLanguage;
  /** header → meaning, "meaning unit", or "ignore", as a person corrected it */
  corrections: Record<string, string>;
  /** inputs of the site as typed, in the draft's units; what is missing is the default */
  site: Partial<Record<SiteKey, Cell>>;
  /** tables with their header row; undefined: the example */
  weather?: Cell[][];
  kit?: Cell[][];
  rules?: Cell[][];
  stages?: Cell[][];
  /** name of a rules table to start from, "" for the workbook's own */
  starter: string;
}

/** A column of the sheet whose header was understood. */
export interface MatchedColumn {
  /** 0-based */
  column: number;
  header: string;
  /** what it is taken for, as the planner names it: "canopy" */
  meaning: string;
  /** "" when it has none */
  unit: string;
  /** units it could be in; empty when it has none */
  units: string[];
  samples: string[];
  /** a sentence when the match or its unit was guessed, else "" */
  doubt: string;
  /** guessed so weakly that a person should say */
  ask: boolean;
}

export interface LookReason {
  sentence: string;
  /** 0-based column to look at, where one is to blame */
  column?: number;
  /** a value the row has none of, which could be put into its blank cell */
  lacks?: Lack;
}

export interface LookRow {
  /** 1-based row of the sheet */
  row: number;
  id: string;
  reasons: LookReason[];
  /** the row cannot be planned at all */
  unusable: boolean;
}

export interface SheetReading {
  /** 0-based row of the headers */
  headerRow: number;
  columns: MatchedColumn[];
  /** columns nobody could place */
  unmatched: { column: number; header: string; samples: string[] }[];
  usable: number;
  /** trees, counting rows of several like trees */
  trees: number;
  rows: number;
  look: LookRow[];
  notes: string[];
  /** values marked as assumed, by column */
  assumed: AssumedColumn[];
  /** middle of the inventory's own coordinates, where it has any [deg] */
  latitude?: number;
}

export interface SiteField {
  key: SiteKey;
  name: string;
  unit: string;
  note: string;
  /** where the default is from */
  source: string;
  kind: 'number' | 'count' | 'word' | 'text' | 'day' | 'hour';
  words: string[];
  /** in the draft's units, a day as yyyy-mm-dd, an hour of the day as 06:30; null for not known */
  value: Cell;
  /** typed by a person, taken from the inventory, or the default */
  from: 'typed' | 'inventory' | 'default';
  /** what is wrong with the typed value, "" */
  trouble: string;
}

/** Numbers of a device that are the example's, invented, neither typed nor confirmed. */
export interface InventedNumbers {
  name: string;
  keys: (keyof Device)[];
  /** none is a person's own */
  all: boolean;
}

export interface SetupReport {
  site: SiteField[];
  weather: {
    /** none: the table given cannot be read, the problems say why */
    kind: 'monthly' | 'daily' | 'example' | 'none';
    /** "364 days from 2015-01-01 to 2015-12-31" or "12 months" */
    says: string;
    /** mean ET0 of a day and rain of the month [in or mm by the draft's units] */
    months: { month: number; et0: number; rain: number }[];
    problems: string[];
  };
  kit: {
    example: boolean;
    /** names of devices whose numbers are the example's still, whatever they are called and however many there are */
    fromExample: string[];
    /** by device that has any: its numbers that are the example's still */
    invented: InventedNumbers[];
    /** by device: trees of the list that can have such hoses, and the hoses they take */
    hoses: ({ name: string } & HoseCount)[];
    /** the tank crews drive with, where a device has it: the site's tank volume is then not used */
    tank?: { device: string; volume: number; unit: string };
    devices: { name: string; family: string; size: string; stock: number | null; price: number | null }[];
    /** the table with its header, as read or as the example has it */
    rows: Cell[][];
    problems: string[];
  };
} // prettier-ignore

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
  /** what the rules leave of the crew's hours; undefined while there are no trees, or the work days cannot be read */
  crew: CrewOpen | undefined;
  /** the tables themselves, to be put on sheets and edited */
  rules: Cell[][];
  stages: Cell[][];
  /** what can stand in each column of a rules table: told by the reader, which the page does not hold */
  columns: readonly RuleColumn[];
}

export interface RuleColumn {
  name: string;
  accepted: string;
  example: string;
}

/** Inputs of the site that could make days fit, as they would be typed. Whether they do is found by planning with them. */
export interface WaysOut {
  /** as they are now */
  crews: number;
  start: string;
  workDays: string;
  /** other starts of the crew's day with more open hours, "02:00" */
  starts: string[];
  /** work days with one further open weekday, and with all of them */
  moreDays: string[];
  /** a longer day of a crew, where its end is what is short [h] */
  crewHours?: number;
  /** part of the crew hours that goes into refills of a tank [-] */
  refills: number;
}

export interface PlanSummary {
  /** trees, counting rows of several like trees */
  planned: number;
  cannotBeKept: number;
  /** rows of the sheet */
  notPlanned: number;
  waterings: number;
  /** in the draft's units */
  water: number;
  waterUnit: string;
  stressDays: number;
  crewDays: number;
  crewHours: number;
  /** crew hours on no crew day, which the price holds: setting out, and looking at hoses on timers [h] */
  otherHours: { settingOut: number; hoseChecks: number };
  /** days on which a crew has more work than hours, or than open hours; undefined where there are none */
  over?: {
    days: number;
    /** hours these days ask for beyond those there are, all together [h] */
    lacking: number;
    /** hours of a crew's day, or of its open hours [h] */
    available: number;
    /** the one that is most over, as yyyy-mm-dd, and what a crew needs on it [h] */
    longest: { day: string; hours: number };
    /** what is too short on it, where it is not the crew's day */
    says?: string;
    /** crew hours at trees a week that fit: open hours of the leanest week, less driving and refills as in the plan [h] */
    weekHours?: number;
    /** where more hours could come from */
    ways: WaysOut;
  };
  price: number;
  currency: string;
  /** first and last day, as yyyy-mm-dd */
  from: string;
  to: string;
  /** trees that cannot be kept, with what would help */
  lost: LookRow[];
  /** trees by the means chosen */
  means: { means: string; trees: number; water: number }[];
  /** trees with a hose on a timer */
  onTimers: number;
  /** trees with hoses or watered by hand of which the list does not say whether a tap is within reach: one is taken to be */
  tapsAssumed: number;
  /** what the plan uses beyond the stock, and its price now */
  toBuy: { device: string; pieces: number; cost: number }[];
  /** devices the plan uses whose price is the example's still */
  inventedPrices: { device: string; price: number }[];
  /** devices in stock that no tree has, and why */
  idle: IdleDevice[];
  /** what was done to the visits, a sentence each: nothing to look at */
  remarks: string[];
  problems: string[];
  season: SeasonSeries;
  crew: CrewSeries;
  coils: CoilSeries[];
  /** rows to pick a tree from for its own picture */
  picks: { row: number; label: string }[];
}

/**
 * The season as it is first, then with one thing changed at a time. All lines are planned from separate visits, so they are
 * to be compared with each other, not with the summary.
 */
export interface WhatIfLine {
  question: string;
  waterings: number;
  /** in the draft's units */
  water: number;
  stressDays: number;
  cannotBeKept: number;
  notPlanned: number;
  cost: number;
  /** days on which a crew has more work than hours */
  crewDaysOver: number;
  /** what the numbers do not say, "" */
  note: string;
}

/** Of a planning under way: how far it is, and a way to stop it. */
export interface PlanWatch {
  onProgress(done: number, total: number): void;
  signal: AbortSignal;
}

export type ExportKind =
  'workbook' | 'crew.xlsx' | 'crew.pdf' | 'client.xlsx' | 'client.pdf' | 'plan.ics' | 'plan.csv';
export interface ExportWish {
  kind: ExportKind;
  /** of crew sheets; default the draft's */
  language?: CrewLanguage;
  /** first and last day of crew sheets on paper */
  days?: [string, string];
  bom?: boolean;
  /** settings to be kept in the workbook, by key */
  settings?: Record<string, string>;
} // prettier-ignore

export interface OpenedFile {
  /** sheets with cells, in order; a text table has one */
  sheets: (Grid & { name: string })[];
  /** the sheet that looks most like an inventory, by its place */
  front: number;
  /** settings of ours found in the file, by key */
  settings: Record<string, string>;
  /** what to know about how it was read, a sentence each */
  notes: string[];
}

/** What is planned: trees with the sheets that may hold rules. */
export interface PlanAsk {
  trees: Grid;
  /** name of the sheet or file they are from */
  source: string;
  sheets: NamedCells[];
  /** contract, limits, log, meters and clocks, where the workbook has their sheets */
  papers?: GivenPapers;
  draft: Draft;
  /** today on the person's own calendar, yyyy-mm-dd */
  today: string;
}

export interface PlanRoom {
  /** names of the rules tables to start from */
  readonly starters: readonly string[];
  /**
   * Reads a file's sheets.
   * @throws Problem in a sentence, if it is too large, damaged, encrypted, or no table
   */
  open(name: string, bytes: Uint8Array): Promise<OpenedFile>;
  read(trees: Grid, draft: Draft): Promise<SheetReading>;
  setup(trees: Grid, draft: Draft): Promise<SetupReport>;
  rules(ask: PlanAsk): Promise<RulesReport>;
  /** Plans; the plan stays in the room for what follows, until the next one. */
  plan(ask: PlanAsk, watch?: PlanWatch): Promise<PlanSummary>;
  /** Holds the plan of now beside those that follow, to go back to it. One is held: another one takes its place. */
  hold(): Promise<void>;
  /** The plan that is held is the plan again, and is held no more; one under way is left out. @returns whether one was held */
  back(): Promise<boolean>;
  /** The plan that is held is forgotten. */
  release(): Promise<void>;
  whatIf(watch?: PlanWatch): Promise<WhatIfLine[]>;
  /** one tree of the plan, by its row of the sheet */
  tree(row: number): Promise<WaterLeftSeries>;
  /** what a contract says, and the last plan by it where that is asked */
  contract(ask: ContractAsk): Promise<ContractReport>;
  /** who of the last plan is served when there is too little */
  shortage(wish: ShortageWish): Promise<ShortageReport>;
  /** what a worksheet function gives for these arguments, or why it gives nothing */
  answer(ask: FunctionAsk): Promise<FunctionAnswer>;
  /** a filled log, against the last plan where that is asked */
  log(ask: LogAsk): Promise<LogReport>;
  /** columns with blank cells that could be filled, and what the list itself knows of them */
  blanks(ask: BlanksAsk): Promise<BlankColumn[]>;
  /** the cells that are written to fill them. @throws Problem where the reader does not take the value */
  fill(ask: FillAsk): Promise<Filling>;
  /** the cells that are written to take every assumed value out again */
  takeBack(ask: TakeBackAsk): Promise<Filling>;
  /**
   * The workbook of the plan.
   *
   * @param fresh - log, meters, clocks and bags as they are by now; left out: as they were planned with
   */
  model(fresh?: LivingPapers): Promise<WorkbookModel>;
  file(wish: ExportWish, fresh?: LivingPapers): Promise<{ name: string; bytes: Uint8Array }>;
  /** ends the worker, if there is one */
  end(): void;
}
