/** Worksheet functions that plan a season from the tables on the sheets. */
import type { TreePlan } from '../engine/plan/model.js';
import { planSeason } from '../engine/plan/season.js';
import { Problem } from '../engine/problems.js';
import { parseRules } from '../engine/rules/rule-table.js';
import { readInventory } from '../tables/inventory/index.js';
import { readKit } from '../tables/kit.js';
import { readSite } from '../tables/site.js';
import { readWeather } from '../tables/weather.js';
import { answer, type CellValue } from './answer.js';
import { optionalTable, table, toCell } from './arguments.js';

/**
 * Season totals of every tree: means, waterings, gallons, stress days, first date, interval in the peak month, cost.
 * @customfunction PLAN_TOTALS
 * @param trees - inventory, a range with its header row
 * @param site - Site table, a range of name, value, unit; its header row is optional
 * @param weather - Weather table, a range with its header row
 * @param rules - Rules table, a range with its header row; the header row alone if there are no rules
 * @param kit - Kit table, a range with its header row
 * @param stages - Stages table, a range with its header row; default: none, only rules without a stage speak
 * @returns one row for each row below the inventory's header, in its order, 7 columns: means, waterings, US gallons for one tree, stress days, first date, days between waterings in the peak month, cost for one tree; a row that is not planned says why in its first cell
 * @equation daily water balance of ball and ring, FAO-56 Eq. 85, for every feasible means; the cheapest without stress is taken
 * @range a season to two years; a blank site input takes its default
 * @throws #VALUE! naming the range, its row and what is accepted, if a row of site, weather, rules or kit cannot be used
 * @source FAO-56 chapter 8; ANSI/ASABE S623.1 (2017); the design of this model for the choice of means
 */
export function planTotals(
  trees: unknown[][],
  site: unknown[][],
  weather: unknown[][],
  rules: unknown[][],
  kit: unknown[][],
  stages?: unknown[][],
): unknown[][] {
  return answer(() => {
    const cells = table('trees', trees);
    const place = usable('site', readSite(table('site', site)));
    const season = usable('weather', readWeather(table('weather', weather), place.site));
    const law = parseRules(table('rules', rules), optionalTable('stages', stages));
    const broken = law.problems.find((problem) => problem.kind === 'broken');
    if (broken) throw new Problem(`${broken.table.toLowerCase()}: ${broken.sentence}`);
    const reading = readInventory(cells);
    if (reading.rows.length === 0) throw new Problem('trees has no row below its header');
    const plan = planSeason({
      trees: reading.rows.flatMap((row) => (row.tree ? [row.tree] : [])),
      site: place.site,
      weather: season.weather,
      rules: law,
      kit: usable('kit', readKit(table('kit', kit))).kit,
    });

    const totals = new Map<number, CellValue[]>();
    for (const row of reading.rows)
      if (!row.tree) totals.set(row.row, notPlanned(row.unusable ?? 'it cannot be read as a tree'));
    for (const each of plan.notPlanned) totals.set(each.row, notPlanned(each.reason));
    for (const each of plan.trees) totals.set(each.tree.row, totalsOf(each));
    return inOrder(totals, reading.headerRow);
  });
}

const COLUMNS = 7;

function totalsOf({ chosen, facts, state }: TreePlan): CellValue[] {
  return [
    state === 'planned' ? chosen.label : `${chosen.label}, ${state}`,
    chosen.waterings,
    toCell(chosen.litres, 'volume', 'US'),
    chosen.stressDays,
    chosen.plan[0]?.day ?? '',
    facts.peak.interval,
    chosen.cost,
  ];
}

const padded = (first: string): CellValue[] => [first, ...Array<string>(COLUMNS - 1).fill('')];
const notPlanned = (reason: string): CellValue[] => padded(`not planned: ${reason}`);

/** Every row from the header to the last with a tree, so that the result stands beside the inventory row by row. */
function inOrder(totals: ReadonlyMap<number, CellValue[]>, headerRow: number): CellValue[][] {
  const last = Math.max(...totals.keys());
  return Array.from(
    { length: last - headerRow },
    (_, i) => totals.get(headerRow + 1 + i) ?? padded(''),
  );
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
