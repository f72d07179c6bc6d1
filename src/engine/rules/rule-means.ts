/** The Means column: our words, and what ordinances and crews write for them. */
import { each, list } from './rule-cells.js';
import { MEANS_WORDS } from './rule-types.js';
import { Problem } from '../problems.js';

type Means = (typeof MEANS_WORDS)[number];

/**
 * Other words for our means, singular. A bare "hose" is any hose: an ordinance that says no more speaks of the one that is
 * held as well as the one that lies and seeps; a row for one of them says "hand" or "soaker". Common practice, no source.
 */
export const MEANS_SPOKEN: Readonly<Record<string, readonly Means[]>> = {
  hose: ['soaker', 'hand'],
  'soaker hose': ['soaker'],
  'porous hose': ['soaker'],
  'hand-held hose': ['hand'],
  'hand held hose': ['hand'],
  'handheld hose': ['hand'],
  'hand watering': ['hand'],
  'by hand': ['hand'],
  truck: ['tanker'],
  'water truck': ['tanker'],
  'tank truck': ['tanker'],
  'watering bag': ['bag'],
  'slow-release bag': ['bag'],
  'slow release bag': ['bag'],
  'gel pad': ['pad'],
  'drip line': ['drip'],
  dripline: ['drip'],
  'drip irrigation': ['drip'],
  'drip system': ['drip'],
  can: ['bucket'],
  'watering can': ['bucket'],
};

/** What the column takes, for help texts and refusals. */
export const MEANS_ACCEPTED = `any, or of ${MEANS_WORDS.join(', ')}; also ${[
  'hose',
  'truck',
  'watering bag',
  'watering can',
]
  .map((said) => `${said} (${(MEANS_SPOKEN[said] ?? []).join(' and ')})`)
  .join(', ')}; one or many`;

/** Several of our words, or words for them, one or many of each; null for `any`. @throws Problem naming every other word */
export function meansOf(text: string): string[] | null {
  const said = text.toLowerCase();
  if (said === 'any' || said === 'all') return null;
  const parts = list(said.replace(/,? (?:and|or) | ?[&/+] ?/g, ','));
  return [...new Set(each(parts, one).flat())];
}

function one(said: string): readonly Means[] {
  const single = said.replace(/s$/, '');
  const own = MEANS_WORDS.find((word) => word === said || word === single);
  const found = own ? [own] : (MEANS_SPOKEN[said] ?? MEANS_SPOKEN[single]);
  if (found === undefined) throw new Problem(`"${said}" is not one of the words`);
  return found;
}
