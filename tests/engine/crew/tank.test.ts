/** When the tank is filled: where the clock has it, and as often and as long as the day counts. */
import { describe, expect, it } from 'vitest';
import { roundsOf, termsOf, type Job } from '../../../src/engine/crew/rounds.js';
import { fillingsOf } from '../../../src/engine/crew/tank.js';
import { crewDays } from '../../../src/engine/plan/crew-days.js';
import { defaultSite } from '../../../src/tables/site.js';
import { kit, SEASON, treePlan, watering } from './invented.js';
import { randomStream, whole } from './random.js';

// 2000 L on the truck, nine tenths of it usable: loads of 1800 L
const site = defaultSite({
  seasonFrom: SEASON,
  seasonTo: SEASON + 29,
  crewHours: 12,
  driveMinutes: 10,
  tankUsable: 0.9,
  tankRefillMinutes: 20,
});
const terms = termsOf(site, kit);
const job = (trucked: number): Job => ({ site: 'One', address: '1 Invented Way', minutes: 10, trucked }); // prettier-ignore
const fillings = (...stops: number[][]) =>
  fillingsOf(
    stops.map((litres) => ({ site: 'One', jobs: litres.map(job) })),
    terms,
  );

describe('the tank of a round', () => {
  it('is filled before the first job that wants its water, and before the one it would not last for', () => {
    expect(fillings([0, 0], [900, 900], [0, 1])).toEqual([
      [],
      [{ before: 0, loads: 1, minutes: 20 }],
      [{ before: 1, loads: 1, minutes: 20 }],
    ]);
  });
  it('is filled several times for a job of several loads', () => {
    expect(fillings([4000], [1400, 1])).toEqual([
      [{ before: 0, loads: 3, minutes: 60 }],
      [{ before: 1, loads: 1, minutes: 20 }],
    ]);
  });
  it('is not filled for taps', () => {
    expect(fillings([0], [0, 0])).toEqual([[], []]);
  });
});

describe('fillings among the stops of a day', () => {
  it('with stops and driving are the hours of every round, and are its loads', () => {
    const random = randomStream(7);
    let seen = 0;
    for (let trial = 0; trial < 60; trial++) {
      const trees = Array.from({ length: whole(random, 1, 9) }, (_, i) =>
        treePlan(i, [watering(0, { litres: whole(random, 20, 90) })], {
          tap: random() < 0.3,
          count: whole(random, 1, 30),
          site: `Site ${whole(random, 1, 4)}`,
        }),
      );
      for (const day of crewDays(trees, { ...site, crews: 2 }, kit))
        for (const round of day.rounds!) {
          const stops = day.stops.filter((stop) => stop.crew === round.crew);
          const filled = stops.flatMap((stop) => stop.fillings ?? []);
          const minutes =
            stops.reduce((sum, stop) => sum + stop.minutes, 0) +
            filled.reduce((sum, each) => sum + each.minutes, 0) +
            round.driveMinutes;
          expect(minutes).toBeCloseTo(round.hours * 60, 6);
          expect(filled.reduce((sum, each) => sum + each.loads, 0)).toBe(round.tankLoads);
          for (const stop of stops)
            for (const { before } of stop.fillings ?? []) expect(stop.tasks[before]).toBeDefined();
          seen += filled.length;
        }
    }
    expect(seen).toBeGreaterThan(60);
  });
  it('leave order and number of stops as they were', () => {
    const jobs = [job(1800), { ...job(1800), site: 'Two', address: '2 Invented Way' }];
    const [round] = roundsOf(jobs, terms).rounds;
    expect(round!.stops.map((stop) => stop.site)).toEqual(['One', 'Two']);
    expect(round!.loads).toBe(2);
  });
});
