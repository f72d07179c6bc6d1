/** A season planned again from a log: what the log tells the planner, and what changed, in numbers and sentences. */
import { isoDate, type Day } from '../engine/dates.js';
import type { SeasonPlan, TreePlan } from '../engine/plan/model.js';
import type { News } from '../engine/plan/replan.js';
import type { Units } from '../engine/units.js';
import { sheetDay, text, type Cell } from '../tables/cells.js';
import type { LogStage, SeasonLog } from '../tables/season-log.js';
import { shown, unitOf } from './quantities.js';

/** What is told beside the log. */
export interface Again {
  log: SeasonLog;
  /** first day that is not past */
  today: Day;
  /** choose the means again for the days ahead */
  chooseAgain?: boolean;
  /** trees on a timer of which the log says nothing had what was planned */
  timersAsPlanned?: boolean;
}

/** The log as the planner takes it; visits ahead are joined. */
export function newsOf({ log, today, chooseAgain, timersAsPlanned }: Again): News {
  return {
    today,
    given: log.given,
    ...(log.rain && { rain: log.rain }),
    bags: log.bags,
    pads: log.pads,
    flows: log.flows,
    ...(log.stages.length > 0 && {
      stages: log.stages.map(({ from, stage }) => ({ from, stage })),
    }),
    ...(chooseAgain && { chooseAgain }),
    ...(timersAsPlanned && { automaticAsPlanned: true }),
    joint: true,
  };
}

/** What the log leaves to be assumed, a sentence each. */
export function silences({ log, today }: Again, { site }: SeasonPlan): string[] {
  if (today === site.seasonFrom) return [];
  const span = `from ${isoDate(site.seasonFrom)} to ${isoDate(today - 1)}`;
  return [
    ...(log.given.length === 0
      ? [`The log holds no watering ${span}: no tree is taken as watered by a crew.`]
      : []),
    ...(log.rain ? [`Rain ${span} is that of the log; days without a row had none.`] : []),
  ];
}

/** Rows whose past the sheet Balance cannot tell: it walks a tree with one means for the whole season. */
export function balanceCaveat(
  before: SeasonPlan,
  after: SeasonPlan,
  { log, today }: Again,
): string[] {
  const weighed = new Set(log.pads.flatMap(({ tree, treeRow }) => [tree, treeRow]));
  const others = after.trees.filter(
    ({ tree, chosen }, k) =>
      chosen.label !== before.trees[k]!.chosen.label ||
      weighed.has(tree.id) ||
      weighed.has(tree.row) ||
      chosen.plan.some((w) => w.day < today && !chosen.devices.includes(w.device)),
  ).length;
  if (others === 0) return [];
  return [
    `${others} ${others === 1 ? 'row was' : 'rows were'} watered in more than one way, or a pad was weighed: Balance walks a tree with its means of today for the whole season, so there its stress days may differ from Trees.`,
  ];
}

/** The Stages table with the log's rows in it: one of the same day takes the place of the old one. */
export function stagesWith(rows: Cell[][], added: readonly LogStage[]): Cell[][] {
  if (added.length === 0) return rows;
  const [header = ['From', 'Stage'], ...old] = rows;
  const at = (name: string): number => header.findIndex((c) => text(c).toLowerCase() === name);
  const days = new Set(added.map(({ from }) => from));
  const kept = old.filter((row) => {
    const day = sheetDay(row[at('from')]);
    return day === undefined || !days.has(day);
  });
  const made = added.map(({ from, written }) =>
    header.map((_, c): Cell =>
      c === at('from') ? isoDate(from) : c === at('stage') ? written : null,
    ),
  );
  const dayOfRow = (row: Cell[]): number => sheetDay(row[at('from')]) ?? 0;
  return [header, ...[...kept, ...made].sort((a, b) => dayOfRow(a) - dayOfRow(b))];
}

/** A season in numbers; litres and stress days count every tree of a row. */
export interface Ahead {
  /** waterings and soakings from today on, one a row and day */
  waterings: number;
  litres: number;
  crewDays: number;
  overloaded: number;
  /** of the whole season */
  stressDays: number;
  cannotBeKept: number;
}

export interface RowChange {
  row: number;
  id: string;
  site: string;
  stressBefore: number;
  stressAfter: number;
  meansBefore: string;
  meansAfter: string;
  /** kept before, not any more */
  lost: boolean;
}

export interface Changes {
  today: Day;
  before: Ahead;
  after: Ahead;
  /** what was really given before today, as the plan holds it */
  past: { waterings: number; litres: number };
  /** rows with more stress days than planned or not kept any more, the worst first */
  worse: RowChange[];
  /** rows with another means */
  otherMeans: number;
}

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);

function sums({ trees }: SeasonPlan, wanted: (day: Day) => boolean) {
  const each = trees.map(({ tree, chosen }) => {
    const those = chosen.plan.filter(({ day }) => wanted(day));
    return { waterings: those.length, litres: sum(those.map((w) => w.litres)) * tree.count };
  });
  return { waterings: sum(each.map((e) => e.waterings)), litres: sum(each.map((e) => e.litres)) };
}

function aheadOf(plan: SeasonPlan, today: Day): Ahead {
  const days = plan.crewDays.filter(({ day }) => day >= today);
  return {
    ...sums(plan, (day) => day >= today),
    crewDays: days.length,
    overloaded: days.filter((d) => d.overload).length,
    stressDays: sum(plan.trees.map((t) => t.chosen.stressDays * t.tree.count)),
    cannotBeKept: plan.trees.filter((t) => t.state === 'cannot be kept').length,
  };
}

/** @param before - the plan the season was begun with, its trees in the same order */
export function changesOf(before: SeasonPlan, after: SeasonPlan, today: Day): Changes {
  const rows = after.trees.map((t, k) => changeOf(before.trees[k]!, t));
  return {
    today,
    before: aheadOf(before, today),
    after: aheadOf(after, today),
    past: sums(after, (day) => day < today),
    worse: rows
      .filter((r) => r.lost || r.stressAfter > r.stressBefore)
      .sort(
        (a, b) =>
          b.stressAfter - b.stressBefore - (a.stressAfter - a.stressBefore) || a.row - b.row,
      ),
    otherMeans: rows.filter((r) => r.meansBefore !== r.meansAfter).length,
  };
}

const changeOf = (was: TreePlan, is: TreePlan): RowChange => ({
  row: is.tree.row,
  id: is.tree.id,
  site: is.tree.site,
  stressBefore: was.chosen.stressDays,
  stressAfter: is.chosen.stressDays,
  meansBefore: was.chosen.label,
  meansAfter: is.chosen.label,
  lost: was.state === 'planned' && is.state !== 'planned',
});

/** Rows listed by name. */
const LISTED = 20;

/** What changed, a line each, for people. */
export function changesInWords(changes: Changes, units: Units): string[] {
  const { today, before, after, past, worse, otherMeans } = changes;
  const gal = unitOf('volume', units);
  const whole = (value: number): string => Math.round(value).toLocaleString('en-US');
  const volume = (litres: number): string => whole(shown('volume', units, litres));
  const line = (what: string, key: keyof Ahead, show = whole): string =>
    `  ${what}: ${show(before[key])} as first planned, now ${show(after[key])}`;
  return [
    `Given before ${isoDate(today)}: ${whole(past.waterings)} waterings, ${volume(past.litres)} ${gal}.`,
    `From ${isoDate(today)} on:`,
    line('waterings', 'waterings'),
    line(`water (${gal})`, 'litres', volume),
    line('crew days', 'crewDays'),
    line('crew days over', 'overloaded'),
    'Whole season:',
    line('stress days, each tree counted', 'stressDays'),
    line('rows that cannot be kept on the days left', 'cannotBeKept'),
    ...(otherMeans > 0 ? [`  rows with another means: ${whole(otherMeans)}`] : []),
    ...(worse.length > 0 ? [`Rows that got worse: ${whole(worse.length)}`] : ['No row got worse.']),
    ...worse
      .slice(0, LISTED)
      .map(
        (r) =>
          `  row ${r.row} (${r.id}, ${r.site}): ${r.stressBefore} stress days as first planned, now ${r.stressAfter}${r.lost ? '; cannot be kept any more' : ''}`,
      ),
    ...(worse.length > LISTED ? [`  … and ${whole(worse.length - LISTED)} more, on Trees`] : []),
  ];
}

/** Sentences a workbook lists one by one; the rest is counted. */
const SAID = 30;

/** The first sentences, and how many more there are. */
export const atMost = (sentences: readonly string[], what: string): string[] =>
  sentences.length <= SAID
    ? [...sentences]
    : [
        ...sentences.slice(0, SAID),
        `… and ${(sentences.length - SAID).toLocaleString('en-US')} more ${what}; the command prints all of them.`,
      ];
