/**
 * The words parameters choose from. One list serves the argument checker, the host's drop-down of a parameter
 * (functions.json) and the help pages.
 */
import { DEFICIT_RULE_NAMES } from '../engine/contract/deficit-rules.js';
import { METER_UNITS } from '../engine/contract/meter.js';
import { TRIAGE_ORDER_NAMES } from '../engine/contract/triage-orders.js';
import { MEANS_WORDS } from '../engine/rules/rule-types.js';
import { SUNS, WORKLOADS } from '../engine/safety/heat.js';
import { SALINITY_MEASURES } from '../engine/safety/salinity.js';
import { TEXTURES } from '../engine/soil/texture.js';
import { CLIMATES, PLANT_KINDS } from '../engine/tree/plant-factor.js';
import { RULE_NAMES } from '../engine/tree/rules-of-thumb.js';

export const UNIT_SYSTEMS = ['US', 'SI'] as const;
export const SOIL_SHARES = ['available', 'field capacity', 'wilting point'] as const;

/** A list a host may offer while a formula is typed. Its id is kept in saved workbooks' functions.json: for ever. */
interface ChoiceList {
  id: string;
  words: readonly string[];
}

const list = (id: string, words: readonly string[]): ChoiceList => ({ id, words });

/** Parameters that choose a word: by their name where it means the same everywhere, else by function and name. */
export const PARAMETER_CHOICES: Readonly<Record<string, ChoiceList>> = {
  units: list('UNITS', UNIT_SYSTEMS),
  texture: list('TEXTURE', TEXTURES),
  means: list('MEANS', MEANS_WORDS),
  climate: list('CLIMATE', CLIMATES),
  'PLANT_FACTOR.kind': list('PLANT_KIND', PLANT_KINDS),
  'SOIL_WATER.what': list('SOIL_SHARE', SOIL_SHARES),
  'RULE_OF_THUMB.rule': list('RULE_OF_THUMB', RULE_NAMES),
  'HEAT_REST.workload': list('WORKLOAD', WORKLOADS),
  'HEAT_REST.sun': list('SUN', SUNS),
  'DEFICIT_GALLONS.rule': list('DEFICIT_RULE', DEFICIT_RULE_NAMES),
  'TRIAGE.order': list('TRIAGE_ORDER', TRIAGE_ORDER_NAMES),
  'METER_USE.unit': list('METER_UNIT', METER_UNITS),
  'SALINITY.what': list('SALINITY_MEASURE', SALINITY_MEASURES),
};
