/** Crew days as they leave the office: one round for each crew and day, with its water and its open hours. */
import { civil, MONTHS, WEEKDAYS, weekday, type Day } from '../../engine/dates.js';
import type {
  CrewDay,
  CrewRound,
  CrewStop,
  CrewTask,
  SeasonPlan,
  Watering,
} from '../../engine/plan/model.js';
import type { RuleWindow } from '../../engine/rules/rule-types.js';
import { intersect, union } from '../../engine/rules/rule-windows.js';
import { hoursText, windowsIn } from '../../engine/rules/rule-words.js';
import type { Water } from '../crew-words.js';

export interface Round {
  day: Day;
  /** from 1 */
  crew: number;
  /** crews that go out on this day */
  crews: number;
  stops: CrewStop[];
  litres: number; // [L]
  /** stops, driving, refills [h] */
  hours: number;
  /** to the stops and back to the yard [min] */
  driveMinutes: number;
  tankLoads: number;
  /** more hours than a crew's day has, or more work than its open hours hold */
  overload: boolean;
  /** it is the open hours that are too short */
  overOpen: boolean;
  /** where its water comes from, a word each */
  waters: Water[];
  /** hours open to every watering of the round within the crew's day [min]; empty when they have none in common */
  common: RuleWindow[];
  /** hours open to any of them, likewise [min] */
  open: RuleWindow[];
}

/** The hours a watering is to be done in: the part of the rules' hours within the crew's day, where a person does it. */
export const hoursToDo = ({ within, hours }: Watering): string => within ?? hours;

/** Hours to read: `any hour`, `00:00-10:00, 19:00-24:00`, or that there are none. */
export const spokenHours = (windows: readonly RuleWindow[]): string => {
  const text = hoursText(windows);
  return text === 'any' ? 'any hour' : text === '' ? 'none' : text;
};

/** Where the water of a task comes from, in a word. */
export const waterOf = ({ tree, watering }: CrewTask): Water =>
  watering.family === 'tanker' || tree.tap === false ? 'truck tank' : (tree.source ?? 'tap');

const minutesOf = (part: readonly RuleWindow[]): number =>
  part.reduce((sum, { start, end }) => sum + end - start, 0);

/** Hours open to every watering of a stop within the crew's day, and to any of them. */
export function windowsOf(stops: readonly CrewStop[]): { common: RuleWindow[]; open: RuleWindow[] } {
  const texts = new Set(stops.flatMap((s) => s.tasks.map((t) => hoursToDo(t.watering))));
  const all = [...texts].map(windowsIn);
  const [first, ...rest] = all;
  const common = first === undefined ? [] : rest.reduce(intersect, first);
  return { common: minutesOf(common) > 0 ? common : [], open: union(all.flat()) };
} // prettier-ignore

/** Driving of a day without rounds: what its hours leave beside stops and fillings of the tank [min]. */
const drivenOn = ({ site }: SeasonPlan, { hours, stops, tankLoads }: CrewDay): number =>
  hours * 60 -
  stops.reduce((sum, stop) => sum + stop.minutes, 0) -
  tankLoads * site.tankRefillMinutes;

function roundsOf(plan: SeasonPlan, day: CrewDay): Round[] {
  const whole: Omit<CrewRound, 'stops'> = {
    crew: 1,
    hours: day.hours,
    driveMinutes: drivenOn(plan, day),
    litres: day.litres,
    tankLoads: day.tankLoads,
  };
  const rounds = day.rounds ?? [whole];
  return rounds.map(
    ({ crew, hours, driveMinutes, litres, tankLoads, shortage, order, over }): Round => {
      const stops = day.stops.filter((stop) => (stop.crew ?? 1) === crew);
      return {
        day: day.day,
        crew,
        crews: rounds.length,
        stops,
        litres,
        hours,
        driveMinutes,
        tankLoads,
        overload: (over ?? hours - plan.site.crewHours) > 1e-9,
        overOpen: shortage !== undefined || order === true,
        waters: [...new Set(stops.flatMap((s) => s.tasks.map(waterOf)))],
        ...windowsOf(stops),
      };
    },
  );
}

/** Every round of the season, by day and crew. Stops stand in the order they are driven. */
export const crewRounds = (plan: SeasonPlan): Round[] =>
  plan.crewDays.flatMap((day) => roundsOf(plan, day));

/** `Tue 7 Jul 2027` */
export function longDay(day: Day): string {
  const { year, month, date } = civil(day);
  return `${WEEKDAYS[weekday(day)]} ${date} ${MONTHS[month - 1]} ${year}`;
}

/** Trees standing at a stop. */
export const treesAt = (stop: CrewStop): number =>
  stop.tasks.reduce((sum, { tree }) => sum + tree.count, 0);

/** Site and address of a stop, once where they are the same. */
export const placeOf = ({ site, address }: CrewStop): string[] =>
  [site, address === site ? '' : address].filter((text) => text.trim() !== '');
