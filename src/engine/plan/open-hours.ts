/**
 * Where a season's crews could find more open hours: another start of their day, further weekdays. And what fits into the
 * hours they have, for whoever has to choose whom to serve.
 */
import { inShift, lengthOf, shiftOf, startFor } from '../crew/shift.js';
import { weekday } from '../dates.js';
import { DAY_MINUTES, type RuleWindow } from '../rules/rule-types.js';
import { windowsIn } from '../rules/rule-words.js';
import { Calendars } from './calendars.js';
import type { SeasonPlan, Site } from './model.js';
import type { AllowedDays } from './option.js';
import type { SeasonInput } from './season.js';

/** The rules of trees that a person waters, each with how many trees have it. */
interface Lawful {
  allowed: AllowedDays;
  trees: number;
}

/** Monday first, as a week is worked. */
const WEEK = [1, 2, 3, 4, 5, 6, 0];

/** Days on which the rules let a person water by the means chosen, whatever weekday it is and whatever the crew's hours are. */
function lawfulOf({ rules, site, kit }: SeasonInput, { trees }: SeasonPlan): Lawful[] {
  const always: Site = { ...site, workDays: 'any', crewStart: 0, crewHours: DAY_MINUTES / 60 };
  const calendars = new Calendars(rules, always);
  const byName = new Map(kit.map((device) => [device.name, device]));
  const found = new Map<AllowedDays, number>();
  for (const { tree, chosen } of trees)
    for (const name of chosen.devices) {
      const device = byName.get(name);
      if (!device || device.automatic) continue;
      const allowed = calendars.allowed(tree, device);
      found.set(allowed, (found.get(allowed) ?? 0) + tree.count);
    }
  return [...found].map(([allowed, count]) => ({ allowed, trees: count }));
}

const windowsOn = ({ open, hours }: AllowedDays, i: number): RuleWindow[] =>
  open[i] === 1 ? windowsIn(hours(i)) : [];

/**
 * Starts of the crew's day that cover more open hours than the one there is, on the days the crew works: first the earliest that
 * the open hours make useful, then one halfway to it, then the best later one.
 *
 * @returns hours since midnight [h]
 */
export function usefulStarts(input: SeasonInput, plan: SeasonPlan): number[] {
  const { site } = input;
  const { start: now } = shiftOf(site);
  const minutes = site.crewHours * 60;
  const lawful = lawfulOf(input, plan);
  const works = workingDays(input);
  // days with the same hours are looked at once
  const shapes = new Map<string, { windows: RuleWindow[]; weight: number }>();
  for (const { allowed, trees } of lawful)
    for (const i of works) {
      const windows = windowsOn(allowed, i);
      if (windows.length === 0) continue;
      const key = allowed.hours(i);
      const known = shapes.get(key);
      if (known) known.weight += trees;
      else shapes.set(key, { windows, weight: trees });
    }
  const all = [...shapes.values()];
  const covered = (start: number): number => {
    const shift = { start, end: Math.min(DAY_MINUTES, start + minutes) };
    return all.reduce((sum, { windows, weight }) => sum + weight * lengthOf(inShift(windows, shift)), 0);
  };
  const better = [...new Set(all.flatMap(({ windows }) => windows.map((w) => startFor(w, minutes, now))))]
    .filter((start) => covered(start) > covered(now));
  const best = (starts: readonly number[]): number | undefined =>
    [...starts].sort((a, b) => covered(b) - covered(a) || Math.abs(a - now) - Math.abs(b - now))[0];
  const earlier = best(better.filter((start) => start < now));
  const later = best(better.filter((start) => start > now));
  const half = earlier === undefined ? undefined : Math.round((earlier + now) / 120) * 60;
  const between = half !== undefined && half > earlier! && half < now ? half : undefined;
  return [earlier, between, later].flatMap((start) => (start === undefined ? [] : [start / 60]));
} // prettier-ignore

/** Days of the season on the crew's weekdays, by their index. */
function workingDays({ rules, site, weather }: SeasonInput): number[] {
  const { isWorkDay } = new Calendars(rules, site);
  return [...weather.et0.keys()].filter(isWorkDay);
}

/**
 * Weekdays on which crews do not work now and the rules would let them water within their hours.
 *
 * @returns 0 Sunday … 6 Saturday, Monday first
 */
export function furtherDays(input: SeasonInput, plan: SeasonPlan): number[] {
  const { site, weather, rules } = input;
  const shift = shiftOf(site);
  const { isWorkDay } = new Calendars(rules, site);
  const open = new Set<number>();
  for (const { allowed } of lawfulOf(input, plan))
    for (let i = 0; i < weather.et0.length; i++)
      if (!isWorkDay(i) && lengthOf(inShift(windowsOn(allowed, i), shift)) > 0)
        open.add(weekday(site.seasonFrom + i));
  return WEEK.filter((day) => open.has(day));
}

/** Weekdays on which crews work, Monday first. @throws Problem if the site's work days cannot be read */
export function workWeekdays({ rules, site }: SeasonInput): number[] {
  const { isWorkDay } = new Calendars(rules, site);
  return WEEK.filter((day) => isWorkDay((day - weekday(site.seasonFrom) + 7) % 7));
}

/**
 * Hours of all crews in a week in which somebody may water: of each day the hours in which any tree may be, within the crew's
 * day. Of whole weeks of the season the one that has least, so that it holds in all of them.
 *
 * @returns [h]; undefined where the season has no whole week with such hours
 */
export function openWeekHours(input: SeasonInput, plan: SeasonPlan): number | undefined {
  const { site, weather } = input;
  const shift = shiftOf(site);
  const lawful = lawfulOf(input, plan);
  const perDay = new Float64Array(weather.et0.length);
  for (const i of workingDays(input))
    perDay[i] = Math.max(0, ...lawful.map(({ allowed }) => lengthOf(inShift(windowsOn(allowed, i), shift)))); // prettier-ignore
  const firstMonday = (8 - weekday(site.seasonFrom)) % 7;
  const weeks: number[] = [];
  for (let i = firstMonday; i + 7 <= perDay.length; i += 7)
    weeks.push(perDay.subarray(i, i + 7).reduce((sum, minutes) => sum + minutes, 0));
  const least = Math.min(...weeks.filter((minutes) => minutes > 0));
  return Number.isFinite(least) ? (least / 60) * (site.crews ?? 1) : undefined;
}
