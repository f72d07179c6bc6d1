/**
 * One tree, one means, one season, day by day: numbers in typed arrays, nothing made per day, no words.
 *
 * The rule: on a day that is allowed, project both stores without rain to the next allowed day; if the usable
 * water would be passed before it, water now. As late as safe (design of this model, section 9).
 *
 * A whole season is `finish()`. Whoever decides for several trees together drives it a day at a time: ask
 * `usedShare(i)` and `isDue(i)`, then `step(i, waterNow)`, days in their order.
 */
import { newBalance, stepDay, stress, type Balance } from '../soil/water-balance.js';
import { GIVEN, GIVEN_SOAK, SOAK, WATERING, type EventList } from './events.js';
import type { Conditions, MeansNumbers } from './means-numbers.js';
import type { MeansOutcome } from './model.js';
import type { TreeSeason } from './tree-season.js';

/** Smaller amounts are not worth opening a valve for [L]. */
const LEAST_WATERING = 0.5;
/** Days between checks of an automatic hose [day]. */
const CHECK_EVERY = 30;
/** Rounding that does not count as stress [-]. */
const HAIR = 1e-9;

/** What differs from a fresh season planned from its first day. Indexes count days from the season's first. */
export interface Replay {
  /** days before this one are replayed, not decided; default: none */
  today?: number;
  /** litres really applied with the main means on days before `today`, split over the stores by the same rule */
  given?: Float64Array;
  /** litres really soaked into the pad on days before `today` */
  padGiven?: Float64Array;
  /** day the run begins with; default: the tree's first */
  from?: number;
  /** water held at the start of that day [L]; default: full stores */
  start?: { ball: number; ring: number; pad: number };
  /** 1: water on this day if it is allowed and the tree takes any, due or not */
  force?: Uint8Array;
}

const FRESH: Replay = {};

/** What a season came to for one tree. */
export type OutcomeNumbers = Pick<
  MeansOutcome,
  'waterings' | 'litres' | 'visits' | 'stressDays' | 'leastKs' | 'cost'
>;

/** A season under way: the stores as they are today, and what has been given and spent so far. */
export class SeasonRun {
  readonly stores: Balance;
  /** sums so far: one tree's water [L], waterings, times a person came, crew minutes, days and depth of stress */
  litres = 0;
  waterings = 0;
  visits = 0;
  labour = 0;
  stressDays = 0;
  leastKs = 1;
  /** net filling of the pad on the last day stepped: soaked less what an older pad no longer holds [L] */
  padIn = 0;

  /** ball area under a pad, which sheds its rain to the ring, and the rest [m²]; 1 mm on 1 m² is 1 L */
  readonly covered: number;
  readonly ballInRain: number;

  private readonly ahead = newBalance(0, 0, 0);
  private readonly from: number;
  private readonly today: number;
  private readonly force: Uint8Array | undefined;
  private readonly open: Uint8Array;
  private readonly limited: boolean;
  private readonly padded: boolean;
  /** share of the usable water that is not to be passed before the next allowed day [-] */
  private readonly limit: number;
  /** day the stores are ready for, and day that was looked ahead from */
  private begun = -1;
  private looked = -1;
  private padCapacity = 0;
  private runsDry = false;
  /** a day before which the usable water is not passed, as far as is known */
  private dryOn = -1;
  private last = 0;
  private depletionThen = 0;
  private next = 0;
  /** waterings used in the Monday-to-Sunday week of the last one */
  private week = -1;
  private usedInWeek = 0;
  private lastWatered = -Infinity;

  /** @param events - where waterings are written; left out: they are only counted */
  constructor(
    private readonly tree: TreeSeason,
    private readonly means: MeansNumbers,
    private readonly place: Conditions,
    private readonly events?: EventList,
    private readonly replay: Replay = FRESH,
  ) {
    this.from = replay.from ?? tree.first;
    this.today = replay.today ?? 0;
    this.covered = means.padCapacity > 0 ? tree.ballArea * place.padCover : 0;
    this.ballInRain = tree.ballArea - this.covered;
    this.force = replay.force;
    this.open = means.days.open;
    this.limited = means.days.limited;
    this.padded = means.padCapacity > 0;
    this.limit = means.early + HAIR;
    const { start } = replay;
    this.stores = start
      ? newBalance(start.ball, start.ring, start.pad)
      : newBalance(tree.ballTaw, tree.ringTaw[this.from] ?? 0, this.capacityOn(this.from));
  }

  /** Share of the usable water used this morning, before watering [-]; above 1 the tree suffers. */
  usedShare(i: number): number {
    this.begin(i);
    const { tree, stores, ahead } = this;
    copyStores(stores, ahead);
    stepDay(ahead, tree, i);
    return ahead.depletion / tree.raw[i]!;
  }

  /** Whether watering is allowed on the day: by its calendar, what is left of the week's share, and the option's gap. */
  isOpen(i: number): boolean {
    return (
      this.open[i] === 1 &&
      (!this.limited || (this.leftInWeek(i) > 0 && i - this.lastWatered >= this.means.gap))
    );
  }

  /** Litres it would be given on this open day, 0 where it takes too little to be watered [L]. */
  wouldTake(i: number): number {
    this.begin(i);
    const litres = this.amount(i);
    return litres < LEAST_WATERING ? 0 : litres;
  }

  /** The same run as it stands, to be taken another way; what it writes nobody reads. */
  fork(): SeasonRun {
    const { tree, means, place, replay, stores } = this;
    const twin = new SeasonRun(tree, means, place, undefined, replay);
    copyStores(stores, twin.stores);
    twin.litres = this.litres;
    twin.waterings = this.waterings;
    twin.visits = this.visits;
    twin.labour = this.labour;
    twin.stressDays = this.stressDays;
    twin.leastKs = this.leastKs;
    twin.padIn = this.padIn;
    twin.begun = this.begun;
    twin.looked = this.looked;
    twin.padCapacity = this.padCapacity;
    twin.runsDry = this.runsDry;
    twin.dryOn = this.dryOn;
    twin.last = this.last;
    twin.depletionThen = this.depletionThen;
    twin.next = this.next;
    twin.week = this.week;
    twin.usedInWeek = this.usedInWeek;
    twin.lastWatered = this.lastWatered;
    return twin;
  }

  /** What decides how it goes on from here: two runs of one tree and day with equal ones go the same way. */
  standing(): { ball: number; ring: number; pad: number; usedInWeek: number } {
    const { ball, ring, pad } = this.stores;
    return { ball, ring, pad, usedInWeek: this.limited ? this.usedInWeek : 0 };
  }

  /** Whether the usable water would not last to the next day that allows watering. */
  isDue(i: number): boolean {
    if (i < this.today || !this.isOpen(i)) return false;
    if (this.force !== undefined && this.force[i] === 1) return true;
    this.look(i);
    return this.runsDry;
  }

  /**
   * The day itself.
   *
   * @param waterNow - water if the day is allowed and the tree takes any. Days before `today` are replayed.
   */
  step(i: number, waterNow: boolean): void {
    const { tree, stores } = this;
    this.begin(i);
    stores.toBall = 0;
    stores.toRing = 0;
    let came = false;
    if (i < this.today) {
      came = this.replayDay(i);
    } else {
      if (waterNow && this.isOpen(i)) came = this.water(i);
      if (this.padded && this.rechargeIfDue(i)) came = true;
    }
    if (came) {
      this.visits++;
      this.labour += this.means.driveMinutes;
    }
    const rain = this.place.rain[i]!;
    if (rain > 0) {
      stores.toBall += rain * this.ballInRain;
      stores.toRing += rain * (tree.ringArea[i]! + this.covered);
    }
    stepDay(stores, tree, i);
    const { ks } = stores;
    if (ks < 1 - HAIR) this.stressDays++;
    if (ks < this.leastKs) this.leastKs = ks;
  }

  /** Steps through the days that are left, watering when it is due. */
  finish(): OutcomeNumbers {
    const { days } = this.tree;
    for (let i = Math.max(this.from, this.begun + 1); i < days; i++) this.step(i, this.isDue(i));
    return this.outcome();
  }

  /** What the season came to for one tree, the checks of an automatic hose included; after its last day. */
  outcome(): OutcomeNumbers {
    const { means, place, tree, waterings, litres, stressDays, leastKs } = this;
    const checks = means.automatic ? Math.ceil((tree.days - tree.first) / CHECK_EVERY) : 0;
    const visits = this.visits + checks;
    const labour = this.labour + checks * (means.visitMinutes + means.driveMinutes);
    const cost =
      means.kitCost +
      (labour / 60) * place.wage * place.crewSize +
      (litres / 1000) * place.waterPrice;
    return { waterings, litres, visits, stressDays, leastKs, cost };
  }

  /** Morning of a day, once: roots reach further, an ageing pad holds less. */
  private begin(i: number): void {
    if (this.begun === i) return;
    this.begun = i;
    if (i > this.from) this.stores.ring += this.tree.joined[i]!;
    if (this.padded) this.agePad(i);
  }

  private agePad(i: number): void {
    const { stores } = this;
    this.padCapacity = this.capacityOn(i);
    stores.padGives = this.padCapacity * this.place.padRelease;
    this.padIn = 0;
    if (stores.pad <= this.padCapacity) return;
    this.padIn = this.padCapacity - stores.pad;
    stores.pad = this.padCapacity;
  }

  /** Usable capacity of the pad on a day: it decays by a share each year [L]. */
  private capacityOn(i: number): number {
    const { padCapacity } = this.means;
    return padCapacity > 0 ? padCapacity * this.place.padLeft[i - this.tree.first]! : 0;
  }

  /** Looks, once a day, to the next allowed one: would the usable water be passed before it without rain or water? */
  private look(i: number): void {
    this.begin(i);
    if (this.looked === i) return;
    this.looked = i;
    this.next = this.nextOpen(i);
    if (this.stores.pad > 0) {
      this.walkWithPad(i);
      return;
    }
    // rain and watering since an earlier look only put that day off
    if (this.dryOn < this.next) this.walk(i, this.tree.days);
    this.runsDry = this.dryOn < this.next;
  }

  /**
   * Without a pad the total alone matters: Ks is 1 until the usable water is passed, and then the walk ends, so
   * each day takes its whole demand, whichever store it comes from.
   */
  private walk(i: number, end: number): void {
    const { demand, raw, ringTaw, joined, ballTaw } = this.tree;
    const { limit } = this;
    let held = this.stores.ball + this.stores.ring;
    let depletion = 0;
    let t = i;
    for (; t < end; t++) {
      if (t > i) held += joined[t]!;
      depletion = ballTaw + ringTaw[t]! - held;
      if (depletion + demand[t]! > raw[t]! * limit) break;
      held -= demand[t]!;
    }
    this.dryOn = t;
    this.last = t < end ? t : t - 1;
    this.depletionThen = depletion;
  }

  /** A pad gives by what the ball lacks: both stores are walked, by the balance's own step. */
  private walkWithPad(i: number): void {
    const { tree, ahead, next } = this;
    copyStores(this.stores, ahead);
    let dry = false;
    let t = i;
    for (; t < next && !dry; t++) {
      if (t > i) ahead.ring += tree.joined[t]!;
      stepDay(ahead, tree, t);
      dry = ahead.depletion + ahead.et > tree.raw[t]! * this.limit;
    }
    this.runsDry = dry;
    this.last = t - 1;
    this.depletionThen = ahead.depletion;
  }

  /** Next day after `i` on which watering is allowed, or the season's length. */
  private nextOpen(i: number): number {
    const { days } = this.means;
    let j = days.next[i]!;
    if (!days.limited) return j;
    const soonest = this.lastWatered + this.means.gap;
    while (j < this.tree.days && (j < soonest || this.leftInWeek(j) <= 0)) j = days.next[j]!;
    return j;
  }

  private leftInWeek(i: number): number {
    const used = this.place.weekOf[i] === this.week ? this.usedInWeek : 0;
    return this.means.days.perWeek[i]! - used;
  }

  /** Waters with what the reachable stores lack, within the limits of the means. False: the tree takes too little. */
  private water(i: number): boolean {
    const { means } = this;
    const litres = this.amount(i);
    if (litres < LEAST_WATERING) return false;
    if (this.events) this.note(this.events, i, litres);
    this.apply(i, litres);
    return !means.automatic;
  }

  /** Writes a watering down with its reason: the usable water used now, and by the evening of the last day looked at. */
  private note(events: EventList, i: number, litres: number): void {
    this.look(i);
    if (this.stores.pad <= 0) this.walk(i, this.next);
    const { tree, last, next, depletionThen } = this;
    const taw = tree.ballTaw + tree.ringTaw[last]!;
    const et = stress(depletionThen, taw, tree.p[last]!) * tree.demand[last]!;
    const then = Math.min(depletionThen + et, taw) / tree.raw[last]!;
    events.add(i, WATERING, litres, this.usedShare(i), then, next);
  }

  /** What the reachable store lacks ÷ efficiency, within the limits of the means [L]. */
  private amount(i: number): number {
    const { means, tree, stores } = this;
    if (means.full) return means.most;
    const lackBall = Math.max(0, tree.ballTaw - stores.ball);
    const lackRing = Math.max(0, tree.ringTaw[i]! - stores.ring);
    if (means.ballOnly) {
      // a bag wets the ball alone; the ring gets a share of what the ball cannot hold
      const throughBall = tree.overflowToRing > 0 ? lackRing / tree.overflowToRing : 0;
      return Math.min(means.most, (lackBall + throughBall) / means.efficiency);
    }
    const lack = lackBall + lackRing * this.ringInReach(i);
    return Math.min(means.most, lack / means.efficiency, means.flow * means.days.minutes[i]!);
  }

  /** Brings litres onto the tree: what reaches each store, and what it costs in water, work and the week's share. */
  private apply(i: number, litres: number): void {
    const { means, tree, stores, place } = this;
    const arrives = litres * means.efficiency;
    if (means.ballOnly) {
      this.stores.toBall = arrives;
    } else {
      // assumption: laid evenly over both, water moves sideways to the part that lacks it before it drains
      const lackBall = Math.max(0, tree.ballTaw - stores.ball);
      const lackRing = Math.max(0, tree.ringTaw[i]! - stores.ring) * this.ringInReach(i);
      const lack = lackBall + lackRing;
      const ballShare = lack > 0 ? lackBall / lack : 0;
      this.stores.toBall = arrives * ballShare;
      this.stores.toRing = arrives * (1 - ballShare);
    }
    this.waterings++;
    this.lastWatered = i;
    this.litres += litres;
    const week = place.weekOf[i]!;
    this.usedInWeek = week === this.week ? this.usedInWeek + 1 : 1;
    this.week = week;
    if (means.automatic) return;
    const refill = (litres / means.tankLoad) * means.refillMinutes;
    this.labour += means.visitMinutes + litres / means.pourFlow + refill;
  }

  /** Share of the ring a means can wet: all of it by hand, what the coil covers by hose [-]. */
  private ringInReach(i: number): number {
    const ring = this.tree.ringArea[i]!;
    if (ring <= 0) return 1;
    return Math.min(1, Math.max(0, this.means.beyondBall / ring));
  }

  /** Lifts the pad and soaks it if it would fall to its reserve before the next day that allows it. */
  private rechargeIfDue(i: number): boolean {
    const { tree, stores, place, means, padCapacity } = this;
    if (means.padDays.open[i] !== 1 || stores.pad >= padCapacity) return false;
    const next = means.padDays.next[i]!;
    const lack = Math.max(0, tree.ballTaw - stores.ball - this.stores.toBall) / tree.ballTaw;
    const leftThen = stores.pad - padCapacity * place.padRelease * lack * (next - i);
    if (leftThen > place.padReserve * padCapacity) return false;
    this.soak(i, padCapacity, SOAK);
    return true;
  }

  /** Fills the pad up to a level [L]. */
  private soak(i: number, level: number, kind: number): void {
    const litres = level - this.stores.pad;
    this.stores.pad = level;
    this.padIn += litres;
    this.litres += litres;
    this.labour += this.means.padVisitMinutes;
    this.events?.add(i, kind, litres, 0, 0, 0);
  }

  /** A day that is past: what was really given, whatever the rules or the need said. */
  private replayDay(i: number): boolean {
    const { replay, means } = this;
    const litres = replay.given?.[i] ?? 0;
    const soaked = replay.padGiven?.[i] ?? 0;
    let came = false;
    if (litres > 0) {
      this.apply(i, litres);
      this.events?.add(i, GIVEN, litres, 0, 0, 0);
      came = !means.automatic;
    }
    if (soaked > 0) {
      this.soak(i, Math.min(this.padCapacity, this.stores.pad + soaked), GIVEN_SOAK);
      came = true;
    }
    return came;
  }
}

/** What is held, with nothing entering. */
function copyStores(from: Balance, to: Balance): void {
  to.ball = from.ball;
  to.ring = from.ring;
  to.pad = from.pad;
  to.padGives = from.padGives;
}
