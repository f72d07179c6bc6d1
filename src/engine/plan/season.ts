/** The season plan: every tree simulated with every feasible means under the rules, the best one taken. */
import { weekday } from '../dates.js';
import { Problem } from '../problems.js';
import { ruleCalendar, calendarKey } from '../rules/rule-calendar.js';
import { parseDays } from '../rules/rule-parse.js';
import type { RuleTable } from '../rules/rule-table.js';
import { chooseMeans, FAMILY_WORDS, optionsFor } from './choose-means.js';
import { crewDays } from './crew-days.js';
import type {
  Device,
  Family,
  MeansOutcome,
  SeasonPlan,
  SeasonWeather,
  Site,
  Tree,
  TreePlan,
} from './model.js';
import type { AllowedDays, Option } from './option.js';
import { simulate, type DayRow } from './simulate.js';
import { treeSeason, type TreeSeason } from './tree-season.js';

export interface SeasonInput {
  trees: Tree[];
  /** rows that could not be read as trees; passed through so that counts agree */
  notPlanned?: { row: number; id: string; reason: string }[];
  site: Site;
  weather: SeasonWeather;
  rules: RuleTable;
  kit: Device[];
  onProgress?: (done: number, total: number) => void;
  /** every day of the chosen means; of like trees, which are planned once, the first one's */
  onDay?: (tree: Tree, day: DayRow) => void;
}

/** Trees between two progress reports. */
const PROGRESS_STEP = 250;

/**
 * Plans a season. Deterministic: the same input gives the same plan. Like trees are simulated once.
 *
 * @throws Problem if there is no kit or the weather does not cover the season
 */
export function planSeason(input: SeasonInput): SeasonPlan {
  const { site, weather, kit, rules } = input;
  if (kit.length === 0)
    throw new Problem('the kit is empty: list at least one device to water with');
  const days = site.seasonTo - site.seasonFrom + 1;
  if (weather.from !== site.seasonFrom || weather.et0.length !== days)
    throw new Problem(`the weather covers ${weather.et0.length} days, the season has ${days}`);
  const calendars = new Calendars(rules, site);
  const like = new Map<string, Planned | { reason: string }>();
  const trees: TreePlan[] = [];
  const drives = driveShares(input.trees, site);
  const notPlanned = [...(input.notPlanned ?? [])];
  input.trees.forEach((tree, i) => {
    const drive = drives.get(tree.site)!;
    const key = likeness(tree, kit, calendars, drive);
    let planned = like.get(key);
    if (!planned) like.set(key, (planned = planTree(tree, input, calendars, drive)));
    if ('reason' in planned)
      notPlanned.push({ row: tree.row, id: tree.id, reason: planned.reason });
    else trees.push({ tree, ...planned });
    if ((i + 1) % PROGRESS_STEP === 0) input.onProgress?.(i + 1, input.trees.length);
  });
  input.onProgress?.(input.trees.length, input.trees.length);
  const crew = crewDays(trees, site, kit);
  return {
    site,
    weather,
    trees,
    notPlanned,
    crewDays: crew,
    problems: problemsOf(trees, crew, site),
  };
}

type Planned = Omit<TreePlan, 'tree'>;

function planTree(
  tree: Tree,
  input: SeasonInput,
  calendars: Calendars,
  driveMinutes: number,
): Planned | { reason: string } {
  const { site, weather, kit } = input;
  let season: TreeSeason;
  try {
    season = treeSeason(tree, site, weather);
  } catch (error) {
    if (error instanceof Problem) return { reason: error.message };
    throw error;
  }
  if (season.first >= season.days)
    return { reason: 'planted after the season ends: nothing to plan this season' };
  const caliper = tree.caliper ?? season.facts.ballDiameter / 12;
  const rootArea = (Math.PI / 4) * season.facts.establishedDiameter ** 2;
  const { options, refused } = optionsFor(tree, caliper, rootArea, kit, driveMinutes, (d) =>
    calendars.allowed(tree, d),
  );
  if (tree.tap === undefined) season.facts.flags.push('no word on a tap: taken as within reach');
  const outcomes = options.map((option) => simulate(season, option, site, weather));
  const picked = chooseMeans(outcomes, site.toleratedStress);
  if (!picked)
    return {
      reason: `no device of the kit can serve this tree: ${refused
        .map((r) => `${r.device.name}: ${r.reason}`)
        .join('; ')}`,
    };
  const option = options[outcomes.indexOf(picked.chosen)];
  const { onDay } = input;
  if (onDay && option)
    simulate(season, option, site, weather, (day) => {
      onDay(tree, day);
    });
  const outcomesAll: MeansOutcome[] = [
    // single waterings are kept for the chosen means only: a season of all of them fills the memory
    ...outcomes.map((o) => (o === picked.chosen ? o : { ...o, plan: [] })),
    ...refused.map((r) => notFeasible(r.device, r.reason)),
  ];
  return {
    facts: season.facts,
    options: outcomesAll,
    chosen: picked.chosen,
    state: picked.kept ? 'planned' : 'cannot be kept',
    advice: picked.kept ? '' : whatWouldHelp(season, options, picked.chosen, site, weather),
  };
}

const notFeasible = (device: Device, reason: string): MeansOutcome => ({
  label: FAMILY_WORDS[device.family],
  families: [device.family],
  devices: [device.name],
  feasible: false,
  verdict: `not possible: ${reason}`,
  waterings: 0,
  litres: 0,
  visits: 0,
  stressDays: 0,
  leastKs: 1,
  cost: 0,
  plan: [],
});

/** Simulates the same means as if any day were allowed, and says what that would change. */
function whatWouldHelp(
  season: TreeSeason,
  options: Option[],
  chosen: MeansOutcome,
  site: Site,
  weather: SeasonWeather,
): string {
  const freed = options.map((option) =>
    simulate(season, unrestricted(option, season.days), site, weather),
  );
  const best = freed.reduce((a, b) => (b.stressDays < a.stressDays ? b : a));
  const now = `${chosen.stressDays} stress days with ${chosen.label}`;
  if (best.stressDays < chosen.stressDays)
    return `Cannot be met under these rules: ${now}. With any day allowed, ${best.label} would leave ${best.stressDays}: ask for a variance, more days, or water from an exempt source.`;
  return `Cannot be met: ${now}, and more days would not help. Another means with more water is needed.`;
}

function unrestricted(option: Option, days: number): Option {
  const any = anyDay(days);
  return {
    ...option,
    ...(option.main ? { main: { ...option.main, allowed: any } } : {}),
    ...(option.pad ? { pad: { ...option.pad, allowed: any } } : {}),
  };
}

const anyDay = (days: number): AllowedDays => ({
  open: new Uint8Array(days).fill(1),
  hours: () => 'any',
  minutes: () => 1440,
  perWeek: () => Infinity,
});

/** Open days by tree and family, shared by trees the rules do not tell apart. */
class Calendars {
  private readonly adapted = new Map<string, AllowedDays>();
  /** bit mask, bit 0 Sunday */
  private readonly workDays: number;

  constructor(
    private readonly rules: RuleTable,
    private readonly site: Site,
  ) {
    this.workDays = workDayMask(site.workDays);
  }

  private query(tree: Tree, family: Family) {
    const trucked = family === 'tanker' || (family === 'bag' && tree.tap === false);
    return {
      family,
      address: tree.address,
      source: trucked ? 'tanker' : (tree.source ?? 'mains'),
      target: 'tree' as const,
      planted: tree.planted,
    };
  }

  key(tree: Tree, family: Family): string {
    return calendarKey(this.rules, this.query(tree, family), this.site.seasonFrom);
  }

  allowed(tree: Tree, device: Device): AllowedDays {
    const { family, automatic } = device;
    const key = `${automatic}|${this.key(tree, family)}`;
    const known = this.adapted.get(key);
    if (known) return known;
    const { seasonFrom, seasonTo } = this.site;
    const calendar = ruleCalendar(this.rules, this.query(tree, family), seasonFrom, seasonTo);
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

/** A visit drives once for all trees of its site: minutes of that drive each tree bears [min]. */
function driveShares(trees: Tree[], site: Site): Map<string, number> {
  const standing = new Map<string, number>();
  for (const tree of trees) standing.set(tree.site, (standing.get(tree.site) ?? 0) + tree.count);
  return new Map([...standing].map(([name, count]) => [name, site.driveMinutes / count]));
}

/** Trees with the same likeness have the same plan: everything about them that the planner reads. */
function likeness(tree: Tree, kit: Device[], calendars: Calendars, driveMinutes: number): string {
  const families = [...new Set(kit.map((d) => d.family))];
  return JSON.stringify([
    tree.caliper,
    tree.container,
    tree.ballDiameter,
    tree.ballDepth,
    tree.planted,
    tree.canopy,
    tree.plantFactor,
    tree.texture,
    tree.tap,
    tree.meansWanted,
    driveMinutes,
    families.map((f) => calendars.key(tree, f)),
  ]);
}

function problemsOf(trees: TreePlan[], crew: SeasonPlan['crewDays'], site: Site): string[] {
  const problems: string[] = [];
  const lost = trees.filter((t) => t.state === 'cannot be kept');
  if (lost.length > 0)
    problems.push(
      `${lost.length} ${lost.length === 1 ? 'row' : 'rows'} cannot be kept without stress under these rules; see the advice on each.`,
    );
  const over = crew.filter((d) => d.overload);
  if (over.length > 0)
    problems.push(
      `${over.length} crew days need more than ${site.crewHours} hours; the longest needs ${Math.max(...over.map((d) => d.hours)).toFixed(1)}.`,
    );
  return problems;
}
