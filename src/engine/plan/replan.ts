/**
 * The rest of the season planned again from today: the days behind are what was really given, the days ahead are decided
 * by the same engine, from the stores the real past has left.
 */
import { isoDate, type Day } from '../dates.js';
import { Problem } from '../problems.js';
import type { RuleTable } from '../rules/rule-table.js';
import { dailyEffectiveRain } from '../weather/rainfall.js';
import { adviserOf, type Now, type Try } from './advice.js';
import { assemblePlan } from './assemble.js';
import { chooseMeans } from './choose-means.js';
import { weighedCost } from './crew-time.js';
import { joinSites, type SiteVisits } from './joint-visits.js';
import type { Device, SeasonPlan, SeasonWeather, TreePlan } from './model.js';
import { devicesOf, kitCost, type Option } from './option.js';
import {
  optionNamed,
  outcomeAlong,
  ownSeason,
  plannerOf,
  runOf,
  walkAlone,
  withChosen,
  type OnDay,
  type Path,
} from './path.js';
import { walkOwing, type Owed } from './owed-visits.js';
import type { ReadyTree, TreePlanner, TreeTask } from './plan-trees.js';
import {
  matchRain,
  matchRows,
  type BagTiming,
  type FlowReading,
  type GivenRow,
  type PadReading,
  type RainRow,
  type TreeNews,
} from './replan-rows.js';
import type { SeasonInput } from './season.js';
import type { Replay } from './kernel.js';
import { asMeasured, livePast, withWeekUsed, type Lived } from './tree-past.js';
import { lazyObject } from './views.js';
import { EventList } from './events.js';

/** What happened since the season was planned. */
export interface News {
  /** first day that is not past */
  today: Day;
  /** every watering really done; days before today without one were dry */
  given: readonly GivenRow[];
  /** rain measured; days before today without a row were dry. Left out: the rain expected fell */
  rain?: readonly RainRow[];
  bags?: readonly BagTiming[];
  pads?: readonly PadReading[];
  flows?: readonly FlowReading[];
  /** new rows of the Stages table; one of the same day replaces the old one */
  stages?: RuleTable['stages'];
  /** rules, and weather of the whole season, that replace the old ones */
  rules?: RuleTable;
  weather?: SeasonWeather;
  /** choose the means again for the days ahead; left out: each tree keeps what it has */
  chooseAgain?: boolean;
  /** trees watered by a timer, without any row in `given`, had what was planned */
  automaticAsPlanned?: boolean;
  /** join the visits of each site on the days ahead */
  joint?: boolean;
  onDay?: OnDay;
}

export interface Replanned {
  plan: SeasonPlan;
  /** joint visits, where they were asked for */
  sites: SiteVisits[];
  /** rows that were not used, a sentence each */
  problems: string[];
  /** what readings mean and what was assumed, a sentence each */
  notes: string[];
  /** the plan again with visits owed to some trees, by index of the plan's trees, kept on the days ahead */
  withVisits: (owed: ReadonlyMap<number, readonly Owed[]>) => SeasonPlan;
}

/**
 * Plans the rest of the season again. Deterministic.
 *
 * A tree is "planned" when the days ahead bring no more stress than is tolerated after the past; its outcome counts the
 * whole season. Where means are kept, the kept one is the only option shown.
 *
 * @param input - the one the plan was made from
 * @throws Problem if today is not a day of the season, or as `planSeason`
 */
export function replan(input: SeasonInput, plan: SeasonPlan, news: News): Replanned {
  const { seasonFrom, seasonTo } = input.site;
  if (!Number.isInteger(news.today) || news.today < seasonFrom || news.today > seasonTo)
    throw new Problem(
      `today is not a day of the season, ${isoDate(seasonFrom)} to ${isoDate(seasonTo)}`,
    );
  return new Replanning(input, plan, news).result();
}

/** One tree as it stands today. */
interface TreeToday {
  task: TreeTask;
  ready: ReadyTree;
  lived: Lived;
  /** what the tree had */
  had: Option;
  news: TreeNews;
}

class Replanning {
  private readonly today: number;
  private readonly planner: TreePlanner;
  private readonly taskOf: ReturnType<typeof plannerOf>['taskOf'];
  private readonly input: SeasonInput;
  private readonly news: TreeNews[];
  private readonly problems: string[] = [];
  private readonly notes: string[] = [];

  constructor(
    private readonly before: SeasonInput,
    private readonly plan: SeasonPlan,
    private readonly told: News,
  ) {
    this.today = told.today - before.site.seasonFrom;
    const matched = matchRows(plan, before.kit, told, this.today);
    this.news = matched.trees;
    this.problems.push(...matched.problems);
    this.notes.push(...matched.notes);
    const kit = before.kit.map((d): Device => ({ ...d, ...matched.measured.get(d.name) }));
    this.input = { ...before, kit, weather: this.weather(), rules: this.rules() };
    ({ planner: this.planner, taskOf: this.taskOf } = plannerOf(this.input));
    this.timers();
  }

  result(): Replanned {
    const label: string[] = [];
    const trees = this.plan.trees.map((old, t) => {
      const again = this.replanTree(old, t);
      label.push(again.chosen.label);
      return again;
    });
    const { problems, notes, plan, planner } = this;
    const done = (now: TreePlan[], sites: SiteVisits[]): Replanned => ({
      plan: assemblePlan(this.input, now, plan.notPlanned),
      sites,
      problems,
      notes,
      withVisits: (owed) => this.withVisits(now, owed),
    });
    if (!this.told.joint) return done(trees, []);
    const at = new Map(trees.map((tree, t) => [tree, t]));
    const joint = joinSites(planner, trees, (those) =>
      those.map((tree) => {
        const t = at.get(tree)!;
        const stands = this.stand(plan.trees[t]!, t);
        return this.ahead(stands, optionNamed(stands.ready, label[t]!)!);
      }),
    );
    return done(joint.trees, joint.sites);
  }

  /** Trees that are owed visits walk their days ahead again, by the means they have now, where that gives them more. */
  private withVisits(now: TreePlan[], owed: ReadonlyMap<number, readonly Owed[]>): SeasonPlan {
    const trees = now.map((tree, t) => {
      const visits = owed.get(t) ?? [];
      if (visits.length === 0) return tree;
      const old = this.plan.trees[t]!;
      const stands = this.stand(old, t);
      const path = this.ahead(stands, optionNamed(stands.ready, tree.chosen.label)!);
      if (!path.option.main) return tree;
      const walked = walkOwing(path, this.planner, visits);
      if (walked.outcome.waterings <= tree.chosen.waterings) return tree;
      const { stressDays, cost } = walked.outcome;
      const behind = stands.lived.past.sums.stressDays;
      const tolerated = Math.max(0, this.before.site.toleratedStress - behind);
      const kept = stressDays - behind <= tolerated;
      const left: Now = { means: tree.chosen.label, stressDays: stressDays - behind, cost, when: 'from today on' }; // prettier-ignore
      const chosen = outcomeAlong(walked, this.planner);
      const advice = (): string => (kept ? '' : this.advise(old, t, left));
      return withChosen(tree, chosen, kept ? 'planned' : 'cannot be kept', advice);
    });
    return assemblePlan(this.input, trees, this.plan.notPlanned);
  }

  private weather(): SeasonWeather {
    const weather = this.told.weather ?? this.before.weather;
    const { rain: rows } = this.told;
    if (!rows) {
      if (this.today > 0)
        this.notes.push('No rain was given: the expected rain is taken as fallen.');
      return weather;
    }
    const { rain: fell, problems } = matchRain(this.plan, rows, this.today);
    this.problems.push(...problems);
    const rain = weather.rain.slice();
    const effectiveRain = weather.effectiveRain.slice();
    for (let i = 0; i < this.today; i++) {
      rain[i] = fell.get(i) ?? 0;
      effectiveRain[i] = dailyEffectiveRain(rain[i]!);
    }
    return { ...weather, rain, effectiveRain };
  }

  private rules(): RuleTable {
    const rules = this.told.rules ?? this.before.rules;
    const { stages } = this.told;
    if (!stages) return rules;
    const known = new Set(rules.rows.map((row) => row.stage));
    for (const { from, stage } of stages)
      if (!known.has(stage))
        this.notes.push(`Stage ${stage} from ${isoDate(from)}: no row of the rules names it, so only rows for any stage hold.`); // prettier-ignore
    const merged = new Map([...rules.stages, ...stages].map((row) => [row.from, row]));
    return { ...rules, stages: [...merged.values()].sort((a, b) => a.from - b.from) };
  }

  /** Trees on a timer that nobody wrote a watering down for. */
  private timers(): void {
    const { kit } = this.before;
    let silent = 0;
    this.plan.trees.forEach(({ chosen }, t) => {
      const device = kit.find((d) => d.name === chosen.devices[0]);
      const news = this.news[t]!;
      if (!device?.automatic || news.given.size > 0) return;
      silent++;
      if (!this.told.automaticAsPlanned) return;
      for (const { day, litres } of chosen.plan)
        if (day < this.told.today)
          news.given.set(day - this.before.site.seasonFrom, { litres, device });
    });
    if (silent === 0 || this.today === 0) return;
    const rows = `${silent} ${silent === 1 ? 'row' : 'rows'} on a timer ${silent === 1 ? 'has' : 'have'} no watering written down`;
    this.notes.push(
      this.told.automaticAsPlanned
        ? `${rows}: what was planned is taken as given.`
        : `${rows}: taken as not watered.`,
    );
  }

  /** The tree as it stands this morning. */
  private stand(old: TreePlan, t: number, onDay?: OnDay): TreeToday {
    const task = this.taskOf(old.tree);
    const news = this.news[t]!;
    const found = this.planner.ready(task);
    const ready = { ...found, season: ownSeason(found.season) };
    const had = optionNamed(ready, old.chosen.label);
    if (!had)
      throw new Problem(
        `row ${old.tree.row}: ${old.chosen.label} is no means of this kit; give the kit the season was planned with`,
      );
    const asItWas = asMeasured(had, new Map(this.before.kit.map((d) => [d.name, d])));
    const { planner, today } = this;
    const lived = livePast(planner, task, ready.season, asItWas, news, today, onDay);
    return { task, ready, lived, had, news };
  }

  /** The days ahead with an option. Another means costs its own kit beside the one that is there already. */
  private ahead({ task, ready, lived, had, news }: TreeToday, option: Option): Path {
    const measured = asMeasured(option, news.measured);
    const { weekOf } = this.planner.conditions;
    const left = withWeekUsed(measured, lived.usedInWeek, this.today, weekOf);
    const { past, replay } = lived;
    return {
      task,
      season: ready.season,
      option: left,
      replay: startFor(left, had, replay),
      past,
      sunk: kitCost(without(had, option), this.planner.setting.site),
    };
  }

  private replanTree(old: TreePlan, t: number): TreePlan {
    const stands = this.stand(old, t, this.told.onDay);
    const options = this.told.chooseAgain ? stands.ready.options : [stands.had];
    const walked = options.map((option) => walkAlone(this.ahead(stands, option), this.planner));
    const { stressDays: behind } = stands.lived.past.sums;
    const { toleratedStress } = this.before.site;
    const tolerated = Math.max(0, toleratedStress - behind);
    const choices = walked.map(({ outcome }) => ({ ...outcome, stressDays: outcome.stressDays - behind })); // prettier-ignore
    const best = chooseMeans(choices, tolerated, (choice) => {
      const { path } = walked[choices.indexOf(choice)]!;
      return weighedCost(choice, path.option, this.before.site, path.sunk);
    })!;
    const which = choices.indexOf(best.chosen);
    if (this.told.onDay) walkAlone(walked[which]!.path, this.planner, this.told.onDay);
    const outcomes = walked.map((w) => outcomeAlong(w, this.planner));
    const { facts } = stands.ready.season;
    const { label } = outcomes[which]!;
    const { stressDays, cost } = best.chosen;
    const left: Now = { means: label, stressDays, cost, when: 'from today on' };
    const lazy = lazyObject<Pick<TreePlan, 'advice'>>({
      advice: () => (best.kept ? '' : this.advise(old, t, left)),
    }) as TreePlan;
    return Object.assign(lazy, {
      tree: old.tree,
      facts,
      options: outcomes,
      chosen: outcomes[which]!,
      state: best.kept ? ('planned' as const) : ('cannot be kept' as const),
    });
  }

  private advise(old: TreePlan, t: number, left: Now): string {
    const stands = this.stand(old, t);
    const behind = stands.lived.past.sums.stressDays;
    const fromToday: Try = (_, option, planner) => {
      const path = this.ahead(stands, option);
      const outcome = runOf(path, planner, new EventList(32)).finish();
      return { ...outcome, stressDays: outcome.stressDays - behind };
    };
    return adviserOf(this.planner.setting).advise(stands.task, left, fromToday).text;
  }
}

/** Stores for an option: a pad laid today is full, a pad taken away takes its water with it. */
function startFor(option: Option, had: Option, replay: Replay): Replay {
  const { start } = replay;
  if (!start) return replay;
  const { pad } = option;
  const level = !pad
    ? 0
    : pad.device.name === had.pad?.device.name
      ? start.pad
      : (pad.device.volume ?? 0);
  return { ...replay, start: { ...start, pad: level } };
}

/** What of an option's kit another one does not use. */
function without(option: Option, other: Option): Option {
  const used = new Set(devicesOf(other).map((d) => d.name));
  const { main, pad } = option;
  return {
    label: option.label,
    driveMinutes: option.driveMinutes,
    ...(main && !used.has(main.device.name) ? { main } : {}),
    ...(pad && !used.has(pad.device.name) ? { pad } : {}),
  };
}
