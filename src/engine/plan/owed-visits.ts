/** Visits a contract owes a tree: a path is walked with them spread over the days the rules leave. */
import { firstDay, SideBySide, type Path, type Walked } from './path.js';
import type { TreePlanner } from './plan-trees.js';

/** Days of a season as indexes from its first, both included, with the least visits in them. */
export interface Owed {
  from: number;
  to: number;
  visits: number;
}

/**
 * Walks a path; a day is watered when it is due, or when the visits so far lag behind an even spread over the open days.
 * A tree whose soil is full takes nothing, and its visit is left out. Visits of the path's past count.
 *
 * @param path - of a means with a device; a pad by itself is soaked when it runs low, whoever comes
 */
export function walkOwing(path: Path, planner: TreePlanner, owed: readonly Owed[]): Walked {
  const alone = new SideBySide([path], planner);
  const run = alone.runs[0]!;
  const { open } = path.option.main!.allowed;
  const { seasonFrom } = planner.setting.site;
  const came = [...new Set(path.past?.waterings.map(({ day }) => day - seasonFrom))];
  const lags = (i: number): boolean =>
    owed.some(({ from, to, visits }) => {
      if (i < from || i > to) return false;
      let before = 0;
      let all = 0;
      for (let day = from; day <= to; day++) {
        all += open[day] ?? 0;
        if (day <= i) before += open[day] ?? 0;
      }
      const done = came.filter((day) => day >= from && day <= to).length;
      return done < Math.floor((Math.min(visits, all) * before) / Math.max(1, all));
    });
  for (let i = firstDay(path); i < path.season.days; i++) {
    const { waterings } = run;
    alone.step(0, i, run.isDue(i) || lags(i));
    if (run.waterings > waterings) came.push(i);
  }
  return alone.walked()[0]!;
}
