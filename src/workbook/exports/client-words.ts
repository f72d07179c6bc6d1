/** What a client's copy says besides the estimate: the season in numbers, and what the client has to do. */
import { civil, isoDate, MONTHS, type Day } from '../../engine/dates.js';
import type { SeasonPlan, TreePlan } from '../../engine/plan/model.js';
import type { Context } from '../sheets/context.js';
import { hoursToDo, spokenHours, waterOf } from './rounds.js';
import { union } from '../../engine/rules/rule-windows.js';
import { windowsIn } from '../../engine/rules/rule-words.js';
import type { RuleWindow } from '../../engine/rules/rule-types.js';

/** Water and work of a month. */
export interface Month {
  /** `Apr 2027` */
  name: string;
  crewDays: number;
  /** waterings of single trees, by crew or timer */
  waterings: number;
  litres: number; // [L]
}

const sum = <T>(items: readonly T[], value: (item: T) => number): number =>
  items.reduce((total, item) => total + value(item), 0);

const monthOf = (day: Day): number => {
  const { year, month } = civil(day);
  return year * 12 + month - 1;
};

/** Every month of the season in turn, those without watering too. */
export function months(plan: SeasonPlan): Month[] {
  const { seasonFrom, seasonTo } = plan.site;
  const first = monthOf(seasonFrom);
  const out = Array.from({ length: monthOf(seasonTo) - first + 1 }, (_, i): Month => ({
    name: `${MONTHS[(first + i) % 12]} ${Math.floor((first + i) / 12)}`,
    crewDays: 0,
    waterings: 0,
    litres: 0,
  }));
  for (const { tree, chosen } of plan.trees)
    for (const watering of chosen.plan) {
      const month = out[monthOf(watering.day) - first];
      if (!month) continue;
      month.waterings += tree.count;
      month.litres += watering.litres * tree.count;
    }
  for (const { day } of plan.crewDays) {
    const month = out[monthOf(day) - first];
    if (month) month.crewDays += 1;
  }
  return out;
}

/** A place where the client's water must be there for the crew. */
export interface Visit {
  site: string;
  address: string;
  waters: string;
  days: number;
  first: Day;
  last: Day;
  hours: string;
}

/** Sites in the order of the first visit. */
export function visits(plan: SeasonPlan): Visit[] {
  interface Seen extends Omit<Visit, 'waters' | 'hours' | 'days'> {
    waters: Set<string>;
    hours: Set<string>;
    on: Set<Day>;
  }
  const sites = new Map<string, Seen>();
  for (const { day, stops } of plan.crewDays)
    for (const { site, address, tasks } of stops) {
      const seen = sites.get(site) ?? { site, address, waters: new Set(), hours: new Set(), on: new Set(), first: day, last: day }; // prettier-ignore
      seen.on.add(day);
      seen.last = day;
      for (const task of tasks) {
        seen.waters.add(waterOf(task));
        seen.hours.add(hoursToDo(task.watering));
      }
      if (seen.address !== address) seen.address = '';
      sites.set(site, seen);
    }
  return [...sites.values()].map(({ waters, hours, on, ...rest }) => ({
    ...rest,
    waters: [...waters].join(', '),
    days: on.size,
    hours: spokenHours(union([...hours].flatMap((text): RuleWindow[] => windowsIn(text)))),
  }));
}

/** Rows that will be short of water on some days. */
export const shortOfWater = (plan: SeasonPlan): TreePlan[] =>
  plan.trees.filter((t) => t.state === 'cannot be kept');

/** The season in numbers a client asks for. */
export function atAGlance(ctx: Context): [what: string, value: string | number, note: string][] {
  const { plan } = ctx;
  const { trees, site } = plan;
  const litres = sum(trees, (t) => t.chosen.litres * t.tree.count);
  return [
    ['Trees', sum(trees, (t) => t.tree.count), 'in this plan'],
    ['Sites', new Set(trees.map((t) => t.tree.site)).size, ''],
    ['Season', `${isoDate(site.seasonFrom)} to ${isoDate(site.seasonTo)}`, ''],
    ['Days with a crew on site', plan.crewDays.length, ''],
    ['Waterings', sum(trees, (t) => t.tree.count * t.chosen.plan.length), 'of single trees, by crew or timer'],
    [`Water (${ctx.unit('volume')})`, Math.round(ctx.show('volume', litres)), 'of the season, before losses'],
    ['Rows short of water on some days', shortOfWater(plan).length, 'named on To do'],
    ['Rows not planned', plan.notPlanned.length, 'named on To do, not in the price'],
  ];
} // prettier-ignore
