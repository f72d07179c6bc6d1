/**
 * A round by the clock: when its stops are reached, and from where on the work no longer falls into its hours. Estimates, as
 * the minutes of the round are: driving, filling, work, one after another from the start of the crew's day.
 */
import { workFrom } from '../../engine/crew/by-the-clock.js';
import { shiftOf, type ShiftHours } from '../../engine/crew/shift.js';
import type { CrewStop, CrewTask } from '../../engine/plan/model.js';
import { DAY_MINUTES } from '../../engine/rules/rule-types.js';
import { clock, windowsIn } from '../../engine/rules/rule-words.js';
import { hoursToDo, type Round } from './rounds.js';

/** Work that does not fall into its hours, with nothing between that does. */
export interface LateWork {
  /** index of the stop, and of its task, that stands first in it */
  stop: number;
  task: number;
  trees: number;
  /** what comes before it fits, and nothing after it does */
  fromHere: boolean;
  /** when the hours close, where they do so at one time for all of it [min of the day] */
  until?: number | undefined;
}

export interface RoundClock {
  /** when work begins at each stop: on arrival, or as soon as it is open there [min from the start of the day] */
  stops: number[];
  /** back at the yard, likewise */
  back: number;
  /** in the order of the round */
  late: LateWork[];
  /** all work falls into its hours, the way back ends after the crew's day [min of the day] */
  backAfter?: number | undefined;
}

/** What rounding of sums may leave [min]. */
const ROUNDING = 1e-6;
/** Clock times on paper are whole steps of this: nobody can tell closer [min]. */
const STEP = 5;

/** A clock time to the nearest step: `06:35`; undefined from midnight on, where the date is another one. */
export function about(minute: number): string | undefined {
  const rounded = Math.round(minute / STEP) * STEP;
  return rounded < DAY_MINUTES ? clock(rounded) : undefined;
}

interface Walked {
  stop: number;
  task: number;
  trees: number;
  late: boolean;
  closes: number | undefined;
}

const opensFor = ({ watering }: CrewTask, now: number): number =>
  workFrom(now, ROUNDING, windowsIn(hoursToDo(watering))).end - ROUNDING;

/** Neighbours that are late, joined. */
function lateWork(walked: readonly Walked[]): LateWork[] {
  const runs: Walked[][] = [];
  walked.forEach((each, i) => {
    if (!each.late) return;
    if (i > 0 && walked[i - 1]!.late) runs.at(-1)!.push(each);
    else runs.push([each]);
  });
  return runs.map((run): LateWork => {
    const { stop, task } = run[0]!;
    const closes = new Set(run.map((each) => each.closes));
    return {
      stop,
      task,
      trees: run.reduce((sum, { trees }) => sum + trees, 0),
      fromHere: run.at(-1) === walked.at(-1) && run[0] !== walked[0],
      ...(closes.size === 1 && { until: run[0]!.closes }),
    };
  });
}

const drivenTo = (stops: readonly CrewStop[]): number =>
  stops.reduce((sum, { legMinutes = 0 }) => sum + legMinutes, 0);

/** The round walked from the start of the crew's day, in the order of its stops, with the minutes its hours count. */
export function roundClock(
  { stops, driveMinutes }: Pick<Round, 'stops' | 'driveMinutes'>,
  site: ShiftHours,
): RoundClock {
  const { start } = shiftOf(site);
  const end = start + site.crewHours * 60;
  let now = start;
  const walked: Walked[] = [];
  const begun = stops.map(({ legMinutes = 0, fillings = [], tasks }, s): number => {
    now += legMinutes;
    const filled = (task: number): number =>
      fillings.reduce((sum, { before, minutes }) => sum + (before === task ? minutes : 0), 0);
    let begins = now;
    tasks.forEach((task, t) => {
      now += filled(t);
      if (t === 0) begins = opensFor(task, now);
      const windows = windowsIn(hoursToDo(task.watering));
      const done = workFrom(now, task.minutes, windows);
      now = done.end;
      walked.push({
        stop: s,
        task: t,
        trees: task.tree.count,
        late: done.over > ROUNDING,
        closes: windows.at(-1)?.end,
      });
    });
    return begins;
  });
  const back = now + Math.max(0, driveMinutes - drivenTo(stops));
  const late = lateWork(walked);
  return { stops: begun, back, late, ...(late.length === 0 && back > end + ROUNDING && { backAfter: end }) };
} // prettier-ignore
