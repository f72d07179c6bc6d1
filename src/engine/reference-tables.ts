/**
 * The tables behind the functions, row by row with their provenance, for the help pages and the Sources sheet. The
 * numbers themselves live where they are used; here they are only laid out, so that nothing is typed twice.
 */
import { DEFICIT_TABLES } from './contract/deficit-rules.js';
import { TRIAGE_TABLES } from './contract/triage-orders.js';
import { BAG_TABLES, CYCLE_TABLES, PAD_TABLES } from './means/reference.js';
import { HEAT_TABLES, SALINITY_TABLES } from './safety/reference.js';
import { SOIL_INTAKE_TABLES, SOIL_WATER_TABLES } from './soil/reference.js';
import {
  BALL_DEPTH_TABLES,
  BALL_DIAMETER_TABLES,
  CONTAINER_TABLES,
  PLANT_FACTOR_TABLES,
  ROOT_MONTHS_TABLES,
  RULE_OF_THUMB_TABLES,
} from './tree/reference.js';

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
export const REFERENCE_TABLES: Readonly<Record<string, readonly ReferenceTable[]>> = {
  BAG_VERDICT: BAG_TABLES,
  PAD_CHARGED: PAD_TABLES,
  SOAK_CYCLES: CYCLE_TABLES,
  PLANT_FACTOR: PLANT_FACTOR_TABLES,
  BALL_DIAMETER: BALL_DIAMETER_TABLES,
  BALL_DEPTH: BALL_DEPTH_TABLES,
  CONTAINER_VOLUME: CONTAINER_TABLES,
  ROOT_MONTHS: ROOT_MONTHS_TABLES,
  SOIL_WATER: SOIL_WATER_TABLES,
  SOIL_INTAKE: SOIL_INTAKE_TABLES,
  RULE_OF_THUMB: RULE_OF_THUMB_TABLES,
  HEAT_REST: HEAT_TABLES,
  SALINITY: SALINITY_TABLES,
  DEFICIT_GALLONS: DEFICIT_TABLES,
  TRIAGE: TRIAGE_TABLES,
};
