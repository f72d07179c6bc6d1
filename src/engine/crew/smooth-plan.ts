/** A season plan with its full crew days relieved, and what is left over. */
import { dayName, isoDate, type Day } from '../dates.js';
import { takesOver, type AllowedDays } from '../plan/option.js';
import type { CrewDay, Device, Site, Tree, TreePlan, Watering } from '../plan/model.js';
import { termsOf } from './rounds.js';
import { smooth, type Freedom } from './smooth.js';
import { crewJobs, type TaskJob } from './tasks.js';

export interface SmoothOptions {
  /**
   * Days on which this watering is allowed: rules, and work days where a person comes. Index 0 is the first day of the
   * season. undefined: it stays where it is.
   */
  allowed(tree: Tree, watering: Watering): AllowedDays | undefined;
  /**
   * Water the tree's store can take on an earlier day (a serial) so that none of it is lost before the day
   * planned [L]. undefined: not known, the litres are kept and the day is allowed.
   */
  amountOn?(tree: Tree, watering: Watering, day: Day): number | undefined;
  /** most days a watering moves; MOST_DAYS, or MOST_DAYS_UNCHECKED without `amountOn` */
  mostDays?: number;
}

/** Most days a watering moves where the store was asked. Assumption. */
export const MOST_DAYS = 7;
/** Where nobody asked the store: a day early does little, a week early leaves the tree dry before the next one. Assumption. */
export const MOST_DAYS_UNCHECKED = 2;

export interface Move {
  row: number;
  id: string;
  device: string;
  from: Day;
  to: Day;
  litres: number; // one tree [L]
}

export interface Smoothed {
  /** the given plans; those with moves are copies */
  trees: TreePlan[];
  moves: Move[];
}

/** Part of a volume that may be lost to rounding. */
const SAME = 1 - 1e-9;

/**
 * Moves waterings off days with more work than the crews have hours, to earlier days on which the rules allow them,
 * the open time within the crew's day is long enough and holds the hours planned with, the week has a watering left and the store can take the whole volume. Litres stay
 * as they are. A watering never passes one of an earlier day of the same tree.
 *
 * With the store asked, the tree stands as planned again on the day planned, so nothing after it changes. Not seen:
 * a pad gives less to a ball that was watered earlier.
 */
export function smoothPlan(
  trees: readonly TreePlan[],
  site: Site,
  kit: readonly Device[],
  options: SmoothOptions,
): Smoothed {
  const jobs = crewJobs(trees, kit);
  const dated = jobs.map((job) => ({ ...job, day: job.task.watering.day }));
  const days = smooth(dated, termsOf(site, kit), freedomOf(jobs, trees, site, options));
  const changed = new Map<number, Map<number, Day>>();
  const moves: Move[] = [];
  jobs.forEach((job, i) => {
    const { tree, watering } = job.task;
    const to = days[i]!;
    if (to === watering.day) return;
    const known = changed.get(job.row);
    if (known) known.set(job.watering, to);
    else changed.set(job.row, new Map([[job.watering, to]]));
    moves.push({
      row: tree.row,
      id: tree.id,
      device: watering.device,
      from: watering.day,
      to,
      litres: watering.litres,
    });
  });
  return {
    trees: trees.map((plan, row) => {
      const own = changed.get(row);
      return own ? movedPlan(plan, own, site, options) : plan;
    }),
    moves: moves.sort((a, b) => a.from - b.from || a.row - b.row || a.to - b.to),
  };
}

function movedPlan(
  plan: TreePlan,
  to: ReadonlyMap<number, Day>,
  site: Site,
  options: SmoothOptions,
): TreePlan {
  const waterings = plan.chosen.plan.map((watering, w): Watering => {
    const day = to.get(w);
    if (day === undefined) return watering;
    const allowed = options.allowed(plan.tree, watering)!;
    const hours = allowed.hours(day - site.seasonFrom);
    const within = allowed.within?.(day - site.seasonFrom, watering.runsOn);
    const why = `${watering.why} Moved from ${isoDate(watering.day)}, when the crews had more work than hours.`;
    return { ...watering, day, hours, within, why, movedFrom: watering.day };
  });
  const chosen = { ...plan.chosen, plan: waterings.sort((a, b) => a.day - b.day) };
  return { ...plan, chosen, options: plan.options.map((o) => (o === plan.chosen ? chosen : o)) };
}

/** First day of the Monday-to-Sunday week; day 2 of the spreadsheet calendar is a Monday. */
const weekOf = (day: Day): number => Math.floor((day - 2) / 7);

function freedomOf(
  jobs: readonly TaskJob[],
  trees: readonly TreePlan[],
  site: Site,
  options: SmoothOptions,
): Freedom {
  const most =
    options.mostDays ?? (options.amountOn === undefined ? MOST_DAYS_UNCHECKED : MOST_DAYS);
  const rows = new Map<number, number[]>();
  jobs.forEach((job, i) => {
    const known = rows.get(job.row);
    if (known) known.push(i);
    else rows.set(job.row, [i]);
  });
  const allowed = (job: TaskJob): AllowedDays | undefined =>
    options.allowed(job.task.tree, job.task.watering);
  /** day of a watering before or after moves; a timer's watering has no job and stays */
  const dayNow = (row: number, watering: number, days: Int32Array): Day => {
    const job = rows.get(row)?.find((i) => jobs[i]!.watering === watering);
    return job === undefined ? trees[row]!.chosen.plan[watering]!.day : days[job]!;
  };
  return {
    earliest: (i, days) => {
      const { row, watering, task } = jobs[i]!;
      const { plan } = trees[row]!.chosen;
      let first = Math.max(site.seasonFrom, task.watering.day - most);
      for (let w = watering - 1; w >= 0; w--) {
        const before = plan[w]!;
        // a pad and a bag of one tree on one day do not hold each other back
        if (before.day === task.watering.day) continue;
        const same = before.device === task.watering.device;
        first = Math.max(first, dayNow(row, w, days) + (same ? 1 : 0));
        if (same) break;
      }
      return first;
    },
    mayMove: (i, day, days) => {
      const job = jobs[i]!;
      const { tree, watering } = job.task;
      const may = allowed(job);
      const index = day - site.seasonFrom;
      if (!may || !takesOver(may, index, watering)) return false;
      const week = weekOf(day);
      const inWeek = rows
        .get(job.row)!
        .filter(
          (other) =>
            other !== i &&
            jobs[other]!.task.watering.family === watering.family &&
            weekOf(days[other]!) === week,
        ).length;
      if (inWeek + 1 > may.perWeek(index)) return false;
      const takes = options.amountOn?.(tree, watering, day);
      return takes === undefined || takes >= watering.litres * SAME;
    },
  };
}

export interface Overload {
  day: Day;
  /** what is too short: a crew's day, the open hours within it, or the hours of single stops in the order driven */
  kind: 'day' | 'open' | 'order';
  /** hours that are needed, and those there are [h] */
  hours: number;
  available: number;
  over: number;
  sentence: string;
}

/** Crew days that do not fit, each with what is too short, the hours and by how much it is over. */
export function overloads(days: readonly CrewDay[], site: Site): Overload[] {
  return days.flatMap((day): Overload[] => {
    if (!day.overload) return [];
    const over = day.overBy ?? day.hours - site.crewHours;
    const worst = day.rounds?.find((round) => round.over === day.overBy);
    const about = { day: day.day, over };
    if (worst?.shortage) {
      const { hours, open, need } = worst.shortage;
      const sentence = `${dayName(day.day)}: open ${hours} leaves ${open.toFixed(1)} h, the work bound to it needs ${need.toFixed(1)} h.`;
      return [{ ...about, kind: 'open', hours: need, available: open, sentence }];
    }
    const hours = site.crewHours + over;
    const much = { ...about, hours, available: site.crewHours };
    if (worst?.order) {
      const sentence = `${dayName(day.day)}: the hours are enough in all, but stop after stop ${over.toFixed(1)} h of work would fall outside them.`;
      return [{ ...much, kind: 'order', sentence }];
    }
    const crews = site.crews ?? 1;
    const who = crews === 1 ? 'The crew needs' : `With ${crews} crews the longest round needs`;
    const sentence = `${dayName(day.day)}: ${who} ${hours.toFixed(1)} hours, ${over.toFixed(1)} more than the ${site.crewHours} of a day.`;
    return [{ ...much, kind: 'day', sentence }];
  });
}
