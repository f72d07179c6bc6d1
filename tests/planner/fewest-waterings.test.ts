/**
 * The choice of days against every set of allowed days, on small random seasons. 2-model 9: as late as safe, so as
 * few events as possible; the plan may not need more events than the best set. Judged by a balance of its own
 * (dry-ledger.ts), not by the planner's.
 *
 * What "the same stress standard" is decides the answer, so each is counted:
 *   evening  the usable water RAW is not passed by any evening. FAO-56's advice, and the planner's rule, which lets
 *            no day end with more depleted than RAW if that can be helped. On this standard no set may be better.
 *   morning  no day has Ks < 1, Ks read after the morning's water as in FAO-56 Example 38. Weaker: RAW may be
 *            passed the evening before a watering. This is what the plan's "stress days" count.
 */
import { describe, expect, it } from 'vitest';
import { simulate, type DayRow } from '../../src/engine/plan/simulate.js';
import { fullStores, nextDay, seasonOn, type Ledger } from './dry-ledger.js';
import { FROM, MOST_ALLOWED, smallCase, type SmallCase } from './small-cases.js';

const CASES = 1600;
const HAIR = 1e-9;

/** Least waterings over all sets that keep a standard, and the least stress any set can have. */
interface Best {
  evening: number;
  morning: number;
  /** no more evenings beyond RAW, and no further beyond it */
  depth: number;
  /** no more stress days, and no more unmet demand */
  unmet: number;
  leastStress: number;
  sets: number;
}

interface Judged {
  small: SmallCase;
  plan: Ledger;
  /** planned days, first = 0 */
  dates: Set<number>;
  /** largest difference of stores between planner and ledger [L] */
  apart: number;
  planned: { waterings: number; stressDays: number; litres: number };
  best: Best;
}

/** Monday-to-Sunday weeks: serial 2 is a Monday. */
const weekOf = (day: number): number => Math.floor((FROM + day - 2) / 7);

/** Every set of allowed days within the weekly limit; sets that begin alike share their days. */
function everySet(small: SmallCase, plan: Ledger): Best {
  const { season, way, place, perWeek } = small;
  const isOpen = new Set(small.open);
  const best: Best = {
    evening: Infinity, morning: Infinity, depth: Infinity, unmet: Infinity, leastStress: Infinity, sets: 0,
  }; // prettier-ignore
  const close = (end: Ledger): void => {
    best.sets++;
    best.leastStress = Math.min(best.leastStress, end.stressDays);
    if (end.overDays <= plan.overDays) {
      best.evening = Math.min(best.evening, end.waterings);
      if (end.beyond <= plan.beyond + HAIR) best.depth = Math.min(best.depth, end.waterings);
    }
    if (end.stressDays > plan.stressDays) return;
    best.morning = Math.min(best.morning, end.waterings);
    if (end.unmet <= plan.unmet + HAIR) best.unmet = Math.min(best.unmet, end.waterings);
  };
  const from = (start: number, before: Ledger, week: number, used: number): void => {
    let ledger = before;
    let day = start;
    for (; day < season.days && !isOpen.has(day); day++)
      ledger = nextDay(ledger, season, way, place, day, false);
    if (day >= season.days) {
      close(ledger);
      return;
    }
    from(day + 1, nextDay(ledger, season, way, place, day, false), week, used);
    const inWeek = weekOf(day) === week ? used : 0;
    if (inWeek >= perWeek) return;
    const watered = nextDay(ledger, season, way, place, day, true);
    // a day that takes less than the least watering is the same set without it
    if (watered.waterings > ledger.waterings) from(day + 1, watered, weekOf(day), inWeek + 1);
  };
  from(season.first, fullStores(), -1, 0);
  return best;
}

function judge(small: SmallCase): Judged {
  const { season, option, site, weather, way, place } = small;
  const rows: DayRow[] = [];
  const outcome = simulate(season, option, site, weather, (row) => rows.push(row));
  const dates = new Set(outcome.plan.map((w) => w.day - FROM));
  let apart = 0;
  const plan = seasonOn(season, way, place, (day) => dates.has(day), (day, ledger) => {
    const row = rows[day - season.first]!;
    apart = Math.max(
      apart,
      Math.abs(season.ballTaw - ledger.ball - row.ball),
      Math.abs(season.ringTaw[day]! - ledger.ring - row.ring),
    );
  }); // prettier-ignore
  const { waterings, stressDays, litres } = outcome;
  const planned = { waterings, stressDays, litres };
  return { small, plan, dates, apart, planned, best: everySet(small, plan) };
}

const judged = Array.from({ length: CASES }, (_, i) => smallCase(i))
  .filter((small) => small.season.first < small.season.days)
  .map(judge);

const named = (list: Judged[]): string[] =>
  list.map(({ small, plan, best }) =>
    `${small.name}: plan ${plan.waterings}, best ${best.evening} / ${best.morning}, stress ${plan.stressDays}`); // prettier-ignore
const sum = (list: Judged[], of: (j: Judged) => number): number =>
  list.reduce((total, j) => total + of(j), 0);

const dry = judged.filter((j) => !j.small.rainy);
const rainy = judged.filter((j) => j.small.rainy);
/** never a day that ends beyond RAW; no stress, but a day's demand beyond RAW; stress */
const kept = (list: Judged[]) => list.filter((j) => j.plan.overDays === 0);
const tight = (list: Judged[]) =>
  list.filter((j) => j.plan.overDays > 0 && j.plan.stressDays === 0);
const stressed = (list: Judged[]) => list.filter((j) => j.plan.stressDays > 0);

describe('the cases', () => {
  it('are many and of all kinds, with at most 14 allowed days', () => {
    expect(judged.length).toBeGreaterThanOrEqual(550);
    expect(Math.max(...judged.map((j) => j.small.open.length))).toBe(MOST_ALLOWED);
    for (const kind of ['bag full', 'bag part', 'soaker', 'hand'])
      for (const list of [kept(dry), kept(rainy), stressed(dry), stressed(rainy)])
        expect(list.filter((j) => j.small.kind === kind).length, kind).toBeGreaterThanOrEqual(5);
    expect(judged.filter((j) => j.small.perWeek < 7).length).toBeGreaterThan(80);
    expect(sum(judged, (j) => j.best.sets)).toBeGreaterThan(1e6);
  });
  it('come out the same in the second balance: stores, stress days, waterings, litres', () => {
    expect(Math.max(...judged.map((j) => j.apart))).toBeLessThan(1e-9);
    for (const { plan, planned, small } of judged) {
      expect([plan.waterings, plan.stressDays], small.name).toEqual([planned.waterings, planned.stressDays]); // prettier-ignore
      expect(Math.abs(plan.litres - planned.litres), small.name).toBeLessThan(1e-6);
    }
  });
  it('find the plan itself among the sets', () => {
    for (const { plan, best, small } of judged) {
      expect(best.evening, small.name).toBeLessThanOrEqual(plan.waterings);
      expect(best.morning, small.name).toBeLessThanOrEqual(plan.waterings);
    }
  });
});

/** Whether RAW is passed by an evening from that morning on, without rain or watering, before another day. */
function runsDry(small: SmallCase, morning: Ledger, day: number, next: number): boolean {
  const noRain = { ...small.place, rain: new Float64Array(small.season.days) };
  let ledger = morning;
  for (let t = day; t < next; t++)
    ledger = nextDay(ledger, small.season, small.way, noRain, t, false);
  return ledger.overDays > morning.overDays;
}

describe('the rule of 2-model 9, day by day', () => {
  it('every watering was needed, and every allowed day passed over was safe, rain unknown', () => {
    const wrong: string[] = [];
    let asked = 0;
    for (const { small, dates } of judged) {
      let before = fullStores();
      const used = new Map<number, number>();
      const left = (day: number): number => small.perWeek - (used.get(weekOf(day)) ?? 0);
      for (let day = small.season.first; day < small.season.days; day++) {
        const open = small.open.filter((d) => left(d) > 0);
        const next = open.find((d) => d > day) ?? small.season.days;
        if (open.includes(day)) {
          asked++;
          const due = runsDry(small, before, day, next);
          if (due !== dates.has(day)) {
            // the one excuse: the store takes less than the least watering
            const { season, way, place } = small;
            const tried = nextDay(before, season, way, place, day, true);
            if (!due || tried.waterings > before.waterings) wrong.push(`${small.name}, day ${day}`);
          }
        }
        const { season, way, place } = small;
        before = nextDay(before, season, way, place, day, dates.has(day));
        if (dates.has(day)) used.set(weekOf(day), (used.get(weekOf(day)) ?? 0) + 1);
      }
    }
    expect(asked).toBeGreaterThan(5000);
    expect(wrong).toEqual([]);
  });
});

/**
 * Sets that do better than the plan on the evening standard, without rain. Known: a bag on a tree whose ring
 * catches nothing of the ball's overflow. Its water goes into a small ball only, and a ball that is filled late has
 * no time to be emptied and filled again before the season's few days end. One case in 320; never at the default.
 */
const KNOWN = ['case 1050: bag part, any day: plan 3, best 2 / 1, stress 0'];

describe('without rain, where the plan keeps the usable water', () => {
  const list = kept(dry);
  it('no set keeps it with fewer waterings: 0 gaps in more than 280 cases but the known one', () => {
    expect(list.length).toBeGreaterThan(280);
    const gaps = list.filter((j) => j.best.evening < j.plan.waterings);
    expect(named(gaps).filter((gap) => !KNOWN.includes(gap))).toEqual([]);
    expect(gaps.every((j) => j.small.site.overflowToRing === 0)).toBe(true);
  });
  it('on the weaker morning standard fewer would do: at most a fifth, in half of the cases', () => {
    // Measured 152 of 320 cases, 1,125 waterings in place of 1,407. Why: the rule waters when RAW would be passed
    // by the evening before the next allowed day; Ks of the next morning, after its water, would still be 1.
    const gaps = list.filter((j) => j.best.morning < j.plan.waterings);
    expect(gaps.length / list.length).toBeLessThanOrEqual(0.48);
    const [planned, least] = [sum(list, (j) => j.plan.waterings), sum(list, (j) => j.best.morning)];
    expect(least / planned).toBeGreaterThanOrEqual(0.79);
    expect(gaps.length).toBeGreaterThan(0); // the two standards differ
  });
});

describe('without rain, where a day’s demand passes the usable water but no morning does', () => {
  it('at most one set in ten ends no day further beyond it with fewer waterings', () => {
    // Measured 5 of 81 cases, 893 waterings in place of 898.
    const list = tight(dry);
    const gaps = list.filter((j) => j.best.depth < j.plan.waterings);
    expect(list.length).toBeGreaterThan(50);
    expect(gaps.length / list.length).toBeLessThanOrEqual(0.1);
  });
});

describe('with rain, where the plan keeps the usable water', () => {
  it('hindsight saves waterings, since the rule does not count on rain: about a fifth', () => {
    // Measured 145 of 345 cases, 872 waterings in place of 1,102. Each was needed on what was known that morning.
    const list = kept(rainy);
    const [planned, least] = [sum(list, (j) => j.plan.waterings), sum(list, (j) => j.best.evening)];
    expect(list.length).toBeGreaterThan(280);
    expect(least / planned).toBeGreaterThanOrEqual(0.78);
    expect(list.every((j) => j.best.leastStress === 0)).toBe(true);
  });
});

describe('where the plan leaves stress', () => {
  /** Water on every allowed day, within the week's limit, whatever the need. */
  const always = ({ season, way, place, open }: SmallCase): Ledger => {
    const days = new Set(open);
    return seasonOn(season, way, place, (day) => days.has(day));
  };
  const free = stressed(judged).filter((j) => j.small.perWeek >= 7);
  const limited = stressed(judged).filter((j) => j.small.perWeek < 7);

  it('without a weekly limit nothing beats watering on every allowed day', () => {
    expect(free.length).toBeGreaterThan(400);
    for (const { small, best } of free)
      expect(always(small).stressDays, small.name).toBe(best.leastStress);
  });
  it('and the plan has at most 2 % more stress days than the best set', () => {
    // Measured 12,552 stress days in place of 12,427; 44 of 553 cases could have less, 14 of them none. Why: a means
    // that cannot refill what the tree draws must start before the usable water is nearly gone.
    const [had, least] = [
      sum(free, (j) => j.plan.stressDays),
      sum(free, (j) => j.best.leastStress),
    ];
    expect(had / least).toBeLessThanOrEqual(1.02);
    const lost = free.filter((j) => j.best.leastStress === 0);
    expect(lost.length / free.length).toBeLessThanOrEqual(0.031);
  });
  it('with a limit of one to three a week, at most 7 % more', () => {
    // Measured 4,093 in place of 3,862; 88 of 207 cases could have less, 16 of them none. Why: the rule spends the
    // week's waterings on its first days.
    const [had, least] = [sum(limited, (j) => j.plan.stressDays), sum(limited, (j) => j.best.leastStress)]; // prettier-ignore
    expect(limited.length).toBeGreaterThan(150);
    expect(had / least).toBeLessThanOrEqual(1.07);
    const lost = limited.filter((j) => j.best.leastStress === 0);
    expect(lost.length / limited.length).toBeLessThanOrEqual(0.08);
  });
  it('no set does with fewer waterings, no more stress days and no less water used, but in one of ten', () => {
    // Days of stress alone say little here: a watering that shortens no stress day still keeps the tree alive.
    // Measured without rain: 88 of 399 cases, 4,053 waterings in place of 4,169.
    const list = stressed(dry);
    const [planned, least] = [sum(list, (j) => j.plan.waterings), sum(list, (j) => j.best.unmet)];
    expect(least / planned).toBeGreaterThanOrEqual(0.97);
  });
});
