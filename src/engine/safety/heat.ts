/**
 * Work and rest in the heat by a published sample schedule. It is an example for healthy, rested, acclimatised workers
 * under 40 in normal clothing; local law and a competent person decide.
 */
import { plain, within } from '../checks.js';
import { Problem } from '../problems.js';
import type { Certainty } from '../reference-tables.js';

export const WORKLOADS = ['light', 'moderate', 'heavy'] as const;
export type Workload = (typeof WORKLOADS)[number];
export const SUNS = ['full', 'partly', 'shade'] as const;
export type Sun = (typeof SUNS)[number];

/** Minutes of an hour, or "stop" where the schedule gives no minutes but a caution. */
export type WorkRest = { work: number; rest: number } | 'stop';

interface Provenance {
  certainty: Certainty;
  source: string;
}
interface ScheduleRow extends Provenance, Record<Workload, WorkRest> {
  /** highest adjusted temperature of the row [whole °F] */
  upTo: number;
}

const NIOSH =
  'NIOSH, Heat Stress: Work/Rest Schedules, www.cdc.gov/niosh/mining/content/heatstressworkrest.html';
const EPA = 'EPA and OSHA, A Guide to Heat Stress in Agriculture (1993), to be confirmed';

const all: WorkRest = { work: 60, rest: 0 };
const work = (minutes: number): WorkRest => ({ work: minutes, rest: 60 - minutes });
const row = (
  upTo: number,
  light: WorkRest,
  moderate: WorkRest,
  heavy: WorkRest,
  { certainty, source }: Provenance = { certainty: 'seen', source: NIOSH },
): ScheduleRow => ({ upTo, light, moderate, heavy, certainty, source });

/** By adjusted temperature, ascending. The printed "Normal" states no limit: 60 minutes of work. */
export const SCHEDULE: readonly ScheduleRow[] = [
  row(89, all, all, all, {
    certainty: 'assumption',
    source: 'below the first printed row; the schedule begins at 90 °F without a limit',
  }),
  row(94, all, all, all),
  row(96, all, all, work(45)),
  row(97, all, all, work(40)),
  row(99, all, all, work(35)),
  row(100, all, work(45), work(30)),
  row(101, all, work(40), work(30)),
  row(102, all, work(35), work(25)),
  row(104, all, work(30), work(20)),
  row(105, all, work(25), work(15)),
  row(106, work(45), work(20), 'stop'),
  row(107, work(40), work(15), 'stop'),
  row(108, work(35), 'stop', 'stop'),
  row(109, work(30), 'stop', 'stop'),
  row(110, work(15), 'stop', 'stop'),
  row(112, 'stop', 'stop', 'stop'),
  row(Infinity, 'stop', 'stop', 'stop', {
    certainty: 'assumption',
    source: 'hotter than the last printed row',
  }),
];

const adjustment = (degrees: number): Provenance & { degrees: number } => ({
  degrees,
  certainty: 'memory',
  source: EPA,
});

/** Added to the air temperature [°F]. */
export const SUN_ADJUSTMENTS: Readonly<Record<Sun, Provenance & { degrees: number }>> = {
  full: adjustment(13),
  partly: adjustment(7),
  shade: adjustment(0),
};

/** Added to the air temperature [°F], by relative humidity [-], ascending; printed for these values only. */
export const HUMIDITY_ADJUSTMENTS: readonly (Provenance & {
  humidity: number;
  degrees: number;
})[] = [
  { humidity: 0.1, ...adjustment(-8) },
  { humidity: 0.2, ...adjustment(-4) },
  // the schedule itself is made for 30 %
  { humidity: 0.3, degrees: 0, certainty: 'seen', source: NIOSH },
  { humidity: 0.4, ...adjustment(3) },
  { humidity: 0.5, ...adjustment(6) },
  { humidity: 0.6, ...adjustment(9) },
];

/** What the heat does to people: air, sun and humidity. */
export interface HeatConditions {
  /** air, in the shade [°C] */
  temperature: number;
  /** relative humidity [-] */
  humidity: number;
  sun: Sun;
}

/** So that a temperature or a share from a conversion does not count as the next step: far below any reading. */
const ROUNDING = 1e-6;

/**
 * Temperature to look up in the schedule.
 *
 * @param conditions - air −60 to 60 °C, humidity above 0 to 1
 * @returns adjusted temperature [whole °F, rounded up]; humidity between two printed values counts as the higher
 * @throws Problem if a value is out of range; of kind 'none' above 60 % humidity, for which nothing is published
 * Source: sun and humidity, see the tables above; both roundings are cautious choices of this model.
 */
export function adjustedTemperature({ temperature, humidity, sun }: HeatConditions): number {
  within('temperature', temperature, -60, 60, '°C');
  within('humidity', humidity, 0, 1);
  const step = HUMIDITY_ADJUSTMENTS.find((each) => humidity <= each.humidity + ROUNDING);
  if (!step)
    throw new Problem(
      `humidity is ${plain(humidity * 100)} % and the schedule has no adjustment above 60 %; go by the heat index and local rules`,
      'none',
    );
  const fahrenheit = (temperature * 9) / 5 + 32;
  // + 0: a rounding up to nothing is 0, not −0
  return Math.ceil(fahrenheit + SUN_ADJUSTMENTS[sun].degrees + step.degrees - ROUNDING) + 0;
}

/**
 * Work and rest in an hour by the sample schedule.
 *
 * @param adjusted - adjusted temperature [whole °F]
 * @param workload - how hard the work is
 * @returns minutes of work and rest [min], or "stop"
 * @throws Problem if the temperature is not a number
 * Source: NIOSH sample schedule, see the table above.
 */
export function workRest(adjusted: number, workload: Workload): WorkRest {
  const found = SCHEDULE.find((each) => adjusted <= each.upTo);
  if (!found) throw new Problem(`temperature must be a number; got ${String(adjusted)}`);
  return found[workload];
}
