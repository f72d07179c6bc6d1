/** Blank cells of an inventory, what they could be filled with, and what is written for that. Plain data. */
import type { Cell, Grid } from '../tables/cells.js';
import type { Draft } from './plan-room.js';

/** What rows to look at may lack. */
export type Lack = 'size' | 'species' | 'count';

export interface BlanksAsk {
  trees: Grid;
  draft: Draft;
  /** what the rows lack; left out: whatever else the reader takes where the list has a column for it */
  lack?: Lack;
  /** 1-based rows; left out: all that are read as trees */
  rows?: readonly number[];
}

/** What the list itself knows of a value: the number in the middle, or the word that stands most often. */
export interface Known {
  value: string;
  /** cells it is from; those that were assumed themselves do not count */
  of: number;
}

/** The same of the trees of one name. */
export interface KnownKind extends Known {
  name: string;
  /** rows of that name with a blank cell */
  rows: number;
}

/** A column with blank cells on the rows asked about. */
export interface BlankColumn {
  /** 0-based; undefined: the list has none, and one is added */
  column?: number;
  header: string;
  meaning: string;
  unit: string;
  rows: number;
  known?: Known;
  /** most rows first; none where the names say nothing */
  kinds: KnownKind[];
}

export interface FillAsk extends BlanksAsk {
  /** one of those offered, by its column; undefined for one that is added */
  column: number | undefined;
  /** as typed; "" for what the list knows of the same name, else of all */
  value: string;
  /** 0-based: this column of the sheet and those beyond it are free */
  free: number;
  /** headers of columns that may be added */
  names: { assumed: string; size: string };
}

export interface TakeBackAsk {
  trees: Grid;
  draft: Draft;
}

/** A cell to be written, where it still holds what it held. 0-based. */
export interface CellEdit {
  row: number;
  column: number;
  was: Cell;
  value: Cell;
  /** a header that is added, to look like those beside it */
  head?: boolean;
}

export interface Filling {
  edits: CellEdit[];
  /** rows that get a value, or lose it */
  rows: number;
}

/** Values that are marked as assumed, by column. */
export interface AssumedColumn {
  header: string;
  what: string;
  rows: number;
}
