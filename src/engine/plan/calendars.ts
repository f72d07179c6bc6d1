/** Days each tree may be watered on: the rules, and the crew's work days where a person is needed. */
import { weekday } from '../dates.js';
import { Problem } from '../problems.js';
import { calendarKey, ruleCalendar } from '../rules/rule-calendar.js';
import { parseDays } from '../rules/rule-parse.js';
import type { RuleQuery, RuleTable } from '../rules/rule-table.js';
import type { Device, Family, Site, Tree } from './model.js';
import type { AllowedDays } from './option.js';

/** What the planner asks the rules for a tree: a bag without a tap is filled from the tank. */
export function queryOf(
  tree: Pick<Tree, 'address' | 'planted' | 'tap' | 'source'>,
  family: Family,
): RuleQuery {
  const trucked = family === 'tanker' || (family === 'bag' && tree.tap === false);
  return {
    family,
    address: tree.address,
    source: trucked ? 'tanker' : (tree.source ?? 'mains'),
    target: 'tree',
    planted: tree.planted,
  };
}

/** Open days by tree and family, shared by trees the rules do not tell apart. */
export class Calendars {
  private readonly adapted = new Map<string, AllowedDays>();
  /** bit mask, bit 0 Sunday */
  private readonly workDays: number;

  /** @throws Problem if the site's work days cannot be read */
  constructor(
    private readonly rules: RuleTable,
    private readonly site: Site,
  ) {
    this.workDays = workDayMask(site.workDays);
  }

  /** Trees with the same key for a family have the same calendar for it. */
  key(tree: Tree, family: Family): string {
    return calendarKey(this.rules, queryOf(tree, family), this.site.seasonFrom);
  }

  allowed(tree: Tree, device: Device): AllowedDays {
    const { family, automatic } = device;
    const key = `${automatic}|${this.key(tree, family)}`;
    const known = this.adapted.get(key);
    if (known) return known;
    const { seasonFrom, seasonTo } = this.site;
    const calendar = ruleCalendar(this.rules, queryOf(tree, family), seasonFrom, seasonTo);
    const minutes = Array.from({ length: seasonTo - seasonFrom + 1 }, (_, i) => {
      const lengths = calendar.windows(seasonFrom + i).map((w) => w.end - w.start);
      const longest = Math.max(0, ...lengths);
      const sum = lengths.reduce((a, b) => a + b, 0);
      const open = calendar.oneWindow[i] ? longest : sum;
      const limit = calendar.limit[i]!;
      return limit >= 0 ? Math.min(open, limit) : open;
    });
    const adapted: AllowedDays = {
      open: automatic
        ? calendar.open
        : calendar.open.map((open, i) => open & (this.workDays >> weekday(seasonFrom + i)) & 1),
      hours: (i) => calendar.hours[i] ?? '',
      minutes: (i) => minutes[i] ?? 0,
      perWeek: (i) => calendar.perWeek[i] ?? 7,
    };
    this.adapted.set(key, adapted);
    return adapted;
  }
}

function workDayMask(words: string): number {
  try {
    return parseDays(words).weekdays;
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    throw new Problem(
      `Site, Work days "${words}": ${error.message}; write weekdays such as Mon-Sat, Mon Wed Fri, or any`,
    );
  }
}

/** Every day open, for asking what more days would change. */
export const anyDay = (days: number): AllowedDays => ({
  open: new Uint8Array(days).fill(1),
  hours: () => 'any',
  minutes: () => 1440,
  perWeek: () => Infinity,
});
