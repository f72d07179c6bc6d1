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
import { CONTRACT_TWINS } from './twins/contract.js';
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
  ...CONTRACT_TWINS,
} satisfies Record<string, Twin>;

export type TwinId = keyof typeof TWINS;
export const TWIN_IDS = Object.keys(TWINS) as TwinId[];

/** Names of the arguments of a twin, in order. */
export const twinArguments = (id: TwinId): TwinArgument[] => TWINS[id].args;

/** Functions without an argument for the unit system: what they say is the same in both. */
const WITHOUT_UNITS: ReadonlySet<TwinId> = new Set<TwinId>([
  'BAG_OPEN_HOLES', 'HOSE_MINUTES', 'INTERVAL', 'METER_USE', 'OUTLET_FACTOR', 'PAD_DAYS', 'PRICE', 'RECHARGE_DATE', 'STOP_MINUTES',
  'STRESS', 'SUN_ENERGY', 'SUN_HOURS', 'TANK_LOADS', 'WARRANTY_END',
]); // prettier-ignore

/** References and plain numbers stand as they are; anything else is wrapped. */
const safe = (text: string): string => (/^[A-Za-z0-9_.$!]+$/.test(text) ? text : `(${text})`);

/** @throws Problem if a required argument is missing or there are too many */
function checkArguments(id: TwinId, args: readonly string[]): void {
  const { args: wanted }: Twin = TWINS[id];
  if (args.length > wanted.length)
    throw new Problem(`${id} takes ${wanted.length} arguments; got ${args.length}`);
  const missing = wanted.find(({ fallback }, i) => !args[i] && fallback === undefined);
  if (missing) throw new Problem(`${id} needs its argument ${missing.name}`);
}

/**
 * The formula of a twin, without the leading equals sign.
 *
 * @param id - function id without namespace
 * @param args - cell references or literals in the function's order; '' or nothing for one left out
 * @param units - units of the arguments and of the result
 * @throws Problem if a required argument is missing or there are too many
 */
export function twin(id: TwinId, args: readonly string[], units: Units): string {
  checkArguments(id, args);
  const { args: wanted, formula }: Twin = TWINS[id];
  const named = Object.fromEntries(
    wanted.map(({ name, fallback }, i) => [name, safe(args[i] || fallback!)]),
  );
  return formula(named, FACTORS[units]);
}

/**
 * The same by our own function, `SOAK.INTERVAL(…)`, without the leading equals sign.
 *
 * @param id - function id without namespace
 * @param args - as for `twin`
 * @param units - units of the arguments and of the result
 * @throws Problem if a required argument is missing or there are too many
 */
export function ownCall(id: TwinId, args: readonly string[], units: Units): string {
  checkArguments(id, args);
  const all = TWINS[id].args.map((_, i) => args[i] ?? '');
  if (units === 'SI' && !WITHOUT_UNITS.has(id)) all.push('"SI"');
  while (all.at(-1) === '') all.pop();
  return `SOAK.${id}(${all.join(',')})`;
}

/** How a formula says one of our functions: by its twin, or by its own name. */
export type Call = (id: TwinId, args: readonly string[]) => string;

/**
 * A formula in both voices: with the spreadsheet's own functions, for files, and with ours, for programs that have them.
 * One that calls none of our functions has no second voice.
 *
 * @param build - makes the formula, given how to call a function
 */
export function both(
  units: Units,
  build: (call: Call) => string,
): { formula: string; live?: string } {
  const formula = build((id, args) => twin(id, args, units));
  const live = build((id, args) => ownCall(id, args, units));
  return live === formula ? { formula } : { formula, live };
}
