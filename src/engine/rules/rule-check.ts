/** What a person should look at in a table whose words are all known. */
import { isoDate } from '../dates.js';
import { contradictions } from './rule-overlap.js';
import { unreachable, withoutNumber } from './rule-reach.js';
import type { RuleProblem, RuleRow, RuleTable } from './rule-types.js';

export type Report = (
  row: number,
  column: string,
  read: string,
  accepted: string,
  why: string,
  kind?: RuleProblem['kind'],
) => void;

/** Something that makes a well-spelt row useless: column, read, accepted, why. */
type Flaw = [column: string, read: string, accepted: string, why: string];

/** Why a well-spelt row cannot be used: parts of it that do not go together. */
export function flaws(row: RuleRow): Flaw[] {
  const out: Flaw[] = [];
  if (row.from !== null && row.to !== null && row.to < row.from)
    out.push(['To', isoDate(row.to), `${isoDate(row.from)} or later`, 'To comes before From']);
  const ends: ['From' | 'To', boolean, boolean][] = [
    ['From', row.yearlyTo !== null, row.yearlyFrom !== null],
    ['To', row.yearlyFrom !== null, row.yearlyTo !== null],
  ];
  for (const [column, other, own] of ends)
    if (other && !own)
      out.push([
        column,
        'no yearly date',
        'From and To both without a year, e.g. Nov 1 and Feb 28',
        'a season that returns every year needs both its ends',
      ]);
  if (row.verdict !== 'allow' && row.days.perWeek !== null)
    out.push([
      'Days',
      `${row.days.perWeek} per week`,
      'days',
      `a ${row.verdict} has no budget of days`,
    ]);
  if (row.verdict !== 'allow' && row.days.weekdays === 0)
    out.push(['Days', 'none', 'any or days', `a ${row.verdict} on no day can never match`]);
  if (row.verdict === 'ban' && row.oneWindow)
    out.push(['Hours', 'one of', 'any or windows', 'a ban cannot leave the window to choose']);
  if (row.age !== null && row.age.last < row.dayOne)
    out.push([
      'New planting',
      `${row.age.first}-${row.age.last}`,
      '1 or later',
      'no day has that count',
    ]);
  return out;
}

/** Most contradictions listed one by one. */
const MOST = 200;

/** Rows that count but cannot do what they say, and gaps of the table as a whole. */
export function notices(table: RuleTable, report: Report): void {
  const { found, more } = contradictions(table.rows, MOST);
  const all = [...unreachable(table), ...found].sort((a, b) => a.row - b.row);
  for (const { row, column, read, accepted, why } of all)
    report(row, column, read, accepted, why, 'notice');
  if (more)
    report(1, 'Verdict', more, 'a shorter table', 'not all pairs of rows were compared', 'notice');
  const left = withoutNumber(table);
  if (left.length > 0)
    report(
      1,
      'Address',
      'no row with none',
      'a row with none',
      `an address without a number is closed where only numbered addresses are allowed (${left.join(', ')})`,
      'notice',
    );
}
