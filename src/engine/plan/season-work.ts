/** The work of a season as rhythms of rows and sites, with how full it makes the days. */
import { DayLoads, type Piece } from '../crew/day-loads.js';
import { roundsOf, termsOf, type Job, type Terms } from '../crew/rounds.js';
import { lengthOf } from '../crew/shift.js';
import { SEARCHED_STOPS } from '../crew/stop-order.js';
import { crewJobs } from '../crew/tasks.js';
import { rowsBySite } from './joint-visits.js';
import type { CrewDay, TreePlan } from './model.js';
import type { TreePlanner } from './plan-trees.js';
import type { Rhythm, RowRhythm } from './rhythm.js';

export class SeasonWork {
  readonly rhythms: readonly Rhythm[];
  readonly loads: DayLoads;
  readonly terms: Terms;
  /** sites by name, as rhythms number them */
  readonly sites: readonly string[];
  /** times the rounds of the season were worked out */
  checks = 0;
  /** what a day's rounds showed, where the same work shows the same again */
  private readonly known: ({ pieces: readonly Piece[]; over: number } | undefined)[] = [];
  private readonly remembers: boolean;
  /** work of every row as given; of rows in no rhythm it stays */
  private readonly pieces: Piece[][];
  /** where each row works; undefined for rows no crew comes to */
  private readonly place: (Omit<Job, 'minutes' | 'trucked' | 'windows'> | undefined)[];

  /**
   * @param trees - plans of all rows
   * @param joined - sites whose rows are visited together
   * @param over - minutes by which the longest round of each day was too long before any relief
   * @param days - the crew days of that season, whose drives are the measure
   */
  constructor(
    private readonly planner: TreePlanner,
    trees: readonly TreePlan[],
    joined: ReadonlySet<string>,
    over: Float64Array,
    days: readonly CrewDay[],
  ) {
    const { site, kit } = planner.setting;
    this.terms = termsOf(site, kit);
    this.pieces = trees.map(() => []);
    this.place = trees.map(() => undefined);
    for (const { row, task, minutes, trucked, windows, ...at } of crewJobs(trees, kit)) {
      this.place[row] ??= { site: at.site, address: at.address, place: at.place };
      const day = task.watering.day - site.seasonFrom;
      this.pieces[row]!.push({ day, minutes, trucked, windows });
    }
    const bySite = [...rowsBySite(trees, planner)];
    this.sites = bySite.map(([name]) => name);
    this.rhythms = bySite.flatMap(([name, rows], at) =>
      (joined.has(name) ? [rows] : rows.map((row) => [row])).map((own) => ({
        site: at,
        rows: own,
        now: own.map((row) => this.asGiven(trees[row]!, row)),
      })),
    );
    const given = over.map((minutes) => minutes * this.terms.crews);
    const filled = (room: Float64Array): DayLoads => {
      const loads = new DayLoads(over.length, bySite.length, this.terms, meanDrive(days), given, room); // prettier-ignore
      for (const { site: at, now } of this.rhythms) for (const { work } of now) loads.add(at, work);
      return loads;
    };
    const open = openMinutes(this.pieces, over.length, this.terms);
    const share = evenness(filled(open), over, open, this.terms);
    this.loads = filled(open.map((minutes) => minutes * share * this.terms.crews));
    this.remembers = 2 * this.loads.allStops() <= SEARCHED_STOPS;
  }

  private asGiven(plan: TreePlan, row: number): RowRhythm {
    const { seasonFrom } = this.planner.setting.site;
    const watered = plan.chosen.plan
      .filter(({ family }) => family !== 'pad')
      .map(({ day }) => day - seasonFrom);
    return { plan, watered, early: new Map(), work: this.pieces[row]! };
  }

  /**
   * Minutes by which the longest round of each day is too long, as the crew days of these rhythms will have it.
   *
   * @param near - leave out days of less than this part of what fits; they count as fitting [-]
   */
  over(rhythms: readonly Rhythm[], near = 0): Float64Array {
    this.checks++;
    const work: (readonly Piece[])[] = [...this.pieces];
    for (const { rows, now } of rhythms) rows.forEach((row, k) => (work[row] = now[k]!.work));
    const byDay: { jobs: Job[]; pieces: Piece[] }[] = Array.from(this.loads.lengths, () => ({ jobs: [], pieces: [] })); // prettier-ignore
    work.forEach((pieces, row) => {
      for (const piece of pieces) {
        const { minutes, trucked, windows } = piece;
        const on = byDay[piece.day]!;
        on.jobs.push({ ...this.place[row]!, minutes, trucked, windows });
        on.pieces.push(piece);
      }
    });
    const { site, kit } = this.planner.setting;
    // orders are searched the longer the earlier they are asked for: terms of its own, as the crew days have
    const terms = termsOf(site, kit);
    return Float64Array.from(byDay, ({ jobs, pieces }, day) => {
      if (jobs.length === 0 || this.loads.filled(day) < near) return 0;
      const known = this.known[day];
      if (known && same(known.pieces, pieces)) return known.over;
      const { over } = roundsOf(jobs, terms);
      if (this.remembers) this.known[day] = { pieces, over };
      return over;
    });
  }
}

/** The same work, piece by piece. */
const same = (a: readonly Piece[], b: readonly Piece[]): boolean =>
  a.length === b.length && a.every((piece, i) => piece === b[i]);

/**
 * Minutes of each day in which a crew may do its work: the longest hours any of it has there, as long as its day at most; on
 * days without any, the longest of all.
 */
function openMinutes(
  pieces: readonly (readonly Piece[])[],
  days: number,
  { crewMinutes }: Terms,
): Float64Array {
  const open = new Float64Array(days);
  for (const { day, windows } of pieces.flat()) {
    const minutes = windows ? Math.min(crewMinutes, lengthOf(windows)) : crewMinutes;
    open[day] = Math.max(open[day]!, minutes);
  }
  const longest = open.reduce((a, b) => Math.max(a, b), 0);
  return open.map((minutes) => minutes || longest);
}

/** Mean drive for a stop of these days, the way back to the yard shared in [min]. */
function meanDrive(days: readonly CrewDay[]): number {
  let [minutes, stops] = [0, 0];
  for (const round of days.flatMap((day) => day.rounds ?? [])) {
    minutes += round.driveMinutes;
    stops += round.stops;
  }
  return minutes / Math.max(1, stops);
}

/** Most that a day holds of what is counted, as part of its open hours: the way home lies outside them [-]. */
const MOST_SHARE = 1.5;

/** Part of the crews' open hours that is filled when the longest round is, on the days that are too long [-]. */
function evenness(
  loads: DayLoads,
  over: Float64Array,
  open: Float64Array,
  { crews, crewMinutes }: Terms,
): number {
  let [seen, real] = [0, 0];
  let most = 1;
  over.forEach((minutes, day) => {
    if (minutes <= 0) return;
    seen += loads.load(day);
    real += crews * (open[day]! + minutes);
    if (open[day]! < crewMinutes) most = MOST_SHARE;
  });
  return Math.min(most, seen / Math.max(1, real));
}
