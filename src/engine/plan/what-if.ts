/** What-if answers: the season planned again with one thing changed, beside the season as it is. */
import { within } from '../checks.js';
import { Problem } from '../problems.js';
import type { RuleTable } from '../rules/rule-table.js';
import { FAMILY_WORDS } from './choose-means.js';
import type { Family, SeasonPlan, SeasonWeather, Tree } from './model.js';
import { withAnyDay, withWeekday, weekdayName } from './more-days.js';
import { TreePlanner } from './plan-trees.js';
import { planSeason, type SeasonInput } from './season.js';

/**
 * Part of a tree's demand that evaporates from the soil and that mulch can hold back [-]. Assumption: a canopy shades
 * most of its root zone and only rain and watering wet the surface.
 */
export const EVAPORATION_SHARE = 0.1;
/** Part of that evaporation held back where mulch covers all of the soil [-]: 5 % for each 10 % covered, FAO-56 ch. 10. */
export const HELD_BACK_BY_MULCH = 0.5;

export type WhatIf =
  /** one more allowed day a week: a weekday (0 Sunday … 6 Saturday), the one that helps most, or every day */
  | { kind: 'more days'; weekday: number | 'best' | 'any' }
  /** other means: of all trees, or of the row with this number */
  | { kind: 'means'; families: Family[]; row?: number }
  /** organic mulch on trees that have none: share of the soil covered [-], 0…1 */
  | { kind: 'mulch'; cover: number; evaporationShare?: number }
  /** reference ET times a share [-], above 0 to 3 */
  | { kind: 'ET0'; share: number }
  /** rain times a share [-], 0…3 */
  | { kind: 'rain'; share: number }
  /** crews on a day, hours a crew works [h] */
  | { kind: 'crew'; crews?: number; hours?: number }
  /** another rules table, e.g. the next stage */
  | { kind: 'rules'; name: string; rules: RuleTable };

/** A season in numbers, like trees counted. */
export interface WhatIfRow {
  name: string;
  treesKept: number;
  treesNotKept: number;
  treesNotPlanned: number;
  stressDays: number;
  litres: number;
  waterings: number;
  cost: number;
  /** crew days with more hours than a crew has */
  crewDaysOver: number;
  /** what the change does not do, "" if nothing is to be said */
  note: string;
}

/** A season's input with one thing changed. */
interface Changed {
  name: string;
  input: SeasonInput;
  note: string;
}

/**
 * The season as it is, then one row for each change, each by itself. Deterministic.
 *
 * @throws Problem if a change is out of range or names a row there is not, or as `planSeason`
 */
export const whatIf = (season: SeasonInput, changes: readonly WhatIf[]): WhatIfRow[] => [
  oneWhatIf(season),
  ...changes.map((change) => oneWhatIf(season, change)),
];

/**
 * One row of `whatIf`, for whoever wants to stop between two of them; without a change the season as it is.
 *
 * @throws Problem as `whatIf`
 */
export function oneWhatIf(season: SeasonInput, change?: WhatIf): WhatIfRow {
  const input = { ...season };
  delete input.onDay;
  delete input.onProgress;
  return change ? answer(input, change) : numbersOf({ name: 'as it is', input, note: '' });
}

function answer(input: SeasonInput, change: WhatIf): WhatIfRow {
  if (change.kind !== 'more days' || change.weekday !== 'best')
    return numbersOf(changed(input, change));
  const rows = [0, 1, 2, 3, 4, 5, 6].map((weekday) =>
    numbersOf(changed(input, { kind: 'more days', weekday })),
  );
  const best = [...rows].sort(byHelp)[0]!;
  const now = numbersOf({ name: '', input, note: '' });
  const helps = best.treesNotKept < now.treesNotKept || best.stressDays < now.stressDays;
  const which = helps ? 'the day that helps most' : 'no day helps the trees; this one costs least';
  return { ...best, name: `${best.name} (${which})` };
}

/** Fewest trees not kept, then fewest stress days, then least cost. */
const byHelp = (a: WhatIfRow, b: WhatIfRow): number =>
  a.treesNotKept - b.treesNotKept || a.stressDays - b.stressDays || a.cost - b.cost;

function numbersOf({ name, input, note }: Changed): WhatIfRow {
  const plan = planSeason(input);
  const sum = (value: (tree: SeasonPlan['trees'][number]) => number): number =>
    plan.trees.reduce((total, tree) => total + value(tree) * tree.tree.count, 0);
  const lost = new Set(plan.notPlanned.map(({ row }) => row));
  const unplanned = input.trees.filter(({ row }) => lost.has(row));
  const unread = plan.notPlanned.length - unplanned.length;
  return {
    name,
    treesKept: sum(({ state }) => (state === 'planned' ? 1 : 0)),
    treesNotKept: sum(({ state }) => (state === 'planned' ? 0 : 1)),
    treesNotPlanned: unplanned.reduce((total, { count }) => total + count, 0) + unread,
    stressDays: sum(({ chosen }) => chosen.stressDays),
    litres: sum(({ chosen }) => chosen.litres),
    waterings: sum(({ chosen }) => chosen.waterings),
    cost: sum(({ chosen }) => chosen.cost),
    crewDaysOver: plan.crewDays.filter(({ overload }) => overload).length,
    note,
  };
}

function changed(input: SeasonInput, change: WhatIf): Changed {
  switch (change.kind) {
    case 'more days':
      return moreDays(input, change.weekday);
    case 'means':
      return otherMeans(input, change.families, change.row);
    case 'mulch':
      return mulched(input, change.cover, change.evaporationShare);
    case 'ET0':
      return otherWeather(input, change.share, 'ET0');
    case 'rain':
      return otherWeather(input, change.share, 'rain');
    case 'crew':
      return otherCrew(input, change.crews, change.hours);
    case 'rules':
      return { name: change.name, input: { ...input, rules: change.rules }, note: '' };
  }
}

function moreDays(input: SeasonInput, weekday: number | 'best' | 'any'): Changed {
  const note = 'Bans, hours and the days the crew works stay as they are.';
  if (typeof weekday !== 'number')
    return { name: 'every day allowed', input: { ...input, rules: withAnyDay(input.rules) }, note };
  if (!Number.isInteger(weekday) || weekday < 0 || weekday > 6)
    throw new Problem(`the weekday is ${weekday}; a whole number from 0 (Sunday) to 6 is accepted`);
  return {
    name: `one more allowed day a week: ${weekdayName(weekday)}`,
    input: { ...input, rules: withWeekday(input.rules, weekday) },
    note,
  };
}

/** Trees no device of these families can serve keep what they have. */
function otherMeans(input: SeasonInput, families: readonly Family[], row?: number): Changed {
  const [first, ...more] = families;
  if (!first) throw new Problem('no means is named; name at least one family');
  if (row !== undefined && !input.trees.some((tree) => tree.row === row))
    throw new Problem(`there is no tree in row ${row}`);
  const planner = new TreePlanner(input);
  let asTheyAre = 0;
  const trees = input.trees.map((tree): Tree => {
    if (row !== undefined && tree.row !== row) return tree;
    const wanting: Tree = { ...tree, meansWanted: [first, ...more] };
    if (canBePlanned(planner, wanting)) return wanting;
    asTheyAre += tree.count;
    return tree;
  });
  const words = families.map((family) => FAMILY_WORDS[family]).join(' or ');
  const whose = row === undefined ? 'all trees' : `the tree in row ${row}`;
  return {
    name: `${words} for ${whose}`,
    input: { ...input, trees },
    note:
      asTheyAre > 0
        ? `${asTheyAre} ${asTheyAre === 1 ? 'tree' : 'trees'} cannot have it and ${asTheyAre === 1 ? 'stays' : 'stay'} as planned.`
        : '',
  };
}

function canBePlanned(planner: TreePlanner, tree: Tree): boolean {
  try {
    planner.ready({ tree, driveMinutes: 0 });
    return true;
  } catch (error) {
    if (error instanceof Problem) return false;
    throw error;
  }
}

/**
 * Organic mulch: soil evaporation falls by 5 % for each 10 % of soil covered, transpiration stays. With E the share of
 * a tree's demand that is soil evaporation, PF becomes PF·(1 − E·0.5·cover).
 * Source: FAO-56 ch. 10, mulches (p. 197); E is an assumption, for PF holds both in one number.
 */
function mulched(input: SeasonInput, cover: number, evaporationShare = EVAPORATION_SHARE): Changed {
  within('share of the soil covered', cover, 0, 1);
  within('share of the demand that evaporates from the soil', evaporationShare, 0, 1);
  const rest = 1 - evaporationShare * HELD_BACK_BY_MULCH * cover;
  const trees = input.trees.map((tree): Tree => {
    if ((tree.mulchDepth ?? 0) > 0) return tree;
    return { ...tree, plantFactor: (tree.plantFactor ?? input.site.plantFactor) * rest };
  });
  return {
    name: `mulch on ${percent(cover)} of the soil`,
    input: { ...input, trees },
    note: `Demand falls by ${percent(1 - rest)}, as ${percent(evaporationShare)} of it is taken as soil evaporation, an assumption; the mulch itself is not priced here.`,
  };
}

/** Shares as whole or half percent. */
const percent = (share: number): string => `${Number((share * 100).toFixed(1))} %`;

function otherWeather(input: SeasonInput, share: number, what: 'ET0' | 'rain'): Changed {
  within(`share of ${what}`, share, 0, 3);
  if (what === 'ET0' && share === 0) throw new Problem('the share of ET0 must be above 0');
  const { weather } = input;
  const times = (values: Float64Array): Float64Array => values.map((value) => value * share);
  const other: SeasonWeather =
    what === 'ET0'
      ? { ...weather, et0: times(weather.et0), peakEt0: weather.peakEt0 * share }
      : { ...weather, rain: times(weather.rain), effectiveRain: times(weather.effectiveRain) };
  return {
    name: `${what} × ${share}`,
    input: { ...input, weather: other },
    note: what === 'ET0' ? 'The rain that counts stays as it is.' : '',
  };
}

function otherCrew(input: SeasonInput, crews?: number, hours?: number): Changed {
  if (crews === undefined && hours === undefined)
    throw new Problem('neither crews nor hours are given; give at least one');
  if (crews !== undefined && !(Number.isInteger(crews) && crews >= 1))
    throw new Problem(`crews is ${crews}; a whole number from 1 is accepted`);
  if (hours !== undefined) within('hours of a crew', hours, 0.5, 24, 'h');
  const parts = [
    ...(crews === undefined ? [] : [`${crews} ${crews === 1 ? 'crew' : 'crews'}`]),
    ...(hours === undefined ? [] : [`${hours} h a day`]),
  ];
  const site = {
    ...input.site,
    ...(crews === undefined ? {} : { crews }),
    ...(hours === undefined ? {} : { crewHours: hours }),
  };
  return {
    name: parts.join(', '),
    input: { ...input, site },
    note:
      hours === undefined
        ? 'The trees are planned as before; only full crew days change.'
        : 'Besides full crew days, the hours of a crew change how much of the open hours it can use.',
  };
}
