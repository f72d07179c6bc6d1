/** Who goes where on which day: waterings that need a person, joined per site and day. */
import { roundsOf, termsOf, type DayWork, type Terms } from '../crew/rounds.js';
import { fillingsOf } from '../crew/tank.js';
import { byDay, crewJobs, type TaskJob } from '../crew/tasks.js';
import { hoursText } from '../rules/rule-words.js';
import type { CrewDay, CrewRound, CrewStop, Device, Site, TreePlan } from './model.js';

/**
 * Crew days of a season: stops in the order of each crew's round, gallons, hours, tank loads.
 * A day with more hours than a crew has, or with more work than the open hours within its day hold, is marked overloaded,
 * never cut.
 *
 * hours = stops + driving + refills; loads = ⌈litres/(usable · tank)⌉ for each round
 */
export function crewDays(trees: TreePlan[], site: Site, kit: Device[]): CrewDay[] {
  const terms = termsOf(site, kit);
  return byDay(crewJobs(trees, kit)).map(([day, jobs]) => dayOf(day, roundsOf(jobs, terms), terms));
}

const total = <T>(items: readonly T[], value: (item: T) => number): number =>
  items.reduce((sum, item) => sum + value(item), 0);

function dayOf(day: number, { rounds, over, note }: DayWork<TaskJob>, terms: Terms): CrewDay {
  const fillings = rounds.map((round) => fillingsOf(round.stops, terms));
  const stops = rounds.flatMap((round, r) =>
    round.stops.map((stop, s): CrewStop => ({
      site: stop.site,
      address: stop.address,
      tasks: stop.jobs.map((job) => job.task),
      litres: total(stop.jobs, (job) => job.task.litres),
      minutes: total(stop.jobs, (job) => job.minutes),
      crew: r + 1,
      order: s + 1,
      legMinutes: stop.legMinutes,
      placing: stop.placing,
      ...(fillings[r]![s]!.length > 0 && { fillings: fillings[r]![s]! }),
    })),
  );
  return {
    day,
    stops,
    litres: total(stops, (stop) => stop.litres),
    hours: total(rounds, (round) => round.minutes) / 60,
    tankLoads: total(rounds, (round) => round.loads),
    overload: over > 0,
    rounds: rounds.map((round, r): CrewRound => ({
      crew: r + 1,
      stops: round.stops.length,
      hours: round.minutes / 60,
      litres: total(round.stops, (stop) => total(stop.jobs, (job) => job.task.litres)),
      tankLoads: round.loads,
      driveMinutes: round.driveMinutes,
      over: round.over / 60,
      ...(round.shortage && {
        shortage: {
          hours: hoursText(round.shortage.windows),
          open: round.shortage.open / 60,
          need: round.shortage.need / 60,
        },
      }),
      ...(round.order && { order: true }),
    })),
    overBy: over / 60,
    note,
  };
}
