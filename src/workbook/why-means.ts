/** Why a tree gets the means it gets, in a sentence with the numbers that decided. */
import type { MeansOutcome, Site, TreePlan } from '../engine/plan/model.js';
import type { Units } from '../engine/units.js';
import { shown, unitOf } from './quantities.js';

const many = (count: number, one: string): string => `${count} ${count === 1 ? one : `${one}s`}`;

/** The planner's order: least cost first, then water, then visits. */
const byCost = (a: MeansOutcome, b: MeansOutcome): number =>
  a.cost - b.cost || a.litres - b.litres || a.visits - b.visits;

/** "“soaker hose” is the cheapest of 8 means that keep this tree without stress: $161.92 a tree, 78 waterings, 323 gal." */
export function whyMeans({ options, chosen }: TreePlan, site: Site, units: Units): string {
  const money = (value: number): string => `${site.currency}${value.toFixed(2)}`;
  const water = (litres: number): string =>
    `${Math.round(shown('volume', units, litres)).toLocaleString('en-US')} ${unitOf('volume', units)}`;
  const numbers = `${money(chosen.cost)} a tree, ${many(chosen.waterings, 'watering')}, ${water(chosen.litres)}`;
  const tolerated = site.toleratedStress;
  const bound = `this tree ${tolerated === 0 ? 'without stress' : `within ${many(tolerated, 'stress day')}`}`;
  const label = `“${chosen.label}”`;
  if (chosen.stressDays > tolerated)
    return `No means keeps ${bound}; ${label} comes closest with ${many(chosen.stressDays, 'stress day')}: ${numbers}.`;
  const keeping = options.filter((o) => o.feasible && o.stressDays <= tolerated);
  const next = keeping.filter((o) => o.label !== chosen.label).sort(byCost)[0];
  if (!next) return `Only ${label} keeps ${bound}: ${numbers}.`;
  const difference = next.cost - chosen.cost;
  return difference >= 0
    ? `${label} is the cheapest of ${keeping.length} means that keep ${bound}: ${numbers}. Next is “${next.label}”, ${money(difference)} more.`
    : // within a short stock, or with joined visits, the choice need not be the cheapest for one tree alone
      `${label} keeps ${bound}: ${numbers}. “${next.label}” would cost ${money(-difference)} less for this tree alone; the means was chosen for all trees together.`;
}
