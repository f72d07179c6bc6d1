/** Hoses that run on, bags that drain: what water does when the person has gone ends within the hours, too. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cyclesAndSoak, FILM_STORAGE } from '../../src/engine/means/soaker-hose.js';
import { Calendars } from '../../src/engine/plan/calendars.js';
import { hoseLimits, rateOn, runsOf, type HoseGround } from '../../src/engine/plan/hose-run.js';
import { lastsMinutes, runMinutes } from '../../src/engine/plan/option.js';
import type { Device, Watering } from '../../src/engine/plan/model.js';
import { planSeason } from '../../src/engine/plan/season.js';
import { parseRules, type RuleTable } from '../../src/engine/rules/rule-table.js';
import { windowsIn } from '../../src/engine/rules/rule-words.js';
import { crewJobs } from '../../src/engine/crew/tasks.js';
import { device } from '../engine/device.js';
import { rulesOf, site, tree, weather } from './invented-season.js';

const TIMED = device({ name: 'timed', family: 'soaker', rate: 30, length: 15, automatic: true });
const SHUTS = device({ name: 'shuts', family: 'soaker', rate: 30, length: 15, shutsItself: true });
const STAYED = device({ name: 'stayed', family: 'soaker', rate: 30, length: 15 });
/** Nothing from 10 to 18, as many orders have it. */
const NO_MIDDAY = rulesOf([null, 'any', 'any', 'any', '00:00-10:00, 18:00-24:00', 'allow']);
const crew = { crewStart: 6, crewHours: 8, workDays: 'Mon-Fri' };

const plan = (kit: Device[], texture: 'clay loam' | 'sandy loam', rules = NO_MIDDAY) =>
  planSeason({
    trees: [1, 2, 3].map((id) => tree(String(id), { caliper: 100 + 60 * id, texture, tap: true })),
    kit,
    site: site(crew),
    weather: weather(),
    rules,
  });

const wateringsOf = (...all: Parameters<typeof plan>): Watering[] =>
  plan(...all).trees.flatMap(({ chosen }) => chosen.plan);

describe('a hose’s runs and pauses', () => {
  const ground = fc.record({
    ball: fc.double({ min: 0.1, max: 2, noNaN: true }),
    ring: fc.double({ min: 0, max: 40, noNaN: true }),
    intake: fc.double({ min: 1, max: 40, noNaN: true }),
  });
  const hose = fc.record({
    rate: fc.double({ min: 1, max: 60, noNaN: true }),
    length: fc.double({ min: 3, max: 40, noNaN: true }),
    joined: fc.integer({ min: 1, max: 6 }),
    litres: fc.double({ min: 5, max: 2000, noNaN: true }),
  });
  const at = ({ ball, ring, intake }: { ball: number; ring: number; intake: number }): HoseGround => ({ ballArea: ball, ringArea: Float64Array.of(ring), first: 0, facts: { intake } as HoseGround['facts'] }); // prettier-ignore

  it('last no longer than the flow the season counts on allows', () => {
    fc.assert(
      fc.property(ground, hose, (where, { rate, length, joined, litres }) => {
        const what = { ...TIMED, rate, length };
        const runs = runsOf(at(where), what, joined, litres, 0);
        const lasts = lastsMinutes({ minutes: runMinutes(what, litres, joined), ...runs });
        expect(lasts).toBeLessThanOrEqual((litres / hoseLimits(at(where), what, joined).flow) * (1 + 1e-9)); // prettier-ignore
      }),
    );
  });
  it('are one where it is opened once, for the most it may give, and two for a little more', () => {
    fc.assert(
      fc.property(ground, hose, (where, { rate, length, joined }) => {
        const what = { ...SHUTS, rate, length };
        const { most } = hoseLimits(at(where), what, joined);
        const fast = rateOn(at(where), what, joined, 0) > where.intake;
        expect(Number.isFinite(most)).toBe(fast);
        if (!fast) return;
        expect(runsOf(at(where), what, joined, most, 0).cycles).toBe(1);
        expect(runsOf(at(where), what, joined, most * 1.01, 0).cycles).toBe(2);
      }),
    );
  });
  it('are those of the balance of the film on the ground', () => {
    // 60 mm/h on ground that takes 20: 6.35 mm stand after 9.5 min, and need 19 min to sink in
    const runs = cyclesAndSoak(28, 60, 20, FILM_STORAGE);
    expect(runs).toEqual({ cycles: 3, onMinutes: 28 / 3, offMinutes: (2 * 28) / 3 });
  });
});

describe('a season with hours that close at ten', () => {
  it('a timer’s hose is shut by then, pauses counted', () => {
    const all = wateringsOf([TIMED], 'clay loam');
    expect(all.some(({ cycles }) => cycles > 3)).toBe(true);
    for (const each of all) expect(lastsMinutes(each)).toBeLessThanOrEqual(16 * 60 + 1e-6);
  });
  it.each(['clay loam', 'sandy loam'] as const)('a hose that shuts itself runs once and is shut by ten, on %s', (texture) => {
    const all = wateringsOf([SHUTS], texture);
    expect(all.length).toBeGreaterThan(20);
    for (const { cycles, minutes, runsOn, within } of all) {
      expect(cycles).toBe(1);
      expect(runsOn).toBeGreaterThanOrEqual(minutes);
      expect(runsOn! % 15).toBe(0);
      const hours = windowsIn(within!);
      expect(hours.length).toBe(1);
      expect(hours[0]!.start).toBe(6 * 60);
      // opened at the very last minute it still ends inside the hours
      expect(hours[0]!.end + runsOn!).toBe(10 * 60);
    }
  }); // prettier-ignore
  it('whoever opens a hose that nothing shuts stays, and that time is work of the day and part of the price', () => {
    const stayed = plan([STAYED], 'sandy loam');
    const jobs = crewJobs(stayed.trees, [STAYED]);
    expect(jobs.length).toBeGreaterThan(20);
    for (const { minutes, task } of jobs)
      expect(minutes).toBeCloseTo(STAYED.visitMinutes + lastsMinutes(task.watering), 9);
    const left = crewJobs(plan([SHUTS], 'sandy loam').trees, [SHUTS]);
    for (const { minutes } of left) expect(minutes).toBe(SHUTS.visitMinutes);
    const { wage, crewSize } = site(crew);
    const [one] = stayed.trees;
    const { waterings, cost, plan: own } = one!.chosen;
    const standing = own.reduce((sum, each) => sum + each.minutes, 0);
    expect(waterings).toBeGreaterThan(0);
    expect(cost).toBeGreaterThan((standing / 60) * wage * crewSize);
  });
});

describe('a bag that must have drained inside the hours', () => {
  const BAG = device({ name: 'bag', family: 'bag', volume: 75, holes: 4, ratedHours: 2 });
  const drained = (drain: string): RuleTable =>
    parseRules([
      ['Means', 'Hours', 'Verdict', 'Drain'],
      ['any', '00:00-10:00, 18:00-24:00', 'allow', drain],
    ]);
  const hours = (drain: string, bag: Device, crewStart = 6): string => {
    const days = new Calendars(drained(drain), site({ ...crew, crewStart, workDays: 'any' })).allowed(tree('1'), bag); // prettier-ignore
    expect(days.open[3]).toBe(days.within!(3) === '' ? 0 : 1);
    return days.within!(3);
  };
  it('is filled so early that it has', () => {
    expect(hours('free', BAG)).toBe('06:00-10:00');
    expect(hours('inside', BAG)).toBe('06:00-08:00');
    expect(hours('inside', { ...BAG, ratedHours: 4.5 }, 5)).toBe('05:00-05:30');
  });
  it('is not filled at all where the hours are too short, or how long it drains is not known', () => {
    expect(hours('inside', { ...BAG, ratedHours: 6 })).toBe('');
    expect(hours('inside', { ...BAG, ratedHours: undefined })).toBe('');
  });
});

describe('a hose that may run over', () => {
  it('is opened within the hours and shut whenever', () => {
    const rules = parseRules([
      ['Hours', 'Verdict', 'Finish'],
      ['00:00-10:00', 'allow', 'may run over'],
    ]);
    const days = new Calendars(rules, site(crew)).allowed(tree('1'), SHUTS);
    const open = days.open.findIndex((o) => o === 1);
    expect(days.within!(open, 120)).toBe('06:00-10:00');
  });
});
