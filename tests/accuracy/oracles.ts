/** Every independent computation, under the id of the function it checks. */
import { BAG_ORACLES } from './bag-oracles.js';
import { HOSE_ORACLES } from './hose-oracles.js';
import { sequence, Draw, type Big, type Oracle, type Oracles, type Units } from './precise.js';
import { WEATHER_ORACLES } from './weather-oracles.js';

export const ORACLES: Oracles = { ...WEATHER_ORACLES, ...BAG_ORACLES, ...HOSE_ORACLES };

/** Argument sets of one function in one unit system. */
export const SETS = 100;

/** The sets of a function: they look random and are the same on every run. */
export function setsOf(oracle: Oracle, units: Units): { args: unknown[]; expected: Big }[] {
  const draw = new Draw(sequence(units === 'US' ? 1959 : 1795), units);
  const sets: { args: unknown[]; expected: Big }[] = [];
  for (let tries = 0; sets.length < SETS; tries++) {
    if (tries > 20 * SETS) throw new Error('nearly every draw is thrown away');
    const set = oracle.draw(draw);
    if (set) sets.push(set);
  }
  return sets;
}
