/** What is said of a plan whose days ask for more hours than the crews have, and where more could come from. */
import { overloads } from '../engine/crew/smooth-plan.js';
import { isoDate, WEEKDAYS } from '../engine/dates.js';
import { CREW_START } from '../engine/crew/shift.js';
import type { CrewHours } from '../engine/money/estimate.js';
import {
  furtherDays,
  openWeekHours,
  usefulStarts,
  workWeekdays,
} from '../engine/plan/open-hours.js';
import { hourText } from '../tables/hours.js';
import type { PlanJob } from '../workbook/plan-job.js';
import type { PlanSummary, WaysOut } from './plan-room.js';

/** Weekdays that count as all of them. */
const WHOLE_WEEK = 7;
/** Hours by which a crew's day is made longer to try it [h], and the longest that is tried. Our choice. */
const LONGER = 2;
const LONGEST = 12;

/** Weekdays as the site's work days are typed. */
const daysText = (days: readonly number[]): string =>
  days.length === WHOLE_WEEK ? 'any' : days.map((day) => WEEKDAYS[day]).join(' ');

const inOrder = (days: readonly number[]): number[] =>
  [...days].sort((a, b) => ((a + 6) % 7) - ((b + 6) % 7));

function waysOut({ season, plan }: PlanJob, refills: number, dayIsShort: boolean): WaysOut {
  const { site } = plan;
  const now = workWeekdays(season);
  const further = furtherDays(season, plan);
  const [first] = further;
  const more = first === undefined ? [] : further.length === 1 ? [[first]] : [[first], further];
  const crewHours = Math.min(LONGEST, site.crewHours + LONGER);
  return {
    crews: site.crews ?? 1,
    start: hourText(site.crewStart ?? CREW_START),
    workDays: site.workDays,
    starts: usefulStarts(season, plan).map(hourText),
    moreDays: more.map((days) => daysText(inOrder([...now, ...days]))),
    ...(dayIsShort && crewHours > site.crewHours && { crewHours }),
    refills,
  };
}

/** Days on which a crew has more work than hours or than open hours, if there are any. */
export function overOf(job: PlanJob, hours: CrewHours): Pick<PlanSummary, 'over'> {
  const { crewDays, site } = job.plan;
  const over = overloads(crewDays, site);
  const [first] = over;
  if (!first) return {};
  const worst = over.reduce((most, one) => (one.over > most.over ? one : most), first);
  const { day, hours: needed, available, kind, sentence } = worst;
  const all = hours.watering + hours.driving + hours.refills;
  const open = openWeekHours(job.season, job.plan);
  return {
    over: {
      days: over.length,
      lacking: over.reduce((sum, each) => sum + each.over, 0),
      available,
      longest: { day: isoDate(day), hours: needed },
      ...(kind !== 'day' && { says: sentence }),
      ...(open !== undefined && { weekHours: open * (hours.watering / all) }),
      ways: waysOut(job, hours.refills / all, kind === 'day'),
    },
  };
}
