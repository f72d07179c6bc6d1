/** The ranges of a season, read once for all functions that plan, and the rules tables for those that ask them. */
import type { TreePlan } from '../engine/plan/model.js';
import { planTrees, type SeasonInput } from '../engine/plan/tree-plans.js';
import { Problem } from '../engine/problems.js';
import { readRules, type RuleTable } from '../engine/rules/rule-table.js';
import { readKit } from '../tables/kit.js';
import { readSite } from '../tables/site.js';
import { readTrees, type TreesReading } from '../tables/trees-sheet.js';
import { readWeather } from '../tables/weather.js';
import { optionalTable, table } from './arguments.js';

/** Ranges as they arrive, in the order every plan function takes them: site, weather, rules, kit, stages. */
export type SeasonRanges = readonly [
  site: unknown,
  weather: unknown,
  rules: unknown,
  kit: unknown,
  stages?: unknown,
];

/**
 * Rules and Stages tables.
 *
 * @throws Problem naming the table and its row, if a row cannot be used
 */
export function rulesOf(rules: unknown, stages: unknown): RuleTable {
  const law = readRules(table('rules', rules), optionalTable('stages', stages));
  const broken = law.problems.find((problem) => problem.kind === 'broken');
  if (broken) throw new Problem(`${broken.table.toLowerCase()}: ${broken.sentence}`);
  return law;
}

/**
 * Inventory and season as the planner takes them.
 *
 * @param name - what the function calls its inventory
 * @throws Problem naming the range, its row and what is accepted, if something in it cannot be used
 */
export function readSeason(
  name: 'tree' | 'trees',
  inventory: unknown,
  [site, weather, rules, kit, stages]: SeasonRanges,
): { reading: TreesReading; input: SeasonInput } {
  const cells = table(name, inventory);
  const place = usable('site', readSite(table('site', site)));
  const season = usable('weather', readWeather(table('weather', weather), place.site));
  const law = rulesOf(rules, stages);
  const reading = readTrees(cells);
  const [trouble] = reading.problems;
  if (trouble !== undefined) throw new Problem(`${name}: ${trouble}`);
  if (reading.rows.length === 0) throw new Problem(`${name} has no row below its header`);
  const input = {
    trees: reading.rows.flatMap((row) => (row.tree ? [row.tree] : [])),
    site: place.site,
    weather: season.weather,
    rules: law,
    kit: usable('kit', readKit(table('kit', kit))).kit,
  };
  return { reading, input };
}

/**
 * The plan of a single tree.
 *
 * @param onDay - called with every day of the chosen means
 * @throws Problem as `readSeason`; if the range holds several trees; `none` with the reason if this one cannot be planned
 */
export function planOneTree(
  tree: unknown,
  ranges: SeasonRanges,
  onDay?: SeasonInput['onDay'],
): { plan: TreePlan; input: SeasonInput } {
  const { reading, input } = readSeason('tree', tree, ranges);
  const { rows } = reading;
  if (rows.length > 1)
    throw new Problem(`tree has ${rows.length} rows below its header; give one tree at a time`);
  const season = planTrees(onDay ? { ...input, onDay } : input);
  const plan = season.trees[0];
  if (plan) return { plan, input };
  const reason = rows[0]?.unusable ?? season.notPlanned[0]?.reason ?? 'it cannot be read as a tree';
  throw new Problem(`tree cannot be planned: ${reason}`, 'none');
}

/**
 * Assumptions of the readers that a single cell can live with, because the description of the parameter or the
 * Sources sheet names them. Anything else would change the plan without a word, so it is an error here; a
 * sentence nobody foresaw is one, too.
 */
const TOLERATED: Readonly<Record<'site' | 'weather' | 'kit', RegExp>> = {
  site: /is blank; the default is used\.$/,
  weather:
    /is assumed\.$|none is counted on\.$|computed from temperatures alone\.$|the least is used for all\.$/,
  kit: /(?!)/,
};

function usable<T extends { problems: string[] }>(name: keyof typeof TOLERATED, read: T): T {
  const trouble = read.problems.find((sentence) => !TOLERATED[name].test(sentence));
  if (trouble !== undefined) throw new Problem(`${name}: ${trouble}`);
  return read;
}
