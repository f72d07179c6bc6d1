/**
 * What would help a tree that cannot be kept: each remedy is tried by simulating it, and they are ranked by the stress
 * days they leave. A deeper root zone is none: it is what the soil and the tree are, not what somebody can do.
 */
import { FAMILY_WORDS, LARGEST_BAG_CALIPER, type Refused } from './choose-means.js';
import { anyDay, type OutsideShift } from './calendars.js';
import { SeasonRun, type OutcomeNumbers } from './kernel.js';
import { meansNumbers } from './means-numbers.js';
import type { Device, Tree } from './model.js';
import { withWeekday, weekdayName } from './more-days.js';
import type { AllowedDays, Option } from './option.js';
import { TreePlanner, type SeasonSetting, type TreeTask } from './plan-trees.js';
import { Problem } from '../problems.js';
import { L_PER_GALLON } from '../units.js';
import type { RuleWindow } from '../rules/rule-types.js';
import { clock, hoursText } from '../rules/rule-words.js';
import type { TreeSeason } from './tree-season.js';

export type RemedyKind =
  'any day' | 'one more day' | 'another start' | 'another means' | 'more bags';

export interface Remedy {
  kind: RemedyKind;
  /** the means that does best then */
  means: string;
  stressDays: number;
  cost: number;
  /** a sentence with the stress days left */
  sentence: string;
}

export interface Advice {
  /** what helps, best first: fewest stress days left, then least cost */
  remedies: Remedy[];
  /** devices that would have to be measured or described before they can be tried, a sentence each */
  toMeasure: string[];
  /** all of it in a paragraph */
  text: string;
}

/** Simulates a tree with an option; a re-plan gives its own, which begins today with the stores as they are. */
export type Try = (season: TreeSeason, option: Option, planner: TreePlanner) => OutcomeNumbers;

const wholeSeason: Try = (season, option, { setting, conditions }) =>
  new SeasonRun(season, meansNumbers(option, setting.site, season), conditions).finish();

type Found = Pick<Remedy, 'means' | 'stressDays' | 'cost'>;

/** The means a tree has; `when`: the days its stress was counted on, as "from today on". */
export type Now = Found & { when?: string };

/** Any day, for what a timer does and for what a person does. */
interface Free {
  timer: AllowedDays;
  crew: AllowedDays;
}

/** Most other starts of the crew's day that are tried for a tree, the nearest ones. Assumption: enough, and soon done. */
const MOST_STARTS = 4;
/** Most kinds of hours named in a sentence. */
const MOST_HOURS = 2;

/** The engine does not know the units of its reader. @param litres - [L] */
const volumeInBoth = (litres: number): string =>
  `${Math.round(litres)} L (${Math.round(litres / L_PER_GALLON)} gal)`;

/** One for a season: the calendars it works out serve all trees. */
export class Adviser {
  private readonly planner: TreePlanner;
  private readonly free: Free;
  private byWeekday: TreePlanner[] | undefined;
  private readonly byStart = new Map<number, TreePlanner>();

  constructor(private readonly setting: SeasonSetting) {
    this.planner = new TreePlanner(setting);
    const days = setting.weather.et0.length;
    this.free = { timer: anyDay(days), crew: anyDay(days, this.planner.calendars.shift) };
  }

  /**
   * @param now - label and stress days of the means the tree has
   * @param tryOut - left out: the whole season from its first day
   * @throws Problem if the tree cannot be planned at all
   */
  advise(task: TreeTask, now: Now, tryOut: Try = wholeSeason): Advice {
    const { refused, options } = this.planner.ready(task);
    const used = options.find(({ label }) => label === now.means)?.main?.device;
    const outside = used && this.planner.calendars.outsideShift(task.tree, used);
    const remedies = [
      this.withAnyDay(task, tryOut),
      this.withOneMore(task, tryOut),
      this.withOtherStart(task, options, tryOut),
      ...this.withoutRefusal(task, refused, tryOut),
      this.withMoreBags(task, tryOut),
    ]
      .filter((remedy) => remedy !== undefined)
      .filter((remedy) => remedy.stressDays < now.stressDays)
      .sort((a, b) => a.stressDays - b.stressDays || a.cost - b.cost);
    const toMeasure = refused.filter(isUnmeasured).map(({ device, reason }) => `${device.name} was not tried: ${reason}.`); // prettier-ignore
    const why =
      outside && outside.outside > 0 ? [outsideWords(outside, this.planner.calendars.shift)] : [];
    return { remedies, toMeasure, text: inWords(now, why, remedies, toMeasure) };
  }

  private withAnyDay(task: TreeTask, tryOut: Try): Remedy | undefined {
    const best = this.best(this.planner, task, tryOut, (option) => freed(option, this.free));
    return (
      best && {
        ...best,
        kind: 'any day',
        sentence: `With any day allowed, ${best.means} would leave ${left(best)}: ask for a variance, or for water from an exempt source.`,
      }
    );
  }

  private withOneMore(task: TreeTask, tryOut: Try): Remedy | undefined {
    const { rules } = this.setting;
    this.byWeekday ??= [0, 1, 2, 3, 4, 5, 6].map(
      (day) => new TreePlanner({ ...this.setting, rules: withWeekday(rules, day) }),
    );
    const found = this.byWeekday.flatMap((planner, day) => {
      const best = this.best(planner, task, tryOut);
      return best ? [{ ...best, day }] : [];
    });
    const best = least(found);
    return (
      best &&
      remedy('one more day', best, `With one more allowed day a week, ${weekdayName(best.day)}`)
    );
  }

  /** A crew's day that begins at another hour, where the hours of the rules go on before or after the one there is. */
  private withOtherStart(
    task: TreeTask,
    options: readonly Option[],
    tryOut: Try,
  ): Remedy | undefined {
    const { calendars } = this.planner;
    const devices = new Set(options.flatMap(({ main }) => (main ? [main.device] : [])));
    const starts = [...devices].flatMap(
      (device) => calendars.outsideShift(task.tree, device).starts,
    );
    const near = [...new Set(starts)]
      .sort((a, b) => Math.abs(a - calendars.shift.start) - Math.abs(b - calendars.shift.start))
      .slice(0, MOST_STARTS);
    const found = near.flatMap((start) => {
      const best = this.best(this.startingAt(start), task, tryOut);
      return best ? [{ ...best, start }] : [];
    });
    const best = least(found);
    return (
      best && remedy('another start', best, `With the crew's day starting at ${clock(best.start)}`)
    );
  }

  private startingAt(start: number): TreePlanner {
    const { setting } = this;
    const known = this.byStart.get(start);
    const planner = known ?? new TreePlanner({ ...setting, site: { ...setting.site, crewStart: start / 60 } }); // prettier-ignore
    this.byStart.set(start, planner);
    return planner;
  }

  /** Means the row does not want, or that lack a tap: both can be changed. */
  private withoutRefusal(
    { tree, driveMinutes }: TreeTask,
    refused: readonly Refused[],
    tryOut: Try,
  ): Remedy[] {
    const remedies: Remedy[] = [];
    const ask = (changed: Tree, what: (means: string) => string): void => {
      const kit = new Set(refused.map(({ device }) => device));
      const best = this.best(this.planner, { tree: changed, driveMinutes }, tryOut, (option) =>
        [option.main?.device, option.pad?.device].some((d) => d && kit.has(d)) ? option : undefined,
      );
      if (best)
        remedies.push({
          ...best,
          kind: 'another means',
          sentence: `${what(best.means)} would leave ${left(best)}.`,
        });
    };
    if (tree.meansWanted) {
      const { meansWanted, ...any } = tree;
      const wish = meansWanted.map((family) => FAMILY_WORDS[family]).join(' or ');
      ask(any, (means) => `The row asks for ${wish}; ${means} instead`);
    }
    if (tree.tap === false) ask({ ...tree, tap: true }, (means) => `With a tap in reach, ${means}`);
    return remedies;
  }

  /** A second bag beside the one, or a third beside two: as much as a larger bag of the same water. */
  private withMoreBags(task: TreeTask, tryOut: Try): Remedy | undefined {
    const { tree } = task;
    if ((tree.caliper ?? 0) > LARGEST_BAG_CALIPER) return undefined;
    const volumes = new Map<string, number>();
    const best = this.best(this.planner, task, tryOut, (option) => {
      if (option.main?.device.family !== 'bag') return undefined;
      const joined = option.main.joined + 1;
      const label = `${joined} joined bags${option.label.replace(/^.*?bags?/, '')}`;
      volumes.set(label, (option.main.device.volume ?? 0) * joined);
      return { ...option, label, main: { ...option.main, joined } };
    });
    return (
      best && {
        ...best,
        kind: 'more bags',
        sentence: `${best.means}, or a larger one of ${volumeInBoth(volumes.get(best.means)!)}, would leave ${left(best)}.`,
      }
    );
  }

  /** The option that leaves the least stress, then costs the least. */
  private best(
    planner: TreePlanner,
    task: TreeTask,
    tryOut: Try,
    change: (option: Option) => Option | undefined = (option) => option,
  ): Found | undefined {
    let options: Option[];
    let season: TreeSeason;
    try {
      ({ season, options } = planner.ready(task));
    } catch (error) {
      if (error instanceof Problem) return undefined;
      throw error;
    }
    return least(
      options.flatMap((option) => {
        const changed = change(option);
        if (!changed) return [];
        const { stressDays, cost } = tryOut(season, changed, planner);
        return [{ means: changed.label, stressDays, cost }];
      }),
    );
  }
}

const known = new WeakMap<SeasonSetting, Adviser>();

/** The adviser of a season, made when first asked for. */
export function adviserOf(setting: SeasonSetting): Adviser {
  const adviser = known.get(setting) ?? new Adviser(setting);
  known.set(setting, adviser);
  return adviser;
}

const isUnmeasured = ({ reason }: Refused): boolean =>
  /^(the kit gives no|no measured)/.test(reason);

const least = <T extends Found>(found: readonly T[]): T | undefined =>
  [...found].sort((a, b) => a.stressDays - b.stressDays || a.cost - b.cost)[0];

const left = ({ stressDays }: Found): string =>
  `${stressDays} stress ${stressDays === 1 ? 'day' : 'days'}`;

/** What a change brings: the means that does best then, and how much stress it leaves. */
const remedy = (kind: RemedyKind, found: Found, change: string): Remedy => ({
  kind,
  means: found.means,
  stressDays: found.stressDays,
  cost: found.cost,
  sentence: `${change}, ${found.means} would leave ${left(found)}.`,
});

const freed = (option: Option, free: Free): Option => {
  const days = ({ automatic }: Device): AllowedDays => (automatic ? free.timer : free.crew);
  const { main, pad } = option;
  return {
    ...option,
    ...(main ? { main: { ...main, allowed: days(main.device) } } : {}),
    ...(pad ? { pad: { ...pad, allowed: days(pad.device) } } : {}),
  };
};

/** That the hours of the rules and those of the crew miss each other, in a sentence. */
function outsideWords({ allowed, outside, windows }: OutsideShift, shift: RuleWindow): string {
  const on = outside === allowed ? `all ${allowed}` : `${outside} of ${allowed}`;
  return `On ${on} allowed days the open hours (${windows.slice(0, MOST_HOURS).join('; ')}) lie outside the crew's day (${hoursText([shift])}).`;
}

function inWords(
  now: Now,
  why: readonly string[],
  remedies: readonly Remedy[],
  toMeasure: readonly string[],
): string {
  const lead = `Cannot be met under these rules: ${left(now)}${now.when === undefined ? '' : ` ${now.when}`} with ${now.means}.`;
  const help =
    remedies.length > 0
      ? remedies.map(({ sentence }) => sentence)
      : [
          'Neither more days, nor another means of the kit, nor more bags would help: a means with more water is needed.',
        ];
  return [lead, ...why, ...help, ...toMeasure].join(' ');
}
