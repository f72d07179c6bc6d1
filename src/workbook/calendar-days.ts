/** The season day by day: stage in force, what the rules close, crew hours, water. */
import type { Day } from '../engine/dates.js';
import { weekday } from '../engine/dates.js';
import type { Family } from '../engine/plan/model.js';
import { calendarKey, ruleCalendar } from '../engine/rules/rule-calendar.js';
import { stageAt } from '../engine/rules/rule-match.js';
import { parseDays } from '../engine/rules/rule-parse.js';
import { parseRules, type RuleTable } from '../engine/rules/rule-table.js';
import type { BuildInput } from './sheets/context.js';

type DaysInput = Pick<BuildInput, 'plan' | 'kit' | 'ruleRows' | 'stageRows'>;

export interface CalendarDay {
  day: Day;
  /** '' without a Stages table or before its first entry */
  stage: string;
  /** means no tree of the plan may be watered with on this day, and those only some may */
  closed: Family[];
  partly: Family[];
  /** every means of the kit is closed */
  barred: boolean;
  crewOff: boolean;
  stops: number;
  atTrees: number; // [h]
  driving: number; // [h]
  refills: number; // [h]
  overload: boolean;
  byCrew: number; // [L]
  byTimer: number; // [L]
}

/** For each family of the kit, the open days of every kind of tree the rules tell apart. */
function openDays(input: DaysInput, rules: RuleTable): Map<Family, Uint8Array[]> {
  const { plan, kit } = input;
  const { seasonFrom, seasonTo } = plan.site;
  const seen = new Map<string, Uint8Array>();
  const out = new Map<Family, Uint8Array[]>();
  for (const family of new Set(kit.map((device) => device.family))) {
    const days: Uint8Array[] = [];
    for (const { tree } of plan.trees) {
      const trucked = family === 'tanker' || (family === 'bag' && tree.tap === false);
      const query = {
        family,
        address: tree.address,
        source: trucked ? 'tanker' : (tree.source ?? 'mains'),
        target: 'tree' as const,
        planted: tree.planted,
      };
      const key = calendarKey(rules, query, seasonFrom);
      if (seen.has(key)) continue;
      const { open } = ruleCalendar(rules, query, seasonFrom, seasonTo);
      seen.set(key, open);
      days.push(open);
    }
    out.set(family, days);
  }
  return out;
}

/** Every day of the season, index 0 = its first. */
export function calendarDays(
  input: DaysInput,
  automatic: (device: string) => boolean,
): CalendarDay[] {
  const { plan } = input;
  const { seasonFrom, seasonTo, workDays, tankRefillMinutes } = plan.site;
  const rules = input.ruleRows.length > 1 ? parseRules(input.ruleRows, input.stageRows) : undefined;
  const open = rules ? openDays(input, rules) : new Map<Family, Uint8Array[]>();
  const worked = parseDays(workDays).weekdays;
  const days = Array.from({ length: seasonTo - seasonFrom + 1 }, (_, i): CalendarDay => {
    const day = seasonFrom + i;
    const families = [...open].filter(([, all]) => all.length > 0);
    const closed = families.filter(([, all]) => all.every((o) => !o[i])).map(([f]) => f);
    const partly = families
      .filter(([f, all]) => !closed.includes(f) && all.some((o) => !o[i]))
      .map(([f]) => f);
    return {
      day,
      stage: (rules && stageAt(rules, day)) ?? '',
      closed,
      partly,
      barred: families.length > 0 && closed.length === families.length,
      crewOff: !((worked >> weekday(day)) & 1),
      stops: 0, atTrees: 0, driving: 0, refills: 0, overload: false, byCrew: 0, byTimer: 0,
    };
  }); // prettier-ignore
  for (const crewDay of plan.crewDays) {
    const at = days[crewDay.day - seasonFrom]!;
    at.stops = crewDay.stops.length;
    at.atTrees = crewDay.stops.reduce((sum, stop) => sum + stop.minutes, 0) / 60;
    at.refills = (crewDay.tankLoads * tankRefillMinutes) / 60;
    at.driving = crewDay.hours - at.atTrees - at.refills;
    at.overload = crewDay.overload;
  }
  for (const { tree, chosen } of plan.trees)
    for (const w of chosen.plan) {
      const at = days[w.day - seasonFrom]!;
      at[automatic(w.device) ? 'byTimer' : 'byCrew'] += w.litres * tree.count;
    }
  return days;
}
