/** A crew's week that is evenly filled: no Monday with one stop beside a Friday of forty, and nobody pays for it. */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { lackingText, lackingWeeks } from '../../src/engine/crew/lacking-weeks.js';
import { isoDate, weekday } from '../../src/engine/dates.js';
import { crewedSeason } from '../../src/engine/plan/crewed-season.js';
import { joinVisits } from '../../src/engine/plan/joint-visits.js';
import { meansNumbers } from '../../src/engine/plan/means-numbers.js';
import type { CrewDay, SeasonPlan, Site } from '../../src/engine/plan/model.js';
import { SeasonRun } from '../../src/engine/plan/kernel.js';
import { freshPath, plannerOf } from '../../src/engine/plan/path.js';
import { planSeason, type SeasonInput } from '../../src/engine/plan/season.js';
import { MOST_MORE_WATER, MOST_MORE_WATERINGS } from '../../src/engine/plan/shift-limits.js';
import { ROWS, SIZED, contractList } from './contract-list.js';
import { legalityOf } from './legality.js';
import { walkAgain } from './walk-again.js';

interface Weeks {
  input: SeasonInput;
  before: SeasonPlan;
  after: SeasonPlan;
}

function weeksOf(more: Partial<Site> = {}, rows = ROWS): Weeks {
  const input = contractList(more, rows);
  const separate = planSeason(input);
  return { input, before: joinVisits(input, separate).plan, after: crewedSeason(input, separate).plan }; // prettier-ignore
}

const daysOver = ({ crewDays }: SeasonPlan): number => crewDays.filter((d) => d.overload).length;
const hoursOver = ({ crewDays }: SeasonPlan): number =>
  crewDays.reduce((sum, { overBy = 0 }) => sum + overBy, 0);
const longest = ({ crewDays }: SeasonPlan): number =>
  Math.max(...crewDays.flatMap(({ rounds = [] }) => rounds.map(({ hours }) => hours)));

/** Hours of the fullest weekday as a multiple of those of the emptiest, over the season. */
function unevenness({ crewDays }: SeasonPlan): number {
  const hours = new Map<number, number>();
  for (const day of crewDays)
    hours.set(weekday(day.day), (hours.get(weekday(day.day)) ?? 0) + day.hours);
  return hours.size < 5 ? Infinity : Math.max(...hours.values()) / Math.min(...hours.values());
}

function harmless({ input, before, after }: Weeks): void {
  const was = new Map(before.crewDays.map(({ day, overBy = 0 }) => [day, overBy]));
  const most = Math.max(0, ...was.values());
  for (const { day, overBy = 0 } of after.crewDays)
    expect(overBy, isoDate(day)).toBeLessThanOrEqual((was.get(day) ?? 0) > 0 ? most + 1e-6 : 0);
  expect(hoursOver(after)).toBeLessThanOrEqual(hoursOver(before) + 1e-6);
  expect(legalityOf(after, input.rules).broken).toEqual([]);
  after.trees.forEach((now, row) => {
    const { chosen } = before.trees[row]!;
    const about = `row ${now.tree.row}`;
    expect(now.chosen.label, about).toBe(chosen.label);
    expect(now.chosen.stressDays, about).toBeLessThanOrEqual(chosen.stressDays);
    expect(now.chosen.waterings, about).toBeLessThanOrEqual(chosen.waterings + MOST_MORE_WATERINGS); // prettier-ignore
    expect(now.chosen.litres, about).toBeLessThanOrEqual(chosen.litres * (1 + MOST_MORE_WATER));
    const again = walkAgain(input, now);
    expect(again.stressDays, about).toBeLessThanOrEqual(chosen.stressDays);
    for (const { day } of now.chosen.plan) expect([1, 2, 3, 4, 5], about).toContain(weekday(day));
  });
}

describe('a contract of 72 trees for one crew with four open hours a day', () => {
  let one: Weeks;
  beforeAll(() => {
    one = weeksOf();
  }, 120_000);

  it('asks for more than there is in most weeks, mostly on Fridays', () => {
    expect(one.before.trees).toHaveLength(SIZED);
    expect(daysOver(one.before)).toBeGreaterThan(30);
    expect(unevenness(one.before)).toBeGreaterThan(2);
    expect(Math.min(...one.before.crewDays.map(({ stops }) => stops.length))).toBe(1);
  });

  it('is spread over the week: weekdays alike, far fewer hours too many, no longer the longest round', () => {
    expect(unevenness(one.after)).toBeLessThan(1.6);
    expect(daysOver(one.after)).toBeLessThanOrEqual(daysOver(one.before));
    expect(hoursOver(one.after)).toBeLessThan(0.65 * hoursOver(one.before));
    expect(longest(one.after)).toBeLessThan(0.8 * longest(one.before));
  });

  it('pays for it with nothing but a little water: nobody is drier, all is lawful, days that fitted fit', () => {
    harmless(one);
  });

  it('says which week lacks how many hours', () => {
    const { crewDays, problems } = one.after;
    const weeks = lackingWeeks(crewDays);
    expect(weeks.reduce((sum, { hours }) => sum + hours, 0)).toBeCloseTo(hoursOver(one.after), 6);
    for (const { monday } of weeks) expect(weekday(monday)).toBe(1);
    const text = lackingText(crewDays);
    expect(text).toMatch(/^Hours lack in \d+ weeks, \d+\.\d in all; most in the week of Mon \d+ [A-Z][a-z]{2}: \d+\.\d more than its crew days hold\.$/); // prettier-ignore
    expect(problems).toContain(text);
  });

  it('has hardly a day too long with two crews', () => {
    const two = weeksOf({ crews: 2 });
    expect(daysOver(two.before)).toBeGreaterThan(10);
    expect(hoursOver(two.after)).toBeLessThan(0.1 * hoursOver(two.before));
    harmless(two);
  }, 120_000);
});

describe('small contracts', () => {
  it('are never harmed', () => {
    let eased = 0;
    fc.assert(
      fc.property(
        fc.integer({ min: 6, max: 30 }),
        fc.constantFrom('Mon-Fri', 'Mon Wed Fri', 'Tue Thu'),
        fc.double({ min: 1, max: 4, noNaN: true }),
        fc.integer({ min: 1, max: 2 }),
        (rows, workDays, crewHours, crews) => {
          const weeks = weeksOf({ workDays, crewHours, crews }, rows);
          harmless(weeks);
          if (hoursOver(weeks.after) < hoursOver(weeks.before) - 1e-6) eased++;
        },
      ),
      { numRuns: 12, seed: 20_261_127 },
    );
    expect(eased).toBeGreaterThan(3);
  }, 240_000);
});

describe('weeks that lack hours', () => {
  const day = (serial: number, ...over: number[]): CrewDay => ({
    day: serial, stops: [], litres: 0, hours: 0, tankLoads: 0, overload: over.some((h) => h > 0),
    rounds: over.map((each, r) => ({ crew: r + 1, stops: 1, hours: 1, litres: 0, tankLoads: 0, driveMinutes: 0, over: each })),
  }); // prettier-ignore

  it('are counted from Monday to Sunday, all rounds together; one week is said as one', () => {
    // 1 January 1900 is day 2 and a Monday
    expect(lackingWeeks([day(2, 1), day(8, 0.5, 0.25), day(9, 2), day(10, 0)])).toEqual([
      { monday: 2, hours: 1.75 },
      { monday: 9, hours: 2 },
    ]);
    expect(lackingText([day(3, 0)])).toBe('');
    expect(lackingText([day(3, 1.25)])).toBe(
      `Hours lack in the week of Mon 1 Jan: 1.3 more than its crew days hold.`,
    );
  });
});

describe('a forked run', () => {
  it('goes on as the one it was taken from, and leaves that alone', () => {
    const input = contractList({}, 12);
    const { planner, taskOf } = plannerOf(input);
    for (const { tree, chosen } of planSeason(input).trees) {
      const { season, option } = freshPath(planner, taskOf(tree), chosen.label)!;
      const means = meansNumbers(option, input.site, season);
      const run = new SeasonRun(season, means, planner.conditions);
      for (let i = season.first; i < 40; i++) run.step(i, run.isDue(i));
      const twin = run.fork();
      const other = run.fork();
      other.step(40, true);
      expect(twin.finish()).toEqual(run.finish());
    }
  });
});
