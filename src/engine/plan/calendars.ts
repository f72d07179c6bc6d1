/** Days each tree may be watered on: the rules, and the crew's work days and hours where a person is needed. */
import { inShift, lengthOf, shiftOf, startFor, type Shift } from '../crew/shift.js';
import { weekday } from '../dates.js';
import { Problem } from '../problems.js';
import { calendarKey, ruleCalendar, type RuleCalendar } from '../rules/rule-calendar.js';
import { topicMatches } from '../rules/rule-match.js';
import { parseDays } from '../rules/rule-parse.js';
import { DAY_MINUTES, type RuleWindow } from '../rules/rule-types.js';
import { hoursText } from '../rules/rule-words.js';
import type { RuleQuery, RuleTable } from '../rules/rule-table.js';
import { RUN_STEP } from './hose-run.js';
import type { Device, Family, Site, Tree } from './model.js';
import { leftRunning, type AllowedDays } from './option.js';

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
  /** hours in which a person comes */
  readonly shift: Shift;

  /** @throws Problem if the site's work days cannot be read */
  constructor(
    private readonly rules: RuleTable,
    private readonly site: Site,
  ) {
    this.workDays = workDayMask(site.workDays);
    this.shift = shiftOf(site);
  }

  /** Trees with the same key for a family have the same calendar for it. */
  key(tree: Tree, family: Family): string {
    return calendarKey(this.rules, queryOf(tree, family), this.site.seasonFrom);
  }

  allowed(tree: Tree, device: Device): AllowedDays {
    const { family, automatic, visitMinutes } = device;
    const query = queryOf(tree, family);
    const after = this.after(device, query);
    const key = `${automatic}|${after}|${after === 'runs' ? visitMinutes : ''}|${this.key(tree, family)}`;
    const known = this.adapted.get(key);
    if (known) return known;
    const { seasonFrom, seasonTo } = this.site;
    const calendar = ruleCalendar(this.rules, query, seasonFrom, seasonTo);
    const lawful = this.hoursOf(calendar, WHOLE_DAY);
    const own = automatic
      ? lawful
      : after === 'runs'
        ? this.hoursLeft(calendar, visitMinutes)
        : this.hoursOf(calendar, this.shift, after);
    const withRun = new Map<string, string>();
    const within = (i: number, runsOn = 0): string => {
      const text = own.text[i] ?? '';
      if (runsOn === 0 || after !== 'runs') return text;
      const key = `${text}|${runsOn}|${calendar.hours[i]}`;
      const told = withRun.get(key);
      if (told !== undefined) return told;
      const windows = calendar.windows(seasonFrom + i);
      const begun = hoursText(inShift(endingBefore(windows, runsOn), this.shift));
      withRun.set(key, begun);
      return begun;
    };
    const adapted: AllowedDays = {
      open: automatic
        ? calendar.open
        : calendar.open.map((open, i) => (open && this.isWorkDay(i) && own.text[i] !== '' ? 1 : 0)),
      hours: (i) => calendar.hours[i] ?? '',
      ...(!automatic && { within }),
      minutes: (i) => own.minutes[i] ?? 0,
      lawful: (i) => lawful.minutes[i] ?? 0,
      perWeek: (i) => calendar.perWeek[i] ?? 7,
    };
    this.adapted.set(key, adapted);
    return adapted;
  }

  /** Days of the tree on which the rules and the work days would let a person water, and only the crew's hours do not. */
  outsideShift(tree: Tree, device: Device): OutsideShift {
    const { seasonFrom, seasonTo } = this.site;
    const calendar = ruleCalendar(this.rules, queryOf(tree, device.family), seasonFrom, seasonTo);
    const own = this.allowed(tree, device).within;
    const found: OutsideShift = { allowed: 0, outside: 0, windows: [], starts: [] };
    if (device.automatic) return found;
    const hours = new Map<string, number>();
    const starts = new Set<number>();
    const first = Math.max(seasonFrom, tree.planted ?? seasonFrom);
    for (let day = first; day <= seasonTo; day++) {
      if (calendar.open[day - seasonFrom] !== 1 || !this.isWorkDay(day - seasonFrom)) continue;
      found.allowed++;
      const windows = calendar.windows(day);
      for (const window of windows)
        if (window.start < this.shift.start || window.end > this.shift.end)
          starts.add(startFor(window, this.site.crewHours * 60, this.shift.start));
      if (own?.(day - seasonFrom) !== '') continue;
      found.outside++;
      const text = hoursText(windows);
      hours.set(text, (hours.get(text) ?? 0) + 1);
    }
    found.windows = [...hours].sort(([, a], [, b]) => b - a).map(([text]) => text);
    found.starts = [...starts].filter((start) => start !== this.shift.start);
    return found;
  }

  /** What the rules say of a device for a tree, whoever works when, and the minutes it must have drained in inside their hours, else 0. */
  lawful(tree: Tree, device: Device): { calendar: RuleCalendar; drain: number } {
    const { seasonFrom, seasonTo } = this.site;
    const query = queryOf(tree, device.family);
    const after = this.after(device, query);
    const calendar = ruleCalendar(this.rules, query, seasonFrom, seasonTo);
    return { calendar, drain: after === 'runs' ? 0 : after };
  }

  /**
   * What water does when the person has gone: the minutes a bag drains where it must have drained inside the hours, "runs" for
   * a hose that is left running and must be shut inside them, 0 where the hours do not ask. A row counts on every day, also
   * where it holds on some only: stricter, never laxer.
   */
  private after(device: Device, query: RuleQuery): number | 'runs' {
    const speaking = this.rules.rows.filter((row) => topicMatches(row, query));
    if (device.family === 'bag' && speaking.some(({ drain }) => drain === 'inside'))
      // how long it drains is not known: no hours are surely long enough
      return device.ratedHours === undefined ? Infinity : device.ratedHours * 60;
    const mayRunOver =
      speaking.length > 0 && speaking.every((row) => row.finish === 'may run over');
    return leftRunning(device) && !mayRunOver ? 'runs' : 0;
  }

  /** Longest run on every day of a hose that a person opens and leaves, and the hours in which it may be opened at all. */
  private hoursLeft(calendar: RuleCalendar, visitMinutes: number): Hours {
    const { text } = this.hoursOf(calendar, this.shift);
    const minutes = text.map((_, i) => {
      const runs = calendar.windows(calendar.from + i).map(({ start, end }) => {
        const opened = Math.max(start, this.shift.start) + visitMinutes;
        return opened <= Math.min(end, this.shift.end) ? end - opened - RUN_STEP : 0;
      });
      const longest = Math.max(0, ...runs);
      const limit = calendar.limit[i]!;
      return limit >= 0 ? Math.min(longest, limit) : longest;
    });
    return { minutes, text: text.map((hours, i) => (minutes[i]! > 0 ? hours : '')) };
  }

  /** Open minutes and hours of every day within a part of it, in which what is begun ends `after` minutes later at the latest. */
  private hoursOf(calendar: RuleCalendar, part: RuleWindow, after = 0): Hours {
    const alike = new Map<readonly RuleWindow[], { windows: RuleWindow[]; text: string }>();
    const minutes: number[] = [];
    const text: string[] = [];
    for (let i = 0; i <= calendar.to - calendar.from; i++) {
      const lawful = calendar.windows(calendar.from + i);
      let own = alike.get(lawful);
      if (!own) {
        const windows = inShift(endingBefore(lawful, after), part);
        alike.set(lawful, (own = { windows, text: hoursText(windows) }));
      }
      const longest = Math.max(0, ...own.windows.map((w) => w.end - w.start));
      const open = calendar.oneWindow[i] ? longest : lengthOf(own.windows);
      const limit = calendar.limit[i]!;
      minutes.push(limit >= 0 ? Math.min(open, limit) : open);
      text.push(own.text);
    }
    return { minutes, text };
  }

  /** A crew works on this day of the season: a weekday of theirs. */
  readonly isWorkDay = (index: number): boolean =>
    ((this.workDays >> weekday(this.site.seasonFrom + index)) & 1) === 1;
}

/** Open minutes and hours of the days of a season. */
interface Hours {
  minutes: number[];
  text: string[];
}

/** Hours in which something may be begun that goes on for so many minutes and must end inside them. */
const endingBefore = (windows: readonly RuleWindow[], minutes: number): readonly RuleWindow[] =>
  minutes === 0
    ? windows
    : windows.flatMap(({ start, end }) =>
        end - minutes > start ? [{ start, end: end - minutes }] : [],
      );

const WHOLE_DAY: RuleWindow = { start: 0, end: DAY_MINUTES };

export interface OutsideShift {
  /** days of the rules and the crew's weekdays, and those of them whose hours lie wholly outside the crew's day */
  allowed: number;
  outside: number;
  /** hours of the latter as text, the commonest first */
  windows: string[];
  /** other starts of the crew's day that would cover more of the hours [min of the day] */
  starts: number[];
}

/** Days of the week a crew works, bit 0 Sunday. @throws Problem if they cannot be read */
export function workDayMask(words: string): number {
  try {
    return parseDays(words).weekdays;
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    throw new Problem(
      `Site, Work days "${words}": ${error.message}; write weekdays such as Mon-Sat, Mon Wed Fri, or any`,
    );
  }
}

/** Every day open, for asking what more days would change. @param shift - hours in which a person comes, if one has to */
export const anyDay = (days: number, shift?: RuleWindow): AllowedDays => ({
  open: new Uint8Array(days).fill(1),
  hours: () => 'any',
  ...(shift && { within: () => hoursText([{ start: shift.start, end: shift.end }]) }),
  minutes: () => (shift ? shift.end - shift.start : DAY_MINUTES),
  lawful: () => DAY_MINUTES,
  perWeek: () => Infinity,
});
