/**
 * The worksheet functions that have a twin made of the spreadsheet's own functions, so that a file shows
 * and recalculates the right number where nothing is installed.
 *
 * Only functions that every spreadsheet program of the last ten years has. A twin answers #N/A where the question
 * has no answer; it does not repeat the sentences of its function about bad input.
 */
import { Problem } from '../engine/problems.js';
import type { Units } from '../engine/units.js';
import { BAG_AND_PAD_TWINS } from './twins/bag-and-pad.js';
import { CREW_TWINS } from './twins/crew.js';
import { HOSE_TWINS } from './twins/hose.js';
import { FACTORS, type Twin, type TwinArgument } from './twins/parts.js';
import { TREE_AND_SOIL_TWINS } from './twins/tree-and-soil.js';
import { WEATHER_TWINS } from './twins/weather.js';

const TWINS = {
  ...WEATHER_TWINS,
  ...TREE_AND_SOIL_TWINS,
  ...BAG_AND_PAD_TWINS,
  ...HOSE_TWINS,
  ...CREW_TWINS,
} satisfies Record<string, Twin>;

export type TwinId = keyof typeof TWINS;
export const TWIN_IDS = Object.keys(TWINS) as TwinId[];

/** Names of the arguments of a twin, in order. */
export const twinArguments = (id: TwinId): TwinArgument[] => TWINS[id].args;

/** References and plain numbers stand as they are; anything else is wrapped. */
const safe = (text: string): string => (/^[A-Za-z0-9_.$!]+$/.test(text) ? text : `(${text})`);

/**
 * The formula of a twin, without the leading equals sign.
 *
 * @param id - function id without namespace
 * @param args - cell references or literals in the function's order; '' or nothing for one left out
 * @param units - units of the arguments and of the result
 * @throws Problem if a required argument is missing or there are too many
 */
export function twin(id: TwinId, args: readonly string[], units: Units): string {
  const { args: wanted, formula }: Twin = TWINS[id];
  if (args.length > wanted.length)
    throw new Problem(`${id} takes ${wanted.length} arguments; got ${args.length}`);
  const named: Record<string, string> = {};
  wanted.forEach(({ name, fallback }, i) => {
    const given = args[i] ?? '';
    if (given === '' && fallback === undefined)
      throw new Problem(`${id} needs its argument ${name}`);
    named[name] = safe(given === '' ? fallback! : given);
  });
  return formula(named, FACTORS[units]);
}
