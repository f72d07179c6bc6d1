/** Plans trees one after another into columns: every means simulated, the best one taken. Runs in any thread. */
import { Problem } from '../problems.js';
import type { RuleTable } from '../rules/rule-table.js';
import { Calendars } from './calendars.js';
import { chooseMeans, optionsFor, type Refused } from './choose-means.js';
import { NOT_KEPT, NOT_PLANNED, PLANNED, PlanWriter, type PlanColumns } from './columns.js';
import { weighedCost } from './crew-time.js';
import { EventList } from './events.js';
import { SeasonRun, type OutcomeNumbers } from './kernel.js';
import { conditionsOf, meansNumbers, type Conditions } from './means-numbers.js';
import type { Device, SeasonWeather, Site, Tree } from './model.js';
import type { Option } from './option.js';
import { treeDays, treeSeason, type TreeDays, type TreeSeason } from './tree-season.js';

/** What all trees of a season share; plain data. */
export interface SeasonSetting {
  site: Site;
  weather: SeasonWeather;
  rules: RuleTable;
  kit: Device[];
}

/** A tree with its share of a drive to its site [min a visit]. */
export interface TreeTask {
  tree: Tree;
  driveMinutes: number;
}

/** A tree ready to be simulated. */
export interface ReadyTree {
  season: TreeSeason;
  options: Option[];
  /** how many of them water as late as safe; the rest water ahead of need */
  usual: number;
  refused: Refused[];
}

export class TreePlanner {
  readonly calendars: Calendars;
  readonly conditions: Conditions;
  /** the daily series all trees are written into, and a list of events for each option of a tree */
  private readonly days: TreeDays;
  private readonly lists: EventList[] = [];

  /** @throws Problem if the site's work days cannot be read */
  constructor(readonly setting: SeasonSetting) {
    const length = setting.weather.et0.length;
    this.calendars = new Calendars(setting.rules, setting.site);
    this.conditions = conditionsOf(setting.site, setting.weather);
    this.days = treeDays(length);
  }

  plan(tasks: readonly TreeTask[]): PlanColumns {
    const to = new PlanWriter();
    for (const task of tasks) this.planOne(task, to);
    return to.columns();
  }

  /**
   * Sizes, days and options of a tree. Its daily series hold until the next tree is asked for.
   *
   * @throws Problem with the reason if there is nothing to plan
   */
  ready({ tree, driveMinutes }: TreeTask): ReadyTree {
    const { site, weather, kit } = this.setting;
    const season = treeSeason(tree, site, weather, this.days);
    if (season.first >= season.days)
      throw new Problem('planted after the season ends: nothing to plan this season');
    const caliper = tree.caliper ?? season.facts.ballDiameter / 12;
    const rootArea = (Math.PI / 4) * season.facts.establishedDiameter ** 2;
    if (tree.tap === undefined) season.facts.flags.push('no word on a tap: taken as within reach');
    const { options, usual, refused } = optionsFor(
      tree,
      caliper,
      rootArea,
      kit,
      driveMinutes,
      (device) => this.calendars.allowed(tree, device),
    );
    if (options.length === 0)
      throw new Problem(
        `no device of the kit can serve this tree: ${refused
          .map((r) => `${r.device.name}: ${r.reason}`)
          .join('; ')}`,
      );
    return { season, options, usual, refused };
  }

  private planOne(task: TreeTask, to: PlanWriter): void {
    let ready: ReadyTree;
    try {
      ready = this.ready(task);
    } catch (error) {
      if (!(error instanceof Problem)) throw error;
      to.add(NOT_PLANNED);
      return;
    }
    const { season, options, usual } = ready;
    const { site } = this.setting;
    const { toleratedStress } = site;
    const costOf = (outcome: OutcomeNumbers): number =>
      weighedCost(outcome, options[outcomes.indexOf(outcome)]!, site);
    const outcomes = options.slice(0, usual).map((o, k) => this.run(season, o, this.list(k)));
    let picked = chooseMeans(outcomes, toleratedStress, costOf)!;
    if (!picked.kept) {
      // what does not keep the tree as late as safe may keep it ahead of need
      options.slice(usual).forEach((o, k) => outcomes.push(this.run(season, o, this.list(usual + k)))); // prettier-ignore
      picked = chooseMeans(outcomes, toleratedStress, costOf)!;
    }
    const which = outcomes.indexOf(picked.chosen);
    to.add(picked.kept ? PLANNED : NOT_KEPT, outcomes, which, this.lists[which]);
  }

  private run(season: TreeSeason, option: Option, events?: EventList): OutcomeNumbers {
    const means = meansNumbers(option, this.setting.site, season);
    return new SeasonRun(season, means, this.conditions, events).finish();
  }

  /** The list of an option, emptied. */
  private list(option: number): EventList {
    const list = (this.lists[option] ??= new EventList(this.days.p.length));
    list.length = 0;
    return list;
  }
}
