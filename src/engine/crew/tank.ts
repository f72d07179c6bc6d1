/** When the tank of a round is filled: before the job whose water it no longer holds. */
import type { TankFilling } from '../plan/model.js';
import type { Terms } from './rounds.js';
import type { TimedStop } from './round-hours.js';

/** The tank of one round, job after job in the order they are worked. */
export class Tank {
  private water = 0; // [L], of the jobs so far
  private filled = 0;

  constructor(private readonly terms: Pick<Terms, 'loads'>) {}

  /** Loads to take before a job. @param trucked - its water that comes on the truck [L] */
  before(trucked: number): number {
    this.water += trucked;
    const loads = this.terms.loads(this.water);
    const more = loads - this.filled;
    this.filled = loads;
    return more;
  }
}

/**
 * Fillings of a round's tank, for each stop in its order. Together they are the loads of the round and the minutes its
 * hours count for them.
 */
export function fillingsOf(stops: readonly TimedStop[], terms: Terms): TankFilling[][] {
  const tank = new Tank(terms);
  return stops.map(({ jobs }) =>
    jobs.flatMap((job, before): TankFilling[] => {
      const loads = tank.before(job.trucked);
      return loads > 0 ? [{ before, loads, minutes: loads * terms.refillMinutes }] : [];
    }),
  );
}
