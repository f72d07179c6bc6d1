/** Relief of full crew days: work that may be done earlier moves to an earlier day with room for it. */
import { roundsOf, type Job, type Terms } from './rounds.js';

/** A job with the day it is planned for. */
export interface DatedJob extends Job {
  /** the latest safe day, as a whole number */
  day: number;
}

export interface Freedom {
  /** first day this job may have, given where the jobs are now */
  earliest(job: number, days: Int32Array): number;
  /** whether this job may have this earlier day, given where the jobs are now */
  mayMove(job: number, day: number, days: Int32Array): boolean;
}

/**
 * Takes overloaded days from the last to the first. From each, first whole sites move, then single jobs, the longest
 * first, to a day on which the site is visited anyway, else to the latest earlier day, as long as that day fits a
 * crew's hours with them; it stops when the day fits. A day that fits is never overloaded by a move, no job ends later
 * than planned, none is dropped. Greedy: another set of moves may relieve more, and no full day makes room by
 * moving its own work.
 *
 * @returns the day of each job
 */
export function smooth(jobs: readonly DatedJob[], terms: Terms, freedom: Freedom): Int32Array {
  const days = Int32Array.from(jobs, (job) => job.day);
  const work = new Workload(jobs, days, terms);
  for (const day of work.dates().reverse()) {
    if (!work.overloaded(day)) continue;
    for (const group of [...work.sites(day), ...work.single(day)]) {
      if (!work.overloaded(day)) break;
      const now = group.filter((job) => days[job] === day);
      if (now.length > 0) relieve(now, day, work, freedom);
    }
  }
  return days;
}

/** Moves these jobs of one site together to the best earlier day, if there is one. */
function relieve(group: readonly number[], day: number, work: Workload, freedom: Freedom): void {
  const { days } = work;
  const first = Math.max(...group.map((job) => freedom.earliest(job, days)));
  const open: number[] = [];
  for (let earlier = day - 1; earlier >= first; earlier--)
    if (group.every((job) => freedom.mayMove(job, earlier, days))) open.push(earlier);
  const visited = open.filter((earlier) => work.visits(earlier, group[0]!));
  for (const earlier of [...visited, ...open.filter((d) => !visited.includes(d))])
    if (work.fits(earlier, group)) {
      work.move(group, day, earlier);
      return;
    }
}

/**
 * Jobs whose rounds are worked out at most, counted each time: what is not looked at by then stays on its day, so that a city's
 * list with many full days still plans in minutes.
 */
const MOST_JOBS = 300_000;

/** Which jobs stand on which day, and whether they fit. */
class Workload {
  private asked = 0;
  private readonly onDay = new Map<number, Set<number>>();
  private readonly known = new Map<number, boolean>();

  constructor(
    private readonly jobs: readonly DatedJob[],
    readonly days: Int32Array,
    private readonly terms: Terms,
  ) {
    jobs.forEach((job, i) => {
      const there = this.onDay.get(job.day);
      if (there) there.add(i);
      else this.onDay.set(job.day, new Set([i]));
    });
  }

  dates(): number[] {
    return [...this.onDay.keys()].sort((a, b) => a - b);
  }

  private of(day: number): number[] {
    return [...(this.onDay.get(day) ?? [])].sort((a, b) => a - b);
  }

  /** Work alone, without driving, is more than all crews have: no need to plan rounds. */
  private hopeless(jobs: readonly number[]): boolean {
    let [minutes, water] = [0, 0];
    for (const i of jobs) {
      minutes += this.jobs[i]!.minutes;
      water += this.jobs[i]!.trucked;
    }
    minutes += this.terms.loads(water) * this.terms.refillMinutes;
    return minutes > this.terms.crews * this.terms.crewMinutes * (1 + 1e-9);
  }

  private over(jobs: readonly number[]): boolean {
    if (jobs.length === 0) return false;
    if (this.hopeless(jobs)) return true;
    this.asked += jobs.length;
    return (
      roundsOf(
        jobs.map((i) => this.jobs[i]!),
        this.terms,
      ).over > 0
    );
  }

  overloaded(day: number): boolean {
    let over = this.known.get(day);
    if (over === undefined) this.known.set(day, (over = this.over(this.of(day))));
    return over;
  }

  fits(day: number, more: readonly number[]): boolean {
    if (this.asked > MOST_JOBS) return false;
    return !this.overloaded(day) && !this.over([...this.of(day), ...more].sort((a, b) => a - b));
  }

  visits(day: number, job: number): boolean {
    const { site } = this.jobs[job]!;
    return this.of(day).some((i) => this.jobs[i]!.site === site);
  }

  /** Jobs of a day by site, most minutes first. */
  sites(day: number): number[][] {
    const bySite = new Map<string, number[]>();
    for (const i of this.of(day)) {
      const { site } = this.jobs[i]!;
      const known = bySite.get(site);
      if (known) known.push(i);
      else bySite.set(site, [i]);
    }
    return this.longestFirst([...bySite.values()]);
  }

  /** Jobs of a day one by one, most minutes first; none where they are the same as the sites. */
  single(day: number): number[][] {
    return this.longestFirst(
      this.sites(day)
        .filter((site) => site.length > 1)
        .flat()
        .map((job) => [job]),
    );
  }

  private longestFirst(groups: number[][]): number[][] {
    const minutes = (group: readonly number[]): number =>
      group.reduce((sum, i) => sum + this.jobs[i]!.minutes, 0);
    return groups
      .map((group) => ({ group, minutes: minutes(group) }))
      .sort((a, b) => b.minutes - a.minutes || a.group[0]! - b.group[0]!)
      .map(({ group }) => group);
  }

  move(group: readonly number[], from: number, to: number): void {
    for (const job of group) {
      this.onDay.get(from)?.delete(job);
      const there = this.onDay.get(to);
      if (there) there.add(job);
      else this.onDay.set(to, new Set([job]));
      this.days[job] = to;
    }
    this.known.delete(from);
    this.known.delete(to);
  }
}
