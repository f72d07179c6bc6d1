/** What the plan room is asked about a contract, a shortage and a log of visits, and what it answers: plain data. */
import type { ClauseVerdict } from '../engine/contract/contract-check.js';
import type { FlagKind } from '../engine/contract/log-flags.js';
import type { TriageOrder } from '../engine/contract/triage-orders.js';
import type { Certainty } from '../engine/reference-tables.js';
import type { Units } from '../engine/units.js';
import type { Cell, Grid } from '../tables/cells.js';
import type { Draft } from './plan-room.js';

export interface ContractAsk {
  /** the sheet with its header */
  cells: Cell[][];
  units: Units;
  /** judge the last plan by it */
  judge: boolean;
}

/** A clause against a plan or a log. Days are yyyy-mm-dd, water in the draft's units. */
export interface ClauseLine {
  /** 1-based row of the contract's sheet */
  row: number;
  verdict: ClauseVerdict;
  /** trees it speaks of */
  trees: number;
  /** water and visits that lack; for a cap the water above it */
  water: number;
  visits: number;
  /** visits that rain stood for */
  excused: number;
  /** money for the water above a cap; undefined where the clause names no price */
  cost?: number;
  /** where it is first short or over, and how often; an id of "" is all trees together */
  first?: { row: number; id: string; from: string; to: string; rows: number; times: number };
  /** why it cannot be told, a sentence; "" where it can */
  why: string;
}

/** The plan as it is, or as it would be without the contract. */
export interface ServiceSums {
  waterings: number;
  water: number;
  price: number;
  /** clauses that are met */
  met: number;
}

export interface ContractJudgement {
  clauses: ClauseLine[];
  /** where the rules leave fewer visits than a clause asks for */
  fights: { row: number; sentence: string }[];
  /** what is asked beyond what the trees can use */
  surplus: {
    water: number;
    cost: number;
    /** rows of trees it is about */
    count: number;
    /** the first of them, most water first */
    rows: { row: number; id: string; asked: number; used: number; surplus: number }[];
  };
  plan: ServiceSums;
  /** without the contract's least visits, where they add any; rows of trees that come more often for them */
  bare?: ServiceSums & { rows: number };
  currency: string;
}

export interface ContractReport {
  /** what was understood, a sentence each */
  understood: { row: number; sentence: string; example: boolean }[];
  /** rows that cannot be used; row 0 is the table as a whole */
  problems: { row: number; sentence: string }[];
  waterUnit: string;
  judged?: ContractJudgement;
}

export type LimitKind = 'week' | 'season' | 'hours';
export interface ShortageWish {
  /** what there is too little of: water a week, water of the season, crew hours a week at trees */
  limit: LimitKind;
  /** in the draft's units of water, or hours */
  amount: number;
  order: TriageOrder;
  /** 0-based columns of the trees' sheet with a value of one's own and with the condition */
  value?: number;
  condition?: number;
}

export interface LeftOutRow {
  row: number;
  id: string;
  species: string;
  trees: number;
  rank: number;
  why: string;
  /** without any water of ours, for one tree */
  stressDays: number;
  leastKs: number;
  /** what the plan gives the row in the season */
  water: number;
}

export interface ShortageReport {
  wish: ShortageWish;
  says: string;
  certainty: Certainty;
  source: string;
  /** trees, counting like ones */
  served: number;
  notServed: number;
  /** days under stress of all trees that are not served */
  stressDays: number;
  /** in the order of their rank */
  out: LeftOutRow[];
  /** what the whole plan takes: of the fullest week, or of the season */
  needed: number;
  unit: string;
  /** false: the search was cut, a better choice is not ruled out */
  exact: boolean;
  /** what a little more of the limit would save; undefined where all are served */
  next?: { more: number; trees: number; stressDays: number };
}

export interface LogAsk {
  /** the log with its header */
  cells: Cell[][];
  meters?: Cell[][];
  contract?: Cell[][];
  trees: Grid;
  draft: Draft;
  /** hold it against the last plan */
  planned: boolean;
}

export interface LogQuestion {
  /** 1-based row and 0-based column of the log */
  row: number;
  column: number;
  id: string;
  day: string;
  kind: FlagKind;
  sentence: string;
}

export interface LogTreeLine {
  id: string;
  made: number;
  skipped: number;
  missed: number;
  planned: number;
  applied: number;
}

export interface MeterLine {
  row: number;
  meter: string;
  from: string;
  to: string;
  /** through it; undefined where a reading is lacking or wrong */
  used?: number;
  logged: number;
  agrees?: boolean;
  /** above what is included */
  over: number;
  cost?: number;
  questions: string[];
}

export interface LogReport {
  /** rows of the log that could be read */
  rows: number;
  from: string;
  to: string;
  made: number;
  skipped: number;
  /** planned visits without a row; undefined without a plan */
  missed?: number;
  applied: number;
  /** by the plan, else by the log's own column; undefined where neither says */
  planned?: number;
  /** trees whose visits or water differ from the plan, most missed first */
  trees: LogTreeLine[];
  questions: LogQuestion[];
  /** rows that are asked about */
  asked: number;
  meters?: {
    rows: MeterLine[];
    used: number;
    logged: number;
    cost: number;
    unmetered: { water: number; rows: number };
    problems: { row: number; sentence: string }[];
  };
  contract?: ClauseLine[];
  pace?: { treesPerDay: number; minutesAtTree: number; minutesBetween: number; perTree: number };
  problems: { row: number; sentence: string }[];
  waterUnit: string;
  currency: string;
} // prettier-ignore
