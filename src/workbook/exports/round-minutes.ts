/** A round's hours as the whole minutes its lines print, so that who adds a page up comes to its total. */
import type { CrewStop } from '../../engine/plan/model.js';
import type { Round } from './rounds.js';

export interface RoundMinutes {
  /** drive to each stop, from the yard or from the stop before [min] */
  legs: number[];
  /** at the trees, for each stop its tasks [min] */
  tasks: number[][];
  /** for each stop its fillings of the tank [min] */
  fillings: number[][];
  /** from the last stop back to the yard [min] */
  back: number;
  trees: number; // [min]
  driving: number; // [min]
  tank: number; // [min]
  /** all of it [min] */
  total: number;
}

/** What rounding of sums may leave of a whole minute [min]. */
const ROUNDING = 1e-6;

const sum = (all: readonly number[]): number => all.reduce((a, b) => a + b, 0);

/**
 * Whole numbers that add up to the rounded sum, each within one of its own: those with the largest remainders are rounded
 * up, of equal ones the first. Certainty: common practice (largest remainder), no source.
 */
export function wholeParts(exact: readonly number[]): number[] {
  const down = exact.map((value) => Math.floor(value + ROUNDING));
  const missing = Math.round(sum(exact)) - sum(down);
  const remainder = (i: number): number => exact[i]! - down[i]!;
  const up = exact
    .map((_, i) => i)
    .sort((a, b) => (Math.abs(remainder(b) - remainder(a)) > ROUNDING ? remainder(b) - remainder(a) : a - b))
    .slice(0, Math.max(0, missing));
  for (const i of up) down[i]! += 1;
  return down;
} // prettier-ignore

/** Drive to every stop, where it is known [min]. */
const legsOf = (stops: readonly CrewStop[]): number[] => stops.map((stop) => stop.legMinutes ?? 0);

export function roundMinutes({ stops, driveMinutes }: Round): RoundMinutes {
  const exactLegs = legsOf(stops);
  const tasksOf = stops.map((stop) => stop.tasks.map(({ minutes }) => minutes));
  const fillingsOf = stops.map(({ fillings = [] }) => fillings.map(({ minutes }) => minutes));
  const back = Math.max(0, driveMinutes - sum(exactLegs));
  const whole = wholeParts([...exactLegs, ...tasksOf.flat(), ...fillingsOf.flat(), back]);
  let next = 0;
  const take = (n: number): number[] => whole.slice(next, (next += n));
  const legs = take(stops.length);
  const tasks = tasksOf.map(({ length }) => take(length));
  const fillings = fillingsOf.map(({ length }) => take(length));
  const [home = 0] = take(1);
  const [trees, driving, tank] = [sum(tasks.flat()), sum(legs) + home, sum(fillings.flat())];
  return { legs, tasks, fillings, back: home, trees, driving, tank, total: trees + driving + tank };
}
