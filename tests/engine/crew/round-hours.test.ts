import { describe, expect, it } from 'vitest';
import { overloads, smoothPlan } from '../../../src/engine/crew/smooth-plan.js';
import { lateness } from '../../../src/engine/crew/by-the-clock.js';
import { roundsOf, termsOf, type Job } from '../../../src/engine/crew/rounds.js';
import { crewDays } from '../../../src/engine/plan/crew-days.js';
import type { AllowedDays } from '../../../src/engine/plan/option.js';
import { windowsIn } from '../../../src/engine/rules/rule-words.js';
import { defaultSite } from '../../../src/tables/site.js';
import { kit, SEASON, treePlan, watering } from './invented.js';
import { randomStream, whole } from './random.js';

const site = defaultSite({
  seasonFrom: SEASON,
  seasonTo: SEASON + 29,
  crewStart: 6,
  crewHours: 8,
  driveMinutes: 10,
  tankRefillMinutes: 20,
});
const terms = termsOf(site, kit);
const job = (name: number, minutes: number, hours?: string, trucked = 0): Job => ({
  site: `Site ${name}`,
  address: `${name} Invented Way`,
  minutes,
  trucked,
  ...(hours !== undefined && { windows: windowsIn(hours) }),
});
const EARLY = '06:00-09:00';

describe('work bound to hours shorter than the crew’s day', () => {
  it('has to fit into them with its driving, the way out counted where they begin with the day', () => {
    // 10 min out; two stops of 80 min and 10 min between them are 170 of 180 min: they fit to the minute
    const fits = roundsOf([job(1, 80, EARLY), job(2, 80, EARLY)], terms);
    expect(fits.over).toBe(0);
    const over = roundsOf([job(1, 80, EARLY), job(2, 81, EARLY)], terms);
    expect(over.over).toBeCloseTo(1, 9);
    expect(over.rounds[0]!.shortage).toEqual({ windows: windowsIn(EARLY), open: 170, need: 171 });
  });
  it('has the way out for nothing where they begin later, and the way home counted where they end with the day', () => {
    expect(roundsOf([job(1, 120, '10:00-12:00')], terms).over).toBe(0);
    expect(roundsOf([job(1, 111, '12:00-14:00')], terms).over).toBeCloseTo(1, 9);
    expect(roundsOf([job(1, 110, '12:00-14:00')], terms).over).toBe(0);
  });
  it('counts a first filling of the truck before them and the others within them', () => {
    // 2000 L tank, 1800 L usable: two loads; 10 min out and 20 min filling before, 20 min between
    const trucked = [job(1, 60, EARLY, 1800), job(2, 60, EARLY, 1000)];
    const [round] = roundsOf(trucked, terms).rounds;
    expect(round!.over).toBe(0);
    const more = roundsOf([job(1, 60, EARLY, 1800), job(2, 61, EARLY, 1000)], terms);
    expect(more.rounds[0]!.shortage).toEqual({ windows: windowsIn(EARLY), open: 150, need: 151 });
  });
  it('leaves room for work of longer hours after them', () => {
    const jobs = [job(1, 80, EARLY), job(2, 80, EARLY), job(3, 200)];
    expect(roundsOf(jobs, terms).over).toBe(0);
    expect(roundsOf([...jobs, job(4, 100)], terms).over).toBeGreaterThan(0);
  });
  it('is shared by more crews where one has too little of the hours for it', () => {
    const jobs = Array.from({ length: 6 }, (_, i) => job(i, 50, EARLY));
    expect(roundsOf(jobs, terms).over).toBeGreaterThan(100);
    const three = roundsOf(jobs, { ...terms, crews: 3 });
    expect(three.over).toBe(0);
    expect(three.rounds.map(({ stops }) => stops.length)).toEqual([3, 3]);
  });
});

describe('the order of stops', () => {
  it('stays as driven where that keeps the hours', () => {
    const jobs = [job(1, 60), job(2, 60, EARLY)];
    expect(roundsOf(jobs, terms).rounds[0]!.stops.map((s) => s.site)).toEqual(['Site 1', 'Site 2']);
  });
  it('takes what closes early first where the day would not work else', () => {
    const jobs = [job(1, 150), job(2, 60, EARLY), job(3, 60, EARLY)];
    const [round] = roundsOf(jobs, terms).rounds;
    expect(round!.stops.map((s) => s.site)).toEqual(['Site 2', 'Site 3', 'Site 1']);
    expect(round!.over).toBe(0);
    expect(lateness(round!.stops, terms)).toBe(0);
  });
  it('does not wait for hours that open later while there is other work', () => {
    const jobs = [job(1, 60), job(2, 60), job(3, 110, '09:00-11:00'), job(4, 120)];
    const [round] = roundsOf(jobs, terms).rounds;
    expect(round!.over).toBe(0);
    expect(round!.stops.map((s) => s.site)).toEqual(['Site 1', 'Site 2', 'Site 3', 'Site 4']);
    const late = roundsOf([job(1, 110, '09:00-11:00'), job(2, 60), job(3, 60), job(4, 120)], terms);
    expect(late.over).toBe(0);
    expect(late.rounds[0]!.stops.map((s) => s.site)).toEqual([
      'Site 2',
      'Site 3',
      'Site 1',
      'Site 4',
    ]);
  });
  it('visits a site twice rather than break its hours', () => {
    const jobs = [job(1, 50, EARLY), job(1, 100), job(2, 60, EARLY)];
    const [round] = roundsOf(jobs, terms).rounds;
    expect(round!.stops.map((s) => [s.site, s.jobs.length])).toEqual([
      ['Site 1', 1],
      ['Site 2', 1],
      ['Site 1', 1],
    ]);
    expect(round!.over).toBe(0);
  });
  it('that cannot be kept is said, though the amounts fit', () => {
    // 06:00-07:00 holds 30 + 10 min; by the clock one stop of 100 min in the hour after it has no room before 09:00
    const jobs = [job(1, 100, '07:30-09:00'), job(2, 40, '06:00-07:00, 08:50-09:30')];
    const [round] = roundsOf(jobs, terms).rounds;
    expect(round!.over).toBeGreaterThan(0);
  });
  it('of every round that is called fitting keeps all hours by the clock, in 300 random days', () => {
    const random = randomStream(41);
    let [fit, bound] = [0, 0];
    for (let k = 0; k < 300; k++) {
      const hours = [undefined, EARLY, '06:00-10:00', '09:00-12:00', '06:00-08:00, 12:00-14:00'];
      const jobs = Array.from({ length: whole(random, 1, 9) }, () =>
        job(whole(random, 1, 6), whole(random, 5, 70), hours[whole(random, 0, 4)], whole(random, 0, 1) * 300),
      );
      const crews = whole(random, 1, 3);
      const { rounds, over } = roundsOf(jobs, { ...terms, crews });
      const minutes = (of: readonly Job[]): number => of.reduce((sum, one) => sum + one.minutes, 0);
      const done = rounds.flatMap(({ stops }) => stops.flatMap((stop) => stop.jobs));
      expect(minutes(done)).toBeCloseTo(minutes(jobs), 6);
      expect(done).toHaveLength(jobs.length);
      if (over > 0) continue;
      fit++;
      if (jobs.some((one) => one.windows)) bound++;
      for (const round of rounds) {
        expect(lateness(round.stops, terms)).toBeLessThan(1e-6);
        expect(round.minutes).toBeLessThanOrEqual(480 + 1e-6);
      }
    }
    expect(fit).toBeGreaterThan(80);
    expect(bound).toBeGreaterThan(60);
  }); // prettier-ignore
});

describe('a crew’s day of a plan', () => {
  const within = (hours: string, count: number, more = {}) =>
    Array.from({ length: count }, (_, id) =>
      treePlan(id, [watering(0, { hours: '00:00-09:00, 19:00-24:00', within: hours })], more),
    );
  it('says which hours are too short, with the hours left and those needed', () => {
    // 15 stops of the bag's minutes and 14 legs of 10 min in 180 − 10 min
    const trees = within(EARLY, 15);
    const [day] = crewDays(trees, site, kit);
    expect(day!.overload).toBe(true);
    const need = (15 * kit[0]!.visitMinutes + 14 * 10) / 60;
    const [listed] = overloads([day!], site);
    expect(listed).toMatchObject({ kind: 'open', available: 170 / 60 });
    expect(listed!.hours).toBeCloseTo(need, 9);
    expect(listed!.sentence).toBe(
      `Mon 3 May: open 06:00-09:00 leaves 2.8 h, the work bound to it needs ${need.toFixed(1)} h.`,
    );
    expect(day!.overBy).toBeCloseTo(need - 170 / 60, 9);
  });
  it('is as before where hours are no shorter than it', () => {
    const count = { count: 3 };
    const bound = crewDays(within('06:00-14:00', 15, count), site, kit);
    const free = crewDays(
      Array.from({ length: 15 }, (_, id) => treePlan(id, [watering(0)], count)),
      site,
      kit,
    );
    const numbers = (days: typeof bound) =>
      days.map(({ hours, overBy, rounds, stops }) => [hours, overBy, rounds, stops.map((s) => s.site)]); // prettier-ignore
    expect(numbers(bound)).toEqual(numbers(free));
  });
  it('passes work to an earlier day only where the hours of that day hold those planned with', () => {
    const trees = Array.from({ length: 15 }, (_, id) =>
      treePlan(id, [watering(10, { hours: '00:00-09:00', within: EARLY })]),
    );
    const open = (hours: string): AllowedDays => ({
      open: new Uint8Array(30).fill(1),
      hours: () => '00:00-10:00',
      within: () => hours,
      minutes: () => 180,
      lawful: () => 600,
      perWeek: () => Infinity,
    });
    const moved = (hours: string) =>
      smoothPlan(trees, site, kit, { allowed: () => open(hours), amountOn: () => Infinity });
    const { trees: after, moves } = moved('06:00-10:00');
    expect(moves.length).toBeGreaterThan(0);
    const there = after.flatMap((t) => t.chosen.plan).filter((w) => w.movedFrom !== undefined);
    expect(new Set(there.map((w) => w.within))).toEqual(new Set(['06:00-10:00']));
    expect(crewDays(after, site, kit).some((day) => day.overload)).toBe(false);
    expect(moved('07:00-10:00').moves).toEqual([]);
  });
});
