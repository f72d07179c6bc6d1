/**
 * Every way a row could be watered through the season: from each watering to each open day on which the next may come, up to
 * the day it is due. What a day costs the crews is a price, so the best of all ways is a shortest path.
 */
import type { Piece } from '../crew/day-loads.js';
import type { SeasonRun } from './kernel.js';
import { firstDay, runOf, type EarlyDays, type Path } from './path.js';
import type { TreePlanner } from './plan-trees.js';

/** A watering that may follow another. */
interface Step {
  work: Piece;
  /** day it is due at the latest, and from then on watered without being asked to */
  due: number;
  to: Stand;
}

/** A row in the evening of a watering; -1: before the first. */
interface Stand {
  day: number;
  /** until its steps are made */
  run: SeasonRun | undefined;
  steps: Step[];
  /** it lasts from here to the season's end */
  lasts: boolean;
  /** of the search under way */
  search: number;
  price: number;
  count: number;
  from: Stand | undefined;
  by: Step | undefined;
}

type Told = Stand & { at: ReturnType<SeasonRun['standing']> };

export interface Route {
  price: number;
  waterings: number;
  early: EarlyDays;
}

/** What the crews pay for a piece of work. */
export type PriceOf = (work: Piece) => number;

/** How the ways of a row are made. */
export interface Making {
  /** least share of the usable water used when a watering is put forward, and most days [-, day] */
  leastUsed: number;
  mostDays: number;
  workOf(day: number, litres: number): Piece;
}

/** Stores that differ by less go the same way, near enough to choose by; the walk itself decides [L]. */
const ALIKE = 0.05;
/** Unlike stores told apart on one day. Beyond them the nearest stands for the rest. */
const MOST_STANDS = 6;

export class Routes {
  /** steps made so far */
  size = 0;
  private readonly onDay: Told[][] = [];
  private readonly root: Stand;
  private search = 0;

  constructor(
    private readonly path: Path,
    planner: TreePlanner,
    private readonly making: Making,
  ) {
    const run = runOf(path, planner);
    this.root = stand(firstDay(path) - 1, run);
  }

  /**
   * The way with the least price; of equal ones the one that is put forward least.
   *
   * @param each - price of any watering, on top of its work
   */
  best(priceOf: PriceOf, each: number): Route | undefined {
    const search = ++this.search;
    const { root } = this;
    Object.assign(root, { search, price: 0, count: 0 });
    let end: Stand | undefined;
    const look = (from: Stand): void => {
      this.open(from);
      if (from.lasts && (end === undefined || from.price < end.price)) end = from;
      for (const step of from.steps) {
        const { to } = step;
        const price = from.price + each + priceOf(step.work);
        if (to.search === search && to.price <= price) continue;
        Object.assign(to, { search, price, count: from.count + 1, from, by: step });
      }
    };
    look(root);
    for (let day = root.day + 1; day < this.path.season.days; day++)
      for (const from of this.onDay[day] ?? []) if (from.search === search) look(from);
    return end && this.routeTo(end);
  }

  private routeTo(end: Stand): Route {
    const early: [number, number][] = [];
    for (let at = end; at !== this.root; at = at.from!)
      if (at.day < at.by!.due) early.push([at.day, at.by!.due]);
    return { price: end.price, waterings: end.count, early: new Map(early.reverse()) };
  }

  /** Makes the steps of a stand. */
  private open(from: Stand): void {
    const { run } = from;
    if (!run) return;
    from.run = undefined;
    const { days } = this.path.season;
    const { leastUsed, mostDays, workOf } = this.making;
    const found: { work: Piece; to: Stand }[] = [];
    for (let day = from.day + 1; day < days; day++) {
      const due = run.isDue(day);
      if (due || (run.isOpen(day) && run.usedShare(day) >= leastUsed)) {
        const litres = run.wouldTake(day);
        if (litres > 0) {
          const to = run.fork();
          to.step(day, true);
          found.push({ work: workOf(day, litres), to: this.standing(day, to) });
          if (due) {
            // the latest first, so that of equal ways the one that waits is found first
            from.steps = found
              .filter(({ to: { day: early } }) => day - early <= mostDays)
              .reverse()
              .map((step) => ({ ...step, due: day }));
            this.size += from.steps.length;
            return;
          }
        }
      }
      run.step(day, false);
    }
    from.lasts = true;
  }

  private standing(day: number, run: SeasonRun): Stand {
    const there = (this.onDay[day] ??= []);
    const own = run.standing();
    let best: Stand | undefined;
    let least = Infinity;
    for (const other of there) {
      if (other.at.usedInWeek !== own.usedInWeek) continue;
      const apart = Math.abs(other.at.ball - own.ball) + Math.abs(other.at.ring - own.ring);
      if (apart < least) [best, least] = [other, apart];
    }
    if (best && (least < ALIKE || (there.length >= MOST_STANDS && least < Infinity))) return best;
    const made = Object.assign(stand(day, run), { at: own });
    there.push(made);
    return made;
  }
}

const stand = (day: number, run: SeasonRun): Stand => ({
  day, run, steps: [], lasts: false, search: 0, price: 0, count: 0, from: undefined, by: undefined,
}); // prettier-ignore
