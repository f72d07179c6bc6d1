/**
 * The search for waterings to put forward: day by day the rhythm that eases the season most, by an estimate of how full its
 * days are; then the rounds themselves are asked, the estimate learns from them, and the search goes on.
 */
import type { Piece } from '../crew/day-loads.js';
import { freshPath, type Path, type plannerOf, type Walked } from './path.js';
import {
  lastBefore,
  minutesOn,
  piecesOf,
  until,
  type Rhythm,
  type RhythmWalker,
  type Shift,
} from './rhythm.js';
import type { SeasonWork } from './season-work.js';
import { Routes, type Route } from './routes.js';
import { MOST_MORE_WATERINGS, type Limits } from './shift-limits.js';

/** Most days a watering is put forward. Assumption: beyond that hardly any tree has used the least share. */
export const MOST_DAYS_EARLY = 10;
/** Least share of the usable water used when a watering is put forward [-]. Assumption: less is hardly worth the stop. */
export const LEAST_USED = 0.25;
/** Paths kept at hand; a path is some ten kilobytes. */
const MOST_PATHS = 1_000;
/**
 * How many times over a minute counts, pass by pass, that is more than a day had too much before: first the season as a
 * whole, then more and more the days that fitted.
 */
const WORSE = [0, 0, 5, 30, 200, 1000, 5000, 20_000];
/** The same where hardly any site is joined: the best ways of rows settle in fewer passes than single waterings. */
const WORSE_ALONE = [0, 30, 1000, 20_000];
const FEW_JOINED = 0.1;
/** The same when no day may be longer than it was at any price. */
const NEVER = 1e6;
/** Part of the walks one pass may take, and all passes before rhythms are taken back [-]. */
const A_PASS = 0.15;
const ALL_PASSES = 0.85;
/** Minutes that a mending must bring off the season for another to be tried [min]. */
const MENDED = 30;
/** Times the search goes on after rhythms were taken back. */
const MENDINGS = 3;
/**
 * Stops put in order at most, to see by the rounds themselves how long days are: the slow part of a long list. Some of them
 * are kept for taking back what made a day too long; a season of more stops is asked three times, at the end only.
 */
const MOST_STOPS = 90_000;
const LEAST_CHECKS = 3;
const CHECKS_KEPT = 0.5;
/** Days filled to less than this part are not asked for their rounds while the search is on [-]. */
const NEAR = 0.75;
/** Rounding that is no change. */
const HAIR = 1e-9;
/** Times all rows of their own are asked for a better way in one pass, at most. */
const SWEEPS = 12;
/** Steps of all ways kept at hand; a hundred bytes each. Rows beyond them are eased one watering at a time. */
const MOST_STEPS = 300_000;
/** What each watering costs besides its work, until there are no more of them than a row bears [min²]. */
const PRICES = [0, 20, 80, 300, 1000, 4000, 20_000];
/** What a minute of work costs on any day [min²]: of equal ways the one with less work. */
const A_MINUTE = 0.5;
/** Gains below this are not worth another rhythm [min²]. */
const LEAST_GAIN = 0.5;

/** A rhythm put forward, and by how much it eases the season's days. */
interface Candidate {
  of: number;
  /** undefined: back to where it was */
  shift: Shift | undefined;
  from: Piece[];
  to: Piece[];
  change: number;
}

/** A season that keeps every day that fitted. */
interface Standing {
  over: Float64Array;
  total: number;
  rhythms: Rhythm[];
  moved: Map<number, Walked[]>;
}

const total = (minutes: Float64Array): number => minutes.reduce((sum, each) => sum + each, 0);

export class ShiftSearch {
  /** as they stand */
  readonly rhythms: Rhythm[];
  /** walks of the rhythms that were put forward */
  readonly moved = new Map<number, Walked[]>();
  private readonly first: readonly Rhythm[];
  private readonly mostChecks: number;
  private readonly known = new Map<number, Path>();
  /** ways of the rows that are watered on their own */
  private readonly routes = new Map<number, Routes>();
  private steps = 0;

  /**
   * @param before - minutes by which each day was too long before any relief: those that fitted stay so
   * @param mostWalks - trees walked at most
   * @param ways - of rows, as far as they are known from another search of this season
   */
  constructor(
    private readonly work: SeasonWork,
    private readonly before: Float64Array,
    private readonly walker: RhythmWalker,
    private readonly limits: Limits,
    private readonly by: ReturnType<typeof plannerOf>,
    private readonly mostWalks: number,
    private readonly ways: Map<number, Routes> = new Map(),
  ) {
    this.first = work.rhythms;
    this.rhythms = [...work.rhythms];
    this.mostChecks = Math.max(LEAST_CHECKS, Math.floor(MOST_STOPS / work.loads.allStops()));
  }

  /** @returns minutes by which each day is too long now; undefined if a day that was shorter cannot be kept so */
  run(): Float64Array | undefined {
    const { work } = this;
    const joined = this.rhythms.filter(({ rows }) => rows.length > 1).length;
    const alone = joined <= FEW_JOINED * this.rhythms.length;
    for (const worse of alone ? WORSE_ALONE : WORSE) {
      if (this.walker.walks >= this.mostWalks * ALL_PASSES) break;
      work.loads.worse = worse;
      if (!this.pass(this.mostWalks * ALL_PASSES) && worse > 0) continue;
      if (work.checks >= this.mostChecks * CHECKS_KEPT - 1) continue;
      const over = work.over(this.rhythms, NEAR);
      this.learn(over);
      if (over.every((minutes) => minutes === 0)) break;
    }
    work.loads.worse = NEVER;
    let over = this.takeBack();
    let best = over && this.asItStands(over);
    for (let m = 0; m < MENDINGS && over?.some((minutes) => minutes > 0); m++) {
      if (work.checks + LEAST_CHECKS > this.mostChecks || !this.pass(this.mostWalks)) break;
      over = this.takeBack();
      if (over && best && total(over) >= best.total - MENDED) break;
      if (over) best = this.asItStands(over);
    }
    if (best) this.backTo(best);
    return best?.over;
  }

  private asItStands(over: Float64Array): Standing {
    return { over, total: total(over), rhythms: [...this.rhythms], moved: new Map(this.moved) };
  }

  private backTo({ rhythms, moved }: Standing): void {
    rhythms.forEach((rhythm, of) => {
      const now = this.rhythms[of]!;
      if (now === rhythm) return;
      this.work.loads.remove(now.site, piecesOf(now.now));
      this.work.loads.add(rhythm.site, piecesOf(rhythm.now));
      this.rhythms[of] = rhythm;
    });
    this.moved.clear();
    for (const [of, walked] of moved) this.moved.set(of, walked);
  }

  /**
   * Days in their order, each until it fits or nothing helps.
   *
   * @returns whether any rhythm is another now
   */
  private pass(most: number): boolean {
    const { loads } = this.work;
    const before = [...this.rhythms];
    const end = Math.min(most, this.walker.walks + this.mostWalks * A_PASS);
    this.reroute(end);
    for (let day = 0; day < this.before.length; day++)
      if (loads.over(day) > 0 && this.walker.walks < end) this.ease(day, end);
    this.dropIdle();
    return this.rhythms.some((rhythm, of) => rhythm !== before[of]);
  }

  private learn(over: Float64Array): void {
    const { loads, terms } = this.work;
    over.forEach((minutes, day) => {
      loads.learn(day, minutes * terms.crews);
    });
  }

  private ease(day: number, most: number): void {
    const candidates: Candidate[] = [];
    const onDay = this.rhythms
      .map((rhythm, of) => ({ of, minutes: minutesOn(rhythm, day) }))
      .filter(({ of, minutes }) => minutes > 0 && !this.routes.has(of))
      .sort((a, b) => b.minutes - a.minutes || a.of - b.of);
    for (const { of } of onDay) {
      if (this.walker.walks >= most) break;
      candidates.push(...this.backward(of), ...this.candidates(of, day));
    }
    this.take(candidates, day);
  }

  /** Row after row takes the way that is best beside all others, again and again, until none finds a better one. */
  private reroute(most: number): void {
    const inTurn = this.rhythms
      .map((rhythm, of) => ({ of, minutes: piecesOf(rhythm.now).reduce((sum, piece) => sum + piece.minutes, 0) }))
      .sort((a, b) => b.minutes - a.minutes || a.of - b.of); // prettier-ignore
    for (let sweep = 0; sweep < SWEEPS; sweep++) {
      let changed = false;
      for (const { of } of inTurn) {
        if (this.walker.walks >= most) return;
        if (this.betterWay(of)) changed = true;
      }
      if (!changed) return;
    }
  }

  /** @returns whether there is one, which is taken */
  private betterWay(of: number): boolean {
    const routes = this.routesOf(of);
    if (!routes) return false;
    const { loads } = this.work;
    const rhythm = this.rhythms[of]!;
    const { site } = rhythm;
    const old = piecesOf(rhythm.now);
    loads.remove(site, old);
    const added = loads.addedBy(site);
    const priceOf = ({ day, minutes, trucked }: Piece): number =>
      added(day, minutes, trucked) + A_MINUTE * minutes;
    const now = old.reduce((sum, piece) => sum + priceOf(piece), 0);
    const found = this.bearableWay(of, routes, priceOf, now - LEAST_GAIN);
    loads.add(site, old);
    if (!found) return false;
    this.put({ of, shift: found.early.size > 0 ? found.shift : undefined });
    return true;
  }

  private bearableWay(
    of: number,
    routes: Routes,
    priceOf: (work: Piece) => number,
    below: number,
  ): { early: Route['early']; shift: Shift } | undefined {
    const rhythm = this.rhythms[of]!;
    const { waterings } = this.first[of]!.now[0]!.plan.chosen;
    let tried: string | undefined;
    for (const each of PRICES) {
      const route = routes.best(priceOf, each);
      if (!route || route.price - each * route.waterings >= below) return undefined;
      if (route.waterings > waterings + MOST_MORE_WATERINGS) continue;
      const days = [...route.early.keys()].join();
      if (days === tried) continue;
      tried = days;
      const shift = this.walker.walk(rhythm, this.paths(rhythm), [route.early]);
      const price = piecesOf(shift.now).reduce((sum, piece) => sum + priceOf(piece), 0);
      if (price < below && this.bearable(of, shift, [], 0)) return { early: route.early, shift };
    }
    return undefined;
  }

  /** Ways of a row that is watered on its own, by a means whose waterings are all there is to it. */
  private routesOf(of: number): Routes | undefined {
    const known = this.routes.get(of);
    if (known) return known;
    const rhythm = this.first[of]!;
    const [row] = rhythm.now;
    if (rhythm.now.length > 1 || !this.walker.movable(row!.plan) || this.steps > MOST_STEPS)
      return undefined;
    const [path] = this.paths(rhythm);
    const { option, season } = path!;
    if (option.pad || !option.main) return undefined;
    const { main } = option;
    const { planner } = this.by;
    const routes =
      this.ways.get(rhythm.rows[0]!) ??
      new Routes(path!, planner, {
        leastUsed: LEAST_USED,
        mostDays: MOST_DAYS_EARLY,
        workOf: (day, litres) => this.walker.pieceOf(row!.plan, main, season, day, litres),
      });
    this.ways.set(rhythm.rows[0]!, routes);
    this.routes.set(of, routes);
    // all of them are made by asking once
    routes.best(() => 0, 0);
    this.steps += routes.size;
    return routes;
  }

  /** The best candidate first; what others are worth changes with it, so they are asked again when their turn comes. */
  private take(candidates: Candidate[], day: number): void {
    const taken = new Set<number>();
    candidates.sort((a, b) => a.change - b.change);
    while (candidates.length > 0 && this.work.loads.over(day) > 0) {
      const best = candidates.shift()!;
      if (taken.has(best.of)) continue;
      const { site } = this.rhythms[best.of]!;
      const change = this.work.loads.change(site, best.from, best.to);
      if (change >= -HAIR) continue;
      if (candidates[0] && change > candidates[0].change + HAIR) {
        best.change = change;
        const at = candidates.findIndex((c) => c.change > change);
        candidates.splice(at < 0 ? candidates.length : at, 0, best);
        continue;
      }
      taken.add(best.of);
      this.put(best);
    }
  }

  private put({ of, shift }: Pick<Candidate, 'of' | 'shift'>): void {
    const old = this.rhythms[of]!;
    const rhythm = shift ? { ...old, now: shift.now } : this.first[of]!;
    this.work.loads.remove(old.site, piecesOf(old.now));
    this.work.loads.add(old.site, piecesOf(rhythm.now));
    this.rhythms[of] = rhythm;
    if (shift) this.moved.set(of, shift.walked);
    else this.moved.delete(of);
  }

  /** This rhythm's watering of the day put forward to each day that is open and has room. */
  private candidates(of: number, day: number): Candidate[] {
    const rhythm = this.rhythms[of]!;
    const moving = rhythm.now.flatMap((row, k) =>
      row.watered.includes(day) && this.walker.movable(row.plan) ? [k] : [],
    );
    if (moving.length === 0) return [];
    const paths = this.paths(rhythm);
    const before = Math.max(...moving.map((k) => lastBefore(rhythm.now[k]!.watered, day)));
    const from = Math.max(before + 1, day - MOST_DAYS_EARLY, 0);
    const out: Candidate[] = [];
    for (let earlier = day - 1; earlier >= from; earlier--) {
      if (this.work.loads.over(earlier) > 0) continue;
      if (!moving.every((k) => paths[k]!.option.main!.allowed.open[earlier] === 1)) continue;
      const early = rhythm.now.map((row, k) => {
        const days = until(row, earlier);
        return moving.includes(k) ? days.set(earlier, row.early.get(day) ?? day) : days;
      });
      const shift = this.walker.walk(rhythm, paths, early);
      if (!this.bearable(of, shift, moving, earlier)) continue;
      const old = piecesOf(rhythm.now).filter((piece) => piece.day >= earlier);
      const to = piecesOf(shift.now).filter((piece) => piece.day >= earlier);
      const change = this.work.loads.change(rhythm.site, old, to);
      if (change < -HAIR) out.push({ of, shift, from: old, to, change });
    }
    return out;
  }

  /** This rhythm as it was at first, and without the last day it was put forward to. */
  private backward(of: number): Candidate[] {
    if (!this.moved.has(of)) return [];
    const rhythm = this.rhythms[of]!;
    const { loads } = this.work;
    const from = piecesOf(rhythm.now);
    const first = piecesOf(this.first[of]!.now);
    const change = loads.change(rhythm.site, from, first);
    const out: Candidate[] = [{ of, shift: undefined, from, to: first, change }];
    const last = Math.max(...rhythm.now.flatMap(({ early }) => [...early.keys()]));
    const early = rhythm.now.map((row) => until(row, last));
    if (early.every(({ size }) => size === 0)) return out;
    const shift = this.walker.walk(rhythm, this.paths(rhythm), early);
    if (!this.bearable(of, shift, [], last)) return out;
    const to = piecesOf(shift.now);
    return [...out, { of, shift, from, to, change: loads.change(rhythm.site, from, to) }];
  }

  private bearable(of: number, { walked, now }: Shift, moving: number[], earlier: number): boolean {
    const used = moving.every((k) => {
      const { day, usedNow } = walked[k]!.events;
      const e = day.indexOf(earlier);
      return e >= 0 && usedNow[e]! >= LEAST_USED * 100;
    });
    return (
      used &&
      this.first[of]!.rows.every((row, k) =>
        this.limits.bears(row, walked[k]!.outcome, now[k]!.watered),
      )
    );
  }

  private paths(rhythm: Rhythm): Path[] {
    if (this.known.size > MOST_PATHS) this.known.clear();
    return rhythm.now.map(({ plan }, k) => {
      const row = rhythm.rows[k]!;
      const path =
        this.known.get(row) ??
        freshPath(this.by.planner, this.by.taskOf(plan.tree), plan.chosen.label)!;
      this.known.set(row, path);
      return path;
    });
  }

  /** What stands where it was no longer helps, or never did, goes back. */
  private dropIdle(): void {
    this.rhythms.forEach((rhythm, of) => {
      const first = this.first[of]!;
      if (rhythm === first) return;
      const change = this.work.loads.change(rhythm.site, piecesOf(rhythm.now), piecesOf(first.now));
      if (change <= HAIR) this.put({ of, shift: undefined });
    });
  }

  /**
   * Takes rhythms back until every day that fitted fits, and none is longer than the longest was, by the rounds themselves.
   *
   * @returns minutes by which each day is too long then; undefined if that cannot be had
   */
  private takeBack(): Float64Array | undefined {
    const longest = Math.max(...this.before);
    while (this.work.checks < this.mostChecks) {
      const over = this.work.over(this.rhythms);
      const longer = over.map((minutes, day) =>
        Math.max(0, minutes - (this.before[day]! > 0 ? longest : 0)),
      );
      this.learn(over);
      if (longer.every((minutes) => minutes <= HAIR)) return over;
      const before = [...this.rhythms];
      const few = this.work.checks + LEAST_CHECKS > this.mostChecks;
      longer.forEach((minutes, day) => {
        if (minutes > HAIR) this.takeOff(day, few ? Infinity : minutes * this.work.terms.crews);
      });
      if (this.rhythms.every((rhythm, of) => rhythm === before[of])) break;
    }
    return undefined;
  }

  /** Takes back what came to this day, what costs other days least first, until these crew minutes are off it. */
  private takeOff(day: number, minutes: number): void {
    const came = [...this.moved.keys()]
      .flatMap((of) => this.backward(of))
      .map((candidate) => {
        const now = minutesOn(this.rhythms[candidate.of]!, day);
        const then = candidate.shift?.now ?? this.first[candidate.of]!.now;
        return { ...candidate, less: now - minutesOn({ now: then }, day) };
      })
      .filter(({ less }) => less > 0)
      .sort((a, b) => a.change - b.change || a.of - b.of);
    const done = new Set<number>();
    let left = minutes;
    for (const candidate of came) {
      if (left <= 0) return;
      if (done.has(candidate.of)) continue;
      done.add(candidate.of);
      this.put(candidate);
      left -= candidate.less;
    }
  }
}
