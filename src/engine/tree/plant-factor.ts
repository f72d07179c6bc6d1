/** Plant factors: the share of reference ET a kind of plant needs to look and work as it should. */
import { Problem } from '../problems.js';

export const CLIMATES = ['dry', 'humid'] as const;
/** "dry": summers without rain to speak of; "humid": a wet growing season. */
export type Climate = (typeof CLIMATES)[number];

export interface PlantFactor {
  /** share of reference ET [-] */
  value: number;
  source: string;
}

const S623 = 'ANSI/ASABE S623.1 (2017)';
const WUCOLS = 'WUCOLS species factor';

const same = (value: number, source: string): Record<Climate, PlantFactor> => ({
  dry: { value, source },
  humid: { value, source },
});

const TABLE: Readonly<Record<string, Record<Climate, PlantFactor>>> = {
  tree: {
    dry: { value: 0.5, source: `${S623}, woody plants where summers are dry (secondary copy)` },
    humid: {
      value: 0.7,
      source: `${S623} Table 1, woody plants with a wet growing season (to be confirmed)`,
    },
  },
  desert: same(0.3, `${S623}, desert-adapted plants (to be confirmed)`),
  'very low': same(0.1, `${WUCOLS}, "below 0.1": its upper limit`),
  low: same(0.2, `${WUCOLS}, middle of 0.1 to 0.3`),
  moderate: same(0.5, `${WUCOLS}, middle of 0.4 to 0.6`),
  high: same(0.8, `${WUCOLS}, middle of 0.7 to 0.9`),
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
export const PLANT_KINDS: readonly string[] = Object.keys(TABLE);

/** The accepted spelling of a kind or water-use class: any letter case, hyphens or spaces; undefined if unknown. */
export function plantKind(word: string): string | undefined {
  const plainWord = word
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ');
  const name = SYNONYMS[plainWord] ?? plainWord;
  return Object.hasOwn(TABLE, name) ? name : undefined;
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
  const row = name === undefined ? undefined : TABLE[name];
  if (!row)
    throw new Problem(`kind must be one of ${PLANT_KINDS.join(', ')}; got "${kind.trim()}"`);
  return row[climate];
}
