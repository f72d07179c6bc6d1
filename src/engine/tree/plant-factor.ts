/** Plant factors: the share of reference ET a kind of plant needs to look and work as it should. */
import { Problem } from '../problems.js';
import type { Certainty } from '../reference-tables.js';

export const CLIMATES = ['dry', 'humid'] as const;
/** "dry": summers without rain to speak of; "humid": a wet growing season. */
export type Climate = (typeof CLIMATES)[number];

export interface PlantFactor {
  /** share of reference ET [-] */
  value: number;
  certainty: Certainty;
  source: string;
}

const S623 = 'ANSI/ASABE S623.1 (2017)';
const WUCOLS = 'Costello and others (2000), WUCOLS species factor';

const factor = (value: number, certainty: Certainty, source: string): PlantFactor => ({
  value,
  certainty,
  source,
});
const same = (each: PlantFactor): Record<Climate, PlantFactor> => ({ dry: each, humid: each });

/** Plant factors by kind and climate. */
export const PLANT_FACTORS: Readonly<Record<string, Record<Climate, PlantFactor>>> = {
  tree: {
    dry: factor(0.5, 'secondary', `${S623}, woody plants where summers are dry; county table`),
    humid: factor(0.7, 'memory', `${S623} Table 1, woody plants with a wet growing season`),
  },
  desert: same(factor(0.3, 'memory', `${S623}, desert-adapted plants`)),
  'very low': same(factor(0.1, 'memory', `${WUCOLS}, "below 0.1": its upper limit`)),
  low: same(factor(0.2, 'memory', `${WUCOLS}, middle of 0.1 to 0.3`)),
  moderate: same(factor(0.5, 'secondary', `${WUCOLS}, middle of 0.4 to 0.6`)),
  high: same(factor(0.8, 'memory', `${WUCOLS}, middle of 0.7 to 0.9`)),
};

/** Words the trade uses for the same thing. */
const SYNONYMS: Readonly<Record<string, string>> = {
  trees: 'tree',
  woody: 'tree',
  'desert adapted': 'desert',
  medium: 'moderate',
  average: 'moderate',
};

/** Kinds and water-use classes that are accepted. */
export const PLANT_KINDS: readonly string[] = Object.keys(PLANT_FACTORS);

/** The accepted spelling of a kind or water-use class: any letter case, hyphens or spaces; undefined if unknown. */
export function plantKind(word: string): string | undefined {
  const plainWord = word
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ');
  const name = SYNONYMS[plainWord] ?? plainWord;
  return Object.hasOwn(PLANT_FACTORS, name) ? name : undefined;
}

/**
 * Plant factor by kind or water-use class. For established plants: a new transplant is bound by its ball.
 *
 * @param kind - "tree", "desert", or a class: "very low", "low", "moderate", "high"
 * @param climate - "dry" or "humid"; only "tree" depends on it
 * @returns factor [-] with its source
 * @throws Problem with the accepted list if the kind is unknown
 * Source: ANSI/ASABE S623.1 (2017); Costello et al. (2000), WUCOLS III, species factors.
 */
export function plantFactor(kind: string, climate: Climate = 'dry'): PlantFactor {
  const name = plantKind(kind);
  const row = name === undefined ? undefined : PLANT_FACTORS[name];
  if (!row)
    throw new Problem(`kind must be one of ${PLANT_KINDS.join(', ')}; got "${kind.trim()}"`);
  return row[climate];
}
