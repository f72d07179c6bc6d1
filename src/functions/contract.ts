/** Worksheet functions about contracts, shortage, logs, meters and warranty. */
import { contractLitres, type SizeClass } from '../engine/contract/size-gallons.js';
import { checkContract } from '../engine/contract/contract-check.js';
import { warrantyEnd as termEnd } from '../engine/contract/clocks.js';
import { deficitLitres, DEFICIT_RULE_NAMES } from '../engine/contract/deficit-rules.js';
import { logFlags as questionsOf } from '../engine/contract/log-flags.js';
import { METER_LITRES, METER_UNITS, unitsUsed } from '../engine/contract/meter.js';
import { triage as choose } from '../engine/contract/triage.js';
import { TRIAGE_ORDER_NAMES } from '../engine/contract/triage-orders.js';
import type { Day } from '../engine/dates.js';
import { Problem } from '../engine/problems.js';
import { L_PER_GALLON, type Units } from '../engine/units.js';
import { readContract } from '../tables/contract.js';
import { readService } from '../tables/contract-plan.js';
import { readTriageTrees } from '../tables/triage-trees.js';
import { readLogTrees, readTrucks, readVisitLog } from '../tables/visit-log.js';
import { answer, type CellValue } from './answer.js';
import {
  date,
  dateCell,
  number,
  optionalDate,
  optionalNumber,
  optionalTable,
  table,
  toCell,
  unitsOf,
  word,
} from './arguments.js';
import { rainDays } from './rules.js';

/** Days a deficit rule is reckoned over, and a budget is for. */
const FOUR_WEEKS = 28;
const WEEK = 7;

/**
 * Least water a contract's size table asks for.
 * @customfunction CONTRACT_GALLONS
 * @param caliper - trunk diameter, in | cm
 * @param table_ - range of two columns: trunk from, in | cm, and gal | L; ascending, a header row is optional; a size on the edge of two classes takes the larger one
 * @param units - "US" or "SI", no unit: what caliper and table are in; default "US"
 * @returns water for one tree, gal | L as in the table
 * @equation the last row whose size is not above caliper
 * @range as far as the table; the last class has no end
 * @throws #VALUE! naming the parameter that is blank or out of range, or the row of table: not two columns, a blank cell, sizes that do not ascend; #N/A if caliper is below the first class
 * @source definition; the classes are those of your contract
 */
export function contractGallons(caliper: unknown, table_: unknown[][], units?: unknown): number {
  return answer(() => {
    const system = unitsOf(units);
    const litres = contractLitres(
      number('caliper', caliper, 'caliper', system),
      sizeClasses(table_, system),
    );
    return toCell(litres, 'volume', system);
  });
}

/** Rows of a size table, below a header or without one; blank rows at the end are left off. */
function sizeClasses(given: unknown, units: Units): SizeClass[] {
  const rows = table('table', given);
  const wide = rows.find((row) => row.length !== 2);
  if (wide)
    throw new Problem(
      `table must have two columns, trunk from and water; got ${wide.length} column${wide.length === 1 ? '' : 's'}`,
    );
  const isHead = (cell: unknown): boolean => typeof cell === 'string' && /^\s*\p{L}/u.test(cell);
  const first = rows[0]?.every(isHead) ? 1 : 0;
  const isOver = (row: (typeof rows)[number]): boolean => row.every((c) => c === null || c === 0);
  let end = rows.length;
  while (end > first && isOver(rows[end - 1]!)) end--;
  return rows.slice(first, end).map(([from, water], i) => ({
    from: number(`table, row ${first + i + 1}, trunk from,`, from, 'sizeFrom', units),
    litres: number(`table, row ${first + i + 1}, water,`, water, 'contractWater', units),
    row: first + i + 1,
  }));
}

/**
 * A plan or a log against a contract, clause by clause: met, short by how much, and where.
 * @customfunction CONTRACT_CHECK
 * @param plan - waterings, a range with its header row: Tree, Date, Each (gal); Means, Trees, Caliper (in), Height (ft), Planted, Species and Site where the contract goes by them and trees is left out
 * @param contract - Contract table, a range with its header row: Applies to, From, To, Least water, Water per, Least visits, Visits per, Most water, Most per, Over costs, Skip if rain, Within days, Means, Until, Source
 * @param trees - Trees table, a range with its header row; default: none, trees are those of plan
 * @param rain - rain of the days, a range of date and inches, or mm if its header row says so; default: none, no clause is skipped
 * @param from - first day judged, a date; default: the first of plan
 * @param to - last day judged, a date; default: the last of plan
 * @returns one row for each row below the contract's header, in its order, 4 columns: verdict ("met", "short", "over", "nobody", "cannot tell"), water that lacks, or lies above a cap, for all trees, in gal or in L where plan is in L; visits that lack; and where
 * @equation least asked in each whole week, month or visit less what was given there, never below 0; a span of rain stands for one visit
 * @range whole weeks, Monday to Sunday or from planting where the clause says weeks after planting, and whole months only; a means that cannot be told from its name counts
 * @throws #VALUE! naming the range, its row and what is accepted
 * @source your contract; how clauses are judged is the design of this table, after published contracts
 */
export function contractCheck(
  plan: unknown[][],
  contract: unknown[][],
  trees?: unknown[][],
  rain?: unknown[][],
  from?: unknown,
  to?: unknown,
): unknown[][] {
  return answer(() => {
    const days: { from?: Day | undefined; to?: Day | undefined } = {
      from: optionalDate('from', from),
      to: optionalDate('to', to),
    };
    const { service, units } = readService(
      table('plan', plan),
      optionalTable('trees', trees),
      days,
    );
    const { clauses, headerRow, problems } = readContract(table('contract', contract));
    if (problems[0] !== undefined) throw new Problem(`contract: ${problems[0]}`);
    if (clauses.length === 0) throw new Problem('contract has no row below its header');
    const results = checkContract({ ...service, rain: rainDays(rain) }, clauses);
    const water = (litres: number): number => (units === 'US' ? litres / L_PER_GALLON : litres);
    return beside(
      results.map(({ clause, verdict, litres, visits, where }) => ({
        row: clause.row,
        cells: [verdict, water(litres), visits, where],
      })),
      headerRow,
      4,
    );
  });
}

/** Answers row by row below a header, blank where the table has a blank row. */
function beside(
  rows: readonly { row: number; cells: CellValue[] }[],
  headerRow: number,
  columns: number,
): CellValue[][] {
  const byRow = new Map(rows.map(({ row, cells }) => [row, cells]));
  const last = Math.max(...byRow.keys());
  return Array.from(
    { length: last - headerRow },
    (_, i) => byRow.get(headerRow + 1 + i) ?? Array<CellValue>(columns).fill(''),
  );
}

/**
 * Water for one standing tree in drought by a published deficit rule, low and high side by side.
 * @customfunction DEFICIT_GALLONS
 * @param diameter - trunk diameter, in | cm
 * @param rule - "kansas", "texas", "california", "colorado" or "georgia", no unit; they differ 28-fold
 * @param days - over so many days, no unit, 1 to 366; whole waterings are counted, the first on the first day; default 28
 * @param units - "US" or "SI", no unit; default "US"
 * @returns low and high, gal | L, in two cells; the same where the rule gives one number
 * @equation gallons = inches of trunk · the rule's gallons an inch · waterings in days
 * @range kansas: 2 gal an inch every 2 to 4 weeks; texas: 1 to 2 gal an inch a week; california: 10 gal an inch a month; colorado: 10 gal an inch a week; georgia: 2 gal an inch a day. They know neither soil nor weather
 * @throws #VALUE! naming the parameter that is blank, not a number, or out of range
 * @source Kansas Forest Service; Richardson, Texas; Petaluma, California; Colorado State Forest Service; questions and answers, Georgia
 */
export function deficitGallons(
  diameter: unknown,
  rule: unknown,
  days?: unknown,
  units?: unknown,
): unknown[][] {
  return answer(() => {
    const system = unitsOf(units);
    const { low, high } = deficitLitres(
      number('diameter', diameter, 'caliper', system),
      word('rule', rule, DEFICIT_RULE_NAMES),
      optionalNumber('days', days, 'deficitDays', FOUR_WEEKS),
    );
    return [[toCell(low, 'volume', system), toCell(high, 'volume', system)]];
  });
}

/**
 * Who is served when water does not suffice for all, and what being left out does to the others.
 * @customfunction TRIAGE
 * @param trees - who might be served, a range with its header row: Tree, Water (gal) one tree needs; Trees, Planted, Caliper (in), Value, Stress days, Condition, Days it lasts, Depletion where the order goes by them
 * @param budget - water there is, gal | L as Water in trees
 * @param order - who comes first, no unit: "new first", "large first", "sound first", "value", "stress" or "score"
 * @param days - the budget is for, no unit, 1 to 366; default 7
 * @param date_ - the day it is asked for, a date, to tell how long trees have stood; default: none, and then no row may have a Planted date where the order goes by it
 * @returns one row for each row below the header of trees, in its order, 5 columns: served (TRUE or FALSE), rank, days under stress if left out, least Ks then, and why it is not served; what Days it lasts does not tell is blank
 * @equation the served set with the greatest worth of the first tier, then of the next, within the budget; Ks = exp(−p · t/((1 − p) · lasts)) past the days it lasts
 * @range a row of trees is served whole or not at all; newly planted is up to 36 months, large from 10 in of trunk
 * @throws #VALUE! naming the parameter, or the row of trees that lacks what the order goes by; #N/A if no choice was proven best
 * @source orders: Richardson, Texas; Kansas State University; New Mexico State University; Arizona; they conflict. Stress: FAO-56 Eq. 84 and 85 integrated
 */
export function triage(
  trees: unknown[][],
  budget: unknown,
  order: unknown,
  days?: unknown,
  date_?: unknown,
): unknown[][] {
  return answer(() => {
    const span = optionalNumber('days', days, 'deficitDays', WEEK);
    const { trees: rows, headerRow, units } = readTriageTrees(table('trees', trees), span);
    const amount = number('budget', budget, 'budget') * (units === 'US' ? L_PER_GALLON : 1);
    const chosen = word('order', order, TRIAGE_ORDER_NAMES);
    const day = optionalDate('date', date_);
    const dated = rows.find((row) => row.planted !== undefined);
    if (day === undefined && dated && GOES_BY_AGE.includes(chosen))
      throw new Problem(
        `date is blank, and the order "${chosen}" asks how long ${dated.id} has stood; give the day it is asked for`,
      );
    const result = choose(rows, [{ name: 'water', amount }], chosen, day ?? 0);
    if (!result.selection.exact)
      throw new Problem(
        'the rows are too many to prove a choice the best; group like trees',
        'none',
      );
    return beside(
      result.rows.map(({ tree, served, rank, why }) => ({
        row: tree.row,
        cells: [served, rank, tree.leftOut?.stressDays ?? '', tree.leftOut?.leastKs ?? '', why],
      })),
      headerRow,
      5,
    );
  });
}

const GOES_BY_AGE: readonly string[] = ['new first', 'large first', 'sound first', 'score'];

/**
 * Questions a log of visits raises, row by row. A flag is a question, not an accusation.
 * @customfunction LOG_FLAGS
 * @param log - Log table, a range with its header row: Tree, Date, and what there is of Arrived, Left, Crew, Truck, Planned (gal), Applied (gal), How measured, Source or meter, Rain since last visit (in), Skip reason, Truck there (min)
 * @param trees - list of trees, a range with its header row: Tree id, and what there is of Planted, Status, Since
 * @param kit - trucks with pump and tank, a range with its header row: Device, Volume (gal), Flow (gpm); default: none, then what a pump and tank can give is not asked
 * @returns one row for each row below the header of log, in its order: its questions, blank where there are none
 * @equation minutes at the trees against the truck's record; water against flow · minutes and against tank and refills; times of a crew against each other; numbers of a day against each other
 * @range a difference of 15 % and 10 minutes a day, 2 minutes a visit, is not asked about; like numbers are asked about from 8 visits a day on
 * @throws #VALUE! naming the range, its row and what is accepted
 * @source what a public audit of tree work compared, Toronto 2019, torontoauditor.ca; limits are assumptions
 */
export function logFlags(log: unknown[][], trees: unknown[][], kit?: unknown[][]): unknown[][] {
  return answer(() => {
    const { rows, headerRow, units, problems } = readVisitLog(table('log', log));
    if (problems[0] !== undefined) throw new Problem(`log: ${problems[0]}`);
    if (rows.length === 0) throw new Problem('log has no row below its header');
    const list = readLogTrees(table('trees', trees));
    if (list.problems[0] !== undefined) throw new Problem(`trees: ${list.problems[0]}`);
    const kitRows = optionalTable('kit', kit);
    const { trucks, problems: wrong } = kitRows
      ? readTrucks(kitRows)
      : { trucks: [], problems: [] };
    if (wrong[0] !== undefined) throw new Problem(`kit: ${wrong[0]}`);
    const flags = questionsOf(rows, { trees: list.trees, kit: trucks, units });
    const said = (row: number): string =>
      flags.filter((f) => f.row === row).map((f) => f.sentence).join(' '); // prettier-ignore
    return beside(rows.map(({ row }) => ({ row, cells: [said(row)] })), headerRow, 1); // prettier-ignore
  });
}

/**
 * Water between two readings of a meter.
 * @customfunction METER_USE
 * @param begin - reading at the start, numbers of the meter, no unit
 * @param end - reading at the end, the same, no unit
 * @param unit - what the meter counts, no unit: "gal", "100 ft3" or "m3"; default "gal"
 * @returns gal for "gal" and "100 ft3", m³ for "m3"
 * @equation use = (end − begin) · unit; where end is below begin the meter has begun again: + 10^digits of begin
 * @range readings to 1,000,000,000; after it has begun again, less than half the meter's range
 * @throws #VALUE! naming the parameter that is blank or out of range; #N/A if end is below begin and a reading is more likely wrong
 * @source definition; 100 ft³ are 748.05 gal by the definitions of foot and gallon
 */
export function meterUse(begin: unknown, end: unknown, unit?: unknown): number {
  return answer(() => {
    const counted = word('unit', unit, METER_UNITS, 'gal');
    const { used } = unitsUsed(number('begin', begin, 'reading'), number('end', end, 'reading'));
    return used * (counted === 'm3' ? 1 : METER_LITRES[counted] / L_PER_GALLON);
  });
}

/**
 * Date a warranty or establishment term is over.
 * @customfunction WARRANTY_END
 * @param planted - day of planting, a date
 * @param months - of the term, a whole number, no unit
 * @param uncredited - days of inadequate work, which do not count, no unit; default 0
 * @param restart - day of the replacement, from which the term runs again, a date; default: none
 * @returns the first day after the term, a date
 * @equation planted, or restart, + months + uncredited days; a month too short for the day gives its last one
 * @range 1 to 600 months
 * @throws #VALUE! naming the parameter that is blank or out of range, or a restart before planting
 * @source definition; restart on replacement as in a rule of Eugene, Oregon; days of inadequate work as in a state's standard specifications
 */
export function warrantyEnd(
  planted: unknown,
  months: unknown,
  uncredited?: unknown,
  restart?: unknown,
): number {
  return answer(() =>
    dateCell(
      termEnd(
        date('planted', planted),
        number('months', months, 'termMonths'),
        optionalNumber('uncredited', uncredited, 'uncredited', 0),
        optionalDate('restart', restart),
      ),
    ),
  );
}
