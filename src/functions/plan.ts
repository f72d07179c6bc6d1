/** Worksheet functions that plan a season from the tables on the sheets. */
import type { MeansOutcome, TreePlan } from '../engine/plan/model.js';
import type { DayRow } from '../engine/plan/simulate.js';
import { planTrees } from '../engine/plan/tree-plans.js';
import { Problem } from '../engine/problems.js';
import { answer, type CellValue } from './answer.js';
import { toCell } from './arguments.js';
import { planOneTree, readSeason } from './season-tables.js';

const gallons = (litres: number): number => toCell(litres, 'volume', 'US');
const inches = (mm: number): number => toCell(mm, 'waterDepth', 'US');

/**
 * Date, gallons and minutes of each watering of one tree by the means chosen for it.
 * @customfunction PLAN_DATES
 * @param tree - one tree, a range of its header row and one row below it
 * @param site - Site table, a range of name, value, unit; its header row is optional
 * @param weather - Weather table, a range with its header row
 * @param rules - Rules table, a range with its header row; the header row alone if there are no rules
 * @param kit - Kit table, a range with its header row
 * @param stages - Stages table, a range with its header row; default: none, only rules without a stage speak
 * @returns one row for each watering, 3 columns: date, US gallons for one tree, minutes the water runs or a bag drains; soaking a pad is a row of its own
 * @equation on each allowed day, if the usable water would be passed before the next one: what the root zone lacks ÷ efficiency, within the limits of the means
 * @range a season to two years; the tree stands alone at its site, so it bears the whole drive there
 * @throws #VALUE! naming the range, its row and what is accepted, or if tree holds more than one tree; #N/A with the reason if the tree cannot be planned, or gets or needs no watering
 * @source FAO-56 chapter 8, Eq. 82–88; the design of this model for the day chosen
 */
export function planDates(
  tree: unknown[][],
  site: unknown[][],
  weather: unknown[][],
  rules: unknown[][],
  kit: unknown[][],
  stages?: unknown[][],
): unknown[][] {
  return answer(() => {
    const { chosen, advice } = planOneTree(tree, [site, weather, rules, kit, stages]).plan;
    if (chosen.plan.length === 0)
      throw new Problem(
        `tree ${advice ? 'gets' : 'needs'} no watering this season. ${advice}`.trim(),
        'none',
      );
    return chosen.plan.map((each) => [each.day, gallons(each.litres), each.minutes]);
  });
}

/**
 * The season of one tree day by day, by the means chosen for it: what comes in, what is left, what is lost.
 * @customfunction PLAN_DAYS
 * @param tree - one tree, a range of its header row and one row below it
 * @param site - Site table, a range of name, value, unit; its header row is optional
 * @param weather - Weather table, a range with its header row
 * @param rules - Rules table, a range with its header row; the header row alone if there are no rules
 * @param kit - Kit table, a range with its header row
 * @param stages - Stages table, a range with its header row; default: none, only rules without a stage speak
 * @returns one row a day from planting or the season's start, 9 columns: date, ET0 in inches, rain that counts in inches, demand, watering, water left at the day's end in the ball (with what a pad on it still holds) and in the ring, stress coefficient Ks, water lost below the roots or on the way to them; US gallons for one tree
 * @equation left = left before + rain + watering − Ks · demand − lost, FAO-56 Eq. 85; a ring that grows also gains the water of the soil it reaches
 * @range a season to two years; Ks is 1 without stress; where a day's demand exceeds all water held, the tree takes what there is
 * @throws #VALUE! naming the range, its row and what is accepted, or if tree holds more than one tree; #N/A with the reason if the tree cannot be planned
 * @source FAO-56 chapter 8, Eq. 82–88
 */
export function planDays(
  tree: unknown[][],
  site: unknown[][],
  weather: unknown[][],
  rules: unknown[][],
  kit: unknown[][],
  stages?: unknown[][],
): unknown[][] {
  return answer(() => {
    const days: DayRow[] = [];
    const { plan, input } = planOneTree(tree, [site, weather, rules, kit, stages], (_, row) => {
      days.push(row);
    });
    const applied = new Map<number, number>();
    for (const { day, litres } of plan.chosen.plan)
      applied.set(day, (applied.get(day) ?? 0) + litres);
    const { from, et0, effectiveRain } = input.weather;
    return days.map((row) => {
      const day = from + row.index;
      const given = applied.get(day) ?? 0;
      const lost = Math.max(0, row.percolated + given - row.waterIn - row.padIn);
      return [
        day,
        inches(et0[row.index] ?? 0),
        inches(effectiveRain[row.index] ?? 0),
        gallons(row.demand),
        gallons(given),
        gallons(row.ball + row.pad),
        gallons(row.ring),
        row.ks,
        gallons(lost),
      ];
    });
  });
}

/**
 * Every means and combination for one tree side by side, and which of them is chosen.
 * @customfunction PLAN_MEANS
 * @param tree - one tree, a range of its header row and one row below it
 * @param site - Site table, a range of name, value, unit; its header row is optional
 * @param weather - Weather table, a range with its header row
 * @param rules - Rules table, a range with its header row; the header row alone if there are no rules
 * @param kit - Kit table, a range with its header row
 * @param stages - Stages table, a range with its header row; default: none, only rules without a stage speak
 * @returns one row for each means, 6 columns: means, waterings, US gallons for one tree, stress days, cost for one tree, verdict: "chosen", "keeps the tree", "stress", or why it is not possible, its numbers blank then
 * @equation daily water balance of ball and ring, FAO-56 Eq. 85; cost = kit ÷ its seasons + set-up + labour + water; the cheapest with no more stress days than the site accepts, else the one with least stress
 * @range a season to two years; the tree stands alone at its site, so it bears the whole drive there
 * @throws #VALUE! naming the range, its row and what is accepted, or if tree holds more than one tree; #N/A with the reason if the tree cannot be planned
 * @source FAO-56 chapter 8 for the balance; the design of this model for the choice
 */
export function planMeans(
  tree: unknown[][],
  site: unknown[][],
  weather: unknown[][],
  rules: unknown[][],
  kit: unknown[][],
  stages?: unknown[][],
): unknown[][] {
  return answer(() => {
    const { plan, input } = planOneTree(tree, [site, weather, rules, kit, stages]);
    const verdict = (each: MeansOutcome): string =>
      each === plan.chosen
        ? 'chosen'
        : each.stressDays <= input.site.toleratedStress
          ? 'keeps the tree'
          : 'stress';
    return plan.options.map((each): CellValue[] =>
      each.feasible
        ? [
            each.label,
            each.waterings,
            gallons(each.litres),
            each.stressDays,
            each.cost,
            verdict(each),
          ]
        : [`${each.label} (${each.devices.join(', ')})`, '', '', '', '', each.verdict],
    );
  });
}

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
    const { reading, input } = readSeason('trees', trees, [site, weather, rules, kit, stages]);
    const plan = planTrees(input);
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
    gallons(chosen.litres),
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
