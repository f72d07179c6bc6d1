/** Who goes where on which day: waterings that need a person, joined per site and day. */
import { tankLoads } from '../means/hand-and-tanker.js';
import { minutesAtTree } from './option.js';
import type { CrewDay, CrewStop, CrewTask, Device, Site, TreePlan } from './model.js';

/**
 * Crew days of a season: stops in the order of their addresses, gallons, hours, tank loads.
 * A day with more hours than the crew has is marked overloaded, never cut.
 */
export function crewDays(trees: TreePlan[], site: Site, kit: Device[]): CrewDay[] {
  const byName = new Map(kit.map((device) => [device.name, device]));
  const truck = kit.find((device) => device.family === 'tanker');
  const days = new Map<number, Map<string, CrewStop>>();
  const trucked = new Map<number, number>();
  for (const { tree, chosen } of trees)
    for (const watering of chosen.plan) {
      const device = byName.get(watering.device);
      if (!device || device.automatic) continue;
      const fromTruck =
        device.family === 'tanker' || (device.family === 'bag' && tree.tap === false);
      const litres = watering.litres * tree.count;
      const each = minutesAtTree(device, watering.litres, fromTruck ? truck : undefined);
      const task: CrewTask = { tree, watering, litres, minutes: each * tree.count };
      let stops = days.get(watering.day);
      if (!stops) days.set(watering.day, (stops = new Map()));
      let stop = stops.get(tree.site);
      if (!stop)
        stops.set(
          tree.site,
          (stop = { site: tree.site, address: tree.address, tasks: [], litres: 0, minutes: 0 }),
        );
      stop.tasks.push(task);
      stop.litres += litres;
      stop.minutes += task.minutes;
      if (fromTruck) trucked.set(watering.day, (trucked.get(watering.day) ?? 0) + litres);
    }
  const tank = truck?.volume ?? site.tankVolume;
  return [...days.entries()]
    .sort(([a], [b]) => a - b)
    .map(([day, stopsBySite]) => {
      const stops = [...stopsBySite.values()].sort(
        (a, b) => compare(a.address, b.address) || compare(a.site, b.site),
      );
      const loads = tankLoads(trucked.get(day) ?? 0, tank, site.tankUsable);
      const minutes =
        stops.reduce((sum, stop) => sum + stop.minutes, 0) +
        (stops.length + 1) * site.driveMinutes +
        loads * site.tankRefillMinutes;
      const hours = minutes / 60;
      return {
        day,
        stops,
        litres: stops.reduce((sum, stop) => sum + stop.litres, 0),
        hours,
        tankLoads: loads,
        overload: hours > site.crewHours,
      };
    });
}

const collator = new Intl.Collator('en', { numeric: true });
const compare = (a: string, b: string): number => collator.compare(a, b);
