/** What is known of a matched column, and what becomes of a row. */
import type { Tree } from '../../engine/plan/model.js';
import type { Cell } from '../cells.js';
import type { Language } from './english-headers.js';
import type { Meaning } from './vocabulary.js';

/** How a column was matched. */
export type Confidence = 'exact' | 'synonym' | 'near' | 'content';

export interface ColumnMatch {
  /** 0-based */
  column: number;
  header: string;
  meaning: Meaning;
  /** unit the numbers are read in, '' for none */
  unit: string;
  confidence: Confidence;
  /** where the unit is from; '' where the meaning has none */
  unitFrom: 'header' | 'cells' | 'chosen' | 'guess' | '';
  /** the name is a general one, or the column has none: a person should look */
  loose: boolean;
  why: string;
  samples: string[];
}

export interface InventoryRow {
  /** 1-based sheet row */
  row: number;
  cells: Cell[];
  tree?: Tree;
  /** a sentence: what was wrong, where, what is accepted */
  unusable?: string;
  notes: string[];
}

/** A matched column with all that is needed to read its cells. */
export interface ColumnUse extends ColumnMatch {
  factor: number;
  rank: number;
  year: number | undefined;
  language: Language | undefined;
  /** unit the header names, '' for none */
  named: string;
  decimalComma: boolean;
  /** cells hold "(lat, lon)" */
  pair: boolean;
  forced: boolean;
  /** unit a person chose for the column, '' for none */
  wantedUnit: string;
}

/** Measures: unit by system, unit inside, believed range. */
export const MEASURES: Readonly<Partial<Record<Meaning, { US: string; SI: string; to: 'mm' | 'm' | 'L/min'; range: readonly [number, number] }>>> = {
  caliper: { US: 'in', SI: 'cm', to: 'mm', range: [5, 5000] },
  circumference: { US: 'in', SI: 'cm', to: 'mm', range: [5 * Math.PI, 5000 * Math.PI] },
  diameterClass: { US: 'in', SI: 'cm', to: 'mm', range: [5, 5000] },
  ballDiameter: { US: 'in', SI: 'cm', to: 'mm', range: [50, 5000] },
  ballDepth: { US: 'in', SI: 'cm', to: 'mm', range: [30, 3000] },
  canopy: { US: 'ft', SI: 'm', to: 'm', range: [0.1, 70] },
  height: { US: 'ft', SI: 'm', to: 'm', range: [0.1, 120] },
  mulchDepth: { US: 'in', SI: 'cm', to: 'mm', range: [1, 1000] },
  tapFlow: { US: 'gpm', SI: 'L/min', to: 'L/min', range: [0.1, 1000] },
}; // prettier-ignore
