/**
 * The tables behind the functions, row by row with their provenance, for the help pages and the Sources sheet. The
 * numbers themselves live where they are used; here they are only laid out, so that nothing is typed twice.
 */

/** How sure a value is. */
export type Certainty =
  | 'seen' // read in the publication itself
  | 'secondary' // read in a copy or an extract
  | 'memory' // from memory, to be confirmed against the named publication
  | 'computed' // from a published equation
  | 'assumption' // of this model, an input with a default
  | 'common practice, no source';

export interface ReferenceRow {
  cells: readonly (string | number)[];
  certainty: Certainty;
  source: string;
}

export interface ReferenceTable {
  title: string;
  /** column heads with their units */
  columns: readonly string[];
  rows: readonly ReferenceRow[];
}

/** Tables a function reads from, by function id. */
export const REFERENCE_TABLES: Readonly<Record<string, readonly ReferenceTable[]>> = {};
