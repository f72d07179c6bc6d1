/**
 * How full the days of a season are, near enough to choose by: minutes at the trees, a mean drive for every site visited,
 * refills shared evenly by the crews. The rounds themselves are worked out afterwards.
 */
import type { RuleWindow } from '../rules/rule-types.js';
import type { Terms } from './rounds.js';

/** A row's work on one day of the season. */
export interface Piece {
  /** index from the season's first day */
  day: number;
  /** at the trees [min] */
  minutes: number;
  /** water that comes on a truck [L] */
  trucked: number;
  /** the open hours within the crew's day it is bound to; undefined: none */
  windows?: readonly RuleWindow[] | undefined;
}

/** What an evenly filled day is worth beside one that is not too long [-]. Assumption: little. */
const LEVEL = 0.02;

export class DayLoads {
  private readonly minutes: Float64Array;
  private readonly trucked: Float64Array;
  private readonly stops: Float64Array;
  /** pieces of each site on each day */
  private readonly here: Uint32Array;
  /** minutes that fit into each day, as they are counted here */
  private readonly room: Float64Array;
  /** how many times over a minute counts that is more than a day had too much as given [-] */
  worse = 0;

  /**
   * @param driveMinutes - mean drive for a stop, the way back to the yard shared in [min]
   * @param given - crew minutes by which each day was too long as given [min]
   * @param room - crew minutes that fit into each day, as they are counted here [min]
   */
  constructor(
    private readonly days: number,
    sites: number,
    private readonly terms: Terms,
    private readonly driveMinutes: number,
    private readonly given: Float64Array,
    room: Float64Array,
  ) {
    this.minutes = new Float64Array(days);
    this.trucked = new Float64Array(days);
    this.stops = new Float64Array(days);
    this.here = new Uint32Array(days * sites);
    this.room = room.slice();
  }

  /** Indexes of the days, from 0. */
  get lengths(): { length: number } {
    return { length: this.days };
  }

  /** Stops of all days together. */
  allStops(): number {
    return this.stops.reduce((sum, stops) => sum + stops, 0);
  }

  /** Part of what fits that a day is filled to [-]. */
  filled(day: number): number {
    return this.load(day) / this.room[day]!;
  }

  /** Crew minutes of a day [min]. */
  load(day: number): number {
    return this.loadOf(this.minutes[day]!, this.trucked[day]!, this.stops[day]!);
  }

  private loadOf(minutes: number, water: number, stops: number): number {
    const { crews, refillMinutes } = this.terms;
    // sums of what was added and taken away may end a hair below nothing
    const loads = water > 1e-6 ? this.terms.loads(water / crews) * crews : 0;
    return minutes + loads * refillMinutes + stops * this.driveMinutes;
  }

  /**
   * What one more piece of a site's work would add to the square of the minutes by which its day is too long, and to how
   * unlike the days are filled. Holds until work is added or taken away.
   */
  addedBy(site: number): (day: number, minutes: number, trucked: number) => number {
    const now = new Float64Array(this.days).fill(-1);
    return (day, minutes, trucked) => {
      if (now[day]! < 0) now[day] = this.weight(day, this.load(day));
      const stops = this.stops[day]! + (this.here[site * this.days + day] === 0 ? 1 : 0);
      const then = this.loadOf(this.minutes[day]! + minutes, this.trucked[day]! + trucked, stops);
      return this.weight(day, then) - now[day]!;
    };
  }

  private weight(day: number, load: number): number {
    return this.cost(day, Math.max(0, load - this.room[day]!)) + LEVEL * load ** 2;
  }

  private cost(day: number, over: number): number {
    return over > 0 ? over ** 2 + this.worse * Math.max(0, over - this.given[day]!) ** 2 : 0;
  }

  /** Minutes by which a day is too long, 0 if it fits [min]. */
  over(day: number): number {
    return Math.max(0, this.load(day) - this.room[day]!);
  }

  /** What the rounds of a day have shown: by how many crew minutes it is too long as it stands, 0 if it fits [min]. */
  learn(day: number, over: number): void {
    if (over > 0 || this.over(day) > 0) this.room[day] = this.load(day) - over;
  }

  add(site: number, pieces: readonly Piece[]): void {
    for (const { day, minutes, trucked } of pieces) {
      this.minutes[day]! += minutes;
      this.trucked[day]! += trucked;
      if (this.here[site * this.days + day]!++ === 0) this.stops[day]!++;
    }
  }

  remove(site: number, pieces: readonly Piece[]): void {
    for (const { day, minutes, trucked } of pieces) {
      this.minutes[day]! -= minutes;
      this.trucked[day]! -= trucked;
      if (--this.here[site * this.days + day]! === 0) this.stops[day]!--;
    }
  }

  /**
   * What it would change if work of a site were done at other times: the sum over its days of the squares of the minutes
   * by which they are too long. Squares, so that one very long day counts for more than a few a little too long.
   */
  change(site: number, from: readonly Piece[], to: readonly Piece[]): number {
    const touched = new Set<number>();
    for (const { day } of from) touched.add(day);
    for (const { day } of to) touched.add(day);
    const cost = (): number => {
      let sum = 0;
      for (const day of touched) sum += this.cost(day, this.over(day));
      return sum;
    };
    const before = cost();
    this.remove(site, from);
    this.add(site, to);
    const after = cost();
    this.remove(site, to);
    this.add(site, from);
    return after - before;
  }
}
