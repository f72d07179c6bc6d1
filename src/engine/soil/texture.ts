/**
 * What a soil texture word says about water: how much the soil holds for a tree and how fast it drinks.
 * Only textures with a published range are accepted; none is interpolated.
 */
import { Problem } from '../problems.js';
import type { Certainty } from '../reference-tables.js';

export interface TextureWater {
  /** available water, field capacity − wilting point, share of soil volume [-] */
  available: number;
  /** share of soil volume [-]; undefined where the source prints available water only */
  fieldCapacity: number | undefined;
  /** share of soil volume [-]; undefined where the source prints available water only */
  wiltingPoint: number | undefined;
  certainty: Certainty;
  source: string;
}

interface TextureRow extends TextureWater {
  /** basic intake rate [mm/h] */
  intake: number;
  intakeCertainty: Certainty;
  intakeSource: string;
}

type Range = readonly [number, number];
const middle = ([low, high]: Range): number => (low + high) / 2;

const FAO = 'FAO-56 Table 19, middle of the printed range';
/** Inches of water in a foot of soil, as a share of volume: 1 in/ft = 1/12. */
const UC = 'UC Drought Management soil characteristics, middle of the printed range';
const HILLEL = 'soil physics lecture notes after Hillel 1980';

const fao = (capacity: Range, wilting: Range, available: Range): TextureWater => ({
  // The printed range of the difference is used, not the difference of the middles: sand that holds much at
  // field capacity also holds much at wilting point.
  available: middle(available),
  fieldCapacity: middle(capacity),
  wiltingPoint: middle(wilting),
  certainty: 'seen',
  source: FAO,
});
const inchesPerFoot = (range: Range): TextureWater => ({
  available: middle(range) / 12,
  fieldCapacity: undefined,
  wiltingPoint: undefined,
  certainty: 'seen',
  source: `${UC}, ${range[0].toFixed(2)} to ${range[1].toFixed(2)} in per foot; no field capacity printed`,
});
type Intake = Pick<TextureRow, 'intake' | 'intakeCertainty' | 'intakeSource'>;
const intake = (rate: number, how: string, certainty: Certainty = 'secondary'): Intake => ({
  intake: rate,
  intakeCertainty: certainty,
  intakeSource: `${HILLEL}, ${how}`,
});

/** Textures with their provenance, coarse to fine. */
export const TEXTURE_ROWS: Readonly<Record<string, TextureRow>> = {
  sand: {
    ...fao([0.07, 0.17], [0.02, 0.07], [0.05, 0.11]),
    ...intake(20, 'sand "above 20": its lower limit'),
  },
  'loamy sand': {
    ...fao([0.11, 0.19], [0.03, 0.1], [0.06, 0.12]),
    ...intake(20, 'where the ranges of sand and sandy loam meet', 'assumption'),
  },
  'sandy loam': {
    ...fao([0.18, 0.28], [0.06, 0.16], [0.11, 0.15]),
    ...intake(15, 'middle of 10 to 20'),
  },
  loam: {
    ...fao([0.2, 0.3], [0.07, 0.17], [0.13, 0.18]),
    ...intake(7.5, 'middle of 5 to 10'),
  },
  'silt loam': {
    ...fao([0.22, 0.36], [0.09, 0.21], [0.13, 0.19]),
    ...intake(7.5, 'loam and silt, middle of 5 to 10'),
  },
  silt: {
    ...fao([0.28, 0.36], [0.12, 0.22], [0.16, 0.2]),
    ...intake(7.5, 'loam and silt, middle of 5 to 10'),
  },
  'clay loam': {
    ...inchesPerFoot([1.75, 2.5]),
    ...intake(5, 'where the ranges of loam and clay meet', 'assumption'),
  },
  'silty clay loam': {
    ...fao([0.3, 0.37], [0.17, 0.24], [0.13, 0.18]),
    ...intake(5, 'where the ranges of loam and clay meet', 'assumption'),
  },
  'sandy clay': {
    ...inchesPerFoot([1.6, 2.5]),
    ...intake(3, 'as clay, middle of 1 to 5', 'assumption'),
  },
  'silty clay': {
    ...fao([0.3, 0.42], [0.17, 0.29], [0.13, 0.19]),
    ...intake(3, 'as clay, middle of 1 to 5', 'assumption'),
  },
  clay: {
    ...fao([0.32, 0.4], [0.2, 0.24], [0.12, 0.2]),
    ...intake(3, 'middle of 1 to 5'),
  },
};

/** Texture words that are accepted, coarse to fine. */
export const TEXTURES: readonly string[] = Object.keys(TEXTURE_ROWS);

/** The accepted spelling of a texture word: any letter case, hyphens or spaces; undefined if unknown. */
export function textureName(word: string): string | undefined {
  const name = word
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ');
  return Object.hasOwn(TEXTURE_ROWS, name) ? name : undefined;
}

/**
 * Water a texture holds.
 *
 * @param word - texture, e.g. "silt loam"
 * @returns shares of soil volume [-] with their source
 * @throws Problem with the accepted list if the word is unknown
 * Source: FAO-56 Table 19; clay loam and sandy clay from a University of California table of inches per foot.
 */
export function textureWater(word: string): TextureWater {
  const { available, fieldCapacity, wiltingPoint, certainty, source } = rowOf(word);
  return { available, fieldCapacity, wiltingPoint, certainty, source };
}

/**
 * Basic intake rate: what bare soil still takes after a long wetting.
 *
 * @param word - texture, e.g. "silt loam"
 * @returns rate [mm/h] with its source
 * @throws Problem with the accepted list if the word is unknown
 * Source: published ranges after Hillel (1980); textures between two printed ones take the shared limit (assumption).
 */
export function basicIntake(word: string): { rate: number; source: string } {
  const row = rowOf(word);
  return { rate: row.intake, source: row.intakeSource };
}

function rowOf(word: string): TextureRow {
  const name = textureName(word);
  const row = name === undefined ? undefined : TEXTURE_ROWS[name];
  if (!row)
    throw new Problem(`texture must be one of ${TEXTURES.join(', ')}; got "${word.trim()}"`);
  return row;
}
