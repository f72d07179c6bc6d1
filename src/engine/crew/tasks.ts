/** The waterings of a plan that need a person, as work at a site. */
import { lastsMinutes, minutesAtTree, staysWith, type Lasting } from '../plan/option.js';
import type { RuleWindow } from '../rules/rule-types.js';
import { windowsIn } from '../rules/rule-words.js';
import type { CrewTask, Device, Tree, TreePlan } from '../plan/model.js';
import { isPlace, middleOf, type Place } from './place.js';
import type { Job } from './rounds.js';

/** One watering of all trees of a row. */
export interface TaskJob extends Job {
  task: CrewTask;
  /** index of the row among the tree plans, and of the watering in its plan */
  row: number;
  watering: number;
}

/** Every watering that no timer does. The place of a site is the middle of its trees that have coordinates. */
export function crewJobs(trees: readonly TreePlan[], kit: readonly Device[]): TaskJob[] {
  const byName = new Map(kit.map((device) => [device.name, device]));
  const truck = kit.find((device) => device.family === 'tanker');
  const places = placesOf(trees);
  const jobs: TaskJob[] = [];
  const hours = new Map<string, RuleWindow[]>();
  const read = (text: string): RuleWindow[] => {
    const known = hours.get(text) ?? windowsIn(text);
    hours.set(text, known);
    return known;
  };
  trees.forEach(({ tree, chosen }, row) =>
    chosen.plan.forEach((watering, w) => {
      const device = byName.get(watering.device);
      if (!device || device.automatic) return;
      const litres = watering.litres * tree.count;
      const { minutes, trucked } = workAt(tree, device, watering, truck);
      jobs.push({
        site: tree.site,
        address: tree.address,
        place: places.get(tree.site),
        minutes,
        trucked,
        ...(watering.within !== undefined && { windows: read(watering.within) }),
        task: { tree, watering, litres, minutes },
        row,
        watering: w,
      });
    }),
  );
  return jobs;
}

/**
 * One watering of all trees of a row: crew minutes without the drive [min], and water that comes on a truck [L].
 *
 * @param watering - of one tree
 * @param truck - the truck of the kit, if it has one
 */
export function workAt(
  { tap, count }: Tree,
  device: Device,
  watering: Lasting & { litres: number },
  truck: Device | undefined,
): { minutes: number; trucked: number } {
  const { litres } = watering;
  const stays = staysWith(device) ? lastsMinutes(watering) : 0;
  const fromTruck = device.family === 'tanker' || (device.family === 'bag' && tap === false);
  return {
    minutes: (minutesAtTree(device, litres, fromTruck ? truck : undefined) + stays) * count,
    trucked: fromTruck ? litres * count : 0,
  };
}

function placesOf(trees: readonly TreePlan[]): Map<string, Place> {
  const given = new Map<string, Place[]>();
  for (const { tree } of trees) {
    const { latitude, longitude } = tree;
    if (!isPlace(latitude, longitude)) continue;
    const place = { latitude: latitude!, longitude: longitude! };
    const known = given.get(tree.site);
    if (known) known.push(place);
    else given.set(tree.site, [place]);
  }
  const middles = new Map<string, Place>();
  for (const [site, own] of given) {
    const middle = middleOf(own);
    if (middle) middles.set(site, middle);
  }
  return middles;
}

/** Jobs by the day of their watering, days ascending. */
export function byDay(jobs: readonly TaskJob[]): [number, TaskJob[]][] {
  const days = new Map<number, TaskJob[]>();
  for (const job of jobs) {
    const { day } = job.task.watering;
    const known = days.get(day);
    if (known) known.push(job);
    else days.set(day, [job]);
  }
  return [...days.entries()].sort(([a], [b]) => a - b);
}
