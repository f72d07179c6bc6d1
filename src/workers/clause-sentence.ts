/** A clause of a contract in a sentence, so that a person sees what was understood. */
import { whenWords, type Clause } from '../engine/contract/clauses.js';
import { depthWords, several, volumeWords } from '../engine/contract/say.js';
import { isoDate } from '../engine/dates.js';
import { L_PER_GALLON, M_PER_FOOT, MM_PER_INCH, type Units } from '../engine/units.js';

const MM_PER_CM = 10;
const rounded = (value: number): string => String(Number(value.toPrecision(4)));

function sizeWords({ kind, low, high }: Extract<Clause['who'], { low: number }>, units: Units): string {
  const [unit, one] =
    kind === 'height'
      ? units === 'US' ? ['ft', M_PER_FOOT] : ['m', 1]
      : units === 'US' ? ['in', MM_PER_INCH] : ['cm', MM_PER_CM];
  const name = kind === 'height' ? 'height' : 'trunk';
  const size = (value: number): string => `${rounded(value / (one as number))} ${unit}`;
  if (high === Infinity) return `of ${size(low)} ${name} or more`;
  if (low === 0) return `below ${size(high)} ${name}`;
  return `from ${size(low)} to below ${size(high)} ${name}`;
} // prettier-ignore

function whoWords({ who }: Clause, units: Units): string {
  switch (who.kind) {
    case 'all':
      return 'tree';
    case 'species':
      return `tree of the species “${who.name}”`;
    case 'site':
      return `tree of the site “${who.name}”`;
    case 'caliper':
    case 'height':
      return `tree ${sizeWords(who, units)}`;
  }
}

function priceWords(perCubicMetre: number, units: Units): string {
  // 1,000 gal are as many m³ as a gallon has litres
  const per = units === 'US' ? perCubicMetre * L_PER_GALLON : perCubicMetre;
  return units === 'US' ? `${rounded(per)} per 1,000 gal` : `${rounded(per)} per m³`;
}

const untilWords = (until: NonNullable<Clause['until']>): string =>
  'day' in until
    ? `until ${isoDate(until.day)}`
    : `until ${several(until.months, 'month')} after planting`;

/** @param units - of the person who reads it */
export function clauseSentence(clause: Clause, units: Units): string {
  const { least, visits, most, skip, means, until } = clause;
  const who = whoWords(clause, units);
  const asks = [
    least && `at least ${volumeWords(least.litres, units)} a ${least.per}`,
    visits && `at least ${several(visits.count, 'visit')} a ${visits.per}`,
  ].filter((part) => part !== null);
  const parts = [
    asks.length > 0 && `Each ${who} gets ${asks.join(' and ')}`,
    most &&
      `${asks.length > 0 ? 'all of them' : `All trees (each ${who})`} together get at most ${volumeWords(most.litres, units)} a ${most.per}` +
        (most.price === null ? '' : `, water above it costs ${priceWords(most.price, units)}`),
    whenWords(clause),
    until && untilWords(until),
    means && `only visits by ${means.join(' or ')} count`,
    skip && `${depthWords(skip.mm, units)} of rain within ${several(skip.days, 'day')} stands for a visit`,
  ].filter((part) => typeof part === 'string' && part !== '');
  return `${parts.join('; ')}.`;
} // prettier-ignore
